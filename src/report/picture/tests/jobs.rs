//! Jobs for the tests, and what is drawn of them.

use crate::job::model::Job;
use crate::job::{Defaults, read_json, read_sheet};
use crate::report::picture::scene::Scene;
use crate::report::picture::{Kind, drawn, laid, sheet};
use crate::report::speech::{Language, Reader};
use crate::rules::Rules;
use crate::syntax::diagnostic::FileId;
use crate::syntax::tree::Item;
use crate::syntax::{Kind as Form, parse_bytes};
use crate::values::Date;
use crate::verdict::model::Verdict;
use crate::verdict::{Matter, Scratch};
use serde_json::{Value, json};
use std::path::Path;
use std::sync::LazyLock;

static RULES: LazyLock<Rules> = LazyLock::new(Rules::shipped);

fn reader(language: Language) -> Reader {
    Reader { language, ..Reader::default() }
}

fn read(text: &str) -> Job {
    if text.trim_start().starts_with('{') {
        return read_json(text, RULES.desk(), &Defaults::default()).unwrap().remove(0);
    }
    let parsed = parse_bytes(FileId::default(), text.as_bytes(), Form::Job);
    let sheet = parsed.tree.items.iter().find_map(|item| match item {
        Item::Job(sheet) => Some(sheet),
        _ => None,
    });
    read_sheet(sheet.unwrap(), FileId::default(), RULES.desk(), &Defaults::default()).unwrap()
}

/// What is made of a job, a sheet or JSON.
pub(super) fn with<T>(text: &str, make: impl FnOnce(&Verdict<'_>, &Matter<'_>) -> T) -> T {
    let job = read(text);
    let matter = RULES.matter(&job).unwrap();
    let verdict = RULES.weighed(&matter, &mut Scratch::default());
    make(&verdict, &matter)
}

pub(super) fn scene(text: &str) -> Scene {
    with(text, |verdict, matter| Scene::new(verdict, matter, Reader::default()))
}

pub(super) fn svg(kind: Kind, text: &str, language: Language) -> String {
    with(text, |verdict, matter| drawn(kind, verdict, matter, reader(language), None))
}

/// What stands where, with a head and a foot.
pub(super) fn paper(kind: Kind, text: &str, language: Language) -> super::super::layout::Laid {
    let frame = (vec!["Town of Stonecroft, State of Tamarrow".to_owned()], vec!["The authority decides.".to_owned()]);
    with(text, |verdict, matter| {
        let scene = Scene::new(verdict, matter, reader(language));
        laid(kind, scene, verdict, matter, (&frame.0, &frame.1), true).0
    })
}

/// All texts of a drawing by itself, apart by blanks.
pub(super) fn texts(kind: Kind, text: &str) -> String {
    let today = Date::parse("2026-11-27").unwrap();
    texts_of(&with(text, |verdict, matter| sheet(kind, verdict, matter, Reader::default(), &RULES, today)))
}

/// All texts of an SVG, apart by blanks.
pub(super) fn texts_of(svg: &str) -> String {
    let document = roxmltree::Document::parse(svg).unwrap();
    let texts = document.descendants().filter(|node| node.has_tag_name("text"));
    texts.filter_map(|node| node.text()).collect::<Vec<_>>().join(" ")
}

/// The sample jobs by name.
pub(super) fn samples() -> Vec<(String, String)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("shared/jobs");
    let mut found: Vec<(String, String)> = std::fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .map(|path| (path.file_stem().unwrap().to_str().unwrap().to_owned(), std::fs::read_to_string(&path).unwrap()))
        .collect();
    found.sort();
    assert_eq!(found.len(), 6);
    found
}

/// Choices taken from numbers, so that fewer numbers make a plainer job.
struct Taken<'a>(std::slice::Iter<'a, u8>);

impl Taken<'_> {
    fn of<'n>(&mut self, names: &[&'n str]) -> Option<&'n str> {
        let number = usize::from(*self.0.next().unwrap_or(&0)) % (names.len() + 1);
        number.checked_sub(1).map(|at| names[at])
    }

    fn set(&mut self, into: &mut Value, name: &str, names: &[&str]) {
        if let Some(value) = self.of(names) {
            into[name] = match value {
                "true" => json!(true),
                "false" => json!(false),
                other => json!(other),
            };
        }
    }

    fn several(&mut self, into: &mut Value, name: &str, names: &[&str]) {
        if self.of(&["yes", "yes"]).is_some() {
            let some: Vec<&str> = names.iter().copied().filter(|_| self.of(&["yes"]).is_some()).collect();
            into[name] = json!(some);
        }
    }
}

