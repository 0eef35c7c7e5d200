//! The runs that branch off, one below the other, each with the appliance beside it.

use super::board::{Anchor, Block, Board, Glyph, Look, Rect, Stroke, at};
use super::branches::{Appliance, Branch, Joined, Material};
use super::layout::{APPLIANCE, Columns, fittings};
use super::scene::{Scene, Sight};
use super::spots::Stretch;
use crate::report::facts::Known;

/// Between two lines.
const GAP: i32 = 14;
/// The pipe behind tubing that a clamp is on.
const BEHIND: i32 = 44;

struct Row {
    /// From the main line down to this one.
    y: i32,
    up: i32,
    down: i32,
    heading: Block,
    notes: Block,
    tail: Option<(Block, Block)>,
    appliance: Option<Block>,
}

/// All lines with their places below the main line.
pub(super) struct Rows {
    rows: Vec<Row>,
}

impl Rows {
    pub(super) fn new(scene: &Scene, columns: &Columns) -> Rows {
        let mut rows: Vec<Row> = Vec::new();
        for branch in &scene.branches {
            let wide = columns.run_end - columns.run;
            let (own, rest) = if branch.tail.is_some() { (wide * 11 / 20, wide * 9 / 20) } else { (wide, 0) };
            let of = |run: &super::branches::Run, most: i32| {
                (Block::titled(std::slice::from_ref(&run.heading), most - 10), Block::plain(&run.notes, most - 10))
            };
            let (heading, notes) = branch.run.as_ref().map(|run| of(run, own)).unwrap_or_default();
            let tail = branch.tail.as_ref().map(|run| of(run, rest));
            let appliance = branch.appliance.as_ref().map(|appliance| {
                let mut label = appliance.label.clone();
                if appliance.sight == Sight::Presumed {
                    label.push(scene.reader.say("picture-presumed"));
                }
                Block::titled(&label, APPLIANCE - 40)
            });
            let boxed = appliance.as_ref().map_or(0, |block| block.height() + 16) / 2 + 2;
            let mut up = (heading.height() + 14).max(boxed);
            let mut down = (notes.height() + 14).max(boxed);
            if let Some((heading, notes)) = &tail {
                up = up.max(heading.height() + 14);
                down = down.max(notes.height() + 14);
            }
            let y = rows.last().map_or(0, |row: &Row| row.y + row.down + GAP + up);
            rows.push(Row { y, up, down, heading, notes, tail, appliance });
        }
        Rows { rows }
    }

    /// The room above the first line.
    pub(super) fn first(&self) -> i32 {
        self.rows.first().map_or(0, |row| row.up)
    }

    /// Where the last line's texts end, when the first line is here.
    pub(super) fn bottom(&self, line: i32) -> i32 {
        line + self.rows.last().map_or(20, |row| row.y + row.down)
    }

    /// How far below the main line the first tubing is.
    pub(super) fn first_tubing(&self, scene: &Scene) -> Option<i32> {
        self.find(scene, |branch| branch.run.as_ref().is_some_and(|run| run.material.corrugated()))
            .or_else(|| self.find(scene, |branch| branch.run.is_some()))
    }

    pub(super) fn first_appliance(&self, scene: &Scene) -> Option<i32> {
        self.find(scene, |branch| branch.appliance.is_some())
    }

    fn find(&self, scene: &Scene, fits: impl Fn(&Branch) -> bool) -> Option<i32> {
        let at = scene.branches.iter().position(fits)?;
        self.rows.get(at).map(|row| row.y)
    }
}

/// Draws all lines; gives where the lowest ends.
pub(super) fn draw(board: &mut Board, scene: &Scene, columns: &Columns, rows: &Rows, line: i32) -> i32 {
    // It reaches down to the last line that a run is on.
    let runs = scene.branches.iter().zip(&rows.rows).filter(|(branch, _)| branch.run.is_some());
    let last = line + runs.map(|(_, row)| row.y).max().unwrap_or(0);
    let x = columns.header;
    match &scene.header.manifold {
        Known::Given(true) | Known::Presumed(true) => {
            // Long enough for a clamp at its end, where there is one.
            let clamped = scene.jumper.as_ref().is_some_and(|jumper| jumper.spot == Some(Stretch::Manifold));
            let h = 14 + if clamped { rows.bottom(line) + 28 - line } else { last - line + 14 };
            board.frame(Look::Plain, Rect { x: x - 9, y: line - 14, w: 18, h });
        }
        Known::Unknown => board.frame(Look::Unknown, Rect { x: x - 13, y: line - 16, w: 26, h: last - line + 32 }),
        // No manifold: the runs branch off at tees.
        Known::Given(false) | Known::Presumed(false) => {
            board.pipe(Material::Untold, at(x - 9, line), x + 9);
            if last > line {
                board.frame(Look::Plain, Rect { x: x - 4, y: line, w: 8, h: last - line });
            }
        }
    }
    let mut bottom = line;
    for (branch, row) in scene.branches.iter().zip(&rows.rows) {
        let y = line + row.y;
        one(board, scene, columns, branch, row, y);
        bottom = bottom.max(y + row.down);
    }
    bottom
}

