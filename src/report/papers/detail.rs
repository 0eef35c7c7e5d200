//! The detail drawing of the bond as a paper: the drawing, and under it what is built,
//! with a blank for whatever the job does not say.

use super::Drawn;
use super::plan_notes::built;
use crate::report::picture;
use crate::report::speech::Reader;
use serde::Serialize;

/// What stands on it.
#[derive(Serialize)]
pub(super) struct Body {
    /// The drawing; its texts are escaped where it is drawn.
    svg: String,
    built: Vec<[String; 2]>,
}

/// The drawing.
pub(super) fn body(drawn: &Drawn<'_, '_>, reader: Reader) -> Body {
    Body { svg: picture::detail(drawn.verdict, drawn.matter, reader), built: built(drawn, reader) }
}
