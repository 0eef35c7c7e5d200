//! `walk-through` with scripted answers: the talk stands on standard error, the
//! verdict and the sheet on standard output.

use super::{Ran, data, folder, run, run_with, timeless};
use std::path::Path;

fn walk(arguments: &[&str], answers: &[&str]) -> Ran {
    let all: Vec<&str> = std::iter::once("walk-through").chain(arguments.iter().copied()).collect();
    let typed: String = answers.iter().map(|answer| format!("{answer}\n")).collect();
    let ran = run_with(&all, typed);
    for line in ran.err.lines().filter(|line| !line.starts_with("> ") && !line.starts_with("error ")) {
        assert!(line.chars().count() <= 80, "a line is too long: {line}");
    }
    ran
}

fn sample(name: &str) -> String {
    format!("{}/shared/jobs/{name}", env!("CARGO_MANIFEST_DIR"))
}

/// The sheet at the end of what was printed.
fn sheet(ran: &Ran) -> &str {
    let at = ran.out.find("job\n    place").unwrap_or_else(|| panic!("{}", ran.out));
    &ran.out[at..]
}

#[test]
fn one_missing_fact_is_asked_and_the_verdict_follows() {
    let job = sample("jacket-not-known.job");
    let ran = walk(&[&job], &["print", "2"]);
    insta::assert_snapshot!("jacket_talk", ran.err);
    insta::assert_snapshot!("jacket_verdict", timeless(&ran.out));
    // The sheet that was written has the verdict that was shown.
    let written = folder(&[("again.job", sheet(&ran))]);
    let again = run(&["verdict", written.path().join("again.job").to_str().unwrap()]);
    assert_eq!(again.status, ran.status);
    assert!(ran.out.starts_with(&again.out), "{}\n{}", ran.out, again.out);
}

/// A house from nothing, with slips.
const HOUSE: &[&str] = &[
    "Osir",
    "1",
    "3/1/2026",
    "2026-03-01",
    "castle",
    "m",
    "12",
    "",
    "one",
    "help",
    "new",
    "main",
    "yes",
    "list",
    "change 5",
    "main",
    "change occupancy",
    "",
    "change 99",
    "back",
    "2+",
    "csst",
    "1",
    "why",
    "?",
    "6 AWG",
];

#[test]
fn slips_are_told_and_nothing_is_lost() {
    let ran = walk(&[], HOUSE);
    insta::assert_snapshot!("house_talk", ran.err);
    insta::assert_snapshot!("house_sheet", ran.out);
    assert_eq!(ran.status, 13);
}

#[test]
fn it_speaks_spanish() {
    let answers = [
        "quill",
        "1",
        "2026-05-01",
        "castillo",
        "?",
        "nuevo",
        "2",
        "sí",
        "atrás",
        "por qué",
        "lista",
        "ayuda",
        "listo",
    ];
    let ran = walk(&["--language", "es", "--for", "owner"], &answers);
    insta::assert_snapshot!("talk_in_spanish", ran.err);
    insta::assert_snapshot!("verdict_in_spanish", timeless(&ran.out).lines().take(6).collect::<Vec<_>>().join("\n"));
    assert_eq!(ran.status, 13);
}

#[test]
fn a_step_back_undoes_one_answer_whole() {
    let there = walk(&["--place", "osier"], &["2026-03-01", "one", "new", "stop", ""]);
    let and_back = walk(&["--place", "osier"], &["2026-03-01", "one", "new", "main", "?", "back", "back", "stop", ""]);
    assert_eq!(there.out, and_back.out);
    let first = walk(&["--place", "osier"], &["back", "2026-03-01", "back", "stop", ""]);
    assert_eq!(first.out, "job\n    place tamarrow/osier\n");
}

#[test]
fn entries_are_added_and_taken_out() {
    let ran = walk(
        &["--place", "osier", "--date", "2026-03-01"],
        &[
            "1",
            "new",
            "main",
            "no",
            "2",
            "csst",
            "1",
            "drop run 1",
            "drop run 7",
            "drop shed 1",
            "change run",
            "+1",
            "stop",
            "",
        ],
    );
    let runs: Vec<&str> = ran.out.lines().map(str::trim).filter(|line| line.starts_with("run")).collect();
    assert_eq!(runs, ["run { }", "run { }"], "{}\n{}", ran.out, ran.err);
}

