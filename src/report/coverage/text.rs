//! What the library holds of the codes, as a page.

use super::super::look::{Look, Page, Tone};
use super::super::screen::words::count;
use super::fold::fold;
use super::{Scope, totals};
use crate::law::model::Provenance;
use crate::review::coverage::{Account, Held, LeftOut, Tally, Unread};

/// The column of the texts behind the labels of a block.
const COLUMN: usize = 14;

/// The page: a table of the editions first, then each by itself.
pub(crate) fn page(accounts: &[Account<'_>], scope: Scope<'_>, look: Look) -> String {
    let mut page = Page::new(look);
    page.paragraph(0, &head(scope), Tone::Strong);
    page.blank();
    if accounts.is_empty() {
        page.paragraph(0, "No edition is among them.", Tone::Plain);
        return page.finish();
    }
    table(&mut page, accounts);
    for account in accounts.iter().filter(|account| !account.edition.text_not_here || said(account)) {
        page.blank();
        block(&mut page, account, accounts);
    }
    page.finish()
}

fn head(scope: Scope<'_>) -> String {
    let what = match (scope.code, scope.year) {
        (Some(code), Some(year)) => format!("{code} {year}"),
        (Some(code), None) => code.to_owned(),
        _ => "the codes".to_owned(),
    };
    let at = scope.at.map_or_else(String::new, |(_, title, on)| format!(" in force at {title} on {on}"));
    format!("What the library holds of {what}{at}")
}

/// Whether there is something to tell of an edition whose text is not here.
fn said(account: &Account<'_>) -> bool {
    !account.sections.is_empty() || !account.left_out.is_empty() || !account.unread.is_empty()
}

fn row(name: &str, cells: [&str; 7]) -> String {
    let [sections, provisions, read, memory, practice, left_out, unread] = cells;
    format!("{name:<14}{sections:>8}{provisions:>12}{read:>8}{memory:>9}{practice:>10}{left_out:>10}{unread:>8}")
}

fn figures(name: &str, tally: &Tally) -> String {
    let cells =
        [tally.sections, tally.provisions, tally.read, tally.memory, tally.practice, tally.left_out, tally.unread];
    let cells = cells.map(|cell| cell.to_string());
    row(name, cells.each_ref().map(String::as_str))
}

fn table(page: &mut Page, accounts: &[Account<'_>]) {
    let heads = ["sections", "provisions", "read", "memory", "practice", "left out", "unread"];
    page.paragraph(0, &row("edition", heads), Tone::Strong);
    for account in accounts {
        let name = format!("{} {}", account.code.name, account.edition.year);
        if account.edition.text_not_here && !said(account) {
            page.paragraph(0, &format!("{name:<14}  its text is not here"), Tone::Quiet);
        } else {
            page.paragraph(0, &figures(&name, &account.tally), Tone::Plain);
        }
    }
    let (sum, away) = totals(accounts);
    page.paragraph(0, &figures("all", &sum), Tone::Strong);
    page.blank();
    let editions = count(accounts.len(), "edition", "editions");
    let gone = match away {
        0 => String::new(),
        away => format!(
            " The text of {away} is not here: who adopts such an edition has every question of its subjects referred."
        ),
    };
    let text = format!(
        "{editions}.{gone} A section counts in each edition in which it stands. A provision is what a section says \
         on one question; it was read where the section names the place and the day, else it was written down from \
         memory or is common practice of the trade."
    );
    page.paragraph(0, &text, Tone::Plain);
    if sum.no_source > 0 {
        let text = format!("Of {} it is not said on what they rest.", count(sum.no_source, "provision", "provisions"));
        page.paragraph(0, &text, Tone::Plain);
    }
}

fn block(page: &mut Page, account: &Account<'_>, all: &[Account<'_>]) {
    let edition = account.edition;
    let published = edition.published.map_or_else(String::new, |day| format!(", published {day}"));
    let revises = account.revises.map_or_else(String::new, |year| format!(", revises {year}"));
    let away = if edition.text_not_here { ", its text is not here" } else { "" };
    let head = format!("{} {}, {}{published}{revises}{away}", account.code.name, edition.year, account.code.title);
    page.hung(0, 2, &head, Tone::Strong);
    let mut line = |label: &str, text: String| {
        if !text.is_empty() {
            page.labeled(&format!("  {label}"), Tone::Plain, COLUMN, &text, Tone::Plain);
        }
    };
    let on = |wanted: fn(&Provenance) -> bool| {
        let held = account.sections.iter().filter(|held| wanted(&held.section.provenance));
        fold(held.filter(counts).map(|held| held.number))
    };
    line("encoded", fold(account.sections.iter().map(|held| held.number)));
    line("defines", account.definitions.join(", "));
    line("memory", on(|provenance| *provenance == Provenance::Memory));
    line("practice", on(|provenance| *provenance == Provenance::CommonPractice));
    line("no source", on(|provenance| *provenance == Provenance::Missing));
    // Why something was left out is told once, where it was first.
    let told = |left: &LeftOut<'_>| {
        let first = |other: &Account<'_>| other.edition.year == left.since && other.code.name == account.code.name;
        left.since != edition.year && all.iter().any(first)
    };
    let (before, own): (Vec<_>, Vec<_>) = account.left_out.iter().partition(|left| told(left));
    for left in own {
        let since = if left.since == edition.year { String::new() } else { format!(" (since {})", left.since) };
        line("left out", format!("{}: {}{since}", left.number, left.why));
    }
    if !before.is_empty() {
        line("left out", format!("{}, as before", fold(before.into_iter().map(|left| left.number))));
    }
    for unread in &account.unread {
        let since = if unread.since == edition.year { String::new() } else { format!(" (since {})", unread.since) };
        line("unread", format!("{}: refers {}{since}", unread.number, questions(unread, account)));
    }
}

/// Whether a section has a word on a question, so that it counts.
fn counts(held: &&Held<'_>) -> bool {
    held.provisions > 0
}

fn questions(unread: &Unread<'_>, account: &Account<'_>) -> String {
    if unread.all {
        return format!("every question of the subjects of {}", account.code.name);
    }
    unread.questions.join(", ")
}
