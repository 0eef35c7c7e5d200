//! Two small libraries that differ in some provisions, drawn from a tape.

use crate::glossary::model::PlaceId;
use crate::oracle::tape::Tape;
use crate::rules::{Rules, Source};
use crate::values::Date;
use std::collections::BTreeSet;

const GLOSSARY: &str = include_str!("glossary.rule");

const PLACES: [&str; 3] = ["alder", "birch", "cedar"];
const DAYS: [&str; 3] = ["2020-01-31", "2021-01-31", "2023-06-15"];

/// Two laws to be compared.
pub(crate) struct Pair {
    pub(crate) before: String,
    pub(crate) after: String,
    pub(crate) places: [&'static str; 2],
    pub(crate) on: [Option<Date>; 2],
    pub(crate) contrary: bool,
}

/// The law beside the glossary, in which two questions are contrary to each other or
/// not.
pub(crate) fn rules(text: &str, contrary: bool) -> Rules {
    let glossary = if contrary { GLOSSARY.to_owned() } else { GLOSSARY.replace("    contrary to bond\n", "") };
    Rules::only(vec![Source::new("glossary.rule", glossary), Source::new("law.rule", text)])
}

pub(crate) fn place(rules: &Rules, name: &str) -> PlaceId {
    let mut all = rules.library().places.all();
    all.find(|(_, issuer)| &*issuer.name == name).expect("a place of the library").0
}

#[derive(Clone)]
struct Section {
    wheres: Vec<String>,
    demands: Vec<String>,
}

#[derive(Clone)]
struct Instrument {
    number: usize,
    place: usize,
    force: String,
    powers: Vec<String>,
    sections: Vec<Section>,
}

impl Instrument {
    fn text(&self) -> String {
        let mut text =
            format!("instrument I-{} of {}\n    kind ordinance\n{}", self.number, PLACES[self.place], self.force);
        for power in &self.powers {
            text += &format!("    {power}\n");
        }
        for (number, section) in self.sections.iter().enumerate() {
            text += &format!("    section {} \"Section\"\n", number + 1);
            for line in section.wheres.iter().chain(&section.demands) {
                text += &format!("        {line}\n");
            }
        }
        text
    }
}

struct Draft<'t, 'a> {
    tape: &'t mut Tape<'a>,
    /// Few facts are spoken of, so that every job can be tried.
    facts: Vec<usize>,
}

/// Facts and lists that a condition may speak of.
const FACTS: usize = 11;

impl Draft<'_, '_> {
    fn of<'s>(&mut self, among: &[&'s str]) -> &'s str {
        self.tape.pick(among)
    }

    /// A condition that tests no ladder from this one on.
    fn condition(&mut self, ladders: usize, depth: usize) -> String {
        match self.tape.below(if depth == 0 { 6 } else { 10 }) {
            0..=5 => self.leaf(ladders),
            6 | 7 => format!("{} and {}", self.part(ladders, depth), self.part(ladders, depth)),
            8 => format!("{} or {}", self.part(ladders, depth), self.part(ladders, depth)),
            _ => format!("not ({})", self.condition(ladders, depth - 1)),
        }
    }

    fn part(&mut self, ladders: usize, depth: usize) -> String {
        format!("({})", self.condition(ladders, depth - 1))
    }

    fn leaf(&mut self, ladders: usize) -> String {
        if ladders > 0 && self.tape.chance(25) {
            let ladder = ["bond", "plain"][self.tape.below(ladders)];
            let rung = if ladder == "bond" { self.of(&["off", "half", "full"]) } else { self.of(&["low", "high"]) };
            return format!("{ladder} is {}{rung}", self.of(&["", "not "]));
        }
        let fact = self.facts[self.tape.below(self.facts.len())];
        match fact {
            0 => "wet is yes".to_owned(),
            1 => format!("kind is {}", self.of(&["ash", "birch", "any of ash, elm", "not elm"])),
            2 => format!("amps {}", self.of(&["over 20 A", "at most 60 A", "at least 60 A"])),
            3 => format!("papers includes {}", self.of(&["pink", "any of blue, grey"])),
            4 => "hot is yes".to_owned(),
            5 => format!("storeys {}", self.of(&["over 1", "at most 3", "under 3"])),
            6 => format!("brand is {}", self.of(&["acorn", "oak"])),
            7 => format!("permit-date {} {}", self.of(&["before", "from"]), self.day()),
            8 => "permit-date within 1 year after application-date".to_owned(),
            9 => {
                let with = self.of(&[
                    "jacket is yes",
                    "jacket is no",
                    "jacket is yes and size over 3 ft",
                    "size at most 3 ft",
                    "not (jacket is yes or size over 3 ft)",
                ]);
                format!("{} run with ({with})", self.of(&["any", "any", "no"]))
            }
            _ => {
                let day = self.day();
                let more = if ladders > 0 { " and bond is half" } else { "" };
                let with = match self.tape.below(4) {
                    0 => "laid within 1 year after application-date".to_owned(),
                    1 => format!("laid before {day}"),
                    2 => format!("laid from {day}"),
                    _ => format!("laid from {day}{more}"),
                };
                format!("any unit with ({with})")
            }
        }
    }

    fn day(&mut self) -> &'static str {
        self.tape.pick(&DAYS)
    }

    fn force(&mut self) -> String {
        let by = if self.tape.chance(12) { " by permit-date" } else { "" };
        let day = self.day();
        match self.tape.below(12) {
            9 => format!("    adopted {day}\n    in force from unknown{by}\n"),
            10 => format!("    in force from between {day} and 2023-06-15{by}\n"),
            11 => format!("    in force from {day} through 2023-06-15{by}\n"),
            _ => format!("    in force from {day}{by}\n"),
        }
    }

    fn power(&mut self) -> String {
        let what = self.of(&["bond", "size", "who, sheets", "pipes", "reach"]);
        let limit = if self.tape.chance(40) { format!(" where {}", self.condition(0, 0)) } else { String::new() };
        format!("{} {what}{limit}", self.of(&["preempts", "floor", "ceiling"]))
    }

    fn section(&mut self) -> Section {
        let question = self.tape.below(8);
        let (demand, ladders) = match question {
            0 => (format!("bond is {}", self.of(&["full", "half", "off"])), 0),
            1 => (self.of(&["use is must-not", "use is may"]).to_owned(), 0),
            2 => (format!("plain is {}", self.of(&["high", "low"])), 1),
            3 => {
                let sizes = ["6 AWG for copper, 4 AWG for aluminum", "4 AWG for copper", "6 AWG", "4 AWG for aluminum"];
                (format!("size at least {}", self.of(&sizes)), 2)
            }
            4 => (format!("reach at most {}", self.of(&["75 ft", "50 ft", "22.5 ft"])), 2),
            5 => {
                let who = [
                    "only electrician, plumber",
                    "only plumber, fitter",
                    "none of fitter",
                    "only master",
                    "only fitter",
                ];
                (format!("who {}", self.of(&who)), 2)
            }
            6 => (format!("sheets all of {}", self.of(&["pink", "pink, blue", "grey"])), 2),
            _ => {
                let who = ["only ash, elm", "only birch", "none of elm"];
                (format!("stuff {}", self.of(&who)), 2)
            }
        };
        let name = ["bond", "use", "plain", "size", "reach", "who", "sheets", "stuff"][question];
        let demand = if self.tape.chance(12) { format!("refer {name} \"ask\"") } else { demand };
        let mut wheres = Vec::new();
        if self.tape.chance(75) {
            wheres.push(format!("where {}", self.condition(ladders, 2)));
        }
        if self.tape.chance(15) {
            wheres.push(format!("except where {}", self.condition(ladders, 1)));
        }
        Section { wheres, demands: vec![demand] }
    }

    fn instrument(&mut self, number: usize) -> Instrument {
        let place = self.tape.pick(&[0usize, 1, 0, 1, 2]);
        let force = self.force();
        let powers = if self.tape.chance(25) { vec![self.power()] } else { Vec::new() };
        let sections = (0..1 + self.tape.below(4)).map(|_| self.section()).collect();
        Instrument { number, place, force, powers, sections }
    }

    /// One thing is otherwise.
    fn change(&mut self, law: &mut Vec<Instrument>) {
        let at = self.tape.below(law.len());
        match self.tape.below(10) {
            0 => law[at].force = self.force(),
            1 => law[at].powers = vec![self.power()],
            2 => law[at].powers.clear(),
            3 if law.len() > 1 => {
                law.remove(at);
            }
            4 => {
                let more = self.instrument(9);
                if law.iter().all(|own| own.number != 9) {
                    law.push(more);
                }
            }
            5 | 6 => {
                let section = self.section();
                law[at].sections.push(section);
            }
            7 if law[at].sections.len() > 1 => {
                let section = self.tape.below(law[at].sections.len());
                law[at].sections.remove(section);
            }
            8 => {
                let section = self.tape.below(law[at].sections.len());
                let wheres = self.section().wheres;
                // A condition may test a ladder that comes before its question alone.
                if law[at].sections[section].demands.iter().all(|line| !line.contains("bond") && !line.contains("use"))
                    && wheres.iter().all(|line| !line.contains("plain is"))
                {
                    law[at].sections[section].wheres = wheres;
                }
            }
            _ => {
                let section = self.tape.below(law[at].sections.len());
                law[at].sections[section] = self.section();
            }
        }
    }
}

