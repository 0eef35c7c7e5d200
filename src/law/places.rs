//! Places, makers and suppliers: the issuers of instruments, and how they are
//! named.

use crate::glossary::Territory;
use crate::glossary::model::{PlaceId, SubjectId};
use crate::syntax::codes;
use crate::syntax::diagnostic::{Diagnostic, FileId, Location};
use crate::syntax::nearest::nearest;
use crate::syntax::tree;
use std::collections::HashMap;
use std::sync::Arc;

mod again;
pub(crate) mod boundary;
mod find;

use boundary::Boundary;

/// Makers and suppliers are numbered behind the places, in one row with them.
pub(crate) type IssuerId = PlaceId;

/// What kind of issuer one is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum IssuerKind {
    Place,
    Maker,
    Supplier,
}

/// A place, maker or supplier.
#[derive(Clone, Debug)]
pub(crate) struct Issuer {
    pub(crate) kind: IssuerKind,
    pub(crate) name: Box<str>,
    pub(crate) title: Box<str>,
    pub(crate) parent: Option<PlaceId>,
    /// How many places lie around it.
    pub(crate) depth: u32,
    pub(crate) also: Vec<Box<str>>,
    #[allow(dead_code, reason = "kept as declared for programs that look places up")]
    pub(crate) known_as: Vec<(Box<str>, Box<str>)>,
    pub(crate) office: Option<Box<str>>,
    /// The file with its area.
    pub(crate) boundary: Option<Boundary>,
    /// Where the place's law was read, and when.
    pub(crate) provenance: Option<tree::Provenance>,
    /// Subjects on which the place says that it has nothing of its own.
    pub(crate) nothing: Vec<SubjectId>,
    pub(crate) dates_by: Option<tree::Path>,
    pub(crate) at: Location,
}

/// Every issuer of a library.
#[derive(Clone, Debug, Default)]
pub(crate) struct Places {
    issuers: Vec<Arc<Issuer>>,
    index: Arc<Index>,
    /// Printed names that have changed since the index was made.
    reprinted: HashMap<Box<str>, Vec<PlaceId>>,
    /// The folder of each file, so that a name is looked up nearby first.
    folders: Vec<Box<str>>,
}

/// Issuers by their names.
#[derive(Debug, Default)]
struct Index {
    by_name: HashMap<Box<str>, Vec<PlaceId>>,
    /// By printed names and aliases, in small letters.
    by_printed: HashMap<Box<str>, Vec<PlaceId>>,
}

/// Why a text names no place.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct NotFound {
    /// The places that it could mean, where there are several.
    pub(crate) candidates: Vec<String>,
    /// The nearest names, where there is none.
    pub(crate) nearest: Vec<String>,
}

