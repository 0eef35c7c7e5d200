//! The real instruments: one file each, all of one library with the rules that
//! ship with the program, and a row for each in the contributor's guide.

use crate::files::{self, PUBLISHED};
use groundrule::{Rules, Source};
use std::collections::BTreeSet;
use std::path::Path;

/// The instruments, by the numbers of their files.
pub const INSTRUMENTS: [&str; 52] = [
    "L01", "L02", "L04", "L06", "L07", "L08", "L10", "L11", "L13", "L15", "L17", "L18", "L19", "L20", "L23", "L24",
    "L25", "L26", "L29", "L30", "L32", "L33", "L34", "L35", "L37", "L39", "L41", "L42", "L43", "L44", "L46", "L48",
    "L50", "L51", "L52", "L53", "L55", "L56", "L58", "L59", "L61", "L63", "L64", "L65", "L67", "L68", "L70", "L72",
    "L74", "L75", "L76", "L78",
];
/// What the instruments share: the places they are of, and codes that do not ship.
const SHARED: [&str; 2] = ["codes.rule", "places.rule"];

fn folder() -> String {
    format!("{PUBLISHED}/instruments")
}

/// Name and text of the file of each instrument that is there.
pub fn instruments() -> Vec<(String, String)> {
    let mut found = files::rule_files(&folder());
    found.retain(|(name, _)| !SHARED.contains(&name.as_str()));
    found
}

#[test]
fn the_list_of_instruments_is_complete() {
    let found: BTreeSet<String> = files::rule_files(&folder()).into_iter().map(|(name, _)| name).collect();
    let wanted: BTreeSet<String> =
        INSTRUMENTS.iter().map(|name| format!("{name}.rule")).chain(SHARED.map(str::to_owned)).collect();
    let missing: Vec<&String> = wanted.difference(&found).collect();
    let unknown: Vec<&String> = found.difference(&wanted).collect();
    assert!(missing.is_empty() && unknown.is_empty(), "missing: {missing:?}; unknown: {unknown:?}");
}

#[test]
fn they_load_as_one_library() {
    let sources = files::rule_files(&folder()).into_iter().map(|(name, text)| Source::new(name, text)).collect();
    let rules = Rules::with(sources);
    assert!(rules.usable(), "{}", rules.problems().collect::<Vec<_>>().join("\n"));
}

/// All files at once, so that no example turns on one of them being away.
#[test]
fn every_example_of_theirs_holds() {
    let examples: usize = files::rule_files(&folder()).iter().map(|(_, text)| files::examples(text).len()).sum();
    let (status, told) = files::proofread(Path::new(&folder()));
    // Doubts about what an instrument really did are no fault of the answers.
    assert!(matches!(status, Some(0 | 14)), "exit status {status:?}\n{told}");
    assert!(told.contains(&format!(" {examples} examples run, no errors")), "{examples} examples\n{told}");
}

#[test]
fn every_instrument_has_two_examples_with_names_of_their_own() {
    for (name, text) in instruments() {
        let examples = files::examples(&text);
        let names: BTreeSet<&str> = examples.iter().copied().collect();
        assert!(examples.len() >= 2, "{name} has {} examples", examples.len());
        assert_eq!(names.len(), examples.len(), "{name}: two examples of one name");
    }
}

/// The head names the place and the instrument, says what is doubtful, and some text was seen where all can see it.
#[test]
fn every_instrument_says_what_it_is_and_where_it_was_seen() {
    for (name, text) in instruments() {
        let head: Vec<&str> = text.lines().take_while(|line| line.starts_with("# ")).collect();
        let letters: usize = head.iter().map(|line| line.len()).sum();
        assert!(letters > 60, "{name}: its head does not say what it is");
        let titles = places_of(&text);
        let named = |title: &String| head.iter().take(4).any(|line| line.to_lowercase().contains(title));
        assert!(titles.iter().any(named), "{name}: its first lines name none of {titles:?}");
        assert!(text.lines().any(|line| line.starts_with("# Caution: ")), "{name} has no caution");
        let reads = text.lines().filter_map(|line| line.trim_start().strip_prefix("read")).map(str::trim_start);
        let public = |seen: &str| seen.starts_with("\"https://") || seen.starts_with("\"http://");
        assert!(reads.into_iter().any(public), "{name} names no public address");
    }
}

/// The names of the places whose instruments stand in a file, as people write them: `new-jersey` is `new jersey`,
/// and what `place` prints of it without `State of` and the like.
fn places_of(text: &str) -> Vec<String> {
    let mut names = BTreeSet::new();
    for line in text.lines() {
        let mut words = line.split_whitespace();
        match words.next() {
            Some("instrument") => {
                if let Some(of) = words.skip_while(|word| *word != "of").nth(1) {
                    names.extend(of.rsplit('/').next().map(|name| name.replace('-', " ")));
                }
            }
            Some("place" | "maker" | "supplier") => {
                let printed = line.split('"').nth(1).unwrap_or_default().to_lowercase();
                names.insert(printed.rsplit(" of ").next().unwrap_or_default().to_owned());
            }
            _ => {}
        }
    }
    assert!(!names.is_empty(), "no instrument is there");
    names.into_iter().collect()
}

/// Every instrument says of which kind it is, so with which force it speaks.
#[test]
fn every_instrument_has_a_kind() {
    let mut instruments = 0;
    for (name, text) in self::instruments() {
        let items: Vec<&str> = text.split("\ninstrument ").skip(1).collect();
        assert!(!items.is_empty(), "{name} holds no instrument");
        for item in items {
            let own = item.lines().skip(1).take_while(|line| line.is_empty() || line.starts_with([' ', '#']));
            let kind = own.map(str::trim).any(|line| line.starts_with("kind "));
            assert!(kind, "{name}: {} has no kind", item.lines().next().unwrap());
            instruments += 1;
        }
    }
    assert!(instruments >= INSTRUMENTS.len(), "{instruments}");
}

/// The guide has a row for each file: its place, how it is encoded, what is left to the authority.
#[test]
fn the_guide_has_a_row_for_each() {
    let guide = std::fs::read_to_string(format!("{}/DEVELOPERS.md", env!("CARGO_MANIFEST_DIR"))).unwrap();
    let rows: Vec<Vec<&str>> = guide
        .lines()
        .filter(|line| line.starts_with("| [L"))
        .map(|line| line.trim_matches('|').split(" | ").map(str::trim).collect())
        .collect();
    for row in &rows {
        assert!(row.len() == 4 && row.iter().all(|cell| !cell.is_empty()), "{row:?}");
    }
    let named: Vec<&str> = rows.iter().map(|row| row[0]).collect();
    let wanted = INSTRUMENTS.map(|name| format!("[{name}](tests/published/instruments/{name}.rule)"));
    assert_eq!(named, wanted);
}
