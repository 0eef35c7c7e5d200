//! Reading on behind errors, and what the errors say.

use super::{bad, bad_job, codes_of, pointed, shown};
use crate::syntax::codes;
use crate::syntax::tree::{Clause, Item, JobEntry};

/// The one error of a text: where it points, its message, its help.
fn only(text: &str) -> (String, String, String) {
    let parsed = bad(text);
    assert_eq!(parsed.diagnostics.len(), 1, "{text}\n{}", shown(text, &parsed.diagnostics));
    let one = &parsed.diagnostics[0];
    (pointed(text, one).to_owned(), one.message.clone(), one.help.clone().unwrap_or_default())
}

const CITY: &str = "place codford \"Codford\"
    office \"o\"
    alos \"Codford County\"
    dates by permit-date
instrument C-1 of codford \"t\"
    kind ordinance
    in force fron 2020-01-01
    adopts IFGC 2018
    section 8.2 \"t\"
        wherre work is repair
        direct-bond are required
        jumper-length at most 75ft
        contact is bare-metal
    floor
    repeals C-0
chioce metal
    copper
place angora \"Angora\"
";

#[test]
fn every_bad_clause_is_reported_and_the_rest_is_kept() {
    let parsed = bad(CITY);
    let pointed: Vec<&str> = parsed.diagnostics.iter().map(|one| pointed(CITY, one)).collect();
    assert_eq!(
        pointed,
        ["alos", "fron", "wherre", "are", "75ft", "floor", "chioce"],
        "{}",
        shown(CITY, &parsed.diagnostics)
    );
    assert!(parsed.diagnostics.iter().all(|one| one.code == codes::SYNTAX));
    let [Item::Place(codford), Item::Instrument(ordinance), Item::Place(angora)] = parsed.tree.items.as_slice() else {
        panic!("{:#?}", parsed.tree.items)
    };
    assert!(codford.office.is_some() && codford.dates_by.is_some());
    assert_eq!(&*angora.name.text, "angora");
    assert_eq!(ordinance.clauses.len(), 3);
    let Clause::Section(section) = &ordinance.clauses[1] else { panic!() };
    assert_eq!(section.body.demands.len(), 1);
    assert_eq!(
        &CITY[section.body.demands[0].span.start as usize..section.body.demands[0].span.end as usize],
        "contact is bare-metal"
    );
}

#[test]
fn what_a_bad_head_begins_is_left_out_up_to_the_next_item() {
    let text = "instrument of codford\n kind order\n adopts IFGC 2018\nplace codford \"C\"";
    let parsed = bad(text);
    assert_eq!(codes_of(&parsed), [codes::RESERVED]);
    assert!(matches!(parsed.tree.items.as_slice(), [Item::Place(_)]));
}

#[test]
fn slips_are_named() {
    let near = |text: &str, word: &str, meant: &str| {
        let (at, message, help) = only(text);
        assert_eq!(
            (at.as_str(), help.as_str()),
            (word, format!("did you mean `{meant}`?").as_str()),
            "{text}: {message}"
        );
    };
    near("place x \"X\"\n offcie \"o\"", "offcie", "office");
    near("palce x \"X\"", "palce", "place");
    near("subject s mustbe governed", "mustbe", "must");
    near("question q on s laddr a, b", "laddr", "ladder");
    near("instrument A-1 kind order in froce from 2020-01-01", "froce", "force");
    near("edition IFGC 2021\n section 1\n sumary \"s\"", "sumary", "summary");
    near("edition IFGC 2021\n section 1\n execpt where a is b", "execpt", "except");
    near("fact x date dates instrument", "instrument", "instruments");
}

#[test]
fn what_is_expected_is_said_in_trade_words() {
    let says = |text: &str, word: &str, message: &str| {
        let found = only(text);
        assert_eq!((found.0.as_str(), found.1.as_str()), (word, message), "{text}: {}", found.2);
    };
    says("instrument A-1 kind order in force on 2020-01-01", "on", "expected `by`, `from` or `through`, found `on`");
    says("edition IFGC", "IFGC", "something is missing behind `IFGC`");
    says("edition IFGC newest", "newest", "expected a year, found `newest`");
    says("subject", "subject", "something is missing behind `subject`");
    says("place Codford \"C\"", "Codford", "expected a name, found `Codford`");
    says(
        "edition IFGC 2021 published yesterday",
        "yesterday",
        "expected a date such as `2024-07-01`, found `yesterday`",
    );
    says("example \"e\"\n place x", "\"e\"", "something is missing behind `\"e\"`");
    says("example \"e\" place x", "place", "expected `job` or `knowingly`, found `place`");
    says("edition ifgc 2021", "ifgc", "expected a code in capitals, found `ifgc`");
    for (text, _) in
        [("place x \"X\" =", 0), ("choice c a \"t\" (", 0), ("definition d (a is b", 0), ("definition d a is", 0)]
    {
        for word in only(text).1.split(|letter: char| !letter.is_ascii_alphabetic()) {
            assert!(!matches!(word, "token" | "rule" | "EOI" | "identifier"), "{text}");
        }
    }
}

