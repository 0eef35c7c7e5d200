//! What rests on memory says so, wherever a verdict is told.

use super::{Ran, folder, run_with};
use serde_json::Value;

const MILL: &str = r#"
code MGC "Mill Gas Code" on fuel-gas
edition MGC 2010
    read "a page" on 2026-11-24
    section 2.1 "Bond"
        direct-bond is required
    section 2.2 "How long"
        jumper-length at most 75 ft
        from memory
    section 2.3 "How large"
        jumper-size at least by table 9
    section 2.4 "Where"
        where occupancy is commercial
        attachment only rigid-pipe
        from memory
    section 2.5 "In dispute"
        refer landing "readings differ"
        from memory
    section 2.6 "The trade's way"
        clamp all of UL-467
        common practice
    table 9 "Sizes" by energizing-circuit gives jumper-size for copper
        through 20 A gives 12 AWG
        over 20 A gives 10 AWG
        from memory
place mill "Town of Mill"
    read "a test" on 2026-11-24
instrument M-1 of mill
    kind ordinance
    in force from 2012-01-01
    adopts MGC 2010
instrument M-2 of mill
    kind ordinance
    in force from 2020-01-01
    amend MGC 2010
        replace 2.1 "Bond, as the town says"
            direct-bond is required
            from memory
    section 1 "Who"
        performer only electrician
        from memory
"#;

fn asked(day: &str, occupancy: &str, more: &[&str]) -> Ran {
    let folder = folder(&[("mill.rule", MILL)]);
    let rules = folder.path().to_str().unwrap().to_owned();
    let sheet = format!(
        "place mill\napplication-date {day}\noccupancy {occupancy}\nenergizing-circuit 20 A\n\
         run {{ material csst jacket plain role distribution }}\n"
    );
    let mut all = vec!["verdict", "-", "--rules", &rules];
    all.extend(more);
    run_with(&all, sheet)
}

fn cautions(day: &str, occupancy: &str) -> Vec<String> {
    let answer: Value = serde_json::from_str(&asked(day, occupancy, &["--as", "json"]).out).unwrap();
    let all = answer["cautions"].as_array().unwrap().iter().map(|caution| caution.as_str().unwrap());
    let ending = ": written down from memory; look at the text itself";
    all.filter_map(|caution| caution.strip_suffix(ending)).map(str::to_owned).collect()
}

#[test]
fn json_names_each_text_that_governs() {
    let mut found = cautions("2013-01-01", "townhouse");
    found.sort();
    // The table gives the figure, the section that sends to it was read. A referred question rests on its text too.
    assert_eq!(found, ["MGC 2010 2.2", "MGC 2010 2.5", "MGC 2010 9"]);
    assert!(cautions("2013-01-01", "commercial").contains(&"MGC 2010 2.4".to_owned()));
    let mut found = cautions("2020-01-01", "townhouse");
    found.sort();
    assert_eq!(found, ["M-2 1", "MGC 2010 2.1 as amended by M-2", "MGC 2010 2.2", "MGC 2010 2.5", "MGC 2010 9"]);
}

#[test]
fn json_marks_each_reason() {
    let answer: Value = serde_json::from_str(&asked("2013-01-01", "townhouse", &["--as", "json"]).out).unwrap();
    assert_eq!(answer["answers"]["jumper-length"]["because"][0]["provenance"], "from-memory");
    assert_eq!(answer["answers"]["clamp"]["because"][0]["provenance"], "common-practice");
    assert_eq!(answer["answers"]["direct-bond"]["because"][0]["provenance"]["read"], "a page");
}

#[test]
fn every_page_says_so_in_one_line() {
    for more in [&[][..], &["--why"], &["--as", "plain"]] {
        let page = asked("2013-01-01", "townhouse", more).out;
        let flat = page.split_whitespace().collect::<Vec<_>>().join(" ");
        let line = "Written down from memory, look at the text itself: MGC 2010 ";
        let (_, told) = flat.split_once(line).unwrap_or_else(|| panic!("{more:?}: {page}"));
        let mut sections: Vec<&str> = told.split(". ").next().unwrap().split(", ").collect();
        sections.sort_unstable();
        assert_eq!(sections, ["2.2", "2.5", "9"], "{page}");
    }
}

/// What does not govern is not told of.
#[test]
fn nothing_is_said_where_nothing_rests_on_it() {
    let folder = folder(&[("mill.rule", &MILL.replace("        from memory\n", ""))]);
    let rules = folder.path().to_str().unwrap();
    let ran = run_with(&["verdict", "-", "--rules", rules], "place mill\napplication-date 2020-01-01\n");
    assert!(ran.out.contains("Town of Mill") && !ran.out.contains("memory"), "{}", ran.out);
}
