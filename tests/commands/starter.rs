//! `proofread --new`: a first rule file for a place.

use super::{Ran, folder, run};
use std::path::Path;

const DAY: &str = "2026-11-26";

/// What is written for a place, the rules read from there beside the library.
fn begun(arguments: &[&str], beside: &[&str]) -> String {
    let mut all = vec!["proofread", "--date", DAY];
    all.extend(arguments);
    all.extend(beside);
    let ran = run(&all);
    assert_eq!((ran.status, &*ran.err), (0, ""), "{arguments:?}");
    ran.out
}

/// Proofreads a text as a file of its own.
fn proofread(text: &str, beside: &[&str]) -> Ran {
    let own = folder(&[("own.rule", text)]);
    let mut all = vec!["proofread", own.path().to_str().unwrap()];
    all.extend(beside);
    run(&all)
}

/// Nothing is told of it; what other places answer it passes over in so many words.
fn clean(text: &str, beside: &[&str], of: &str) {
    let ran = proofread(text, beside);
    let passed_over =
        text.matches("\n    knowingly GR5202 \"what other places answer is not looked at yet\"\n").count();
    assert!(passed_over <= 1, "{of}\n{text}");
    let silenced = if passed_over == 1 { ", 1 warning silenced with a reason" } else { "" };
    let wanted = format!("1 file, 1 example run, no errors, no warnings{silenced}\n");
    assert_eq!(ran.out, wanted, "{of}\n{text}");
    assert_eq!(ran.status, 0, "{of}");
    let wide = text.lines().find(|line| line.chars().count() > 80);
    assert_eq!(wide, None, "{of}");
}

/// The text once for each block of sleeping lines, with this block awake.
fn awake(text: &str) -> Vec<(String, String)> {
    let lines: Vec<&str> = text.lines().collect();
    let sleeps = |line: &str| line.trim_start().starts_with("#- ");
    let mut blocks = Vec::new();
    let mut at = 0;
    while at < lines.len() {
        let long = lines[at..].iter().take_while(|line| sleeps(line)).count();
        if long == 0 {
            at += 1;
            continue;
        }
        let woken = |(number, line): (usize, &&str)| {
            let within = (at..at + long).contains(&number);
            if within { format!("{}\n", line.replacen("#- ", "", 1)) } else { format!("{line}\n") }
        };
        blocks.push((lines[at].trim().to_owned(), lines.iter().enumerate().map(woken).collect()));
        at += long;
    }
    blocks
}

fn each_block_is_right(text: &str, beside: &[&str], forms: &[&str]) {
    let blocks = awake(text);
    for form in forms {
        let with = format!("#- {form} ");
        assert!(blocks.iter().any(|(first, _)| first.starts_with(&with)), "{form} sleeps nowhere in\n{text}");
    }
    for (first, text) in blocks {
        let ran = proofread(&text, beside);
        assert!([0, 14].contains(&ran.status), "{first}\n{}{text}", ran.out);
        assert!(ran.out.contains("1 example run, no errors"), "{first}\n{}", ran.out);
    }
}

/// Every place of the library: its name and its printed name.
fn places() -> Vec<(String, String)> {
    let mut found = Vec::new();
    for entry in std::fs::read_dir(Path::new(env!("CARGO_MANIFEST_DIR")).join("rules/places")).unwrap() {
        let text = std::fs::read_to_string(entry.unwrap().path()).unwrap();
        for line in text.lines().filter_map(|line| line.strip_prefix("place ")) {
            let (name, rest) = line.split_once(" \"").unwrap();
            found.push((name.to_owned(), rest.split('"').next().unwrap().to_owned()));
        }
    }
    assert!(found.len() > 12, "{}", found.len());
    found
}

#[test]
fn a_first_file_is_clean_for_and_in_every_place_of_the_library() {
    for (name, title) in places() {
        let text = begun(&["--new", &title, "--within", "tamarrow"], &[]);
        assert!(!text.contains("\nplace "), "{name} is declared again");
        assert!(text.contains(&format!(" of {name} \"Ordinance 26-")), "{text}");
        clean(&text, &[], &name);
        let text = begun(&["--new", "Town of Newfound", "--within", &name], &[]);
        assert!(text.contains(&format!("\nplace newfound \"Town of Newfound\" within {name}\n")), "{text}");
        clean(&text, &[], &name);
    }
}

#[test]
fn a_first_file_follows_the_edition_of_its_day() {
    for (day, amended) in
        [("2012-05-01", "amend IFGC 2009"), ("2018-05-01", "amend IFGC 2015"), (DAY, "amend IFGC 2021")]
    {
        let text = run(&["proofread", "--new", "Town of Newfound", "--within", "tamarrow", "--date", day]).out;
        assert!(text.contains(&format!("\n    {amended}\n")), "{text}");
        if day == DAY {
            clean(&text, &[], day);
        } else {
            // An amendment of long ago ends with its edition, as the state went on to the next.
            let told = proofread(&text, &[]).out;
            let codes: Vec<&str> = told.lines().filter_map(|line| line.strip_prefix("warning ")?.get(..6)).collect();
            assert_eq!(codes, ["GR5208"], "{day}: {told}");
        }
    }
    for day in ["0001-01-01", "1990-01-01", "9999-12-31"] {
        let text = run(&["proofread", "--new", "Town of Newfound", "--within", "tamarrow", "--date", day]).out;
        clean(&text, &[], day);
    }
}

