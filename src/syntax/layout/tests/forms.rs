//! The layout of each form, and what is refused.

use super::{holds, laid};
use crate::syntax::diagnostic::FileId;
use crate::syntax::layout::{WIDTH, lay_out};
use crate::syntax::{Kind, codes};

const FORMS: &str = include_str!("forms.rule");

#[test]
fn the_forms_have_their_layout() {
    insta::assert_snapshot!(holds(FORMS, Kind::Rules));
}

#[test]
fn columns_are_aligned_within_a_group() {
    let text = "subject a \"A\"\nsubject longer \"B\" must be governed\n\nsubject b \"C\"\n";
    let laid_out = "subject a       \"A\"\nsubject longer  \"B\"  must be governed\n\nsubject b  \"C\"\n";
    assert_eq!(laid(text, Kind::Rules), laid_out);
}

#[test]
fn a_clause_out_of_its_usual_place_stays_there() {
    let text = "fact f date ask \"When?\" \"Title\" in alder\nplace a \"A\" office \"O\" within b\n";
    let laid_out =
        "fact f  date\n    ask \"When?\"\n    \"Title\"\n    in alder\nplace a \"A\"\n    office \"O\"\n    within b\n";
    assert_eq!(laid(text, Kind::Rules), laid_out);
}

#[test]
fn several_blank_lines_become_one_and_none_is_added() {
    let text = "\n\nmaker a\nmaker b\n\n\n\nplace c \"C\" office\n\n\n\"O\"\n\n";
    assert_eq!(laid(text, Kind::Rules), "maker a\nmaker b\n\nplace c \"C\"\n    office \"O\"\n");
}

/// Breaks as far out as can be, and never within a bracket where one before it does.
#[test]
fn long_conditions_are_broken_where_their_parts_meet() {
    let long = |parts: &[&str]| format!("definition d {}\n", parts.join(" "));
    let text = long(&[
        "the-first-of-the-facts is any of one-term, another-term, a-third-term and",
        "(the-second-of-the-facts is yes or the-third-of-the-facts is yes) and the-fourth-of-the-facts is no",
    ]);
    assert_eq!(
        laid(&text, Kind::Rules),
        "definition d\n    the-first-of-the-facts is any of one-term, another-term, a-third-term\n            \
         and (the-second-of-the-facts is yes or the-third-of-the-facts is yes)\n            \
         and the-fourth-of-the-facts is no\n"
    );
    let inner = "some-fact-of-a-job is yes and ".repeat(4);
    let text = long(&[&format!("({inner}last is no or other-fact is yes) and (one is yes or two is no)")]);
    let laid_out = holds(&text, Kind::Rules);
    assert!(laid_out.lines().all(|line| line.chars().count() <= WIDTH), "{laid_out}");
    assert!(laid_out.contains("\n            and (one is yes or two is no)\n"), "{laid_out}");
}

#[test]
fn long_lists_and_long_entries() {
    let terms: Vec<String> = (0..20).map(|number| format!("term-number-{number}")).collect();
    let laid_out = holds(&format!("edition GC 2018 section 1 q only {}", terms.join(",")), Kind::Rules);
    assert!(laid_out.lines().all(|line| line.chars().count() <= WIDTH), "{laid_out}");
    let facts: String = (0..12).map(|number| format!("fact-number-{number} 3 ft ")).collect();
    let laid_out = laid(&format!("run {{{facts}}}"), Kind::Job);
    assert_eq!(laid_out.lines().count(), 14, "{laid_out}");
    assert!(laid_out.starts_with("run {\n    fact-number-0 3 ft\n"), "{laid_out}");
    assert_eq!(laid("run {material csst}run{}", Kind::Job), "run { material csst }\nrun { }\n");
}

/// A line is long because of its text; breaking it would not help.
#[test]
fn a_text_stays_on_its_line() {
    let text = format!("edition GC 2018 section 1 refer a, b, c \"{}\"\n", "why ".repeat(60));
    assert_eq!(laid(&text, Kind::Rules).lines().count(), 3);
}

#[test]
fn a_sheet_may_be_headed() {
    assert_eq!(laid("job place a concealed yes", Kind::Job), "job\n    place a\n    concealed yes\n");
}

#[test]
fn lines_end_as_the_first_one_does() {
    let wild = "subject a \r\n\"A\"\nsubject b";
    assert_eq!(laid(wild, Kind::Rules), "subject a  \"A\"\r\nsubject b\r\n");
    let wild = "subject a\n\"A\"\r\n# c\r\nsubject b";
    assert_eq!(laid(wild, Kind::Rules), "subject a  \"A\"\n# c\nsubject b\n");
    assert_eq!(laid("# c\r\n\r\n\r\nsubject b", Kind::Rules), "# c\r\n\r\nsubject b\r\n");
}

#[test]
fn a_byte_order_mark_is_taken_out() {
    assert_eq!(laid("\u{feff}subject a", Kind::Rules), "subject a\n");
    assert_eq!(laid("\u{feff}# c\r\nsubject a\r\n", Kind::Rules), "# c\r\nsubject a\r\n");
}

#[test]
fn a_file_with_an_error_is_refused_with_it() {
    let told = lay_out(FileId(3), "place a\nplase b\n", Kind::Rules).unwrap_err();
    assert_eq!((told[0].code, told[0].at.file), (codes::SYNTAX, FileId(3)));
    let told = lay_out(FileId(0), "place a \"A\nplace b\n", Kind::Rules).unwrap_err();
    assert_eq!(told[0].code, codes::UNFINISHED_TEXT);
}

/// A figure and the name behind it, which is a unit too, stay on two lines.
#[test]
fn a_name_does_not_become_a_unit() {
    let text = "run { storeys 3\nday 2020-01-01 }\n";
    assert_eq!(holds(text, Kind::Job), "run {\n    storeys 3\n    day 2020-01-01\n}\n");
    let text = "run { length 3 furlongs\nmaterial csst }\n";
    assert_eq!(holds(text, Kind::Job), "run {\n    length 3 furlongs\n    material csst\n}\n");
}

/// A unit that is not known is one at the end of its line only.
#[test]
fn what_would_say_something_else_is_refused() {
    for mark in ["", "\u{feff}"] {
        let text = format!("{mark}definition d\n    length over 3 furlongs\n    and a is yes\n");
        let told = lay_out(FileId(0), &text, Kind::Rules).unwrap_err();
        assert_eq!(told.len(), 1);
        assert_eq!(told[0].code, codes::LAYOUT);
        let span = told[0].at.span;
        assert_eq!(&text[span.start as usize..span.end as usize], "furlongs");
        assert!(told[0].help.as_deref().unwrap().contains("the file stays as it was"));
    }
}

#[test]
fn a_file_that_would_grow_past_the_limit_is_refused() {
    let line = format!(" also \"{}\"\n", "x".repeat(3_990));
    let text = format!("place a \"A\"\n{}", line.repeat(crate::syntax::limits::FILE.most / line.len()));
    assert!(text.len() < crate::syntax::limits::FILE.most);
    let told = lay_out(FileId(0), &text, Kind::Rules).unwrap_err();
    assert_eq!(told[0].code, codes::LIMIT);
}
