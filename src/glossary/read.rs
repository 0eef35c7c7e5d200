//! Single values from the text of a rule, a job sheet or JSON.

use super::misread::Misread;
use super::model::{Scale, Shape};
use crate::syntax::codes::{self, Code};
use crate::syntax::diagnostic::{Diagnostic, Location};
use crate::syntax::limits::{self, Limit};
use crate::syntax::nearest::{did_you_mean, nearest};
use crate::syntax::words::is_reserved;
use crate::values::{Date, Dimension, Exact, Measure, Problem, SIZES, Unit};

/// Why a value cannot be used, before it is known where it stood.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Fault {
    pub(crate) code: Code,
    pub(crate) message: String,
    /// Up to three known names near to the wrong one.
    pub(crate) near: Vec<String>,
    pub(crate) help: Option<String>,
    /// What is wrong, where readers are told in their own language.
    pub(crate) misread: Option<Box<Misread>>,
}

impl Fault {
    pub(crate) fn new(code: Code, message: impl Into<String>) -> Fault {
        Fault { code, message: message.into(), near: Vec::new(), help: None, misread: None }
    }

    /// A value that could not be read.
    pub(crate) fn of(code: Code, misread: Misread) -> Fault {
        Fault { message: misread.to_string(), misread: Some(Box::new(misread)), ..Fault::new(code, "") }
    }

    /// The same with a help: what would mend it.
    pub(crate) fn help(mut self, help: impl Into<String>) -> Fault {
        self.help = Some(help.into());
        self
    }

    /// The same with those of the names that come near to the wrong word.
    pub(crate) fn near<'a>(mut self, word: &str, names: impl IntoIterator<Item = &'a str>) -> Fault {
        let names: Vec<&str> = names.into_iter().collect();
        let mut near: Vec<&str> = names.iter().copied().filter(|name| name.eq_ignore_ascii_case(word)).collect();
        near.extend(nearest(word, names).into_iter().filter(|name| !name.eq_ignore_ascii_case(word)));
        self.near = near.into_iter().take(3).map(String::from).collect();
        self
    }

    /// The near names as a help.
    pub(crate) fn did_you_mean(&self) -> Option<String> {
        let near: Vec<&str> = self.near.iter().map(|name| &**name).collect();
        did_you_mean(&near)
    }

    /// The finding at its place; near names are its help where there are any.
    pub(crate) fn at(self, at: Location) -> Diagnostic {
        let help = self.did_you_mean().or(self.help);
        Diagnostic { help, ..Diagnostic::new(self.code, at, self.message) }
    }
}

/// The fault where a limit of the language is passed.
pub(crate) fn past(limit: &Limit) -> Fault {
    let Limit { name, most, unit, help } = *limit;
    Fault::of(codes::LIMIT, Misread::Past { name, most, unit }).help(help)
}

/// User text as a message shows it: without control characters, and cut where
/// it is long.
pub(crate) fn cut(text: &str) -> String {
    const MOST: usize = 60;
    let mut shown: String = text.chars().take(MOST).map(|c| if c.is_control() { '\u{fffd}' } else { c }).collect();
    if text.chars().nth(MOST).is_some() {
        shown.push('…');
    }
    shown
}

impl Shape {
    /// What figures of this shape are measured in; nothing where it has none.
    pub(crate) fn scale(self) -> Option<Scale> {
        match self {
            Shape::Count => Some(Scale::Count),
            Shape::Gauge => Some(Scale::Gauge),
            Shape::Quantity(unit) => Some(Scale::Quantity(unit)),
            Shape::YesNo | Shape::Date | Shape::Name | Shape::Code | Shape::Choice(_) | Shape::Several(_) => None,
        }
    }
}

impl Scale {
    /// How a figure on this scale is written.
    pub(crate) fn example(self) -> String {
        match self {
            Scale::Count => "a whole number such as `3`".into(),
            Scale::Gauge => "a wire gauge such as `6 AWG`, `1/0 AWG`, `250 kcmil` or `16 mm2`".into(),
            Scale::Quantity(unit) => {
                format!("a figure and a unit such as `{} {}`", sample(unit), unit.name)
            }
        }
    }

