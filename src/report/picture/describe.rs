//! The picture in sentences, for whoever cannot see it.

use super::branches::{Branch, Joined};
use super::scene::{Entry, Scene};
use crate::report::facts::Known;

/// Everything that the picture shows, in whole sentences.
pub(super) fn describe(scene: &Scene) -> String {
    let reader = scene.reader;
    let mut sentences = vec![scene.building.clone()];
    let along: Vec<String> = scene
        .stations
        .iter()
        .filter(|station| !station.label.is_empty())
        .map(|station| station.label.join(" – "))
        .collect();
    sentences.push(reader.say_with("picture-desc-line", &[("things", &along.join("; "))]));
    if !scene.header.label.is_empty() {
        sentences.push(reader.say_with("picture-desc-header", &[("header", &scene.header.label.join(" – "))]));
    } else if scene.header.manifold == Known::Given(false) {
        sentences.push(reader.say("picture-desc-no-header"));
    }
    sentences.extend(scene.branches.iter().filter_map(|branch| one(scene, branch)));
    if scene.branches.is_empty() {
        sentences.push(reader.say("picture-desc-no-runs"));
    }
    sentences.extend(bond(scene));
    told(&sentences)
}

/// The sentences on the jumper, the electrical side and how each part stands.
pub(super) fn bond(scene: &Scene) -> Vec<String> {
    let reader = scene.reader;
    let mut sentences = Vec::new();
    if let Some(jumper) = &scene.jumper {
        let name = jumper.name(reader);
        if jumper.stated() {
            let told = [jumper.wire.join("; "), jumper.spot_label.join("; ")].join("; ");
            let parts = [("jumper", &*name), ("facts", &*told), ("landing", &*jumper.landing_label)];
            sentences.push(reader.say_with("picture-desc-jumper", &parts));
        } else {
            sentences.push(name);
        }
    }
    let power = &scene.power;
    let items: Vec<String> = power
        .items
        .iter()
        .map(|item| item.label.join(" – "))
        .chain(power.other.iter().map(|(building, item)| format!("{building} – {}", item.label.join(" – "))))
        .collect();
    if !items.is_empty() {
        sentences.push(reader.say_with("picture-desc-power", &[("things", &items.join("; "))]));
    }
    let ground: Vec<&str> = power.electrodes.iter().map(|electrode| &*electrode.label).collect();
    if !ground.is_empty() {
        sentences.push(reader.say_with("picture-desc-ground", &[("things", &ground.join("; "))]));
    }
    sentences.extend(scene.legend.iter().enumerate().map(|(at, entry)| stands(scene, at + 1, entry)));
    sentences
}

/// Sentences one after the other, each with its full stop.
pub(super) fn told(sentences: &[String]) -> String {
    sentences.iter().map(|sentence| ended(sentence)).collect::<Vec<_>>().join(" ")
}

fn one(scene: &Scene, branch: &Branch) -> Option<String> {
    let reader = scene.reader;
    let mut parts: Vec<String> = Vec::new();
    for run in branch.run.iter().chain(&branch.tail) {
        parts.push(run.label().join(", "));
    }
    if let Some(appliance) = &branch.appliance {
        let label = appliance.label.join(", ");
        parts.push(match branch.joined {
            _ if branch.run.is_none() && branch.joined == Joined::Unknown => {
                reader.say_with("picture-desc-unserved", &[("appliance", &label)])
            }
            Joined::Unknown => reader.say_with("picture-desc-beside", &[("appliance", &label)]),
            Joined::Said | Joined::Apart => label,
        });
    }
    (!parts.is_empty()).then(|| parts.join("; "))
}

fn stands(scene: &Scene, number: usize, entry: &Entry) -> String {
    let reader = scene.reader;
    let mark = entry.mark().words(reader);
    let lines: Vec<String> = entry.lines.iter().map(|line| line.words(reader)).collect();
    let number = number.to_string();
    let parts = [("number", &*number), ("name", &*entry.name), ("mark", &*mark)];
    let head = reader.say_with("picture-desc-part", &parts);
    let rest: Vec<String> = entry.facts.iter().cloned().chain(lines).collect();
    if rest.is_empty() { head } else { format!("{head}: {}", rest.join("; ")) }
}

/// A sentence with a full stop and nothing doubled.
fn ended(sentence: &str) -> String {
    let bare = sentence.trim().trim_end_matches('.');
    format!("{bare}.")
}
