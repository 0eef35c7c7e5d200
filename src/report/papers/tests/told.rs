//! What papers tell of a jumper: one that is still to be put in, one that nothing requires,
//! one on which the path for fault current rests; and in which words.

use super::{BID, RULES, one, papers, read, samples, sheet};
use crate::report::papers::Paper;
use crate::report::sheet::Sheet;
use crate::report::sheet::jumper::Jumper;
use crate::report::speech::Reader;
use crate::values::Date;
use crate::verdict::Scratch;

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
        let (_, rest) = text.split_once(from).unwrap_or_else(|| panic!("`{from}` is not in\n{text}"));
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
        let all = papers(job, Reader::default());
        let html = &all.iter().find(|(paper, _)| *paper == Paper::Checklist).unwrap().1;
        assert_eq!(html.matches("<p class=\"who\">").count(), signers, "{name}");
    }
}
