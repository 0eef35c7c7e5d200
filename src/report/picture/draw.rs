//! From shapes with their places to SVG: strokes, patterns of lines, nothing else.
//!
//! All of it is said by attributes of the elements, so that a page which forbids styles
//! shows it too; the ink is the color of the text around the picture. Nothing is
//! fetched, nothing runs.

use super::board::{Anchor, Look, Point, Rect, Shape, Stroke, Text};
use super::branches::Material;
use super::glyphs;
use super::layout::Laid;
use crate::report::markup::Sheet;
use crate::report::speech::Reader;

/// The letters: those of the reader's own system.
const LETTERS: &str = "system-ui, -apple-system, Segoe UI, Helvetica Neue, Arial, sans-serif";

/// What the picture is called and what it says to whoever cannot see it.
pub(super) struct About<'a> {
    pub(super) reader: Reader,
    pub(super) title: &'a str,
    pub(super) description: &'a str,
    /// Whether it stands alone, on paper of its own.
    pub(super) alone: bool,
}

/// The drawing.
pub(super) fn svg(laid: &Laid, about: &About<'_>) -> String {
    let mut sheet = Sheet::default();
    let name = format!("p{:08x}", hash(about.description));
    let (w, h) = (laid.width, laid.height);
    sheet.raw(&format!("<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {w} {h}\" width=\"100%\" "));
    sheet.raw(&format!("role=\"img\" lang=\"{}\" class=\"picture\" ", about.reader.language.tag()));
    sheet.raw(&format!("aria-labelledby=\"{name}-t\" aria-describedby=\"{name}-d\" "));
    // On a page the ink is the page's own.
    sheet.raw(if about.alone { "color=\"#1f1d1a\" " } else { "" });
    sheet.raw(&format!("font-family=\"{LETTERS}\" fill=\"none\" stroke=\"none\" "));
    sheet.raw("stroke-linecap=\"round\" stroke-linejoin=\"round\">\n");
    sheet.raw(&format!("<title id=\"{name}-t\">")).text(about.title).raw("</title>\n");
    sheet.raw(&format!("<desc id=\"{name}-d\">")).text(about.description).raw("</desc>\n");
    if about.alone {
        sheet.raw(&format!("<rect width=\"{w}\" height=\"{h}\" fill=\"#ffffff\"/>\n"));
    }
    for shape in &laid.board.shapes {
        draw(&mut sheet, shape);
    }
    sheet.raw("</svg>\n");
    sheet.0
}

/// A short name for a text, by FNV-1a (<http://www.isthe.com/chongo/tech/comp/fnv/>, from memory), so that two
/// pictures on one page do not share their names.
fn hash(text: &str) -> u32 {
    text.bytes().fold(0x811c_9dc5, |hash, byte| (hash ^ u32::from(byte)).wrapping_mul(0x0100_0193))
}

fn draw(sheet: &mut Sheet, shape: &Shape) {
    match shape {
        Shape::Text(text) => write(sheet, text),
        Shape::Pipe { material, from, to } => pipe(sheet, *material, *from, *to),
        Shape::Line { points, stroke } => line(sheet, points, *stroke),
        Shape::Box { room, look } => frame(sheet, *room, *look),
        Shape::Glyph { glyph, at } => glyphs::draw(sheet, *glyph, *at),
        Shape::Dimension { from, to } => dimension(sheet, *from, *to),
    }
}

fn write(sheet: &mut Sheet, text: &Text) {
    let Point { x, y } = text.at;
    let anchor = match text.anchor {
        Anchor::Start => "",
        Anchor::Middle => " text-anchor=\"middle\"",
    };
    let weight = if text.bold { " font-weight=\"600\"" } else { "" };
    sheet.raw(&format!("<text x=\"{x}\" y=\"{y}\" font-size=\"{}\"{weight}{anchor} fill=\"currentColor\">", text.size));
    sheet.text(&text.words).raw("</text>\n");
}

/// A path in the ink.
pub(super) fn path(sheet: &mut Sheet, way: &str, width: &str, more: &str) {
    sheet.raw(&format!("<path d=\"{way}\" stroke=\"currentColor\" stroke-width=\"{width}\"{more}/>\n"));
}

fn line(sheet: &mut Sheet, points: &[Point], stroke: Stroke) {
    let mut way = String::new();
    for (number, Point { x, y }) in points.iter().enumerate() {
        way.push_str(&format!("{}{x} {y}", if number == 0 { "M" } else { " L" }));
    }
    let (width, more) = match stroke {
        Stroke::Wall => ("1.6", ""),
        Stroke::Earth => ("1.6", ""),
        Stroke::Conductor => ("1.4", ""),
        Stroke::Thin => ("0.7", ""),
        Stroke::Dashed => ("1.2", " stroke-dasharray=\"4 4\""),
        Stroke::Wire => ("3.4", " class=\"wire\""),
        Stroke::WireDashed => ("3", " class=\"wire\" stroke-dasharray=\"9 7\""),
    };
    path(sheet, &way, width, more);
    if let (Stroke::Earth, [from, to]) = (stroke, points) {
        let mut ticks = String::new();
        let mut x = from.x + 8;
        while x < to.x {
            ticks.push_str(&format!("M{x} {} l-6 7", from.y));
            x += 12;
        }
        path(sheet, &ticks, "0.7", "");
    }
}

