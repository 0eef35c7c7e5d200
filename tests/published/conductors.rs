//! Wire sizes as the program compares them, against the standard that defines
//! them and the physics of what they carry.

use crate::ask::{Law, rows};
use serde_json::{Value, json};

const CONDUCTORS: &str = include_str!("conductors.tsv");
/// Square millimetres in a circular mil: a circle of 0.0254 mm.
const MM2: f64 = std::f64::consts::FRAC_PI_4 * 0.0254 * 0.0254;

struct Wire {
    name: &'static str,
    mils: u32,
    strands: u32,
    copper: f64,
    aluminum: f64,
    diameter: f64,
}

fn wires() -> Vec<Wire> {
    rows(CONDUCTORS)
        .into_iter()
        .map(|cells| Wire {
            name: cells[0],
            mils: cells[1].parse().unwrap(),
            strands: cells[2].parse().unwrap(),
            copper: cells[3].parse().unwrap(),
            aluminum: cells[4].parse().unwrap(),
            diameter: cells[5].parse().unwrap(),
        })
        .collect()
}

/// The area in circular mils that the table prints for an AWG size.
pub fn printed_area(size: &str) -> u32 {
    wires().iter().find(|wire| wire.name == size).map(|wire| wire.mils).unwrap()
}

/// The number of a size, with 1/0 as 0 and 4/0 as -3.
fn number(size: &str) -> i32 {
    match size.split_once('/') {
        Some((noughts, _)) => 1 - noughts.parse::<i32>().unwrap(),
        None => size.parse().unwrap(),
    }
}

/// The diameter in mils by the formula of ASTM B258, d = 0.005 in x 92^((36-n)/39):
/// https://www.scribd.com/document/425455043/ASTM-B258-2002-AWG-Sizes-of-Solid-Round-Wires
fn diameter(size: &str) -> f64 {
    5.0 * 92f64.powf(f64::from(36 - number(size)) / 39.0)
}

/// One place for each size, where the jumper is at least that size of copper.
fn law() -> Law {
    let places = wires().into_iter().map(|wire| {
        let id = wire.name.replace('/', "-");
        format!(
            "place norite-{id} \"Norite {id}\"\n    read \"invented for this test\" on 2026-11-24\n\
             instrument NO-{id} of norite-{id} \"Ordinance\"\n    kind ordinance\n    in force from 2024-01-01\n    \
             section 1 \"Size\" on fuel-gas\n        direct-bond is required\n        jumper-size at least {} AWG for copper\n",
            wire.name
        )
    });
    Law::with(&places.collect::<String>())
}

fn job(limit: &str, size: &str) -> Value {
    json!({
        "place": format!("norite-{}", limit.replace('/', "-")), "application-date": "2025-01-06",
        "jumper": { "present": true, "size": size, "material": "copper" },
    })
}

/// Whether a conductor of `size` meets a limit of `limit` AWG.
fn meets(law: &Law, limit: &str, size: &str) -> bool {
    let answer = law.answer(&job(limit, size), "jumper-size");
    match answer["finding"].as_str() {
        Some("met") => true,
        Some("not-met") => false,
        other => panic!("{size} against {limit} AWG: {other:?} in {answer}"),
    }
}

#[test]
fn sizes_are_compared_by_the_printed_area() {
    let law = law();
    for wire in wires() {
        let (whole, rest) = (wire.mils / 1000, wire.mils % 1000);
        assert!(meets(&law, wire.name, &format!("{whole}.{rest:03} kcmil")), "{} AWG", wire.name);
        let less = wire.mils - 1;
        let under = format!("{}.{:03}999 kcmil", less / 1000, less % 1000);
        assert!(!meets(&law, wire.name, &under), "{under} against {} AWG", wire.name);
    }
}

#[test]
fn larger_sizes_meet_smaller_limits_and_no_others() {
    let (law, wires) = (law(), wires());
    for (at, limit) in wires.iter().enumerate() {
        for (other, size) in wires.iter().enumerate() {
            let found = meets(&law, limit.name, &format!("{} AWG", size.name));
            assert_eq!(found, other >= at, "{} AWG against {} AWG", size.name, limit.name);
        }
    }
}

#[test]
fn printed_areas_follow_the_formula() {
    for wire in wires() {
        let exact = diameter(wire.name);
        assert!((exact - wire.diameter).abs() < 0.001, "{} AWG: {exact} mils", wire.name);
        // The standard rounds the diameter to a tenth of a mil; the book rounds the area to four figures, tens at least.
        let rounded = (exact * 10.0).round() / 10.0;
        let step = if wire.mils < 100_000 { 10.0 } else { 100.0 };
        let area = (rounded * rounded / step).round() * step;
        assert_eq!(area, f64::from(wire.mils), "{} AWG", wire.name);
        let off = f64::from(wire.mils) / (exact * exact) - 1.0;
        assert!(off.abs() < 0.001, "{} AWG: {off}", wire.name);
    }
}

