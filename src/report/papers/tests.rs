//! Every paper of every sample job, in both languages.

mod told;

use super::{Drawn, Paper, write};
use crate::Rules;
use crate::job::{Defaults, model, read_json, read_sheet};
use crate::report::speech::{Language, Reader, Units};
use crate::syntax::diagnostic::FileId;
use crate::syntax::tree::Item;
use crate::syntax::{Kind, parse};
use crate::values::Date;
use crate::verdict::Scratch;
use std::path::Path;
use std::sync::LazyLock;

static RULES: LazyLock<Rules> = LazyLock::new(Rules::shipped);

fn sheet(text: &str) -> model::Job {
    let parsed = parse(FileId(0), text, Kind::Job);
    let Some(Item::Job(sheet)) = parsed.tree.items.first() else { panic!("{text}") };
    read_sheet(sheet, FileId(0), RULES.desk(), &Defaults::default())
        .unwrap_or_else(|wrong| panic!("{text}\n{wrong:#?}"))
}

/// The sample jobs by name.
fn samples() -> Vec<(String, model::Job)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("shared/jobs");
    let mut found: Vec<(String, model::Job)> = std::fs::read_dir(folder)
        .unwrap()
        .map(|entry| {
            let path = entry.unwrap().path();
            let text = std::fs::read_to_string(&path).unwrap();
            let job = if path.extension().is_some_and(|ending| ending == "json") {
                read_json(&text, RULES.desk(), &Defaults::default()).unwrap().remove(0)
            } else {
                sheet(&text)
            };
            (path.file_stem().unwrap().to_str().unwrap().to_owned(), job)
        })
        .collect();
    found.sort_by(|one, other| one.0.cmp(&other.0));
    assert!(found.len() >= 6);
    found
}

fn spanish() -> Reader {
    Reader { language: Language::Spanish, units: Units::Metric }
}

/// The papers on one job, by paper.
fn papers(job: &model::Job, reader: Reader) -> Vec<(Paper, String)> {
    let matter = RULES.matter(job).unwrap();
    let verdict = RULES.weighed(&matter, &mut Scratch::default());
    let spelled = RULES.sheet(&verdict, &matter, Date::parse("2026-11-27").unwrap(), reader, true);
    let drawn = [Drawn { verdict: &verdict, matter: &matter, sheet: &spelled }];
    let of = |paper| write(paper, &drawn, reader).unwrap_or_else(|problem| panic!("{paper:?}: {problem:#}"));
    Paper::ALL.into_iter().map(|paper| (paper, of(paper))).collect()
}

/// One paper on a job sheet.
fn one(text: &str, paper: Paper, reader: Reader) -> String {
    papers(&sheet(text), reader).into_iter().find(|(known, _)| *known == paper).unwrap().1
}

/// What is read of a page: no tags, no style, blanks folded.
fn read(html: &str) -> String {
    let body = html.split("<body>").nth(1).unwrap();
    let mut text = String::new();
    let mut inside = false;
    for letter in body.chars() {
        match letter {
            '<' => inside = true,
            '>' => {
                inside = false;
                text.push(' ');
            }
            other if !inside => text.push(other),
            _ => {}
        }
    }
    let text = text
        .replace("&#x27;", "'")
        .replace("&#x2f;", "/")
        .replace("&quot;", "\"")
        .replace("&lt;", "<")
        .replace("&gt;", ">");
    text.replace("&amp;", "&").split_whitespace().collect::<Vec<_>>().join(" ")
}

/// A house of which the contractor knows only what a bid visit shows.
const BID: &str = "place stonecroft\napplication-date 2026-04-20\noccupancy one-or-two-family\nwork new-system\n\
    building main\nservice-distance 40 ft\nrun { material csst jacket plain role distribution }\n\
    appliance { powered yes }\njumper { present yes }\n";

