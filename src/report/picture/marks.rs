//! How each element stands before the rules: which questions are about which
//! element, and the mark and the words of each finding.

use super::bond::Jumper;
use crate::report::facts::Facts;
use crate::report::screen::order;
use crate::report::speech::Reader;
use crate::verdict::found::{Finding, State};
use crate::verdict::model::{Answered, Role, Verdict};

/// How something stands, the graver last.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub(super) enum Mark {
    Nothing,
    Met,
    /// Of a jumper that is required and not there yet.
    Due,
    Open,
    Refer,
    Conflict,
    NotMet,
}

impl Mark {
    /// Every one.
    #[cfg(test)]
    pub(super) const ALL: [Mark; 7] =
        [Mark::Nothing, Mark::Met, Mark::Due, Mark::Open, Mark::Refer, Mark::Conflict, Mark::NotMet];

    /// Its words.
    pub(super) fn words(self, reader: Reader) -> String {
        match self {
            Mark::Nothing => reader.say("picture-mark-nothing"),
            Mark::Met => reader.say("picture-mark-met"),
            Mark::Due => reader.say("picture-mark-due"),
            Mark::Open => reader.say("picture-mark-open"),
            Mark::Refer => reader.say("picture-mark-refer"),
            Mark::Conflict => reader.say("picture-mark-conflict"),
            Mark::NotMet => reader.say("picture-mark-not-met"),
        }
    }

    /// The name of its look.
    pub(super) fn name(self) -> &'static str {
        match self {
            Mark::Nothing => "nothing",
            Mark::Met => "met",
            Mark::Due => "due",
            Mark::Open => "open",
            Mark::Refer => "refer",
            Mark::Conflict => "conflict",
            Mark::NotMet => "not-met",
        }
    }

    /// The mark of an answer; nothing where no rule asks it of this job.
    fn of(answer: &Answered<'_>) -> Mark {
        let found = &answer.found;
        if !found.asked || found.state == State::Silent {
            return Mark::Nothing;
        }
        match (found.finding, found.state) {
            (Some(Finding::NotMet), _) => Mark::NotMet,
            (_, State::Conflict) => Mark::Conflict,
            (_, State::Referred) => Mark::Refer,
            (Some(Finding::Open), _) if found.no_equivalent => Mark::Refer,
            (Some(Finding::Open), _) | (_, State::Open) => Mark::Open,
            (Some(Finding::Met), _) => Mark::Met,
            (None, _) => Mark::Nothing,
        }
    }

    /// The mark of an answer to what a jumper has to be that is required and still to be put in: the rules hold
    /// nothing against it, and whoever puts it in goes by them.
    fn of_missing(answer: &Answered<'_>, facts: Facts<'_, '_>) -> Mark {
        match answer.found.state {
            State::Silent => Mark::Nothing,
            State::Conflict => Mark::Conflict,
            State::Referred => Mark::Refer,
            State::Settled if loosest(answer, facts) => Mark::Nothing,
            State::Settled | State::Open => Mark::Due,
        }
    }
}

/// Whether an answer is settled, or left to the authority, at what asks least.
pub(super) fn loosest(answer: &Answered<'_>, facts: Facts<'_, '_>) -> bool {
    let form = facts.matter.plan.asks.get(answer.number).map(|ask| &ask.form);
    answer.found.value.as_ref().zip(form).is_some_and(|(parts, form)| form.is_loosest(parts))
}

/// What of a job findings are shown at.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub(super) enum Part {
    Runs,
    Appliances,
    Clamp,
    Wire,
    Landing,
    Electrodes,
}

/// The question whether there is a path for fault current.
pub(super) const PATH: &str = "equipment-bond";

/// Where the finding of each question of the shipped glossary is shown; nowhere for
/// what cannot be drawn. Questions of other rule files are not drawn either.
const TABLE: &[(&str, Option<Part>)] = &[
    ("tubing-use", Some(Part::Runs)),
    ("direct-bond", Some(Part::Wire)),
    (PATH, Some(Part::Appliances)),
    ("attachment", Some(Part::Clamp)),
    ("attachment-position", Some(Part::Clamp)),
    ("clamp", Some(Part::Clamp)),
    ("contact", Some(Part::Clamp)),
    ("access", Some(Part::Clamp)),
    ("jumper-size", Some(Part::Wire)),
    ("jumper-metal", Some(Part::Wire)),
    ("jumper-length", Some(Part::Wire)),
    ("splicing", Some(Part::Wire)),
    ("protection", Some(Part::Wire)),
    ("joint", Some(Part::Wire)),
    ("landing", Some(Part::Landing)),
    ("electrode-use", Some(Part::Electrodes)),
    ("retrofit", None),
    ("performer", None),
    ("permits", None),
    ("inspection", None),
    ("report", None),
];