#[test]
fn square_millimetres_by_the_formula_meet_their_size() {
    let law = law();
    for wire in wires() {
        let area = diameter(wire.name).powi(2) * MM2;
        // Rounding on the way to the book moves an area by less than a thousandth.
        let (over, under) = (format!("{:.4} mm2", area * 1.001), format!("{:.4} mm2", area * 0.999));
        assert!(meets(&law, wire.name, &over), "{over} against {} AWG", wire.name);
        assert!(!meets(&law, wire.name, &under), "{under} against {} AWG", wire.name);
    }
}

/// The metric areas that the same table prints: 8.37, 13.3 and 21.15 mm2 for 8, 6 and 4 AWG.
#[test]
fn the_metric_equivalents_in_print_hold() {
    let law = law();
    for (limit, met, missed) in
        [("8", "8.37 mm2", "8.36 mm2"), ("6", "13.3 mm2", "13.29 mm2"), ("4", "21.15 mm2", "21.14 mm2")]
    {
        assert!(meets(&law, limit, met), "{met} against {limit} AWG");
        assert!(!meets(&law, limit, missed), "{missed} against {limit} AWG");
    }
    // The metric sizes in the shops on either side of 6 AWG.
    assert!(meets(&law, "6", "16 mm2") && !meets(&law, "6", "10 mm2"));
}

/// Resistance per 1000 ft at 75 degrees C in ohm, from the area: standard annealed copper has 1/58 ohm mm2/m at 20
/// degrees (International Annealed Copper Standard), aluminum 61 % of its conductivity, temperature coefficients 0.00393
/// and 0.00403 per degree
/// (https://digilib.universitaspertamina.ac.id/ebook/Industrial%20Power%20Engineering%20and%20Applications%20Handbook/files/basic-html/page970.html);
/// strands lie 2 % longer than the cable (from memory).
fn resistance(wire: &Wire, conductivity: f64, coefficient: f64) -> f64 {
    let metres = 1000.0 * 0.3048;
    let lay = if wire.strands > 1 { 1.02 } else { 1.0 };
    let cold = metres * lay / (58.0 * conductivity * f64::from(wire.mils) * MM2);
    cold * (1.0 + coefficient * (75.0 - 20.0))
}

#[test]
fn printed_resistances_follow_from_the_areas() {
    for wire in wires() {
        for (metal, printed, computed) in [
            ("copper", wire.copper, resistance(&wire, 1.0, 0.00393)),
            ("aluminum", wire.aluminum, resistance(&wire, 0.61, 0.00403)),
        ] {
            let off = computed / printed - 1.0;
            assert!(off.abs() < 0.005, "{} AWG {metal}: {computed:.4} against {printed}, off {off:.4}", wire.name);
        }
    }
}

/// Two gauge numbers up in aluminum stand for copper: by conductance a little less, by the tables the same.
#[test]
fn aluminum_stands_two_sizes_above_copper() {
    let wires = wires();
    for row in rows(include_str!("nec-250-122.tsv")).iter().take(11).chain(&electrode_rows()) {
        let wire = |cell: &str| {
            let size = cell.strip_suffix(" AWG").unwrap();
            wires.iter().find(|wire| wire.name == size).unwrap()
        };
        let (copper, aluminum) = (wire(row[row.len() - 2]), wire(row[row.len() - 1]));
        assert_eq!(number(copper.name) - number(aluminum.name), 2, "{row:?}");
        let share = f64::from(aluminum.mils) * 0.61 / f64::from(copper.mils);
        assert!((share - 0.970).abs() < 0.0015, "{row:?}: {share}");
        // The handbook's ratio of resistances, solid against solid or strands against strands; 10 AWG copper is solid
        // beside solid 8 AWG aluminum, 8 AWG is solid beside stranded 6 AWG.
        if (copper.strands > 1) == (aluminum.strands > 1) {
            let ratio = aluminum.aluminum / copper.copper;
            assert!((1.03..1.045).contains(&ratio), "{row:?}: {ratio}");
        }
    }
    // The same size is not enough: 6 AWG aluminum has 1.65 times the resistance of 6 AWG copper.
    let six = wires.iter().find(|wire| wire.name == "6").unwrap();
    assert!((six.aluminum / six.copper - 1.65).abs() < 0.01);
}

