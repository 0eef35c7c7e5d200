//! Below the drawing: each element by its number, what is known of it, how it stands; and
//! the same for a page that tells it itself.

use super::board::{Anchor, Block, Board, Glyph, Stroke, at};
use super::layout::MARGIN;
use super::marks::{Line, Mark};
use super::scene::{Entry, Scene};
use crate::report::speech::Reader;
use serde::Serialize;

/// Between two columns, and between two elements.
const GAP: i32 = 28;

struct Told {
    number: usize,
    head: Block,
    facts: Block,
    lines: Vec<(Mark, Block)>,
    height: i32,
}

/// An element of the drawing for a page that tells how it stands.
#[derive(Debug, Serialize)]
pub(crate) struct Listed {
    number: usize,
    name: String,
    mark: Marked,
    facts: Vec<String>,
    lines: Vec<ListedLine>,
}

/// A finding on an element.
#[derive(Debug, Serialize)]
struct ListedLine {
    mark: Marked,
    title: String,
    answer: String,
    cited: String,
}

/// How something stands: the name of its look, and its words.
#[derive(Debug, Serialize)]
struct Marked {
    name: &'static str,
    words: String,
}

impl Marked {
    fn new(mark: Mark, reader: Reader) -> Marked {
        Marked { name: mark.name(), words: mark.words(reader) }
    }
}

/// Each element as the drawing numbers it.
pub(super) fn listed(scene: &Scene) -> Vec<Listed> {
    let reader = scene.reader;
    let line = |line: &Line| ListedLine {
        mark: Marked::new(line.mark, reader),
        title: line.title.clone(),
        answer: line.answer.clone(),
        cited: line.cited.join("; "),
    };
    let entry = |(number, entry): (usize, &Entry)| Listed {
        number,
        name: entry.name.clone(),
        mark: Marked::new(entry.mark(), reader),
        facts: entry.facts.clone(),
        lines: entry.lines.iter().map(line).collect(),
    };
    (1..).zip(&scene.legend).map(entry).collect()
}

/// Draws the legend from here down; gives where it ends. With `cited` each finding
/// names the texts on which it stands.
pub(super) fn draw(board: &mut Board, scene: &Scene, wide: i32, top: i32, cited: bool) -> i32 {
    if scene.legend.is_empty() {
        return top;
    }
    let reader = scene.reader;
    board.line(Stroke::Thin, &[at(MARGIN, top), at(wide - MARGIN, top)]);
    let mut y = top + 10;
    y += board.heading(at(MARGIN, y), wide - 2 * MARGIN, &reader.say("picture-legend")) + 8;
    let columns = if wide >= 900 && scene.legend.len() > 1 { 2 } else { 1 };
    let column = (wide - 2 * MARGIN - GAP * (columns - 1)) / columns;
    let told: Vec<Told> = scene
        .legend
        .iter()
        .enumerate()
        .map(|(at, entry)| Told::new(at + 1, entry, column - 34, reader, cited))
        .collect();
    let split = if columns > 1 { even(&told) } else { told.len() };
    let (mut ends, mut down) = (y, y);
    for (number, one) in told.iter().enumerate() {
        if number == split {
            down = y;
        }
        one.draw(board, if number < split { MARGIN } else { MARGIN + column + GAP }, down);
        down += one.height;
        ends = ends.max(down);
    }
    ends
}

/// After how many elements the second column begins, so that neither is much the longer.
fn even(told: &[Told]) -> usize {
    let high = |part: &[Told]| part.iter().map(|one| one.height).sum::<i32>();
    let longer = |at: &usize| told.split_at_checked(*at).map_or(i32::MAX, |(one, other)| high(one).max(high(other)));
    (1..=told.len()).min_by_key(longer).unwrap_or(told.len())
}

impl Told {
    fn new(number: usize, entry: &Entry, most: i32, reader: Reader, cited: bool) -> Told {
        let mark = entry.mark().words(reader);
        let title = reader.say_with("picture-entry", &[("name", &entry.name), ("mark", &mark)]);
        let head = Block::titled(&[title], most);
        let facts = Block::plain(&entry.facts, most);
        let of = |line: &Line| {
            let mut texts = vec![line.words(reader)];
            if cited && !line.cited.is_empty() {
                texts.push(format!("[{}]", line.cited.join("; ")));
            }
            (line.mark, Block::plain(&texts, most - 26))
        };
        let lines: Vec<_> = entry.lines.iter().map(of).collect();
        let below: i32 = lines.iter().map(|(_, block)| block.height() + 4).sum();
        let height = head.height() + facts.height() + 6 + below + 16;
        Told { number, head, facts, lines, height }
    }

    fn draw(&self, board: &mut Board, x: i32, y: i32) {
        board.glyph(Glyph::Number(self.number), at(x + 10, y + 10));
        let mut down = y + board.block(at(x + 34, y), Anchor::Start, &self.head);
        down += board.block(at(x + 34, down), Anchor::Start, &self.facts) + 6;
        for (mark, block) in &self.lines {
            board.glyph(Glyph::Mark(*mark), at(x + 42, down + 9));
            down += board.block(at(x + 60, down), Anchor::Start, block) + 4;
        }
    }
}

/// What stands below everything, a paragraph each; gives where it ends.
pub(super) fn foot(board: &mut Board, wide: i32, top: i32, paragraphs: &[String]) -> i32 {
    if paragraphs.is_empty() {
        return top;
    }
    let mut y = top + 10;
    board.line(Stroke::Thin, &[at(MARGIN, y), at(wide - MARGIN, y)]);
    y += 8;
    for paragraph in paragraphs {
        y += board.block(
            at(MARGIN, y),
            Anchor::Start,
            &Block::plain(std::slice::from_ref(paragraph), wide - 2 * MARGIN),
        );
        y += 4;
    }
    y
}
