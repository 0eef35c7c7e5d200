//! Cures of jobs before the rules that ship.

use super::*;
use crate::job::{Defaults, read_sheet};
use crate::rules::Rules;
use crate::syntax::diagnostic::FileId;
use crate::syntax::tree::Item;
use crate::syntax::{Kind, parse};
use std::sync::LazyLock;

static RULES: LazyLock<Rules> = LazyLock::new(Rules::shipped);

/// A shop whose jumper lands on a sub-panel, at a place that ruled on that.
const SHOP: &str = "application-date 2024-05-11
occupancy commercial
work new-system
building main
gas-pipe-as-electrode no
energizing-circuit 15 A
gas-supplier lowmoor-gas
concealed no
performer electrician
permits-held gas, electrical, building
run { material csst jacket plain role distribution product other }
appliance { powered yes circuit 15 A }
jumper { present yes size 6 AWG material copper length LENGTH attached-to rigid-pipe position gas-entry landed-on subpanel-bar clamp-listing UL-467 bare-metal yes accessible yes in-raceway yes spliced no state none }
";

fn job(place: &str, length: &str) -> Job {
    let text = format!("place {place}\n{}", SHOP.replace("LENGTH", length));
    let parsed = parse(FileId(0), &text, Kind::Job);
    assert!(parsed.diagnostics.is_empty(), "{:?}", parsed.diagnostics);
    let sheet = parsed.tree.items.iter().find_map(|item| if let Item::Job(sheet) = item { Some(sheet) } else { None });
    read_sheet(sheet.unwrap(), FileId(0), RULES.desk(), &Defaults::default()).unwrap()
}

fn field(matter: &Matter<'_>, path: &str) -> FieldId {
    FieldId(matter.lexicon.fields.iter().position(|field| &*field.path == path).unwrap() as u16)
}

fn term(matter: &Matter<'_>, field: FieldId, name: &str) -> To {
    let choice = matter.lexicon.choice(matter.lexicon.choice_of(field).unwrap()).unwrap();
    To::Value(Given::Term(choice.terms.iter().position(|term| &*term.name == name).unwrap() as u16))
}

/// The facts that each cure changes.
fn changed(matter: &Matter<'_>, cures: &Cures) -> Vec<Vec<String>> {
    let paths =
        |change: &Change| change.paths().iter().map(|path| path.write(&matter.lexicon)).collect::<Vec<_>>().join("+");
    cures.list().iter().map(|cure| cure.changes.iter().map(paths).collect()).collect()
}

#[test]
fn one_choice_that_two_places_accept_which_rule_opposite_ways() {
    let (hazelmoor, cinder) = (job("hazelmoor", "20 ft"), job("cinder-hollow", "20 ft"));
    let matters = [RULES.matter(&hazelmoor).unwrap(), RULES.matter(&cinder).unwrap()];
    let mut scratch = Scratch::default();
    let cures = all_of(&matters, &mut scratch);
    let landed = field(&matters[0], "jumper.landed-on");
    let cure = cures.list().iter().find(|cure| cure.changes.iter().all(|change| change.field == landed)).unwrap();
    let to = &cure.changes[0].to;
    assert!(to.contains(&term(&matters[0], landed, "service-enclosure")), "{to:?}");
    assert!(!to.contains(&term(&matters[0], landed, "subpanel-bar")), "{to:?}");
    // And it does so at both, by the ordinary verdict.
    for matter in &matters {
        let job = cure.made(matter);
        scratch.weigh(&Matter { job: &job, ..*matter });
        assert!(troubles(matter, &scratch.found).iter().all(|trouble| !trouble.heavy()));
    }
}

#[test]
fn a_whole_job_takes_the_fewest_changes() {
    let job = job("hazelmoor", "92 ft");
    let matter = RULES.matter(&job).unwrap();
    let mut scratch = Scratch::default();
    scratch.weigh(&matter);
    let found = scratch.found.clone();
    let heavy = troubles(&matter, &found).iter().filter(|trouble| trouble.heavy()).count();
    assert_eq!(heavy, 2, "too long, and landed where it may not");
    let cures = all_of(&[matter], &mut scratch);
    // No CSST, or tubing with another jacket, and neither question is asked any more.
    let least = cures.list().iter().map(|cure| cure.changes.len()).max();
    assert_eq!(least, Some(1), "{:?}", changed(&matter, &cures));
    for cure in cures.list() {
        assert_eq!(cure.mends.len(), 2);
        assert!(cure.leaves.is_empty());
    }
}

#[test]
fn a_cure_says_what_it_leaves_and_what_it_mends_beside() {
    let job = job("hazelmoor", "92 ft");
    let matter = RULES.matter(&job).unwrap();
    let mut scratch = Scratch::default();
    scratch.weigh(&matter);
    let found = scratch.found.clone();
    for (question, cures) in cures(&matter, &found, &mut scratch) {
        assert!(matches!(cures, Cures::Found(_)), "{cures:?}");
        for cure in cures.list() {
            // Either it leaves the other question as it was or mends it too.
            assert_eq!(cure.leaves.len() + cure.mends.len(), 1, "{question} {cure:?}");
        }
        let shortest = cures.list().iter().map(|cure| cure.changes.len()).collect::<Vec<_>>();
        assert!(shortest.is_sorted(), "{shortest:?}");
    }
}

#[test]
fn what_is_in_order_needs_no_cure() {
    let mut job = job("hazelmoor", "20 ft");
    let matter = RULES.matter(&job).unwrap();
    let landed = field(&matter, "jumper.landed-on");
    let To::Value(enclosure) = term(&matter, landed, "service-enclosure") else { unreachable!() };
    job.values[usize::from(landed.0)] = enclosure;
    let matter = RULES.matter(&job).unwrap();
    let mut scratch = Scratch::default();
    scratch.weigh(&matter);
    let found = scratch.found.clone();
    assert_eq!(cures(&matter, &found, &mut scratch), []);
    assert_eq!(changed(&matter, &all_of(&[matter], &mut scratch)), [Vec::<String>::new()]);
}

#[test]
fn choices_left_open_come_side_by_side() {
    let mut job = job("hazelmoor", "20 ft");
    let run = usize::from(
        RULES.matter(&job).unwrap().lexicon.groups.iter().position(|group| &*group.name == "run").unwrap() as u16,
    );
    let matter = RULES.matter(&job).unwrap();
    let columns: Vec<usize> = ["run.material", "run.jacket"]
        .map(|path| usize::from(matter.lexicon.field(field(&matter, path)).unwrap().column))
        .to_vec();
    for column in columns {
        job.lists[run].entries[0][column] = Given::Unknown;
    }
    let matter = RULES.matter(&job).unwrap();
    let all = ways(&matter, &mut Scratch::default());
    assert!(!all.cut);
    // Every combination of six materials and two jackets is told, some of them twice over where they overlap.
    let told: usize = all
        .ways
        .iter()
        .map(|way| {
            way.choices
                .iter()
                .zip([6, 2])
                .map(|((_, values), all)| values.as_ref().map_or(all, Vec::len))
                .product::<usize>()
        })
        .sum();
    assert!(told >= 12, "{:?}", all.ways.iter().map(|way| &way.choices).collect::<Vec<_>>());
    assert!(all.ways.len() >= 3 && all.ways.len() <= 6, "{}", all.ways.len());
}
