//! What instruments do, in words, and how they stand on a day.

use super::{Inquest, Standing};
use crate::glossary::expr::Expr;
use crate::law::instrument::{Adoption, Amend, End, Instrument, InstrumentId, Power, Start, Status, Target};
use crate::law::library::Library;
use crate::law::text::EditionId;
use crate::report::speech::Reader;
use crate::syntax::tree::{Action, PowerKind};
use crate::values::Date;

impl Inquest<'_> {
    /// The instruments of the place's path, in the order of time.
    pub(crate) fn instruments(&self) -> Vec<(InstrumentId, &Instrument)> {
        let path = self.library().places.path(self.matter.job.place);
        let ids = path.iter().flat_map(|place| self.library().of_issuer(*place));
        let mut all: Vec<(InstrumentId, &Instrument)> =
            ids.filter_map(|id| Some((*id, self.library().instruments.get(id.0 as usize)?))).collect();
        all.sort_by(|(_, one), (_, two)| (one.rank(), &one.id).cmp(&(two.rank(), &two.id)));
        all
    }

    /// How an instrument stands on the day, and by whom it ended.
    pub(crate) fn standing(&self, id: InstrumentId, own: &Instrument) -> (Standing, Option<String>) {
        let own_days = by_time(own, self.on);
        if !own_days.holds() {
            return (own_days, None);
        }
        for (other, ending) in self.instruments() {
            if other == id {
                continue;
            }
            for end in ending.ends.iter().filter(|end| end.target == id && end.number.is_none()) {
                let then = by_time(ending, self.on);
                // A repeal outlasts its instrument, a suspension does not.
                if end.repeals && (then.holds() || then == Standing::Ended) {
                    return (Standing::Repealed, Some(ending.id.to_string()));
                }
                if !end.repeals && then.holds() {
                    return (Standing::Suspended, Some(ending.id.to_string()));
                }
            }
        }
        (own_days, None)
    }

    /// What an instrument does, each in words.
    pub(super) fn does(&self, own: &Instrument) -> Vec<String> {
        let library = self.library();
        let mut words: Vec<String> = own.adoptions.iter().map(|adoption| adopts(library, adoption)).collect();
        if let Some(election) = own.election {
            let from = election.from.map_or_else(String::new, |day| format!("from {day} "));
            words.push(format!("leaves applicants the choice of the earlier text {from}through {}", election.through));
        }
        words.extend(own.amends.iter().flat_map(|amend| self.amends(amend, Reader::default())).map(|(does, _)| does));
        for (number, section) in &own.sections {
            words.push(titled(&format!("says in {number}"), &section.title));
        }
        words.extend(own.powers.iter().map(|power| power_in_words(library, power, Reader::default())));
        for prevails in &own.prevails {
            let mut over: Vec<&str> = prevails.codes.iter().map(|code| &**code).collect();
            if prevails.instructions {
                over.push("makers' instructions");
            }
            words.push(format!("prevails over {}", over.join(", ")));
        }
        for end in &own.ends {
            let verb = if end.repeals { "repeals" } else { "suspends" };
            let target = library.instruments.get(end.target.0 as usize).map_or("", |target| &target.id);
            let number = end.number.as_ref().map_or_else(String::new, |number| format!(" {number}"));
            words.push(format!("{verb} {target}{number}"));
        }
        words
    }

    /// What an amendment does, section by section, with the number of the patch.
    pub(crate) fn amends(&self, amend: &Amend, reader: Reader) -> Vec<(String, usize)> {
        let text = target(self.library(), &amend.target);
        let mut words: Vec<(String, usize)> = Vec::new();
        for (number, patch) in amend.patches.iter().enumerate() {
            let verb = match patch.action {
                Action::Replace => reader.say("browse-replaces"),
                Action::Add => reader.say("browse-adds"),
                Action::Delete => reader.say("browse-deletes"),
                Action::Except => reader.say("browse-excepts"),
                Action::Reads => reader.say("browse-reads"),
            };
            let under = if patch.and_under { format!(" {}", reader.say("browse-and-under")) } else { String::new() };
            words.push((format!("{verb} {text} {}{under}", patch.number), number));
        }
        words
    }
}

/// The standing by the days of the instrument alone.
pub(in crate::report) fn by_time(own: &Instrument, on: Date) -> Standing {
    match own.status {
        Some(Status::Proposed) => return Standing::Proposed,
        Some(Status::Enacted) => return Standing::Enacted,
        None => {}
    }
    let Some(force) = own.force else { return Standing::Enacted };
    let begun = match force.start {
        Start::On(day) if on < day => Standing::NotYet,
        Start::On(_) => Standing::InForce,
        Start::Unknown if own.adopted.is_some_and(|adopted| on < adopted) => Standing::NotYet,
        Start::Unknown => Standing::Possible,
        Start::Between(first, _) if on < first => Standing::NotYet,
        Start::Between(_, last) if on < last => Standing::Possible,
        Start::Between(..) => Standing::InForce,
    };
    if let Some(election) = own.election
        && election.from.is_none_or(|from| from <= on)
        && on <= election.through
        && (begun != Standing::NotYet || election.from.is_some())
    {
        return Standing::Elective;
    }
    match force.end {
        End::On(day) if begun.holds() && day < on => Standing::Ended,
        _ => begun,
    }
}

/// An edition's name.
pub(crate) fn edition(library: &Library, id: EditionId) -> String {
    library.codes.edition(id).map_or_else(String::new, |edition| {
        format!("{} {}", library.codes.code_of(edition).map_or("", |code| &code.name), edition.year)
    })
}

fn target(library: &Library, target: &Target) -> String {
    match target {
        Target::Edition(id) => edition(library, *id),
        Target::Any { code, .. } => {
            let name = library.codes.codes.get(*code).map_or("", |code| &code.name);
            format!("{name} of any edition,")
        }
        Target::Instrument(id) => {
            library.instruments.get(id.0 as usize).map_or_else(String::new, |own| own.id.to_string())
        }
    }
}

fn adopts(library: &Library, adoption: &Adoption) -> String {
    let subjects: Vec<&str> = adoption.subjects.iter().map(|subject| &*library.glossary[*subject].name).collect();
    let name = edition(library, adoption.edition);
    let published = if adoption.as_published { ", as published" } else { "" };
    let scope = if always(&adoption.scope) { "" } else { ", for some jobs only" };
    format!("adopts {name} for {}{published}{scope}", subjects.join(", "))
}

/// Whether a scope holds for every job.
pub(in crate::report) fn always(scope: &Expr) -> bool {
    match scope {
        Expr::Constant(holds) => *holds,
        Expr::And(parts) => parts.iter().all(always),
        _ => false,
    }
}

/// A power in words.
pub(crate) fn power_in_words(library: &Library, power: &Power, reader: Reader) -> String {
    let glossary = &library.glossary;
    let mut over: Vec<&str> = power.questions.iter().map(|question| &*glossary[*question].name).collect();
    over.extend(power.subjects.iter().map(|subject| &*glossary[*subject].name));
    let over = over.join(", ");
    let does = match power.kind {
        PowerKind::Preempts => reader.say("browse-preempts"),
        PowerKind::Floor => reader.say("browse-floor"),
        PowerKind::Ceiling => reader.say("browse-ceiling"),
    };
    if always(&power.scope) {
        format!("{does} {over}")
    } else {
        format!("{does} {over}, {}", reader.say("browse-some-jobs-only"))
    }
}

/// A clause with the title of its section.
pub(super) fn titled(does: &str, title: &str) -> String {
    if title.is_empty() { does.to_owned() } else { format!("{does} ({title})") }
}
