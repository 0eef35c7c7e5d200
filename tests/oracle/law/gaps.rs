//! What a review tells of jobs that no code governs, held against the clerk's word
//! on every job that the adoptions of a place can tell apart: a hole that is told is
//! one, on just these days and in the job that shows it, and one that is to be told
//! is not left out. Nothing is to be told where the place does not speak on the
//! subject or leaves it to places within, nor what a place around it tells.
//!
//! `ORACLE_CASES` sets how many libraries are tried.

use super::generate::{PLACES, Without, World, date, rows};
use super::governed::{Governs, Left, Place, Tried};
use super::holes::{Should, should};
use super::{GLOSSARY, holds};
use crate::glossary::model::{FieldId, PlaceId, SubjectId};
use crate::job::model::{Given, Job};
use crate::job::{Defaults, read_sheet};
use crate::review::survey::{Asked, findings};
use crate::rules::{Rules, Source};
use crate::syntax::codes;
use crate::syntax::diagnostic::Diagnostic;
use crate::syntax::tree::Item;
use crate::values::Date;
use crate::verdict::survey::Window;
use proptest::prelude::*;
use std::cell::RefCell;
use std::collections::{BTreeMap, BTreeSet};

/// How many libraries are tried where nothing else is asked for.
const CASES: u32 = 60;

/// The most jobs of a place that are tried, where many libraries are asked for and
/// where not.
const MOST: [usize; 2] = [20_000, 1_200];

/// How many of these jobs lend what the job that is shown leaves unsaid.
const LENT: usize = 200;

/// How often each thing was held.
#[derive(Debug, Default)]
struct Tally {
    no_law: u64,
    subjects: u64,
    left: BTreeMap<Left, u64>,
    jobs: u64,
    holes: u64,
    told: u64,
    kept: BTreeMap<&'static str, u64>,
    either: u64,
}

/// The days that a finding tells: of each stretch the first and, where it ends, the last.
fn stretches(message: &str) -> Vec<(Date, Option<Date>)> {
    let Some((_, days)) = message.split_once("some jobs: ") else { return Vec::new() };
    let day = |text: &str| Date::parse(text).expect("a date");
    days.split(", ")
        .map(|stretch| {
            let words: Vec<&str> = stretch.split(' ').collect();
            match words[..] {
                ["from", first, "on"] => (day(first), None),
                ["from", first, "through", last] => (day(first), Some(day(last))),
                _ => panic!("{stretch} is no stretch of days"),
            }
        })
        .collect()
}

/// A hole that is told is one, on just the days that are told, and so is the job that
/// shows it, whatever it leaves unsaid.
fn is_one(at: &Place<'_>, tried: &Tried, told: &Diagnostic, shown: &Job) -> Result<(), String> {
    if told.message.contains("is ever in force") && tried.governed {
        return Err("some job is governed".to_owned());
    }
    let date = at.library.glossary.roles.dates.expect("a fact dates instruments");
    let days = stretches(&told.message);
    let within = |day: &Date| days.iter().any(|(first, last)| first <= day && last.is_none_or(|last| *day <= last));
    if at.dating.contains(&date)
        && !days.is_empty()
        && let Some(day) = tried.days.iter().find(|day| within(day) != tried.open.contains(day))
    {
        return Err(format!("{day} is told otherwise than it was tried"));
    }
    for (number, value) in (0u16..).zip(&shown.values) {
        if let Given::Date(day) = value
            && !at.may(FieldId(number), *day)
        {
            return Err(format!("the job that shows it is of {day}, outside the window"));
        }
    }
    for (turn, lent) in tried.jobs.iter().step_by(tried.jobs.len() / LENT + 1).enumerate() {
        let mut job = joined(shown, lent);
        at.fill(&mut job, turn);
        if at.ways(&job).iter().any(|way| *way != Governs::No) {
            return Err(format!("the job that shows it is governed, as {job:?}"));
        }
    }
    Ok(())
}

/// A job, what it leaves unsaid taken from another.
fn joined(shown: &Job, lent: &Job) -> Job {
    let mut job = lent.clone();
    for (slot, value) in job.values.iter_mut().zip(&shown.values).filter(|(_, value)| **value != Given::Unknown) {
        *slot = value.clone();
    }
    for (list, said) in job.lists.iter_mut().zip(&shown.lists).filter(|(_, said)| !said.more) {
        *list = said.clone();
    }
    job
}

/// The job of the block that shows a finding.
fn shown(glossary: &str, world: &World, told: &Diagnostic) -> Result<Job, String> {
    let block = told.example.clone().ok_or("no job shows it")?;
    let sources = [("glossary.rule", glossary), ("law.rule", &world.text()), ("shown.rule", &block)];
    let pasted = Rules::only(sources.map(|(name, text)| Source::new(name, text)).to_vec());
    let mut jobs = pasted.trees().flat_map(|(file, tree)| tree.items.iter().map(move |item| (file, item))).filter_map(
        |(file, item)| match item {
            Item::Example(example) => Some(read_sheet(&example.job, file, pasted.desk(), &Defaults::default())),
            _ => None,
        },
    );
    jobs.next().ok_or("no job shows it")?.map_err(|told| format!("{told:?}"))
}

