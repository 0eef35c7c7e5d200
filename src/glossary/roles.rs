//! The parts that facts play for the engine.

use super::build::{Builder, location};
use super::fields::Source;
use super::model::{FieldId, Shape};
use super::read::Fault;
use crate::syntax::codes;
use crate::syntax::tree::Role;

impl Builder<'_> {
    pub(super) fn roles(&mut self, sources: &[Source<'_>]) {
        let mut played: Vec<(Role, FieldId)> = Vec::new();
        for (id, file, fact) in sources {
            for role in &fact.roles {
                let at = location(*file, fact.name.span);
                let fault = self.play(*role, *id).err();
                if let Some(fault) = fault {
                    self.report(fault.at(at));
                    continue;
                }
                if let Some((_, first)) = played.iter().find(|(other, _)| other == role) {
                    let message = format!(
                        "`{}` and `{}` are both the fact that `{}`",
                        self.glossary[*first].path,
                        fact.name.text,
                        words(*role)
                    );
                    let help = format!("let one fact alone say `{}`", words(*role));
                    let finding = Fault::new(codes::PART, message).help(help).at(at);
                    let first = self.glossary[*first].at;
                    self.report(finding.also(first, "the other stands here"));
                    continue;
                }
                played.push((*role, *id));
                self.assign(*role, *id);
            }
        }
    }

    /// Whether the fact can play the part.
    fn play(&self, role: Role, id: FieldId) -> Result<(), Fault> {
        let glossary = &self.glossary;
        let field = &glossary[id];
        let fault = |message: String, help: &str| Err(Fault::new(codes::PART, message).help(help));
        if glossary.in_list(id) {
            let message =
                format!("`{}` is an attribute of a list and cannot be the fact that `{}`", field.path, words(role));
            return fault(message, "give the part to a fact or an attribute of a record");
        }
        if field.scope.is_some() {
            let message =
                format!("`{}` is known in one place only and cannot be the fact that `{}`", field.path, words(role));
            return fault(message, "give the part to a fact that is known everywhere");
        }
        let (fits, shape) = match role {
            Role::DatesInstruments => (field.shape == Shape::Date, "`date`"),
            Role::ChoosesText => {
                (self.elective(field.shape).is_some(), "of a choice with the terms `earlier` and `later`")
            }
            Role::ChoosesCode => (field.shape == Shape::Code, "`code`"),
            Role::NamesSupplier => (field.shape == Shape::Name, "`name`"),
        };
        if fits {
            return Ok(());
        }
        let message = format!(
            "`{}` is {} and cannot be the fact that `{}`",
            field.path,
            glossary.shape_in_words(field.shape),
            words(role)
        );
        fault(message, &format!("the fact that `{}` has the shape {shape}", words(role)))
    }

    /// The terms `earlier` and `later` of a choice that has both.
    fn elective(&self, shape: Shape) -> Option<(u16, u16)> {
        let Shape::Choice(choice) = shape else {
            return None;
        };
        let term = |name| self.glossary.term(choice, name, None, self.territory);
        Some((term("earlier")?, term("later")?))
    }

    fn assign(&mut self, role: Role, id: FieldId) {
        let text = self.elective(self.glossary[id].shape);
        let roles = &mut self.glossary.roles;
        match role {
            Role::DatesInstruments => roles.dates = Some(id),
            Role::ChoosesText => roles.text = text.map(|(earlier, later)| (id, earlier, later)),
            Role::ChoosesCode => roles.code = Some(id),
            Role::NamesSupplier => roles.supplier = Some(id),
        }
    }
}

fn words(role: Role) -> &'static str {
    match role {
        Role::DatesInstruments => "dates instruments",
        Role::ChoosesText => "chooses the text",
        Role::ChoosesCode => "chooses the code",
        Role::NamesSupplier => "names the supplier",
    }
}
