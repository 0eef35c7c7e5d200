//! The paper on which things are laid out: shapes with their places, and texts that
//! know how much room they take.

use super::branches::Material;
use super::marks::Mark;
use super::metric::{HEAD, LINE, SIZE, width, wrap};
use super::power::Ground;
use crate::report::speech::Reader;

/// A place on the paper; y grows downwards.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Point {
    pub(super) x: i32,
    pub(super) y: i32,
}

/// A place on the paper.
pub(super) fn at(x: i32, y: i32) -> Point {
    Point { x, y }
}

/// A room on the paper.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Rect {
    pub(super) x: i32,
    pub(super) y: i32,
    pub(super) w: i32,
    pub(super) h: i32,
}

impl Rect {
    /// Whether two rooms share more than an edge.
    pub(super) fn meets(&self, other: &Rect) -> bool {
        self.x < other.x + other.w
            && other.x < self.x + self.w
            && self.y < other.y + other.h
            && other.y < self.y + self.h
    }
}

/// To which side of its place a text stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Anchor {
    Start,
    Middle,
}

/// A line of text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Text {
    /// On the base line.
    pub(super) at: Point,
    pub(super) anchor: Anchor,
    pub(super) size: i32,
    pub(super) bold: bool,
    pub(super) words: String,
}

impl Text {
    /// The room that it takes at most.
    pub(super) fn room(&self) -> Rect {
        let w = width(&self.words, self.size, self.bold);
        let x = match self.anchor {
            Anchor::Start => self.at.x,
            Anchor::Middle => self.at.x - w / 2,
        };
        Rect { x, y: self.at.y - self.size * 4 / 5, w, h: self.size }
    }
}

/// How a line is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Stroke {
    /// The outline of a building.
    Wall,
    /// The surface of the earth.
    Earth,
    /// A conductor that is not the jumper.
    Conductor,
    /// What leads from a text to what it names.
    Thin,
    /// What is not known.
    Dashed,
    /// The jumper.
    Wire,
    /// A jumper that may not be there.
    WireDashed,
}

/// How a box is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Look {
    Plain,
    /// Dashed and hatched, with a question mark.
    Unknown,
    /// A raceway around a wire.
    Sleeve,
    /// A frame around another building.
    Frame,
}

/// A small drawing around a place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Glyph {
    Meter,
    Rack,
    Regulator,
    Delivery,
    /// An arrow in the way of the gas.
    Flow,
    /// The end of a run.
    Cap,
    /// The fitting at an end of tubing.
    Fitting,
    Clamp,
    /// A clamp on a pipe that stands upright.
    ClampUpright,
    /// A clamp that is not surely here.
    ClampUnknown,
    Splice,
    /// Where a wire is joined to something.
    Joint,
    Question,
    /// A branch circuit or a cord.
    Circuit,
    /// What may not be, or is not there.
    Cross,
    Panel,
    Electrode(Ground),
    /// The number of an element.
    Number(usize),
    Mark(Mark),
}

/// Something on the paper.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Shape {
    Text(Text),
    /// Piping from left to right.
    Pipe {
        material: Material,
        from: Point,
        to: i32,
    },
    Line {
        points: Vec<Point>,
        stroke: Stroke,
    },
    Box {
        room: Rect,
        look: Look,
    },
    Glyph {
        glyph: Glyph,
        at: Point,
    },
    /// A measured distance with an arrow at each end.
    Dimension {
        from: Point,
        to: i32,
    },
}

/// The paper.
#[derive(Clone, Debug, Default)]
pub(super) struct Board {
    pub(super) shapes: Vec<Shape>,
}

impl Board {
    pub(super) fn line(&mut self, stroke: Stroke, points: &[Point]) {
        self.shapes.push(Shape::Line { points: points.to_vec(), stroke });
    }

    pub(super) fn pipe(&mut self, material: Material, from: Point, to: i32) {
        if to > from.x {
            self.shapes.push(Shape::Pipe { material, from, to });
        }
    }

