//! What is there: facts as they are, unknown as unknown, every finding in words.

use super::jobs::{samples, scene, svg, texts, texts_of, with};
use crate::report::picture::bond::Presence;
use crate::report::picture::branches::Material;
use crate::report::picture::describe::describe;
use crate::report::picture::marks::{Line, Mark, Part};
use crate::report::picture::scene::Entry;
use crate::report::picture::spots::{Leave, Stretch, spots};
use crate::report::picture::{Kind, board, detail, draw, layout};
use crate::report::speech::{Language, Reader};
use std::collections::BTreeSet;

#[test]
fn the_sample_jobs_in_sentences() {
    for (name, text) in samples() {
        let scene = scene(&text);
        insta::assert_snapshot!(format!("scene_of_{name}"), describe(&scene).replace(". ", ".\n"));
    }
}

#[test]
fn what_is_not_known_is_drawn_as_not_known() {
    let shown = texts(Kind::Picture, "place stonecroft\napplication-date 2026-04-20\n");
    for words in [
        "Meter not known",
        "Regulator not known",
        "Point of delivery where: not known",
        "Manifold not known",
        "Runs: not known",
        "Appliances: not known",
        "Bonding jumper: not known whether there is one",
        "Place of the clamp: not known",
        "Landing: not known",
        "Electrodes: not known",
        "supply of electricity is not known",
        "length",
    ] {
        assert!(shown.contains(words), "`{words}` is not in\n{shown}");
    }
    for words in ["CSST, ", "steel pipe", "Building with", "on a circuit", "rigid metal pipe"] {
        assert!(!shown.contains(words), "`{words}` is assumed in\n{shown}");
    }
}

#[test]
fn further_entries_that_are_not_known_are_drawn_so() {
    let shown = texts(
        Kind::Picture,
        r#"{ "schema": "groundrule/job/1", "place": "stonecroft",
        "run": [{ "material": "steel" }, null], "appliance": [null] }"#,
    );
    for words in ["Run 1: steel pipe", "Further runs: not known", "not known: size, length, where it starts and ends"] {
        assert!(shown.contains(words), "`{words}` is not in\n{shown}");
    }
}

#[test]
fn every_material_has_its_label_and_a_pattern_of_its_own() {
    let run = |material: &str, more: &str| {
        let text = format!("place stonecroft\nrun {{ material {material} role distribution {more} }}\n");
        let scene = scene(&text);
        let run = scene.branches[0].run.clone().unwrap();
        (run.material, run.heading)
    };
    for (name, more, material, label) in [
        ("steel", "", Material::Steel, "Run 1: steel pipe"),
        ("csst", "jacket plain", Material::CsstPlain, "Run 1: CSST, plain"),
        ("csst", "jacket arc-resistant", Material::CsstArc, "Run 1: CSST, arc-resistant"),
        ("csst", "", Material::CsstUnknown, "Run 1: CSST, jacket not known"),
        ("copper", "", Material::Copper, "Run 1: copper tube"),
        ("brass", "", Material::Brass, "Run 1: brass pipe"),
        ("aluminum-pipe", "", Material::Aluminum, "Run 1: aluminum pipe"),
        ("polyethylene", "", Material::Plastic, "Run 1: polyethylene"),
        ("unknown", "", Material::Unknown, "Run 1: material not known"),
    ] {
        assert_eq!(run(name, more), (material, label.to_owned()));
    }
    let mut patterns = BTreeSet::new();
    for material in Material::ALL {
        let mut paper = board::Board::default();
        paper.pipe(material, board::at(0, 50), 200);
        assert!(patterns.insert(picture(paper)), "{material:?} is drawn as another");
    }
}

/// A drawing of what is on a board, with nothing else.
fn picture(board: board::Board) -> String {
    let about = draw::About { reader: Reader::default(), title: "", description: "", alone: false };
    draw::svg(&layout::Laid { board, width: 300, height: 100 }, &about)
}

