//! Libraries and jobs made from rows of bytes, so that the test runner can make
//! a failing one smaller: a shorter row and a smaller byte give a plainer text.

use proptest::prelude::*;
use serde_json::{Map, Value, json};
use std::collections::BTreeSet;

/// The rows of bytes that a library and some jobs are made from.
#[derive(Clone, Debug)]
pub(super) struct Rows {
    editions: Vec<Vec<u8>>,
    instruments: Vec<Vec<u8>>,
    makers: Vec<Vec<u8>>,
    jobs: Vec<Vec<u8>>,
}

/// Rows for small libraries whose parts get in each other's way.
pub(super) fn rows() -> impl Strategy<Value = Rows> {
    use prop::collection::vec;
    (
        vec(vec(any::<u8>(), 0..40), 0..6),
        vec(vec(any::<u8>(), 4..70), 1..9),
        vec(vec(any::<u8>(), 4..30), 0..3),
        vec(vec(any::<u8>(), 12..32), 1..5),
    )
        .prop_map(|(editions, instruments, makers, jobs)| Rows { editions, instruments, makers, jobs })
}

/// What a library may not hold, where a law is to be shown of the rest.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Without {
    /// No condition on a question's answer, no `instructions say`.
    pub(super) answers: bool,
    /// No `prevails over`.
    pub(super) priority: bool,
    /// No instrument whose beginning is not known.
    pub(super) spans: bool,
}

/// A library as text, item by item.
#[derive(Clone, Debug)]
pub(super) struct World {
    pub(super) items: Vec<String>,
    /// Jobs that say everything.
    pub(super) jobs: Vec<Map<String, Value>>,
}

impl World {
    pub(super) fn text(&self) -> String {
        self.items.join("\n")
    }
}

/// A row that is read byte by byte, and gives 0 when it is at its end.
pub(super) struct Tape<'r> {
    row: &'r [u8],
}

impl Tape<'_> {
    pub(super) fn pick(&mut self, among: usize) -> usize {
        let Some((first, rest)) = self.row.split_first() else { return 0 };
        self.row = rest;
        usize::from(*first) % among
    }

    pub(super) fn of<'t>(&mut self, among: &[&'t str]) -> &'t str {
        among[self.pick(among.len())]
    }

    /// True once in so many times, and never at the end of the row.
    pub(super) fn rarely(&mut self, times: usize) -> bool {
        self.pick(times) == times - 1 && times > 1
    }

    /// A day of the year on which everything happens.
    pub(super) fn day(&mut self) -> String {
        date(self.pick(12) * 2)
    }
}

pub(super) fn date(number: usize) -> String {
    format!("2020-{:02}-{}", number / 2 + 1, if number.is_multiple_of(2) { "01" } else { "15" })
}

/// A section that can be patched.
#[derive(Clone, Debug)]
pub(super) struct Known {
    pub(super) number: String,
    pub(super) refers: Vec<String>,
    pub(super) kind: KnownKind,
}

#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum KnownKind {
    Section,
    Table,
    Definition,
}

#[derive(Clone, Debug)]
pub(super) struct Edition {
    pub(super) code: &'static str,
    pub(super) year: u32,
    pub(super) known: Vec<Known>,
}

#[derive(Clone, Debug)]
pub(super) struct Instrument {
    pub(super) id: String,
    pub(super) place: usize,
    pub(super) binding: bool,
    pub(super) sections: Vec<Known>,
    pub(super) patches: Vec<String>,
}

pub(super) const PLACES: [&str; 3] = ["alder", "birch", "cedar"];
const EDITIONS: [(&str, u32); 6] = [("GC", 2015), ("GC", 2018), ("RC", 2018), ("EC", 2017), ("GC", 2021), ("EC", 2020)];
/// The ladders in the order in which they may be tested: each only by later ones.
pub(super) const LADDERS: [&str; 5] = ["bond", "tubing-use", "any-wire", "grounding", "inspection"];
const QUESTIONS: [&str; 10] = [
    "bond",
    "tubing-use",
    "jumper-length",
    "grounding",
    "service-size",
    "performer",
    "inspection",
    "permits",
    "jumper-size",
    "any-wire",
];
const PRODUCTS: [&str; 3] = ["flexline", "tubeline", "otherline"];

