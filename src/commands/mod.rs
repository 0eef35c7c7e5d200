//! The commands: arguments, files, the clock and the screen.
//!
//! Nothing else in the crate touches any of these. A command is one file with
//! its arguments and its `run`; it refuses to decide anything about the law.

mod compare;
mod counter;
mod editor;
mod effect;
mod files;
mod in_force;
mod jobs;
mod layout;
mod options;
mod proofread;
mod schema;
mod screen;
mod starter;
mod status;
mod trouble;
mod verdict;
mod walk_through;

use clap::{Parser, Subcommand};
use std::process::ExitCode;

/// What the rules in force ask of the electrical bonding of a gas-piping job.
#[derive(Debug, Parser)]
#[command(name = "groundrule", version, max_term_width = 80)]
struct Line {
    #[command(subcommand)]
    command: Command,
}

#[derive(Debug, Subcommand)]
enum Command {
    Verdict(verdict::Verdict),
    Compare(compare::Compare),
    InForce(in_force::InForce),
    WalkThrough(walk_through::WalkThrough),
    Effect(effect::Effect),
    Proofread(proofread::Proofread),
    Layout(layout::Layout),
    Schema(schema::Schema),
    Editor(editor::Editor),
    Counter(counter::Counter),
}

/// Runs the program on the arguments that it was started with.
///
/// Wrong usage ends with status 2.
#[must_use]
pub fn run() -> ExitCode {
    let status = match Line::parse().command {
        Command::Verdict(command) => command.run(),
        Command::Compare(command) => command.run(),
        Command::InForce(command) => command.run(),
        Command::WalkThrough(command) => command.run(),
        Command::Effect(command) => command.run(),
        Command::Proofread(command) => command.run(),
        Command::Layout(command) => command.run(),
        Command::Schema(command) => command.run(),
        Command::Editor(command) => command.run(),
        Command::Counter(command) => command.run(),
    };
    status.into()
}
