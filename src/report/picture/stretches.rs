//! Which stretches of piping the detail drawing shows, what each is called, and whether the
//! job has it: a place for a clamp is told also where there is no pipe yet.

use super::bond::Spot;
use super::branches::{Material, Run};
use super::scene::Scene;
use super::spots::Stretch;
use super::supply::Thing;
use crate::report::facts::Known;

/// The stretch at which a clamp is.
pub(super) fn of(spot: Spot) -> Option<Stretch> {
    match spot {
        Spot::Supplier => Some(Stretch::Supplier),
        Spot::Entry => Some(Stretch::Entry),
        Spot::Before => Some(Stretch::Before),
        Spot::Manifold => Some(Stretch::Manifold),
        Spot::Fitting => Some(Stretch::Fitting),
        Spot::Tubing => Some(Stretch::Tubing),
        Spot::FarFitting => Some(Stretch::FarFitting),
        Spot::After => Some(Stretch::After),
        Spot::Appliance => Some(Stretch::Appliance),
        Spot::Unknown => None,
    }
}

/// Whether a stretch is shown.
pub(super) fn shown(scene: &Scene, stretch: Stretch) -> bool {
    let spot = scene.jumper.as_ref().map(|jumper| jumper.spot);
    let tubing = runs(scene).any(|run| run.material.corrugated() || run.material == Material::Unknown);
    match stretch {
        Stretch::Supplier | Stretch::Entry | Stretch::Before => true,
        Stretch::Manifold => !scene.header.manifold.is(false) || spot == Some(Spot::Manifold),
        // Of the two fittings of tubing the one that bears the clamp is shown, and the near one else.
        Stretch::FarFitting => spot == Some(Spot::FarFitting),
        Stretch::Fitting if spot == Some(Spot::FarFitting) => false,
        Stretch::Fitting | Stretch::Tubing | Stretch::After => {
            let there = matches!(spot, Some(Spot::Fitting | Spot::Tubing | Spot::FarFitting | Spot::After));
            tubing || there
        }
        Stretch::Appliance => {
            scene.branches.iter().any(|branch| branch.appliance.is_some()) || spot == Some(Spot::Appliance)
        }
    }
}

/// What a stretch is called, and what of it is not there or not known.
pub(super) fn name(scene: &Scene, stretch: Stretch) -> Vec<String> {
    let reader = scene.reader;
    let words = match stretch {
        Stretch::Supplier => reader.say("picture-stretch-supplier"),
        Stretch::Entry => reader.say("picture-stretch-entry"),
        Stretch::Before => reader.say("picture-stretch-before"),
        Stretch::Manifold => reader.say("picture-manifold"),
        Stretch::Fitting => reader.say("picture-stretch-fitting"),
        Stretch::Tubing => reader.say("picture-stretch-tubing"),
        Stretch::FarFitting => reader.say("picture-stretch-far-fitting"),
        Stretch::After => reader.say("picture-stretch-after"),
        Stretch::Appliance => reader.say("picture-stretch-appliance"),
    };
    let mut texts = vec![words];
    match (stretch, rigid(scene, stretch)) {
        (Stretch::Manifold, _) if scene.header.manifold == Known::Unknown => {
            texts.push(reader.say("picture-not-known"))
        }
        (Stretch::Entry | Stretch::Before | Stretch::After, Known::Unknown) => {
            texts.push(reader.say("picture-not-known"));
        }
        (Stretch::Entry | Stretch::Before | Stretch::After, Known::Given(false)) => {
            texts.push(reader.say("picture-stretch-not-there"));
        }
        _ => {}
    }
    texts
}

/// Of what the tubing is that the job states first.
pub(super) fn tubing(scene: &Scene) -> Material {
    runs(scene).map(|run| run.material).find(|material| material.corrugated()).unwrap_or(Material::CsstUnknown)
}

/// Whether the job has rigid pipe at a stretch, as far as its runs say where they start and end, or the clamp says so.
pub(super) fn rigid(scene: &Scene, stretch: Stretch) -> Known<bool> {
    let clamped = scene.jumper.as_ref().is_some_and(|jumper| jumper.rigid && of(jumper.spot) == Some(stretch));
    if clamped {
        return Known::Given(true);
    }
    let tubing: Vec<&Run> = runs(scene).filter(|run| run.material.corrugated()).collect();
    let open = runs(scene).any(|run| matches!(run.material, Material::Unknown | Material::Other));
    let pipe = || runs(scene).filter(|run| run.rigid());
    let ahead = |run: &&Run| behind(run, &tubing) == Known::Given(false);
    let sure = match stretch {
        Stretch::After => pipe().any(|run| behind(run, &tubing) == Known::Given(true)),
        // Where all is rigid, what the gas enters by is rigid too.
        Stretch::Entry => pipe().filter(ahead).any(enters) || (!open && tubing.is_empty() && pipe().next().is_some()),
        _ => pipe().any(|run| ahead(&run)),
    };
    let maybe = match stretch {
        Stretch::Entry => pipe().next().is_some(),
        _ => pipe().any(|run| behind(run, &tubing) == Known::Unknown),
    };
    match (sure, maybe || open) {
        (true, _) => Known::Given(true),
        (false, true) => Known::Unknown,
        (false, false) => Known::Given(false),
    }
}

/// Whether a run is the first behind the meter or regulator, or leads up to the others.
fn enters(run: &Run) -> bool {
    let first = matches!(run.start.as_deref(), Some("meter" | "regulator"));
    first || matches!(run.end.as_deref(), Some("manifold" | "building" | "gas-entry"))
}

/// Whether a run follows tubing.
fn behind(run: &Run, tubing: &[&Run]) -> Known<bool> {
    let follows = |start: &str| tubing.iter().any(|run| run.end.as_deref() == Some(start));
    let end_open = tubing.iter().any(|run| run.end.is_none());
    match run.start.as_deref() {
        _ if tubing.is_empty() => Known::Given(false),
        Some("meter" | "regulator") => Known::Given(false),
        Some(start) if follows(start) => Known::Given(true),
        Some("manifold") => Known::Given(false),
        Some(_) if !end_open => Known::Given(false),
        None if run.end.as_deref() == Some("manifold") => Known::Given(false),
        _ => Known::Unknown,
    }
}

/// All runs, the main line's among them.
fn runs(scene: &Scene) -> impl Iterator<Item = &Run> {
    let side = scene.branches.iter().flat_map(|branch| branch.run.iter().chain(&branch.tail));
    let main = scene.stations.iter().flat_map(|station| match &station.thing {
        Thing::Pipe(runs) | Thing::Yard(runs) => runs.iter(),
        _ => [].iter(),
    });
    side.chain(main)
}
