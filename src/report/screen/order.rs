//! The order in which a person on the job needs the answers: may it be used, must
//! it be bonded, then the jumper from the clamp to its landing, then who and which
//! papers. Questions of other rule files follow by name.

/// The question of the shipped glossary on whether there is anything to bond at all.
pub(crate) const USE: &str = "tubing-use";
/// The question on the bond itself.
const BOND: &str = "direct-bond";

/// What comes first; the loosest answer of these is worth a line of its own.
const MAIN: &[&str] = &[USE, BOND, "equipment-bond"];

/// What is asked of the jumper, from the clamp to where it lands.
const JUMPER: &[&str] = &[
    "attachment",
    "attachment-position",
    "clamp",
    "contact",
    "joint",
    "access",
    "jumper-size",
    "jumper-metal",
    "jumper-length",
    "splicing",
    "protection",
    "landing",
];

/// What comes last: other work, who does it, which papers.
const REST: &[&str] = &["electrode-use", "retrofit", "performer", "permits", "inspection", "report"];

/// The questions of the shipped glossary in the order of the work.
fn in_order() -> impl Iterator<Item = &'static str> {
    [MAIN, JUMPER, REST].into_iter().flatten().copied()
}

/// Whether even the loosest answer of a question is told by itself.
pub(crate) fn is_main(question: &str) -> bool {
    MAIN.contains(&question)
}

/// Whether a question is on the direct bond or on the jumper that it is made with.
pub(crate) fn is_of_bond(question: &str) -> bool {
    question == BOND || JUMPER.contains(&question)
}

/// Where a question stands in the order.
pub(crate) fn rank(question: &str) -> (usize, &str) {
    match in_order().position(|name| name == question) {
        Some(at) => (at, ""),
        None => (usize::MAX, question),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_ordered_question_is_one_of_the_glossary() {
        let rules = crate::Rules::shipped();
        let names: Vec<&str> = rules.library().glossary.questions.iter().map(|question| &*question.name).collect();
        for name in in_order() {
            assert!(names.contains(&name), "{name}");
        }
        for name in names {
            assert!(
                in_order().any(|known| known == name),
                "`{name}` of the shipped glossary has no place in the order"
            );
        }
    }

    #[test]
    fn what_is_of_the_bond_is_all_that_is_asked_only_of_it() {
        let rules = crate::Rules::shipped();
        for question in &rules.library().glossary.questions {
            let only = question.asked.is_some() || &*question.name == BOND;
            assert_eq!(is_of_bond(&question.name), only, "{}", question.name);
        }
    }

    #[test]
    fn others_follow_by_name() {
        let mut names = vec!["zeta", "performer", "alpha", "direct-bond"];
        names.sort_by_key(|name| rank(name));
        assert_eq!(names, ["direct-bond", "performer", "alpha", "zeta"]);
    }
}
