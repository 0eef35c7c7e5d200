//! Codes and their editions: `revises` is carried out here, once, so that every
//! edition is a plain list of sections.

use super::sections::Head;
use super::{Reader, Standing, did_you_mean};
use crate::glossary::expr::Expr;
use crate::law::model::Provenance;
use crate::law::text::{
    Case, Code, Codes, DemandedKind, Edition, EditionId, Lineage, Printed, Section, Unread, is_under,
};
use crate::syntax::codes as errors;
use crate::syntax::diagnostic::{Diagnostic, FileId, Location};
use crate::syntax::nearest::nearest;
use crate::syntax::tree::{self, Action, TextClause};
use std::collections::{HashMap, HashSet};
use std::sync::Arc;

/// An edition's tree, not yet read.
struct Waiting<'t> {
    file: FileId,
    tree: &'t tree::Edition,
}

/// How far an edition is.
#[derive(Clone, Copy, PartialEq)]
enum Progress {
    Untouched,
    AtWork,
    Done,
}

/// Reads the codes and editions of the files.
pub(crate) fn read_codes(files: &[(FileId, &tree::File)], reader: &mut Reader) -> Codes {
    let mut codes = Codes::default();
    declare_codes(files, reader, &mut codes);
    let mut waiting = declare_editions(files, reader, &mut codes);
    let mut builder = Builder {
        progress: vec![Progress::Untouched; waiting.len()],
        waiting: std::mem::take(&mut waiting),
        codes,
        next_lineage: 0,
    };
    for number in 0..builder.waiting.len() {
        builder.build(EditionId(number as u32), reader);
    }
    builder.codes
}

fn declare_codes(files: &[(FileId, &tree::File)], reader: &mut Reader, codes: &mut Codes) {
    let mut found: Vec<Code> = Vec::new();
    for (file, tree) in files {
        for item in &tree.items {
            let tree::Item::Code(code) = item else { continue };
            let standing = Standing::plain(*file, None);
            found.push(Code {
                name: code.name.text.clone(),
                title: code.title.as_ref().map_or_else(|| code.name.text.clone(), |title| title.text.clone()),
                subjects: reader.subjects(&code.subjects, &standing),
                editions: Vec::new(),
                at: standing.at(code.name.span),
            });
        }
    }
    found.sort_by(|one, other| (&one.name, one.at).cmp(&(&other.name, other.at)));
    for code in found {
        match codes.by_name.get(&code.name).and_then(|number| codes.codes.get(*number)) {
            Some(first) => reader.tell(
                Diagnostic::new(errors::DUPLICATE_NAME, code.at, format!("the code `{}` is declared twice", code.name))
                    .also(first.at, "first declared here")
                    .help("declare a code once; its editions may stand in any file"),
            ),
            None => {
                codes.by_name.insert(code.name.clone(), codes.codes.len());
                codes.codes.push(code);
            }
        }
    }
}

fn declare_editions<'t>(
    files: &[(FileId, &'t tree::File)],
    reader: &mut Reader,
    codes: &mut Codes,
) -> Vec<Waiting<'t>> {
    let mut found = Vec::new();
    for (file, tree) in files {
        for item in &tree.items {
            let tree::Item::Edition(edition) = item else { continue };
            let standing = Standing::plain(*file, None);
            let Some(code) = code_number(&edition.name.code, codes, &standing, reader) else { continue };
            let Some(year) = reader.year(&edition.name.year, &standing) else { continue };
            found.push((code, year, Waiting { file: *file, tree: edition }));
        }
    }
    found.sort_by_key(|(code, year, waiting)| (*code, *year, waiting.file, waiting.tree.span));
    let mut waiting = Vec::new();
    let mut seen: HashMap<(usize, i32), Location> = HashMap::new();
    for (code, year, edition) in found {
        let at = Location { file: edition.file, span: edition.tree.name.year.span };
        if let Some(first) = seen.get(&(code, year)) {
            reader.tell(
                Diagnostic::new(
                    errors::DUPLICATE_NAME,
                    at,
                    format!("the edition `{} {year}` is declared twice", edition.tree.name.code.text),
                )
                .also(*first, "first declared here")
                .help("put all of its sections into one `edition`"),
            );
            continue;
        }
        seen.insert((code, year), at);
        let id = EditionId(codes.editions.len() as u32);
        codes.editions.push(Edition {
            code,
            year,
            revises: None,
            published: None,
            text_not_here: edition.tree.text_not_here,
            provenance: Provenance::Missing,
            sections: Vec::new(),
            left_out: Vec::new(),
            unread: Vec::new(),
            family: id.0,
            at,
        });
        if let Some(code) = codes.codes.get_mut(code) {
            code.editions.push((year, id));
        }
        waiting.push(edition);
    }
    waiting
}

