//! Which files are read, and what is told of those that cannot be.

use super::{folder, run};

const PLACE: &str = "place file-town \"File Town\"\n    read \"a test\" on 2026-11-24\n";

fn asked(rules: &str) -> super::Ran {
    run(&["in-force", "file-town", "--on", "2024-01-01", "--rules", rules])
}

#[test]
fn folders_are_read_with_all_that_is_in_them() {
    let deep = folder(&[("a/b/c/town.rule", PLACE), ("notes.txt", "place broken"), ("a/.git/old.rule", "broken")]);
    let ran = asked(deep.path().to_str().unwrap());
    assert_eq!((ran.status, ran.err.as_str()), (0, ""));
    assert_eq!(asked(deep.path().join("a/b/c/town.rule").to_str().unwrap()).status, 0);
}

#[test]
fn the_same_bytes_twice_are_one_file() {
    let twice = folder(&[("a/town.rule", PLACE), ("b/town.rule", PLACE)]);
    assert_eq!(asked(twice.path().to_str().unwrap()).status, 0);
    let other = folder(&[("a/town.rule", PLACE), ("b/town.rule", &format!("{PLACE}\n"))]);
    let ran = asked(other.path().to_str().unwrap());
    assert_eq!(ran.status, 1);
    assert!(ran.err.contains("a/town.rule") && ran.err.contains("b/town.rule"), "{}", ran.err);
}

#[test]
fn a_copy_of_the_library_is_the_library() {
    let rules = format!("{}/rules", env!("CARGO_MANIFEST_DIR"));
    let with = run(&["verdict", "--as", "json", &super::data("complies.job"), "--rules", &rules]);
    let without = run(&["verdict", "--as", "json", &super::data("complies.job")]);
    let alone = run(&["verdict", "--as", "json", &super::data("complies.job"), "--rules", &rules, "--without-library"]);
    assert_eq!(with.out, without.out);
    assert_eq!(alone.out, without.out);
}

#[test]
fn what_is_not_there_or_no_rule_file() {
    let empty = folder(&[("notes.txt", "")]);
    let path = empty.path().to_str().unwrap();
    for (rules, words) in [
        (format!("{path}/none"), "there is no such file"),
        (path.to_owned(), "the folder holds no rule file"),
        (format!("{path}/notes.txt"), "rule files end in `.rule`"),
    ] {
        let ran = asked(&rules);
        assert_eq!(ran.status, 1, "{rules}");
        assert!(ran.err.contains("GR0102") && ran.err.contains(words), "{}", ran.err);
    }
    let ran = run(&["verdict", path]);
    assert!(ran.status == 1 && ran.err.contains("GR0102") && ran.err.contains("a folder stands"), "{}", ran.err);
}

#[cfg(unix)]
#[test]
fn links_are_followed_but_not_round_in_a_loop() {
    use std::os::unix::fs::symlink;
    let outside = folder(&[("town.rule", PLACE)]);
    let linked = folder(&[("readme.txt", "")]);
    symlink(outside.path(), linked.path().join("towns")).unwrap();
    assert_eq!(asked(linked.path().to_str().unwrap()).status, 0);
    symlink(linked.path(), linked.path().join("again")).unwrap();
    let ran = asked(linked.path().to_str().unwrap());
    assert_eq!(ran.status, 1);
    assert!(ran.err.contains("GR0102") && ran.err.contains("again") && ran.err.contains("lies in"), "{}", ran.err);
    let broken = folder(&[("town.rule", PLACE)]);
    symlink("/nowhere/at/all.rule", broken.path().join("gone.rule")).unwrap();
    let ran = asked(broken.path().to_str().unwrap());
    assert_eq!(ran.status, 1);
    assert!(ran.err.contains("gone.rule"), "{}", ran.err);
}

#[cfg(unix)]
#[test]
fn a_file_that_may_not_be_read() {
    use std::os::unix::fs::PermissionsExt;
    let closed = folder(&[("town.rule", PLACE)]);
    let file = closed.path().join("town.rule");
    std::fs::set_permissions(&file, std::fs::Permissions::from_mode(0o000)).unwrap();
    if std::fs::read(&file).is_ok() {
        // Who may read everything cannot be refused.
        return;
    }
    let ran = asked(closed.path().to_str().unwrap());
    assert_eq!(ran.status, 1);
    assert!(ran.err.contains("GR0102") && ran.err.contains("permission is denied"), "{}", ran.err);
}

#[test]
fn a_file_over_the_limit_is_refused_without_reading_it() {
    let large = folder(&[]);
    let path = large.path().join("large.rule");
    std::fs::File::create(&path).unwrap().set_len(50_000_000).unwrap();
    let ran = asked(large.path().to_str().unwrap());
    assert_eq!(ran.status, 1);
    assert!(
        ran.err.contains("GR0100") && ran.err.contains("large.rule") && ran.err.contains("size of a file"),
        "{}",
        ran.err
    );
    let path = large.path().join("large.json");
    std::fs::File::create(&path).unwrap().set_len(50_000_000).unwrap();
    let ran = run(&["verdict", path.to_str().unwrap()]);
    assert!(ran.status == 1 && ran.err.contains("GR0100"), "{}", ran.err);
    let ran = super::run_with(&["verdict", "-"], vec![b' '; 17_000_000]);
    assert!(ran.status == 1 && ran.err.contains("GR0100") && ran.err.contains("standard input"), "{}", ran.err);
}
