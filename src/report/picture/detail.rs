//! The detail drawing of the bond: the stretches of piping with where a clamp may go,
//! the jumper with its measures, its landing, and the texts that ask for all of it.

use super::apart;
use super::board::{Anchor, Block, Board, Glyph, Look, Point, Rect, Stroke, TAG, at, count, tag_width};
use super::bond::Presence;
use super::branches::Material;
use super::describe;
use super::layout::{Columns, Laid, MARGIN};
use super::legend;
use super::marks::{Mark, Part};
use super::scene::{Scene, Sight};
use super::spots::{Leave, Spots, Stretch};
use super::stretches;
use super::wiring::{self, Ends, Measured, Plan};
use crate::report::facts::Known;

/// What the list below the drawing tells of.
pub(super) const PARTS: &[Part] = &[Part::Clamp, Part::Wire, Part::Landing, Part::Electrodes];

/// The room for a stretch; eight of them and another building beside them fit on a sheet that
/// lies on its side.
const CELL: i32 = 126;
/// Within it the room for the clamp.
const CLAMP: i32 = 30;
/// How far from its beginning the clamp is, and a fitting that it may be on.
const ON: i32 = 14;

/// What the drawing is called.
pub(super) fn title(scene: &Scene, reference: Option<&str>) -> String {
    match reference {
        Some(job) => scene.reader.say_with("picture-detail-of", &[("job", job)]),
        None => scene.reader.say("picture-detail"),
    }
}

/// Lays the drawing out. The list of how each part stands is drawn below it where `listed` is
/// set; elsewhere a page tells it in letters of its own.
pub(super) fn detail(
    scene: &Scene,
    spots: &Spots,
    title: &str,
    (head, foot): (&[String], &[String]),
    listed: bool,
) -> Laid {
    let mut board = Board::default();
    let cells: Vec<(Stretch, Leave)> = told(scene, spots).collect();
    let beside = if scene.power.other.is_some() { wiring::OTHER + 24 } else { 0 };
    let wide = (CELL * count(&cells)).max(950).max(wiring::needs(scene)).max(wiring::ground(scene));
    let (right, width) = (MARGIN + wide, 2 * MARGIN + wide + beside);
    let mut y = MARGIN;
    y += board.heading(at(MARGIN, y), width - 2 * MARGIN, title) + 4;
    y += board.block(at(MARGIN, y), Anchor::Start, &Block::plain(head, width - 2 * MARGIN));
    let mut note = vec![scene.reader.say("picture-detail-note")];
    note.extend(idle(scene, spots));
    y += board.block(at(MARGIN, y + 4), Anchor::Start, &Block::plain(&note, width - 2 * MARGIN)) + 16;
    let step = (right - MARGIN) / count(&cells).max(1);
    let labels: Vec<Block> =
        cells.iter().map(|(stretch, _)| Block::titled(&stretches::name(scene, *stretch), step - CLAMP - 6)).collect();
    let leaves: Vec<Block> =
        cells.iter().map(|(_, leave)| Block::plain(&[words(scene, *leave)], step - CLAMP - 6)).collect();
    let line = y + labels.iter().map(Block::height).max().unwrap_or(0) + 34;
    let below = line + 48;
    for (number, (((stretch, leave), label), words)) in cells.iter().zip(&labels).zip(&leaves).enumerate() {
        let left = MARGIN + step * i32::try_from(number).unwrap_or(0);
        // The clamp stands at the beginning of a stretch, the words beside it.
        let middle = left + CLAMP + (step - CLAMP) / 2;
        board.block(at(middle, line - 30 - label.height()), Anchor::Middle, label);
        piece(&mut board, scene, *stretch, at(left, line), step);
        let mark = match leave {
            Leave::MayNot => Some(Glyph::Cross),
            Leave::Open => Some(Glyph::Mark(Mark::Open)),
            Leave::Refer => Some(Glyph::Mark(Mark::Refer)),
            Leave::Conflict => Some(Glyph::Mark(Mark::Conflict)),
            Leave::May => Some(Glyph::Mark(Mark::Met)),
            Leave::Free | Leave::Silent => None,
        };
        if let Some(mark) = mark {
            // What is crossed out is crossed on the pipe itself.
            let away = if *leave == Leave::MayNot { 0 } else { 34 };
            board.glyph(mark, at(middle, line + away));
        }
        board.block(at(middle, below), Anchor::Middle, words);
    }
    let under = below + leaves.iter().map(Block::height).max().unwrap_or(0);
    let (ends, bottom) = clamp(&mut board, scene, &cells, step, line, under);
    let columns = Columns::plain(MARGIN, right, width);
    let entry = cells.iter().position(|(stretch, _)| *stretch == Stretch::Entry);
    let plan = Plan {
        measures: measures(scene),
        entry: entry.map(|number| MARGIN + step * i32::try_from(number).unwrap_or(0) + step / 2),
        // The landing stands away from the clamp, so that the wire has its length.
        first: if ends.is_some_and(|ends| ends.from.x < width / 2) { right - 340 } else { MARGIN },
    };
    let (_, lowest) = wiring::draw(&mut board, scene, &columns, ends, bottom, &plan);
    let height = if listed { legend::draw(&mut board, scene, width, lowest + 26, true) } else { lowest };
    let height = legend::foot(&mut board, width, height, foot);
    apart::set(&mut board, width, height + MARGIN);
    Laid { board, width, height: height + MARGIN }
}

