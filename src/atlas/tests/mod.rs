mod faults;
mod shipped;
mod winding;

use super::{Atlas, BoundaryFile, Point, Standing};
use crate::law::places::Places;
use crate::syntax::diagnostic::FileId;
use crate::syntax::{Kind, parse};
use std::borrow::Cow;

/// Places in the language, and the area of each by its name.
fn atlas(text: &str, files: &[(&str, &str)]) -> (Places, Atlas) {
    let parsed = parse(FileId(0), text, Kind::Rules);
    let mut told = parsed.diagnostics.clone();
    let places = Places::build(&[(FileId(0), &parsed.tree)], vec![Box::default()], &mut told);
    assert!(told.is_empty(), "{told:#?}");
    let atlas = Atlas::read(&places, |place| {
        let named = places.issuer(place).unwrap().boundary.as_ref().unwrap();
        match files.iter().find(|(name, _)| **name == *named.file) {
            Some((_, text)) => BoundaryFile::Bytes(Cow::Borrowed(text.as_bytes())),
            None => BoundaryFile::Unreadable("there is no such file"),
        }
    });
    (places, atlas)
}

/// A square as GeoJSON, with holes.
fn square(west: f64, south: f64, width: f64, holes: &[(f64, f64, f64)]) -> String {
    let ring = |(west, south, width): (f64, f64, f64)| {
        let (east, north) = (west + width, south + width);
        format!("[[{west},{south}],[{east},{south}],[{east},{north}],[{west},{north}],[{west},{south}]]")
    };
    let rings: Vec<String> = std::iter::once((west, south, width)).chain(holes.iter().copied()).map(ring).collect();
    format!(r#"{{"type":"Polygon","coordinates":[{}]}}"#, rings.join(","))
}

const COUNTIES: &str = r#"
place land "Land"
    boundary "land.geojson"
place east "East" within land
    boundary "east.geojson"
place west "West" within land
    boundary "west.geojson"
place town "Town" within east
    boundary "town.geojson"
place island "Island" within land
    boundary "island.geojson"
"#;

/// A land of 4 by 4 degrees in whose south lie two counties, with a town in the one, and
/// in whose north lies an island of no county inside a lake of no place.
fn counties() -> (Places, Atlas) {
    let files = [
        ("land.geojson", square(0.0, 0.0, 4.0, &[(1.0, 2.5, 1.0)])),
        ("west.geojson", square(0.0, 0.0, 2.0, &[])),
        ("east.geojson", square(2.0, 0.0, 2.0, &[])),
        ("town.geojson", square(2.0, 0.5, 0.5, &[])),
        ("island.geojson", square(1.25, 2.75, 0.5, &[])),
    ];
    let files: Vec<(&str, &str)> = files.iter().map(|(name, text)| (*name, text.as_str())).collect();
    atlas(COUNTIES, &files)
}

fn at(longitude: f64, latitude: f64) -> (Vec<String>, bool, bool) {
    let (places, atlas) = counties();
    assert_eq!(atlas.wrong(), []);
    let point = Point::new(longitude, latitude).unwrap();
    let Standing { places: found, on_border, outside } = atlas.places_at(point, &places);
    let mut paths: Vec<String> = found.iter().map(|place| places.path_text(*place)).collect();
    paths.sort();
    (paths, on_border, outside)
}

fn names(of: &[&str]) -> Vec<String> {
    of.iter().map(ToString::to_string).collect()
}

#[test]
fn the_innermost_place_is_told() {
    assert_eq!(at(2.25, 0.75), (names(&["land/east/town"]), false, false));
    assert_eq!(at(3.0, 1.0), (names(&["land/east"]), false, false));
    assert_eq!(at(3.0, 3.0), (names(&["land"]), false, false));
    assert_eq!(at(1.5, 3.0), (names(&["land/island"]), false, false), "an area in a hole of what it lies within");
    assert_eq!(at(1.1, 3.0), (vec![], false, true), "a hole");
    assert_eq!(at(5.0, 1.0), (vec![], false, true));
}

#[test]
fn a_border_belongs_to_both_sides() {
    assert_eq!(at(2.0, 1.5), (names(&["land/east", "land/west"]), true, false), "and not to what lies around both");
    assert_eq!(at(2.0, 0.75), (names(&["land/east/town", "land/west"]), true, false));
    assert_eq!(at(2.25, 1.0), (names(&["land/east", "land/east/town"]), true, false));
    assert_eq!(at(2.0, 2.0), (names(&["land", "land/east", "land/west"]), true, false), "a corner");
    assert_eq!(at(2.0, 1.0), (names(&["land/east", "land/east/town", "land/west"]), true, false));
    assert_eq!(at(0.0, 3.0), (names(&["land"]), true, true), "a coast");
    assert_eq!(at(0.0, 0.0), (names(&["land/west"]), true, true));
    assert_eq!(at(1.25, 3.0), (names(&["land/island"]), true, true), "a shore in a hole");
    assert_eq!(at(1.0, 3.0), (names(&["land"]), true, true), "the hole's own border");
}

#[test]
fn an_area_that_is_cut_at_the_edge_of_the_map_has_no_border_there() {
    let far = r#"{"type":"MultiPolygon","coordinates":[
        [[[175,40],[180,40],[180,50],[175,50],[175,40]]],[[[-180,40],[-175,40],[-175,50],[-180,50],[-180,40]]]]}"#;
    let east = r#"{"type":"Polygon","coordinates":[[[-180,50],[-175,50],[-175,60],[-180,60],[-180,50]]]}"#;
    let text = "place far \"Far\"\n    boundary \"far\"\nplace east \"East\"\n    boundary \"east\"\n";
    let (places, atlas) = atlas(text, &[("far", far), ("east", east)]);
    assert_eq!(atlas.wrong(), []);
    let at = |longitude: f64, latitude: f64| {
        let standing = atlas.places_at(Point::new(longitude, latitude).unwrap(), &places);
        let found: Vec<String> = standing.places.iter().map(|place| places.path_text(*place)).collect();
        (found, standing.on_border, standing.outside)
    };
    for longitude in [180.0, -180.0] {
        assert_eq!(at(longitude, 45.0), (names(&["far"]), false, false), "{longitude}");
        assert_eq!(at(longitude, 40.0), (names(&["far"]), true, true), "{longitude}");
        assert_eq!(at(longitude, 50.0), (names(&["far", "east"]), true, true), "{longitude}");
        assert_eq!(at(longitude, 55.0), (names(&["east"]), true, true), "{longitude}");
        assert_eq!(at(longitude, 65.0), (vec![], false, true), "{longitude}");
    }
    assert_eq!(at(179.0, 45.0), (names(&["far"]), false, false));
    assert_eq!(at(0.0, 45.0), (vec![], false, true));
}

