//! What there is no use in asking of tubing that may not be used at all.

use crate::verdict::Matter;
use crate::verdict::found::State;
use crate::verdict::model::Verdict;

/// The question whose strictest answer leaves the others without an object.
const BAN: &str = "tubing-use";

/// The questions on the bond of that tubing. The path for fault current is asked of other piping
/// too, and of whatever is put in instead.
const FALLS: &[&str] = &[
    "direct-bond",
    "attachment",
    "attachment-position",
    "clamp",
    "contact",
    "joint",
    "access",
    "jumper-size",
    "jumper-metal",
    "jumper-length",
    "splicing",
    "protection",
    "landing",
];

/// Whether the tubing of the job is prohibited.
pub(super) fn of(verdict: &Verdict<'_>, matter: &Matter<'_>) -> bool {
    verdict.answers.iter().filter(|answer| &*answer.question.name == BAN).any(|answer| {
        let ask = matter.plan.asks.get(answer.number);
        answer.found.state == State::Settled
            && ask.zip(answer.found.value.as_ref()).is_some_and(|(ask, parts)| ask.form.at_strict_end(parts))
    })
}

/// Whether a question falls with a prohibition.
pub(super) fn falls(question: &str) -> bool {
    FALLS.contains(&question)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_falls_is_the_bond_and_all_that_is_asked_only_of_it() {
        let rules = crate::Rules::shipped();
        let questions = &rules.library().glossary.questions;
        assert!(questions.iter().any(|question| &*question.name == BAN));
        for name in FALLS {
            let question = questions.iter().find(|question| &*question.name == *name);
            let question = question.unwrap_or_else(|| panic!("`{name}` is no question of the glossary"));
            assert!(*name == "direct-bond" || question.asked.is_some(), "{name}");
        }
        for question in questions.iter().filter(|question| question.asked.is_some()) {
            assert!(falls(&question.name), "{}", question.name);
        }
    }
}
