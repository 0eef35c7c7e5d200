//! The examples inside the rule files of this folder.

use crate::files::{SCENARIOS, proofread_each, rule_files};
use groundrule::{Rules, Source};

#[test]
fn every_example_holds() {
    proofread_each(SCENARIOS);
}

#[test]
fn every_scenario_holds_examples() {
    let scenarios: Vec<_> = rule_files(SCENARIOS).into_iter().filter(|(name, _)| name.starts_with('s')).collect();
    assert!(scenarios.len() >= 20, "{}", scenarios.len());
    for (name, text) in scenarios {
        assert!(text.contains("\nexample \""), "{name} holds no example");
        assert!(text.contains("adopts "), "{name} adopts no edition");
    }
}

/// The files say nothing of each other, so they link in one set as well as apart.
#[test]
fn the_scenarios_link_together() {
    let sources = rule_files(SCENARIOS).into_iter().map(|(name, text)| Source::new(name, text)).collect();
    let rules = Rules::with(sources);
    assert!(rules.usable(), "{}", rules.problems().collect::<Vec<_>>().join("\n"));
}