#[test]
fn a_word_of_the_talk_is_no_answer() {
    let jobs = folder(&[("supplied.job", "job\n    place osier\n    gas-supplier lowmoor-gas\n")]);
    let job = jobs.path().join("supplied.job").to_str().unwrap().to_owned();
    let ran = walk(&[&job], &["change gas-supplier", "drop", "change", "cambiar", "none", "stop", ""]);
    assert_eq!(ran.err.matches("Write drop, the name of a list and a number").count(), 1, "{}", ran.err);
    assert_eq!(ran.err.matches("Write change and a number of the list").count(), 2, "{}", ran.err);
    assert_eq!(ran.out, "job\n    place tamarrow/osier\n    gas-supplier none\n", "{}", ran.err);
    // Who is really called so stands in quotes.
    let ran = walk(&[&job], &["change gas-supplier", "\"drop\"", "stop", ""]);
    assert_eq!(ran.out, "job\n    place tamarrow/osier\n    gas-supplier drop\n", "{}", ran.err);
}

#[test]
fn the_place_is_needed_and_told_as_it_was_said() {
    for arguments in [&[][..], &["--language", "es"]] {
        let ran = walk(arguments, &["?", "brackwell", "list", "stop", ""]);
        let needed = if arguments.is_empty() { "Without a place no rules" } else { "Sin un lugar no se puede mirar" };
        assert!(ran.err.contains(needed), "{}", ran.err);
        assert_eq!(ran.err.matches("Brackwell County").count(), 2, "said back, and in the list: {}", ran.err);
    }
}

#[test]
fn a_list_stands_once_among_the_facts() {
    let ran = walk(&["--place", "osier"], &["change run", "3+", "list", "stop", ""]);
    assert_eq!(ran.err.matches("3 entries, and perhaps others").count(), 2, "said back, and once: {}", ran.err);
}

#[test]
fn the_sheet_goes_to_its_file() {
    let kept = folder(&[("old.job", "job\n    place osier\n")]);
    let at = |name: &str| kept.path().join(name).to_str().unwrap().to_owned();
    let read = |name: &str| std::fs::read_to_string(Path::new(&at(name))).unwrap();
    let job = sample("jacket-not-known.job");

    let ran = walk(&[&job, "--to", &at("new.job")], &["2"]);
    assert!(!ran.out.contains("    place"), "the sheet is not printed too: {}", ran.out);
    let again = run(&["verdict", &at("new.job")]);
    assert_eq!((again.status, timeless(&again.out)), (ran.status, timeless(&ran.out)));

    // What is there already is not written over unless that is asked for.
    let refused = walk(&[&job, "--to", &at("old.job")], &["2"]);
    assert_eq!((refused.status, refused.out.as_str()), (2, ""));
    assert!(refused.err.contains("exists already") && refused.err.contains("--over"), "{}", refused.err);
    assert_eq!(read("old.job"), "job\n    place osier\n");
    let over = walk(&[&job, "--to", &at("old.job"), "--over"], &["2"]);
    assert_eq!(over.status, ran.status);
    assert_eq!(read("old.job"), read("new.job"));

    // In between, and again over what this talk wrote itself.
    let save = format!("save {}", at("between.job"));
    let taken = format!("save {}", at("new.job"));
    let ran = walk(&["--place", "osier"], &[&save, "2026-03-01", &save, &taken, "stop", ""]);
    assert_eq!(read("between.job"), "job\n    place tamarrow/osier\n    application-date 2026-03-01\n");
    assert!(ran.err.contains("exists already"), "{}", ran.err);
    let nowhere = format!("save {}", at("no/such/folder.job"));
    let ran = walk(&["--place", "osier"], &[&nowhere, "2026-03-01"]);
    assert!(ran.err.contains("cannot be written"), "{}", ran.err);
    assert!(ran.out.contains("2026-03-01"), "{}", ran.out);
}

#[test]
fn stop_asks_where_the_sheet_shall_be_kept() {
    let kept = folder(&[("old.job", "")]);
    let at = |name: &str| kept.path().join(name).to_str().unwrap().to_owned();
    let ran = walk(&["--place", "osier"], &["2026-03-01", "stop", &at("old.job"), &at("new.job")]);
    assert_eq!(ran.out, "");
    let written = std::fs::read_to_string(at("new.job")).unwrap();
    assert_eq!(written, "job\n    place tamarrow/osier\n    application-date 2026-03-01\n");
    assert_eq!(std::fs::read_to_string(at("old.job")).unwrap(), "");
}

