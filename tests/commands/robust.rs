//! Hostile and broken input: an error with its place, never a crash.

use super::{folder, run, run_with};

/// Rules of these bytes are refused with this code, and nothing else happens.
fn refused(name: &str, bytes: &[u8], code: &str) {
    let rules = folder(&[]);
    std::fs::write(rules.path().join("bad.rule"), bytes).unwrap();
    let path = rules.path().to_str().unwrap();
    let loaded = run(&["in-force", "osier", "--on", "2024-01-01", "--rules", path]);
    assert_eq!((loaded.status, loaded.out.as_str()), (1, ""), "{name}");
    assert!(loaded.err.contains(code) && loaded.err.contains("bad.rule"), "{name}: {}", cut(&loaded.err));
    let read = run(&["proofread", path]);
    assert_eq!(read.status, 1, "{name}");
    assert!(read.out.contains(code), "{name}: {}", cut(&read.out));
    for text in [&loaded.err, &read.out] {
        assert!(!text.contains(|c: char| c.is_control() && c != '\n'), "{name}: {}", cut(text));
        assert!(text.lines().all(|line| line.chars().count() < 1_000), "{name}: {}", cut(text));
    }
}

fn cut(text: &str) -> String {
    text.chars().take(2_000).collect()
}

const HEAD: &str = "place bad-town \"Bad Town\"\n    read \"a test\" on 2026-11-24\ninstrument B-1 of bad-town\n    kind ordinance\n    in force from 2024-01-01\n    section 1 \"One\"\n";

#[test]
fn bytes_that_are_no_text() {
    refused("NUL", b"place bad-town \"Bad\0 Town\"\n", "GR0103");
    refused("escape", b"place bad-town \"Bad \x1b[2J Town\"\n", "GR0103");
    refused("not UTF-8", b"place bad-town \"B\xff\xfe\"\n", "GR0101");
    refused("look-alike", "place b\u{0430}d-town \"Bad Town\"\n".as_bytes(), "GR0104");
    refused("direction", "place bad-town \"Bad \u{202e}Town\"\n".as_bytes(), "GR0105");
}

#[test]
fn deep_nesting() {
    let parens = format!(
        "{HEAD}        where {}concealed is yes{}\n        performer only electrician\n",
        "(".repeat(100_000),
        ")".repeat(100_000)
    );
    refused("parentheses", parens.as_bytes(), "GR0100");
    let nots =
        format!("{HEAD}        where {}concealed is yes\n        performer only electrician\n", "not ".repeat(100_000));
    refused("not", nots.as_bytes(), "GR0100");
    for text in ["[".repeat(100_000), format!("{{\"run\":{}", "[".repeat(100_000)), "{\"a\":".repeat(100_000)] {
        let ran = run_with(&["verdict", "-"], text);
        assert_eq!((ran.status, ran.out.as_str()), (1, ""));
        assert!(ran.err.contains("error GR0") && ran.err.len() < 2_000, "{}", cut(&ran.err));
    }
}

#[test]
fn huge_numbers_and_far_years() {
    let long = "9".repeat(10_000);
    refused("figure", format!("{HEAD}        jumper-length at most {long} ft\n").as_bytes(), "GR0100");
    for (job, words) in [
        (format!("{{ \"place\": \"osier\", \"service-rating\": \"{long} A\" }}"), "length of a text"),
        (format!("{{ \"place\": \"osier\", \"service-rating\": \"{} A\" }}", "9".repeat(19)), "18 digits"),
        (format!("{{ \"place\": \"osier\", \"service-rating\": {long} }}"), "number out of range"),
        ("{ \"place\": \"osier\", \"application-date\": \"10000-01-01\" }".to_owned(), "0001 and 9999"),
        ("{ \"place\": \"osier\", \"application-date\": \"0000-01-01\" }".to_owned(), "0001 and 9999"),
        ("{ \"place\": \"osier\", \"application-date\": \"2023-02-29\" }".to_owned(), "2023-02-29"),
    ] {
        let ran = run_with(&["verdict", "-"], job.clone());
        assert_eq!(ran.status, 1, "{}", cut(&job));
        assert!(ran.err.contains(words) && ran.err.len() < 2_000, "{}", cut(&ran.err));
    }
    for day in ["9999-12-31", "0001-01-01"] {
        let ran = run_with(&["verdict", "-"], format!("place osier\napplication-date {day}\n"));
        assert!(ran.status == 13 || ran.status == 12, "{day}: {}", ran.err);
        assert_eq!(run(&["in-force", "osier", "--on", day]).status, 0);
    }
}

