//! Every page of the shipped library is there, is whole, and leads only to pages that
//! are there; what others wrote stays text.

use super::{Missing, page};
use crate::report::pages::link::Link;
use crate::rules::{Rules, Source};
use crate::values::Date;
use std::collections::{BTreeMap, BTreeSet};

fn today() -> Date {
    Date::parse("2026-11-27").unwrap()
}

/// Pages by their address, each made once.
struct Walk<'r> {
    rules: &'r Rules,
    query: &'static str,
    pages: BTreeMap<String, String>,
}

/// A page by its path and query, as a server would ask for it.
fn at(rules: &Rules, path: &str, query: &str) -> Result<String, Missing> {
    let rest = path.strip_prefix("/rules").unwrap_or_else(|| panic!("{path} is none of this room"));
    let parts: Vec<String> = rest.split('/').filter(|part| !part.is_empty()).map(decoded).collect();
    let parts: Vec<&str> = parts.iter().map(String::as_str).collect();
    page(&parts, &Link::from(query), rules, today())
}

fn decoded(part: &str) -> String {
    let mut bytes = Vec::new();
    let mut rest = part.bytes();
    while let Some(byte) = rest.next() {
        if byte == b'%' {
            let pair = [rest.next().unwrap(), rest.next().unwrap()];
            bytes.push(u8::from_str_radix(std::str::from_utf8(&pair).unwrap(), 16).unwrap());
        } else {
            bytes.push(byte);
        }
    }
    String::from_utf8(bytes).unwrap()
}

/// An attribute as a browser reads it.
fn unescaped(text: &str) -> String {
    text.replace("&#x2f;", "/")
        .replace("&#x27;", "'")
        .replace("&quot;", "\"")
        .replace("&lt;", "<")
        .replace("&gt;", ">")
        .replace("&amp;", "&")
}

/// The values of an attribute, in the order of the page.
fn attributes(html: &str, name: &str) -> Vec<String> {
    let lead = format!(" {name}=\"");
    html.match_indices(&lead).map(|(at, _)| unescaped(html[at + lead.len()..].split('"').next().unwrap())).collect()
}

/// Holds that every tag is closed in its turn, that headings leave no rank out, that ids
/// are unique, and that every reference between parts of the page is met.
fn whole(address: &str, html: &str) {
    const VOID: [&str; 6] = ["meta", "link", "input", "br", "hr", "!DOCTYPE"];
    let mut open: Vec<&str> = Vec::new();
    let mut rank = 0;
    for piece in html.split('<').skip(1) {
        let (tag, _) = piece.split_once('>').unwrap_or_else(|| panic!("{address}: `<{piece}` is not closed"));
        let name = tag.split([' ', '\n']).next().unwrap();
        assert!(tag.matches('"').count().is_multiple_of(2), "{address}: <{tag}>");
        if let Some(name) = name.strip_prefix('/') {
            assert_eq!(open.pop(), Some(name), "{address}: </{name}> closes another");
        } else if !VOID.contains(&name) && !tag.ends_with('/') {
            open.push(name);
            if let Some(own) = name.strip_prefix('h').and_then(|rank| rank.parse::<usize>().ok()) {
                assert!(own <= rank + 1, "{address}: <{name}> behind a heading of rank {rank}");
                rank = own;
            }
        }
    }
    assert!(open.is_empty(), "{address}: {open:?} stay open");
    let ids = attributes(html, "id");
    let known: BTreeSet<&String> = ids.iter().collect();
    assert_eq!(ids.len(), known.len(), "{address}: an id stands twice");
    for name in ["aria-labelledby", "aria-describedby", "for"] {
        for wanted in attributes(html, name).iter().flat_map(|list| list.split(' ')) {
            assert!(known.contains(&wanted.to_owned()), "{address}: {name} {wanted} is not there");
        }
    }
    assert_eq!(html.matches("<h1").count(), 1, "{address}");
    assert!(!attributes(html, "style").iter().any(|_| true) && !html.contains("<script"), "{address}");
    assert!(html.matches("<table").count() == html.matches("<caption").count(), "{address}: a table without a caption");
    let key = html.split("browse-").nth(1).map(|key| key.chars().take(20).collect::<String>());
    assert_eq!(key, None, "{address}: a key and no words");
}

