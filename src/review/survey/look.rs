//! A look at texts in the law of one place, over all its jobs.

use super::site::Site;
use super::texts::{Decides, Found, Part, Texts, merge, name, printed, short};
use crate::glossary::model::QuestionId;
use crate::job::model::Job;
use crate::law::instrument::Kind;
use crate::law::model::{Clause, CondId, Fate, Node, Provision, ProvisionId, Source};
use crate::syntax::diagnostic::Location;
use crate::verdict::diagram::Ref;
use crate::verdict::survey::{Survey, Window};
use crate::verdict::{Look, TooMany, condition};
use std::cmp::Reverse;
use std::collections::{BTreeMap, BTreeSet};

/// Looks at the wanted texts in the law of one place. Of those that except or read
/// another text the condition is not looked at by itself: it says which case is
/// meant.
pub(super) fn at_place(site: &Site<'_>, wanted: &dyn Fn(&Source) -> bool, cases: &BTreeSet<Location>) -> Texts {
    let law = site.law();
    let mut texts = Texts::new();
    for (number, question) in law.questions.iter().enumerate() {
        let looked_at = |id: &&ProvisionId| law.provision(**id).is_some_and(|own| touches(site, own, wanted));
        let outer = question.powers.iter().flat_map(|power| &power.outer);
        let binding: Vec<ProvisionId> = question.whole.iter().chain(outer).filter(looked_at).copied().collect();
        if !binding.is_empty() {
            let found = together(site, &[number], &[], &binding, (wanted, cases), question.question, true);
            merge(&mut texts, found);
        }
        for id in question.advice.iter().filter(looked_at) {
            let Some(provision) = law.provision(*id) else { continue };
            let conds: Vec<CondId> = provision.clauses.iter().map(|clause| clause.cond).collect();
            merge(&mut texts, together(site, &[], &conds, &[*id], (wanted, cases), question.question, false));
        }
    }
    for note in &law.notes {
        // Whether a remark of an edition is law anywhere is a matter of the places.
        let Some(source) = law.source(note.source).filter(|source| wanted(source) && !printed(source)) else {
            continue;
        };
        let happens = site.survey(&[], &[note.guard], |survey| {
            // A remark does not tell its reach apart, and may have had its time.
            if site.window != Window::default() {
                return Ok(true);
            }
            let guard = survey.condition(note.guard)?;
            survey.somewhere(guard)
        });
        let found = state(&mut texts, source);
        found.binds.add(happens);
        if found.binds.never() && found.why.is_none() {
            found.why = Some(("its conditions hold for no job".to_owned(), None));
        }
    }
    texts
}

/// Which texts are looked at, and which of them except or read others.
type Sought<'s> = (&'s dyn Fn(&Source) -> bool, &'s BTreeSet<Location>);

/// Looks at provisions on one question in one survey.
fn together(
    site: &Site<'_>,
    questions: &[usize],
    conds: &[CondId],
    list: &[ProvisionId],
    (wanted, cases): Sought<'_>,
    question: QuestionId,
    binding: bool,
) -> Texts {
    let mut texts = Texts::new();
    let outcome = site.survey(questions, conds, |survey| {
        let mut at = At { site, survey, wanted, cases, texts: &mut texts, question, spent: false };
        for id in list {
            at.provision(*id, binding);
        }
        if let (true, [number]) = (binding, questions) {
            at.demands(*number, list);
        }
        Ok(())
    });
    if outcome.is_err() {
        for id in list {
            let Some(provision) = site.law().provision(*id) else { continue };
            for source in sources(site, provision).filter(|source| wanted(source)) {
                state(&mut texts, source).binds.undecided = true;
            }
        }
    }
    texts
}

fn touches(site: &Site<'_>, provision: &Provision, wanted: &dyn Fn(&Source) -> bool) -> bool {
    sources(site, provision).any(wanted)
}

/// The text of a provision and those that take something out of it.
fn sources<'s>(site: &'s Site<'_>, provision: &'s Provision) -> impl Iterator<Item = &'s Source> {
    let law = site.law();
    let by = provision.clauses.iter().filter(|clause| excepts(clause)).filter_map(move |clause| law.source(clause.by?));
    law.source(provision.source).into_iter().chain(by)
}

fn excepts(clause: &Clause) -> bool {
    matches!(clause.fate, Fate::Excepted | Fate::ReadAs)
}

