//! A job that shows a change: how each side judges it, and the example that a rule
//! file can keep of it.

use super::{Frame, Witness};
use crate::glossary::model::Shape;
use crate::job::model::{Given, Job};
use crate::law::model::Fate;
use crate::report::sheet::reasons::became;
use crate::report::speech::Reader;
use crate::review::effect::{Bench, Side};
use crate::review::examples::expectation;
use crate::review::show::block;
use crate::verdict::model::{Answered, Role, Verdict};
use crate::verdict::{Matter, Scratch};

/// A job of a change as one side knows it, all its dates being the side's day where
/// one is given.
pub(super) fn own(bench: &Bench<'_>, job: &Job, number: usize, side: Side<'_>) -> Job {
    let mut own = bench.job(job, number, side);
    let Some(day) = side.on else { return own };
    let glossary = &side.rules.library().glossary;
    for (field, value) in glossary.fields.iter().zip(&mut own.values) {
        let listed = field.group.is_some_and(|group| glossary[group].list);
        if field.shape == Shape::Date && !listed && *value == Given::Unknown && known(side, field.scope) {
            *value = Given::Date(day);
        }
    }
    own
}

fn known(side: Side<'_>, scope: crate::glossary::model::Scope) -> bool {
    scope.is_none_or(|place| side.rules.library().places.path(side.place).contains(&place))
}

/// The witness of a change of one question.
pub(super) fn witness(
    bench: &Bench<'_>,
    frame: &Frame<'_>,
    job: &Job,
    question: &str,
    about: &str,
    scratch: &mut Scratch,
) -> Option<Witness> {
    let reader = frame.reader;
    let [before, after] = frame.sides;
    let first = own(bench, job, 0, before);
    let earlier = judged(before, &first, question, scratch, |answer, _, _| governing(answer, reader))?;
    let second = own(bench, job, 1, after);
    let (example, later) = judged(after, &second, question, scratch, |answer, verdict, _| {
        let sheet = crate::job::to_sheet(&second, after.rules.desk());
        let expected = expectation(answer).unwrap_or_else(|| format!("outcome {}", verdict.outcome.word()));
        (block(about, &sheet, &[expected]), governing(answer, reader))
    })?;
    Some(Witness { example, by: [earlier, later] })
}

fn judged<R>(
    side: Side<'_>,
    job: &Job,
    question: &str,
    scratch: &mut Scratch,
    look: impl FnOnce(&Answered<'_>, &Verdict<'_>, &Matter<'_>) -> R,
) -> Option<R> {
    let matter = side.rules.matter(job).ok()?;
    let verdict = side.rules.weighed(&matter, scratch);
    let answer = verdict.answers.iter().find(|answer| *answer.question.name == *question)?;
    Some(look(answer, &verdict, &matter))
}

/// The texts that govern an answer, each once.
fn governing(answer: &Answered<'_>, reader: Reader) -> Vec<String> {
    let mut texts: Vec<String> = Vec::new();
    for reason in answer.because.iter().filter(|reason| reason.role == Role::Governs) {
        let text = reader.cite(reason.source);
        if !texts.contains(&text) {
            texts.push(text);
        }
    }
    // Where nothing governs, a text that would have and who set it aside.
    if texts.is_empty() {
        for reason in &answer.set_aside {
            if let (Role::SetAside(fate), Some(by)) = (reason.role, reason.by)
                && !matches!(fate, Fate::NotInForce | Fate::PassedOver | Fate::Superseded)
            {
                let (text, by) = (reader.cite(reason.source), reader.cite(by));
                let parts = [("text", &*text), ("role", &*became(fate, reader)), ("by", &*by)];
                let text = reader.say_with("effect-role-by", &parts);
                if !texts.contains(&text) {
                    texts.push(text);
                }
            }
        }
        texts.truncate(1);
    }
    texts
}
