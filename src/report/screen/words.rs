//! Answers, facts and citations in words.

use crate::law::model::{Provenance, Source};
use crate::report::speech::Reader;
use crate::verdict::model::Edition;
use crate::verdict::value::Value;

/// A name of the glossary as it is read aloud: `rigid-pipe` is a rigid pipe, the
/// mark `UL-467` stays as it is printed.
pub(crate) fn spoken(name: &str) -> String {
    if name.bytes().any(|byte| byte.is_ascii_uppercase()) {
        return name.to_owned();
    }
    let words: Vec<&str> = name.split('-').map(|word| if word == "csst" { "CSST" } else { word }).collect();
    words.join(" ")
}

/// An answer's value.
pub(crate) fn value(value: &Value<'_>) -> String {
    Reader::default().value(value)
}

/// Where a text stands, with the instrument that made it law:
/// `IRC 2021 G2411.2 by TBR-22-3`.
pub(crate) fn cite(source: &Source) -> String {
    let section = source.section.as_ref().map_or_else(String::new, |section| format!(" {section}"));
    match (&source.code, source.edition) {
        (Some(code), Some(year)) if source.adopted_by.is_some() => {
            format!("{code} {year}{section} as amended by {}", source.instrument)
        }
        (Some(code), Some(year)) => format!("{code} {year}{section} by {}", source.instrument),
        _ => format!("{}{section}", source.instrument),
    }
}

/// The same without the adopting instrument, where the head of the page names it
/// beside the edition.
pub(crate) fn cite_short(source: &Source, codes: &[Edition<'_>]) -> String {
    let (Some(code), Some(year), None) = (&source.code, source.edition, &source.adopted_by) else {
        return cite(source);
    };
    let mut adopted =
        codes.iter().map(|edition| edition.code).filter(|known| known.code == *code && known.edition == year);
    if adopted.by_ref().all(|known| known.by == source.instrument) {
        format!("{code} {year} {}", source.section.as_deref().unwrap_or_default()).trim_end().to_owned()
    } else {
        cite(source)
    }
}

/// Where a text was seen, in words.
pub(crate) fn provenance(provenance: &Provenance) -> String {
    Reader::default().provenance(provenance)
}

/// A count and its word.
pub(crate) fn count(number: usize, one: &str, several: &str) -> String {
    if number == 1 { format!("1 {one}") } else { format!("{number} {several}") }
}

/// What is printed for a name of the glossary, else the name as it is read aloud.
pub(crate) fn spoken_title(title: &str, name: &str) -> String {
    if title.is_empty() { spoken(name) } else { title.to_owned() }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_are_spoken_and_marks_stay() {
        assert_eq!(spoken("rigid-pipe"), "rigid pipe");
        assert_eq!(spoken("UL-467"), "UL-467");
    }
}
