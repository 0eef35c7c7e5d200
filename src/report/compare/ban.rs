//! What there is no use in asking of tubing that may not be used at all.

use crate::report::screen::order;
use crate::verdict::Matter;
use crate::verdict::found::State;
use crate::verdict::model::Verdict;

/// Whether the tubing of the job is prohibited.
pub(super) fn of(verdict: &Verdict<'_>, matter: &Matter<'_>) -> bool {
    verdict.answers.iter().filter(|answer| &*answer.question.name == order::USE).any(|answer| {
        let ask = matter.plan.asks.get(answer.number);
        answer.found.state == State::Settled
            && ask.zip(answer.found.value.as_ref()).is_some_and(|(ask, parts)| ask.form.at_strict_end(parts))
    })
}

/// Whether a question falls with a prohibition. The path for fault current does not: it is asked of
/// other piping too, and of whatever is put in instead.
pub(super) fn falls(question: &str) -> bool {
    order::is_of_bond(question)
}
