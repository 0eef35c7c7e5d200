//! The time line of invented places, and what is drawn of it.

use super::svg::drawn;
use super::{Bar, How, Marked, TimeLine, svg, time_line};
use crate::report::speech::{Language, Reader, Units};
use crate::values::Date;
use crate::{Rules, Source};

/// A place with everything that a time line can show.
const ODD: &str = r#"
place larkspur "State of Larkspur"
    read "a test" on 2026-11-01
place vale "Vale County" within larkspur
    read "a test" on 2026-11-01
instrument LK-1 of larkspur "First building rule"
    kind regulation
    in force from 2004-07-01
    adopts IFGC 2009
instrument LK-2 of larkspur "Second building rule"
    kind regulation
    in force from between 2012-03-01 and 2014-02-01
    adopts IFGC 2012
instrument LK-3 of larkspur "Third building rule"
    kind regulation
    in force from 2019-01-01
    adopts IFGC 2018
    election through 2019-09-30
instrument LK-4 of larkspur "Emergency order on product approval of tubing"
    kind emergency-rule
    in force from 2008-12-01 through unknown
    section 1 "Tubing"
        tubing-use is permitted
instrument VC-9 of vale "Ordinance 9"
    kind ordinance
    adopted 2020-02-02
    in force from unknown
    amend IFGC 2018
        replace 310.2.3 "Length"
            where direct-bond is required
            jumper-length at most 40 ft
instrument VC-10 of vale "Ordinance 10"
    kind ordinance
    in force from 2021-01-01
    section 4 "Who"
        performer only electrician
    section 5 "A permit"
        permits all of electrical
    section 6 "More"
        permits all of gas
    section 7 "More"
        permits all of building
instrument VC-11 of vale "Ordinance 11"
    kind ordinance
    in force from 2023-01-01 through 2023-12-31
    suspends VC-10
instrument VC-12 of vale "Ordinance 12"
    kind ordinance
    in force from 2025-05-01
    repeals VC-10
instrument VC-13 of vale "Ordinance <13> & more"
    kind ordinance
    status enacted
    section 1 "x"
        permits all of gas
instrument VC-B of vale "Bulletin"
    kind bulletin
    in force from 2022-05-01
    section 1 "advice"
        jumper-length at most 30 ft
"#;

fn date(text: &str) -> Date {
    Date::parse(text).unwrap()
}

fn line(rules: &Rules, place: &str, reader: Reader) -> TimeLine {
    let place = rules.library().places.find(place).unwrap();
    let marks = ["2026-11-27", "2025-09-15", "2025-10-01", "2009-01-01"].map(|day| Marked {
        on: date(day),
        label: format!("a job of {day}"),
        today: day == "2026-11-27",
    });
    time_line(rules, place, date("2025-09-15"), marks.to_vec(), reader).unwrap()
}

fn odd() -> Rules {
    let rules = Rules::with(vec![Source::new("odd.rule", ODD)]);
    assert!(rules.usable(), "{:?}", rules.problems().collect::<Vec<_>>());
    rules
}

fn bar<'l>(line: &'l TimeLine, label: &str) -> &'l Bar {
    let mut bars = line.lanes.iter().flat_map(|lane| &lane.bars);
    bars.find(|bar| bar.label == label).unwrap_or_else(|| panic!("no bar is labeled {label}"))
}

fn spans(bar: &Bar) -> Vec<String> {
    let told = |span: &super::Stretch| {
        let through = span.through.map_or_else(|| "now".to_owned(), |day| day.to_string());
        format!("{}..{through} {:?}", span.from, span.how)
    };
    bar.spans.iter().map(told).collect()
}

#[test]
fn an_edition_stands_until_a_later_one_and_may_be_elected_in_between() {
    let rules = Rules::shipped();
    let line = line(&rules, "merrin", Reader::default());
    assert_eq!(
        spans(bar(&line, "NEC 2020 by TBR-22-3")),
        ["2022-07-01..2022-12-31 Elective", "2023-01-01..2025-05-31 InForce", "2025-06-01..2025-11-30 Elective"]
    );
    assert_eq!(
        spans(bar(&line, "NEC 2023 by ME-25-3")),
        ["2025-06-01..2025-11-30 Elective", "2025-12-01..now InForce"]
    );
    let houses = bar(&line, "IRC 2021 by TBR-22-3");
    assert!(houses.scope.contains("one-or-two-family"), "{}", houses.scope);
    assert_eq!(
        line.coming.iter().map(|coming| (&*coming.instrument, coming.status)).collect::<Vec<_>>(),
        [("ME-26-9", "proposed")]
    );
}

