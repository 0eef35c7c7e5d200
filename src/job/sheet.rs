//! Jobs from a job sheet, or from the `job` of an example.

use super::draft::{Draft, NO_NAME, twice};
use super::keys::Key;
use super::model::{Entries, Given, Job};
use super::problem::of_job;
use super::{Defaults, Desk};
use crate::glossary::model::{FieldId, GroupId, PlaceId, Shape};
use crate::glossary::{self, Fault, cut, span, written};
use crate::syntax::codes;
use crate::syntax::diagnostic::{Diagnostic, FileId, Location};
use crate::syntax::limits::ENTRIES;
use crate::syntax::tree::{JobEntry, JobSheet, JobValue, Path, Reference, Span, Value, Word};
use crate::values::Terms;
use std::collections::{BTreeMap, BTreeSet};

/// Reads the job of a sheet.
///
/// # Errors
/// Where the job cannot be used: every problem, in the order of the text.
pub(crate) fn read_sheet(
    sheet: &JobSheet,
    file: FileId,
    desk: Desk<'_>,
    defaults: &Defaults,
) -> Result<Job, Vec<Diagnostic>> {
    let mut reader =
        Reader { desk, defaults, file, diagnostics: Vec::new(), spans: BTreeMap::new(), lists: BTreeMap::new() };
    match reader.job(sheet) {
        Some(job) if reader.diagnostics.is_empty() => Ok(job),
        _ => Err(reader.diagnostics),
    }
}

/// What the lines of a sheet say of one list.
#[derive(Default)]
struct Lines {
    entries: Vec<Vec<Given>>,
    first: Option<Span>,
    none: Option<Span>,
    unknown: Option<Span>,
}

struct Reader<'a> {
    desk: Desk<'a>,
    defaults: &'a Defaults,
    file: FileId,
    diagnostics: Vec<Diagnostic>,
    spans: BTreeMap<FieldId, Span>,
    lists: BTreeMap<GroupId, Lines>,
}

impl<'a> Reader<'a> {
    fn report(&mut self, span: Span, fault: Fault) {
        self.diagnostics.push(of_job(fault).at(Location { file: self.file, span }));
    }

    fn keep<T>(&mut self, span: Span, found: Result<T, Fault>) -> Option<T> {
        match found {
            Ok(found) => Some(found),
            Err(fault) => {
                self.report(span, fault);
                None
            }
        }
    }

    fn job(&mut self, sheet: &JobSheet) -> Option<Job> {
        let place = self.place(sheet)?;
        let mut draft = Draft::new(self.desk, place);
        for entry in &sheet.entries {
            match entry {
                JobEntry::Place(_) => {}
                JobEntry::Reference(text) => {
                    if draft.job.reference.is_some() {
                        self.report(text.span, twice("reference"));
                    }
                    draft.job.reference = Some(text.text.clone());
                }
                JobEntry::Fact { path, value, span } => self.line(&mut draft, path, value, *span),
                JobEntry::Entry { name, facts, span } => self.entry(&mut draft, name, facts, *span),
            }
        }
        self.close_lists(&mut draft);
        if !self.diagnostics.is_empty() {
            return None;
        }
        match draft.finish(self.defaults) {
            Ok(job) => Some(job),
            Err(faults) => {
                for (field, fault) in faults {
                    let span = self.spans.get(&field).copied().unwrap_or(sheet.span);
                    self.report(span, fault);
                }
                None
            }
        }
    }

    fn place(&mut self, sheet: &JobSheet) -> Option<PlaceId> {
        let mut said: Option<(PlaceId, &Reference)> = None;
        for entry in &sheet.entries {
            let JobEntry::Place(reference) = entry else {
                continue;
            };
            if said.is_some() {
                self.report(reference.span, twice("place"));
                return None;
            }
            let place = self.desk.place(&reference.text);
            said = Some((self.keep(reference.span, place)?, reference));
        }
        match (said, self.defaults.place) {
            (Some((place, reference)), Some(given)) if place != given => {
                let path = |place| self.desk.gazetteer.path(place);
                let message =
                    format!("the job is at `{}`, and the place given beside it is `{}`", path(place), path(given));
                let help = "leave the place out of the job, or out of the options";
                self.report(reference.span, Fault::new(codes::JOB, message).help(help));
                None
            }
            (Some((place, _)), _) | (None, Some(place)) => Some(place),
            (None, None) => {
                let fault = Fault::new(codes::JOB, "the job does not say its place");
                self.report(sheet.span, fault.help("add a line with `place` and the name of the place"));
                None
            }
        }
    }

    fn line(&mut self, draft: &mut Draft<'a>, path: &Path, value: &JobValue, span: Span) {
        let (word, at) = match &path.attribute {
            None => (path.head.text.to_string(), path.head.span),
            Some(attribute) => (format!("{}.{}", path.head.text, attribute.text), path.head.span.to(attribute.span)),
        };
        let key = self.desk.key(&word, draft.job.place);
        match self.keep(at, key) {
            None => {}
            Some(Key::Fact(field)) => self.say(draft, field, value, span),
            Some(Key::Record(_)) if *value == JobValue::Unknown => {}
            Some(Key::Record(group)) => {
                let name = &self.desk.glossary[group].name;
                let fault =
                    Fault::new(codes::JOB_VALUE, format!("`{name}` is a record, and a single value stands here"));
                self.report(span, fault.help(format!("write its attributes: `{name} {{ … }}`")));
            }
            Some(Key::List(group)) => self.whole_list(group, value, span),
        }
    }

