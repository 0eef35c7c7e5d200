//! The unknown facts that a question reads, in the order of their names, each
//! with its cells.

use super::cells::{TooMany, cells};
use super::cone::Cone;
use super::dates::Calendar;
use super::limits::UNKNOWN_FACTS;
use super::lists::Sets;
use super::paths::{Path, Told};
use super::truth::Matter;
use crate::glossary::model::{FieldId, GroupId, Shape};
use crate::job::model::Given;
use std::collections::BTreeMap;
use std::sync::Arc;

/// What an unknown fact can be.
#[derive(Clone, Debug)]
pub(crate) enum Cells {
    Values(Arc<[Given]>),
    Sets(Arc<Sets>),
    InForce,
}

impl Cells {
    /// How many they are.
    pub(crate) fn count(&self) -> u128 {
        match self {
            Cells::Values(values) => values.len() as u128,
            Cells::Sets(sets) => sets.sets.len() as u128,
            Cells::InForce => 2,
        }
    }
}

/// One unknown fact.
#[derive(Clone, Debug)]
pub(crate) struct Variable {
    pub(crate) path: Path,
    pub(crate) cells: Cells,
    /// Whether the answer reads it, and not only the finding.
    pub(crate) answer: bool,
}

impl Variable {
    /// What a witness says of it where it lies in this cell.
    pub(crate) fn told(&self, cell: usize) -> Told {
        match &self.cells {
            Cells::Values(values) => Told::Value(self.path, values.get(cell).cloned().unwrap_or_default()),
            Cells::Sets(sets) => {
                let set = sets.sets.get(cell).map_or(&[][..], Vec::as_slice);
                Told::Entries(self.path, set.iter().filter_map(|kind| sets.kinds.get(*kind)).cloned().collect())
            }
            Cells::InForce => Told::InForce(if let Path::Span(span) = self.path { span } else { 0 }, cell == 1),
        }
    }
}

/// The unknown facts of one question.
#[derive(Debug)]
pub(crate) struct Variables {
    pub(crate) list: Vec<Variable>,
    number: BTreeMap<Path, u32>,
    /// Pairs of unknown dates of which the first may not be before the second.
    pub(crate) order: Vec<(u32, u32)>,
}

impl Variables {
    /// Finds the unknown facts among what is read.
    pub(crate) fn new(matter: &Matter<'_>, cone: &Cone, calendar: &Calendar) -> Result<Variables, TooMany> {
        let mut list = Vec::new();
        let dates = dates(matter, cone);
        let (date_cells, pairs) = calendar.cells(matter.plan, matter.law, &matter.lexicon, matter.job, cone, &dates);
        for (field, reads) in &cone.facts {
            if *matter.fact(*field) != Given::Unknown || matter.plan.presumption(*field).is_some() {
                continue;
            }
            let values: Vec<Given> = match dates.iter().position(|date| date == field) {
                Some(at) => {
                    date_cells.get(at).map_or(&[][..], Vec::as_slice).iter().copied().map(Given::Date).collect()
                }
                None => cells(*field, reads, matter.plan, &matter.lexicon)?,
            };
            list.push(Variable { path: Path::Fact(*field), cells: Cells::Values(values.into()), answer: reads.answer });
        }
        for group in cone.lists.keys() {
            entries(matter, cone, calendar, *group, &mut list)?;
        }
        for (span, answer) in &cone.spans {
            list.push(Variable { path: Path::Span(*span), cells: Cells::InForce, answer: *answer });
        }
        if list.len() > UNKNOWN_FACTS {
            return Err(TooMany);
        }
        let mut named: Vec<(String, String, Variable)> = list
            .into_iter()
            .map(|variable| (variable.path.write(&matter.lexicon), instrument(matter, &variable.path), variable))
            .collect();
        named.sort_by(|one, two| (&one.0, &one.1).cmp(&(&two.0, &two.1)));
        let list: Vec<Variable> = named.into_iter().map(|(_, _, variable)| variable).collect();
        let number: BTreeMap<Path, u32> = (0u32..).zip(&list).map(|(at, variable)| (variable.path, at)).collect();
        let find = |field: FieldId| number.get(&Path::Fact(field)).copied();
        let order = pairs.iter().filter_map(|(later, earlier)| Some((find(*later)?, find(*earlier)?))).collect();
        Ok(Variables { list, number, order })
    }

    /// The number of an unknown fact.
    pub(crate) fn find(&self, path: Path) -> Option<u32> {
        self.number.get(&path).copied()
    }

    pub(crate) fn get(&self, number: u32) -> Option<&Variable> {
        self.list.get(number as usize)
    }
}

fn instrument(matter: &Matter<'_>, path: &Path) -> String {
    match path {
        Path::Span(span) => matter.law.spans.get(*span).map_or(String::new(), |span| span.instrument.to_string()),
        _ => String::new(),
    }
}

/// The unknown dates among the facts.
fn dates(matter: &Matter<'_>, cone: &Cone) -> Vec<FieldId> {
    cone.facts
        .keys()
        .copied()
        .filter(|field| {
            matter.lexicon.field(*field).is_some_and(|known| known.shape == Shape::Date)
                && *matter.fact(*field) == Given::Unknown
        })
        .collect()
}

fn entries(
    matter: &Matter<'_>,
    cone: &Cone,
    calendar: &Calendar,
    group: GroupId,
    list: &mut Vec<Variable>,
) -> Result<(), TooMany> {
    let Some(reads) = cone.lists.get(&group) else { return Ok(()) };
    let Some(given) = matter.list(group) else { return Ok(()) };
    for (field, attribute) in &reads.attributes {
        let Some(known) = matter.lexicon.field(*field) else { continue };
        let mut values: Option<Arc<[Given]>> = None;
        for (entry, row) in given.entries.iter().enumerate() {
            if row.get(usize::from(known.column)).is_some_and(|value| *value != Given::Unknown) {
                continue;
            }
            let values = match &values {
                Some(values) => Arc::clone(values),
                None => {
                    let made: Arc<[Given]> = if known.shape == Shape::Date {
                        calendar.free().into_iter().map(Given::Date).collect()
                    } else {
                        cells(*field, attribute, matter.plan, &matter.lexicon)?.into()
                    };
                    values.insert(made).clone()
                }
            };
            let path = Path::Attribute { group, entry, field: *field };
            list.push(Variable { path, cells: Cells::Values(values), answer: attribute.answer });
            if list.len() > UNKNOWN_FACTS {
                return Err(TooMany);
            }
        }
    }
    if given.more {
        let sets = Sets::new(matter.plan, matter.law, &matter.lexicon, reads, &calendar.free())?;
        let path = if given.entries.is_empty() { Path::List(group) } else { Path::Further(group) };
        list.push(Variable { path, cells: Cells::Sets(Arc::new(sets)), answer: reads.answer });
    }
    Ok(())
}
