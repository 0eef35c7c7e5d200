//! Texts as amended: every section in each of the forms that the patches of the
//! path give it, with the conditions under which it has that form.

use super::Compiler;
use super::clauses::{Clauses, clause, cond_of};
use super::expr::Inside;
use super::level::Level;
use super::number::{Base, Block, Line, PatchName, blocks, numbering};
use crate::glossary::expr::Expr;
use crate::glossary::model::QuestionId;
use crate::law::instrument::{InstrumentId, Weight};
use crate::law::model::{Clause, CondId, Fate, SourceId};
use crate::law::resolve::codes::renumbered;
use crate::law::text::{Demanded, Section};
use crate::syntax::tree::Action;
use crate::values::Date;
use std::collections::HashMap;
use std::sync::Arc;

/// A section in one of its forms.
#[derive(Clone)]
pub(crate) struct Variant {
    pub(crate) line: Line,
    pub(crate) number: Box<str>,
    pub(crate) section: Arc<Section>,
    /// When the section has this form; the text's own reach is not among it.
    pub(crate) presence: Clauses,
    /// Exceptions that patches make: when, for which case, by whom.
    pub(crate) excepts: Vec<Exception>,
    /// Readings of what the section refers.
    pub(crate) reads: Vec<Exception>,
    /// The instrument whose text this is, where it is not the text's own.
    pub(crate) amended_by: Option<InstrumentId>,
    /// Who made this form, and when, so that equals in time do not undo each other.
    made: Option<Made>,
}

/// How deep the place lies that patches, its instrument's day in force and day
/// adopted, and the instrument.
type Made = (u32, Option<Date>, Option<Date>, InstrumentId);

/// An excepted case, or the case of a reading.
#[derive(Clone)]
pub(crate) struct Exception {
    /// When the patch has effect.
    pub(crate) guard: CondId,
    pub(crate) cond: Expr,
    pub(crate) demands: Vec<Demanded>,
    pub(crate) by: InstrumentId,
    pub(crate) section: Arc<Section>,
    /// A reading of an advisory kind does not answer.
    pub(crate) advisory: bool,
}

/// The forms of every section of a text.
#[derive(Clone, Default)]
pub(crate) struct Variants {
    pub(crate) list: Vec<Variant>,
    /// Patches of any edition that find no section here: the questions that they
    /// bear on are referred while the patch has effect.
    pub(crate) lost: Vec<Lost>,
}

/// A patch without a section to patch.
#[derive(Clone)]
pub(crate) struct Lost {
    pub(crate) guard: CondId,
    pub(crate) number: Box<str>,
    pub(crate) questions: Vec<QuestionId>,
    pub(crate) by: InstrumentId,
}

/// The text at work.
struct Bench<'c, 'l> {
    compiler: &'c mut Compiler<'l>,
    level: &'c mut Level,
    variants: Variants,
    /// Who has taken a section away, and when it is gone.
    removed: HashMap<Line, Vec<(Made, CondId)>>,
    code_subjects: Vec<crate::glossary::model::SubjectId>,
}

/// The text as it is amended at a level; patches of places outside `from_depth`
/// are left out.
pub(crate) fn variants<'l>(
    compiler: &mut Compiler<'l>,
    level: &mut Level,
    base: Base<'l>,
    from_depth: u32,
) -> Variants {
    let instruments: Vec<InstrumentId> = level
        .instruments
        .iter()
        .copied()
        .filter(|id| compiler.instrument(*id).is_some_and(|own| compiler.depth(own.issuer) >= from_depth))
        .collect();
    let mut list = blocks(compiler, &instruments, base);
    let names = numbering(compiler, base, &list);
    let printed = printed(compiler, base);
    let code_subjects = match base {
        Base::Edition(id) => compiler
            .library
            .codes
            .edition(id)
            .and_then(|edition| compiler.library.codes.code_of(edition))
            .map(|code| code.subjects.clone())
            .unwrap_or_default(),
        Base::Instrument(..) => Vec::new(),
    };
    list.sort_by_key(|block| {
        compiler.instrument(block.instrument).map(|own| (compiler.depth(own.issuer), own.rank(), own.id.clone()))
    });
    let mut bench = Bench {
        compiler,
        level,
        variants: Variants { list: printed, lost: Vec::new() },
        removed: HashMap::new(),
        code_subjects,
    };
    let mut rest = list.as_slice();
    while let Some(first) = rest.first() {
        let when = |block: &Block| {
            bench.compiler.instrument(block.instrument).map(|own| (bench.compiler.depth(own.issuer), own.rank()))
        };
        let tied = rest.iter().take_while(|block| when(block) == when(first)).count();
        let (now, later) = rest.split_at(tied);
        // Patches of one day both bind, whatever the ids of their instruments: an
        // exception applies after the others.
        for last in [false, true] {
            for block in now {
                bench.block(block, &names.lines, last);
            }
        }
        rest = later;
    }
    bench.variants
}

