//! Gathers what stood when.

use super::bars::Days;
use super::{Bar, Coming, How, Lane, Marked, TimeLine};
use crate::glossary::model::PlaceId;
use crate::law::instrument::{Amend, End, Instrument, InstrumentId, Start, Target, Weight};
use crate::report::in_force::{Inquest, NoInquest, Standing, edition, inquire, power_in_words};
use crate::report::screen::words::spoken_title;
use crate::report::speech::Reader;
use crate::rules::Rules;
use crate::values::Date;
use crate::verdict::{Look, Scratch, unsettled};
use std::collections::BTreeMap;

/// The time line of a place, with days that are marked.
///
/// # Errors
/// Where no job can be of the marked day, or the law of the place cannot be made.
pub(crate) fn time_line(
    rules: &Rules,
    place: PlaceId,
    on: Date,
    mut marks: Vec<Marked>,
    reader: Reader,
) -> Result<TimeLine, NoInquest> {
    marks.sort_by_key(|mark| (mark.on, !mark.today));
    inquire(rules, place, on, |inquest| whole(rules, place, inquest, marks, reader))
}

/// An edition on one subject by one instrument: the places of subject and code in their orders,
/// code, year, instrument and issuer.
type Edition = (usize, String, i32, String, String);

/// Everything that is looked at on each of the days.
#[derive(Default)]
struct Seen {
    /// By the number of the day.
    editions: BTreeMap<Edition, Vec<(usize, How, String)>>,
    instruments: BTreeMap<InstrumentId, Vec<(usize, Standing, Option<String>)>>,
    /// The editions on each of the days, by name.
    names: Vec<Vec<String>>,
}

fn whole(rules: &Rules, place: PlaceId, inquest: &Inquest<'_>, marks: Vec<Marked>, reader: Reader) -> TimeLine {
    let library = rules.library();
    let issuers: Vec<_> = library.places.path(place).iter().filter_map(|place| library.places.issuer(*place)).collect();
    let instruments = inquest.instruments();
    let days = Days::new(days(inquest, &instruments));
    let mut seen = Seen::default();
    for (number, day) in days.iter().enumerate() {
        let looked = inquire(rules, place, day, |there| look(there, number, &mut seen));
        // A day on which no job can be says nothing.
        if looked.is_err() {
            seen.names.push(Vec::new());
        }
    }
    let mut lanes = editions(rules, &days, &seen, &instruments, reader);
    lanes.push(transitions(rules, &instruments, reader));
    lanes.push(own_law(rules, inquest, &days, &seen, &instruments, reader));
    lanes.push(advice(rules, &days, &seen, &instruments, reader));
    lanes.retain(|lane| !lane.bars.is_empty());
    TimeLine {
        place: issuers.iter().map(|issuer| issuer.name.to_string()).collect(),
        title: issuers.iter().rev().map(|issuer| &*issuer.title).collect::<Vec<_>>().join(", "),
        lanes,
        coming: instruments.iter().filter_map(|(_, own)| coming(rules, own, reader)).collect(),
        marks,
    }
}

/// Every day on which something may change.
fn days(inquest: &Inquest<'_>, instruments: &[(InstrumentId, &Instrument)]) -> Vec<Date> {
    let mut days: Vec<Date> = inquest.matter.plan.days.clone();
    for (_, own) in instruments {
        days.extend(own.adopted);
        if let Some(force) = own.force {
            match force.start {
                Start::On(day) => days.push(day),
                Start::Between(first, last) => days.extend([first, last]),
                Start::Unknown => {}
            }
            if let End::On(day) = force.end {
                days.push(day);
            }
        }
        if let Some(election) = own.election {
            days.extend(election.from);
            days.push(election.through);
        }
    }
    days.iter().flat_map(|day| [*day, day.next()]).collect()
}

/// What stands on the day of an inquest.
fn look(there: &Inquest<'_>, number: usize, seen: &mut Seen) {
    let matter = there.matter;
    let mut scratch = Scratch::default();
    let mut names = Vec::new();
    for code in &matter.law.codes {
        let Some(open) = unsettled(matter, &mut scratch, code.reach) else { continue };
        let how = match (open.span, open.text) {
            (true, _) => How::NotKnown,
            (false, true) => How::Elective,
            (false, false) => How::InForce,
        };
        let issuer = matter.law.source(code.source).map_or_else(String::new, |source| source.issuer.to_string());
        let key = (usize::from(code.subject.0), code.code.to_string(), code.edition, code.by.to_string(), issuer);
        names.push(format!("{} {}", code.code, code.edition));
        let stood = seen.editions.entry(key).or_default();
        match stood.last_mut() {
            // Adopted twice for different jobs: what surely stands for some does.
            Some((day, known, scope)) if *day == number => {
                if how == How::InForce {
                    *known = how;
                }
                if !scope.contains(&open.words) {
                    scope.push_str("; ");
                    scope.push_str(&open.words);
                }
            }
            _ => stood.push((number, how, open.words)),
        }
    }
    seen.names.push(names);
    for (id, own) in there.instruments() {
        let (standing, by) = there.standing(id, own);
        seen.instruments.entry(id).or_default().push((number, standing, by));
    }
}

