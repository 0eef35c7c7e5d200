//! Tests of the three renderings.

use super::*;
use crate::syntax::codes;
use crate::syntax::tree::Span;

fn finding(text: &str, start: usize, end: usize) -> Finding {
    let at = Location { file: FileId(0), span: Span { start: start as u32, end: end as u32 } };
    let told = Diagnostic::new(codes::UNKNOWN_NAME, at, "no question has the name `diret-bond`")
        .help("did you mean `direct-bond`?")
        .also(Location { file: FileId(0), span: Span { start: 0, end: 7 } }, "the section begins here");
    Finding::of_sheet(&told, "amend.rule", &Arc::from(text))
}

const TEXT: &str = "section 1 \"Größe\"\n    diret-bond is required\n";

fn at() -> (usize, usize) {
    let start = TEXT.find("diret").unwrap();
    (start, start + 10)
}

#[test]
fn plain_is_one_paragraph() {
    let (start, end) = at();
    let plain = render(&[finding(TEXT, start, end)], Rendering::Plain);
    assert_eq!(
        plain,
        "error GR0300 in amend.rule, line 2, column 5: no question has the name `diret-bond`\n  \
         the line reads: diret-bond is required\n  \
         the section begins here in amend.rule, line 1, column 1\n  \
         help: did you mean `direct-bond`?\n"
    );
}

#[test]
fn drawn_points_at_the_word_and_is_plain_for_long_lines() {
    let (start, end) = at();
    let drawn = render(&[finding(TEXT, start, end)], Rendering::Drawn { color: false });
    assert!(drawn.contains("GR0300") && drawn.contains("amend.rule:2:5") && drawn.contains("Größe"), "{drawn}");
    assert!(!drawn.contains('\u{1b}'), "{drawn}");
    assert!(render(&[finding(TEXT, start, end)], Rendering::Drawn { color: true }).contains('\u{1b}'));
    let long = format!("section 1\n{}diret-bond is required", " x".repeat(5_000));
    let start = long.find("diret").unwrap();
    let told = render(&[finding(&long, start, start + 10)], Rendering::Drawn { color: false });
    assert!(told.starts_with("error GR0300 in amend.rule, line 2, column 10001"), "{told}");
    assert!(told.lines().all(|line| line.chars().count() < 160), "{told}");
}

#[test]
fn control_characters_are_made_visible() {
    let text = "x\u{1b}[2J bad\n";
    for rendering in [Rendering::Plain, Rendering::Drawn { color: false }] {
        let shown = render(&[finding(text, 6, 9)], rendering);
        assert!(!shown.contains('\u{1b}') && shown.contains('␛'), "{shown}");
    }
}

#[test]
fn json_holds_every_part() {
    let (start, end) = at();
    let json: serde_json::Value = serde_json::from_str(&render(&[finding(TEXT, start, end)], Rendering::Json)).unwrap();
    assert_eq!(json[0]["code"], "GR0300");
    assert_eq!((&json[0]["line"], &json[0]["column"]), (&2.into(), &5.into()));
    assert_eq!(json[0]["also"][0]["line"], 1);
    assert_eq!(json[0]["help"], "did you mean `direct-bond`?");
}

#[test]
fn a_spot_past_the_end_of_the_text_is_its_end() {
    let shown = render(&[finding("", 3, 9)], Rendering::Drawn { color: false });
    assert!(shown.contains("line 1") || shown.contains(":1:"), "{shown}");
}
