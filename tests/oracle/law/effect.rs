//! What a change of a generated library answers otherwise, with codes, amendments,
//! repeals, elections and instructions in it, held against trying every job.

use super::generate::{Without, rows};
use super::{GLOSSARY, holds};
use crate::oracle::effect::{Tally, hold};
use crate::review::effect::Side;
use crate::rules::{Rules, Source};
use proptest::prelude::*;
use std::cell::RefCell;

/// How many libraries are tried where nothing else is asked for.
const CASES: u32 = 60;

/// The most jobs of one question that are tried.
const MOST: usize = 1_500;

/// What may be written in place of what.
const TURNS: [(&str, &str); 12] = [
    ("GC 2015", "GC 2018"),
    ("GC 2018", "GC 2021"),
    ("is required", "is not-required"),
    ("is not-required", "is required"),
    ("at most 50 ft", "at most 25 ft"),
    ("    repeals", "    suspends"),
    ("floor", "ceiling"),
    ("preempts", "floor"),
    ("only electrician", "only fitter"),
    ("in force from 2020-0", "in force from 2019-0"),
    ("concealed is yes", "work is repair"),
    ("shop", "factory"),
];

/// The items with one of them changed, or left out.
fn changed(items: &[String], which: u16, turn: u16) -> Vec<String> {
    let own: Vec<usize> = (0..items.len()).filter(|at| items[*at].starts_with("instrument")).collect();
    let at = own[usize::from(which) % own.len()];
    let mut items = items.to_vec();
    for number in 0..TURNS.len() {
        let (from, to) = TURNS[(usize::from(turn) + number) % TURNS.len()];
        if !turn.is_multiple_of(5) && items[at].contains(from) {
            items[at] = items[at].replacen(from, to, 1);
            return items;
        }
    }
    items.remove(at);
    items
}

#[test]
fn what_a_change_answers_otherwise_is_what_trying_every_job_finds() {
    let tally = RefCell::new(Tally::default());
    holds(
        &(rows(), any::<u16>(), any::<u16>()),
        |rows| &rows.0,
        Without::default(),
        CASES,
        |world, rules, (_, which, turn)| {
            let after = changed(&world.items, *which, *turn);
            let after =
                Rules::only(vec![Source::new("glossary.rule", GLOSSARY), Source::new("law.rule", after.join("\n"))]);
            if !after.usable() {
                return Ok(());
            }
            let name = ["birch", "cedar", "alder"][usize::from(*turn) % 3];
            let place = |rules| crate::oracle::effect::generate::place(rules, name);
            let sides =
                [Side { rules, place: place(rules), on: None }, Side { rules: &after, place: place(&after), on: None }];
            hold(sides[0], sides[1], MOST, &mut tally.borrow_mut())
                .map_err(|told| format!("{told}\nat {name}, after item {which} turned by {turn}"))
        },
    );
    let tally = tally.into_inner();
    println!("{tally:#?}");
    assert!(tally.questions > tally.too_large && tally.changed > 0);
}
