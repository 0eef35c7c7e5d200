//! Below the piping: the electrical side and the earth, with the room that they take.

use super::board::{Anchor, Block, Board, Glyph, Look, Point, Rect, Stroke, at, count, tag_width};
use super::layout::{Columns, MARGIN};
use super::marks::Part;
use super::power::{Fixture, Ground, Item, Power, Service};
use super::scene::{Scene, Sight};
use super::wire::{Label, Wire};

/// Where the wire leaves the clamp.
#[derive(Clone, Copy)]
pub(super) struct Ends {
    pub(super) from: Point,
}

/// A distance that is written along the wire.
pub(super) struct Measured {
    pub(super) words: String,
    /// From where the gas enters to the landing; else from the clamp.
    pub(super) from_entry: bool,
}

/// What one drawing has beyond the other.
#[derive(Default)]
pub(super) struct Plan {
    pub(super) measures: Vec<Measured>,
    /// Where the gas enters the building.
    pub(super) entry: Option<i32>,
    /// Where the electrical side begins, if there is room for it from there on.
    pub(super) first: i32,
}

/// The room for a distance.
pub(super) const MEASURE: i32 = 34;

/// The room for a fixture.
pub(super) const ITEM: i32 = 170;
const APART: i32 = 44;
/// The room for an electrode.
const ELECTRODE: i32 = 146;
/// The least room left of the fixtures where a wire goes down.
const DOWN: i32 = 190;
/// The width of another building.
pub(super) const OTHER: i32 = ITEM + 36;

/// The room that the electrical side needs, from wall to wall.
pub(super) fn needs(scene: &Scene) -> i32 {
    free(scene) + (ITEM + APART) * count(&scene.power.items) + 20
}

/// The room that the electrodes need, with their mark.
pub(super) fn ground(scene: &Scene) -> i32 {
    let tag = scene.tag(Part::Electrodes).map_or(0, |(_, mark)| tag_width(mark, scene.reader) + 10);
    ELECTRODE * count(&scene.power.electrodes) + 20 + tag
}

/// The room left of the fixtures.
fn free(scene: &Scene) -> i32 {
    let power = &scene.power;
    if power.on_conductor || electrode_landing(power) { down(scene) } else { 46 }
}

/// The room left of the fixtures where the wire goes down to what is below them, with
/// the words that stand beside it.
fn down(scene: &Scene) -> i32 {
    let tag = scene.tag(Part::Landing).map_or(0, |(_, mark)| tag_width(mark, scene.reader));
    DOWN.max(tag + 60)
}

/// Where the things of the electrical side stand.
pub(super) struct Places {
    /// Where the wire runs along.
    pub(super) lane: i32,
    /// The top and the bottom of the fixtures.
    pub(super) top: i32,
    pub(super) bottom: i32,
    ground: i32,
    /// The line that joins the electrodes.
    pub(super) bus: i32,
    /// The middle of each fixture, and of the one in the other building.
    pub(super) items: Vec<i32>,
    pub(super) other: Option<i32>,
    pub(super) electrodes: Vec<i32>,
    /// Where the grounding electrode conductor begins; nothing where there is no service.
    pub(super) source: Option<i32>,
}

