//! `proofread`.

use super::{data, folder, run};
use serde_json::Value;

const TOWN: &str = r#"
place example-town "Example Town"
    read "a test" on 2026-11-24
    nothing of its own on electrical read "a test" on 2026-11-24
instrument E-1 of example-town "Ordinance 1"
    kind ordinance
    in force from 2020-01-01
    adopts IFGC 2018
    section 2 "Who may bond"
        performer only electrician

example "who may bond"
    job
        place example-town
        application-date 2024-01-02
        occupancy commercial
        work new-system
        building main
        performer plumber
        run { material csst jacket plain role distribution }
    verdict
EXPECTED
"#;

fn proofread(expected: &str, more: &[&str]) -> super::Ran {
    let lines: String = expected.lines().map(|line| format!("        {line}\n")).collect();
    let folder = folder(&[("town.rule", &TOWN.replace("EXPECTED", &lines))]);
    let path = folder.path().to_str().unwrap().to_owned();
    let mut arguments = vec!["proofread", path.as_str()];
    arguments.extend(more);
    run(&arguments)
}

#[test]
fn the_library_and_the_example_places_are_clean() {
    let rules = format!("{}/rules", env!("CARGO_MANIFEST_DIR"));
    let ran = run(&["proofread", &rules]);
    assert!(!ran.out.contains("error GR"), "{}", ran.out);
    assert!(ran.out.contains(" examples run, no errors"), "{}", ran.out);
    let ran = run(&["proofread", &data("places.rule")]);
    assert!(ran.out.contains("1 file, 0 examples run, no errors"), "{}", ran.out);
}

/// A copy of the library in which one section lost its source: told wherever it is read; its build stops.
#[test]
fn a_library_in_which_a_section_has_no_source() {
    let rules = format!("{}/rules", env!("CARGO_MANIFEST_DIR"));
    let copy = tempfile::tempdir().unwrap();
    let mut lost = None;
    for entry in walkdir::WalkDir::new(&rules) {
        let entry = entry.unwrap();
        let to = copy.path().join(entry.path().strip_prefix(&rules).unwrap());
        if entry.file_type().is_dir() {
            std::fs::create_dir_all(to).unwrap();
            continue;
        }
        let mut text = std::fs::read_to_string(entry.path()).unwrap();
        if entry.path().ends_with("codes/b149.rule") {
            text.push_str("\nedition B149 1991\n    section 4.7 \"Bond\"\n        direct-bond is required\n");
            lost = Some(text.lines().count() - 1);
        }
        std::fs::write(to, text).unwrap();
    }
    let ran = run(&["proofread", copy.path().to_str().unwrap(), "--without-library"]);
    assert_eq!(ran.status, 14, "{}", ran.out);
    let told: Vec<&str> = ran.out.lines().filter(|line| line.contains("GR5100")).collect();
    assert_eq!(told.len(), 1, "{}", ran.out);
    assert!(told[0].contains(&format!("b149.rule, line {}", lost.unwrap())), "{}", told[0]);
    assert!(told[0].contains("`4.7`"), "{}", told[0]);
    assert!(!run(&["proofread", &rules, "--without-library"]).out.contains("GR5100"));
}

#[test]
fn examples_that_come_out() {
    for right in [
        "performer only electrician",
        "performer only electrician by E-1 2",
        "performer only electrician by E-1",
        "performer not met",
        "direct-bond is required",
        "direct-bond open on jumper.present",
        "jumper-length at most 75 ft",
        "jumper-length at most 22.86 m",
        "jumper-size at least 6 AWG for copper",
        "jumper-size at least 6 AWG for copper, 4 AWG for aluminum",
        "clamp all of UL-467",
        "tubing-use silent",
        "outcome corrections",
    ] {
        let ran = proofread(right, &[]);
        assert!(ran.out.contains("1 example run, no errors"), "{right}\n{}", ran.out);
        assert!(ran.status == 0 || ran.status == 14, "{right}");
    }
}

