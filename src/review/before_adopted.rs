//! GR5110: an instrument that is in force before it was adopted.

use super::times::latest_start;
use crate::law::library::Library;
use crate::syntax::codes;
use crate::syntax::diagnostic::Diagnostic;

/// The instruments whose time begins before the day on which they were adopted.
pub(super) fn instruments(library: &Library) -> Vec<Diagnostic> {
    let early = library.instruments.iter().filter_map(|own| {
        let (adopted, begins) = (own.adopted?, latest_start(own)?);
        (begins < adopted).then(|| {
            let message = format!("`{}` is in force from {begins} and was adopted on {adopted} only", own.id);
            Diagnostic::new(codes::BEFORE_ADOPTED, own.at, message)
                .help("look whether the two days were exchanged; where it reaches back on purpose, say `knowingly GR5110` and why")
        })
    });
    early.collect()
}
