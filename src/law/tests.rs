//! Tests of the law module on the built-in library.

use super::library::{Library, Linked};
use crate::syntax::diagnostic::{FileId, Severity};
use crate::syntax::{Kind, parse};

/// A section without a source stops the build, which looks for just this; each that
/// ships has one.
#[test]
fn a_section_of_the_built_in_library_needs_a_source() {
    let bare = "code QC \"Q\" on fuel-gas\nedition QC 2018\n section 1 \"S\"\n  direct-bond is required\n";
    let missing = |added: &str| {
        let mut texts: Vec<String> = rules().into_iter().map(|(_, text)| text).collect();
        texts.push(added.to_owned());
        let parsed: Vec<_> =
            texts.iter().enumerate().map(|(at, text)| parse(FileId(at as u32), text, Kind::Rules)).collect();
        let linked: Vec<Linked> = parsed
            .iter()
            .enumerate()
            .map(|(at, parsed)| Linked { id: FileId(at as u32), tree: &parsed.tree, folder: Box::default() })
            .collect();
        let mut told = Vec::new();
        let library = Library::link(&linked, &mut told);
        assert!(told.is_empty(), "{told:#?}");
        library.without_provenance()
    };
    assert_eq!(missing(""), []);
    assert_eq!(missing(&format!("{bare}  from memory\n")), []);
    let found = missing(bare);
    assert_eq!(found.iter().map(|told| told.severity()).collect::<Vec<_>>(), [Severity::Error]);
    assert_eq!(found[0].at.file.0 as usize, rules().len());
}

/// Every file of `rules/`, in the order of their paths.
fn rules() -> Vec<(String, String)> {
    let root = concat!(env!("CARGO_MANIFEST_DIR"), "/rules");
    walkdir::WalkDir::new(root)
        .sort_by_file_name()
        .into_iter()
        .filter_map(Result::ok)
        .filter(|entry| entry.path().extension().is_some_and(|ending| ending == "rule"))
        .map(|entry| (entry.path().display().to_string(), std::fs::read_to_string(entry.path()).unwrap()))
        .collect()
}

#[test]
fn the_built_in_library_links_and_every_place_has_a_law() {
    let files = rules();
    let parsed: Vec<_> =
        files.iter().enumerate().map(|(at, (_, text))| parse(FileId(at as u32), text, Kind::Rules)).collect();
    let mut told: Vec<_> = parsed.iter().flat_map(|parsed| parsed.diagnostics.clone()).collect();
    let linked: Vec<Linked> = parsed
        .iter()
        .enumerate()
        .map(|(at, parsed)| Linked {
            id: FileId(at as u32),
            tree: &parsed.tree,
            folder: files[at].0.rsplit_once('/').map(|(folder, _)| folder).unwrap_or_default().into(),
        })
        .collect();
    let library = Library::link(&linked, &mut told);
    for place in library.lawgivers().collect::<Vec<_>>() {
        match library.law(place) {
            Ok(law) => println!(
                "{}: {} nodes {} provisions",
                library.places.path_text(place),
                law.nodes.len(),
                law.provisions.len()
            ),
            Err(problem) => told.push(problem.clone()),
        }
    }
    for problem in &told {
        let (name, text) = &files[problem.at.file.0 as usize];
        let line = text.get(..problem.at.span.start as usize).unwrap().lines().count();
        println!("{} {name}:{line}: {} [{:?}]", problem.code, problem.message, problem.help);
    }
    assert!(told.is_empty());
}
