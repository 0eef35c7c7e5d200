//! The electrical side: the service or what stands for it, where the jumper may land
//! beside it, and the electrodes.

use super::bond::{Jumper, Landing};
use super::scene::Sight;
use crate::report::facts::{Facts, Known, Term};

/// Where the service of the building is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Service {
    /// In the building.
    Here,
    /// In the building that is joined to this one.
    Beside,
    /// In another building, from which this one is fed.
    Elsewhere,
    /// The building has no electricity.
    None,
    Unknown,
}

/// Something with a place of its own above the ground.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Fixture {
    Service,
    Subpanel,
    Intersystem,
    WaterPipe,
    Circuit,
    Other,
    /// A landing that is not known.
    Unknown,
}

/// A fixture with its label, and whether the jumper lands on it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Item {
    pub(super) fixture: Fixture,
    pub(super) label: Vec<String>,
    pub(super) sight: Sight,
    pub(super) landing: bool,
}

/// What is in the ground.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Ground {
    Rod,
    Concrete,
    Pipe,
    Plate,
    Ring,
    Steel,
    GasPipe,
    Lightning,
    AddedTied,
    AddedAlone,
    Other,
    Unknown,
}

/// An electrode with its label.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Electrode {
    pub(super) ground: Ground,
    pub(super) label: String,
    pub(super) landing: bool,
}

/// The electrical side of a job.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Power {
    pub(super) service: Service,
    /// In this building, from left to right.
    pub(super) items: Vec<Item>,
    /// The service in another building, with the words for that building.
    pub(super) other: Option<(String, Item)>,
    /// Whether the jumper lands on the grounding electrode conductor.
    pub(super) on_conductor: bool,
    pub(super) conductor: String,
    pub(super) electrodes: Vec<Electrode>,
}

impl Power {
    /// Whether any electrode is drawn.
    pub(super) fn has_electrodes(&self) -> bool {
        !self.electrodes.is_empty()
    }
}

/// The building in words.
pub(super) fn building(facts: Facts<'_, '_>) -> String {
    let reader = facts.reader;
    let words = match kind(facts) {
        Some("main") => reader.say("picture-building-main"),
        Some("attached") => reader.say("picture-building-attached"),
        Some("detached-own-service") => reader.say("picture-building-own"),
        Some("detached-feeder") => reader.say("picture-building-feeder"),
        Some("detached-no-power") => reader.say("picture-building-no-power"),
        Some(_) => facts.term("building").told().map(|term| term.title.clone()).unwrap_or_default(),
        None => reader.say("picture-building-not-known"),
    };
    match facts.term("occupancy").told() {
        Some(use_of) => reader.say_with("picture-building-use", &[("building", &words), ("use", &use_of.title)]),
        None => words,
    }
}

fn kind(facts: Facts<'_, '_>) -> Option<&'static str> {
    let kinds = ["main", "attached", "detached-own-service", "detached-feeder", "detached-no-power"];
    facts.term("building").told().map(|term| term.among(&kinds).unwrap_or("other"))
}

