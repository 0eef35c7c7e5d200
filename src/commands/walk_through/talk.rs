//! The talk: a question, a line, what it does, and the next question.

use super::super::screen;
use super::console::Console;
use super::keep::Keeper;
use super::keys::{Line, line};
use crate::glossary::model::PlaceId;
use crate::interview::{
    Asker, Form, Mark, Problem, Refused, Reply, SoFar, Step, Topic, Wrong, agenda, idle, open, read,
};
use crate::job::{self, Defaults};
use crate::law::places::IssuerKind;
use crate::report::finding::{Finding, Spot};
use crate::report::look::Tone;
use crate::report::walk::{self, Count, Numbered, Voice};
use crate::rules::Rules;
use crate::syntax::codes;
use crate::verdict::model::Verdict;
use crate::verdict::paths::Path;
use crate::verdict::{Matter, Scratch};

/// How a talk ends.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum End {
    /// With the verdict.
    Verdict,
    /// Because it was asked to.
    Stopped,
    InputEnded,
}

/// A talk about one job.
pub(super) struct Talk<'r> {
    rules: &'r Rules,
    defaults: Defaults,
    asker: Asker<'static>,
    keeper: &'r Keeper,
    /// The job so far; nothing before its place is known.
    pub(super) now: Option<SoFar>,
    past: Vec<Option<SoFar>>,
    /// A step that is put though it is not the next.
    focus: Option<Topic>,
    /// What was answered last, to be said back.
    last: Option<Topic>,
    /// Places that were offered by number.
    offered: Vec<String>,
    number: usize,
    scratch: Scratch,
}

/// What a line led to.
enum Turn {
    /// The question again.
    Again,
    /// Something changed, or another question is put.
    Next,
    End(End),
}

