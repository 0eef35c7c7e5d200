//! `in-force --section`: what stands, what it said before, and where it went.

use super::{Ran, folder, run, timeless};
use serde_json::{Value, json};

/// A code whose sections move, and a town that adopts its editions and changes them.
const MILL: &str = r#"
code MGC "Mill Gas Code" on fuel-gas
edition MGC 2010
    from memory
    section 2.1 "One"
        where occupancy is commercial
        direct-bond is required
    section 2.1.1 "How long"
        jumper-length at most 75 ft
    section 2.5 "In dispute"
        refer clamp "readings differ"
    section 2.6 "Gone with the next edition"
        tubing-use is permitted
    left out 7 "vents"
edition MGC 2015 published 2015-02-01 revises MGC 2010
    common practice
    renumber 2.1 to 2.4
    replace 2.4 "One, wider"
        direct-bond is required
    delete 2.6
edition MGC 2018 revises MGC 2015
    add 2.9 "New"
        tubing-use is prohibited
edition MGC 2021 text not here
place mill "Town of Mill"
    read "a test" on 2026-11-24
instrument M-1 of mill
    kind ordinance
    in force from 2012-01-01
    adopts MGC 2010
instrument M-2 of mill
    kind ordinance
    in force from 2016-01-01
    adopts MGC 2015
    election through 2016-06-30
instrument M-3 of mill
    kind ordinance
    in force from 2018-01-01
    amend MGC 2015
        except 2.4 where work is repair
instrument M-4 of mill
    kind ordinance
    in force from 2019-01-01
    amend MGC 2015
        delete 2.4.1
        reads 2.5 "Reading"
            clamp all of UL-467
        add 3.1 "The town's own"
            performer only electrician
instrument M-5 of mill
    kind ordinance
    in force from 2022-01-01
    repeals M-4
instrument M-6 of mill
    kind ordinance
    in force from 2027-01-01
    amend MGC 2015
        except 2.4 where work is replacement
        replace 2.5 "Settled"
            clamp all of UL-467
"#;

fn asked(day: &str, number: &str, more: &[&str]) -> Ran {
    let folder = folder(&[("mill.rule", MILL)]);
    let rules = folder.path().to_str().unwrap().to_owned();
    let mut all = vec!["in-force", "mill", "--on", day, "--rules", &rules, "--section", "MGC", number];
    all.extend(more);
    run(&all)
}

fn answer(day: &str, number: &str) -> Value {
    let ran = asked(day, number, &["--as", "json"]);
    assert_eq!((ran.status, ran.err.as_str()), (0, ""), "{day} {number}");
    serde_json::from_str(&ran.out).unwrap()
}

/// Section, day, what was done, and what it said before.
fn changes(day: &str, number: &str) -> Vec<(String, String, String, Vec<String>)> {
    let answer = answer(day, number);
    let text = |value: &Value| value.as_str().unwrap().to_owned();
    let texts = |value: &Value, key: &str| -> Vec<String> {
        value.as_array().unwrap().iter().map(|one| text(if key.is_empty() { one } else { &one[key] })).collect()
    };
    let all = answer["changes"].as_array().unwrap().iter();
    all.map(|change| {
        let how = texts(&change["how"], "").join("; ");
        (text(&change["section"]), text(&change["on"]), how, texts(&change["before"], "demand"))
    })
    .collect()
}

fn one(section: &str, on: &str, how: &str, before: &[&str]) -> (String, String, String, Vec<String>) {
    (section.into(), on.into(), how.into(), before.iter().map(|demand| (*demand).into()).collect())
}

const DELETED: (&str, &str) = ("2019-01-01", "deleted by M-4");

#[test]
fn pages() {
    for (name, day, number) in [("section_moved", "2020-06-01", "2.1"), ("section_read", "2020-06-01", "2.5")] {
        let ran = asked(day, number, &[]);
        assert_eq!((ran.status, ran.err.as_str()), (0, ""), "{name}");
        assert!(ran.out.lines().all(|line| line.chars().count() <= 80), "{name}");
        insta::assert_snapshot!(name, timeless(&ran.out));
    }
}

#[test]
fn an_edition_an_exception_and_a_deletion() {
    let first = "came with MGC 2010, adopted by M-1";
    let long = "jumper-length at most 75 ft";
    assert_eq!(
        changes("2013-01-01", "2.1"),
        [one("2.1", "2012-01-01", first, &[]), one("2.1.1", "2012-01-01", first, &[])]
    );
    // The words on the length go on in the next edition, under another number.
    let wider = "MGC 2015, adopted by M-2, took the place of MGC 2010";
    assert_eq!(
        changes("2017-01-01", "2.4"),
        [one("2.4", "2016-01-01", wider, &["direct-bond is required"]), one("2.4.1", "2012-01-01", first, &[])]
    );
    assert_eq!(
        changes("2020-01-01", "2.4"),
        [
            one("2.4", "2018-01-01", "excepted by M-3", &["direct-bond is required"]),
            one("2.4.1", DELETED.0, DELETED.1, &[long])
        ]
    );
    // Repealed, the deletion is undone; the exception stays, and one to come is not told.
    let answer = answer("2023-01-01", "2.4");
    assert_eq!(answer["stands"][0]["where"], json!(["work is not repair (an exception by M-3)"]));
    assert_eq!(answer["stands"][1]["section"], "2.4.1");
}

