//! The jumper: where it is clamped, how it runs, where it lands; or the place where
//! one is required and none is stated.

use super::marks::PATH;
use super::scene::Sight;
use crate::report::facts::{Facts, Known};
use crate::report::speech::Reader;
use crate::verdict::found::State;
use crate::verdict::model::Verdict;
use crate::verdict::value::{Item, Items};

/// Whether there is a jumper.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Presence {
    Stated,
    /// The job does not say whether there is one.
    Unknown,
    /// Required, and the job says that there is none.
    Missing,
}

/// Where along the picture the clamp is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Spot {
    /// On piping of the supplier.
    Supplier,
    /// On the main line, where it enters the building.
    Entry,
    /// On the main line, further on.
    Before,
    Manifold,
    /// On the fitting at the near end of the first tubing.
    Fitting,
    Tubing,
    /// On the fitting at the far end of the first tubing.
    FarFitting,
    /// Behind the first tubing.
    After,
    Appliance,
    Unknown,
}

/// Where the jumper lands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Landing {
    Enclosure,
    Neutral,
    Conductor,
    Electrode,
    Lightning,
    AddedTied,
    AddedAlone,
    Subpanel,
    Intersystem,
    WaterPipe,
    Circuit,
    /// A place that this library does not ship.
    Other,
    Unknown,
}

/// The jumper of a job.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Jumper {
    pub(super) presence: Presence,
    pub(super) spot: Spot,
    /// Whether what it is clamped to, and where along the piping, are both known.
    pub(super) spot_sight: Sight,
    /// Whether it is clamped to rigid pipe or to a fitting of it.
    pub(super) rigid: bool,
    pub(super) spot_label: Vec<String>,
    pub(super) landing: Landing,
    pub(super) landing_label: String,
    /// Size, metal and length, and what of these is not known.
    pub(super) wire: Vec<String>,
    /// The length, as it stands on a drawing with measures.
    pub(super) measure: String,
    /// The way from where the gas enters to the service, where it is known.
    pub(super) way: Option<String>,
    pub(super) spliced: bool,
    pub(super) raceway: bool,
    /// Whether it is there and no appliance is known to have a circuit: a path for fault current is then the jumper.
    pub(super) alone: bool,
}

impl Jumper {
    /// Whether there is one, or may be.
    pub(super) fn stated(&self) -> bool {
        self.presence != Presence::Missing
    }

    /// What the picture calls it.
    pub(super) fn name(&self, reader: Reader) -> String {
        match self.presence {
            Presence::Stated => reader.say("picture-jumper"),
            Presence::Unknown => reader.say("picture-jumper-not-known"),
            Presence::Missing => reader.say("picture-bond-missing"),
        }
    }
}

/// The jumper; nothing where the job says that there is none and none is required.
pub(super) fn jumper(facts: Facts<'_, '_>, verdict: &Verdict<'_>) -> Option<Jumper> {
    let presence = match facts.yes("jumper.present") {
        Known::Given(true) | Known::Presumed(true) => Presence::Stated,
        Known::Given(false) | Known::Presumed(false) if required(verdict) => Presence::Missing,
        Known::Given(false) | Known::Presumed(false) => return None,
        Known::Unknown => Presence::Unknown,
    };
    if presence == Presence::Missing {
        return Some(missing(facts.reader));
    }
    let (spot, spot_sight, rigid, spot_label) = clamped(facts);
    let (landing, landing_label) = landed(facts);
    Some(Jumper {
        presence,
        spot,
        spot_sight,
        rigid,
        spot_label,
        landing,
        landing_label,
        wire: wire(facts),
        measure: facts.words("jumper.length").map_or_else(
            || facts.reader.say("picture-measure-not-known"),
            |length| facts.reader.say_with("picture-measure", &[("length", &length)]),
        ),
        way: facts
            .words("service-distance")
            .map(|length| facts.reader.say_with("picture-measure-way", &[("length", &length)])),
        spliced: facts.yes("jumper.spliced").is(true),
        raceway: facts.yes("jumper.in-raceway").is(true),
        alone: presence == Presence::Stated && !powered(facts),
    })
}

/// Whether an appliance is known to have a circuit or a cord.
fn powered(facts: Facts<'_, '_>) -> bool {
    facts.list("appliance").0.iter().any(|row| row.yes("powered").is(true))
}

fn missing(reader: Reader) -> Jumper {
    Jumper {
        presence: Presence::Missing,
        spot: Spot::Unknown,
        spot_sight: Sight::Unknown,
        rigid: false,
        spot_label: Vec::new(),
        landing: Landing::Unknown,
        landing_label: String::new(),
        wire: vec![reader.say("picture-bond-missing")],
        measure: String::new(),
        way: None,
        spliced: false,
        raceway: false,
        alone: false,
    }
}