/// How a text stood on each of the days.
fn row(count: usize, stood: impl Iterator<Item = (usize, How)>) -> Vec<Option<How>> {
    let mut row = vec![None; count];
    for (day, how) in stood {
        if let Some(slot) = row.get_mut(day) {
            *slot = Some(how);
        }
    }
    row
}

/// A lane for each subject, those that must be governed first.
fn editions(
    rules: &Rules,
    days: &Days,
    seen: &Seen,
    instruments: &[(InstrumentId, &Instrument)],
    reader: Reader,
) -> Vec<Lane> {
    let glossary = &rules.library().glossary;
    let mut lanes = Vec::new();
    let mut subjects: Vec<usize> = (0..glossary.subjects.len()).collect();
    subjects.sort_by_key(|at| glossary.subjects.get(*at).is_none_or(|subject| !subject.governed));
    for at in subjects {
        let Some(subject) = glossary.subjects.get(at) else { continue };
        let title = spoken_title(&subject.title, &subject.name);
        let mut bars: Vec<Bar> = Vec::new();
        for ((of, code, year, by, issuer), stood) in &seen.editions {
            if *of != at {
                continue;
            }
            let surely = stood.iter().find(|(_, how, _)| *how == How::InForce);
            let own = instruments.iter().find(|(_, own)| *own.id == **by && titled(rules, own) == *issuer);
            let ended_by = own.and_then(|(id, _)| ended_by(seen, *id));
            bars.push(Bar {
                label: reader.say_with("time-line-edition", &[("edition", &format!("{code} {year}")), ("by", by)]),
                by: by.clone(),
                issuer: issuer.clone(),
                scope: surely.map_or_else(String::new, |(_, _, scope)| scope.clone()),
                does: String::new(),
                spans: days.stretches(&row(seen.names.len(), stood.iter().map(|(day, how, _)| (*day, *how)))),
                ended_by,
                end_not_known: own.is_some_and(|(_, own)| end_not_known(own)),
            });
        }
        bars.sort_by_key(|bar| (bar.spans.first().map(|span| span.from), bar.label.clone()));
        lanes.push(Lane {
            kind: "editions",
            title: reader.say_with("time-line-editions", &[("subject", &title)]),
            bars,
        });
    }
    lanes
}

/// Who ended an instrument for good.
fn ended_by(seen: &Seen, id: InstrumentId) -> Option<String> {
    let (_, standing, by) = seen.instruments.get(&id)?.last()?;
    (*standing == Standing::Repealed).then(|| by.clone()).flatten()
}

fn end_not_known(own: &Instrument) -> bool {
    own.force.is_some_and(|force| force.end == End::Unknown)
}

/// The windows in which an applicant elects a text.
fn transitions(rules: &Rules, instruments: &[(InstrumentId, &Instrument)], reader: Reader) -> Lane {
    let window = |own: &Instrument| -> Option<Bar> {
        let election = own.election?;
        let from = election.from.or_else(|| own.first_day())?;
        Some(Bar {
            label: reader.say_with("time-line-election", &[("instrument", &own.id)]),
            by: own.id.to_string(),
            issuer: titled(rules, own),
            scope: String::new(),
            does: String::new(),
            spans: vec![super::Stretch { from, through: Some(election.through), how: How::Elective }],
            ended_by: None,
            end_not_known: false,
        })
    };
    Lane {
        kind: "transitions",
        title: reader.say("time-line-transitions"),
        bars: instruments.iter().filter(|(_, own)| own.is_law()).filter_map(|(_, own)| window(own)).collect(),
    }
}

fn titled(rules: &Rules, own: &Instrument) -> String {
    rules.library().places.issuer(own.issuer).map_or_else(String::new, |issuer| issuer.title.to_string())
}

/// How an instrument stood on each of the days on which `also` holds.
fn stood(seen: &Seen, id: InstrumentId, also: impl Fn(usize) -> bool) -> Vec<Option<How>> {
    let all = seen.instruments.get(&id).map(Vec::as_slice).unwrap_or_default();
    let how = |standing: Standing| match standing {
        Standing::InForce => Some(How::InForce),
        Standing::Possible => Some(How::NotKnown),
        Standing::Elective => Some(How::Elective),
        Standing::Suspended => Some(How::Suspended),
        _ => None,
    };
    let told = all.iter().filter(|(day, ..)| also(*day)).filter_map(|(day, standing, _)| Some((*day, how(*standing)?)));
    row(seen.names.len(), told)
}