/// Where a question's finding is shown: a path for fault current is the jumper where no appliance has a circuit, and
/// what is asked of a jumper that is not there stands where it is asked for.
fn part(question: &str, jumper: Option<&Jumper>) -> Option<Part> {
    let part = TABLE.iter().find(|(name, _)| *name == question).and_then(|(_, part)| *part);
    match part {
        Some(Part::Clamp | Part::Landing) if jumper.is_some_and(|jumper| !jumper.stated()) => Some(Part::Wire),
        Some(Part::Appliances) if question == PATH && jumper.is_some_and(|jumper| jumper.alone) => Some(Part::Wire),
        part => part,
    }
}

/// One finding in words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Line {
    pub(super) mark: Mark,
    /// The question as it was published.
    pub(super) title: String,
    /// What the rules ask, and what the job has.
    pub(super) answer: String,
    /// The texts that govern, each once.
    pub(super) cited: Vec<String>,
}

impl Line {
    /// `not met: Length of the bonding jumper – at most 75 ft; the job has 26 m`
    pub(super) fn words(&self, reader: Reader) -> String {
        let mark = self.mark.words(reader);
        if self.answer.is_empty() {
            reader.say_with("picture-finding", &[("mark", &mark), ("title", &self.title)])
        } else {
            let parts = [("mark", &*mark), ("title", &*self.title), ("answer", &*self.answer)];
            reader.say_with("picture-finding-answer", &parts)
        }
    }
}

/// The findings on one part, the gravest first, then in the order of the work. What
/// nothing is asked of is left out.
pub(super) fn lines(verdict: &Verdict<'_>, facts: Facts<'_, '_>, jumper: Option<&Jumper>, of: Part) -> Vec<Line> {
    let missing = jumper.is_some_and(|jumper| !jumper.stated());
    let mark = |answer: &Answered<'_>| match Mark::of(answer) {
        Mark::Nothing if missing && of == Part::Wire && !answer.found.asked => Mark::of_missing(answer, facts),
        mark => mark,
    };
    let mut answers: Vec<(Mark, &Answered<'_>)> = verdict
        .answers
        .iter()
        .filter(|answer| part(&answer.question.name, jumper) == Some(of))
        .map(|answer| (mark(answer), answer))
        .filter(|(mark, _)| *mark != Mark::Nothing)
        .collect();
    answers.sort_by_key(|(mark, answer)| (std::cmp::Reverse(*mark), order::rank(&answer.question.name)));
    answers.into_iter().map(|(mark, answer)| line(mark, answer, verdict, facts)).collect()
}

fn line(mark: Mark, answer: &Answered<'_>, verdict: &Verdict<'_>, facts: Facts<'_, '_>) -> Line {
    let reader = facts.reader;
    let question = answer.question;
    let title = if question.title.is_empty() { question.name.to_string() } else { question.title.to_string() };
    let asks = match (&answer.value, &answer.between) {
        // What is left to the authority is not free because nothing else is asked.
        (Some(_), _) if answer.found.state == State::Referred && loosest(answer, facts) => None,
        (Some(value), _) => Some(reader.value(value)),
        (None, Some((low, high))) if low == high => Some(reader.value(low)),
        (None, Some((low, high))) => {
            let (low, high) = (reader.value(low), reader.value(high));
            Some(reader.say_with("picture-either", &[("low", &low), ("high", &high)]))
        }
        (None, None) => None,
    };
    let has = question.measures.and_then(|field| reader.given(facts.matter.fact(field), field, &facts.matter.lexicon));
    let metal = question
        .per
        .and_then(|(field, _)| reader.given(facts.matter.fact(field), field, &facts.matter.lexicon))
        .map_or_else(String::new, |metal| format!(" {metal}"));
    let has = has.map(|has| reader.say_with("picture-job-has", &[("fact", &format!("{has}{metal}"))]));
    let parts: Vec<String> = asks.into_iter().chain(has).collect();
    let mut cited: Vec<String> = Vec::new();
    for reason in answer.because.iter().filter(|reason| reason.role == Role::Governs) {
        let text = reader.cite_short(reason.source, &verdict.codes);
        if !cited.contains(&text) {
            cited.push(text);
        }
    }
    Line { mark, title, answer: parts.join("; "), cited }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_question_of_the_shipped_glossary_has_its_place_in_the_table() {
        let rules = crate::Rules::shipped();
        let mut names: Vec<&str> = rules.library().glossary.questions.iter().map(|question| &*question.name).collect();
        let mut table: Vec<&str> = TABLE.iter().map(|(name, _)| *name).collect();
        names.sort_unstable();
        table.sort_unstable();
        assert_eq!(names, table);
    }

    #[test]
    fn every_mark_has_words_of_its_own() {
        for language in crate::report::speech::Language::ALL {
            let reader = Reader { language, ..Reader::default() };
            let mut words: Vec<String> = Mark::ALL.iter().map(|mark| mark.words(reader)).collect();
            words.sort();
            words.dedup();
            assert_eq!(words.len(), Mark::ALL.len());
        }
    }
}