#[test]
fn common_slips_get_a_help_of_their_own() {
    let help = |text: &str| only(text).2;
    assert!(help("place Codford \"C\"").contains("`codford`"));
    assert!(help("subject fuel_gas").contains("`fuel-gas`"));
    assert!(help("place codford Codford County").contains("double quotes"));
    assert!(help("edition IFGC 2021 section 1 q at most 75ft").contains("`75 ft`"));
    assert!(help("edition IFGC 2021 section 1 q at most 50%").contains("percent"));
    assert!(help("edition IFGC 2021 section 1 where a = b").contains("`is`"));
    assert!(help("place codford 'Codford'").contains("double quotes"));
    assert!(help("edition IFGC 2021 section 1 q at most 1,000 dollars").contains("without commas"));
}

#[test]
fn slips_of_people_who_write_otherwise_get_a_help() {
    let section = "edition IFGC 2021\n section 310.3\n";
    let help = |line: &str| only(&format!("{section}{line}")).2;
    assert!(help("where any run (material is csst)").contains("`any run with"));
    assert!(help("q at most 1 1/2 inch").contains("`1.5 inch`"));
    assert!(help("q at least 6 AWG for copper and 4 AWG for aluminum").contains("commas"));
    assert!(help("q only electrician or plumber").contains("commas"));
    assert!(help("read \"x\" on 11/24/2026").contains("year, month, day"));
    assert!(help("q is required;").contains("no such sign"));
    assert!(help("where a >= 3 ft").contains("`at least`"));
    assert!(help("note 'x'").contains("double quotes"));
    assert!(only("fact powered yes/no").2.contains("`yes-no`"));
    assert!(only("question q on s ladder a b c").2.contains("commas"));
    assert!(only("choice c\n 3-phase").2.contains("begins with a letter"));
    assert!(only("code ifgc on s").2.contains("`IFGC`"));
    assert_eq!(only("instrument A-1 kind order status enacted\n adopts IFGC-2018\n floor q").0, "IFGC-2018");
}

#[test]
fn a_line_without_its_end_is_the_one_to_blame() {
    let text = "instrument A-1\n kind order\n in force from 2020-01-01\n section 1\n  where work is\n  direct-bond is required";
    let (at, message, help) = only(text);
    assert_eq!((at.as_str(), message.as_str()), ("is", "something is missing behind `is`"));
    assert!(help.contains("`direct-bond` on the next line"));
    let text = "instrument A-1\n in force from 2020-01-01\n kind\n adopts IFGC 2018";
    let (at, _, help) = only(text);
    assert_eq!(at, "kind");
    assert!(help.contains("`adopts`"));
}

#[test]
fn a_reserved_word_as_a_name_lists_the_words() {
    for text in ["choice c\n over \"t\"", "fact from date", "record r\n under yes-no", "question q on s ladder all, b"]
    {
        let parsed = bad(text);
        assert_eq!(codes_of(&parsed), [codes::RESERVED], "{text}\n{}", shown(text, &parsed.diagnostics));
        let help = parsed.diagnostics[0].help.as_deref().unwrap();
        assert!(help.contains("choice, code, definition"));
    }
}

#[test]
fn a_line_that_is_said_twice_names_both_places() {
    let twice = |text: &str, first: &str, second: &str| {
        let parsed = bad(text);
        assert_eq!(codes_of(&parsed), [codes::TWICE_SAID], "{text}\n{}", shown(text, &parsed.diagnostics));
        let one = &parsed.diagnostics[0];
        let also = one.also[0].0.span;
        assert_eq!((&text[also.start as usize..also.end as usize], pointed(text, one)), (first, second));
        assert!(also.start < one.at.span.start);
    };
    twice("instrument A-1 status proposed kind order kind ruling", "order", "ruling");
    twice(
        "instrument A-1 status proposed kind order adopted 2020-01-01 adopted 2020-01-02",
        "2020-01-01",
        "2020-01-02",
    );
    twice("edition IFGC 2021 section 1 summary \"a\" summary \"b\"", "\"a\"", "\"b\"");
    twice("edition IFGC 2021 section 1 from memory common practice", "from memory", "common practice");
    twice("edition IFGC 2021 section 1 on a on b", "on a", "on b");
    twice("edition IFGC 2021 text not here text not here", "text not here", "text not here");
    twice("place x \"X\" \"Y\"", "\"X\"", "\"Y\"");
    twice("place x \"X\" within a within b", "a", "b");
    twice("maker m \"X\" \"Y\"", "\"X\"", "\"Y\"");
    twice("code IRC on a on b", "on a", "on b");
    twice("subject s must be governed must be governed", "must be governed", "must be governed");
    twice("choice c a under b under c", "b", "c");
    twice("fact f date ask \"a\" ask \"b\"", "\"a\"", "\"b\"");
    twice("fact f date dates instruments dates instruments", "dates instruments", "dates instruments");
    twice("fact f date never before a never before b.c", "a", "b.c");
    twice("question q on s ladder a, b only c", "ladder a, b", "only c");
    twice("question q on s ladder a, b met never met where a is b", "met never", "met where a is b");
    twice("question q on s, t ladder a, b", "s", "t");
    twice("instrument A-1 kind order in force from 2020-01-01 from unknown", "from 2020-01-01", "from unknown");
    twice("instrument A-1 status proposed kind order adopts IFGC 2018 where a is b where c is d", "a is b", "c is d");
    twice("definition d from memory a is b common practice", "from memory", "common practice");
}