/// The number of a code that a text names.
pub(crate) fn code_number(word: &tree::Word, codes: &Codes, standing: &Standing, reader: &mut Reader) -> Option<usize> {
    let number = codes.by_name.get(&word.text).copied();
    if number.is_none() {
        let near = nearest(&word.text, codes.codes.iter().map(|code| &*code.name));
        reader.tell(
            Diagnostic::new(errors::UNKNOWN_CODE, standing.at(word.span), format!("no code is named `{}`", word.text))
                .help(did_you_mean(&near, "declare it with `code`, and its editions with `edition`")),
        );
    }
    number
}

/// The edition that a text names.
pub(crate) fn edition_named(
    name: &tree::EditionName,
    codes: &Codes,
    standing: &Standing,
    reader: &mut Reader,
) -> Option<EditionId> {
    let number = code_number(&name.code, codes, standing, reader)?;
    let year = reader.year(&name.year, standing)?;
    let code = codes.codes.get(number)?;
    let found = code.editions.iter().find(|(of, _)| *of == year).map(|(_, id)| *id);
    if found.is_none() {
        let years: Vec<String> = code.editions.iter().map(|(year, _)| year.to_string()).collect();
        let help = if years.is_empty() {
            format!("declare it with `edition {} {year}`, with `text not here` if its text was not read", code.name)
        } else {
            format!("the editions of {} here are those of {}", code.name, years.join(", "))
        };
        let place = standing.at(name.code.span.to(name.year.span));
        reader.tell(
            Diagnostic::new(errors::UNKNOWN_CODE, place, format!("there is no edition `{} {year}`", code.name))
                .help(help),
        );
    }
    found
}

struct Builder<'t> {
    waiting: Vec<Waiting<'t>>,
    progress: Vec<Progress>,
    codes: Codes,
    next_lineage: u32,
}

