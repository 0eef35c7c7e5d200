//! What is known from where, and numbers that do not depend on files.

use super::{BASE, build, with};
use crate::glossary::Glossary;
use crate::glossary::expr::{Check, Expr};
use crate::glossary::model::{Met, Order, Scale, Shape};
use crate::values::{Terms, Unit};

#[test]
fn every_declaration_is_found_with_what_it_says() {
    let built = with("");
    let (glossary, places) = (&built.glossary, &built.places);
    let field = |name: &str| glossary.field(name, None, places).unwrap();
    let date = &glossary[field("application-date")];
    assert_eq!((date.shape, &*date.title), (Shape::Date, "Date of the permit application"));
    assert_eq!(date.ask.as_deref(), Some("When was the permit applied for?"));
    assert_eq!(date.known, [(vec!["contractor".into(), "owner".into()], Some("permit".into()))]);
    assert_eq!(glossary[field("permit-date")].never_before, Some(field("application-date")));
    assert_eq!(&*glossary[field("concealed")].title, "concealed");
    assert!(glossary[field("permits-held")].ours && !date.ours);
    assert_eq!(glossary[field("service-rating")].shape, Shape::Quantity(Unit::find("A").unwrap()));
    let run = glossary.group("run", None, places).unwrap();
    let columns: Vec<_> = glossary[run].fields.iter().map(|field| &*glossary[*field].path).collect();
    assert_eq!(columns, ["run.material", "run.jacket", "run.product", "run.length"]);
    assert!(glossary[run].fields.iter().zip(0..).all(|(field, at)| glossary[*field].column == at));
    assert!(glossary[run].list && glossary.in_list(field("run.jacket")) && !glossary.in_list(field("jumper.size")));
    assert_eq!(glossary.attribute(run, "jacket", None, places), Some(field("run.jacket")));
    let Some(Expr::Entries { any: true, with, .. }) = &glossary[field("likely-energized")].presumed else { panic!() };
    assert_eq!(**with, Expr::Field(field("appliance.powered"), Check::Among(Terms::one(1))));
}

#[test]
fn every_question_is_found_with_its_order() {
    let built = with("");
    let (glossary, places) = (&built.glossary, &built.places);
    let question = |name: &str| &glossary[glossary.question(name, None, places).unwrap()];
    let bond = question("direct-bond");
    assert_eq!(bond.order, Order::Ladder(vec!["not-required".into(), "required".into()]));
    assert!(matches!(&bond.met, Some(Met::Where(Expr::Field(..)))));
    assert!(matches!(question("tubing-use").met, Some(Met::Never)));
    let size = question("jumper-size");
    assert_eq!(size.order, Order::AtLeast(Scale::Gauge));
    assert_eq!(size.measures, glossary.field("jumper.size", None, places));
    assert_eq!(size.per.unwrap().0, glossary.field("jumper.material", None, places).unwrap());
    let Some(Expr::And(parts)) = &size.asked else { panic!() };
    assert!(matches!(&parts[..], [Expr::Answer { .. }, Expr::Not(_)]));
    assert_eq!(question("jumper-length").costs.as_deref(), Some("wire"));
    assert_eq!(question("performer").order, Order::Only(glossary.choice("trade").unwrap()));
    assert_eq!(question("permits").order, Order::AllOf(glossary.choice("permit-kind").unwrap()));
    let ids = |name: &str| glossary.question(name, None, places).unwrap();
    assert_eq!(bond.contrary, [ids("tubing-use")]);
    assert_eq!(question("tubing-use").contrary, [ids("direct-bond")]);
    assert!(glossary[glossary.subject("fuel-gas").unwrap()].governed);
}

#[test]
fn the_parts_that_facts_play_are_known() {
    let built = with("");
    let (glossary, places) = (&built.glossary, &built.places);
    let field = |name: &str| glossary.field(name, None, places);
    assert_eq!(glossary.roles.dates, field("application-date"));
    assert_eq!(glossary.roles.text, field("text-elected").map(|id| (id, 0, 1)));
    assert_eq!(glossary.roles.code, field("code-chosen"));
    assert_eq!(glossary.roles.supplier, field("gas-supplier"));
}

#[test]
fn a_broad_term_covers_those_under_it() {
    let built = with("extend trade in harlow  bonding-hand under master-electrician");
    let (glossary, places) = (&built.glossary, &built.places);
    let trade = glossary.choice("trade").unwrap();
    let harlow = Some(places.id("harlow"));
    let term = |name: &str| glossary.term(trade, name, harlow, places).unwrap();
    let covers = |name: &str| glossary[trade].terms[usize::from(term(name))].covers;
    assert_eq!(covers("electrician").len(), 3);
    assert_eq!(
        covers("master-electrician"),
        Terms::one(term("master-electrician")).union(Terms::one(term("bonding-hand")))
    );
    assert_eq!(covers("gas-fitter"), Terms::one(term("gas-fitter")));
    // Where the added term is not known the two others stand for all.
    let set = Terms::one(term("electrician")).union(Terms::one(term("master-electrician")));
    assert_eq!(glossary.broadest(trade, set, places.id("quarrel"), places), [term("electrician")]);
    let master = term("master-electrician");
    assert_eq!(glossary.broadest(trade, set, places.id("harlow"), places), Vec::<u16>::new());
    assert_eq!(glossary.broadest(trade, covers("master-electrician"), places.id("harlow"), places), [master]);
}