/// The measures that are written along the wire.
fn measures(scene: &Scene) -> Vec<Measured> {
    let mut measures = Vec::new();
    let Some(jumper) = scene.jumper.as_ref().filter(|jumper| jumper.presence != Presence::Missing) else {
        return measures;
    };
    if let Some(words) = &jumper.way {
        measures.push(Measured { words: words.clone(), from_entry: true });
    }
    measures.push(Measured { words: jumper.measure.clone(), from_entry: false });
    measures
}

/// Whether a clamp may go there, in words.
fn words(scene: &Scene, leave: Leave) -> String {
    let reader = scene.reader;
    match leave {
        Leave::May => reader.say("picture-clamp-may"),
        Leave::MayNot => reader.say("picture-clamp-may-not"),
        Leave::Open => reader.say("picture-clamp-open"),
        Leave::Refer => reader.say("picture-clamp-refer"),
        Leave::Conflict => reader.say("picture-clamp-conflict"),
        Leave::Free => reader.say("picture-clamp-free"),
        Leave::Silent => reader.say("picture-clamp-silent"),
    }
}

/// The stretches that are shown.
fn told(scene: &Scene, spots: &Spots) -> impl Iterator<Item = (Stretch, Leave)> {
    spots.each.iter().copied().filter(|(stretch, _)| stretches::shown(scene, *stretch))
}

/// What is to be known where no jumper is surely required.
fn idle(scene: &Scene, spots: &Spots) -> Option<String> {
    spots.idle.then(|| scene.reader.say("picture-detail-idle"))
}

/// The drawing in sentences.
pub(super) fn describe(scene: &Scene, spots: &Spots) -> String {
    let along: Vec<String> = told(scene, spots)
        .map(|(stretch, leave)| format!("{} – {}", stretches::name(scene, stretch).join(" – "), words(scene, leave)))
        .collect();
    let along = scene.reader.say_with("picture-desc-line", &[("things", &along.join("; "))]);
    let mut sentences = vec![along];
    sentences.extend(idle(scene, spots));
    sentences.extend(describe::bond(scene));
    describe::told(&sentences)
}

