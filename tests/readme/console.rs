//! The README at work, and the contributor's guide: files are saved, commands run,
//! and their output is what is shown. `[...]` in it stands for any text.

use crate::{blocks, text, top};
use std::path::Path;
use std::process::Command;

/// Where text of any length may stand.
const ANY: &str = "[...]";

/// One command and the output that is shown below it.
struct Step {
    command: String,
    shown: String,
    line: usize,
}

#[test]
fn commands_give_the_output_that_is_shown() {
    let home = tempfile::tempdir().unwrap();
    let folder = home.path().join("hemlock");
    std::fs::create_dir(&folder).unwrap();
    let (mut files, mut ran) = (0, 0);
    let pages = ["README.md", "DEVELOPERS.md"];
    for (page, block) in pages.iter().flat_map(|page| blocks(&text(page)).into_iter().map(move |block| (page, block))) {
        match block.info.split_once(' ') {
            Some((_, name)) => {
                std::fs::write(folder.join(name), &block.body).unwrap();
                files += 1;
            }
            None if block.info == "console" => {
                for step in steps(&block.body, block.line) {
                    let given = run(&step.command, home.path());
                    if let Err(why) = fits(&step.shown, &given) {
                        panic!("{page} line {}: `{}`: {why}\nit gives\n{given}", step.line, step.command);
                    }
                    ran += 1;
                }
            }
            None => assert!(["sh", "rule", "text"].contains(&&*block.info), "{page} line {}", block.line),
        }
    }
    assert!(files >= 3 && ran >= 10, "{files} files, {ran} commands");
}

fn steps(body: &str, first: usize) -> Vec<Step> {
    let mut steps: Vec<Step> = Vec::new();
    for (number, line) in body.lines().enumerate() {
        match (line.strip_prefix("$ "), steps.last_mut()) {
            (Some(command), _) => {
                steps.push(Step { command: command.to_owned(), shown: String::new(), line: first + number + 1 });
            }
            (None, Some(step)) => {
                step.shown.push_str(line);
                step.shown.push('\n');
            }
            (None, None) => panic!("line {}: output without a command", first + number + 1),
        }
    }
    steps
}

/// What a command prints, on standard output and standard error together.
fn run(command: &str, home: &Path) -> String {
    let program = Path::new(env!("CARGO_BIN_EXE_groundrule"));
    let command = command.replace("cargo run --release --", "groundrule");
    let folder = program.parent().unwrap().to_str().unwrap();
    let path = format!("{folder}:{}", std::env::var("PATH").unwrap());
    let done = Command::new("sh")
        .args(["-c", &format!("{{ {command}; }} 2>&1")])
        .env("PATH", path)
        .env("HOME", home)
        .current_dir(top())
        .output()
        .unwrap();
    String::from_utf8(done.stdout).unwrap()
}

/// Whether the output is what is shown, each `[...]` standing for any text.
fn fits(shown: &str, given: &str) -> Result<(), String> {
    let given = given.trim_end();
    let pieces: Vec<&str> = shown.trim_end().split(ANY).map(|piece| piece.trim_matches('\n')).collect();
    let mut rest = given;
    let last = pieces.len() - 1;
    for (number, piece) in pieces.iter().enumerate() {
        let at = match number {
            0 => rest.starts_with(piece).then_some(0),
            _ if number == last => rest.ends_with(piece).then(|| rest.len() - piece.len()),
            _ => rest.find(piece),
        };
        let at = at.ok_or_else(|| format!("this is not in the rest of the output:\n{piece}"))?;
        rest = &rest[at + piece.len()..];
    }
    if last == 0 && !rest.is_empty() {
        return Err(format!("the output goes on:\n{rest}"));
    }
    Ok(())
}

#[test]
fn what_is_shown_is_held_against_what_is_given() {
    assert!(fits("a\nb\n", "a\nb\n").is_ok());
    assert!(fits("a\n[...]\nc\n", "a\nb\nc").is_ok());
    assert!(fits("on [...]", "on 2026-11-24.").is_ok());
    assert!(fits("a\n", "a\nb\n").is_err());
    assert!(fits("b\n[...]", "a\nb\n").is_err());
    assert!(fits("a\n[...]\nd\n", "a\nb\nc").is_err());
    assert!(fits("a\n[...]\nc\n[...]\nb\n", "a\nb\nc").is_err());
}
