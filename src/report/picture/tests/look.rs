//! No text stands on another, on a wire, or off the paper.

use super::jobs::{of, paper, samples};
use crate::report::picture::Kind;
use crate::report::picture::board::{Glyph, Point, Rect, Shape, Stroke, Text};
use crate::report::picture::layout::Laid;
use crate::report::picture::power::Ground;
use crate::report::speech::Language;
use proptest::prelude::*;

/// What is wrong with a paper, in words.
fn wrong(laid: &Laid) -> Vec<String> {
    let texts: Vec<&Text> = laid
        .board
        .shapes
        .iter()
        .filter_map(|shape| match shape {
            Shape::Text(text) => Some(text),
            _ => None,
        })
        .collect();
    let mut found = Vec::new();
    for (number, text) in texts.iter().enumerate() {
        let room = text.room();
        if room.x < 0 || room.y < 0 || room.x + room.w > laid.width || room.y + room.h > laid.height {
            found.push(format!("`{}` is off the paper", text.words));
        }
        for other in texts.iter().skip(number + 1).filter(|other| room.meets(&other.room())) {
            found.push(format!("`{}` stands on `{}`", text.words, other.words));
        }
        for pipe in pipes(laid).filter(|pipe| room.meets(pipe)) {
            found.push(format!("`{}` stands on the pipe at {pipe:?}", text.words));
        }
        for wire in wires(laid).filter(|wire| room.meets(wire)) {
            found.push(format!("`{}` stands on the wire at {wire:?}", text.words));
        }
    }
    found
}

/// The room of each water or gas pipe of the electrical side.
fn pipes(laid: &Laid) -> impl Iterator<Item = Rect> {
    laid.board.shapes.iter().filter_map(|shape| match shape {
        Shape::Glyph { glyph: Glyph::Electrode(Ground::Pipe | Ground::GasPipe), at } => {
            Some(Rect { x: at.x - 29, y: at.y + 18, w: 58, h: 12 })
        }
        _ => None,
    })
}

/// The room of each stretch of the jumper.
fn wires(laid: &Laid) -> impl Iterator<Item = Rect> {
    let stretch = |ends: &[Point]| Rect {
        x: ends[0].x.min(ends[1].x) - 1,
        y: ends[0].y.min(ends[1].y) - 1,
        w: (ends[0].x - ends[1].x).abs() + 2,
        h: (ends[0].y - ends[1].y).abs() + 2,
    };
    laid.board
        .shapes
        .iter()
        .filter_map(|shape| match shape {
            Shape::Line { points, stroke: Stroke::Wire | Stroke::WireDashed } => Some(points),
            _ => None,
        })
        .flat_map(move |points| points.windows(2).map(stretch).collect::<Vec<_>>())
}

#[test]
fn no_text_of_a_sample_stands_on_another() {
    for (name, text) in samples() {
        for language in Language::ALL {
            for kind in [Kind::Picture, Kind::Detail] {
                let laid = paper(kind, &text, language);
                assert_eq!(wrong(&laid), Vec::<String>::new(), "{name}, {language:?}, {kind:?}");
            }
        }
    }
}

#[test]
fn no_word_stands_on_the_water_pipe_at_which_a_jumper_lands() {
    for language in Language::ALL {
        for kind in [Kind::Picture, Kind::Detail] {
            let laid = paper(kind, "place merrin\njumper { present yes landed-on water-pipe }\n", language);
            assert!(pipes(&laid).next().is_some());
            assert_eq!(wrong(&laid), Vec::<String>::new(), "{language:?}, {kind:?}");
        }
    }
}

#[test]
fn what_stands_on_another_is_noticed() {
    let mut laid = paper(Kind::Picture, &samples()[0].1, Language::English);
    let again = laid.board.shapes.iter().find(|shape| matches!(shape, Shape::Text(_))).cloned();
    laid.board.shapes.extend(again);
    assert_eq!(wrong(&laid).len(), 1);
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn no_text_stands_on_another(numbers in proptest::collection::vec(any::<u8>(), 0..260), spanish: bool) {
        let job = of(&numbers);
        let language = if spanish { Language::Spanish } else { Language::English };
        for kind in [Kind::Picture, Kind::Detail] {
            let laid = paper(kind, &job, language);
            prop_assert_eq!(wrong(&laid), Vec::<String>::new(), "{:?} {}", kind, job);
        }
    }
}
