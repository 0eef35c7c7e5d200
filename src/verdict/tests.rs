//! Verdicts on small laws written down by hand.

use super::model::Role;
use super::reasons::Reasons;
use super::value::{Item, Items};
use super::words::whole;
use super::*;
use crate::glossary::expr::Check;
use crate::glossary::model::{QuestionId, Shape};
use crate::job::model::{Entries, Given, Job};
use crate::law::instrument::Kind;
use crate::law::model::*;
use crate::oracle::world::{AMPS, JACKET, RUN, WET, World, glossary};
use crate::syntax::diagnostic::Location;
use crate::syntax::tree::PowerKind;
use crate::values::{Date, Exact, Measure, Period, Terms, Unit};

const BOND: usize = 0;
const WHO: usize = 5;

fn source(depth: u32, section: &str) -> Source {
    Source {
        depth,
        issuer: "Alder".into(),
        instrument: format!("A-{depth}").into(),
        instrument_title: "".into(),
        kind: Kind::Ordinance,
        adopted_by: None,
        code: None,
        edition: None,
        section: Some(section.into()),
        title: "".into(),
        summary: "".into(),
        provenance: Provenance::CommonPractice,
        in_force: None,
        at: Location::default(),
    }
}

/// A law with conditions but no provisions, and a job of which nothing is known.
fn world(nodes: Vec<Node>) -> World {
    let questions = (0u16..9).map(|number| QuestionLaw {
        question: QuestionId(number),
        terms: if number == 5 { Terms(0b0111) } else { Terms::NONE },
        per_terms: Terms::NONE,
        parts: 1,
        scale: Vec::new(),
        whole: Vec::new(),
        powers: Vec::new(),
        advice: Vec::new(),
        asked: CondId::TRUE,
        met: None,
        contrary: Vec::new(),
    });
    let law = Law {
        nodes: [Node::False, Node::True].into_iter().chain(nodes).collect(),
        questions: questions.collect(),
        sources: vec![source(0, "1"), source(1, "2"), source(1, "10")],
        ..Law::empty(crate::glossary::model::PlaceId(1))
    };
    let job = Job {
        place: law.place,
        reference: None,
        values: vec![Given::Unknown; 18],
        lists: vec![Entries { entries: Vec::new(), more: true }; 2],
    };
    glossary(law, job)
}

/// Adds a provision that binds where the condition holds.
fn provide(world: &mut World, question: usize, source: u32, cond: CondId, part: u128, only: bool) -> ProvisionId {
    let demand = Demand { parts: [part].into(), named: Terms::NONE, only, figures: [None].into() };
    world.law.provisions.push(Provision {
        effect: Effect::Demand(demand),
        reach: CondId::TRUE,
        guard: cond,
        clauses: vec![Clause { cond, fate: Fate::PassedOver, by: None }],
        source: SourceId(source),
        table: None,
        words: format!("part {part}").into(),
    });
    let id = ProvisionId(world.law.provisions.len() as u32 - 1);
    world.law.questions[question].whole.push(id);
    id
}

fn with<T>(world: &World, act: impl FnOnce(&Matter<'_>, &mut Scratch) -> T) -> T {
    let lexicon = world.lexicon();
    let plan = Plan::new(&world.law, &lexicon);
    act(&Matter { plan: &plan, law: &world.law, lexicon, job: &world.job }, &mut Scratch::default())
}

fn value(world: &World, question: usize) -> Items<'_> {
    with(world, |matter, scratch| {
        let verdict = full(matter, scratch);
        let answer = verdict.answers.into_iter().find(|answer| answer.number == question).unwrap();
        match answer.value.unwrap().items {
            Items::One(item) => Items::One(own(item)),
            other => panic!("{other:?}"),
        }
    })
}