#[test]
fn a_reading_and_its_end() {
    let dispute = "refer clamp \"readings differ\"";
    assert_eq!(changes("2019-01-01", "2.5"), [one("2.5", "2019-01-01", "read otherwise by M-4", &[dispute])]);
    let answered = answer("2019-01-01", "2.5");
    assert_eq!(answered["stands"].as_array().unwrap().len(), 1);
    assert_eq!(answered["stands"][0]["author"], "M-4 of Town of Mill");
    let undone = changes("2022-01-01", "2.5");
    assert_eq!((undone[0].1.as_str(), undone[0].3.as_slice()), ("2022-01-01", &["clamp all of UL-467".to_owned()][..]));
    assert_eq!(changes("2027-01-01", "2.5"), [one("2.5", "2027-01-01", "replaced by M-6", &[dispute])]);
    assert_eq!(changes("2018-12-31", "2.5"), [one("2.5", "2012-01-01", "came with MGC 2010, adopted by M-1", &[])]);
}

#[test]
fn a_choice_of_texts_is_no_change_when_it_ends() {
    let wider = "MGC 2015, adopted by M-2, took the place of MGC 2010";
    assert_eq!(changes("2016-07-01", "2.4")[0], one("2.4", "2016-01-01", wider, &["direct-bond is required"]));
    // While it lasts both texts stand, of both sections.
    assert_eq!(answer("2016-06-30", "2.4")["stands"].as_array().unwrap().len(), 4);
    let ran = asked("2016-06-30", "2.4", &[]);
    assert!(ran.out.contains("came with MGC 2015, adopted by M-2 beside what stood"), "{}", ran.out);
}

#[test]
fn numbers_over_the_editions() {
    let numbers = json!([
        { "numbers": [{ "number": "2.4", "from": 2015 }, { "number": "2.1", "from": 2010, "through": 2010 }] },
        { "numbers": [{ "number": "2.4.1", "from": 2015 }, { "number": "2.1.1", "from": 2010, "through": 2010 }] }
    ]);
    for (day, number) in [("2017-01-01", "2.4"), ("2017-01-01", "2.1"), ("2013-01-01", "2.1"), ("2013-01-01", "2.4")] {
        assert_eq!(answer(day, number)["numbers"], numbers, "{day} {number}");
    }
    let page = run(&["in-force", "tamarrow", "--on", "2024-06-03", "--section", "IFGC", "310.2"]).out;
    assert!(page.contains("IFGC 310.2 since 2018; 310.1.1 in 2009 to 2015\n"), "{page}");
}

#[test]
fn another_number_is_answered_with_what_stands() {
    let moved = answer("2017-01-01", "2.1");
    assert_eq!(moved["stands-as"], json!(["2.4", "2.4.1"]));
    assert_eq!(moved["stands"], answer("2017-01-01", "2.4")["stands"]);
    let early = answer("2013-01-01", "2.4");
    assert_eq!(early["stands-as"], json!(["2.1", "2.1.1"]));
    assert_eq!(answer("2013-01-01", "2.1")["stands-as"], Value::Null);
}

#[test]
fn what_is_gone_is_told_with_what_it_said() {
    // By an amendment.
    assert_eq!(answer("2020-01-01", "2.4.1")["stands"], json!([]));
    assert_eq!(changes("2020-01-01", "2.4.1"), [one("2.4.1", DELETED.0, DELETED.1, &["jumper-length at most 75 ft"])]);
    // By the edition.
    assert_eq!(
        changes("2017-01-01", "2.6"),
        [one("2.6", "2016-07-01", "MGC 2015, adopted by M-2, has no such section", &["tubing-use is permitted"])]
    );
    let page = asked("2017-01-01", "2.6", &[]).out;
    assert!(page.contains("Nothing of it stands.") && page.contains("MGC 2.6 in 2010\n"), "{page}");
    // With the repeal of its instrument.
    assert_eq!(changes("2020-01-01", "3.1"), [one("3.1", "2019-01-01", "added by M-4", &[])]);
    let gone = changes("2022-06-01", "3.1");
    assert_eq!(
        (gone[0].1.as_str(), gone[0].3.as_slice()),
        ("2022-01-01", &["performer only electrician".to_owned()][..])
    );
}

#[test]
fn what_never_stood_or_is_left_out() {
    let page = asked("2020-01-01", "2.9", &[]).out;
    assert!(page.contains("MGC 2.9 was not in force there up to that day; in force is MGC 2015,"), "{page}");
    assert!(page.contains("MGC 2.9 since 2018\n"), "{page}");
    let page = asked("2020-01-01", "7", &[]).out;
    assert!(page.contains("MGC 2015 7 is left out of the library: vents.\n"), "{page}");
    let ran = asked("2020-01-01", "2.44", &[]);
    assert_eq!(ran.status, 1);
    assert!(ran.err.contains("GR0602") && ran.err.contains("`2.4`"), "{}", ran.err);
    assert_eq!(asked("2011-01-01", "2.1", &[]).status, 1, "no code is in force");
}
