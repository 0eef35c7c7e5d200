//! A job on its way: what has been said so far, each thing once.

use super::model::{Entries, Given, Job};
use super::{Defaults, Desk};
use crate::glossary::Fault;
use crate::glossary::misread::Misread;
use crate::glossary::model::{FieldId, GroupId, PlaceId, Scale, Shape};
use crate::glossary::{self, cut};
use crate::syntax::codes;
use crate::syntax::limits::TEXT;
use std::collections::BTreeSet;
use std::sync::Arc;

/// What a job says where there is nobody and nothing to name, such as a supplier of gas at a
/// tank of the house's own. It is a word of the language, so that nothing is called so.
pub(crate) const NO_NAME: &str = "none";

pub(super) struct Draft<'a> {
    pub(super) desk: Desk<'a>,
    pub(super) job: Job,
    said: BTreeSet<FieldId>,
    listed: BTreeSet<GroupId>,
}

impl<'a> Draft<'a> {
    /// A job of which nothing is known but its place.
    pub(super) fn new(desk: Desk<'a>, place: PlaceId) -> Draft<'a> {
        let glossary = desk.glossary;
        let untold = |group: &glossary::model::Group| Entries { entries: Vec::new(), more: group.list };
        let job = Job {
            place,
            reference: None,
            values: vec![Given::Unknown; glossary.fields.len()],
            lists: glossary.groups.iter().map(untold).collect(),
        };
        Draft { desk, job, said: BTreeSet::new(), listed: BTreeSet::new() }
    }

    /// A job that was read before, to be checked again.
    pub(super) fn of(desk: Desk<'a>, job: Job) -> Draft<'a> {
        Draft { desk, job, said: BTreeSet::new(), listed: BTreeSet::new() }
    }

    /// Says a fact.
    ///
    /// # Errors
    /// Where it was said before.
    pub(super) fn say(&mut self, field: FieldId, given: Given) -> Result<(), Fault> {
        if !self.said.insert(field) {
            return Err(twice(&self.desk.glossary[field].path));
        }
        if let Some(slot) = self.job.values.get_mut(usize::from(field.0)) {
            *slot = given;
        }
        Ok(())
    }

    /// Says a whole list.
    ///
    /// # Errors
    /// Where it was said before.
    pub(super) fn list(&mut self, group: GroupId, entries: Entries) -> Result<(), Fault> {
        if !self.listed.insert(group) {
            return Err(twice(&self.desk.glossary[group].name));
        }
        if let Some(slot) = self.job.lists.get_mut(usize::from(group.0)) {
            *slot = entries;
        }
        Ok(())
    }

    /// An entry of a list of which nothing is known.
    pub(super) fn entry(&self, group: GroupId) -> Vec<Given> {
        vec![Given::Unknown; self.desk.glossary[group].fields.len()]
    }

    /// The job with the options filled in.
    ///
    /// # Errors
    /// Where dates contradict the options or each other; with the fact that does.
    pub(super) fn finish(mut self, defaults: &Defaults) -> Result<Job, Vec<(FieldId, Fault)>> {
        let faults = self.dates(defaults);
        if faults.is_empty() { Ok(self.job) } else { Err(faults) }
    }
}

/// The reference of a job: a text on one line.
///
/// # Errors
/// Where it is too long, or holds what no line holds.
pub(crate) fn reference(text: &str) -> Result<Box<str>, Fault> {
    if text.chars().nth(TEXT.most).is_some() {
        return Err(glossary::past(&TEXT));
    }
    if text.chars().any(char::is_control) {
        let fault = Fault::new(codes::JOB_VALUE, "the reference holds a control character");
        return Err(fault.help("write it on one line, without tabs"));
    }
    Ok(text.into())
}

/// The fault where a job says one thing twice.
pub(super) fn twice(what: &str) -> Fault {
    Fault::of(codes::JOB_TWICE, Misread::Twice(cut(what))).help("say it once")
}

impl Desk<'_> {
    /// A value that is a bare word: a term, a name, a code, `yes` or `no`.
    ///
    /// # Errors
    /// Where the word does not fit the shape.
    pub(super) fn word(&self, shape: Shape, text: &str, place: PlaceId) -> Result<Given, Fault> {
        match shape {
            Shape::YesNo => glossary::yes_no(text).map(Given::Term),
            Shape::Choice(choice) => {
                self.glossary.term_named(choice, text, Some(place), self.territory).map(Given::Term)
            }
            Shape::Name if text == NO_NAME => Ok(Given::Name(NO_NAME.into())),
            Shape::Name => match self.gazetteer.issuer(text) {
                Some(name) => Ok(Given::Name(name.into())),
                None => glossary::name(text).map(|name| Given::Name(name.into())),
            },
            Shape::Code => self.code(glossary::code(text)?),
            Shape::Date | Shape::Count | Shape::Gauge | Shape::Quantity(_) | Shape::Several(_) => {
                Err(self.misfit(shape, &format!("`{}`", cut(text))))
            }
        }
    }

    fn code(&self, name: &str) -> Result<Given, Fault> {
        if let Some(known) = self.gazetteer.codes()
            && !known.contains(&name)
        {
            let fault = Fault::of(codes::UNKNOWN_CODE, Misread::UnknownCode(name.to_owned()));
            return Err(fault.help("name a code of the loaded rules").near(name, known));
        }
        Ok(Given::Name(Arc::from(name)))
    }

    /// The fault where a value has another shape than its fact; with how it is
    /// written on a job sheet.
    pub(super) fn misfit(&self, shape: Shape, what: &str) -> Fault {
        let is = self.glossary.shape_in_words(shape);
        let fault = Fault::new(codes::JOB_VALUE, format!("{what} is not {is}"));
        fault.help(match shape {
            Shape::YesNo => "write `yes` or `no`".into(),
            Shape::Date => "write a date such as `2024-03-01`, or `none` where there is none".into(),
            Shape::Name => "write a name in lower case with hyphens, a printed name in double quotes, or `none`".into(),
            Shape::Code => "write the name of a code, such as `IFGC`".into(),
            Shape::Choice(choice) | Shape::Several(choice) => {
                self.glossary.terms_in_words(choice, None, self.territory)
            }
            Shape::Count | Shape::Gauge | Shape::Quantity(_) => {
                format!("write {}", shape.scale().map(Scale::example).unwrap_or_default())
            }
        })
    }
}