fn one(board: &mut Board, scene: &Scene, columns: &Columns, branch: &Branch, row: &Row, y: i32) {
    let behind = scene.jumper.as_ref().is_some_and(|jumper| jumper.spot == Some(Stretch::After))
        && branch.run.as_ref().is_some_and(|run| run.material.corrugated());
    piping(board, columns, branch, row, y, branch.joined == Joined::Said && !behind);
    if behind {
        board.pipe(Material::Steel, at(columns.run_end, y), columns.run_end + BEHIND);
        if branch.joined == Joined::Said {
            board.pipe(Material::Steel, at(columns.run_end + BEHIND, y), columns.appliance);
        }
    }
    if let (Some(block), Some(appliance)) = (&row.appliance, &branch.appliance) {
        draw_appliance(board, columns.appliance, appliance, block, y);
        if branch.joined == Joined::Unknown {
            not_known_how(board, scene, columns, branch, y, behind);
        }
    }
}

/// The run and what follows it; `reach` where its last pipe goes on to the appliance.
fn piping(board: &mut Board, columns: &Columns, branch: &Branch, row: &Row, y: i32, reach: bool) {
    let wide = columns.run_end - columns.run;
    let middle = columns.run + if branch.tail.is_some() { wide * 11 / 20 } else { wide };
    if let Some(run) = &branch.run {
        let start = start(board, columns, branch, y);
        let end = if branch.tail.is_none() && reach { columns.appliance } else { middle };
        board.pipe(run.material, at(start, y), end);
        fittings(board, run.material, start, end, y);
        if branch.joined == Joined::Apart && branch.appliance.is_none() && branch.tail.is_none() {
            // Where it is not said, it may end anywhere.
            let (glyph, x) = if run.end.is_some() { (Glyph::Cap, end) } else { (Glyph::Question, end + 14) };
            board.glyph(glyph, at(x, y));
        }
        board.block(at(columns.run + 6, y - 12 - row.heading.height()), Anchor::Start, &row.heading);
        board.block(at(columns.run + 6, y + 10), Anchor::Start, &row.notes);
    }
    if let (Some(tail), Some((heading, notes))) = (&branch.tail, &row.tail) {
        let end = if reach { columns.appliance } else { columns.run_end };
        board.pipe(tail.material, at(middle, y), end);
        board.block(at(middle + 6, y - 12 - heading.height()), Anchor::Start, heading);
        board.block(at(middle + 6, y + 10), Anchor::Start, notes);
    }
}

/// Where a run begins: at the header, apart from it, or it is not known whether.
fn start(board: &mut Board, columns: &Columns, branch: &Branch, y: i32) -> i32 {
    match branch.from_header {
        Known::Given(true) | Known::Presumed(true) => return columns.header + 9,
        Known::Given(false) | Known::Presumed(false) => board.glyph(Glyph::Cap, at(columns.run, y)),
        Known::Unknown => {
            let from = columns.header + 13;
            board.line(Stroke::Dashed, &[at(from, y), at(columns.run, y)]);
            board.glyph(Glyph::Question, at(from.midpoint(columns.run), y));
        }
    }
    columns.run
}

fn draw_appliance(board: &mut Board, x: i32, appliance: &Appliance, block: &Block, y: i32) {
    let h = block.height() + 16;
    let room = Rect { x, y: y - h / 2, w: APPLIANCE, h };
    if appliance.sight == Sight::Unknown {
        board.line(Stroke::Dashed, &room.outline());
        board.frame(Look::Unknown, Rect { x: room.x + 8, y: y - 12, w: 22, h: 24 });
    } else {
        board.frame(Look::Plain, room);
    }
    board.block(at(room.x + 36, y - block.height() / 2 - 1), Anchor::Start, block);
    match appliance.powered {
        _ if appliance.sight == Sight::Unknown => {}
        Known::Given(true) | Known::Presumed(true) => board.glyph(Glyph::Circuit, at(room.x + 18, y)),
        Known::Given(false) | Known::Presumed(false) => {}
        Known::Unknown => board.glyph(Glyph::Question, at(room.x + 18, y)),
    }
}

/// That nobody says how the gas comes to the appliance.
fn not_known_how(board: &mut Board, scene: &Scene, columns: &Columns, branch: &Branch, y: i32, behind: bool) {
    if branch.run.is_none() {
        let words = scene.reader.say("picture-run-unknown");
        let block = Block::plain(&[words], columns.run_end - columns.run - 10);
        board.block(at(columns.run + 6, y - block.height() / 2 - 1), Anchor::Start, &block);
    }
    let from = columns.run_end + if behind { BEHIND } else { 0 };
    board.line(Stroke::Dashed, &[at(from, y), at(columns.appliance, y)]);
    board.glyph(Glyph::Question, at(from.midpoint(columns.appliance), y));
}