/// The same with names that outlive the matter.
fn own<'a>(item: Item<'_>) -> Item<'a> {
    let keep = |names: Vec<&str>| -> Vec<&'a str> { names.into_iter().map(|name| &*name.to_owned().leak()).collect() };
    match item {
        Item::Rung(rung) => Item::Rung(rung.to_owned().leak()),
        Item::Limit(figure) => Item::Limit(figure),
        Item::Any => Item::Any,
        Item::Only { names, but } => Item::Only { names: keep(names), but: keep(but) },
        Item::NoneOf(names) => Item::NoneOf(keep(names)),
        Item::AllOf(names) => Item::AllOf(keep(names)),
    }
}

#[test]
fn permitted_sets_read_by_their_broadest_terms() {
    // Of the kinds, elm stands under birch; fir too, and is not known here.
    for (permitted, only, expected) in [
        (0b1110, true, Item::Only { names: vec!["birch"], but: vec![] }),
        (0b0010, true, Item::Only { names: vec!["birch"], but: vec!["elm"] }),
        (0b0011, true, Item::Only { names: vec!["ash", "birch"], but: vec!["elm"] }),
        (0b0101, true, Item::Only { names: vec!["ash", "elm"], but: vec![] }),
        (0b1111, true, Item::Any),
        (0b0001, false, Item::NoneOf(vec!["birch"])),
        (0b0011, false, Item::NoneOf(vec!["elm"])),
    ] {
        let mut world = world(Vec::new());
        provide(&mut world, WHO, 0, CondId::TRUE, permitted, only);
        assert_eq!(value(&world, WHO), Items::One(expected), "{permitted:b}");
    }
}

fn roles(reasons: &Reasons<'_>) -> Vec<(Role, String)> {
    let all = reasons.because.iter().chain(&reasons.set_aside);
    all.map(|reason| (reason.role, reason.source.section.as_deref().unwrap().to_owned())).collect()
}

#[test]
fn reasons_say_who_governs_who_is_weaker_and_what_failed() {
    let wet = Node::Field(WET, Check::Among(Terms(2)));
    let mut world = world(vec![wet]);
    world.job.values[usize::from(WET.0)] = Given::Term(0);
    provide(&mut world, BOND, 2, CondId::TRUE, 1, false);
    provide(&mut world, BOND, 1, CondId::TRUE, 2, false);
    provide(&mut world, BOND, 0, CondId(2), 2, false);
    with(&world, |matter, scratch| {
        scratch.weigh(matter);
        let found = scratch.found[BOND].clone();
        let reasons = reasons::gather(matter, &mut scratch.memo, BOND, &found);
        let expected = [
            (Role::Governs, "2".to_owned()),
            (Role::Weaker, "10".to_owned()),
            (Role::SetAside(Fate::PassedOver), "1".to_owned()),
        ];
        assert_eq!(roles(&reasons), expected);
        let failed: Vec<String> = reasons.set_aside[0].failed.iter().map(|phrase| phrase.write(matter)).collect();
        assert_eq!(failed, ["wet is yes"]);
    });
}

#[test]
fn what_a_power_sets_aside_is_told_with_the_power() {
    let mut world = world(Vec::new());
    let outer = provide(&mut world, BOND, 0, CondId::TRUE, 1, false);
    provide(&mut world, BOND, 1, CondId::TRUE, 2, false);
    for (kind, rung, inner) in [
        (PowerKind::Preempts, "half", Role::SetAside(Fate::PreEmpted)),
        (PowerKind::Ceiling, "half", Role::SetAside(Fate::PreEmpted)),
        (PowerKind::Floor, "full", Role::Governs),
    ] {
        world.law.questions[BOND].powers =
            vec![PowerStep { kind, cond: CondId::TRUE, outer: vec![outer], source: SourceId(0), depth: 0 }];
        assert_eq!(value(&world, BOND), Items::One(Item::Rung(rung)), "{kind:?}");
        with(&world, |matter, scratch| {
            scratch.weigh(matter);
            let found = scratch.found[BOND].clone();
            let reasons = reasons::gather(matter, &mut scratch.memo, BOND, &found);
            let told =
                reasons.because.iter().chain(&reasons.set_aside).find(|reason| reason.source.depth == 1).unwrap();
            assert_eq!(told.role, inner, "{kind:?}");
            assert_eq!(told.by.is_some(), inner != Role::Governs);
        });
    }
}

