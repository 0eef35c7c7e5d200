//! What an instrument changes at its own place: the rules without what it says of its
//! own, held against the rules with it, over all jobs.
//!
//! Editions that it adopts stay adopted on both sides, unless it does nothing else.
//! This is worked out for its own page only, since it takes time.

use super::Missing;
use super::desk::{Desk, Pointer};
use super::heard::heard_at;
use super::lookup;
use crate::law::instrument::Instrument;
use crate::law::places::IssuerKind;
use crate::report::effect::{Account, Between, Frame as Compared, body};
use crate::report::pages::frame::Frame;
use crate::review::effect::Side;
use crate::rules::Rules;
use crate::syntax::tree::{Clause, Item};
use crate::verdict::survey::Window;
use serde::Serialize;

#[derive(Debug, Serialize)]
struct View {
    frame: Frame,
    trail: Vec<Pointer>,
    id: String,
    issuer: Pointer,
    own: bool,
    /// Kinds of job of which some answer changes, and all kinds; none where they are
    /// too many to be counted.
    kinds: Option<(String, String)>,
    /// Why nothing could be compared.
    none: Option<String>,
    /// For a maker's instructions the places whose rules give them a say.
    heard_at: Vec<Pointer>,
    account: String,
}

/// What of an instrument is left away on one side.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Part {
    /// Everything but the editions that it adopts.
    Own,
    /// The adoption, where there is nothing else.
    All,
}

/// What of an instrument can be left away; nothing where it says nothing that changes
/// an answer.
pub(super) fn of(own: &Instrument) -> Option<Part> {
    let says = [own.amends.len(), own.sections.len(), own.powers.len(), own.prevails.len(), own.ends.len()];
    if says.iter().any(|count| *count > 0) {
        return Some(Part::Own);
    }
    (!own.adoptions.is_empty()).then_some(Part::All)
}

/// The page.
pub(super) fn page(desk: &Desk<'_>, path: &[&str], id: &str) -> Result<String, Missing> {
    let (_, own) = lookup::instrument(desk, path, id)?;
    let library = desk.library();
    let around = library.places.path(own.issuer);
    let of_place = library.places.issuer(own.issuer).is_some_and(|issuer| issuer.kind == IssuerKind::Place);
    let part = of(own);
    let mut view = View {
        frame: desk.frame(of_place.then_some(&around)),
        trail: std::iter::once(desk.start())
            .chain(around.iter().map(|place| desk.issuer(*place)))
            .chain(std::iter::once(desk.instrument(own)))
            .collect(),
        id: own.id.to_string(),
        issuer: desk.issuer(own.issuer),
        own: part == Some(Part::Own),
        kinds: None,
        none: None,
        heard_at: Vec::new(),
        account: String::new(),
    };
    match part {
        Some(part) if of_place => match account(desk, own, part) {
            Ok(account) => {
                view.kinds = account.grouped_kinds();
                view.account = body(&account);
            }
            Err(why) => view.none = Some(why),
        },
        Some(_) => {
            view.none = Some(desk.reader.say("browse-effect-of-outsider"));
            view.heard_at = heard_at(desk, own);
        }
        None => view.none = Some(desk.reader.say("browse-effect-of-nothing")),
    }
    desk.lay("rules/effect.html", view)
}

fn account(desk: &Desk<'_>, own: &Instrument, part: Part) -> Result<Account, String> {
    let failed = |why: &str| desk.reader.say_with("browse-effect-failed", &[("why", why)]);
    let without = without(desk.rules, own, part).ok_or_else(|| desk.reader.say("browse-effect-needed"))?;
    let place = without.library().places.named(library_name(desk, own));
    let path = desk.library().places.path_text(own.issuer);
    let before = place.iter().copied().find(|id| without.library().places.path_text(*id) == path);
    let Some(before) = before else { return Err(desk.reader.say("browse-effect-needed")) };
    let name = match part {
        Part::Own if !own.adoptions.is_empty() => desk.reader.say_with("effect-own-text", &[("instrument", &own.id)]),
        _ => own.id.to_string(),
    };
    let compared = Compared {
        sides: [
            Side { rules: &without, place: before, on: None },
            Side { rules: desk.rules, place: own.issuer, on: None },
        ],
        between: Between::Amendment(name),
        window: Window::default(),
        today: desk.today,
        reader: desk.reader,
    };
    Account::new(&compared).map_err(|(_, told)| failed(&told.message))
}

fn library_name<'a>(desk: &Desk<'a>, own: &Instrument) -> &'a str {
    desk.library().places.issuer(own.issuer).map_or("", |issuer| &issuer.name)
}

/// The rules without a part of an instrument; nothing where other rules refer to it.
fn without(rules: &Rules, own: &Instrument, part: Part) -> Option<Rules> {
    let mut tree = rules.tree(own.at.file)?.clone();
    for item in &mut tree.items {
        let Item::Instrument(instrument) = item else { continue };
        if instrument.id.span == own.at.span {
            instrument.clauses.retain(|clause| match clause {
                Clause::Adopts(_) | Clause::Election(_) => part == Part::Own,
                _ => false,
            });
        }
    }
    rules.with_tree(own.at.file, tree).filter(Rules::linked)
}
