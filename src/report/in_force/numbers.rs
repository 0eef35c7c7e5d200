//! The numbers that a section had from edition to edition.

use super::clauses::Key;
use crate::law::library::Library;
use crate::law::text::{Code, Edition, Lineage};
use serde::Serialize;
use utoipa::ToSchema;

/// The numbers of one section, the newest first.
#[derive(Debug, PartialEq, Eq, Serialize, ToSchema)]
pub(crate) struct Numbers {
    pub(crate) numbers: Vec<Number>,
}

/// A number, and in which editions the section had it.
#[derive(Debug, PartialEq, Eq, Serialize, ToSchema)]
pub(crate) struct Number {
    pub(crate) number: String,
    pub(crate) from: i32,
    /// The last edition with it; none where that is the newest whose text is here.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(crate) through: Option<i32>,
}

impl Numbers {
    /// Such as `IFGC 310.2 since 2018; 310.1.1 in 2009 to 2015`.
    pub(crate) fn words(&self, code: &str) -> String {
        let spans = self.numbers.iter().map(|one| match one.through {
            None => format!("{} since {}", one.number, one.from),
            Some(through) if through == one.from => format!("{} in {through}", one.number),
            Some(through) => format!("{} in {} to {through}", one.number, one.from),
        });
        format!("{code} {}", spans.collect::<Vec<_>>().join("; "))
    }
}

/// The numbers of a section over the editions of its code; nothing for one that
/// only an amendment has.
pub(in crate::report) fn numbers(library: &Library, code: &Code, key: &Key) -> Option<Numbers> {
    let Key::Lineage(lineage) = key else { return None };
    let editions = code.editions.iter().filter_map(|(year, id)| Some((*year, library.codes.edition(*id)?)));
    let here: Vec<_> = editions.filter(|(_, edition)| !edition.text_not_here).collect();
    let newest = here.last().map(|(year, _)| *year)?;
    let mut found: Vec<Number> = Vec::new();
    let mut before: Option<&str> = None;
    for (year, edition) in &here {
        let number = edition.by_lineage(*lineage).map(|printed| &*printed.number);
        match (number, found.last_mut()) {
            (Some(number), Some(last)) if before == Some(number) => last.through = Some(*year),
            (Some(number), _) => {
                found.push(Number { number: number.to_owned(), from: *year, through: Some(*year) });
            }
            (None, _) => {}
        }
        // An edition of another line says nothing of this section's number.
        if number.is_some() || edition_speaks(edition, &here, *lineage) {
            before = number;
        }
    }
    for one in &mut found {
        one.through = one.through.filter(|through| *through != newest);
    }
    found.reverse();
    (!found.is_empty()).then_some(Numbers { numbers: found })
}

/// Whether an edition is of the line of those that have the section.
fn edition_speaks(edition: &Edition, here: &[(i32, &Edition)], lineage: Lineage) -> bool {
    here.iter().any(|(_, other)| other.family == edition.family && other.by_lineage(lineage).is_some())
}
