//! The way of the gas up to where the runs branch off: the supplier's piping, meter
//! and regulators, the point of delivery, the wall, rigid pipe, the manifold.

use super::bond::{Jumper, Spot};
use super::branches::{Material, Run, capital};
use super::scene::Sight;
use crate::report::facts::{Facts, Known, Term};
use crate::report::screen::words::spoken;

/// What stands along the main line.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Thing {
    Supplier,
    Meter,
    /// Several meters on one frame.
    Rack,
    Regulator,
    /// The point of delivery.
    Delivery,
    /// Buried or in the open, between a meter or tank and the building.
    Yard(Vec<Run>),
    /// The outside wall of the building.
    Wall,
    /// From the point of delivery to where the runs branch off.
    Pipe(Vec<Run>),
}

/// One thing along the main line with its label.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Station {
    pub(super) thing: Thing,
    pub(super) label: Vec<String>,
    pub(super) sight: Sight,
}

/// Where the runs branch off.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Header {
    /// Whether there is a manifold.
    pub(super) manifold: Known<bool>,
    pub(super) label: Vec<String>,
}

/// The runs of the main line and those that branch off.
pub(super) struct Main {
    yard: Vec<Run>,
    pipe: Vec<Run>,
    /// Whether every other run is said to start at the meter or a regulator, or where another ends.
    direct: bool,
}

impl Main {
    /// Whether tubing leads up to where the runs branch off.
    pub(super) fn tubing(&self) -> bool {
        self.pipe.iter().any(|run| run.material.corrugated())
    }
}

/// Runs that end at the manifold, or at the regulator or wall of the building, make the
/// main line; others branch off.
pub(super) fn split(facts: Facts<'_, '_>, runs: (Vec<Run>, bool)) -> (Main, (Vec<Run>, bool)) {
    let (runs, more) = runs;
    let outside = outside(facts);
    let (mut yard, mut pipe, mut side) = (Vec::new(), Vec::new(), Vec::new());
    for run in runs {
        match run.end.as_deref() {
            Some("manifold") => pipe.push(run),
            Some("regulator" | "building" | "gas-entry") if outside => yard.push(run),
            _ => side.push(run),
        }
    }
    let first = |run: &Run| matches!(run.start.as_deref(), Some("meter" | "regulator"));
    let goes_on = |run: &Run| run.start.is_some() && side.iter().any(|other| other != run && other.end == run.start);
    let direct =
        side.iter().any(first) && side.iter().all(|run| first(run) || goes_on(run)) && !facts.yes("manifold").is(true);
    (Main { yard, pipe, direct }, (side, more))
}

/// Whether a line outside leads from the meter or a tank to the building.
fn outside(facts: Facts<'_, '_>) -> bool {
    let remote = facts.term("meter").told().is_some_and(|meter| meter.is("remote"));
    remote || at(&facts.terms("regulator"), "at-building")
}

fn at(regulators: &Known<Vec<Term>>, place: &str) -> bool {
    regulators.told().is_some_and(|all| all.iter().any(|one| one.is(place)))
}

/// Everything along the main line, in the way of the gas, and where the runs branch off.
pub(super) fn stations(facts: Facts<'_, '_>, main: Main, jumper: Option<&Jumper>) -> (Vec<Station>, Header) {
    let reader = facts.reader;
    let regulators = facts.terms("regulator");
    let meter = facts.term("meter");
    let kind = meter
        .told()
        .map(|meter| meter.among(&["outdoor-wall", "indoors", "meter-rack", "remote", "no-meter"]).unwrap_or("other"));
    let mut stations = vec![supplier(facts)];
    let mut add = |thing, label: Vec<String>, sight| stations.push(Station { thing, label, sight });
    let wall = || (Thing::Wall, Vec::new(), Sight::Known);
    if kind == Some("indoors") {
        let (thing, label, sight) = wall();
        add(thing, label, sight);
    }
    let set = at(&regulators, "at-meter");
    match (kind, &meter) {
        (Some("no-meter"), _) => {}
        (None, _) => {
            add(Thing::Meter, vec![reader.say("picture-meter"), reader.say("picture-not-known")], Sight::Unknown);
        }
        (Some(kind), _) => {
            let place = match kind {
                "outdoor-wall" => reader.say("picture-meter-outside"),
                "indoors" => reader.say("picture-meter-inside"),
                "remote" => reader.say("picture-meter-remote"),
                "meter-rack" => reader.say("picture-meter-rack"),
                _ => meter.told().map(|meter| meter.title.clone()).unwrap_or_default(),
            };
            let mut label = vec![reader.say("picture-meter"), place];
            if set {
                label.push(reader.say("picture-meter-with-regulator"));
            }
            add(if kind == "meter-rack" { Thing::Rack } else { Thing::Meter }, label, Sight::of(&meter));
        }
    }
    let delivery = |sure: bool| {
        let mut label = vec![reader.say("picture-delivery")];
        if !sure {
            label.push(reader.say("picture-delivery-not-known"));
        }
        (Thing::Delivery, label, if sure { Sight::Known } else { Sight::Unknown })
    };
    let regulator = |name: String, sight| (Thing::Regulator, vec![reader.say("picture-regulator"), name], sight);
    // The point of delivery is the outlet of the meter; where there is none, of the last regulator ahead of the piping.
    let metered = kind.is_some_and(|kind| kind != "no-meter");
    if metered {
        let (thing, label, sight) = delivery(true);
        add(thing, label, sight);
    } else if kind == Some("no-meter") && set {
        let (thing, label, sight) = regulator(reader.say("picture-regulator-meter"), Sight::Known);
        add(thing, label, sight);
    }
    if outside(facts) && (!main.yard.is_empty() || kind == Some("remote")) {
        let mut label: Vec<String> = vec![reader.say("picture-yard")];
        label.extend(main.yard.iter().flat_map(Run::label));
        let sight = if main.yard.is_empty() { Sight::Unknown } else { Sight::Known };
        if main.yard.is_empty() {
            label.push(reader.say("picture-material-not-known"));
        }
        add(Thing::Yard(main.yard), label, sight);
    }
    if at(&regulators, "at-building") {
        let (thing, label, sight) = regulator(reader.say("picture-regulator-building"), Sight::Known);
        add(thing, label, sight);
    }
    if regulators == Known::Unknown {
        let (thing, label, sight) = regulator(reader.say("picture-not-known"), Sight::Unknown);
        add(thing, label, sight);
    }
    if !metered {
        let (thing, label, sight) = delivery(kind.is_some() && (set || at(&regulators, "at-building")));
        add(thing, label, sight);
    }
    if kind != Some("indoors") {
        let (thing, label, sight) = wall();
        add(thing, label, sight);
    }
    stations.push(pipe(facts, main.pipe, main.direct, jumper));
    if at(&regulators, "at-manifold") {
        let label = vec![reader.say("picture-regulator-line")];
        stations.push(Station { thing: Thing::Regulator, label, sight: Sight::Known });
    }
    (stations, header(facts, jumper))
}

