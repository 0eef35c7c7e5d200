//! What stands on the page of the map.

use super::asked::{Asked, OF_QUESTION, OF_SUBJECT, Show};
use super::classes::{Asking, Says, job, says};
use super::{AT, ON, SHOW, WITHIN};
use crate::atlas::Area;
use crate::glossary::Territory;
use crate::glossary::model::PlaceId;
use crate::law::places::{Issuer, IssuerKind};
use crate::report::map::{Map, Shape, letters, svg, swatch};
use crate::report::pages::frame::{Frame, Room};
use crate::report::pages::link::Link;
use crate::report::pages::problems::Told;
use crate::rules::Rules;
use crate::values::Date;
use serde::Serialize;
use std::collections::BTreeSet;

/// So many areas are drawn; of more only those that lie around others.
const DRAWN: usize = 400;

/// So many places are offered to be looked into; others are named in the link.
const OFFERED: usize = 500;

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

#[derive(Serialize)]
struct Fields {
    on: Field,
    at: Field,
    show_wrong: Option<String>,
    within_wrong: Option<String>,
    subjects: Vec<Pick>,
    questions: Vec<Pick>,
    places: Vec<Pick>,
}

#[derive(Serialize)]
struct Field {
    name: &'static str,
    value: String,
    wrong: Option<String>,
}

#[derive(Serialize)]
struct Pick {
    value: String,
    title: String,
    here: bool,
}

/// Where a point lies.
#[derive(Serialize)]
struct Found {
    latitude: f64,
    longitude: f64,
    on_border: bool,
    outside: bool,
    places: Vec<FoundPlace>,
}

#[derive(Serialize)]
struct FoundPlace {
    /// The printed names, the innermost first.
    title: String,
    rules: String,
    /// To the questions on a job there.
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
    /// Where the map leads to.
    id: String,
    title: String,
    within: String,
    letters: String,
    says: Says,
    href: String,
    drawn: bool,
}

/// A place that is not drawn.
#[derive(Serialize)]
struct Without {
    title: String,
    /// What is wrong with its boundary; nothing where it names none.
    why: Option<String>,
}

pub(super) fn view(link: &Link, rules: &Rules, asked: &Asked) -> View {
    let reader = link.reader();
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
    let mut classes: Vec<(Says, usize)> = Vec::new();
    let mut rows = Vec::new();
    let mut of_place: Vec<(PlaceId, usize)> = Vec::new();
    for (place, issuer) in &shown {
        let Some(show) = asked.show else { continue };
        let own = says(rules, *place, show, &asking, asked.on, reader);
        let same = classes.iter().position(|(class, _)| class.words == own.words && class.settled == own.settled);
        let class = same.unwrap_or(classes.len());
        match classes.get_mut(class) {
            Some((_, count)) => *count += 1,
            None => classes.push((own.clone(), 1)),
        }
        of_place.push((*place, class));
        rows.push(Row {
            id: format!("place-{}", rows.len() + 1),
            title: issuer.title.to_string(),
            within: issuer
                .parent
                .and_then(|outer| places.issuer(outer))
                .map_or_else(String::new, |outer| outer.title.to_string()),
            letters: letters(class),
            href: href(link, rules, *place, &own, asked),
            says: own,
            drawn: rules.atlas().area(*place).is_some(),
        });
    }
    let heading = heading(link, rules, asked, asking.day);
    let areas: Vec<(&Area, usize, &Row)> = of_place
        .iter()
        .zip(&rows)
        .filter_map(|((place, class), row)| Some((rules.atlas().area(*place)?, *class, row)))
        .collect();
    let drawn = svg(
        &Map {
            title: heading.clone(),
            shapes: shapes(&areas, rules),
            settled: classes.iter().map(|(class, _)| class.settled).collect(),
            point: asked.at.map(|point| (point.longitude(), point.latitude())),
        },
        reader,
    );
    let names: Vec<String> = shapes(&areas, rules).into_iter().map(|shape| shape.name).collect();
    let unnamed = drawn.iter().flat_map(|drawn| &drawn.unnamed).filter_map(|of| names.get(*of).cloned()).collect();
    View {
        frame: Frame::new(Room::Map.path(), Room::Map, link, rules.hash(), None),
        hidden: link
            .0
            .iter()
            .filter(|(name, value)| ![ON, SHOW, WITHIN, AT].contains(&&**name) && !value.is_empty())
            .cloned()
            .collect(),
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

/// The places, each behind what it lies within, neighbours by their printed names.
fn in_order(rules: &Rules) -> Vec<(PlaceId, &Issuer)> {
    let places = &rules.library().places;
    let mut known: Vec<_> = places
        .all()
        .filter(|(_, issuer)| issuer.kind == IssuerKind::Place)
        .map(|(place, issuer)| {
            let path = places.path(place);
            let names: Vec<(&str, PlaceId)> =
                path.iter().map(|outer| (places.issuer(*outer).map_or("", |outer| &outer.title), *outer)).collect();
            (names, place, issuer)
        })
        .collect();
    known.sort_by(|one, two| one.0.cmp(&two.0));
    known.into_iter().map(|(_, place, issuer)| (place, issuer)).collect()
}

/// As many levels of the places as can be shown, and how many lie deeper.
fn shallow<'r>(known: &[(PlaceId, &'r Issuer)], rules: &Rules) -> (Vec<(PlaceId, &'r Issuer)>, usize) {
    let mut depths: Vec<u32> = known.iter().map(|(_, issuer)| issuer.depth).collect();
    depths.sort_unstable();
    // The first place that is too many is of a level that is not shown, unless it is the only one.
    let most = match (depths.first(), depths.get(DRAWN)) {
        (Some(first), Some(over)) => over.saturating_sub(1).max(*first),
        _ => u32::MAX,
    };
    let mut shown: Vec<_> = known.iter().filter(|(_, issuer)| issuer.depth <= most).copied().collect();
    // Of one level alone that is too large, those with an area are taken first.
    if shown.len() > DRAWN {
        shown.sort_by_key(|(place, _)| rules.atlas().area(*place).is_none());
        shown.truncate(DRAWN);
    }
    let left_out = known.len() - shown.len();
    (shown, left_out)
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

fn rules_of(link: &Link, path: &str, asked: &Asked) -> String {
    own(link).with("on", &asked.on.to_string()).to(&format!("{}/place/{path}", Room::Rules.path()))
}

/// The link without what is asked of the map.
fn own(link: &Link) -> Link {
    Link(link.0.iter().filter(|(name, _)| ![ON, SHOW, WITHIN, AT].contains(&&**name)).cloned().collect())
}

/// The areas for drawing, those around others first.
fn shapes<'a>(areas: &[(&'a Area, usize, &Row)], rules: &Rules) -> Vec<Shape<'a>> {
    let places = &rules.library().places;
    let depth = |area: &Area| places.issuer(area.place).map_or(0, |issuer| issuer.depth);
    let mut shapes: Vec<Shape<'a>> = areas
        .iter()
        .map(|(area, class, row)| {
            let inside = |other: &&Area| other.place != area.place && places.within(other.place, area.place);
            Shape {
                area,
                within: areas.iter().map(|(other, ..)| *other).filter(inside).collect(),
                name: row.title.clone(),
                class: *class,
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
            let title = titled(&glossary[subject].title, &glossary[subject].name);
            reader.say_with("map-of-editions", &[("subject", &title), ("day", &on)])
        }
        Some(Show::Answers(question)) => {
            let title = titled(&glossary[question].title, &glossary[question].name);
            let day = day.map_or(on, |day| day.to_string());
            reader.say_with("map-of-answers", &[("question", &title), ("day", &day)])
        }
        None => reader.say("map-title"),
    }
}

