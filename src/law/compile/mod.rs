//! The law of one place: adoptions, patches, elections, ends and powers become
//! conditions, and what remains is a flat set of provisions.

mod adoption;
mod arena;
mod clauses;
mod draft;
mod expr;
mod finish;
mod level;
mod number;
mod order;
mod patch;
mod reach;
mod scale;
mod source;
mod table;

pub(crate) use self::number::{Line, Meeting, PatchName, meetings};

pub(crate) use self::arena::Arena;
use self::draft::{Drafts, Instruction};
use self::level::Level;
use crate::glossary::Territory;
use crate::glossary::model::{PlaceId, QuestionId, SubjectId};
use crate::law::instrument::{Instrument, InstrumentId};
use crate::law::library::Library;
use crate::law::model::{Law, Source, SourceId, UnknownSpan};
use crate::law::text::EditionId;
use crate::syntax::diagnostic::Diagnostic;
use rustc_hash::FxHashMap;

/// Makes the law of a place.
///
/// # Errors
/// Where its questions depend on each other in a circle.
pub(crate) fn compile(library: &Library, place: PlaceId) -> Result<Law, Diagnostic> {
    let mut compiler = Compiler::new(library, place);
    let places = compiler.path.len();
    let mut level = Level::new(&compiler, places);
    let mut outsiders = Drafts::of_outsiders(&mut compiler, &mut level);
    let (mut drafts, texts, standings) = Drafts::of_level(&mut compiler, &mut level);
    drafts.instructions_as_advice(&mut compiler);
    drafts.advice.append(&mut outsiders.advice);
    drafts.notes.append(&mut outsiders.notes);
    finish::finish(compiler, level, drafts, &texts, &standings)
}

/// What making the law of one place has at hand.
pub(crate) struct Compiler<'l> {
    pub(crate) library: &'l Library,
    pub(crate) place: PlaceId,
    /// The places around and the place itself, outermost first.
    pub(crate) path: Vec<PlaceId>,
    pub(crate) arena: Arena,
    pub(crate) sources: Vec<Source>,
    source_index: FxHashMap<source::Key, SourceId>,
    pub(crate) spans: Vec<UnknownSpan>,
    /// What makers' instructions say, binding or not.
    pub(crate) instructions: Vec<Instruction>,
}

impl<'l> Compiler<'l> {
    /// An empty bench for the law of a place.
    fn new(library: &'l Library, place: PlaceId) -> Compiler<'l> {
        Compiler {
            library,
            place,
            path: library.places.path(place),
            arena: Arena::new(),
            sources: Vec::new(),
            source_index: FxHashMap::default(),
            spans: Vec::new(),
            instructions: Vec::new(),
        }
    }

    /// The instrument with this number.
    pub(crate) fn instrument(&self, id: InstrumentId) -> Option<&'l Instrument> {
        self.library.instruments.get(id.0 as usize)
    }

    /// How many places lie around an issuer; makers and suppliers stand behind all.
    pub(crate) fn depth(&self, issuer: PlaceId) -> u32 {
        self.path.iter().position(|place| *place == issuer).map_or(u32::MAX, |depth| depth as u32)
    }

    /// The name of an edition's code.
    pub(crate) fn code_name(&self, edition: EditionId) -> &'l str {
        let codes = &self.library.codes;
        codes.edition(edition).and_then(|edition| codes.code_of(edition)).map_or("", |code| &*code.name)
    }

    /// Whether a question is known at the place.
    pub(crate) fn knows(&self, question: QuestionId) -> bool {
        self.library.glossary[question].scope.is_none_or(|scope| self.library.places.within(self.place, scope))
    }

    /// The questions known at the place on these subjects.
    pub(crate) fn questions_on(&self, subjects: &[SubjectId]) -> Vec<QuestionId> {
        self.library
            .glossary
            .questions
            .iter()
            .zip(0u16..)
            .filter(|(question, _)| subjects.contains(&question.subject))
            .map(|(_, number)| QuestionId(number))
            .filter(|question| self.knows(*question))
            .collect()
    }
}
