//! The dates of a job against the options and against each other.

use super::Defaults;
use super::draft::Draft;
use super::model::Given;
use crate::glossary::Fault;
use crate::glossary::misread::Misread;
use crate::glossary::model::{FieldId, Shape};
use crate::syntax::codes;
use crate::values::Date;

impl Draft<'_> {
    pub(super) fn dates(&mut self, defaults: &Defaults) -> Vec<(FieldId, Fault)> {
        let mut faults = Vec::new();
        let facts: Vec<FieldId> = self.date_facts();
        if let Some(day) = defaults.date {
            for field in &facts {
                self.fill(*field, day, &mut faults);
            }
        }
        if faults.is_empty() {
            faults.extend(facts.iter().filter_map(|field| Some((*field, self.too_early(*field)?))));
        }
        faults
    }

    fn date_facts(&self) -> Vec<FieldId> {
        let glossary = self.desk.glossary;
        let all = (0u16..).zip(&glossary.fields).filter(|(id, field)| {
            let here = self.desk.seen(field.scope, self.job.place);
            field.shape == Shape::Date && here && !glossary.in_list(FieldId(*id))
        });
        all.map(|(id, _)| FieldId(id)).collect()
    }

    /// Gives an unsaid date the day of the option. A job that says there is no
    /// such date keeps its word.
    fn fill(&mut self, field: FieldId, day: Date, faults: &mut Vec<(FieldId, Fault)>) {
        let path = &self.desk.glossary[field].path;
        match self.job.values.get_mut(usize::from(field.0)) {
            Some(slot @ Given::Unknown) => *slot = Given::Date(day),
            Some(Given::Date(said)) if *said != day => {
                let message = format!("the job says {said} for `{path}`, and the date given beside it is {day}");
                let help = "leave the date out of the job, or out of the options";
                faults.push((field, Fault::new(codes::JOB_DATE, message).help(help)));
            }
            _ => {}
        }
    }

    fn given(&self, field: FieldId) -> &Given {
        self.job.values.get(usize::from(field.0)).unwrap_or(&Given::Unknown)
    }

    /// A date that lies before one that it is never before, dates between them
    /// that the job leaves unsaid passed over.
    fn too_early(&self, field: FieldId) -> Option<Fault> {
        let glossary = self.desk.glossary;
        let Given::Date(day) = self.given(field) else {
            return None;
        };
        let mut below = glossary[field].never_before;
        while let Some(bound) = below {
            match self.given(bound) {
                Given::Unknown => below = glossary[bound].never_before,
                Given::Date(first) if day < first => {
                    let (late, early) = (&glossary[field].path, &glossary[bound].path);
                    let misread =
                        Misread::Early { late: late.to_string(), day: *day, early: early.to_string(), first: *first };
                    let help = format!("`{late}` is never before `{early}`: mend one of the two");
                    return Some(Fault::of(codes::JOB_DATE, misread).help(help));
                }
                _ => return None,
            }
        }
        None
    }
}
