//! What one edition of a gas code answers otherwise than the one before, held
//! against what was published of the change.
//!
//! The same invented town adopts the one edition before and the other after; nothing
//! else is its law.

use crate::oracle::effect::generate::place;
use crate::oracle::effect::words::lines;
use crate::review::effect::Side;
use crate::rules::{Rules, Source};

fn adopting(edition: &str) -> Rules {
    let text = format!(
        "place tonalite \"Town of Tonalite\"\n    read \"invented for this test\" on 2026-11-24\n\
         instrument TO-1 of tonalite \"Ordinance 1\"\n    kind ordinance\n    in force from 2024-01-01\n    adopts {edition}\n    \
         read \"invented for this test\" on 2026-11-24\n"
    );
    let rules = Rules::with(vec![Source::new("tonalite.rule", text)]);
    let problems: Vec<String> = rules.problems().collect();
    assert!(rules.usable(), "{problems:?}");
    rules
}

fn between(before: &str, after: &str) -> Vec<String> {
    let (one, two) = (adopting(before), adopting(after));
    let side = |rules| Side { rules, place: place(rules, "tonalite"), on: None };
    lines(side(&one), side(&two))
}

/// A change of an answer with its conditions, and where it was published; `from
/// memory` where it was not seen in print.
type Published = (&'static str, &'static str, &'static [&'static str]);

/// What conditions are made of, in short.
const SHORT: [(&str, &str); 8] = [
    ("csst", "any run with (material is csst and role is not appliance-connector)"),
    ("other metal", "any run with (material is any of aluminum-pipe, brass, copper, steel)"),
    ("no other metal", "no run with (material is any of aluminum-pipe, brass, copper, steel)"),
    ("no plain csst", "no run with (material is csst and role is not appliance-connector and jacket is plain)"),
    ("work beside", "work is any of appliance-swap, repair, service-change"),
    ("not work beside", "not (work is any of appliance-swap, repair, service-change)"),
    ("work", "work is not existing-only"),
    ("own service", "not (building is any of detached-feeder, detached-no-power)"),
];

/// The line of a change under one of its conditions, its tests in order.
fn line(change: &str, condition: &str) -> String {
    let mut tests: Vec<&str> = condition
        .split(" & ")
        .map(|test| SHORT.iter().find(|(short, _)| *short == test).map_or(test, |(_, long)| long))
        .collect();
    tests.sort_unstable();
    format!("{change} if {}", tests.join(" and "))
}

/// Whether the change of editions is told as published, and nothing else.
fn just(before: &str, after: &str, published: &[Published]) {
    let mut expected: Vec<String> = Vec::new();
    for (source, change, conditions) in published {
        assert!(source.starts_with("http") || *source == "from memory", "{source}");
        expected.extend(conditions.iter().map(|condition| line(change, condition)));
    }
    expected.sort();
    let found = between(before, after);
    let missing: Vec<&String> = expected.iter().filter(|line| !found.contains(line)).collect();
    let more: Vec<&String> = found.iter().filter(|line| !expected.contains(line)).collect();
    assert!(found == expected, "{before} to {after}: not told {missing:#?}\nnot published {more:#?}");
}

/// The place of the bond moved from the entry of the gas service to anywhere on
/// metal pipe or a fitting ahead of the first fitting of CSST.
const POINT_OF_2012: [Published; 2] = [
    (
        "http://forums.mikeholt.com/showthread.php?t=183357",
        "attachment: anything but supplier side -> only manifold, pipe fitting, rigid pipe",
        &["direct-bond is required"],
    ),
    (
        "http://forums.mikeholt.com/showthread.php?t=183357",
        "attachment-position: only gas entry -> only before first CSST, gas entry",
        &["direct-bond is required"],
    ),
];

#[test]
fn ifgc_2012_moved_the_clamp() {
    just("IFGC 2009", "IFGC 2012", &POINT_OF_2012);
}

/// Beside the place of the bond, whether the electrodes of a lightning protection
/// system came in with this edition was not established: a landing on them is
/// referred.
#[test]
fn nfgc_2012_moved_the_clamp() {
    let landing: [Published; 2] = [
        (
            "from memory",
            "landing: only added electrode tied, electrode, electrode conductor, service enclosure, service neutral -> no restriction or as referred",
            &[
                "direct-bond is required & jumper.landed-on is lightning-electrode & jumper.present is not no & own service",
            ],
        ),
        (
            "from memory",
            "landing: only added electrode tied, electrode, electrode conductor, service enclosure, service neutral or as referred -> no restriction or as referred",
            &[
                "building is any of detached-feeder, detached-no-power & direct-bond is required & jumper.landed-on is lightning-electrode & jumper.present is not no",
            ],
        ),
    ];
    just("NFGC 2009", "NFGC 2012", &[POINT_OF_2012, landing].concat());
}