fn printed<'l>(compiler: &Compiler<'l>, base: Base<'l>) -> Vec<Variant> {
    let plain = |line, number: &str, section: &Arc<Section>| Variant {
        line,
        number: number.into(),
        section: Arc::clone(section),
        presence: Vec::new(),
        excepts: Vec::new(),
        reads: Vec::new(),
        amended_by: None,
        made: None,
    };
    match base {
        Base::Edition(id) => compiler
            .library
            .codes
            .edition(id)
            .map(|edition| edition.sections.as_slice())
            .unwrap_or_default()
            .iter()
            .map(|printed| plain(Line::Printed(printed.lineage), &printed.number, &printed.section))
            .collect(),
        Base::Instrument(_, own) => own
            .sections
            .iter()
            .enumerate()
            .map(|(at, (number, section))| plain(Line::Own(at), number, section))
            .collect(),
    }
}

impl Bench<'_, '_> {
    /// Carries out a block's patches, or its exceptions and readings alone.
    fn block(&mut self, block: &Block, names: &HashMap<PatchName, Vec<Line>>, last: bool) {
        let id = block.instrument;
        let Some(own) = self.compiler.instrument(id) else { return };
        let depth = self.compiler.depth(own.issuer);
        let mut effect = self.level.effect(self.compiler, id);
        let subjects = self.code_subjects.clone();
        effect.extend(self.level.all_subjects_powers(self.compiler, &subjects, depth));
        let made = (depth, own.rank().0, own.rank().1, id);
        let advisory = own.kind.weight() == Weight::Advisory;
        if !last {
            self.renumber(&block.block.renumbers, &effect);
        }
        for (at, patch) in block.block.patches.iter().enumerate() {
            if last != matches!(patch.action, Action::Except | Action::Reads) {
                continue;
            }
            let name = PatchName { instrument: id, amend: block.amend, patch: at };
            let lines = names.get(&name).cloned().unwrap_or_default();
            let mut effect = effect.clone();
            self.level.ends_of(self.compiler, id, Some(&patch.number), &mut effect);
            let guard = cond_of(&mut self.compiler.arena, &effect);
            if lines.is_empty() {
                let mut questions = patch.section.questions();
                questions.extend(self.lost_questions(block, &patch.number));
                questions.sort();
                questions.dedup();
                self.variants.lost.push(Lost { guard, number: patch.number.clone(), questions, by: id });
                continue;
            }
            match patch.action {
                Action::Replace | Action::Add => {
                    self.put(lines, patch.number.clone(), &patch.section, patch.action, &effect, guard, made)
                }
                Action::Delete => self.take_away(&lines, guard, made),
                Action::Except | Action::Reads => {
                    let exception = Exception {
                        guard,
                        cond: Expr::And(patch.section.wheres.clone()),
                        demands: patch.section.demands.clone(),
                        by: id,
                        section: Arc::clone(&patch.section),
                        advisory,
                    };
                    self.except(&lines, patch.number.clone(), exception, patch.action, &effect, made);
                }
            }
        }
    }

    /// The questions of the section that a lost patch meant, as the edition with
    /// its numbers prints it.
    fn lost_questions(&self, block: &Block, number: &str) -> Vec<QuestionId> {
        let crate::law::instrument::Target::Any { numbered, .. } = block.block.target else { return Vec::new() };
        self.compiler
            .library
            .codes
            .edition(numbered)
            .and_then(|edition| edition.section(number))
            .map(|printed| printed.section.questions())
            .unwrap_or_default()
    }

    /// Renumbers what stands while the renumbering has effect.
    fn renumber(&mut self, pairs: &[(Box<str>, Box<str>)], effect: &[Clause]) {
        if pairs.is_empty() {
            return;
        }
        let guard = cond_of(&mut self.compiler.arena, effect);
        let not = self.compiler.arena.not(guard);
        let mut more = Vec::new();
        for variant in &mut self.variants.list {
            let Some(number) = renumbered(&variant.number, pairs) else { continue };
            let mut moved = variant.clone();
            moved.number = number;
            moved.presence.push(clause(guard, Fate::NotInForce, None));
            variant.presence.push(clause(not, Fate::NotInForce, None));
            more.push(moved);
        }
        self.variants.list.extend(more);
    }

    fn same_time(made: Option<Made>, by: Made) -> bool {
        made.is_some_and(|made| (made.0, made.1, made.2) == (by.0, by.1, by.2) && made.3 != by.3)
    }

