//! Examples and job sheets.

use super::figure;
use crate::syntax::tests::{good_job, item};
use crate::syntax::tree::*;

#[test]
fn examples_and_expectations() {
    let Item::Example(example) = item(
        "example \"e\" job place harlow concealed unknown run none verdict
         direct-bond is required by HC-22-118 310.3
         jumper-length at most 75 ft by HC-22-118
         jumper-size at least 6 AWG for copper, 4 AWG for aluminum by HC-22-118 app-c
         jumper-size at least by table 250.122 by IFGC-2021 310.2
         performer only electrician, limited-electrician
         permits all of gas
         tubing-use silent
         contact open
         landing open on jumper.landed-on
         direct-bond open on run[0].jacket
         direct-bond open on run[]
         access referred
         clamp conflict
         jumper-length met
         jumper-size not met
         performer none of apprentice by HC-22-118
         outcome corrections",
    ) else {
        panic!()
    };
    assert_eq!(example.expects.len(), 17);
    let by = |index: usize| match &example.expects[index].kind {
        ExpectKind::Demand { by: Some((id, number)), .. } => (&*id.text, number.as_ref().map(|word| &*word.text)),
        other => panic!("{other:?}"),
    };
    assert_eq!(by(0), ("HC-22-118", Some("310.3")));
    assert_eq!(by(1), ("HC-22-118", None));
    assert_eq!(by(2), ("HC-22-118", Some("app-c")));
    assert_eq!(by(3), ("IFGC-2021", Some("310.2")));
    assert_eq!(by(15), ("HC-22-118", None));
    assert!(matches!(&example.expects[9].kind, ExpectKind::OpenOn { fact, .. } if &*fact.text == "run[0].jacket"));
    assert!(matches!(&example.expects[10].kind, ExpectKind::OpenOn { fact, .. } if &*fact.text == "run[]"));
    assert!(matches!(&example.expects[14].kind, ExpectKind::State { state, .. } if &*state.text == "not-met"));
}

#[test]
fn expectations_beside_demands() {
    let Item::Example(example) = item(
        "example \"e\" job place harlow verdict
         direct-bond is required by HC-22-118
         note by HC-22-118 310.3
         performer only electrician by HC-22-118
         pending HC-26-2
         clamp all of UL-467 by HC-22-118
         advised direct-bond is required by NG-4 2
         advised jumper-length at most 50 ft
         jumper-length no limit
         performer anyone
         landing anything
         permits nothing
         note by HC-22-118
         clamp not asked
         pending open
         pending is low
         advised silent
         advised is low
         note is low
         outcome open",
    ) else {
        panic!()
    };
    let kinds: Vec<&str> = example
        .expects
        .iter()
        .map(|expect| match &expect.kind {
            ExpectKind::Outcome(_) => "outcome",
            ExpectKind::Demand { by: Some((_, Some(_))), .. } => "demand by a section",
            ExpectKind::Demand { .. } => "demand",
            ExpectKind::Advice { by: Some((_, Some(_))), .. } => "advice by a section",
            ExpectKind::Advice { .. } => "advice",
            ExpectKind::Note { by: (_, Some(_)) } => "note by a section",
            ExpectKind::Note { .. } => "note",
            ExpectKind::Pending(_) => "pending",
            ExpectKind::Loosest { .. } => "loosest",
            ExpectKind::State { .. } => "state",
            ExpectKind::OpenOn { .. } => "open on",
        })
        .collect();
    // Questions may be called `note`, `pending` and `advised`.
    assert_eq!(
        kinds,
        [
            "demand",
            "note by a section",
            "demand",
            "pending",
            "demand",
            "advice by a section",
            "advice",
            "loosest",
            "loosest",
            "loosest",
            "loosest",
            "note",
            "state",
            "state",
            "demand",
            "state",
            "demand",
            "demand",
            "outcome",
        ]
    );
}

#[test]
fn job_sheets() {
    let sheet = good_job(
        "job # the word may stand first
         place \"Harlow County\"
         reference \"permit 24-118\"
         application-date 2024-03-01
         contract-date none
         concealed unknown
         permits-held gas, electrical
         service-rating 200 A
         stories 3
         run { length 40 ft jacket arc-resistant material csst product tube-works-a }
         run { jacket unknown clamp-listing none }
         run unknown
         appliance { }
         jumper.present yes
         jumper.size 1/0 AWG
         code-chosen IFGC",
    );
    assert_eq!(sheet.entries.len(), 15);
    assert!(matches!(&sheet.entries[0], JobEntry::Place(place) if place.printed));
    assert!(matches!(&sheet.entries[3], JobEntry::Fact { value: JobValue::None, .. }));
    assert!(matches!(&sheet.entries[5], JobEntry::Fact { value: JobValue::Values(values), .. } if values.len() == 2));
    assert!(
        matches!(&sheet.entries[7], JobEntry::Fact { value: JobValue::Values(values), .. } if figure(&values[0]) == ("3", None))
    );
    assert!(matches!(&sheet.entries[8], JobEntry::Entry { facts, .. } if facts.len() == 4));
    assert!(
        matches!(&sheet.entries[9], JobEntry::Entry { facts, .. } if facts[0].1 == JobValue::Unknown && facts[1].1 == JobValue::None)
    );
    assert!(matches!(&sheet.entries[12], JobEntry::Fact { path, .. } if path.attribute.is_some()));
    assert!(
        matches!(&good_job("place larkspur/harlow").entries[0], JobEntry::Place(place) if &*place.text == "larkspur/harlow")
    );
    assert!(good_job("").entries.is_empty());
}

#[test]
fn a_unit_stands_on_the_line_of_its_figure() {
    let sheet = good_job("stories 3\nft yes");
    assert_eq!(sheet.entries.len(), 2);
    let sheet = good_job("run { stories 3 material csst length 5 ft in-raceway yes }");
    assert!(matches!(&sheet.entries[0], JobEntry::Entry { facts, .. } if facts.len() == 4));
    let sheet = good_job("pipe-size 2 inch\nlength 3 furlongs");
    assert!(
        matches!(&sheet.entries[1], JobEntry::Fact { value: JobValue::Values(values), .. } if figure(&values[0]) == ("3", Some("furlongs")))
    );
}

/// Every unit that the language knows is read before another word as before an end of line.
#[test]
fn every_unit_may_stand_before_a_word() {
    for unit in crate::values::Unit::names() {
        let sheet = good_job(&format!("run {{ length 5 {unit} in-raceway yes }}"));
        let JobEntry::Entry { facts, .. } = &sheet.entries[0] else { panic!("{unit}") };
        assert_eq!(facts.len(), 2, "{unit}");
        assert!(matches!(&facts[0].1, JobValue::Values(values) if figure(&values[0]) == ("5", Some(unit))), "{unit}");
    }
}
