//! Laws and jobs drawn from a tape.

use super::tape::Tape;
use super::world::*;
use crate::glossary::expr::Check;
use crate::glossary::model::{FieldId, GroupId, PlaceId, QuestionId, SubjectId};
use crate::job::model::{Entries, Given, Job};
use crate::law::instrument::Kind;
use crate::law::model::*;
use crate::syntax::diagnostic::Location;
use crate::syntax::tree::PowerKind;
use crate::values::{Date, Exact, Measure, Period, Terms, Unit};
use std::collections::BTreeSet;
use std::sync::Arc;

fn day(text: &str) -> Date {
    Date::parse(text).unwrap()
}

fn ft(number: &str) -> Measure {
    Measure::quantity(number, "ft", Unit::find("ft").unwrap()).unwrap()
}

fn amps(number: &str) -> Measure {
    Measure::quantity(number, "A", Unit::find("A").unwrap()).unwrap()
}

struct Draft<'t, 'a> {
    tape: &'t mut Tape<'a>,
    nodes: Vec<Node>,
    days: BTreeSet<Date>,
    periods: Vec<Period>,
    spans: Vec<UnknownSpan>,
}

/// What a condition may speak of.
#[derive(Clone, Copy)]
struct Bounds {
    depth: usize,
    /// Ladder questions before this one.
    questions: usize,
    inside: Option<GroupId>,
    presumed: bool,
}

impl Draft<'_, '_> {
    fn node(&mut self, node: Node) -> CondId {
        if let Some(at) = self.nodes.iter().position(|known| *known == node) {
            return CondId(at as u32);
        }
        self.nodes.push(node);
        CondId(self.nodes.len() as u32 - 1)
    }

    fn fact(&mut self) -> CondId {
        self.condition(Bounds { depth: 1, questions: 0, inside: None, presumed: true })
    }

    fn condition(&mut self, bounds: Bounds) -> CondId {
        let deeper = Bounds { depth: bounds.depth.saturating_sub(1), ..bounds };
        match self.tape.below(if bounds.depth == 0 { 5 } else { 10 }) {
            0..=4 => self.leaf(bounds),
            5 | 6 => {
                let parts = vec![self.condition(deeper), self.condition(deeper)];
                self.node(Node::And(parts.into()))
            }
            7 | 8 => {
                let parts = vec![self.condition(deeper), self.condition(deeper)];
                self.node(Node::Or(parts.into()))
            }
            _ => {
                let part = self.condition(deeper);
                self.node(Node::Not(part))
            }
        }
    }

