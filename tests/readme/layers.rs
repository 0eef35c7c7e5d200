//! Which part of the program may know what: read off the sources.

use crate::{text, top};
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

/// Each part with those that it may use, as the contributor's guide lists them.
const LAYERS: &[(&str, &[&str])] = &[
    ("syntax", &[]),
    ("values", &[]),
    ("shipped", &["syntax"]),
    ("glossary", &["syntax", "values"]),
    ("law", &["syntax", "values", "glossary"]),
    ("atlas", &["syntax", "glossary", "law"]),
    ("job", &["syntax", "values", "glossary"]),
    ("verdict", &["syntax", "values", "glossary", "law", "job"]),
    ("cure", &["values", "glossary", "job", "verdict"]),
    // A set of rules is usable when nothing is wrong in it, and `review` says so.
    ("rules", &["syntax", "values", "glossary", "law", "atlas", "job", "verdict", "shipped", "review"]),
    ("review", &["syntax", "values", "glossary", "law", "atlas", "job", "verdict", "rules"]),
    ("interview", &["syntax", "values", "glossary", "law", "job", "verdict", "rules"]),
    (
        "report",
        &["syntax", "values", "glossary", "law", "atlas", "job", "verdict", "cure", "rules", "review", "interview"],
    ),
    ("engine", &["syntax", "values", "glossary", "law", "job", "verdict", "cure", "rules", "report"]),
    ("editor", &["syntax", "values", "glossary", "law", "job", "verdict", "rules", "review", "report"]),
    (
        "web",
        &["syntax", "values", "glossary", "law", "job", "verdict", "rules", "review", "interview", "report", "engine"],
    ),
    // The command line starts the editor's server and the HTTP server in one line each, and knows no more of them.
    (
        "commands",
        &[
            "syntax",
            "values",
            "glossary",
            "law",
            "atlas",
            "job",
            "verdict",
            "rules",
            "review",
            "interview",
            "report",
            "engine",
            "editor",
            "web",
        ],
    ),
];

/// What reaches out of the program.
const OUTSIDE: [&str; 7] = ["std::fs", "std::env", "std::net", "std::process", "SystemTime", "Instant::now", "walkdir"];

/// Words of the trade, which live in the rules.
const TRADE: [&str; 6] = ["csst", "jumper", "bonding", "direct-bond", "tubing", "electrician"];

/// The source files, tests and the build apart, each with its part of the program.
fn sources() -> Vec<(String, PathBuf)> {
    let mut found = Vec::new();
    let mut folders = vec![top().join("src")];
    while let Some(folder) = folders.pop() {
        for entry in std::fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            let inside = path.strip_prefix(top().join("src")).unwrap().to_owned();
            let first = inside.iter().next().unwrap().to_str().unwrap().trim_end_matches(".rs").to_owned();
            let is_test = inside.iter().any(|part| part == "tests" || part == "tests.rs");
            if is_test || ["build", "main", "lib"].contains(&&*first) {
                continue;
            }
            if path.is_dir() {
                folders.push(path);
            } else {
                found.push((first, path));
            }
        }
    }
    assert!(found.len() > 100, "{}", found.len());
    found
}

/// The lines of code: no comments, nothing below the tests of a file.
fn code(path: &Path) -> String {
    let source = std::fs::read_to_string(path).unwrap();
    let body = source.split("#[cfg(test)]\nmod tests {").next().unwrap();
    body.lines().filter(|line| !line.trim_start().starts_with("//")).map(|line| format!("{line}\n")).collect()
}

#[test]
fn a_part_uses_only_those_below_it() {
    let mut parts = BTreeSet::new();
    for (part, path) in sources() {
        let (_, allowed) =
            LAYERS.iter().find(|(name, _)| *name == part).unwrap_or_else(|| panic!("`{part}` is in no layer"));
        let body = code(&path);
        // Written so, a use would not be seen below.
        assert!(!body.contains("crate::{"), "{}", path.display());
        for (at, _) in body.match_indices("crate::") {
            let used: String =
                body[at + 7..].chars().take_while(|letter| letter.is_lowercase() || *letter == '_').collect();
            if !used.is_empty() && used != part {
                assert!(allowed.contains(&&*used), "{} uses `{used}`", path.display());
            }
        }
        parts.insert(part);
    }
    assert_eq!(parts.len(), LAYERS.len(), "{parts:?}");
}

#[test]
fn only_the_outermost_parts_reach_outside() {
    for (part, path) in sources().into_iter().filter(|(part, _)| !["commands", "editor", "web"].contains(&&**part)) {
        let body = code(&path);
        for word in OUTSIDE {
            assert!(!body.contains(word), "{part}: {} reaches `{word}`", path.display());
        }
    }
}

#[test]
fn the_trade_is_in_the_rules_and_not_in_the_engine() {
    let spoken = ["report", "commands", "web"];
    for (part, path) in sources().into_iter().filter(|(part, _)| !spoken.contains(&&**part)) {
        // The helps of the reader show a form with words that officials know.
        if path.ends_with("errors/help.rs") {
            continue;
        }
        let body = code(&path);
        for word in TRADE {
            assert!(!body.contains(word), "{part}: {} knows `{word}`", path.display());
        }
    }
}

#[test]
fn files_are_short() {
    for (_, path) in sources() {
        let lines = std::fs::read_to_string(&path).unwrap().lines().count();
        assert!(lines <= 600, "{}: {lines} lines", path.display());
    }
    assert!(text("src/main.rs").lines().count() < 60);
}

#[test]
fn every_dependency_is_accounted_for() {
    let guide = text("DEVELOPERS.md");
    let part = &guide[guide.find("## Dependencies").unwrap()..guide.find("## Style").unwrap()];
    let manifest = text("Cargo.toml");
    let mut section = String::new();
    let mut found = 0;
    for line in manifest.lines() {
        if line.starts_with('[') {
            section = line.to_owned();
        } else if section.contains("dependencies]")
            && let Some((name, _)) = line.split_once(" = ")
        {
            assert!(part.contains(&format!("`{name}`")), "`{name}` is not in the guide");
            found += 1;
        }
    }
    assert!(found > 20, "{found}");
}