#[test]
fn every_mark_has_words_and_a_shape_that_needs_no_color() {
    let mut shapes = BTreeSet::new();
    for mark in Mark::ALL {
        let mut paper = board::Board::default();
        paper.glyph(board::Glyph::Mark(mark), board::at(20, 20));
        let drawn = picture(paper);
        let ways: Vec<&str> = drawn.split(" d=\"").skip(1).filter_map(|rest| rest.split('"').next()).collect();
        assert!(!ways.is_empty() && shapes.insert(ways.concat()), "{mark:?} looks as another");
    }
}

#[test]
fn each_element_carries_the_words_of_its_findings() {
    let mut seen = BTreeSet::new();
    for (name, text) in samples() {
        let scene = scene(&text);
        let shown = texts(Kind::Picture, &text);
        for entry in &scene.legend {
            let mark = entry.mark();
            seen.insert(mark);
            let words = mark.words(Reader::default());
            assert!(shown.contains(&format!("{} – {words}", entry.name)), "{name}: {} {words}", entry.name);
            for line in &entry.lines {
                assert!(shown.contains(&line.mark.words(Reader::default())), "{name}");
            }
        }
    }
    assert_eq!(seen, BTreeSet::from([Mark::Nothing, Mark::Met, Mark::Open, Mark::Refer, Mark::NotMet]));
    // No sample has a contradiction; its words and shape are those of its mark.
    let line = |mark| Line { mark, title: String::new(), answer: String::new(), cited: Vec::new() };
    let lines = vec![line(Mark::Met), line(Mark::Conflict), line(Mark::Refer)];
    let entry = Entry { part: Part::Wire, name: String::new(), facts: Vec::new(), lines };
    assert_eq!(entry.mark(), Mark::Conflict);
}

const HOUSE: &str = "place stonecroft\napplication-date 2026-04-20\noccupancy one-or-two-family\nwork new-system\nbuilding main\n\
    run { material csst jacket plain role distribution }\n";

#[test]
fn a_bond_that_is_required_and_not_there_is_shown_as_missing() {
    let none = format!("{HOUSE}jumper {{ present no }}\n");
    let scene = scene(&none);
    assert_eq!(scene.jumper.as_ref().unwrap().presence, Presence::Missing);
    assert!(scene.tag(Part::Clamp).is_none() && scene.tag(Part::Landing).is_none());
    for kind in [Kind::Picture, Kind::Detail] {
        let shown = texts(kind, &none);
        assert!(shown.contains("Bond required, none stated – not met"), "{shown}");
    }
    // Nothing is drawn of what is not there and not required.
    let steel = "place stonecroft\napplication-date 2026-04-20\noccupancy one-or-two-family\nwork new-system\nbuilding main\n\
        run { material steel role distribution }\njumper { present no }\n";
    assert!(super::jobs::scene(steel).jumper.is_none());
}

#[test]
fn what_is_presumed_says_so() {
    let shown = texts(Kind::Picture, &format!("{HOUSE}appliance {{ powered yes }}\n"));
    assert!(shown.contains("likely to become energized: yes (presumed)"), "{shown}");
    let stated = texts(Kind::Picture, &format!("{HOUSE}likely-energized yes\nappliance {{ powered yes }}\n"));
    assert!(stated.contains("likely to become energized: yes") && !stated.contains("presumed"), "{stated}");
}

#[test]
fn many_runs_are_drawn_by_kind_with_a_count() {
    let runs = "run { material csst jacket plain role distribution }\n".repeat(9)
        + &"run { material steel role distribution }\n".repeat(5)
        + &"appliance { powered yes }\n".repeat(13);
    let text = format!("place stonecroft\napplication-date 2026-04-20\n{runs}");
    let shown = texts(Kind::Picture, &text);
    for words in ["9 runs: CSST, plain", "5 runs: steel pipe", "13 appliances on a circuit or cord"] {
        assert!(shown.contains(words), "`{words}` is not in\n{shown}");
    }
    assert_eq!(scene(&text).branches.len(), 2);
}

