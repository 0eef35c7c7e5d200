//! Choices, facts, lists, records, questions and definitions.

use super::{fact, question, texts};
use crate::syntax::tests::item;
use crate::syntax::tree::*;

#[test]
fn choices_and_terms() {
    let Item::Choice(choice) = item(
        "choice clamp \"Clamps\"\n UL-467 \"listed\"\n rod under ring \"a rod\"\n plain final earlier later gas electrical building work role present position product",
    ) else {
        panic!()
    };
    assert_eq!(choice.terms.len(), 14);
    assert_eq!(&*choice.terms[0].name.text, "UL-467");
    assert_eq!(choice.terms[1].under.as_ref().map(|word| &*word.text), Some("ring"));
    assert_eq!(choice.terms[1].title.as_ref().map(|text| &*text.text), Some("a rod"));
}

#[test]
fn an_extension_names_a_place() {
    let Item::Extend(extend) = item("extend trade in larkspur/harlow\n bonding-installer \"x\" under electrician")
    else {
        panic!()
    };
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
        assert!(
            matches!(fact(&format!("fact x quantity {unit}")).shape, Shape::Quantity(found) if &*found.text == unit)
        );
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
    let Item::Group(group) = item(
        "list run in harlow \"A run\"\n material pipe\n length quantity ft\n ask yes-no ask \"asked?\"\n ours yes-no ours to choose",
    ) else {
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
    let Item::Definition(definition) =
        item("definition plain-tubing \"t\" any run with (jacket is plain) read \"w\" on 2026-01-01")
    else {
        panic!()
    };
    assert!(definition.provenance.is_some());
    let Item::Definition(definition) = item("definition plain-tubing common practice plain-run") else { panic!() };
    assert!(matches!(definition.cond.kind, CondKind::Named(name) if &*name.text == "plain-run"));
    let Item::Definition(definition) = item("definition plain-tubing plain-run from memory") else { panic!() };
    assert!(matches!(definition.provenance, Some(Provenance { kind: ProvenanceKind::Memory, .. })));
}
