//! What stands at a place on a day, who amends it, and what an amendment changes.

use super::{at, attributes, kept, whole};
use crate::law::instrument::Target;
use crate::report::effect::grouped;
use crate::report::in_force::{collect, inquire};
use crate::review::effect::{Bench, Joint, Side};
use crate::rules::{Rules, Source};
use crate::values::Date;
use crate::verdict::survey::Window;

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
            let there = inquire(&rules, place, on, collect).unwrap();
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
fn the_effect_of_an_amendment_is_that_of_the_workbench() {
    let rules = Rules::shipped();
    let path = "/rules/instrument/tamarrow/osier/OC-17-8/effect";
    for query in ["", "~lang=es"] {
        let html = at(&rules, path, query).unwrap();
        whole(path, &html);
        kept(&format!("effect{query}"), &html);
        assert!(html.contains("Direct bond to the grounding electrode system"), "{html}");
        let (own, other) =
            if query.is_empty() { ("At a glance", "De un vistazo") } else { ("De un vistazo", "At a glance") };
        assert!(html.contains(own) && !html.contains(other), "{html}");
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
        assert!(html.contains(&grouped(some)) && html.contains(&grouped(all)), "{some} of {all}");
    }
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
