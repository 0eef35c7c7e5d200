//! What one set of rules answers otherwise than another, at a place: every kind of
//! job whose answer changes, as conditions that hold for exactly those jobs.
//!
//! Nothing is sampled: the answers of both laws are diagrams over all jobs, and what
//! differs is read off them. This module refuses to know commands and screens.

mod common;
mod cover;
mod direction;
mod joint;
mod kinds;
mod names;
mod notes;
mod tests_of;

pub(crate) use direction::Direction;
pub(crate) use joint::{Joint, Side};
pub(crate) use names::Names;
pub(crate) use notes::Noted;

use crate::glossary::model::{FieldId, Order, Question, QuestionId};
use crate::job::model::{Entries, Job};
use crate::law::model::{CondId, Note, QuestionLaw};
use crate::verdict::answer::Answer;
use crate::verdict::diagram::Ref;
use crate::verdict::logic::{NO, REFERS, YES};
use crate::verdict::strictness::{Measured, measured};
use crate::verdict::survey::{Ground, Survey, Window, holds};
use crate::verdict::value::{Saying, Value};
use crate::verdict::{Matter, Memo, TooMany, in_words};
use cover::Atom;
use std::collections::BTreeMap;

/// What changes for the jobs of a place.
#[derive(Debug)]
pub(crate) struct Effect {
    /// The questions of which some answer changes, by name.
    pub(crate) changed: Vec<Changed>,
    /// Questions that were compared and are answered alike, by number.
    pub(crate) alike: usize,
    /// Questions that only one side knows, or that it asks otherwise.
    pub(crate) apart: Vec<(QuestionId, Known)>,
    /// Questions whose jobs are too many to be told apart within the bound.
    pub(crate) undecided: Vec<QuestionId>,
    /// What only the texts before, and only the texts after, say to some job without
    /// answering a question: each with its source.
    pub(crate) notes: [Vec<Note>; 2],
    /// How many kinds of job both laws tell apart, and of how many some answer
    /// changes; nothing where they are too many to be counted.
    pub(crate) kinds: Option<(u128, u128)>,
}

/// Which side knows a question.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Known {
    Before,
    After,
}

/// A question of which some answer changes.
#[derive(Debug)]
pub(crate) struct Changed {
    pub(crate) question: QuestionId,
    /// How many kinds of job the texts on this question tell apart.
    pub(crate) kinds: Option<u128>,
    pub(crate) changes: Vec<Change>,
}

/// Jobs that had one answer and get another.
#[derive(Debug)]
pub(crate) struct Change {
    pub(crate) before: Held,
    pub(crate) after: Held,
    /// One of these holds for exactly the jobs concerned.
    pub(crate) conditions: Vec<Condition>,
    /// Whether it is proven that no fewer conditions say it.
    pub(crate) fewest: bool,
    /// How many kinds of job are concerned.
    pub(crate) kinds: Option<u128>,
    /// Of a required set the answers hold only what goes and what comes; other terms may
    /// be required beside, before and after alike.
    pub(crate) in_part: bool,
}

/// One condition of a change, with a job that fulfils it.
#[derive(Debug)]
pub(crate) struct Condition {
    /// The tests that hold together, each by its number among the joint law's conditions.
    pub(crate) tests: Vec<(CondId, bool)>,
    /// In the numbers of the common glossary.
    pub(crate) job: Job,
}

/// An answer on one side.
#[derive(Clone, Debug)]
pub(crate) struct Held {
    answer: Answer,
    /// The question's place among those of the joint law.
    at: usize,
}

impl Held {
    /// Whether the text leaves the answer to the authority.
    pub(crate) fn referred(&self) -> bool {
        self.answer.refer
    }

    /// Whether the texts contradict each other.
    pub(crate) fn conflict(&self) -> bool {
        self.answer.conflict
    }
}

/// Whether two laws are one to every job.
#[derive(Debug)]
pub(crate) enum Alike {
    Yes,
    /// The question that some job has answered differently, and the job; nothing where
    /// none was found within the bound, or where something else differs.
    No(Option<(QuestionId, Job)>),
    NotDecided,
}

/// Two laws ready to be compared.
#[derive(Debug)]
pub(crate) struct Bench<'j> {
    joint: &'j Joint,
    ground: Ground<'j>,
}

