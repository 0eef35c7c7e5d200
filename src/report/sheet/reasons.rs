//! All reasons of an answer, for whoever has to look them up.

use crate::law::model::{Fate, Source};
use crate::report::speech::Reader;
use crate::verdict::Matter;
use crate::verdict::model::{Answered, Reason, Role};
use serde::Serialize;

/// One reason spelled out.
#[derive(Clone, Debug, Serialize)]
pub(crate) struct Told {
    /// `governs`, `weaker`, `advice` or `set-aside`, for styles and groups.
    pub(crate) group: &'static str,
    /// What part the text plays, in words.
    pub(crate) role: String,
    pub(crate) cite: String,
    pub(crate) demand: String,
    /// The text that set it aside.
    pub(crate) by: Option<String>,
    /// What it would need.
    pub(crate) failed: Option<String>,
    /// What it waits for.
    pub(crate) condition: Option<String>,
    /// What the section says, in the words of the rule file.
    pub(crate) summary: Option<String>,
    /// Whose text it is, in force when, where it was read.
    pub(crate) source: Option<String>,
    pub(crate) text: Text,
}

/// The text that a reason rests on, part by part.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub(crate) struct Text {
    /// How far in its issuer stands: places from the outermost, then makers and suppliers.
    pub(crate) layer: u32,
    pub(crate) issuer: String,
    /// What kind of instrument it is, and when it is in force.
    pub(crate) kind: String,
    pub(crate) when: String,
    /// Where it was read.
    pub(crate) seen: String,
}

/// What governs and what was weaker, advice, then what was set aside and by whom.
pub(crate) fn all(answer: &Answered<'_>, matter: &Matter<'_>, reader: Reader) -> Vec<Told> {
    let all = answer.because.iter().chain(&answer.advice).chain(&answer.set_aside);
    all.map(|reason| told(reason, matter, reader)).collect()
}

/// The part that a text plays, in words.
pub(crate) fn role(reason: &Reason<'_>, reader: Reader) -> String {
    match reason.role {
        Role::Governs => reader.say("sheet-role-governs"),
        Role::Weaker => reader.say("sheet-role-weaker"),
        Role::Advice => reader.say("sheet-role-advice"),
        Role::SetAside(fate) => became(fate, reader),
    }
}

/// What became of a text, in words.
pub(crate) fn became(fate: Fate, reader: Reader) -> String {
    match fate {
        Fate::NotInForce => reader.say("sheet-role-not-in-force"),
        Fate::PassedOver => reader.say("sheet-role-passed-over"),
        Fate::Replaced => reader.say("sheet-role-replaced"),
        Fate::Deleted => reader.say("sheet-role-deleted"),
        Fate::Excepted => reader.say("sheet-role-excepted"),
        Fate::Superseded => reader.say("sheet-role-superseded"),
        Fate::Suspended => reader.say("sheet-role-suspended"),
        Fate::Repealed => reader.say("sheet-role-repealed"),
        Fate::PreEmpted => reader.say("sheet-role-pre-empted"),
        Fate::ReadAs => reader.say("sheet-role-read-as"),
    }
}

/// One reason spelled out.
pub(crate) fn told(reason: &Reason<'_>, matter: &Matter<'_>, reader: Reader) -> Told {
    let source = reason.source;
    let and = format!(" {} ", reader.say("sheet-and"));
    let failed: Vec<String> = reason.failed.iter().map(|phrase| phrase.write(matter)).collect();
    // Of what does not reach the job its number and what it would need say enough.
    let brief = reason.role == Role::SetAside(Fate::PassedOver);
    let adopted = source.adopted_by.as_ref();
    let adopted = adopted.map_or_else(String::new, |by| {
        format!("; {}", reader.say_with("sheet-edition-adopted-by", &[("instrument", by)]))
    });
    Told {
        group: match reason.role {
            Role::Governs => "governs",
            Role::Weaker => "weaker",
            Role::Advice => "advice",
            Role::SetAside(_) => "set-aside",
        },
        role: role(reason, reader),
        cite: reader.cite(source),
        demand: reason.provision.words.to_string(),
        by: reason.by.map(|by| {
            let parts = [("text", &*reader.cite(by)), ("issuer", &*by.issuer), ("when", &*when(by, reader))];
            reader.say_with("sheet-by-text", &parts)
        }),
        failed: (!failed.is_empty()).then(|| reader.say_with("sheet-would-need", &[("condition", &failed.join(&and))])),
        condition: reason
            .condition
            .as_ref()
            .map(|held| reader.say_with("sheet-if", &[("condition", &held.write(matter))])),
        summary: (!brief && !source.summary.is_empty()).then(|| source.summary.to_string()),
        source: (!brief).then(|| {
            format!(
                "{}{adopted}; {}",
                reader.say_with(
                    "sheet-text-of",
                    &[
                        ("kind", &*reader.kind(source.kind)),
                        ("issuer", &*source.issuer),
                        ("when", &*when(source, reader)),
                    ],
                ),
                reader.provenance(&source.provenance)
            )
        }),
        text: Text {
            layer: source.depth,
            issuer: source.issuer.to_string(),
            kind: reader.kind(source.kind),
            when: when(source, reader),
            seen: reader.provenance(&source.provenance),
        },
    }
}

/// When the instrument of a source is in force.
fn when(source: &Source, reader: Reader) -> String {
    match source.in_force {
        Some(days) => reader.say_with("sheet-in-force-span", &[("span", &reader.in_force(days))]),
        None => reader.say("sheet-no-day-recorded"),
    }
}
