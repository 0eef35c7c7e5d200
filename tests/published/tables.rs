//! Tables 250.122, 250.66 and 250.102(C)(1) through jobs: at each limit the row itself, just
//! over it the next one, past the last row the answer that the book leaves.

use crate::ask::{Law, rows};
use serde_json::{Value, json};

const GROUNDING: &str = include_str!("nec-250-122.tsv");
const ELECTRODE: &str = include_str!("nec-250-66.tsv");
const SUPPLY_SIDE: &str = include_str!("nec-250-102-c-1.tsv");
/// The editions that carry the tables.
const YEARS: [u16; 7] = [2005, 2008, 2011, 2014, 2017, 2020, 2023];

/// The ordinary bond of steel piping that a circuit may energize.
fn at_circuit(law: &Law, amperes: &str) -> Value {
    let job = json!({
        "place": "dunite", "application-date": "2025-01-06", "work": "new-system", "occupancy": "commercial",
        "building": "main", "run": [{ "material": "steel", "role": "distribution" }],
        "appliance": [{ "powered": true }], "energizing-circuit": amperes,
    });
    law.answer(&job, "jumper-size")
}

fn sizes(copper: &str, aluminum: &str) -> Value {
    json!({ "at-least": { "copper": copper, "aluminum": aluminum } })
}

fn adopting(year: u16, more: &str) -> Law {
    Law::with(&format!(
        "place dunite \"Town of Dunite\"\n    read \"invented for this test\" on 2026-11-24\n\
         instrument DU-1 of dunite \"Ordinance 1\"\n    kind ordinance\n    in force from 2024-01-01\n    adopts NEC {year}\n{more}"
    ))
}

#[test]
fn the_circuit_finds_its_row() {
    let rows = rows(GROUNDING);
    assert_eq!(rows.len(), 16);
    for year in YEARS {
        let law = adopting(year, "");
        let mut below = "0.5".to_string();
        for row in &rows {
            // The first ampere over the limit before, and the limit itself.
            for amperes in [&*below, row[0]] {
                let found = at_circuit(&law, &format!("{amperes} A"));
                assert_eq!(found["state"], "settled", "NEC {year}, {amperes} A: {found}");
                assert_eq!(found["value"], sizes(row[1], row[2]), "NEC {year}, {amperes} A");
            }
            below = format!("{}.001", row[0]);
        }
        // Past the last row that was read nothing is guessed.
        let past = at_circuit(&law, &format!("{below} A"));
        assert_eq!(past["state"], "referred", "NEC {year}, {below} A: {past}");
    }
}

/// What a town asks that sizes the jumper by the service.
fn at_service(law: &Law, size: &str, metal: &str) -> Value {
    let job = json!({
        "place": "dunite", "application-date": "2025-01-06", "work": "new-system", "occupancy": "commercial",
        "building": "main", "run": [], "appliance": [],
        "service-conductor": size, "service-conductor-material": metal,
    });
    law.answer(&job, "jumper-size")
}

/// A size a thousandth of a circular mil larger.
fn just_over(size: &str) -> String {
    let (figure, unit) = size.split_once(' ').unwrap();
    let mils: u32 = match unit {
        "kcmil" => figure.parse::<u32>().unwrap() * 1000,
        _ => crate::conductors::printed_area(figure),
    };
    format!("{}.{:03}001 kcmil", mils / 1000, mils % 1000)
}

#[test]
fn the_service_conductor_finds_its_row() {
    let rows = rows(ELECTRODE);
    assert_eq!(rows.len(), 7);
    for year in YEARS {
        let law = adopting(
            year,
            "    section 1 \"Sized by the service\" on fuel-gas\n        jumper-size at least by table NEC 250.66\n",
        );
        for (column, metal) in ["copper", "aluminum"].into_iter().enumerate() {
            let mut below = "14 AWG".to_string();
            for row in &rows {
                let mut asked = vec![below.clone()];
                if row[column] != "over" {
                    asked.push(row[column].to_string());
                    below = just_over(row[column]);
                }
                for size in asked {
                    let found = at_service(&law, &size, metal);
                    assert_eq!(found["state"], "settled", "NEC {year}, {size} {metal}: {found}");
                    assert_eq!(found["value"], sizes(row[2], row[3]), "NEC {year}, {size} {metal}");
                }
            }
            let most = at_service(&law, "2000 kcmil", metal);
            assert_eq!(most["value"], sizes("3/0 AWG", "250 kcmil"), "NEC {year}, 2000 kcmil {metal}");
        }
    }
}

/// The table of 2014 and after ends where its rows do: the rest is an eighth of an area, and no row.
#[test]
fn the_supply_side_table_has_its_rows_and_no_more() {
    let rows = rows(SUPPLY_SIDE);
    assert_eq!(rows.len(), 6);
    let sized =
        "    section 1 \"Sized by the service\" on fuel-gas\n        jumper-size at least by table NEC 250.102(C)(1)\n";
    for year in [2014, 2017, 2020, 2023] {
        let law = adopting(year, sized);
        for (column, metal) in ["copper", "aluminum"].into_iter().enumerate() {
            let mut below = "14 AWG".to_string();
            for row in &rows {
                for size in [below.clone(), row[column].to_string()] {
                    let found = at_service(&law, &size, metal);
                    assert_eq!(found["value"], sizes(row[2], row[3]), "NEC {year}, {size} {metal}: {found}");
                }
                below = just_over(row[column]);
            }
            let past = at_service(&law, &below, metal);
            assert_eq!(past["state"], "referred", "NEC {year}, {below} {metal}: {past}");
        }
    }
    // Before 2014 there is no such table, and nothing is guessed.
    let before = at_service(&adopting(2011, sized), "250 kcmil", "copper");
    assert_eq!(before["state"], "referred", "{before}");
}

/// The same size of copper and of aluminum stand in different rows.
#[test]
fn the_metal_of_the_service_conductor_counts() {
    let law = adopting(
        2020,
        "    section 1 \"Sized by the service\" on fuel-gas\n        jumper-size at least by table NEC 250.66\n",
    );
    assert_eq!(at_service(&law, "3/0 AWG", "copper")["value"], sizes("4 AWG", "2 AWG"));
    assert_eq!(at_service(&law, "3/0 AWG", "aluminum")["value"], sizes("6 AWG", "4 AWG"));
}

/// The residential code reprints the first rows: Table E3908.12, from memory up to 400 A.
#[test]
fn the_residential_table_has_the_same_rows() {
    for year in [2009, 2012, 2015, 2018, 2021] {
        let law = Law::with(&format!(
            "place dunite \"Town of Dunite\"\n    read \"invented for this test\" on 2026-11-24\n\
             instrument DU-1 of dunite \"Ordinance 1\"\n    kind ordinance\n    in force from 2024-01-01\n    adopts IRC {year}\n"
        ));
        for row in rows(GROUNDING).iter().take(7) {
            let found = at_circuit(&law, &format!("{} A", row[0]));
            assert_eq!(found["value"], sizes(row[1], row[2]), "IRC {year}, {} A: {found}", row[0]);
        }
        let past = at_circuit(&law, "400.001 A");
        assert_eq!(past["state"], "referred", "IRC {year}: {past}");
    }
}
