//! What is wrong with rules, jobs and arguments, and the statuses that say so.

use super::{data, folder, run, run_with};
use serde_json::Value;

const BAD: &str = "place nowhere-town \"Nowhere Town\"\n    read \"a test\" on 2026-11-24\ninstrument N-1 of nowhere-town\n    kind ordinance\n    in force from 2024-01-01\n    adopts IFGC 2018\n    section 1 \"One\"\n        diret-bond is required\n";

#[test]
fn no_verdict_from_rules_with_errors() {
    let folder = folder(&[("bad.rule", BAD)]);
    let path = folder.path().to_str().unwrap();
    let ran = run(&["verdict", &data("complies.job"), "--rules", path]);
    assert_eq!((ran.status, ran.out.as_str()), (1, ""));
    assert!(ran.err.starts_with("error GR"), "{}", ran.err);
    assert!(ran.err.contains("bad.rule, line 8, column 9"), "{}", ran.err);
    assert!(ran.err.contains("`diret-bond`") && ran.err.contains("`direct-bond`"), "{}", ran.err);
    assert!(!ran.err.contains('\u{1b}'));
}

#[test]
fn errors_as_json() {
    let folder = folder(&[("bad.rule", BAD)]);
    let path = folder.path().to_str().unwrap();
    let ran = run(&["verdict", &data("complies.job"), "--rules", path, "--as", "json"]);
    let findings: Value = serde_json::from_str(&ran.err).unwrap();
    assert_eq!((ran.status, &findings[0]["line"], &findings[0]["severity"]), (1, &8.into(), &"error".into()));
}

#[test]
fn a_wrong_job_names_the_nearest() {
    let ran = run_with(
        &["verdict", "-"],
        r#"{ "place": "osier", "ocupancy": "comercial", "run": [ { "jacket": "arc-resistent" } ] }"#,
    );
    assert_eq!(ran.status, 1);
    assert!(ran.err.contains("in standard input, at ocupancy") && ran.err.contains("`occupancy`"), "{}", ran.err);
    assert!(ran.err.contains("at run[0].jacket") && ran.err.contains("`arc-resistant`"), "{}", ran.err);
    let sheet = run_with(&["verdict", "-"], "place osier\nocupancy commercial\n");
    assert!(
        sheet.err.contains("standard input, line 2, column 1") && sheet.err.contains("`occupancy`"),
        "{}",
        sheet.err
    );
}

#[test]
fn every_bad_file_is_told_and_nothing_is_answered() {
    let folder = folder(&[("a.job", "place nowhere\n"), ("b.json", "{"), ("c.job", "place osier\n")]);
    let path = |name: &str| folder.path().join(name).to_str().unwrap().to_owned();
    let ran = run(&["verdict", &path("a.job"), &path("b.json"), &path("c.job"), &path("d.job")]);
    assert_eq!((ran.status, ran.out.as_str()), (1, ""));
    for name in ["a.job", "b.json", "d.job"] {
        assert!(ran.err.contains(name), "{name}: {}", ran.err);
    }
    assert!(!ran.err.contains("c.job"), "{}", ran.err);
}

#[test]
fn a_place_that_is_not_known_or_fits_several() {
    let unknown = run(&["in-force", "Osier Conty", "--on", "2024-01-01"]);
    assert_eq!(unknown.status, 1);
    assert!(unknown.err.contains("GR0303") && unknown.err.contains("`Osier County`"), "{}", unknown.err);
    let twins = "place north-side \"North Side\" within tarn\nplace north-side \"North Side\" within osier\n";
    let folder = folder(&[("twins.rule", twins)]);
    let rules = folder.path().to_str().unwrap();
    for name in ["north-side", "North Side"] {
        let ran = run(&["in-force", name, "--on", "2024-01-01", "--rules", rules]);
        assert_eq!(ran.status, 1);
        assert!(ran.err.contains("`tamarrow/osier/north-side`, `tamarrow/tarn/north-side`"), "{}", ran.err);
        let job = run_with(&["verdict", "-", "--rules", rules], format!("{{ \"place\": \"{name}\" }}"));
        assert_eq!(job.status, 1);
        assert!(job.err.contains("tamarrow/osier/north-side"), "{}", job.err);
    }
    assert_eq!(run(&["in-force", "osier/north-side", "--on", "2024-01-01", "--rules", rules]).status, 0);
}

