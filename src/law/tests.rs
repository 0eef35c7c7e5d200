//! Tests of the law module on the built-in library.

use super::library::{Library, Linked};
use crate::syntax::diagnostic::FileId;
use crate::syntax::{Kind, parse};

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
