//! Standard output and standard error: what they can show, and writing to them
//! so that a reader who stops reading ends the program quietly.

use super::options::As;
use crate::report::finding::{self, Finding, Rendering};
use crate::report::look::Look;
use crate::values::Date;
use std::io::{IsTerminal, Write};

/// How wide a page is; a page on paper and a page on a screen are the same.
const WIDTH: usize = 80;

/// How a page on standard output looks.
pub(crate) fn look() -> Look {
    Look { width: WIDTH, color: colored(std::io::stdout().is_terminal()) }
}

/// Color is for terminals, and only where <https://no-color.org> is not asked for.
fn colored(terminal: bool) -> bool {
    let refused = std::env::var_os("NO_COLOR").is_some_and(|set| !set.is_empty());
    let dumb = std::env::var_os("TERM").is_some_and(|term| term == "dumb");
    terminal && !refused && !dumb
}

/// Writes to standard output. A closed pipe is no failure.
pub(crate) fn print(text: &str) {
    write(&mut std::io::stdout().lock(), text);
}

/// Writes to standard error.
pub(crate) fn complain(text: &str) {
    write(&mut std::io::stderr().lock(), text);
}

fn write(to: &mut dyn Write, text: &str) {
    // Whoever closed the pipe has read enough, and where standard error is gone
    // there is nobody left to tell.
    if to.write_all(text.as_bytes()).is_ok() {
        let _told = to.flush();
    }
}

/// Prints findings to standard error: JSON where JSON is asked for, else drawn on
/// a terminal and plain elsewhere, and where color is refused.
pub(crate) fn report(findings: &[Finding], form: As) {
    let rendering = rendering(form, std::io::stderr().is_terminal());
    complain(&finding::render(findings, rendering));
}

/// Prints findings to standard output in the same way, or drawn wherever it leads.
pub(crate) fn list(findings: &[Finding], form: As, drawn: bool) {
    let rendering = match rendering(form, std::io::stdout().is_terminal()) {
        Rendering::Plain if drawn => Rendering::Drawn { color: false },
        other => other,
    };
    print(&finding::render(findings, rendering));
}

fn rendering(form: As, terminal: bool) -> Rendering {
    match form {
        As::Json => Rendering::Json,
        As::Plain => Rendering::Plain,
        As::Text if colored(terminal) => Rendering::Drawn { color: true },
        As::Text => Rendering::Plain,
    }
}

/// The day that the machine's clock shows, by universal time.
pub(crate) fn today() -> Date {
    const DAY: u64 = 24 * 60 * 60;
    let since = std::time::SystemTime::now().duration_since(std::time::UNIX_EPOCH).unwrap_or_default();
    Date(i32::try_from(since.as_secs() / DAY).unwrap_or(i32::MAX))
}