impl Walk<'_> {
    /// Follows every link from the first page; effects are left out, since each takes
    /// long, and are looked at by themselves.
    fn walk(&mut self) {
        let mut waiting = vec!["/rules".to_owned()];
        let mut wanted: Vec<(String, String, String)> = Vec::new();
        while let Some(path) = waiting.pop() {
            if self.pages.contains_key(&path) || path.ends_with("/effect") {
                continue;
            }
            let html = at(self.rules, &path, self.query).unwrap_or_else(|told| panic!("{path}: {told:?}"));
            whole(&path, &html);
            for href in attributes(&html, "href") {
                let (bare, fragment) = href.split_once('#').unwrap_or((&href, ""));
                let target = bare.split('?').next().unwrap();
                if target.is_empty() {
                    wanted.push((path.clone(), path.clone(), fragment.to_owned()));
                } else if target == "/rules" || target.starts_with("/rules/") {
                    let another = bare.contains("%7Elang=en");
                    assert!(bare.contains(self.query) || another, "{path}: {href} loses what the link carries");
                    waiting.push(target.to_owned());
                    wanted.push((path.clone(), target.to_owned(), fragment.to_owned()));
                }
            }
            self.pages.insert(path, html);
        }
        for (from, path, fragment) in wanted {
            if !fragment.is_empty() {
                let there = format!(" id=\"{fragment}\"");
                assert!(self.pages[&path].contains(&there), "{from} leads to {path}#{fragment}");
            }
        }
    }
}

/// Writes a page to the folder that `BROWSE_PAGES` names, to be looked at in a browser.
fn kept(name: &str, html: &str) {
    if let Ok(folder) = std::env::var("BROWSE_PAGES") {
        let name = name.trim_start_matches('/').replace(['/', '?', '&', ' '], "_");
        let style = format!("<style>{}</style>", crate::report::pages::STYLE);
        let html = html.replace("<link rel=\"stylesheet\" href=\"/static/counter.css\">", &style);
        std::fs::write(format!("{folder}/{name}.html"), html).unwrap();
    }
}

fn walked<'r>(rules: &'r Rules, query: &'static str) -> Walk<'r> {
    let mut walk = Walk { rules, query, pages: BTreeMap::new() };
    walk.walk();
    walk
}

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
            crate::law::places::IssuerKind::Place => "place",
            crate::law::places::IssuerKind::Maker => "maker",
            crate::law::places::IssuerKind::Supplier => "supplier",
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

#[test]
fn a_day_that_is_none_is_told_beside_its_field() {
    let rules = Rules::shipped();
    let path = "/rules/place/tamarrow/osier";
    let wrong = at(&rules, path, "on=2026-02-30").unwrap();
    whole(path, &wrong);
    assert!(wrong.contains("id=\"on-wrong\"") && wrong.contains("value=\"2026-02-30\""));
    assert!(!wrong.contains("In force on") && !wrong.contains("In force today"));
    let then = at(&rules, path, "on=2012-06-01").unwrap();
    assert!(then.contains("In force on 2012-06-01") && then.contains("IFGC 2009") && !then.contains("IFGC 2021"));
    let nowhere = at(&rules, "/rules/section/IFGC/310.2", "at=osierr&on=2026-11-27").unwrap();
    whole("a place that is none", &nowhere);
    assert!(nowhere.contains("id=\"at-wrong\"") && nowhere.contains("osier"));
}

#[test]
fn a_section_stands_at_the_place_of_the_job_and_on_its_day() {
    let rules = Rules::shipped();
    let query = "place=osier&application-date=2024-06-03&gas=natural";
    let html = at(&rules, "/rules/section/IFGC/310.1.1", query).unwrap();
    whole("a section of a job", &html);
    kept("stands", &html);
    assert!(html.contains("On 2024-06-03, at"), "{html}");
    assert!(html.contains("OC-17-8") && html.contains("What it said before"));
    let hidden: Vec<String> = attributes(&html, "name");
    assert!(["place", "application-date", "gas", "at", "on"].iter().all(|name| hidden.iter().any(|own| own == name)));
    // The day that is chosen here is no fact of the job, which every link hands on.
    let chosen = at(&rules, "/rules/place/tamarrow", "gas=natural&on=2020-01-01&find=x").unwrap();
    let onward = attributes(&chosen, "href").into_iter().filter(|href| href.starts_with('/') && !href.contains("%7E"));
    let onward: Vec<String> = onward.filter(|href| !href.starts_with("/static/")).collect();
    assert!(
        onward.iter().all(|href| href == "/" || href.contains("gas=natural") && !href.contains("on=2020")),
        "{onward:?}"
    );
}

#[test]
fn the_codes_of_a_place_are_those_in_force_there() {
    let rules = Rules::shipped();
    for day in ["2012-06-01", "2022-09-01", "2026-11-27"] {
        let on = Date::parse(day).unwrap();
        for place in rules.library().lawgivers() {
            let path = rules.library().places.path_text(place);
            let html = at(&rules, &format!("/rules/place/{path}"), &format!("on={day}")).unwrap();
            let there = crate::report::in_force::inquire(&rules, place, on, crate::report::in_force::collect).unwrap();
            for code in &there.codes {
                let cell = format!(">{} {}</a>", code.code, code.edition);
                assert!(html.contains(&cell), "{path} on {day}: {cell}");
            }
            for line in there.history.iter().chain(&there.pending) {
                assert!(html.contains(&format!(">{}</a>", line.instrument)), "{path} on {day}: {}", line.instrument);
            }
        }
    }
}

