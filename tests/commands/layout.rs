//! `layout`.

use super::{folder, run, run_with};
use serde_json::{Value, json};
use std::path::Path;

const LOOSE: &str = "place mill \"Mill\"\n office \"Mill Hall\"\n\n\n  read \"a test\" on 2026-11-24   # seen\n";
const LAID: &str = "place mill \"Mill\"\n    office \"Mill Hall\"\n\n    read \"a test\" on 2026-11-24  # seen\n";
const SHEET: &str = "place mill   run {material csst}\n";
const LAID_SHEET: &str = "place mill\nrun { material csst }\n";

fn read(folder: &Path, name: &str) -> String {
    String::from_utf8(std::fs::read(folder.join(name)).unwrap()).unwrap()
}

/// The names in a folder, hidden ones included.
fn names(folder: &Path) -> Vec<String> {
    let mut names: Vec<String> =
        std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().file_name().into_string().unwrap()).collect();
    names.sort();
    names
}

#[test]
fn files_of_a_folder_are_laid_out() {
    let folder = folder(&[("a/mill.rule", LOOSE), ("done.rule", LAID), ("one.job", SHEET), ("other.txt", LOOSE)]);
    let path = folder.path().to_str().unwrap();
    let ran = run(&["layout", path]);
    assert_eq!((ran.status, &*ran.err), (0, ""));
    assert_eq!(ran.out, format!("laid out: {path}/a/mill.rule\nlaid out: {path}/one.job\n\n3 files, 2 laid out\n"));
    assert_eq!(read(folder.path(), "a/mill.rule"), LAID);
    assert_eq!(read(folder.path(), "one.job"), LAID_SHEET);
    assert_eq!(read(folder.path(), "other.txt"), LOOSE);
    assert_eq!(names(folder.path()), ["a", "done.rule", "one.job", "other.txt"], "nothing is left beside the files");
    let ran = run(&["layout", path]);
    assert_eq!((ran.status, &*ran.out), (0, "3 files, none laid out\n"));
}

#[test]
fn dry_changes_nothing_and_says_what_would() {
    let folder = folder(&[("mill.rule", LOOSE), ("done.rule", LAID)]);
    let file = folder.path().join("mill.rule");
    let before = std::fs::metadata(&file).unwrap().modified().unwrap();
    let ran = run(&["layout", "--dry", folder.path().to_str().unwrap()]);
    assert_eq!((ran.status, &*ran.err), (15, ""));
    assert_eq!(ran.out, format!("would change: {}\n\n2 files, 1 would change\n", file.to_str().unwrap()));
    assert_eq!(read(folder.path(), "mill.rule"), LOOSE);
    assert_eq!(std::fs::metadata(&file).unwrap().modified().unwrap(), before);
    let ran = run(&["layout", "--dry", folder.path().join("done.rule").to_str().unwrap()]);
    assert_eq!((ran.status, &*ran.out), (0, "1 file, none would change\n"));
}

#[test]
fn the_shipped_rules_and_sample_jobs_are_laid_out() {
    let top = env!("CARGO_MANIFEST_DIR");
    let ran = run(&["layout", "--dry", &format!("{top}/rules"), &format!("{top}/shared/jobs")]);
    assert_eq!((ran.status, &*ran.err), (0, ""), "{}", ran.out);
}

#[test]
fn what_is_laid_out_already_is_not_written() {
    let folder = folder(&[("done.rule", LAID)]);
    let file = folder.path().join("done.rule");
    let long_ago = std::time::SystemTime::UNIX_EPOCH + std::time::Duration::from_secs(1_000_000_000);
    std::fs::File::options().write(true).open(&file).unwrap().set_modified(long_ago).unwrap();
    assert_eq!(run(&["layout", file.to_str().unwrap()]).status, 0);
    assert_eq!(std::fs::metadata(&file).unwrap().modified().unwrap(), long_ago);
}

/// The others are laid out all the same.
#[test]
fn a_file_with_an_error_is_told_and_left() {
    let bad = "place mill \"Mill\"\n  offise \"Mill Hall\"\n";
    let folder = folder(&[("bad.rule", bad), ("mill.rule", LOOSE)]);
    let path = folder.path().to_str().unwrap();
    let ran = run(&["layout", path]);
    assert_eq!(ran.status, 1);
    assert!(ran.err.contains("error GR0200 in ") && ran.err.contains("bad.rule, line 2, column 3"), "{}", ran.err);
    assert!(ran.err.contains("help: did you mean `office`?"), "{}", ran.err);
    assert!(ran.out.ends_with("\n2 files, 1 laid out, 1 refused and left as before\n"), "{}", ran.out);
    assert_eq!(read(folder.path(), "bad.rule"), bad);
    assert_eq!(read(folder.path(), "mill.rule"), LAID);
    assert_eq!(run(&["layout", "--dry", path]).status, 1);
}

#[test]
fn what_the_layout_would_change_is_told_and_left() {
    let text = "definition d\n  length over 3 furlongs\n  and hidden is yes\n";
    let folder = folder(&[("d.rule", text)]);
    let ran = run(&["layout", folder.path().to_str().unwrap()]);
    assert_eq!(ran.status, 1);
    assert!(ran.err.contains("error GR0106 in ") && ran.err.contains("d.rule, line 2, column 17"), "{}", ran.err);
    assert_eq!(read(folder.path(), "d.rule"), text);
}

