//! Every form of the language, one by one.

use super::{bad, codes_of, good, good_job, item, shown};
use crate::syntax::codes;
use crate::syntax::tree::*;
use crate::syntax::words::RESERVED;

fn section(body: &str) -> Section {
    let Item::Edition(mut edition) = item(&format!("edition IFGC 2021\n section 310.1 {body}")) else { panic!() };
    assert_eq!(edition.clauses.len(), 1, "{body}");
    match edition.clauses.remove(0) {
        TextClause::Section(section) => section,
        other => panic!("{other:?}"),
    }
}

fn cond(text: &str) -> Cond {
    section(&format!("where {text}")).body.wheres.remove(0)
}

fn test(text: &str) -> Test {
    match cond(text).kind {
        CondKind::Test { test, .. } => test,
        other => panic!("{other:?}"),
    }
}

fn demand(text: &str) -> DemandKind {
    let mut body = section(text).body;
    assert_eq!(body.demands.len(), 1, "{text}");
    body.demands.remove(0).kind
}

fn instrument(lines: &str) -> Instrument {
    match item(&format!("instrument LK-1 of larkspur kind ordinance in force from 2020-01-01 {lines}")) {
        Item::Instrument(instrument) => instrument,
        other => panic!("{other:?}"),
    }
}

fn clause(lines: &str) -> Clause {
    let mut clauses = instrument(lines).clauses;
    assert_eq!(clauses.len(), 1, "{lines}\n{clauses:#?}");
    clauses.remove(0)
}

fn fact(text: &str) -> Fact {
    match item(text) {
        Item::Fact(fact) => fact,
        other => panic!("{other:?}"),
    }
}

fn question(text: &str) -> Question {
    match item(text) {
        Item::Question(question) => question,
        other => panic!("{other:?}"),
    }
}

fn place(text: &str) -> Place {
    match item(text) {
        Item::Place(place) => place,
        other => panic!("{other:?}"),
    }
}

fn texts(words: &[Word]) -> Vec<&str> {
    words.iter().map(|word| &*word.text).collect()
}

fn word(value: &Value) -> &str {
    match value {
        Value::Word(word) | Value::Date(word) => &word.text,
        Value::Figure { number, .. } => &number.text,
        Value::Text(text) => &text.text,
    }
}

fn figure(value: &Value) -> (&str, Option<&str>) {
    match value {
        Value::Figure { number, unit } => (&number.text, unit.as_ref().map(|unit| &*unit.text)),
        other => panic!("{other:?}"),
    }
}

#[test]
fn choices_and_terms() {
    let Item::Choice(choice) = item("choice clamp \"Clamps\"\n UL-467 \"listed\"\n rod under ring \"a rod\"\n plain final earlier later gas electrical building work role present position product") else {
        panic!()
    };
    assert_eq!(choice.terms.len(), 14);
    assert_eq!(&*choice.terms[0].name.text, "UL-467");
    assert_eq!(choice.terms[1].under.as_ref().map(|word| &*word.text), Some("ring"));
    assert_eq!(choice.terms[1].title.as_ref().map(|text| &*text.text), Some("a rod"));
}

#[test]
fn an_extension_names_a_place() {
    let Item::Extend(extend) = item("extend trade in larkspur/harlow\n bonding-installer \"x\" under electrician") else { panic!() };
    assert_eq!((&*extend.choice.text, &*extend.place.text, extend.terms.len()), ("trade", "larkspur/harlow", 1));
}

#[test]
fn subjects() {
    let Item::Subject(subject) = item("subject fuel-gas must be governed \"Fuel gas\"") else { panic!() };
    assert!(subject.governed && subject.title.is_some());
    let Item::Subject(subject) = item("subject fuel-gas") else { panic!() };
    assert!(!subject.governed);
}

