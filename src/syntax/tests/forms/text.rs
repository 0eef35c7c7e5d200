//! Codes, editions, sections, conditions, demands and tables.

use super::{cond, demand, figure, section, test, texts, word};
use crate::syntax::tests::item;
use crate::syntax::tree::*;

#[test]
fn codes_and_editions() {
    let Item::Code(code) = item("code IRC on fuel-gas, electrical \"Residential\"") else { panic!() };
    assert_eq!(texts(&code.subjects), ["fuel-gas", "electrical"]);
    let Item::Edition(edition) = item(
        "edition IFGC 2018 revises IFGC 2015 published 2017-08-01 from memory renumber 310.1.1 to 310.2 delete 310.9",
    ) else {
        panic!()
    };
    assert!(edition.revises.is_some() && edition.published.is_some() && edition.provenance.is_some());
    assert_eq!(edition.clauses.len(), 2);
    let Item::Edition(edition) = item("edition UPC 2024 text not here") else { panic!() };
    assert!(edition.text_not_here);
}

#[test]
fn clauses_of_editions() {
    let Item::Edition(edition) = item(
        "edition NEC 2020
         section 250.104(B) \"t\" on electrical summary \"s\"
         section 310 as IFGC 2018 310.1.1
         table 250.122 by energizing-circuit gives jumper-size for copper, aluminum through 15 A gives 14 AWG, 12 AWG common practice
         definition plain-tubing any run with (jacket is plain)
         left out 250.64 \"why\"
         unread 250.66 on jumper-size, landing
         unread 250.70
         replace 250.94 and under \"t\"
         except 250.104(B) where work is repair jumper-size at least 8 AWG",
    ) else {
        panic!()
    };
    assert_eq!(edition.clauses.len(), 9);
    let TextClause::Section(extract) = &edition.clauses[1] else { panic!() };
    assert_eq!(
        extract.extract.as_ref().map(|(name, number)| (&*name.code.text, &*name.year.text, &*number.text)),
        Some(("IFGC", "2018", "310.1.1"))
    );
    let TextClause::Unread(unread) = &edition.clauses[5] else { panic!() };
    assert_eq!(texts(&unread.questions), ["jumper-size", "landing"]);
    let TextClause::Patch(replace) = &edition.clauses[7] else { panic!() };
    assert!(replace.and_under && replace.action == Action::Replace);
    let TextClause::Patch(except) = &edition.clauses[8] else { panic!() };
    assert_eq!((except.body.wheres.len(), except.body.demands.len()), (1, 1));
}

#[test]
fn provenance_has_three_forms() {
    let kinds: Vec<ProvenanceKind> = ["read \"w\" on 2026-11-24", "from memory", "common practice"]
        .iter()
        .map(|text| section(text).body.provenance.unwrap().kind)
        .collect();
    assert!(matches!(&kinds[0], ProvenanceKind::Read { on, .. } if &*on.text == "2026-11-24"));
    assert_eq!(kinds[1..], [ProvenanceKind::Memory, ProvenanceKind::CommonPractice]);
}

#[test]
fn a_definition_may_stand_before_its_source() {
    let body = section("where plain-tubing\n from memory").body;
    assert!(matches!(body.wheres[0].kind, CondKind::Named(_)));
    assert!(body.provenance.is_some());
}

#[test]
fn bodies_keep_their_lines() {
    let body = section(
        "\"t\" summary \"s\" where a is yes where b is yes except where c is yes except where d is no q is r note \"n\" refer q, p \"why\" instructions bind on q, p",
    )
    .body;
    assert_eq!((body.wheres.len(), body.excepts.len(), body.demands.len()), (2, 2, 4));
}

#[test]
fn tests_of_facts() {
    assert!(matches!(test("a is yes"), Test::Is(values) if word(&values[0]) == "yes"));
    assert!(matches!(test("a is not b"), Test::IsNot(values) if values.len() == 1));
    assert!(matches!(test("a is any of b, UL-467, c"), Test::Is(values) if values.len() == 3));
    assert!(matches!(test("a is not any of b, c"), Test::IsNot(values) if values.len() == 2));
    assert!(matches!(test("a includes b"), Test::Includes(values) if values.len() == 1));
    assert!(matches!(test("a includes any of b, c"), Test::Includes(values) if values.len() == 2));
    assert!(matches!(test("a at least 75 ft"), Test::AtLeast(value) if figure(&value) == ("75", Some("ft"))));
    assert!(matches!(test("a at most 22.86 m"), Test::AtMost(value) if figure(&value) == ("22.86", Some("m"))));
    assert!(matches!(test("a over 3"), Test::Over(value) if figure(&value) == ("3", None)));
    assert!(matches!(test("a under 1/0 AWG"), Test::Under(value) if figure(&value) == ("1/0", Some("AWG"))));
    assert!(matches!(test("a before 2024-07-01"), Test::Before(Value::Date(_))));
    assert!(matches!(test("a from 2024-07-01"), Test::From(Value::Date(_))));
    assert!(matches!(test("a within 2 years after b"), Test::Within { count, unit, after }
        if (&*count.text, &*unit.text, &*after.head.text) == ("2", "years", "b")));
    assert!(matches!(test("code-chosen is IFGC"), Test::Is(values) if word(&values[0]) == "IFGC"));
}