impl Builder<'_> {
    fn lineage(&mut self) -> Lineage {
        self.next_lineage += 1;
        Lineage(self.next_lineage)
    }

    /// Reads one edition, those that it builds on first.
    fn build(&mut self, id: EditionId, reader: &mut Reader) {
        match self.progress.get_mut(id.0 as usize) {
            Some(progress) if *progress == Progress::Untouched => *progress = Progress::AtWork,
            _ => return,
        }
        let Some(waiting) = self.waiting.get(id.0 as usize) else { return };
        let (file, tree) = (waiting.file, waiting.tree);
        let plain = Standing::plain(file, None);
        let mut edition = match self.codes.edition(id) {
            Some(edition) => edition.clone(),
            None => return,
        };
        edition.published = tree.published.as_ref().and_then(|word| reader.date(word, &plain));
        edition.provenance = reader.provenance(tree.provenance.as_ref(), &Provenance::Missing, &plain);
        if let Some(base) = &tree.revises
            && let Some(base_id) = edition_named(base, &self.codes, &plain, reader)
            && self.ready(base_id, plain.at(base.code.span.to(base.year.span)), reader)
            && let Some(base) = self.codes.edition(base_id)
        {
            edition.revises = Some(base_id);
            edition.family = base.family;
            edition.sections = base.sections.clone();
            edition.unread = base.unread.clone();
            if base.text_not_here {
                edition.text_not_here = true;
            }
        }
        self.clauses(&mut edition, tree, file, reader);
        self.read_since(&mut edition);
        if let Some(slot) = self.codes.editions.get_mut(id.0 as usize) {
            *slot = edition;
        }
        if let Some(progress) = self.progress.get_mut(id.0 as usize) {
            *progress = Progress::Done;
        }
    }

    /// What was unread in the edition revised stays unread, unless this one holds it
    /// or says of its own what became of it.
    fn read_since(&self, edition: &mut Edition) {
        let Some(base) = edition.revises.and_then(|id| self.codes.edition(id)) else { return };
        let held = |number: &str| edition.section(number).is_some() && base.section(number).is_none();
        let left = |number: &str| edition.left_out.iter().any(|(of, ..)| **of == *number);
        let own = |one: &Unread| base.unread.iter().all(|other| other.2 != one.2);
        let anew = |number: &str| edition.unread.iter().any(|other| *other.0 == *number && own(other));
        let stays = |one: &Unread| own(one) || !(held(&one.0) || left(&one.0) || anew(&one.0));
        let unread = edition.unread.iter().filter(|one| stays(one)).cloned().collect();
        edition.unread = unread;
    }

    /// Sees that an edition is read; tells of a circle.
    fn ready(&mut self, id: EditionId, at: Location, reader: &mut Reader) -> bool {
        self.build(id, reader);
        let done = self.progress.get(id.0 as usize) == Some(&Progress::Done);
        if !done {
            reader.tell(
                Diagnostic::new(errors::CIRCLE, at, "these editions build on each other in a circle")
                    .help("let an edition revise or take over only what does not build on it"),
            );
        }
        done
    }

    fn clauses(&mut self, edition: &mut Edition, tree: &tree::Edition, file: FileId, reader: &mut Reader) {
        let mut names: HashSet<Box<str>> = edition
            .sections
            .iter()
            .filter(|printed| printed.section.definition)
            .map(|printed| printed.number.clone())
            .collect();
        names.extend(tree.clauses.iter().filter_map(|clause| match clause {
            TextClause::Definition(definition) => Some(definition.name.text.clone()),
            _ => None,
        }));
        let defined = |name: &str| names.contains(name);
        let standing = Standing { file, from: None, definitions: &defined };
        renumber(edition, tree, &standing, reader);
        for clause in &tree.clauses {
            match clause {
                TextClause::Patch(patch) if patch.action != Action::Add => {
                    self.patch(edition, patch, &standing, reader)
                }
                _ => {}
            }
        }
        for clause in &tree.clauses {
            match clause {
                TextClause::Section(section) => {
                    let head =
                        Head { title: section.title.as_ref(), subjects: &section.subjects, span: section.number.span };
                    let read = self.body(&head, &section.body, section.extract.as_ref(), edition, &standing, reader);
                    if let Some(read) = read {
                        self.add(edition, &section.number, read, &standing, reader);
                    }
                }
                TextClause::Patch(patch) if patch.action == Action::Add => {
                    let head = Head { title: patch.title.as_ref(), subjects: &patch.subjects, span: patch.number.span };
                    let read = self.body(&head, &patch.body, patch.extract.as_ref(), edition, &standing, reader);
                    if let Some(read) = read {
                        self.add(edition, &patch.number, read, &standing, reader);
                    }
                }
                TextClause::Definition(definition) => {
                    let read = definition_section(definition, &edition.provenance, &standing, reader);
                    // A revised edition may define a word anew.
                    match edition.sections.iter_mut().find(|printed| printed.number == definition.name.text) {
                        Some(printed) if edition.revises.is_some() => printed.section = Arc::new(read),
                        _ => self.add(edition, &definition.name, read, &standing, reader),
                    }
                }
                TextClause::LeftOut(left) => {
                    edition.left_out.push((
                        left.number.text.clone(),
                        left.why.text.clone(),
                        standing.at(left.number.span),
                    ));
                }
                TextClause::Unread(unread) => {
                    let questions = reader.questions(&unread.questions, &standing);
                    edition.unread.push((unread.number.text.clone(), questions, standing.at(unread.number.span)));
                }
                TextClause::Patch(_) | TextClause::Renumber(_) => {}
            }
        }
    }

    /// Reads the body of a section, or takes over another code's.
    fn body(
        &mut self,
        head: &Head,
        body: &tree::Body,
        extract: Option<&(tree::EditionName, tree::Word)>,
        edition: &Edition,
        standing: &Standing,
        reader: &mut Reader,
    ) -> Option<Section> {
        let Some((name, number)) = extract else {
            return Some(reader.section(head, body, &edition.provenance, standing));
        };
        let id = edition_named(name, &self.codes, standing, reader)?;
        if !self.ready(id, standing.at(name.code.span), reader) {
            return None;
        }
        let source = self.codes.edition(id)?;
        let Some(printed) = source.section(&number.text) else {
            let near = nearest(&number.text, source.sections.iter().map(|printed| &*printed.number));
            reader.tell(
                Diagnostic::new(
                    errors::NO_SECTION,
                    standing.at(number.span),
                    format!("`{} {}` has no section `{}`", name.code.text, name.year.text, number.text),
                )
                .help(did_you_mean(&near, "name a section that the library has")),
            );
            return None;
        };
        let mut section = with_definitions(&printed.section, source, &name.code.text);
        if let Some(title) = head.title {
            section.title = title.text.clone();
        }
        let subjects = reader.subjects(head.subjects, standing);
        if !subjects.is_empty() {
            section.subjects = subjects;
        }
        if let Some(summary) = &body.summary {
            section.summary = summary.text.clone();
        }
        let around = section.provenance.clone();
        section.provenance = reader.provenance(body.provenance.as_ref(), &around, standing);
        section.at = standing.at(head.span);
        Some(section)
    }

    fn add(
        &mut self,
        edition: &mut Edition,
        number: &tree::Word,
        section: Section,
        standing: &Standing,
        reader: &mut Reader,
    ) {
        if let Some(first) = edition.section(&number.text) {
            reader.tell(
                Diagnostic::new(
                    errors::DUPLICATE_ID,
                    standing.at(number.span),
                    format!("there is a section `{}` already", number.text),
                )
                .also(first.section.at, "it stands here")
                .help("give the new one another number, or write `replace`"),
            );
            return;
        }
        let lineage = self.lineage();
        edition.sections.push(Printed { lineage, number: number.text.clone(), section: Arc::new(section) });
    }

    fn patch(&mut self, edition: &mut Edition, patch: &tree::Patch, standing: &Standing, reader: &mut Reader) {
        let hit =
            |number: &str| number == &*patch.number.text || (patch.and_under && is_under(number, &patch.number.text));
        let unread = edition.unread.len();
        if patch.action == Action::Delete {
            // What was never read can be gone as well.
            edition.unread.retain(|(number, ..)| !hit(number));
        }
        if !edition.sections.iter().any(|printed| hit(&printed.number)) && edition.unread.len() == unread {
            reader.no_section(&patch.number, edition.sections.iter().map(|printed| &*printed.number), standing);
            return;
        }
        match patch.action {
            Action::Delete => edition.sections.retain(|printed| !hit(&printed.number)),
            Action::Replace => {
                let head = Head { title: patch.title.as_ref(), subjects: &patch.subjects, span: patch.number.span };
                let Some(mut read) = self.body(&head, &patch.body, patch.extract.as_ref(), edition, standing, reader)
                else {
                    return;
                };
                edition.sections.retain(|printed| *printed.number == *patch.number.text || !hit(&printed.number));
                if let Some(printed) = edition.sections.iter_mut().find(|printed| printed.number == patch.number.text) {
                    read.definition = printed.section.definition;
                    printed.section = Arc::new(read);
                }
            }
            Action::Except => {
                let head = Head { title: patch.title.as_ref(), subjects: &patch.subjects, span: patch.number.span };
                let read = reader.section(&head, &patch.body, &edition.provenance, standing);
                let cond = Expr::And(read.wheres);
                for printed in edition.sections.iter_mut().filter(|printed| hit(&printed.number)) {
                    let mut section = (*printed.section).clone();
                    section.excepts.push(cond.clone());
                    if !read.demands.is_empty() {
                        section.cases.push(Case { cond: cond.clone(), demands: read.demands.clone() });
                    }
                    printed.section = Arc::new(section);
                }
            }
            Action::Reads => reader.tell(
                Diagnostic::new(errors::INSTRUMENT, standing.at(patch.span), "an edition does not read itself")
                    .help("`reads` stands in an `amend` block of an authority's instrument"),
            ),
            Action::Add => {}
        }
    }
}

