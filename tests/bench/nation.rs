//! A made-up nation: fifty states of sixty counties, forty thousand places in
//! all, a tenth of them with adoptions and amendments of their own.

use groundrule::Source;
use std::fmt::Write as _;

const STATES: usize = 50;
const COUNTIES: usize = 60;
const PLACES: usize = 40_000;

/// Every file of the nation.
pub fn files() -> Vec<Source> {
    texts().into_iter().map(|(name, text)| Source::new(name, text)).collect()
}

/// Every file of the nation, its name and its text.
pub fn texts() -> Vec<(String, String)> {
    let towns = (PLACES - STATES - STATES * COUNTIES) / (STATES * COUNTIES) + 1;
    let mut files = Vec::new();
    for at in 0..STATES {
        files.push((format!("nation/{at}/state.rule"), state(at)));
        for county_at in 0..COUNTIES {
            files.push((format!("nation/{at}/{county_at}.rule"), county(at, county_at, towns)));
        }
    }
    files
}

/// The file of one state.
pub fn state(at: usize) -> String {
    format!(
        "place nation-state-{at} \"Nation state {at}\"\n    read \"made up\" on 2026-01-01\n\
         instrument NS-{at} of nation-state-{at} \"Act {at}\"\n    kind statute\n    in force from 2016-01-01\n    \
         adopts IFGC 2015\n    adopts NEC 2017\n"
    )
}

/// The file of one county and its towns, every tenth with an ordinance.
pub fn county(state: usize, at: usize, towns: usize) -> String {
    let mut text =
        format!("place county-{at} \"County {at}\" within nation-state-{state}\n    read \"made up\" on 2026-01-01\n");
    for town in 0..towns {
        let name = format!("town-{state}-{at}-{town}");
        let _ = write!(
            text,
            "place {name} \"Town {state} {at} {town}\" within nation-state-{state}/county-{at}\n    read \"made up\" on 2026-01-01\n"
        );
        if (state + at + town) % 10 == 3 {
            let _ = write!(
                text,
                "instrument TO-{town} of {name} \"Ordinance {town}\"
    kind ordinance
    adopted 2022-11-14
    in force from 2023-01-01
    read \"made-up code, chapter 14\" on 2026-01-01
    adopts IFGC 2018
    election through 2023-06-30
    amend IFGC 2018
        replace 310.3 \"Tubing with an arc-resistant jacket\"
            where any run with (material is csst and jacket is arc-resistant)
            direct-bond is required
    section 14.20.{town} \"Who may install bonding conductors\"
        performer only electrician, limited-electrician\n"
            );
        }
    }
    text
}
