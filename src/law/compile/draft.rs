//! Provisions while the law of a place is made: demands not yet on their
//! question's scale.

use super::Compiler;
use super::adoption::{Standing, adoptions};
use super::clauses::{Clauses, clause, cond_of, tidy};
use super::expr::{Inside, Rule};
use super::level::Level;
use super::number::Base;
use super::patch::{Exception, Variant, Variants, variants};
use super::reach::Reach;
use crate::glossary::demand::Asked;
use crate::glossary::expr::Expr;
use crate::glossary::model::QuestionId;
use crate::law::instrument::{Instrument, InstrumentId, Weight};
use crate::law::model::{Clause, CondId, Fate, SourceId};
use crate::law::text::{Demanded, DemandedKind, EditionId, Section};

/// A provision in the making.
#[derive(Clone)]
pub(crate) struct Draft {
    pub(crate) question: QuestionId,
    pub(crate) kind: DraftKind,
    pub(crate) reach: CondId,
    pub(crate) clauses: Clauses,
    pub(crate) source: SourceId,
    /// The table of which it is a row.
    pub(crate) table: Option<SourceId>,
    pub(crate) words: Box<str>,
    /// The instruments whose law it is: that which adopted, amended or made it.
    pub(crate) owners: Vec<InstrumentId>,
    /// The code that it belongs to.
    pub(crate) code: Option<Box<str>>,
    /// It is a maker's instruction that the law has made binding.
    pub(crate) instruction: bool,
}

/// What a draft does.
#[derive(Clone)]
pub(crate) enum DraftKind {
    Ask(Asked),
    Refer(Box<str>),
}

/// A maker's instruction, before any law binds it.
#[derive(Clone)]
pub(crate) struct Instruction {
    pub(crate) question: QuestionId,
    pub(crate) kind: DraftKind,
    pub(crate) reach: CondId,
    pub(crate) guard: CondId,
    pub(crate) clauses: Clauses,
    pub(crate) wheres: Vec<Expr>,
    pub(crate) source: SourceId,
    table: Option<SourceId>,
    pub(crate) words: Box<str>,
}

/// A `note` demand.
pub(crate) struct DraftNote {
    pub(crate) guard: CondId,
    pub(crate) text: Box<str>,
    pub(crate) source: SourceId,
}

/// A law that makes instructions binding on a question.
struct Bind {
    question: QuestionId,
    reach: CondId,
    clauses: Clauses,
    owners: Vec<InstrumentId>,
}

/// A text as it stands at a level, with where it comes from.
pub(crate) struct Text<'l> {
    pub(crate) origin: Origin<'l>,
    pub(crate) variants: Variants,
}

/// Where a text comes from.
#[derive(Clone, Copy)]
pub(crate) enum Origin<'l> {
    Adopted(Standing<'l>),
    Own(InstrumentId, &'l Instrument),
}

/// Everything that a level of the path says.
#[derive(Default)]
pub(crate) struct Drafts {
    pub(crate) binding: Vec<Draft>,
    pub(crate) advice: Vec<Draft>,
    pub(crate) notes: Vec<DraftNote>,
    binds: Vec<Bind>,
}

/// One section in one form, ready to be told.
pub(crate) struct Told<'t> {
    pub(crate) variant: &'t Variant,
    pub(crate) text: &'t Variants,
    code: Option<&'t str>,
    pub(crate) edition: Option<EditionId>,
    pub(crate) adopter: InstrumentId,
    weight: Weight,
}

