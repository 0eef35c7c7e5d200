//! The page of `verdict`.

use super::{data, run, run_with, timeless};

#[test]
fn pages() {
    for (name, status) in
        [("complies.job", 0), ("corrections.job", 10), ("referred.job", 12), ("open.json", 13), ("bid.job", 13)]
    {
        let ran = run(&["verdict", &data(name)]);
        assert_eq!((ran.status, ran.err.as_str()), (status, ""), "{name}");
        assert!(ran.out.lines().all(|line| line.chars().count() <= 80), "{name}: a line is too long");
        insta::assert_snapshot!(name.replace('.', "_"), timeless(&ran.out));
    }
}

#[test]
fn a_plain_job_fits_a_screen() {
    let ran = run(&["verdict", &data("plain.json"), "--rules", &data("places.rule")]);
    assert!(ran.out.lines().count() <= 60, "{}\n{}", ran.out.lines().count(), ran.out);
    insta::assert_snapshot!("plain_json", timeless(&ran.out));
}

/// What the tool says in English on a page that a reader of Spanish asked for.
fn english(page: &str) -> Vec<&'static str> {
    let folded = page.split_whitespace().collect::<Vec<_>>().join(" ");
    let words = [
        "Job ",
        "Place ",
        "Dates ",
        "Codes ",
        "COMPLIES",
        "NOT MET",
        "the job has",
        "the job does not say",
        "hangs on",
        "mend:",
        "instead of",
        "then to be known",
        "To find out",
        "Notes ",
        "Cautions",
        "is presumed",
        "written down from memory",
        "Written down from memory",
        "The authority to ask",
        "in force from",
        "as amended by",
        "common practice of the trade",
        "asks only where",
        "at least ",
        "contractor or",
    ];
    words.into_iter().filter(|word| folded.contains(word)).collect()
}

#[test]
fn pages_in_spanish_speak_spanish() {
    for name in ["complies.job", "corrections.job", "referred.job", "open.json", "bid.job"] {
        let ran = run(&["verdict", &data(name), "--language", "es"]);
        assert_eq!((ran.status, ran.err.as_str()), (run(&["verdict", &data(name)]).status, ""), "{name}");
        assert!(ran.out.lines().all(|line| line.chars().count() <= 80), "{name}: a line is too long");
        assert_eq!(english(&ran.out), Vec::<&str>::new(), "{name}: {}", ran.out);
        assert!(!english(&run(&["verdict", &data(name)]).out).is_empty(), "{name}: the words looked for are of no use");
    }
    let page = run(&["verdict", &data("corrections.job"), "--language", "es", "--units", "m"]);
    insta::assert_snapshot!("corrections_job_in_spanish", timeless(&page.out));
    let job = concat!(env!("CARGO_MANIFEST_DIR"), "/shared/jobs/jacket-not-known.job");
    let ways = run(&["verdict", job, "--ways", "--language", "es"]);
    insta::assert_snapshot!("ways_in_spanish", timeless(&ways.out));
}

#[test]
fn reasons_are_told_when_asked_for() {
    let short = run(&["verdict", &data("complies.job")]);
    for option in ["--why", "--reasons"] {
        let long = run(&["verdict", &data("complies.job"), option]);
        assert_eq!(long.status, 0);
        assert!(long.out.contains("governs: IRC 2021 G2411.2 by TBR-22-3"), "{}", long.out);
        assert!(long.out.contains("superseded: IRC 2015 G2411.1.1 by TBR-16-1"), "{}", long.out);
        assert!(long.out.lines().count() > 2 * short.out.lines().count());
    }
}

#[test]
fn every_page_ends_with_the_cautions() {
    for name in ["complies.job", "corrections.job", "referred.job", "open.json"] {
        let page = run(&["verdict", &data(name)]).out;
        let end: Vec<&str> = page.lines().rev().take(10).collect();
        let end = end.into_iter().rev().collect::<Vec<_>>().join(" ");
        for part in [
            "Smell gas?",
            "live panel and the leak check",
            "lowers the risk of arc damage from nearby lightning and removes none",
            "written rules on a date",
            "not inspected",
            "authority having jurisdiction decides",
            "last read on 2026-11-24",
        ] {
            assert!(end.contains(part), "{name}: {part}\n{end}");
        }
    }
}

#[test]
fn no_page_promises_anything() {
    for name in ["complies.job", "corrections.job", "referred.job", "open.json"] {
        let page = run(&["verdict", &data(name), "--why"]).out.to_lowercase();
        for word in ["safe", "lightning-proof", "guarantee", "guard"] {
            assert!(!page.split(|c: char| !c.is_alphanumeric()).any(|found| found == word), "{name}: {word}");
        }
        for line in page.lines().filter(|line| line.contains("path for fault current")) {
            assert!(!line.contains("bonded"), "{line}");
        }
    }
}

