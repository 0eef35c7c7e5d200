//! Hatches: one for each class, told from each other without any tone.

use std::fmt::Write;

/// The drawings of the hatches, in squares of 12; what has more classes begins anew, and
/// is told by its letter.
const HATCHES: [&str; 12] = [
    "",
    "M-3 3L3 -3M0 12L12 0M9 15L15 9",
    DOTS,
    "M0 3H12M0 9H12",
    "M0 0L12 12M-3 9L3 15M9 -3L15 3M0 12L12 0M-3 3L3 -3M9 15L15 9",
    "M3 0V12M9 0V12",
    "M0 3H5M6 9H11",
    "M0 0L12 12M-3 9L3 15M9 -3L15 3",
    "M0 6H12M6 0V12",
    "M1 5L4 2L7 5M5 11L8 8L11 11",
    "M4 6H8M6 4V8",
    "M0 12L6 0L12 12",
];

const DOTS: &str = "M2 2h.1M8 8h.1";

/// What is not settled: question marks.
const UNKNOWN: &str = "M3.5 4.5C3.5 1.5 8.5 1.5 8.5 4.5C8.5 6.5 6 6.3 6 8.5M6 10.8v.1";

/// The definitions of so many hatches, and of the one for what is not settled.
pub(super) fn definitions(count: usize) -> String {
    let mut out = String::from("<defs>");
    let mut one = |name: &str, path: &str, side: u8| {
        let width = if path == DOTS { 2.4 } else { 1.0 };
        let _ = write!(
            out,
            "<pattern id=\"{name}\" width=\"{side}\" height=\"{side}\" patternUnits=\"userSpaceOnUse\">\
             <rect class=\"ground\" width=\"{side}\" height=\"{side}\" fill=\"#fff\"/>\
             <path class=\"hatch\" d=\"{path}\" fill=\"none\" stroke=\"#555\" stroke-width=\"{width}\" stroke-linecap=\"round\"/></pattern>"
        );
    };
    for (number, path) in HATCHES.iter().enumerate().take(count.min(HATCHES.len())) {
        one(&format!("hatch-{number}"), path, 12);
    }
    one("hatch-unknown", UNKNOWN, 20);
    out.push_str("</defs>\n");
    out
}

/// The name of the hatch of a class; `settled` is whether what it stands for is known.
pub(super) fn name(class: usize, settled: bool) -> String {
    if settled { format!("hatch-{}", class % HATCHES.len()) } else { "hatch-unknown".to_owned() }
}
