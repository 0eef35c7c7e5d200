//! Whether conditions on facts can hold together, found out by trying every
//! kind of value that they tell apart.

use crate::glossary::expr::{Check, Expr};
use crate::glossary::model::{FieldId, Shape};
use crate::law::library::Library;
use crate::values::{Date, Exact};
use std::collections::BTreeMap;
use std::sync::Arc;

/// How many combinations of values are tried at most.
const MOST: usize = 4096;

/// A value that stands for all that the conditions do not tell from it.
#[derive(Clone, Debug, PartialEq)]
enum Sample {
    Term(u16),
    Amount(Exact),
    Day(Date),
    Name(Arc<str>),
}

/// Whether all conditions can hold for one job. Nothing where that is not found
/// out: where they look into lists, at answers or at distances between dates, or
/// tell too many cases apart.
pub(super) fn meet(library: &Library, conditions: &[&Expr]) -> Option<bool> {
    let mut samples: BTreeMap<FieldId, Vec<Sample>> = BTreeMap::new();
    for field in conditions.iter().flat_map(|cond| cond.fields()) {
        if let std::collections::btree_map::Entry::Vacant(slot) = samples.entry(field) {
            slot.insert(samples_of(library, field, conditions)?);
        }
    }
    let mut plain = true;
    for cond in conditions {
        cond.walk(&mut |part| {
            plain &= matches!(part, Expr::Constant(_) | Expr::And(_) | Expr::Or(_) | Expr::Not(_) | Expr::Field(..));
        });
    }
    let cases = samples.values().try_fold(1usize, |cases, values| cases.checked_mul(values.len()))?;
    if !plain || cases > MOST {
        return None;
    }
    Some((0..cases).any(|case| {
        let mut rest = case;
        let job: BTreeMap<FieldId, &Sample> = samples
            .iter()
            .filter_map(|(field, values)| {
                let value = values.get(rest.checked_rem(values.len())?)?;
                rest /= values.len();
                Some((*field, value))
            })
            .collect();
        conditions.iter().all(|cond| holds(cond, &job))
    }))
}

/// The values of a fact that the conditions tell apart.
fn samples_of(library: &Library, field: FieldId, conditions: &[&Expr]) -> Option<Vec<Sample>> {
    let mut checks: Vec<&Check> = Vec::new();
    for cond in conditions {
        cond.walk(&mut |part| {
            if let Expr::Field(of, check) = part
                && *of == field
            {
                checks.push(check);
            }
        });
    }
    let (mut amounts, mut days, mut names, mut terms) = (Vec::new(), Vec::new(), Vec::new(), false);
    for check in checks {
        match check {
            Check::Among(_) => terms = true,
            Check::AtLeast(of) | Check::AtMost(of) | Check::Over(of) | Check::Under(of) => amounts.push(*of),
            Check::Before(day) | Check::From(day) => days.push(*day),
            Check::Named(of) => names.extend(of.iter().cloned()),
            Check::Includes(_) | Check::Within(..) => return None,
        }
    }
    let mut found: Vec<Sample> = Vec::new();
    if terms {
        let count = match library.glossary[field].shape {
            Shape::YesNo => 2,
            Shape::Choice(choice) => library.glossary[choice].terms.len(),
            _ => return None,
        };
        found.extend((0..count as u16).map(Sample::Term));
    }
    if !amounts.is_empty() {
        amounts.sort();
        amounts.dedup();
        let (one, two) = (Exact::from_integer(1), Exact::from_integer(2));
        found.extend(amounts.first().map(|least| Sample::Amount(least / two)));
        found.extend(amounts.iter().map(|amount| Sample::Amount(*amount)));
        let between = amounts.iter().zip(amounts.iter().skip(1)).map(|(low, high)| Sample::Amount((low + high) / two));
        found.extend(between);
        found.extend(amounts.last().map(|most| Sample::Amount(most + one)));
    }
    for day in days {
        found.extend([Sample::Day(day.eve()), Sample::Day(day)]);
    }
    if !names.is_empty() {
        found.extend(names.into_iter().map(Sample::Name));
        // No name of a rule file is empty.
        found.push(Sample::Name(Arc::from("")));
    }
    Some(found)
}

fn holds(cond: &Expr, job: &BTreeMap<FieldId, &Sample>) -> bool {
    match cond {
        Expr::Constant(holds) => *holds,
        Expr::And(parts) => parts.iter().all(|part| holds(part, job)),
        Expr::Or(parts) => parts.iter().any(|part| holds(part, job)),
        Expr::Not(part) => !holds(part, job),
        Expr::Field(field, check) => match (check, job.get(field)) {
            (Check::Among(terms), Some(Sample::Term(term))) => terms.has(*term),
            (Check::AtLeast(of), Some(Sample::Amount(amount))) => amount >= of,
            (Check::AtMost(of), Some(Sample::Amount(amount))) => amount <= of,
            (Check::Over(of), Some(Sample::Amount(amount))) => amount > of,
            (Check::Under(of), Some(Sample::Amount(amount))) => amount < of,
            (Check::Before(of), Some(Sample::Day(day))) => day < of,
            (Check::From(of), Some(Sample::Day(day))) => day >= of,
            (Check::Named(of), Some(Sample::Name(name))) => of.contains(name),
            _ => false,
        },
        _ => false,
    }
}
