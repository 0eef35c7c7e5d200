//! The account as one HTML file: no script, nothing from elsewhere, fit to be printed.
//!
//! Every text goes through [`Sheet::text`]; tags are written by this file alone.

use super::{
    Account, ChangeTold, EXACT, Group, IN_PART, KIND, NOT_PROVEN, NOTES, Named, QuestionTold, UNDECIDED, capital,
    cited, counted, directions, grouped, meaning, together, word,
};
use crate::report::coverage::fold;
use crate::report::markup::Sheet;
use crate::review::effect::{Direction, Known};

/// How the page looks.
const STYLE: &str = include_str!("page.css");

/// The file.
pub(crate) fn html(account: &Account) -> String {
    let mut sheet = Sheet::default();
    sheet.raw("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n");
    sheet.raw("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n");
    sheet.raw(
        "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'\">\n",
    );
    sheet.raw("<title>").text(&account.title).raw("</title>\n<style>\n").raw(STYLE).raw("</style>\n</head>\n<body>\n");
    sheet.raw("<header>\n<p class=\"kicker\">Effect of a change in the rules on the bonding of gas piping</p>\n");
    sheet.element("h1", &account.title);
    sheet.raw("<p class=\"lead\">").text(&capital(&account.sentence())).raw(".</p>\n</header>\n<main>\n");
    told(&mut sheet, account);
    sheet.raw("</main>\n<footer>\n<h2>Cautions</h2>\n");
    for caution in &account.cautions {
        sheet.element("p", caution);
    }
    sheet.raw("<p class=\"quiet paper\">The conditions in the language of the rules stand in the file that this was printed from.</p>\n");
    sheet.raw("<p class=\"quiet\">Written by Groundrule ").text(env!("CARGO_PKG_VERSION"));
    let [before, after] = &account.sides;
    sheet.raw(". Rules before: <code>").text(&short(&before.library));
    sheet.raw("</code>, after: <code>").text(&short(&after.library)).raw("</code>.</p>\n</footer>\n</body>\n</html>\n");
    sheet.0
}

/// What the file tells between its head and its cautions, for a page that has its own:
/// sections with headings of the second rank and below.
pub(crate) fn body(account: &Account) -> String {
    let mut sheet = Sheet::default();
    sheet.raw("<p>").text(&capital(&account.sentence())).raw(".</p>\n");
    told(&mut sheet, account);
    sheet.0
}

fn told(sheet: &mut Sheet, account: &Account) {
    compared(sheet, account);
    if !account.changed.is_empty() {
        glance(sheet, account);
    }
    for (number, question) in account.changed.iter().enumerate() {
        write(sheet, number + 1, question);
    }
    notes(sheet, account);
    reading(sheet, account);
}

impl Sheet {
    /// A row whose first cell says what it is about.
    fn row(&mut self, head: &str, text: &str) {
        self.raw("<tr><th scope=\"row\">").text(head).raw("</th><td>").text(text).raw("</td></tr>\n");
    }

    fn list(&mut self, kind: &str, items: impl Iterator<Item = String>) {
        self.raw("<").raw(kind).raw(">\n");
        for item in items {
            self.element("li", &item);
        }
        self.raw("</").raw(kind).raw(">\n");
    }

    fn tag(&mut self, direction: Direction) {
        let grave = matches!(direction, Direction::Contradicts | Direction::Stricter);
        self.raw(if grave { "<span class=\"tag grave\">" } else { "<span class=\"tag\">" });
        self.text(word(direction)).raw("</span>");
    }
}

