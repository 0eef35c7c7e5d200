//! What a job says of what an answer is about, what it leaves unsaid, and what it goes
//! against of what is only advised.

use super::Missing;
use super::answers::title;
use crate::glossary::model::{FieldId, Met};
use crate::law::model::Effect;
use crate::report::screen::words::spoken;
use crate::report::speech::Reader;
use crate::verdict::model::{Answered, Edition};
use crate::verdict::{Matter, goes_against};

/// The facts that show whether an answer is done, where it is not measured; nothing where
/// entries of a list could show it as well.
pub(super) fn shown_by(answer: &Answered<'_>, matter: &Matter<'_>) -> Option<Vec<FieldId>> {
    let Some(Met::Where(condition)) = &answer.question.met else { return None };
    let fields = condition.fields();
    fields.iter().all(|field| matter.lexicon.list_of(*field).is_none()).then_some(fields)
}

/// What the job itself says of what an answer is about, whether or not it is held against it.
pub(crate) fn own(answer: &Answered<'_>, matter: &Matter<'_>, reader: Reader) -> Option<String> {
    let said = |field: FieldId| reader.given(matter.fact(field), field, &matter.lexicon);
    if let Some(field) = answer.question.measures {
        let has = said(field)?;
        let metal = answer.question.per.and_then(|(per, _)| said(per));
        return Some(metal.map_or_else(|| has.clone(), |metal| format!("{has} {metal}")));
    }
    let fields = shown_by(answer, matter)?.into_iter();
    let told = fields.filter_map(|field| Some(format!("{}: {}", called(field, matter), said(field)?)));
    let told: Vec<String> = told.collect();
    (!told.is_empty()).then(|| told.join("; "))
}

/// The printed name of a fact.
fn called(field: FieldId, matter: &Matter<'_>) -> String {
    matter.lexicon.field(field).map_or_else(String::new, |known| {
        if known.title.is_empty() { spoken(&known.path) } else { known.title.to_string() }
    })
}

/// What the job goes against of what is only advised, each with the section.
pub(super) fn against(
    answers: &[&Answered<'_>],
    matter: &Matter<'_>,
    codes: &[Edition<'_>],
    reader: Reader,
) -> Vec<String> {
    let mut told: Vec<String> = Vec::new();
    for answer in answers {
        let (Some(ask), Some(law)) = (matter.plan.asks.get(answer.number), matter.law.questions.get(answer.number))
        else {
            continue;
        };
        let Some(field) = answer.question.measures else { continue };
        let term = answer.question.per.map(|(per, _)| matter.fact(per));
        for reason in answer.advice.iter().filter(|reason| reason.condition.is_none()) {
            let Effect::Demand(demand) = &reason.provision.effect else { continue };
            if goes_against(ask, law, demand, term, matter.fact(field)) {
                let words =
                    if reason.source.summary.is_empty() { &reason.provision.words } else { &reason.source.summary };
                let has = own(answer, matter, reader).unwrap_or_default();
                let has = reader.say_with("sheet-job-has", &[("value", &has)]);
                told.push(format!("{}; {has}: {words} [{}]", title(answer), reader.cite_short(reason.source, codes)));
            }
        }
    }
    told
}

/// The facts that an answer and its finding hang on, each also as a person calls it.
pub(super) fn missing(answer: &Answered<'_>, matter: &Matter<'_>, reader: Reader) -> Vec<Missing> {
    let mut facts: Vec<Missing> = answer
        .found
        .asks
        .iter()
        .map(|path| Missing { fact: path.write(&matter.lexicon), title: reader.fact(path, matter) })
        .collect();
    facts.sort_by(|one, two| one.fact.cmp(&two.fact));
    facts
}