impl<'r> Talk<'r> {
    pub(super) fn new(
        rules: &'r Rules,
        defaults: Defaults,
        asker: Asker<'static>,
        keeper: &'r Keeper,
        begun: Option<SoFar>,
    ) -> Talk<'r> {
        Talk {
            rules,
            defaults,
            asker,
            keeper,
            now: begun,
            past: Vec::new(),
            focus: None,
            last: None,
            offered: Vec::new(),
            number: 1,
            scratch: Scratch::default(),
        }
    }

    /// Asks until the end.
    ///
    /// # Errors
    /// Where the law of the place cannot be made.
    pub(super) fn run(&mut self, console: &mut Console) -> Result<End, Vec<Finding>> {
        console.tell(&console.voice().greeting());
        loop {
            let end = match self.now.clone() {
                None => self.at_the_place(console),
                Some(so_far) => self.at(console, &so_far)?,
            };
            if let Some(end) = end {
                return Ok(end);
            }
        }
    }

    /// The question after the place, before which there is nothing else.
    fn at_the_place(&mut self, console: &Console) -> Option<End> {
        let step = Step::first();
        let number = self.number;
        let question = |voice, again| walk::question(&step, None, Count { number, left: 0, again }, voice);
        self.put(console, &question, &mut |talk, typed| talk.lead(console, typed, &step, None))
    }

    /// One question on a job whose place is known.
    fn at(&mut self, console: &Console, so_far: &SoFar) -> Result<Option<End>, Vec<Finding>> {
        let rules = self.rules;
        self.keeper.set(Some(job::to_sheet(&so_far.job, rules.desk())));
        let matter = rules.matter(&so_far.job).map_err(|told| Finding::of(rules, std::iter::once(told)))?;
        let verdict = rules.weighed(&matter, &mut self.scratch);
        let steps = agenda(&matter, &verdict, Some(rules.library()), self.asker, &so_far.waived);
        self.say_back(console, &steps, &matter);
        let focused = self.focus.and_then(|topic| steps.iter().find(|step| step.topic == topic));
        let Some(step) = focused.or_else(|| open(&steps)) else {
            console.line(&console.voice().reader.say("walk-nothing-left"));
            if console.shows_sheets() {
                console.tell("\n");
            }
            return Ok(Some(End::Verdict));
        };
        let left = steps.iter().filter(|step| step.mark == Mark::Asked).count();
        let number = self.number;
        let question = |voice, again| walk::question(step, Some(&matter), Count { number, left, again }, voice);
        let scene = Scene { matter: &matter, verdict: &verdict, steps: &steps, so_far };
        let end = self.put(console, &question, &mut |talk, typed| talk.lead(console, typed, step, Some(&scene)));
        Ok(end)
    }

    /// Puts a question until a line leads on.
    fn put(
        &mut self,
        console: &Console,
        question: &dyn Fn(Voice, bool) -> String,
        lead: &mut dyn FnMut(&mut Self, &str) -> Turn,
    ) -> Option<End> {
        let mut again = false;
        loop {
            console.tell("\n");
            console.tell(&question(console.voice(), again));
            again = true;
            let Some(typed) = console.answer() else { return Some(End::InputEnded) };
            match lead(self, &typed) {
                Turn::Again => {}
                Turn::Next => return None,
                Turn::End(end) => return Some(end),
            }
        }
    }

    /// Says back what was understood.
    fn say_back(&mut self, console: &Console, steps: &[Step<'_>], matter: &Matter<'_>) {
        let Some(topic) = self.last.take() else { return };
        // What was said of others of a list stands with the list.
        let whole = match topic {
            Topic::Fact(Path::Further(group)) => Topic::Fact(Path::List(group)),
            other => other,
        };
        let said = steps.iter().find(|step| step.topic == topic || step.topic == whole);
        if let Some(step) = said {
            console.tell(&walk::noted(step, matter, console.voice()));
        }
    }

    fn lead(&mut self, console: &Console, typed: &str, step: &Step<'_>, scene: Option<&Scene<'_, '_>>) -> Turn {
        let voice = console.voice();
        let say = |key: &str| console.tell(&voice.line(key, Tone::Plain));
        match line(typed, step) {
            Line::Empty if self.focus.take().is_some() => Turn::Next,
            Line::Empty => self.refuse(console, step, &Wrong { typed: String::new(), problem: Problem::Empty }),
            Line::Answer(text) => self.answer(console, &text, step, scene),
            Line::Back => self.back(console),
            Line::Why { all } => {
                if let Some(scene) = scene {
                    console.tell(&walk::why(step, scene.verdict, scene.matter, all, voice));
                }
                Turn::Again
            }
            Line::List => {
                self.list(console, scene);
                Turn::Again
            }
            Line::Help => {
                console.tell(&voice.help());
                Turn::Again
            }
            Line::Change(what) if what.is_empty() => {
                say(&voice.reader.say("walk-change-how"));
                Turn::Again
            }
            Line::Change(what) => match scene.and_then(|scene| scene.named(&what)) {
                Some(topic) => {
                    self.focus = Some(topic);
                    Turn::Next
                }
                None => {
                    say(&voice.reader.say_with("walk-change-none", &[("what", &crate::glossary::cut(&what))]));
                    Turn::Again
                }
            },
            Line::Drop(what) => match scene.and_then(|scene| scene.without(&what)) {
                Some(next) => {
                    say(&voice.reader.say("walk-dropped"));
                    self.become_so(next);
                    Turn::Next
                }
                None => {
                    say(&voice.reader.say("walk-drop-none"));
                    Turn::Again
                }
            },
            Line::Save(name) => {
                self.keeper.save(console, name.as_deref());
                Turn::Again
            }
            Line::Done if scene.is_some() => Turn::End(End::Verdict),
            Line::Done | Line::Stop => Turn::End(End::Stopped),
        }
    }

    fn become_so(&mut self, next: SoFar) {
        self.past.push(self.now.replace(next));
        self.focus = None;
        self.offered.clear();
        self.number += 1;
    }

    fn back(&mut self, console: &Console) -> Turn {
        let reader = console.voice().reader;
        match self.past.pop() {
            Some(before) => {
                if before.is_none() {
                    self.keeper.set(None);
                }
                self.now = before;
                self.focus = None;
                self.number = self.number.saturating_sub(1);
                console.line(&reader.say("walk-back"));
                Turn::Next
            }
            None => {
                console.line(&reader.say("walk-back-none"));
                Turn::Again
            }
        }
    }

    fn answer(&mut self, console: &Console, text: &str, step: &Step<'_>, scene: Option<&Scene<'_, '_>>) -> Turn {
        let desk = self.rules.desk();
        let place = scene.map(|scene| scene.so_far.job.place);
        let text = meant(text, step, &self.offered);
        let reply = match read(desk, place, step, &text) {
            Ok(reply) => reply,
            Err(wrong) => return self.refuse(console, step, &begun(self.rules, wrong)),
        };
        let next = match (scene, &reply) {
            (None, Reply::Place(place)) => SoFar::at(desk, *place, &self.defaults),
            (None, _) => Err(Refused::Misplaced),
            (Some(scene), reply) => scene.so_far.answered(desk, step.topic, reply),
        };
        match next {
            Ok(next) => {
                if let (Some(scene), Reply::Place(_)) = (scene, &reply) {
                    scene.tell_lost(console, &next);
                }
                self.become_so(next);
                self.last = Some(step.topic);
                Turn::Next
            }
            Err(refused) => {
                let lexicon = scene.map(|scene| &scene.matter.lexicon);
                console.tell(&walk::refused(&refused, lexicon, console.voice()));
                Turn::Again
            }
        }
    }

    fn refuse(&mut self, console: &Console, step: &Step<'_>, wrong: &Wrong) -> Turn {
        self.offered = offered(wrong);
        console.tell(&walk::wrong(wrong, step, console.voice()));
        Turn::Again
    }

    fn list(&mut self, console: &Console, scene: Option<&Scene<'_, '_>>) {
        let Some(scene) = scene else {
            console.tell(&places(self.rules, console.voice()));
            return;
        };
        let mut numbered = Vec::new();
        for step in scene.listed() {
            let stated = step.topic.path().filter(|_| step.mark == Mark::Stated);
            let idle = stated.is_some_and(|path| idle(scene.matter, path, &mut self.scratch));
            numbered.push(Numbered { step, idle });
        }
        console.tell(&walk::facts(&numbered, scene.matter, console.voice()));
    }
}

