//! The text of a starter, line by line.
//!
//! What sleeps stands before a line of its own depth that is awake, so that laying the
//! file out leaves it where it is.

use super::example::Example;
use super::ground::{Ground, Standing};
use crate::syntax::codes;
use crate::syntax::words::quoted;
use crate::values::{Date, Period};

/// A line that sleeps begins with this.
const SLEEPS: &str = "#- ";
/// How wide a line of explanation may be.
const WIDTH: usize = 80;
/// How long the window of the sleeping election is.
const WINDOW: Period = Period::Months(6);
const YEAR: Period = Period::Years(1);

/// The file, from who the place is to what to do next.
pub(super) fn write(ground: &Ground, example: &Example) -> String {
    let mut page = Page::default();
    head(&mut page, ground);
    if let Some((name, title)) = &ground.place {
        place(&mut page, ground, name, title);
    }
    instrument(&mut page, ground);
    ending(&mut page, ground);
    examples(&mut page, ground, example);
    next(&mut page, ground);
    page.text
}

/// The lines written so far.
#[derive(Default)]
struct Page {
    text: String,
}

impl Page {
    fn line(&mut self, indent: usize, text: &str) {
        let text = format!("{}{text}", " ".repeat(indent * 4));
        self.text.push_str(text.trim_end());
        self.text.push('\n');
    }

    /// Words of explanation, broken into lines.
    fn remark(&mut self, indent: usize, words: &str) {
        for line in textwrap::wrap(words, WIDTH.saturating_sub(indent * 4 + 2)) {
            self.line(indent, &format!("# {line}"));
        }
    }

    /// Lines of the language that sleep.
    fn sleeping(&mut self, indent: usize, lines: &[String]) {
        lines.iter().for_each(|line| self.line(indent, &format!("{SLEEPS}{line}")));
    }

    fn heading(&mut self, title: &str) {
        let rule = "-".repeat(74usize.saturating_sub(title.len()));
        self.line(0, "");
        self.line(0, &format!("# {title} {rule}"));
        self.line(0, "");
    }
}

fn head(page: &mut Page, ground: &Ground) {
    page.remark(0, &format!("Rules of {}: a start, to be made your own.", ground.title));
    page.line(0, "#");
    page.remark(
        0,
        "What stands behind # is a remark and changes nothing. Lines that begin with #- sleep: take those signs \
         away, and they count. Wake one block of them at a time and have the file proofread after each; the end of \
         the file says how. Line breaks and indents are yours; what stands in double quotes is free text.",
    );
}

fn place(page: &mut Page, ground: &Ground, name: &str, title: &str) {
    page.heading("Who you are");
    page.remark(
        0,
        "First the name by which rule files and jobs call the place, then its printed name. `office` is whom a \
         verdict names where the rules leave a point to you; `read` says where the place's rules can be read, and \
         when somebody last did.",
    );
    page.line(0, &format!("place {name} {} within {}", quoted(title), ground.within));
    page.line(1, &format!("office {}", quoted(&format!("{title} Building Department"))));
    page.line(1, &format!("read   \"code of ordinances, index\" on {}", ground.adopted));
    page.remark(1, "Another printed name, and the number by which registers know the place.");
    page.sleeping(
        1,
        &[format!("also     {}", quoted(&format!("{title} (old name)"))), "known as geoid 00000".to_owned()],
    );
    left_open(page, ground);
}

/// What other places answer is for the official to look at, and no fault of a first file.
fn left_open(page: &mut Page, ground: &Ground) {
    if !ground.leaves_open {
        return;
    }
    page.remark(
        1,
        "Other places answer questions that nothing answers here. Take the next line out to be told of them; then \
         write what your place has, or say of a subject that it has `nothing of its own on` it.",
    );
    page.line(1, &format!("knowingly {} \"what other places answer is not looked at yet\"", codes::UNANSWERED));
}

