//! What is there: facts as they are, unknown as unknown, every finding in words.

use super::jobs::{samples, scene, svg, texts, texts_of, with};
use crate::report::picture::bond::Presence;
use crate::report::picture::branches::{Branch, Material};
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

/// A sample without its jumper.
fn without_jumper(name: &str) -> String {
    let text = samples().into_iter().find(|(own, _)| own == name).unwrap().1;
    let (rest, _) = text.split_once("jumper {").unwrap();
    format!("{rest}jumper {{ present no }}\n")
}

#[test]
fn what_a_jumper_has_to_be_is_told_before_it_is_there() {
    let none = without_jumper("new-house");
    for kind in [Kind::Picture, Kind::Detail] {
        let shown = texts(kind, &none);
        for words in
            ["still to do: Size of the bonding jumper – at least 6 AWG copper", "still to do: Length of the bonding"]
        {
            assert!(shown.contains(words), "`{words}` is not in\n{shown}");
        }
    }
    let shown = texts(Kind::Detail, &none);
    assert!(shown.contains("clamp permitted") && shown.contains("no clamp here"), "{shown}");
    assert!(!shown.contains("no rule known here") && !shown.contains("No jumper is surely required"), "{shown}");
    // A jumper that is there is held against the rules, and nothing of it is still to do.
    let there = samples().into_iter().find(|(name, _)| name == "new-house").unwrap().1;
    assert!(!texts(Kind::Detail, &there).contains("still to do"));
}

#[test]
fn where_no_jumper_is_required_the_places_for_a_clamp_are_told_as_such() {
    let steel = "place stonecroft\napplication-date 2026-04-20\noccupancy one-or-two-family\nwork new-system\nbuilding main\n\
        run { material steel role distribution }\nappliance { powered yes }\njumper { present no }\n";
    let shown = texts(Kind::Detail, steel);
    assert!(shown.contains("No jumper is surely required here."), "{shown}");
    assert!(shown.contains("no rule here forbids it") && !shown.contains("clamp permitted"), "{shown}");
}

#[test]
fn a_path_that_rests_on_the_jumper_alone_is_marked_at_the_jumper() {
    let job = |powered: &str, landing: &str| {
        format!(
            "place tamarrow\napplication-date 2026-06-01\noccupancy commercial\nwork new-system\nbuilding main\n\
             likely-energized yes\nrun {{ material steel role distribution }}\n\
             appliance {{ name boiler powered {powered} }}\njumper {{ present yes landed-on {landing} }}\n"
        )
    };
    let told = |text: &str, part: Part| {
        let scene = scene(text);
        let entry = scene.legend.into_iter().find(|entry| entry.part == part).unwrap();
        let lines: Vec<String> = entry.lines.iter().map(|line| line.words(Reader::default())).collect();
        (lines.join("; "), entry.facts.join("; "))
    };
    let alone = job("no", "added-electrode-alone");
    let (lines, facts) = told(&alone, Part::Wire);
    assert!(lines.contains("Path for fault current"), "{lines}");
    assert!(facts.contains("rests on this jumper alone"), "{facts}");
    assert!(!told(&alone, Part::Appliances).0.contains("Path for fault current"));
    let (lines, facts) = told(&job("yes", "service-enclosure"), Part::Wire);
    assert!(
        !lines.contains("Path for fault current") && !facts.contains("rests on this jumper alone"),
        "{lines} {facts}"
    );
    assert!(told(&job("yes", "service-enclosure"), Part::Appliances).0.contains("Path for fault current"));
}

