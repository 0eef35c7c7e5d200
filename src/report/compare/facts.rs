//! What the job says, in words, as it is echoed beside what is said to it.

use super::super::screen::words::spoken;
use super::super::speech::Reader;
use crate::glossary::model::{FieldId, Group, GroupId};
use crate::verdict::Matter;

/// Every fact that the job gives, by its title; the entries of a list one by one.
pub(super) fn facts(reader: Reader, matter: &Matter<'_>) -> Vec<(String, String)> {
    let lexicon = &matter.lexicon;
    let mut told = Vec::new();
    for (field, number) in lexicon.fields.iter().zip(0u16..) {
        let id = FieldId(number);
        if lexicon.list_of(id).is_some() {
            continue;
        }
        if let Some(words) = reader.given(matter.fact(id), id, lexicon) {
            let titled = field.group.is_none() && !field.title.is_empty();
            told.push((if titled { field.title.to_string() } else { spoken(&field.path.replace('.', " ")) }, words));
        }
    }
    for (group, number) in lexicon.groups.iter().zip(0u16..).filter(|(group, _)| group.list) {
        let Some(entries) = matter.list(GroupId(number)) else { continue };
        for (at, entry) in entries.entries.iter().enumerate() {
            let parts: Vec<String> = entry
                .iter()
                .zip(&group.fields)
                .filter_map(|(given, field)| {
                    let name = spoken(&lexicon.field(*field)?.name);
                    Some(format!("{name} {}", reader.given(given, *field, lexicon)?))
                })
                .collect();
            told.push((format!("{} {}", title(group), at + 1), parts.join(", ")));
        }
        if entries.entries.is_empty() && !entries.more {
            told.push((title(group), reader.say("value-none")));
        }
    }
    told
}

fn title(group: &Group) -> String {
    if group.title.is_empty() { spoken(&group.name) } else { group.title.to_string() }
}
