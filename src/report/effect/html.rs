//! The account as one HTML file: no script, nothing from elsewhere, fit to be printed.
//!
//! Every text goes through [`Sheet::text`]; tags are written by this file alone.

use super::{
    Account, ChangeTold, Group, Named, QuestionTold, capital, cited, directions, grouped, meaning, together, word,
};
use crate::report::coverage::fold;
use crate::report::markup::Sheet as Markup;
use crate::report::speech::Reader;
use crate::review::effect::{Direction, Known};

/// How the page looks.
const STYLE: &str = include_str!("page.css");

/// A page that is being written, for its reader.
struct Sheet {
    markup: Markup,
    reader: Reader,
}

/// The file.
pub(crate) fn html(account: &Account) -> String {
    let mut sheet = Sheet::new(account);
    let reader = sheet.reader;
    sheet.raw("<!DOCTYPE html>\n<html lang=\"").raw(reader.language.tag());
    sheet.raw("\">\n<head>\n<meta charset=\"utf-8\">\n");
    sheet.raw("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n");
    sheet.raw(
        "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'\">\n",
    );
    sheet.raw("<title>").text(&account.title).raw("</title>\n<style>\n").raw(STYLE).raw("</style>\n</head>\n<body>\n");
    sheet.raw("<header>\n<p class=\"kicker\">").say("effect-kicker").raw("</p>\n");
    sheet.element("h1", &account.title);
    sheet.raw("<p class=\"lead\">").text(&capital(&account.sentence())).raw(".</p>\n</header>\n<main>\n");
    told(&mut sheet, account);
    sheet.raw("</main>\n<footer>\n<h2>").say("effect-cautions").raw("</h2>\n");
    for caution in &account.cautions {
        sheet.element("p", caution);
    }
    sheet.raw("<p class=\"quiet paper\">").say("effect-printed-from").raw("</p>\n");
    let written = reader.say_with("effect-written-by", &[("version", env!("CARGO_PKG_VERSION"))]);
    let [before, after] = &account.sides;
    sheet.raw("<p class=\"quiet\">").text(&written).raw(" <code>").text(&short(&before.library)).raw("</code>");
    sheet.say("effect-rules-after").raw(" <code>").text(&short(&after.library));
    sheet.raw("</code>.</p>\n</footer>\n</body>\n</html>\n");
    sheet.markup.0
}

/// What the file tells between its head and its cautions, for a page that has its own:
/// sections with headings of the second rank and below.
pub(crate) fn body(account: &Account) -> String {
    let mut sheet = Sheet::new(account);
    sheet.raw("<p>").text(&capital(&account.sentence())).raw(".</p>\n");
    told(&mut sheet, account);
    sheet.markup.0
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
    fn new(account: &Account) -> Sheet {
        Sheet { markup: Markup::default(), reader: account.reader }
    }

    fn raw(&mut self, tags: &str) -> &mut Sheet {
        self.markup.raw(tags);
        self
    }

    fn text(&mut self, text: &str) -> &mut Sheet {
        self.markup.text(text);
        self
    }

    fn element(&mut self, name: &str, text: &str) -> &mut Sheet {
        self.markup.element(name, text);
        self
    }

    /// Words of the tool.
    fn say(&mut self, key: &str) -> &mut Sheet {
        let words = self.reader.say(key);
        self.text(&words)
    }

    /// The head of a column.
    fn column(&mut self, key: &str, class: &str) -> &mut Sheet {
        self.raw("<th scope=\"col\"").raw(class).raw(">").say(key).raw("</th>")
    }

    /// A row whose first cell says what it is about.
    fn row(&mut self, key: &str, text: &str) {
        self.raw("<tr><th scope=\"row\">").say(key).raw("</th><td>").text(text).raw("</td></tr>\n");
    }

    /// A term of a list and what is said of it.
    fn note(&mut self, key: &str, text: &str) {
        self.raw("<dt>").say(key).raw("</dt>\n");
        self.element("dd", text);
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
        let word = word(direction, self.reader);
        self.raw(if grave { "<span class=\"tag grave\">" } else { "<span class=\"tag\">" });
        self.text(&word).raw("</span>");
    }

    /// What stands between the answer before and the answer after.
    fn arrow(&mut self) -> &mut Sheet {
        self.raw(" <span class=\"arrow\" aria-label=\"").say("effect-arrow").raw("\" role=\"img\">→</span> ")
    }

    /// How many kinds of job a change is about, where they were counted.
    fn kinds(&mut self, change: &ChangeTold) -> &mut Sheet {
        let kinds = change.kinds.map_or_else(|| self.reader.say("effect-not-counted"), grouped);
        self.raw("</td><td class=\"number\">").text(&kinds)
    }
}

