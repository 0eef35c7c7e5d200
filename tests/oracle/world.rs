//! The glossary of the generated worlds: one of every shape and order.

use crate::glossary::expr::Expr;
use crate::glossary::model::*;
use crate::job::model::Job;
use crate::law::model::Law;
use crate::syntax::diagnostic::Location;
use crate::values::{Terms, Unit};
use crate::verdict::Lexicon;

/// A law, a job, and the glossary that both speak of.
pub(crate) struct World {
    pub(crate) choices: Vec<Choice>,
    pub(crate) subjects: Vec<Subject>,
    pub(crate) fields: Vec<Field>,
    pub(crate) groups: Vec<Group>,
    pub(crate) questions: Vec<Question>,
    pub(crate) roles: Roles,
    pub(crate) path: Vec<PlaceId>,
    pub(crate) law: Law,
    pub(crate) job: Job,
}

impl World {
    pub(crate) fn lexicon(&self) -> Lexicon<'_> {
        Lexicon {
            choices: &self.choices,
            subjects: &self.subjects,
            fields: &self.fields,
            groups: &self.groups,
            questions: &self.questions,
            roles: self.roles,
            path: &self.path,
        }
    }
}

pub(crate) const APPLIED: FieldId = FieldId(0);
pub(crate) const BETWEEN: FieldId = FieldId(1);
pub(crate) const PERMIT: FieldId = FieldId(2);
pub(crate) const WET: FieldId = FieldId(3);
pub(crate) const KIND: FieldId = FieldId(4);
pub(crate) const AMPS: FieldId = FieldId(5);
pub(crate) const WIRE: FieldId = FieldId(6);
pub(crate) const PAPERS: FieldId = FieldId(7);
pub(crate) const MAKER: FieldId = FieldId(8);
pub(crate) const CODE: FieldId = FieldId(9);
pub(crate) const HOT: FieldId = FieldId(10);
pub(crate) const METAL: FieldId = FieldId(11);
pub(crate) const COUNT: FieldId = FieldId(12);
pub(crate) const LENGTH: FieldId = FieldId(13);
pub(crate) const JACKET: FieldId = FieldId(14);
pub(crate) const SIZE: FieldId = FieldId(15);
pub(crate) const DAY: FieldId = FieldId(16);
pub(crate) const ON: FieldId = FieldId(17);
pub(crate) const FACTS: u16 = 14;
pub(crate) const RUN: GroupId = GroupId(0);
pub(crate) const UNIT: GroupId = GroupId(1);

pub(crate) const KINDS: ChoiceId = ChoiceId(0);
pub(crate) const SHEETS: ChoiceId = ChoiceId(1);
pub(crate) const METALS: ChoiceId = ChoiceId(2);

fn choice(name: &str, terms: &[(&str, Option<u16>, Scope)]) -> Choice {
    let covers = |own: u16| {
        let mut covered = Terms::one(own);
        for (number, (_, under, _)) in (0u16..).zip(terms) {
            if under.is_some_and(|under| covered.has(under)) {
                covered = covered.union(Terms::one(number));
            }
        }
        covered
    };
    let terms = (0u16..).zip(terms).map(|(number, (name, under, scope))| Term {
        name: (*name).into(),
        title: "".into(),
        under: *under,
        covers: covers(number),
        scope: *scope,
        at: Location::default(),
    });
    Choice { name: name.into(), title: "".into(), terms: terms.collect(), at: Location::default() }
}

fn field(name: &str, shape: Shape) -> Field {
    Field {
        name: name.into(),
        path: name.into(),
        shape,
        title: "".into(),
        ask: None,
        known: Vec::new(),
        ours: false,
        group: None,
        column: 0,
        presumed: None,
        never_before: None,
        scope: None,
        at: Location::default(),
    }
}

fn attribute(group: GroupId, list: &str, column: u16, name: &str, shape: Shape) -> Field {
    Field { path: format!("{list}.{name}").into(), group: Some(group), column, ..field(name, shape) }
}

