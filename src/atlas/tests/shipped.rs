//! The areas of the invented state.

use crate::atlas::Point;
use crate::rules::Rules;
use geo::coordinate_position::{CoordPos, CoordinatePosition};
use geo::{Area, BooleanOps, CoordsIter, Winding};

#[test]
fn every_place_has_an_area_inside_that_of_the_place_around_it() {
    let rules = Rules::shipped();
    let (places, atlas) = (&rules.library().places, rules.atlas());
    assert_eq!(atlas.wrong(), []);
    assert_eq!(atlas.doubts(places), []);
    let mut seen = 0;
    for (id, issuer) in places.only_places() {
        let area = atlas.area(id).unwrap_or_else(|| panic!("{} has no area", issuer.name));
        seen += 1;
        for polygon in &area.shape {
            assert!(polygon.exterior().is_ccw(), "{}: the right-hand rule", issuer.name);
            assert!(polygon.interiors().iter().all(Winding::is_cw), "{}: the right-hand rule", issuer.name);
        }
        for coord in area.shape.coords_iter() {
            assert!((0.0..=4.0).contains(&coord.x) && (-2.0..=2.0).contains(&coord.y), "in open sea");
        }
        let Some(outer) = issuer.parent.and_then(|outer| atlas.area(outer)) else { continue };
        assert!(area.shape.difference(&outer.shape).unsigned_area() < 1e-9, "{}", issuer.name);
        for coord in area.shape.coords_iter() {
            assert_ne!(outer.shape.coordinate_position(&coord), CoordPos::Outside, "{} {coord:?}", issuer.name);
        }
        for (other, neighbour) in places.all().filter(|(other, _)| *other < id) {
            if neighbour.parent == issuer.parent
                && let Some(beside) = atlas.area(other)
            {
                let both = area.shape.intersection(&beside.shape).unsigned_area();
                assert!(both < 1e-9, "{} and {}", issuer.name, neighbour.name);
            }
        }
    }
    assert_eq!(seen, 15);
}

#[test]
fn a_point_of_the_invented_state_finds_its_place() {
    let rules = Rules::shipped();
    let places = &rules.library().places;
    let at = |latitude, longitude| {
        let found = rules.atlas().places_at(Point::new(longitude, latitude).unwrap(), places);
        found.places.iter().map(|place| places.path_text(*place)).collect::<Vec<_>>()
    };
    assert_eq!(at(0.25, 2.05), ["tamarrow/merrin"], "a city inside a county that is not of the county");
    assert_eq!(at(0.5, 1.7), ["tamarrow/osier"]);
    assert_eq!(at(-0.72, 0.60), ["tamarrow/brackwell/pellhaven"]);
    assert_eq!(at(-0.68, 0.26), ["tamarrow/brackwell/pellhaven"], "its island");
    assert_eq!(at(1.30, 1.40), ["tamarrow"]);
    assert_eq!(at(-1.9, 0.1), Vec::<String>::new());
    assert_eq!(at(1.04, 1.80), ["tamarrow/stonecroft", "tamarrow/garnet-hollow"], "their border");
}
