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