impl<'j> Bench<'j> {
    /// Lays two laws side by side.
    pub(crate) fn new(joint: &'j Joint) -> Bench<'j> {
        Bench { joint, ground: Ground::new(&joint.law, joint.common.lexicon(), joint.law.place) }
    }

    /// The question with this number in the common glossary.
    pub(crate) fn question(&self, id: QuestionId) -> Option<&'j Question> {
        self.joint.common.questions.get(usize::from(id.0))
    }

    /// The joint law before a job that says nothing: what the numbers of tests and
    /// facts mean.
    pub(crate) fn matter(&self) -> Matter<'_> {
        self.ground.matter()
    }

    /// A job of a change as one of the sides knows it, 0 for before and 1 for after;
    /// facts that the side does not know are left out.
    pub(crate) fn job(&self, job: &Job, side: usize, of: Side<'_>) -> Job {
        let mut own = Job { place: of.place, reference: None, values: Vec::new(), lists: Vec::new() };
        let Some(numbers) = self.joint.numbers.get(side) else { return own };
        let glossary = &of.rules.library().glossary;
        for (field, common) in numbers.all_fields() {
            let value = job.values.get(usize::from(common.0)).cloned().unwrap_or_default();
            own.values.push(numbers.back(value, glossary[field].shape));
        }
        for (group, common) in numbers.all_groups() {
            let group = &glossary[group];
            let Some(list) = job.lists.get(usize::from(common.0)) else { continue };
            let entries = list.entries.iter().map(|row| {
                let column = |field: &FieldId| {
                    let common = self.joint.common.fields.get(usize::from(numbers.field(*field).0));
                    let value = common.and_then(|common| row.get(usize::from(common.column))).cloned();
                    numbers.back(value.unwrap_or_default(), glossary[*field].shape)
                };
                group.fields.iter().map(column).collect()
            });
            own.lists.push(Entries { entries: entries.collect(), more: list.more });
        }
        own
    }

    /// A test in the words of the language.
    pub(crate) fn test(&self, cond: CondId, holds: bool) -> String {
        in_words(&self.ground.matter(), cond, holds, None)
    }

    /// An answer in the words of the glossary.
    pub(crate) fn value(&self, held: &Held) -> Option<Value<'j>> {
        let law = self.joint.law.questions.get(held.at)?;
        let matter = self.ground.matter();
        let ask = matter.plan.asks.get(held.at)?;
        let lexicon = self.joint.common.lexicon();
        let figure = |part: usize, rank: u128| self.figure(law, &ask.form, part, rank);
        let saying = Saying {
            lexicon: &lexicon,
            question: self.question(law.question)?,
            law,
            ask,
            named: held.answer.named,
            only: held.answer.only,
            figure: &figure,
        };
        Some(saying.value(&held.answer.parts))
    }

    /// The figure of the first text that gives a limit of this rank.
    fn figure(
        &self,
        law: &QuestionLaw,
        form: &crate::verdict::answer::Form,
        part: usize,
        rank: u128,
    ) -> Option<std::sync::Arc<str>> {
        use crate::law::model::Effect as Does;
        let ids = law.whole.iter().chain(law.powers.iter().flat_map(|power| &power.outer));
        ids.filter_map(|id| self.joint.law.provisions.get(id.0 as usize))
            .filter_map(|provision| if let Does::Demand(demand) = &provision.effect { Some(demand) } else { None })
            .find(|demand| form.demanded(demand, part) == Some(rank))
            .and_then(|demand| demand.figures.get(part).cloned().flatten())
    }

    /// Finds what changes.
    pub(crate) fn effect(&self, window: Window) -> Effect {
        let mut effect = Effect {
            changed: Vec::new(),
            alike: self.joint.same,
            apart: Vec::new(),
            undecided: Vec::new(),
            notes: [self.notes_missing(0), self.notes_missing(1)],
            kinds: Some((0, 0)),
        };
        for pair in &self.joint.pairs {
            let (before, after) = match pair.sides {
                [Some(before), Some(after)] => (before, after),
                [Some(_), None] => {
                    effect.apart.push((pair.question, Known::Before));
                    continue;
                }
                _ => {
                    effect.apart.push((pair.question, Known::After));
                    continue;
                }
            };
            match self.compare(pair.question, before, after, window) {
                Ok(None) => effect.alike += 1,
                Ok(Some(changed)) => effect.changed.push(changed),
                Err(TooMany) => effect.undecided.push(pair.question),
            }
        }
        let name = |id: &QuestionId| self.question(*id).map(|question| &*question.name);
        effect.changed.sort_by_key(|changed| name(&changed.question));
        effect.kinds = self.all_kinds(&effect, window).ok().flatten();
        effect
    }

    /// Whether both laws give every job the same answers and say the same beside them.
    /// Which text gives an answer is not looked at.
    pub(crate) fn alike(&self) -> Alike {
        let (mut same, mut decided) = (true, true);
        for pair in &self.joint.pairs {
            let [Some(before), Some(after)] = pair.sides else {
                same = false;
                continue;
            };
            match self.first_job(before, after) {
                Ok(Some(job)) => return Alike::No(Some((pair.question, job))),
                Ok(None) => {}
                Err(TooMany) => decided = false,
            }
        }
        if !same || (0..self.joint.notes.len()).any(|side| !self.notes_missing(side).is_empty()) {
            return Alike::No(None);
        }
        if decided && self.same_beside() { Alike::Yes } else { Alike::NotDecided }
    }

    /// Whether all that is told beside answers and notes is told to the same jobs.
    fn same_beside(&self) -> bool {
        let [before, after] = &self.joint.beside;
        let same = |one: CondId, two: CondId| one == two || self.same_jobs(one, two).unwrap_or(false);
        before.len() == after.len()
            && before.iter().zip(after).all(|(one, two)| {
                one.what == two.what
                    && one.conditions.len() == two.conditions.len()
                    && one.conditions.iter().zip(&two.conditions).all(|(one, two)| same(*one, *two))
            })
    }

    /// A job that two questions answer differently; nothing where there is none.
    fn first_job(&self, before: usize, after: usize) -> Result<Option<Job>, TooMany> {
        let matter = self.ground.matter();
        let mut memo = Memo::default();
        let cone = self.ground.cone([before, after], []);
        let mut survey = Survey::new(&matter, &mut memo, cone, Window::default())?;
        let (told, _) = self.differing(&mut survey, before, after)?;
        Ok(survey.job(told, &|end| end >= FIRST))
    }

    /// The notes of a side that the other does not have under the same condition.
    fn notes_missing(&self, side: usize) -> Vec<Note> {
        let (Some(own), Some(other)) = (self.joint.notes.get(side), self.joint.notes.get(1 - side.min(1))) else {
            return Vec::new();
        };
        let same = |one: CondId, two: CondId| one == two || self.same_jobs(one, two).unwrap_or(false);
        let there = |note: &&Note| !other.iter().any(|known| known.text == note.text && same(known.guard, note.guard));
        own.iter().filter(|note| note.guard != CondId::FALSE).filter(there).cloned().collect()
    }

    /// Whether two conditions hold for the same jobs.
    fn same_jobs(&self, one: CondId, two: CondId) -> Result<bool, TooMany> {
        let matter = self.ground.matter();
        let mut memo = Memo::default();
        let cone = self.ground.cone([], [one, two]);
        let mut survey = Survey::new(&matter, &mut memo, cone, Window::default())?;
        let (one, two, care) = (survey.condition(one)?, survey.condition(two)?, survey.care());
        let differ = survey.logic().diagrams.join(one, two, &mut |one, two| if one == two { NO } else { YES })?;
        Ok(survey.logic().and(differ, care)? == Ref::end(NO))
    }

    /// Where two questions are answered differently.
    fn compare(
        &self,
        question: QuestionId,
        before: usize,
        after: usize,
        window: Window,
    ) -> Result<Option<Changed>, TooMany> {
        let matter = self.ground.matter();
        let mut memo = Memo::default();
        let cone = self.ground.cone([before, after], []);
        let mut survey = Survey::new(&matter, &mut memo, cone, window)?;
        let (differing, pairs) = self.differing(&mut survey, before, after)?;
        if pairs.is_empty() {
            return Ok(None);
        }
        let mut atoms = tests_of::tests(&self.joint.law, [before, after]);
        let mut told_apart = Vec::with_capacity(atoms.len());
        let mut weighed = Vec::with_capacity(atoms.len());
        for cond in &atoms {
            told_apart.extend(told(&mut survey, *cond)?);
            weighed.push(self.atom(&mut survey, *cond)?);
        }
        // What the law asks on another question says more than the facts behind it, where
        // it asks the same on both sides.
        for (cond, question) in tests_of::tests_of_answers(&self.joint.law, [before, after]) {
            if self.joint.pairs.iter().any(|pair| pair.sides.contains(&Some(question))) {
                continue;
            }
            atoms.push(cond);
            weighed.push(self.atom(&mut survey, cond)?);
        }
        let stand = kinds::kinds(&mut survey, &told_apart).ok();
        let mut changes = Vec::with_capacity(pairs.len());
        for (number, (one, two)) in (FIRST..).zip(pairs) {
            let logic = survey.logic();
            let on = logic.diagrams.map(differing, &mut |end| if end == number { YES } else { NO })?;
            let off = logic.diagrams.map(differing, &mut |end| if end == number || end == NEVER { NO } else { YES })?;
            let covered = cover::cover(logic, &weighed, on, off)?;
            let mut conditions = Vec::with_capacity(covered.conditions.len());
            for literals in covered.conditions {
                let tests: Vec<(CondId, bool)> =
                    literals.iter().filter_map(|literal| Some((*atoms.get(literal.atom)?, literal.holds))).collect();
                let mut jobs = on;
                for literal in &literals {
                    let Some(atom) = weighed.get(literal.atom) else { continue };
                    let side = if literal.holds { atom.holds } else { atom.fails };
                    jobs = survey.logic().and(jobs, side)?;
                }
                let job = survey.job(jobs, &holds).ok_or(TooMany)?;
                conditions.push(Condition { tests, job });
            }
            let kinds = match &stand {
                Some((stand, _)) => {
                    let concerned = survey.logic().and(on, *stand)?;
                    survey.count(concerned, &holds)
                }
                None => None,
            };
            changes.push(Change {
                before: Held { answer: one, at: before },
                after: Held { answer: two, at: after },
                conditions,
                fewest: covered.fewest,
                kinds,
                in_part: self.in_part(before),
            });
        }
        Ok(Some(Changed { question, kinds: stand.and_then(|(_, count)| count), changes }))
    }

    /// The jobs of which the answers differ, as a diagram whose ends from [`FIRST`]
    /// on number the pairs of answers.
    fn differing(
        &self,
        survey: &mut Survey<'_, '_>,
        before: usize,
        after: usize,
    ) -> Result<(Ref, Vec<(Answer, Answer)>), TooMany> {
        let (one, _) = survey.answer(before)?;
        let (two, _) = survey.answer(after)?;
        let mut pairs: Vec<(Answer, Answer)> = Vec::new();
        let mut known: BTreeMap<(Key, Key), u32> = BTreeMap::new();
        let mut of_ends: BTreeMap<(u32, u32), u32> = BTreeMap::new();
        let mut ends: Vec<(u32, u32)> = Vec::new();
        let both = survey.logic().diagrams.join(one, two, &mut |one, two| {
            *of_ends.entry((one, two)).or_insert_with(|| {
                ends.push((one, two));
                ends.len() as u32 - 1
            })
        })?;
        let care = survey.care();
        let can_be = survey.logic().diagrams.join(both, care, &mut |end, care| if care == NO { 0 } else { end + 1 })?;
        let mut numbers: BTreeMap<u32, u32> = BTreeMap::from([(0, NEVER)]);
        for end in survey.logic().diagrams.ends(can_be) {
            let Some((one, two)) = end.checked_sub(1).and_then(|end| ends.get(end as usize)) else { continue };
            let (Some(one), Some(two)) = (survey.answer_at(*one), survey.answer_at(*two)) else { continue };
            let (one, two) = if self.in_part(before) { apart(one, two) } else { (one.clone(), two.clone()) };
            let key = (self.key(before, &one), self.key(after, &two));
            let number = if key.0 == key.1 {
                SAME
            } else {
                *known.entry(key).or_insert_with(|| {
                    pairs.push((one, two));
                    FIRST + pairs.len() as u32 - 1
                })
            };
            numbers.insert(end, number);
        }
        let told = survey.logic().diagrams.map(can_be, &mut |end| numbers.get(&end).copied().unwrap_or(NEVER))?;
        Ok((told, pairs))
    }

    /// Whether changes of a question are told by the terms that go and come.
    fn in_part(&self, at: usize) -> bool {
        let law = self.joint.law.questions.get(at);
        law.and_then(|law| self.question(law.question))
            .is_some_and(|question| matches!(question.order, Order::AllOf(_)))
    }

    /// What of an answer counts: its value, whatever figure or text gives it.
    fn key(&self, at: usize, answer: &Answer) -> Key {
        let law = self.joint.law.questions.get(at);
        let question = law.and_then(|law| self.question(law.question));
        let parts =
            law.zip(question).map_or_else(Vec::new, |(law, question)| measured(&question.order, law, &answer.parts));
        Key { parts, refer: answer.refer, conflict: answer.conflict }
    }

    pub(super) fn atom(&self, survey: &mut Survey<'_, '_>, cond: CondId) -> Result<Atom, TooMany> {
        let truth = survey.condition(cond)?;
        let mut where_it_is =
            |wanted: u32| survey.logic().diagrams.map(truth, &mut |end| if end == wanted { YES } else { NO });
        Ok(Atom { holds: where_it_is(YES)?, fails: where_it_is(NO)?, weight: tests_of::weight(&self.joint.law, cond) })
    }

    /// The kinds that all questions together tell apart, and those of them of which
    /// some answer changes.
    fn all_kinds(&self, effect: &Effect, window: Window) -> Result<Option<(u128, u128)>, TooMany> {
        if !effect.undecided.is_empty() {
            return Ok(None);
        }
        let all: Vec<usize> = (0..self.joint.law.questions.len()).collect();
        let matter = self.ground.matter();
        let mut memo = Memo::default();
        let cone = self.ground.cone(all.iter().copied(), []);
        let mut survey = Survey::new(&matter, &mut memo, cone, window)?;
        let atoms = tests_of::tests(&self.joint.law, all.iter().copied());
        let mut told_apart = Vec::with_capacity(atoms.len());
        for cond in &atoms {
            told_apart.extend(told(&mut survey, *cond)?);
        }
        let (stand, count) = kinds::kinds(&mut survey, &told_apart)?;
        let mut changing = Ref::end(NO);
        for changed in &effect.changed {
            let Some(pair) = self.joint.pairs.iter().find(|pair| pair.question == changed.question) else { continue };
            let [Some(before), Some(after)] = pair.sides else { continue };
            let (told, _) = self.differing(&mut survey, before, after)?;
            let logic = survey.logic();
            let here = logic.diagrams.map(told, &mut |end| if end >= FIRST { YES } else { NO })?;
            changing = logic.or(changing, here)?;
        }
        let concerned = survey.logic().and(changing, stand)?;
        Ok(survey.count(concerned, &holds).zip(count))
    }
}

