//! The runs that branch off, one below the other, each with the appliance beside it.

use super::board::{Anchor, Block, Board, Glyph, Look, Rect, Stroke, at};
use super::bond::Spot;
use super::branches::{Branch, Joined, Material, Run};
use super::layout::{APPLIANCE, Columns};
use super::scene::{Scene, Sight};
use super::supply;
use crate::report::facts::Known;

/// Between two lines.
const GAP: i32 = 14;
/// The room for piping behind tubing that bears the clamp.
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

    /// Where the first tubing is drawn that branches off, and how far below the main line.
    pub(super) fn first_tubing(&self, scene: &Scene, columns: &Columns) -> Option<(Span, i32)> {
        let number = tubing(scene)?;
        let (branch, row) = (scene.branches.get(number)?, self.rows.get(number)?);
        Some((Span::new(scene, columns, number, branch), row.y))
    }

    pub(super) fn first_appliance(&self, scene: &Scene) -> Option<i32> {
        self.find(scene, |branch| branch.appliance.is_some())
    }

    fn find(&self, scene: &Scene, fits: impl Fn(&Branch) -> bool) -> Option<i32> {
        let at = scene.branches.iter().position(fits)?;
        self.rows.get(at).map(|row| row.y)
    }
}

/// The line whose run is the first tubing that branches off; the first run where there is none.
fn tubing(scene: &Scene) -> Option<usize> {
    let of =
        |fits: &dyn Fn(&Run) -> bool| scene.branches.iter().position(|branch| branch.run.as_ref().is_some_and(fits));
    of(&|run| run.material.corrugated()).or_else(|| of(&|_| true))
}

/// From where to where a run is drawn, and where its fittings are if it is tubing. A fitting
/// that bears the clamp stands free of what it joins.
pub(super) struct Span {
    start: i32,
    end: i32,
    pub(super) near: i32,
    pub(super) far: i32,
    /// Whether it reaches the appliance.
    pub(super) reach: bool,
    /// Whether the clamp is on piping behind it.
    behind: bool,
}

impl Span {
    fn new(scene: &Scene, columns: &Columns, number: usize, branch: &Branch) -> Span {
        let bears = tubing(scene) == Some(number) && supply::tubing(&scene.stations).is_none();
        let spot = scene.jumper.as_ref().filter(|_| bears).map(|jumper| jumper.spot);
        let wide = columns.run_end - columns.run;
        let start = match (&branch.from_header, spot) {
            (Known::Given(true) | Known::Presumed(true), _) => columns.header + 9,
            (Known::Given(false) | Known::Presumed(false), Some(Spot::Fitting | Spot::Tubing)) => columns.header + 22,
            (Known::Unknown, Some(Spot::Fitting | Spot::Tubing)) => columns.header + 53,
            _ => columns.run,
        };
        let behind = spot == Some(Spot::After);
        let reach = branch.joined == Joined::Said && !behind;
        let end = match spot {
            _ if branch.tail.is_some() => columns.run + wide * 11 / 20,
            _ if reach => columns.appliance,
            Some(Spot::FarFitting) => columns.run_end + 31,
            _ => columns.run_end,
        };
        let near = start + if spot == Some(Spot::Fitting) { 23 } else { 5 };
        let far = end - if spot == Some(Spot::FarFitting) && reach { 18 } else { 5 };
        Span { start, end, near, far, reach, behind }
    }

    /// A place on the tubing itself.
    pub(super) fn on(&self) -> i32 {
        self.start + 49
    }

    fn draw(&self, board: &mut Board, material: Material, y: i32) {
        if !material.corrugated() {
            return board.pipe(material, at(self.start, y), self.end);
        }
        // Of what the pieces beyond the fittings are is not said.
        let from = if self.near > self.start + 5 { self.near } else { self.start };
        let to = if self.far < self.end - 5 { self.far } else { self.end };
        board.pipe(Material::Untold, at(self.start, y), from);
        board.pipe(material, at(from, y), to);
        board.pipe(Material::Untold, at(to, y), self.end);
        board.glyph(Glyph::Fitting, at(self.near, y));
        board.glyph(Glyph::Fitting, at(self.far, y));
    }
}

