//! Adoptions: scopes, standing choices, and the editions that `newest` has meant.

use super::codes::{code_number, edition_named};
use super::{Reader, Standing};
use crate::glossary::expr::Expr;
use crate::glossary::model::SubjectId;
use crate::law::instrument::Adoption;
use crate::law::text::{Codes, EditionId};
use crate::syntax::codes as errors;
use crate::syntax::diagnostic::Diagnostic;
use crate::syntax::tree::{self, Clause};
use crate::values::{Date, Period};
use std::sync::Arc;

/// The adoptions that one line makes: one for each edition of a choice, one for
/// each edition that `newest` has ever meant.
pub(super) fn adoptions_of(
    adopts: &tree::Adopts,
    instrument: &tree::Instrument,
    codes: &Codes,
    standing: &Standing,
    reader: &mut Reader,
) -> Vec<Adoption> {
    let mut scope = Vec::new();
    if let Some(cond) = &adopts.scope {
        scope.push(reader.reach(cond, standing));
    }
    let subjects = |code: usize, reader: &mut Reader| -> Vec<SubjectId> {
        let own = codes.codes.get(code).map(|code| code.subjects.clone()).unwrap_or_default();
        if adopts.subjects.is_empty() {
            return own;
        }
        let named = reader.subjects(&adopts.subjects, standing);
        for (word, subject) in adopts.subjects.iter().zip(&named) {
            if !own.contains(subject) {
                reader.tell(
                    Diagnostic::new(
                        errors::INSTRUMENT,
                        standing.at(word.span),
                        format!("the code does not govern `{}`", word.text),
                    )
                    .help("name a subject that stands after `on` in the declaration of the code"),
                );
            }
        }
        named
    };
    if adopts.otherwise {
        let mine: Vec<SubjectId> = adopts
            .editions
            .iter()
            .filter_map(|of| code_of(of, codes))
            .flat_map(|code| subjects(code, reader))
            .collect();
        for clause in &instrument.clauses {
            let Clause::Adopts(other) = clause else { continue };
            let Some(cond) = &other.scope else { continue };
            let theirs: Vec<SubjectId> = other
                .editions
                .iter()
                .filter_map(|of| code_of(of, codes))
                .flat_map(|code| match other.subjects.is_empty() {
                    true => codes.codes.get(code).map(|code| code.subjects.clone()).unwrap_or_default(),
                    false => other.subjects.iter().filter_map(|word| reader.glossary.subject(&word.text)).collect(),
                })
                .collect();
            if theirs.iter().any(|subject| mine.contains(subject)) {
                let other = reader.reach(cond, standing);
                scope.push(Expr::Not(Box::new(other)));
            }
        }
    }
    let choice = adopts.editions.len() > 1;
    if choice {
        let names: Vec<&str> = adopts.editions.iter().map(adopted_code).map(|word| &*word.text).collect();
        let twice = names.iter().enumerate().any(|(at, name)| names.iter().take(at).any(|other| other == name));
        if twice {
            reader.tell(
                Diagnostic::new(errors::INSTRUMENT, standing.at(adopts.span), "the codes of a standing choice differ")
                    .help("let the applicant choose between two codes; a choice between editions is an `election`"),
            );
        }
        if reader.glossary.roles.code.is_none() {
            reader.tell(
                Diagnostic::new(
                    errors::INSTRUMENT,
                    standing.at(adopts.span),
                    "no fact of the glossary chooses the code",
                )
                .help("declare one of the shape `code` with `chooses the code`"),
            );
        }
    }
    let mut found = Vec::new();
    for edition in &adopts.editions {
        let Some(code) = code_number(adopted_code(edition), codes, standing, reader) else { continue };
        let subjects = subjects(code, reader);
        let mut scope = scope.clone();
        if choice && let Some(field) = reader.glossary.roles.code {
            let name: Arc<str> = Arc::from(&*adopted_code(edition).text);
            scope.push(Expr::Field(field, crate::glossary::expr::Check::Named(Arc::from(vec![name]))));
        }
        let times = match edition {
            tree::Adopted::Edition(name) => match edition_named(name, codes, standing, reader) {
                Some(id) => vec![(id, None, None)],
                None => continue,
            },
            tree::Adopted::Newest { code: word, delay } => {
                let delay = match delay {
                    Some((count, unit)) => match reader.period(count, unit, standing) {
                        Some(period) => Some(period),
                        None => continue,
                    },
                    None => None,
                };
                newest(code, word, delay, codes, standing, reader)
            }
        };
        for (id, from, before) in times {
            found.push(Adoption {
                edition: id,
                subjects: subjects.clone(),
                scope: if scope.is_empty() { Expr::Constant(true) } else { Expr::And(scope.clone()) },
                from,
                before,
                as_published: adopts.as_published,
                beside: adopts.beside.iter().map(|word| word.text.clone()).collect(),
                at: standing.at(adopts.span),
            });
        }
    }
    for word in &adopts.beside {
        code_number(word, codes, standing, reader);
    }
    found
}

fn adopted_code(adopted: &tree::Adopted) -> &tree::Word {
    match adopted {
        tree::Adopted::Edition(name) => &name.code,
        tree::Adopted::Newest { code, .. } => code,
    }
}

fn code_of(adopted: &tree::Adopted, codes: &Codes) -> Option<usize> {
    codes.by_name.get(&adopted_code(adopted).text).copied()
}

/// The editions that `newest` has meant, each with the time in which it was.
fn newest(
    code: usize,
    word: &tree::Word,
    delay: Option<Period>,
    codes: &Codes,
    standing: &Standing,
    reader: &mut Reader,
) -> Vec<(EditionId, Option<Date>, Option<Date>)> {
    let editions = codes.codes.get(code).map(|code| code.editions.clone()).unwrap_or_default();
    let mut dated: Vec<(Date, EditionId)> = editions
        .iter()
        .filter_map(|(_, id)| {
            let published = codes.edition(*id)?.published?;
            Some((delay.map_or(published, |delay| published.after(delay)), *id))
        })
        .collect();
    dated.sort();
    if dated.is_empty() {
        reader.tell(
            Diagnostic::new(
                errors::UNKNOWN_CODE,
                standing.at(word.span),
                format!("no edition of `{}` says when it was published", word.text),
            )
            .help("`newest` follows `published`: write it in the editions of the code"),
        );
    }
    let ends = dated.iter().skip(1).map(|(day, _)| Some(*day)).chain([None]);
    dated.iter().zip(ends).map(|((day, id), end)| (*id, Some(*day), end)).collect()
}