pub(super) struct Maker<'w> {
    pub(super) without: Without,
    pub(super) editions: Vec<Edition>,
    pub(super) instruments: Vec<Instrument>,
    pub(super) world: &'w mut World,
}

/// The library and the jobs of these rows.
pub(super) fn world(rows: &Rows, without: Without) -> World {
    let mut world = World { items: Vec::new(), jobs: Vec::new() };
    world.items.extend(
        [
            "code GC \"Gas code\" on gas-piping",
            "code RC \"Residential code\" on gas-piping, wiring",
            "code EC \"Electrical code\" on wiring",
            "place alder \"Alder\"\n    common practice",
            "place birch \"Birch\" within alder\n    common practice",
            "place cedar \"Cedar\" within birch\n    common practice",
            "maker flexmaker \"Flex Maker\"\n    common practice",
            "maker tubemaker \"Tube Maker\"\n    common practice",
            "supplier northgas \"North Gas\"\n    common practice",
        ]
        .map(str::to_owned),
    );
    let mut maker = Maker { without, editions: Vec::new(), instruments: Vec::new(), world: &mut world };
    for (number, (code, year)) in EDITIONS.iter().enumerate() {
        let row = rows.editions.get(number).map_or(&[][..], Vec::as_slice);
        maker.edition(code, *year, &mut Tape { row });
    }
    for row in &rows.instruments {
        maker.instrument(&mut Tape { row });
    }
    for (number, row) in rows.makers.iter().enumerate() {
        maker.instructions(number, &mut Tape { row });
    }
    for row in &rows.jobs {
        let job = job(&mut Tape { row });
        world.jobs.push(job);
    }
    world
}

/// What a section may speak of.
#[derive(Clone, Copy)]
pub(super) struct Scope<'s> {
    /// The first ladder that it may not test.
    pub(super) ladders: usize,
    pub(super) say: bool,
    pub(super) definition: bool,
    /// The code in whose text it stands.
    pub(super) code: Option<&'s str>,
    pub(super) bind: bool,
}

pub(super) const PLAIN: Scope<'static> = Scope { ladders: 0, say: false, definition: false, code: None, bind: false };

/// Conditions on facts alone.
pub(super) fn reach(tape: &mut Tape<'_>) -> String {
    condition(tape, PLAIN)
}

fn condition(tape: &mut Tape<'_>, scope: Scope<'_>) -> String {
    match tape.pick(12) {
        0 => "concealed is yes".to_owned(),
        1 => format!("occupancy is {}", tape.of(&["shop", "dwelling", "factory"])),
        2 => format!("occupancy is any of {}", tape.of(&["shop, factory", "townhouse, shop"])),
        3 => format!("occupancy is not {}", tape.of(&["dwelling", "shop"])),
        4 => format!("storeys {}", tape.of(&["at most 1", "over 1", "at least 3", "under 3"])),
        5 => format!(
            "{} run with ({})",
            tape.of(&["any", "no"]),
            tape.of(&[
                "product is flexline",
                "jacket is plain",
                "length over 50 ft",
                "not (product is tubeline)",
                "length at most 20 ft and jacket is armored"
            ])
        ),
        6 => format!("permit-date {} {}", tape.of(&["before", "from"]), tape.day()),
        7 => format!("work is repair {} {}", tape.of(&["and", "or"]), condition(tape, scope)),
        8 => format!("not ({})", condition(tape, scope)),
        9 if scope.definition => "long-run".to_owned(),
        10 if scope.say => format!(
            "instructions say {}",
            tape.of(&[
                "bond is not-required",
                "bond is required",
                "jumper-length at most 50 ft",
                "performer only electrician",
                "permits all of gas",
                "tubing-use is restricted"
            ])
        ),
        9..=11 if scope.ladders > 0 => {
            let ladder = LADDERS[tape.pick(scope.ladders)];
            format!("{ladder} is {}{}", tape.of(&["", "not "]), rungs(ladder)[tape.pick(rungs(ladder).len())])
        }
        _ => "permit-date within 2 months after application-date".to_owned(),
    }
}

pub(super) fn rungs(ladder: &str) -> &'static [&'static str] {
    match ladder {
        "tubing-use" => &["permitted", "restricted", "prohibited"],
        "any-wire" => &["permitted", "prohibited"],
        "inspection" => &["not-required", "final", "rough-and-final"],
        _ => &["not-required", "required"],
    }
}