fn text(law: &[Instrument]) -> String {
    law.iter().map(Instrument::text).collect()
}

pub(crate) fn pair(numbers: &[u16]) -> Pair {
    let mut tape = Tape::new(numbers);
    let contrary = tape.chance(50);
    let facts: BTreeSet<usize> = (0..3).map(|_| tape.below(FACTS)).collect();
    let how = tape.below(8);
    let mut draft = Draft { tape: &mut tape, facts: facts.into_iter().collect() };
    let law: Vec<Instrument> = (0..1 + draft.tape.below(3)).map(|number| draft.instrument(number)).collect();
    let mut other = law.clone();
    let mut places = [draft.tape.pick(&["birch", "birch", "alder"]); 2];
    let mut on = [None; 2];
    match how {
        5 => places = draft.tape.pick(&[["birch", "cedar"], ["alder", "birch"]]),
        6 => {
            on = [0; 2].map(|_| Date::parse(draft.tape.pick(&["2019-05-01", "2020-01-31", "2022-02-02", "2024-01-01"])))
        }
        _ => {}
    }
    if how < 5 || how == 7 {
        for _ in 0..1 + draft.tape.below(2) {
            draft.change(&mut other);
        }
        if how == 7 {
            on[draft.tape.below(2)] = Date::parse("2022-02-02");
        }
    }
    Pair { before: text(&law), after: text(&other), places, on, contrary }
}