    /// Whether figures on both scales can be compared.
    pub(crate) fn compares(self, other: Scale) -> bool {
        match (self, other) {
            (Scale::Count, Scale::Count) | (Scale::Gauge, Scale::Gauge) => true,
            (Scale::Quantity(a), Scale::Quantity(b)) => a.dimension == b.dimension,
            _ => false,
        }
    }
}

fn sample(unit: Unit) -> u32 {
    match unit.dimension {
        Dimension::Length | Dimension::Area | Dimension::Share => 50,
        Dimension::Current => 100,
        Dimension::Potential => 240,
        Dimension::Pressure => 2,
        Dimension::Power | Dimension::Money => 1000,
        Dimension::Resistance => 25,
    }
}

/// Reads a figure on a scale.
///
/// # Errors
/// Where the figure or its unit cannot be read, or measures something else.
pub(crate) fn measure(scale: Scale, number: &str, unit: Option<&str>) -> Result<Measure, Fault> {
    let shown = cut(&unit.map_or_else(|| number.to_owned(), |unit| format!("{number} {unit}")));
    let read = match (scale, unit) {
        (Scale::Count, None) => Measure::count(number),
        (Scale::Count, Some(_)) => {
            return Err(Fault::of(codes::UNIT, Misread::UnitAtCount(shown)).help("write the number alone"));
        }
        (_, None) => {
            return Err(Fault::of(codes::UNIT, Misread::NoUnit(shown)).help(format!("write {}", scale.example())));
        }
        (Scale::Gauge, Some(unit)) => Measure::gauge(number, unit),
        (Scale::Quantity(of), Some(unit)) => Measure::quantity(number, unit, of),
    };
    let zero = |measure: &Measure| measure.amount == Exact::from_integer(0);
    match read {
        Ok(found) if scale == Scale::Gauge && zero(&found) => {
            Err(Fault::of(codes::NUMBER, Misread::NoConductor(shown)).help(format!("write {}", scale.example())))
        }
        Ok(found) => Ok(found),
        Err(problem) => Err(unread(problem, scale, number, unit, &shown)),
    }
}

fn unread(problem: Problem, scale: Scale, number: &str, unit: Option<&str>, shown: &str) -> Fault {
    let example = format!("write {}", scale.example());
    match problem {
        Problem::NotANumber => Fault::of(codes::NUMBER, Misread::NoFigure(shown.to_owned())).help(example),
        Problem::TooManyDigits => past(&limits::NUMBER),
        Problem::UnknownUnit => {
            let unit = unit.unwrap_or_default();
            let fault = Fault::of(codes::UNIT, Misread::UnknownUnit { unit: cut(unit), fit: fitting(scale) })
                .help(format!("write {}", units(scale)));
            match (scale, common(unit).filter(|name| measures_same(scale, name))) {
                (_, Some(name)) => Fault { near: vec![name.into()], ..fault },
                (Scale::Gauge, None) => fault.near(unit, GAUGES),
                _ => fault.near(unit, Unit::names().filter(|name| measures_same(scale, name))),
            }
        }
        Problem::WrongDimension => {
            Fault::of(codes::UNIT, Misread::OtherMeasure { typed: shown.to_owned(), fit: fitting(scale) })
                .help(format!("write {}", units(scale)))
        }
        Problem::UnknownGauge => {
            let near = (unit == Some("AWG")).then(|| neighbours(number)).flatten();
            let help =
                near.map(|[thinner, thicker]| format!("the printed sizes beside it are {thinner} and {thicker}"));
            Fault::of(codes::NUMBER, Misread::NoGauge { typed: shown.to_owned(), beside: near })
                .help(help.unwrap_or(example))
        }
    }
}

/// The unit that a word of everyday speech stands for.
pub(crate) fn common(word: &str) -> Option<&'static str> {
    let name = match word.to_ascii_lowercase().as_str() {
        "feet" | "foot" | "'" => "ft",
        "in" | "in." | "inches" | "\"" => "inch",
        "yard" | "yards" => "yd",
        "meter" | "meters" | "metre" | "metres" => "m",
        "amp" | "amps" | "ampere" | "amperes" => "A",
        "volt" | "volts" => "V",
        "watt" | "watts" => "W",
        "ohms" => "ohm",
        "sqft" | "sf" => "sq-ft",
        "sqm" | "sq-m" => "m2",
        "btu" | "btuh" | "btu/h" => "Btu-h",
        "%" => "percent",
        "dollar" | "usd" | "$" => "dollars",
        _ => return None,
    };
    Some(name)
}