#[test]
fn shapes_of_facts() {
    let shapes = [
        ("yes-no", Shape::YesNo),
        ("date", Shape::Date),
        ("count", Shape::Count),
        ("gauge", Shape::Gauge),
        ("name", Shape::Name),
        ("code", Shape::Code),
    ];
    for (text, shape) in shapes {
        assert_eq!(fact(&format!("fact x {text} \"t\"")).shape, shape);
    }
    for unit in ["ft", "A", "inch", "percent", "sq-ft"] {
        assert!(matches!(fact(&format!("fact x quantity {unit}")).shape, Shape::Quantity(found) if &*found.text == unit));
    }
    assert!(matches!(fact("fact x several kind").shape, Shape::Several(kind) if &*kind.text == "kind"));
    assert!(matches!(fact("fact x kind").shape, Shape::Choice(kind) if &*kind.text == "kind"));
}

#[test]
fn clauses_of_facts_in_any_order() {
    let one = fact(
        "fact x date \"t\" dates instruments ask \"?\" known to contractor, inspector at permit ours to choose never before y in harlow",
    );
    let other = fact(
        "fact x date in harlow never before y ours to choose known to contractor, inspector at permit ask \"?\" dates instruments \"t\"",
    );
    for found in [&one, &other] {
        assert_eq!(found.roles, [Role::DatesInstruments]);
        assert_eq!(texts(&found.known[0].who), ["contractor", "inspector"]);
        assert_eq!(found.known[0].when.as_ref().map(|word| &*word.text), Some("permit"));
        assert!(found.ours && found.ask.is_some() && found.title.is_some() && found.place.is_some());
        assert_eq!(found.never_before.as_ref().map(|path| &*path.head.text), Some("y"));
    }
    assert_eq!(fact("fact x a chooses the text").roles, [Role::ChoosesText]);
    assert_eq!(fact("fact x code chooses the code").roles, [Role::ChoosesCode]);
    assert_eq!(fact("fact x name names the supplier").roles, [Role::NamesSupplier]);
    assert!(fact("fact x yes-no presumed where any appliance with (powered is yes) \"t\"").presumed.is_some());
}

#[test]
fn lists_and_records() {
    let Item::Group(group) = item("list run in harlow \"A run\"\n material pipe\n length quantity ft\n ask yes-no ask \"asked?\"\n ours yes-no ours to choose")
    else {
        panic!()
    };
    assert!(group.list && group.place.is_some());
    let names: Vec<&str> = group.attributes.iter().map(|one| &*one.name.text).collect();
    assert_eq!(names, ["material", "length", "ask", "ours"]);
    assert!(group.attributes[2].ask.is_some() && group.attributes[3].ours);
    let Item::Group(group) = item("record jumper\n present yes-no") else { panic!() };
    assert!(!group.list);
}

#[test]
fn orders_of_questions() {
    assert!(matches!(question("question q on s ladder a, b, c").order, Order::Ladder(rungs) if rungs.len() == 3));
    assert!(matches!(question("question q on s at least gauge").order, Order::AtLeast(unit) if &*unit.text == "gauge"));
    assert!(matches!(question("question q on s at most ft").order, Order::AtMost(unit) if &*unit.text == "ft"));
    assert!(matches!(question("question q on s only trade").order, Order::Only(_)));
    assert!(matches!(question("question q on s all of permit-kind").order, Order::AllOf(_)));
}

#[test]
fn clauses_of_questions_in_any_order() {
    let one = question(
        "question q \"t\" on s at least gauge per jumper.material measures jumper.size met where a is yes asked where b is yes costs \"c\" contrary to r, p caution \"k\" in harlow",
    );
    let other = question(
        "question q in harlow caution \"k\" contrary to r contrary to p costs \"c\" asked where b is yes met where a is yes measures jumper.size per jumper.material at least gauge on s \"t\"",
    );
    for found in [one, other] {
        assert_eq!(&*found.subject.text, "s");
        assert_eq!(texts(&found.contrary), ["r", "p"]);
        assert!(found.per.is_some() && found.measures.is_some() && found.asked.is_some());
        assert!(matches!(found.met, Some(Met::Where(_))));
        assert!(found.costs.is_some() && found.caution.is_some() && found.place.is_some() && found.title.is_some());
    }
    assert!(matches!(question("question q on s ladder a, b met never").met, Some(Met::Never)));
}

