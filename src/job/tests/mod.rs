//! Tests of jobs in JSON and on sheets.

mod dates;
mod json;
mod moved;
mod pages;
mod round_trip;
mod sheets;
mod so_far;

use super::model::{Given, Job};
use super::{Defaults, Desk, Gazetteer, JobProblem, NotFound, read_json, read_sheet};
use crate::glossary::model::PlaceId;
use crate::glossary::tests::{Built, Places, with};
use crate::syntax::diagnostic::{Diagnostic, FileId};
use crate::syntax::nearest::nearest;
use crate::syntax::tree::{Item, JobSheet};
use crate::syntax::{Kind, parse};

impl Gazetteer for Places {
    fn find(&self, text: &str) -> Result<PlaceId, NotFound> {
        if text == "Harlow County" {
            return Ok(self.id("harlow"));
        }
        if text == "twin" {
            let candidates = vec!["larkspur/twin".into(), "quarrel/twin".into()];
            return Err(NotFound { candidates, nearest: Vec::new() });
        }
        let fits = |path: &&str| *path == text || path.ends_with(&format!("/{text}"));
        if let Some(at) = self.0.iter().position(fits) {
            return Ok(PlaceId(at as u32));
        }
        let near = nearest(text, self.0.iter().map(|path| path.rsplit('/').next().unwrap()));
        Err(NotFound { candidates: Vec::new(), nearest: near.into_iter().map(String::from).collect() })
    }

    fn path(&self, place: PlaceId) -> String {
        self.0[place.0 as usize].into()
    }

    fn issuer(&self, printed: &str) -> Option<Box<str>> {
        (printed == "Brightwell Gas Co.").then(|| "brightwell-gas".into())
    }

    fn codes(&self) -> Option<Vec<&str>> {
        Some(vec!["IFGC", "IRC", "NEC"])
    }
}

/// What only some places know.
const LOCAL: &str = "fact septic yes-no in harlow\n extend trade in harlow  bonder\n
    list shed in harlow  wide yes-no  kinds several permit-kind  built date  doors count
    record owner  since date  visits count";

fn built() -> Built {
    with(LOCAL)
}

fn desk(built: &Built) -> Desk<'_> {
    Desk { glossary: &built.glossary, territory: &built.places, gazetteer: &built.places }
}

fn json(text: &str) -> Job {
    let built = built();
    let mut jobs =
        read_json(text, desk(&built), &Defaults::default()).unwrap_or_else(|found| panic!("{text}\n{found:#?}"));
    assert_eq!(jobs.len(), 1);
    jobs.remove(0)
}

fn wrong_json(text: &str) -> Vec<JobProblem> {
    let built = built();
    let found = read_json(text, desk(&built), &Defaults::default()).expect_err(text);
    assert!(found.iter().all(|one| one.help.is_some()), "a problem without a help: {found:#?}");
    found
}

/// The one problem of a text.
fn one_wrong_json(text: &str) -> JobProblem {
    let mut found = wrong_json(text);
    assert_eq!(found.len(), 1, "{text}\n{found:#?}");
    found.remove(0)
}

fn parsed_sheet(text: &str) -> JobSheet {
    let mut parsed = parse(FileId(3), text, Kind::Job);
    assert!(parsed.diagnostics.is_empty(), "{text}\n{:#?}", parsed.diagnostics);
    match parsed.tree.items.remove(0) {
        Item::Job(sheet) => sheet,
        other => panic!("{other:?}"),
    }
}

fn sheet_with(text: &str, defaults: &Defaults) -> Result<Job, Vec<Diagnostic>> {
    let built = built();
    read_sheet(&parsed_sheet(text), FileId(3), desk(&built), defaults)
}

fn sheet(text: &str) -> Job {
    sheet_with(text, &Defaults::default()).unwrap_or_else(|found| panic!("{text}\n{found:#?}"))
}

/// The one finding on a sheet, and the text that it points at.
fn one_wrong_sheet(text: &str) -> (Diagnostic, String) {
    let mut found = sheet_with(text, &Defaults::default()).expect_err(text);
    assert_eq!(found.len(), 1, "{text}\n{found:#?}");
    let one = found.remove(0);
    assert!(one.help.is_some(), "{one:#?}");
    let pointed = text.get(one.at.span.start as usize..one.at.span.end as usize).unwrap().to_owned();
    (one, pointed)
}

/// What a job says of a fact by its path.
fn said(job: &Job, path: &str) -> Given {
    let built = built();
    let field = built.glossary.field(path, Some(job.place), &built.places).unwrap();
    job.values[usize::from(field.0)].clone()
}

/// What a job says of a list by its name.
fn list(job: &Job, name: &str) -> super::model::Entries {
    let built = built();
    let group = built.glossary.group(name, Some(job.place), &built.places).unwrap();
    job.lists[usize::from(group.0)].clone()
}
