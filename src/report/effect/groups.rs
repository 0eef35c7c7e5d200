//! Changes of one question that differ by little stand together: what holds of all of
//! them is told once, and each has a line of its own.

use super::{ChangeTold, Group};
use crate::report::speech::Reader;

/// So many conditions may be a change's own beside those of its group.
const OWN: usize = 2;

/// Puts changes together, in their order. Together stand those of one direction that
/// share all of their cases and all but a few of their conditions.
pub(super) fn groups(changes: &[ChangeTold]) -> Vec<Group> {
    let mut groups: Vec<Group> = Vec::new();
    for (number, change) in changes.iter().enumerate() {
        let joined = groups.iter_mut().find_map(|group| {
            let first = changes.get(*group.members.first()?)?;
            if first.direction != change.direction || first.choices != change.choices {
                return None;
            }
            let base: Vec<String> = group.base.iter().filter(|part| change.shared.contains(part)).cloned().collect();
            let most = group.members.iter().filter_map(|member| changes.get(*member));
            let most = most.map(|member| member.shared.len()).max()?.max(change.shared.len());
            (!base.is_empty() && most <= base.len() + OWN).then_some((group, base))
        });
        match joined {
            Some((group, base)) => {
                group.base = base;
                group.members.push(number);
            }
            None => groups.push(Group { members: vec![number], base: change.shared.clone() }),
        }
    }
    groups
}

impl ChangeTold {
    /// What holds of this change beside what holds of its group.
    pub(super) fn own(&self, group: &Group) -> Vec<String> {
        self.shared.iter().filter(|part| !group.base.contains(part)).cloned().collect()
    }
}

impl Group {
    /// The texts of a side that govern some job of the group, each once, as many as a
    /// reader can take in.
    pub(super) fn texts(&self, changes: &[ChangeTold], side: usize, reader: Reader) -> Vec<String> {
        const MOST: usize = 4;
        let mut texts: Vec<String> = Vec::new();
        for change in self.members.iter().filter_map(|member| changes.get(*member)) {
            let own = change.witness.as_ref().and_then(|witness| witness.by.get(side));
            for text in own.into_iter().flatten() {
                if !texts.contains(text) {
                    texts.push(text.clone());
                }
            }
        }
        let more = texts.len().saturating_sub(MOST);
        if more > 0 {
            texts.truncate(MOST);
            texts.push(reader.say_with("effect-and-more", &[("count", &more.to_string())]));
        }
        texts
    }
}

#[cfg(test)]
mod tests {
    use super::super::AnswerTold;
    use super::*;
    use crate::review::effect::Direction;

    fn change(direction: Direction, shared: &[&str], days: &[&str]) -> ChangeTold {
        let answer = || AnswerTold { words: String::new(), state: "settled", value: serde_json::Value::Null };
        ChangeTold {
            before: answer(),
            after: answer(),
            direction,
            kinds: None,
            fewest: true,
            in_part: false,
            shared: shared.iter().map(|part| (*part).to_owned()).collect(),
            choices: if days.is_empty() {
                Vec::new()
            } else {
                vec![days.iter().map(|day| vec![(*day).to_owned()]).collect()]
            },
            cases: Vec::new(),
            witness: None,
        }
    }

    #[test]
    fn changes_that_differ_by_little_stand_together() {
        let changes = [
            change(Direction::Stricter, &["a", "b", "c1"], &[]),
            change(Direction::Stricter, &["a", "b", "c2", "d"], &[]),
            change(Direction::Looser, &["a", "b", "c3"], &[]),
            change(Direction::Stricter, &["a", "b", "c4"], &["early", "late"]),
            change(Direction::Stricter, &["x", "y", "z"], &[]),
            change(Direction::Stricter, &["a", "c5", "d", "e"], &[]),
        ];
        let groups = groups(&changes);
        let members: Vec<&[usize]> = groups.iter().map(|group| &*group.members).collect();
        assert_eq!(members, [&[0, 1][..], &[2], &[3], &[4], &[5]]);
        assert_eq!(groups[0].base, ["a", "b"]);
        assert_eq!(changes[1].own(&groups[0]), ["c2", "d"]);
    }
}