#[test]
fn definitions_may_name_their_source() {
    let Item::Definition(definition) = item("definition plain-tubing \"t\" any run with (jacket is plain) read \"w\" on 2026-01-01") else {
        panic!()
    };
    assert!(definition.provenance.is_some());
    let Item::Definition(definition) = item("definition plain-tubing common practice plain-run") else { panic!() };
    assert!(matches!(definition.cond.kind, CondKind::Named(name) if &*name.text == "plain-run"));
    let Item::Definition(definition) = item("definition plain-tubing plain-run from memory") else { panic!() };
    assert!(matches!(definition.provenance, Some(Provenance { kind: ProvenanceKind::Memory, .. })));
}

#[test]
fn codes_and_editions() {
    let Item::Code(code) = item("code IRC on fuel-gas, electrical \"Residential\"") else { panic!() };
    assert_eq!(texts(&code.subjects), ["fuel-gas", "electrical"]);
    let Item::Edition(edition) =
        item("edition IFGC 2018 revises IFGC 2015 published 2017-08-01 from memory renumber 310.1.1 to 310.2 delete 310.9")
    else {
        panic!()
    };
    assert!(edition.revises.is_some() && edition.published.is_some() && edition.provenance.is_some());
    assert_eq!(edition.clauses.len(), 2);
    let Item::Edition(edition) = item("edition UPC 2024 text not here") else { panic!() };
    assert!(edition.text_not_here);
}

#[test]
fn clauses_of_editions() {
    let Item::Edition(edition) = item(
        "edition NEC 2020
         section 250.104(B) \"t\" on electrical summary \"s\"
         section 310 as IFGC 2018 310.1.1
         table 250.122 by energizing-circuit gives jumper-size for copper, aluminum through 15 A gives 14 AWG, 12 AWG common practice
         definition plain-tubing any run with (jacket is plain)
         left out 250.64 \"why\"
         unread 250.66 on jumper-size, landing
         unread 250.70
         replace 250.94 and under \"t\"
         except 250.104(B) where work is repair jumper-size at least 8 AWG",
    ) else {
        panic!()
    };
    assert_eq!(edition.clauses.len(), 9);
    let TextClause::Section(extract) = &edition.clauses[1] else { panic!() };
    assert_eq!(extract.extract.as_ref().map(|(name, number)| (&*name.code.text, &*name.year.text, &*number.text)), Some(("IFGC", "2018", "310.1.1")));
    let TextClause::Unread(unread) = &edition.clauses[5] else { panic!() };
    assert_eq!(texts(&unread.questions), ["jumper-size", "landing"]);
    let TextClause::Patch(replace) = &edition.clauses[7] else { panic!() };
    assert!(replace.and_under && replace.action == Action::Replace);
    let TextClause::Patch(except) = &edition.clauses[8] else { panic!() };
    assert_eq!((except.body.wheres.len(), except.body.demands.len()), (1, 1));
}

#[test]
fn numbers_of_sections() {
    for number in ["310.1.1", "250.104(B)", "250.104(B)(1)(a)", "G2411.1.1", "8.2", "14.20.030", "0780-02-02-.01", "R-5/6", "app-c.2", "G(a.(1))"] {
        let Item::Edition(edition) = item(&format!("edition IFGC 2021 section {number} summary \"s\"")) else { panic!() };
        let TextClause::Section(section) = &edition.clauses[0] else { panic!() };
        assert_eq!(&*section.number.text, number);
    }
}

#[test]
fn provenance_has_three_forms() {
    let kinds: Vec<ProvenanceKind> = ["read \"w\" on 2026-11-24", "from memory", "common practice"]
        .iter()
        .map(|text| section(text).body.provenance.unwrap().kind)
        .collect();
    assert!(matches!(&kinds[0], ProvenanceKind::Read { on, .. } if &*on.text == "2026-11-24"));
    assert_eq!(kinds[1..], [ProvenanceKind::Memory, ProvenanceKind::CommonPractice]);
}

