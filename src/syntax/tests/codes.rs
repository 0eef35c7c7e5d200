//! The smallest bad files of the codes that are found here.

use super::codes_of;
use crate::syntax::codes::{self, Code};
use crate::syntax::diagnostic::FileId;
use crate::syntax::{Kind, parse_bytes};

fn found(code: Code) -> Vec<Code> {
    let path = format!("{}/tests/errors/{code}.rule", env!("CARGO_MANIFEST_DIR"));
    codes_of(&parse_bytes(FileId(0), &std::fs::read(path).unwrap(), Kind::Rules))
}

#[test]
fn each_smallest_bad_file_shows_its_code_and_nothing_else() {
    let here = [
        codes::LIMIT,
        codes::NOT_UTF8,
        codes::CONTROL_CHARACTER,
        codes::LOOK_ALIKE,
        codes::BIDI_CONTROL,
        codes::SYNTAX,
        codes::RESERVED,
        codes::UNFINISHED_TEXT,
        codes::TWICE_SAID,
        codes::MISSING_LINE,
    ];
    for code in here {
        assert_eq!(found(code), [code]);
    }
}

#[test]
fn each_code_of_text_and_syntax_has_a_page_and_a_file() {
    for (code, title) in codes::ALL.iter().filter(|(code, _)| u16::from(*code) < 300) {
        let root = env!("CARGO_MANIFEST_DIR");
        let page = std::fs::read_to_string(format!("{root}/shared/errors/{code}.md")).unwrap();
        assert!(page.starts_with(&format!("# {code}: {title}\n")), "{code}");
        assert!((15..=40).contains(&page.lines().count()), "{code} has {} lines", page.lines().count());
        // The file that cannot be read is a link that leads nowhere.
        assert!(std::fs::symlink_metadata(format!("{root}/tests/errors/{code}.rule")).is_ok(), "{code}");
    }
}
