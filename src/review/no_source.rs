//! GR5100: a section for which no source is found.

use crate::rules::Rules;
use crate::syntax::codes;
use crate::syntax::diagnostic::Diagnostic;

/// The sections of files beside the built-in library without a source; in the
/// library itself a source is required, and its build stops.
pub(super) fn sections(rules: &Rules) -> Vec<Diagnostic> {
    let mut found = rules.library().without_provenance();
    found.retain(|told| !rules.is_shipped(told.at.file));
    for told in &mut found {
        told.code = codes::NO_SOURCE;
    }
    found
}