#[test]
fn every_paper_of_every_sample_carries_what_all_carry() {
    for (name, job) in samples() {
        for (paper, html) in papers(&job, Reader::default()) {
            let text = read(&html);
            let library = RULES.hash();
            for part in [
                &*paper.title(Reader::default()),
                "State of Tamarrow",
                "Dates",
                "Codes",
                "Facts that this paper rests on",
                "Given",
                "Cautions",
                "Smell gas?",
                "the authority having jurisdiction decides",
                "last read on 2026-11-24",
                library,
                "This paper rests on: sha256:",
                concat!("Groundrule ", env!("CARGO_PKG_VERSION")),
            ] {
                let found = text.to_lowercase().contains(&part.to_lowercase());
                assert!(found, "{name}, {paper:?}: `{part}` is not in\n{text}");
            }
            assert!(html.contains("default-src 'none'"), "{paper:?}");
            assert!(!html.contains("papers-"), "{name}, {paper:?}: a key stands for its words");
            let signed = text.contains("Name and signature");
            assert_eq!(signed, !matches!(paper, Paper::Answer | Paper::Materials), "{paper:?}");
        }
    }
}

#[test]
fn every_paper_of_every_sample_is_written_in_spanish() {
    for (name, job) in samples() {
        for (paper, html) in papers(&job, spanish()) {
            let text = read(&html);
            assert!(html.contains("<html lang=\"es\">"));
            for part in [&*paper.title(spanish()), "Advertencias", "¿Huele a gas?", "decide la autoridad competente"] {
                assert!(text.contains(part), "{name}, {paper:?}: `{part}` is not in\n{text}");
            }
            for part in ["Cautions", "(not known)", "Smell gas", "This job"] {
                assert!(!text.contains(part), "{name}, {paper:?}: `{part}`");
            }
        }
    }
}

/// What no paper of ours says of a job, a house or a person, in either language; texts of
/// the rules may use the words of a code.
#[test]
fn no_paper_promises_anything() {
    const NEVER: &[&str] = &[
        "safe",
        "safely",
        "safety",
        "lightning-proof",
        "guarantee",
        "guaranteed",
        "protected",
        "bonded",
        "seguro",
        "segura",
        "seguridad",
        "protegido",
        "protegida",
        "garantiza",
        "garantizado",
        "brand",
    ];
    for file in [include_str!("../speech/en/papers.ftl"), include_str!("../speech/es/papers.ftl")] {
        for line in file.lines().filter(|line| !line.starts_with('#')) {
            let words = line.split_once(" = ").map_or(line, |(_, words)| words).to_lowercase();
            for word in words.split(|letter: char| !letter.is_alphanumeric() && letter != '-') {
                assert!(!NEVER.contains(&word), "{line}");
            }
        }
    }
    for (name, job) in samples() {
        let matter = RULES.matter(&job).unwrap();
        let verdict = RULES.weighed(&matter, &mut Scratch::default());
        let folded = |text: &str| text.to_lowercase().split_whitespace().collect::<Vec<_>>().join(" ");
        let notes: Vec<String> = verdict.notes.iter().map(|note| folded(&note.aside.to_string())).collect();
        for reader in [Reader::default(), spanish()] {
            for (paper, html) in papers(&job, reader) {
                // The reasoned answer quotes what the texts say.
                let never = if paper == Paper::Answer { &["lightning-proof", "guaranteed"][..] } else { NEVER };
                let text = read(&html).to_lowercase();
                // Notes of the rules stay as they are published.
                let text = notes.iter().fold(text, |text, note| text.replace(note, ""));
                for word in text.split(|letter: char| !letter.is_alphanumeric() && letter != '-') {
                    assert!(!never.contains(&word), "{name}, {paper:?}: {word}");
                }
            }
        }
    }
}

