//! What is told of single texts once every place has been looked at: GR5204 of those
//! that bind no job, GR5205 of conditions and GR5206 of exceptions that decide
//! none, GR5207 of demands that change no answer, GR5212 of what is not decided.

use super::expected::Expected;
use super::texts::{Decides, Demanded, Found, Part, Texts, short};
use crate::glossary::model::QuestionId;
use crate::review::show;
use crate::rules::Rules;
use crate::syntax::codes;
use crate::syntax::diagnostic::{Diagnostic, Location};
use std::collections::BTreeMap;

/// The findings about texts.
pub(super) fn texts(rules: &Rules, texts: &Texts, expected: &[Expected]) -> Vec<Diagnostic> {
    let by_place: BTreeMap<Location, &Expected> = expected.iter().map(|one| (one.at, one)).collect();
    let mut told = Vec::new();
    for one in expected.iter().filter(|one| !texts.contains_key(&one.at)) {
        told.push(never_law(one));
    }
    for (at, found) in texts {
        let excepts = by_place.get(at).is_some_and(|one| one.excepts);
        told.extend(exceptions(*at, found, excepts));
        let idle_exception = excepts && found.exceptions.values().all(|applies| applies.never());
        if found.binds.never() && !found.demands_nothing(excepts) && !idle_exception {
            told.push(dead(*at, found));
        }
        told.extend(conditions(rules, *at, found));
        told.extend(covered(rules, *at, found));
        told.extend(undecided(*at, found));
    }
    told
}

impl Found {
    /// Whether it is an exception alone, with nothing that could bind.
    fn demands_nothing(&self, excepts: bool) -> bool {
        excepts && self.demands.is_empty()
    }
}

fn never_law(one: &Expected) -> Diagnostic {
    match &one.amends {
        Some(text) => {
            let message = format!("{} is law for no job: {text} does not stand where it amends it", one.name);
            Diagnostic::new(codes::DEAD, one.at, message)
                .help("look whether the place adopts this text while the instrument is in force, and whether it stands long enough")
        }
        None => Diagnostic::new(codes::DEAD, one.at, format!("{} is law for no job", one.name))
            .help("look at the days of its instrument and at what ends or supersedes it"),
    }
}

fn dead(at: Location, found: &Found) -> Diagnostic {
    let (why, by) = found.why.clone().unwrap_or_default();
    let message = if why.is_empty() {
        format!("{} binds no job", found.name)
    } else {
        format!("{} binds no job: {why}", found.name)
    };
    let told = Diagnostic::new(codes::DEAD, at, message).help("leave it out, or look at its conditions and days");
    match by {
        Some(by) if by != at => told.also(by, "what stands in its way"),
        _ => told,
    }
}

fn exceptions(at: Location, found: &Found, amends: bool) -> Vec<Diagnostic> {
    let idle = found.exceptions.iter().filter(|(_, applies)| applies.never());
    let tell = |words: &String| {
        let message = match (words.is_empty(), amends) {
            (false, _) => format!("the exception of {} where `{words}` never applies", found.name),
            (true, _) => format!("{} excepts no job: its case never meets what it is an exception from", found.name),
        };
        Diagnostic::new(codes::IDLE_EXCEPTION, at, message)
            .help("look at its condition and at that of the text that it is an exception from")
    };
    // A text that binds no job has no exceptions to speak of.
    let quiet = found.binds.never() && !amends && !found.demands.is_empty();
    idle.filter(|_| !quiet).map(|(words, _)| tell(words)).collect()
}

fn conditions(rules: &Rules, at: Location, found: &Found) -> Vec<Diagnostic> {
    let mut told = Vec::new();
    let text = rules.file_text(at.file);
    let plain: String = text.split_whitespace().collect::<Vec<_>>().join(" ");
    for (words, one) in &found.wheres {
        if one.whole.decides.never() {
            let message = format!("`{words}` holds for every job that {} could bind, and narrows nothing", found.name);
            let help = "leave it out, or look whether it says what was meant";
            told.push(shown(rules, Diagnostic::new(codes::IDLE_CONDITION, at, message).help(help), &one.whole, found));
            continue;
        }
        for ((part, words), decides) in one.parts.iter().filter(|(_, decides)| decides.decides.never()) {
            // What comes from a definition stands elsewhere and serves others.
            if !plain.contains(words.as_str()) {
                continue;
            }
            let message = match part {
                Part::Needed => format!("in the condition of {}, `{words}` holds wherever the rest does", found.name),
                Part::Arm => format!("in the condition of {}, `{words}` never holds alone", found.name),
            };
            let help = match part {
                Part::Needed => "leave it out, or look whether it says what was meant",
                Part::Arm => {
                    "what stands beside it with `or` covers it, or it holds for no job: leave it out, or look whether it says what was meant"
                }
            };
            told.push(shown(rules, Diagnostic::new(codes::IDLE_CONDITION, at, message).help(help), decides, found));
        }
    }
    told
}

fn shown(rules: &Rules, told: Diagnostic, decides: &Decides, found: &Found) -> Diagnostic {
    let example = decides.job.as_ref().and_then(|(job, question)| {
        show::example(rules, job, &format!("a job that {} binds", found.name), &[*question])
    });
    told.shown_by(example)
}

fn covered(rules: &Rules, at: Location, found: &Found) -> Vec<Diagnostic> {
    // A line that speaks of several questions is of use as long as it is for one.
    let of_use = |words: &str| {
        found.demands.values().any(|demand| !demand.changes.never() && demand.words.iter().any(|own| **own == *words))
    };
    let idle: Vec<(&QuestionId, &Demanded)> = found
        .demands
        .iter()
        .filter(|(_, demand)| demand.binds.seen && demand.changes.never())
        .filter(|(_, demand)| !demand.words.iter().any(|words| of_use(words)))
        .collect();
    let tell = |(question, demand): (&QuestionId, &Demanded)| {
        let question_name = &rules.library().glossary[*question].name;
        let words: Vec<String> = demand.words.iter().map(|words| format!("`{}`", short(words))).collect();
        let beside: Vec<&str> = demand.beside.iter().map(|(_, words)| words.as_str()).collect();
        let more = if beside.is_empty() { String::new() } else { format!(" beside {}", beside.join(" and ")) };
        let message = format!("{} of {} changes no answer to `{question_name}`{more}", words.join(", "), found.name);
        let name = format!("{} beside what covers it", found.name);
        let example = demand.job.as_ref().and_then(|job| show::example(rules, job, &name, &[*question]));
        let mut told = Diagnostic::new(codes::COVERED, at, message)
            .help("what lowers an answer is a `replace`, `delete` or `except`; if it is to repeat what holds anyway, nothing is needed")
            .shown_by(example);
        for (other, words) in &demand.beside {
            told = told.also(*other, format!("here stands {words}"));
        }
        told
    };
    idle.into_iter().map(tell).collect()
}

fn undecided(at: Location, found: &Found) -> Option<Diagnostic> {
    let parts = found
        .wheres
        .values()
        .flat_map(|one| std::iter::once(&one.whole).chain(one.parts.values()).map(|decides| decides.decides));
    let demands = found.demands.values().flat_map(|demand| [demand.binds, demand.changes]);
    let open = found.binds.open()
        || found.exceptions.values().any(|applies| applies.open())
        || parts.chain(demands).any(|seen| seen.open());
    open.then(|| {
        let message = format!(
            "what {} decides could not be looked at for all jobs: there are too many to tell apart",
            found.name
        );
        Diagnostic::new(codes::UNDECIDED, at, message)
            .help("nothing is said of it here; fewer conditions on one list or set would bring it within the bound")
    })
}
