//! The joints drawn to scale from their lengths, in the line kinds of workshop drawing.
//!
//! A figure is a few views, each an SVG of its own, so that they stand side by side on paper and
//! one below the other on a phone. Every view says in words what it shows. Sections of one figure
//! share a scale. An unknown shape or a missing length is a fault: nothing is drawn by guess.

mod housing;
mod measures;
mod one_sided;
mod section;
mod sliding_dovetail;
mod stopped_housing;
mod svg;

use crate::diag::{Code, Fault};
use crate::procedure::Drawing;

use measures::Measures;

/// One view: a picture and the same in words.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct View {
    /// What it shows: `Socket, section`.
    pub title: String,
    /// The same as the picture, in words.
    pub says: String,
    /// The picture.
    pub svg: String,
}

/// A figure: its views, and the letters in them with names and values.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Figure {
    /// In the order that they are looked at.
    pub views: Vec<View>,
    /// Letter, name, value as shown.
    pub key: Vec<(String, String, String)>,
}

/// Draws a joint.
///
/// # Errors
/// An unknown shape (`unknown-name`), a missing length (`value-missing`), lengths that do not
/// make a joint (`out-of-range`).
pub fn figure(drawing: &Drawing) -> Result<Figure, Fault> {
    let measures = Measures::new(drawing);
    let views = match drawing.shape.as_str() {
        "housing" => housing::views(&measures)?,
        "stopped-housing" => stopped_housing::views(&measures)?,
        "sliding-dovetail" => sliding_dovetail::views(&measures)?,
        "one-sided-dovetail" => one_sided::views(&measures)?,
        other => {
            let message = format!("there is no figure of the shape `{other}`");
            return Err(Fault::error(Code::UNKNOWN_NAME, message)
                .hint("use housing, stopped-housing, sliding-dovetail or one-sided-dovetail"));
        }
    };
    Ok(Figure {
        views,
        key: measures.key(),
    })
}