#[test]
fn what_is_not_known_is_a_blank() {
    let feet = Reader::default();
    let materials = read(&one(BID, Paper::Materials, feet));
    for part in [
        "This job: ________ (not known)",
        "For pipe of trade size ________ (not known)",
        "Hangs on the landing, which is not known",
        // 40 ft and a tenth more.
        "44 ft 40 ft along the way to the service and 10 % for waste (common practice)",
        "Length along the conductor – the rules ask: at most 75 ft",
    ] {
        assert!(materials.contains(part), "`{part}` is not in\n{materials}");
    }
    let notes = read(&one(BID, Paper::PlanNotes, feet));
    assert!(notes.contains("Clamped to ________ (not known)"), "{notes}");
    assert!(notes.contains("This job: ________ (not known)"), "{notes}");
    assert!(notes.contains("To be settled first"), "{notes}");
    let split = read(&one(BID, Paper::WorkSplit, feet));
    assert!(split.contains("Rating of the service ________ (not known)"), "{split}");
    let letter = read(&one(BID, Paper::OwnersLetter, feet));
    assert!(letter.contains("size ________ (not known)"), "{letter}");
    let without = read(&one(&BID.replace("service-distance 40 ft\n", ""), Paper::Materials, feet));
    assert!(without.contains("________ (not known) the rules ask: at most 75 ft"), "{without}");
}

#[test]
fn lengths_are_bought_with_an_allowance_in_the_readers_units() {
    let samples = samples();
    let job = &samples.iter().find(|(name, _)| name == "new-house").unwrap().1;
    let of = |reader| {
        let all = papers(job, reader);
        read(&all.into_iter().find(|(paper, _)| *paper == Paper::Materials).unwrap().1)
    };
    // 18 ft and a tenth more are 19.8 ft.
    let feet = of(Reader::default());
    assert!(feet.contains("20 ft 18 ft along the conductor and 10 % for waste (common practice)"), "{feet}");
    // 18 ft are 5.4864 m; a tenth more is 6.03504 m.
    let metres = of(spanish());
    assert!(metres.contains("6.1 m 5.49 m (18 ft) a lo largo del conductor y 10 % de desperdicio"), "{metres}");
}

#[test]
fn a_detail_is_drawn_and_ends_with_the_cautions() {
    for (name, job) in samples() {
        let all = papers(&job, Reader::default());
        let html = &all.iter().find(|(paper, _)| *paper == Paper::Detail).unwrap().1;
        assert_eq!(html.matches("<svg").count(), 1, "{name}");
        assert!(html.contains("<figcaption>Not to scale. What is not known"), "{name}");
        assert_eq!(html.matches("Smell gas?").count(), 2, "{name}");
    }
}

#[test]
fn a_job_that_needs_no_bond_buys_none() {
    let steel = "place stonecroft\napplication-date 2026-04-20\noccupancy one-or-two-family\nwork new-system\n\
        building main\nrun { material steel role distribution }\nappliance { powered yes }\njumper { present no }\n";
    let text = read(&one(steel, Paper::Materials, Reader::default()));
    assert!(text.contains("No direct bond is required, so that nothing is to be bought for one."), "{text}");
    assert!(!text.contains("Bonding clamp"), "{text}");
    let notes = read(&one(steel, Paper::PlanNotes, Reader::default()));
    assert!(!notes.contains("The bond as it will be built"), "{notes}");
    let letter = read(&one(steel, Paper::OwnersLetter, Reader::default()));
    assert!(letter.contains("do not ask for a bonding jumper of its own"), "{letter}");
}

#[test]
fn a_notice_says_what_mends() {
    let samples = samples();
    let job = &samples.iter().find(|(name, _)| name == "long-wire").unwrap().1;
    let all = papers(job, Reader::default());
    let notice = read(&all.iter().find(|(paper, _)| *paper == Paper::Notice).unwrap().1);
    for part in [
        "4 things are not done as the rules ask.",
        "1. What the jumper may be clamped to",
        "as told: CSST tubing",
        "IRC 2021 G2411.2.1",
        "Choices that mend it",
        "What it is clamped to",
        "rigid pipe",
        "Looked at again",
        "Re-check",
    ] {
        assert!(notice.contains(part), "`{part}` is not in\n{notice}");
    }
}

