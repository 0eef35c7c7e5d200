//! What is found of what people type.

use super::super::{page, trade, words};
use super::{attributes, kept, today, whole};
use crate::report::pages::link::Link;
use crate::rules::Rules;

#[test]
fn a_search_finds_what_people_type() {
    let rules = Rules::shipped();
    for (text, path) in [
        ("310.2", "/rules/section/IFGC/310.2"),
        ("IFGC 310.1.1", "/rules/section/IFGC/310.1.1"),
        ("ifgc 2021", "/rules/code/IFGC/2021"),
        ("G2411", "/rules/section/IRC/G2411.2"),
        ("250.104(b)", "/rules/section/NEC/250.104(B)"),
        ("Osier", "/rules/place/tamarrow/osier"),
        ("brackwell co.", "/rules/place/tamarrow/brackwell"),
        ("ferncliff", "/rules/maker/ferncliff"),
        ("oc-17-8", "/rules/instrument/tamarrow/osier/OC-17-8"),
        ("single length", "/rules/instrument/tamarrow/TR-11-4"),
        ("black iron", "/rules/words#term-steel"),
        ("bond it at the meter", "/rules/words#fact-meter"),
        ("direct bond", "/rules/words#question-direct-bond"),
        ("varilla", "/rules/words#term-rod"),
        ("6 AWG", "/rules/words#question-jumper-size"),
        ("75 ft", "/rules/words#question-jumper-length"),
    ] {
        let query = Link(vec![("find".to_owned(), text.to_owned())]);
        let html = page(&[], &query, &rules, today()).unwrap();
        whole(text, &html);
        kept(&format!("find {text}"), &html);
        let found = html.split("id=\"found\"").nth(1).unwrap().split("</section>").next().unwrap().to_owned();
        let found = attributes(&found, "href");
        assert!(found.iter().any(|href| href == path), "{text}: {found:?}");
    }
    let search = |text: &str| page(&[], &Link(vec![("find".to_owned(), text.to_owned())]), &rules, today()).unwrap();
    let near = search("osierr");
    assert!(near.contains("Nothing has this name") && near.contains("find=osier"), "{near}");
    assert!(search("qqqqqqqqqqqq").contains("Nothing has this name"));
    for text in ["", " ", "%", "ifgc", "§", "é", "2021", &"x".repeat(5000)] {
        whole(text, &search(text));
    }
}

#[test]
fn every_saying_of_the_trade_leads_to_a_word() {
    let rules = Rules::shipped();
    let all = words::entries(rules.library());
    for (spellings, names, _) in trade::SAYINGS {
        for name in *names {
            assert!(all.iter().any(|entry| entry.name == *name || entry.name.ends_with(&format!(".{name}"))), "{name}");
        }
        for spelling in *spellings {
            assert_eq!(spelling.to_lowercase(), *spelling);
            let found: Vec<_> = trade::sayings(spelling).collect();
            assert!(found.iter().any(|(said, _)| said == spelling), "{spelling}: {found:?}");
        }
    }
    assert_eq!(trade::sayings("subtle whippet").count(), 0, "only whole words are sayings");
}
