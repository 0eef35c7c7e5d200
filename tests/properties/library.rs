//! Made-up libraries of two editions, two places and a few instruments, and jobs.

use proptest::prelude::*;
use proptest_derive::Arbitrary;
use serde_json::{Map, Value, json};

const GLOSSARY: &str = "choice use \"Use\"\n    dwelling\n    shop\nchoice trade \"Trade\"\n    electrician\n    plumber\n    fitter\n\
choice paper \"Paper\"\n    gas\n    power\nchoice which \"Which text\"\n    earlier\n    later\nchoice metal \"Metal\"\n    steel\n    csst\n\
subject piping \"Piping\"\nsubject people \"People\"\nfact applied date \"Applied\" dates instruments\nfact text-elected which \"Text\" chooses the text\n\
fact used use \"Used as\"\nfact hidden yes-no \"Hidden\"\nlist run \"Run\"\n    material metal\n\
question bond on piping \"Bond\" ladder not-required, required\nquestion reach on piping \"Length\" at most ft\n\
question worker on people \"Who\" only trade\nquestion papers on people \"Papers\" all of paper\n";

/// The trades of the glossary.
pub const TRADES: [&str; 3] = ["electrician", "fitter", "plumber"];

/// One section that the law may add.
#[derive(Clone, Copy, Debug, Arbitrary)]
pub struct Extra {
    demand: Demand,
    test: Test,
    /// The instrument that carries it.
    act: proptest::sample::Index,
}

/// What a section demands.
#[derive(Clone, Copy, Debug, Arbitrary)]
pub enum Demand {
    Bond,
    NoBond,
    Short,
    Long,
    Electrician,
    NoFitter,
    Gas,
    Both,
}

impl Demand {
    fn text(self) -> &'static str {
        match self {
            Demand::Bond => "bond is required",
            Demand::NoBond => "bond is not-required",
            Demand::Short => "reach at most 50 ft",
            Demand::Long => "reach at most 75 ft",
            Demand::Electrician => "worker only electrician, plumber",
            Demand::NoFitter => "worker none of fitter",
            Demand::Gas => "papers all of gas",
            Demand::Both => "papers all of gas, power",
        }
    }
}

/// When a section applies.
#[derive(Clone, Copy, Debug, Arbitrary)]
pub enum Test {
    Always,
    Dwelling,
    NotHidden,
    Csst,
    NoSteel,
    Late,
}

impl Test {
    fn text(self) -> &'static str {
        match self {
            Test::Always => "",
            Test::Dwelling => "where used is dwelling",
            Test::NotHidden => "where not hidden is yes",
            Test::Csst => "where any run with (material is csst)",
            Test::NoSteel => "where no run with (material is steel and hidden is no)",
            Test::Late => "where applied from 2021-06-01",
        }
    }
}

/// What an instrument does beside its section.
#[derive(Clone, Copy, Debug, Arbitrary)]
pub enum Deed {
    Nothing,
    AdoptsOld,
    AdoptsNew,
    AdoptsForDwellings,
    Replaces,
    Deletes,
    Excepts,
    Floor,
    Ceiling,
    Preempts,
}

impl Deed {
    fn text(self) -> &'static str {
        match self {
            Deed::Nothing => "",
            Deed::AdoptsOld => "adopts GC 2015",
            Deed::AdoptsNew => "adopts GC 2018",
            Deed::AdoptsForDwellings => "adopts GC 2018 where used is dwelling\n    adopts GC 2015 otherwise",
            Deed::Replaces => "amend GC 2015\n        replace 1 \"Bond\" where hidden is yes bond is required",
            Deed::Deletes => "amend GC 2018\n        delete 2",
            Deed::Excepts => "amend GC any numbered as in 2015\n        except 1 \"Shops\" where used is shop",
            Deed::Floor => "floor bond",
            Deed::Ceiling => "ceiling reach",
            Deed::Preempts => "preempts worker where used is shop",
        }
    }
}

/// One instrument.
#[derive(Clone, Copy, Debug, Arbitrary)]
pub struct Act {
    inner: bool,
    #[proptest(strategy = "2018u32..2024")]
    year: u32,
    lapses: bool,
    election: bool,
    deed: Deed,
    section: Option<(Demand, Test)>,
}

/// A made-up library.
#[derive(Clone, Debug)]
pub struct Made {
    acts: Vec<Act>,
    sections: [(Demand, Test); 3],
    extra: Option<Extra>,
}

/// Any library.
pub fn library() -> impl Strategy<Value = Made> {
    (proptest::collection::vec(any::<Act>(), 1..6), any::<[(Demand, Test); 3]>()).prop_map(|(acts, sections)| Made {
        acts,
        sections,
        extra: None,
    })
}