/// Amendments, each as long as the text that it amends stands, then sections and powers.
fn own_law(
    rules: &Rules,
    inquest: &Inquest<'_>,
    days: &Days,
    seen: &Seen,
    instruments: &[(InstrumentId, &Instrument)],
    reader: Reader,
) -> Lane {
    let mut bars = Vec::new();
    for (id, own) in instruments.iter().filter(|(_, own)| own.is_law() && own.kind.weight() == Weight::Binding) {
        let mut bar = |label: String, does: String, also: &dyn Fn(usize) -> bool| {
            let spans = days.stretches(&stood(seen, *id, also));
            if !spans.is_empty() {
                let (issuer, ended_by) = (titled(rules, own), ended_by(seen, *id));
                let (by, end_not_known) = (own.id.to_string(), end_not_known(own));
                let scope = String::new();
                bars.push(Bar { label, by, issuer, scope, does, spans, ended_by, end_not_known });
            }
        };
        for amend in &own.amends {
            let (text, fits) = target(rules, amend);
            let parts = [("instrument", &*own.id), ("text", &*text)];
            let stands = |day: usize| match &fits {
                None => true,
                Some(prefix) => seen.names.get(day).is_some_and(|names| names.iter().any(|name| prefix.fits(name))),
            };
            let does: Vec<String> = inquest.amends(amend, reader).into_iter().map(|(does, _)| does).collect();
            bar(reader.say_with("time-line-amends", &parts), does.join("; "), &stands);
        }
        if !own.sections.is_empty() {
            let numbers: Vec<&str> = own.sections.iter().map(|(number, _)| &**number).collect();
            let titles: Vec<&str> = own.sections.iter().map(|(_, section)| &*section.title).collect();
            let parts = [("instrument", &*own.id), ("sections", &*few(&numbers, reader))];
            bar(reader.say_with("time-line-sections", &parts), titles.join("; "), &|_| true);
        }
        for power in &own.powers {
            let words = power_in_words(rules.library(), power, reader);
            bar(format!("{}: {words}", own.id), String::new(), &|_| true);
        }
    }
    bars.sort_by_key(|bar| bar.spans.first().map(|span| span.from));
    Lane { kind: "own-law", title: reader.say("time-line-own-law"), bars }
}

/// A few names, and how many more.
fn few(names: &[&str], reader: Reader) -> String {
    const MOST: usize = 2;
    match names.split_at_checked(MOST) {
        Some((first, rest)) if rest.len() > 1 => {
            let parts = [("some", &*first.join(", ")), ("more", &*rest.len().to_string())];
            reader.say_with("time-line-and-more", &parts)
        }
        _ => names.join(", "),
    }
}

/// Which editions an amendment fits.
enum Fits {
    Edition(String),
    Code(String),
}

impl Fits {
    fn fits(&self, name: &str) -> bool {
        match self {
            Fits::Edition(own) => name == own,
            Fits::Code(code) => name.rsplit_once(' ').is_some_and(|(of, _)| of == code),
        }
    }
}

/// The text that is amended, and the editions with which the amendment stands and falls.
fn target(rules: &Rules, amend: &Amend) -> (String, Option<Fits>) {
    let library = rules.library();
    match &amend.target {
        Target::Edition(id) => {
            let name = edition(library, *id);
            (name.clone(), Some(Fits::Edition(name)))
        }
        Target::Any { code, .. } => {
            let name = library.codes.codes.get(*code).map_or("", |code| &code.name).to_owned();
            (name.clone(), Some(Fits::Code(name)))
        }
        Target::Instrument(id) => {
            (library.instruments.get(id.0 as usize).map_or_else(String::new, |own| own.id.to_string()), None)
        }
    }
}

/// What only advises.
fn advice(
    rules: &Rules,
    days: &Days,
    seen: &Seen,
    instruments: &[(InstrumentId, &Instrument)],
    reader: Reader,
) -> Lane {
    let advisory = instruments.iter().filter(|(_, own)| own.is_law() && own.kind.weight() == Weight::Advisory);
    let bars = advisory.map(|(id, own)| Bar {
        label: if own.title.is_empty() { own.id.to_string() } else { format!("{}: {}", own.id, own.title) },
        by: own.id.to_string(),
        issuer: titled(rules, own),
        scope: String::new(),
        does: String::new(),
        spans: days.stretches(&stood(seen, *id, |_| true)),
        ended_by: ended_by(seen, *id),
        end_not_known: end_not_known(own),
    });
    let bars = bars.filter(|bar| !bar.spans.is_empty()).collect();
    Lane { kind: "advice", title: reader.say("time-line-advice"), bars }
}

/// An instrument that is proposed, or enacted without a day.
fn coming(rules: &Rules, own: &Instrument, reader: Reader) -> Option<Coming> {
    if own.is_law() {
        return None;
    }
    let proposed = own.status == Some(crate::law::instrument::Status::Proposed);
    let issuer = titled(rules, own);
    let parts = [("instrument", &*own.id), ("issuer", &*issuer), ("title", &*own.title)];
    let words = if proposed {
        reader.say_with("time-line-proposed", &parts)
    } else {
        reader.say_with("time-line-enacted", &parts)
    };
    Some(Coming {
        instrument: own.id.to_string(),
        issuer,
        title: own.title.to_string(),
        status: if proposed { "proposed" } else { "enacted" },
        words,
    })
}