/// The `within` lines while they are looked up.
struct Within<'t> {
    /// By place, those not looked up yet.
    waiting: Vec<Option<(FileId, &'t tree::Reference)>>,
    /// What a file means by a name, so that a county of many towns is found once.
    known: HashMap<(FileId, bool, &'t str), PlaceId>,
}

impl Places {
    /// Collects the places, makers and suppliers of the files; `folders` gives the
    /// folder of each file by its number.
    pub(crate) fn build(
        files: &[(FileId, &tree::File)],
        folders: Vec<Box<str>>,
        diagnostics: &mut Vec<Diagnostic>,
    ) -> Places {
        let mut places = Places { folders, ..Places::default() };
        let mut within = Vec::new();
        for (file, tree) in files {
            for item in &tree.items {
                places.declare(*file, item, &mut within);
            }
        }
        places.index();
        let mut within_lines = Within { waiting: vec![None; places.issuers.len()], known: HashMap::new() };
        for (id, file, reference) in &within {
            if let Some(slot) = within_lines.waiting.get_mut(id.0 as usize) {
                *slot = Some((*file, *reference));
            }
        }
        for (id, _, _) in &within {
            places.settle(*id, &mut within_lines, 0, diagnostics);
        }
        places.settle_depths(diagnostics);
        places.check_names(diagnostics);
        places
    }

    /// Finds what a place lies within; the places that its path names first.
    fn settle<'t>(&mut self, id: PlaceId, within: &mut Within<'t>, depth: usize, diagnostics: &mut Vec<Diagnostic>) {
        if depth > crate::syntax::limits::NESTING.most {
            return;
        }
        let Some((file, reference)) = within.waiting.get_mut(id.0 as usize).and_then(Option::take) else { return };
        let key = (file, reference.printed, &*reference.text);
        if let Some(parent) = within.known.get(&key) {
            self.set_parent(id, *parent);
            return;
        }
        let last = reference.text.rsplit('/').next().unwrap_or_default();
        if reference.text.contains('/') && !reference.printed {
            for candidate in self.index.by_name.get(last).cloned().unwrap_or_default() {
                let mut at = Some(candidate);
                for _ in reference.text.split('/') {
                    let Some(place) = at else { break };
                    self.settle(place, within, depth + 1, diagnostics);
                    at = self.issuer(place).and_then(|issuer| issuer.parent);
                }
            }
        }
        match self.resolve(reference, file) {
            Ok(parent) if self.issuer(parent).is_some_and(|issuer| issuer.kind == IssuerKind::Place) => {
                self.set_parent(id, parent);
                // While others are being looked up, or where a place is named like
                // what it lies in, the next look may find more.
                if depth == 0 && self.issuer(id).is_some_and(|issuer| *issuer.name != *last) {
                    within.known.insert(key, parent);
                }
            }
            Ok(_) => diagnostics.push(
                Diagnostic::new(
                    codes::UNKNOWN_PLACE,
                    Location { file, span: reference.span },
                    format!("`{}` is no place", reference.text),
                )
                .help("a place lies within a place"),
            ),
            Err(problem) => diagnostics.push(problem),
        }
    }

    fn set_parent(&mut self, id: PlaceId, parent: PlaceId) {
        if let Some(issuer) = self.issuers.get_mut(id.0 as usize).map(Arc::make_mut) {
            issuer.parent = Some(parent);
        }
    }

    fn declare<'t>(
        &mut self,
        file: FileId,
        item: &'t tree::Item,
        within: &mut Vec<(PlaceId, FileId, &'t tree::Reference)>,
    ) {
        let id = PlaceId(self.issuers.len() as u32);
        if let tree::Item::Place(tree::Place { within: Some(outer), .. }) = item {
            within.push((id, file, outer));
        }
        self.issuers.extend(issuer_of(file, item).map(Arc::new));
    }

    fn index(&mut self) {
        let mut index = Index::default();
        for (number, issuer) in self.issuers.iter().enumerate() {
            let id = PlaceId(number as u32);
            index.by_name.entry(issuer.name.clone()).or_default().push(id);
            for printed in std::iter::once(&issuer.title).chain(&issuer.also) {
                let ids = index.by_printed.entry(printed.to_lowercase().into()).or_default();
                if !ids.contains(&id) {
                    ids.push(id);
                }
            }
        }
        self.index = Arc::new(index);
    }

    fn settle_depths(&mut self, diagnostics: &mut Vec<Diagnostic>) {
        let mut circles = Vec::new();
        let depths: Vec<u32> = (0..self.issuers.len())
            .map(|number| {
                let mut depth = 0u32;
                let mut at = self.issuers.get(number).and_then(|issuer| issuer.parent);
                while let Some(outer) = at {
                    depth += 1;
                    if depth as usize > crate::syntax::limits::NESTING.most {
                        circles.push(number);
                        return 0;
                    }
                    at = self.issuers.get(outer.0 as usize).and_then(|issuer| issuer.parent);
                }
                depth
            })
            .collect();
        for (issuer, depth) in self.issuers.iter_mut().zip(depths) {
            Arc::make_mut(issuer).depth = depth;
        }
        for number in circles {
            if let Some(issuer) = self.issuers.get_mut(number).map(Arc::make_mut) {
                issuer.parent = None;
                diagnostics.push(
                    Diagnostic::new(codes::CIRCLE, issuer.at, format!("`{}` lies within itself", issuer.name))
                        .help("mend one of the `within` lines of these places"),
                );
            }
        }
    }

    fn check_names(&self, diagnostics: &mut Vec<Diagnostic>) {
        for ids in self.index.by_name.values() {
            for (at, id) in ids.iter().enumerate() {
                for other in ids.iter().take(at) {
                    let (Some(one), Some(two)) = (self.issuer(*id), self.issuer(*other)) else { continue };
                    let clash = match (one.kind, two.kind) {
                        (IssuerKind::Place, IssuerKind::Place) => one.parent == two.parent,
                        _ => true,
                    };
                    if clash {
                        let (first, second) = if one.at < two.at { (one, two) } else { (two, one) };
                        diagnostics.push(
                            Diagnostic::new(
                                codes::DUPLICATE_NAME,
                                second.at,
                                format!("`{}` is declared twice", second.name),
                            )
                            .also(first.at, "first declared here")
                            .help("give one of them another name, or another place to lie within"),
                        );
                    }
                }
            }
        }
    }

    /// The issuer with this number.
    pub(crate) fn issuer(&self, id: IssuerId) -> Option<&Issuer> {
        self.issuers.get(id.0 as usize).map(|issuer| &**issuer)
    }

    /// The issuers with this printed name or alias, in small letters.
    fn printed(&self, lower: &str) -> &[IssuerId] {
        let found = self.reprinted.get(lower).or_else(|| self.index.by_printed.get(lower));
        found.map_or(&[], Vec::as_slice)
    }

    /// Whether the folders of just so many files are known.
    pub(super) fn knows(&self, files: usize) -> bool {
        self.folders.len() == files
    }

    /// The issuers with this name.
    pub(crate) fn named(&self, name: &str) -> &[IssuerId] {
        self.index.by_name.get(name).map_or(&[], Vec::as_slice)
    }

    /// Every issuer with its number.
    pub(crate) fn all(&self) -> impl Iterator<Item = (IssuerId, &Issuer)> {
        self.issuers.iter().enumerate().map(|(number, issuer)| (PlaceId(number as u32), &**issuer))
    }

    /// The places among the issuers, without makers and suppliers.
    pub(crate) fn only_places(&self) -> impl Iterator<Item = (PlaceId, &Issuer)> {
        self.all().filter(|(_, issuer)| issuer.kind == IssuerKind::Place)
    }

    /// Sets the subjects on which a place has nothing of its own.
    pub(crate) fn set_nothing(&mut self, id: PlaceId, subjects: Vec<SubjectId>) {
        if let Some(issuer) = self.issuers.get_mut(id.0 as usize).map(Arc::make_mut) {
            issuer.nothing = subjects;
        }
    }

    /// The places around and the place itself, outermost first.
    pub(crate) fn path(&self, id: PlaceId) -> Vec<PlaceId> {
        let mut path = vec![id];
        let mut at = self.issuer(id).and_then(|issuer| issuer.parent);
        while let Some(outer) = at {
            path.push(outer);
            at = self.issuer(outer).and_then(|issuer| issuer.parent);
        }
        path.reverse();
        path
    }

    /// The path in words: `larkspur/harlow`.
    pub(crate) fn path_text(&self, id: PlaceId) -> String {
        let names: Vec<&str> =
            self.path(id).iter().filter_map(|id| self.issuer(*id)).map(|issuer| &*issuer.name).collect();
        names.join("/")
    }

    /// Every issuer whose path ends as the text says.
    fn ending(&self, text: &str) -> Vec<PlaceId> {
        let parts: Vec<&str> = text.split('/').collect();
        let last = parts.last().and_then(|last| self.index.by_name.get(*last)).cloned().unwrap_or_default();
        self.behind(last, &parts, |issuer, part| &*issuer.name == part)
    }

    /// Those of the issuers whose path ends with these parts, whatever counts as the name of one.
    fn behind(&self, ids: Vec<PlaceId>, parts: &[&str], named: impl Fn(&Issuer, &str) -> bool) -> Vec<PlaceId> {
        let fits = |id: &PlaceId| {
            let mut at = Some(*id);
            parts.iter().rev().all(|part| {
                let Some(issuer) = at.and_then(|id| self.issuer(id)) else { return false };
                at = issuer.parent;
                named(issuer, part)
            })
        };
        let found: Vec<PlaceId> = ids.into_iter().filter(fits).collect();
        // A whole path is never ambiguous with a longer one that ends like it.
        let whole: Vec<PlaceId> = found.iter().copied().filter(|id| self.path(*id).len() == parts.len()).collect();
        if parts.len() > 1 && whole.len() == 1 { whole } else { found }
    }
}