/// Whether a jumper is surely required.
pub(super) fn required(verdict: &Verdict<'_>) -> bool {
    asks_for(verdict, "direct-bond")
}

fn asks_for(verdict: &Verdict<'_>, question: &str) -> bool {
    let answer = verdict.answers.iter().find(|answer| &*answer.question.name == question);
    answer.is_some_and(|answer| {
        let rung = answer.value.as_ref().map(|value| &value.items);
        answer.found.state == State::Settled && matches!(rung, Some(Items::One(Item::Rung("required"))))
    })
}

/// What is to be known of a jumper that alone carries fault current, and that nothing is held against.
pub(super) fn rests_on_it(verdict: &Verdict<'_>, jumper: &Jumper, reader: Reader) -> Option<String> {
    let held = verdict.answers.iter().any(|answer| &*answer.question.name == "jumper-size" && answer.found.asked);
    (jumper.alone && !held && asks_for(verdict, PATH)).then(|| reader.say("picture-path-alone"))
}

fn clamped(facts: Facts<'_, '_>) -> (Spot, Sight, bool, Vec<String>) {
    let reader = facts.reader;
    let (on, place) = (facts.term("jumper.attached-to"), facts.term("jumper.position"));
    let kinds = ["supplier-side", "rigid-pipe", "pipe-fitting", "manifold", "csst-fitting", "csst-tubing", "appliance"];
    let kind = on.told().map(|on| on.among(&kinds).unwrap_or("other"));
    let places = ["gas-entry", "before-first-csst", "after-first-csst"];
    let along = match place.told().and_then(|place| place.among(&places)) {
        Some("gas-entry") => Spot::Entry,
        Some("before-first-csst") => Spot::Before,
        Some(_) => Spot::After,
        None => Spot::Unknown,
    };
    let spot = match kind {
        Some("supplier-side") => Spot::Supplier,
        Some("manifold") => Spot::Manifold,
        Some("csst-tubing") => Spot::Tubing,
        Some("csst-fitting") if along == Spot::After => Spot::FarFitting,
        Some("csst-fitting") => Spot::Fitting,
        Some("appliance") => Spot::Appliance,
        _ => along,
    };
    let title = |known: &Known<crate::report::facts::Term>| {
        known.told().map_or_else(|| reader.say("picture-not-known"), |term| term.title.clone())
    };
    let label = vec![
        reader.say_with("picture-clamped-to", &[("what", &title(&on))]),
        reader.say_with("picture-clamped-at", &[("where", &title(&place))]),
    ];
    let sight = if kind.is_none() || place == Known::Unknown { Sight::Unknown } else { Sight::Known };
    (spot, sight, matches!(kind, Some("rigid-pipe" | "pipe-fitting")), label)
}

fn landed(facts: Facts<'_, '_>) -> (Landing, String) {
    let kinds = [
        ("service-enclosure", Landing::Enclosure),
        ("service-neutral", Landing::Neutral),
        ("electrode-conductor", Landing::Conductor),
        ("electrode", Landing::Electrode),
        ("lightning-electrode", Landing::Lightning),
        ("added-electrode-tied", Landing::AddedTied),
        ("added-electrode-alone", Landing::AddedAlone),
        ("subpanel-bar", Landing::Subpanel),
        ("intersystem-terminal", Landing::Intersystem),
        ("water-pipe", Landing::WaterPipe),
        ("appliance-circuit", Landing::Circuit),
    ];
    match facts.term("jumper.landed-on").told() {
        None => (Landing::Unknown, facts.reader.say("picture-landing-not-known")),
        Some(term) => {
            let known = kinds.iter().find(|(name, _)| term.is(name));
            (known.map_or(Landing::Other, |(_, landing)| *landing), term.title.clone())
        }
    }
}

fn wire(facts: Facts<'_, '_>) -> Vec<String> {
    let reader = facts.reader;
    let metal = facts.term("jumper.material").told().map(|metal| metal.title.clone());
    let metal = metal.or_else(|| facts.words("jumper.material"));
    let parts = [
        (facts.words("jumper.size"), reader.say("picture-size")),
        (metal, reader.say("picture-metal")),
        (facts.words("jumper.length"), reader.say("picture-length")),
    ];
    let told: Vec<String> = parts.iter().filter_map(|(value, _)| value.clone()).collect();
    let missing: Vec<String> =
        parts.iter().filter(|(value, _)| value.is_none()).map(|(_, name)| name.clone()).collect();
    let mut lines = Vec::new();
    if !told.is_empty() {
        lines.push(told.join(", "));
    }
    if !missing.is_empty() {
        lines.push(reader.say_with("picture-facts-unknown", &[("names", &missing.join(", "))]));
    }
    if facts.yes("jumper.spliced").is(true) {
        lines.push(reader.say("picture-spliced"));
    }
    if facts.yes("jumper.in-raceway").is(true) {
        lines.push(reader.say("picture-raceway"));
    }
    lines
}