#[test]
fn what_a_place_declares_is_known_there_and_within() {
    let built = with(
        "fact septic yes-no in harlow\n extend trade in harlow  bonder\n
         question sign-off in harlow on permitting ladder no-sign, sign\n list shed in harlow  wide yes-no",
    );
    let (glossary, places) = (&built.glossary, &built.places);
    let trade = glossary.choice("trade").unwrap();
    for (place, known) in
        [("harlow", true), ("millrace", true), ("larkspur", false), ("farwell", false), ("quarrel", false)]
    {
        let from = Some(places.id(place));
        assert_eq!(glossary.field("septic", from, places).is_some(), known, "{place}");
        assert_eq!(glossary.field("shed.wide", from, places).is_some(), known, "{place}");
        assert_eq!(glossary.group("shed", from, places).is_some(), known, "{place}");
        assert_eq!(glossary.question("sign-off", from, places).is_some(), known, "{place}");
        assert_eq!(glossary.term(trade, "bonder", from, places).is_some(), known, "{place}");
        assert_eq!(glossary.terms_at(trade, from, places).len(), if known { 4 } else { 3 }, "{place}");
        assert!(glossary.field("concealed", from, places).is_some());
    }
    assert_eq!(glossary.field("septic", None, places), None);
    assert_eq!(glossary.terms_at(trade, None, places).len(), 3);
}

#[test]
fn two_places_apart_may_use_one_name() {
    let built = with(
        "fact septic yes-no in harlow\n fact septic count in farwell\n extend trade in harlow  bonder\n extend trade in quarrel  bonder",
    );
    let (glossary, places) = (&built.glossary, &built.places);
    let shape = |place: &str| glossary[glossary.field("septic", Some(places.id(place)), places).unwrap()].shape;
    assert_eq!((shape("millrace"), shape("farwell")), (Shape::YesNo, Shape::Count));
    let trade = glossary.choice("trade").unwrap();
    let term = |place: &str| glossary.term(trade, "bonder", Some(places.id(place)), places).unwrap();
    assert_ne!(term("harlow"), term("quarrel"));
}

/// Everything that numbers show, without places in files.
fn numbers(glossary: &Glossary) -> Vec<String> {
    let mut all = Vec::new();
    all.extend(
        glossary.fields.iter().map(|one| {
            format!("{} {:?} {:?} {:?} {:?}", one.path, one.shape, one.group, one.presumed, one.never_before)
        }),
    );
    all.extend(glossary.groups.iter().map(|one| format!("{} {:?}", one.name, one.fields)));
    all.extend(glossary.subjects.iter().map(|one| one.name.to_string()));
    for choice in &glossary.choices {
        let terms: Vec<_> = choice.terms.iter().map(|term| (&term.name, term.scope, term.covers)).collect();
        all.push(format!("{} {terms:?}", choice.name));
    }
    for one in &glossary.questions {
        all.push(format!(
            "{} {:?} {:?} {:?} {:?} {:?} {:?}",
            one.name, one.scope, one.order, one.per, one.met, one.asked, one.contrary
        ));
    }
    all.push(format!("{:?}", glossary.roles));
    all
}

#[test]
fn numbers_do_not_depend_on_the_order_of_files_and_items() {
    let more =
        "fact septic yes-no in harlow\n fact septic count in farwell\n extend trade in quarrel  zinc-hand  amber-hand\n
                extend trade in harlow  bonder under electrician\n question apple on permitting ladder a, b";
    let one = build(&[BASE, more]);
    let other = build(&[more, BASE]);
    assert!(one.diagnostics.is_empty() && other.diagnostics.is_empty());
    assert_eq!(numbers(&one.glossary), numbers(&other.glossary));
    // The items of one file the other way round, each a file of its own.
    let mut items: Vec<String> = Vec::new();
    for line in format!("{BASE}\n{more}").lines() {
        let begins = ["choice ", "subject ", "fact ", "list ", "record ", "question ", "definition ", "extend "];
        if begins.iter().any(|word| line.trim_start().starts_with(word)) && !line.starts_with("     ")
            || items.is_empty()
        {
            items.push(String::new());
        }
        let last = items.last_mut().unwrap();
        last.push_str(line);
        last.push('\n');
    }
    items.reverse();
    let texts: Vec<&str> = items.iter().map(|item| &**item).collect();
    assert!(texts.len() > 30);
    let backwards = build(&texts);
    assert!(backwards.diagnostics.is_empty(), "{:#?}", backwards.diagnostics);
    assert_eq!(numbers(&backwards.glossary), numbers(&one.glossary));
}