#[test]
fn whatever_sleeps_is_right_when_it_wakes() {
    const ALL: [&str; 9] = ["also", "election", "replace", "add", "except", "delete", "section", "floor", "instrument"];
    let new = begun(&["--new", "Town of Newfound", "--within", "Tamarrow"], &[]);
    each_block_is_right(&new, &[], &ALL);
    for known in ["osier", "fell-bridge"] {
        each_block_is_right(&begun(&["--new", known], &[]), &[], &ALL[1..]);
    }
}

#[test]
fn a_state_without_a_code_gets_a_section_of_its_own() {
    let state =
        folder(&[("fenmark.rule", "place fenmark \"State of Fenmark\"\n    read \"its code\" on 2026-11-24\n")]);
    let beside = ["--rules", state.path().to_str().unwrap()];
    for arguments in [vec!["--new", "Fen Hollow", "--within", "fenmark"], vec!["--new", "State of Fenmark"]] {
        let text = begun(&arguments, &beside);
        assert!(!text.contains("\n    amend "), "{text}");
        clean(&text, &beside, "fenmark");
        each_block_is_right(&text, &beside, &["adopts", "section", "floor", "instrument"]);
    }
}

/// A glossary of other words altogether: nothing of the usual ones is needed.
#[test]
fn a_first_file_does_without_the_words_of_the_library() {
    let own = folder(&[(
        "own.rule",
        "subject heat\nfact asked-on date dates instruments\nfact chimneys count\n\
         question flue on heat ladder free, swept, closed\nplace elm \"Elm\" from memory\n",
    )]);
    let beside = ["--without-library", "--rules", own.path().to_str().unwrap()];
    let text = begun(&["--new", "Elm Brook", "--within", "elm"], &beside);
    clean(&text, &beside, "elm");
    each_block_is_right(&text, &beside, &["section", "floor", "instrument"]);
}

#[test]
fn a_name_that_others_have_is_told_apart() {
    let near = folder(&[(
        "far.rule",
        "place far \"State of Far\"\n    read \"a\" on 2026-11-24\nplace osier \"Osier\" within far\n    read \"a\" on 2026-11-24\n",
    )]);
    let beside = ["--rules", near.path().to_str().unwrap()];
    let text = begun(&["--new", "osier", "--within", "far"], &beside);
    assert!(text.contains(" of far/osier \"Ordinance"), "{text}");
    clean(&text, &beside, "far/osier");
    let text = begun(&["--new", "stonecroft", "--within", "far"], &beside);
    assert!(text.contains("place far/stonecroft\n"), "{text}");
    clean(&text, &beside, "far/stonecroft");
    // A maker of tubing may have no namesake.
    let text = begun(&["--new", "Town of Northgale", "--within", "far"], &beside);
    assert!(text.contains("\nplace town-of-northgale \"Town of Northgale\" within far\n"), "{text}");
    let text = begun(&["--new", "Town of \"The Elms\" \\ Elm", "--within", "far"], &beside);
    clean(&text, &beside, "a name with quotes");
}

#[test]
fn a_file_that_is_there_stays_as_it_is() {
    let own = folder(&[("mine.rule", "# mine\n")]);
    let mine = own.path().join("mine.rule");
    let fresh = own.path().join("fresh.rule");
    let (mine, fresh) = (mine.to_str().unwrap(), fresh.to_str().unwrap());
    let new = ["proofread", "--new", "Town of Newfound", "--within", "tamarrow", "--date", DAY, "--to"];
    let to = |file: &str| run(&[&new[..], &[file]].concat());
    let ran = to(mine);
    assert_eq!(ran.status, 1);
    assert!(ran.err.contains("the file is there already, and nothing was written"), "{}", ran.err);
    assert_eq!(std::fs::read_to_string(mine).unwrap(), "# mine\n");
    let ran = to(fresh);
    assert_eq!((ran.status, &*ran.out, &*ran.err), (0, "", ""));
    clean(&std::fs::read_to_string(fresh).unwrap(), &[], "fresh");
    assert_eq!(to(fresh).status, 1);
    for (wrong, told) in [("/nowhere/at/all.rule", "cannot be written"), ("newfound.txt", "rule files end in `.rule`")]
    {
        let ran = to(wrong);
        assert!(ran.status == 1 && ran.err.contains(told), "{wrong}\n{}", ran.err);
    }
}

#[test]
fn what_cannot_be_begun_is_told() {
    for (arguments, told) in [
        (vec!["--new", "Town of X", "--within", "tamarow"], "did you mean `tamarrow`?"),
        (vec!["--new", "Town of X"], "say within which state or county it lies"),
        (vec!["--new", "東京", "--within", "tamarrow"], "no name for rule files can be made of `東京`"),
        (vec!["--new", "", "--within", "tamarrow"], "this cannot be the name of a place"),
        (vec!["--new", "northgale", "--within", "tamarrow"], "is called"),
    ] {
        let ran = run(&[&["proofread"], &arguments[..]].concat());
        assert_eq!((ran.status, &*ran.out), (1, ""), "{arguments:?}");
        assert!(ran.err.contains("error GR") && ran.err.contains("help: "), "{}", ran.err);
        assert!(ran.err.contains(told), "{arguments:?}\n{}", ran.err);
    }
    for wrong in [&["proofread"][..], &["proofread", "rules", "--new", "x"], &["proofread", "rules", "--within", "x"]] {
        assert_eq!(run(wrong).status, 2, "{wrong:?}");
    }
}