    fn leaf(&mut self, bounds: Bounds) -> CondId {
        if let Some(group) = bounds.inside
            && self.tape.chance(75)
        {
            return self.attribute(group);
        }
        let ladders: Vec<usize> = (0..bounds.questions.min(3)).collect();
        match self.tape.below(if bounds.inside.is_some() { 15 } else { 19 }) {
            0 => CondId::TRUE,
            1 => {
                let day = self.day();
                {
                    let first = self.below(2) == 0;
                    self.test(APPLIED, if first { Check::Before(day) } else { Check::From(day) })
                }
            }
            2 => {
                let day = self.day();
                self.test(PERMIT, Check::From(day))
            }
            3 => {
                let period = self.tape.pick(&[Period::Years(1), Period::Months(1), Period::Days(30)]);
                self.periods.push(period);
                let pair = self.tape.pick(&[(PERMIT, APPLIED), (BETWEEN, PERMIT), (APPLIED, BETWEEN)]);
                self.test(pair.0, Check::Within(period, pair.1))
            }
            4 => self.test(WET, Check::Among(Terms(2))),
            5 => {
                let terms = Terms(self.tape.pick(&[1u128, 0b1110, 4]));
                self.test(KIND, Check::Among(terms))
            }
            6 => {
                let limit = amps(self.tape.pick(&["20", "60", "100"])).amount;
                {
                    let first = self.below(2) == 0;
                    self.test(AMPS, if first { Check::Over(limit) } else { Check::AtMost(limit) })
                }
            }
            7 => {
                let limit = Measure::gauge(self.tape.pick(&["6", "2"]), "AWG").unwrap().amount;
                self.test(WIRE, Check::AtLeast(limit))
            }
            8 => {
                let terms = Terms(self.tape.pick(&[1u128, 2, 6]));
                self.test(PAPERS, Check::Includes(terms))
            }
            9 => {
                let name: Arc<str> = (self.tape.pick(&["acorn", "other"])).into();
                self.test(MAKER, Check::Named(Arc::from([name])))
            }
            10 => {
                let name: Arc<str> = (self.tape.pick(&["AA", "BB"])).into();
                self.test(CODE, Check::Named(Arc::from([name])))
            }
            11 if bounds.presumed => {
                let terms = Terms(self.tape.pick(&[2u128, 1, 3]));
                self.test(HOT, Check::Among(terms))
            }
            12 => self.test(METAL, Check::Among(Terms(1))),
            13 => {
                let limit = Exact::from_integer(self.tape.pick(&[1i128, 2, 4]));
                self.test(COUNT, Check::Under(limit))
            }
            14 if !ladders.is_empty() => {
                let question = self.tape.pick(&ladders);
                let rungs = Terms(self.tape.pick(&[2u128, 1, 4, 6]));
                self.node(Node::Answer { question, rungs })
            }
            15 if !self.spans.is_empty() => self.node(Node::Span(0)),
            16 | 17 => self.entries(RUN, bounds),
            18 => self.entries(UNIT, bounds),
            _ => self.test(WET, Check::Among(Terms(1))),
        }
    }

    fn below(&mut self, count: usize) -> usize {
        self.tape.below(count)
    }

    fn day(&mut self) -> Date {
        let day = day(self.tape.pick(&["2020-01-31", "2021-01-31", "2020-03-01", "2023-06-15"]));
        self.days.insert(day);
        day
    }

    fn test(&mut self, field: FieldId, check: Check) -> CondId {
        self.node(Node::Field(field, check))
    }

    fn entries(&mut self, group: GroupId, bounds: Bounds) -> CondId {
        let with = self.condition(Bounds { depth: 2, inside: Some(group), ..bounds });
        let any = self.tape.chance(75);
        self.node(Node::Entries { any, group, with })
    }

    fn attribute(&mut self, group: GroupId) -> CondId {
        if group == UNIT {
            return self.test(ON, Check::Among(Terms(2)));
        }
        match self.tape.below(5) {
            0 | 1 => self.test(JACKET, Check::Among(Terms(2))),
            2 | 3 => {
                let limit = ft(self.tape.pick(&["3", "5"])).amount;
                {
                    let first = self.below(2) == 0;
                    self.test(SIZE, if first { Check::AtLeast(limit) } else { Check::Under(limit) })
                }
            }
            _ => {
                let day = self.day();
                match self.tape.below(3) {
                    0 => self.test(DAY, Check::Before(day)),
                    1 => {
                        self.periods.push(Period::Years(1));
                        self.test(DAY, Check::Within(Period::Years(1), APPLIED))
                    }
                    _ => {
                        self.periods.push(Period::Years(1));
                        self.test(APPLIED, Check::Within(Period::Years(1), DAY))
                    }
                }
            }
        }
    }

    fn reach(&mut self) -> CondId {
        if self.tape.chance(40) { self.fact() } else { CondId::TRUE }
    }
}