#[test]
fn what_an_answer_waits_for_is_told_in_the_words_of_the_language() {
    let jacket = Node::Field(JACKET, Check::Among(Terms(2)));
    let run = Node::Entries { any: true, group: RUN, with: CondId(2) };
    let amps = Node::Field(AMPS, Check::Over(Measure::quantity("60", "A", Unit::find("A").unwrap()).unwrap().amount));
    let mut world = world(vec![jacket, run, amps, Node::And([CondId(3), CondId(4)].into())]);
    provide(&mut world, BOND, 0, CondId(5), 2, false);
    world.job.lists[0] = Entries {
        entries: vec![vec![Given::Term(0), Given::Unknown, Given::Unknown], vec![Given::Unknown; 3]],
        more: false,
    };
    with(&world, |matter, scratch| {
        let verdict = full(matter, scratch);
        let answer = verdict.answers.iter().find(|answer| answer.number == BOND).unwrap();
        let waits = answer.because[0].condition.as_ref().unwrap().write(matter);
        assert_eq!(waits, "run[1].jacket is yes and amps over 60 A");
        assert_eq!(whole(matter, CondId(5)), "any run with (jacket is yes) and amps over 60 A");
        let asks: Vec<&str> = verdict.ask.iter().map(|ask| &*ask.fact).collect();
        assert_eq!(asks, ["amps", "run[1].jacket"]);
    });
}

#[test]
fn past_the_limit_an_answer_is_open_and_never_settled() {
    let jacket = Node::Field(JACKET, Check::Among(Terms(2)));
    let run = Node::Entries { any: true, group: RUN, with: CondId(2) };
    let mut world = world(vec![jacket, run, Node::Not(CondId(3)), Node::Or([CondId(3), CondId(4)].into())]);
    // Some run or none: it always holds, and only completions can show it.
    provide(&mut world, BOND, 0, CondId(5), 2, false);
    for (entries, bounds_only) in [(limits::UNKNOWN_FACTS, false), (limits::UNKNOWN_FACTS + 1, true)] {
        world.job.lists[0] = Entries { entries: vec![vec![Given::Unknown; 3]; entries], more: false };
        with(&world, |matter, scratch| {
            scratch.weigh(matter);
            let found = &scratch.found[BOND];
            assert_eq!(found.bounds_only, bounds_only);
            assert_eq!(found.state, if bounds_only { found::State::Open } else { found::State::Settled });
        });
    }
}

#[test]
fn figures_are_written_in_a_unit_that_gives_them_exactly() {
    let ft = Shape::Quantity(Unit::find("ft").unwrap());
    let of = |number: &str, unit: &str| {
        let amount = Measure::quantity(number, unit, Unit::find("ft").unwrap()).unwrap().amount;
        figures::exactly(amount, ft).unwrap().shown.to_string()
    };
    assert_eq!(of("22.86", "m"), "75 ft");
    assert_eq!(of("10", "m"), "10 m");
    let gauge = |number: &str, unit: &str| {
        figures::exactly(Measure::gauge(number, unit).unwrap().amount, Shape::Gauge).unwrap().shown.to_string()
    };
    assert_eq!(gauge("1/0", "AWG"), "1/0 AWG");
    assert_eq!(gauge("16", "mm2"), "31.5764 kcmil");
    let third = Exact::new(1, 3);
    let between = figures::between(third, Exact::new(1, 2), ft).unwrap();
    assert!(third < between.amount && between.amount < Exact::new(1, 2), "{between:?}");
}

#[test]
fn the_first_day_whose_period_reaches_a_day() {
    let day = |text: &str| Date::parse(text).unwrap();
    for (reached, period, first) in [
        ("2021-02-28", Period::Months(1), "2021-01-28"),
        ("2021-03-01", Period::Months(1), "2021-02-01"),
        ("2024-02-29", Period::Years(1), "2023-03-01"),
        ("2021-03-31", Period::Days(30), "2021-03-01"),
    ] {
        assert_eq!(check::first_reaching(day(reached), period), day(first), "{reached} {period}");
    }
}