fn state<'t>(texts: &'t mut Texts, source: &Source) -> &'t mut Found {
    let found = texts.entry(source.at).or_default();
    if !found.met {
        found.met = true;
        found.name = name(source);
    }
    found
}

/// A look at one question at one place.
struct At<'s, 'a, 'm, 't> {
    site: &'s Site<'s>,
    survey: &'s mut Survey<'a, 'm>,
    wanted: &'s dyn Fn(&Source) -> bool,
    cases: &'s BTreeSet<Location>,
    texts: &'t mut Texts,
    question: QuestionId,
    /// Whether the bound was passed once: then it would be again, and at length.
    spent: bool,
}

impl At<'_, '_, '_, '_> {
    /// Looks at one provision: whether it binds, and whether its conditions and
    /// exceptions decide.
    fn provision(&mut self, id: ProvisionId, binding: bool) {
        let site = self.site;
        let Some(provision) = site.law().provision(id) else { return };
        let Some(source) = site.law().source(provision.source) else { return };
        self.survey.afresh();
        if !self.spent && self.is_past(provision) {
            for source in sources(site, provision).filter(|source| (self.wanted)(source)) {
                state(self.texts, source).binds.seen = true;
            }
            return;
        }
        let conds: Result<Vec<Ref>, TooMany> = if self.spent {
            Err(TooMany)
        } else {
            provision.clauses.iter().map(|clause| self.survey.condition(clause.cond)).collect()
        };
        let Ok(conds) = conds else {
            self.spent = true;
            for source in sources(site, provision).filter(|source| (self.wanted)(source)) {
                state(self.texts, source).binds.undecided = true;
            }
            return;
        };
        let own = |clause: &Clause| clause.fate == Fate::PassedOver || excepts(clause);
        // Of an edition's text only what it says itself.
        let context: Vec<bool> = provision.clauses.iter().map(|clause| !printed(source) || own(clause)).collect();
        let rest = |but: &dyn Fn(usize) -> bool| -> Vec<Ref> {
            let kept = conds.iter().zip(&context).enumerate().filter(|(at, (_, kept))| **kept && !but(*at));
            kept.map(|(_, (cond, _))| *cond).collect()
        };
        if (self.wanted)(source) {
            let all = rest(&|_| false);
            let binds = self.survey.all(all).and_then(|all| Ok((self.survey.somewhere(all)?, all)));
            self.spent |= binds.is_err();
            let why = match &binds {
                Ok((false, _)) => self.why(provision, &conds, &context),
                _ => None,
            };
            let found = state(self.texts, source);
            found.binds.add(binds.map(|(binds, _)| binds));
            if found.why.is_none() {
                found.why = why;
            }
            if binding && !printed(source) && source.kind != Kind::Instructions {
                let demand = found.demands.entry(self.question).or_default();
                demand.words.insert(provision.words.clone());
                demand.binds.add(binds.map(|(binds, _)| binds));
            }
            if let Ok((true, all)) = binds {
                for (at, clause) in provision.clauses.iter().enumerate() {
                    if clause.fate == Fate::PassedOver && !self.cases.contains(&source.at) {
                        let rest = rest(&|other| other == at);
                        self.condition_of(source, clause.cond, rest, all);
                    }
                }
            }
        }
        for (at, clause) in provision.clauses.iter().enumerate().filter(|(_, clause)| excepts(clause)) {
            let Some(by) = clause.by.and_then(|by| site.law().source(by)).filter(|by| (self.wanted)(by)) else {
                continue;
            };
            let amends = clause.by != Some(provision.source);
            // An amendment is looked at in the law, whatever it excepts from.
            let others =
                provision.clauses.iter().enumerate().filter(|(other, clause)| {
                    !excepts(clause) && (amends || context.get(*other).copied().unwrap_or(true))
                });
            let others: Vec<Ref> = others.filter_map(|(other, _)| conds.get(other)).copied().collect();
            let applies = self.survey.all(others).and_then(|others| {
                let Some(kept) = conds.get(at) else { return Ok(false) };
                let excepted = self.survey.logic().not(*kept)?;
                let both = self.survey.all([others, excepted])?;
                self.survey.somewhere(both)
            });
            let words = match site.law().node(clause.cond) {
                Node::Not(held) if !amends => condition(&site.ground.matter(), *held),
                _ => String::new(),
            };
            state(self.texts, by).exceptions.entry(words).or_default().add(applies);
        }
    }

