//! What is wrong with a place, a code or a section that somebody asks for by name.

use super::{Finding, Spot};
use crate::glossary::cut;
use crate::glossary::model::PlaceId;
use crate::report::in_force::NoSection;
use crate::rules::Rules;
use crate::syntax::codes;
use crate::syntax::nearest::did_you_mean;

/// The place that is asked for; `spot` is where it was asked.
///
/// # Errors
/// Where no place fits, with the nearest names, or several do, with all of them.
pub(crate) fn place(rules: &Rules, text: &str, spot: Spot) -> Result<PlaceId, Finding> {
    rules.library().places.find(text).map_err(|problem| {
        let shown = cut(text);
        if problem.candidates.is_empty() {
            let near: Vec<&str> = problem.nearest.iter().map(String::as_str).collect();
            let help = did_you_mean(&near).unwrap_or_else(|| {
                "write its name, its printed name or its path, such as `tamarrow/osier`; `--rules DIR` loads further places".into()
            });
            return Finding::new(codes::UNKNOWN_PLACE, spot, format!("no place is named `{shown}`"))
                .help(help)
                .with_letters();
        }
        let candidates: Vec<String> = problem.candidates.iter().map(|path| format!("`{path}`")).collect();
        Finding::new(codes::AMBIGUOUS_PLACE, spot, format!("`{shown}` fits several places"))
            .help(format!("write one of {}", candidates.join(", ")))
    })
}

/// Why there is no such section; the spots are where the code and the number were
/// asked, and `list` says how to see what there is.
pub(crate) fn no_section(
    problem: &NoSection,
    [code, number]: [&str; 2],
    [code_spot, number_spot]: [Spot; 2],
    list: &str,
) -> Finding {
    let (shown_code, shown) = (cut(code), cut(number));
    match problem {
        NoSection::NoCode(codes_here) => {
            let message = format!("no text of `{shown_code}` is in force there on that day");
            let finding = Finding::new(codes::UNKNOWN_CODE, code_spot, message);
            if codes_here.is_empty() {
                finding
            } else {
                finding.help(format!("the codes there are {}", codes_here.join(", ")))
            }
        }
        NoSection::NoNumber(near) => {
            let near: Vec<&str> = near.iter().map(String::as_str).collect();
            let help = did_you_mean(&near).unwrap_or_else(|| list.to_owned());
            let message = format!("`{shown_code}` has no section `{shown}` there on that day that answers a question");
            Finding::new(codes::NO_SECTION, number_spot, message).help(help)
        }
    }
}
