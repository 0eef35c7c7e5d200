//! From marked tokens to lines: what stands on each, with its comments, its
//! columns, and where a long one is broken.

use super::marks::{Class, Mark, Start};
use super::tokens::{Comment, Tokens};
use super::{INDENT, WIDTH};

/// How far a line that goes on stands in from the one that it belongs to: past
/// whatever may stand in the block below.
const HANG: usize = 2 * INDENT;
/// A column wider than this does not move the others of its lines.
const WIDE_COLUMN: usize = 48;
/// Comments behind lines longer than this are not aligned.
const WIDE_LINE: usize = 72;

/// A line of the laid-out file.
#[derive(Debug)]
pub(super) struct Line<'t> {
    start: Start,
    /// It goes on with the line above it.
    hangs: bool,
    /// A blank line stands above it.
    blank: bool,
    /// It holds a comment and nothing else.
    comment: bool,
    pieces: Vec<Piece<'t>>,
    /// The comment behind it.
    trailing: Option<&'t str>,
    /// The blanks before that comment.
    trailing_gap: usize,
}

#[derive(Clone, Copy, Debug)]
struct Piece<'t> {
    text: &'t str,
    /// The blanks before it.
    gap: usize,
    mark: Mark,
}

impl<'t> Line<'t> {
    fn new(start: Start, hangs: bool, blank: bool) -> Line<'t> {
        Line { start, hangs, blank, comment: false, pieces: Vec::new(), trailing: None, trailing_gap: 2 }
    }

    fn comment(text: &'t str, depth: usize, hangs: bool, blank: bool) -> Line<'t> {
        let piece = Piece { text, gap: 0, mark: Mark::default() };
        let start = Start { depth, class: Class::Plain };
        Line { comment: true, pieces: vec![piece], ..Line::new(start, hangs, blank) }
    }

    fn indent(&self) -> usize {
        self.start.depth * INDENT + if self.hangs { HANG } else { 0 }
    }

    fn width(&self) -> usize {
        self.indent() + width(&self.pieces)
    }
}

/// How wide these stand beside each other; what is before the first does not count.
fn width(pieces: &[Piece<'_>]) -> usize {
    let all: usize = pieces.iter().map(|piece| piece.gap + piece.text.chars().count()).sum();
    all - pieces.first().map_or(0, |piece| piece.gap)
}

/// The laid-out text, its lines ended by line feeds.
pub(super) fn text(tokens: &Tokens<'_>, marks: &[Mark]) -> String {
    let mut lines = compose(tokens, marks);
    columns(&mut lines);
    let mut lines: Vec<Line<'_>> = lines.into_iter().flat_map(broken).collect();
    align_comments(&mut lines);
    let mut text = String::new();
    for line in &lines {
        if line.blank && !text.is_empty() {
            text.push('\n');
        }
        push_blanks(&mut text, line.indent());
        for (at, piece) in line.pieces.iter().enumerate() {
            push_blanks(&mut text, if at == 0 { 0 } else { piece.gap });
            text.push_str(piece.text);
        }
        if let Some(comment) = line.trailing {
            push_blanks(&mut text, line.trailing_gap);
            text.push_str(comment);
        }
        text.push('\n');
    }
    text
}

fn push_blanks(text: &mut String, count: usize) {
    text.extend(std::iter::repeat_n(' ', count));
}

/// What stands on each line, before columns are aligned and long lines broken.
fn compose<'t>(tokens: &Tokens<'t>, marks: &[Mark]) -> Vec<Line<'t>> {
    let mut lines: Vec<Line<'t>> = Vec::new();
    let mut comments = tokens.comments.as_slice();
    // The line that is being written, and how deep it stands.
    let mut open = Start { depth: 0, class: Class::Plain };
    let mut previous = "";
    for (number, (token, mark)) in tokens.list.iter().zip(marks).enumerate() {
        let here = comments.partition_point(|comment| comment.before <= number);
        let (before, rest) = comments.split_at_checked(here).unwrap_or((comments, &[]));
        comments = rest;
        let goes_on = mark.line.is_none() && !lines.is_empty();
        let next = mark.line.map_or(open.depth, |start| start.depth);
        place(&mut lines, before, Around { above: open.depth, below: next, goes_on, blank: token.blank });
        if let Some(start) = mark.line {
            lines.push(Line::new(start, false, token.blank));
            open = start;
        } else if !before.is_empty() || lines.is_empty() {
            lines.push(Line::new(Start { class: Class::Plain, ..open }, goes_on, false));
        }
        if let Some(line) = lines.last_mut() {
            line.pieces.push(Piece { text: token.text, gap: gap(previous, token.text), mark: *mark });
        }
        previous = token.text;
    }
    place(&mut lines, comments, Around { above: open.depth, below: 0, goes_on: false, blank: true });
    lines
}

