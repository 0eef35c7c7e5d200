//! Places, issuers and instruments.

use super::{clause, instrument, place, texts};
use crate::syntax::tests::item;
use crate::syntax::tree::*;

#[test]
fn places() {
    let text = "place harlow \"Harlow County\" within larkspur also \"Harlow Co.\" also \"H.\" known as geoid 00000 office \"o\"
        read \"w\" on 2026-11-01 boundary \"h.geojson\" dates by permit-date
        nothing of its own on fuel-gas, electrical read \"i\" on 2026-11-02 nothing of its own";
    let found = place(text);
    assert_eq!(found.also.len(), 2);
    assert_eq!((&*found.known_as[0].0.text, &*found.known_as[0].1.text), ("geoid", "00000"));
    assert_eq!(found.nothing.len(), 2);
    assert!(found.nothing[0].provenance.is_some() && found.nothing[1].provenance.is_none());
    assert!(
        found.provenance.is_some() && found.office.is_some() && found.boundary.is_some() && found.dates_by.is_some()
    );
    let found = place("place x \"X\" read \"w\" on 2026-11-01 within \"Printed State\"");
    assert!(found.within.is_some_and(|outer| outer.printed && &*outer.text == "Printed State"));
    let found = place("place x within larkspur/harlow \"X\"");
    assert!(found.within.is_some_and(|outer| !outer.printed && &*outer.text == "larkspur/harlow"));
}

#[test]
fn issuers() {
    let Item::Issuer(maker) = item("maker tube-works \"Tube Works\" read \"w\" on 2026-01-01") else { panic!() };
    assert!(maker.maker && maker.provenance.is_some());
    let Item::Issuer(supplier) = item("supplier valley-gas dates by work-date \"Valley Gas\"") else { panic!() };
    assert!(!supplier.maker && supplier.dates_by.is_some());
}

#[test]
fn heads_of_instruments_in_any_order() {
    let one = item(
        "instrument LK-1 of larkspur \"t\" kind order adopted 2019-01-01 in force from 2019-07-01 by permit-date read \"w\" on 2026-01-01 applies where a is yes",
    );
    let other = item(
        "instrument LK-1 \"t\" applies where a is yes read \"w\" on 2026-01-01 in force by permit-date from 2019-07-01 adopted 2019-01-01 kind order of larkspur",
    );
    for found in [one, other] {
        let Item::Instrument(found) = found else { panic!() };
        assert!(found.of.is_some() && found.title.is_some() && found.kind.is_some() && found.adopted.is_some());
        assert!(found.force.is_some_and(|force| force.by.is_some() && force.from.is_some()));
        assert!(found.provenance.is_some() && found.applies.len() == 1);
    }
    let Item::Instrument(found) = item("instrument hc-22/118 kind bulletin status proposed") else { panic!() };
    assert_eq!((&*found.id.text, found.of.is_none()), ("hc-22/118", true));
    assert_eq!(found.status.map(|word| word.text), Some("proposed".into()));
}

#[test]
fn times_of_instruments() {
    let force = |text: &str| match item(&format!("instrument A-1 kind order in force {text}")) {
        Item::Instrument(found) => found.force.unwrap(),
        other => panic!("{other:?}"),
    };
    assert!(matches!(force("from 2020-01-01").from, Some(Start::On(_))));
    assert!(
        matches!(force("from 90 days after 2020-01-01").from, Some(Start::After { count, unit, .. }) if (&*count.text, &*unit.text) == ("90", "days"))
    );
    assert!(matches!(force("from 6 months after 2020-01-01").from, Some(Start::After { .. })));
    assert!(matches!(force("from unknown").from, Some(Start::Unknown)));
    assert!(matches!(force("from between 2020-01-01 and 2020-06-01").from, Some(Start::Between(..))));
    assert!(matches!(force("from 2020-01-01 through 2021-01-01").through, Some(End::On(_))));
    let found = force("from 2020-01-01 through unknown by work-date");
    assert!(matches!(found.through, Some(End::Unknown)) && found.by.is_some());
}

#[test]
fn adoptions() {
    let adopts = |text: &str| match clause(text) {
        Clause::Adopts(adopts) => adopts,
        other => panic!("{other:?}"),
    };
    assert_eq!(adopts("adopts IFGC 2021").editions.len(), 1);
    assert_eq!(adopts("adopts IFGC 2021 or IRC 2021").editions.len(), 2);
    let found =
        adopts("adopts IRC 2018 for fuel-gas, electrical where occupancy is any of a, b as published beside NEC, UPC");
    assert_eq!(texts(&found.subjects), ["fuel-gas", "electrical"]);
    assert!(found.scope.is_some() && found.as_published && !found.otherwise);
    assert_eq!(texts(&found.beside), ["NEC", "UPC"]);
    assert!(adopts("adopts IFGC 2018 otherwise").otherwise);
    assert!(matches!(adopts("adopts IFGC newest").editions[0], Adopted::Newest { delay: None, .. }));
    assert!(matches!(&adopts("adopts IFGC newest after 6 months").editions[0], Adopted::Newest { delay: Some(_), .. }));
}