/// A window, asked for or not at either end.
fn window(seed: u16) -> Window {
    let day = |bits: u16| {
        let near = Date::parse(&date(usize::from(bits) / 3 % 24)).expect("a date");
        [near.eve(), near, near.next()][usize::from(bits) % 3]
    };
    let (one, two) = (day(seed >> 2 & 127), day(seed >> 9));
    match seed % 4 {
        1 => Window { from: Some(one), through: None },
        2 => Window { from: None, through: Some(two) },
        3 => Window { from: Some(one.min(two)), through: Some(one.max(two)) },
        _ => Window::default(),
    }
}

/// A library with what a review tells of it.
struct Review<'w> {
    world: &'w World,
    glossary: &'w str,
    rules: &'w Rules,
    window: Window,
    all: Vec<Diagnostic>,
    most: usize,
}

impl Review<'_> {
    /// What is told of a place and a subject.
    fn told(&self, place: PlaceId, subject: SubjectId) -> Option<&Diagnostic> {
        let library = self.rules.library();
        let subject = &library.glossary.subjects[usize::from(subject.0)].name;
        let title = &library.places.issuer(place).expect("a place").title;
        let never = format!("no code on {subject} is ever in force at {title}");
        let some = format!("at {title} no code on {subject} governs some jobs");
        let is = |told: &&Diagnostic| told.message == never || told.message.starts_with(&some);
        self.all.iter().filter(|told| told.code == codes::UNGOVERNED).find(is)
    }

    fn undecided(&self, place: PlaceId) -> bool {
        let title = &self.rules.library().places.issuer(place).expect("a place").title;
        let text = format!("the editions in force at {title} could not");
        self.all.iter().any(|told| told.code == codes::UNDECIDED && told.message.starts_with(&text))
    }

    /// Holds what is told of a place and a subject against trying every job.
    fn holds(&self, place: PlaceId, subject: SubjectId, tally: &mut Tally) -> Result<(), String> {
        let told = self.told(place, subject);
        let makes_law = self.rules.library().lawgivers().any(|other| other == place);
        // The law of a place cannot be made where its questions go in a circle.
        if !makes_law || self.rules.ground(place).is_err() {
            tally.no_law += 1;
            return if told.is_none() { Ok(()) } else { Err("it is told of a place without law".to_owned()) };
        }
        tally.subjects += 1;
        let at = Place::new(self.rules.library(), place, subject, self.window);
        if !at.speaks() {
            *tally.kept.entry("does not speak").or_default() += 1;
            return if told.is_none() { Ok(()) } else { Err("it is told where the place does not speak".to_owned()) };
        }
        let tried = match at.all(&BTreeSet::new(), self.most) {
            Ok(tried) => tried,
            Err(left) => {
                *tally.left.entry(left).or_default() += 1;
                return Ok(());
            }
        };
        tally.jobs += tried.jobs.len() as u64;
        tally.holes += tried.holes;
        match (should(self.rules, &at, self.window, &tried, self.most), told) {
            (Should::Keep(why), Some(_)) => Err(format!("it is told, though: {why}")),
            (Should::Tell, None) if !self.undecided(place) => Err("the hole is not told".to_owned()),
            (should, told) => {
                match should {
                    Should::Keep(why) => *tally.kept.entry(why).or_default() += 1,
                    Should::Either => tally.either += 1,
                    Should::Tell => {}
                }
                let Some(told) = told else { return Ok(()) };
                tally.told += 1;
                is_one(&at, &tried, told, &shown(self.glossary, self.world, told)?)
            }
        }
    }
}

#[test]
fn a_hole_is_told_where_trying_every_job_finds_one() {
    let asked: Option<u32> = std::env::var("ORACLE_CASES").ok().and_then(|count| count.parse().ok());
    let most = MOST[usize::from(asked.is_none())];
    let glossary = GLOSSARY.replace("subject wiring\n", "subject wiring  must be governed\n");
    let tally = RefCell::new(Tally::default());
    holds(
        &(rows(), any::<u16>()),
        |rows| &rows.0,
        Without::default(),
        asked.unwrap_or(CASES),
        |world, _, (_, seed)| {
            let sources = [("glossary.rule", &glossary), ("law.rule", &world.text())];
            let rules = Rules::only(sources.map(|(name, text)| Source::new(name, text.clone())).to_vec());
            let window = window(*seed);
            let all = findings(&rules, &|_| true, Asked { window, read_since: None });
            let review = Review { world, glossary: &glossary, rules: &rules, window, all, most };
            for name in PLACES {
                let place = crate::oracle::effect::generate::place(&rules, name);
                for (number, subject) in (0u16..).zip(&rules.library().glossary.subjects) {
                    let known = SubjectId(number);
                    if subject.governed {
                        let held = review.holds(place, known, &mut tally.borrow_mut());
                        held.map_err(|why| {
                            let told = review.told(place, known);
                            format!("{} at {name}, {window:?}: {why}\n{told:?}", subject.name)
                        })?;
                    }
                }
            }
            Ok(())
        },
    );
    let tally = tally.into_inner();
    println!("{tally:#?}");
    assert!(tally.told > 0 && tally.kept.len() == 4, "some case was not met");
}
