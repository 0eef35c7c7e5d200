//! `in-force --at`: the place by a point, and boundaries beside given rule files.

use super::{folder, run};
use serde_json::Value;

const SQUARE: &str = r#"{"type":"Polygon","coordinates":[[[10,50],[11,50],[11,51],[10,51],[10,50]]]}"#;

#[test]
fn a_point_stands_for_the_place_that_holds_it() {
    for (point, path) in [
        ("0.5,1.7", vec!["tamarrow", "osier"]),
        ("0.25, 2.05", vec!["tamarrow", "merrin"]),
        ("-0.72,0.60", vec!["tamarrow", "brackwell", "pellhaven"]),
    ] {
        let ran = run(&["in-force", "--at", point, "--on", "2024-06-03", "--as", "json"]);
        assert_eq!((ran.status, ran.err.as_str()), (0, ""), "{point}");
        let answer: Value = serde_json::from_str(&ran.out).unwrap();
        assert_eq!(answer["place"], serde_json::json!(path), "{point}");
    }
    let by_name = run(&["in-force", "osier", "--on", "2024-06-03"]);
    let by_point = run(&["in-force", "--at", "0.5,1.7", "--on", "2024-06-03"]);
    assert_eq!(by_name.out, by_point.out);
}

#[test]
fn a_point_on_a_border_or_outside_is_told() {
    let border = run(&["in-force", "--at", "1.04,1.8", "--on", "2024-06-03"]);
    assert_eq!(border.status, 1);
    assert!(border.err.contains("GR0302") && border.err.contains("lies on a border"), "{}", border.err);
    assert!(border.err.contains("`tamarrow/stonecroft`, `tamarrow/garnet-hollow`"), "{}", border.err);
    let outside = run(&["in-force", "--at", "-1.9,0.1", "--on", "2024-06-03"]);
    assert_eq!(outside.status, 1);
    assert!(outside.err.contains("GR0303") && outside.err.contains("outside every area"), "{}", outside.err);
}

#[test]
fn a_point_and_a_place_exclude_each_other() {
    for arguments in [
        &["in-force", "osier", "--at", "0.5,1.7", "--on", "2024-06-03"][..],
        &["in-force", "--at", "0.5,1.7"],
        &["in-force", "--at", "91,1.7", "--on", "2024-06-03"],
        &["in-force", "--at", "here", "--on", "2024-06-03"],
        &["in-force", "--on", "2024-06-03"],
    ] {
        assert_eq!(run(arguments).status, 2, "{arguments:?}");
    }
}

#[test]
fn boundaries_lie_beside_given_rule_files() {
    let given = folder(&[(
        "more/alder.rule",
        "place alder \"Alder\"\n    boundary \"areas/alder.geojson\"\n    from memory\n",
    )]);
    let path = given.path().to_str().unwrap();
    let ask = || run(&["in-force", "--at", "50.5,10.5", "--on", "2024-06-03", "--rules", path]);
    let missing = ask();
    assert_eq!(missing.status, 1);
    assert!(missing.err.contains("GR0609") && missing.err.contains("there is no such file"), "{}", missing.err);
    assert!(missing.err.contains("alder.rule:2:"), "{}", missing.err);
    std::fs::create_dir(given.path().join("more/areas")).unwrap();
    let boundary = given.path().join("more/areas/alder.geojson");
    std::fs::write(&boundary, SQUARE).unwrap();
    let found = ask();
    assert_eq!((found.status, found.err.as_str()), (0, ""));
    assert!(found.out.contains("Alder"), "{}", found.out);
    std::fs::write(&boundary, SQUARE.replace("[11,50]", "[211,50]")).unwrap();
    let wrong = ask();
    assert_eq!(wrong.status, 1);
    assert!(wrong.err.contains("GR0612") && wrong.err.contains("position 2"), "{}", wrong.err);
    // A verdict hangs on no boundary.
    let verdict = run(&["in-force", "alder", "--on", "2024-06-03", "--rules", path]);
    assert_eq!((verdict.status, verdict.err.as_str()), (0, ""));
}

#[test]
fn proofread_tells_what_is_wrong_with_a_boundary() {
    let given = folder(&[
        (
            "alder.rule",
            "place alder \"Alder\"\n    boundary \"../alder.geojson\"\n    from memory\nplace birch \"Birch\"\n    boundary \"birch.geojson\"\n    from memory\nplace cedar \"Cedar\" within birch\n    boundary \"cedar.geojson\"\n    from memory\n",
        ),
        ("birch.geojson", SQUARE),
        ("cedar.geojson", &SQUARE.replace("[10,", "[10.5,").replace("[11,", "[11.5,")),
    ]);
    let ran = run(&["proofread", given.path().to_str().unwrap(), "--without-library"]);
    assert_eq!(ran.status, 1, "{}{}", ran.out, ran.err);
    let all = format!("{}{}", ran.out, ran.err);
    assert!(all.contains("GR0609") && all.contains("does not name a file in the folder of this rule file"), "{all}");
    assert!(
        all.contains("GR5114") && all.contains("(50.0 percent) of the area of `Cedar` lie outside `Birch`"),
        "{all}"
    );
}
