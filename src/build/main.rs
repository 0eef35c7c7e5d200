//! The build script.
fn main() {}
