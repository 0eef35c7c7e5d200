//! What is said of every place.

use super::closing::{ages, ago};
use crate::report::speech::Reader;
use crate::values::Date;
use crate::{Rules, Source};

#[test]
fn the_age_of_every_place_of_the_path_is_told() {
    let text = "place outer \"Outer\"\n    read \"a test\" on 2024-01-01\nplace middle \"Middle\" within outer\n    read \"a test\" on 2026-11-01\nplace inner \"Inner\" within middle\n";
    let rules = Rules::with(vec![Source::new("places.rule", text)]);
    let places = &rules.library().places;
    let path = places.path(places.find("outer/middle/inner").unwrap());
    assert_eq!(
        ages(&path, places, Date::parse("2026-11-25").unwrap(), Reader::default()),
        "The rules of Outer were last read on 2024-01-01, 2 years ago; ask the office what came since. \
         The rules of Middle were last read on 2026-11-01, 24 days ago. \
         It is not recorded when the rules of Inner were last read."
    );
}

#[test]
fn how_long_ago() {
    let today = Date::parse("2026-11-25").unwrap();
    let ago = |text| ago(Date::parse(text).unwrap(), today, Reader::default());
    assert_eq!(ago("2026-11-25"), "today");
    assert_eq!(ago("2026-11-24"), "yesterday");
    assert_eq!(ago("2026-11-01"), "24 days ago");
    assert_eq!(ago("2025-11-25"), "12 months ago");
    assert_eq!(ago("2016-11-25"), "10 years ago");
    assert_eq!(ago("2027-01-01"), "after today by this machine's clock");
}
