//! Compiles the rules that ship with the program: parses `rules/`, checks them
//! with the very modules that the library uses, and writes the trees in a form
//! that a cold start reads without parsing anything.
//!
//! A rule file with an error stops the build, and says where.

#![allow(dead_code, unused_imports, reason = "the modules serve the library; the build uses a part of each")]
#![allow(missing_docs, reason = "the modules are documented where the library declares them")]

#[path = "../glossary/mod.rs"]
mod glossary;
#[path = "../law/mod.rs"]
mod law;
#[path = "../shipped.rs"]
mod shipped;
#[path = "../syntax/mod.rs"]
mod syntax;
#[path = "../values/mod.rs"]
mod values;

use law::library::{Library, Linked};
use sha2::{Digest, Sha256};
use shipped::{Shipped, ShippedFile};
use std::error::Error;
use std::path::{Path, PathBuf};
use syntax::diagnostic::{Diagnostic, FileId, Severity};
use syntax::{Kind, parse_bytes};

fn main() -> Result<(), Box<dyn Error>> {
    for watched in [
        "rules",
        "grammar",
        "shared/errors",
        "src/build",
        "src/syntax",
        "src/values",
        "src/glossary",
        "src/law",
        "src/shipped.rs",
    ] {
        println!("cargo::rerun-if-changed={watched}");
    }
    let out = PathBuf::from(std::env::var("OUT_DIR")?);
    let mut files = Vec::new();
    for entry in walkdir::WalkDir::new("rules").sort_by_file_name() {
        let entry = entry?;
        if entry.path().extension().is_some_and(|ending| ending == "rule") {
            files.push((name_of(entry.path()), std::fs::read(entry.path())?));
        }
    }
    let (trees, areas, told) = read(&files);
    let bad: Vec<String> =
        told.iter().filter(|told| told.severity() == Severity::Error).map(|told| in_words(told, &files)).collect();
    if !bad.is_empty() {
        return Err(format!("the rules that ship with the program have errors\n{}", bad.join("\n")).into());
    }
    let shipped = Shipped {
        files: files
            .iter()
            .zip(trees)
            .map(|((name, bytes), tree)| ShippedFile {
                name: name.as_str().into(),
                hash: Sha256::digest(bytes).into(),
                tree,
            })
            .collect(),
    };
    std::fs::write(out.join("rules.bin"), postcard::to_stdvec(&shipped)?)?;
    let texts: Vec<&[u8]> = files.iter().map(|(_, bytes)| bytes.as_slice()).collect();
    std::fs::write(out.join("texts.bin"), postcard::to_stdvec(&texts)?)?;
    std::fs::write(out.join("areas.bin"), postcard::to_stdvec(&areas_read(&areas)?)?)?;
    std::fs::write(out.join("errors.rs"), format!("&{:?}", pages()?))?;
    Ok(())
}

/// The boundaries that places name, as they are; a test of the library reads what they say.
fn areas_read(paths: &[String]) -> Result<Vec<(&str, Vec<u8>)>, Box<dyn Error>> {
    let read = |path: &String| -> Result<Vec<u8>, Box<dyn Error>> {
        std::fs::read(path).map_err(|problem| format!("the boundary {path}: {problem}").into())
    };
    paths.iter().map(|path| Ok((path.as_str(), read(path)?))).collect()
}

/// The pages about codes, each under its code.
fn pages() -> Result<Vec<(String, String)>, Box<dyn Error>> {
    let mut pages = Vec::new();
    for entry in walkdir::WalkDir::new("shared/errors").sort_by_file_name() {
        let entry = entry?;
        let code = entry.path().file_stem().unwrap_or_default().to_string_lossy().into_owned();
        if code.starts_with("GR") {
            pages.push((code, std::fs::read_to_string(entry.path())?));
        }
    }
    Ok(pages)
}

/// The name of a shipped file, the same on every system.
fn name_of(path: &Path) -> String {
    let parts: Vec<String> = path.components().map(|part| part.as_os_str().to_string_lossy().into_owned()).collect();
    parts.join("/")
}

/// Parses and links the files, and makes the law of every place; gives the paths of the
/// boundaries beside the trees.
fn read(files: &[(String, Vec<u8>)]) -> (Vec<syntax::tree::File>, Vec<String>, Vec<Diagnostic>) {
    let mut told = Vec::new();
    let mut trees = Vec::new();
    for ((_, bytes), number) in files.iter().zip(0u32..) {
        let parsed = parse_bytes(FileId(number), bytes, Kind::Rules);
        told.extend(parsed.diagnostics);
        trees.push(parsed.tree);
    }
    let linked: Vec<Linked> = trees
        .iter()
        .zip(files)
        .zip(0u32..)
        .map(|((tree, (name, _)), number)| Linked {
            id: FileId(number),
            tree,
            folder: name.rsplit_once('/').map(|(folder, _)| folder).unwrap_or_default().into(),
        })
        .collect();
    let library = Library::link(&linked, &mut told);
    told.extend(library.lawgivers().filter_map(|place| library.law(place).err().cloned()));
    told.extend(library.without_provenance());
    let areas = library.places.all().filter_map(|(_, issuer)| {
        let boundary = issuer.boundary.as_ref()?;
        boundary.beside(&files.get(boundary.at.file.0 as usize)?.0)
    });
    let areas = areas.collect();
    (trees, areas, told)
}

fn in_words(told: &Diagnostic, files: &[(String, Vec<u8>)]) -> String {
    let (name, line) = files.get(told.at.file.0 as usize).map_or(("?", 0), |(name, bytes)| {
        let before = bytes.iter().take(told.at.span.start as usize).filter(|byte| **byte == b'\n').count();
        (name.as_str(), before + 1)
    });
    let help = told.help.as_ref().map(|help| format!(" ({help})")).unwrap_or_default();
    format!("{name}:{line}: {} {}{help}", told.code, told.message)
}
