//! Figures a step up and down: of a gauge the next printed size, of everything else one
//! in the last place that is written.

use super::tape::Tape;
use crate::syntax::tree::{Span, Value, Word};
use crate::values::SIZES;

const HELP: &str = "add an example of a job just at the figure, and one just past it";

pub(super) fn value(value: &mut Value, span: Span, tape: &mut Tape<'_>) {
    let Value::Figure { number, unit } = value else { return };
    for (figure, of) in steps(number, unit.as_ref()) {
        let told = |tape: &Tape<'_>| match &of {
            Some(of) => format!("{} → `{figure} {of}`", tape.quoted(span)),
            None => format!("{} → `{figure}`", tape.quoted(span)),
        };
        if tape.offer(number.span, HELP, told) {
            number.text = figure.into();
            if let (Some(unit), Some(of)) = (unit, of) {
                unit.text = of.into();
            }
            return;
        }
    }
}

/// The figures next to one, each with its unit.
fn steps(number: &Word, unit: Option<&Word>) -> Vec<(String, Option<String>)> {
    let unit = unit.map(|unit| unit.text.to_string());
    if let Some(of) = unit.as_deref().filter(|of| matches!(*of, "AWG" | "kcmil")) {
        let shown = format!("{} {of}", number.text);
        let Some(at) = SIZES.iter().position(|size| size.name == shown) else { return Vec::new() };
        let near = [at.checked_sub(1), Some(at + 1)].into_iter().flatten().filter_map(|at| SIZES.get(at));
        let parted = near.filter_map(|size| size.name.split_once(' '));
        return parted.map(|(number, unit)| (number.to_owned(), Some(unit.to_owned()))).collect();
    }
    let (whole, part) = number.text.split_once('.').unwrap_or((&number.text, ""));
    let Ok(figure) = format!("{whole}{part}").parse::<u64>() else { return Vec::new() };
    let written = |figure: u64| {
        let digits = format!("{figure:0>width$}", width = part.len() + 1);
        let (whole, rest) = digits.split_at_checked(digits.len() - part.len()).unwrap_or((&digits, ""));
        if rest.is_empty() { whole.to_owned() } else { format!("{whole}.{rest}") }
    };
    // No limit of nothing is told from none at all.
    let next = [figure.checked_sub(1).filter(|figure| *figure > 0), figure.checked_add(1)];
    next.into_iter().flatten().map(|figure| (written(figure), unit.clone())).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn near(number: &str, unit: Option<&str>) -> Vec<String> {
        let word = |text: &str| Word { text: text.into(), span: Span::default() };
        let steps = steps(&word(number), unit.map(word).as_ref());
        steps.into_iter().map(|(figure, unit)| format!("{figure} {}", unit.unwrap_or_default())).collect()
    }

    #[test]
    fn a_step_is_one_in_the_last_place_or_the_next_printed_size() {
        assert_eq!(near("75", Some("ft")), ["74 ft", "76 ft"]);
        assert_eq!(near("0.5", Some("inch")), ["0.4 inch", "0.6 inch"]);
        assert_eq!(near("0.625", Some("inch")), ["0.624 inch", "0.626 inch"]);
        assert_eq!(near("9.9", Some("m")), ["9.8 m", "10.0 m"]);
        assert_eq!(near("1", None), ["2 "]);
        assert_eq!(near("6", Some("AWG")), ["8 AWG", "4 AWG"]);
        assert_eq!(near("4/0", Some("AWG")), ["3/0 AWG", "250 kcmil"]);
        assert_eq!(near("18", Some("AWG")), ["16 AWG"]);
        assert!(near("5", Some("AWG")).is_empty());
    }
}
