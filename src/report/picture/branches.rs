//! The runs that branch off, and the appliances at their ends.

use super::scene::Sight;
use crate::report::facts::{Facts, Known, Row};
use crate::report::screen::words::spoken;
use crate::report::speech::Reader;

/// At most so many runs, and as many appliances, are drawn each by itself.
pub(super) const EACH: usize = 12;

/// How a run is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub(super) enum Material {
    Steel,
    CsstPlain,
    CsstArc,
    CsstUnknown,
    Copper,
    Brass,
    Aluminum,
    Plastic,
    Connector,
    /// One that this library does not ship.
    Other,
    Unknown,
    /// Piping of which the picture shows that it is there, and not of what.
    Untold,
}

impl Material {
    /// Every one.
    #[cfg(test)]
    pub(super) const ALL: [Material; 12] = [
        Material::Steel,
        Material::CsstPlain,
        Material::CsstArc,
        Material::CsstUnknown,
        Material::Copper,
        Material::Brass,
        Material::Aluminum,
        Material::Plastic,
        Material::Connector,
        Material::Other,
        Material::Unknown,
        Material::Untold,
    ];

    /// The printed label; nothing of its own for a material of other rule files.
    pub(super) fn words(self, reader: Reader) -> String {
        match self {
            Material::Steel => reader.say("picture-line-steel"),
            Material::CsstPlain => reader.say("picture-line-csst-plain"),
            Material::CsstArc => reader.say("picture-line-csst-arc"),
            Material::CsstUnknown => reader.say("picture-line-csst-unknown"),
            Material::Copper => reader.say("picture-line-copper"),
            Material::Brass => reader.say("picture-line-brass"),
            Material::Aluminum => reader.say("picture-line-aluminum"),
            Material::Plastic => reader.say("picture-line-plastic"),
            Material::Connector => reader.say("picture-line-connector"),
            Material::Other => reader.say("picture-line-other"),
            Material::Unknown | Material::Untold => reader.say("picture-line-unknown"),
        }
    }

    /// Whether it is corrugated tubing.
    pub(super) fn corrugated(self) -> bool {
        matches!(self, Material::CsstPlain | Material::CsstArc | Material::CsstUnknown)
    }
}

/// A run, or several of one kind.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Run {
    pub(super) material: Material,
    /// The material in words.
    kind: String,
    /// `Run 2: CSST, plain`
    pub(super) heading: String,
    /// Size, length, product and the like, and what of these is not known.
    pub(super) notes: Vec<String>,
    pub(super) start: Option<String>,
    pub(super) end: Option<String>,
}

impl Run {
    /// The heading and the notes.
    pub(super) fn label(&self) -> Vec<String> {
        std::iter::once(self.heading.clone()).chain(self.notes.iter().cloned()).collect()
    }

    /// Whether it is metal and does not bend, so that a clamp for pipe fits it.
    pub(super) fn rigid(&self) -> bool {
        matches!(self.material, Material::Steel | Material::Copper | Material::Brass | Material::Aluminum)
    }

    fn starts_at_header(&self) -> bool {
        matches!(self.start.as_deref(), None | Some("meter" | "regulator" | "manifold"))
    }
}

/// An appliance, or several of one kind.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Appliance {
    name: Option<String>,
    pub(super) label: Vec<String>,
    pub(super) powered: Known<bool>,
    pub(super) sight: Sight,
}

/// How a run and the appliance beside it are joined.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Joined {
    /// The job says so.
    Said,
    /// It is not said which run serves which appliance.
    Unknown,
    /// The run ends elsewhere, or there is nothing beside it.
    Apart,
}

/// One line from where the runs branch off to an appliance.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Branch {
    pub(super) run: Option<Run>,
    /// Whether it starts where the others do; nothing where that is not known.
    pub(super) from_header: Known<bool>,
    /// A second run on the same line, such as a connector.
    pub(super) tail: Option<Run>,
    pub(super) joined: Joined,
    pub(super) appliance: Option<Appliance>,
}

/// The runs in the order of the job, and whether there may be more.
pub(super) fn runs(facts: Facts<'_, '_>) -> (Vec<Run>, bool) {
    let (rows, more) = facts.list("run");
    (rows.iter().enumerate().map(|(at, row)| run(facts.reader, at + 1, *row)).collect(), more)
}

