//! The examples inside the rule files of this folder.

use crate::files::{SCENARIOS, proofread, proofread_each, rule_files};
use groundrule::{Rules, Source};

#[test]
fn every_example_holds() {
    proofread_each(SCENARIOS);
}

/// Each expectation counts: turned round, it is told with what was found beside it.
#[test]
fn a_wrong_expectation_is_told() {
    let text = std::fs::read_to_string(format!("{SCENARIOS}/s05-mixed-jackets.rule")).unwrap();
    for (right, wrong, found) in [
        ("direct-bond is not-required", "direct-bond is required", "not-required"),
        ("jumper-length at most 75 ft", "jumper-length at most 70 ft", "75 ft"),
        ("jumper-size met", "jumper-size not met", "met"),
        ("direct-bond open on run[1].jacket", "direct-bond open on run[0].jacket", "run[1].jacket"),
        ("by MW-18-9 7.12.3(unjacketed)", "by MW-18-9 7.12.1", "7.12.3(unjacketed)"),
    ] {
        assert!(text.contains(right), "{right}");
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("turned.rule");
        std::fs::write(&path, text.replacen(right, wrong, 1)).unwrap();
        let (status, told) = proofread(&path);
        assert_eq!(status, Some(1), "{wrong}: {told}");
        assert!(told.contains(wrong) && told.contains(found), "{wrong}: {told}");
    }
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