/// A whole world.
pub(crate) fn world(numbers: &[u16]) -> World {
    let mut tape = Tape::new(numbers);
    let job = job(&mut tape);
    let mut draft = Draft {
        tape: &mut tape,
        nodes: vec![Node::False, Node::True],
        days: BTreeSet::new(),
        periods: Vec::new(),
        spans: Vec::new(),
    };
    if draft.tape.chance(20) {
        let within = draft.condition(Bounds { depth: 1, questions: 0, inside: None, presumed: false });
        draft.spans.push(UnknownSpan { instrument: "X-1".into(), issuer: "Alder".into(), within });
    }
    let mut law = Law {
        sources: (0..3).map(source).collect(),
        dating: if draft.tape.chance(50) { vec![APPLIED] } else { Vec::new() },
        code_choices: if draft.tape.chance(50) { vec!["AA".into(), "CC".into()] } else { Vec::new() },
        ..Law::empty(PlaceId(1))
    };
    if draft.tape.chance(60) {
        let cond = draft.condition(Bounds { depth: 1, questions: 0, inside: None, presumed: false });
        law.presumed.push((HOT, cond));
    }
    for number in 0..9 {
        let question = question(&mut draft, &mut law, number);
        law.questions.push(question);
    }
    if draft.tape.chance(30) {
        let reach = draft.reach();
        law.governed.push((SubjectId(0), reach));
    }
    if draft.tape.chance(70) {
        law.first_day = Some(draft.day());
    }
    law.nodes = draft.nodes;
    law.days = draft.days.into_iter().collect();
    law.periods = draft.periods;
    law.spans = draft.spans;
    glossary(law, job)
}

fn source(depth: u32) -> Source {
    Source {
        depth,
        issuer: "Alder".into(),
        instrument: format!("A-{depth}").into(),
        instrument_title: "".into(),
        kind: Kind::Ordinance,
        adopted_by: None,
        code: None,
        edition: None,
        section: Some("1".into()),
        title: "".into(),
        summary: "".into(),
        provenance: Provenance::CommonPractice,
        in_force: None,
        at: Location::default(),
    }
}

fn question(draft: &mut Draft<'_, '_>, law: &mut Law, number: usize) -> QuestionLaw {
    let bounds = Bounds { depth: 2, questions: number, inside: None, presumed: true };
    let scale = match number {
        3 => ["6", "4", "2"].map(|size| Measure::gauge(size, "AWG").unwrap()).to_vec(),
        4 => ["75", "50", "22.5"].map(ft).to_vec(),
        8 => ["2", "3", "7"].map(|count| Measure::count(count).unwrap()).to_vec(),
        _ => Vec::new(),
    };
    let terms = match number {
        5 | 7 => Terms(0b0111),
        6 => Terms(0b111),
        _ => Terms::NONE,
    };
    let per = matches!(number, 3 | 7);
    let count = draft.tape.below(4);
    let whole = provisions(draft, law, number, count, bounds);
    let mut powers = Vec::new();
    if draft.tape.chance(25) {
        for depth in [1, 0] {
            let kind = [PowerKind::Preempts, PowerKind::Floor, PowerKind::Ceiling][draft.tape.below(3)];
            let cond = draft.reach();
            let mut outer: Vec<ProvisionId> = whole.iter().copied().filter(|_| draft.tape.chance(50)).collect();
            let more = draft.tape.below(2);
            outer.extend(provisions(draft, law, number, more, bounds));
            powers.push(PowerStep { kind, cond, outer, source: SourceId(depth), depth });
            if draft.tape.chance(70) {
                break;
            }
        }
    }
    QuestionLaw {
        question: QuestionId(number as u16),
        terms,
        per_terms: if per { Terms(0b111) } else { Terms::NONE },
        parts: if per { 3 } else { 1 },
        scale,
        whole,
        powers,
        advice: Vec::new(),
        asked: if draft.tape.chance(25) { draft.condition(bounds) } else { CondId::TRUE },
        met: (number == 0).then(|| draft.condition(bounds)),
        contrary: match number {
            0 => vec![1],
            1 => vec![0],
            _ => Vec::new(),
        },
    }
}