#[test]
fn an_inner_place_has_its_own_bars() {
    let rules = Rules::shipped();
    let line = line(&rules, "osier", Reader::default());
    // The county's edition stands in spite of the state's later one.
    assert_eq!(spans(bar(&line, "IFGC 2015 by OC-17-8")), ["2017-03-01..now InForce"]);
    assert!(line.lanes.iter().flat_map(|lane| &lane.bars).all(|bar| bar.label != "IFGC 2021 by TBR-22-3"));
    // An amendment lasts as long as what it amends.
    assert_eq!(spans(bar(&line, "TR-11-4 amends IFGC 2009")), ["2011-10-01..2015-12-31 InForce"]);
}

#[test]
fn what_is_not_known_suspended_or_ended_is_told_as_such() {
    let rules = odd();
    let line = line(&rules, "vale", Reader::default());
    assert_eq!(
        spans(bar(&line, "IFGC 2009 by LK-1")),
        ["2004-07-01..2012-02-29 InForce", "2012-03-01..2014-01-31 NotKnown"]
    );
    assert_eq!(
        spans(bar(&line, "IFGC 2012 by LK-2")),
        ["2012-03-01..2014-01-31 NotKnown", "2014-02-01..2018-12-31 InForce", "2019-01-01..2019-09-30 Elective"]
    );
    assert_eq!(spans(bar(&line, "VC-9 amends IFGC 2018")), ["2020-02-02..now NotKnown"]);
    let repealed = bar(&line, "VC-10: 4, 5 and 2 more");
    assert_eq!(
        spans(repealed),
        ["2021-01-01..2022-12-31 InForce", "2023-01-01..2023-12-31 Suspended", "2024-01-01..2025-04-30 InForce"]
    );
    assert_eq!(repealed.ended_by.as_deref(), Some("VC-12"));
    assert!(bar(&line, "LK-4: 1").end_not_known);
    assert_eq!(line.coming.first().map(|coming| coming.status), Some("enacted"));
}

#[test]
fn no_text_stands_on_another_and_none_leaves_the_sheet() {
    let (shipped, odd) = (Rules::shipped(), odd());
    let cases = [&shipped; 4].into_iter().zip(["merrin", "osier", "pellhaven", "fell-bridge"]).chain([(&odd, "vale")]);
    for (rules, place) in cases {
        for language in Language::ALL {
            let reader = Reader { language, units: Units::default() };
            let drawing = drawn(&line(rules, place, reader), reader, "t");
            for (at, one) in drawing.texts.iter().enumerate() {
                assert!(one.left >= -0.5 && one.right <= 960.5, "{place} {language:?}: {one:?}");
                for other in drawing.texts.iter().skip(at + 1) {
                    let apart = one.right <= other.left
                        || other.right <= one.left
                        || one.bottom <= other.top
                        || other.bottom <= one.top;
                    assert!(apart, "{place} {language:?}: {one:?} and {other:?}");
                }
            }
        }
    }
}

#[test]
fn the_drawing_brings_nothing_that_runs_or_reaches_out() {
    let rules = odd();
    let reader = Reader::default();
    let text = svg(&line(&rules, "vale", reader), reader, "t");
    assert!(text.starts_with("<svg ") && text.trim_end().ends_with("</svg>"));
    assert!(text.contains("Ordinance &lt;13&gt; &amp; more") && !text.contains("<13>"));
    for word in ["<script", "style=", "href", "http://", "https://", "onload"] {
        let found = text.replace("http://www.w3.org/2000/svg", "").contains(word);
        assert!(!found, "{word}");
    }
    for part in ["<title id=\"t-title\">", "<desc id=\"t-desc\">", "role=\"img\"", "url(#t-elective)"] {
        assert!(text.contains(part), "{part}");
    }
    // Every bar tells itself to whoever does not see it.
    let bars = text.matches("<g class=\"bar").count();
    assert!(bars > 5 && text.matches("<title>").count() == bars);
}

#[test]
fn every_way_to_stand_is_in_the_legend_where_it_is_drawn() {
    let rules = odd();
    let reader = Reader::default();
    let line = line(&rules, "vale", reader);
    let text = svg(&line, reader, "t");
    for how in How::ALL {
        let words = super::list::how_words(how, reader);
        assert!(text.matches(&*words).count() >= 1, "{words}");
    }
}
