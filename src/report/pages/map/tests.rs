use super::{Link, page};
use crate::report::speech::Language;
use crate::rules::{Rules, Source};
use crate::values::Date;
use std::sync::LazyLock;

static SHIPPED: LazyLock<Rules> = LazyLock::new(Rules::shipped);

/// The page, its strokes as a browser reads them.
fn at(query: &str) -> String {
    let today = Date::parse("2026-11-27").unwrap();
    page(&Link::from(query), &SHIPPED, today).unwrap().replace("&#x2f;", "/")
}

#[test]
fn the_page_renders_in_both_languages() {
    for language in Language::ALL {
        let html = at(&format!("~lang={}&~show=question:direct-bond&~at=-0.72,0.60&place=osier", language.tag()));
        assert!(html.contains("<svg") && html.contains("hatch-0"), "{html}");
        assert!(!html.contains("map-") || !html.contains(">map-"), "a key that is not known");
        assert!(!html.contains(" style="), "no inline style");
    }
    assert!(at("~lang=es").contains("Ediciones vigentes sobre"));
}

#[test]
fn editions_differ_from_place_to_place() {
    let html = at("~on=2024-06-01");
    assert!(html.contains("Osier County") && html.contains("IFGC 2015"), "{html}");
    assert!(html.contains("href=\"/rules/place/tamarrow/osier?on=2024-06-01\""), "{html}");
    assert!(html.matches("class=\"swatch\"").count() >= 2, "classes that differ");
    let early = at("~on=1999-01-01");
    assert!(early.contains("no edition is known to be in force") && early.contains("url(#hatch-unknown)"), "{early}");
}

#[test]
fn answers_are_those_of_the_job_moved_there() {
    let job = "place=tamarrow&gas=natural&run=1&run[0].material=csst&run[0].jacket=plain";
    let html = at(&format!("{job}&~show=question:direct-bond&~on=2026-04-20"));
    assert!(
        html.contains("/verdict?place=tamarrow%2Fosier&amp;application-date=2026-04-20"),
        "the day goes along: {html}"
    );
    // Every place of the map leads to its row, and the row to the verdict there.
    let svg = html.split("<svg xmlns").nth(1).and_then(|rest| rest.split("</svg>").next()).unwrap();
    let rows: Vec<&str> = svg.split("href=\"#").skip(1).map(|rest| rest.split('"').next().unwrap()).collect();
    assert_eq!((rows.len(), svg.contains("verdict")), (15, false), "{svg}");
    for row in rows {
        let row = html.split(&format!("<tr id=\"{row}\">")).nth(1).unwrap_or_else(|| panic!("{row}: {html}"));
        assert!(row.split("</tr>").next().unwrap().contains("verdict?place="), "{row}");
    }
    let unknown = at("~show=question:direct-bond&~on=2026-04-20");
    assert!(unknown.contains("not settled"), "of a job of which nothing is known");
}

#[test]
fn a_point_finds_its_place() {
    assert!(at("~at=-0.72,+0.60").contains("City of Pellhaven, Brackwell County, State of Tamarrow"));
    assert!(at("~at=-1.9,0.1").contains("lies outside every area"));
    let border = at("~at=1.04,1.80");
    assert!(border.contains("lies on a border"), "{border}");
    assert!(border.contains("Town of Stonecroft, State") && border.contains("Garnet Hollow Township, State"));
}

#[test]
fn what_cannot_be_read_is_told_at_its_field() {
    let html = at("~on=2026-02-30&~at=x&~show=question:nothing&~within=ossier");
    for id in ["map-on-wrong", "map-at-wrong", "map-show-wrong", "map-within-wrong"] {
        assert!(html.contains(&format!("id=\"{id}\"")), "{id}");
    }
    assert!(html.contains("value=\"2026-02-30\"") && html.contains("Perhaps you mean osier"), "{html}");
}

#[test]
fn within_shows_a_part() {
    let html = at("~within=brackwell");
    assert!(html.contains("City of Pellhaven") && !html.contains("Hazelmoor County: "), "{html}");
}

#[test]
fn a_place_without_a_boundary_is_listed() {
    let text = "place tiny \"Tiny <b>\" within tamarrow\nplace far \"Far\"\n    boundary \"../far.geojson\"\n";
    let rules = Rules::with(vec![Source::new("more.rule", text)]);
    let html = page(&Link::default(), &rules, Date::parse("2026-11-27").unwrap()).unwrap();
    assert!(html.contains("Tiny &lt;b&gt;") && !html.contains("Tiny <b>"));
    assert!(html.contains("does not name a file in the folder of this rule file"), "{html}");
}

#[test]
fn a_job_keeps_the_dates_that_it_names() {
    let job = "place=tamarrow&application-date=2012-03-01&gas=natural&~show=question:direct-bond";
    let own = at(job);
    assert!(own.contains("in each place, 2012-03-01"), "{own}");
    assert!(!own.contains("the job cannot be read there") && !own.contains("class=\"wrong\""), "{own}");
    // A day that contradicts it is told.
    assert!(at(&format!("{job}&~on=2011-01-01")).contains("class=\"wrong\""));
}

#[test]
fn the_page_is_light_even_with_a_long_job_in_its_links() {
    let job = format!("place=tamarrow&application-date=2026-04-20&reference={}", "x".repeat(900));
    let html = at(&format!("{job}&~show=question:direct-bond"));
    assert!(html.len() < 60_000, "{} bytes", html.len());
}