    /// Whether a provision is law on no day of a window: it has had its time, or its
    /// time is to come.
    fn is_past(&mut self, provision: &Provision) -> bool {
        let window = self.site.window;
        let reaches = self.survey.condition(provision.reach).and_then(|reach| self.survey.somewhere(reach));
        window != Window::default() && reaches == Ok(false)
    }

    /// Which clause lets no job through, those before it held.
    fn why(&mut self, provision: &Provision, conds: &[Ref], context: &[bool]) -> Option<(String, Option<Location>)> {
        let mut so_far: Vec<Ref> = Vec::new();
        for ((clause, cond), _) in provision.clauses.iter().zip(conds).zip(context).filter(|(_, kept)| **kept) {
            so_far.push(*cond);
            let all = self.survey.all(so_far.iter().copied()).ok()?;
            if self.survey.somewhere(all).ok()? {
                continue;
            }
            let by = clause.by.and_then(|by| self.site.law().source(by));
            let words = || condition(&self.site.ground.matter(), clause.cond);
            let by_name = by.map(|by| by.instrument.to_string()).unwrap_or_default();
            let text = match clause.fate {
                Fate::NotInForce => "it is in force at no time, or for no job".to_owned(),
                Fate::PassedOver => format!("no job that it reaches fulfils `{}`", words()),
                Fate::Replaced => format!("`{by_name}` replaces it for every job"),
                Fate::Deleted => format!("`{by_name}` deletes it for every job"),
                Fate::Excepted => "its exceptions leave no job".to_owned(),
                Fate::Superseded => format!("`{by_name}` supersedes the edition for every job"),
                Fate::Suspended => format!("`{by_name}` suspends it for every job"),
                Fate::Repealed => format!("`{by_name}` repeals it before it binds any job"),
                Fate::PreEmpted => format!("`{by_name}` sets it aside for every job"),
                Fate::ReadAs => format!("`{by_name}` reads it for every job"),
            };
            return Some((text, by.map(|by| by.at)));
        }
        None
    }

    /// A `where`: whether it ever fails where all else holds, and whether each of its
    /// parts decides.
    fn condition_of(&mut self, source: &Source, cond: CondId, rest: Vec<Ref>, binds: Ref) {
        if cond == CondId::TRUE {
            return;
        }
        let site = self.site;
        let words = condition(&site.ground.matter(), cond);
        let rest = self.survey.all(rest);
        let whole = rest.and_then(|rest| self.fails(cond, rest));
        let (joined, parts): (Part, &[CondId]) = match site.law().node(cond) {
            Node::And(parts) => (Part::Needed, parts),
            Node::Or(parts) => (Part::Arm, parts),
            _ => (Part::Needed, &[]),
        };
        let mut decided: BTreeMap<(Part, String), Result<bool, TooMany>> = BTreeMap::new();
        for part in parts {
            let others = parts.iter().copied().filter(|other| other != part);
            let found = rest.and_then(|rest| match joined {
                Part::Needed => {
                    let others = self.survey.conditions(others)?;
                    let rest = self.survey.all([rest, others])?;
                    self.fails(*part, rest)
                }
                Part::Arm => {
                    let mut alone = self.survey.condition(*part)?;
                    for other in others {
                        let other = self.survey.condition(other)?;
                        let not = self.survey.logic().not(other)?;
                        alone = self.survey.all([alone, not])?;
                    }
                    let both = self.survey.all([rest, alone])?;
                    self.survey.somewhere(both)
                }
            });
            decided.insert((joined, condition(&site.ground.matter(), *part)), found);
        }
        let idle = whole == Ok(false) || decided.values().any(|found| *found == Ok(false));
        let job = if idle { self.survey.first(binds).ok().flatten() } else { None };
        let job = job.map(|walk| (self.survey.job_of(&walk), self.question));
        let fresh = |found: Result<bool, TooMany>| {
            let mut decides = Decides { job: job.clone(), ..Decides::default() };
            decides.decides.add(found);
            decides
        };
        let found = state(self.texts, source).wheres.entry(words).or_default();
        found.whole.decides.add(whole);
        found.whole.job = found.whole.job.take().or_else(|| job.clone());
        for (part, decides) in decided {
            let theirs = fresh(decides);
            let mine = found.parts.entry(part).or_default();
            mine.decides.add(decides);
            mine.job = mine.job.take().or(theirs.job);
        }
    }

    fn fails(&mut self, cond: CondId, rest: Ref) -> Result<bool, TooMany> {
        let held = self.survey.condition(cond)?;
        let not = self.survey.logic().not(held)?;
        let both = self.survey.all([rest, not])?;
        self.survey.somewhere(both)
    }

