//! Whole-process tests of the commands: what stands on standard output and
//! standard error, and the exit status.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::string_slice,
    reason = "a test may panic"
)]

mod boundaries;
mod changes;
mod compare;
mod coverage;
mod effect;
mod files;
mod findings;
mod in_force;
mod in_force_at;
mod json;
mod layout;
mod memory;
mod one_section;
mod papers;
mod picture;
mod place_names;
mod proofread;
mod review;
mod robust;
mod schema;
mod starter;
mod told_in_full;
mod verdict;
mod walk_through;

use assert_cmd::Command;
use std::path::PathBuf;

/// A file of the test data.
fn data(name: &str) -> String {
    let path: PathBuf = [env!("CARGO_MANIFEST_DIR"), "tests", "commands", "data", name].iter().collect();
    path.to_str().unwrap().to_owned()
}

/// What a run of the program left behind.
#[derive(Debug)]
struct Ran {
    out: String,
    err: String,
    status: i32,
}

/// Runs the program.
fn run(arguments: &[&str]) -> Ran {
    run_with(arguments, "")
}

/// Runs the program with a text on standard input.
fn run_with(arguments: &[&str], input: impl Into<Vec<u8>>) -> Ran {
    let mut command = Command::new(env!("CARGO_BIN_EXE_groundrule"));
    let output = command.args(arguments).write_stdin(input).output().unwrap();
    let text = |bytes: Vec<u8>| String::from_utf8(bytes).expect("what is printed is UTF-8");
    Ran { out: text(output.stdout), err: text(output.stderr), status: output.status.code().expect("no signal") }
}

/// A page without the sentences that tell how old rules are today.
fn timeless(page: &str) -> String {
    let mut kept: Vec<&str> = Vec::new();
    let mut within = false;
    for line in page.lines() {
        let age = line.starts_with("The rules of") || line.starts_with("Las normas de");
        within = age || (within && line.starts_with("  "));
        if !within {
            kept.push(line);
        }
    }
    kept.join("\n")
}

/// A folder with these files.
fn folder(files: &[(&str, &str)]) -> tempfile::TempDir {
    let folder = tempfile::tempdir().unwrap();
    for (name, text) in files {
        let path = folder.path().join(name);
        std::fs::create_dir_all(path.parent().unwrap()).unwrap();
        std::fs::write(path, text).unwrap();
    }
    folder
}
