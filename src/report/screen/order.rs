//! The order in which a person on the job needs the answers: may it be used, must
//! it be bonded, then the jumper from the clamp to its landing, then who and which
//! papers. Questions of other rule files follow by name.

/// The questions of the shipped glossary in the order of the work.
const ORDER: &[&str] = &[
    "tubing-use",
    "direct-bond",
    "equipment-bond",
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
    "electrode-use",
    "retrofit",
    "performer",
    "permits",
    "inspection",
    "report",
];

/// The questions whose loosest answer is worth a line of its own.
const MAIN: &[&str] = &["tubing-use", "direct-bond", "equipment-bond"];

/// Whether even the loosest answer of a question is told by itself.
pub(crate) fn is_main(question: &str) -> bool {
    MAIN.contains(&question)
}

/// Where a question stands in the order.
pub(crate) fn rank(question: &str) -> (usize, &str) {
    match ORDER.iter().position(|name| *name == question) {
        Some(at) => (at, ""),
        None => (ORDER.len(), question),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_ordered_question_is_one_of_the_glossary() {
        let rules = crate::Rules::shipped();
        let names: Vec<&str> = rules.library().glossary.questions.iter().map(|question| &*question.name).collect();
        for name in ORDER {
            assert!(names.contains(name), "{name}");
        }
        for name in &names {
            assert!(ORDER.contains(name), "`{name}` of the shipped glossary has no place in the order");
        }
    }

    #[test]
    fn others_follow_by_name() {
        let mut names = vec!["zeta", "performer", "alpha", "direct-bond"];
        names.sort_by_key(|name| rank(name));
        assert_eq!(names, ["direct-bond", "performer", "alpha", "zeta"]);
    }
}
