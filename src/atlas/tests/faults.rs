//! Boundaries with something wrong, and areas that do not fit each other.

use super::{atlas, square};
use crate::atlas::read;
use crate::syntax::codes::{self, Code};
use crate::syntax::diagnostic::Diagnostic;

fn polygon(rings: &str) -> String {
    format!(r#"{{"type":"Polygon","coordinates":[{rings}]}}"#)
}

fn fault(text: &str) -> (Code, String) {
    let fault = read::area(text.as_bytes()).unwrap_err();
    assert!(!fault.help.is_empty());
    (fault.code, fault.message)
}

#[test]
fn each_fault_is_told_under_its_code() {
    let cases: &[(Code, &str, &str)] = &[
        (codes::NOT_GEOJSON, "", "the file is no JSON"),
        (codes::NOT_GEOJSON, "{\n  \"type\": ,", "line 2 column 11"),
        (codes::NOT_GEOJSON, "[1, 2]", "the file is not GeoJSON"),
        (codes::NOT_GEOJSON, r#"{"type":"Area"}"#, "the file is not GeoJSON"),
        (codes::NOT_GEOJSON, r#"{"type":"Polygon"}"#, "the file is not GeoJSON"),
        (codes::COORDINATES, r#"{"type":"Polygon","coordinates":[[[0]]]}"#, "position 1"),
        (codes::NOT_GEOJSON, r#"{"type":"Polygon","coordinates":[[["0","1"]]]}"#, "the file is not GeoJSON"),
        (codes::NO_POLYGON, r#"{"type":"Point","coordinates":[1,2]}"#, "a `Point` is no area"),
        (codes::NO_POLYGON, r#"{"type":"FeatureCollection","features":[]}"#, "the file holds no polygon"),
        (codes::NO_POLYGON, r#"{"type":"Feature","properties":null,"geometry":null}"#, "a feature has no geometry"),
        (codes::NO_POLYGON, r#"{"type":"Polygon","coordinates":[]}"#, "polygon 1 has no ring"),
        (
            codes::COORDINATES,
            &polygon("[[0,0],[200,0],[1,1],[0,0]]"),
            "position 2 of the outer ring of polygon 1 is `200, 0`",
        ),
        (codes::COORDINATES, &polygon("[[0,0],[1,91],[1,1],[0,0]]"), "position 2"),
        (codes::RING, &polygon("[[0,0],[1,0],[1,1],[0,1]]"), "the outer ring of polygon 1 is not closed"),
        (codes::RING, &polygon("[[0,0],[1,0],[0,0]]"), "has 3 positions"),
        (codes::RING, &polygon("[]"), "has 0 positions"),
        (codes::RING, &polygon("[[0,0],[2,2],[2,0],[0,2],[0,0]]"), "meets itself near `1, 1`"),
        (codes::RING, &polygon("[[0,0],[2,0],[2,2],[1,0],[0,2],[0,0]]"), "meets itself near `1, 0`"),
        (codes::RING, &polygon("[[0,0],[2,0],[2,2],[2,1],[2,3],[0,3],[0,0]]"), "meets itself"),
        (
            codes::RING,
            &polygon("[[0,0],[4,0],[4,4],[0,4],[0,0]],[[1,1],[5,1],[5,2],[1,2],[1,1]]"),
            "hole 1 of polygon 1 ",
        ),
        (
            codes::RING,
            &polygon("[[0,0],[4,0],[4,4],[0,4],[0,0]],[[1,1],[2,2],[2,1],[1,2],[1,1]]"),
            "hole 1 of polygon 1",
        ),
        (codes::NO_AREA, &polygon("[[0,0],[1,1],[2,2],[0,0]]"), "the outer ring of polygon 1 encloses no area"),
        (codes::NO_AREA, &polygon("[[1,1],[1,1],[1,1],[1,1]]"), "encloses no area"),
        (
            codes::FAR_SIDE,
            &polygon("[[175,40],[-175,40],[-175,50],[175,50],[175,40]]"),
            "a side of the outer ring of polygon 1 runs from `175, 40` to `-175, 40`",
        ),
        (
            codes::NOT_GEOJSON,
            r#"{"type":"Polygon","coordinates":[],"coordinates":[[[0,0],[1,0],[1,1],[0,0]]]}"#,
            "the member `coordinates` stands twice",
        ),
        (codes::NOT_GEOJSON, "{", "the file is no JSON: EOF while parsing"),
    ];
    for (code, text, words) in cases {
        let (found, message) = fault(text);
        assert_eq!(found, *code, "{text}: {message}");
        assert!(message.contains(words), "{text}: {message}");
    }
    let two = r#"{"type":"MultiPolygon","coordinates":[[[[0,0],[2,0],[2,2],[0,2],[0,0]]],[[[1,1],[3,1],[3,3],[1,3],[1,1]]]]}"#;
    assert_eq!(fault(two), (codes::RING, "polygons 1 and 2 overlap".to_owned()));
    let across = read::area(polygon("[[175,40],[185,40],[185,50],[175,50],[175,40]]").as_bytes()).unwrap_err();
    assert!(across.help.contains("RFC 7946, 3.1.9"), "{across:?}");
    let metres = read::area(polygon("[[0,0],[5000,40],[5000,50],[0,0]]").as_bytes()).unwrap_err();
    assert!(metres.help.contains("in degrees"), "{metres:?}");
    let latin1 = read::area(b"{\"type\": \"\xe9\"}").unwrap_err();
    assert_eq!(latin1.code, codes::NOT_GEOJSON);
}

#[test]
fn what_the_standard_allows_is_read() {
    let clockwise = polygon("[[0,0],[0,1],[1,1],[1,0],[0,0]]");
    let with_heights = polygon("[[0,0,7],[1,0,7],[1,1,7],[0,0,7]]");
    let twice_the_same = polygon("[[0,0],[1,0],[1,0],[1,1],[0,0]]");
    let whole_world = polygon("[[-180,-90],[180,-90],[180,90],[-180,90],[-180,-90]]");
    let touching_hole = polygon("[[0,0],[4,0],[4,4],[0,4],[0,0]],[[0,2],[1,1],[1,3],[0,2]]");
    let cut_in_two = r#"{"type":"MultiPolygon","coordinates":[
        [[[175,40],[180,40],[180,50],[175,50],[175,40]]],[[[-180,40],[-175,40],[-175,50],[-180,50],[-180,40]]]]}"#;
    let half_around = polygon("[[-90,0],[90,0],[0,50],[-90,0]]");
    let marked = format!("\u{feff}{half_around}");
    for text in [
        clockwise,
        with_heights,
        twice_the_same,
        whole_world,
        touching_hole,
        cut_in_two.to_owned(),
        half_around,
        marked,
    ] {
        assert!(read::area(text.as_bytes()).is_ok(), "{text}: {:?}", read::area(text.as_bytes()));
    }
}

fn found(files: &[(&str, &str)]) -> Vec<Diagnostic> {
    let text = "place land \"Land\"\n    boundary \"land\"\nplace one \"One\" within land\n    boundary \"one\"\nplace two \"Two\" within land\n    boundary \"two\"\n";
    let (places, atlas) = atlas(text, files);
    atlas.wrong().iter().cloned().chain(atlas.doubts(&places)).collect()
}

#[test]
fn areas_are_held_against_each_other() {
    let land = square(0.0, 0.0, 4.0, &[]);
    let one = square(0.0, 0.0, 2.0, &[]);
    let of = |two: &str| found(&[("land", &land), ("one", &one), ("two", two)]);
    assert_eq!(of(&square(2.0, 0.0, 2.0, &[])), [], "side by side");
    assert_eq!(of(&square(1.9999, 0.0, 2.0, &[])), [], "a sliver");
    let [overlap] = &of(&square(1.0, 1.0, 2.0, &[]))[..] else { panic!() };
    assert_eq!(overlap.code, codes::AREAS_OVERLAP);
    assert!(overlap.message.contains("the areas of `Two` and `One` overlap by 12"), "{}", overlap.message);
    assert!(overlap.message.contains("km² (25.0 percent)"), "{}", overlap.message);
    let [out] = &of(&square(3.0, 2.0, 2.0, &[]))[..] else { panic!() };
    assert_eq!(out.code, codes::STICKS_OUT);
    assert!(out.message.contains("(50.0 percent) of the area of `Two` lie outside `Land`"), "{}", out.message);
}

#[test]
fn another_reference_system_is_doubtful() {
    let land = |system: &str| {
        let crs = format!(r#"{{"crs":{{"type":"name","properties":{{"name":"{system}"}}}},"#);
        let square = square(0.0, 0.0, 4.0, &[]);
        found(&[("land", &square.replacen('{', &crs, 1)), ("one", &square), ("two", &square)])
    };
    let [told, ..] = &land("urn:ogc:def:crs:EPSG::4269")[..] else { panic!() };
    assert_eq!(told.code, codes::OTHER_SYSTEM);
    assert!(told.message.contains("`land` names `urn:ogc:def:crs:EPSG::4269`"), "{}", told.message);
    for own in ["urn:ogc:def:crs:OGC:1.3:CRS84", "EPSG:4326"] {
        assert!(land(own).iter().all(|told| told.code != codes::OTHER_SYSTEM), "{own}");
    }
}

#[test]
fn a_file_that_is_not_there_is_told_where_it_is_named() {
    let land = square(0.0, 0.0, 4.0, &[]);
    let told = found(&[("land", &land), ("one", &land)]);
    assert_eq!(told[0].code, codes::BOUNDARY_FILE);
    assert_eq!(told[0].message, "the boundary `two` cannot be read: there is no such file");
    let (_, atlas) = atlas("place far \"Far\"\n    boundary \"../far.geojson\"\n", &[("../far.geojson", &land)]);
    assert_eq!(atlas.wrong()[0].code, codes::BOUNDARY_FILE);
    assert_eq!(atlas.areas().len(), 0);
}