impl Drafts {
    /// Drafts the provisions of a level: its adopted editions as amended, its
    /// instruments' own sections, and what instructions they make binding.
    pub(crate) fn of_level<'l>(
        compiler: &mut Compiler<'l>,
        level: &mut Level,
    ) -> (Drafts, Vec<Text<'l>>, Vec<Standing<'l>>) {
        let (standings, texts) = texts_of(compiler, level);
        let mut drafts = Drafts::default();
        for text in &texts {
            let reach = Reach { compiler, level, around: None, standings: &standings, texts: &texts };
            drafts.text(reach, text);
        }
        drafts.bind(compiler);
        drafts.prevail(compiler, level);
        (drafts, texts, standings)
    }

    /// Drafts what makers and suppliers say. They may size by the tables of the
    /// codes in force at the place.
    pub(crate) fn of_outsiders(compiler: &mut Compiler, around: &mut Level) -> Drafts {
        let mut level = Level::of_outsiders(compiler);
        let (_, own) = texts_of(compiler, &mut level);
        let sizes = |text: &Text| text.variants.list.iter().any(|variant| sizes_by_a_code(&variant.section));
        let (standings, texts) = if own.iter().any(sizes) { texts_of(compiler, around) } else { Default::default() };
        let mut drafts = Drafts::default();
        for text in &own {
            let reach =
                Reach { compiler, level: &mut level, around: Some(around), standings: &standings, texts: &texts };
            drafts.text(reach, text);
        }
        drafts
    }

    fn text(&mut self, mut reach: Reach, text: &Text) {
        match text.origin {
            Origin::Adopted(standing) => {
                let Some(edition) = reach.compiler.library.codes.edition(standing.edition()) else { return };
                let Some(code) = reach.compiler.library.codes.code_of(edition) else { return };
                for variant in &text.variants.list {
                    let told = Told {
                        variant,
                        text: &text.variants,
                        code: Some(&code.name),
                        edition: Some(standing.edition()),
                        adopter: standing.instrument,
                        weight: Weight::Binding,
                    };
                    let subjects =
                        if variant.section.subjects.is_empty() { &code.subjects } else { &variant.section.subjects };
                    self.section(&mut reach, &told, &mut |reach, question| {
                        reach.adopted(&standing, &code.subjects, subjects, question)
                    });
                }
                self.untold(&mut reach, &standing, &text.variants);
            }
            Origin::Own(id, own) => {
                for variant in &text.variants.list {
                    let told = Told {
                        variant,
                        text: &text.variants,
                        code: None,
                        edition: None,
                        adopter: id,
                        weight: own.kind.weight(),
                    };
                    let subjects = variant.section.subjects.clone();
                    self.section(&mut reach, &told, &mut |reach, question| {
                        reach.free(id, own, &told, &subjects, question)
                    });
                }
            }
        }
    }

    /// Drafts what one form of a section says; `base` gives the clauses under
    /// which its text reaches a question.
    fn section(
        &mut self,
        reach: &mut Reach,
        told: &Told,
        base: &mut dyn FnMut(&mut Reach, Option<QuestionId>) -> Clauses,
    ) {
        let variant = told.variant;
        let section = &variant.section;
        if section.definition {
            return;
        }
        let rule = Rule { wheres: &section.wheres, demands: &section.demands };
        let inside = told.text.inside().of_rule(rule);
        let source =
            reach.compiler.section_source(told.adopter, told.edition, &variant.number, section, variant.amended_by);
        let owners: Vec<InstrumentId> = [Some(told.adopter), variant.amended_by].into_iter().flatten().collect();
        let wheres: Clauses = section
            .wheres
            .iter()
            .map(|cond| clause(reach.compiler.expr(cond, inside), Fate::PassedOver, None))
            .collect();
        let mut excepts: Clauses = Vec::new();
        for cond in &section.excepts {
            let cond = reach.compiler.expr(cond, inside);
            excepts.push(clause(reach.compiler.arena.not(cond), Fate::Excepted, Some(source)));
        }
        let mut cases: Vec<SpecialCase> = Vec::new();
        for case in &section.cases {
            let cond = reach.compiler.expr(&case.cond, inside);
            cases.push((CondId::TRUE, cond, &case.demands, source, owners.clone()));
        }
        for exception in &variant.excepts {
            let (held, by) = exception_of(reach.compiler, exception, inside, told, &variant.number);
            excepts.push(clause(reach.compiler.arena.not(held), Fate::Excepted, Some(by)));
            let mut also = owners.clone();
            also.push(exception.by);
            cases.push((exception.guard, held, &exception.demands, by, also));
        }
        let mut readings: Vec<(CondId, SourceId, &Exception)> = Vec::new();
        for reading in &variant.reads {
            let (held, by) = exception_of(reach.compiler, reading, inside, told, &variant.number);
            readings.push((held, by, reading));
        }
        let main = Part {
            clauses: [wheres.clone(), excepts.clone()].concat(),
            source,
            owners: owners.clone(),
            weight: told.weight,
            code: told.code,
            readings: &readings,
        };
        self.demands(reach, &section.demands, &main, told, base);
        for (guard, cond, demands, source, owners) in cases {
            let conds = vec![clause(cond, Fate::PassedOver, None)];
            let part = Part {
                clauses: [wheres.clone(), conds].concat(),
                source,
                owners,
                weight: told.weight,
                code: told.code,
                readings: &[],
            };
            self.demands(reach, demands, &part, told, &mut |reach, question| with(base(reach, question), guard));
        }
        for (held, by, reading) in &readings {
            let weight = if reading.advisory { Weight::Advisory } else { told.weight };
            let conds = vec![clause(*held, Fate::PassedOver, None)];
            let mut also = owners.clone();
            also.push(reading.by);
            let part = Part {
                clauses: [wheres.clone(), excepts.clone(), conds].concat(),
                source: *by,
                owners: also,
                weight,
                code: told.code,
                readings: &[],
            };
            let guard = reading.guard;
            self.demands(reach, &reading.demands, &part, told, &mut |reach, question| {
                with(base(reach, question), guard)
            });
        }
    }

    fn demands(
        &mut self,
        reach: &mut Reach,
        demands: &[Demanded],
        part: &Part,
        told: &Told,
        base: &mut dyn FnMut(&mut Reach, Option<QuestionId>) -> Clauses,
    ) {
        for demand in demands {
            match &demand.kind {
                DemandedKind::Value(asked) => {
                    let (base, rest) = part.with(base(reach, Some(asked.question)), &told.variant.presence);
                    let clauses = (Clauses::new(), base, rest);
                    let asked = (asked.question, DraftKind::Ask(asked.clone()), None);
                    self.put(reach, asked, clauses, part, &demand.words, told);
                }
                DemandedKind::Refer { questions, why } => {
                    for question in questions {
                        let (base, mut rest) = part.with(base(reach, Some(*question)), &told.variant.presence);
                        for (held, by, reading) in part.readings.iter().filter(|(_, _, reading)| !reading.advisory) {
                            if reading.demands.iter().any(|demand| demand.kind.questions().contains(question)) {
                                rest.push(clause(reach.compiler.arena.not(*held), Fate::ReadAs, Some(*by)));
                            }
                        }
                        let clauses = (Clauses::new(), base, rest);
                        let asked = (*question, DraftKind::Refer(why.clone()), None);
                        self.put(reach, asked, clauses, part, &demand.words, told);
                    }
                }
                DemandedKind::Table { question, from } => {
                    let rows = reach.rows(*question, from, told);
                    for (selected, kind, words, table) in rows {
                        let (base, rest) = part.with(base(reach, Some(*question)), &told.variant.presence);
                        // First, so that only the row that the job selects is told of.
                        let lead = vec![clause(selected, Fate::NotInForce, None)];
                        let words = words.unwrap_or_else(|| demand.words.clone());
                        self.put(reach, (*question, kind, table), (lead, base, rest), part, &words, told);
                    }
                }
                // Only law makes instructions binding; advice to follow them does not.
                DemandedKind::Bind(_) if part.weight != Weight::Binding => {}
                DemandedKind::Bind(questions) => {
                    for question in questions {
                        let (base, all) = part.with(base(reach, Some(*question)), &told.variant.presence);
                        let reach = cond_of(&mut reach.compiler.arena, &base);
                        self.binds.push(Bind {
                            question: *question,
                            reach,
                            clauses: [base, all].concat(),
                            owners: part.owners.clone(),
                        });
                    }
                }
                DemandedKind::Note(text) => {
                    let (base, all) = part.with(base(reach, None), &told.variant.presence);
                    let guard = cond_of(&mut reach.compiler.arena, &[base, all].concat());
                    self.notes.push(DraftNote { guard, text: text.clone(), source: part.source });
                }
            }
        }
    }

    fn put(
        &mut self,
        reach: &mut Reach,
        (question, kind, table): (QuestionId, DraftKind, Option<SourceId>),
        (lead, base, rest): (Clauses, Clauses, Clauses),
        part: &Part,
        words: &str,
        told: &Told,
    ) {
        let compiler = &mut *reach.compiler;
        if !compiler.knows(question) {
            return;
        }
        let reach = cond_of(&mut compiler.arena, &base);
        let clauses = tidy([lead, base, rest].concat());
        if reach == CondId::FALSE {
            return;
        }
        if part.weight == Weight::Instructions {
            let guard = cond_of(&mut compiler.arena, &clauses);
            compiler.instructions.push(Instruction {
                question,
                kind,
                reach,
                guard,
                clauses,
                wheres: told.variant.section.wheres.clone(),
                source: part.source,
                table,
                words: words.into(),
            });
            return;
        }
        let draft = Draft {
            question,
            kind,
            reach,
            clauses,
            source: part.source,
            table,
            words: words.into(),
            owners: part.owners.clone(),
            code: part.code.map(Into::into),
            instruction: false,
        };
        match part.weight {
            Weight::Binding => self.binding.push(draft),
            _ => self.advice.push(draft),
        }
    }

    /// What an edition leaves untold: a text that is not here, sections not read,
    /// patches without a section.
    fn untold(&mut self, reach: &mut Reach, standing: &Standing, text: &Variants) {
        let library = reach.compiler.library;
        let Some(edition) = library.codes.edition(standing.edition()) else { return };
        let Some(code) = library.codes.code_of(edition) else { return };
        let name = format!("{} {}", code.name, edition.year);
        let mut untold: Vec<(Vec<QuestionId>, CondId, String, Option<&str>)> = Vec::new();
        let of_subjects = |compiler: &Compiler| compiler.questions_on(&standing.adoption.subjects);
        if edition.text_not_here {
            untold.push((
                of_subjects(reach.compiler),
                CondId::TRUE,
                format!("the text of {name} is not in this library"),
                None,
            ));
        }
        for (number, questions, _) in &edition.unread {
            let questions = if questions.is_empty() { of_subjects(reach.compiler) } else { questions.clone() };
            untold.push((
                questions,
                CondId::TRUE,
                format!("section {number} of {name} was not read for this library"),
                Some(number),
            ));
        }
        for lost in &text.lost {
            let by = reach.compiler.instrument(lost.by).map(|own| own.id.clone()).unwrap_or_default();
            let why =
                format!("{by} changes section {} of another edition, and {name} has no such section", lost.number);
            untold.push((lost.questions.clone(), lost.guard, why, Some(&lost.number)));
        }
        for (questions, cond, why, number) in untold {
            let plain = Section::bare(&edition.provenance, edition.at);
            let source = reach.compiler.section_source(
                standing.instrument,
                Some(standing.edition()),
                number.unwrap_or_default(),
                &plain,
                None,
            );
            for question in questions {
                let mut base = reach.adopted(standing, &code.subjects, &code.subjects, Some(question));
                base.push(clause(cond, Fate::NotInForce, None));
                let draft = Draft {
                    question,
                    kind: DraftKind::Refer(why.clone().into()),
                    reach: cond_of(&mut reach.compiler.arena, &base),
                    clauses: tidy(base),
                    source,
                    table: None,
                    words: format!("refer {} \"{why}\"", reach.compiler.library.glossary[question].name).into(),
                    owners: vec![standing.instrument],
                    code: Some(code.name.clone()),
                    instruction: false,
                };
                if reach.compiler.knows(question) && draft.reach != CondId::FALSE {
                    self.binding.push(draft);
                }
            }
        }
    }

    /// Makes instructions binding where the law says so.
    fn bind(&mut self, compiler: &mut Compiler) {
        let instructions = compiler.instructions.clone();
        for bind in &self.binds {
            for instruction in instructions.iter().filter(|instruction| instruction.question == bind.question) {
                let reach = compiler.arena.and([bind.reach, instruction.reach]);
                self.binding.push(Draft {
                    question: bind.question,
                    kind: instruction.kind.clone(),
                    reach,
                    clauses: tidy([bind.clauses.clone(), instruction.clauses.clone()].concat()),
                    source: instruction.source,
                    table: instruction.table,
                    words: instruction.words.clone(),
                    owners: bind.owners.clone(),
                    code: None,
                    instruction: true,
                });
            }
        }
    }

    /// Instructions where no law binds them: advice.
    pub(crate) fn instructions_as_advice(&mut self, compiler: &mut Compiler) {
        let instructions = compiler.instructions.clone();
        for instruction in instructions {
            let mut bound = Vec::new();
            for bind in self.binds.iter().filter(|bind| bind.question == instruction.question) {
                let held = cond_of(&mut compiler.arena, &bind.clauses);
                bound.push(held);
            }
            let bound = compiler.arena.or(bound);
            let free = compiler.arena.not(bound);
            let mut clauses = instruction.clauses.clone();
            clauses.push(clause(free, Fate::NotInForce, None));
            self.advice.push(Draft {
                question: instruction.question,
                kind: instruction.kind.clone(),
                reach: instruction.reach,
                clauses: tidy(clauses),
                source: instruction.source,
                table: instruction.table,
                words: instruction.words.clone(),
                owners: Vec::new(),
                code: None,
                instruction: true,
            });
        }
    }

    /// Sets aside the layers over which an instrument's law prevails.
    fn prevail(&mut self, compiler: &mut Compiler, level: &Level) {
        for id in &level.instruments {
            let Some(own) = compiler.instrument(*id) else { continue };
            for prevails in &own.prevails {
                let layer = |draft: &Draft| {
                    draft.code.as_ref().is_some_and(|code| prevails.codes.contains(code))
                        || (prevails.instructions && draft.instruction)
                };
                let mut answered: Vec<(QuestionId, CondId)> = Vec::new();
                for draft in &self.binding {
                    let speaks = draft.owners.contains(id) && !layer(draft) && matches!(draft.kind, DraftKind::Ask(_));
                    if speaks && (prevails.questions.is_empty() || prevails.questions.contains(&draft.question)) {
                        let guard = cond_of(&mut compiler.arena, &draft.clauses);
                        answered.push((draft.question, guard));
                    }
                }
                let by = compiler.instrument_source(*id);
                for draft in self.binding.iter_mut().filter(|draft| layer(draft)) {
                    let over: Vec<CondId> = answered
                        .iter()
                        .filter(|(question, _)| *question == draft.question)
                        .map(|(_, guard)| *guard)
                        .collect();
                    if !over.is_empty() {
                        let over = compiler.arena.or(over);
                        draft.clauses.push(clause(compiler.arena.not(over), Fate::PreEmpted, Some(by)));
                    }
                }
            }
        }
    }
}