fn provisions(
    draft: &mut Draft<'_, '_>,
    law: &mut Law,
    number: usize,
    count: usize,
    bounds: Bounds,
) -> Vec<ProvisionId> {
    (0..count)
        .map(|_| {
            let reach = draft.reach();
            let cond = draft.condition(bounds);
            let guard = draft.node(Node::And([reach, cond].into()));
            let effect =
                if draft.tape.chance(12) { Effect::Refer("ask".into()) } else { Effect::Demand(demand(draft, number)) };
            let source = SourceId(draft.tape.below(3) as u32);
            law.provisions.push(Provision {
                effect,
                reach,
                guard,
                clauses: vec![
                    Clause { cond: reach, fate: Fate::NotInForce, by: None },
                    Clause { cond, fate: Fate::PassedOver, by: None },
                ],
                source,
                table: None,
                words: format!("demand {}", law.provisions.len()).into(),
            });
            ProvisionId(law.provisions.len() as u32 - 1)
        })
        .collect()
}

fn demand(draft: &mut Draft<'_, '_>, number: usize) -> Demand {
    let per = matches!(number, 3 | 7);
    let named = if per { Terms(draft.tape.pick(&[0b111u128, 0b011, 0b001, 0b100])) } else { Terms::NONE };
    let parts: Vec<u128> = (0..if per { 3u16 } else { 1 })
        .map(|term| {
            let value = match number {
                0 => draft.tape.below(3) as u128,
                1 | 2 => draft.tape.below(2) as u128,
                3 | 4 | 8 => draft.tape.below(4) as u128,
                5 | 7 => draft.tape.pick(&[0b0011u128, 0b1110, 0b0001, 0b0100, 0b1101]),
                _ => draft.tape.pick(&[0b001u128, 0b010, 0b110, 0]),
            };
            let loosest = if matches!(number, 5 | 7) { 0b0111 } else { 0 };
            if per && !named.has(term) { loosest } else { value }
        })
        .collect();
    let figures = parts.iter().map(|_| None).collect();
    Demand { parts: parts.into(), named, only: draft.tape.chance(50), figures }
}

fn job(tape: &mut Tape<'_>) -> Job {
    let mut dates: Vec<Given> = Vec::new();
    let days = ["2019-05-01", "2020-02-15", "2020-03-01", "2021-12-31", "2024-01-01"];
    let mut least = 0;
    for _ in 0..3 {
        dates.push(match tape.below(8) {
            0..=3 => {
                least += tape.below(days.len() - least);
                Given::Date(day(days[least]))
            }
            4 => Given::NoDate,
            _ => Given::Unknown,
        });
    }
    let mut values = dates;
    let unknown = |tape: &mut Tape<'_>, value: Given, percent: usize| {
        if tape.chance(percent) { Given::Unknown } else { value }
    };
    for field in 3..FACTS {
        let value = match FieldId(field) {
            WET | HOT => Given::Term(tape.below(2) as u16),
            KIND | METAL => Given::Term(tape.below(3) as u16),
            AMPS => Given::Measure(amps(tape.pick(&["15", "60", "200"]))),
            WIRE => Given::Measure(Measure::gauge(tape.pick(&["8", "4", "1/0"]), "AWG").unwrap()),
            PAPERS => Given::Set(Terms(tape.below(8) as u128)),
            MAKER => Given::Name((tape.pick(&["acorn", "oak"])).into()),
            CODE => Given::Name((tape.pick(&["AA", "ZZ"])).into()),
            COUNT => Given::Measure(Measure::count(tape.pick(&["0", "2", "9"])).unwrap()),
            _ => Given::Measure(ft(tape.pick(&["10", "60", "80"]))),
        };
        values.push(unknown(tape, value, if FieldId(field) == WIRE { 12 } else { 25 }));
    }
    values.resize(18, Given::Unknown);
    let run = Entries {
        entries: (0..tape.below(3))
            .map(|_| {
                vec![
                    unknown(tape, Given::Term(1), 30),
                    unknown(tape, Given::Measure(ft("4")), 30),
                    unknown(tape, Given::Date(day("2020-05-05")), 15),
                ]
            })
            .collect(),
        more: tape.chance(35),
    };
    let unit = Entries {
        entries: (0..tape.below(2)).map(|_| vec![unknown(tape, Given::Term(0), 30)]).collect(),
        more: tape.chance(25),
    };
    Job { place: PlaceId(1), reference: None, values, lists: vec![run, unit] }
}