    fn whole_list(&mut self, group: GroupId, value: &JobValue, span: Span) {
        let name = &self.desk.glossary[group].name;
        let lines = self.lists.entry(group).or_default();
        let slot = match value {
            JobValue::None => &mut lines.none,
            JobValue::Unknown => &mut lines.unknown,
            JobValue::Values(_) => {
                let fault = Fault::new(codes::JOB_VALUE, format!("`{name}` is a list, and a single value stands here"));
                let help = format!("write each entry as `{name} {{ … }}`, or `{name} none`, or `{name} unknown`");
                self.report(span, fault.help(help));
                return;
            }
        };
        if slot.replace(span).is_some() {
            self.report(span, twice(name));
        }
    }

    fn entry(&mut self, draft: &mut Draft<'a>, name: &Word, facts: &[(Word, JobValue)], span: Span) {
        let key = self.desk.key(&name.text, draft.job.place);
        match self.keep(name.span, key) {
            None => {}
            Some(Key::Fact(field)) => {
                let fault = self.desk.misfit(self.desk.glossary[field].shape, "what stands in braces");
                self.report(span, fault.help(format!("write `{}` and its value, without braces", name.text)));
            }
            Some(Key::Record(group)) => {
                for (word, value) in facts {
                    let field = self.desk.attribute(group, &word.text, draft.job.place);
                    if let Some(field) = self.keep(word.span, field) {
                        self.say(draft, field, value, word.span);
                    }
                }
            }
            Some(Key::List(group)) => self.list_entry(draft, group, facts, span),
        }
    }

    fn list_entry(&mut self, draft: &Draft<'a>, group: GroupId, facts: &[(Word, JobValue)], span: Span) {
        let mut entry = draft.entry(group);
        let mut said = BTreeSet::new();
        for (word, value) in facts {
            let field = self.desk.attribute(group, &word.text, draft.job.place);
            let Some(field) = self.keep(word.span, field) else {
                continue;
            };
            let column = self.desk.glossary[field].column;
            if !said.insert(column) {
                self.report(word.span, twice(&word.text));
            }
            if let Some(given) = self.value(field, value, draft.job.place, word.span)
                && let Some(slot) = entry.get_mut(usize::from(column))
            {
                *slot = given;
            }
        }
        let lines = self.lists.entry(group).or_default();
        lines.first.get_or_insert(span);
        lines.entries.push(entry);
    }

    fn close_lists(&mut self, draft: &mut Draft<'a>) {
        for (group, lines) in std::mem::take(&mut self.lists) {
            let name = &*self.desk.glossary[group].name;
            let other = lines.first.or(lines.unknown);
            if let (Some(none), Some(_)) = (lines.none, other) {
                let fault = Fault::new(codes::JOB_VALUE, format!("`{name}` is said to be none, and to be something"));
                self.report(none, fault.help(format!("take out `{name} none`, or the other lines on `{name}`")));
                continue;
            }
            if lines.entries.len() > ENTRIES.most {
                self.report(lines.first.unwrap_or_default(), glossary::past(&ENTRIES));
                continue;
            }
            let said = draft.list(group, Entries { entries: lines.entries, more: lines.unknown.is_some() });
            self.keep(lines.first.or(lines.none).unwrap_or_default(), said);
        }
    }

    fn say(&mut self, draft: &mut Draft<'a>, field: FieldId, value: &JobValue, span: Span) {
        if let Some(given) = self.value(field, value, draft.job.place, span) {
            let said = draft.say(field, given);
            self.keep(span, said);
            self.spans.insert(field, span);
        }
    }

    fn value(&mut self, field: FieldId, value: &JobValue, place: PlaceId, at: Span) -> Option<Given> {
        let shape = self.desk.glossary[field].shape;
        let path = &self.desk.glossary[field].path;
        let values = match (value, shape) {
            (JobValue::Unknown, _) => return Some(Given::Unknown),
            (JobValue::None, Shape::Date) => return Some(Given::NoDate),
            (JobValue::None, Shape::Several(_)) => return Some(Given::Set(Terms::NONE)),
            (JobValue::None, Shape::Name) => return Some(Given::Name(NO_NAME.into())),
            (JobValue::None, _) => {
                let help = format!("write a value, or `{path} unknown`");
                self.report(at, self.desk.misfit(shape, "`none`").help(help));
                return None;
            }
            (JobValue::Values(values), _) => values,
        };
        if let Shape::Several(choice) = shape {
            let mut all = Terms::NONE;
            for value in values {
                let place = Some(place);
                let term = self.desk.glossary.term_named(choice, &written(value), place, self.desk.territory);
                let term = self.keep(span(value), term)?;
                if all.has(term) {
                    self.report(span(value), twice(&written(value)));
                }
                all = all.union(Terms::one(term));
            }
            return Some(Given::Set(all));
        }
        match &**values {
            [one] => {
                let found = self.single(shape, one, place);
                self.keep(span(one), found)
            }
            _ => {
                let fault = self.desk.misfit(shape, "a list of values");
                self.report(at, fault.help(format!("write one value after `{path}`")));
                None
            }
        }
    }

    fn single(&self, shape: Shape, value: &Value, place: PlaceId) -> Result<Given, Fault> {
        if let Some(scale) = shape.scale() {
            return glossary::figure(value, scale).map(Given::Measure);
        }
        match (shape, value) {
            (Shape::Date, _) => glossary::day(value).map(Given::Date),
            (_, Value::Word(word)) => self.desk.word(shape, &word.text, place),
            (Shape::Name, Value::Text(text)) => self.desk.word(shape, &text.text, place),
            _ => Err(self.desk.misfit(shape, &format!("`{}`", cut(&written(value))))),
        }
    }
}