fn instrument(page: &mut Page, ground: &Ground) {
    page.heading("What was enacted");
    page.remark(
        0,
        "An instrument is what was enacted: its id, whose it is, its title. Its `kind` says with what force it \
         speaks: statute, regulation, ordinance, resolution, order and ruling bind; bulletin, opinion, \
         interpretation and guidance advise. `adopted` is the day of the vote, `in force from` the first day on \
         which it is law, `read` where its text was seen. Write the days, and take the title from the paper itself.",
    );
    page.line(0, &format!("instrument {} of {} \"Ordinance {}\"", ground.id, ground.name, ground.number));
    page.line(1, "kind     ordinance");
    page.line(1, &format!("adopted  {}", ground.adopted));
    page.line(1, &format!("in force from {}", ground.from));
    page.line(1, &format!("read     \"ordinance as signed, clerk's file\" on {}", ground.adopted));
    if ground.place.is_none() {
        left_open(page, ground);
    }
    if ground.elects_later.is_some() {
        page.remark(1, "election: up to this day who applies may still choose the text before it.");
        page.sleeping(1, &[format!("election through {}", ground.from.after(WINDOW))]);
    }
    match &ground.edition {
        Some(edition) => amendments(page, ground, edition),
        None => no_code(page, ground),
    }
    if let Some(question) = &ground.question {
        page.remark(1, "floor: no place within this one may ask for less than is asked here.");
        page.sleeping(1, &[format!("floor {question}")]);
    }
    sections(page, ground);
}

fn no_code(page: &mut Page, ground: &Ground) {
    page.remark(
        1,
        "No code is known to be in force here on that day, so there is none to amend: what binds are the sections \
         below.",
    );
    if let Some(edition) = &ground.adoptable {
        page.remark(1, "adopts: a code becomes law here, with all that the library holds of it.");
        page.sleeping(1, &[format!("adopts {edition}")]);
    }
}

fn amendments(page: &mut Page, ground: &Ground, edition: &Standing) {
    let stands = format!(
        "{} is in force there on that day. What is changed in it stands below `amend`; the number is that which \
         your ordinance gives the section.",
        edition.name
    );
    page.remark(1, &stands);
    if !ground.beside.is_empty() {
        let beside = ground.beside.join(", ");
        let twice = "what should hold for them too is written a second time, in an `amend` of its own.";
        page.remark(1, &format!("Beside it stands {beside}, for other jobs; {twice}"));
    }
    page.line(1, &format!("amend {}", edition.name));
    let [first, second, third] = three(&edition.sections);
    if let Some((number, title, words)) = first {
        page.remark(
            2,
            "replace: the section says this instead. Behind the number `and under` takes its sub-sections along; \
             without it they stay as they are.",
        );
        page.sleeping(2, &case_of("replace", number, title, words.as_deref(), ground));
    }
    if let Some((number, ..)) = third {
        page.remark(2, "except: a case in which the section does not hold.");
        page.sleeping(2, &[format!("except {number} \"Not in this case\""), format!("    where {}", ground.case)]);
    }
    if let Some((number, ..)) = second {
        page.remark(2, "delete: the section is gone.");
        page.sleeping(2, &[format!("delete {number}")]);
    }
    page.remark(2, "add: a section that the code does not have. One sleeps, one that decides nothing is awake.");
    let added = format!("{}.1", edition.free);
    page.sleeping(2, &case_of("add", &added, "As the ordinance says", ground.demand.as_deref(), ground));
    page.line(2, &format!("add {} \"Whom to ask\"", edition.free));
    page.line(3, "summary \"The office answers questions about it.\"");
    page.line(3, "note \"the office says what it wants to see before piping is covered\"");
}

type Sections<'s> = [Option<&'s (String, String, Option<String>)>; 3];

/// The sections to replace, to delete and to except: three, as far as there are.
fn three(sections: &[(String, String, Option<String>)]) -> Sections<'_> {
    let first = sections.first();
    let second = sections.get(1).or(first);
    [first, second, sections.get(2).or(first)]
}