fn run(reader: Reader, number: usize, row: Row<'_, '_>) -> Run {
    let role = row.term("role");
    let (material, title) = material(&row, role.told().is_some_and(|role| role.is("appliance-connector")));
    let words = title.unwrap_or_else(|| material.words(reader));
    let heading = reader.say_with("picture-run", &[("number", &number.to_string()), ("material", &words)]);
    let mut figures: Vec<String> = Vec::new();
    let mut missing: Vec<String> = Vec::new();
    match row.words("size") {
        Some(size) => figures.push(size),
        None => missing.push(reader.say("picture-size")),
    }
    match row.words("length") {
        Some(length) => figures.push(length),
        None => missing.push(reader.say("picture-length")),
    }
    figures.extend(row.words("product").map(|product| spoken(&product)));
    let mut notes: Vec<String> = Vec::new();
    if !figures.is_empty() {
        notes.push(figures.join(", "));
    }
    let (start, end) = (row.words("start"), row.words("end"));
    match (&start, &end) {
        (Some(start), Some(end)) => {
            notes.push(reader.say_with("picture-from-to", &[("start", &spoken(start)), ("end", &spoken(end))]));
        }
        (Some(start), None) => notes.push(reader.say_with("picture-from", &[("start", &spoken(start))])),
        (None, Some(end)) => notes.push(reader.say_with("picture-to", &[("end", &spoken(end))])),
        (None, None) => {}
    }
    if start.is_none() && end.is_none() {
        missing.push(reader.say("picture-ends"));
    } else if start.is_none() {
        missing.push(reader.say("picture-start"));
    } else if end.is_none() {
        missing.push(reader.say("picture-end"));
    }
    if role == Known::Unknown {
        missing.push(reader.say("picture-role"));
    }
    if !missing.is_empty() {
        notes.push(reader.say_with("picture-facts-unknown", &[("names", &missing.join(", "))]));
    }
    Run { material, kind: words, heading, notes, start, end }
}

/// How it is drawn; with the words of the rules for a material that is not shipped.
fn material(row: &Row<'_, '_>, connector: bool) -> (Material, Option<String>) {
    if connector {
        return (Material::Connector, None);
    }
    let term = row.term("material");
    let Some(known) = term.told() else { return (Material::Unknown, None) };
    let jacket = row.term("jacket");
    let names = ["steel", "csst", "copper", "brass", "aluminum-pipe", "polyethylene"];
    let material = match (known.among(&names), jacket.told()) {
        (Some("steel"), _) => Material::Steel,
        (Some("csst"), None) => Material::CsstUnknown,
        (Some("csst"), Some(jacket)) if jacket.is("arc-resistant") => Material::CsstArc,
        (Some("csst"), Some(_)) => Material::CsstPlain,
        (Some("copper"), _) => Material::Copper,
        (Some("brass"), _) => Material::Brass,
        (Some("aluminum-pipe"), _) => Material::Aluminum,
        (Some("polyethylene"), _) => Material::Plastic,
        _ => return (Material::Other, Some(known.title.clone())),
    };
    (material, None)
}

fn appliances(facts: Facts<'_, '_>) -> (Vec<Appliance>, bool) {
    let reader = facts.reader;
    let (rows, more) = facts.list("appliance");
    let one = |(at, row): (usize, &Row<'_, '_>)| {
        let name = row.words("name");
        let number = (at + 1).to_string();
        let shown = name.as_deref().map_or_else(
            || reader.say_with("picture-appliance", &[("number", &number)]),
            |name| capital(&spoken(name)),
        );
        let powered = row.yes("powered");
        Appliance {
            label: vec![shown, circuit(reader, &powered, row.words("circuit"))],
            name,
            powered,
            sight: Sight::Known,
        }
    };
    (rows.iter().enumerate().map(one).collect(), more)
}

fn circuit(reader: Reader, powered: &Known<bool>, rating: Option<String>) -> String {
    match (powered.told(), rating) {
        (Some(true), Some(rating)) => reader.say_with("picture-circuit-of", &[("rating", &rating)]),
        (Some(true), None) => reader.say("picture-circuit"),
        (Some(false), _) => reader.say("picture-no-circuit"),
        (None, _) => reader.say("picture-circuit-not-known"),
    }
}

/// A text that begins with a capital letter.
pub(super) fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// The lines of the picture: runs with the appliances that they serve, then what
/// cannot be put together, then what the job leaves open. Where the end of the first tubing
/// is to be free, what goes on from there is a line of its own.
pub(super) fn branches(facts: Facts<'_, '_>, runs: (Vec<Run>, bool), free: bool) -> Vec<Branch> {
    let reader = facts.reader;
    let ((runs, more_runs), (appliances, more_appliances)) = (runs, appliances(facts));
    let mut branches = if runs.len() > EACH || appliances.len() > EACH {
        let (runs, appliances) = (by_kind(reader, runs), by_powered(reader, appliances));
        together(runs, appliances, Joined::Apart, free)
    } else {
        together(runs, appliances, Joined::Unknown, free)
    };
    if more_runs || more_appliances {
        let none = branches.is_empty();
        let say = |all: &str, further: &str| if none { reader.say(all) } else { reader.say(further) };
        let run = more_runs.then(|| Run {
            material: Material::Unknown,
            kind: Material::Unknown.words(reader),
            heading: say("picture-runs-not-known", "picture-runs-further"),
            notes: Vec::new(),
            start: None,
            end: None,
        });
        let appliance = more_appliances.then(|| Appliance {
            name: None,
            label: vec![say("picture-appliances-not-known", "picture-appliances-further")],
            powered: Known::Unknown,
            sight: Sight::Unknown,
        });
        branches.push(Branch { run, from_header: Known::Unknown, tail: None, joined: Joined::Unknown, appliance });
    }
    branches
}

