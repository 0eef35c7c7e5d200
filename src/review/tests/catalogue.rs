//! The catalogue of findings: every code has a page and a smallest bad file, and
//! both show what they say.

use super::{path, text};
use crate::job::{Defaults, read_json, read_sheet};
use crate::review::survey::{Asked, findings};
use crate::review::{changes, errors, examples, lints};
use crate::rules::{Rules, Source};
use crate::syntax::codes::{self, Code};
use crate::syntax::diagnostic::FileId;
use crate::syntax::layout::lay_out;
use crate::syntax::tree::Item;
use crate::syntax::{Kind, parse};
use std::collections::BTreeSet;
use std::sync::{Arc, LazyLock};

static SHIPPED: LazyLock<Rules> = LazyLock::new(Rules::shipped);

/// What is found in a rule file alone, the root cause first.
fn in_rules(bytes: &[u8]) -> Vec<Code> {
    let rules = Rules::only(vec![Source::new("sheet.rule", bytes)]);
    let mut found: Vec<Code> = rules.diagnostics().iter().map(|told| told.code).collect();
    if found.is_empty() {
        found.extend(errors(&rules).iter().map(|told| told.code));
    }
    if found.is_empty() {
        found.extend(examples::run(&rules, |_| true).findings.iter().map(|told| told.code));
        found.extend(lints(&rules).iter().map(|told| told.code));
        found.extend(findings(&rules, &|_| true, Asked::default()).iter().map(|told| told.code));
    }
    found
}

/// What is found in a job, read against the shipped rules.
fn in_job(text: &str, json: bool) -> Vec<Code> {
    if json {
        let read = read_json(text, SHIPPED.desk(), &Defaults::default());
        return read.err().unwrap_or_default().iter().map(|problem| problem.code).collect();
    }
    let parsed = parse(FileId(0), text, Kind::Job);
    let mut found: Vec<Code> = parsed.diagnostics.iter().map(|told| told.code).collect();
    for item in &parsed.tree.items {
        if let Item::Job(sheet) = item {
            let read = read_sheet(sheet, FileId(0), SHIPPED.desk(), &Defaults::default());
            found.extend(read.err().unwrap_or_default().iter().map(|told| told.code));
        }
    }
    found
}

/// What is found in the shipped library's own way: no section without a source.
fn in_library(bytes: &[u8]) -> Vec<Code> {
    let rules = Rules::only(vec![Source::new("sheet.rule", bytes)]);
    rules.diagnostics().iter().chain(&rules.library().without_provenance()).map(|told| told.code).collect()
}

/// What is found in a rule file whose boundaries lie beside the bad files.
fn with_boundaries(bytes: &[u8]) -> Vec<Code> {
    let rules = Rules::only(vec![Source::new("sheet.rule", bytes)]);
    let named = rules.library().places.all().filter_map(|(place, issuer)| Some((place, issuer.boundary.as_ref()?)));
    let read = named.filter_map(|(place, boundary)| {
        let beside = path(&format!("tests/errors/{}", boundary.beside("")?));
        Some((place, std::fs::read(beside).map(Arc::from).map_err(|problem| problem.to_string())))
    });
    let read = read.collect();
    let rules = rules.with_boundaries(read);
    rules.diagnostics().iter().cloned().chain(lints(&rules)).map(|told| told.code).collect()
}

/// What is found in a boundary.
fn in_boundary(bytes: &[u8]) -> Vec<Code> {
    let text = "place alder \"Alder\"\n    boundary \"alder.geojson\"\n    from memory\n";
    let rules = Rules::only(vec![Source::new("sheet.rule", text)]);
    let read = rules.library().places.all().map(|(place, _)| (place, Ok(bytes.into()))).collect();
    lints(&rules.with_boundaries(read)).iter().map(|told| told.code).collect()
}

/// What is found when a rule file is laid out.
fn in_layout(bytes: &[u8]) -> Vec<Code> {
    let laid = lay_out(FileId(0), std::str::from_utf8(bytes).unwrap(), Kind::Rules);
    laid.err().unwrap_or_default().iter().map(|told| told.code).collect()
}

/// What is found by changing a file whose examples come out.
fn in_changes(bytes: &[u8]) -> Vec<Code> {
    let mut found = in_rules(bytes);
    if found.is_empty() {
        let rules = Rules::only(vec![Source::new("sheet.rule", bytes)]);
        found.extend(changes::run(&rules, |_| true, false).findings.iter().map(|told| told.code));
    }
    found
}

