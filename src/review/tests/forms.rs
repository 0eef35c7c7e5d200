//! The form sheets: every form of the list has one, and each can be read.

use super::{path, text};
use crate::review::examples;
use crate::rules::{Rules, Source};
use crate::syntax::tree::Item;
use std::collections::BTreeSet;

/// The forms of the list, each with the sheet or the test that shows it.
fn list() -> Vec<(String, String)> {
    let list = text("tests/forms/list.md");
    list.lines()
        .filter_map(|line| line.strip_prefix("- ")?.strip_suffix('`'))
        .map(|line| line.rsplit_once(": `").unwrap_or_else(|| panic!("no sheet in `{line}`")))
        .map(|(form, shown)| (form.to_owned(), shown.to_owned()))
        .collect()
}

/// The names of the sheets in the folder.
fn sheets() -> BTreeSet<String> {
    std::fs::read_dir(path("tests/forms"))
        .unwrap()
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .filter_map(|name| name.strip_suffix(".rule").map(str::to_owned))
        .filter(|name| name != "glossary")
        .collect()
}

/// A sheet beside the glossary of the sheets.
fn rules(sheet: &str) -> Rules {
    Rules::only(
        ["glossary", sheet]
            .map(|name| Source::new(format!("{name}.rule"), text(&format!("tests/forms/{name}.rule"))))
            .to_vec(),
    )
}

#[test]
fn every_form_of_the_list_is_shown() {
    let sheets = sheets();
    let list = list();
    assert!(list.len() > 150, "{}", list.len());
    for (form, shown) in &list {
        match shown.split_once("::") {
            None => assert!(sheets.contains(shown), "`{form}` has no sheet `{shown}`"),
            Some((file, test)) => {
                let text = text(file);
                assert!(text.contains(&format!("#[test]\nfn {test}()")), "`{form}` has no test `{shown}`");
            }
        }
    }
    for sheet in &sheets {
        assert!(list.iter().any(|(_, shown)| shown == sheet), "the sheet `{sheet}` shows no form of the list");
    }
}

#[test]
fn every_sheet_can_be_read_and_has_two_examples() {
    for sheet in sheets() {
        let rules = rules(&sheet);
        let problems: Vec<String> = rules.problems().collect();
        assert!(problems.is_empty(), "{sheet}: {problems:#?}");
        let examples =
            rules.trees().flat_map(|(_, tree)| &tree.items).filter(|item| matches!(item, Item::Example(_))).count();
        assert!(examples >= 2, "{sheet} has {examples} examples");
        for place in rules.library().lawgivers().collect::<Vec<_>>() {
            assert!(rules.library().law(place).is_ok(), "{sheet}");
        }
    }
}

#[test]
fn every_example_of_the_sheets_comes_out() {
    let mut count = 0;
    for sheet in sheets() {
        let rules = rules(&sheet);
        let ran = examples::run(&rules, |_| true);
        let wrong: Vec<&str> = ran.findings.iter().map(|told| told.message.as_str()).collect();
        assert!(wrong.is_empty(), "{sheet}: {wrong:#?}");
        count += ran.examples;
    }
    assert!(count > 400, "{count} examples");
}
