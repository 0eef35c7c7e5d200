//! A job written and read again is the same job.

use super::{built, desk, parsed_sheet};
use crate::glossary::model::{ChoiceId, FieldId, Scale, Shape};
use crate::glossary::tests::Built;
use crate::glossary::{Glossary, measure};
use crate::job::model::{Entries, Given, Job};
use crate::job::{Defaults, read_json, read_sheet, to_json, to_sheet};
use crate::syntax::diagnostic::FileId;
use crate::values::{Date, Measure, SIZES, Terms};
use proptest::prelude::*;

/// A value for a shape from a number.
fn value(glossary: &Glossary, shape: Shape, seed: u64) -> Given {
    if seed.is_multiple_of(4) {
        return Given::Unknown;
    }
    let seed = seed / 4;
    let pick = |count: usize| (seed % count as u64) as u16;
    let figure =
        |scale: Scale, number: String, unit: Option<&str>| Given::Measure(measure(scale, &number, unit).unwrap());
    // Terms that one place adds come last and are left out.
    let known = |choice: ChoiceId| glossary[choice].terms.iter().filter(|term| term.scope.is_none()).count();
    match shape {
        Shape::YesNo => Given::Term(pick(2)),
        Shape::Date if seed.is_multiple_of(5) => Given::NoDate,
        Shape::Date => Given::Date(Date(pick(40_000).into())),
        Shape::Count => figure(Scale::Count, (seed % 1_000_000_000_000_000_000).to_string(), None),
        Shape::Gauge => {
            let (number, unit) = SIZES[usize::from(pick(SIZES.len()))].name.split_once(' ').unwrap();
            Given::Measure(Measure::gauge(number, unit).unwrap())
        }
        Shape::Quantity(unit) => {
            let number = if seed.is_multiple_of(2) {
                format!("{}", seed % 1000)
            } else {
                format!("{}.{:03}", seed % 77, seed % 999)
            };
            figure(Scale::Quantity(unit), number, Some(unit.name))
        }
        Shape::Name => Given::Name(["brightwell-gas", "a", "x9-z"][usize::from(pick(3))].into()),
        Shape::Code => Given::Name(["IFGC", "IRC", "NEC"][usize::from(pick(3))].into()),
        Shape::Choice(choice) => Given::Term(pick(known(choice))),
        Shape::Several(choice) => Given::Set(Terms(u128::from(seed) & ((1 << known(choice)) - 1))),
    }
}

/// A job at harlow from numbers.
fn job(built: &Built, seeds: &[u64], counts: &[u8], reference: Option<&str>) -> Job {
    let glossary = &built.glossary;
    let mut seeds = seeds.iter().copied().cycle();
    let mut next = |id: FieldId| value(glossary, glossary[id].shape, seeds.next().unwrap());
    let ids = (0u16..).zip(&glossary.fields).map(|(id, _)| FieldId(id));
    let mut values: Vec<Given> = ids.map(|id| if glossary.in_list(id) { Given::Unknown } else { next(id) }).collect();
    // The permit follows the application.
    let at = |path: &str| usize::from(glossary.field(path, None, &built.places).unwrap().0);
    if let (Given::Date(first), Given::Date(second)) = (&values[at("application-date")], &values[at("permit-date")]) {
        let later = (*first).max(*second);
        values[at("permit-date")] = Given::Date(later);
    }
    let mut counts = counts.iter().copied().cycle();
    let lists = glossary.groups.iter().map(|group| {
        if !group.list {
            return Entries::default();
        }
        let count = counts.next().unwrap();
        let entries = (0..count / 2).map(|_| group.fields.iter().map(|id| next(*id)).collect()).collect();
        Entries { entries, more: count % 2 == 1 }
    });
    let lists = lists.collect();
    Job { place: built.places.id("harlow"), reference: reference.map(Into::into), values, lists }
}

fn same(built: &Built, job: &Job) {
    let desk = desk(built);
    let text = to_json(job, desk).to_string();
    let read = read_json(&text, desk, &Defaults::default()).unwrap_or_else(|found| panic!("{text}\n{found:#?}"));
    assert_eq!(read, std::slice::from_ref(job), "{text}");
    let text = to_sheet(job, desk);
    let read = read_sheet(&parsed_sheet(&text), FileId(3), desk, &Defaults::default());
    assert_eq!(read.unwrap_or_else(|found| panic!("{text}\n{found:#?}")), *job, "{text}");
}

#[test]
fn nothing_known_writes_nothing_but_the_place() {
    let built = built();
    let job = job(&built, &[0], &[1], None);
    same(&built, &job);
    let text = to_json(&job, desk(&built)).to_string();
    assert_eq!(text, r#"{"schema":"groundrule/job/1","place":"larkspur/harlow"}"#);
    assert_eq!(to_sheet(&job, desk(&built)), "job\n    place larkspur/harlow\n");
}

#[test]
fn what_is_known_is_written_by_name() {
    let built = built();
    let text = r#"{"schema":"groundrule/job/1","place":"larkspur/harlow","reference":"a \"b\" \\","appliance":[],"concealed":false,"contract-date":"none","jumper":{"present":true,"size":"1/0 AWG"},"meters":3,"permits-held":["gas"],"run":[{"material":"csst"},{},null]}"#;
    let job = super::json(text);
    assert_eq!(to_json(&job, desk(&built)).to_string(), text);
    let sheet = to_sheet(&job, desk(&built));
    let lines: Vec<&str> = sheet.lines().map(str::trim).collect();
    assert_eq!(
        lines,
        [
            "job",
            "place larkspur/harlow",
            r#"reference "a \"b\" \\""#,
            "appliance none",
            "concealed no",
            "contract-date none",
            "jumper { present yes size 1/0 AWG }",
            "meters 3",
            "permits-held gas",
            "run { material csst }",
            "run { }",
            "run unknown",
        ]
    );
    same(&built, &job);
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 128, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_job_comes_back(
        seeds in prop::collection::vec(any::<u64>(), 1..60),
        counts in prop::collection::vec(0u8..8, 1..4),
        reference in prop::option::of("[ -~é]{0,20}"),
    ) {
        let built = built();
        same(&built, &job(&built, &seeds, &counts, reference.as_deref()));
    }

    #[test]
    fn no_text_breaks_the_reader(text in "\\PC{0,60}") {
        let built = built();
        let _ = read_json(&text, desk(&built), &Defaults::default());
        let wrapped = format!("{{ \"place\": \"harlow\", {text} }}");
        let _ = read_json(&wrapped, desk(&built), &Defaults::default());
        let quoted = serde_json::Value::from(text).to_string();
        for fact in ["application-date", "meters", "service-rating", "jumper.size", "permits-held", "gas-supplier", "code-chosen", "place"] {
            let found = read_json(&format!("{{ \"place\": \"harlow\", \"{fact}\": {quoted} }}"), desk(&built), &Defaults::default());
            for one in found.err().into_iter().flatten() {
                prop_assert!(one.help.is_some() && !one.message.is_empty());
            }
        }
    }
}
