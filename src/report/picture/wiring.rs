//! Below the piping: the way of the jumper, the electrical side, and the earth.

use super::board::{Anchor, Block, Board, Glyph, Look, Point, Rect, Stroke, TAG, at, count, tag_width};
use super::bond::{Jumper, Landing, Presence};
use super::layout::{Columns, MARGIN};
use super::marks::Part;
use super::metric::{SIZE, width};
use super::power::{Electrode, Fixture, Ground, Item, Power, Service};
use super::scene::{Scene, Sight};

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
const MEASURE: i32 = 34;

/// The room for a fixture.
const ITEM: i32 = 170;
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
struct Places {
    /// Where the wire runs along.
    lane: i32,
    /// The top and the bottom of the fixtures.
    top: i32,
    bottom: i32,
    ground: i32,
    /// The line that joins the electrodes.
    bus: i32,
    /// The middle of each fixture, and of the one in the other building.
    items: Vec<i32>,
    other: Option<i32>,
    electrodes: Vec<i32>,
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
    let label = scene.jumper.as_ref().zip(ends).map(|(jumper, ends)| label(scene, columns, jumper, ends));
    let label_high = label.as_ref().map_or(0, |(block, ..)| block.height() + TAG + 10);
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
    let mut places =
        Places { lane, top, bottom, ground, bus: ground + 22, items, other: other_at, electrodes: Vec::new() };
    let source = source(power, &places);
    places.electrodes = stand(scene, columns, ends, first, source);
    if let Some(label) = label {
        jumper_label(board, scene, label, above + 8);
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
    let lowest = electrodes(board, scene, &places, source);
    if let (Some(ends), Some(jumper)) = (ends, scene.jumper.as_ref()) {
        wire(board, scene, jumper, ends, &places, source, columns.right);
        measure(board, scene, jumper, ends, &places, source, plan);
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

/// How far from the left edge of a fixture its words stand: a pipe is drawn wider than the rest.
fn beside(fixture: Fixture) -> i32 {
    if fixture == Fixture::WaterPipe { 68 } else { 46 }
}

fn item_block(item: &Item) -> Block {
    Block::titled(&item.label, ITEM - beside(item.fixture) - 6)
}

/// The words beside the jumper, and on which side of where it comes down they stand.
fn label(scene: &Scene, columns: &Columns, jumper: &Jumper, ends: Ends) -> (Block, i32, Anchor) {
    let right = columns.right - ends.from.x - 40;
    let left = ends.from.x - columns.wall - 40;
    let mut texts = vec![jumper.name(scene.reader)];
    if jumper.presence != Presence::Missing {
        texts.extend(jumper.wire.iter().cloned());
    }
    if right >= 280 || right >= left {
        (Block::titled(&texts, right.clamp(120, 420)), ends.from.x + 16, Anchor::Start)
    } else {
        let block = Block::titled(&texts, left.clamp(120, 420));
        let tag = scene.tag(Part::Wire).map_or(0, |(_, mark)| tag_width(mark, scene.reader));
        let x = ends.from.x - 16 - block.width().max(tag);
        (block, x, Anchor::Start)
    }
}

fn jumper_label(board: &mut Board, scene: &Scene, text: (Block, i32, Anchor), y: i32) {
    let (block, x, anchor) = text;
    let high = board.block(at(x, y), anchor, &block);
    if let Some(tag) = scene.tag(Part::Wire) {
        board.tag(at(x, y + high + 14), tag, scene.reader);
    }
}

fn fixture(board: &mut Board, item: &Item, block: &Block, x: i32, places: &Places) {
    let room = Rect { x: x - ITEM / 2, y: places.top, w: ITEM, h: places.bottom - places.top };
    let middle = places.top.midpoint(places.bottom);
    if item.sight == Sight::Unknown {
        board.line(Stroke::Dashed, &frame(room));
        board.frame(Look::Unknown, Rect { x: room.x + 10, y: middle - 14, w: 26, h: 28 });
    } else {
        board.frame(Look::Plain, room);
        let glyph = match item.fixture {
            Fixture::Service | Fixture::Subpanel => Glyph::Panel,
            Fixture::Circuit => Glyph::Circuit,
            Fixture::WaterPipe => Glyph::Electrode(Ground::Pipe),
            Fixture::Intersystem | Fixture::Other | Fixture::Unknown => Glyph::Joint,
        };
        // It hangs from its place, the others stand around it.
        let drop = if item.fixture == Fixture::WaterPipe { 22 } else { 0 };
        board.glyph(glyph, at(room.x + beside(item.fixture) / 2, middle - drop));
    }
    board.block(at(room.x + beside(item.fixture), middle - block.height() / 2 - 1), Anchor::Start, block);
}

fn frame(room: Rect) -> [Point; 5] {
    let (right, bottom) = (room.x + room.w, room.y + room.h);
    [at(room.x, room.y), at(right, room.y), at(right, bottom), at(room.x, bottom), at(room.x, room.y)]
}

/// Where the grounding electrode conductor begins; nothing where there is no service.
fn source(power: &Power, places: &Places) -> Option<i32> {
    let of = |fixture| power.items.iter().zip(&places.items).find(|(item, _)| item.fixture == fixture).map(|(_, x)| *x);
    match power.service {
        Service::Here | Service::Unknown => of(Fixture::Service),
        Service::Elsewhere => of(Fixture::Subpanel),
        Service::Beside => places.other,
        Service::None => None,
    }
}

/// What feeds a sub-panel.
fn feeder(board: &mut Board, power: &Power, places: &Places) {
    let of = |fixture| power.items.iter().zip(&places.items).find(|(item, _)| item.fixture == fixture).map(|(_, x)| *x);
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
fn electrodes(board: &mut Board, scene: &Scene, places: &Places, source: Option<i32>) -> i32 {
    let power = &scene.power;
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

/// On which side of a place the wire comes.
fn toward(ends: Ends, x: i32) -> i32 {
    if ends.from.x > x { 1 } else { -1 }
}

/// To another building from the side, past the words that stand in it.
fn from_side(ends: Ends, places: &Places, x: i32, y: i32, to: i32) -> Vec<Point> {
    let beside = x + toward(ends, x) * (OTHER / 2 + 14);
    vec![at(beside, places.lane), at(beside, y), at(to, y)]
}

/// Where the wire comes to its landing, and from where it comes.
fn way(scene: &Scene, jumper: &Jumper, ends: Ends, places: &Places, source: Option<i32>) -> Vec<Point> {
    let power = &scene.power;
    let down = |x: i32| {
        // Straight down where the fixture is below the clamp.
        let x = if (ends.from.x - x).abs() <= ITEM / 2 - 20 { ends.from.x } else { x };
        vec![at(x, places.lane), at(x, places.top)]
    };
    let electrode = |(_, x): (&Electrode, &i32)| vec![at(*x, places.lane), at(*x, places.bus)];
    if let Some(found) = power.electrodes.iter().zip(&places.electrodes).find(|(electrode, _)| electrode.landing) {
        return electrode(found);
    }
    if let Some((_, x)) = power.items.iter().zip(&places.items).find(|(item, _)| item.landing) {
        return down(*x);
    }
    let other = power.other.as_ref().zip(places.other);
    if let Some((_, x)) = other.as_ref().filter(|((_, item), _)| item.landing) {
        return from_side(ends, places, *x, places.top + 16, x + toward(ends, *x) * ITEM / 2);
    }
    match (jumper.landing, source) {
        (Landing::Conductor, Some(x)) if places.other == Some(x) => from_side(ends, places, x, places.bottom + 40, x),
        (_, Some(x)) if places.other == Some(x) => {
            from_side(ends, places, x, places.top + 16, x + toward(ends, x) * ITEM / 2)
        }
        (Landing::Conductor, Some(x)) => {
            let (beside, y) = (x - ITEM / 2 - 20, places.bottom + 40);
            vec![at(beside, places.lane), at(beside, y), at(x, y)]
        }
        (_, Some(x)) => down(x),
        (_, None) => Vec::new(),
    }
}

fn wire(
    board: &mut Board,
    scene: &Scene,
    jumper: &Jumper,
    ends: Ends,
    places: &Places,
    source: Option<i32>,
    edge: i32,
) {
    let sure = jumper.presence == Presence::Stated;
    let stroke = if sure { Stroke::Wire } else { Stroke::WireDashed };
    let way = way(scene, jumper, ends, places, source);
    let mut points = vec![ends.from, at(ends.from.x, places.lane)];
    points.extend(way.iter().copied());
    let lane_to = way.first().map_or(ends.from.x, |point| point.x);
    board.line(stroke, &points);
    let middle = ends.from.x.midpoint(lane_to);
    let long = (ends.from.x - lane_to).abs() >= 90;
    if jumper.raceway && long {
        let (left, right) = (ends.from.x.min(lane_to) + 22, ends.from.x.max(lane_to) - 22);
        board.frame(Look::Sleeve, Rect { x: left, y: places.lane - 6, w: right - left, h: 12 });
    }
    if jumper.spliced {
        let y = if long { places.lane } else { ends.from.y.midpoint(places.lane) };
        board.glyph(Glyph::Splice, at(if long { middle } else { ends.from.x }, y));
    }
    if jumper.presence == Presence::Missing {
        return;
    }
    let Some(end) = way.last().copied() else { return };
    if jumper.landing != Landing::Unknown {
        board.glyph(Glyph::Joint, end);
    }
    if let Some(tag) = scene.tag(Part::Landing) {
        let beside = way.first().map_or(end.x, |point| point.x);
        match jumper.landing {
            Landing::Conductor if end.x > beside => {
                let wide = tag_width(tag.1, scene.reader);
                board.tag(at(beside - 12 - wide, places.bottom + 26), tag, scene.reader);
            }
            Landing::Electrode | Landing::Lightning | Landing::AddedTied | Landing::AddedAlone => {
                board.tag(at(end.x + 12, places.top + 14), tag, scene.reader);
            }
            _ => {
                let wide = tag_width(tag.1, scene.reader);
                // On the far side of the wire, and within the building.
                let left = end.x > beside || beside + 12 + wide > edge;
                let x = if left { beside - 12 - wide } else { beside + 12 };
                board.tag(at(x, places.top - 18), tag, scene.reader);
            }
        }
    }
}

/// The distances along the wire, as far as there is room for them.
fn measure(
    board: &mut Board,
    scene: &Scene,
    jumper: &Jumper,
    ends: Ends,
    places: &Places,
    source: Option<i32>,
    plan: &Plan,
) {
    let landing = way(scene, jumper, ends, places, source).first().map(|point| point.x);
    let mut y = places.lane - 14;
    for measured in plan.measures.iter().rev() {
        let reach = if measured.from_entry {
            // It ends at the service, and is drawn only where that is in the building.
            plan.entry.zip(source.filter(|_| scene.power.service == Service::Here))
        } else {
            landing.map(|landing| (ends.from.x, landing))
        };
        let Some((from, to)) = reach else { continue };
        let (left, right) = (from.min(to), from.max(to));
        // Its words stand on one side of the wire that crosses it.
        let wire = ends.from.x.clamp(left, right);
        let (free, end) = if right - wire >= wire - left { (wire, right) } else { (left, wire) };
        if end - free < width(&measured.words, SIZE, false) + 20 {
            continue;
        }
        board.dimension(at(left, y), right);
        board.words(at(free.midpoint(end), y - 6), Anchor::Middle, false, &measured.words);
        y -= MEASURE;
    }
}
