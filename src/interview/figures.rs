//! A figure as people type it, brought into the spelling of a job sheet: `75'`
//! is `75 ft`, `3/4` inch is `0.75 inch`, a bare `6` for a wire is `6 AWG`.
//!
//! Whether the figure fits is not decided here; what cannot be understood is
//! passed on as it is, so that the reader of values says what is wrong with it.

use crate::glossary::common;
use crate::glossary::model::Scale;
use crate::job::Written;
use crate::values::Unit;

/// A typed figure for a scale. Without a unit it is in the fact's own.
pub(super) fn figure(text: &str, scale: Scale) -> Written {
    let text = text.trim();
    match scale {
        Scale::Count => Written::Figure(text.to_owned(), None),
        Scale::Gauge => gauge(text),
        Scale::Quantity(unit) => feet_and_inches(text).unwrap_or_else(|| quantity(text, unit)),
    }
}

/// The number at the head of a text, and the rest.
fn apart(text: &str) -> (&str, &str) {
    let of_number = |c: char| c.is_ascii_digit() || matches!(c, '.' | '/' | ',' | ' ' | '-');
    let end = text.find(|c: char| !of_number(c)).unwrap_or(text.len());
    let (number, unit) = text.split_at_checked(end).unwrap_or((text, ""));
    (number.trim_end_matches(['-', ' ']), unit.trim())
}

fn gauge(text: &str) -> Written {
    let lower = text.to_lowercase();
    let bare = lower.trim_start_matches(['#', ' ']);
    let bare = bare.strip_prefix("no.").or_else(|| bare.strip_prefix("awg")).unwrap_or(bare);
    let (number, unit) = apart(bare.trim());
    let aught = |zeros: &str| {
        (!zeros.is_empty() && zeros.bytes().all(|zero| zero == b'0')).then(|| format!("{}/0", zeros.len()))
    };
    // `00` is how 2/0 is printed on some wire.
    let number = aught(number).unwrap_or_else(|| number.to_owned());
    let unit = match unit {
        // No table prints a gauge past 40 and no size in kcmil under 250.
        "" if number.parse::<u32>().is_ok_and(|number| number >= 250) => "kcmil",
        "" | "awg" | "ga" | "gauge" => "AWG",
        "kcmil" | "mcm" => "kcmil",
        "mm2" | "mm²" => "mm2",
        _ => text.trim_start_matches(|c: char| !c.is_alphabetic()).trim(),
    };
    Written::Figure(number, Some(unit.to_owned()))
}

fn quantity(text: &str, own: Unit) -> Written {
    let (number, unit) = apart(text);
    let number = decimal(number).unwrap_or_else(|| number.to_owned());
    Written::Figure(number, Some(named(unit, own)))
}

/// A unit by the name that the language has for it.
fn named(unit: &str, own: Unit) -> String {
    if unit.is_empty() {
        return own.name.to_owned();
    }
    let alike =
        Unit::names().find(|name| *name == unit).or_else(|| Unit::names().find(|name| name.eq_ignore_ascii_case(unit)));
    alike.or_else(|| common(unit)).unwrap_or(unit).to_owned()
}

/// A fraction, or a whole number and a fraction, as a decimal figure; nothing where
/// it has no end.
fn decimal(number: &str) -> Option<String> {
    let mut words = number.split([' ', '-']).filter(|word| !word.is_empty());
    let (first, second, third) = (words.next()?, words.next(), words.next());
    let (whole, fraction) = match (second, third) {
        (None, None) => ("0", first),
        (Some(second), None) => (first, second),
        _ => return None,
    };
    let (above, below) = fraction.split_once('/')?;
    let parse = |text: &str| text.parse::<u64>().ok().filter(|number| *number < 1_000_000_000);
    let (whole, above, below) = (parse(whole)?, parse(above)?, parse(below)?);
    // Sixteenths have four places, so six are plenty for any rule.
    let parts =
        above.checked_mul(1_000_000)?.checked_div(below).filter(|_| (above * 1_000_000).is_multiple_of(below))?;
    let all = whole.checked_mul(1_000_000)?.checked_add(parts)?;
    Some(written(all))
}

