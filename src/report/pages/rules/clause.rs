//! What one section, patch or table says, as every page of this room shows it.

use super::conditions;
use super::demands::{self, Demand, Printed};
use super::desk::Desk;
use crate::law::text::Section;
use crate::report::screen::words::spoken_title;
use serde::Serialize;

/// What a text says.
#[derive(Debug, PartialEq, Serialize)]
pub(super) struct Said {
    title: String,
    summary: String,
    /// On what it is, where it says so itself.
    subjects: Vec<String>,
    wheres: Vec<String>,
    /// Each lifts the demands by itself.
    excepts: Vec<String>,
    /// Whether it is an exception that asks nothing instead.
    pub(super) lifts: bool,
    demands: Vec<Demand>,
    cases: Vec<Case>,
    table: Option<Printed>,
    provenance: String,
}

/// An excepted case, and what holds in it.
#[derive(Debug, PartialEq, Serialize)]
struct Case {
    when: String,
    demands: Vec<Demand>,
}

/// What a section says; `of` names the code and year of its text, where it is one.
pub(super) fn said(desk: &Desk<'_>, section: &Section, of: Option<(&str, i32)>) -> Said {
    let glossary = &desk.library().glossary;
    let subjects = section.subjects.iter().map(|subject| {
        let subject = &glossary[*subject];
        spoken_title(&subject.title, &subject.name)
    });
    let cases = section.cases.iter().map(|case| Case {
        when: conditions::whole(desk, &case.cond),
        demands: demands::demands(desk, &case.demands, of),
    });
    Said {
        title: section.title.to_string(),
        summary: section.summary.to_string(),
        subjects: subjects.collect(),
        wheres: conditions::parts(desk, &section.wheres),
        excepts: section.excepts.iter().map(|except| conditions::whole(desk, except)).collect(),
        lifts: false,
        demands: demands::demands(desk, &section.demands, of),
        cases: cases.collect(),
        table: demands::table(desk, section),
        provenance: desk.reader.provenance(&section.provenance),
    }
}