const YES_NO: [&str; 2] = ["true", "false"];
const PLACES: [&str; 5] = ["stonecroft", "brackwell", "quill-city", "fell-bridge", "merrin"];
const ENDS: [&str; 8] =
    ["meter", "manifold", "regulator", "furnace", "a-very-long-name-of-a-shut-off-valve", "range", "dryer", "tee"];

/// A job of these numbers.
pub(super) fn of(numbers: &[u8]) -> String {
    let mut taken = Taken(numbers.iter());
    let mut job = json!({ "schema": "groundrule/job/1", "place": taken.of(&PLACES).unwrap_or("tamarrow") });
    taken.set(&mut job, "application-date", &["2026-03-02", "2014-05-05", "2019-01-07"]);
    taken.set(&mut job, "reference", &["A-1", "An order with a name of a good many words, and with <marks> & signs"]);
    let buildings = ["main", "attached", "detached-own-service", "detached-feeder", "detached-no-power"];
    taken.set(&mut job, "building", &buildings);
    taken.set(&mut job, "occupancy", &["one-or-two-family", "commercial", "manufactured-home"]);
    taken.set(&mut job, "meter", &["outdoor-wall", "indoors", "meter-rack", "remote", "no-meter"]);
    taken.several(&mut job, "regulator", &["at-meter", "at-building", "at-manifold", "at-appliance"]);
    taken.set(&mut job, "manifold", &YES_NO);
    taken.set(&mut job, "gas-pipe-as-electrode", &YES_NO);
    let electrodes = ["rod", "concrete-encased", "water-pipe", "plate", "ring", "building-steel"];
    taken.several(&mut job, "electrodes", &electrodes);
    taken.set(&mut job, "service-rating", &["200 A"]);
    taken.set(&mut job, "service-distance", &["15 ft", "40 m"]);
    job["jumper"] = jumper(&mut taken);
    for (list, entry) in [("run", run as fn(&mut Taken<'_>) -> Value), ("appliance", appliance)] {
        if let Some(number) = taken.of(&["0", "1", "2", "3", "5", "14"]) {
            let number: usize = number.parse().unwrap();
            let mut entries: Vec<Value> = (0..number).map(|_| entry(&mut taken)).collect();
            if taken.of(&["more"]).is_some() {
                entries.push(Value::Null);
            }
            job[list] = Value::Array(entries);
        }
    }
    job.to_string()
}

fn jumper(taken: &mut Taken<'_>) -> Value {
    let mut jumper = json!({});
    taken.set(&mut jumper, "present", &["true", "true", "true", "false"]);
    let on = ["supplier-side", "rigid-pipe", "pipe-fitting", "manifold", "csst-fitting", "csst-tubing", "appliance"];
    taken.set(&mut jumper, "attached-to", &on);
    taken.set(&mut jumper, "position", &["gas-entry", "before-first-csst", "after-first-csst"]);
    let landings = [
        "service-enclosure",
        "service-neutral",
        "electrode-conductor",
        "electrode",
        "lightning-electrode",
        "added-electrode-tied",
        "added-electrode-alone",
        "subpanel-bar",
        "intersystem-terminal",
        "water-pipe",
        "appliance-circuit",
    ];
    taken.set(&mut jumper, "landed-on", &landings);
    taken.set(&mut jumper, "size", &["6 AWG", "16 mm2"]);
    taken.set(&mut jumper, "material", &["copper", "copper-clad-aluminum"]);
    taken.set(&mut jumper, "length", &["12 ft", "30 m"]);
    taken.set(&mut jumper, "spliced", &YES_NO);
    taken.set(&mut jumper, "in-raceway", &YES_NO);
    jumper
}

fn run(taken: &mut Taken<'_>) -> Value {
    let mut run = json!({});
    let materials = ["steel", "csst", "csst", "copper", "brass", "aluminum-pipe", "polyethylene"];
    taken.set(&mut run, "material", &materials);
    taken.set(&mut run, "jacket", &["plain", "arc-resistant"]);
    taken.set(&mut run, "role", &["distribution", "distribution", "appliance-connector"]);
    taken.set(&mut run, "size", &["0.75 inch", "1.25 inch"]);
    taken.set(&mut run, "length", &["60 ft", "18 m"]);
    taken.set(&mut run, "start", &ENDS);
    taken.set(&mut run, "end", &ENDS);
    run
}

fn appliance(taken: &mut Taken<'_>) -> Value {
    let mut appliance = json!({});
    taken.set(&mut appliance, "name", &["furnace", "range", "dryer", "tankless-water-heater-of-the-upper-floor"]);
    taken.set(&mut appliance, "powered", &YES_NO);
    taken.set(&mut appliance, "circuit", &["15 A"]);
    appliance
}
