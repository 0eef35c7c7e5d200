//! Comments in every spot.

use super::{holds, laid};
use crate::syntax::diagnostic::FileId;
use crate::syntax::layout::tokens::Tokens;
use crate::syntax::tree::Item;
use crate::syntax::{Kind, parse};

/// A file in which something of most forms stands.
const FORMS: &str = include_str!("forms.rule");
const SHEET: &str =
    "place alder # where\nreference \"A-1\"\nrun { material csst length 3 ft }\nrun unknown\njumper.size 6 AWG\n";

const PUT: [&str; 4] =
    ["# behind\n", "\n# of its own\n", "\n\n\n# after a blank line\n\n\n", "# one\n# two\n\n# three\n"];

/// The text with something put behind the token of a number.
fn with(text: &str, number: usize, put: &str) -> String {
    let token = Tokens::of(text).list[number];
    let at = token.start + token.text.len();
    format!("{}{put}{}", &text[..at], &text[at..])
}

/// Each item by itself, with a comment behind each of its tokens in turn; where a
/// figure would lose its unit, or a fact of a job its value, there is nothing to lay out.
fn at_each_token(text: &str, kind: Kind) {
    let items = parse(FileId(0), text, kind).tree.items;
    let mut tried = 0;
    for span in items.iter().map(Item::span) {
        let item = &text[span.start as usize..span.end as usize];
        for number in 0..Tokens::of(item).list.len() {
            let text = with(item, number, PUT[(number + tried) % PUT.len()]);
            if parse(FileId(0), &text, kind).diagnostics.is_empty() {
                holds(&text, kind);
                tried += 1;
            }
        }
    }
    let all = Tokens::of(text).list.len();
    assert!(tried > all * 3 / 4, "{tried} of {all}");
}

#[test]
fn a_comment_may_stand_anywhere() {
    at_each_token(FORMS, Kind::Rules);
    at_each_token(SHEET, Kind::Job);
}

#[test]
fn comments_alone_are_a_file() {
    assert_eq!(laid("\n\n  # one\n\n\n\n\t# two \n", Kind::Rules), "# one\n\n# two\n");
    assert_eq!(laid(" # one", Kind::Job), "# one\n");
    assert_eq!(laid("", Kind::Rules), "");
    assert_eq!(laid("\n \n", Kind::Job), "");
}

#[test]
fn a_comment_stands_as_deep_as_what_is_below_it() {
    let text = "# top\nplace a \"A\" # the town\n# of the office\noffice \"B\"\n\n# the next\nplace b \"B\"\n";
    let laid_out =
        "# top\nplace a \"A\"  # the town\n    # of the office\n    office \"B\"\n\n# the next\nplace b \"B\"\n";
    assert_eq!(laid(text, Kind::Rules), laid_out);
}

/// A last line that was taken out with `#` stays with its block.
#[test]
fn a_comment_parted_from_what_is_below_belongs_above() {
    let text = "place a \"A\"\noffice \"B\"\n# also \"C\"\n\nplace b \"B\"\noffice \"D\"\n# at the end\n";
    let laid_out =
        "place a \"A\"\n    office \"B\"\n    # also \"C\"\n\nplace b \"B\"\n    office \"D\"\n    # at the end\n";
    assert_eq!(laid(text, Kind::Rules), laid_out);
}

#[test]
fn a_comment_within_a_clause_breaks_its_line() {
    let text = "definition d a is yes # first\n# second\nand b is no\n";
    let laid_out = "definition d\n    a is yes  # first\n            # second\n            and b is no\n";
    assert_eq!(laid(text, Kind::Rules), laid_out);
}

#[test]
fn comments_of_neighbouring_lines_stand_in_a_column() {
    let text = "place alder # where\napplication-date 2026-02-03 # when\n\nconcealed unknown # apart\n";
    let laid_out =
        "place alder                  # where\napplication-date 2026-02-03  # when\n\nconcealed unknown  # apart\n";
    assert_eq!(laid(text, Kind::Job), laid_out);
}

#[test]
fn an_entry_with_a_comment_in_it_takes_a_line_for_each_fact() {
    let text = "run { material csst # as printed\nlength 3 ft }\n";
    assert_eq!(laid(text, Kind::Job), "run {\n    material csst  # as printed\n    length 3 ft\n}\n");
}