#[test]
fn a_job_without_a_place_is_asked_for_it() {
    let jobs = folder(&[
        ("sheet.job", "job\n    occupancy commercial\n"),
        ("object.json", "{ \"occupancy\": \"commercial\" }"),
        ("wrong.job", "job\n    ocupancy commercial\n    place osier\n"),
        ("two.json", "[{ \"place\": \"osier\" }, { \"place\": \"osier\" }]"),
    ]);
    let at = |name: &str| jobs.path().join(name).to_str().unwrap().to_owned();
    for name in ["sheet.job", "object.json"] {
        let ran = walk(&[&at(name)], &["list", "nowhere", "osier", "2026-03-01"]);
        assert_eq!(
            ran.out, "job\n    place tamarrow/osier\n    application-date 2026-03-01\n    occupancy commercial\n",
            "{name}: {}",
            ran.err
        );
        assert!(ran.err.contains("tamarrow/osier: Osier County"), "the places are listed: {}", ran.err);
    }
    let wrong = walk(&[&at("wrong.job")], &[]);
    assert_eq!((wrong.status, wrong.out.as_str()), (1, ""));
    assert!(wrong.err.contains("`ocupancy`") && wrong.err.contains("`occupancy`"), "{}", wrong.err);
    let two = walk(&[&at("two.json")], &[]);
    assert_eq!(two.status, 1);
    assert!(two.err.contains("holds 2 jobs"), "{}", two.err);
}

#[test]
fn where_nothing_can_be_done_it_says_so() {
    let nowhere = walk(&[], &["atlantis"]);
    assert_eq!((nowhere.status, nowhere.out.as_str()), (1, ""));
    assert!(nowhere.err.contains("without a place there is no verdict"), "{}", nowhere.err);
    let stdin = walk(&["-"], &[]);
    assert_eq!(stdin.status, 2);
    assert!(stdin.err.contains("standard input"), "{}", stdin.err);
    let clash = walk(&[&data("complies.job"), "--place", "merrin"], &[]);
    assert_eq!(clash.status, 1);
    let whole = walk(&[&data("complies.job")], &[]);
    assert_eq!(whole.status, 0, "nothing is asked of a job that says everything");
    assert!(whole.err.contains("Nothing else can change an answer."), "{}", whole.err);
}

#[test]
fn any_bytes_are_answers_that_do_not_fit() {
    let mut typed = b"osier\n\xff\xfe\x00\n".to_vec();
    typed.extend(std::iter::repeat_n(b'x', 200_000));
    typed.extend(b"\n2026-03-01\r\nstop\r\n\r\n");
    let ran = run_with(&["walk-through"], typed);
    assert_eq!(ran.out, "job\n    place tamarrow/osier\n    application-date 2026-03-01\n");
}

/// The keyboard ends the program, and what was said is printed, or stands in its file.
#[cfg(unix)]
#[test]
fn ctrl_c_loses_nothing() {
    use std::io::{BufRead, BufReader, Write};
    use std::process::{Command, Stdio};
    let kept = folder(&[]);
    let file = kept.path().join("kept.job");
    for to_file in [false, true] {
        let mut command = Command::new(env!("CARGO_BIN_EXE_groundrule"));
        command.args(["walk-through", "--place", "osier"]);
        if to_file {
            command.args(["--to", file.to_str().unwrap()]);
        }
        let mut child = command.stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().unwrap();
        let mut input = child.stdin.take().unwrap();
        input.write_all(b"2026-03-01\n").unwrap();
        let mut talk = BufReader::new(child.stderr.take().unwrap());
        let mut line = String::new();
        // The second question stands there once the answer to the first is kept.
        while !line.starts_with("Question 2") {
            line.clear();
            assert!(talk.read_line(&mut line).unwrap() > 0, "the talk ended");
        }
        let kill = Command::new("kill").args(["-INT", &child.id().to_string()]).status().unwrap();
        assert!(kill.success());
        std::thread::spawn(move || std::io::copy(&mut talk, &mut std::io::sink()));
        let ended = child.wait_with_output().unwrap();
        assert_eq!(ended.status.code(), Some(130));
        let printed = String::from_utf8(ended.stdout).unwrap();
        let sheet = "job\n    place tamarrow/osier\n    application-date 2026-03-01\n";
        if to_file {
            assert_eq!((printed.as_str(), std::fs::read_to_string(&file).unwrap().as_str()), ("", sheet));
        } else {
            assert_eq!(printed.trim_start(), sheet);
        }
        drop(input);
    }
}
