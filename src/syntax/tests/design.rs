//! The snippets of the language's design, as they stand there. Where a snippet
//! shows a part of an item, the item around it is written in the test.

use super::{good, item};
use crate::syntax::tree::{Clause, Item, TextClause};

pub(super) const GLOSSARY: &str = r##"choice tubing-jacket "Jacket on the tubing"
    plain          "no arc-resistant listing"
    arc-resistant  "listed as arc-resistant under ANSI LC 1/CSA 6.26"
choice trade
    electrician
    master-electrician   under electrician
    gas-fitter

subject fuel-gas "Fuel gas piping"  must be governed
fact application-date  date     "Date of the permit application"  dates instruments
    ask "When was the permit applied for?"  known to contractor at permit
fact permit-date       date     never before application-date
fact occupancy         occupancy-class
fact permits-held      several permit-kind
fact service-rating    quantity A
fact gas-supplier      name     names the supplier
fact text-elected      earlier-or-later   chooses the text
fact likely-energized  yes-no   presumed where any appliance with (powered is yes)

list run "A run of gas piping"
    material  pipe-material
    jacket    tubing-jacket   ask "What does the print line on the jacket say?"
    product   name
    length    quantity ft
record jumper "The bonding jumper"
    present   yes-no
    size      gauge
    material  conductor
    length    quantity ft

question direct-bond on fuel-gas "Direct bond to the grounding electrode system"
    ladder not-required, required
    met where jumper.present is yes
question tubing-use on fuel-gas "Whether this tubing may be used"
    ladder permitted, prohibited
    met never
question jumper-size on fuel-gas "Size of the bonding jumper"
    at least gauge per jumper.material
    measures jumper.size
    asked where direct-bond is required and not (jumper.present is no)
question jumper-length on fuel-gas    at most ft            measures jumper.length
question performer     on licensing   only trade            measures performer
question permits       on permitting  all of permit-kind    measures permits-held

definition conventional-tubing "CSST without an arc-resistant listing, connectors apart"
    any run with (material is csst and jacket is plain and not (role is appliance-connector))
"##;

const SECTION: &str = r##"section 310.2.3 "Length of the bonding jumper"
    summary "The jumper is no longer than 75 ft from the gas piping to the grounding electrode system."
    where direct-bond is required
    except where work is repair and jumper.length at most 100 ft
    jumper-length at most 75 ft
    read "where the text was seen" on 2026-11-24
"##;

const TABLES: &str = r##"table 250.122 "Smallest equipment grounding conductor" by energizing-circuit gives jumper-size for copper, aluminum
    through 15 A   gives 14 AWG, 12 AWG
    through 20 A   gives 12 AWG, 10 AWG
table 250.66 "Grounding electrode conductor" by service-conductor per service-conductor-material copper, aluminum
        gives jumper-size for copper, aluminum
    through 2 AWG, 1/0 AWG     gives 8 AWG, 6 AWG
    over 1100 kcmil, 1750 kcmil  gives 3/0 AWG, 250 kcmil
"##;

const CODES: &str = r##"code IFGC "International Fuel Gas Code" on fuel-gas
code IRC  "International Residential Code" on fuel-gas, electrical, plumbing

edition IFGC 2009 published 2009-02-01
    section 310.1.1 "CSST"
        …
edition IFGC 2018 revises IFGC 2015
    renumber 310.1.1 to 310.2
    replace  310.2 "…"
        …
    add      310.3 "Arc-resistant CSST"
        …
    delete   310.9
    except   310.2 "…"
        where …
edition UPC 2024 text not here
"##;

pub(super) const PLACES: &str = r##"place larkspur "State of Larkspur"
place harlow   "Harlow County" within larkspur
    also     "Harlow Co."
    known as geoid 00000
    office   "Harlow County Building Safety"
    read     "county code, index of ordinances" on 2026-11-01

instrument LK-2019-7 of larkspur "Building Standards rule 2019-7"
    kind      regulation
    in force  from 2019-07-01 by application-date
    adopts IRC 2018  where occupancy is any of one-or-two-family, townhouse
    adopts IFGC 2018 otherwise
    floor direct-bond

instrument HC-22-118 of harlow "Ordinance 22-118"
    kind      ordinance
    adopted   2022-11-14
    in force  from 2023-01-01 by application-date
    read      "Harlow County code, chapter 14" on 2026-11-01
    adopts IFGC 2021
    election through 2023-06-30
    amend IFGC 2021
        replace 310.3 "Tubing with an arc-resistant jacket"
            where any run with (material is csst and jacket is arc-resistant)
            direct-bond is required
        except 310.2.3 "Long jumpers kept in repairs"
            where work is repair
    section 14.20.030 "Who may install bonding conductors"
        performer only electrician, limited-electrician
    repeals HC-17-02
"##;

