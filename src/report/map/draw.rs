//! The drawing itself. It scales with the page, and has no style of its own: tones are
//! set by class where there is a page, and are black on white elsewhere.

use super::labels::{LINE, Label, Named, SIZE, place};
use super::project::{Projection, WIDE, path};
use super::{Drawn, Map, hatch, letters};
use crate::report::speech::Reader;
use crate::report::timeline::draw::harmless;
use geo::{Coord, Line, Rect};
use std::fmt::Write;

pub(super) fn draw(map: &Map<'_>, reader: Reader) -> Option<Drawn> {
    let bounds = map.shapes.iter().map(|shape| shape.area.bounds).reduce(|one, two| {
        let min = Coord { x: one.min().x.min(two.min().x), y: one.min().y.min(two.min().y) };
        Rect::new(min, Coord { x: one.max().x.max(two.max().x), y: one.max().y.max(two.max().y) })
    })?;
    let to = Projection::of(bounds);
    let named: Vec<Named> = map
        .shapes
        .iter()
        .map(|shape| Named {
            own: to.shape(&shape.area.shape),
            within: shape.within.iter().map(|area| to.shape(&area.shape)).collect(),
            name: format!("{}\u{a0}·\u{20}{}", letters(shape.class), shape.name),
        })
        .collect();
    let labels = place(&named, to.tall, WIDE);
    let mut out = String::new();
    let _ = writeln!(
        out,
        "<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"map\" viewBox=\"0 0 {WIDE} {:.0}\" role=\"group\" aria-label=\"{}\" lang=\"{}\" font-family=\"system-ui, sans-serif\">",
        to.tall,
        harmless(&map.title),
        reader.language.tag()
    );
    out.push_str(&hatch::definitions(map.settled.len()));
    out.push_str("<g fill-rule=\"evenodd\" stroke=\"#1d1c1a\" stroke-width=\"1.2\" stroke-linejoin=\"round\">\n");
    for (shape, own) in map.shapes.iter().zip(&named) {
        let settled = map.settled.get(shape.class).copied().unwrap_or(false);
        let dashed = if settled { "" } else { " stroke-dasharray=\"6 3\"" };
        let _ = writeln!(
            out,
            "<a href=\"{}\"><title>{}</title><path class=\"border\" d=\"{}\" fill=\"url(#{})\"{}{dashed}/></a>",
            harmless(&shape.href),
            harmless(&shape.says),
            path(&own.own),
            hatch::name(shape.class, settled),
            if shape.within.is_empty() { "" } else { " stroke-width=\"2\"" },
        );
    }
    // What is drawn over the areas lets the pointer through, and says nothing twice.
    out.push_str("</g>\n<g pointer-events=\"none\" aria-hidden=\"true\">\n");
    for line in labels.iter().filter_map(|label| label.leader) {
        write_leader(&mut out, line);
    }
    let _ = writeln!(
        out,
        "<g class=\"place\" font-size=\"{SIZE}\" text-anchor=\"middle\" fill=\"#1d1c1a\" stroke=\"#fff\" stroke-width=\"5\" stroke-linejoin=\"round\" paint-order=\"stroke\">"
    );
    for label in &labels {
        write_label(&mut out, label);
    }
    out.push_str("</g>\n");
    if let Some((longitude, latitude)) = map.point {
        write_point(&mut out, to.point(Coord { x: longitude, y: latitude }), to.tall);
    }
    out.push_str("</g>\n</svg>\n");
    let unnamed = (0..map.shapes.len()).filter(|of| !labels.iter().any(|label| label.of == *of)).collect();
    Some(Drawn {
        svg: out,
        unnamed,
        #[cfg(test)]
        labels,
    })
}

/// The line from a name to its place.
fn write_leader(out: &mut String, line: Line<f64>) {
    let (from, to) = (line.start, line.end);
    let _ = writeln!(
        out,
        "<path class=\"leader\" d=\"M{:.1} {:.1}L{:.1} {:.1}\" fill=\"none\" stroke=\"#1d1c1a\" stroke-width=\"1.2\"/><circle class=\"dot\" cx=\"{:.1}\" cy=\"{:.1}\" r=\"2.6\" fill=\"#1d1c1a\"/>",
        from.x, from.y, to.x, to.y, from.x, from.y
    );
}

fn write_label(out: &mut String, label: &Label) {
    let middle = label.bounds.center();
    let weight = if label.outer { " font-weight=\"700\"" } else { "" };
    let _ = write!(out, "<text{weight}>");
    for (number, line) in label.lines.iter().enumerate() {
        // The foot of the letters stands a fifth of a line above the line's end.
        let y = label.bounds.min().y + LINE * (number as f64 + 0.8);
        let _ = write!(out, "<tspan x=\"{:.1}\" y=\"{y:.1}\">{}</tspan>", middle.x, harmless(line));
    }
    out.push_str("</text>\n");
}

/// A ring and a cross at the point that was asked for, where it lies on the sheet.
fn write_point(out: &mut String, at: Coord<f64>, tall: f64) {
    if !(0.0..=WIDE).contains(&at.x) || !(0.0..=tall).contains(&at.y) {
        return;
    }
    let (x, y) = (at.x, at.y);
    let _ = writeln!(
        out,
        "<g class=\"point\" fill=\"none\" stroke=\"#1d1c1a\"><circle cx=\"{x:.1}\" cy=\"{y:.1}\" r=\"9\" stroke=\"#fff\" stroke-width=\"6\"/><circle cx=\"{x:.1}\" cy=\"{y:.1}\" r=\"9\" stroke-width=\"2.5\"/><path d=\"M{:.1} {y:.1}H{:.1}M{x:.1} {:.1}V{:.1}\" stroke-width=\"2\"/></g>",
        x - 15.0,
        x + 15.0,
        y - 15.0,
        y + 15.0
    );
}
