//! The list of codes. A code stands for one kind of finding for ever; its
//! wording may change. Each has a page under `shared/errors/` and a smallest bad
//! file under `tests/errors/`.

use super::diagnostic::Severity;
use serde::{Deserialize, Serialize};

/// A stable code such as `GR0201`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(into = "u16", from = "u16")]
pub struct Code(u16);

impl From<Code> for u16 {
    fn from(code: Code) -> u16 {
        code.0
    }
}

impl From<u16> for Code {
    fn from(number: u16) -> Code {
        Code(number)
    }
}

impl std::fmt::Display for Code {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "GR{:04}", self.0)
    }
}

impl Code {
    /// Codes from `GR5000` on are warnings.
    pub(crate) fn severity(self) -> Severity {
        if self.0 >= 5000 { Severity::Warning } else { Severity::Error }
    }
}

macro_rules! codes {
    ($($name:ident = $number:literal, $title:literal;)*) => {
        $(#[doc = $title] pub(crate) const $name: Code = Code($number);)*
        /// Every code with its short title, in order.
        #[allow(dead_code, reason = "the catalogue of pages and bad files is held against it")]
        pub(crate) const ALL: &[(Code, &str)] = &[$((Code($number), $title)),*];
    };
}

// 01xx limits and text, 02xx syntax, 03xx names, 04xx values and shapes, 05xx dates,
// 06xx places, instruments and texts, 07xx questions, 08xx jobs, 09xx examples,
// 51xx doubts about single texts, 52xx what shows over all jobs of a place, 53xx what
// no example notices.
codes! {
    LIMIT = 100, "a limit of the language is passed";
    NOT_UTF8 = 101, "the file is not UTF-8";
    UNREADABLE = 102, "the file cannot be read";
    CONTROL_CHARACTER = 103, "a control character stands in the file";
    LOOK_ALIKE = 104, "a letter that is not of the language stands outside a text";
    BIDI_CONTROL = 105, "a character turns the direction of writing";
    LAYOUT = 106, "laid out, a file would say something else";
    SYNTAX = 200, "the text does not follow the grammar";
    RESERVED = 201, "a word of the language is used as a name";
    UNFINISHED_TEXT = 202, "a text is not closed on its line";
    TWICE_SAID = 203, "a line that may stand once stands twice";
    MISSING_LINE = 204, "a line that is required is missing";
    KNOWINGLY = 205, "a line passes no warning over, or gives no reason";
    UNKNOWN_NAME = 300, "a name is not known";
    DUPLICATE_NAME = 301, "a name is declared twice";
    AMBIGUOUS_PLACE = 302, "a place's name fits several places";
    UNKNOWN_PLACE = 303, "a place or issuer is not known";
    UNKNOWN_TERM = 304, "a term does not belong to its choice";
    UNKNOWN_CODE = 305, "a code or edition is not known";
    SHAPE = 400, "a value does not have the shape that is asked";
    UNIT = 401, "a unit is not known or does not measure this";
    NUMBER = 402, "a figure cannot be read";
    PART = 403, "a fact cannot play the part that it is given";
    LIST = 404, "a list is tested in a way that cannot be";
    NOT_HERE = 405, "a condition may not stand here";
    DATE = 500, "a date cannot be read or does not exist";
    DATE_ORDER = 501, "dates stand in an impossible order";
    INSTRUMENT = 600, "an instrument is not complete or not allowed to do this";
    DUPLICATE_ID = 601, "an id or number is used twice";
    NO_SECTION = 602, "a patch names a section that its base lacks";
    UNKNOWN_INSTRUMENT = 603, "an instrument is not known";
    CIRCLE = 604, "things depend on each other in a circle";
    AUTHORITY = 605, "an issuer may not do this";
    NUMBERED_AS = 606, "it is not said which edition's numbers are meant";
    PROVENANCE_MISSING = 607, "a section of the built-in library names no source";
    NO_TABLE = 608, "a demand names a table that is not there";
    BOUNDARY_FILE = 609, "the file of a boundary cannot be had";
    NOT_GEOJSON = 610, "the file of a boundary is not GeoJSON";
    NO_POLYGON = 611, "a boundary is not made of polygons";
    COORDINATES = 612, "a position of a boundary lies nowhere on earth";
    RING = 613, "a ring of a boundary is open or crosses itself";
    NO_AREA = 614, "a ring of a boundary encloses no area";
    FAR_SIDE = 615, "a side of a boundary runs more than half around the earth";
    QUESTION_CIRCLE = 700, "questions depend on each other in a circle";
    QUESTION = 701, "a demand does not fit its question";
    ORDER = 702, "a question cannot be asked as it is declared";
    JOB = 800, "a job cannot be used";
    JOB_NAME = 801, "a job names something that is not known";
    JOB_VALUE = 802, "a value of a job does not fit its fact";
    JOB_DATE = 803, "a job's dates contradict the glossary or the options";
    JOB_TWICE = 804, "a job says one thing twice";
    EXAMPLE = 900, "an example does not come out as expected";
    NO_SOURCE = 5100, "a section does not say where it was read";
    LEFT_BEHIND = 5101, "sub-sections stay behind";
    SAME_DAY = 5102, "one section is patched twice on one day";
    TAKEN_AWAY = 5103, "an outer place took away what is patched";
    DEFEATED = 5104, "a power always defeats an amendment";
    TWIN = 5105, "an amended section has a twin in another code";
    TIED_ADOPTIONS = 5106, "two adoptions are tied";
    DISPLACED = 5107, "an adoption displaces another code by the way";
    AMENDMENTS_STAY = 5108, "amendments stay through a re-adoption";
    BEFORE_PUBLISHED = 5109, "an edition is adopted before it was published";
    BEFORE_ADOPTED = 5110, "an instrument is in force before it was adopted";
    BARE_ANY = 5111, "an instruction loosens for any run";
    UNDATED = 5112, "the newest edition is taken, and one has no day";
    NOT_NEEDED = 5113, "a line passes a warning over that is not there";
    STICKS_OUT = 5114, "a place's area sticks out of the place around it";
    AREAS_OVERLAP = 5115, "the areas of two places overlap";
    OTHER_SYSTEM = 5116, "a boundary names another reference system";
    CONTRADICTION = 5201, "two texts cannot both be followed";
    UNANSWERED = 5202, "a place leaves unanswered what others answer";
    UNGOVERNED = 5203, "no code governs some jobs";
    DEAD = 5204, "a text binds no job";
    IDLE_CONDITION = 5205, "a condition decides no job";
    IDLE_EXCEPTION = 5206, "an exception never applies";
    COVERED = 5207, "a demand changes no answer";
    ORPHANED = 5208, "an amendment ends with the edition that it amends";
    NEVER_STANDS = 5209, "an adoption is never in force";
    IDLE_POWER = 5210, "nothing falls under a power";
    UNREAD_PLACE = 5211, "nobody has read the rules of a place";
    UNDECIDED = 5212, "it could not be decided within the bound";
    NO_EXAMPLE = 5301, "no example turns on a clause";
    UNNOTICED = 5302, "a change that no example notices";
}
