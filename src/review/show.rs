//! A job that shows a finding, written as an `example` block in the language.

use crate::glossary::model::QuestionId;
use crate::job::model::Job;
use crate::job::to_sheet;
use crate::review::examples::expectation;
use crate::rules::Rules;
use crate::syntax::words::quoted;
use crate::verdict::Scratch;

/// How wide a block is.
const WIDTH: usize = 80;

/// The example of a job, with what its verdict says of some questions and what
/// comes out; nothing where the job has no verdict.
pub(crate) fn example(rules: &Rules, job: &Job, name: &str, questions: &[QuestionId]) -> Option<String> {
    let matter = rules.matter(job).ok()?;
    let verdict = rules.weighed(&matter, &mut Scratch::default());
    let mut lines: Vec<String> = Vec::new();
    for question in questions {
        let known = matter.lexicon.question(*question)?;
        let answer = verdict.answers.iter().find(|answer| std::ptr::eq(answer.question, known))?;
        lines.extend(expectation(answer));
    }
    lines.push(format!("outcome {}", verdict.outcome.word()));
    let mut text = String::new();
    block(name, &to_sheet(job, rules.desk()), &lines).lines().for_each(|line| broken(line, &mut text));
    Some(text)
}

/// The text of an example with a job sheet and what is expected, a line for each.
pub(crate) fn block(name: &str, sheet: &str, expected: &[String]) -> String {
    let mut text = format!("example {}\n", quoted(name));
    sheet.lines().for_each(|line| text.push_str(&format!("    {line}\n")));
    text.push_str("    verdict\n");
    expected.iter().for_each(|line| text.push_str(&format!("        {line}\n")));
    text
}

/// A line over several where it is long; blanks and line ends are the same to the
/// language, inside a text in quotes they are not.
fn broken(line: &str, text: &mut String) {
    let lead = line.len() - line.trim_start().len();
    if line.chars().count() <= WIDTH || line.contains('"') {
        text.push_str(line);
        text.push('\n');
        return;
    }
    let deeper = " ".repeat(lead + 4);
    let mut at = " ".repeat(lead);
    let mut empty = true;
    for word in whole(line) {
        if !empty && at.chars().count() + 1 + word.chars().count() > WIDTH {
            text.push_str(&at);
            text.push('\n');
            at = deeper.clone();
            empty = true;
        }
        if !empty {
            at.push(' ');
        }
        at.push_str(&word);
        empty = false;
    }
    text.push_str(&at);
    text.push('\n');
}

/// The words of a line, a figure together with its unit, which stand on one line.
fn whole(line: &str) -> Vec<String> {
    let mut words: Vec<String> = Vec::new();
    let mut figure = false;
    for word in line.split_whitespace() {
        match words.last_mut().filter(|_| figure) {
            Some(last) => {
                last.push(' ');
                last.push_str(word);
            }
            None => words.push(word.to_owned()),
        }
        figure = word.starts_with(|letter: char| letter.is_ascii_digit());
    }
    words
}