/// What stands around a question.
struct Scene<'s, 'a> {
    matter: &'s Matter<'a>,
    verdict: &'s Verdict<'a>,
    steps: &'s [Step<'a>],
    so_far: &'s SoFar,
}

impl<'s, 'a> Scene<'s, 'a> {
    /// The steps of the list of facts, in its order.
    fn listed(&self) -> impl Iterator<Item = &'s Step<'a>> {
        self.steps.iter().filter(|step| step.mark != Mark::Asked)
    }

    /// The step that a number of the list, or a name, stands for.
    fn named(&self, what: &str) -> Option<Topic> {
        let by_number = what.parse::<usize>().ok().and_then(|number| self.listed().nth(number.checked_sub(1)?));
        let named = |step: &&Step<'a>| step.path == what || step.title.eq_ignore_ascii_case(what);
        by_number.or_else(|| self.steps.iter().find(named)).map(|step| step.topic)
    }

    /// The job without one entry: `run 2`.
    fn without(&self, what: &str) -> Option<SoFar> {
        let (list, number) = what.rsplit_once(char::is_whitespace)?;
        let entry = number.trim().parse::<usize>().ok()?.checked_sub(1)?;
        let group = self.steps.iter().find_map(|step| match step.topic.path() {
            Some(Path::List(group)) if step.path == list.trim() => Some(group),
            _ => None,
        })?;
        self.so_far.without(group, entry).ok()
    }

    /// Tells what a job no longer says at its new place.
    fn tell_lost(&self, console: &Console, next: &SoFar) {
        let reader = console.voice().reader;
        let mut lost = Vec::new();
        for step in self.listed() {
            if let Some(Path::Fact(field)) = step.topic.path()
                && step.mark == Mark::Stated
                && next.job.values.get(usize::from(field.0)) == Some(&crate::job::model::Given::Unknown)
            {
                lost.push(step.title);
            }
        }
        if !lost.is_empty() {
            console.line(&reader.say_with("walk-moved", &[("facts", &lost.join(", "))]));
        }
    }
}