/// A length of CSST among other pipe needs the bond as a system of CSST does, the
/// clamp may sit anywhere, also on a fitting of CSST, the electrodes of a lightning
/// protection system are a landing, the jumper is at most 75 ft long, and what makes the
/// bond is listed to UL 467. What hangs on the bond is asked for, or referred, where the
/// bond is.
#[test]
fn ifgc_2015_took_in_single_lengths_and_set_limits() {
    const SEGMENT: &str = "https://ecode360.com/39229997";
    const LIMITS: &str = "https://www.pmmag.com/articles/97086-protecting-csst-gas-piping-systems";
    let published: [Published; 14] = [
        (
            SEGMENT,
            "direct-bond: not required or as referred -> required",
            &["csst & other metal & not work beside & work"],
        ),
        (
            SEGMENT,
            "jumper-size: no limit or as referred -> at least 6 AWG copper, 4 AWG aluminum",
            &["csst & other metal & not work beside & work"],
        ),
        (
            LIMITS,
            "attachment: no restriction or as referred -> only CSST fitting, manifold, pipe fitting, rigid pipe",
            &["csst & other metal & not work beside & work"],
        ),
        (
            LIMITS,
            "attachment: only manifold, pipe fitting, rigid pipe -> only CSST fitting, manifold, pipe fitting, rigid pipe",
            &["csst & no other metal & not work beside & work"],
        ),
        (
            LIMITS,
            "attachment-position: only before first CSST, gas entry -> no restriction",
            &["csst & no other metal & not work beside & work"],
        ),
        (
            LIMITS,
            "attachment-position: no restriction or as referred -> no restriction",
            &["csst & work beside", "csst & other metal & work"],
        ),
        (LIMITS, "jumper-length: no limit -> at most 75 ft", &["csst & not work beside & work"]),
        (LIMITS, "jumper-length: no limit -> no limit or as referred", &["csst & work beside"]),
        ("from memory", "clamp: none asked for -> UL-467", &["csst & not work beside & work"]),
        ("from memory", "clamp: none asked for -> none asked for or as referred", &["csst & work beside"]),
        (
            SEGMENT,
            "landing: only added electrode tied, electrode, electrode conductor, service enclosure, service neutral -> only added electrode tied, electrode, electrode conductor, lightning electrode, service enclosure, service neutral",
            &[
                "csst & no other metal & own service & not work beside & work & jumper.present is no",
                "csst & no other metal & own service & not work beside & work & jumper.landed-on is water-pipe & not (electrodes includes water-pipe)",
                "csst & no other metal & own service & not work beside & work & jumper.landed-on is not water-pipe & not (jumper.landed-on is any of intersystem-terminal, subpanel-bar)",
            ],
        ),
        (
            SEGMENT,
            "landing: only added electrode tied, electrode, electrode conductor, service enclosure, service neutral or as referred -> only added electrode tied, electrode, electrode conductor, lightning electrode, service enclosure, service neutral or as referred",
            &[
                "csst & no other metal & building is any of detached-feeder, detached-no-power & not work beside & work & jumper.present is no",
                "csst & no other metal & building is any of detached-feeder, detached-no-power & not work beside & work & jumper.landed-on is water-pipe & not (electrodes includes water-pipe)",
                "csst & no other metal & building is any of detached-feeder, detached-no-power & not work beside & work & jumper.landed-on is not water-pipe & not (jumper.landed-on is any of intersystem-terminal, subpanel-bar)",
            ],
        ),
        (
            SEGMENT,
            "landing: no restriction or as referred -> only added electrode tied, electrode, electrode conductor, lightning electrode, service enclosure, service neutral",
            &[
                "csst & other metal & own service & not work beside & work & jumper.present is no",
                "csst & other metal & own service & not work beside & work & jumper.landed-on is water-pipe & not (electrodes includes water-pipe)",
                "csst & other metal & own service & not work beside & work & jumper.landed-on is not water-pipe & not (jumper.landed-on is any of intersystem-terminal, subpanel-bar)",
            ],
        ),
        (
            SEGMENT,
            "landing: no restriction or as referred -> only added electrode tied, electrode, electrode conductor, lightning electrode, service enclosure, service neutral or as referred",
            &[
                "csst & other metal & building is any of detached-feeder, detached-no-power & not work beside & work & jumper.present is no",
                "csst & other metal & building is any of detached-feeder, detached-no-power & not work beside & work & jumper.landed-on is water-pipe & not (electrodes includes water-pipe)",
                "csst & other metal & building is any of detached-feeder, detached-no-power & not work beside & work & jumper.landed-on is not water-pipe & not (jumper.landed-on is any of intersystem-terminal, subpanel-bar)",
            ],
        ),
    ];
    just("IFGC 2012", "IFGC 2015", &published);
}

