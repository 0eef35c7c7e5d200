//! Where everything stands: the way of the gas from left to right, the runs below one
//! another, under them the jumper, the electrical side and the earth, then the legend.
//!
//! Nothing here decides what is there; `scene` does.

use super::apart;
use super::board::{Anchor, Block, Board, Glyph, Look, Rect, Stroke, TAG, at, count, tag_width};
use super::bond::{Presence, Spot};
use super::branches::Material;
use super::legend;
use super::marks::Part;
use super::metric::{SIZE, width};
use super::rows::{self, Rows};
use super::scene::{Scene, Sight};
use super::supply::{self, Thing};
use super::wiring::{self, Ends, Plan};

/// The margin around everything.
pub(super) const MARGIN: i32 = 16;
/// The room for the run's texts.
const RUN: i32 = 224;
/// The room for an appliance.
pub(super) const APPLIANCE: i32 = 156;

/// What has a place on the paper, and the size of the paper.
pub(super) struct Laid {
    pub(super) board: Board,
    pub(super) width: i32,
    pub(super) height: i32,
}

/// The columns of the picture.
pub(super) struct Columns {
    /// The outside wall.
    pub(super) wall: i32,
    /// Each station's left and right edge.
    stations: Vec<(i32, i32)>,
    /// Where the runs branch off.
    pub(super) header: i32,
    /// The texts of runs.
    pub(super) run: i32,
    pub(super) run_end: i32,
    pub(super) appliance: i32,
    /// The far wall.
    pub(super) right: i32,
    /// Whether another building stands before the outside wall.
    pub(super) left: bool,
    pub(super) width: i32,
}

impl Columns {
    /// The electrical side alone.
    pub(super) fn plain(left: i32, right: i32, width: i32) -> Columns {
        Columns {
            wall: left,
            stations: Vec::new(),
            header: left,
            run: left,
            run_end: left,
            appliance: left,
            right,
            left: false,
            width,
        }
    }
}

/// Lays a scene out. The head stands above the picture, the foot below everything.
pub(super) fn picture(scene: &Scene, head: &[String], foot: &[String]) -> Laid {
    let mut board = Board::default();
    let columns = columns(scene);
    let mut y = MARGIN;
    y += board.heading(at(MARGIN, y), columns.width - 2 * MARGIN, &scene.title) + 4;
    y += board.block(at(MARGIN, y), Anchor::Start, &Block::plain(head, columns.width - 2 * MARGIN)) + 10;
    let top = y;
    // The outline and its words are drawn last, when it is known how far down it reaches.
    let building = Block::titled(std::slice::from_ref(&scene.building), columns.right - columns.wall - 36);
    y += 8 + board.block(at(columns.wall + 18, y + 8), Anchor::Start, &building) + 14;
    let heads = heads(&mut board, scene, &columns, y);
    let rows = Rows::new(scene, &columns);
    let labels = labels(scene, &columns);
    let tallest = labels.iter().map(Block::height).max().unwrap_or(0);
    let line = (y + tallest + 30).max(y + heads + rows.first());
    stations(&mut board, scene, &columns, &labels, line);
    let bottom = rows::draw(&mut board, scene, &columns, &rows, line).max(line + 34);
    let (ends, bottom) = match clamp(&mut board, scene, &columns, &rows, line) {
        Some((ends, lowest)) => (Some(ends), bottom.max(lowest)),
        None => (None, bottom),
    };
    let (ground, earth_bottom) =
        wiring::draw(&mut board, scene, &columns, ends, bottom, &Plan { first: columns.run, ..Plan::default() });
    outline(&mut board, &columns, top, ground);
    let height = legend::draw(&mut board, scene, columns.width, earth_bottom + 26, false);
    let height = legend::foot(&mut board, columns.width, height, foot);
    apart::set(&mut board, columns.width, height + MARGIN);
    Laid { board, width: columns.width, height: height + MARGIN }
}