/// The class of cells that hold numbers.
const NUMBER: &str = " class=\"number\"";

fn compared(sheet: &mut Sheet, account: &Account) {
    let reader = sheet.reader;
    sheet.raw("<section>\n<h2>").say("effect-compared").raw("</h2>\n<table>\n<caption>");
    sheet.say("effect-compared-caption").raw("</caption>\n<tbody>\n");
    let [before, after] = &account.sides;
    sheet.row("effect-before", &before.words);
    sheet.row("effect-after", &after.words);
    sheet.row("effect-jobs", &account.jobs);
    sheet.row("effect-kinds-of-job", &account.share());
    if account.alike > 0 {
        let alike = reader.say_with("effect-alike-count", &[("count", &account.alike.to_string())]);
        sheet.row("effect-alike-label", &alike);
    }
    for (label, side) in [("effect-only-before", Known::Before), ("effect-only-after", Known::After)] {
        let named = account.apart.iter().filter(|(_, known)| *known == side);
        let titles: Vec<&str> = named.map(|(named, _)| &*named.title).collect();
        if !titles.is_empty() {
            sheet.row(label, &reader.say_with("effect-only-one-side", &[("titles", &titles.join("; "))]));
        }
    }
    if !account.undecided.is_empty() {
        let titles: Vec<&str> = account.undecided.iter().map(|Named { title, .. }| &**title).collect();
        let why = reader.say("effect-not-decided");
        sheet.row("effect-not-decided-label", &format!("{} ({why})", titles.join("; ")));
    }
    sheet.raw("</tbody>\n</table>\n<p class=\"quiet\">").say("effect-kind");
    if !account.changed.is_empty() {
        sheet.raw(" ").say("effect-exact");
    }
    sheet.raw("</p>\n</section>\n");
}