fn found(code: Code, ending: &str, bytes: &[u8]) -> Vec<Code> {
    match ending {
        "rule" if code == codes::PROVENANCE_MISSING => in_library(bytes),
        "rule" if code == codes::LAYOUT => in_layout(bytes),
        "rule" if [codes::NO_EXAMPLE, codes::UNNOTICED].contains(&code) => in_changes(bytes),
        "rule" if [codes::BOUNDARY_FILE, codes::STICKS_OUT, codes::AREAS_OVERLAP].contains(&code) => {
            with_boundaries(bytes)
        }
        "rule" => in_rules(bytes),
        "geojson" => in_boundary(bytes),
        _ => in_job(std::str::from_utf8(bytes).unwrap(), ending == "json"),
    }
}

/// The smallest bad file of a code, with its ending.
fn bad_file(code: Code) -> (&'static str, String) {
    let mut files = ["rule", "job", "json", "geojson"]
        .into_iter()
        .map(|ending| (ending, path(&format!("tests/errors/{code}.{ending}"))));
    files.find(|(_, path)| std::fs::symlink_metadata(path).is_ok()).unwrap_or_else(|| panic!("{code} has no bad file"))
}

/// The blocks of a page behind its example and behind how to mend it.
fn blocks(code: Code) -> (Option<String>, Option<String>) {
    let page = text(&format!("shared/errors/{code}.md"));
    let block = |part: &str| {
        let (_, rest) = page.split_once(part)?;
        let rest = rest.split("\n**").next()?;
        let (_, block) = rest.split_once("\n```")?;
        let (_, block) = block.split_once('\n')?;
        Some(block.split("```").next()?.to_owned())
    };
    (block("**Example.**"), block("**Mend.**"))
}

/// A block as the file that it shows: what cannot be printed is written out.
fn unfolded(code: Code, block: &str) -> Vec<u8> {
    let text = block.replace("\\0", "\0").replace("[U+202E]", "\u{202e}");
    if code != codes::NOT_UTF8 {
        return text.into_bytes();
    }
    // A long dash of the encoding "Western (Windows-1252)".
    let mut bytes = Vec::new();
    for (at, part) in text.split('\u{2013}').enumerate() {
        if at > 0 {
            bytes.push(0x96);
        }
        bytes.extend(part.bytes());
    }
    bytes
}

#[test]
fn every_code_has_a_page_of_one_style() {
    for (code, title) in codes::ALL {
        let page = text(&format!("shared/errors/{code}.md"));
        assert!(page.starts_with(&format!("# {code}: {title}\n\n")), "{code}");
        let parts = ["\n**Why.** ", "\n**Example.**", "\n**Mend.** "].map(|part| page.find(part));
        assert!(parts.iter().all(Option::is_some), "{code} lacks a part: {parts:?}");
        assert!(parts.is_sorted(), "{code} has its parts in another order");
        assert!(page.lines().all(|line| line.chars().count() <= 100), "{code} has a long line");
    }
}

#[test]
fn every_code_has_a_smallest_bad_file_that_shows_it_first() {
    for (code, _) in codes::ALL {
        let (ending, file) = bad_file(*code);
        let bytes = match std::fs::read(&file) {
            // The file that cannot be read is a link that leads nowhere.
            Err(_) if *code == codes::UNREADABLE => continue,
            read => read.unwrap(),
        };
        assert_ne!(*code, codes::UNREADABLE, "{file} can be read");
        assert!(bytes.len() < 1200, "{file} is not small");
        assert_eq!(found(*code, ending, &bytes).first(), Some(code), "{file}");
    }
}

#[test]
fn every_page_shows_what_is_wrong_and_how_to_mend_it() {
    for (code, _) in codes::ALL.iter().filter(|(code, _)| *code != codes::UNREADABLE) {
        let (ending, _) = bad_file(*code);
        let (Some(example), Some(mended)) = blocks(*code) else { panic!("the page of {code} lacks a block") };
        let wrong = found(*code, ending, &unfolded(*code, &example));
        assert_eq!(wrong.first(), Some(code), "the example of {code} shows {wrong:?}");
        let left = found(*code, ending, mended.as_bytes());
        assert!(!left.contains(code), "the mended example of {code} still shows {left:?}");
    }
}

#[test]
fn no_page_and_no_bad_file_is_left_over() {
    let known: BTreeSet<String> = codes::ALL.iter().map(|(code, _)| code.to_string()).collect();
    for folder in ["shared/errors", "tests/errors"] {
        for entry in std::fs::read_dir(path(folder)).unwrap() {
            let name = entry.unwrap().file_name().into_string().unwrap();
            if name == "README.md" {
                continue;
            }
            let (code, _) = name.split_once('.').unwrap();
            assert!(known.contains(code), "{folder}/{name} belongs to no code");
        }
    }
}

#[test]
fn the_list_holds_every_code_in_order() {
    let page = text("shared/errors/README.md");
    let rows: Vec<&str> = page.lines().filter(|line| line.starts_with("| [GR")).collect();
    let wanted: Vec<String> =
        codes::ALL.iter().map(|(code, title)| format!("| [{code}]({code}.md) | {title} |")).collect();
    assert_eq!(rows, wanted);
}