impl Territory for Places {
    fn resolve(&self, reference: &tree::Reference, from: FileId) -> Result<PlaceId, Diagnostic> {
        let at = Location { file: from, span: reference.span };
        let all = if reference.printed {
            self.printed(&reference.text.to_lowercase()).to_vec()
        } else {
            self.ending(&reference.text)
        };
        let file_of = |id: &PlaceId| self.issuer(*id).map(|issuer| issuer.at.file);
        let folder = self.folders.get(from.0 as usize);
        let here: Vec<PlaceId> = all.iter().copied().filter(|id| file_of(id) == Some(from)).collect();
        let near: Vec<PlaceId> = all
            .iter()
            .copied()
            .filter(|id| file_of(id).and_then(|file| self.folders.get(file.0 as usize)) == folder)
            .collect();
        for found in [&here, &near, &all] {
            match found.as_slice() {
                [] => {}
                [one] => return Ok(*one),
                several => {
                    let mut candidates: Vec<String> =
                        several.iter().map(|id| format!("`{}`", self.path_text(*id))).collect();
                    candidates.sort();
                    return Err(Diagnostic::new(
                        codes::AMBIGUOUS_PLACE,
                        at,
                        format!("`{}` fits several places", reference.text),
                    )
                    .help(format!("write one of {}", candidates.join(", "))));
                }
            }
        }
        let near = nearest(&reference.text, self.issuers.iter().map(|issuer| &*issuer.name));
        let help = if near.is_empty() {
            format!("declare it with `place {} \"…\"`", reference.text)
        } else {
            format!("did you mean {}?", near.iter().map(|name| format!("`{name}`")).collect::<Vec<_>>().join(", "))
        };
        Err(Diagnostic::new(codes::UNKNOWN_PLACE, at, format!("no place or issuer is named `{}`", reference.text))
            .help(help))
    }

