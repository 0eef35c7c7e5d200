//! Only the commands touch files, the clock and the environment.

use std::path::Path;

fn sources(folder: &Path, found: &mut Vec<(String, String)>) {
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            sources(&path, found);
        } else if path.extension().is_some_and(|ending| ending == "rs") {
            found.push((path.display().to_string(), std::fs::read_to_string(&path).unwrap()));
        }
    }
}

#[test]
fn files_clock_and_environment_belong_to_the_commands() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut inner = Vec::new();
    for module in ["syntax", "values", "glossary", "law", "job", "verdict", "review", "report"] {
        sources(&root.join(module), &mut inner);
    }
    assert!(inner.len() > 50, "{}", inner.len());
    for (name, text) in inner {
        // What tests do is their own business.
        if name.contains("tests") {
            continue;
        }
        let own = text.split("#[cfg(test)]").next().unwrap();
        for outside in [
            "std::fs",
            "SystemTime",
            "Instant::now",
            "std::env::",
            "std::net",
            "std::process",
            "std::io::std",
            "println!",
        ] {
            assert!(!own.contains(outside), "{name} reaches for {outside}");
        }
    }
}

#[test]
fn the_program_is_thin() {
    let main = std::fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join("src/main.rs")).unwrap();
    assert!(main.lines().count() < 60);
}