#[test]
fn jobs_that_are_no_jobs() {
    for text in [
        "",
        " ",
        "\0",
        "\u{feff}",
        "[]",
        "[1]",
        "{}",
        "null",
        "{\"place\":",
        "{\"place\": 7}",
        "place",
        "place osier osier",
        "{\"place\": \"osier\", \"place\": \"tarn\"}",
        "run {",
        "{\"place\":\"osier\"} {\"place\":\"osier\"}",
    ] {
        let ran = run_with(&["verdict", "-"], text);
        assert_eq!((ran.status, ran.out.as_str()), (1, ""), "{text:?}");
        assert!(ran.err.starts_with("error GR0") && ran.err.contains("standard input"), "{text:?}: {}", ran.err);
    }
    let ran = run_with(&["verdict", "-"], b"place osier\nreference \"\xff\"\n".to_vec());
    assert!(ran.status == 1 && ran.err.contains("GR0101"), "{}", ran.err);
    let ran = run_with(&["verdict", "-"], b"{ \"place\": \"\xff\" }".to_vec());
    assert!(ran.status == 1 && ran.err.contains("GR0101"), "{}", ran.err);
}

#[test]
fn nobody_moves_the_cursor() {
    for job in [
        r#"{ "place": "\u001b[2Josier" }"#,
        r#"{ "place": "osier", "reference": "\u001b[2Jboo" }"#,
        r#"{ "place": "osier", "\u001b[2J": 1 }"#,
        r#"{ "place": "osier", "occupancy": "\u009b2J\u202ecommercial" }"#,
    ] {
        let ran = run_with(&["verdict", "-"], job);
        assert_eq!(ran.status, 1, "{job}");
        assert!(!ran.err.contains(|c: char| (c.is_control() && c != '\n') || c == '\u{202e}'), "{job}: {:?}", ran.err);
    }
    let ran = run_with(&["verdict", "-"], r#"{ "place": "osier", "reference": "permit \u202e24" }"#);
    assert!(!ran.out.contains('\u{202e}') && !ran.err.contains('\u{202e}'), "{} {}", ran.out, ran.err);
    let ran = run(&["in-force", "\u{1b}[2Josier", "--on", "2024-01-01"]);
    assert!(ran.status == 1 && !ran.err.contains('\u{1b}'), "{:?}", ran.err);
}

#[test]
fn long_lines_are_cut() {
    let long = format!("place {} \"x\"\n", "a".repeat(200_000));
    refused("name", long.as_bytes(), "GR0100");
    let place = "x".repeat(100_000);
    let ran = run(&["in-force", &place, "--on", "2024-01-01"]);
    assert!(ran.status == 1 && ran.err.len() < 1_000, "{}", cut(&ran.err));
}

#[test]
fn many_errors_in_many_files() {
    let text: String = (0..300).map(|n| format!("place p{n} \"P\" within nowhere-{n}\n")).collect();
    let rules = folder(&[("a.rule", &text), ("b.rule", "plaze x")]);
    let ran = run(&["proofread", rules.path().to_str().unwrap()]);
    assert_eq!(ran.status, 1);
    assert!(ran.out.contains("a.rule") && ran.out.contains("b.rule"), "{}", cut(&ran.out));
}
