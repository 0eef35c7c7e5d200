//! What is there to be drawn: the facts and findings of one job, in words, with
//! nothing assumed. Where it stands on the paper is no matter here.

use super::bond::{self, Jumper, Spot};
use super::branches::{self, Branch};
use super::marks::{self, Line, Mark, Part};
use super::power::{self, Power};
use super::supply::{self, Header, Station};
use crate::report::facts::{Facts, Known};
use crate::report::speech::Reader;
use crate::verdict::Matter;
use crate::verdict::model::Verdict;

/// How sure it is that something is there, and what it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Sight {
    Known,
    Presumed,
    Unknown,
}

impl Sight {
    pub(super) fn of<T>(known: &Known<T>) -> Sight {
        match known {
            Known::Given(_) => Sight::Known,
            Known::Presumed(_) => Sight::Presumed,
            Known::Unknown => Sight::Unknown,
        }
    }
}

/// One line of the legend: an element, what is known of it, how it stands.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Entry {
    pub(super) part: Part,
    pub(super) name: String,
    pub(super) facts: Vec<String>,
    pub(super) lines: Vec<Line>,
}

impl Entry {
    /// The gravest of its findings.
    pub(super) fn mark(&self) -> Mark {
        self.lines.iter().map(|line| line.mark).max().unwrap_or(Mark::Nothing)
    }
}

/// Everything that the picture of one job shows.
#[derive(Clone, Debug)]
pub(super) struct Scene {
    pub(super) reader: Reader,
    pub(super) title: String,
    pub(super) building: String,
    /// Along the main line, in the way of the gas.
    pub(super) stations: Vec<Station>,
    pub(super) header: Header,
    pub(super) branches: Vec<Branch>,
    /// Nothing where the job has none and none is required.
    pub(super) jumper: Option<Jumper>,
    pub(super) power: Power,
    /// Numbered from one.
    pub(super) legend: Vec<Entry>,
}

impl Scene {
    /// What is there of a job.
    pub(super) fn new(verdict: &Verdict<'_>, matter: &Matter<'_>, reader: Reader) -> Scene {
        let facts = Facts { matter, reader };
        let runs = branches::runs(facts);
        let jumper = bond::jumper(facts, verdict);
        let (main, side) = supply::split(facts, runs);
        // The fitting behind tubing is drawn free of what follows, where the clamp is on it.
        let free = jumper.as_ref().is_some_and(|jumper| jumper.spot == Spot::FarFitting) && !main.tubing();
        let (stations, header) = supply::stations(facts, main, jumper.as_ref());
        let branches = branches::branches(facts, side, free);
        let power = power::power(facts, jumper.as_ref());
        let legend = legend(facts, verdict, jumper.as_ref(), &branches, &power);
        let title = match verdict.reference {
            Some(reference) => reader.say_with("picture-title-of", &[("job", reference)]),
            None => reader.say("picture-title"),
        };
        Scene { reader, title, building: power::building(facts), stations, header, branches, jumper, power, legend }
    }

    /// The same with a legend of these elements alone.
    pub(super) fn only(mut self, parts: &[Part]) -> Scene {
        self.legend.retain(|entry| parts.contains(&entry.part));
        self
    }

    /// The number and the mark of an element that has a place in the legend.
    pub(super) fn tag(&self, part: Part) -> Option<(usize, Mark)> {
        let at = self.legend.iter().position(|entry| entry.part == part)?;
        Some((at + 1, self.legend.get(at)?.mark()))
    }
}

fn legend(
    facts: Facts<'_, '_>,
    verdict: &Verdict<'_>,
    jumper: Option<&Jumper>,
    branches: &[Branch],
    power: &Power,
) -> Vec<Entry> {
    let reader = facts.reader;
    let mut entries = Vec::new();
    let mut add = |part, name: String, facts_told: Vec<String>, drawn: bool| {
        let lines = marks::lines(verdict, facts, jumper, part);
        // An element with a finding is always there to carry it.
        if drawn || !lines.is_empty() {
            entries.push(Entry { part, name, facts: facts_told, lines });
        }
    };
    let of = |paths: &[&str]| told(facts, paths);
    let runs = branches.iter().any(|branch| branch.run.is_some());
    add(
        Part::Runs,
        reader.say("picture-runs"),
        of(&["gas", "electrically-continuous", "likely-energized", "energizing-circuit"]),
        runs,
    );
    if let Some(jumper) = jumper {
        let stated = jumper.stated();
        let clamp: &[&str] = &[
            "jumper.attached-to",
            "jumper.position",
            "jumper.pipe-size",
            "jumper.clamp-listing",
            "jumper.bare-metal",
            "jumper.accessible",
        ];
        let wire: &[&str] = &[
            "jumper.size",
            "jumper.material",
            "jumper.length",
            "service-distance",
            "jumper.spliced",
            "jumper.in-raceway",
            "jumper.state",
        ];
        if stated {
            add(Part::Clamp, reader.say("picture-clamp"), of(clamp), true);
        }
        let mut known = if stated { of(wire) } else { Vec::new() };
        known.extend(bond::rests_on_it(verdict, jumper, reader));
        add(Part::Wire, jumper.name(reader), known, true);
        if stated {
            add(Part::Landing, reader.say("picture-landing"), of(&["jumper.landed-on"]), true);
        }
    } else {
        add(Part::Wire, reader.say("picture-no-jumper"), Vec::new(), false);
    }
    let appliances = branches.iter().any(|branch| branch.appliance.is_some());
    add(Part::Appliances, reader.say("picture-appliances"), Vec::new(), appliances);
    let electrodes: &[&str] =
        &["service-rating", "service-conductor", "service-conductor-material", "electrodes", "gas-pipe-as-electrode"];
    add(Part::Electrodes, reader.say("picture-electrodes"), of(electrodes), power.has_electrodes());
    entries
}

/// What is known of these facts, one after the other, and at the end which are not.
pub(super) fn told(facts: Facts<'_, '_>, paths: &[&str]) -> Vec<String> {
    let reader = facts.reader;
    let (mut known, mut missing): (Vec<String>, Vec<String>) = (Vec::new(), Vec::new());
    for path in paths {
        let Some((_, field)) = facts.field(path) else { continue };
        let title = if field.title.is_empty() { field.path.to_string() } else { field.title.to_string() };
        let value = match (facts.term(path), facts.terms(path), facts.words(path)) {
            (Known::Given(term), _, _) if field_is_choice(facts, path) => Some(term.title),
            (_, Known::Given(terms), _) if !terms.is_empty() => {
                Some(terms.into_iter().map(|term| term.title).collect::<Vec<_>>().join("; "))
            }
            (_, _, words) => words,
        };
        match (value, facts.yes(path)) {
            (Some(value), _) => known.push(reader.say_with("picture-fact", &[("name", &title), ("value", &value)])),
            (None, Known::Presumed(yes)) => {
                let value = if yes { reader.say("value-yes") } else { reader.say("value-no") };
                known.push(reader.say_with("picture-fact-presumed", &[("name", &title), ("value", &value)]));
            }
            (None, _) => missing.push(title),
        }
    }
    // One after the other on a line: a list of lines would be longer than the drawing.
    let mut known = if known.is_empty() { Vec::new() } else { vec![known.join(" · ")] };
    if !missing.is_empty() {
        known.push(reader.say_with("picture-facts-unknown", &[("names", &missing.join("; "))]));
    }
    known
}

fn field_is_choice(facts: Facts<'_, '_>, path: &str) -> bool {
    facts.field(path).is_some_and(|(id, _)| facts.matter.lexicon.choice_of(id).is_some())
}