/// What a line means where a word stands for something outside the job: `today` for
/// a date, a number for a place that was offered.
fn meant(text: &str, step: &Step<'_>, offered: &[String]) -> String {
    if step.form == Form::Date && ["today", "hoy"].contains(&&*text.to_lowercase()) {
        return screen::today().to_string();
    }
    let by_number = text.parse::<usize>().ok().and_then(|number| offered.get(number.checked_sub(1)?));
    match by_number {
        Some(name) if step.form == Form::Place => name.clone(),
        _ => text.to_owned(),
    }
}

fn offered(wrong: &Wrong) -> Vec<String> {
    match &wrong.problem {
        Problem::NoPlace { nearest: names } | Problem::SeveralPlaces { paths: names } => names.clone(),
        _ => Vec::new(),
    }
}

/// How many places are offered by their beginning.
const OFFERED: usize = 6;

/// The same; where no name of a place is near, those that begin like what was typed.
fn begun(rules: &Rules, wrong: Wrong) -> Wrong {
    let Problem::NoPlace { nearest } = &wrong.problem else { return wrong };
    let typed = wrong.typed.to_lowercase();
    if !nearest.is_empty() || typed.is_empty() {
        return wrong;
    }
    let known = &rules.library().places;
    let begins = |name: &str| name.to_lowercase().starts_with(&typed);
    let mut nearest: Vec<String> = known
        .all()
        .filter(|(_, issuer)| issuer.kind == IssuerKind::Place)
        .filter(|(_, issuer)| {
            begins(&issuer.name) || begins(&issuer.title) || issuer.also.iter().any(|name| begins(name))
        })
        .map(|(id, _)| known.path_text(id))
        .collect();
    nearest.sort();
    nearest.truncate(OFFERED);
    Wrong { problem: Problem::NoPlace { nearest }, ..wrong }
}

/// How many places are listed at most.
const PLACES: usize = 60;

/// The places that the rules know, each by its path.
fn places(rules: &Rules, voice: Voice) -> String {
    let known = &rules.library().places;
    let mut paths: Vec<String> = known
        .all()
        .filter(|(_, issuer)| issuer.kind == IssuerKind::Place)
        .map(|(id, issuer)| format!("{}: {}", known.path_text(id), issuer.title))
        .collect();
    paths.sort();
    let more = paths.len() > PLACES;
    paths.truncate(PLACES);
    let mut text: String = paths.iter().map(|path| voice.line(path, Tone::Plain)).collect();
    if more {
        text.push_str("…\n");
    }
    text
}

/// Asks for a place alone; nothing where the talk ends before there is one.
pub(super) fn ask_place(rules: &Rules, console: &Console) -> Option<PlaceId> {
    let step = Step::first();
    let mut known: Vec<String> = Vec::new();
    loop {
        console.tell("\n");
        console.tell(&walk::question(&step, None, Count { number: 1, left: 0, again: false }, console.voice()));
        let typed = console.answer()?;
        match line(&typed, &step) {
            Line::Stop | Line::Done => return None,
            Line::List => console.tell(&places(rules, console.voice())),
            Line::Help => console.tell(&console.voice().help()),
            _ => match read(rules.desk(), None, &step, &meant(&typed, &step, &known)) {
                Ok(Reply::Place(place)) => return Some(place),
                Ok(_) => {}
                Err(wrong) => {
                    let wrong = begun(rules, wrong);
                    console.tell(&walk::wrong(&wrong, &step, console.voice()));
                    known = offered(&wrong);
                }
            },
        }
    }
}

/// Options that contradict each other.
pub(super) fn contradiction(refused: &Refused) -> Finding {
    let told = match refused {
        Refused::Dates(faults) => faults.first().map(|(_, fault)| fault.clone()),
        Refused::TooMany(fault) => Some(fault.clone()),
        Refused::Misplaced => None,
    };
    let told = told.unwrap_or_else(|| crate::glossary::Fault::new(codes::JOB, "the options contradict each other"));
    let finding = Finding::new(told.code, Spot::argument("--date"), told.message);
    finding.help(told.help.unwrap_or_else(|| "leave one of them out".to_owned()))
}
