//! The examples inside the rule files of this folder.

use crate::files::{self, rule_files};
use groundrule::{Rules, Source};

#[test]
fn every_scenario_links_with_the_shipped_rules() {
    for (name, text) in rule_files(files::SCENARIOS) {
        assert!(text.contains("\nexample \""), "{name} holds no example");
        let rules = Rules::with(vec![Source::new(&*name, text.as_bytes())]);
        assert!(rules.usable(), "{name}:\n{}", rules.problems().collect::<Vec<_>>().join("\n"));
    }
}

#[test]
fn the_scenarios_link_together() {
    let sources = rule_files(files::SCENARIOS).into_iter().map(|(name, text)| Source::new(name, text)).collect();
    let rules = Rules::with(sources);
    assert!(rules.usable(), "{}", rules.problems().collect::<Vec<_>>().join("\n"));
}
