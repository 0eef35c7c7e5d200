//! The thin program around the library.

fn main() -> std::process::ExitCode {
    groundrule::run()
}
