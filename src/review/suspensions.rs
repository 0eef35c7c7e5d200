//! GR0604: instruments that suspend each other in a circle.

use crate::law::instrument::InstrumentId;
use crate::law::library::Library;
use crate::syntax::codes;
use crate::syntax::diagnostic::{Diagnostic, Location};
use std::collections::HashMap;

/// An instrument with the line by which another suspends it.
type Suspended = (InstrumentId, Location);

/// The circles of suspensions, each told once, at its first line. What suspends a
/// part of an instrument leaves the rest of it, and its own suspensions, standing.
pub(super) fn circles(library: &Library) -> Vec<Diagnostic> {
    let mut suspends: HashMap<InstrumentId, Vec<Suspended>> = HashMap::new();
    for (own, number) in library.instruments.iter().zip(0u32..) {
        let whole = own.ends.iter().filter(|ends| !ends.repeals && ends.number.is_none());
        let targets: Vec<Suspended> = whole.map(|ends| (ends.target, ends.at)).collect();
        if !targets.is_empty() {
            suspends.insert(InstrumentId(number), targets);
        }
    }
    let mut starts: Vec<InstrumentId> = suspends.keys().copied().collect();
    starts.sort_unstable();
    let mut found = Vec::new();
    for start in starts {
        let Some(circle) = way_back(&suspends, start) else { continue };
        // Each circle is met from each of its instruments: it is told from the first.
        if circle.iter().any(|(id, _)| *id < start) {
            continue;
        }
        let name = |id: InstrumentId| library.instruments.get(id.0 as usize).map_or("", |own| &*own.id);
        let Some((first, rest)) = circle.split_first() else { continue };
        let names: Vec<String> = circle.iter().map(|(id, _)| format!("`{}`", name(*id))).collect();
        let message = format!("`{}` suspends {}", name(start), names.join(", which suspends "));
        let mut told = Diagnostic::new(codes::CIRCLE, first.1, message)
            .help("take one of these suspensions out, or let it repeal");
        for (id, at) in rest {
            told = told.also(*at, format!("this line suspends `{}`", name(*id)));
        }
        found.push(told);
    }
    found
}

/// The shortest way of suspensions from an instrument back to it.
fn way_back(suspends: &HashMap<InstrumentId, Vec<Suspended>>, start: InstrumentId) -> Option<Vec<Suspended>> {
    let mut ways: Vec<Vec<Suspended>> = vec![Vec::new()];
    let mut seen: Vec<InstrumentId> = Vec::new();
    while let Some(way) = (!ways.is_empty()).then(|| ways.remove(0)) {
        let at = way.last().map_or(start, |(id, _)| *id);
        for (next, line) in suspends.get(&at).into_iter().flatten() {
            let mut longer = way.clone();
            longer.push((*next, *line));
            if *next == start {
                return Some(longer);
            }
            if !seen.contains(next) {
                seen.push(*next);
                ways.push(longer);
            }
        }
    }
    None
}