#[test]
fn what_is_left_to_the_authority_tells_what_the_job_has() {
    let samples = samples();
    let job = &samples.iter().find(|(name, _)| name == "shop-on-a-feeder").unwrap().1;
    for (paper, html) in papers(job, Reader::default()) {
        let text = read(&html);
        match paper {
            Paper::Notice => assert!(text.contains("as told: subpanel bar") && text.contains("Readings"), "{text}"),
            Paper::PlanNotes => assert!(text.contains("This job: subpanel bar REFER"), "{text}"),
            _ => {}
        }
    }
}

#[test]
fn a_checklist_has_the_stages_that_are_asked_for() {
    for (name, stages) in [("new-house", 1), ("long-wire", 2)] {
        let samples = samples();
        let job = &samples.iter().find(|(known, _)| known == name).unwrap().1;
        let all = papers(job, Reader::default());
        let html = &all.iter().find(|(paper, _)| *paper == Paper::Checklist).unwrap().1;
        assert_eq!(html.matches("<table class=\"checks\">").count(), stages, "{name}");
        let items = html.matches("<td class=\"photo\">").count();
        assert!(items > 12, "{name}: {items}");
        assert_eq!(html.matches("<span class=\"box\">").count(), 2 * items, "{name}");
    }
}

#[test]
fn a_work_split_tells_each_trade() {
    let samples = samples();
    let job = &samples.iter().find(|(known, _)| known == "jacket-not-known").unwrap().1;
    let all = papers(job, Reader::default());
    let text = read(&all.iter().find(|(paper, _)| *paper == Paper::WorkSplit).unwrap().1);
    for part in [
        "licensed electrician may",
        "holder of a limited electrical license hangs on what is not known",
        "licensed gas fitter may not",
        "heating and cooling installer hangs on what is not known named",
        "electrical permit hangs on what is not known held",
        "From the gas trade to whoever installs the bond",
    ] {
        assert!(text.contains(part), "`{part}` is not in\n{text}");
    }
}

#[test]
fn the_answer_has_every_text_that_was_tried() {
    for (name, job) in samples() {
        let matter = RULES.matter(&job).unwrap();
        let verdict = RULES.weighed(&matter, &mut Scratch::default());
        let spelled = RULES.sheet(&verdict, &matter, Date::parse("2026-11-27").unwrap(), Reader::default(), true);
        let drawn = [Drawn { verdict: &verdict, matter: &matter, sheet: &spelled }];
        let text = read(&write(Paper::Answer, &drawn, Reader::default()).unwrap());
        for told in spelled.answers.iter().flat_map(|line| &line.reasons) {
            for part in [&told.cite, &told.text.seen, &told.text.when, &told.text.issuer] {
                let part = part.split_whitespace().collect::<Vec<_>>().join(" ");
                assert!(text.contains(&part), "{name}: `{part}`");
            }
        }
    }
}

#[test]
fn no_text_of_a_job_becomes_a_tag() {
    let text = format!("reference \"</title><script>alert(1)</script>\"\n{BID}");
    for (paper, html) in papers(&sheet(&text), Reader::default()) {
        assert!(!html.contains("<script"), "{paper:?}");
        assert!(html.contains("&lt;script&gt;"), "{paper:?}");
    }
}

#[test]
fn the_style_reaches_for_nothing() {
    for word in ["url(", "@import", "http", "</"] {
        assert!(!super::STYLE.contains(word), "{word}");
    }
}

#[test]
fn names_are_found() {
    for paper in Paper::ALL {
        assert_eq!(Paper::find(paper.name()), Some(paper));
    }
    assert_eq!(Paper::find("Answer"), None);
}
