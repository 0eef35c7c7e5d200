//! What is wrong with a value that a reader typed, and what would mend it.

use super::Reader;
use crate::glossary::Fault;
use crate::glossary::misread::Misread;
use crate::syntax::limits::{ENTRIES, NAME, NUMBER};

impl Reader {
    /// What is wrong with a value. What no reader's answer can cause stays as
    /// diagnostics have it.
    pub(crate) fn wrong(self, fault: &Fault) -> String {
        fault.misread.as_ref().map_or_else(|| fault.message.clone(), |misread| self.misread(misread))
    }

    fn misread(self, misread: &Misread) -> String {
        let of = |key: &str, typed: &str| self.say_with(key, &[("typed", &*quoted(typed))]);
        match misread {
            Misread::NoDate(typed) => of("value-wrong-date", typed),
            Misread::NotYesNo(typed) => of("value-wrong-yes-no", typed),
            Misread::NoFigure(typed) => of("value-wrong-figure", typed),
            Misread::NoUnit(typed) => of("value-wrong-no-unit", typed),
            Misread::UnitAtCount(typed) => of("value-wrong-unit-at-count", typed),
            Misread::UnknownUnit { unit, .. } => of("value-wrong-unknown-unit", unit),
            Misread::OtherMeasure { typed, .. } => of("value-wrong-measure", typed),
            Misread::NoGauge { typed, .. } => of("value-wrong-gauge", typed),
            Misread::NoConductor(typed) => of("value-wrong-conductor", typed),
            Misread::NoName(typed) => of("value-wrong-name", typed),
            Misread::Reserved(typed) => of("value-wrong-reserved", typed),
            Misread::NoCodeName(typed) => of("value-wrong-code-name", typed),
            Misread::UnknownCode(typed) => of("value-wrong-unknown-code", typed),
            Misread::UnknownTerm { term, choice } => {
                self.say_with("value-wrong-term", &[("typed", &*quoted(term)), ("choice", &*quoted(choice))])
            }
            Misread::Twice(typed) => of("value-wrong-twice", typed),
            Misread::Past { name, most, unit } => self.past(name, *most, unit),
            Misread::Early { late, day, early, first } => {
                let (late, early, day, first) = (quoted(late), quoted(early), day.to_string(), first.to_string());
                let parts = [("late", &*late), ("day", &*day), ("early", &*early), ("first", &*first)];
                self.say_with("value-wrong-early", &parts)
            }
        }
    }

    fn past(self, name: &str, most: usize, unit: &str) -> String {
        let most = most.to_string();
        let most = [("most", &*most)];
        if name == NAME.name {
            self.say_with("value-wrong-long-name", &most)
        } else if name == NUMBER.name {
            self.say_with("value-wrong-long-number", &most)
        } else if name == ENTRIES.name {
            self.say_with("value-wrong-many-entries", &most)
        } else {
            let [most] = most;
            self.say_with("value-wrong-limit", &[("name", &*quoted(name)), most, ("unit", unit)])
        }
    }

    /// What would mend it; nothing where near names say it, or what is wrong does.
    pub(crate) fn mended(self, fault: &Fault) -> Option<String> {
        let Some(misread) = &fault.misread else { return fault.help.clone() };
        let units = |fit: &[&str]| self.say_with("value-mend-units", &[("units", &*fit.join(", "))]);
        Some(match &**misread {
            Misread::NoDate(_) => self.say("value-mend-date"),
            Misread::NotYesNo(_) => self.say("value-mend-yes-no"),
            Misread::NoFigure(_) => self.say("value-mend-figure"),
            Misread::NoUnit(_) => self.say("value-mend-no-unit"),
            Misread::UnitAtCount(_) => self.say("value-mend-count"),
            Misread::UnknownUnit { fit, .. } | Misread::OtherMeasure { fit, .. } => units(fit),
            Misread::NoGauge { beside: Some([thinner, thicker]), .. } => {
                self.say_with("value-mend-gauge-beside", &[("thinner", *thinner), ("thicker", *thicker)])
            }
            Misread::NoGauge { beside: None, .. } | Misread::NoConductor(_) => self.say("value-mend-gauge"),
            Misread::NoName(_) => self.say("value-mend-name"),
            Misread::Reserved(_) => self.say("value-mend-reserved"),
            Misread::NoCodeName(_) => self.say("value-mend-code-name"),
            Misread::UnknownCode(_) => self.say("value-mend-unknown-code"),
            Misread::UnknownTerm { .. } => self.say("value-mend-term"),
            Misread::Twice(_) => self.say("value-mend-twice"),
            Misread::Early { .. } => self.say("value-mend-early"),
            Misread::Past { .. } => return None,
        })
    }
}

/// A typed text as messages show it; figures alone would be read as a number.
fn quoted(typed: &str) -> String {
    format!("`{typed}`")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::syntax::limits::{FILE, Limit};
    use crate::values::Date;

    /// Diagnostics get the English of the reader of values, readers that of the files
    /// of words.
    #[test]
    fn what_is_wrong_is_one_in_print_and_for_readers_of_english() {
        let typed = || "007".to_owned();
        let past = |limit: &Limit| Misread::Past { name: limit.name, most: limit.most, unit: limit.unit };
        let (day, first) = (Date::parse("2024-01-01").unwrap(), Date::parse("2025-01-01").unwrap());
        for misread in [
            Misread::NoDate(typed()),
            Misread::NotYesNo(typed()),
            Misread::NoFigure(typed()),
            Misread::NoUnit(typed()),
            Misread::UnitAtCount(typed()),
            Misread::UnknownUnit { unit: typed(), fit: Vec::new() },
            Misread::OtherMeasure { typed: typed(), fit: Vec::new() },
            Misread::NoGauge { typed: typed(), beside: None },
            Misread::NoConductor(typed()),
            Misread::NoName(typed()),
            Misread::Reserved(typed()),
            Misread::NoCodeName(typed()),
            Misread::UnknownCode(typed()),
            Misread::term("007", "metal"),
            Misread::Twice(typed()),
            past(&FILE),
            past(&NAME),
            past(&NUMBER),
            past(&ENTRIES),
            Misread::Early { late: "permit-date".into(), day, early: "application-date".into(), first },
        ] {
            assert_eq!(Reader::default().misread(&misread), misread.to_string());
        }
    }
}
