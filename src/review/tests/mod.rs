//! Tests of the checks, of the catalogue of errors and of the form sheets.

mod catalogue;
mod coverage;
mod forms;
mod knowingly;
mod lints;
mod survey;

/// A path of the repository.
fn path(name: &str) -> String {
    format!("{}/{name}", env!("CARGO_MANIFEST_DIR"))
}

/// The text of a file of the repository.
fn text(name: &str) -> String {
    std::fs::read_to_string(path(name)).unwrap_or_else(|problem| panic!("{name}: {problem}"))
}
