//! A job that grows by one answer at a time.

use super::{built, desk, said, sheet};
use crate::job::Written;
use crate::job::model::Given;

#[test]
fn a_value_is_what_a_sheet_with_it_says() {
    let built = built();
    let desk = desk(&built);
    let place = built.places.id("harlow");
    let words = |words: &[&str]| Written::Words(words.iter().map(|word| (*word).to_owned()).collect());
    let figure = |number: &str, unit: Option<&str>| Written::Figure(number.into(), unit.map(Into::into));
    for (path, line, written) in [
        ("concealed", "yes", words(&["yes"])),
        ("application-date", "2024-03-01", words(&["2024-03-01"])),
        ("contract-date", "none", Written::None),
        ("permits-held", "none", Written::None),
        ("permits-held", "gas, electrical", words(&["gas", "electrical"])),
        ("occupancy", "townhouse", words(&["townhouse"])),
        ("jumper.size", "6 AWG", figure("6", Some("AWG"))),
        ("jumper.length", "7.5 m", figure("7.5", Some("m"))),
    ] {
        let Some(field) = built.glossary.field(path, Some(place), &built.places) else { continue };
        let from_sheet = match path.split_once('.') {
            Some((record, name)) => format!("job\n place harlow\n {record} {{ {name} {line} }}\n"),
            None => format!("job\n place harlow\n {path} {line}\n"),
        };
        assert_eq!(desk.value_written(field, &written, place).as_ref(), Ok(&said(&sheet(&from_sheet), path)));
    }
}

#[test]
fn what_does_not_fit_is_told_with_a_help() {
    let built = built();
    let desk = desk(&built);
    let place = built.places.id("harlow");
    for (path, written) in [
        ("occupancy", Written::None),
        ("occupancy", Written::Words(vec!["castle".into()])),
        ("occupancy", Written::Figure("3".into(), None)),
        ("jumper.size", Written::Figure("5".into(), Some("AWG".into()))),
        ("application-date", Written::Words(vec!["2024-02-30".into()])),
        ("permits-held", Written::Words(vec!["gas".into(), "gas".into()])),
    ] {
        let field = built.glossary.field(path, Some(place), &built.places).expect(path);
        let fault = desk.value_written(field, &written, place).expect_err(path);
        assert!(fault.help.is_some(), "{fault:?}");
    }
}

#[test]
fn dates_are_held_against_each_other() {
    let built = built();
    let desk = desk(&built);
    let job = sheet("job\n place harlow\n application-date 2024-03-01\n permit-date 2024-03-05\n");
    assert_eq!(desk.checked(job.clone()), Ok(job.clone()));
    let mut early = job;
    let permit = built.glossary.field("permit-date", None, &built.places).expect("a fact");
    early.values[usize::from(permit.0)] = Given::Date(crate::values::Date::parse("2024-01-01").expect("a day"));
    let faults = desk.checked(early).expect_err("too early");
    assert_eq!(faults.iter().map(|(field, _)| *field).collect::<Vec<_>>(), [permit]);
}
