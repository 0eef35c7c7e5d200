//! Which pages there are, and that they are whole.

use super::{at, decoded, kept, walked, whole};
use crate::law::places::IssuerKind;
use crate::rules::{Rules, Source};
use std::collections::BTreeSet;

#[test]
fn every_page_of_the_library_is_reached_and_leads_on() {
    let rules = Rules::shipped();
    let walk = walked(&rules, "");
    for (path, html) in &walk.pages {
        kept(path, html);
    }
    let library = rules.library();
    let mut expected: BTreeSet<String> = BTreeSet::from(["/rules".to_owned(), "/rules/words".to_owned()]);
    for code in &library.codes.codes {
        expected.insert(format!("/rules/code/{}", code.name));
        for (year, id) in &code.editions {
            expected.insert(format!("/rules/code/{}/{year}", code.name));
            let sections = &library.codes.edition(*id).unwrap().sections;
            let sections = sections.iter().filter(|printed| !printed.section.definition);
            expected.extend(sections.map(|printed| format!("/rules/section/{}/{}", code.name, printed.number)));
        }
    }
    for (id, issuer) in library.places.all() {
        let kind = match issuer.kind {
            IssuerKind::Place => "place",
            IssuerKind::Maker => "maker",
            IssuerKind::Supplier => "supplier",
        };
        let path = library.places.path_text(id);
        expected.insert(format!("/rules/{kind}/{path}"));
        for own in library.of_issuer(id) {
            let own = &library.instruments.get(own.0 as usize).unwrap().id;
            expected.insert(format!("/rules/instrument/{path}/{own}"));
        }
    }
    let reached: BTreeSet<String> = walk.pages.keys().map(|path| decoded(path)).collect();
    let left: Vec<&String> = expected.difference(&reached).collect();
    assert!(left.is_empty(), "no link leads to {left:?}");
}

#[test]
fn every_page_is_there_in_spanish_and_keeps_the_language() {
    let rules = Rules::shipped();
    let walk = walked(&rules, "%7Elang=es");
    for (path, html) in &walk.pages {
        kept(&format!("es{path}"), html);
        assert!(html.contains("<html lang=\"es\">"), "{path}");
        for english in ["Source:", "Where all of this holds", " it asks", "In force today"] {
            assert!(!html.contains(english), "{path}: {english}");
        }
    }
}

#[test]
fn what_others_wrote_stays_text() {
    let text = r#"place hostile "<script>alert(1)</script>" within tamarrow
    also   "'><img src=x onerror=alert(2)>"
    office "</dd></dl><h1>mine</h1>"
    read   "<b>here</b>" on 2026-11-24

code EVIL "</title><script>alert(3)</script>" on plumbing

edition EVIL 2020
    read "<i>there</i>" on 2026-11-24
    left out 9.9 "<u>why</u>"
    section 1.1 "<img src=x onerror=alert(4)>"
        summary "</p><script>alert(5)</script>"
        direct-bond is required
        note "<a href=javascript:alert(6)>here</a>"

instrument EV-1 of hostile "<svg onload=alert(7)>"
    kind     ordinance
    adopted  2020-01-01
    in force from 2020-02-01
    adopts EVIL 2020
    amend EVIL 2020
        replace 1.1 "</h4><script>alert(8)</script>"
            summary "ab"
            direct-bond is not-required
    section 2 "<textarea>"
        note "</article><script>alert(9)</script>"
"#;
    let rules = Rules::with(vec![Source::new("hostile.rule", text)]);
    assert!(rules.linked(), "{:?}", rules.problems().collect::<Vec<_>>());
    let walk = walked(&rules, "");
    let page = |path: &str| &walk.pages[path];
    assert!(page("/rules/place/tamarrow/hostile").contains("&lt;script&gt;alert(1)&lt;&#x2f;script&gt;"));
    assert!(page("/rules/instrument/tamarrow/hostile/EV-1").contains("&lt;svg onload=alert(7)&gt;"));
    for html in walk.pages.values() {
        for tag in ["<img", "<svg onload", "<textarea", "<u>", "<i>", "<b>", "javascript:alert(6)\"", "\u{202e}"] {
            assert!(!html.contains(tag), "{tag}");
        }
    }
    let found = at(&rules, "/rules", "find=%3Cscript%3Ealert(1)").unwrap();
    whole("a search for a script", &found);
    assert!(found.contains("value=\"&lt;script&gt;alert(1)\""));
}

#[test]
fn an_address_that_leads_nowhere_says_what_is_near() {
    let rules = Rules::shipped();
    for (path, near) in [
        ("/rules/code/IFCG", "/rules/code/IFGC"),
        ("/rules/code/IFGC/2016", "/rules/code/IFGC/2015"),
        ("/rules/section/IFGC/310.22", "/rules/section/IFGC/310.2"),
        ("/rules/section/IFCG/310.2", "/rules/code/IFGC"),
        ("/rules/place/tamarow", "/rules/place/tamarrow"),
        ("/rules/place/osier", "/rules/place/tamarrow/osier"),
        ("/rules/maker/fernclif", "/rules/maker/ferncliff"),
        ("/rules/instrument/tamarrow/osier/OC-17-9", "/rules/instrument/tamarrow/osier/OC-17-8"),
        ("/rules/instrument/tamarrow/osier/OC-17-9/effect", "/rules/instrument/tamarrow/osier/OC-17-8"),
        ("/rules/instrument", "/rules"),
        ("/rules/nothing", "/rules"),
        ("/rules/code/%3Cscript%3E", "/rules"),
    ] {
        let told = at(&rules, path, "~lang=en").unwrap_err();
        assert!(!told.broken && !told.message.is_empty() && !told.help.is_empty(), "{told:?}");
        let ways: Vec<&str> = told.near.iter().map(|way| way.href.split('?').next().unwrap()).collect();
        if path.ends_with("/effect") {
            assert!(!ways.is_empty(), "{path}: {ways:?}");
        } else {
            assert!(ways.contains(&near), "{path}: {ways:?}");
        }
        for way in ways {
            assert!(at(&rules, way, "").is_ok(), "{path} leads to {way}");
        }
    }
}
