//! Instruments of generated libraries: when they are in force, and what they do.

use super::generate::{
    Instrument, Known, KnownKind, LADDERS, Maker, PLACES, PLAIN, Scope, Tape, body, case, date, demand, reach, rungs,
};
use std::collections::BTreeSet;

impl Maker<'_> {
    pub(super) fn instrument(&mut self, tape: &mut Tape<'_>) {
        let id = format!("I-{}", self.instruments.len());
        let place = [0, 1, 2, 0, 1][tape.pick(5)];
        let binding = !tape.rarely(9);
        let kind = if binding { tape.of(&["ordinance", "statute", "order"]) } else { "opinion" };
        let mut text = format!("instrument {id} of {}\n    kind {kind}\n", PLACES[place]);
        self.head(&mut text, tape, binding);
        let mut own = Instrument { id, place, binding, sections: Vec::new(), patches: Vec::new() };
        let mut used = BTreeSet::new();
        let clauses = 1 + tape.pick(4);
        for _ in 0..clauses {
            match if binding { tape.pick(12) } else { 0 } {
                0 | 1 => self.section(&mut text, &mut own, tape),
                2 | 3 => self.adopts(&mut text, tape),
                4..=6 => self.amends(&mut text, &mut own, &mut used, tape),
                7 => self.amends_instrument(&mut text, &mut own, &mut used, tape),
                8 | 9 => self.ends(&mut text, &own, tape),
                10 => {
                    let what = tape.of(&[
                        "bond",
                        "gas-piping",
                        "performer, permits",
                        "jumper-length, tubing-use",
                        "inspection",
                        "wiring",
                        "service-size",
                    ]);
                    let limit = if tape.rarely(4) { format!(" where {}", reach(tape)) } else { String::new() };
                    text += &format!("    {} {what}{limit}\n", tape.of(&["preempts", "floor", "ceiling"]));
                }
                _ if !self.without.priority => {
                    let over = tape.of(&["GC", "EC", "instructions", "RC, instructions"]);
                    let on = tape.of(&["on bond", "on every question", "on grounding, service-size"]);
                    text += &format!("    prevails over {over} {on}\n");
                }
                _ => {}
            }
        }
        self.instruments.push(own);
        self.world.items.push(text);
    }

    fn head(&self, text: &mut String, tape: &mut Tape<'_>, binding: bool) {
        if tape.rarely(24) {
            *text += "    status proposed\n";
            return;
        }
        let from = tape.pick(12);
        let unknown = from == 10 && !self.without.spans;
        if unknown || tape.rarely(4) {
            *text += &format!("    adopted {}\n", tape.day());
        }
        let by = if tape.rarely(6) { " by permit-date" } else { "" };
        let start = tape.pick(12);
        let first = date(start * 2);
        *text += &match from {
            6 | 7 => format!("    in force from {first} through {}{by}\n", date((start + tape.pick(12 - start)) * 2)),
            8 => format!("    in force from {first} through unknown{by}\n"),
            9 if !self.without.spans => {
                format!("    in force from between {first} and {}{by}\n", date((start + tape.pick(12 - start)) * 2))
            }
            10 if unknown => format!("    in force from unknown{by}\n"),
            11 => format!("    in force from 2 months after {first}{by}\n"),
            _ => format!("    in force from {first}{by}\n"),
        };
        if binding && tape.rarely(6) {
            let (one, two) = (tape.pick(12), tape.pick(12));
            let from = if tape.pick(2) == 1 { format!(" from {}", date(one.min(two) * 2)) } else { String::new() };
            let by = if tape.rarely(5) { " by permit-date" } else { "" };
            *text += &format!("    election{from} through {}{by}\n", date(one.max(two) * 2));
        }
        if tape.rarely(8) {
            *text += &format!("    applies where {}\n", reach(tape));
        }
    }

    fn section(&self, text: &mut String, own: &mut Instrument, tape: &mut Tape<'_>) {
        let number = format!("{}", own.sections.len() + 1);
        let (lines, refers) = body(tape, self.all(None, false));
        *text += &format!("    section {number} \"Own\"\n{lines}");
        own.sections.push(Known { number, refers, kind: KnownKind::Section });
    }

    fn adopts(&self, text: &mut String, tape: &mut Tape<'_>) {
        let edition = self.editions[tape.pick(self.editions.len())].clone();
        let tail = match tape.pick(8) {
            1 => " as published".to_owned(),
            2 if edition.code == "RC" => " for gas-piping".to_owned(),
            3 if edition.code == "RC" => " beside EC".to_owned(),
            3 => " beside RC".to_owned(),
            4 => {
                let scope = reach(tape);
                let other = &self.editions[tape.pick(self.editions.len())];
                *text += &format!("    adopts {} {} where {scope}\n", other.code, other.year);
                " otherwise".to_owned()
            }
            5 | 6 => format!(" where {}", reach(tape)),
            _ => String::new(),
        };
        let what = match tape.pick(10) {
            8 if edition.code == "GC" => "GC newest after 2 months".to_owned(),
            7 if edition.code == "EC" => "EC newest".to_owned(),
            9 if edition.code == "GC" && !tail.contains("beside") => format!("GC {} or RC 2018", edition.year),
            _ => format!("{} {}", edition.code, edition.year),
        };
        *text += &format!("    adopts {what}{tail}\n");
    }

    fn amends(&self, text: &mut String, own: &mut Instrument, used: &mut BTreeSet<String>, tape: &mut Tape<'_>) {
        let edition = self.editions[tape.pick(self.editions.len())].clone();
        let any = tape.rarely(6);
        // An instrument patches a section once.
        let before = |any: bool| used.contains(&format!("{} {any}", edition.code));
        if before(true) || any && before(false) {
            return;
        }
        used.insert(format!("{} {any}", edition.code));
        let target = if any {
            format!("{} any numbered as in {}", edition.code, edition.year)
        } else {
            format!("{} {}", edition.code, edition.year)
        };
        let mut lines = String::new();
        for _ in 0..=tape.pick(2) {
            self.patch(&mut lines, &edition.known, Some(edition.code), own, used, tape);
        }
        if !lines.is_empty() {
            *text += &format!("    amend {target}\n{lines}");
        }
    }

    fn amends_instrument(
        &self,
        text: &mut String,
        own: &mut Instrument,
        used: &mut BTreeSet<String>,
        tape: &mut Tape<'_>,
    ) {
        let targets: Vec<&Instrument> = self
            .instruments
            .iter()
            .filter(|other| other.place >= own.place && other.binding && !other.sections.is_empty())
            .collect();
        if targets.is_empty() {
            return self.section(text, own, tape);
        }
        let target = targets[tape.pick(targets.len())];
        let mut lines = String::new();
        self.patch(&mut lines, &target.sections, None, own, used, tape);
        if !lines.is_empty() {
            *text += &format!("    amend {} of {}\n{lines}", target.id, PLACES[target.place]);
        }
    }

    fn patch(
        &self,
        lines: &mut String,
        known: &[Known],
        code: Option<&'static str>,
        own: &mut Instrument,
        used: &mut BTreeSet<String>,
        tape: &mut Tape<'_>,
    ) {
        let action = tape.pick(9);
        if used.contains(&format!("{code:?} and under")) {
            return;
        }
        let scope = self.all(code, code == Some("GC"));
        if action == 4 {
            let number = format!("9{}", own.place);
            if used.insert(format!("{code:?} {number}")) {
                let (body, _) = body(tape, scope);
                *lines += &format!("        add {number} \"Added\"\n{body}");
                own.patches.push(number);
            }
            return;
        }
        if known.is_empty() {
            return;
        }
        let target = &known[tape.pick(known.len())];
        let number = &target.number;
        if !used.insert(format!("{code:?} {number}")) {
            return;
        }
        own.patches.push(number.clone());
        // What lies under a section would be patched twice.
        let alone = used.iter().filter(|key| key.starts_with(&format!("{code:?} "))).count() == 1;
        let under = if tape.rarely(8) && alone { " and under" } else { "" };
        if !under.is_empty() {
            used.insert(format!("{code:?} and under"));
        }
        match (target.kind, action) {
            (KnownKind::Definition, _) => {
                *lines += &format!(
                    "        replace {number} \"Defined\"\n            where any run with ({})\n",
                    tape.of(&["length over 20 ft", "jacket is armored"])
                );
            }
            (KnownKind::Table, 0..=3) => {
                *lines += &format!(
                    "        replace table {number} \"Size\" by storeys gives service-size\n            through 2 gives {} A\n",
                    tape.of(&["100", "60", "200"])
                );
            }
            (KnownKind::Table, _) => *lines += &format!("        delete {number}\n"),
            (_, 5) => *lines += &format!("        delete {number}{under}\n"),
            (_, 6) => {
                *lines += &format!("        except {number}{under} \"Case\"\n            where {}\n", reach(tape))
            }
            (_, 7) => {
                let line = case(tape);
                *lines += &format!(
                    "        except {number}{under} \"Case\"\n            where {}\n            {line}\n",
                    reach(tape)
                );
            }
            (_, 8) if target.refers.iter().any(|question| LADDERS.contains(&question.as_str())) => {
                let question =
                    target.refers.iter().find(|question| LADDERS.contains(&question.as_str())).expect("a ladder");
                let limit =
                    if tape.pick(2) == 1 { format!("            where {}\n", reach(tape)) } else { String::new() };
                let rungs = rungs(question);
                *lines += &format!(
                    "        reads {number} \"Reading\"\n{limit}            {question} is {}\n",
                    rungs[tape.pick(rungs.len())]
                );
            }
            _ => {
                let (body, _) = body(tape, scope);
                *lines += &format!("        replace {number}{under} \"Amended\"\n{body}");
            }
        }
    }

    fn ends(&self, text: &mut String, own: &Instrument, tape: &mut Tape<'_>) {
        let targets: Vec<&Instrument> =
            self.instruments.iter().filter(|other| other.place >= own.place && other.binding).collect();
        if targets.is_empty() {
            return;
        }
        let target = targets[tape.pick(targets.len())];
        let of = format!("{} of {}", target.id, PLACES[target.place]);
        match tape.pick(3) {
            0 => *text += &format!("    repeals {of}\n"),
            1 => *text += &format!("    suspends {of}\n"),
            _ => {
                let numbers: Vec<&String> =
                    target.sections.iter().map(|known| &known.number).chain(&target.patches).collect();
                if !numbers.is_empty() {
                    *text += &format!("    suspends {of} {}\n", numbers[tape.pick(numbers.len())]);
                }
            }
        }
    }

    pub(super) fn instructions(&mut self, number: usize, tape: &mut Tape<'_>) {
        let (issuer, product) = [("flexmaker", "flexline"), ("tubemaker", "tubeline")][number % 2];
        let mut text =
            format!("instrument M-{number} of {issuer}\n    kind instructions\n    in force from {}\n", tape.day());
        for section in 1..=1 + tape.pick(2) {
            let (line, _, _) = demand(tape, Scope { bind: false, ..PLAIN });
            let more = tape.of(&["", " and jacket is armored", " and length at most 60 ft"]);
            text += &format!(
                "    section {section} \"Product\"\n        where any run with (product is {product}{more})\n        {line}\n"
            );
        }
        self.world.items.push(text);
        if number == 0 && tape.rarely(2) {
            self.world.items.push(
                "instrument S-1 of northgas\n    kind service-rule\n    in force from 2020-01-01\n    section 1 \"Service\"\n        bond is required\n        permits all of building\n"
                    .to_owned(),
            );
        }
    }
}
