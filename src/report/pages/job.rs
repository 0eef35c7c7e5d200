//! The job page: the questions that can still change an answer, in the order in
//! which the reader can know them, with the verdict beside them.

use super::frame::{Frame, Room};
use super::link::{LANGUAGE, Link, UNITS};
use super::problems::Told;
use crate::glossary::model::GroupId;
use crate::interview::link::{counted, typed};
use crate::interview::{Form, Mark, Pick, Said, Step, Topic};
use crate::report::screen::words::{spoken, spoken_title};
use crate::report::sheet::Sheet;
use crate::report::sheet::answers::question_title;
use crate::report::speech::Reader;
use crate::report::speech::template::render;
use crate::verdict::Lexicon;
use crate::verdict::model::Answered;
use crate::verdict::paths::Path;
use minijinja::Error;
use serde::Serialize;

/// One question with its form.
#[derive(Serialize)]
struct Field {
    /// As a job writes it, which is also its name in the form.
    path: String,
    /// The same, fit to be the id of an element.
    id: String,
    label: String,
    prompt: String,
    /// `choice`, `several`, `date`, `text` or `list`.
    form: &'static str,
    picks: Vec<Offer>,
    /// What is said now, or was typed and could not be read.
    value: String,
    /// Whether a set is said to be empty.
    none: bool,
    /// An example of what is typed, or the unit.
    hint: String,
    /// The titles of the questions that it could change.
    changes: Vec<String>,
    /// Whether it can still change an answer and is not said.
    asked: bool,
    wrong: Option<Told>,
    /// The entries of a list.
    entries: Vec<Part>,
}

/// One answer to choose.
#[derive(Serialize)]
struct Offer {
    name: String,
    title: String,
    here: bool,
}

/// The questions of one stage, or of one entry of a list.
#[derive(Serialize)]
struct Part {
    title: String,
    fields: Vec<Field>,
}

/// What the page on a job is made of.
pub(crate) struct Desk<'a, 's> {
    pub(crate) steps: &'s [Step<'a>],
    pub(crate) lexicon: &'s Lexicon<'a>,
    pub(crate) answers: &'s [Answered<'a>],
    pub(crate) sheet: &'s Sheet,
}

#[derive(Serialize)]
struct View<'v> {
    frame: Frame,
    /// Names of the tool that go with the form.
    hidden: Vec<(&'static str, String)>,
    place: Field,
    places: Vec<(String, String)>,
    reference: String,
    parts: Vec<Part>,
    sheet: Option<&'v Sheet>,
    wrong: &'v [Told],
    verdict: String,
    samples: Vec<(String, String)>,
    pasted: &'v str,
}

/// The page on a job, as far as it is known. `places` are all places by their path,
/// with their printed names; `samples` are jobs to begin with, each with its link; `pasted` is
/// a job that could not be opened, which stays to be mended.
///
/// # Errors
/// Where the template does not fit, which a test would show.
pub(crate) fn page(
    desk: Option<&Desk<'_, '_>>,
    wrong: &[Told],
    link: &Link,
    library: &str,
    places: Vec<(String, String)>,
    samples: Vec<(String, String)>,
    pasted: &str,
) -> Result<String, Error> {
    let reader = link.reader();
    let sheet = desk.map(|desk| desk.sheet);
    let cautions = sheet.map(|sheet| sheet.standing.clone());
    let hidden = [(LANGUAGE, reader.language.tag()), (UNITS, reader.units.name())];
    let place = Field {
        path: "place".to_owned(),
        id: "place".to_owned(),
        label: reader.say("pages-place"),
        prompt: reader.say("pages-place-ask"),
        form: "text",
        picks: Vec::new(),
        value: link.get("place").unwrap_or_default().to_owned(),
        none: false,
        hint: String::new(),
        changes: Vec::new(),
        asked: false,
        wrong: wrong.iter().find(|told| told.path == "place").cloned(),
        entries: Vec::new(),
    };
    let view = View {
        frame: Frame::new(Room::Job.path(), Room::Job, link, library, cautions),
        hidden: hidden.into_iter().map(|(name, value)| (name, value.to_owned())).collect(),
        place,
        places,
        reference: link.get("reference").unwrap_or_default().to_owned(),
        parts: desk.map(|desk| parts(desk, wrong, link, reader)).unwrap_or_default(),
        sheet,
        wrong,
        verdict: link.to(Room::Verdict.path()),
        samples,
        pasted,
    };
    render("job.html", view, reader)
}

