//! Whole-process tests of `groundrule counter`: what it answers over a real connection,
//! how it refuses, how it starts and how it ends.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::string_slice,
    reason = "a test may panic"
)]

mod answers;
mod client;
mod links;
mod openapi;
mod problems;
mod start;

use assert_cmd::Command;
use client::Server;
use std::path::PathBuf;

/// A file of the repository.
fn file(name: &str) -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join(name)
}

/// What a command prints on standard output.
fn printed(arguments: &[&str], input: &str) -> String {
    let output = Command::new(env!("CARGO_BIN_EXE_groundrule")).args(arguments).write_stdin(input).output().unwrap();
    String::from_utf8(output.stdout).unwrap()
}

/// A server on this machine, over the library alone.
fn server() -> Server {
    Server::start(&["--metrics"])
}