#[test]
fn what_cannot_be_used() {
    let folder = folder(&[("latin.rule", ""), ("note.txt", "x"), ("empty/none.txt", "x")]);
    std::fs::write(folder.path().join("latin.rule"), b"# caf\xe9\n").unwrap();
    let at = |name: &str| folder.path().join(name).to_str().unwrap().to_owned();
    for (name, code, told) in [
        ("latin.rule", "GR0101", "not UTF-8"),
        ("note.txt", "GR0102", "neither a rule file nor a job sheet"),
        ("empty", "GR0102", "the folder holds no rule file and no job sheet"),
        ("gone.rule", "GR0102", "there is no such file"),
    ] {
        let ran = run(&["layout", &at(name)]);
        assert_eq!(ran.status, 1, "{name}");
        assert!(ran.err.contains(code) && ran.err.contains(told), "{name}: {}", ran.err);
    }
    assert_eq!(run(&["layout"]).status, 2);
    let ran = run(&["layout", "-", &at("note.txt")]);
    assert_eq!(ran.status, 2);
    assert!(ran.err.contains("stands alone"), "{}", ran.err);
}

#[test]
fn standard_input_goes_to_standard_output() {
    let ran = run_with(&["layout", "-"], LOOSE);
    assert_eq!((ran.status, &*ran.out, &*ran.err), (0, LAID, ""));
    assert_eq!(run_with(&["layout", "-"], LAID).out, LAID);
    assert_eq!(run_with(&["layout", "-"], SHEET).out, LAID_SHEET);
    let ran = run_with(&["layout", "-", "--dry"], LOOSE);
    assert_eq!((ran.status, &*ran.out), (15, "would change: standard input\n\n1 file, 1 would change\n"));
    assert_eq!(run_with(&["layout", "-", "--dry"], LAID).status, 0);
    let ran = run_with(&["layout", "-"], "place \"mill");
    assert_eq!((ran.status, &*ran.out), (1, ""));
    assert!(ran.err.contains("in standard input, line 1"), "{}", ran.err);
}

#[test]
fn line_ends_stay_and_a_byte_order_mark_goes() {
    let with = |text: &str| text.replace('\n', "\r\n");
    let folder = folder(&[("two.rule", &with(LOOSE)), ("mark.rule", &format!("\u{feff}{LAID}"))]);
    let path = folder.path().to_str().unwrap();
    assert_eq!(run(&["layout", path]).status, 0);
    assert_eq!(read(folder.path(), "two.rule"), with(LAID));
    assert_eq!(read(folder.path(), "mark.rule"), LAID);
    assert_eq!(run(&["layout", "--dry", path]).status, 0);
}

#[test]
fn for_programs() {
    let folder = folder(&[("mill.rule", LOOSE), ("done.rule", LAID), ("bad.rule", "plase")]);
    let ran = run(&["layout", "--dry", "--as", "json", folder.path().to_str().unwrap()]);
    assert_eq!(ran.status, 1);
    let at = |name: &str| folder.path().join(name).to_str().unwrap().to_owned();
    let told: Value = serde_json::from_str(&ran.out).unwrap();
    let (done, mill) = (at("done.rule"), at("mill.rule"));
    assert_eq!(told, json!([{ "file": done, "changed": false }, { "file": mill, "changed": true }]));
    let findings: Value = serde_json::from_str(&ran.err).unwrap();
    assert_eq!(findings[0]["code"], "GR0200");
}

/// A file that is named twice is one file.
#[test]
fn a_file_is_laid_out_once() {
    let folder = folder(&[("mill.rule", LOOSE)]);
    let path = folder.path().to_str().unwrap();
    let ran = run(&["layout", path, &format!("{path}/mill.rule")]);
    assert!(ran.out.ends_with("\n1 file, 1 laid out\n"), "{}", ran.out);
}

#[cfg(unix)]
mod unix {
    use super::*;
    use std::os::unix::fs::{MetadataExt, PermissionsExt, symlink};

    #[test]
    fn a_file_keeps_its_permissions_and_is_put_in_whole() {
        let folder = folder(&[("mill.rule", LOOSE)]);
        let file = folder.path().join("mill.rule");
        std::fs::set_permissions(&file, std::fs::Permissions::from_mode(0o640)).unwrap();
        let before = std::fs::metadata(&file).unwrap().ino();
        assert_eq!(run(&["layout", file.to_str().unwrap()]).status, 0);
        let about = std::fs::metadata(&file).unwrap();
        assert_eq!(about.permissions().mode() & 0o777, 0o640);
        assert_ne!(about.ino(), before, "the file was written in place, and could have been seen half written");
    }

    #[test]
    fn a_link_stays_a_link() {
        let folder = folder(&[("real/mill.rule", LOOSE)]);
        let link = folder.path().join("link.rule");
        symlink(folder.path().join("real/mill.rule"), &link).unwrap();
        assert_eq!(run(&["layout", link.to_str().unwrap()]).status, 0);
        assert!(std::fs::symlink_metadata(&link).unwrap().is_symlink());
        assert_eq!(read(folder.path(), "real/mill.rule"), LAID);
    }

    #[test]
    fn a_file_that_may_not_be_written_is_left() {
        let folder = folder(&[("mill.rule", LOOSE)]);
        let file = folder.path().join("mill.rule");
        std::fs::set_permissions(&file, std::fs::Permissions::from_mode(0o440)).unwrap();
        let ran = run(&["layout", file.to_str().unwrap()]);
        assert_eq!(ran.status, 1);
        assert!(ran.err.contains("the file cannot be written: permission is denied"), "{}", ran.err);
        assert_eq!(read(folder.path(), "mill.rule"), LOOSE);
        assert_eq!(names(folder.path()), ["mill.rule"]);
    }
}