impl Made {
    /// The library with one more section.
    pub fn with(&self, extra: Extra) -> Made {
        Made { extra: Some(extra), ..self.clone() }
    }

    /// Whether some instrument holds a ceiling.
    pub fn has_a_ceiling(&self) -> bool {
        self.acts.iter().any(|act| matches!(act.deed, Deed::Ceiling))
    }

    /// The items of the library, each in a text of its own.
    fn items(&self) -> Vec<String> {
        let mut items = vec![
            "code GC \"Gas code\" on piping, people\n".to_owned(),
            "place outer \"Outer\"\n    common practice\n".to_owned(),
            "place inner \"Inner\" within outer\n    common practice\n".to_owned(),
        ];
        let [one, two, three] = self.sections;
        let section = |number: u32, (demand, test): (Demand, Test)| {
            format!("    section {number} \"Section\"\n        {}\n        {}\n", test.text(), demand.text())
        };
        items.push(format!("edition GC 2015\n    common practice\n{}{}", section(1, one), section(2, two)));
        items.push(format!(
            "edition GC 2018 revises GC 2015\n    common practice\n    renumber 1 to 5\n    add 7 \"Section\"\n        {}\n        {}\n",
            three.1.text(),
            three.0.text()
        ));
        let mut deleted = [false; 2];
        for (at, act) in self.acts.iter().enumerate() {
            // A place deletes a section once.
            let again =
                matches!(act.deed, Deed::Deletes) && std::mem::replace(&mut deleted[usize::from(act.inner)], true);
            let deed = if again { Deed::Nothing } else { act.deed };
            let place = if act.inner { "inner" } else { "outer" };
            let end = if act.lapses { format!(" through {}-12-31", act.year + 1) } else { String::new() };
            let election =
                if act.election { format!("    election through {}-06-30\n", act.year) } else { String::new() };
            let own = act.section.map(|section_of| section(at as u32 + 1, section_of)).unwrap_or_default();
            let extra = self.extra.filter(|extra| extra.act.index(self.acts.len()) == at);
            let more = extra.map(|extra| section(99, (extra.demand, extra.test))).unwrap_or_default();
            items.push(format!(
                "instrument A-{at} of {place} \"Act {at}\"\n    kind ordinance\n    in force from {}-01-01{end}\n    {}\n{election}{own}{more}",
                act.year,
                deed.text(),
            ));
        }
        items
    }

    /// The library in two files.
    pub fn files(&self) -> Vec<(String, String)> {
        vec![("a/glossary.rule".into(), GLOSSARY.into()), ("a/law.rule".into(), self.items().concat())]
    }

    /// The same items in another order, in files of other names.
    pub fn shuffled(&self, seed: u64) -> Vec<(String, String)> {
        let mut items = self.items();
        let mut state = seed | 1;
        for at in (1..items.len()).rev() {
            state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            items.swap(at, (state >> 33) as usize % (at + 1));
        }
        let half = items.split_off(items.len() / 2);
        vec![
            ("b/z.rule".into(), items.concat()),
            ("b/m.rule".into(), half.concat()),
            ("b/a.rule".into(), GLOSSARY.into()),
        ]
    }
}

/// A fact with a value.
pub fn fact() -> impl Strategy<Value = (String, Value)> {
    prop_oneof![
        (2017u32..2026, 1u32..13)
            .prop_map(|(year, month)| ("applied".to_owned(), json!(format!("{year}-{month:02}-15")))),
        prop_oneof![Just("earlier"), Just("later")].prop_map(|term| ("text-elected".to_owned(), json!(term))),
        prop_oneof![Just("dwelling"), Just("shop")].prop_map(|term| ("used".to_owned(), json!(term))),
        any::<bool>().prop_map(|yes| ("hidden".to_owned(), json!(yes))),
        proptest::collection::vec(
            prop_oneof![
                Just(json!({"material": "steel"})),
                Just(json!({"material": "csst"})),
                Just(json!({})),
                Just(Value::Null)
            ],
            0..3
        )
        .prop_map(|runs| ("run".to_owned(), json!(runs))),
    ]
}

/// A job of which more or less is known.
pub fn jobs() -> impl Strategy<Value = Value> {
    (any::<bool>(), proptest::collection::vec(fact(), 0..6)).prop_map(|(inner, facts)| {
        let mut job: Map<String, Value> = facts.into_iter().collect();
        job.insert("place".into(), json!(if inner { "inner" } else { "outer" }));
        job.into()
    })
}