fn together(runs: Vec<Run>, mut appliances: Vec<Appliance>, loose: Joined, free: bool) -> Vec<Branch> {
    let others = runs.clone();
    let first = others.iter().find(|run| run.material.corrugated()).filter(|_| free);
    let named: Vec<String> = appliances.iter().filter_map(|appliance| appliance.name.clone()).collect();
    let at_appliance = |run: &Run| run.start.as_ref().is_some_and(|start| named.contains(start));
    // What begins where another run ends goes on in its line, and so does a connector
    // to the same appliance; piping that leads on from an appliance is a line of its own.
    let goes_on = |run: &Run| {
        let connector = run.material == Material::Connector;
        let follows = |other: &Run| {
            let on = other.end == run.start && (connector || !at_appliance(run));
            let ends = on || (connector && other.end == run.end);
            *other != *run
                && Some(other) != first
                && other.material != Material::Connector
                && other.end.is_some()
                && ends
        };
        (connector || !run.starts_at_header()) && others.iter().any(follows)
    };
    let (mut tails, lines): (Vec<Run>, Vec<Run>) = runs.into_iter().partition(goes_on);
    let mut branches: Vec<Branch> = Vec::new();
    for run in lines {
        let tail = tails
            .iter()
            .position(|tail| Some(&run) != first && run.end.is_some() && (tail.start == run.end || tail.end == run.end))
            .map(|at| tails.remove(at));
        let ends: Vec<&str> = tail.iter().chain(std::iter::once(&run)).filter_map(|run| run.end.as_deref()).collect();
        let served = appliances
            .iter()
            .position(|appliance| appliance.name.as_deref().is_some_and(|name| ends.contains(&name)))
            .map(|at| appliances.remove(at));
        let joined = if served.is_some() { Joined::Said } else { Joined::Apart };
        let from_header = match &run.start {
            None => Known::Unknown,
            Some(_) => Known::Given(run.starts_at_header()),
        };
        branches.push(Branch { run: Some(run), from_header, tail, joined, appliance: served });
    }
    for tail in tails {
        let run = Some(tail);
        branches.push(Branch {
            run,
            from_header: Known::Given(false),
            tail: None,
            joined: Joined::Apart,
            appliance: None,
        });
    }
    // Beside a run whose end is not said stands an appliance that no run is said to serve.
    let mut rest = appliances.into_iter();
    for branch in &mut branches {
        let open = branch.appliance.is_none()
            && branch.tail.as_ref().or(branch.run.as_ref()).is_some_and(|run| run.end.is_none());
        if open && let Some(appliance) = rest.next() {
            branch.appliance = Some(appliance);
            branch.joined = loose;
        }
    }
    branches.extend(rest.map(|appliance| Branch {
        run: None,
        from_header: Known::Unknown,
        tail: None,
        joined: loose,
        appliance: Some(appliance),
    }));
    branches
}

/// So many runs that they cannot be drawn each: one line for each kind, with a count.
fn by_kind(reader: Reader, runs: Vec<Run>) -> Vec<Run> {
    let mut kinds: Vec<(Material, String, usize)> = Vec::new();
    for run in runs {
        match kinds.iter_mut().find(|(material, kind, _)| *material == run.material && *kind == run.kind) {
            Some((_, _, count)) => *count += 1,
            None => kinds.push((run.material, run.kind, 1)),
        }
    }
    let of = |(material, kind, count): (Material, String, usize)| Run {
        material,
        heading: reader.say_with("picture-runs-of", &[("count", &count.to_string()), ("material", &kind)]),
        kind,
        notes: vec![reader.say("picture-grouped")],
        start: Some("manifold".to_owned()),
        end: None,
    };
    kinds.into_iter().map(of).collect()
}

fn by_powered(reader: Reader, appliances: Vec<Appliance>) -> Vec<Appliance> {
    let mut kinds: Vec<(Known<bool>, usize)> = Vec::new();
    for appliance in appliances {
        match kinds.iter_mut().find(|(powered, _)| *powered == appliance.powered) {
            Some((_, count)) => *count += 1,
            None => kinds.push((appliance.powered, 1)),
        }
    }
    let of = |(powered, count): (Known<bool>, usize)| {
        let heading = reader.say_with("picture-appliances-of", &[("count", &count.to_string())]);
        Appliance { name: None, label: vec![heading, circuit(reader, &powered, None)], powered, sight: Sight::Known }
    };
    kinds.into_iter().map(of).collect()
}