#[test]
fn a_definition_may_stand_before_its_source() {
    let body = section("where plain-tubing\n from memory").body;
    assert!(matches!(body.wheres[0].kind, CondKind::Named(_)));
    assert!(body.provenance.is_some());
}

#[test]
fn bodies_keep_their_lines() {
    let body = section(
        "\"t\" summary \"s\" where a is yes where b is yes except where c is yes except where d is no q is r note \"n\" refer q, p \"why\" instructions bind on q, p",
    )
    .body;
    assert_eq!((body.wheres.len(), body.excepts.len(), body.demands.len()), (2, 2, 4));
}

#[test]
fn tests_of_facts() {
    assert!(matches!(test("a is yes"), Test::Is(values) if word(&values[0]) == "yes"));
    assert!(matches!(test("a is not b"), Test::IsNot(values) if values.len() == 1));
    assert!(matches!(test("a is any of b, UL-467, c"), Test::Is(values) if values.len() == 3));
    assert!(matches!(test("a is not any of b, c"), Test::IsNot(values) if values.len() == 2));
    assert!(matches!(test("a includes b"), Test::Includes(values) if values.len() == 1));
    assert!(matches!(test("a includes any of b, c"), Test::Includes(values) if values.len() == 2));
    assert!(matches!(test("a at least 75 ft"), Test::AtLeast(value) if figure(&value) == ("75", Some("ft"))));
    assert!(matches!(test("a at most 22.86 m"), Test::AtMost(value) if figure(&value) == ("22.86", Some("m"))));
    assert!(matches!(test("a over 3"), Test::Over(value) if figure(&value) == ("3", None)));
    assert!(matches!(test("a under 1/0 AWG"), Test::Under(value) if figure(&value) == ("1/0", Some("AWG"))));
    assert!(matches!(test("a before 2024-07-01"), Test::Before(Value::Date(_))));
    assert!(matches!(test("a from 2024-07-01"), Test::From(Value::Date(_))));
    assert!(matches!(test("a within 2 years after b"), Test::Within { count, unit, after }
        if (&*count.text, &*unit.text, &*after.head.text) == ("2", "years", "b")));
    assert!(matches!(test("code-chosen is IFGC"), Test::Is(values) if word(&values[0]) == "IFGC"));
}

#[test]
fn and_binds_closer_than_or() {
    let CondKind::Or(sides) = cond("a is b and c is d or not e is f and (g is h or i is j)").kind else { panic!() };
    assert!(matches!(&sides[0].kind, CondKind::And(both) if both.len() == 2));
    let CondKind::And(both) = &sides[1].kind else { panic!() };
    assert!(matches!(&both[0].kind, CondKind::Not(inner) if matches!(inner.kind, CondKind::Test { .. })));
    assert!(matches!(&both[1].kind, CondKind::Or(_)));
}

#[test]
fn entries_of_lists() {
    let CondKind::Entries { any, list, with } = cond("any run with(material is csst)").kind else { panic!() };
    assert!(any && with.is_some() && &*list.text == "run");
    let CondKind::Entries { any, with, .. } = cond("no run").kind else { panic!() };
    assert!(!any && with.is_none());
    assert!(matches!(cond("not(any run)").kind, CondKind::Not(_)));
}

#[test]
fn instructions_say() {
    for text in ["instructions say q is w", "instructions say q at most 3 ft", "instructions say q none of a, b", "instructions say q all of a"] {
        assert!(matches!(cond(text).kind, CondKind::Say(_)), "{text}");
    }
    // A fact may bear the name all the same.
    assert!(matches!(cond("instructions is at-hand").kind, CondKind::Test { .. }));
}

