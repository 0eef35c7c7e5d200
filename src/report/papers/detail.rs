//! The detail drawing of the bond, on a sheet of its own behind what all papers carry: it
//! can be clipped to the plans, and ends with the cautions itself. How each part stands is
//! told behind it in letters, so that the drawing has the sheet to itself.

use super::Drawn;
use crate::report::picture;
use crate::report::speech::Reader;
use serde::Serialize;

/// What stands on it.
#[derive(Serialize)]
pub(super) struct Body {
    /// The drawing; its texts are escaped where it is drawn.
    svg: String,
    /// How each part of it stands, by the numbers in it.
    parts: Vec<picture::Listed>,
}

/// The drawing.
pub(super) fn body(drawn: &Drawn<'_, '_>, reader: Reader) -> Body {
    let (svg, parts) = picture::detail(drawn.verdict, drawn.matter, reader);
    Body { svg, parts }
}
