//! Tests of declarations, conditions and demands, all from text.

mod conditions;
mod declarations;
mod demands;
mod lookups;
pub(crate) mod pages;
mod shipped;

use super::model::PlaceId;
use super::{Context, Glossary, Territory};
use crate::syntax::codes::{self, Code};
use crate::syntax::diagnostic::{Diagnostic, FileId, Location};
use crate::syntax::tree::{self, Item, Reference};
use crate::syntax::{Kind, parse};

/// Places for tests: a place lies in those before it in its path.
pub(crate) struct Places(pub(crate) Vec<&'static str>);

impl Places {
    /// `larkspur` with `harlow` and `farwell` in it, and `quarrel` apart.
    pub(crate) fn usual() -> Places {
        Places(vec!["larkspur", "larkspur/harlow", "larkspur/farwell", "quarrel", "larkspur/harlow/millrace"])
    }

    pub(crate) fn id(&self, name: &str) -> PlaceId {
        let at = self.0.iter().position(|path| path.rsplit('/').next() == Some(name)).unwrap();
        PlaceId(at as u32)
    }

    fn path(&self, place: PlaceId) -> &str {
        self.0[place.0 as usize]
    }
}

impl Territory for Places {
    fn resolve(&self, reference: &Reference, from: FileId) -> Result<PlaceId, Diagnostic> {
        let known = self.0.iter().any(|path| path.rsplit('/').next() == Some(&*reference.text));
        let at = Location { file: from, span: reference.span };
        let finding = || Diagnostic::new(codes::UNKNOWN_PLACE, at, "no such place").help("name a place");
        known.then(|| self.id(&reference.text)).ok_or_else(finding)
    }

    fn within(&self, inner: PlaceId, outer: PlaceId) -> bool {
        let (inner, outer) = (self.path(inner), self.path(outer));
        inner == outer || inner.starts_with(&format!("{outer}/"))
    }
}

/// The declarations on which most tests rest.
pub(crate) const BASE: &str = r#"
choice tubing-jacket "Jacket on the tubing"
    plain          "no arc-resistant listing"
    arc-resistant  "listed as arc-resistant"
choice trade
    electrician
    master-electrician   under electrician
    gas-fitter
choice pipe-material  steel csst
choice conductor  copper aluminum copper-clad-aluminum
choice occupancy-class  one-or-two-family townhouse commercial
choice permit-kind  gas electrical building
choice clamp-mark  UL-467
choice earlier-or-later  earlier later

subject fuel-gas "Fuel gas piping"  must be governed
subject licensing
subject permitting

fact application-date  date  "Date of the permit application"  dates instruments
    ask "When was the permit applied for?"  known to contractor, owner at permit
fact permit-date       date  never before application-date
fact contract-date     date
fact occupancy         occupancy-class
fact permits-held      several permit-kind  ours to choose
fact service-rating    quantity A
fact meters            count
fact gas-supplier      name  names the supplier
fact text-elected      earlier-or-later  chooses the text
fact code-chosen       code  chooses the code
fact concealed         yes-no
fact performer         trade
fact material          pipe-material
fact likely-energized  yes-no  presumed where any appliance with (powered is yes)

list run "A run of gas piping"
    material  pipe-material
    jacket    tubing-jacket   ask "What does the print line say?"
    product   name
    length    quantity ft
list appliance
    powered  yes-no
record jumper "The bonding jumper"
    present        yes-no
    size           gauge
    material       conductor
    length         quantity ft
    clamp-listing  several clamp-mark

question direct-bond on fuel-gas "Direct bond to the grounding electrode system"
    ladder not-required, required
    met where jumper.present is yes
question tubing-use on fuel-gas
    ladder permitted, prohibited
    met never
    contrary to direct-bond
question jumper-size on fuel-gas "Size of the bonding jumper"
    at least gauge per jumper.material
    measures jumper.size
    asked where direct-bond is required and not (jumper.present is no)
question jumper-length on fuel-gas  at most ft  measures jumper.length  costs "wire"
question performer on licensing  only trade  measures performer
question permits on permitting  all of permit-kind  measures permits-held

definition conventional-tubing "CSST without an arc-resistant listing"
    any run with (material is csst and jacket is plain)
definition big-service
    service-rating over 200 A
definition bonded
    direct-bond is required
"#;

/// What came of building texts, each a file of its own.
pub(crate) struct Built {
    pub(crate) glossary: Glossary,
    pub(crate) places: Places,
    pub(crate) diagnostics: Vec<Diagnostic>,
}

/// Builds a glossary of texts that must be free of errors of form.
pub(crate) fn build(texts: &[&str]) -> Built {
    let trees: Vec<(FileId, tree::File)> = texts
        .iter()
        .enumerate()
        .map(|(at, text)| {
            let file = FileId(at as u32);
            let parsed = parse(file, text, Kind::Rules);
            assert!(parsed.diagnostics.is_empty(), "{text}\n{:#?}", parsed.diagnostics);
            (file, parsed.tree)
        })
        .collect();
    let files: Vec<(FileId, &tree::File)> = trees.iter().map(|(file, tree)| (*file, tree)).collect();
    let places = Places::usual();
    let mut diagnostics = Vec::new();
    let glossary = Glossary::build(&files, &places, &mut diagnostics);
    Built { glossary, places, diagnostics }
}

/// The usual glossary with more text, which must be free of errors.
pub(crate) fn with(more: &str) -> Built {
    let built = build(&[BASE, more]);
    assert!(built.diagnostics.is_empty(), "{more}\n{:#?}", built.diagnostics);
    built
}

/// What is wrong with the usual glossary and more text.
pub(crate) fn wrong(more: &str) -> Vec<Diagnostic> {
    let found = build(&[BASE, more]).diagnostics;
    assert!(found.iter().all(|one| one.help.is_some()), "a finding without a help: {found:#?}");
    found
}

/// The one finding on the usual glossary with more text: its code, message and help.
pub(crate) fn one_wrong(more: &str) -> (Code, String, String) {
    let mut found = wrong(more);
    assert_eq!(found.len(), 1, "{more}\n{found:#?}");
    let one = found.remove(0);
    (one.code, one.message, one.help.unwrap())
}

/// The first section of the first edition of a text.
fn section(text: &str) -> tree::Section {
    let text = format!("edition IFGC 2021\n    section 1 \"x\"\n{text}");
    let parsed = parse(FileId(9), &text, Kind::Rules);
    assert!(parsed.diagnostics.is_empty(), "{text}\n{:#?}", parsed.diagnostics);
    let sections = parsed.tree.items.into_iter().flat_map(|item| match item {
        Item::Edition(edition) => edition.clauses,
        _ => Vec::new(),
    });
    let mut sections = sections.filter_map(|clause| match clause {
        tree::TextClause::Section(section) => Some(section),
        _ => None,
    });
    sections.next().unwrap()
}

/// A context of a section in which everything may stand.
fn anywhere(places: &Places) -> Context<'_> {
    Context { answers: true, says: true, ..Context::plain(FileId(9), None, places) }
}
