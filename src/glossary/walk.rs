//! What a condition reads, and how large it is.

use super::expr::{Check, Expr};
use super::model::FieldId;

impl Expr {
    /// Calls `see` for the condition and every condition inside it.
    pub(crate) fn walk<'e>(&'e self, see: &mut dyn FnMut(&'e Expr)) {
        see(self);
        match self {
            Expr::And(parts) | Expr::Or(parts) => parts.iter().for_each(|part| part.walk(see)),
            Expr::Not(part) | Expr::Entries { with: part, .. } => part.walk(see),
            Expr::Constant(_) | Expr::Field(..) | Expr::Answer { .. } | Expr::Say(_) | Expr::Defined(..) => {}
        }
    }

    /// The facts and attributes that it tests, in order, each once.
    pub(crate) fn fields(&self) -> Vec<FieldId> {
        let mut found = Vec::new();
        self.walk(&mut |part| {
            if let Expr::Field(field, check) = part {
                found.push(*field);
                if let Check::Within(_, other) = check {
                    found.push(*other);
                }
            }
        });
        found.sort_unstable();
        found.dedup();
        found
    }

    /// How many conditions it is made of, itself counted.
    pub(super) fn size(&self) -> usize {
        let mut size = 0;
        self.walk(&mut |_| size += 1);
        size
    }

    /// How many conditions stand in one another at most, itself counted.
    pub(super) fn depth(&self) -> usize {
        1 + match self {
            Expr::And(parts) | Expr::Or(parts) => parts.iter().map(Expr::depth).max().unwrap_or(0),
            Expr::Not(part) | Expr::Entries { with: part, .. } => part.depth(),
            Expr::Constant(_) | Expr::Field(..) | Expr::Answer { .. } | Expr::Say(_) | Expr::Defined(..) => 0,
        }
    }
}
