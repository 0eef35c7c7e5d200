//! The order of the steps.

use super::{job, steps};
use crate::Rules;
use crate::interview::{Mark, Reply, Said, SoFar, Topic};
use crate::job::model::Given;
use crate::verdict::paths::Path;

const BARE: &str = "job\n place osier\n";
const BEGUN: &str = "job\n place osier\n application-date 2026-03-01\n occupancy one-or-two-family\n work new-system\n";

fn listed(text: &str, who: &str) -> String {
    let rules = Rules::shipped();
    let so_far = job(&rules, text);
    let mut lines = Vec::new();
    for step in steps(&rules, &so_far, who) {
        let part = format!("{} {}", step.part.who.unwrap_or("-"), step.part.when.unwrap_or("-"));
        let changes: Vec<&str> = step.changes.iter().map(|change| &*change.question.name).collect();
        lines.push(format!("{:?} {} ({part}) {}", step.mark, step.path, changes.join(" ")));
    }
    lines.join("\n")
}

#[test]
fn the_place_and_the_date_come_first() {
    insta::assert_snapshot!("bare_job_for_a_contractor", listed(BARE, "contractor"));
}

#[test]
fn what_others_know_comes_last() {
    insta::assert_snapshot!("begun_job_for_an_owner", listed(BEGUN, "owner"));
    for who in ["contractor", "electrician", "inspector", "owner"] {
        let rules = Rules::shipped();
        let so_far = job(&rules, BEGUN);
        let steps = steps(&rules, &so_far, who);
        // The date comes first whoever knows it, and is no more the reader's own for that.
        let others = steps.iter().filter(|step| step.path != "application-date");
        let own: Vec<bool> = others.map(|step| step.own).collect();
        assert!(own.is_sorted_by_key(|own| !own), "{who}: {own:?}");
        assert!(steps.iter().all(|step| step.own == step.part.who.is_none_or(|part| part == who)), "{who}");
    }
}

#[test]
fn the_place_is_the_one_that_was_said() {
    let rules = Rules::shipped();
    for (place, titles) in [
        ("brackwell", &["State of Tamarrow", "Brackwell County"][..]),
        ("osier", &["State of Tamarrow", "Osier County"]),
        ("tamarrow", &["State of Tamarrow"]),
    ] {
        let so_far = job(&rules, &format!("job\n place {place}\n"));
        let steps = steps(&rules, &so_far, "contractor");
        assert_eq!(steps[0].said, Said::Place(titles.to_vec()), "{place}");
    }
}

#[test]
fn what_is_not_known_of_a_list_stands_with_the_list() {
    let rules = Rules::shipped();
    let so_far = job(&rules, BEGUN);
    let group = rules.library().glossary.group("run", None, &rules.library().places).expect("a list");
    let three = Reply::Entries { count: 3, more: true };
    let so_far = so_far.answered(rules.desk(), Topic::Fact(Path::List(group)), &three).expect("three and others");
    for text in ["", " jumper { present yes }\n appliance none\n"] {
        let mut so_far = so_far.clone();
        if !text.is_empty() {
            let other = job(&rules, &format!("{BEGUN}{text} run {{ }}\n run unknown\n"));
            so_far = SoFar { waived: so_far.waived, ..other };
        }
        let of_list = steps(&rules, &so_far, "contractor");
        let told: Vec<&str> = of_list
            .iter()
            .filter(|step| [Topic::Fact(Path::List(group)), Topic::Fact(Path::Further(group))].contains(&step.topic))
            .map(|step| &*step.path)
            .collect();
        assert_eq!(told, ["run"], "{text}");
    }
}

#[test]
fn entries_are_asked_one_by_one() {
    let text = format!("{BEGUN} run {{ material csst }}\n run {{ }}\n run unknown\n appliance none\n");
    let told = listed(&text, "contractor");
    let at = |path: &str| {
        told.lines().position(|line| line.contains(&format!(" {path} "))).unwrap_or_else(|| panic!("{path}\n{told}"))
    };
    assert!(at("run") < at("run[0].material") && at("run[0].role") < at("run[1].material"), "{told}");
    assert!(at("run[1].material") < at("run[]"), "{told}");
    assert!(told.contains("Stated appliance "), "{told}");
}

#[test]
fn a_step_tells_what_the_job_says_and_what_is_not_known() {
    let rules = Rules::shipped();
    let so_far = job(&rules, BEGUN);
    let find = |path: &str| {
        let steps = steps(&rules, &so_far, "contractor");
        let step = steps.iter().find(|step| step.path == path).unwrap_or_else(|| panic!("{path}"));
        (step.topic, step.mark)
    };
    assert_eq!(find("occupancy").1, Mark::Stated);
    let (topic, mark) = find("building");
    assert_eq!(mark, Mark::Asked);
    let waived = so_far.answered(rules.desk(), topic, &Reply::Unknown).expect("it may be unknown");
    let again = steps(&rules, &waived, "contractor");
    assert_eq!(again.iter().find(|step| step.topic == topic).map(|step| step.mark), Some(Mark::Waived));
    let said = waived.answered(rules.desk(), topic, &Reply::Value(Given::Term(0))).expect("a term");
    assert!(said.waived.is_empty());
    let again = steps(&rules, &said, "contractor");
    assert_eq!(again.iter().find(|step| step.topic == topic).map(|step| step.mark), Some(Mark::Stated));
}

#[test]
fn an_entry_taken_out_takes_its_doubts_along() {
    let rules = Rules::shipped();
    let text = format!("{BEGUN} run {{ material csst }}\n run {{ material steel }}\n run {{ }}\n");
    let so_far = job(&rules, &text);
    let glossary = &rules.library().glossary;
    let group = glossary.group("run", None, &rules.library().places).expect("a list");
    let field = glossary.field("run.product", None, &rules.library().places).expect("an attribute");
    let waived = |entry| Topic::Fact(Path::Attribute { group, entry, field });
    let desk = rules.desk();
    let so_far = so_far
        .answered(desk, waived(0), &Reply::Unknown)
        .and_then(|one| one.answered(desk, waived(2), &Reply::Unknown));
    let so_far = so_far.expect("both may be unknown");
    let without = so_far.without(group, 0).expect("there are three");
    assert_eq!(without.job.lists[usize::from(group.0)].entries.len(), 2);
    assert_eq!(without.waived.into_iter().collect::<Vec<_>>(), [Path::Attribute { group, entry: 1, field }]);
    assert!(so_far.without(group, 3).is_err());
}
