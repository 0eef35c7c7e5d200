//! Both languages say the same things, and whatever is asked for is there.

use super::files::AREAS;
use super::{Language, Reader, Units};
use fluent_syntax::ast::{Entry, Expression, InlineExpression, Pattern, PatternElement};
use fluent_syntax::parser::parse;
use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

/// The keys of a file with the variables of each.
fn keys(name: &str, text: &str) -> BTreeMap<String, BTreeSet<String>> {
    let read = parse(text.to_owned()).unwrap_or_else(|(_, wrong)| panic!("{name}: {wrong:?}"));
    let mut found = BTreeMap::new();
    for entry in read.body {
        let Entry::Message(message) = entry else { continue };
        let mut names = BTreeSet::new();
        variables(&message.value.unwrap_or_else(|| panic!("{name}: a key without words")), &mut names);
        assert!(found.insert(message.id.name.clone(), names).is_none(), "{name}: {} twice", message.id.name);
    }
    found
}

fn variables(pattern: &Pattern<String>, names: &mut BTreeSet<String>) {
    for element in &pattern.elements {
        if let PatternElement::Placeable { expression } = element {
            expression_of(expression, names);
        }
    }
}

fn expression_of(expression: &Expression<String>, names: &mut BTreeSet<String>) {
    match expression {
        Expression::Inline(inline) => of_inline(inline, names),
        Expression::Select { selector, variants } => {
            of_inline(selector, names);
            variants.iter().for_each(|variant| variables(&variant.value, names));
        }
    }
}

fn of_inline(inline: &InlineExpression<String>, names: &mut BTreeSet<String>) {
    match inline {
        InlineExpression::VariableReference { id } => {
            names.insert(id.name.clone());
        }
        InlineExpression::Placeable { expression } => expression_of(expression, names),
        _ => {}
    }
}

#[test]
fn both_languages_have_the_same_keys_and_variables() {
    for area in AREAS {
        let english = keys(area.name, area.english);
        assert_eq!(english, keys(area.name, area.spanish), "{}", area.name);
        for key in english.keys() {
            assert!(key.starts_with(area.name), "{key} belongs to no area {}", area.name);
        }
    }
}

/// Every file below a folder.
fn sources(folder: &Path, found: &mut Vec<(String, String)>) {
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            sources(&path, found);
        } else if path.extension().is_some_and(|ending| ending == "rs" || ending == "html") {
            let text = std::fs::read_to_string(&path).unwrap();
            found.push((path.display().to_string(), text));
        }
    }
}

/// The keys that a source asks for by a literal.
fn asked(text: &str) -> Vec<String> {
    let mut found = Vec::new();
    for (lead, quote) in [("say(\"", '"'), ("say_with(\"", '"'), ("say('", '\'')] {
        for (at, _) in text.match_indices(lead) {
            let rest = &text[at + lead.len()..];
            found.extend(rest.split(quote).next().map(str::to_owned));
        }
    }
    found
}

#[test]
fn what_is_asked_for_is_there_and_nothing_is_left_over() {
    let known: BTreeSet<String> = AREAS.iter().flat_map(|area| keys(area.name, area.english).into_keys()).collect();
    let mut files = Vec::new();
    sources(&Path::new(env!("CARGO_MANIFEST_DIR")).join("src"), &mut files);
    files.retain(|(name, _)| !name.ends_with("speech/tests.rs"));
    for (name, text) in &files {
        for key in asked(text) {
            assert!(known.contains(&key), "{name}: no words for `{key}`");
        }
    }
    for key in &known {
        let quoted = [format!("\"{key}\""), format!("'{key}'")];
        let used = files.iter().any(|(_, text)| quoted.iter().any(|key| text.contains(key)));
        assert!(used, "nothing says `{key}`");
    }
}

#[test]
fn words_differ_by_number_and_language() {
    let english = Reader::default();
    let spanish = Reader { language: Language::Spanish, units: Units::Customary };
    assert_eq!(english.say("value-yes"), "yes");
    assert_eq!(spanish.say("value-yes"), "sí");
    assert_eq!(english.say("no-such-words"), "no-such-words");
    assert_eq!(spanish.say_with("value-at-most", &[("figure", "75 ft")]), "como máximo 75 ft");
}