/// Draws everything below the piping; gives the surface of the earth and where the
/// drawing ends.
pub(super) fn draw(
    board: &mut Board,
    scene: &Scene,
    columns: &Columns,
    ends: Option<Ends>,
    above: i32,
    plan: &Plan,
) -> (i32, i32) {
    let power = &scene.power;
    let label = scene.jumper.as_ref().zip(ends).map(|(jumper, ends)| Label::new(scene, columns, jumper, ends));
    let label_high = label.as_ref().map_or(0, Label::height);
    let lane = above + 16 + label_high + MEASURE * count(&plan.measures);
    let blocks: Vec<Block> = power.items.iter().map(item_block).collect();
    let other = power
        .other
        .as_ref()
        .map(|(building, item)| (Block::titled(std::slice::from_ref(building), ITEM), item_block(item)));
    let high = blocks.iter().chain(other.iter().map(|(_, block)| block)).map(Block::height).max().unwrap_or(0);
    let high = if power.items.is_empty() && other.is_none() { 0 } else { (high + 20).max(60) };
    let top = lane + 40;
    let bottom = top + high;
    let ground = bottom + 64;
    let near = columns.wall + free(scene) + ITEM / 2;
    let room = (ITEM + APART) * count(&power.items) - APART;
    let first = (plan.first + ITEM / 2).min(columns.right - 20 - room + ITEM / 2).max(near);
    let items: Vec<i32> = (0..count(&power.items)).map(|at| first + at * (ITEM + APART)).collect();
    let other_at = other.as_ref().map(|_| match (columns.left, power.service) {
        (false, _) => columns.right + 20 + ITEM / 2,
        // What is joined shares the wall.
        (true, Service::Beside) => columns.wall - OTHER / 2,
        (true, _) => columns.wall - OTHER / 2 - 24,
    });
    let source = source(power, &items, other_at);
    let electrodes = stand(scene, columns, ends, first, source);
    let places = Places { lane, top, bottom, ground, bus: ground + 22, items, other: other_at, electrodes, source };
    if let Some(label) = label {
        label.draw(board, scene, above + 8);
    }
    for ((item, block), x) in power.items.iter().zip(&blocks).zip(&places.items) {
        fixture(board, item, block, *x, &places);
    }
    if let (Some((building, block)), Some((_, item)), Some(x)) = (&other, &power.other, places.other) {
        let frame_top = top - building.height() - 16;
        let room = Rect { x: x - OTHER / 2, y: frame_top, w: OTHER, h: ground - frame_top };
        board.frame(Look::Frame, room);
        board.block(at(x, frame_top + 6), Anchor::Middle, building);
        fixture(board, item, block, x, &places);
    }
    feeder(board, power, &places);
    earth(board, columns.width, ground);
    let lowest = draw_electrodes(board, scene, &places);
    if let (Some(ends), Some(jumper)) = (ends, scene.jumper.as_ref()) {
        let wire = Wire::new(scene, jumper, ends, &places);
        wire.draw(board, columns.right);
        wire.measure(board, plan);
    }
    (ground, lowest)
}

/// Where each electrode stands: below the service; where the jumper lands on one of
/// them, that one stands left of it, so that the wire comes down straight.
fn stand(scene: &Scene, columns: &Columns, ends: Option<Ends>, first: i32, source: Option<i32>) -> Vec<i32> {
    let number = count(&scene.power.electrodes);
    let least = columns.wall.min(source.unwrap_or(columns.wall)) + 80;
    let start = if electrode_landing(&scene.power) {
        let beside = first - ITEM / 2 - down(scene) + 30;
        let below =
            ends.map(|ends| ends.from.x).filter(|x| (beside - 60..=beside).contains(x) && *x > columns.wall + 60);
        below.unwrap_or(beside)
    } else {
        source.unwrap_or(first) - ELECTRODE * (number - 1).max(0) / 2
    };
    let start = start.min(columns.width - MARGIN - ground(scene) + ELECTRODE / 2).max(least);
    (0..number).map(|at| start + at * ELECTRODE).collect()
}

fn electrode_landing(power: &Power) -> bool {
    power.electrodes.iter().any(|electrode| electrode.landing)
}

fn item_block(item: &Item) -> Block {
    Block::titled(&item.label, ITEM - 52)
}

fn fixture(board: &mut Board, item: &Item, block: &Block, x: i32, places: &Places) {
    let room = Rect { x: x - ITEM / 2, y: places.top, w: ITEM, h: places.bottom - places.top };
    let middle = places.top.midpoint(places.bottom);
    if item.sight == Sight::Unknown {
        board.line(Stroke::Dashed, &room.outline());
        board.frame(Look::Unknown, Rect { x: room.x + 10, y: middle - 14, w: 26, h: 28 });
    } else {
        board.frame(Look::Plain, room);
        let glyph = match item.fixture {
            Fixture::Service | Fixture::Subpanel => Glyph::Panel,
            Fixture::Circuit => Glyph::Circuit,
            Fixture::WaterPipe => Glyph::Electrode(Ground::Pipe),
            Fixture::Intersystem | Fixture::Other | Fixture::Unknown => Glyph::Joint,
        };
        let drop = if item.fixture == Fixture::WaterPipe { 22 } else { 0 };
        board.glyph(glyph, at(room.x + 23, middle - drop));
    }
    board.block(at(room.x + 46, middle - block.height() / 2 - 1), Anchor::Start, block);
}

