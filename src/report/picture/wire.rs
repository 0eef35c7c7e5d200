//! The way of the jumper from the clamp to its landing, with the words and the distances
//! beside it.

use super::board::{Anchor, Block, Board, Glyph, Look, Point, Rect, Stroke, TAG, at, tag_width};
use super::bond::{Jumper, Landing, Presence};
use super::layout::Columns;
use super::marks::Part;
use super::metric::{SIZE, width};
use super::power::Service;
use super::scene::Scene;
use super::wiring::{Ends, ITEM, MEASURE, OTHER, Places, Plan};

/// The words beside the jumper where it comes down.
pub(super) struct Label {
    block: Block,
    x: i32,
}

impl Label {
    pub(super) fn new(scene: &Scene, columns: &Columns, jumper: &Jumper, ends: Ends) -> Label {
        let right = columns.right - ends.from.x - 40;
        let left = ends.from.x - columns.wall - 40;
        let mut texts = vec![jumper.name(scene.reader)];
        if jumper.presence != Presence::Missing {
            texts.extend(jumper.wire.iter().cloned());
        }
        if right >= 280 || right >= left {
            return Label { block: Block::titled(&texts, right.clamp(120, 420)), x: ends.from.x + 16 };
        }
        let block = Block::titled(&texts, left.clamp(120, 420));
        let tag = scene.tag(Part::Wire).map_or(0, |(_, mark)| tag_width(mark, scene.reader));
        let x = ends.from.x - 16 - block.width().max(tag);
        Label { block, x }
    }

    /// The room that it takes, with its mark.
    pub(super) fn height(&self) -> i32 {
        self.block.height() + TAG + 10
    }

    pub(super) fn draw(&self, board: &mut Board, scene: &Scene, y: i32) {
        let high = board.block(at(self.x, y), Anchor::Start, &self.block);
        if let Some(tag) = scene.tag(Part::Wire) {
            board.tag(at(self.x, y + high + 14), tag, scene.reader);
        }
    }
}

/// The jumper among what it can land on.
pub(super) struct Wire<'s> {
    scene: &'s Scene,
    jumper: &'s Jumper,
    from: Point,
    places: &'s Places,
    /// From where it leaves the lane to its landing; empty where there is nothing to land on.
    way: Vec<Point>,
}