impl Reader<'_> {
    /// Tells that a patch names a section which its base lacks.
    pub(crate) fn no_section<'n>(
        &mut self,
        number: &tree::Word,
        known: impl Iterator<Item = &'n str>,
        standing: &Standing,
    ) {
        let near = nearest(&number.text, known);
        self.tell(
            Diagnostic::new(
                errors::NO_SECTION,
                standing.at(number.span),
                format!("there is no section `{}` to patch", number.text),
            )
            .help(did_you_mean(&near, "use `add` for a section that the text does not have")),
        );
    }
}

/// Carries out the `renumber` lines of an edition, all at once; sub-sections go
/// along unless a line of their own says otherwise.
fn renumber(edition: &mut Edition, tree: &tree::Edition, standing: &Standing, reader: &mut Reader) {
    let lines: Vec<&tree::Renumber> = tree
        .clauses
        .iter()
        .filter_map(|clause| match clause {
            TextClause::Renumber(line) => Some(line),
            _ => None,
        })
        .collect();
    for line in &lines {
        let known = edition.sections.iter().map(|printed| &printed.number);
        if !known.chain(edition.unread.iter().map(|(number, ..)| number)).any(|number| *number == line.from.text) {
            reader.no_section(&line.from, edition.sections.iter().map(|printed| &*printed.number), standing);
        }
    }
    let pairs: Vec<(Box<str>, Box<str>)> =
        lines.iter().map(|line| (line.from.text.clone(), line.to.text.clone())).collect();
    for printed in &mut edition.sections {
        if let Some(number) = renumbered(&printed.number, &pairs) {
            printed.number = number;
        }
    }
    for (unread, ..) in &mut edition.unread {
        if let Some(number) = renumbered(unread, &pairs) {
            *unread = number;
        }
    }
}