/// One demand, with the questions that it speaks of.
pub(super) fn demand(tape: &mut Tape<'_>, scope: Scope<'_>) -> (String, Vec<String>, bool) {
    let question = QUESTIONS[tape.pick(QUESTIONS.len())];
    let one = |text: String| (text, vec![question.to_owned()], false);
    match tape.pick(9) {
        7 => return (format!("refer {question} \"it can be read both ways\""), vec![question.to_owned()], true),
        8 if scope.bind => return one(format!("instructions bind on {question}")),
        _ => {}
    }
    one(match question {
        "jumper-length" => format!("jumper-length at most {} ft", tape.of(&["50", "75", "25"])),
        "jumper-size" => format!(
            "jumper-size at least {}",
            tape.of(&["6 AWG for copper, 4 AWG for aluminum", "4 AWG for copper", "8 AWG", "2 AWG for aluminum"])
        ),
        "service-size" => match (tape.pick(6), scope.code) {
            (0, Some("EC")) => "service-size at least by table T1".to_owned(),
            (1, _) => "service-size at least by table EC T1".to_owned(),
            (2, _) => "service-size at least by table EC 2017 T1".to_owned(),
            _ => format!("service-size at least {} A", tape.of(&["60", "100", "200"])),
        },
        "performer" => {
            format!(
                "performer {}",
                tape.of(&[
                    "only electrician, plumber",
                    "only plumber, fitter",
                    "none of fitter",
                    "only master",
                    "none of electrician"
                ])
            )
        }
        "permits" => format!("permits all of {}", tape.of(&["gas", "gas, electrical", "building"])),
        ladder => {
            let rungs = rungs(ladder);
            format!("{ladder} is {}", rungs[(rungs.len() - 1 + tape.pick(rungs.len())) % rungs.len()])
        }
    })
}