#[test]
fn examples_that_do_not_come_out() {
    for (wrong, found) in [
        ("performer only plumber", "found `performer only electrician`, not met"),
        ("performer only electrician, plumber", "found `performer only electrician`"),
        ("performer none of plumber", "found `performer only electrician`"),
        ("performer only electrician by E-1 3", "by another text"),
        ("performer only electrician by E-2", "by another text"),
        ("performer met", "found `performer only electrician`, not met"),
        ("performer open on performer", "expected `performer open on performer`"),
        ("direct-bond is not-required", "found `direct-bond is required`"),
        ("direct-bond referred", "found `direct-bond is required`"),
        ("direct-bond conflict", "found `direct-bond is required`"),
        ("direct-bond silent", "found `direct-bond is required`"),
        ("jumper-length at most 75.1 ft", "found `jumper-length at most 75 ft`"),
        ("jumper-size at least 4 AWG for copper", "found `jumper-size at least 6 AWG for copper"),
        ("clamp all of UL-467\ntubing-use open", "found `tubing-use silent`"),
        ("outcome complies", "expected outcome `complies`, found outcome `corrections`"),
        ("jumper-length no limit", "expected `jumper-length no limit`, found `jumper-length at most 75 ft`"),
        ("jumper-length not asked", "expected `jumper-length not asked`, found `jumper-length at most 75 ft`"),
        ("performer anyone", "expected `performer anyone`, found `performer only electrician`"),
        ("note by E-1 2", "expected `note by E-1 2`, found no such note"),
        ("pending E-1", "expected `pending E-1`, found no such instrument pending there"),
        ("advised direct-bond is required", "expected `advised direct-bond is required`, found no such advice"),
    ] {
        let ran = proofread(wrong, &[]);
        assert_eq!(ran.status, 1, "{wrong}");
        assert!(ran.out.contains("error GR0900 in ") && ran.out.contains(found), "{wrong}\n{}", ran.out);
        assert!(ran.out.contains("1 example run, 1 error"), "{wrong}\n{}", ran.out);
    }
}

#[test]
fn a_wrong_word_in_an_expectation_is_told_as_such() {
    for (wrong, code) in
        [("diret-bond is required", "GR0300"), ("performer only plummer", "GR0304"), ("diret-bond silent", "GR0300")]
    {
        let ran = proofread(wrong, &[]);
        assert_eq!(ran.status, 1, "{wrong}");
        assert!(ran.out.contains(code), "{wrong}\n{}", ran.out);
    }
    for (wrong, help) in [
        ("direct-bond nothing", "its answers are rungs"),
        ("jumper-length nothing", "its loosest answer is written `jumper-length no limit`"),
        ("permits anyone", "its loosest answer is written `permits nothing`"),
    ] {
        let ran = proofread(wrong, &[]);
        assert!(ran.status == 1 && ran.out.contains("GR0701") && ran.out.contains(help), "{wrong}\n{}", ran.out);
    }
    let ran = proofread("outcome good", &[]);
    assert!(ran.out.contains("complies, open, refer, conflict or corrections"), "{}", ran.out);
}

#[test]
fn findings_as_json() {
    let ran = proofread("direct-bond is not-required", &["--as", "json"]);
    let findings: Value = serde_json::from_str(&ran.out).unwrap();
    assert_eq!((ran.status, findings[0]["code"].as_str(), findings[0]["line"].as_u64()), (1, Some("GR0900"), Some(22)));
    let clean = proofread("outcome corrections", &["--as", "json"]);
    assert!(serde_json::from_str::<Value>(&clean.out).unwrap().is_array());
}