#[test]
fn demands() {
    assert!(matches!(demand("q is required"), DemandKind::Is { rung, .. } if &*rung.text == "required"));
    let DemandKind::AtLeast { limits, .. } = demand("q at least 6 AWG for copper, copper-clad, 4 AWG for aluminum, 250 kcmil") else { panic!() };
    assert_eq!(limits.iter().map(|limit| limit.terms.len()).collect::<Vec<_>>(), [2, 1, 0]);
    assert!(matches!(demand("q at most 75 ft"), DemandKind::AtMost { limits, .. } if limits.len() == 1));
    assert!(matches!(demand("q only a, b"), DemandKind::Only { terms, .. } if terms.len() == 2));
    assert!(matches!(demand("q none of a, b"), DemandKind::NoneOf { terms, .. } if terms.len() == 2));
    assert!(matches!(demand("q all of UL-467"), DemandKind::AllOf { terms, .. } if terms.len() == 1));
    assert!(matches!(demand("refer q, p \"why\""), DemandKind::Refer { questions, .. } if questions.len() == 2));
    assert!(matches!(demand("instructions bind on q, p"), DemandKind::Bind { questions } if questions.len() == 2));
    assert!(matches!(demand("note \"n\""), DemandKind::Note { .. }));
}

#[test]
fn demands_by_table() {
    let table = |text: &str| match demand(text) {
        DemandKind::ByTable { least, code, year, number, .. } => {
            (least, code.map(|word| word.text), year.map(|word| word.text), number.text)
        }
        other => panic!("{other:?}"),
    };
    assert_eq!(table("q at least by table 250.122"), (true, None, None, "250.122".into()));
    assert_eq!(table("q at most by table NEC 250.122"), (false, Some("NEC".into()), None, "250.122".into()));
    assert_eq!(table("q at least by table NEC 2020 250.122"), (true, Some("NEC".into()), Some("2020".into()), "250.122".into()));
    assert_eq!(table("q at least by table G2413.4"), (true, None, None, "G2413.4".into()));
    assert_eq!(section("q at least by table E3908\n p is r").body.demands.len(), 2);
    assert_eq!(section("q at least by table NEC 250\n p at most 3 ft").body.demands.len(), 2);
}

#[test]
fn questions_may_be_named_like_clauses() {
    for name in ["summary", "note", "floor", "ceiling", "kind", "add", "report", "election", "section", "amend", "status"] {
        assert!(matches!(demand(&format!("{name} is required")), DemandKind::Is { question, .. } if &*question.text == name));
    }
}

#[test]
fn tables_with_columns_and_open_ends() {
    let Item::Edition(edition) = item(
        "edition NEC 2020 table 250.66 \"t\" on electrical by service-conductor per service-conductor-material copper, aluminum
           gives jumper-size for copper, aluminum where plain
           over 1100 kcmil, 1750 kcmil gives 3/0 AWG, 250 kcmil
           through 2 AWG, 1/0 AWG gives 8 AWG, 6 AWG summary \"s\"",
    ) else {
        panic!()
    };
    let TextClause::Section(section) = &edition.clauses[0] else { panic!() };
    let table = section.body.table.as_ref().unwrap();
    assert_eq!(table.rows.iter().map(|row| row.over).collect::<Vec<_>>(), [true, false]);
    assert_eq!(figure(&table.rows[0].limits[1]), ("1750", Some("kcmil")));
    assert_eq!(section.body.wheres.len(), 1);
}

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
    assert!(found.provenance.is_some() && found.office.is_some() && found.boundary.is_some() && found.dates_by.is_some());
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
    let one = item("instrument LK-1 of larkspur \"t\" kind order adopted 2019-01-01 in force from 2019-07-01 by permit-date read \"w\" on 2026-01-01 applies where a is yes");
    let other = item("instrument LK-1 \"t\" applies where a is yes read \"w\" on 2026-01-01 in force by permit-date from 2019-07-01 adopted 2019-01-01 kind order of larkspur");
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
    assert!(matches!(force("from 90 days after 2020-01-01").from, Some(Start::After { count, unit, .. }) if (&*count.text, &*unit.text) == ("90", "days")));
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
    let found = adopts("adopts IRC 2018 for fuel-gas, electrical where occupancy is any of a, b as published beside NEC, UPC");
    assert_eq!(texts(&found.subjects), ["fuel-gas", "electrical"]);
    assert!(found.scope.is_some() && found.as_published && !found.otherwise);
    assert_eq!(texts(&found.beside), ["NEC", "UPC"]);
    assert!(adopts("adopts IFGC 2018 otherwise").otherwise);
    assert!(matches!(adopts("adopts IFGC newest").editions[0], Adopted::Newest { delay: None, .. }));
    assert!(matches!(&adopts("adopts IFGC newest after 6 months").editions[0], Adopted::Newest { delay: Some(_), .. }));
}

