//! The subjects of law.

use super::build::{Builder, Named, Sheet, title};
use super::model::{Subject, SubjectId};

impl Builder<'_> {
    pub(super) fn subjects(&mut self, sheet: &Sheet<'_>) {
        let all = sheet
            .subjects
            .iter()
            .map(|(file, subject)| Named { name: &subject.name, scope: None, file: *file, it: *subject })
            .collect();
        let mut all = self.distinct("subject", all);
        self.hold(&mut all, Named::at);
        for (one, number) in all.into_iter().zip(0u16..) {
            self.glossary.names.subjects.insert(one.name.text.clone(), SubjectId(number));
            self.glossary.subjects.push(Subject {
                name: one.name.text.clone(),
                title: title(one.it.title.as_ref(), one.name),
                governed: one.it.governed,
                at: one.at(),
            });
        }
    }
}
