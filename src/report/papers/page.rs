//! What stands around every paper: its title, the place and the dates, the facts that it
//! rests on, cautions, and where it is signed.

use super::{Drawn, Paper};
use crate::report::sheet::Sheet;
use crate::report::sheet::facts::Echo;
use crate::report::speech::Reader;
use minijinja::Value;
use serde::Serialize;

/// One paper on one job.
#[derive(Serialize)]
pub(super) struct Page<'d> {
    name: &'static str,
    title: String,
    lead: String,
    sheet: &'d Sheet,
    /// What is given, presumed and not known.
    facts: [Vec<&'d Echo>; 3],
    template: &'static str,
    /// Whether its body is a sheet of its own behind all else.
    last: bool,
    body: Value,
    /// Those who sign.
    signed: Vec<String>,
}

impl<'d> Page<'d> {
    pub(super) fn new(paper: Paper, drawn: &Drawn<'d, '_>, reader: Reader) -> Page<'d> {
        let (template, body) = paper.body(drawn, reader);
        let sheet = drawn.sheet;
        let facts = ["given", "presumed", "unknown"]
            .map(|how| sheet.facts.iter().filter(|fact| fact.how == how).collect::<Vec<_>>());
        Page {
            name: paper.name(),
            title: paper.title(reader),
            lead: paper.lead(reader),
            sheet,
            facts,
            template,
            last: paper == Paper::Detail,
            body,
            signed: paper.signed(drawn, reader),
        }
    }
}

/// What every printed sheet says at its foot: the paper, and the job where there is one
/// with a reference. It stands in a style, so that nothing but letters, figures and a few
/// marks goes in.
pub(super) fn foot(title: &str, drawn: &[Drawn<'_, '_>]) -> String {
    let reference = match drawn {
        [one] => one.sheet.reference.as_deref(),
        _ => None,
    };
    let foot = reference.map_or_else(|| title.to_owned(), |reference| format!("{title} – {reference}"));
    let plain = |letter: &char| letter.is_alphanumeric() || " -–./#,:".contains(*letter);
    foot.chars().filter(plain).take(100).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_foot_ends_no_style() {
        assert_eq!(foot("A\"; } </style> \\ 'x' {1}", &[]), "A  /style  x 1");
    }
}