/// Where a test holds and, if it can, where it turns on a referred question.
fn told(survey: &mut Survey<'_, '_>, cond: CondId) -> Result<Vec<Ref>, TooMany> {
    let truth = survey.condition(cond)?;
    let diagrams = &mut survey.logic().diagrams;
    let mut found = vec![diagrams.map(truth, &mut |end| if end == YES { YES } else { NO })?];
    if diagrams.ends(truth).contains(&REFERS) {
        found.push(diagrams.map(truth, &mut |end| if end == REFERS { YES } else { NO })?);
    }
    Ok(found)
}

/// Two required sets without what they have in common.
fn apart(one: &Answer, two: &Answer) -> (Answer, Answer) {
    let (mut gone, mut come) = (one.clone(), two.clone());
    gone.parts.merge(&two.parts, |mine, theirs| mine & !theirs);
    come.parts.merge(&one.parts, |mine, theirs| mine & !theirs);
    (gone, come)
}

/// The end of what cannot be.
const NEVER: u32 = 0;
/// The end of jobs whose answer stays.
const SAME: u32 = 1;
/// The first end of jobs whose answer changes.
const FIRST: u32 = 2;

/// An answer by what it asks, in common numbers.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
struct Key {
    /// Nothing for a part at its loosest.
    parts: Vec<Option<Measured>>,
    refer: bool,
    conflict: bool,
}