#[test]
fn a_point_is_written_as_people_write_it() {
    let point = |text| Point::parse(text).map(|point| (point.latitude(), point.longitude()));
    assert_eq!(point("-0.5, 1.25"), Some((-0.5, 1.25)));
    assert_eq!(point(" 90,-180 "), Some((90.0, -180.0)));
    for bad in ["", "1", "1;2", "91,0", "0,181", "1,2,3", "nan,0", "inf,0", "1e1,0", "one,two", "1, ", "0x1,1", "--1,0"]
    {
        assert_eq!(point(bad), None, "{bad}");
    }
}

#[test]
fn forty_thousand_areas_are_asked_quickly() {
    let (places, atlas) = {
        let mut text = String::new();
        let mut files = Vec::new();
        for number in 0..40_000 {
            let name = format!("p{number}");
            text.push_str(&format!("place {name} \"P {number}\"\n    boundary \"{name}\"\n"));
            let (x, y) = (f64::from(number % 200), f64::from(number / 200));
            files.push((name, square(x / 2.0, y / 4.0, 0.2, &[])));
        }
        let parsed = parse(FileId(0), &text, Kind::Rules);
        let mut told = Vec::new();
        let places = Places::build(&[(FileId(0), &parsed.tree)], vec![Box::default()], &mut told);
        let atlas =
            Atlas::read(&places, |place| BoundaryFile::Bytes(Cow::Borrowed(files[place.0 as usize].1.as_bytes())));
        (places, atlas)
    };
    assert_eq!(atlas.areas().len(), 40_000);
    let began = std::time::Instant::now();
    for number in 0..1_000 {
        let (x, y) = (f64::from(number % 200), f64::from(number / 200));
        let found = atlas.places_at(Point::new(x / 2.0 + 0.1, y / 4.0 + 0.1).unwrap(), &places);
        assert_eq!(found.places.len(), 1);
    }
    // Some tens of microseconds each in a release, and many times that here.
    assert!(began.elapsed().as_secs() < 20, "{:?}", began.elapsed());
}
