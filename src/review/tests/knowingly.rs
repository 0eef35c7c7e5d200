//! Warnings that are passed over with a reason.

use crate::review::{Doubts, Found, doubts};
use crate::rules::{Rules, Source};

/// Two codes of which one takes a section over from the other, so that its amendment
/// has a twin (GR5105), and a section without a source (GR5100).
const TEXT: &str = r#"
subject gas
fact applied  date  dates instruments
question bond on gas  ladder not-required, required
fact house  yes-no
code GC on gas
    IN-CODE
code RC on gas
edition GC 2018
    from memory
    section 1 "Bond"
        bond is required
edition GC 2021
    IN-EDITION
    section 1 "Bond"
        IN-SECTION
        bond is required
edition RC 2018
    from memory
    section G1 as GC 2018 1
place alder "Alder"
    from memory
    IN-PLACE
instrument A-1 of alder
    kind     ordinance
    in force from 2020-01-01
    IN-INSTRUMENT
    adopts RC 2018 where house is yes
    adopts GC 2018 otherwise
    amend GC 2018
        IN-AMENDMENT
        except 1 "Houses"
            IN-PATCH
            where house is no
"#;

/// What is found with lines at some of the marks.
fn found(lines: &[(&str, &str)]) -> Doubts {
    let mut text = TEXT.to_owned();
    for (mark, line) in lines {
        text = text.replace(mark, line);
    }
    let text: String =
        text.lines().filter(|line| !line.trim_start().starts_with("IN-")).map(|line| format!("{line}\n")).collect();
    let rules = Rules::only(vec![Source::new("a.rule", text)]);
    assert!(rules.diagnostics().is_empty(), "{:#?}", rules.diagnostics());
    doubts(&rules, Found::default())
}

fn codes(doubts: &Doubts) -> (Vec<String>, Vec<(String, &str)>) {
    (
        doubts.told.iter().map(|told| told.code.to_string()).collect(),
        doubts.silenced.iter().map(|(told, why)| (told.code.to_string(), why.as_str())).collect(),
    )
}

#[test]
fn nothing_is_silenced_unasked() {
    assert_eq!(codes(&found(&[])).0, ["GR5100", "GR5105"]);
    assert!(found(&[]).silenced.is_empty());
}

#[test]
fn a_warning_is_silenced_in_its_block_and_in_those_around() {
    for mark in ["IN-PATCH", "IN-AMENDMENT", "IN-INSTRUMENT"] {
        let doubts = found(&[(mark, "knowingly GR5105 \"houses only\"")]);
        assert_eq!(codes(&doubts), (vec!["GR5100".to_owned()], vec![("GR5105".to_owned(), "houses only")]), "{mark}");
    }
    for mark in ["IN-SECTION", "IN-EDITION"] {
        let doubts = found(&[(mark, "knowingly GR5100 \"not seen\"")]);
        assert_eq!(codes(&doubts), (vec!["GR5105".to_owned()], vec![("GR5100".to_owned(), "not seen")]), "{mark}");
    }
}

#[test]
fn it_reaches_no_other_block_and_no_other_code() {
    for (mark, line) in [
        ("IN-CODE", "knowingly GR5105 \"w\""),
        ("IN-PLACE", "knowingly GR5105 \"w\""),
        ("IN-SECTION", "knowingly GR5105 \"w\""),
        ("IN-PATCH", "knowingly GR5101 \"w\""),
    ] {
        let doubts = found(&[(mark, line)]);
        let (mut told, silenced) = codes(&doubts);
        told.sort();
        assert_eq!(told, ["GR5100", "GR5105", "GR5113"], "{mark}");
        assert!(silenced.is_empty(), "{mark}");
        let unused = doubts.told.iter().find(|told| told.code.to_string() == "GR5113").unwrap();
        assert!(
            unused.message.contains(if line.contains("5105") { "`GR5105`" } else { "`GR5101`" }),
            "{}",
            unused.message
        );
    }
}

/// Two lines that name one warning are both needed as long as it is there.
#[test]
fn of_two_lines_none_is_left_over() {
    let doubts = found(&[("IN-PATCH", "knowingly GR5105 \"inner\""), ("IN-INSTRUMENT", "knowingly GR5105 \"outer\"")]);
    assert_eq!(codes(&doubts).0, ["GR5100"]);
    assert_eq!(doubts.silenced.len(), 1);
}

/// Where something is wrong, not all doubts are known, and no line is called needless.
#[test]
fn with_an_error_no_line_is_called_needless() {
    let doubts = found(&[("IN-PATCH", "knowingly GR5101 \"w\""), ("except 1 \"Houses\"", "except 7 \"Houses\"")]);
    assert!(doubts.told.iter().all(|told| told.code.to_string() != "GR5113"), "{:#?}", doubts.told);
}