pub(super) const EXAMPLE: &str = r##"example "jacketed throughout, after the ordinance"
    job
        place harlow
        application-date 2024-03-01
        occupancy commercial
        work new-system
        run { material csst jacket arc-resistant length 40 ft }
        appliance { powered yes }
    verdict
        direct-bond is required by HC-22-118 310.3
        jumper-length at most 75 ft
        performer only electrician, limited-electrician
        tubing-use silent
        outcome open
"##;

pub(super) const EXAMPLE_PLACES: &str = r##"# Example places for the cases beside this file. Invented.
place quarrel-state "State of Quarrel"
    read "example sheet" on 2026-11-24

instrument Q-1 of quarrel-state "Fuel gas act"
    kind statute
    in force from 2016-01-01
    adopts IFGC 2015
    floor direct-bond

place millrace "Millrace Township" within quarrel-state

place tollgate "Tollgate City" within quarrel-state
    read "example sheet" on 2026-11-24
instrument T-7 of tollgate "Ordinance T-7"
    kind ordinance
    adopted 2024-03-01
    in force from 2024-07-01
    adopts IFGC 2018
    election through 2024-12-31
    section 8.2 "Who may bond"
        performer only electrician, limited-electrician

place farside "State of Farside"
    read "example sheet" on 2026-11-24
instrument F-3 of farside "Building act"
    kind statute
    in force from 2019-06-01
    adopts IFGC 2018
"##;

#[test]
fn the_glossary_of_the_design() {
    let tree = good(GLOSSARY);
    let count = |wanted: fn(&Item) -> bool| tree.items.iter().filter(|one| wanted(one)).count();
    assert_eq!(count(|one| matches!(one, Item::Choice(_))), 2);
    assert_eq!(count(|one| matches!(one, Item::Fact(_))), 8);
    assert_eq!(count(|one| matches!(one, Item::Group(_))), 2);
    assert_eq!(count(|one| matches!(one, Item::Question(_))), 6);
    assert_eq!(count(|one| matches!(one, Item::Definition(_))), 1);
    assert_eq!(tree.items.len(), 20);
}

#[test]
fn a_section_of_the_design() {
    let Item::Edition(edition) = item(&format!("edition IFGC 2021\n{SECTION}")) else { panic!() };
    let [TextClause::Section(section)] = edition.clauses.as_slice() else { panic!() };
    let body = &section.body;
    assert_eq!(&*section.number.text, "310.2.3");
    assert_eq!((body.wheres.len(), body.excepts.len(), body.demands.len()), (1, 1, 1));
    assert!(body.summary.is_some() && body.provenance.is_some());
}

#[test]
fn the_tables_of_the_design() {
    let Item::Edition(edition) = item(&format!("edition NEC 2020\n{TABLES}")) else { panic!() };
    let [TextClause::Section(first), TextClause::Section(second)] = edition.clauses.as_slice() else { panic!() };
    let (first, second) = (first.body.table.as_ref().unwrap(), second.body.table.as_ref().unwrap());
    assert_eq!((first.rows.len(), first.terms.len()), (2, 2));
    assert!(first.per.is_none());
    let (path, columns) = second.per.as_ref().unwrap();
    assert_eq!((&*path.head.text, columns.len()), ("service-conductor-material", 2));
    assert_eq!(second.rows.iter().map(|row| row.over).collect::<Vec<_>>(), [false, true]);
}

#[test]
fn the_codes_of_the_design() {
    // The lone ellipses stand for clauses that the page leaves out.
    let text = CODES.replace("    …\n", "    summary \"…\"\n").replace("where …\n", "where work is repair\n");
    let tree = good(&text);
    assert_eq!(tree.items.len(), 5);
    let Item::Edition(revised) = &tree.items[3] else { panic!() };
    assert_eq!(revised.clauses.len(), 5);
    let Item::Edition(not_here) = &tree.items[4] else { panic!() };
    assert!(not_here.text_not_here);
}

#[test]
fn the_places_of_the_design() {
    let tree = good(PLACES);
    assert_eq!(tree.items.len(), 4);
    let Item::Instrument(county) = &tree.items[3] else { panic!() };
    let clauses: Vec<&str> = county
        .clauses
        .iter()
        .map(|one| match one {
            Clause::Adopts(_) => "adopts",
            Clause::Election(_) => "election",
            Clause::Amend(_) => "amend",
            Clause::Section(_) => "section",
            Clause::Power(_) => "power",
            Clause::Prevails(_) => "prevails",
            Clause::Ends(_) => "ends",
        })
        .collect();
    assert_eq!(clauses, ["adopts", "election", "amend", "section", "ends"]);
}

#[test]
fn the_example_of_the_design() {
    let Item::Example(example) = item(EXAMPLE) else { panic!() };
    assert_eq!((example.job.entries.len(), example.expects.len()), (6, 5));
}

#[test]
fn the_example_places_of_the_design() {
    assert_eq!(good(EXAMPLE_PLACES).items.len(), 7);
}
