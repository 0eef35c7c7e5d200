//! Every paper of every sample job, in both languages.

use super::{Drawn, Paper, write};
use crate::Rules;
use crate::job::{Defaults, model, read_json, read_sheet};
use crate::report::sheet::Sheet;
use crate::report::sheet::jumper::Jumper;
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

/// The bid with other words in it.
fn bid(changes: &[(&str, &str)]) -> String {
    changes.iter().fold(BID.to_owned(), |text, (from, to)| {
        assert!(text.contains(from), "{from}");
        text.replace(from, to)
    })
}

fn paper(text: &str, paper: Paper) -> String {
    read(&one(text, paper, Reader::default()))
}

#[test]
fn what_the_rules_ask_of_a_jumper_is_told_before_there_is_one() {
    let none = bid(&[("jumper { present yes }", "jumper { present no state none }")]);
    for (kind, parts) in [
        (
            Paper::WorkSplit,
            &[
                "Size asked for at least 6 AWG copper, 4 AWG aluminum [",
                "Length asked for at most 75 ft [",
                "Listing of the clamp UL-467 [",
                "Where it may land only added electrode tied,",
            ][..],
        ),
        (
            Paper::PlanNotes,
            &[
                "Conductor of the bonding jumper: at least 6 AWG copper",
                "measured along the conductor: at most 75 ft.",
                "The clamp is marked with each of these listings: UL-467.",
                "The clamp sits on clean, bare metal",
                "This job: ________ (not known)",
            ],
        ),
        (Paper::Checklist, &["Conductor of the bonding jumper: at least 6 AWG copper", "at most 75 ft."]),
        (Paper::Materials, &["Length along the conductor – the rules ask: at most 75 ft", "the rules ask: UL-467"]),
    ] {
        let text = paper(&none, kind);
        for part in parts {
            assert!(text.contains(part), "{kind:?}: `{part}` is not in\n{text}");
        }
        assert!(!text.contains("put in all the same"), "{kind:?}: {text}");
        assert!(!text.contains("no rule known here speaks of it"), "{kind:?}: {text}");
    }
}

fn spelled(text: &str) -> Sheet {
    let job = sheet(text);
    let matter = RULES.matter(&job).unwrap();
    let verdict = RULES.weighed(&matter, &mut Scratch::default());
    RULES.sheet(&verdict, &matter, Date::parse("2026-11-27").unwrap(), Reader::default(), false)
}

#[test]
fn what_is_not_asked_is_led_by_how_the_job_stands_with_a_jumper() {
    let none = |text: &str| text.replace("jumper { present yes }", "jumper { present no }");
    let unknown = UNASKED.replace("material steel", "material csst");
    let absent = |text: &str| format!("{}jumper {{ present no }}\n", text.split("jumper {").next().unwrap());
    for (text, jumper, lead) in [
        (none(BID), Jumper::ToCome, "Of the jumper that is still to be put in"),
        (absent(&unknown), Jumper::Perhaps, "Of a jumper, if a direct bond turns out to be required"),
        (UNASKED.to_owned(), Jumper::Unasked, "No rule requires the jumper that is there; of one the rules say"),
        (absent(UNASKED), Jumper::Otherwise, "Only for a jumper that is put in all the same"),
    ] {
        let told = spelled(&text);
        assert_eq!((told.jumper, &*told.idle_lead), (jumper, lead), "{text}");
        assert!(told.idle.len() > 8, "{:?}", told.idle);
    }
    let told = spelled(UNASKED);
    for part in [
        "Size of the bonding jumper (at least 10 AWG copper, 8 AWG aluminum; the job has 14 AWG copper)",
        "Surface under the clamp (bare metal; the job says: Clamped to bare metal: no)",
    ] {
        assert!(told.idle.iter().any(|idle| idle == part), "`{part}` is not in {:#?}", told.idle);
    }
    assert_eq!(told.against.len(), 1, "{:?}", told.against);
    let asked = spelled(BID);
    assert_eq!((asked.jumper, asked.idle.len(), asked.against.len()), (Jumper::Otherwise, 0, 0));
}

/// Steel pipe with a jumper that no rule requires.
const UNASKED: &str = "place tamarrow\napplication-date 2026-03-02\noccupancy one-or-two-family\n\
    work new-system\nbuilding main\ngas-supplier lowmoor-gas\nelectrically-continuous yes\n\
    gas-pipe-as-electrode no\nelectrodes rod\nconcealed no\nperformer electrician\npermits-held gas\nenergizing-circuit 60 A\n\
    run { material steel role distribution }\nappliance { name range powered yes circuit 60 A }\n\
    jumper { present yes size 14 AWG material copper length 75 ft attached-to supplier-side \
    position gas-entry landed-on subpanel-bar clamp-listing none bare-metal no accessible no spliced no \
    state none in-raceway no }\n";

#[test]
fn a_jumper_that_nothing_requires_stands_beside_what_the_rules_say_of_one() {
    let notes = paper(UNASKED, Paper::PlanNotes);
    for part in [
        "No rule requires the jumper that is there; of one the rules say",
        "Conductor of the bonding jumper: at least 10 AWG copper, 8 AWG aluminum.",
        "This job: 14 AWG copper",
        "Against what is advised: What the jumper may be clamped to; the job has supplier side: No clamp is put on piping",
    ] {
        assert!(notes.contains(part), "`{part}` is not in\n{notes}");
    }
    let list = paper(UNASKED, Paper::Checklist);
    assert!(list.contains("No rule requires the jumper that is there"), "{list}");
    assert!(list.contains("Clamped to bare metal: no"), "{list}");
    let split = paper(UNASKED, Paper::WorkSplit);
    assert!(split.contains("Size asked for not asked of this job; of a jumper that is put in all the same: at least"));
    for kind in Paper::ALL {
        let text = paper(UNASKED, kind);
        assert!(text.contains("a clamp on the corrugated tubing can puncture it"), "{kind:?}");
        assert!(!text.contains("OPEN"), "{kind:?}: {text}");
    }
}

