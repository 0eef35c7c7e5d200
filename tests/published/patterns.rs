//! The hard patterns of real instruments, each shown by an example that turns on it.

use crate::ask::rows;
use crate::files;
use crate::instruments::instruments;
use std::collections::BTreeMap;

const SHOWN: &str = include_str!("instruments/patterns.tsv");

/// What is hard about real instruments; each must be shown.
const PATTERNS: [&str; 15] = [
    "two date tests and an election in one instrument",
    "validity that changes without a change of text",
    "patches on a moving base",
    "maker's text with four polarities",
    "a ban that meets a duty",
    "trigger extent",
    "silence that needs a negative fact",
    "several editions at once",
    "emergency rules in a chain with gaps",
    "fuel moved to another code",
    "first-stage or final regulator as point of delivery",
    "stacked licence conditions",
    "force levels",
    "doubled or contradictory adoptions",
    "territory that is not a political boundary",
];

#[test]
fn every_pattern_is_shown() {
    let mut shown: BTreeMap<&str, usize> = PATTERNS.iter().map(|pattern| (*pattern, 0)).collect();
    for row in rows(SHOWN) {
        let [pattern, ..] = row[..] else { panic!("{row:?}") };
        *shown.get_mut(pattern).unwrap_or_else(|| panic!("no pattern is named `{pattern}`")) += 1;
    }
    let missing: Vec<&str> = shown.into_iter().filter(|(_, count)| *count == 0).map(|(pattern, _)| pattern).collect();
    assert!(missing.is_empty(), "not shown: {missing:#?}");
}

#[test]
fn what_shows_a_pattern_is_there() {
    let files: BTreeMap<String, String> = instruments().into_iter().collect();
    for row in rows(SHOWN) {
        let [pattern, file, title] = row[..] else { panic!("{row:?}") };
        let name = if file.ends_with(".rule") { file.to_owned() } else { format!("{file}.rule") };
        let text = files.get(&name).unwrap_or_else(|| panic!("{pattern}: no file {name}"));
        assert!(files::examples(text).contains(&title), "{pattern}: {name} has no example `{title}`");
    }
}
