//! The glossary that ships with the program.

use super::build;

#[test]
fn it_is_free_of_errors_and_plays_every_part() {
    let path = format!("{}/rules/glossary.rule", env!("CARGO_MANIFEST_DIR"));
    let built = build(&[&std::fs::read_to_string(path).unwrap()]);
    assert!(built.diagnostics.is_empty(), "{:#?}", built.diagnostics);
    let roles = built.glossary.roles;
    assert!(roles.dates.is_some() && roles.text.is_some() && roles.code.is_some() && roles.supplier.is_some());
    assert!(built.glossary.questions.iter().all(|question| *question.title != *question.name));
    assert!(built.glossary.fields.iter().all(|field| field.ask.is_some() && !field.known.is_empty()));
}
