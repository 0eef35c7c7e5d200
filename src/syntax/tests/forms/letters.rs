//! Words, numbers, texts, comments and spans.

use crate::syntax::codes;
use crate::syntax::tests::{bad, codes_of, good, item, shown};
use crate::syntax::tree::*;
use crate::syntax::words::RESERVED;

#[test]
fn numbers_of_sections() {
    for number in [
        "310.1.1",
        "250.104(B)",
        "250.104(B)(1)(a)",
        "G2411.1.1",
        "8.2",
        "14.20.030",
        "0780-02-02-.01",
        "R-5/6",
        "app-c.2",
        "G(a.(1))",
    ] {
        let Item::Edition(edition) = item(&format!("edition IFGC 2021 section {number} summary \"s\"")) else {
            panic!()
        };
        let TextClause::Section(section) = &edition.clauses[0] else { panic!() };
        assert_eq!(&*section.number.text, number);
    }
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
    for word in [
        "summary",
        "where-else",
        "inch",
        "only-one",
        "notes",
        "floor",
        "kind",
        "section",
        "met",
        "open",
        "silent",
        "ask",
        "known",
        "years",
    ] {
        good(&format!("subject {word} \"t\""));
    }
}

#[test]
fn reserved_words_are_sorted() {
    assert!(RESERVED.is_sorted());
    assert!(crate::syntax::words::ITEMS.is_sorted());
    assert!(crate::syntax::words::ITEMS.iter().all(|word| RESERVED.contains(word)));
}

/// The words in quotes or backticks of a text.
fn quoted(text: &str, quote: char) -> Vec<&str> {
    let mut words: Vec<&str> = text.split(quote).skip(1).step_by(2).collect();
    words.sort_unstable();
    words
}

#[test]
fn the_grammar_and_the_page_list_the_same_reserved_words() {
    let grammar = include_str!("../../../../grammar/rule.pest");
    let rule = grammar.split("\nreserved = _{").nth(1).unwrap().split("}\n").next().unwrap();
    assert_eq!(quoted(rule, '"'), RESERVED);
    let page = std::fs::read_to_string(format!("{}/shared/errors/GR0201.md", env!("CARGO_MANIFEST_DIR"))).unwrap();
    let list = page.split("\n\n").nth(2).unwrap();
    assert_eq!(quoted(list, '`'), RESERVED);
}
