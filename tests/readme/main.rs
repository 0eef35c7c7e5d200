//! The documents are true: the commands of the README give the output that it
//! shows, the reference of the language agrees with the program, what is named
//! exists, and the sample jobs have the verdicts that are published with them.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::string_slice,
    reason = "a test may panic"
)]

mod console;
mod golden;
mod language;
mod layers;
mod names;

use std::path::PathBuf;
use std::process::{Command, Output};

/// The top of the repository.
fn top() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
}

/// The text of a file of the repository.
fn text(path: &str) -> String {
    std::fs::read_to_string(top().join(path)).unwrap_or_else(|problem| panic!("{path}: {problem}"))
}

/// Runs the program at the top of the repository.
fn groundrule(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_groundrule"))
        .args(arguments)
        .current_dir(top())
        .output()
        .expect("the program runs")
}

/// A block of a document between two fences.
struct Block {
    /// What stands behind the first fence.
    info: String,
    body: String,
    /// The line of the first fence, from 1.
    line: usize,
}

/// The fenced blocks of a document, in order.
fn blocks(document: &str) -> Vec<Block> {
    let mut found = Vec::new();
    let mut open: Option<Block> = None;
    for (number, line) in document.lines().enumerate() {
        match (&mut open, line.strip_prefix("```")) {
            (None, Some(info)) => {
                open = Some(Block { info: info.trim().to_owned(), body: String::new(), line: number + 1 });
            }
            (Some(_), Some("")) => found.extend(open.take()),
            (Some(block), _) => {
                block.body.push_str(line);
                block.body.push('\n');
            }
            (None, None) => {}
        }
    }
    assert!(open.is_none(), "a block is not closed");
    found
}
