//! What a review tells of generated libraries, held against jobs that say
//! everything: none contradicts a finding, none that shows a fault is left untold,
//! and every example that is shown comes out.

use super::generate::{Without, rows};
use super::{GLOSSARY, holds};
use crate::review::examples;
use crate::review::survey::{Asked, findings};
use crate::rules::{Rules, Source};
use crate::syntax::codes;
use crate::syntax::diagnostic::{Diagnostic, Location};
use crate::verdict::found::State;
use crate::verdict::model::Role;
use crate::verdict::{Scratch, full};
use std::cell::Cell;
use std::collections::BTreeSet;

/// How many libraries are tried where nothing else is asked for.
const CASES: u32 = 60;

fn of(told: &[Diagnostic], code: codes::Code) -> impl Iterator<Item = &Diagnostic> {
    told.iter().filter(move |told| told.code == code)
}

/// The places of a finding: its own and those that belong to it.
fn stands(told: &Diagnostic) -> BTreeSet<Location> {
    told.also.iter().map(|(at, _)| *at).chain([told.at]).collect()
}

#[test]
fn no_job_speaks_against_a_review() {
    let (jobs, conflicts, dead, shown) = (Cell::new(0u32), Cell::new(0u32), Cell::new(0u32), Cell::new(0u32));
    holds(
        &rows(),
        |rows| rows,
        Without::default(),
        CASES,
        |world, rules, _| {
            let told = findings(rules, &|_| true, Asked::default());
            let idle: BTreeSet<Location> = of(&told, codes::DEAD).map(|told| told.at).collect();
            let blocks: String = told.iter().filter_map(|told| told.example.clone()).collect();
            dead.set(dead.get() + idle.len() as u32);
            shown.set(shown.get() + told.iter().filter(|told| told.example.is_some()).count() as u32);
            let sources = [("glossary.rule", GLOSSARY), ("law.rule", &world.text()), ("shown.rule", &blocks)];
            let pasted = Rules::only(sources.map(|(name, text)| Source::new(name, text)).to_vec());
            let problems: Vec<String> = pasted.problems().collect();
            let ran = examples::run(&pasted, |_| true).findings;
            if !problems.is_empty() || !ran.is_empty() {
                return Err(format!("{problems:#?}\n{ran:#?}\n{blocks}"));
            }
            for job in &world.jobs {
                let text = serde_json::Value::Object(job.clone()).to_string();
                let job = rules.read_jobs(&text).map_err(|told| format!("{told:?}"))?.remove(0);
                let Ok(matter) = rules.matter(&job.0) else { continue };
                jobs.set(jobs.get() + 1);
                let verdict = full(&matter, &mut Scratch::default());
                let mut binds: BTreeSet<Location> = BTreeSet::new();
                for answer in &verdict.answers {
                    let holding = answer.because.iter().filter(|reason| reason.condition.is_none());
                    binds.extend(
                        holding
                            .filter(|reason| matches!(reason.role, Role::Governs | Role::Weaker))
                            .map(|reason| reason.source.at),
                    );
                }
                if let Some(at) = binds.iter().find(|at| idle.contains(at)) {
                    let told = of(&told, codes::DEAD).find(|told| told.at == *at);
                    return Err(format!("it binds this job: {told:?}\n{text}"));
                }
                for answer in verdict.answers.iter().filter(|answer| answer.found.state == State::Conflict) {
                    conflicts.set(conflicts.get() + 1);
                    if !of(&told, codes::CONTRADICTION).any(|told| stands(told).is_subset(&binds)) {
                        return Err(format!("{} contradicts itself here\n{text}\n{told:#?}", answer.question.name));
                    }
                }
            }
            Ok(())
        },
    );
    println!(
        "{} jobs, {} in conflict; {} texts dead, {} examples",
        jobs.get(),
        conflicts.get(),
        dead.get(),
        shown.get()
    );
    assert!(conflicts.get() > 0 && dead.get() > 0 && shown.get() > 0);
}
