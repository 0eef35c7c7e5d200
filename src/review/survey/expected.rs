//! The texts of given files of which a job must be found: sections and amendments
//! that demand, refer or remark something, and exceptions and readings.

use crate::law::instrument::{Instrument, Target};
use crate::law::text::{DemandedKind, Section};
use crate::review::story::edition_name;
use crate::rules::Rules;
use crate::syntax::diagnostic::{FileId, Location};
use crate::syntax::tree::Action;

/// One of them.
pub(super) struct Expected {
    /// Where its section stands.
    pub(super) at: Location,
    pub(super) name: String,
    /// What is amended, in words.
    pub(super) amends: Option<String>,
    /// Whether it takes something out of another text, and need not bind itself.
    pub(super) excepts: bool,
}

/// All of them in the instruments of given files that are law.
pub(super) fn texts(rules: &Rules, own: &dyn Fn(FileId) -> bool) -> Vec<Expected> {
    let library = rules.library();
    let mut found = Vec::new();
    for instrument in library.instruments.iter().filter(|one| one.is_law() && own(one.at.file)) {
        for (number, section) in &instrument.sections {
            if says(section) {
                let name = format!("{} {number}", instrument.id);
                found.push(Expected { at: section.at, name, amends: None, excepts: false });
            }
        }
        for amend in &instrument.amends {
            for patch in &amend.patches {
                let excepts = matches!(patch.action, Action::Except | Action::Reads);
                if patch.action == Action::Delete || !(excepts || says(&patch.section)) {
                    continue;
                }
                found.push(Expected {
                    at: patch.section.at,
                    name: format!("{} {}", instrument.id, patch.number),
                    amends: Some(target(rules, &amend.target)),
                    excepts,
                });
            }
        }
    }
    found
}

fn target(rules: &Rules, target: &Target) -> String {
    let library = rules.library();
    match target {
        Target::Edition(id) => edition_name(library, *id),
        Target::Any { code, .. } => {
            library.codes.codes.get(*code).map(|code| format!("any edition of {}", code.name)).unwrap_or_default()
        }
        Target::Instrument(id) => {
            library.instruments.get(id.0 as usize).map(|own: &Instrument| own.id.to_string()).unwrap_or_default()
        }
    }
}

/// Whether a section says something that shows in verdicts by itself. What makes
/// instructions binding shows in theirs.
fn says(section: &Section) -> bool {
    let speaks = |kind: &DemandedKind| !matches!(kind, DemandedKind::Bind(_));
    !section.definition && section.table.is_none() && section.demands.iter().any(|demand| speaks(&demand.kind))
}