#[test]
fn a_line_that_is_missing_is_asked_for() {
    let missing = |text: &str, pointed_at: &str| {
        let parsed = bad(text);
        assert_eq!(codes_of(&parsed), [codes::MISSING_LINE], "{text}\n{}", shown(text, &parsed.diagnostics));
        assert_eq!(pointed(text, &parsed.diagnostics[0]), pointed_at);
    };
    missing("instrument A-1 status proposed", "A-1");
    missing("instrument A-1 kind order", "A-1");
    missing("place x", "x");
    missing("question q on s", "q");
    missing("question q ladder a, b", "q");
    missing("code IRC", "IRC");
    missing("choice c", "c");
    missing("extend c in x", "c");
    missing("list run", "run");
    missing("edition NEC 2020 table 1 by a gives q summary \"s\"", "1");
    missing("instrument A-1 status proposed kind order amend IFGC 2018", "amend IFGC 2018");
    missing("example \"e\" job place x verdict", "\"e\"");
}

#[test]
fn what_stands_in_a_bad_clause_is_not_called_missing() {
    let text = "instrument A-1\n knd order\n status proposed";
    assert_eq!(codes_of(&bad(text)), [codes::SYNTAX]);
}

#[test]
fn comments_of_a_bad_file_are_all_kept() {
    let text = "# a\nplace x \"X\" # b\n alos # c\n# d\nplace y \"Y\"";
    let comments: Vec<Box<str>> = bad(text).tree.comments.into_iter().map(|one| one.text).collect();
    assert_eq!(comments, ["# a", "# b", "# c", "# d"].map(Box::from));
}

#[test]
fn bad_lines_of_a_job_are_reported_and_the_rest_is_kept() {
    let text = "place codford\noccupancy = commercial\nrun { material csst }\nwork\ngas natural\n";
    let parsed = bad_job(text);
    let at: Vec<&str> = parsed.diagnostics.iter().map(|one| pointed(text, one)).collect();
    assert_eq!(at, ["=", "work"], "{}", shown(text, &parsed.diagnostics));
    let Item::Job(sheet) = &parsed.tree.items[0] else { panic!() };
    assert!(matches!(sheet.entries[0], JobEntry::Place(_)) && matches!(sheet.entries[1], JobEntry::Entry { .. }));
}

#[test]
fn a_fact_without_a_value_is_seen_even_where_the_rest_fits() {
    let text = "occupancy\nwork new-system\ngas natural extra\n";
    let parsed = bad_job(text);
    assert_eq!(codes_of(&parsed), [codes::SYNTAX]);
    assert_eq!(pointed(text, &parsed.diagnostics[0]), "occupancy");
    assert!(parsed.diagnostics[0].help.as_deref().unwrap().contains("`work`"));
}

#[test]
fn what_the_first_look_finds_does_not_hide_the_rest() {
    let text = "place x “X” within y\nplace z \"Z\n office \"o\"\nplace w \"W\"\n ofice \"o\"";
    let parsed = bad(text);
    assert_eq!(
        codes_of(&parsed),
        [codes::LOOK_ALIKE, codes::UNFINISHED_TEXT, codes::SYNTAX],
        "{}",
        shown(text, &parsed.diagnostics)
    );
    assert_eq!(parsed.tree.items.len(), 3);
    let Item::Place(place) = &parsed.tree.items[0] else { panic!() };
    assert_eq!((place.title.as_ref().unwrap().text.trim(), place.within.is_some()), ("X", true));
}

#[test]
fn errors_stand_in_the_order_of_the_file() {
    let parsed = bad(CITY);
    assert!(parsed.diagnostics.is_sorted_by_key(|one| one.at.span));
}

#[test]
fn errors_deep_in_a_long_item_are_explained_as_well() {
    let section = "  section 310.1 \"t\"\n    summary \"s\"\n    where a is b and c is d\n    q at most 3 ft\n";
    for (line, word, help) in [
        ("    sumary \"s\"\n", "sumary", "`summary`"),
        ("    q at msot 3 ft\n", "msot", "`most`"),
        ("  replase 310.2\n", "replase", "`replace`"),
    ] {
        let text = format!("edition IFGC 2021\n{}{line}{section}{line}{}", section.repeat(120), section.repeat(120));
        let parsed = bad(&text);
        assert_eq!(parsed.diagnostics.len(), 2, "{}", shown(&text, &parsed.diagnostics));
        for one in &parsed.diagnostics {
            assert_eq!(
                (pointed(&text, one), one.help.as_ref().is_some_and(|found| found.contains(help))),
                (word, true),
                "{one:?}"
            );
        }
        let [Item::Edition(edition)] = parsed.tree.items.as_slice() else { panic!() };
        assert_eq!(edition.clauses.len(), 241);
    }
}