#[test]
fn wrong_usage_is_2() {
    for arguments in [
        &["verdict"][..],
        &["in-force", "osier"],
        &["in-force", "osier", "--on", "2024-02-30"],
        &["in-force", "osier", "--on", "2024-01-01", "--section", "IFGC"],
        &["verdict", "-", "--as", "yaml"],
        &["verdict", "-", "--date", "yesterday"],
        &["schema"],
        &["schema", "letter"],
        &["proofread"],
        &["nonsense"],
        &[],
    ] {
        let ran = run(arguments);
        assert_eq!((ran.status, ran.out.as_str()), (2, ""), "{arguments:?}");
        assert!(!ran.err.is_empty());
    }
    assert_eq!(run(&["--help"]).status, 0);
    assert_eq!(run(&["--version"]).out, format!("groundrule {}\n", env!("CARGO_PKG_VERSION")));
}

#[test]
fn a_closed_pipe_ends_quietly() {
    use std::process::{Command, Stdio};
    let mut child = Command::new(env!("CARGO_BIN_EXE_groundrule"))
        .args(["verdict", "--why", &data("complies.job")])
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    drop(child.stdout.take());
    let output = child.wait_with_output().unwrap();
    assert_eq!(String::from_utf8(output.stderr).unwrap(), "");
    assert_eq!(output.status.code(), Some(0));
}

#[test]
fn drawn_on_a_terminal_and_plain_where_color_is_refused() {
    let folder = folder(&[("bad.rule", BAD)]);
    let rules = folder.path().join("bad.rule");
    let line = format!("{} proofread {}", env!("CARGO_BIN_EXE_groundrule"), rules.to_str().unwrap());
    let shown = |refusal: Option<&str>| {
        let mut command = assert_cmd::Command::new("script");
        command.args(["-qec", &line, "/dev/null"]).env("TERM", "xterm").env_remove("NO_COLOR");
        if let Some(refusal) = refusal {
            command.env("NO_COLOR", refusal);
        }
        command.output().ok().map(|output| String::from_utf8_lossy(&output.stdout).into_owned())
    };
    // Without `script` there is no terminal to look at.
    let (Some(drawn), Some(plain)) = (shown(None), shown(Some("1"))) else { return };
    assert!(drawn.contains("bad.rule:8:9") && drawn.contains("\u{1b}["), "{drawn}");
    assert!(plain.contains("bad.rule, line 8, column 9") && !plain.contains('\u{1b}'), "{plain}");
}

/// Places, codes, editions, sections, tables, facts, questions, subjects, terms,
/// definitions, instruments: each names what is near to what was written.
#[test]
fn near_names_are_named_for_every_kind() {
    let head = "place x \"X\" within tamarrow\n from memory\ninstrument I-1 of x\n kind ordinance\n in force from 2024-01-01\n";
    for (text, told) in [
        ("fact f yes-no in tamarow", "did you mean `tamarrow`?"),
        ("HEAD adopts IFCG 2021", "did you mean `IFGC`?"),
        ("HEAD adopts IFGC 2020", "the editions of IFGC here are those of"),
        ("HEAD adopts IFGC 2021 amend IFGC 2021 delete 310.11", "did you mean `310.1`"),
        ("HEAD section 1 jumper-size at least by table NEC 2020 250.121", "did you mean `250.122`?"),
        ("definition d ocupancy is commercial", "did you mean `occupancy`?"),
        ("definition d any run with (materal is csst)", "did you mean `material`?"),
        ("definition d work is repar", "did you mean `repair`?"),
        ("definition d csst-pipping", "did you mean `csst-piping`?"),
        ("HEAD section 1 diret-bond is required", "did you mean `direct-bond`?"),
        ("HEAD section 1 direct-bond is requird", "did you mean `required`?"),
        ("HEAD section 1 performer only electrican", "did you mean `electrician`?"),
        ("HEAD preempts fuel-gass", "did you mean `fuel-gas`?"),
        ("HEAD preempts diret-bond", "did you mean `direct-bond`?"),
        ("code XC on fuel-gass", "did you mean `fuel-gas`?"),
        ("HEAD repeals TBR-22-4 of tamarrow", "did you mean `TBR-22-3`?"),
        ("HEAD secton 1 direct-bond is required", "did you mean `section`?"),
        ("HEAD section 1 knowingly GR5015 \"w\"", "did you mean `GR51"),
    ] {
        let folder = folder(&[("slip.rule", &text.replace("HEAD", head))]);
        let ran = run(&["proofread", folder.path().to_str().unwrap()]);
        assert_eq!(ran.status, 1, "{text}\n{}", ran.out);
        assert!(ran.out.contains(told), "{text}\n{}", ran.out);
    }
    for (job, told) in [
        ("place quil-city", "did you mean `quill-city`?"),
        ("place osier ocupancy commercial", "did you mean `occupancy`?"),
        ("place osier occupancy comercial", "did you mean `commercial`?"),
        ("place osier jumper.lenght 3 ft", "did you mean `jumper.length`?"),
    ] {
        let ran = run_with(&["verdict", "-"], job);
        assert!(ran.status == 1 && ran.err.contains(told), "{job}\n{}", ran.err);
    }
    let ran = run(&["in-force", "osier", "--on", "2024-01-01", "--section", "IFGC", "301.1"]);
    assert!(ran.err.contains("did you mean `309.1` or `310.1`?"), "{}", ran.err);
}

