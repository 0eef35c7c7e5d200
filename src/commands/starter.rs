//! `groundrule proofread --new`: a first rule file for a place.

use super::options::{RulesOptions, place};
use super::{files, screen};
use crate::glossary::Territory;
use crate::glossary::model::PlaceId;
use crate::law::places::IssuerKind;
use crate::report::finding::{Finding, Spot};
use crate::report::starter::{For, NoName, declared, starter};
use crate::review;
use crate::review::survey::Asked;
use crate::rules::{Rules, Source};
use crate::syntax::codes;
use crate::values::Date;
use std::io::Write;
use std::path::Path;

/// Writes the file for the place that the arguments name.
///
/// # Errors
/// Where the place cannot be named so or lies nowhere, and where the file cannot be
/// written.
pub(super) fn begin(
    options: &RulesOptions,
    new: &str,
    within: Option<&str>,
    day: Option<Date>,
    to: Option<&Path>,
) -> Result<(), Vec<Finding>> {
    let rules = options.load()?;
    let of = place_of(&rules, new, within).map_err(|problem| vec![problem])?;
    let day = day.unwrap_or_else(screen::today);
    let mut text = starter(&rules, &of, day, false);
    if leaves_open(&rules, &text) {
        text = starter(&rules, &of, day, true);
    }
    match to {
        None => screen::print(&text),
        Some(path) => save(path, &text).map_err(|problem| vec![problem])?,
    }
    Ok(())
}

/// Whether other places answer questions that the new file leaves open.
fn leaves_open(rules: &Rules, text: &str) -> bool {
    let (rules, new) = rules.and(Source::new("new.rule", text));
    rules.usable()
        && review::survey::findings(&rules, &|file| file == new, Asked::default())
            .iter()
            .any(|told| told.code == codes::UNANSWERED)
}

/// The place that is meant: one of the library within the other, else a new one there.
fn place_of(rules: &Rules, new: &str, within: Option<&str>) -> Result<For, Finding> {
    let places = &rules.library().places;
    let Some(within) = within else {
        return places.find(new).map(For::Known).map_err(|_| {
            let shown = crate::glossary::cut(new);
            Finding::new(codes::UNKNOWN_PLACE, Spot::argument("--new"), format!("no place is named `{shown}` yet"))
                .help("say within which state or county it lies: `--within STATE`")
        });
    };
    let around = place(rules, within)?;
    if let Some(known) = known(rules, new, around)? {
        return Ok(For::Known(known));
    }
    // Places may share a name where another place is around them; nobody else may.
    let holder = |name: &str| {
        let mut all = places.all().map(|(_, issuer)| issuer);
        let clash =
            all.find(|other| *other.name == *name && (other.kind != IssuerKind::Place || other.parent == Some(around)));
        clash.map(|issuer| issuer.title.to_string())
    };
    let (name, title) = declared(new, holder).map_err(|problem| refused(new, &problem))?;
    Ok(For::New { name, title, within: around })
}

/// The place of the library that a text names within another, or that other itself.
fn known(rules: &Rules, new: &str, around: PlaceId) -> Result<Option<PlaceId>, Finding> {
    let places = &rules.library().places;
    let found: Vec<PlaceId> = match places.find(new) {
        Ok(one) => vec![one],
        Err(problem) => problem.candidates.iter().filter_map(|path| places.find(path).ok()).collect(),
    };
    let mut inside = found.into_iter().filter(|place| places.within(*place, around));
    let (Some(first), second) = (inside.next(), inside.next()) else { return Ok(None) };
    let Some(second) = second else { return Ok(Some(first)) };
    let mut paths: Vec<String> = [first, second].into_iter().chain(inside).map(|id| places.path_text(id)).collect();
    paths.sort();
    let shown = crate::glossary::cut(new);
    Err(Finding::new(codes::AMBIGUOUS_PLACE, Spot::argument("--new"), format!("`{shown}` fits several places"))
        .help(format!("write one of {}", paths.iter().map(|path| format!("`{path}`")).collect::<Vec<_>>().join(", "))))
}

fn refused(new: &str, problem: &NoName) -> Finding {
    let shown = crate::glossary::cut(new);
    let spot = Spot::argument("--new");
    match problem {
        NoName::NotAText => Finding::new(codes::CONTROL_CHARACTER, spot, "this cannot be the name of a place")
            .help("write its printed name on one line, such as `Town of Example`, or a name such as `example`"),
        NoName::NoLetters => {
            let message = format!("no name for rule files can be made of `{shown}`");
            Finding::new(codes::RESERVED, spot, message).help(
                "give a name of small letters, digits and hyphens, such as `example`, 64 at most and no word of the \
                 language; the printed name is written into the file",
            )
        }
        NoName::Taken(holder) => {
            let message = format!("what `{shown}` would be called is what {holder} is called");
            Finding::new(codes::DUPLICATE_NAME, spot, message).help("give it another name, such as `example-town`")
        }
    }
}

/// Writes a file that is not there yet.
///
/// # Errors
/// Where something of that name is there, where it is no name of a rule file, and
/// where it cannot be written.
fn save(path: &Path, text: &str) -> Result<(), Finding> {
    let spot = || Spot::file(files::name(path));
    if path.extension().is_none_or(|ending| ending != "rule") {
        let message = "the file to write has no name of a rule file";
        return Err(Finding::new(codes::UNREADABLE, spot(), message).help("rule files end in `.rule`"));
    }
    let open = std::fs::OpenOptions::new().write(true).create_new(true).open(path);
    let written = open.and_then(|mut file| file.write_all(text.as_bytes()));
    written.map_err(|problem| {
        if problem.kind() == std::io::ErrorKind::AlreadyExists {
            return Finding::new(codes::UNREADABLE, spot(), "the file is there already, and nothing was written")
                .help("give `--to` another name; a file of yours is never overwritten");
        }
        let message = format!("the file cannot be written: {}", files::in_words(&problem));
        Finding::new(codes::UNREADABLE, spot(), message)
            .help("check that its folder exists and that you may write there")
    })
}
