//! Rungs of ladders: the next stricter and the next looser one.

use super::tape::Tape;
use crate::syntax::tree::{Span, Word};

const HELP: &str = "add an example in which this text governs, with the rung behind `verdict`";

pub(super) fn rung(question: &str, rung: &mut Word, span: Span, tape: &mut Tape<'_>) {
    let rungs = tape.ladder(question);
    let Some(at) = rungs.iter().position(|known| *known == rung.text) else { return };
    let next = [at.checked_sub(1), Some(at + 1)].into_iter().flatten();
    for other in next.filter_map(|at| rungs.get(at)) {
        if tape.offer(span, HELP, |tape| format!("{} → `is {other}`", tape.quoted(span))) {
            rung.text = other.clone();
            return;
        }
    }
}