fn supplier(facts: Facts<'_, '_>) -> Station {
    let reader = facts.reader;
    let mut label = vec![reader.say("picture-supplier")];
    label.extend(facts.words("gas-supplier").map(|name| capital(&spoken(&name))));
    Station { thing: Thing::Supplier, label, sight: Sight::Known }
}

fn pipe(facts: Facts<'_, '_>, runs: Vec<Run>, direct: bool, jumper: Option<&Jumper>) -> Station {
    let reader = facts.reader;
    let label: Vec<String> = runs.iter().flat_map(Run::label).collect();
    let clamped = jumper.is_some_and(|jumper| jumper.rigid && matches!(jumper.spot, Spot::Entry | Spot::Before));
    let (label, sight) = if !runs.is_empty() {
        (label, Sight::Known)
    } else if clamped {
        (vec![reader.say("picture-rigid-by-clamp")], Sight::Known)
    } else if direct {
        (Vec::new(), Sight::Known)
    } else {
        (vec![reader.say("picture-piping"), reader.say("picture-not-known")], Sight::Unknown)
    };
    Station { thing: Thing::Pipe(runs), label, sight }
}

fn header(facts: Facts<'_, '_>, jumper: Option<&Jumper>) -> Header {
    let reader = facts.reader;
    let clamped = jumper.is_some_and(|jumper| jumper.spot == Spot::Manifold);
    let manifold = match facts.yes("manifold") {
        // Who clamps to it says that there is one.
        Known::Unknown if clamped => Known::Given(true),
        other => other,
    };
    let label = match &manifold {
        Known::Given(true) => vec![reader.say("picture-manifold")],
        Known::Presumed(true) => vec![reader.say("picture-manifold"), reader.say("picture-presumed")],
        Known::Given(false) | Known::Presumed(false) => Vec::new(),
        Known::Unknown => vec![reader.say("picture-manifold"), reader.say("picture-not-known")],
    };
    Header { manifold, label }
}

impl Station {
    /// Of what its piping is where it begins and ends; nothing where it is no piping.
    pub(super) fn own(&self) -> Option<(Material, Material)> {
        let (Thing::Yard(runs) | Thing::Pipe(runs)) = &self.thing else { return None };
        Some(match (runs.first(), runs.last()) {
            (Some(first), Some(last)) => (first.material, last.material),
            _ if self.sight == Sight::Unknown => (Material::Unknown, Material::Unknown),
            // It has no name where the runs that branch off begin at the meter.
            _ if self.label.is_empty() => (Material::Untold, Material::Untold),
            // The clamp says that there is rigid pipe.
            _ => (Material::Steel, Material::Steel),
        })
    }
}

/// The first tubing on the way to where the runs branch off: which of how many runs it is.
pub(super) fn tubing(stations: &[Station]) -> Option<(usize, usize)> {
    stations.iter().find_map(|station| match &station.thing {
        Thing::Pipe(runs) => Some((runs.iter().position(|run| run.material.corrugated())?, runs.len())),
        _ => None,
    })
}

/// Of what the piping is just before a station and just behind it, as far as the runs of
/// the main line say so. What the supplier's piping is made of is never said.
pub(super) fn piping(stations: &[Station], number: usize) -> (Material, Material) {
    let delivery = stations.iter().position(|station| station.thing == Thing::Delivery).unwrap_or(0);
    let ahead = |from: usize| stations.iter().skip(from).find_map(Station::own).map(|(first, _)| first);
    let back = |to: usize| stations.iter().take(to).rev().find_map(Station::own).map(|(_, last)| last);
    let drawn = |material: Option<Material>| match material {
        None | Some(Material::Unknown) => Material::Untold,
        Some(known) => known,
    };
    let before = if number <= delivery { None } else { back(number).or_else(|| ahead(number)) };
    let after = if number < delivery { None } else { ahead(number + 1).or_else(|| back(number)) };
    (drawn(before), drawn(after))
}
