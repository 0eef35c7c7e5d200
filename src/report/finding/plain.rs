//! A finding in whole sentences, one a paragraph: for pipes, logs, printers and
//! screen readers.

use super::{Finding, Spot, word};
use crate::report::visible;

/// How much of a long line is shown.
const MOST: usize = 100;

/// One finding, each of its sentences on a line.
pub(super) fn paragraph(finding: &Finding) -> String {
    let mut text = format!(
        "{} {} in {}: {}\n",
        word(finding.severity()),
        finding.code,
        finding.spot.in_words(),
        visible::line(&finding.message)
    );
    if let Some(line) = quoted(&finding.spot) {
        text.push_str(&format!("  the line reads: {line}\n"));
    }
    for (spot, note) in &finding.also {
        text.push_str(&format!("  {} in {}\n", visible::line(note), spot.in_words()));
    }
    if let Some(help) = &finding.help {
        text.push_str(&format!("  help: {}\n", visible::line(help)));
    }
    text.push_str(&shown(finding));
    text
}

/// The example that shows the finding, from the edge on, so that it can be copied
/// as it stands; empty where there is none.
pub(super) fn shown(finding: &Finding) -> String {
    finding.example.as_ref().map_or(String::new(), |example| {
        format!("  shown by this example, which can be pasted into a rule file:\n\n{}", visible::lines(example))
    })
}

/// The line of a spot, cut where it is long.
fn quoted(spot: &Spot) -> Option<String> {
    let (line, start, end) = spot.line()?;
    let lead = line.chars().take_while(|c| c.is_whitespace()).count();
    let line = line.trim();
    if line.is_empty() {
        return None;
    }
    Some(visible::line(&visible::around(line, start.saturating_sub(lead), end.saturating_sub(lead), MOST)))
}
