//! `knowingly GR5105 "why"`: where it stands, and what it may name.

use crate::syntax::codes;
use crate::syntax::tests::{bad, good, shown};
use crate::syntax::tree::*;

/// The text between a line's block begins and ends, for each line of a file.
fn blocks(text: &str) -> Vec<(String, String)> {
    let tree = good(text);
    let cut = |span: Span| text[span.start as usize..span.end as usize].to_owned();
    tree.knowingly.iter().map(|line| (cut(line.within), line.why.text.to_string())).collect()
}

#[test]
fn it_stands_in_every_block_and_in_the_innermost() {
    for (text, block) in [
        ("code GC on gas HERE", "code GC on gas HERE"),
        (
            "edition GC 2018 from memory HERE published 2018-01-01 section 1",
            "edition GC 2018 from memory HERE published 2018-01-01 section 1",
        ),
        ("edition GC 2018 section 1 where a is yes HERE b is c section 2", "section 1 where a is yes HERE b is c"),
        ("edition GC 2018 section 1 HERE", "section 1 HERE"),
        ("edition GC 2018 section 1 q at least by table GC HERE", "section 1 q at least by table GC HERE"),
        ("edition GC 2018 section 1 q at least 3 HERE", "section 1 q at least 3 HERE"),
        (
            "edition GC 2018 table 1 by a gives q HERE through 1 A gives 2 A",
            "table 1 by a gives q HERE through 1 A gives 2 A",
        ),
        ("edition GC 2018 revises GC 2015 delete 3 HERE", "delete 3 HERE"),
        (
            "edition GC 2018 revises GC 2015 replace table 1 by a gives q through 1 A gives 2 A HERE",
            "replace table 1 by a gives q through 1 A gives 2 A HERE",
        ),
        ("place a \"A\" HERE from memory", "place a \"A\" HERE from memory"),
        ("maker a HERE from memory", "maker a HERE from memory"),
        ("supplier a \"A\" HERE", "supplier a \"A\" HERE"),
        (
            "instrument A-1 kind order status proposed HERE suspends A-2",
            "instrument A-1 kind order status proposed HERE suspends A-2",
        ),
        (
            "instrument A-1 kind order status proposed suspends A-2 HERE",
            "instrument A-1 kind order status proposed suspends A-2 HERE",
        ),
        (
            "instrument A-1 kind order status proposed repeals A-2 of b HERE",
            "instrument A-1 kind order status proposed repeals A-2 of b HERE",
        ),
        ("instrument A-1 kind order status proposed amend GC 2018 HERE delete 3", "amend GC 2018 HERE delete 3"),
        ("instrument A-1 kind order status proposed amend GC 2018 delete 3 HERE", "delete 3 HERE"),
        ("example \"e\" HERE job a yes verdict outcome open", "example \"e\" HERE job a yes verdict outcome open"),
    ] {
        let line = "knowingly GR5105 \"why\"";
        for line in [line.to_owned(), format!("\n  {line}\n")] {
            let found = blocks(&text.replace("HERE", &line));
            let block = block.replace("HERE", &line).trim_end().to_owned();
            assert_eq!(found, [(block, "why".to_owned())], "{text}");
        }
    }
}

#[test]
fn several_stand_beside_each_other() {
    let text =
        "edition GC 2018 section 1 knowingly GR5100 \"a\" knowingly GR5101 \"b\" section 2 knowingly GR5100 \"c\"";
    let whys: Vec<String> = blocks(text).into_iter().map(|(_, why)| why).collect();
    assert_eq!(whys, ["a", "b", "c"]);
}

/// The word is none of the reserved ones: whatever was called so still is.
#[test]
fn the_word_may_be_a_name() {
    let tree = good(
        "choice knowingly knowingly\nfact knowingly yes-no\nquestion knowingly on knowingly ladder a, b met where knowingly is yes\n\
         definition knowingly knowingly is yes\nplace knowingly \"K\"\n\
         edition GC 2018 section knowingly where knowingly is yes knowingly is b\n section 2 knowingly only b knowingly at least 3 ft\n\
         example \"e\" job place knowingly knowingly yes knowingly { knowingly yes }\n verdict knowingly silent knowingly is b by A-1",
    );
    assert!(tree.knowingly.is_empty());
}

/// A finding about the line: what it points at, message and help.
fn told(line: &str) -> (String, String, String) {
    let text = format!("edition GC 2018\n section 1 \"t\"\n  {line}\n  a is b\n");
    let parsed = bad(&text);
    assert_eq!(parsed.diagnostics.len(), 1, "{}", shown(&text, &parsed.diagnostics));
    let one = &parsed.diagnostics[0];
    assert_eq!(one.code, codes::KNOWINGLY, "{line}");
    assert!(parsed.tree.knowingly.is_empty());
    let at = text[one.at.span.start as usize..one.at.span.end as usize].to_owned();
    (at, one.message.clone(), one.help.clone().unwrap())
}

#[test]
fn it_names_a_warning_and_says_why() {
    let (at, message, help) = told("knowingly GR0300 \"why\"");
    assert_eq!(at, "GR0300");
    assert_eq!(message, "`GR0300` is an error (a name is not known), and only a warning can be passed over");
    assert!(help.starts_with("mend"), "{help}");
    let (at, message, help) = told("knowingly GR5190 \"why\"");
    assert_eq!((&*at, &*message), ("GR5190", "no warning has the code `GR5190`"));
    assert!(help.starts_with("did you mean `GR51"), "{help}");
    assert_eq!(told("knowingly GR5150 \"why\"").2, "did you mean `GR5100`, `GR5105` or `GR5110`?");
    assert!(told("knowingly TYPO \"why\"").2.starts_with("the warnings are GR5100, GR5101, "));
    let (at, message, help) = told("knowingly GR5105");
    assert_eq!((&*at, &*message), ("knowingly GR5105", "no reason is given for passing `GR5105` over"));
    assert!(help.contains("`knowingly GR5105 \"…\"`"), "{help}");
    for empty in ["\"\"", "\"  \""] {
        assert_eq!(told(&format!("knowingly GR5105 {empty}")).0, empty);
    }
}

/// What stands behind an error in the same file is kept once.
#[test]
fn an_error_behind_it_does_not_double_it() {
    let text =
        "place a \"A\"\n    knowingly GR5100 \"why\"\n    offise \"O\"\nplace b \"B\"\n    knowingly GR5100 \"too\"\n";
    assert_eq!(bad(text).tree.knowingly.len(), 2);
}