#[test]
fn whoever_amends_a_section_stands_on_its_page() {
    use crate::law::instrument::Target;
    let rules = Rules::shipped();
    let library = rules.library();
    let mut seen = 0;
    for own in &library.instruments {
        for amend in &own.amends {
            let (Target::Edition(id) | Target::Any { numbered: id, .. }) = amend.target else { continue };
            let edition = library.codes.edition(id).unwrap();
            let code = &library.codes.code_of(edition).unwrap().name;
            for patch in &amend.patches {
                let html = at(&rules, &format!("/rules/section/{code}/{}", patch.number), "").unwrap();
                let way = format!(">{}</a>", own.id);
                assert!(html.contains(&way), "{} {}: {}", own.id, patch.number, html);
                seen += 1;
            }
        }
    }
    assert!(seen > 5, "{seen}");
    // An amendment of an older edition is found under the number of today.
    let today = at(&rules, "/rules/section/IFGC/310.2", "").unwrap();
    assert!(today.contains(">OC-17-8</a>") && today.contains("310.1.1"));
}

#[test]
fn an_amendment_of_what_has_given_way_says_so() {
    let rules = Rules::shipped();
    let row = |html: &str| html.split("<tr").find(|row| row.contains(">TR-11-4</a>")).unwrap().to_owned();
    let osier = "/rules/place/tamarrow/osier";
    assert!(row(&at(&rules, osier, "").unwrap()).contains("what it amends has given way"));
    assert!(!row(&at(&rules, osier, "on=2012-05-01").unwrap()).contains("given way"));
    let own = at(&rules, "/rules/instrument/tamarrow/TR-11-4", "").unwrap();
    assert!(own.contains("what it amends has given way"), "{own}");
}

#[test]
fn the_instructions_of_a_maker_name_the_places_that_hear_them() {
    let rules = Rules::shipped();
    let html = at(&rules, "/rules/instrument/northgale/NG-INST-3/effect", "").unwrap();
    whole("NG-INST-3", &html);
    let heard = html.split("ask what it says:").nth(1).unwrap().split("</ul>").next().unwrap();
    let places = attributes(heard, "href");
    let wanted = ["/rules/place/tamarrow/osier", "/rules/place/tamarrow/quill-city"];
    assert!(wanted.iter().all(|place| places.iter().any(|href| href == place)), "{places:?}");
    // A supplier's rules are no instructions.
    let supplier = at(&rules, "/rules/instrument/lowmoor-gas/LG-SR-7/effect", "").unwrap();
    assert!(!supplier.contains("ask what it says:"));
}

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
    let all = super::words::entries(rules.library());
    for (spellings, names, _) in super::trade::SAYINGS {
        for name in *names {
            assert!(all.iter().any(|entry| entry.name == *name || entry.name.ends_with(&format!(".{name}"))), "{name}");
        }
        for spelling in *spellings {
            assert_eq!(spelling.to_lowercase(), *spelling);
            let found: Vec<_> = super::trade::sayings(spelling).collect();
            assert!(found.iter().any(|(said, _)| said == spelling), "{spelling}: {found:?}");
        }
    }
    assert_eq!(super::trade::sayings("subtle whippet").count(), 0, "only whole words are sayings");
}

#[test]
fn the_effect_of_an_amendment_is_that_of_the_workbench() {
    use crate::review::effect::{Bench, Joint, Side};
    use crate::verdict::survey::Window;
    let rules = Rules::shipped();
    let path = "/rules/instrument/tamarrow/osier/OC-17-8/effect";
    for query in ["", "~lang=es"] {
        let html = at(&rules, path, query).unwrap();
        whole(path, &html);
        kept(&format!("effect{query}"), &html);
        assert!(html.contains("Direct bond to the grounding electrode system"), "{html}");
        // The same, made from a text without the amendment.
        let (file, own) = {
            let own = rules.library().instruments.iter().find(|own| &*own.id == "OC-17-8").unwrap();
            (own.at.file, own.issuer)
        };
        let text = rules.file_text(file);
        let cut = text.find("    amend IFGC 2015").unwrap();
        let rest = text.find("\nexample").unwrap();
        let without = format!("{}{}", &text[..cut], &text[rest..]);
        let others = rules.trees().map(|(id, _)| id).filter(|id| *id != file);
        let mut sources: Vec<Source> = others.map(|id| Source::new(rules.file_name(id), rules.file_text(id))).collect();
        sources.push(Source::new(rules.file_name(file), without));
        let before = Rules::only(sources);
        assert!(before.linked(), "{:?}", before.problems().collect::<Vec<_>>());
        let place = before.library().places.find("osier").unwrap();
        let joint =
            Joint::new(Side { rules: &before, place, on: None }, Side { rules: &rules, place: own, on: None }).unwrap();
        let (some, all) = Bench::new(&joint).effect(Window::default()).kinds.unwrap();
        assert!(some > 0);
        let grouped = crate::report::effect::grouped;
        assert!(html.contains(&grouped(some)) && html.contains(&grouped(all)), "{some} of {all}");
    }
}