fn measures_same(scale: Scale, name: &str) -> bool {
    Unit::find(name).is_some_and(|unit| scale.compares(Scale::Quantity(unit)))
}

/// The units that fit a scale, in words.
fn units(scale: Scale) -> String {
    match scale {
        Scale::Count | Scale::Gauge => scale.example(),
        Scale::Quantity(_) => {
            format!("{}; the units that fit are {}", scale.example(), fitting(scale).join(", "))
        }
    }
}

/// The units that fit a scale.
fn fitting(scale: Scale) -> Vec<&'static str> {
    match scale {
        Scale::Count => Vec::new(),
        Scale::Gauge => GAUGES.to_vec(),
        Scale::Quantity(_) => Unit::names().filter(|name| measures_same(scale, name)).collect(),
    }
}

/// The units of wire gauges.
const GAUGES: [&str; 3] = ["AWG", "kcmil", "mm2"];

/// The printed gauges on either side of one that is not printed, such as 5 AWG.
fn neighbours(number: &str) -> Option<[&'static str; 2]> {
    let number: u32 = number.parse().ok()?;
    let numbered = |name: &str| name.strip_suffix(" AWG").and_then(|figure| figure.parse::<u32>().ok());
    let thinner = SIZES.iter().rev().find(|size| numbered(size.name).is_some_and(|size| size > number))?;
    let thicker = SIZES.iter().find(|size| numbered(size.name).is_some_and(|size| size < number))?;
    Some([thinner.name, thicker.name])
}

/// Reads a date.
///
/// # Errors
/// Where it is not of the form `2024-03-01` or the day does not exist.
pub(crate) fn date(text: &str) -> Result<Date, Fault> {
    Date::parse(text).ok_or_else(|| {
        Fault::of(codes::DATE, Misread::NoDate(cut(text)))
            .help("write year, month and day such as `2024-03-01`, the year between 0001 and 9999")
    })
}

/// Reads `yes` as 1 and `no` as 0.
///
/// # Errors
/// Where it is neither.
pub(crate) fn yes_no(text: &str) -> Result<u16, Fault> {
    match text {
        "no" => Ok(0),
        "yes" => Ok(1),
        _ => Err(Fault::of(codes::SHAPE, Misread::NotYesNo(cut(text))).help("write `yes` or `no`")),
    }
}

/// Reads a lower-case name.
///
/// # Errors
/// Where it is not one, or too long.
pub(crate) fn name(text: &str) -> Result<&str, Fault> {
    let form = text.starts_with(|c: char| c.is_ascii_lowercase())
        && text.bytes().all(|byte| byte.is_ascii_lowercase() || byte.is_ascii_digit() || byte == b'-');
    if !form {
        return Err(Fault::of(codes::SHAPE, Misread::NoName(cut(text)))
            .help("a name is written in lower case with hyphens, such as `brightwell-gas`"));
    }
    if is_reserved(text) {
        return Err(Fault::of(codes::RESERVED, Misread::Reserved(text.to_owned()))
            .help("write another name, or leave it out where it is not known"));
    }
    short(text)
}

/// Reads a code's name, in capitals.
///
/// # Errors
/// Where it is not one, or too long.
pub(crate) fn code(text: &str) -> Result<&str, Fault> {
    let form = text.starts_with(|c: char| c.is_ascii_uppercase())
        && text.bytes().all(|byte| byte.is_ascii_uppercase() || byte.is_ascii_digit() || byte == b'-');
    if !form {
        return Err(Fault::of(codes::SHAPE, Misread::NoCodeName(cut(text)))
            .help("a code is written in capitals, such as `IFGC`"));
    }
    short(text)
}

fn short(text: &str) -> Result<&str, Fault> {
    if text.len() > limits::NAME.most {
        return Err(past(&limits::NAME));
    }
    Ok(text)
}