    /// Which demands on a question change no answer: the innermost and latest are left
    /// out first, and what was found to change nothing stays out, so that of two that
    /// say the same one is told.
    fn demands(&mut self, number: usize, list: &[ProvisionId]) {
        let law = self.site.law();
        let mut units: Vec<(u32, Location, Vec<ProvisionId>)> = Vec::new();
        for id in list {
            let Some(source) = law.provision(*id).and_then(|own| law.source(own.source)) else { continue };
            let demand = self.texts.get(&source.at).and_then(|found| found.demands.get(&self.question));
            if !(self.wanted)(source) || !demand.is_some_and(|demand| demand.binds.seen) {
                continue;
            }
            match units.iter_mut().find(|(_, at, _)| *at == source.at) {
                Some((_, _, ids)) => ids.push(*id),
                None => units.push((source.depth, source.at, vec![*id])),
            }
        }
        units.sort_by_key(|(depth, at, _)| Reverse((*depth, *at)));
        let mut out: Vec<ProvisionId> = Vec::new();
        for (_, at, ids) in units {
            self.survey.afresh();
            let found = if self.spent { Err(TooMany) } else { self.changes(number, &out, &ids) };
            self.spent |= found.is_err();
            let shown = match &found {
                Ok(false) => self.outdone(number, &out, &ids),
                _ => None,
            };
            let Some(demand) = self.texts.get_mut(&at).and_then(|found| found.demands.get_mut(&self.question)) else {
                continue;
            };
            demand.changes.add(found);
            if found == Ok(false) {
                if let Some((job, beside)) = shown {
                    demand.job = Some(job);
                    demand.beside = beside;
                }
                out.extend(ids);
            }
        }
    }

    /// Whether some answer is another without these provisions. What asks for no more
    /// than the loosest answer does count unless something stricter always stands
    /// beside it.
    fn changes(&mut self, number: usize, out: &[ProvisionId], ids: &[ProvisionId]) -> Result<bool, TooMany> {
        let left_out = |id: ProvisionId| ids.contains(&id) || out.contains(&id);
        if self.survey.changed_by(number, &left_out)?.is_some() {
            return Ok(true);
        }
        for id in ids {
            let Some(provision) = self.site.law().provision(*id) else { continue };
            if !self.survey.asks_nothing(number, *id) {
                continue;
            }
            let stricter = self.survey.strict_without(number, &left_out)?;
            let looser = self.survey.logic().not(stricter)?;
            let guard = self.survey.condition(provision.guard)?;
            let both = self.survey.all([guard, looser])?;
            if self.survey.somewhere(both)? {
                return Ok(true);
            }
        }
        Ok(false)
    }

    /// A job in which these bind, and what says as much there.
    fn outdone(
        &mut self,
        number: usize,
        out: &[ProvisionId],
        ids: &[ProvisionId],
    ) -> Option<(Job, Vec<(Location, String)>)> {
        let law = self.site.law();
        let first = law.provision(*ids.first()?)?;
        let mut walk = None;
        for id in ids {
            let guard = self.survey.condition(law.provision(*id)?.guard).ok()?;
            walk = self.survey.first(guard).ok()?;
            if walk.is_some() {
                break;
            }
        }
        let walk = walk?;
        let question = law.questions.get(number)?;
        let mut beside: Vec<(Location, String)> = Vec::new();
        let mut alone: Vec<(Location, String)> = Vec::new();
        for id in question.whole.iter().filter(|id| !ids.contains(id) && !out.contains(id)) {
            let provision = law.provision(*id)?;
            let guard = self.survey.condition(provision.guard).ok()?;
            let source = law.source(provision.source)?;
            let counts = self.survey.holds_at(guard, &walk) && !self.survey.asks_nothing(number, *id);
            if counts && provision.source != first.source && beside.iter().all(|(at, _)| *at != source.at) {
                let told = (source.at, format!("`{}` of {}", short(&provision.words), name(source)));
                if ids.iter().all(|own| self.survey.says_as_much(number, *id, *own)) {
                    alone.push(told.clone());
                }
                beside.push(told);
            }
        }
        // One that says as much alone is named before several that do together.
        if !alone.is_empty() {
            beside = alone;
            beside.truncate(1);
        }
        beside.truncate(3);
        Some((self.survey.job_of(&walk), beside))
    }
}