fn compared(sheet: &mut Sheet, account: &Account) {
    sheet.raw("<section>\n<h2>What is compared</h2>\n<table>\n<caption>The two sides, and the jobs that are looked at</caption>\n<tbody>\n");
    let [before, after] = &account.sides;
    sheet.row("Before", &before.words);
    sheet.row("After", &after.words);
    sheet.row("Jobs", &account.jobs);
    sheet.row("Kinds of job", &account.share().unwrap_or_else(|| "too many to be counted".to_owned()));
    if account.alike > 0 {
        let alike = counted(account.alike as u128, "question is", "questions are");
        sheet.row("Alike", &format!("{alike} answered alike for every job"));
    }
    for (label, side) in [("Only before", Known::Before), ("Only after", Known::After)] {
        let named = account.apart.iter().filter(|(_, known)| *known == side);
        let titles: Vec<&str> = named.map(|(named, _)| &*named.title).collect();
        if !titles.is_empty() {
            sheet.row(label, &format!("asked on one side and compared with nothing: {}", titles.join("; ")));
        }
    }
    if !account.undecided.is_empty() {
        let titles: Vec<&str> = account.undecided.iter().map(|Named { title, .. }| &**title).collect();
        sheet.row("Not decided", &format!("{} ({UNDECIDED})", titles.join("; ")));
    }
    sheet.raw("</tbody>\n</table>\n<p class=\"quiet\">").text(KIND);
    if !account.changed.is_empty() {
        sheet.raw(" ").text(EXACT);
    }
    sheet.raw("</p>\n</section>\n");
}

fn glance(sheet: &mut Sheet, account: &Account) {
    let used = directions(account);
    sheet.raw("<section>\n<h2>At a glance</h2>\n<table>\n<caption>How many changes each question has, by what becomes of its answer</caption>\n<thead>\n<tr><th scope=\"col\">Question</th>");
    for direction in &used {
        sheet.raw("<th scope=\"col\" class=\"number\">").text(&capital(word(*direction))).raw("</th>");
    }
    sheet.raw("<th scope=\"col\">What a stricter answer costs</th></tr>\n</thead>\n<tbody>\n");
    for (number, question) in account.changed.iter().enumerate() {
        sheet.raw(&format!("<tr><th scope=\"row\"><a href=\"#q{}\">", number + 1));
        sheet.text(&question.named.title).raw("</a></th>");
        for direction in &used {
            let count = count(question, *direction);
            sheet.raw("<td class=\"number\">").text(&if count == 0 { "–".to_owned() } else { count.to_string() });
            sheet.raw("</td>");
        }
        sheet.raw("<td>").text(question.costs.as_deref().unwrap_or("not said")).raw("</td></tr>\n");
    }
    sheet.raw("</tbody>\n</table>\n<dl class=\"words\">\n");
    for direction in &used {
        sheet.element("dt", &capital(word(*direction))).element("dd", meaning(*direction));
    }
    sheet.raw("</dl>\n</section>\n");
}

fn count(question: &QuestionTold, direction: Direction) -> usize {
    question.changes.iter().filter(|change| change.direction == direction).count()
}

fn write(sheet: &mut Sheet, number: usize, question: &QuestionTold) {
    sheet.raw(&format!("<section id=\"q{number}\">\n"));
    sheet.element("h2", &question.named.title);
    if let Some(costs) = &question.costs {
        sheet.raw("<p>What a stricter answer costs: ").text(costs).raw(".</p>\n");
    }
    let several = question.changes.len() > 1;
    if several {
        sheet.raw("<table>\n<caption>Answers before and after, the graver first");
        if let Some(kinds) = question.kinds {
            sheet.text(&format!("; of {} kinds of job that this answer tells apart", grouped(kinds)));
        }
        sheet.raw("</caption>\n<thead>\n<tr><th scope=\"col\" class=\"number\">No.</th><th scope=\"col\">Before</th><th scope=\"col\">After</th><th scope=\"col\">Becomes</th><th scope=\"col\" class=\"number\">Kinds of job</th></tr>\n</thead>\n<tbody>\n");
        for (at, change) in question.changes.iter().enumerate() {
            sheet.raw(&format!(
                "<tr><th scope=\"row\" class=\"number\"><a href=\"#q{number}-{}\">{}</a></th><td>",
                at + 1,
                at + 1
            ));
            sheet.text(&change.before.words).raw("</td><td>").text(&change.after.words).raw("</td><td>");
            sheet.tag(change.direction);
            let kinds = change.kinds.map_or_else(|| "not counted".to_owned(), grouped);
            sheet.raw("</td><td class=\"number\">").text(&kinds).raw("</td></tr>\n");
        }
        sheet.raw("</tbody>\n</table>\n");
    }
    for group in &question.groups {
        write_group(sheet, number, question, group);
    }
    sheet.raw("</section>\n");
}