/// What stands around some comments.
struct Around {
    above: usize,
    below: usize,
    /// A line goes on behind them.
    goes_on: bool,
    /// A blank line, or the end of the file, stands behind them.
    blank: bool,
}

/// Comments between two tokens. Those on lines of their own stand as deep as what
/// comes below them; where a blank line parts them from that and none from what is
/// above, as deep as this.
fn place<'t>(lines: &mut Vec<Line<'t>>, comments: &[Comment<'t>], around: Around) {
    let mut comments = comments;
    if let Some((first, rest)) = comments.split_first()
        && first.trails
        && let Some(line) = lines.last_mut()
    {
        line.trailing = Some(first.text);
        comments = rest;
    }
    let first_group = comments.iter().skip(1).position(|comment| comment.blank).map_or(comments.len(), |at| at + 1);
    let touches = comments.first().is_some_and(|comment| !comment.blank) && !lines.is_empty();
    let parted = first_group < comments.len() || around.blank;
    let of_above = touches && parted && around.above > around.below;
    for (at, comment) in comments.iter().enumerate() {
        let depth = if of_above && at < first_group { around.above } else { around.below };
        let blank = comment.blank && !around.goes_on;
        lines.push(Line::comment(comment.text, depth, around.goes_on, blank));
    }
}

/// The blanks between two tokens of a line.
fn gap(before: &str, text: &str) -> usize {
    usize::from(!(before == "(" || text == ")" || text == ","))
}