/// The electrical side.
pub(super) fn power(facts: Facts<'_, '_>, jumper: Option<&Jumper>) -> Power {
    let reader = facts.reader;
    let landing = jumper.map(|jumper| (jumper.landing, jumper.landing_label.clone()));
    let lands = |on: &[Landing]| landing.as_ref().is_some_and(|(spot, _)| on.contains(spot));
    let at_service = lands(&[Landing::Enclosure, Landing::Neutral]);
    let service = match kind(facts) {
        Some("main" | "detached-own-service") => Service::Here,
        Some("attached") => Service::Beside,
        Some("detached-feeder") => Service::Elsewhere,
        // What the jumper is said to land on is there, whatever is said of the building.
        Some("detached-no-power") if at_service => Service::Here,
        Some("detached-no-power") => Service::None,
        _ => Service::Unknown,
    };
    let words = landing.as_ref().map(|(_, words)| words.clone()).unwrap_or_default();
    let mut items: Vec<Item> = Vec::new();
    let item = |fixture, label, landing| Item { fixture, label, sight: Sight::Known, landing };
    if service == Service::Elsewhere || lands(&[Landing::Subpanel]) {
        items.push(item(Fixture::Subpanel, vec![reader.say("picture-subpanel")], lands(&[Landing::Subpanel])));
    }
    let mut label = vec![reader.say("picture-service")];
    if lands(&[Landing::Neutral]) {
        label.push(reader.say("picture-on-neutral"));
    }
    label.extend(rating(facts));
    let main = item(Fixture::Service, label, at_service);
    let mut other = None;
    match service {
        Service::Here => items.push(main),
        Service::Beside => other = Some((reader.say("picture-other-joined"), main)),
        Service::Elsewhere => other = Some((reader.say("picture-other-building"), main)),
        Service::None => {}
        Service::Unknown => {
            let mut label = main.label;
            label.push(reader.say("picture-service-not-known"));
            items.push(Item { fixture: Fixture::Service, label, sight: Sight::Unknown, landing: at_service });
        }
    }
    for (on, fixture, label) in [
        (Landing::Intersystem, Fixture::Intersystem, reader.say("picture-intersystem")),
        (Landing::WaterPipe, Fixture::WaterPipe, reader.say("picture-water-pipe")),
        (Landing::Circuit, Fixture::Circuit, reader.say("picture-appliance-circuit")),
        (Landing::Other, Fixture::Other, words.clone()),
    ] {
        if lands(&[on]) {
            items.push(item(fixture, vec![label], true));
        }
    }
    let missing = jumper.is_some_and(|jumper| !jumper.stated());
    if lands(&[Landing::Unknown]) && !missing {
        items.push(Item { fixture: Fixture::Unknown, label: vec![words], sight: Sight::Unknown, landing: true });
    }
    let electrodes = electrodes(facts, service, &lands);
    let conductor = reader.say("picture-conductor");
    Power { service, items, other, on_conductor: lands(&[Landing::Conductor]), conductor, electrodes }
}

fn rating(facts: Facts<'_, '_>) -> Option<String> {
    let metal = facts.words("service-conductor-material");
    let size = facts.words("service-conductor").map(|size| match metal {
        Some(metal) => format!("{size} {metal}"),
        None => size,
    });
    let parts: Vec<String> = facts.words("service-rating").into_iter().chain(size).collect();
    (!parts.is_empty()).then(|| parts.join(", "))
}

fn electrodes(facts: Facts<'_, '_>, service: Service, lands: &dyn Fn(&[Landing]) -> bool) -> Vec<Electrode> {
    let reader = facts.reader;
    let kinds = [
        ("rod", Ground::Rod),
        ("concrete-encased", Ground::Concrete),
        ("water-pipe", Ground::Pipe),
        ("plate", Ground::Plate),
        ("ring", Ground::Ring),
        ("building-steel", Ground::Steel),
    ];
    let drawn = |term: &Term| Electrode {
        ground: kinds.iter().find(|(name, _)| term.is(name)).map_or(Ground::Other, |(_, ground)| *ground),
        label: term.title.clone(),
        landing: false,
    };
    let mut all: Vec<Electrode> = match facts.terms("electrodes") {
        Known::Given(terms) | Known::Presumed(terms) => terms.iter().map(drawn).collect(),
        // A building without electricity need not have any.
        Known::Unknown if service == Service::None => Vec::new(),
        Known::Unknown => vec![Electrode {
            ground: Ground::Unknown,
            label: reader.say("picture-electrodes-not-known"),
            landing: false,
        }],
    };
    if lands(&[Landing::Electrode]) {
        let several = all.len() > 1;
        match all.first_mut() {
            Some(first) => {
                first.landing = true;
                if several {
                    first.label = reader.say_with("picture-electrode-which", &[("name", &first.label)]);
                }
            }
            None => all.push(Electrode {
                ground: Ground::Unknown,
                label: reader.say("picture-electrode-kind-not-known"),
                landing: true,
            }),
        }
    }
    if facts.yes("gas-pipe-as-electrode").is(true) {
        let label = reader.say("picture-gas-pipe-electrode");
        all.push(Electrode { ground: Ground::GasPipe, label, landing: false });
    }
    for (on, ground, label) in [
        (Landing::Lightning, Ground::Lightning, reader.say("picture-lightning-electrode")),
        (Landing::AddedTied, Ground::AddedTied, reader.say("picture-added-tied")),
        (Landing::AddedAlone, Ground::AddedAlone, reader.say("picture-added-alone")),
    ] {
        if lands(&[on]) {
            all.insert(0, Electrode { ground, label, landing: true });
        }
    }
    all
}