/// The clause on CSST is for CSST that is not listed as arc-resistant, and a system
/// of arc-resistant tubing alone goes as other pipe does: the direct bond, and all that
/// hangs on it, falls away. Its own clause asks for a fault-current path also where
/// nothing is likely to energize it, which is read both ways. The new numbers of the
/// clauses change nothing.
fn arc_resistant_of_2018(own: &'static str) -> Vec<Published> {
    vec![
        (own, "direct-bond: required -> not required", &["csst & no plain csst & not work beside & work"]),
        (own, "direct-bond: not required or as referred -> not required", &["csst & no plain csst & work beside"]),
        (
            own,
            "attachment: only CSST fitting, manifold, pipe fitting, rigid pipe -> no restriction",
            &["csst & no plain csst & not work beside & work"],
        ),
        (own, "attachment: no restriction or as referred -> no restriction", &["csst & no plain csst & work beside"]),
        (own, "clamp: UL-467 -> none asked for", &["csst & no plain csst & not work beside & work"]),
        (own, "clamp: none asked for or as referred -> none asked for", &["csst & no plain csst & work beside"]),
        (own, "jumper-length: at most 75 ft -> no limit", &["csst & no plain csst & not work beside & work"]),
        (own, "jumper-length: no limit or as referred -> no limit", &["csst & no plain csst & work beside"]),
        (
            own,
            "jumper-size: at least 6 AWG copper, 4 AWG aluminum -> no limit",
            &["csst & no plain csst & not work beside & work"],
        ),
        (own, "jumper-size: no limit or as referred -> no limit", &["csst & no plain csst & work beside"]),
        (
            own,
            "landing: no restriction or as referred -> no restriction",
            &[
                "csst & no plain csst & work beside",
                "csst & no plain csst & work & jumper.present is not no & jumper.landed-on is any of intersystem-terminal, subpanel-bar",
                "csst & no plain csst & work & jumper.present is not no & jumper.landed-on is water-pipe & electrodes includes water-pipe",
            ],
        ),
        (
            own,
            "landing: only added electrode tied, electrode, electrode conductor, lightning electrode, service enclosure, service neutral -> no restriction",
            &[
                "csst & no plain csst & own service & not work beside & work & jumper.present is no",
                "csst & no plain csst & own service & not work beside & work & jumper.landed-on is water-pipe & not (electrodes includes water-pipe)",
                "csst & no plain csst & own service & not work beside & work & jumper.landed-on is not water-pipe & not (jumper.landed-on is any of intersystem-terminal, subpanel-bar)",
            ],
        ),
        (
            own,
            "landing: only added electrode tied, electrode, electrode conductor, lightning electrode, service enclosure, service neutral or as referred -> no restriction",
            &[
                "csst & no plain csst & building is any of detached-feeder, detached-no-power & not work beside & work & jumper.present is no",
                "csst & no plain csst & building is any of detached-feeder, detached-no-power & not work beside & work & jumper.landed-on is water-pipe & not (electrodes includes water-pipe)",
                "csst & no plain csst & building is any of detached-feeder, detached-no-power & not work beside & work & jumper.landed-on is not water-pipe & not (jumper.landed-on is any of intersystem-terminal, subpanel-bar)",
            ],
        ),
        (
            "https://studylib.net/doc/18752939/2nd-qtr-qa-fuel-gas-2016",
            "equipment-bond: not required -> not required or as referred",
            &[
                "any run with (material is csst and role is not appliance-connector and jacket is arc-resistant) & likely-energized is no & work",
            ],
        ),
    ]
}

#[test]
fn ifgc_2018_let_go_of_arc_resistant_tubing() {
    let page = "http://online.flipbuilder.com/mewf/mima/files/basic-html/page578.html";
    just("IFGC 2015", "IFGC 2018", &arc_resistant_of_2018(page));
}

#[test]
fn nfgc_2018_let_go_of_arc_resistant_tubing() {
    just("NFGC 2015", "NFGC 2018", &arc_resistant_of_2018("https://mopropanesc.org/news-1/arc-resistant-csst"));
}

/// The publisher's list of main changes of 2021 has none on bonding:
/// <https://asmedoc.com/?u=%2Fproduct%2Fpublishers%2Ficc%2Ficc-ifgc-2021-1stptg-2%2F>.
#[test]
fn ifgc_2021_changed_nothing() {
    just("IFGC 2018", "IFGC 2021", &[]);
}