#[test]
fn only_what_was_given_is_reported() {
    let bad = folder(&[("bad.rule", "place one \"One\" within nowhere-at-all\n")]);
    let good = folder(&[("good.rule", "place two \"Two\"\n    read \"a test\" on 2026-11-24\n")]);
    let (bad, good) = (bad.path().to_str().unwrap(), good.path().to_str().unwrap());
    assert_eq!(run(&["proofread", bad]).status, 1);
    assert_ne!(run(&["proofread", good]).status, 1);
    // A place that clashes with one of the library is told with both its lines.
    let clash = folder(&[("clash.rule", "place osier \"Osier\" within tamarrow\n")]);
    let ran = run(&["proofread", clash.path().to_str().unwrap()]);
    assert_eq!(ran.status, 1);
    assert!(ran.out.contains("clash.rule") && ran.out.contains("rules/places/osier.rule"), "{}", ran.out);
}

#[test]
fn without_the_library_nothing_else_is_known() {
    let town = folder(&[("town.rule", &TOWN.replace("EXPECTED", "        outcome corrections\n"))]);
    let town = town.path().to_str().unwrap();
    let ran = run(&["proofread", town, "--without-library"]);
    assert_eq!(ran.status, 1);
    assert!(ran.out.contains("IFGC"), "{}", ran.out);
    let rules = format!("{}/rules", env!("CARGO_MANIFEST_DIR"));
    let both = run(&["proofread", town, "--rules", &rules, "--without-library"]);
    assert!(both.status == 0 || both.status == 14, "{}", both.out);
    assert!(both.out.contains("1 file, 1 example run, no errors"), "{}", both.out);
}

const DOUBTFUL: &str = r#"
place example-town "Example Town"
    read "a test" on 2026-11-24
instrument E-1 of example-town "Ordinance 1"
    kind     ordinance
    adopted  2020-02-01
    in force from 2020-01-01
LINE
    adopts IFGC 2018
"#;

fn doubtful(line: &str, more: &[&str]) -> super::Ran {
    let folder = folder(&[("town.rule", &DOUBTFUL.replace("LINE", line))]);
    let path = folder.path().to_str().unwrap().to_owned();
    run(&[&["proofread", path.as_str()], more].concat())
}

#[test]
fn a_warning_is_silenced_with_a_reason() {
    let ran = doubtful("", &[]);
    assert_eq!(ran.status, 14, "{}", ran.out);
    assert!(ran.out.contains("warning GR5110") && !ran.out.contains("silenced"), "{}", ran.out);
    assert!(ran.out.contains("say `knowingly GR5110` and why"), "{}", ran.out);
    let line = "    knowingly GR5110 \"it reaches back on purpose\"";
    let ran = doubtful(line, &[]);
    assert_eq!((ran.status, &*ran.err), (0, ""));
    let end = "1 file, 0 examples run, no errors, no warnings, 1 warning silenced with a reason\n";
    assert_eq!(ran.out, end);
    let ran = doubtful(line, &["--as", "json"]);
    assert_eq!(ran.status, 0);
    let told: Value = serde_json::from_str(&ran.out).unwrap();
    assert_eq!(told.as_array().unwrap().len(), 1, "{told:#}");
    assert_eq!((&told[0]["code"], &told[0]["severity"]), (&"GR5110".into(), &"silenced".into()));
    assert_eq!(told[0]["reason"], "it reaches back on purpose");
    assert_eq!(told[0]["line"], 4);
}

#[test]
fn a_line_that_silences_nothing_or_cannot_is_told() {
    let ran = doubtful("    knowingly GR5109 \"w\"", &[]);
    assert_eq!(ran.status, 14);
    assert!(ran.out.contains("warning GR5113 in ") && ran.out.contains("line 8, column 5"), "{}", ran.out);
    assert!(ran.out.contains("warning GR5110 in "), "{}", ran.out);
    for (line, told) in [
        ("    knowingly GR5011 \"w\"", "did you mean"),
        ("    knowingly GR0300 \"w\"", "is an error"),
        ("    knowingly GR5110", "no reason is given"),
        ("    knowingly GR5110 \" \"", "no reason is given"),
    ] {
        let ran = doubtful(line, &[]);
        assert_eq!(ran.status, 1, "{line}");
        assert!(ran.out.contains("error GR0205 in ") && ran.out.contains(told), "{line}\n{}", ran.out);
    }
}