fn frame(sheet: &mut Sheet, room: Rect, look: Look) {
    let Rect { x, y, w, h } = room;
    let more = match look {
        Look::Plain => " stroke-width=\"1.4\"",
        Look::Frame => " stroke-width=\"1.6\"",
        Look::Sleeve => " stroke-width=\"1\" rx=\"6\"",
        Look::Unknown => " stroke-width=\"1.2\" stroke-dasharray=\"4 4\"",
    };
    sheet.raw(&format!("<rect x=\"{x}\" y=\"{y}\" width=\"{w}\" height=\"{h}\" stroke=\"currentColor\"{more}/>\n"));
    if look == Look::Unknown {
        hatch(sheet, room);
        glyphs::question(sheet, Point { x: x + w / 2, y: y + h / 2 });
    }
}

/// Slanting lines within a room.
fn hatch(sheet: &mut Sheet, room: Rect) {
    let Rect { x, y, w, h } = room;
    let mut way = String::new();
    let mut along = 7;
    while along < w + h {
        let (x1, y1) = if along <= w { (x + along, y) } else { (x + w, y + along - w) };
        let (x2, y2) = if along <= h { (x, y + along) } else { (x + along - h, y + h) };
        way.push_str(&format!("M{x1} {y1} L{x2} {y2}"));
        along += 7;
    }
    path(sheet, &way, "0.5", "");
}

fn pipe(sheet: &mut Sheet, material: Material, from: Point, to: i32) {
    let Point { x, y } = from;
    let two = |apart: i32| format!("M{x} {} H{to} M{x} {} H{to}", y - apart, y + apart);
    match material {
        Material::Steel => path(sheet, &two(4), "1.4", " stroke-linecap=\"butt\""),
        Material::Untold => path(sheet, &format!("M{x} {y} H{to}"), "2.2", " stroke-linecap=\"butt\""),
        Material::CsstPlain => wave(sheet, from, to),
        Material::CsstArc => {
            wave(sheet, from, to);
            path(sheet, &two(8), "1", "");
        }
        Material::CsstUnknown => {
            wave(sheet, from, to);
            path(sheet, &two(8), "1", " stroke-dasharray=\"3 5\"");
        }
        Material::Copper => path(sheet, &format!("M{x} {y} H{to}"), "5", " stroke-linecap=\"butt\""),
        Material::Brass => {
            path(sheet, &two(4), "1.2", "");
            path(sheet, &format!("M{x} {y} H{to}"), "2", " stroke-dasharray=\"0.1 6\"");
        }
        Material::Aluminum => {
            path(sheet, &two(4), "1.2", "");
            path(sheet, &format!("M{x} {y} H{to}"), "1.2", " stroke-dasharray=\"8 5\"");
        }
        Material::Plastic => {
            path(sheet, &format!("M{x} {y} H{to}"), "5", " stroke-dasharray=\"16 6\" stroke-linecap=\"butt\"");
        }
        Material::Connector => {
            let mut way = format!("M{x} {y} h4");
            let mut along = x + 4;
            while along + 10 <= to {
                way.push_str(" l2.5 -5 l5 10 l2.5 -5");
                along += 10;
            }
            path(sheet, &format!("{way} H{to}"), "1.2", "");
        }
        Material::Other => {
            path(sheet, &format!("M{x} {y} H{to}"), "3", " stroke-dasharray=\"14 5 1 5 1 5\"");
        }
        Material::Unknown => {
            let room = Rect { x, y: y - 7, w: to - x, h: 14 };
            frame(sheet, room, Look::Unknown);
        }
    }
}

fn wave(sheet: &mut Sheet, from: Point, to: i32) {
    let Point { x, y } = from;
    let mut way = format!("M{x} {y} h2 q2 -9 4 0");
    let mut along = x + 6;
    while along + 4 <= to - 2 {
        way.push_str(" t4 0");
        along += 4;
    }
    path(sheet, &format!("{way} H{to}"), "1.4", "");
}

fn dimension(sheet: &mut Sheet, from: Point, to: i32) {
    let Point { x, y } = from;
    let way = format!(
        "M{x} {} v12 M{to} {} v12 M{x} {y} H{to} M{x} {y} l8 -3 M{x} {y} l8 3 M{to} {y} l-8 -3 M{to} {y} l-8 3",
        y - 6,
        y - 6
    );
    path(sheet, &way, "0.8", "");
}