/// Draws all lines; gives where the lowest ends.
pub(super) fn draw(board: &mut Board, scene: &Scene, columns: &Columns, rows: &Rows, line: i32) -> i32 {
    // It reaches down to the last line whose run may branch off from it.
    let off = |branch: &Branch| branch.run.is_some() && !branch.from_header.is(false);
    let runs = scene.branches.iter().zip(&rows.rows).filter(|(branch, _)| off(branch));
    let last = line + runs.map(|(_, row)| row.y).max().unwrap_or(0);
    let x = columns.header;
    match &scene.header.manifold {
        Known::Given(true) | Known::Presumed(true) => {
            // Long enough for a clamp at its end, where there is one.
            let clamped = scene.jumper.as_ref().is_some_and(|jumper| jumper.spot == Spot::Manifold);
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
    for (number, (branch, row)) in scene.branches.iter().zip(&rows.rows).enumerate() {
        let y = line + row.y;
        let span = Span::new(scene, columns, number, branch);
        one(board, scene, columns, (branch, &span), row, y);
        bottom = bottom.max(y + row.down);
    }
    bottom
}

fn one(board: &mut Board, scene: &Scene, columns: &Columns, (branch, span): (&Branch, &Span), row: &Row, y: i32) {
    let middle = columns.run + (columns.run_end - columns.run) * 11 / 20;
    if let Some(run) = &branch.run {
        match branch.from_header {
            Known::Given(true) | Known::Presumed(true) => {}
            Known::Given(false) | Known::Presumed(false) => board.glyph(Glyph::Cap, at(span.start, y)),
            Known::Unknown => {
                let from = columns.header + 13;
                board.line(Stroke::Dashed, &[at(from, y), at(span.start, y)]);
                board.glyph(Glyph::Question, at(from.midpoint(span.start), y));
            }
        }
        span.draw(board, run.material, y);
        let end = span.end;
        if branch.joined == Joined::Apart && branch.appliance.is_none() && branch.tail.is_none() {
            // Where it is not said, it may end anywhere.
            let (glyph, x) = if run.end.is_some() { (Glyph::Cap, end) } else { (Glyph::Question, end + 14) };
            board.glyph(glyph, at(x, y));
        }
        board.block(at(columns.run + 6, y - 12 - row.heading.height()), Anchor::Start, &row.heading);
        board.block(at(columns.run + 6, y + 10), Anchor::Start, &row.notes);
    }
    if let (Some(tail), Some((heading, notes))) = (&branch.tail, &row.tail) {
        let end = if span.reach { columns.appliance } else { columns.run_end };
        board.pipe(tail.material, at(middle, y), end);
        board.block(at(middle + 6, y - 12 - heading.height()), Anchor::Start, heading);
        board.block(at(middle + 6, y + 10), Anchor::Start, notes);
    }
    if span.behind {
        let said = branch.joined == Joined::Said;
        let to = if said { columns.appliance } else { columns.run_end + BEHIND };
        board.pipe(rear(scene, branch), at(columns.run_end, y), to);
    }
    if let (Some(block), Some(appliance)) = (&row.appliance, &branch.appliance) {
        let h = block.height() + 16;
        let room = Rect { x: columns.appliance, y: y - h / 2, w: APPLIANCE, h };
        if appliance.sight == Sight::Unknown {
            board.line(Stroke::Dashed, &frame(room));
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
        if branch.joined == Joined::Unknown {
            if branch.run.is_none() {
                let words = scene.reader.say("picture-run-unknown");
                let block = Block::plain(&[words], columns.run_end - columns.run - 10);
                board.block(at(columns.run + 6, y - block.height() / 2 - 1), Anchor::Start, &block);
            }
            let from = match branch.run {
                Some(_) if span.behind => columns.run_end + BEHIND,
                Some(_) if branch.tail.is_none() => span.end,
                _ => columns.run_end,
            };
            board.line(Stroke::Dashed, &[at(from, y), at(columns.appliance, y)]);
            board.glyph(Glyph::Question, at(from.midpoint(columns.appliance), y));
        }
    }
}

/// Of what the piping is that bears the clamp behind tubing: what is said to follow, or pipe where the clamp is on pipe.
fn rear(scene: &Scene, branch: &Branch) -> Material {
    let rigid = scene.jumper.as_ref().is_some_and(|jumper| jumper.rigid);
    match &branch.tail {
        Some(tail) if !rigid || tail.rigid() => tail.material,
        _ if rigid => Material::Steel,
        _ => Material::Untold,
    }
}

fn frame(room: Rect) -> [super::board::Point; 5] {
    let (right, bottom) = (room.x + room.w, room.y + room.h);
    [at(room.x, room.y), at(right, room.y), at(right, bottom), at(room.x, bottom), at(room.x, room.y)]
}
