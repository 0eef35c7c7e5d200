//! Which kinds of names can stand where the cursor stands: by the words before it,
//! and where these leave it open by what the grammar expects.

use super::names::Names;
use super::tokens::{Tokens, is_figure};
use crate::syntax::Expected;

/// A kind of names.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Wanted<'t> {
    /// Attributes of the list at hand, facts, ladder questions and definitions.
    Tested,
    /// Facts alone.
    Facts,
    /// Facts that are dates.
    Dates,
    /// What a job says: facts and lists.
    JobFacts,
    /// Attributes of a list or record.
    Attributes(&'t str),
    Lists,
    /// What a fact, or a question's answer, is said to be.
    Values(&'t str),
    /// The terms that a demand on a question names.
    TermsOf(&'t str),
    /// The terms by which a question is asked one by one.
    TermsPer(&'t str),
    /// The terms of a choice by its name.
    TermsIn(&'t str),
    Questions,
    Subjects,
    Choices,
    Places,
    Issuers,
    Instruments,
    Codes,
    Editions,
    /// The years of a code's editions.
    Years(&'t str),
    /// The sections of the text that is amended or revised.
    Sections,
    /// The sections and patches of an instrument.
    SectionsOf(&'t str),
    /// Certain words.
    Words(&'static [&'static str]),
    Kinds,
    ErrorCodes,
}

/// What can stand behind these words.
pub(super) fn wanted<'t>(tokens: &Tokens<'t>, expected: Option<&Expected>, names: &Names<'_, '_>) -> Vec<Wanted<'t>> {
    let by_words = behind(tokens, names);
    if !by_words.is_empty() {
        return by_words;
    }
    let Some(expected) = expected else { return Vec::new() };
    let word = |word: &str| expected.words().any(|known| known == word);
    let part = |part: &str| expected.parts().any(|known| known == part);
    let mut found = Vec::new();
    if part("a condition") {
        found.push(Wanted::Tested);
    }
    // Where a section's note may stand, a demand may; where an outcome, an expectation.
    if part("a name") && (word("note") && word("refer") || word("outcome")) {
        found.push(Wanted::Questions);
    }
    // The lines of a job.
    if part("a name") && word("reference") && tokens.first() != "place" {
        found.push(Wanted::JobFacts);
    }
    if let Some(list) = tokens.list().filter(|_| tokens.in_entry() && part("a name")) {
        found.push(Wanted::Attributes(list));
    }
    found
}

/// What the words just before the cursor ask for.
fn behind<'t>(tokens: &Tokens<'t>, names: &Names<'_, '_>) -> Vec<Wanted<'t>> {
    let back = |places| tokens.back(places);
    let item = tokens.first();
    let head = tokens.list_head();
    let (lead, before) = (back(head), back(head + 1));
    // Lists of values and terms, at their beginning or behind a comma.
    match lead {
        "is" | "includes" => return vec![Wanted::Values(before)],
        "not" if before == "is" => return vec![Wanted::Values(back(head + 2))],
        "of" if before == "any" => {
            let subject = match back(head + 2) {
                "not" => back(head + 4),
                _ => back(head + 3),
            };
            return vec![Wanted::Values(subject)];
        }
        "of" if before == "all" && item == "question" => return vec![Wanted::Choices],
        "of" if matches!(before, "all" | "none") => return vec![Wanted::TermsOf(back(head + 2))],
        "only" if item == "question" => return vec![Wanted::Choices],
        "only" => return vec![Wanted::TermsOf(before)],
        "for" => return for_what(tokens, head),
        "on" => return on_what(tokens, head),
        "refer" | "contrary" => return vec![Wanted::Questions],
        "to" if before == "contrary" => return vec![Wanted::Questions],
        "preempts" | "floor" | "ceiling" => return vec![Wanted::Questions, Wanted::Subjects],
        "knowingly" => return vec![Wanted::ErrorCodes],
        "beside" => return vec![Wanted::Codes],
        "over" if before == "prevails" => return vec![Wanted::Codes, Wanted::Words(&["instructions"])],
        _ => {}
    }
    // A job's value, of which a set has several.
    if (item == "example" || item.is_empty() || names.is_job())
        && !lead.is_empty()
        && lead != "job"
        && lead != "verdict"
    {
        let in_job = tokens.nearest(&["job", "verdict"]).is_none_or(|(word, _)| word == "job");
        if in_job && lead == "place" {
            return vec![Wanted::Places];
        }
        if in_job && names.is_fact(lead) {
            return vec![Wanted::Values(lead), Wanted::Words(&["unknown"])];
        }
        if in_job && lead == "{" {
            return tokens.list().map(Wanted::Attributes).into_iter().collect();
        }
    }
    match back(0) {
        "where" | "and" | "or" | "(" if !(back(0) == "or" && adopting(tokens)) => {
            match tokens.nearest(&["between", "place"]) {
                // `between D and D`
                Some(("between", 2)) => Vec::new(),
                _ => vec![Wanted::Tested],
            }
        }
        "not" => vec![Wanted::Tested],
        "any" | "no" if back(1) != "is" && back(1) != "includes" && back(1) != "not" && item != "code" => {
            vec![Wanted::Lists]
        }
        "adopts" | "revises" => vec![Wanted::Editions],
        "or" => vec![Wanted::Editions],
        "amend" => vec![Wanted::Editions, Wanted::Instruments],
        "as" if back(1) != "known" && back(1) != "numbered" => vec![Wanted::Editions, Wanted::Words(&["published"])],
        "replace" | "except" | "delete" | "reads" | "renumber" => vec![Wanted::Sections],
        "repeals" | "suspends" => vec![Wanted::Instruments],
        "within" if item == "place" => vec![Wanted::Places],
        "of" if item == "instrument" => vec![Wanted::Issuers],
        "in" if matches!(item, "fact" | "list" | "record" | "question" | "extend") => vec![Wanted::Places],
        "by" if matches!(back(1), "least" | "most") => Vec::new(),
        "by" if item == "example" => vec![Wanted::Instruments],
        "by" if matches!(tokens.nearest(&["table", "force", "election", "dates"]), Some((word, _)) if word != "table") =>
        {
            vec![Wanted::Dates]
        }
        "after" => vec![Wanted::Dates],
        "by" | "measures" | "per" => vec![Wanted::Facts],
        "before" if back(1) == "never" => vec![Wanted::Dates],
        "gives"
            if tokens.nearest(&["table"]).is_some()
                && !is_figure(back(1))
                && tokens.nearest(&["through", "over"]).is_none_or(|(_, far)| far >= 4) =>
        {
            vec![Wanted::Questions]
        }
        "say" => vec![Wanted::Questions],
        "kind" if item == "instrument" => vec![Wanted::Kinds],
        "status" if item == "instrument" => vec![Wanted::Words(&["proposed", "enacted"])],
        "extend" => vec![Wanted::Choices],
        "several" => vec![Wanted::Choices],
        "under" if item == "choice" => tokens.behind("choice").map(Wanted::TermsIn).into_iter().collect(),
        "under" if item == "extend" => tokens.behind("extend").map(Wanted::TermsIn).into_iter().collect(),
        "outcome" => vec![Wanted::Words(&["complies", "open", "refer", "conflict", "corrections"])],
        "table" if back(1) == "by" => vec![Wanted::Sections, Wanted::Codes],
        name if item == "fact" && back(1) == "fact" && !name.is_empty() => {
            vec![Wanted::Words(crate::syntax::words::SHAPES), Wanted::Choices]
        }
        word => last(tokens, word),
    }
}

/// What stands behind a code or an instrument's id.
fn last<'t>(tokens: &Tokens<'t>, word: &'t str) -> Vec<Wanted<'t>> {
    let back = |places| tokens.back(places);
    if matches!(back(1), "adopts" | "amend" | "revises" | "as" | "or" | "edition") && is_code(word) {
        return vec![Wanted::Years(word)];
    }
    if back(1) == "suspends" {
        return vec![Wanted::SectionsOf(word)];
    }
    if back(1) == "by" && tokens.first() == "example" {
        return vec![Wanted::SectionsOf(word)];
    }
    if back(1) == "of" && back(3) == "suspends" {
        return vec![Wanted::SectionsOf(back(2))];
    }
    if is_figure(word) && is_code(back(1)) && back(2) == "as" {
        return vec![Wanted::Sections];
    }
    Vec::new()
}

/// What a list of `for` names: subjects of an adoption, terms of a limit.
fn for_what<'t>(tokens: &Tokens<'t>, head: usize) -> Vec<Wanted<'t>> {
    match tokens.nearest(&["adopts", "least", "most", "gives"]) {
        Some(("adopts", _)) => vec![Wanted::Subjects],
        Some(("gives", far)) => vec![Wanted::TermsPer(tokens.back(far.saturating_sub(1)))],
        // `jumper-size at least 6 AWG for`
        Some((_, far)) if far >= head => vec![Wanted::TermsPer(tokens.back(far + 2))],
        _ => Vec::new(),
    }
}

/// What a list of `on` names: subjects, or questions behind words that ask for them.
fn on_what<'t>(tokens: &Tokens<'t>, head: usize) -> Vec<Wanted<'t>> {
    match (tokens.back(head + 1), tokens.back(head + 2)) {
        ("bind", _) | (_, "unread") => vec![Wanted::Questions],
        ("open", _) => vec![Wanted::JobFacts],
        _ if tokens.nearest(&["prevails", "section", "amend", "read"]).is_some_and(|(word, _)| word == "prevails") => {
            vec![Wanted::Questions]
        }
        // A day follows where something was read.
        (text, "read") if text.starts_with('"') => Vec::new(),
        _ => vec![Wanted::Subjects],
    }
}

/// Whether the words before belong to an adoption, whose `or` joins editions.
fn adopting(tokens: &Tokens<'_>) -> bool {
    is_figure(tokens.back(1)) && is_code(tokens.back(2)) && matches!(tokens.back(3), "adopts" | "or")
}

fn is_code(word: &str) -> bool {
    word.bytes().next().is_some_and(|byte| byte.is_ascii_uppercase())
        && word.bytes().all(|byte| byte.is_ascii_uppercase() || byte.is_ascii_digit() || byte == b'-')
}