fn write_group(sheet: &mut Sheet, number: usize, question: &QuestionTold, group: &Group) {
    let all: Vec<(usize, &ChangeTold)> =
        group.members.iter().filter_map(|member| Some((member + 1, question.changes.get(*member)?))).collect();
    let Some((at, first)) = all.first().copied() else { return };
    let alone = all.len() == 1;
    let id = if alone { format!(" id=\"q{number}-{at}\"") } else { String::new() };
    sheet.raw(&format!("<article{id}>\n<h3>"));
    if alone {
        if question.changes.len() > 1 {
            sheet.raw(&format!("{at}. "));
        }
        sheet.text(&capital(&first.before.words)).raw(ARROW).text(&first.after.words);
    } else {
        let numbers: Vec<String> = all.iter().map(|(at, _)| at.to_string()).collect();
        sheet.text(&fold(numbers.iter().map(String::as_str))).raw(". ");
        sheet.text(&format!("{} changes for jobs that share what follows", all.len()));
    }
    sheet.raw(" ");
    sheet.tag(first.direction);
    sheet.raw("</h3>\n");
    conditions(sheet, &first.choices, &group.base);
    if !alone {
        lines(sheet, number, &all, group);
    }
    sheet.raw("<dl class=\"notes\">\n");
    if let (true, Some(some), Some(of)) = (alone, first.kinds, question.kinds) {
        sheet.element("dt", "Kinds of job").element("dd", &format!("{} of {}", grouped(some), grouped(of)));
    }
    for (label, side) in [("Text before", 0), ("Text after", 1)] {
        sheet.element("dt", label).element("dd", &cited(&group.texts(&question.changes, side)));
    }
    if all.iter().any(|(_, change)| change.in_part) {
        sheet.element("dt", "Beside it").element("dd", IN_PART);
    }
    if all.iter().any(|(_, change)| !change.fewest) {
        sheet.element("dt", "Note").element("dd", NOT_PROVEN);
    }
    sheet.raw("</dl>\n");
    details(sheet, &all);
    sheet.raw("</article>\n");
}

/// What stands between the answer before and the answer after.
const ARROW: &str = " <span class=\"arrow\" aria-label=\"becomes\" role=\"img\">→</span> ";

/// The changes of a group, a line each.
fn lines(sheet: &mut Sheet, number: usize, all: &[(usize, &ChangeTold)], group: &Group) {
    sheet.raw("<table>\n<caption>Each of these changes, where besides</caption>\n<thead>\n<tr><th scope=\"col\" class=\"number\">No.</th><th scope=\"col\">Before and after</th><th scope=\"col\">Where besides</th><th scope=\"col\" class=\"number\">Kinds of job</th></tr>\n</thead>\n<tbody>\n");
    for (at, change) in all {
        sheet.raw(&format!("<tr id=\"q{number}-{at}\"><th scope=\"row\" class=\"number\">{at}</th><td>"));
        sheet.text(&change.before.words).raw(ARROW).text(&change.after.words).raw("</td><td>");
        sheet.text(&together(&change.own(group)));
        let kinds = change.kinds.map_or_else(|| "not counted".to_owned(), grouped);
        sheet.raw("</td><td class=\"number\">").text(&kinds).raw("</td></tr>\n");
    }
    sheet.raw("</tbody>\n</table>\n");
}

/// The jobs that show the changes, and the conditions in the language.
fn details(sheet: &mut Sheet, all: &[(usize, &ChangeTold)]) {
    let jobs: Vec<&str> = all.iter().filter_map(|(_, change)| Some(&*change.witness.as_ref()?.example)).collect();
    if !jobs.is_empty() {
        let lead = if jobs.len() == 1 { "A job that shows it" } else { "Jobs that show them" };
        sheet.raw("<details>\n<summary>").text(lead).raw(", to be pasted into a rule file</summary>\n");
        sheet.raw(if jobs.len() == 1 { "<div>\n" } else { "<div class=\"jobs\">\n" });
        for job in jobs {
            sheet.raw("<pre>").text(job).raw("</pre>\n");
        }
        sheet.raw("</div>\n</details>\n");
    }
    sheet.raw("<details class=\"exact\">\n<summary>The same conditions in the language of the rules</summary>\n");
    for (at, change) in all {
        if all.len() > 1 {
            sheet.raw(&format!("<p class=\"where\">{at}.</p>\n"));
        }
        let exact: Vec<String> = change.cases.iter().map(|case| case.exact.join("\n    and ")).collect();
        sheet.raw("<pre>").text(&exact.join("\nor\n")).raw("</pre>\n");
    }
    sheet.raw("</details>\n");
}

