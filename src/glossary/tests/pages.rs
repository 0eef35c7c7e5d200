//! The smallest bad files of the codes that the glossary finds.

use super::{Places, anywhere};
use crate::glossary::Glossary;
use crate::syntax::codes::{self, Code};
use crate::syntax::diagnostic::FileId;
use crate::syntax::tree::{Item, TextClause};
use crate::syntax::{Kind, parse};

/// What the glossary finds in the smallest bad file of a code, demands of its
/// sections included.
fn found(code: Code) -> Vec<Code> {
    let path = format!("{}/tests/errors/{code}.rule", env!("CARGO_MANIFEST_DIR"));
    let text = std::fs::read_to_string(&path).unwrap_or_else(|problem| panic!("{path}: {problem}"));
    let parsed = parse(FileId(9), &text, Kind::Rules);
    assert!(parsed.diagnostics.is_empty(), "{path}: {:#?}", parsed.diagnostics);
    let places = Places::usual();
    let mut diagnostics = Vec::new();
    let glossary = Glossary::build(&[(FileId(9), &parsed.tree)], &places, &mut diagnostics);
    for item in &parsed.tree.items {
        let Item::Edition(edition) = item else { continue };
        for clause in &edition.clauses {
            let TextClause::Section(section) = clause else { continue };
            for demand in &section.body.demands {
                glossary.demand(demand, &anywhere(&places), &mut diagnostics);
            }
        }
    }
    diagnostics.iter().map(|one| one.code).collect()
}

#[test]
fn each_smallest_bad_file_shows_its_code_and_nothing_else() {
    let here = [
        codes::UNKNOWN_NAME,
        codes::DUPLICATE_NAME,
        codes::UNKNOWN_TERM,
        codes::SHAPE,
        codes::UNIT,
        codes::NUMBER,
        codes::PART,
        codes::LIST,
        codes::NOT_HERE,
        codes::DATE,
        codes::CIRCLE,
        codes::QUESTION,
        codes::ORDER,
    ];
    for code in here {
        assert_eq!(found(code), [code], "{code}");
        page(code);
    }
}

/// The page of a code begins with its title and shows how to mend it.
pub(crate) fn page(code: Code) {
    let path = format!("{}/shared/errors/{code}.md", env!("CARGO_MANIFEST_DIR"));
    let page = std::fs::read_to_string(&path).unwrap_or_else(|problem| panic!("{path}: {problem}"));
    let (_, title) = codes::ALL.iter().find(|(known, _)| *known == code).unwrap();
    assert!(page.starts_with(&format!("# {code}: {title}\n")), "{code}");
    for part in ["**Why.**", "**Example.**", "**Mend.**"] {
        assert!(page.contains(part), "{code} lacks {part}");
    }
}