fn question(name: &str, order: Order) -> Question {
    Question {
        name: name.into(),
        title: "".into(),
        subject: SubjectId(0),
        order,
        per: None,
        measures: None,
        met: None,
        asked: None,
        costs: None,
        contrary: Vec::new(),
        caution: None,
        scope: None,
        at: Location::default(),
    }
}

fn ladder(rungs: &[&str]) -> Order {
    Order::Ladder(rungs.iter().map(|rung| (*rung).into()).collect())
}

/// The glossary, with a law and a job still to be put in.
pub(crate) fn glossary(law: Law, job: Job) -> World {
    let unit = |name: &str| Shape::Quantity(Unit::find(name).unwrap());
    let held = |name: &str, fields: &[FieldId]| Group {
        name: name.into(),
        title: "".into(),
        list: true,
        fields: fields.to_vec(),
        scope: None,
        at: Location::default(),
    };
    let met = || Some(Met::Where(Expr::Constant(true)));
    let elsewhere = Some(PlaceId(9));
    World {
        choices: vec![
            choice(
                "kinds",
                &[("ash", None, None), ("birch", None, None), ("elm", Some(1), None), ("fir", Some(1), elsewhere)],
            ),
            choice("sheets", &[("pink", None, None), ("blue", None, None), ("grey", None, None)]),
            choice("metals", &[("copper", None, None), ("aluminum", None, None), ("steel", None, None)]),
        ],
        subjects: vec![Subject { name: "pipes".into(), title: "".into(), governed: true, at: Location::default() }],
        fields: vec![
            field("applied", Shape::Date),
            Field { never_before: Some(APPLIED), ..field("between", Shape::Date) },
            Field { never_before: Some(BETWEEN), ..field("permit", Shape::Date) },
            field("wet", Shape::YesNo),
            field("kind", Shape::Choice(KINDS)),
            field("amps", unit("A")),
            field("wire", Shape::Gauge),
            field("papers", Shape::Several(SHEETS)),
            field("maker", Shape::Name),
            field("code", Shape::Code),
            field("hot", Shape::YesNo),
            field("metal", Shape::Choice(METALS)),
            field("count", Shape::Count),
            field("length", unit("ft")),
            attribute(RUN, "run", 0, "jacket", Shape::YesNo),
            attribute(RUN, "run", 1, "size", unit("ft")),
            attribute(RUN, "run", 2, "day", Shape::Date),
            attribute(UNIT, "unit", 0, "on", Shape::YesNo),
        ],
        groups: vec![held("run", &[JACKET, SIZE, DAY]), held("unit", &[ON])],
        questions: vec![
            Question { met: met(), contrary: vec![QuestionId(1)], ..question("bond", ladder(&["no", "half", "full"])) },
            Question {
                met: Some(Met::Never),
                contrary: vec![QuestionId(0)],
                ..question("use", ladder(&["may", "must-not"]))
            },
            question("plain", ladder(&["low", "high"])),
            Question {
                per: Some((METAL, METALS)),
                measures: Some(WIRE),
                ..question("gauge", Order::AtLeast(Scale::Gauge))
            },
            Question {
                measures: Some(LENGTH),
                ..question("reach", Order::AtMost(Scale::Quantity(Unit::find("ft").unwrap())))
            },
            Question { measures: Some(KIND), ..question("who", Order::Only(KINDS)) },
            Question { measures: Some(PAPERS), ..question("sheets", Order::AllOf(SHEETS)) },
            Question { per: Some((METAL, METALS)), measures: Some(KIND), ..question("mix", Order::Only(KINDS)) },
            Question { measures: Some(COUNT), ..question("many", Order::AtLeast(Scale::Count)) },
        ],
        roles: Roles { dates: Some(APPLIED), text: None, code: Some(CODE), supplier: None },
        path: vec![PlaceId(0), PlaceId(1)],
        law,
        job,
    }
}