#[test]
fn elections() {
    let Clause::Election(election) = clause("election from 2023-01-01 through 2023-06-30 by permit-date") else {
        panic!()
    };
    assert!(election.from.is_some() && election.by.is_some());
    let Clause::Election(election) = clause("election through 2023-06-30") else { panic!() };
    assert!(election.from.is_none() && election.by.is_none());
}

#[test]
fn amendments() {
    let amend = |text: &str| match clause(text) {
        Clause::Amend(amend) => amend,
        other => panic!("{other:?}"),
    };
    assert!(matches!(amend("amend IFGC 2021 delete 310.3").target, AmendTarget::Edition(_)));
    assert!(matches!(amend("amend IFGC any delete 310.3").target, AmendTarget::Any { numbered: None, .. }));
    assert!(matches!(
        amend("amend IFGC any numbered as in 2018 delete 310.3").target,
        AmendTarget::Any { numbered: Some(_), .. }
    ));
    assert!(matches!(amend("amend HC-17-02 of harlow delete 8.2").target, AmendTarget::Instrument { of: Some(_), .. }));
    assert!(matches!(amend("amend HC-17-02 delete 8.2").target, AmendTarget::Instrument { of: None, .. }));
    let found = amend(
        "amend IFGC 2021
         replace 310.3 \"t\" where a is yes direct-bond is required
         add 310.4 on fuel-gas as IRC 2018 G2411.1 summary \"s\"
         delete 310.5 and under
         except 310.6 where work is repair except where b is yes
         reads 310.7 \"r\" where a is yes q is r
         renumber 310.8 to 310.9
         left out 311 \"why\"
         unread 312 on q",
    );
    assert_eq!(found.clauses.len(), 8);
    let actions: Vec<Action> = found
        .clauses
        .iter()
        .filter_map(|one| match one {
            TextClause::Patch(patch) => Some(patch.action),
            _ => None,
        })
        .collect();
    assert_eq!(actions, [Action::Replace, Action::Add, Action::Delete, Action::Except, Action::Reads]);
    let words: Vec<&str> = actions.iter().map(|action| action.word()).collect();
    assert_eq!(words, ["replace", "add", "delete", "except", "reads"]);
}

#[test]
fn patches_may_bring_a_table() {
    for text in ["replace table 250.122", "replace 250.122", "add table 250.122"] {
        let Clause::Amend(amend) = clause(&format!(
            "amend NEC 2020 {text} \"t\" by energizing-circuit per material copper gives jumper-size for copper through 15 A gives 12 AWG"
        )) else {
            panic!()
        };
        let TextClause::Patch(patch) = &amend.clauses[0] else { panic!() };
        assert_eq!(patch.body.table.as_ref().map(|table| table.rows.len()), Some(1), "{text}");
    }
}

#[test]
fn powers_priority_and_ends() {
    for (text, kind) in
        [("preempts", PowerKind::Preempts), ("floor", PowerKind::Floor), ("ceiling", PowerKind::Ceiling)]
    {
        assert_eq!(kind.word(), text);
        let Clause::Power(power) = clause(&format!("{text} direct-bond, fuel-gas where a is yes")) else { panic!() };
        assert_eq!((power.kind, power.targets.len(), power.scope.is_some()), (kind, 2, true));
    }
    let Clause::Prevails(prevails) = clause("prevails over NEC, instructions on q, p") else { panic!() };
    assert_eq!((texts(&prevails.over), texts(&prevails.questions)), (vec!["NEC", "instructions"], vec!["q", "p"]));
    let Clause::Prevails(prevails) = clause("prevails over NEC on every question") else { panic!() };
    assert!(prevails.questions.is_empty());
    let Clause::Ends(ends) = clause("repeals HC-17-02 of harlow") else { panic!() };
    assert!(ends.repeals && ends.of.is_some());
    let Clause::Ends(ends) = clause("suspends HC-17-02 14.20") else { panic!() };
    assert!(!ends.repeals && ends.number.is_some_and(|number| &*number.text == "14.20"));
    let Clause::Ends(ends) = clause("suspends HC-17-02 of harlow app-c") else { panic!() };
    assert!(ends.number.is_some());
    assert_eq!(instrument("suspends HC-17-02 adopts IFGC 2018").clauses.len(), 2);
    assert_eq!(instrument("suspends HC-17-02\n section 8.2 q is r").clauses.len(), 2);
}
