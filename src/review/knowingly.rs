//! Warnings that an author has looked at and passes over with a reason, and GR5113:
//! a line that passes none over.

use crate::rules::Rules;
use crate::syntax::codes::{self, Code};
use crate::syntax::diagnostic::{Diagnostic, Location};
use crate::syntax::tree::{Knowingly, Span};

/// What is doubtful in a library.
#[derive(Debug, Default)]
pub(crate) struct Doubts {
    /// What its authors should look at, in the order of the files.
    pub(crate) told: Vec<Diagnostic>,
    /// What they looked at, each with the reason why it stands.
    pub(crate) silenced: Vec<(Diagnostic, String)>,
}

/// Takes the warnings out that a `knowingly` names within the block that it stands
/// in. Where nothing is wrong with the library and all warnings of its code were looked
/// for, one that names none is told.
pub(super) fn passed_over(rules: &Rules, found: Vec<Diagnostic>, complete: &dyn Fn(Code) -> bool) -> Doubts {
    let mut lines: Vec<Line<'_>> = rules
        .trees()
        .flat_map(|(file, tree)| tree.knowingly.iter().map(move |line| (file, line)))
        .map(|(file, line)| Line { at: Location { file, span: line.span }, line, used: false })
        .collect();
    let mut doubts = Doubts::default();
    for told in found {
        let mut why = None;
        for line in lines.iter_mut().filter(|line| line.covers(&told)) {
            line.used = true;
            why = Some(line.line.why.text.to_string());
        }
        match why {
            Some(why) => doubts.silenced.push((told, why)),
            None => doubts.told.push(told),
        }
    }
    let mut idle = lines.iter().filter(|line| !line.used && line.code().is_none_or(complete)).peekable();
    // Whether nothing is wrong takes a look at the whole library: only where it decides.
    if idle.peek().is_some() && rules.usable() {
        doubts.told.extend(idle.map(Line::not_needed));
    }
    doubts
}

struct Line<'r> {
    at: Location,
    line: &'r Knowingly,
    used: bool,
}

impl Line<'_> {
    fn covers(&self, told: &Diagnostic) -> bool {
        let Span { start, end } = self.line.within;
        let inside = start <= told.at.span.start && told.at.span.end <= end;
        self.at.file == told.at.file && inside && *told.code.to_string() == *self.line.code.text
    }

    fn code(&self) -> Option<Code> {
        codes::ALL.iter().map(|(code, _)| *code).find(|code| *code.to_string() == *self.line.code.text)
    }

    fn not_needed(&self) -> Diagnostic {
        let message = format!("`{}` is told of nothing in the block of this line", self.line.code.text);
        Diagnostic::new(codes::NOT_NEEDED, self.at, message)
            .help("take the line out, or move it into the block of which the warning is told")
    }
}