#[test]
fn and_binds_closer_than_or() {
    let CondKind::Or(sides) = cond("a is b and c is d or not e is f and (g is h or i is j)").kind else { panic!() };
    assert!(matches!(&sides[0].kind, CondKind::And(both) if both.len() == 2));
    let CondKind::And(both) = &sides[1].kind else { panic!() };
    assert!(matches!(&both[0].kind, CondKind::Not(inner) if matches!(inner.kind, CondKind::Test { .. })));
    assert!(matches!(&both[1].kind, CondKind::Or(_)));
}

#[test]
fn entries_of_lists() {
    let CondKind::Entries { any, list, with } = cond("any run with(material is csst)").kind else { panic!() };
    assert!(any && with.is_some() && &*list.text == "run");
    let CondKind::Entries { any, with, .. } = cond("no run").kind else { panic!() };
    assert!(!any && with.is_none());
    assert!(matches!(cond("not(any run)").kind, CondKind::Not(_)));
}

#[test]
fn instructions_say() {
    for text in [
        "instructions say q is w",
        "instructions say q at most 3 ft",
        "instructions say q none of a, b",
        "instructions say q all of a",
    ] {
        assert!(matches!(cond(text).kind, CondKind::Say(_)), "{text}");
    }
    // A fact may bear the name all the same.
    assert!(matches!(cond("instructions is at-hand").kind, CondKind::Test { .. }));
}

#[test]
fn demands() {
    assert!(matches!(demand("q is required"), DemandKind::Is { rung, .. } if &*rung.text == "required"));
    let DemandKind::AtLeast { limits, .. } =
        demand("q at least 6 AWG for copper, copper-clad, 4 AWG for aluminum, 250 kcmil")
    else {
        panic!()
    };
    assert_eq!(limits.iter().map(|limit| limit.terms.len()).collect::<Vec<_>>(), [2, 1, 0]);
    assert!(matches!(demand("q at most 75 ft"), DemandKind::AtMost { limits, .. } if limits.len() == 1));
    assert!(matches!(demand("q only a, b"), DemandKind::Only { terms, .. } if terms.len() == 2));
    assert!(matches!(demand("q none of a, b"), DemandKind::NoneOf { terms, .. } if terms.len() == 2));
    assert!(matches!(demand("q all of UL-467"), DemandKind::AllOf { terms, .. } if terms.len() == 1));
    assert!(matches!(demand("refer q, p \"why\""), DemandKind::Refer { questions, .. } if questions.len() == 2));
    assert!(matches!(demand("instructions bind on q, p"), DemandKind::Bind { questions } if questions.len() == 2));
    assert!(matches!(demand("note \"n\""), DemandKind::Note { .. }));
}

#[test]
fn demands_by_table() {
    let table = |text: &str| match demand(text) {
        DemandKind::ByTable { least, code, year, number, .. } => {
            (least, code.map(|word| word.text), year.map(|word| word.text), number.text)
        }
        other => panic!("{other:?}"),
    };
    assert_eq!(table("q at least by table 250.122"), (true, None, None, "250.122".into()));
    assert_eq!(table("q at most by table NEC 250.122"), (false, Some("NEC".into()), None, "250.122".into()));
    assert_eq!(
        table("q at least by table NEC 2020 250.122"),
        (true, Some("NEC".into()), Some("2020".into()), "250.122".into())
    );
    assert_eq!(table("q at least by table G2413.4"), (true, None, None, "G2413.4".into()));
    assert_eq!(section("q at least by table E3908\n p is r").body.demands.len(), 2);
    assert_eq!(section("q at least by table NEC 250\n p at most 3 ft").body.demands.len(), 2);
}

#[test]
fn questions_may_be_named_like_clauses() {
    for name in
        ["summary", "note", "floor", "ceiling", "kind", "add", "report", "election", "section", "amend", "status"]
    {
        assert!(
            matches!(demand(&format!("{name} is required")), DemandKind::Is { question, .. } if &*question.text == name)
        );
    }
}

#[test]
fn tables_with_columns_and_open_ends() {
    let Item::Edition(edition) = item(
        "edition NEC 2020 table 250.66 \"t\" on electrical by service-conductor per service-conductor-material copper, aluminum
           gives jumper-size for copper, aluminum where plain
           over 1100 kcmil, 1750 kcmil gives 3/0 AWG, 250 kcmil
           through 2 AWG, 1/0 AWG gives 8 AWG, 6 AWG summary \"s\"",
    ) else {
        panic!()
    };
    let TextClause::Section(section) = &edition.clauses[0] else { panic!() };
    let table = section.body.table.as_ref().unwrap();
    assert_eq!(table.rows.iter().map(|row| row.over).collect::<Vec<_>>(), [true, false]);
    assert_eq!(figure(&table.rows[0].limits[1]), ("1750", Some("kcmil")));
    assert_eq!(section.body.wheres.len(), 1);
}