fn columns(scene: &Scene) -> Columns {
    let tag = |part| scene.tag(part).map_or(0, |(_, mark)| tag_width(mark, scene.reader) + 30);
    let spot = scene.jumper.as_ref().map(|jumper| jumper.spot);
    let words = width(&scene.reader.say("picture-clamp-not-known"), SIZE, false);
    // On the main line the words of the clamp stand beside the wire, before the manifold.
    let clamp = match spot {
        Some(Spot::Entry | Spot::Before | Spot::Fitting | Spot::Tubing) => tag(Part::Clamp) + 30,
        Some(Spot::FarFitting) if supply::tubing(&scene.stations).is_some() => tag(Part::Clamp) + 30,
        Some(Spot::Unknown) => tag(Part::Clamp).max(words) + 60,
        _ => 0,
    };
    let mut x = MARGIN;
    let mut wall = MARGIN;
    let mut stations = Vec::new();
    for station in &scene.stations {
        let wide = match &station.thing {
            Thing::Supplier if spot == Some(Spot::Supplier) => 80 + tag(Part::Clamp),
            Thing::Supplier => 104,
            Thing::Delivery => 88,
            Thing::Meter | Thing::Rack => 108,
            Thing::Regulator => 104,
            Thing::Yard(runs) => 150 * count(runs).max(1),
            Thing::Wall => 20,
            Thing::Pipe(runs) => (150 * count(runs).max(1)).max(clamp),
        };
        if station.thing == Thing::Wall {
            wall = x + wide / 2;
        }
        stations.push((x, x + wide));
        x += wide;
    }
    let header = x + 46;
    let near = if matches!(spot, Some(Spot::Fitting | Spot::Tubing)) { tag(Part::Clamp) + 44 } else { 0 };
    let far = if matches!(spot, Some(Spot::FarFitting | Spot::After | Spot::Appliance)) { tag(Part::Clamp) } else { 0 };
    let run = header + 9 + (46 + near).max(if scene.header.label.is_empty() { 0 } else { 46 });
    let tails = scene.branches.iter().any(|branch| branch.tail.is_some());
    let run_end = run + if tails { RUN * 3 / 2 } else { RUN };
    let appliance = run_end + 54 + far;
    let right = (appliance + APPLIANCE + 20).max(wall + wiring::needs(scene));
    // Another building stands on the free ground before the wall, where there is enough of it.
    let left = wall >= MARGIN + wiring::OTHER + 24 && spot != Some(Spot::Supplier);
    let beside = if scene.power.other.is_some() && !left { wiring::OTHER + 24 } else { 0 };
    let width = (right + beside + MARGIN).max(wall + wiring::ground(scene) + MARGIN);
    Columns { wall, stations, header, run, run_end, appliance, right, left, width }
}

/// What stands over the columns of runs and appliances; gives its height.
fn heads(board: &mut Board, scene: &Scene, columns: &Columns, y: i32) -> i32 {
    let mut height = 0;
    for (part, x, most) in [(Part::Runs, columns.run, RUN + 40), (Part::Appliances, columns.appliance, APPLIANCE + 10)]
    {
        let Some(entry) = scene.legend.iter().find(|entry| entry.part == part) else { continue };
        let Some(tag) = scene.tag(part) else { continue };
        let block = Block::titled(std::slice::from_ref(&entry.name), most);
        let title = board.block(at(x, y), Anchor::Start, &block);
        board.tag(at(x, y + title + 14), tag, scene.reader);
        height = height.max(title + TAG + 12);
    }
    height
}

fn labels(scene: &Scene, columns: &Columns) -> Vec<Block> {
    let of = |(station, (left, right)): (&super::supply::Station, &(i32, i32))| {
        let mut texts = station.label.clone();
        if station.sight == Sight::Presumed {
            texts.push(scene.reader.say("picture-presumed"));
        }
        Block::titled(&texts, right - left - 8)
    };
    let mut labels: Vec<Block> = scene.stations.iter().zip(&columns.stations).map(of).collect();
    labels.push(Block::titled(&scene.header.label, 86));
    labels
}

/// The main line.
fn stations(board: &mut Board, scene: &Scene, columns: &Columns, labels: &[Block], line: i32) {
    let all = scene.stations.iter().zip(&columns.stations).zip(labels);
    for (number, ((station, (left, right)), label)) in all.enumerate() {
        let (left, right) = (*left, *right);
        let middle = left.midpoint(right);
        board.block(at(middle, line - 26 - label.height()), Anchor::Middle, label);
        let (before, after) = supply::piping(&scene.stations, number);
        let symbol = match &station.thing {
            Thing::Meter => Some((Glyph::Meter, 24)),
            Thing::Rack => Some((Glyph::Rack, 36)),
            Thing::Regulator => Some((Glyph::Regulator, 14)),
            _ => None,
        };
        match (&station.thing, symbol) {
            (Thing::Yard(runs) | Thing::Pipe(runs), _) if !runs.is_empty() => {
                let step = (right - left) / count(runs).max(1);
                for (x, run) in (0..).map(|number| left + number * step).zip(runs) {
                    board.pipe(run.material, at(x, line), x + step);
                    fittings(board, run.material, x, x + step, line);
                }
            }
            (_, Some((glyph, half))) => {
                let unknown = station.sight == Sight::Unknown;
                let half = if unknown { 22 } else { half };
                board.pipe(before, at(left, line), middle - half);
                board.pipe(after, at(middle + half, line), right);
                if unknown {
                    board.frame(Look::Unknown, Rect { x: middle - 22, y: line - 18, w: 44, h: 36 });
                } else {
                    board.glyph(glyph, at(middle, line));
                }
            }
            (Thing::Delivery, None) => {
                board.pipe(before, at(left, line), middle);
                board.pipe(after, at(middle, line), right);
                board.glyph(Glyph::Delivery, at(middle, line));
                if station.sight == Sight::Unknown {
                    board.glyph(Glyph::Question, at(middle, line + 24));
                }
            }
            (Thing::Yard(_) | Thing::Pipe(_), None) => {
                let own = station.own().map_or(Material::Unknown, |(own, _)| own);
                board.pipe(own, at(left, line), right);
            }
            (thing, None) => {
                board.pipe(after, at(left, line), right);
                if *thing == Thing::Supplier {
                    board.glyph(Glyph::Flow, at(left + 20, line));
                }
            }
        }
    }
    let last = columns.stations.last().map_or(MARGIN, |(_, right)| *right);
    let (_, behind) = supply::piping(&scene.stations, scene.stations.len());
    board.pipe(behind, at(last, line), columns.header - 9);
    if let Some(label) = labels.last() {
        board.block(at(columns.header, line - 26 - label.height()), Anchor::Middle, label);
    }
}