/// The adoptions of a level, and its texts: editions as amended first, then the
/// instruments' own sections.
fn texts_of<'l>(compiler: &mut Compiler<'l>, level: &mut Level) -> (Vec<Standing<'l>>, Vec<Text<'l>>) {
    let standings = adoptions(compiler, level);
    let mut texts = Vec::new();
    for standing in &standings {
        let from_depth = if standing.adoption.as_published { standing.depth } else { 0 };
        let variants = variants(compiler, level, Base::Edition(standing.edition()), from_depth);
        texts.push(Text { origin: Origin::Adopted(*standing), variants });
    }
    for id in level.instruments.clone() {
        let Some(own) = compiler.instrument(id) else { continue };
        if !own.sections.is_empty() {
            let variants = variants(compiler, level, Base::Instrument(id, own), 0);
            texts.push(Text { origin: Origin::Own(id, own), variants });
        }
    }
    (standings, texts)
}

/// Whether a section looks up a table of whatever edition is in force.
fn sizes_by_a_code(section: &Section) -> bool {
    let by_code = |demand: &Demanded| matches!(&demand.kind, DemandedKind::Table { from, .. } if from.code.is_some() && from.year.is_none());
    section.demands.iter().any(by_code)
}

/// An excepted case: when its patch has effect, its condition, what holds in it,
/// whose it is.
type SpecialCase<'s> = (CondId, CondId, &'s [Demanded], SourceId, Vec<InstrumentId>);

/// The clauses of reach of what a patch brings: it reaches only while the patch
/// has effect.
fn with(mut base: Clauses, guard: CondId) -> Clauses {
    base.push(clause(guard, Fate::NotInForce, None));
    base
}

/// A part of a section with one condition: its main part, a case, a reading.
struct Part<'p> {
    clauses: Clauses,
    source: SourceId,
    owners: Vec<InstrumentId>,
    weight: Weight,
    code: Option<&'p str>,
    readings: &'p [(CondId, SourceId, &'p Exception)],
}

impl Part<'_> {
    /// The clauses of reach and the others of a provision of this part.
    fn with(&self, base: Clauses, presence: &[Clause]) -> (Clauses, Clauses) {
        ([base, presence.to_vec()].concat(), self.clauses.clone())
    }
}

fn exception_of(
    compiler: &mut Compiler,
    exception: &Exception,
    inside: Inside,
    told: &Told,
    number: &str,
) -> (CondId, SourceId) {
    let cond = compiler.expr(&exception.cond, inside);
    let held = compiler.arena.and([exception.guard, cond]);
    let by = compiler.section_source(told.adopter, told.edition, number, &exception.section, Some(exception.by));
    (held, by)
}