/// The number that a section gets from these renumberings; nothing where none
/// of them reaches it. The longest number that fits decides.
pub(crate) fn renumbered(number: &str, pairs: &[(Box<str>, Box<str>)]) -> Option<Box<str>> {
    pairs
        .iter()
        .filter(|(from, _)| number == &**from || is_under(number, from))
        .max_by_key(|(from, _)| from.len())
        .map(|(from, to)| format!("{to}{}", number.strip_prefix(&**from).unwrap_or_default()).into())
}

fn definition_section(
    definition: &tree::Definition,
    around: &Provenance,
    standing: &Standing,
    reader: &mut Reader,
) -> Section {
    Section {
        title: definition.title.as_ref().map(|title| title.text.clone()).unwrap_or_default(),
        summary: Box::default(),
        subjects: Vec::new(),
        wheres: vec![reader.condition(&definition.cond, standing)],
        excepts: Vec::new(),
        demands: Vec::new(),
        table: None,
        cases: Vec::new(),
        definition: true,
        provenance: reader.provenance(definition.provenance.as_ref(), around, standing),
        at: standing.at(definition.name.span),
    }
}

/// The section with the definitions and tables of its own edition put in place, so
/// that it means the same in another text.
fn with_definitions(section: &Section, source: &Edition, code: &str) -> Section {
    let mut taken = section.clone();
    let put = |expr: &mut Expr| *expr = put_definitions(expr, source, 0);
    taken.wheres.iter_mut().for_each(put);
    taken.excepts.iter_mut().for_each(put);
    taken.cases.iter_mut().for_each(|case| put(&mut case.cond));
    let demands = taken.demands.iter_mut().chain(taken.cases.iter_mut().flat_map(|case| &mut case.demands));
    for demand in demands {
        // A table of its own text stays the table of the text that it was taken from.
        if let DemandedKind::Table { from, .. } = &mut demand.kind
            && from.code.is_none()
        {
            from.code = Some(code.into());
            from.year = Some(source.year);
        }
    }
    taken
}

fn put_definitions(expr: &Expr, source: &Edition, depth: usize) -> Expr {
    let inner = |expr: &Expr| put_definitions(expr, source, depth + 1);
    match expr {
        Expr::Defined(name, _) if depth < crate::syntax::limits::NESTING.most => match source.section(name) {
            Some(printed) => Expr::And(printed.section.wheres.iter().map(inner).collect()),
            None => Expr::Constant(false),
        },
        Expr::And(parts) => Expr::And(parts.iter().map(inner).collect()),
        Expr::Or(parts) => Expr::Or(parts.iter().map(inner).collect()),
        Expr::Not(part) => Expr::Not(Box::new(inner(part))),
        Expr::Entries { any, group, with } => Expr::Entries { any: *any, group: *group, with: Box::new(inner(with)) },
        other => other.clone(),
    }
}