fn conditions(sheet: &mut Sheet, choices: &[Vec<Vec<String>>], base: &[String]) {
    if base.is_empty() && choices.is_empty() {
        sheet.raw("<p class=\"where\">For every job</p>\n");
    }
    if !base.is_empty() {
        sheet.raw("<p class=\"where\">Where all of this holds</p>\n");
        sheet.list("ul", base.iter().cloned());
    }
    for (number, choice) in choices.iter().enumerate() {
        let besides = number > 0 || !base.is_empty();
        let lead = if besides { "and one of these" } else { "Where one of these holds" };
        sheet.raw("<p class=\"where\">").text(lead).raw("</p>\n");
        sheet.list("ol", choice.iter().map(|case| together(case)));
    }
}

fn notes(sheet: &mut Sheet, account: &Account) {
    for (lead, notes) in NOTES.iter().zip(&account.notes).filter(|(_, notes)| !notes.is_empty()) {
        sheet.raw("<section>\n");
        sheet.element("h2", lead);
        for note in notes {
            sheet.raw("<article>\n<p>").text(&note.text).raw(" <span class=\"quiet\">");
            sheet.text(&note.by.join("; ")).raw("</span></p>\n");
            if note.cases.is_none() {
                sheet.element("p", UNDECIDED);
            } else {
                conditions(sheet, &note.choices, &note.shared);
            }
            sheet.raw("</article>\n");
        }
        sheet.raw("</section>\n");
    }
}

fn reading(sheet: &mut Sheet, account: &Account) {
    if account.meanings.is_empty() {
        return;
    }
    sheet.raw("<section>\n<h2>What the words mean</h2>\n<dl class=\"words\">\n");
    for (name, meaning) in &account.meanings {
        sheet.element("dt", name).element("dd", meaning);
    }
    sheet.raw("</dl>\n</section>\n");
}

/// The first figures of a hash, enough to tell two sets of rules apart by eye.
fn short(hash: &str) -> String {
    hash.chars().take("sha256:".len() + 16).collect()
}

#[cfg(test)]
#[allow(clippy::string_slice, reason = "a test may panic")]
mod tests {
    use super::*;

    /// The relative luminance of a color by <https://www.w3.org/TR/WCAG22/#dfn-relative-luminance>.
    fn luminance(color: &str) -> f64 {
        let channel = |at: usize| {
            let value = f64::from(u8::from_str_radix(&color[at..at + 2], 16).unwrap()) / 255.0;
            if value <= 0.04045 { value / 12.92 } else { ((value + 0.055) / 1.055).powf(2.4) }
        };
        0.2126 * channel(1) + 0.7152 * channel(3) + 0.0722 * channel(5)
    }

    #[test]
    fn text_stands_out_from_its_paper() {
        let root = STYLE.lines().find(|line| line.starts_with(":root")).unwrap();
        let color = |name: &str| {
            let at = root.find(&format!("--{name}: ")).unwrap() + name.len() + 4;
            luminance(&root[at..at + 7])
        };
        for (text, paper) in [
            ("ink", "paper"),
            ("ink", "sheet"),
            ("quiet", "paper"),
            ("quiet", "sheet"),
            ("accent", "paper"),
            ("sheet", "accent"),
        ] {
            let (one, other) = (color(text), color(paper));
            let contrast = (one.max(other) + 0.05) / (one.min(other) + 0.05);
            // WCAG 2.2, success criterion 1.4.3, <https://www.w3.org/TR/WCAG22/#contrast-minimum>.
            assert!(contrast >= 4.5, "{text} on {paper}: {contrast:.2}");
        }
    }

    #[test]
    fn the_style_reaches_for_nothing() {
        for word in ["url(", "@import", "http", "</"] {
            assert!(!STYLE.contains(word), "{word}");
        }
    }
}
