use super::{Map, Shape, letters, svg};
use crate::report::speech::Reader;
use crate::rules::Rules;
use geo::{Intersects, Line};

/// Every place of the invented state, each of a class of its own.
fn shapes(rules: &Rules) -> Vec<Shape<'_>> {
    let places = &rules.library().places;
    let mut shapes: Vec<Shape<'_>> = rules
        .atlas()
        .areas()
        .iter()
        .enumerate()
        .map(|(class, area)| {
            let inside = |other: &&crate::atlas::Area| {
                places.issuer(other.place).is_some_and(|issuer| issuer.parent == Some(area.place))
            };
            Shape {
                area,
                within: rules.atlas().areas().iter().filter(inside).collect(),
                name: places.issuer(area.place).unwrap().title.to_string(),
                class,
                href: "/rules?a=1&b=\"2\"".to_owned(),
                says: "<b>not a tag</b>".to_owned(),
            }
        })
        .collect();
    shapes.sort_by_key(|shape| places.issuer(shape.area.place).unwrap().depth);
    shapes
}

#[test]
fn every_place_is_named_and_no_name_stands_on_another() {
    let rules = Rules::shipped();
    let shapes = shapes(&rules);
    let count = shapes.len();
    let map = Map { title: "all".to_owned(), shapes, settled: vec![true; count], point: Some((2.0, 0.0)) };
    let drawn = svg(&map, Reader::default()).unwrap();
    assert_eq!(drawn.unnamed, Vec::<usize>::new());
    assert_eq!(drawn.labels.len(), 15);
    for (at, one) in drawn.labels.iter().enumerate() {
        for two in drawn.labels.iter().skip(at + 1) {
            assert!(!one.bounds.intersects(&two.bounds), "{one:?} {two:?}");
            let crossed = |line: Option<Line<f64>>, bounds| line.is_some_and(|line| line.intersects(bounds));
            assert!(!crossed(one.leader, &two.bounds) && !crossed(two.leader, &one.bounds), "{one:?} {two:?}");
        }
        let (min, max) = (one.bounds.min(), one.bounds.max());
        assert!(min.x >= 0.0 && max.x <= super::project::WIDE && min.y >= 0.0, "{one:?}");
    }
    assert!(drawn.labels.iter().any(|label| label.leader.is_some()), "small places have a line");
    assert!(drawn.labels.iter().filter(|label| label.leader.is_none()).count() >= 4, "large ones have none");
}

#[test]
fn no_text_becomes_a_tag() {
    let rules = Rules::shipped();
    let map = Map { title: "\"><script>".to_owned(), shapes: shapes(&rules), settled: vec![false; 15], point: None };
    let drawn = svg(&map, Reader::default()).unwrap().svg;
    assert!(!drawn.contains("<b>") && !drawn.contains("<script>"), "{drawn}");
    assert!(drawn.contains("&lt;b&gt;not a tag&lt;/b&gt;") && drawn.contains("a=1&amp;b=&quot;2&quot;"));
    assert!(!drawn.contains("style="), "no style of its own");
    assert_eq!(drawn.matches("url(#hatch-unknown)").count(), 15, "what is not settled is shown as such");
}

#[test]
fn a_map_of_nothing_is_none() {
    let map = Map { title: String::new(), shapes: Vec::new(), settled: Vec::new(), point: None };
    assert!(svg(&map, Reader::default()).is_none());
}

#[test]
fn classes_have_letters() {
    assert_eq!([0, 1, 25, 26, 27, 51, 52, 701, 702].map(letters), ["A", "B", "Z", "AA", "AB", "AZ", "BA", "ZZ", "AAA"]);
}

#[test]
fn a_path_is_as_the_area_to_a_tenth_of_a_unit() {
    let rules = Rules::shipped();
    let areas = rules.atlas().areas();
    let bounds = areas.iter().map(|area| area.bounds).max_by(|one, two| one.width().total_cmp(&two.width())).unwrap();
    let to = super::project::Projection::of(bounds);
    let mut positions = 0;
    for area in areas {
        let shape = to.shape(&area.shape);
        let rings: Vec<Vec<(f64, f64)>> = shape
            .iter()
            .flat_map(|polygon| std::iter::once(polygon.exterior()).chain(polygon.interiors()))
            .map(|ring| ring.coords().take(ring.0.len() - 1).map(|at| (at.x, at.y)).collect())
            .collect();
        let drawn = walked(&super::project::path(&shape));
        assert_eq!(drawn.len(), rings.len());
        for (drawn, ring) in drawn.iter().zip(&rings) {
            assert_eq!(drawn.len(), ring.len());
            for (one, two) in drawn.iter().zip(ring) {
                let near = (one.0 - two.0).abs() < 0.051 && (one.1 - two.1).abs() < 0.051;
                assert!(near, "{one:?} {two:?}");
                positions += 1;
            }
        }
    }
    assert!(positions > 300, "{positions}");
}

/// The positions of a path, ring by ring, read as SVG has it.
fn walked(path: &str) -> Vec<Vec<(f64, f64)>> {
    let ring = |ring: &str| {
        let (start, steps) = ring.split_once('l').unwrap();
        let figures = |text: &str| -> Vec<f64> {
            let text = text.replace('-', " -");
            text.split_whitespace().map(|figure| figure.parse().unwrap()).collect()
        };
        let start = figures(start);
        let mut at = (start[0], start[1]);
        let mut all = vec![at];
        for step in figures(steps).chunks(2) {
            at = (at.0 + step[0], at.1 + step[1]);
            all.push(at);
        }
        all
    };
    path.split('M').skip(1).map(|rest| ring(rest.strip_suffix('Z').unwrap())).collect()
}