#[test]
fn an_open_answer_shows_both_cases_and_the_fact() {
    let page = run(&["verdict", &data("open.json")]).out;
    assert!(page.starts_with("NOT ENOUGH KNOWN"), "{page}");
    assert!(page.contains("if run[0].product is fernline-ar: not required"), "{page}");
    assert!(page.contains("if run[0].product is galeline: required"), "{page}");
    assert!(page.contains("Which maker's product is this tubing? (run[0].product; contractor at bid)"), "{page}");
}

#[test]
fn a_referred_answer_gives_both_readings() {
    let page = run(&["verdict", &data("referred.job")]).out;
    assert!(page.contains("REFER") && page.contains("one reading") && page.contains("ask the"), "{page}");
}

#[test]
fn nothing_is_told_by_color_alone_and_a_pipe_gets_none() {
    let page = run(&["verdict", &data("corrections.job")]).out;
    assert!(!page.contains('\u{1b}'));
    assert!(page.starts_with("CORRECTIONS NEEDED: 2 things are not done as the rules ask"), "{page}");
    assert_eq!(page.matches("NOT MET").count(), 2, "{page}");
}

#[test]
fn the_worst_outcome_over_several_jobs_is_the_status() {
    let ran = run(&["verdict", &data("complies.job"), &data("open.json"), &data("corrections.job")]);
    assert_eq!(ran.status, 10);
    assert_eq!(ran.out.matches("Smell gas?").count(), 3);
    assert!(ran.out.contains(&"=".repeat(80)));
    assert_eq!(run(&["verdict", &data("complies.job"), &data("open.json")]).status, 13);
    assert_eq!(run(&["verdict", &data("complies.job"), &data("complies.job")]).status, 0);
}

#[test]
fn standing_in_for_what_a_job_leaves_unsaid() {
    let job = r#"{ "occupancy": "commercial" }"#;
    let ran = run_with(&["verdict", "-", "--place", "Osier County", "--date", "2024-06-03"], job);
    assert_eq!((ran.status, ran.err.as_str()), (13, ""));
    assert!(ran.out.contains("Place    Osier County, State of Tamarrow"), "{}", ran.out);
    for date in ["application date", "permit date", "contract date", "work date"] {
        assert!(ran.out.contains(date), "{date}\n{}", ran.out);
    }
    let other = run(&["verdict", &data("open.json"), "--date", "2024-06-04"]);
    assert_eq!(other.status, 1);
    assert!(other.err.contains("2024-06-03") && other.err.contains("2024-06-04"), "{}", other.err);
    let elsewhere = run(&["verdict", &data("open.json"), "--place", "tarn"]);
    assert_eq!(elsewhere.status, 1);
    assert!(elsewhere.err.contains("tamarrow/osier") && elsewhere.err.contains("tamarrow/tarn"), "{}", elsewhere.err);
}

#[test]
fn a_job_before_all_law_is_for_the_authority() {
    let ran = run_with(&["verdict", "-"], "place tamarrow\napplication-date 1999-01-01\noccupancy commercial\n");
    assert_eq!(ran.status, 12, "{}", ran.out);
    assert!(ran.out.starts_with("ASK THE AUTHORITY: no code on fuel gas piping"), "{}", ran.out);
    assert!(ran.out.contains("lies before"), "{}", ran.out);
    assert!(ran.out.contains("The authority to ask: Tamarrow Building Standards Board"), "{}", ran.out);
}

#[test]
fn no_color_on_a_terminal_either_where_it_is_refused() {
    // `script` gives the program a terminal; without it there is nothing to see.
    let program = env!("CARGO_BIN_EXE_groundrule");
    let job = data("complies.job");
    let shown = |refusal: &str| {
        let line = format!("{program} verdict {job}");
        let mut command = assert_cmd::Command::new("script");
        command.args(["-qec", &line, "/dev/null"]).env("TERM", "xterm").env_remove("NO_COLOR");
        if !refusal.is_empty() {
            command.env("NO_COLOR", refusal);
        }
        command.output().ok().map(|output| String::from_utf8_lossy(&output.stdout).into_owned())
    };
    let (Some(colored), Some(plain)) = (shown(""), shown("1")) else { return };
    assert!(colored.contains("\u{1b}[") && colored.contains("COMPLIES"), "{colored}");
    assert!(!plain.contains("\u{1b}[") && plain.contains("COMPLIES"), "{plain}");
}

/// What hangs on a jumper that nobody asks for is not what the reader has to find out.
#[test]
fn a_job_without_a_jumper_is_not_asked_about_one_first() {
    let ran = run(&["verdict", &data("bid.job")]);
    let head = ran.out.split("Place ").next().unwrap();
    assert!(!head.contains("true of the jumper"), "{head}");
    assert!(ran.out.contains("Only if a jumper is put in all the same: jumper.state"), "{}", ran.out);
    assert!(!ran.out.contains("OPEN     Metal of the bonding jumper"), "{}", ran.out);
}
