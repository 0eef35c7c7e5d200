//! The small drawings: things of the trade, and the marks of findings. Each mark has a
//! shape of its own, so that it is told apart without color.

use super::board::{Glyph, Point};
use super::draw::path;
use super::marks::Mark;
use super::power::Ground;
use crate::report::markup::Sheet;

/// What a mark is filled with: shades that stand out from white and from black alike.
fn tone(mark: Mark) -> (&'static str, &'static str) {
    match mark {
        Mark::Met => ("#3b8a57", "mark met"),
        Mark::NotMet => ("#c0431f", "mark not-met"),
        Mark::Conflict => ("#c0431f", "mark conflict"),
        Mark::Open => ("#9a7000", "mark open"),
        Mark::Due => ("currentColor", "mark due"),
        Mark::Refer => ("#4a7fb5", "mark refer"),
        Mark::Nothing => ("currentColor", "mark nothing"),
    }
}

/// Draws one.
pub(super) fn draw(sheet: &mut Sheet, glyph: Glyph, at: Point) {
    let Point { x, y } = at;
    sheet.raw(&format!("<g transform=\"translate({x} {y})\">\n"));
    match glyph {
        Glyph::Mark(mark) => draw_mark(sheet, mark),
        Glyph::Number(number) => draw_number(sheet, number),
        Glyph::Electrode(ground) => draw_electrode(sheet, ground),
        thing => draw_thing(sheet, thing),
    }
    sheet.raw("</g>\n");
}

/// A question mark in a circle.
pub(super) fn question(sheet: &mut Sheet, at: Point) {
    draw(sheet, Glyph::Question, at);
}

fn draw_thing(sheet: &mut Sheet, glyph: Glyph) {
    match glyph {
        Glyph::Meter => {
            path(sheet, "M-20 -20 H20 V20 H-20 Z M-24 -8 V8 M24 -8 V8", "1.4", "");
            path(sheet, "M-11 -13 H11 V-3 H-11 Z M-4 -13 V-3 M4 -13 V-3", "0.9", "");
            path(sheet, "M-6 9 a6 6 0 1 0 12 0 a6 6 0 1 0 -12 0 M0 9 l4 -4", "0.9", "");
        }
        Glyph::Rack => {
            path(sheet, "M-36 -20 H36 V20 H-36 Z", "1.4", "");
            let each = |left: i32| format!("M{left} -13 h16 v26 h-16 Z M{} -7 h10 v6 h-10 Z", left + 3);
            path(sheet, &format!("{} {} {}", each(-30), each(-8), each(14)), "0.9", "");
        }
        Glyph::Regulator => {
            path(sheet, "M-14 -9 L14 9 V-9 L-14 9 Z M0 0 V-12", "1.4", "");
            path(sheet, "M-11 -12 a11 11 0 0 1 22 0 Z", "1.4", "");
        }
        Glyph::Delivery => {
            path(sheet, "M0 -20 V20", "1.6", " stroke-dasharray=\"8 3 2 3\"");
            sheet.raw("<path d=\"M0 -12 l-5 -9 h10 Z\" fill=\"currentColor\"/>\n");
        }
        Glyph::Flow => {
            path(sheet, "M-7 -12 H9 m-6 -4 l6 4 l-6 4", "1.1", "");
        }
        Glyph::Cap => path(sheet, "M0 -8 V8", "3", ""),
        Glyph::Fitting => {
            sheet.raw("<path d=\"M-6 -7 H3 L6 -4 V4 L3 7 H-6 Z\" fill=\"currentColor\" fill-opacity=\"0.18\" stroke=\"currentColor\" stroke-width=\"1.2\"/>\n");
        }
        Glyph::Clamp => {
            sheet.raw(
                "<path d=\"M-8 -11 H8 V-6 H-8 Z M-8 6 H8 V11 H-8 Z M-3 11 H3 V17 H-3 Z\" fill=\"currentColor\"/>\n",
            );
            path(sheet, "M-10 -8 V8 M10 -8 V8", "1.6", "");
        }
        Glyph::ClampUpright => {
            sheet.raw(
                "<path d=\"M-11 -8 V8 H-6 V-8 Z M6 -8 V8 H11 V-8 Z M11 -3 V3 H17 V-3 Z\" fill=\"currentColor\"/>\n",
            );
            path(sheet, "M-8 -10 H8 M-8 10 H8", "1.6", "");
        }
        Glyph::ClampUnknown => {
            path(sheet, "M-12 -13 H12 V13 H-12 Z", "1.3", " stroke-dasharray=\"4 3\"");
            draw_thing(sheet, Glyph::Question);
        }
        Glyph::Splice => {
            path(sheet, "M-10 -6 H10 V6 H-10 Z M-10 -6 L10 6 M-10 6 L10 -6", "1.2", "");
        }
        Glyph::Joint => sheet_dot(sheet, 5),
        Glyph::Question => {
            path(sheet, "M-9 0 a9 9 0 1 0 18 0 a9 9 0 1 0 -18 0", "1.1", "");
            path(sheet, "M-3 -2.5 c0 -4.5 6.4 -4.5 6.4 -0.4 c0 2.4 -3.2 2.2 -3.2 4.4 M0.2 4.9 v0.3", "1.6", "");
        }
        Glyph::Circuit => path(sheet, "M3 -11 L-5 2 H1 L-3 11 L6 -3 H0 Z", "1.1", ""),
        Glyph::Cross => path(sheet, "M-13 -13 L13 13 M-13 13 L13 -13", "3", ""),
        Glyph::Panel => {
            path(sheet, "M-13 -20 H13 V20 H-13 Z", "1.2", "");
            path(sheet, "M-8 -13 H-1 M1 -13 H8 M-8 -6 H-1 M1 -6 H8 M-8 1 H-1 M1 1 H8 M-8 8 H-1 M1 8 H8", "2", "");
            path(sheet, "M-9 15 H9", "0.9", "");
        }
        Glyph::Mark(_) | Glyph::Number(_) | Glyph::Electrode(_) => {}
    }
}