/// Every pair of copper and aluminum in the tables, with its share of the conductance: by printed areas, and for AWG by the
/// formula alone, since two gauge numbers are 92^(4/39) in area whatever the size.
#[test]
fn the_pairs_of_the_tables_are_equal_by_convention_and_not_by_ohms() {
    let pairs = rows(include_str!("equivalents.tsv"));
    let mils = |size: &str| match size.split_once(' ').unwrap() {
        (figure, "kcmil") => 1000.0 * figure.parse::<f64>().unwrap(),
        (figure, _) => f64::from(printed_area(figure)),
    };
    for row in &pairs {
        let (copper, aluminum, share) = (row[0], row[1], row[2].parse::<f64>().unwrap());
        let printed = mils(aluminum) * 0.61 / mils(copper);
        assert!((printed - share).abs() < 0.0006, "{row:?}: {printed}");
        assert!(share < 1.0, "{row:?}: aluminum never conducts as well as its copper");
        if aluminum.ends_with("AWG") {
            let exact = 0.61 * 92f64.powf(4.0 / 39.0);
            assert!((exact - share).abs() < 0.0015, "{row:?}: {exact}");
        }
    }
    // Each table pairs copper with aluminum in this way and no other, up to 250 kcmil of aluminum.
    let tables = [include_str!("nec-250-122.tsv"), include_str!("nec-250-66.tsv"), include_str!("nec-250-102-c-1.tsv")];
    let mut seen = 0;
    for row in tables.into_iter().flat_map(rows) {
        let pair = [row[row.len() - 2], row[row.len() - 1]];
        if pair[0].ends_with("AWG") && pair[0] != "4/0 AWG" {
            assert!(pairs.iter().any(|known| known[..2] == pair), "{row:?}");
            seen += 1;
        }
    }
    assert_eq!(seen, 12 + 7 + 6);
    // Ohm for ohm 6 AWG copper would want 43,016 circular mils of aluminum: 4 AWG is short of it, 3 AWG is the next size.
    let ohms = f64::from(printed_area("6")) / 0.61;
    assert_eq!(ohms.round(), 43_016.0);
    assert!(f64::from(printed_area("4")) < ohms && f64::from(printed_area("3")) > ohms);
}

/// The program goes by the tables: 4 AWG aluminum meets what asks for 6 AWG copper, 6 AWG aluminum does not.
#[test]
fn the_program_goes_by_the_tables() {
    let law = Law::with(
        "place dacite \"Town of Dacite\"\n    read \"invented for this test\" on 2026-11-24\n\
         instrument DA-1 of dacite \"Ordinance\"\n    kind ordinance\n    in force from 2024-01-01\n    adopts IFGC 2018\n",
    );
    let finding = |size: &str, material: &str| {
        let job = json!({
            "place": "dacite", "application-date": "2025-01-06", "work": "new-system",
            "run": [{ "material": "csst", "jacket": "plain", "role": "distribution" }],
            "jumper": { "present": true, "size": size, "material": material },
        });
        law.answer(&job, "jumper-size")["finding"].clone()
    };
    assert_eq!(finding("6 AWG", "copper"), "met");
    assert_eq!(finding("4 AWG", "aluminum"), "met");
    assert_eq!(finding("6 AWG", "aluminum"), "not-met");
    assert_eq!(finding("4 AWG", "copper-clad-aluminum"), "open", "the text names no equivalent");
}

/// The rows of the electrode conductor's table whose sizes are all AWG.
fn electrode_rows() -> Vec<Vec<&'static str>> {
    rows(include_str!("nec-250-66.tsv")).into_iter().take(6).collect()
}

/// 1 ft is 0.3048 m exactly: https://www.nist.gov/pml/us-surveyfoot
#[test]
fn seventy_five_feet_are_22_86_metres() {
    let law = Law::with(
        "place dacite \"Town of Dacite\"\n    read \"invented for this test\" on 2026-11-24\n\
         instrument DA-1 of dacite \"Ordinance\"\n    kind ordinance\n    in force from 2024-01-01\n    adopts IFGC 2018\n",
    );
    let finding = |length: &str| {
        let job = json!({
            "place": "dacite", "application-date": "2025-01-06", "work": "new-system",
            "run": [{ "material": "csst", "jacket": "plain", "role": "distribution" }],
            "jumper": { "present": true, "length": length },
        });
        law.answer(&job, "jumper-length")["finding"].clone()
    };
    for (length, expected) in [
        ("75 ft", "met"),
        ("75.0001 ft", "not-met"),
        ("22.86 m", "met"),
        ("22.860000000001 m", "not-met"),
        ("22.8599 m", "met"),
        ("2286 cm", "met"),
        ("22860 mm", "met"),
        ("22861 mm", "not-met"),
        ("900 inch", "met"),
        ("900.1 inch", "not-met"),
        ("22.9 m", "not-met"),
    ] {
        assert_eq!(finding(length), expected, "{length}");
    }
}