#[test]
fn a_path_that_rests_on_the_jumper_alone_is_told_so() {
    let lone = UNASKED
        .replace("powered yes circuit 60 A", "powered no")
        .replace("building main", "building main\nlikely-energized yes")
        .replace("subpanel-bar", "added-electrode-alone");
    for kind in [Paper::PlanNotes, Paper::Answer] {
        let text = paper(&lone, kind);
        assert!(text.contains("the path rests on the jumper alone"), "{kind:?}: {text}");
        assert!(text.contains("earth is no path for fault current (NEC 250.4(A)(5), from memory"), "{kind:?}");
        assert!(!paper(UNASKED, kind).contains("rests on the jumper"), "{kind:?}");
    }
    let materials = paper(&lone, Paper::Materials);
    assert!(materials.contains("the path for fault current rests on this jumper alone"), "{materials}");
}

#[test]
fn no_wire_is_bought_beyond_the_limit() {
    let far = bid(&[("service-distance 40 ft", "service-distance 92 ft")]);
    let text = paper(&far, Paper::Materials);
    assert!(text.contains("the way to the service is 92 ft, and the rules ask: at most 75 ft."), "{text}");
    assert!(!text.contains("102 ft"), "{text}");
    // Ninety feet to the service say nothing of a rod beside the clamp.
    let rod = far.replace("present yes", "present yes landed-on added-electrode-tied");
    let text = paper(&rod, Paper::Materials);
    assert!(!text.contains("92 ft to") && !text.contains("the way to the service"), "{text}");
    assert!(text.contains("________ (not known) the rules ask: at most 75 ft"), "{text}");
    assert!(text.contains("With a second clamp for the tie"), "{text}");
    assert!(text.contains("Connector that joins the tie to the electrode system"), "{text}");
}

#[test]
fn what_the_job_itself_says_is_bought_and_drawn() {
    let raceway = bid(&[("present yes", "present yes state none size 4 AWG in-raceway yes spliced no")]);
    let text = paper(&raceway, Paper::Materials);
    assert!(text.contains("Raceway or armor") && !text.contains("Straps or staples"), "{text}");
    let notes = paper(&raceway, Paper::PlanNotes);
    assert!(notes.contains("In raceway or armor yes") && notes.contains("Spliced no"), "{notes}");
}

#[test]
fn a_plan_speaks_of_tubing_only_where_there_may_be_some() {
    let tubing = "The gas tubing of this job may be used here.";
    assert!(!paper(UNASKED, Paper::PlanNotes).contains(tubing));
    assert!(paper(BID, Paper::PlanNotes).contains(tubing));
    let open = UNASKED.replace("material steel role", "role");
    assert!(paper(&open, Paper::PlanNotes).contains(tubing));
}

#[test]
fn plain_words_have_no_conditions_of_rule_files() {
    for kind in [Paper::OwnersLetter, Paper::PlanNotes, Paper::Checklist, Paper::WorkSplit, Paper::Materials] {
        let text = paper(UNASKED, kind);
        assert!(!text.contains("asks only where") && !text.contains("material is csst"), "{kind:?}: {text}");
    }
    let letter = paper(UNASKED, Paper::OwnersLetter);
    assert!(letter.contains("path for fault current. [IRC 2021 G2411.2]"), "{letter}");
}

/// Long wire, no gas permit: what other piping would mend stands once.
#[test]
fn a_notice_names_facts_by_title_and_repipes_no_house_for_a_permit() {
    let job = bid(&[
        (
            "present yes",
            "present yes size 6 AWG material copper length 92 ft attached-to rigid-pipe landed-on service-enclosure \
             clamp-listing UL-467 bare-metal no accessible yes spliced no in-raceway no state none",
        ),
        ("building main", "building main\npermits-held electrical\nperformer electrician"),
    ]);
    let html = one(&job, Paper::Notice, Reader::default());
    let text = read(&html);
    let part = |from: &str, to: &str| {
        let rest = text.split(from).nth(1).unwrap_or_else(|| panic!("`{from}` is not in\n{text}"));
        rest.split(to).next().unwrap().to_owned()
    };
    let paint = part("Surface under the clamp", "Looked at again");
    assert!(paint.contains("as told: Clamped to bare metal: no"), "{paint}");
    assert!(!paint.contains("run.") && !paint.contains("run["), "{paint}");
    let length = part("Length of the bonding jumper", "Looked at again");
    assert!(length.contains("Jacket"), "what other piping spares stands where it bears: {length}");
    assert!(!text.contains("jumper.present:"), "{text}");
    // All choices lie in one block, so that none is apart from the next.
    assert_eq!(
        html.matches("<dt>Choices that mend it</dt>").count(),
        html.matches("<article class=\"correction\"").count()
    );
    assert!(!html.contains("<dt></dt>"), "{html}");
}

#[test]
fn where_one_visit_does_one_inspector_signs() {
    let samples = samples();
    for (name, signers) in [("new-house", 1), ("long-wire", 2)] {
        let job = &samples.iter().find(|(known, _)| known == name).unwrap().1;
        let all = papers(job, Reader::default(), true);
        let html = &all.iter().find(|(paper, _)| *paper == Paper::Checklist).unwrap().1;
        assert_eq!(html.matches("<p class=\"who\">").count(), signers, "{name}");
    }
}