/// A demand for an excepted case: on a question that no condition tests, so that
/// none goes in a circle.
pub(super) fn case(tape: &mut Tape<'_>) -> &'static str {
    tape.of(&[
        "jumper-length at most 25 ft",
        "performer only plumber",
        "permits all of building",
        "refer permits \"it can be read both ways\"",
    ])
}

/// The lines of a section, and what it refers.
pub(super) fn body(tape: &mut Tape<'_>, scope: Scope<'_>) -> (String, Vec<String>) {
    let mut demands = Vec::new();
    let (mut asked, mut refers) = (Vec::new(), Vec::new());
    for _ in 0..=tape.pick(2) {
        let (text, questions, referred) = demand(tape, scope);
        demands.push(text);
        if referred {
            refers.extend(questions.iter().cloned());
        }
        asked.extend(questions);
    }
    let first =
        LADDERS.iter().position(|ladder| asked.iter().any(|question| question == ladder)).unwrap_or(LADDERS.len());
    let scope = Scope { ladders: scope.ladders.min(first), ..scope };
    let mut lines = Vec::new();
    if tape.pick(2) == 1 {
        lines.push(format!("where {}", condition(tape, scope)));
    }
    if tape.rarely(5) {
        lines.push(format!("except where {}", condition(tape, scope)));
    }
    lines.extend(demands);
    (lines.iter().map(|line| format!("        {line}\n")).collect(), refers)
}

impl Maker<'_> {
    pub(super) fn all(&self, code: Option<&'static str>, definition: bool) -> Scope<'static> {
        let plain = self.without.answers;
        Scope { ladders: if plain { 0 } else { LADDERS.len() }, say: !plain, definition, code, bind: true }
    }

    fn edition(&mut self, code: &'static str, year: u32, tape: &mut Tape<'_>) {
        let mut text = format!("edition {code} {year}");
        let base = self.editions.iter().rev().find(|edition| edition.code == code).cloned();
        let gas = code == "GC";
        let mut known = Vec::new();
        let mut revised = BTreeSet::new();
        let published = date(match (code, year) {
            (_, 2015 | 2017) => 0,
            (_, 2018) => 8,
            _ => 14,
        });
        let revises = base.filter(|_| tape.pick(3) != 2);
        let scope = self.all(Some(code), gas);
        if let Some(base) = revises {
            text += &format!(" revises {code} {} published {published}\n    common practice\n", base.year);
            known = base.known;
            if tape.pick(3) == 1 && known.iter().any(|known| known.number == "1") {
                text += "    renumber 1 to 5\n";
                for known in &mut known {
                    if let Some(rest) = known.number.strip_prefix('1') {
                        known.number = format!("5{rest}");
                    }
                }
            }
            for _ in 0..tape.pick(3) {
                let target = tape.pick(known.len());
                let target = known[target].clone();
                if target.kind != KnownKind::Section || !revised.insert(target.number.clone()) {
                    continue;
                }
                match tape.pick(4) {
                    0 => {
                        let (lines, refers) = body(tape, scope);
                        text += &format!("    replace {} \"Revised\"\n{lines}", target.number);
                        known
                            .iter_mut()
                            .filter(|other| other.number == target.number)
                            .for_each(|other| other.refers.clone_from(&refers));
                    }
                    1 => {
                        text += &format!("    delete {}\n", target.number);
                        known.retain(|other| other.number != target.number);
                    }
                    2 => text += &format!("    except {} \"Case\"\n        where {}\n", target.number, reach(tape)),
                    _ => {
                        let line = case(tape);
                        text += &format!(
                            "    except {} \"Case\"\n        where {}\n        {line}\n",
                            target.number,
                            reach(tape)
                        );
                    }
                }
            }
            if tape.pick(3) == 1 {
                let (lines, refers) = body(tape, scope);
                let number = format!("{}", year % 100 + 20);
                text += &format!("    add {number} \"New\"\n{lines}");
                known.push(Known { number, refers, kind: KnownKind::Section });
            }
        } else {
            let missing = tape.rarely(12);
            text += &format!(
                " published {published}{}\n    common practice\n",
                if missing { " text not here" } else { "" }
            );
            if gas {
                text += &format!(
                    "    definition long-run \"Long run\"\n        any run with ({})\n",
                    tape.of(&["length over 50 ft", "jacket is plain"])
                );
                known.push(Known { number: "long-run".to_owned(), refers: Vec::new(), kind: KnownKind::Definition });
            }
            for number in ["1", "1.1", "2", "3"].iter().take(1 + tape.pick(4)) {
                let (lines, refers) = body(tape, scope);
                let on = if tape.rarely(6) { " on gas-piping" } else { "" };
                text += &format!("    section {number} \"Text\"{on}\n{lines}");
                known.push(Known { number: (*number).to_owned(), refers, kind: KnownKind::Section });
            }
            if code == "EC" {
                let (first, second) = (tape.of(&["60", "100"]), tape.of(&["100", "200"]));
                text += &format!(
                    "    table T1 \"Size\" by storeys gives service-size\n        through 1 gives {first} A\n        through 3 gives {second} A\n"
                );
                known.push(Known { number: "T1".to_owned(), refers: Vec::new(), kind: KnownKind::Table });
            }
            if tape.rarely(10) {
                text += &format!("    unread 90{}\n", tape.of(&["", " on bond", " on grounding, permits"]));
            }
        }
        self.editions.push(Edition { code, year, known });
        self.world.items.push(text);
    }
}

/// A job that says everything.
fn job(tape: &mut Tape<'_>) -> Map<String, Value> {
    let mut job = Map::new();
    let mut say = |name: &str, value: Value| job.insert(name.to_owned(), value);
    say("place", tape.of(&["cedar", "birch", "alder", "cedar"]).into());
    say("application-date", date(23 - tape.pick(24)).into());
    let permit = if tape.rarely(16) { "none".to_owned() } else { date(23 - tape.pick(24)) };
    say("permit-date", permit.into());
    say("text-elected", tape.of(&["earlier", "later"]).into());
    say("code-chosen", tape.of(&["GC", "RC"]).into());
    say("occupancy", tape.of(&["dwelling", "shop", "townhouse", "factory"]).into());
    say("work", tape.of(&["new-work", "repair"]).into());
    say("concealed", (tape.pick(2) == 0).into());
    say("storeys", (1 + tape.pick(4)).into());
    say("gas-supplier", tape.of(&["northgas", "southgas"]).into());
    let runs: Vec<Value> = (0..tape.pick(3))
        .map(|_| {
            json!({
                "product": tape.of(&PRODUCTS),
                "jacket": tape.of(&["plain", "armored"]),
                "length": format!("{} ft", tape.of(&["10", "50", "51", "80"])),
            })
        })
        .collect();
    say("run", runs.into());
    say("jumper", json!({ "material": tape.of(&["copper", "aluminum"]) }));
    job
}