/// Aligns the columns of lines of one class.
fn columns(lines: &mut [Line<'_>]) {
    let most = lines.iter().map(|line| starts(line).count()).max().unwrap_or(0);
    for column in 0..most {
        let mut at = 0;
        while at < lines.len() {
            let rest = lines.get_mut(at..).unwrap_or_default();
            let group = group(rest, column);
            align(rest.get_mut(..group).unwrap_or_default(), column);
            at += group.max(1);
        }
    }
}

/// How many lines from the first on belong together, as far as this column goes.
fn group(lines: &[Line<'_>], column: usize) -> usize {
    let Some(first) = lines.first() else { return 0 };
    let start = first.start;
    // The names of attributes stand in one column, whatever stands between them.
    let whole_block = start.class == Class::Attribute && column == 0;
    let belongs = |line: &Line<'_>| {
        let alike = line.start.class == start.class && line.start.depth == start.depth && !line.hangs;
        match (whole_block, line.comment) {
            (true, comment) => comment || alike || line.start.depth > start.depth,
            (false, comment) => (comment || alike) && !line.blank,
        }
    };
    1 + lines.iter().skip(1).take_while(|line| belongs(line)).count()
}

/// Where the columns of a line begin behind its first.
fn starts<'l>(line: &'l Line<'_>) -> impl Iterator<Item = usize> + 'l {
    line.pieces.iter().enumerate().filter(|(_, piece)| piece.mark.column.is_some()).map(|(at, _)| at)
}

/// Aligns one column of lines that belong together.
fn align(lines: &mut [Line<'_>], column: usize) {
    let Some(class) = lines.first().map(|line| line.start.class) else { return };
    let cell = |line: &Line<'_>| {
        let end = starts(line).nth(column)?;
        let from = column.checked_sub(1).and_then(|before| starts(line).nth(before)).unwrap_or(0);
        Some((end, width(line.pieces.get(from..end)?)))
    };
    let of_class = |line: &&mut Line<'_>| line.start.class == class && !line.comment;
    let cells: Vec<Option<(usize, usize)>> =
        lines.iter_mut().map(|line| if of_class(&line) { cell(line) } else { None }).collect();
    let widest =
        cells.iter().flatten().map(|(_, width)| *width).filter(|width| *width <= WIDE_COLUMN).max().unwrap_or(0);
    for (line, cell) in lines.iter_mut().zip(cells) {
        if let Some((end, width)) = cell
            && let Some(piece) = line.pieces.get_mut(end)
        {
            piece.gap = piece.mark.column.unwrap_or(1) + widest.saturating_sub(width);
        }
    }
}

/// A line as it is where it is short enough, else broken where its parts meet.
fn broken(line: Line<'_>) -> Vec<Line<'_>> {
    if line.width() <= WIDTH || line.comment {
        return vec![line];
    }
    // A line with a text in it is long because of the text.
    let has_text = line.pieces.iter().any(|piece| piece.text.starts_with('"'));
    let rank = |piece: &Piece<'_>| piece.mark.rank.filter(|rank| !has_text || *rank < super::marks::LIST);
    let mut lines: Vec<Line<'_>> = Vec::new();
    let (start, blank) = (line.start, line.blank);
    let mut rest = line.pieces.as_slice();
    let mut broken_at = 0;
    loop {
        let next = Line::new(start, line.hangs || !lines.is_empty(), blank && lines.is_empty());
        let room = WIDTH.saturating_sub(next.indent());
        // Behind a bracket that was broken, its own level begins a line again.
        let outer = |piece: &Piece<'_>| rank(piece).is_some_and(|rank| rank >= super::marks::OR && rank < broken_at);
        let at = if width(rest) <= room {
            rest.iter().skip(1).position(outer).map(|at| at + 1)
        } else {
            break_at(rest, room, &rank)
        };
        let (head, tail) = at.and_then(|at| rest.split_at_checked(at)).unwrap_or((rest, &[]));
        lines.push(Line { pieces: head.to_vec(), ..next });
        if tail.is_empty() {
            break;
        }
        broken_at = tail.first().and_then(rank).unwrap_or(0);
        rest = tail;
    }
    if let Some(last) = lines.last_mut() {
        last.trailing = line.trailing;
    }
    lines
}

/// Where to break: as far out in the condition as can be, and there as late as fits.
fn break_at(pieces: &[Piece<'_>], room: usize, rank: &dyn Fn(&Piece<'_>) -> Option<usize>) -> Option<usize> {
    let mut before = pieces.first().map_or(0, |piece| piece.text.chars().count());
    let mut best: Option<(usize, usize)> = None;
    for (at, piece) in pieces.iter().enumerate().skip(1) {
        if let Some(rank) = rank(piece) {
            if before > room {
                return best.map(|(at, _)| at).or(Some(at));
            }
            if best.is_none_or(|(_, lowest)| rank <= lowest) {
                best = Some((at, rank));
            }
        }
        before += piece.gap + piece.text.chars().count();
    }
    best.map(|(at, _)| at)
}

/// Aligns the comments behind lines that follow each other.
fn align_comments(lines: &mut [Line<'_>]) {
    let with = |line: &Line<'_>| line.trailing.is_some() && line.width() <= WIDE_LINE;
    for group in lines.chunk_by_mut(|a, b| with(a) && with(b) && !b.blank) {
        let widest = group.iter().map(Line::width).max().unwrap_or(0);
        for line in group {
            line.trailing_gap = 2 + widest.saturating_sub(line.width());
        }
    }
}
