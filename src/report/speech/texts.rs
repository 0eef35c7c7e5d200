//! Texts of the law in words: how they are cited, when they are in force, where they
//! were seen, and what is said beside the answers.

use super::Reader;
use crate::law::instrument::{DaysInForce, End, Kind, Start};
use crate::law::model::{Provenance, Source};
use crate::verdict::aside::{Aside, Presumption, named};
use crate::verdict::model::Edition;

impl Reader {
    /// Where a text stands, with the instrument that made it law:
    /// `IRC 2021 G2411.2 by TBR-22-3`.
    pub(crate) fn cite(self, source: &Source) -> String {
        let section = source.section.as_ref().map_or_else(String::new, |section| format!(" {section}"));
        match (&source.code, source.edition) {
            (Some(code), Some(year)) if source.adopted_by.is_some() => {
                self.amended(&format!("{code} {year}{section}"), &source.instrument)
            }
            (Some(code), Some(year)) => {
                let parts = [("edition", &*format!("{code} {year}{section}")), ("instrument", &*source.instrument)];
                self.say_with("sheet-edition-by", &parts)
            }
            _ => format!("{}{section}", source.instrument),
        }
    }

    /// The same without the adopting instrument, where the head of the page names it
    /// beside the edition.
    pub(crate) fn cite_short(self, source: &Source, codes: &[Edition<'_>]) -> String {
        let (Some(code), Some(year), None) = (&source.code, source.edition, &source.adopted_by) else {
            return self.cite(source);
        };
        let mut adopted =
            codes.iter().map(|edition| edition.code).filter(|known| known.code == *code && known.edition == year);
        if adopted.by_ref().all(|known| known.by == source.instrument) {
            format!("{code} {year} {}", source.section.as_deref().unwrap_or_default()).trim_end().to_owned()
        } else {
            self.cite(source)
        }
    }

    fn amended(self, text: &str, by: &str) -> String {
        self.say_with("sheet-as-amended-by", &[("text", text), ("instrument", by)])
    }

    /// A text that was written down from memory, by its code, edition and number.
    pub(crate) fn remembered(self, source: &Source) -> String {
        let (text, by) = named(source);
        by.map_or_else(|| text.clone(), |by| self.amended(&text, by))
    }

    /// Where a text was seen.
    pub(crate) fn provenance(self, provenance: &Provenance) -> String {
        match provenance {
            Provenance::Read { place, on } => {
                self.say_with("sheet-read", &[("place", place), ("day", &on.to_string())])
            }
            Provenance::Memory => self.say("sheet-from-memory"),
            Provenance::CommonPractice => self.say("sheet-common-practice"),
            Provenance::Missing => self.say("sheet-not-said-where"),
        }
    }

    /// When an instrument is in force.
    pub(crate) fn in_force(self, days: DaysInForce) -> String {
        let start = match (days.start, days.adopted) {
            (Start::On(day), _) => self.say_with("sheet-from-day", &[("day", &day.to_string())]),
            (Start::Unknown, Some(day)) => self.say_with("sheet-from-unknown-adopted", &[("day", &day.to_string())]),
            (Start::Unknown, None) => self.say("sheet-from-unknown"),
            (Start::Between(first, last), _) => {
                self.say_with("sheet-from-between", &[("first", &first.to_string()), ("last", &last.to_string())])
            }
        };
        match days.end {
            End::Never => start,
            End::On(day) => self.say_with("sheet-through-day", &[("start", &start), ("day", &day.to_string())]),
            End::Unknown => self.say_with("sheet-end-unknown", &[("start", &start)]),
        }
    }

    /// What kind of instrument one is.
    pub(crate) fn kind(self, kind: Kind) -> String {
        match kind {
            Kind::Statute => self.say("sheet-kind-statute"),
            Kind::Regulation => self.say("sheet-kind-regulation"),
            Kind::EmergencyRule => self.say("sheet-kind-emergency-rule"),
            Kind::Ordinance => self.say("sheet-kind-ordinance"),
            Kind::Resolution => self.say("sheet-kind-resolution"),
            Kind::Order => self.say("sheet-kind-order"),
            Kind::Ruling => self.say("sheet-kind-ruling"),
            Kind::Bulletin => self.say("sheet-kind-bulletin"),
            Kind::Opinion => self.say("sheet-kind-opinion"),
            Kind::Interpretation => self.say("sheet-kind-interpretation"),
            Kind::Guidance => self.say("sheet-kind-guidance"),
            Kind::Instructions => self.say("sheet-kind-instructions"),
            Kind::ServiceRule => self.say("sheet-kind-service-rule"),
        }
    }

    /// What is said beside the answers; words of a rule file stay as published.
    pub(crate) fn aside(self, aside: &Aside<'_>) -> String {
        match aside {
            Aside::Published(text) => (*text).to_owned(),
            Aside::MootReferral(why) => self.say_with("sheet-moot-referral", &[("why", why)]),
            Aside::NoEquivalent => self.say("sheet-may-lack-equivalent"),
            Aside::Presumed { fact, presumption, condition } => {
                let presumed = self.presumed(*presumption, condition);
                self.say_with("sheet-fact-presumed", &[("fact", fact), ("presumed", &presumed)])
            }
            Aside::Early { fact, date, first } => {
                let (date, first) = (date.to_string(), first.to_string());
                self.say_with("sheet-early", &[("fact", fact), ("date", &date), ("first", &first)])
            }
            Aside::BeganUnknown { instrument, issuer } => {
                self.say_with("sheet-began-unknown", &[("instrument", instrument), ("issuer", issuer)])
            }
            Aside::Memory(source) => self.say_with("sheet-text-from-memory", &[("text", &self.remembered(source))]),
            Aside::NothingRecorded(title) => self.say_with("sheet-nothing-recorded", &[("place", title)]),
        }
    }

    /// What a fact is presumed to be.
    pub(crate) fn presumed(self, presumption: Presumption, condition: &str) -> String {
        let condition = [("condition", condition)];
        match presumption {
            Presumption::Yes => self.say_with("sheet-presumed-yes", &condition),
            Presumption::No => self.say_with("sheet-presumed-no", &condition),
            Presumption::Where => self.say_with("sheet-presumed-where", &condition),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::values::Date;

    /// Programs get the English of the engine, readers that of the files of words.
    #[test]
    fn what_is_said_beside_the_answers_is_one_in_print_and_for_readers_of_english() {
        let day = |text| Date::parse(text).unwrap();
        let condition = || "jumper.present is yes".to_owned();
        let presumed = |presumption| Aside::Presumed { fact: "gas-piping", presumption, condition: condition() };
        for aside in [
            Aside::MootReferral("it can be read both ways"),
            Aside::NoEquivalent,
            presumed(Presumption::Yes),
            presumed(Presumption::No),
            presumed(Presumption::Where),
            Aside::Early { fact: "work-date", date: day("1999-01-01"), first: day("2001-07-01") },
            Aside::BeganUnknown { instrument: "OC-17-8", issuer: "Osier County" },
            Aside::NothingRecorded("Tarn"),
        ] {
            assert_eq!(Reader::default().aside(&aside), aside.to_string());
        }
    }

    #[test]
    fn days_in_force_are_one_in_print_and_for_readers_of_english() {
        let day = |text| Date::parse(text).unwrap();
        let (one, other) = (day("2020-01-01"), day("2022-06-30"));
        for start in [Start::On(one), Start::Unknown, Start::Between(one, other)] {
            for end in [End::Never, End::On(other), End::Unknown] {
                for adopted in [None, Some(one)] {
                    let days = DaysInForce { start, end, adopted };
                    assert_eq!(Reader::default().in_force(days), days.to_string());
                }
            }
        }
    }
}