#[test]
fn piping_that_leads_on_from_an_appliance_is_a_line_of_its_own() {
    let text = "place osier\napplication-date 2026-08-10\noccupancy one-or-two-family\nmanifold no\nmeter outdoor-wall\n\
        run { material steel role distribution start meter end furnace }\n\
        run { material csst jacket plain role distribution start furnace end range }\n\
        appliance { name range powered yes }\nappliance { name furnace powered yes }\n";
    let scene = scene(text);
    let served = |at: usize| {
        let branch: &Branch = &scene.branches[at];
        (branch.run.as_ref().unwrap().heading.clone(), branch.appliance.as_ref().unwrap().label[0].clone())
    };
    assert_eq!(scene.branches.len(), 2);
    assert_eq!(served(0), ("Run 1: steel pipe".to_owned(), "Furnace".to_owned()));
    assert_eq!(served(1), ("Run 2: CSST, plain".to_owned(), "Range".to_owned()));
    let shown = texts(Kind::Picture, text);
    assert!(!shown.contains("run to it: not known") && !shown.contains("Piping up to the runs"), "{shown}");
    // A connector goes on in the line of its appliance.
    let connector =
        text.replace("material csst jacket plain role distribution", "material csst role appliance-connector");
    assert!(super::jobs::scene(&connector).branches[0].tail.is_some());
}

/// One length of tubing from the meter to the range, with the clamp on a fitting of it.
fn one_tubing(more: &str) -> String {
    format!(
        "place hazelmoor\napplication-date 2026-03-02\noccupancy one-or-two-family\nwork new-system\nbuilding main\n\
         meter outdoor-wall\nmanifold no\nrun {{ material csst jacket plain role distribution start meter end range }}\n\
         appliance {{ name range powered no }}\njumper {{ present yes attached-to {more} }}\n"
    )
}

#[test]
fn no_rigid_pipe_is_drawn_that_the_job_does_not_have() {
    let far = one_tubing("csst-fitting position after-first-csst");
    let laid = |kind, text: &str| super::jobs::paper(kind, text, Language::English).board.shapes;
    for kind in [Kind::Picture, Kind::Detail] {
        let steel = |shape: &board::Shape| matches!(shape, board::Shape::Pipe { material: Material::Steel, .. });
        assert!(!laid(kind, &far).iter().any(steel), "{kind:?}");
        // Where the clamp is on pipe there is pipe.
        let pipe = one_tubing("rigid-pipe position after-first-csst");
        assert!(laid(kind, &pipe).iter().any(steel), "{kind:?}");
    }
    let shown = texts(Kind::Detail, &far);
    assert_eq!(shown.matches("not in the job").count(), 4, "three stretches and the note\n{shown}");
    assert!(shown.contains("Fitting behind the first CSST"), "{shown}");
    let unsaid = "place hazelmoor\napplication-date 2026-03-02\noccupancy one-or-two-family\n";
    assert!(!texts(Kind::Detail, unsaid).contains("enters not in the job"));
}

#[test]
fn a_clamp_on_a_fitting_is_drawn_on_a_fitting() {
    let places = |laid: &layout::Laid, wanted: board::Glyph| {
        let of = move |shape: &board::Shape| match shape {
            board::Shape::Glyph { glyph, at } if *glyph == wanted => Some((at.x, at.y)),
            _ => None,
        };
        laid.board.shapes.iter().filter_map(of).collect::<Vec<_>>()
    };
    for more in ["csst-fitting position after-first-csst", "csst-fitting position before-first-csst"] {
        for (kind, drawn) in [(Kind::Picture, 2), (Kind::Detail, 1)] {
            let laid = super::jobs::paper(kind, &one_tubing(more), Language::English);
            let clamps = places(&laid, board::Glyph::Clamp);
            let fittings = places(&laid, board::Glyph::Fitting);
            assert_eq!((clamps.len(), fittings.len()), (1, drawn), "{more}");
            assert!(fittings.contains(&clamps[0]), "{more}: {clamps:?} {fittings:?}");
        }
    }
}

#[test]
fn a_drawing_by_itself_carries_dates_codes_and_rules() {
    let text = samples().into_iter().find(|(name, _)| name == "new-house").unwrap().1;
    for kind in [Kind::Picture, Kind::Detail] {
        let shown = super::jobs::texts(kind, &text);
        let hash = crate::rules::Rules::shipped().hash().to_owned();
        for words in ["application date 2026-04-20", "IRC 2021 by TBR-22-3", "Written by Groundrule", &hash] {
            assert!(shown.contains(words), "`{words}` is not in\n{shown}");
        }
    }
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
    let found = with(&text, |verdict, matter| spots(verdict, matter, Reader::default())).each;
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