fn titled(title: &str, name: &str) -> String {
    if title.is_empty() { crate::report::screen::words::spoken(name) } else { title.to_owned() }
}

fn fields(rules: &Rules, link: &Link, asked: &Asked) -> Fields {
    let glossary = &rules.library().glossary;
    let places = &rules.library().places;
    let wrong = |name: &str| asked.wrong.iter().find(|(of, _)| *of == name).map(|(_, message)| message.clone());
    let typed = |name: &str| link.get(name).unwrap_or_default().trim().to_owned();
    // A job that names its dates is not asked about another day unless the reader says so.
    let by_the_job = matches!(asked.show, Some(Show::Answers(_))) && !asked.day_named;
    let on = if wrong(ON).is_some() || by_the_job { typed(ON) } else { asked.on.to_string() };
    let subjects = glossary.subjects.iter().zip(0u16..).map(|(subject, number)| Pick {
        value: format!("{OF_SUBJECT}{}", subject.name),
        title: titled(&subject.title, &subject.name),
        here: matches!(asked.show, Some(Show::Editions(id)) if id.0 == number),
    });
    let questions = glossary.questions.iter().zip(0u16..).map(|(question, number)| Pick {
        value: format!("{OF_QUESTION}{}", question.name),
        title: titled(&question.title, &question.name),
        here: matches!(asked.show, Some(Show::Answers(id)) if id.0 == number),
    });
    // What lies around others can be looked into.
    let around: BTreeSet<PlaceId> = places.all().filter_map(|(_, issuer)| issuer.parent).collect();
    let outer = in_order(rules).into_iter().filter(|(place, _)| around.contains(place)).take(OFFERED);
    Fields {
        on: Field { name: ON, value: on, wrong: wrong(ON) },
        at: Field { name: AT, value: typed(AT), wrong: wrong(AT) },
        show_wrong: wrong(SHOW),
        within_wrong: wrong(WITHIN),
        subjects: subjects.collect(),
        questions: questions.collect(),
        places: outer
            .map(|(place, issuer)| Pick {
                value: places.path_text(place),
                title: issuer.title.to_string(),
                here: asked.within == Some(place),
            })
            .collect(),
    }
}

fn found(link: &Link, rules: &Rules, asked: &Asked) -> Option<Found> {
    let point = asked.at?;
    let places = &rules.library().places;
    let standing = rules.atlas().places_at(point, places);
    let told = standing.places.iter().map(|place| {
        let path = places.path(*place);
        let titles: Vec<&str> =
            path.iter().rev().filter_map(|outer| places.issuer(*outer)).map(|issuer| &*issuer.title).collect();
        let name = places.path_text(*place);
        FoundPlace {
            title: titles.join(", "),
            rules: rules_of(link, &name, asked),
            job: own(link).with("place", &name).to(Room::Job.path()),
        }
    });
    Some(Found {
        latitude: point.latitude(),
        longitude: point.longitude(),
        on_border: standing.on_border,
        outside: standing.outside,
        places: told.collect(),
    })
}

/// The places that cannot be drawn, and why.
fn without(rules: &Rules, shown: &[(PlaceId, &Issuer)]) -> Vec<Without> {
    let atlas = rules.atlas();
    shown
        .iter()
        .filter(|(place, _)| atlas.area(*place).is_none())
        .map(|(_, issuer)| {
            let told = issuer.boundary.as_ref().map(|boundary| {
                let wrong = atlas.wrong().iter().find(|told| told.at == boundary.at);
                wrong.map_or_else(|| format!("`{}`", boundary.file), |told| told.message.clone())
            });
            Without { title: issuer.title.to_string(), why: told }
        })
        .collect()
}
