//! The glossary from the trees of all files, step by step: what later steps
//! rest on is declared first.

use super::model::Scope;
use super::names::sees;
use super::{Glossary, Territory};
use crate::syntax::codes;
use crate::syntax::diagnostic::{Diagnostic, FileId, Location};
use crate::syntax::limits::DECLARATIONS;
use crate::syntax::tree::{self, Span, Word};

/// What the building steps share.
pub(super) struct Builder<'a> {
    pub(super) territory: &'a dyn Territory,
    pub(super) diagnostics: &'a mut Vec<Diagnostic>,
    pub(super) glossary: Glossary,
}

/// A declaration of the tree with the file in which it stands.
pub(super) type Found<'a, T> = (FileId, &'a T);

/// The declarations of all files by kind.
#[derive(Default)]
pub(super) struct Sheet<'a> {
    pub(super) choices: Vec<Found<'a, tree::Choice>>,
    pub(super) extensions: Vec<Found<'a, tree::Extend>>,
    pub(super) subjects: Vec<Found<'a, tree::Subject>>,
    pub(super) facts: Vec<Found<'a, tree::Fact>>,
    pub(super) groups: Vec<Found<'a, tree::Group>>,
    pub(super) questions: Vec<Found<'a, tree::Question>>,
    pub(super) definitions: Vec<Found<'a, tree::Definition>>,
}

impl<'a> Sheet<'a> {
    fn of(files: &[(FileId, &'a tree::File)]) -> Sheet<'a> {
        use tree::Item;
        let mut sheet = Sheet::default();
        for (file, tree) in files {
            for item in &tree.items {
                match item {
                    Item::Choice(choice) => sheet.choices.push((*file, choice)),
                    Item::Extend(extend) => sheet.extensions.push((*file, extend)),
                    Item::Subject(subject) => sheet.subjects.push((*file, subject)),
                    Item::Fact(fact) => sheet.facts.push((*file, fact)),
                    Item::Group(group) => sheet.groups.push((*file, group)),
                    Item::Question(question) => sheet.questions.push((*file, question)),
                    Item::Definition(definition) => sheet.definitions.push((*file, definition)),
                    Item::Code(_) | Item::Edition(_) | Item::Place(_) | Item::Issuer(_) | Item::Instrument(_) => {}
                    Item::Example(_) | Item::Job(_) => {}
                }
            }
        }
        sheet
    }
}

/// A declaration on its way: its name, where it holds and where it stands.
pub(super) struct Named<'a, T> {
    pub(super) name: &'a Word,
    pub(super) scope: Scope,
    pub(super) file: FileId,
    pub(super) it: T,
}

impl<T> Named<'_, T> {
    pub(super) fn at(&self) -> Location {
        Location { file: self.file, span: self.name.span }
    }
}

impl Glossary {
    /// Resolves what all files declare together. Errors are added to
    /// `diagnostics`; what they spoil is left out of the glossary, and what
    /// rests on that is not reported again.
    pub(crate) fn build(
        files: &[(FileId, &tree::File)],
        territory: &dyn Territory,
        diagnostics: &mut Vec<Diagnostic>,
    ) -> Glossary {
        let sheet = Sheet::of(files);
        let mut builder = Builder { territory, diagnostics, glossary: Glossary::default() };
        builder.choices(&sheet);
        builder.subjects(&sheet);
        let fields = builder.fields(&sheet);
        let questions = builder.questions(&sheet);
        builder.roles(&fields);
        builder.bounds(&fields);
        builder.definitions(&sheet);
        builder.presumptions(&fields);
        builder.proofs(&questions);
        builder.glossary
    }
}

impl Builder<'_> {
    pub(super) fn report(&mut self, finding: Diagnostic) {
        self.diagnostics.push(finding);
    }

    /// Where a declaration holds; an error about its place is reported, and the
    /// declaration then counts as spoilt.
    pub(super) fn scope(&mut self, place: Option<&tree::Reference>, file: FileId) -> Result<Scope, ()> {
        match place.map(|place| self.territory.resolve(place, file)) {
            None => Ok(None),
            Some(Ok(place)) => Ok(Some(place)),
            Some(Err(finding)) => {
                self.report(finding);
                Err(())
            }
        }
    }

    /// Passes over in silence what rests on this name from now on.
    pub(super) fn spoil(&mut self, name: &str) {
        self.glossary.names.broken.insert(name.into());
    }

    /// Sorts declarations by name and takes out those whose name is declared
    /// already where they would hold. Two places of which neither is within the
    /// other may each declare the same name.
    pub(super) fn distinct<'a, T>(&mut self, what: &str, mut all: Vec<Named<'a, T>>) -> Vec<Named<'a, T>> {
        all.sort_by(|a, b| (&a.name.text, a.scope, a.at()).cmp(&(&b.name.text, b.scope, b.at())));
        let mut kept: Vec<Named<'a, T>> = Vec::with_capacity(all.len());
        for one in all {
            let same = kept.iter().rev().take_while(|other| other.name.text == one.name.text);
            let clash = same.filter(|other| self.overlap(other.scope, one.scope)).last().map(Named::at);
            match clash {
                Some(first) => {
                    let finding = declared_twice(what, &one.name.text, one.at(), first);
                    self.report(finding);
                }
                None => kept.push(one),
            }
        }
        kept
    }

    pub(super) fn overlap(&self, a: Scope, b: Scope) -> bool {
        sees(a, b, self.territory) || sees(b, a, self.territory)
    }

    /// Reports more declarations of a kind than numbers can be given to.
    pub(super) fn hold<T>(&mut self, all: &mut Vec<T>, at: impl Fn(&T) -> Location) {
        if let Some(first) = all.get(DECLARATIONS.most) {
            let finding = DECLARATIONS.passed(at(first));
            self.report(finding);
            all.truncate(DECLARATIONS.most);
        }
    }
}

/// The finding on a name that is declared a second time.
pub(super) fn declared_twice(what: &str, name: &str, at: Location, first: Location) -> Diagnostic {
    Diagnostic::new(codes::DUPLICATE_NAME, at, format!("the {what} `{name}` is declared twice"))
        .help("keep one of the two, or give one another name")
        .also(first, "it is declared here as well")
}

/// A text of the tree, or the name where there is none.
pub(super) fn title(text: Option<&tree::Text>, name: &Word) -> Box<str> {
    text.map_or_else(|| name.text.clone(), |text| text.text.clone())
}

/// A place in a file.
pub(super) fn location(file: FileId, span: Span) -> Location {
    Location { file, span }
}