#[test]
fn elections() {
    let Clause::Election(election) = clause("election from 2023-01-01 through 2023-06-30 by permit-date") else { panic!() };
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
    assert!(matches!(amend("amend IFGC any numbered as in 2018 delete 310.3").target, AmendTarget::Any { numbered: Some(_), .. }));
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
    for (text, kind) in [("preempts", PowerKind::Preempts), ("floor", PowerKind::Floor), ("ceiling", PowerKind::Ceiling)] {
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

#[test]
fn examples_and_expectations() {
    let Item::Example(example) = item(
        "example \"e\" job place harlow concealed unknown run none verdict
         direct-bond is required by HC-22-118 310.3
         jumper-length at most 75 ft by HC-22-118
         jumper-size at least 6 AWG for copper, 4 AWG for aluminum by HC-22-118 app-c
         jumper-size at least by table 250.122 by IFGC-2021 310.2
         performer only electrician, limited-electrician
         permits all of gas
         tubing-use silent
         contact open
         landing open on jumper.landed-on
         direct-bond open on run[0].jacket
         direct-bond open on run[]
         access referred
         clamp conflict
         jumper-length met
         jumper-size not met
         performer none of apprentice by HC-22-118
         outcome corrections",
    ) else {
        panic!()
    };
    assert_eq!(example.expects.len(), 17);
    let by = |index: usize| match &example.expects[index].kind {
        ExpectKind::Demand { by: Some((id, number)), .. } => (&*id.text, number.as_ref().map(|word| &*word.text)),
        other => panic!("{other:?}"),
    };
    assert_eq!(by(0), ("HC-22-118", Some("310.3")));
    assert_eq!(by(1), ("HC-22-118", None));
    assert_eq!(by(2), ("HC-22-118", Some("app-c")));
    assert_eq!(by(3), ("IFGC-2021", Some("310.2")));
    assert_eq!(by(15), ("HC-22-118", None));
    assert!(matches!(&example.expects[9].kind, ExpectKind::OpenOn { fact, .. } if &*fact.text == "run[0].jacket"));
    assert!(matches!(&example.expects[10].kind, ExpectKind::OpenOn { fact, .. } if &*fact.text == "run[]"));
    assert!(matches!(&example.expects[14].kind, ExpectKind::State { state, .. } if &*state.text == "not-met"));
}

#[test]
fn job_sheets() {
    let sheet = good_job(
        "job # the word may stand first
         place \"Harlow County\"
         reference \"permit 24-118\"
         application-date 2024-03-01
         contract-date none
         concealed unknown
         permits-held gas, electrical
         service-rating 200 A
         stories 3
         run { length 40 ft jacket arc-resistant material csst product tube-works-a }
         run { jacket unknown clamp-listing none }
         run unknown
         appliance { }
         jumper.present yes
         jumper.size 1/0 AWG
         code-chosen IFGC",
    );
    assert_eq!(sheet.entries.len(), 15);
    assert!(matches!(&sheet.entries[0], JobEntry::Place(place) if place.printed));
    assert!(matches!(&sheet.entries[3], JobEntry::Fact { value: JobValue::None, .. }));
    assert!(matches!(&sheet.entries[5], JobEntry::Fact { value: JobValue::Values(values), .. } if values.len() == 2));
    assert!(matches!(&sheet.entries[7], JobEntry::Fact { value: JobValue::Values(values), .. } if figure(&values[0]) == ("3", None)));
    assert!(matches!(&sheet.entries[8], JobEntry::Entry { facts, .. } if facts.len() == 4));
    assert!(matches!(&sheet.entries[9], JobEntry::Entry { facts, .. } if facts[0].1 == JobValue::Unknown && facts[1].1 == JobValue::None));
    assert!(matches!(&sheet.entries[12], JobEntry::Fact { path, .. } if path.attribute.is_some()));
    assert!(matches!(&good_job("place larkspur/harlow").entries[0], JobEntry::Place(place) if &*place.text == "larkspur/harlow"));
    assert!(good_job("").entries.is_empty());
}

#[test]
fn a_unit_stands_on_the_line_of_its_figure() {
    let sheet = good_job("stories 3\nft yes");
    assert_eq!(sheet.entries.len(), 2);
    let sheet = good_job("run { stories 3 material csst length 5 ft in-raceway yes }");
    assert!(matches!(&sheet.entries[0], JobEntry::Entry { facts, .. } if facts.len() == 4));
    let sheet = good_job("pipe-size 2 inch\nlength 3 furlongs");
    assert!(matches!(&sheet.entries[1], JobEntry::Fact { value: JobValue::Values(values), .. } if figure(&values[0]) == ("3", Some("furlongs"))));
}

#[test]
fn texts_keep_their_quotes() {
    let Item::Subject(subject) = item(r#"subject s "a \"b\" \\ c # d é""#) else { panic!() };
    assert_eq!(subject.title.map(|text| text.text), Some(r#"a "b" \ c # d é"#.into()));
}

#[test]
fn comments_are_kept_and_white_space_does_not_count() {
    let text = "# first\nplace x \"X\" # second \n  # third\n\n";
    let tree = good(text);
    let comments: Vec<&str> = tree.comments.iter().map(|one| &*one.text).collect();
    assert_eq!(comments, ["# first", "# second", "# third"]);
    let Item::Place(place) = &tree.items[0] else { panic!() };
    assert_eq!(&text[place.span.start as usize..place.span.end as usize], "place x \"X\"");
    assert_eq!(good("place\tx\r\n\"X\"\r\n# c\r\n").items.len(), 1);
    assert_eq!(good("\u{feff}place x \"X\"").items.len(), 1);
}

#[test]
fn spans_end_with_the_last_word() {
    let text = "edition IFGC 2021 # c\n  section 1 # d\n   where not a is b # e\n\n  q at most 3 ft  # f\n# g";
    let tree = good(text);
    let cut = |span: Span| &text[span.start as usize..span.end as usize];
    let Item::Edition(edition) = &tree.items[0] else { panic!() };
    assert!(cut(edition.span).ends_with("3 ft"));
    let TextClause::Section(section) = &edition.clauses[0] else { panic!() };
    assert_eq!(cut(section.body.wheres[0].span), "not a is b");
    assert_eq!(cut(section.body.demands[0].span), "q at most 3 ft");
}

#[test]
fn the_reserved_words_are_reserved_and_no_others() {
    for word in RESERVED {
        let text = format!("subject {word} \"t\"");
        let parsed = bad(&text);
        assert_eq!(codes_of(&parsed), [codes::RESERVED], "{word}\n{}", shown(&text, &parsed.diagnostics));
    }
    for word in ["summary", "where-else", "inch", "only-one", "notes", "floor", "kind", "section", "met", "open", "silent", "ask", "known", "years"] {
        good(&format!("subject {word} \"t\""));
    }
}

#[test]
fn reserved_words_are_sorted() {
    assert!(RESERVED.is_sorted());
    assert!(crate::syntax::words::ITEMS.is_sorted());
    assert!(crate::syntax::words::ITEMS.iter().all(|word| RESERVED.contains(word)));
}