/// Millionths as a decimal figure.
fn written(millionths: u64) -> String {
    let text = format!("{}.{:06}", millionths / 1_000_000, millionths % 1_000_000);
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

/// `7' 6"`, `7 ft 6 in`: the whole in inches.
fn feet_and_inches(text: &str) -> Option<Written> {
    let lower = text.to_lowercase().replace('’', "'").replace('”', "\"");
    let (feet, rest) = ["'", "feet", "foot", "ft"].iter().find_map(|mark| lower.split_once(mark))?;
    let rest = rest.trim().trim_start_matches(['.', '-']).trim();
    let inches = ["\"", "inches", "inch", "in.", "in"].iter().find_map(|mark| rest.strip_suffix(mark))?;
    let millionths = |text: &str| -> Option<u64> {
        let text = decimal(text).unwrap_or_else(|| text.to_owned());
        let (whole, part) = text.split_once('.').unwrap_or((&text, ""));
        if part.len() > 6 || !part.bytes().all(|byte| byte.is_ascii_digit()) {
            return None;
        }
        let whole = whole.parse::<u64>().ok().filter(|whole| *whole < 1_000_000_000)?;
        Some(whole * 1_000_000 + format!("{part:0<6}").parse::<u64>().ok()?)
    };
    let all = millionths(feet.trim())?.checked_mul(12)?.checked_add(millionths(inches.trim())?)?;
    Some(Written::Figure(written(all), Some("inch".to_owned())))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &str, scale: Scale) -> String {
        match figure(text, scale) {
            Written::Figure(number, Some(unit)) => format!("{number} {unit}"),
            Written::Figure(number, None) => number,
            other => panic!("{other:?}"),
        }
    }

    #[test]
    fn lengths() {
        let ft = Scale::Quantity(Unit::find("ft").expect("a unit"));
        for (text, means) in [
            ("75", "75 ft"),
            ("75 ft", "75 ft"),
            ("75ft", "75 ft"),
            ("75'", "75 ft"),
            ("75 Feet", "75 ft"),
            ("7.5 m", "7.5 m"),
            ("18 in", "18 inch"),
            ("18 in.", "18 inch"),
            ("18\"", "18 inch"),
            ("7' 6\"", "90 inch"),
            ("7'6 1/2\"", "90.5 inch"),
            ("7 ft 6 in", "90 inch"),
            ("1/2 m", "0.5 m"),
            ("1,5", "1,5 ft"),
            ("75 cubits", "75 cubits"),
            ("far", " far"),
            ("", " ft"),
        ] {
            assert_eq!(read(text, ft), means, "{text}");
        }
    }

    #[test]
    fn trade_sizes() {
        let inch = Scale::Quantity(Unit::find("inch").expect("a unit"));
        for (text, means) in [
            ("1/2", "0.5 inch"),
            ("3/4\"", "0.75 inch"),
            ("1 1/4", "1.25 inch"),
            ("1-1/4 in", "1.25 inch"),
            ("2", "2 inch"),
            ("1/3", "1/3 inch"),
            ("1/0", "1/0 inch"),
            ("1/2/3", "1/2/3 inch"),
        ] {
            assert_eq!(read(text, inch), means, "{text}");
        }
    }

    #[test]
    fn wires() {
        for (text, means) in [
            ("6", "6 AWG"),
            ("#6", "6 AWG"),
            ("No. 6", "6 AWG"),
            ("6 awg", "6 AWG"),
            ("6AWG", "6 AWG"),
            ("1/0", "1/0 AWG"),
            ("00", "2/0 AWG"),
            ("250", "250 kcmil"),
            ("250 MCM", "250 kcmil"),
            ("16mm2", "16 mm2"),
            ("16 mm²", "16 mm2"),
            ("5", "5 AWG"),
            ("6 ft", "6 ft"),
            ("thick", " thick"),
        ] {
            assert_eq!(read(text, Scale::Gauge), means, "{text}");
        }
    }

    #[test]
    fn nothing_breaks_it() {
        for text in ["1/", "/", "-", "'", "\"", "' \"", "99999999999999999999/3", "1 99999999999999/2", "é'é\"", "½"]
        {
            for scale in [Scale::Count, Scale::Gauge, Scale::Quantity(Unit::find("ft").expect("a unit"))] {
                let _read = figure(text, scale);
            }
        }
    }
}