/// The fittings at the two ends of tubing.
fn fittings(board: &mut Board, material: Material, from: i32, to: i32, y: i32) {
    if material.corrugated() {
        board.glyph(Glyph::Fitting, at(from + 5, y));
        board.glyph(Glyph::Fitting, at(to - 5, y));
    }
}

/// The clamp; gives where the wire leaves it, and where its texts end. Nothing where
/// there is no jumper.
fn clamp(board: &mut Board, scene: &Scene, columns: &Columns, rows: &Rows, line: i32) -> Option<(Ends, i32)> {
    let jumper = scene.jumper.as_ref()?;
    let pipe =
        scene.stations.iter().zip(&columns.stations).find(|(station, _)| matches!(station.thing, Thing::Pipe(_)));
    let (left, right) = pipe.map_or((columns.wall + 20, columns.header), |(_, sides)| *sides);
    // The ends of the tubing in the main line, where there is some.
    let trunk = supply::tubing(&scene.stations).map(|(number, of)| {
        let step = (right - left) / i32::try_from(of).unwrap_or(1).max(1);
        let from = left + step * i32::try_from(number).unwrap_or(0);
        (from, from + step)
    });
    let first = rows.first_tubing(scene, columns);
    let reaches = first.as_ref().is_some_and(|(span, _)| span.reach);
    let along = left + 60;
    let floating = at(along, line + 46);
    let (place, on) = match jumper.spot {
        Spot::Supplier => (at(MARGIN + 58, line), true),
        Spot::Entry => (at(left + 22, line), true),
        Spot::Before => (at(along, line), true),
        Spot::Manifold => (at(columns.header, rows.bottom(line) + 12), true),
        Spot::Fitting if let Some((from, _)) = trunk => (at(from + 5, line), true),
        Spot::Tubing if let Some((from, to)) = trunk => (at(from.midpoint(to).min(from + 60), line), true),
        Spot::FarFitting if let Some((_, to)) = trunk => (at(to - 5, line), true),
        Spot::After if trunk.is_some() => (at(columns.header - 22, line), true),
        Spot::Fitting => first.map_or((floating, false), |(span, y)| (at(span.near, y + line), true)),
        Spot::Tubing => first.map_or((floating, false), |(span, y)| (at(span.on(), y + line), true)),
        Spot::FarFitting => first.map_or((floating, false), |(span, y)| (at(span.far, y + line), true)),
        Spot::After => first.map_or((floating, false), |(_, y)| (at(columns.run_end + 26, y + line), true)),
        Spot::Appliance => {
            rows.first_appliance(scene).map_or((floating, false), |y| (at(columns.appliance - 14, y + line), true))
        }
        Spot::Unknown => (floating, false),
    };
    if jumper.presence == Presence::Missing {
        board.glyph(Glyph::Cross, place);
        return Some((Ends { from: place }, place.y + 20));
    }
    let sure = jumper.spot_sight == Sight::Known && jumper.presence == Presence::Stated && on;
    if on {
        let upright = jumper.spot == Spot::Manifold;
        board.glyph(
            if !sure {
                Glyph::ClampUnknown
            } else if upright {
                Glyph::ClampUpright
            } else {
                Glyph::Clamp
            },
            place,
        );
    } else {
        board.frame(Look::Unknown, Rect { x: place.x - 18, y: place.y - 15, w: 36, h: 30 });
    }
    let place = if jumper.spot == Spot::Manifold { at(place.x + 17, place.y - 14) } else { place };
    let mut lowest = place.y + 20;
    if let Some(tag) = scene.tag(Part::Clamp) {
        // Right of an appliance's clamp is the appliance, right of one before the manifold
        // are the runs.
        let left = on
            && match jumper.spot {
                Spot::Appliance => true,
                Spot::After => trunk.is_some(),
                Spot::FarFitting => trunk.is_some() || reaches,
                _ => false,
            };
        let x = if left { place.x - 12 - tag_width(tag.1, scene.reader) } else { place.x + 12 };
        board.tag(at(x, place.y + 36), tag, scene.reader);
        lowest = place.y + 36 + TAG / 2;
        if !on {
            let words = scene.reader.say("picture-clamp-not-known");
            board.words(at(x, place.y + 64), Anchor::Start, false, &words);
            lowest = place.y + 72;
        }
    }
    Some((Ends { from: at(place.x, place.y + if on { 14 } else { 15 }) }, lowest))
}

fn outline(board: &mut Board, columns: &Columns, top: i32, ground: i32) {
    let (left, right) = (columns.wall, columns.right);
    board.line(Stroke::Wall, &[at(left, ground), at(left, top), at(right, top), at(right, ground)]);
}