/// A section for one case, with a demand or, where there is none to make, a note.
fn case_of(action: &str, number: &str, title: &str, words: Option<&str>, ground: &Ground) -> Vec<String> {
    let demand = words.or(ground.demand.as_deref()).unwrap_or("note \"what is to be done\"");
    vec![
        format!("{action} {number} {}", quoted(title)),
        "    summary \"What it says now, in a sentence of your own.\"".to_owned(),
        format!("    where {}", ground.case),
        format!("    {demand}"),
    ]
}

fn sections(page: &mut Page, ground: &Ground) {
    page.remark(
        1,
        "A section of your own stands beside the code, and the stricter of the two governs. `where` says for which \
         jobs it is, the lines below that what they must do; without `where` it is for all. A `note` is told and \
         decides nothing.",
    );
    page.sleeping(1, &case_of("section", "2", "As the ordinance says", None, ground));
    page.line(1, "section 1 \"A copy for the office\"");
    page.line(2, "summary \"The office keeps a copy of the maker's instructions.\"");
    page.line(2, "note \"the office keeps a copy of the maker's instructions\"");
}

fn ending(page: &mut Page, ground: &Ground) {
    page.heading("What comes later");
    page.remark(
        0,
        "Rules are added and never edited into the past: a later instrument amends or repeals this one, and a job of \
         its time is still judged by it.",
    );
    let later = |day: Date| day.after(YEAR);
    page.sleeping(
        0,
        &[
            format!("instrument {} of {} \"A later ordinance\"", ground.next_id, ground.name),
            "    kind     ordinance".to_owned(),
            format!("    adopted  {}", later(ground.adopted)),
            format!("    in force from {}", later(ground.from)),
            format!("    read     \"ordinance as signed, clerk's file\" on {}", later(ground.adopted)),
            format!("    repeals  {}", ground.id),
        ],
    );
}

fn examples(page: &mut Page, ground: &Ground, example: &Example) {
    page.heading("What must come out");
    page.remark(
        0,
        "An example is a job and what its verdict must show: `proofread` runs it. Write one for the first day, one \
         for the day before, and one for each case that the ordinance tells apart. A demand behind `verdict` is the \
         answer that must come out, perhaps with `by` and the text that governs.",
    );
    page.line(0, "example \"a job on the first day\"");
    page.line(1, "job");
    page.line(2, &format!("place {}", ground.name));
    example.job.iter().for_each(|line| page.line(2, line));
    page.line(1, "verdict");
    if let Some(edition) = ground.edition.as_ref().filter(|_| example.amended) {
        page.line(2, &format!("note by {} {}", ground.id, edition.free));
    }
    page.line(2, &format!("note by {} 1", ground.id));
    if let Some(expects) = &example.expects {
        page.line(2, expects);
    }
}

fn next(page: &mut Page, ground: &Ground) {
    let plain = ground.name.rsplit('/').next().unwrap_or_default();
    page.heading("What to do next");
    page.remark(0, &format!("With this file saved as {plain}.rule:"));
    let mut step = |command: &[String], does: &str| {
        page.line(0, "#");
        command.iter().for_each(|line| page.line(0, &format!("#   {line}")));
        page.line(0, &format!("#       {does}"));
    };
    step(&[format!("groundrule proofread {plain}.rule")], "errors and doubts, and whether the examples come out");
    step(
        &[format!("groundrule proofread {plain}.rule --changes")],
        "what could be changed in it without any example noticing",
    );
    step(
        &[
            format!("groundrule effect --place {} \\", ground.name),
            format!("    --dates {},{} --rules {plain}.rule", ground.from.eve(), ground.from),
        ],
        "which jobs it changes from its first day on, and how",
    );
    step(&[format!("groundrule layout {plain}.rule")], "lays it out as every rule file is");
}
