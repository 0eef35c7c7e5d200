//! What stands on the page of the map.

use super::asked::{Asked, Show};
use super::classes::{Asking, Says, job, says};
use super::form::{Fields, fields};
use super::places::{Found, Without, found, in_order, own, rules_of, shallow, without};
use crate::atlas::Area;
use crate::glossary::Territory;
use crate::glossary::model::PlaceId;
use crate::law::places::Issuer;
use crate::report::map::{Map, Shape, letters, svg, swatch};
use crate::report::pages::frame::{Frame, Room};
use crate::report::pages::link::Link;
use crate::report::pages::problems::Told;
use crate::report::screen::words::spoken_title;
use crate::rules::Rules;
use crate::values::Date;
use serde::Serialize;

#[derive(Serialize)]
pub(super) struct View {
    frame: Frame,
    /// The job and the reader, which go with the form.
    hidden: Vec<(String, String)>,
    fields: Fields,
    wrong: Vec<Told>,
    /// What the map shows, in words.
    heading: String,
    /// What kind of thing the classes are: editions or answers.
    of_answers: bool,
    found: Option<Found>,
    svg: Option<String>,
    legend: Vec<Class>,
    rows: Vec<Row>,
    /// Names for which the map had no room.
    unnamed: Vec<String>,
    without: Vec<Without>,
    /// How many places lie too deep to be drawn.
    left_out: usize,
    /// To the page on the job, where answers are shown.
    job: String,
}

/// An entry of the legend.
#[derive(Serialize)]
struct Class {
    letters: String,
    /// SVG of this program alone.
    swatch: String,
    words: String,
    open: bool,
    count: usize,
}

/// A place of the table.
#[derive(Serialize)]
struct Row {
    #[serde(skip)]
    place: PlaceId,
    #[serde(skip)]
    class: usize,
    /// Where the map leads to.
    id: String,
    title: String,
    within: String,
    letters: String,
    says: Says,
    href: String,
    drawn: bool,
}

pub(super) fn view(link: &Link, rules: &Rules, asked: &Asked) -> View {
    let places = &rules.library().places;
    let known: Vec<(PlaceId, &Issuer)> = in_order(rules)
        .into_iter()
        .filter(|(place, _)| asked.within.is_none_or(|outer| places.within(*place, outer)))
        .collect();
    let home = known.iter().map(|(place, _)| *place).next();
    let asking = match asked.show {
        Some(Show::Answers(_)) => job(link, rules, home, asked),
        _ => Asking::none(),
    };
    let (shown, left_out) = shallow(&known, rules);
    let (rows, classes) = asked.show.map(|show| table(link, rules, asked, show, &asking, &shown)).unwrap_or_default();
    let heading = heading(link, rules, asked, asking.day);
    let map = Map {
        title: heading.clone(),
        shapes: shapes(&rows, rules),
        settled: classes.iter().map(|(class, _)| class.settled).collect(),
        point: asked.at.map(|point| (point.longitude(), point.latitude())),
    };
    let drawn = svg(&map, link.reader());
    let unnamed = drawn.iter().flat_map(|drawn| &drawn.unnamed).filter_map(|of| map.shapes.get(*of));
    let unnamed = unnamed.map(|shape| shape.name.clone()).collect();
    View {
        frame: Frame::new(Room::Map.path(), Room::Map, link, rules.hash(), None),
        hidden: own(link).0.into_iter().filter(|(_, value)| !value.is_empty()).collect(),
        fields: fields(rules, link, asked),
        wrong: asking.wrong,
        heading,
        of_answers: matches!(asked.show, Some(Show::Answers(_))),
        found: found(link, rules, asked),
        svg: drawn.map(|drawn| drawn.svg),
        legend: classes
            .into_iter()
            .enumerate()
            .map(|(class, (own, count))| Class {
                letters: letters(class),
                swatch: swatch(class, own.settled),
                words: own.words,
                open: own.open,
                count,
            })
            .collect(),
        rows,
        unnamed,
        without: without(rules, &shown),
        left_out,
        job: link.to(Room::Job.path()),
    }
}

