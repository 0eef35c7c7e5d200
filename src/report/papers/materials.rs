//! What to buy for the bond. A quantity that hangs on what nobody has said is a blank or
//! a range.
//!
//! Which connector goes with which landing is common practice of the trade, and marked so;
//! sizes, listings and limits are those of the answers.

use super::Drawn;
use super::plan_notes::concerns_a_jumper;
use super::quantities::{WASTE, with_allowance};
use crate::report::facts::Term;
use crate::report::sheet::Line;
use crate::report::sheet::jumper::Jumper;
use crate::report::speech::Reader;
use crate::values::{Measure, Unit};
use crate::verdict::value::{Item, Items};
use serde::Serialize;

/// Where a jumper lands away from the service, to which the way was told.
const AWAY: &[&str] = &[
    "electrode",
    "lightning-electrode",
    "added-electrode-tied",
    "added-electrode-alone",
    "subpanel-bar",
    "water-pipe",
    "appliance-circuit",
];

/// What stands on it.
#[derive(Serialize)]
pub(super) struct Body {
    /// Whether anything is needed.
    need: String,
    rows: Vec<Row>,
    remarks: Vec<String>,
}

#[derive(Default, Serialize)]
struct Row {
    item: String,
    /// What it must be.
    what: Vec<String>,
    /// What is wrong with what the job names.
    flag: Option<String>,
    quantity: Vec<String>,
    basis: String,
}

/// The list.
pub(super) fn body(drawn: &Drawn<'_, '_>, reader: Reader) -> Body {
    let need = match (drawn.rung("direct-bond"), drawn.facts(reader).says("jumper.present")) {
        (Some("required"), _) => reader.say("papers-need-required"),
        (Some("not-required"), Some(true)) if drawn.sheet.jumper == Jumper::ReliedOn => {
            reader.say("papers-need-relied-on")
        }
        (Some("not-required"), Some(true)) => reader.say("papers-need-all-the-same"),
        (Some("not-required"), _) => reader.say("papers-need-none"),
        _ => reader.say("papers-need-open"),
    };
    let list = List { drawn, reader };
    let mut rows = Vec::new();
    let mut remarks = vec![reader.say("papers-remark-practice")];
    if concerns_a_jumper(drawn, reader) {
        rows.extend([list.conductor(), list.clamp(), list.landing()]);
        rows.extend(list.electrode());
        rows.push(list.protection());
        rows.extend(drawn.asked().filter(|line| line.question.contains("label")).map(|line| list.label(line)));
        if !drawn.asked().any(|line| line.question.contains("label")) {
            remarks.push(reader.say("papers-remark-label"));
        }
        remarks.push(reader.say("papers-remark-tubing"));
    }
    Body { need, rows, remarks }
}

struct List<'l, 'm, 'a> {
    drawn: &'l Drawn<'m, 'a>,
    reader: Reader,
}