    /// Puts a section in the place of these, or adds it.
    #[expect(clippy::too_many_arguments, reason = "one patch is that many things, used once")]
    fn put(
        &mut self,
        lines: Vec<Line>,
        number: Box<str>,
        section: &Arc<Section>,
        action: Action,
        effect: &[Clause],
        guard: CondId,
        made: Made,
    ) {
        let by = self.compiler.instrument_source(made.3);
        let mut standing = Vec::new();
        let mut last: Option<(Line, Box<str>, Vec<crate::glossary::model::SubjectId>, bool)> = None;
        let not = self.compiler.arena.not(guard);
        let named = self.variants.list.iter().find(|variant| lines.contains(&variant.line) && variant.number == number);
        let main = named.map(|variant| variant.line).or_else(|| lines.first().copied());
        for at in 0..self.variants.list.len() {
            let Some(variant) = self.variants.list.get(at) else { continue };
            if !lines.contains(&variant.line) {
                continue;
            }
            let present = cond_of(&mut self.compiler.arena, &variant.presence);
            standing.push(present);
            if Self::same_time(variant.made, made) {
                continue;
            }
            if last.is_none() || *variant.number == *number {
                last = Some((
                    variant.line,
                    variant.number.clone(),
                    variant.section.subjects.clone(),
                    variant.section.definition,
                ));
            }
            // A section under the one that is replaced goes without another in its place.
            if action == Action::Replace && Some(variant.line) != main {
                let gone = self.compiler.arena.and([guard, present]);
                self.removed.entry(variant.line).or_default().push((made, gone));
            }
            if let Some(variant) = self.variants.list.get_mut(at) {
                variant.presence.push(clause(not, Fate::Replaced, Some(by)));
            }
        }
        for line in &lines {
            let gone = self.removed.get(line).cloned().unwrap_or_default();
            let meant = |by: Made| by.0 < made.0 || Self::same_time(Some(by), made);
            standing.extend(gone.into_iter().filter(|(by, _)| meant(*by)).map(|(_, cond)| cond));
        }
        let mut presence: Clauses = effect.to_vec();
        let mut section = Arc::clone(section);
        let mut line = main.unwrap_or(Line::Own(usize::MAX));
        let mut shown = number;
        if let Some((of, current, subjects, definition)) = last {
            let mut own = (*section).clone();
            if own.subjects.is_empty() {
                own.subjects = subjects;
            }
            own.definition |= definition;
            section = Arc::new(own);
            if lines.len() == 1 {
                (line, shown) = (of, current);
            }
        }
        if action == Action::Replace {
            let stands = self.compiler.arena.or(standing);
            presence.push(clause(stands, Fate::NotInForce, None));
        }
        self.variants.list.push(Variant {
            line,
            number: shown,
            section,
            presence,
            excepts: Vec::new(),
            reads: Vec::new(),
            amended_by: Some(made.3),
            made: Some(made),
        });
    }

    fn take_away(&mut self, lines: &[Line], guard: CondId, made: Made) {
        let by: SourceId = self.compiler.instrument_source(made.3);
        let not = self.compiler.arena.not(guard);
        for at in 0..self.variants.list.len() {
            let Some(variant) = self.variants.list.get(at) else { continue };
            if !lines.contains(&variant.line) || Self::same_time(variant.made, made) {
                continue;
            }
            let present = cond_of(&mut self.compiler.arena, &variant.presence);
            let gone = self.compiler.arena.and([guard, present]);
            self.removed.entry(variant.line).or_default().push((made, gone));
            if let Some(variant) = self.variants.list.get_mut(at) {
                variant.presence.push(clause(not, Fate::Deleted, Some(by)));
            }
        }
    }

    fn except(
        &mut self,
        lines: &[Line],
        number: Box<str>,
        exception: Exception,
        action: Action,
        effect: &[Clause],
        made: Made,
    ) {
        for variant in self.variants.list.iter_mut().filter(|variant| lines.contains(&variant.line)) {
            let cases = if action == Action::Except { &mut variant.excepts } else { &mut variant.reads };
            cases.push(exception.clone());
        }
        if action != Action::Except || exception.demands.is_empty() {
            return;
        }
        // What an outer place took away is no longer there to be excepted: the
        // case stands on its own.
        for line in lines {
            let gone: Vec<CondId> = self
                .removed
                .get(line)
                .into_iter()
                .flatten()
                .filter(|(by, _)| by.0 < made.0)
                .map(|(_, cond)| *cond)
                .collect();
            if gone.is_empty() {
                continue;
            }
            let gone = self.compiler.arena.or(gone);
            let mut presence: Clauses = effect.to_vec();
            presence.push(clause(gone, Fate::NotInForce, None));
            self.variants.list.push(Variant {
                line: *line,
                number: number.clone(),
                section: Arc::clone(&exception.section),
                presence,
                excepts: Vec::new(),
                reads: Vec::new(),
                amended_by: Some(made.3),
                made: Some(made),
            });
        }
    }
}

impl Variants {
    /// The forms of the sections with this number that hold a table.
    pub(crate) fn tables(&self, number: &str) -> Vec<&Variant> {
        self.list.iter().filter(|variant| &*variant.number == number && variant.section.table.is_some()).collect()
    }

    /// What a condition of this text is read in.
    pub(crate) fn inside(&self) -> Inside<'_> {
        Inside::text(self)
    }
}