fn glance(sheet: &mut Sheet, account: &Account) {
    let reader = sheet.reader;
    let used = directions(account);
    sheet.raw("<section>\n<h2>").say("effect-glance").raw("</h2>\n<table>\n<caption>").say("effect-glance-caption");
    sheet.raw("</caption>\n<thead>\n<tr>").column("effect-question", "");
    for direction in &used {
        sheet.raw("<th scope=\"col\"").raw(NUMBER).raw(">");
        sheet.text(&capital(&word(*direction, reader))).raw("</th>");
    }
    sheet.column("effect-costs-label", "").raw("</tr>\n</thead>\n<tbody>\n");
    for (number, question) in account.changed.iter().enumerate() {
        sheet.raw(&format!("<tr><th scope=\"row\"><a href=\"#q{}\">", number + 1));
        sheet.text(&question.named.title).raw("</a></th>");
        for direction in &used {
            let count = count(question, *direction);
            sheet.raw("<td class=\"number\">").text(&if count == 0 { "–".to_owned() } else { count.to_string() });
            sheet.raw("</td>");
        }
        let costs = question.costs.clone().unwrap_or_else(|| reader.say("effect-costs-not-said"));
        sheet.raw("<td>").text(&costs).raw("</td></tr>\n");
    }
    sheet.raw("</tbody>\n</table>\n<dl class=\"words\">\n");
    for direction in &used {
        sheet.element("dt", &capital(&word(*direction, reader))).element("dd", &meaning(*direction, reader));
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
        let costs = sheet.reader.say_with("effect-costs", &[("costs", costs)]);
        sheet.element("p", &costs);
    }
    let several = question.changes.len() > 1;
    if several {
        sheet.raw("<table>\n<caption>").say("effect-answers-caption");
        if let Some(kinds) = question.kinds {
            let of = sheet.reader.say_with("effect-answers-of-kinds", &[("kinds", &grouped(kinds))]);
            sheet.text(&of);
        }
        sheet.raw("</caption>\n<thead>\n<tr>").column("effect-number", NUMBER).column("effect-before", "");
        sheet.column("effect-after", "").column("effect-becomes", "").column("effect-kinds-of-job", NUMBER);
        sheet.raw("</tr>\n</thead>\n<tbody>\n");
        for (at, change) in question.changes.iter().enumerate() {
            sheet.raw(&format!(
                "<tr><th scope=\"row\" class=\"number\"><a href=\"#q{number}-{}\">{}</a></th><td>",
                at + 1,
                at + 1
            ));
            sheet.text(&change.before.words).raw("</td><td>").text(&change.after.words).raw("</td><td>");
            sheet.tag(change.direction);
            sheet.kinds(change).raw("</td></tr>\n");
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
        sheet.text(&capital(&first.before.words)).arrow().text(&first.after.words);
    } else {
        let numbers: Vec<String> = all.iter().map(|(at, _)| at.to_string()).collect();
        sheet.text(&fold(numbers.iter().map(String::as_str))).raw(". ");
        let count = all.len().to_string();
        let head = sheet.reader.say_with("effect-share-what-follows", &[("count", &count)]);
        sheet.text(&head);
    }
    sheet.raw(" ");
    sheet.tag(first.direction);
    sheet.raw("</h3>\n");
    conditions(sheet, &first.choices, &group.base);
    if !alone {
        lines(sheet, number, &all, group);
    }
    sheet.raw("<dl class=\"notes\">\n");
    let reader = sheet.reader;
    if let (true, Some(some), Some(of)) = (alone, first.kinds, question.kinds) {
        let kinds = reader.say_with("effect-some-of-kinds", &[("some", &grouped(some)), ("all", &grouped(of))]);
        sheet.note("effect-kinds-of-job", &kinds);
    }
    for (label, side) in [("effect-text-before", 0), ("effect-text-after", 1)] {
        sheet.note(label, &cited(&group.texts(&question.changes, side, reader), reader));
    }
    if all.iter().any(|(_, change)| change.in_part) {
        sheet.note("effect-beside", &reader.say("effect-in-part"));
    }
    if all.iter().any(|(_, change)| !change.fewest) {
        sheet.note("effect-note", &reader.say("effect-not-proven"));
    }
    sheet.raw("</dl>\n");
    details(sheet, &all);
    sheet.raw("</article>\n");
}

/// The changes of a group, a line each.
fn lines(sheet: &mut Sheet, number: usize, all: &[(usize, &ChangeTold)], group: &Group) {
    sheet.raw("<table>\n<caption>").say("effect-each-caption").raw("</caption>\n<thead>\n<tr>");
    sheet.column("effect-number", NUMBER).column("effect-before-and-after", "").column("effect-where-besides", "");
    sheet.column("effect-kinds-of-job", NUMBER).raw("</tr>\n</thead>\n<tbody>\n");
    for (at, change) in all {
        sheet.raw(&format!("<tr id=\"q{number}-{at}\"><th scope=\"row\" class=\"number\">{at}</th><td>"));
        let besides = together(&change.own(group), sheet.reader);
        sheet.text(&change.before.words).arrow().text(&change.after.words).raw("</td><td>").text(&besides);
        sheet.kinds(change).raw("</td></tr>\n");
    }
    sheet.raw("</tbody>\n</table>\n");
}

/// The jobs that show the changes, and the conditions in the language.
fn details(sheet: &mut Sheet, all: &[(usize, &ChangeTold)]) {
    let jobs: Vec<&str> = all.iter().filter_map(|(_, change)| Some(&*change.witness.as_ref()?.example)).collect();
    if !jobs.is_empty() {
        let lead = if jobs.len() == 1 { "effect-job" } else { "effect-jobs-shown" };
        sheet.raw("<details>\n<summary>").say(lead).raw("</summary>\n");
        sheet.raw(if jobs.len() == 1 { "<div>\n" } else { "<div class=\"jobs\">\n" });
        for job in jobs {
            sheet.raw("<pre>").text(job).raw("</pre>\n");
        }
        sheet.raw("</div>\n</details>\n");
    }
    sheet.raw("<details class=\"exact\">\n<summary>").say("effect-in-the-language").raw("</summary>\n");
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
        sheet.raw("<p class=\"where\">").say("effect-every-job").raw("</p>\n");
    }
    if !base.is_empty() {
        sheet.raw("<p class=\"where\">").say("effect-where-all").raw("</p>\n");
        sheet.list("ul", base.iter().cloned());
    }
    for (number, choice) in choices.iter().enumerate() {
        let besides = number > 0 || !base.is_empty();
        let lead = if besides { "effect-and-one" } else { "effect-where-one" };
        sheet.raw("<p class=\"where\">").say(lead).raw("</p>\n");
        let reader = sheet.reader;
        sheet.list("ol", choice.iter().map(|case| together(case, reader)));
    }
}

fn notes(sheet: &mut Sheet, account: &Account) {
    for (lead, notes) in account.notes_heads().iter().zip(&account.notes).filter(|(_, notes)| !notes.is_empty()) {
        sheet.raw("<section>\n");
        sheet.element("h2", lead);
        for note in notes {
            sheet.raw("<article>\n<p>").text(&note.text).raw(" <span class=\"quiet\">");
            sheet.text(&note.by.join("; ")).raw("</span></p>\n");
            if note.cases.is_none() {
                sheet.raw("<p>").say("effect-not-decided").raw("</p>\n");
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
    sheet.raw("<section>\n<h2>").say("effect-words").raw("</h2>\n<dl class=\"words\">\n");
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