/// What every place says, and the classes of those that say the same, each with how many
/// there are.
fn table(
    link: &Link,
    rules: &Rules,
    asked: &Asked,
    show: Show,
    asking: &Asking,
    shown: &[(PlaceId, &Issuer)],
) -> (Vec<Row>, Vec<(Says, usize)>) {
    let places = &rules.library().places;
    let mut classes: Vec<(Says, usize)> = Vec::new();
    let mut row = |(at, (place, issuer)): (usize, &(PlaceId, &Issuer))| {
        let own = says(rules, *place, show, asking, asked.on, link.reader());
        let same = classes.iter().position(|(class, _)| class.words == own.words && class.settled == own.settled);
        let class = same.unwrap_or(classes.len());
        match classes.get_mut(class) {
            Some((_, count)) => *count += 1,
            None => classes.push((own.clone(), 1)),
        }
        let outer = issuer.parent.and_then(|outer| places.issuer(outer));
        Row {
            place: *place,
            class,
            id: format!("place-{}", at + 1),
            title: issuer.title.to_string(),
            within: outer.map_or_else(String::new, |outer| outer.title.to_string()),
            letters: letters(class),
            href: href(link, rules, *place, &own, asked),
            says: own,
            drawn: rules.atlas().area(*place).is_some(),
        }
    };
    let rows = shown.iter().enumerate().map(&mut row).collect();
    (rows, classes)
}

/// Where a click on a place leads: to the verdict on the job as it was asked about there, or
/// to the rules of the place.
fn href(link: &Link, rules: &Rules, place: PlaceId, own: &Says, asked: &Asked) -> String {
    if own.job.is_empty() {
        return rules_of(link, &rules.library().places.path_text(place), asked);
    }
    let mut there = link.bare();
    there.0.extend(own.job.iter().cloned());
    there.to(Room::Verdict.path())
}

/// The areas for drawing, those around others first.
fn shapes<'r>(rows: &[Row], rules: &'r Rules) -> Vec<Shape<'r>> {
    let places = &rules.library().places;
    let areas: Vec<(&Area, &Row)> = rows.iter().filter_map(|row| Some((rules.atlas().area(row.place)?, row))).collect();
    let depth = |area: &Area| places.issuer(area.place).map_or(0, |issuer| issuer.depth);
    let mut shapes: Vec<Shape<'r>> = areas
        .iter()
        .map(|(area, row)| {
            let inside = |other: &&Area| other.place != area.place && places.within(other.place, area.place);
            Shape {
                area,
                within: areas.iter().map(|(other, _)| *other).filter(inside).collect(),
                name: row.title.clone(),
                class: row.class,
                // Only the row carries the job: so many links would outweigh the map.
                href: format!("#{}", row.id),
                says: format!("{}: {} ({})", row.title, row.says.words, row.letters),
            }
        })
        .collect();
    shapes.sort_by_key(|shape| depth(shape.area));
    shapes
}

fn heading(link: &Link, rules: &Rules, asked: &Asked, day: Option<Date>) -> String {
    let reader = link.reader();
    let glossary = &rules.library().glossary;
    let on = asked.on.to_string();
    match asked.show {
        Some(Show::Editions(subject)) => {
            let title = spoken_title(&glossary[subject].title, &glossary[subject].name);
            reader.say_with("map-of-editions", &[("subject", &title), ("day", &on)])
        }
        Some(Show::Answers(question)) => {
            let title = spoken_title(&glossary[question].title, &glossary[question].name);
            let day = day.map_or(on, |day| day.to_string());
            reader.say_with("map-of-answers", &[("question", &title), ("day", &day)])
        }
        None => reader.say("map-title"),
    }
}