/// The middle of the first fixture of a kind.
fn middle_of(power: &Power, items: &[i32], fixture: Fixture) -> Option<i32> {
    power.items.iter().zip(items).find(|(item, _)| item.fixture == fixture).map(|(_, x)| *x)
}

/// Where the grounding electrode conductor begins.
fn source(power: &Power, items: &[i32], other: Option<i32>) -> Option<i32> {
    match power.service {
        Service::Here | Service::Unknown => middle_of(power, items, Fixture::Service),
        Service::Elsewhere => middle_of(power, items, Fixture::Subpanel),
        Service::Beside => other,
        Service::None => None,
    }
}

/// What feeds a sub-panel.
fn feeder(board: &mut Board, power: &Power, places: &Places) {
    let of = |fixture| middle_of(power, &places.items, fixture);
    let Some(panel) = of(Fixture::Subpanel) else { return };
    let y = places.top.midpoint(places.bottom);
    match (places.other, of(Fixture::Service)) {
        (Some(other), _) => {
            let (left, right) = (panel.min(other) + ITEM / 2, panel.max(other) - ITEM / 2);
            board.line(Stroke::Conductor, &[at(left, y), at(right, y)]);
        }
        (None, Some(service)) => {
            board.line(Stroke::Conductor, &[at(service + ITEM / 2, y), at(panel - ITEM / 2, y)]);
        }
        (None, None) => {}
    }
}

fn earth(board: &mut Board, width: i32, ground: i32) {
    board.line(Stroke::Earth, &[at(MARGIN, ground), at(width - MARGIN, ground)]);
}

/// The electrodes, what joins them, and their labels; gives where the lowest label ends.
fn draw_electrodes(board: &mut Board, scene: &Scene, places: &Places) -> i32 {
    let (power, source) = (&scene.power, places.source);
    let joined: Vec<i32> = power
        .electrodes
        .iter()
        .zip(&places.electrodes)
        .filter(|(electrode, _)| electrode.ground != Ground::AddedAlone)
        .map(|(_, x)| *x)
        .collect();
    let mut lowest = places.ground + 26;
    if let Some(x) = source.filter(|_| !joined.is_empty()) {
        board.line(Stroke::Conductor, &[at(x, places.bottom), at(x, places.bus)]);
        let words = Block::plain(std::slice::from_ref(&power.conductor), 150);
        // To another building the wire comes where the words would stand; the legend has them.
        if power.on_conductor && places.other != Some(x) {
            board.block(at(x + 12, places.bottom + 8), Anchor::Start, &words);
        }
    }
    let (first, last) = (joined.iter().copied().chain(source).min(), joined.iter().copied().chain(source).max());
    if let (Some(first), Some(last)) = (first, last)
        && !joined.is_empty()
        && last > first
    {
        board.line(Stroke::Conductor, &[at(first, places.bus), at(last, places.bus)]);
    }
    for (electrode, x) in power.electrodes.iter().zip(&places.electrodes) {
        let y = places.bus;
        if electrode.ground == Ground::Unknown {
            board.line(Stroke::Conductor, &[at(*x, y), at(*x, y + 10)]);
            board.frame(Look::Unknown, Rect { x: x - 15, y: y + 10, w: 30, h: 34 });
        } else {
            board.glyph(Glyph::Electrode(electrode.ground), at(*x, y));
        }
        let label = Block::plain(std::slice::from_ref(&electrode.label), ELECTRODE - 14);
        let high = board.block(at(*x, y + 50), Anchor::Middle, &label);
        lowest = lowest.max(y + 50 + high);
    }
    if let Some(tag) = scene.tag(Part::Electrodes)
        && let Some(last) = places.electrodes.last()
    {
        board.tag(at(last + ELECTRODE / 2 + 6, places.bus + 24), tag, scene.reader);
    }
    lowest
}