    fn within(&self, inner: PlaceId, outer: PlaceId) -> bool {
        let mut at = Some(inner);
        while let Some(id) = at {
            if id == outer {
                return true;
            }
            at = self.issuer(id).and_then(|issuer| issuer.parent);
        }
        false
    }
}

/// The issuer that an item declares, not yet within another.
fn issuer_of(file: FileId, item: &tree::Item) -> Option<Issuer> {
    Some(match item {
        tree::Item::Place(place) => Issuer {
            kind: IssuerKind::Place,
            name: place.name.text.clone(),
            title: place.title.as_ref().map_or_else(|| place.name.text.clone(), |title| title.text.clone()),
            parent: None,
            depth: 0,
            also: place.also.iter().map(|also| also.text.clone()).collect(),
            known_as: place.known_as.iter().map(|(scheme, id)| (scheme.text.clone(), id.text.clone())).collect(),
            office: place.office.as_ref().map(|office| office.text.clone()),
            boundary: place
                .boundary
                .as_ref()
                .map(|named| Boundary { file: named.text.clone(), at: Location { file, span: named.span } }),
            provenance: place.provenance.clone(),
            nothing: Vec::new(),
            dates_by: place.dates_by.clone(),
            at: Location { file, span: place.name.span },
        },
        tree::Item::Issuer(issuer) => Issuer {
            kind: if issuer.maker { IssuerKind::Maker } else { IssuerKind::Supplier },
            name: issuer.name.text.clone(),
            title: issuer.title.as_ref().map_or_else(|| issuer.name.text.clone(), |title| title.text.clone()),
            parent: None,
            depth: 0,
            also: Vec::new(),
            known_as: Vec::new(),
            office: None,
            boundary: None,
            provenance: issuer.provenance.clone(),
            nothing: Vec::new(),
            dates_by: issuer.dates_by.clone(),
            at: Location { file, span: issuer.name.span },
        },
        _ => return None,
    })
}