/// One stretch of piping.
fn piece(board: &mut Board, scene: &Scene, stretch: Stretch, from: Point, step: i32) {
    let Point { x, y } = from;
    let middle = x + CLAMP + (step - CLAMP) / 2;
    let tubing = stretches::tubing(scene);
    // What leads to a thing is drawn as pipe only where the job has pipe.
    let lead = if stretches::rigid(scene, Stretch::Before).is(true) { Material::Steel } else { Material::Untold };
    match stretch {
        Stretch::Supplier => {
            board.pipe(Material::Untold, from, x + step);
            board.glyph(Glyph::Flow, at(x + 16, y));
            board.glyph(Glyph::Delivery, at(x + step, y));
        }
        Stretch::Entry | Stretch::Before | Stretch::After => match stretches::rigid(scene, stretch) {
            Known::Given(true) | Known::Presumed(true) => board.pipe(Material::Steel, from, x + step),
            Known::Given(false) | Known::Presumed(false) => board.line(Stroke::Dashed, &[from, at(x + step, y)]),
            Known::Unknown => board.pipe(Material::Unknown, from, x + step),
        },
        Stretch::Manifold => {
            board.pipe(lead, from, middle - 22);
            board.pipe(lead, at(middle + 22, y), x + step);
            let room = Rect { x: middle - 22, y: y - 18, w: 44, h: 36 };
            let unknown = scene.header.manifold == Known::Unknown;
            board.frame(if unknown { Look::Unknown } else { Look::Plain }, room);
        }
        Stretch::Fitting => {
            board.pipe(lead, from, x + ON - 6);
            board.glyph(Glyph::Fitting, at(x + ON, y));
            board.pipe(tubing, at(x + ON + 6, y), x + step);
        }
        Stretch::Tubing => board.pipe(tubing, from, x + step),
        Stretch::FarFitting => {
            board.pipe(tubing, from, x + ON - 6);
            board.glyph(Glyph::Fitting, at(x + ON, y));
            board.pipe(Material::Untold, at(x + ON + 6, y), x + step);
        }
        Stretch::Appliance => {
            board.pipe(Material::Untold, from, middle - 30);
            board.frame(Look::Plain, Rect { x: middle - 30, y: y - 20, w: 60, h: 40 });
        }
    }
}

/// The clamp at its stretch; gives where the wire leaves and how far down it reaches.
fn clamp(
    board: &mut Board,
    scene: &Scene,
    cells: &[(Stretch, Leave)],
    step: i32,
    line: i32,
    under: i32,
) -> (Option<Ends>, i32) {
    let Some(jumper) = &scene.jumper else { return (None, under) };
    let wanted = stretches::of(jumper.spot);
    let number = cells.iter().position(|(stretch, _)| Some(*stretch) == wanted);
    let left = |number: usize| MARGIN + step * i32::try_from(number).unwrap_or(0);
    let edge = MARGIN + step * count(cells);
    let tag = |board: &mut Board, x: i32, y: i32| {
        if let Some(tag) = scene.tag(Part::Clamp) {
            let wide = tag_width(tag.1, scene.reader);
            let x = if x + 14 + wide > edge { x - 14 - wide } else { x + 14 };
            board.tag(at(x, y), tag, scene.reader);
        }
    };
    match number {
        Some(number) => {
            // Beside the middle, where the words and the cross are.
            let x = left(number) + ON;
            let sure = jumper.spot_sight == Sight::Known && jumper.presence == Presence::Stated;
            board.glyph(if sure { Glyph::Clamp } else { Glyph::ClampUnknown }, at(x, line));
            tag(board, x, under + 18);
            (Some(Ends { from: at(x, line + 14) }), under + 18 + TAG)
        }
        None => {
            let x = left(2.min(cells.len().saturating_sub(1)));
            let y = under + 26;
            if jumper.presence == Presence::Missing {
                board.glyph(Glyph::Cross, at(x, y));
            } else {
                board.frame(Look::Unknown, Rect { x: x - 18, y: y - 15, w: 36, h: 30 });
                let words = scene.reader.say("picture-clamp-not-known");
                board.words(at(x + 28, y + 5), Anchor::Start, false, &words);
                tag(board, x, y + 34);
            }
            (Some(Ends { from: at(x, y + 15) }), y + 34 + TAG)
        }
    }
}