fn sheet_dot(sheet: &mut Sheet, r: i32) {
    sheet.raw(&format!("<circle r=\"{r}\" fill=\"currentColor\"/>\n"));
}

/// The number of an element in a circle.
fn draw_number(sheet: &mut Sheet, number: usize) {
    sheet.raw("<circle r=\"10\" stroke=\"currentColor\" stroke-width=\"1.2\"/>\n");
    sheet.raw("<text y=\"5\" font-size=\"14\" font-weight=\"600\" text-anchor=\"middle\" fill=\"currentColor\">");
    sheet.text(&number.to_string()).raw("</text>\n");
}

/// Circle with a tick, square with a cross, triangle with a question mark, diamond for
/// the authority, two arrows against each other, an empty square, an empty circle.
fn draw_mark(sheet: &mut Sheet, mark: Mark) {
    let (color, class) = tone(mark);
    let solid = |way: &str| format!("<path class=\"{class}\" d=\"{way}\" fill=\"{color}\" fill-rule=\"evenodd\"/>\n");
    let ink = |way: &str, width: &str| {
        format!("<path class=\"{class}\" d=\"{way}\" stroke=\"{color}\" stroke-width=\"{width}\"/>\n")
    };
    match mark {
        Mark::Met => {
            sheet.raw(&ink("M-8.5 0 a8.5 8.5 0 1 0 17 0 a8.5 8.5 0 1 0 -17 0", "1.6"));
            sheet.raw(&ink("M-4 0.5 L-1 3.5 L4.5 -3.5", "2.2"));
        }
        // The cross is left out of the square, so that it is of the color of the paper.
        Mark::NotMet => {
            sheet.raw(&solid(
                "M-9 -9 H9 V9 H-9 Z M-5.6 -3.8 L-1.8 0 L-5.6 3.8 L-3.8 5.6 L0 1.8 L3.8 5.6 L5.6 3.8 L1.8 0 L5.6 -3.8 \
                 L3.8 -5.6 L0 -1.8 L-3.8 -5.6 Z",
            ));
        }
        Mark::Due => {
            sheet.raw(&ink("M-8 -8 H8 V8 H-8 Z", "1.6"));
        }
        Mark::Open => {
            sheet.raw(&ink("M0 -9.5 L10 8 H-10 Z", "1.6"));
            sheet.raw(&ink("M-2.4 -1.2 c0 -3.6 5 -3.6 5 -0.4 c0 1.8 -2.5 1.7 -2.5 3.4 M0.1 4.9 v0.2", "1.5"));
        }
        Mark::Refer => {
            sheet.raw(&ink("M0 -10 L10 0 L0 10 L-10 0 Z", "1.6"));
            sheet.raw(&ink("M0 -4.6 V1 M0 4.4 v0.2", "2"));
        }
        Mark::Conflict => {
            sheet.raw(&solid("M-10 -7 L-1 0 L-10 7 Z M10 -7 L1 0 L10 7 Z"));
        }
        Mark::Nothing => {
            sheet.raw(&ink("M-7 0 a7 7 0 1 0 14 0 a7 7 0 1 0 -14 0 M-3 0 H3", "1.1"));
        }
    }
}

/// An electrode that hangs from the line that joins all of them.
fn draw_electrode(sheet: &mut Sheet, ground: Ground) {
    match ground {
        Ground::Rod | Ground::AddedTied | Ground::AddedAlone | Ground::Lightning => {
            path(sheet, "M-3 0 H3 V38 L0 44 L-3 38 Z", "1.3", "");
        }
        Ground::Concrete => {
            path(sheet, "M0 0 V16 M-24 16 H24 V40 H-24 Z", "1.3", "");
            path(sheet, "M-18 28 H18", "2.4", "");
            path(sheet, "M-15 21 v0.1 M-4 36 v0.1 M9 22 v0.1 M17 35 v0.1 M-19 34 v0.1 M2 22 v0.1", "2", "");
        }
        Ground::Pipe | Ground::GasPipe => {
            path(sheet, "M0 0 V18 M-26 18 H26 M-26 30 H26", "1.3", "");
            path(sheet, "M-26 18 a3 6 0 0 0 0 12 M26 18 a3 6 0 0 1 0 12 a3 6 0 0 1 0 -12", "1.1", "");
        }
        Ground::Plate => path(sheet, "M0 0 V18 M-22 18 H22 V26 H-22 Z", "1.3", ""),
        Ground::Ring => path(sheet, "M0 0 V18 M-26 28 a26 10 0 1 0 52 0 a26 10 0 1 0 -52 0", "1.3", ""),
        Ground::Steel => path(sheet, "M-10 0 H10 M-10 44 H10 M0 0 V44", "2.2", ""),
        Ground::Other | Ground::Unknown => path(sheet, "M0 0 V16 M-14 16 H14 M-9 23 H9 M-4 30 H4", "1.4", ""),
    }
}
