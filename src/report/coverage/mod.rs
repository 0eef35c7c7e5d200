//! What the library holds of the codes: a table of all editions and a block for
//! each, and the same as JSON.

mod fold;
mod text;

pub(super) use fold::fold;
pub(crate) use text::page;

use super::json::{ProvenanceView, provenance};
use crate::review::coverage::{Account, Tally};
use serde::Serialize;

/// The name of the JSON form.
const SCHEMA: &str = "groundrule/coverage/1";

/// Of which editions it is told.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Scope<'a> {
    /// The place where they are in force, its path and its title, and the day.
    pub(crate) at: Option<(&'a str, &'a str, &'a str)>,
    pub(crate) code: Option<&'a str>,
    pub(crate) year: Option<i32>,
}

/// The whole answer as JSON.
#[derive(Debug, Serialize)]
#[serde(rename_all = "kebab-case")]
pub(crate) struct Whole<'a> {
    schema: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    place: Option<&'a str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    on: Option<&'a str>,
    editions: Vec<Edition<'a>>,
    totals: Totals,
}

#[derive(Debug, Serialize)]
#[serde(rename_all = "kebab-case")]
struct Edition<'a> {
    code: &'a str,
    edition: i32,
    title: &'a str,
    #[serde(skip_serializing_if = "Option::is_none")]
    published: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    revises: Option<i32>,
    text_not_here: bool,
    sections: Vec<Section<'a>>,
    definitions: &'a [&'a str],
    left_out: Vec<LeftOut<'a>>,
    unread: Vec<Unread<'a>>,
    #[serde(flatten)]
    counts: Counts,
}

#[derive(Debug, Serialize)]
struct Section<'a> {
    section: &'a str,
    title: &'a str,
    provisions: usize,
    provenance: Option<ProvenanceView<'a>>,
}

#[derive(Debug, Serialize)]
struct LeftOut<'a> {
    section: &'a str,
    why: &'a str,
    since: i32,
}

#[derive(Debug, Serialize)]
struct Unread<'a> {
    section: &'a str,
    questions: &'a [&'a str],
    since: i32,
}

#[derive(Debug, Serialize)]
#[serde(rename_all = "kebab-case")]
struct Counts {
    provisions: usize,
    read: usize,
    from_memory: usize,
    common_practice: usize,
    no_source: usize,
}

#[derive(Debug, Serialize)]
#[serde(rename_all = "kebab-case")]
struct Totals {
    editions: usize,
    text_not_here: usize,
    sections: usize,
    left_out: usize,
    unread: usize,
    #[serde(flatten)]
    counts: Counts,
}

impl Counts {
    fn of(tally: &Tally) -> Counts {
        Counts {
            provisions: tally.provisions,
            read: tally.read,
            from_memory: tally.memory,
            common_practice: tally.practice,
            no_source: tally.no_source,
        }
    }
}

/// The sums over all editions; a section counts in each in which it stands.
fn totals(accounts: &[Account<'_>]) -> (Tally, usize) {
    let mut sum = Tally::default();
    for account in accounts {
        sum += account.tally;
    }
    (sum, accounts.iter().filter(|account| account.edition.text_not_here).count())
}

/// The accounts of the editions as JSON.
pub(crate) fn json<'a>(accounts: &'a [Account<'a>], scope: Scope<'a>) -> Whole<'a> {
    let (sum, away) = totals(accounts);
    Whole {
        schema: SCHEMA,
        place: scope.at.map(|(path, ..)| path),
        on: scope.at.map(|(.., on)| on),
        editions: accounts.iter().map(edition).collect(),
        totals: Totals {
            editions: accounts.len(),
            text_not_here: away,
            sections: sum.sections,
            left_out: sum.left_out,
            unread: sum.unread,
            counts: Counts::of(&sum),
        },
    }
}

fn edition<'a>(account: &'a Account<'a>) -> Edition<'a> {
    let sections = account.sections.iter().map(|held| Section {
        section: held.number,
        title: &held.section.title,
        provisions: held.provisions,
        provenance: provenance(&held.section.provenance),
    });
    let left_out =
        account.left_out.iter().map(|left| LeftOut { section: left.number, why: left.why, since: left.since });
    let unread = account.unread.iter().map(|unread| Unread {
        section: unread.number,
        questions: &unread.questions,
        since: unread.since,
    });
    Edition {
        code: &account.code.name,
        edition: account.edition.year,
        title: &account.code.title,
        published: account.edition.published.map(|day| day.to_string()),
        revises: account.revises,
        text_not_here: account.edition.text_not_here,
        sections: sections.collect(),
        definitions: &account.definitions,
        left_out: left_out.collect(),
        unread: unread.collect(),
        counts: Counts::of(&account.tally),
    }
}