    pub(super) fn frame(&mut self, look: Look, room: Rect) {
        self.shapes.push(Shape::Box { room, look });
    }

    pub(super) fn glyph(&mut self, glyph: Glyph, at: Point) {
        self.shapes.push(Shape::Glyph { glyph, at });
    }

    pub(super) fn dimension(&mut self, from: Point, to: i32) {
        self.shapes.push(Shape::Dimension { from, to });
    }

    /// One line of text on its base line.
    pub(super) fn words(&mut self, at: Point, anchor: Anchor, bold: bool, words: &str) {
        self.shapes.push(Shape::Text(Text { at, anchor, size: SIZE, bold, words: words.to_owned() }));
    }

    /// A heading; gives the height that it takes.
    pub(super) fn heading(&mut self, at: Point, most: i32, words: &str) -> i32 {
        let lines = wrap(words, HEAD, true, most);
        let step = HEAD + 6;
        let mut y = at.y + HEAD;
        for words in &lines {
            let at = Point { x: at.x, y };
            self.shapes.push(Shape::Text(Text {
                at,
                anchor: Anchor::Start,
                size: HEAD,
                bold: true,
                words: words.clone(),
            }));
            y += step;
        }
        step * count(&lines)
    }

    /// A block of texts below a place, the first bold; gives its height.
    pub(super) fn block(&mut self, at: Point, anchor: Anchor, block: &Block) -> i32 {
        let mut y = at.y + LINE - 4;
        for (bold, words) in &block.lines {
            self.words(Point { x: at.x, y }, anchor, *bold, words);
            y += LINE;
        }
        block.height()
    }

    /// Number, mark and its words in a row from a place to the right; gives the width.
    pub(super) fn tag(&mut self, at: Point, (number, mark): (usize, Mark), reader: Reader) -> i32 {
        self.glyph(Glyph::Number(number), Point { x: at.x + 10, y: at.y });
        self.glyph(Glyph::Mark(mark), Point { x: at.x + 33, y: at.y });
        let words = mark.words(reader);
        self.words(Point { x: at.x + 46, y: at.y + 5 }, Anchor::Start, true, &words);
        tag_width(mark, reader)
    }
}

/// How wide a tag is.
pub(super) fn tag_width(mark: Mark, reader: Reader) -> i32 {
    46 + width(&mark.words(reader), SIZE, true)
}

/// How high a tag is.
pub(super) const TAG: i32 = 24;

/// Texts one below the other, broken to a width.
#[derive(Clone, Debug, Default)]
pub(super) struct Block {
    lines: Vec<(bool, String)>,
}

impl Block {
    /// The first text bold, the others plain.
    pub(super) fn titled(texts: &[String], most: i32) -> Block {
        let of = |(at, text): (usize, &String)| {
            wrap(text, SIZE, at == 0, most).into_iter().map(move |line| (at == 0, line)).collect::<Vec<_>>()
        };
        Block { lines: texts.iter().enumerate().flat_map(of).collect() }
    }

    pub(super) fn plain(texts: &[String], most: i32) -> Block {
        let of =
            |text: &String| wrap(text, SIZE, false, most).into_iter().map(|line| (false, line)).collect::<Vec<_>>();
        Block { lines: texts.iter().flat_map(of).collect() }
    }

    pub(super) fn height(&self) -> i32 {
        LINE * count(&self.lines)
    }

    /// The width of the widest line.
    pub(super) fn width(&self) -> i32 {
        self.lines.iter().map(|(bold, line)| width(line, SIZE, *bold)).max().unwrap_or(0)
    }
}

/// So many, as far as a paper can hold them.
pub(super) fn count<T>(things: &[T]) -> i32 {
    i32::try_from(things.len()).unwrap_or(i32::MAX / 1000).min(i32::MAX / 1000)
}
