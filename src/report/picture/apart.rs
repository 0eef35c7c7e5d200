//! Texts that would stand on one another, set apart: columns and rows leave room for
//! what is common, and rare jobs bring more together than they foresee.

use super::board::{Board, Rect, Shape, Stroke, Text};
use super::metric::LINE;

/// How far a text may be moved at most, in steps of half a line.
const STEPS: i32 = 24;

/// Moves each text that stands on another, or on the jumper, to the nearest free place
/// above or below it that lies on the paper; where there is none it stays.
pub(super) fn set(board: &mut Board, width: i32, height: i32) {
    let paper = Rect { x: 0, y: 0, w: width, h: height };
    for number in 0..board.shapes.len() {
        let Some(Shape::Text(text)) = board.shapes.get(number) else { continue };
        let text = text.clone();
        let clash = |other: usize| other < number;
        if !taken(board, number, &text, clash) {
            continue;
        }
        let moved = (1..=STEPS).flat_map(|step| [step, -step]).map(|step| {
            let mut moved = text.clone();
            moved.at.y += step * LINE / 2;
            moved
        });
        // Once it moves it keeps clear of those that come after it as well.
        let free = moved.into_iter().find(|moved| {
            let room = moved.room();
            let inside = room.y >= paper.y && room.y + room.h <= paper.h;
            inside && !taken(board, number, moved, |_| true)
        });
        if let (Some(free), Some(slot)) = (free, board.shapes.get_mut(number)) {
            *slot = Shape::Text(free);
        }
    }
}

/// Whether a text would stand on one of the others that are looked at, or on the jumper.
fn taken(board: &Board, own: usize, text: &Text, looked_at: impl Fn(usize) -> bool) -> bool {
    let room = text.room();
    board.shapes.iter().enumerate().filter(|(number, _)| *number != own).any(|(number, shape)| match shape {
        Shape::Text(other) => looked_at(number) && room.meets(&other.room()),
        Shape::Line { points, stroke: Stroke::Wire | Stroke::WireDashed } => {
            points.iter().zip(points.iter().skip(1)).any(|(one, other)| {
                let stretch = Rect {
                    x: one.x.min(other.x) - 1,
                    y: one.y.min(other.y) - 1,
                    w: (one.x - other.x).abs() + 2,
                    h: (one.y - other.y).abs() + 2,
                };
                room.meets(&stretch)
            })
        }
        _ => false,
    })
}