impl List<'_, '_, '_> {
    /// What the rules say of the jumper that is bought, whether or not one is required.
    fn asked(&self, question: &str) -> Option<&Line> {
        self.drawn.line(question).filter(|line| !line.silent && !line.loosest)
    }

    fn fact(&self, path: &str) -> String {
        self.drawn.facts(self.reader).or_blank(path)
    }

    /// What an answer asks, and the flag where the job does otherwise.
    fn asks(&self, row: &mut Row, question: &str, label: &str) {
        let Some(line) = self.asked(question) else { return };
        row.what.push(self.reader.say_with("papers-asked-for", &[("what", label), ("value", &line.value)]));
        if matches!(line.mark, "not-met" | "refer" | "conflict") {
            let parts = [("word", &*line.word), ("title", &*line.title)];
            row.flag.get_or_insert_with(|| self.reader.say_with("papers-buy-after", &parts));
        }
        if !row.basis.contains(&line.section) {
            if !row.basis.is_empty() {
                row.basis.push_str("; ");
            }
            row.basis.push_str(&line.section);
        }
    }

    fn conductor(&self) -> Row {
        let (reader, facts) = (self.reader, self.drawn.facts(self.reader));
        let size = facts.words("jumper.size");
        let metal = facts.words("jumper.material");
        let what = match (size, metal) {
            (None, None) => reader.say("papers-blank"),
            (size, metal) => {
                let blank = || reader.say("papers-blank");
                format!("{} {}", size.unwrap_or_else(blank), metal.unwrap_or_else(blank))
            }
        };
        let mut row = Row {
            item: reader.say("papers-item-conductor"),
            what: vec![reader.say_with("papers-this-job", &[("what", &what)])],
            ..Row::default()
        };
        self.asks(&mut row, "jumper-size", &reader.say("papers-built-size"));
        self.asks(&mut row, "jumper-metal", &reader.say("papers-built-metal"));
        row.quantity = self.length();
        self.asks(&mut row, "jumper-length", &reader.say("papers-built-length"));
        row
    }

    /// How much conductor, and from what it follows.
    fn length(&self) -> Vec<String> {
        let (reader, facts) = (self.reader, self.drawn.facts(self.reader));
        let line = self.asked("jumper-length");
        let told = |key: &str, length: &str, more: i128| {
            reader.say_with(key, &[("length", length), ("percent", &more.to_string())])
        };
        let too_long = line.is_some_and(|line| line.mark == "not-met");
        if let (Some(length), Some(words)) = (facts.measure("jumper.length"), facts.words("jumper.length")) {
            if too_long {
                return vec![reader.say("papers-blank"), reader.say_with("papers-too-long", &[("length", &words)])];
            }
            if let Some(all) = with_allowance(length, WASTE, reader) {
                return vec![all, told("papers-with-waste", &words, WASTE)];
            }
        }
        if let (Some(way), Some(words)) = (facts.measure("service-distance"), facts.words("service-distance"))
            && facts.term("jumper.landed-on").given().is_none_or(|spot| spot.among(AWAY).is_none())
        {
            if let (Some(limit), Some(line)) = (self.limit(), line)
                && way.amount > limit.amount
            {
                let parts = [("length", &*words), ("value", &*line.value)];
                return vec![reader.say("papers-blank"), reader.say_with("papers-way-too-long", &parts)];
            }
            if let Some(all) = with_allowance(way, WASTE, reader) {
                return vec![all, told("papers-along-way", &words, WASTE)];
            }
        }
        let mut quantity = vec![reader.say("papers-blank")];
        if let Some(line) = line {
            quantity.push(reader.say_with("papers-length-limit", &[("value", &line.value)]));
        }
        quantity
    }

    /// The settled limit of the length.
    fn limit(&self) -> Option<Measure> {
        match &self.drawn.answered("jumper-length")?.value.as_ref()?.items {
            Items::One(Item::Limit(Some(figure))) => {
                let (number, unit) = figure.split_once(' ')?;
                Measure::quantity(number, unit, Unit::find("ft")?).ok()
            }
            _ => None,
        }
    }

    fn clamp(&self) -> Row {
        let (reader, facts) = (self.reader, self.drawn.facts(self.reader));
        let mut row = Row {
            item: reader.say("papers-item-clamp"),
            what: vec![
                reader.say_with("papers-clamp-pipe", &[("size", &self.fact("jumper.pipe-size"))]),
                reader.say_with("papers-clamp-on", &[("spot", &self.fact("jumper.attached-to"))]),
            ],
            quantity: vec!["1".to_owned()],
            ..Row::default()
        };
        let sizes = facts.over("run", "size");
        if facts.words("jumper.pipe-size").is_none() && !sizes.is_empty() {
            row.what.push(reader.say_with("papers-clamp-runs", &[("sizes", &sizes.join(", "))]));
        }
        self.asks(&mut row, "clamp", &reader.say("papers-built-listing"));
        self.asks(&mut row, "attachment", &reader.say("papers-built-clamped"));
        row
    }

    fn landing(&self) -> Row {
        let reader = self.reader;
        let what = match self.drawn.facts(reader).term("jumper.landed-on").told().map(Term::name) {
            Some("service-enclosure") => reader.say("papers-land-enclosure"),
            Some("service-neutral") => reader.say("papers-land-neutral"),
            Some("electrode-conductor") => reader.say("papers-land-conductor"),
            Some("electrode") => reader.say("papers-land-electrode"),
            Some("lightning-electrode") => reader.say("papers-land-lightning"),
            Some("added-electrode-tied" | "added-electrode-alone") => reader.say("papers-land-added"),
            Some("subpanel-bar" | "appliance-circuit") => reader.say("papers-land-bar"),
            Some("intersystem-terminal") => reader.say("papers-land-terminal"),
            Some("water-pipe") => reader.say("papers-land-water"),
            _ => reader.say("papers-land-unknown"),
        };
        let mut row = Row {
            item: reader.say("papers-item-landing"),
            what: vec![reader.say_with("papers-this-job", &[("what", &self.fact("jumper.landed-on"))]), what],
            quantity: vec!["1".to_owned()],
            ..Row::default()
        };
        self.asks(&mut row, "landing", &reader.say("papers-built-landing"));
        self.asks(&mut row, "joint", &reader.say("papers-built-joint"));
        row
    }

    /// What an electrode takes that the bond adds.
    fn electrode(&self) -> Vec<Row> {
        let reader = self.reader;
        let added = ["added-electrode-tied", "added-electrode-alone"];
        if !self.drawn.facts(reader).term("jumper.landed-on").told().is_some_and(|spot| added.contains(&spot.name())) {
            return Vec::new();
        }
        let rod = Row {
            item: reader.say("papers-item-rod"),
            what: vec![reader.say("papers-rod-what"), reader.say("papers-rod-clamp")],
            quantity: vec!["1".to_owned()],
            basis: reader.say("papers-rod-basis"),
            ..Row::default()
        };
        let tie = Row {
            item: reader.say("papers-item-tie"),
            what: vec![reader.say("papers-tie-what")],
            quantity: vec![reader.say("papers-blank")],
            basis: reader.say("papers-tie-basis"),
            ..Row::default()
        };
        let joint = Row {
            item: reader.say("papers-item-tie-connector"),
            what: vec![reader.say("papers-tie-connector-what")],
            quantity: vec!["1".to_owned()],
            basis: reader.say("papers-tie-connector-basis"),
            ..Row::default()
        };
        vec![rod, tie, joint]
    }

    fn protection(&self) -> Row {
        let reader = self.reader;
        let required = self.drawn.is("protection", "in-raceway");
        let ours = self.drawn.facts(reader).says("jumper.in-raceway") == Some(true);
        let mut row = if required || ours {
            let mut quantity = self.length();
            quantity.truncate(1);
            Row {
                item: reader.say("papers-item-raceway"),
                what: vec![reader.say("papers-raceway-what")],
                quantity,
                basis: if required { String::new() } else { reader.say("papers-basis-job") },
                ..Row::default()
            }
        } else {
            Row {
                item: reader.say("papers-item-fastening"),
                what: vec![reader.say("papers-fastening-what")],
                quantity: vec![reader.say("papers-blank")],
                basis: reader.say("papers-practice"),
                ..Row::default()
            }
        };
        if !self.drawn.is("protection", "as-run") {
            self.asks(&mut row, "protection", &reader.say("papers-built-protection"));
        }
        row
    }

    fn label(&self, line: &Line) -> Row {
        Row {
            item: line.title.clone(),
            what: vec![line.value.clone()],
            quantity: vec!["1".to_owned()],
            basis: line.section.clone(),
            ..Row::default()
        }
    }
}