/// A letter of another alphabet is told, in rules, jobs and arguments, and what it
/// leads to is not told beside it.
#[test]
fn letters_that_look_like_others_are_told() {
    let text = "place x \"X\" within tamarrow\n    from memory\ninstrument I-1 of x\n    kind ordinance\n    in force from 2024-01-01\n    section 1 \"s\"\n        d\u{456}rect-bond is required\n";
    let folder = folder(&[("letters.rule", text)]);
    let ran = run(&["proofread", folder.path().to_str().unwrap()]);
    assert!(ran.out.contains("GR0104") && ran.out.contains("(U+0456)"), "{}", ran.out);
    assert!(ran.out.contains("type `i`") && ran.out.ends_with("1 error, no warnings\n"), "{}", ran.out);
    let told = "`\u{43e}` in it is the Cyrillic letter o (U+043E) and only looks like `o`";
    for ran in [
        run(&["in-force", "\u{43e}sier", "--on", "2024-01-01"]),
        run_with(&["verdict", "-"], "{ \"place\": \"\u{43e}sier\" }"),
        run_with(&["verdict", "-"], "{ \"place\": \"osier\", \"\u{43e}ccupancy\": \"commercial\" }"),
    ] {
        assert_eq!(ran.status, 1);
        assert!(ran.err.contains(told), "{}", ran.err);
    }
    let ran = run_with(&["verdict", "-"], "{ \"place\": \"osi\u{200b}er\" }");
    assert!(ran.err.contains("a zero width space (U+200B) stands in it, which cannot be seen"), "{}", ran.err);
    let turned = text.replace("d\u{456}rect", "direct").replace("\"s\"", "\"s\u{202e}\" # \u{2066}");
    let folder = super::folder(&[("turned.rule", &turned)]);
    let ran = run(&["proofread", folder.path().to_str().unwrap()]);
    assert_eq!(ran.out.matches("error GR0105").count(), 2, "{}", ran.out);
    assert!(!ran.out.contains(['\u{202e}', '\u{2066}']), "{}", ran.out);
}

/// Plain on a terminal for who reads with ears or fingers; drawn into a pipe.
#[test]
fn either_rendering_can_be_had_anywhere() {
    let folder = folder(&[("bad.rule", BAD)]);
    let path = folder.path().to_str().unwrap();
    let drawn = run(&["proofread", "--drawn", path]);
    assert_eq!(drawn.status, 1);
    assert!(drawn.out.contains("bad.rule:8:9") && !drawn.out.contains('\u{1b}'), "{}", drawn.out);
    assert!(drawn.out.contains("did you mean `direct-bond`?"), "{}", drawn.out);
    let plain = run(&["proofread", "--as", "plain", path]);
    assert!(plain.out.starts_with("error GR0300 in ") && plain.out.contains("line 8, column 9"), "{}", plain.out);
    assert_eq!(run(&["proofread", "--drawn", "--as", "json", path]).status, 2);
    let line = format!("{} proofread --as plain {path}", env!("CARGO_BIN_EXE_groundrule"));
    let mut command = assert_cmd::Command::new("script");
    command.args(["-qec", &line, "/dev/null"]).env("TERM", "xterm").env_remove("NO_COLOR");
    // Without `script` there is no terminal to look at.
    let Ok(output) = command.output() else { return };
    let shown = String::from_utf8_lossy(&output.stdout).replace('\r', "");
    assert_eq!(shown, plain.out);
}