#[test]
fn a_clamp_may_not_go_where_the_answers_leave_it_out() {
    let text = samples().into_iter().find(|(name, _)| name == "long-wire").unwrap().1;
    let found = with(&text, |verdict, matter| spots(verdict, matter, Reader::default()));
    let not: Vec<Stretch> = found.iter().filter(|(_, leave)| *leave == Leave::MayNot).map(|(on, _)| *on).collect();
    assert_eq!(not, [Stretch::Supplier, Stretch::Tubing, Stretch::Appliance]);
    let shown = texts(Kind::Detail, &text);
    assert_eq!(shown.matches("no clamp here").count(), 3, "{shown}");
    assert!(shown.contains("[IRC 2021 G2411.2.1]") && shown.contains("along the conductor"), "{shown}");
}

#[test]
fn on_a_page_the_detail_leaves_its_list_to_the_page() {
    let text = samples().into_iter().find(|(name, _)| name == "long-wire").unwrap().1;
    let (svg, parts) = with(&text, |verdict, matter| detail(verdict, matter, Reader::default()));
    let shown = texts_of(&svg);
    assert!(shown.contains("no clamp here") && !shown.contains("[IRC"), "{shown}");
    let listed = serde_json::to_value(&parts).unwrap();
    let numbers: Vec<i64> = parts.iter().zip(1..).map(|(_, number)| number).collect();
    for (part, number) in listed.as_array().unwrap().iter().zip(&numbers) {
        assert_eq!(part["number"], *number);
        assert!(shown.contains(&format!(" {number} ")), "the number stands in the drawing: {shown}");
    }
    // What the list of the drawing that stands alone tells is told by the page.
    let alone = texts(Kind::Detail, &text);
    assert!(parts.len() >= 3, "{listed}");
    for part in listed.as_array().unwrap() {
        let title = format!("{} – {}", part["name"].as_str().unwrap(), part["mark"]["words"].as_str().unwrap());
        assert!(alone.contains(&title), "{title}: {alone}");
        for line in part["lines"].as_array().unwrap() {
            assert!(["met", "not-met"].contains(&line["mark"]["name"].as_str().unwrap()), "{line}");
            assert!(
                !line["title"].as_str().unwrap().is_empty() && !line["cited"].as_str().unwrap().is_empty(),
                "{line}"
            );
        }
    }
}

#[test]
fn a_drawing_is_well_formed_and_reaches_for_nothing() {
    let strange = format!("{HOUSE}reference \"</text><script>alert(1)</script> & 'x'\"\n");
    let all = samples().into_iter().map(|(_, text)| text).chain([strange]);
    for text in all {
        for language in Language::ALL {
            for kind in [Kind::Picture, Kind::Detail] {
                let svg = svg(kind, &text, language);
                let document = roxmltree::Document::parse(&svg).unwrap();
                let root = document.root_element();
                assert_eq!(root.attribute("role"), Some("img"));
                assert_eq!(root.attribute("lang"), Some(language.tag()));
                let child = |name: &str| root.children().find(|node| node.has_tag_name(name)).unwrap();
                assert_eq!(root.attribute("aria-labelledby"), child("title").attribute("id"));
                assert_eq!(root.attribute("aria-describedby"), child("desc").attribute("id"));
                assert!(child("desc").text().unwrap().ends_with('.'));
                for node in document.descendants().filter(roxmltree::Node::is_element) {
                    assert!(
                        !["script", "style", "image", "use", "a", "foreignObject"].contains(&node.tag_name().name())
                    );
                    for attribute in node.attributes() {
                        assert!(!["style", "href"].contains(&attribute.name()) && !attribute.name().starts_with("on"));
                        assert!(!attribute.value().contains("url("), "{}", attribute.value());
                    }
                }
            }
        }
    }
}