/// The steps by who knows them and when; the entries of a list stand with it, whoever
/// knows what of them.
fn parts(desk: &Desk<'_, '_>, wrong: &[Told], link: &Link, reader: Reader) -> Vec<Part> {
    let mut parts: Vec<Part> = Vec::new();
    for step in desk.steps.iter().filter(|step| step.topic != Topic::Place) {
        let field = field(step, desk, wrong, link, reader);
        if let Some((list, number)) = step.entry {
            let whole = step.path.split('[').next().unwrap_or_default();
            let list_of = parts.iter_mut().flat_map(|part| &mut part.fields).find(|field| field.path == whole);
            if let Some(whole) = list_of {
                add(&mut whole.entries, format!("{list} {number}"), field);
                continue;
            }
        }
        let title = match (step.part.who, step.part.when) {
            (Some(who), Some(when)) => {
                reader.say_with("pages-part", &[("who", &*reader.who(who)), ("when", &*reader.stage(when))])
            }
            (Some(who), None) => reader.who(who),
            _ => reader.say("pages-part-any"),
        };
        // A list that is asked for further entries stands there already.
        if parts.iter().flat_map(|part| &part.fields).all(|known| known.path != field.path) {
            add(&mut parts, title, field);
        }
    }
    parts
}

fn add(parts: &mut Vec<Part>, title: String, field: Field) {
    match parts.iter_mut().find(|part| part.title == title) {
        Some(part) => part.fields.push(field),
        None => parts.push(Part { title, fields: vec![field] }),
    }
}

fn field(step: &Step<'_>, desk: &Desk<'_, '_>, wrong: &[Told], link: &Link, reader: Reader) -> Field {
    let wrong = wrong.iter().find(|told| told.path == step.path).cloned();
    let path = match step.topic {
        Topic::Fact(Path::Further(GroupId(group))) => {
            desk.lexicon.group(GroupId(group)).map_or_else(String::new, |group| group.name.to_string())
        }
        _ => step.path.clone(),
    };
    // What could not be read stays as it was typed.
    let mut value = match &wrong {
        Some(told) => told.typed.clone(),
        None => said(step, desk).unwrap_or_default(),
    };
    let (form, picks, hint) = asked_as(&step.form, &value, reader);
    if value.is_empty() && wrong.is_none() && form == "list" {
        value = link.get(&path).unwrap_or_default().to_owned();
    }
    Field {
        id: path.replace(['[', ']', '.'], "-"),
        label: spoken_title(step.title, &path),
        prompt: step.prompt.to_owned(),
        form,
        none: value == "none",
        picks,
        value,
        hint,
        changes: step.changes.iter().map(|change| question_title(&change.question.name, desk.answers)).collect(),
        asked: step.mark == Mark::Asked,
        wrong,
        entries: Vec::new(),
        path,
    }
}

/// What is said of a step, as a person would type it.
fn said(step: &Step<'_>, desk: &Desk<'_, '_>) -> Option<String> {
    match (&step.said, step.topic.field()) {
        (Said::Value(given), Some(field)) => typed(given, field, desk.lexicon),
        (Said::Entries { known, more }, _) => Some(counted(*known, *more)),
        _ => None,
    }
}

/// How a page asks for an answer: the kind of its field, what there is to choose, of that what
/// `value` names, and a hint on what is typed.
fn asked_as(form: &Form<'_>, value: &str, reader: Reader) -> (&'static str, Vec<Offer>, String) {
    let several: Vec<&str> = value.split(", ").collect();
    let offer = |name: &str, title: String| Offer { name: name.to_owned(), title, here: several.contains(&name) };
    let all = |picks: &[Pick<'_>]| -> Vec<Offer> {
        let titled = picks.iter().map(|pick| {
            let name = spoken(pick.name);
            offer(pick.name, if pick.title.is_empty() { name } else { format!("{name} – {}", pick.title) })
        });
        titled.collect()
    };
    let typed = |hint: String| ("text", Vec::new(), hint);
    match form {
        Form::YesNo => {
            ("choice", vec![offer("yes", reader.say("value-yes")), offer("no", reader.say("value-no"))], String::new())
        }
        Form::Choice(picks) | Form::Code(picks) => ("choice", all(picks), String::new()),
        Form::Several(picks) => ("several", all(picks), String::new()),
        Form::Name(picks) => ("text", all(picks), reader.say("pages-hint-name")),
        Form::Date => ("date", Vec::new(), String::new()),
        Form::Count => typed(reader.say("pages-hint-count")),
        Form::Gauge => typed(reader.say("pages-hint-gauge")),
        Form::Quantity(unit) => typed(reader.say_with("pages-hint-unit", &[("unit", unit.name)])),
        Form::Entries { .. } => ("list", Vec::new(), reader.say("pages-hint-list")),
        Form::Place => typed(String::new()),
    }
}