impl<'s> Wire<'s> {
    pub(super) fn new(scene: &'s Scene, jumper: &'s Jumper, ends: Ends, places: &'s Places) -> Wire<'s> {
        let mut wire = Wire { scene, jumper, from: ends.from, places, way: Vec::new() };
        wire.way = wire.to_landing();
        wire
    }

    /// Where it comes to its landing, and from where it comes.
    fn to_landing(&self) -> Vec<Point> {
        let (power, places) = (&self.scene.power, self.places);
        let electrodes = power.electrodes.iter().zip(&places.electrodes);
        if let Some((_, x)) = electrodes.into_iter().find(|(electrode, _)| electrode.landing) {
            return vec![at(*x, places.lane), at(*x, places.bus)];
        }
        if let Some((_, x)) = power.items.iter().zip(&places.items).find(|(item, _)| item.landing) {
            return self.down(*x);
        }
        let other = power.other.as_ref().zip(places.other);
        if let Some((_, x)) = other.filter(|((_, item), _)| item.landing) {
            return self.into_side(x);
        }
        match (self.jumper.landing, places.source) {
            (Landing::Conductor, Some(x)) if places.other == Some(x) => self.from_side(x, places.bottom + 40, x),
            (_, Some(x)) if places.other == Some(x) => self.into_side(x),
            (Landing::Conductor, Some(x)) => {
                let (beside, y) = (x - ITEM / 2 - 20, places.bottom + 40);
                vec![at(beside, places.lane), at(beside, y), at(x, y)]
            }
            (_, Some(x)) => self.down(x),
            (_, None) => Vec::new(),
        }
    }

    fn down(&self, x: i32) -> Vec<Point> {
        // Straight down where the fixture is below the clamp.
        let x = if (self.from.x - x).abs() <= ITEM / 2 - 20 { self.from.x } else { x };
        vec![at(x, self.places.lane), at(x, self.places.top)]
    }

    /// On which side of a place it comes.
    fn toward(&self, x: i32) -> i32 {
        if self.from.x > x { 1 } else { -1 }
    }

    /// To another building from the side, past the words that stand in it.
    fn from_side(&self, x: i32, y: i32, to: i32) -> Vec<Point> {
        let beside = x + self.toward(x) * (OTHER / 2 + 14);
        vec![at(beside, self.places.lane), at(beside, y), at(to, y)]
    }

    /// To the near side of the fixture in another building.
    fn into_side(&self, x: i32) -> Vec<Point> {
        self.from_side(x, self.places.top + 16, x + self.toward(x) * ITEM / 2)
    }

    /// Draws it; no mark stands beyond `edge`.
    pub(super) fn draw(&self, board: &mut Board, edge: i32) {
        let (jumper, from, lane) = (self.jumper, self.from, self.places.lane);
        let sure = jumper.presence == Presence::Stated;
        let stroke = if sure { Stroke::Wire } else { Stroke::WireDashed };
        let mut points = vec![from, at(from.x, lane)];
        points.extend(self.way.iter().copied());
        let lane_to = self.way.first().map_or(from.x, |point| point.x);
        board.line(stroke, &points);
        let middle = from.x.midpoint(lane_to);
        let long = (from.x - lane_to).abs() >= 90;
        if jumper.raceway && long {
            let (left, right) = (from.x.min(lane_to) + 22, from.x.max(lane_to) - 22);
            board.frame(Look::Sleeve, Rect { x: left, y: lane - 6, w: right - left, h: 12 });
        }
        if jumper.spliced {
            let y = if long { lane } else { from.y.midpoint(lane) };
            board.glyph(Glyph::Splice, at(if long { middle } else { from.x }, y));
        }
        if jumper.presence == Presence::Missing {
            return;
        }
        let Some(end) = self.way.last().copied() else { return };
        if jumper.landing != Landing::Unknown {
            board.glyph(Glyph::Joint, end);
        }
        self.mark(board, end, edge);
    }

    /// The mark of the landing, beside where the wire comes to it.
    fn mark(&self, board: &mut Board, end: Point, edge: i32) {
        let Some(tag) = self.scene.tag(Part::Landing) else { return };
        let wide = tag_width(tag.1, self.scene.reader);
        let beside = self.way.first().map_or(end.x, |point| point.x);
        let spot = match self.jumper.landing {
            Landing::Conductor if end.x > beside => at(beside - 12 - wide, self.places.bottom + 26),
            Landing::Electrode | Landing::Lightning | Landing::AddedTied | Landing::AddedAlone => {
                at(end.x + 12, self.places.top + 14)
            }
            _ => {
                // On the far side of the wire, and within the building.
                let left = end.x > beside || beside + 12 + wide > edge;
                let x = if left { beside - 12 - wide } else { beside + 12 };
                at(x, self.places.top - 18)
            }
        };
        board.tag(spot, tag, self.scene.reader);
    }

    /// The distances along it, as far as there is room for them.
    pub(super) fn measure(&self, board: &mut Board, plan: &Plan) {
        let landing = self.way.first().map(|point| point.x);
        let mut y = self.places.lane - 14;
        for measured in plan.measures.iter().rev() {
            let reach = if measured.from_entry {
                // It ends at the service, and is drawn only where that is in the building.
                plan.entry.zip(self.places.source.filter(|_| self.scene.power.service == Service::Here))
            } else {
                landing.map(|landing| (self.from.x, landing))
            };
            let Some((from, to)) = reach else { continue };
            let (left, right) = (from.min(to), from.max(to));
            // Its words stand on one side of the wire that crosses it.
            let wire = self.from.x.clamp(left, right);
            let (free, end) = if right - wire >= wire - left { (wire, right) } else { (left, wire) };
            if end - free < width(&measured.words, SIZE, false) + 20 {
                continue;
            }
            board.dimension(at(left, y), right);
            board.words(at(free.midpoint(end), y - 6), Anchor::Middle, false, &measured.words);
            y -= MEASURE;
        }
    }
}
