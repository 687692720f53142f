//! The joints drawn to scale from their lengths, in the line kinds of workshop drawing.
//!
//! A figure is a few views, each an SVG of its own, so that they stand side by side on paper and
//! one below the other on a phone. Every view says in words what it shows. Sections of one figure
//! share a scale. An unknown shape or a missing length is a fault: nothing is drawn by guess.

mod breadboard;
mod bridle;
mod comb_joint;
mod dimension;
mod dovetails;
mod dowels;
mod drawbore;
mod drawer;
mod edge_joint;
mod frame_front;
mod frame_panel;
mod halving;
mod hatch;
mod housing;
mod housing_stop;
mod keyed_mitre;
mod lettering;
mod letters;
mod measures;
mod note;
mod one_sided;
mod peg_slot;
mod plan;
mod plan_detail;
mod plan_held;
mod plan_jig;
mod plan_layout;
mod plan_machine;
mod plan_notes;
mod plan_words;
mod rail_tenon;
mod rebate;
mod runs;
mod scribed;
mod section;
mod sketch;
mod sliding_dovetail;
mod splined_mitre;
mod stopped_housing;
mod svg;
mod tenon;
mod tenon_haunched;
mod tongue;

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
    /// The letters in it.
    pub letters: Vec<String>,
    /// Whether it wants 90 mm of paper for its letters to be read; others want 52 mm.
    pub wide: bool,
}

/// A figure: its views, and the letters in them with names and values.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Figure {
    /// In the order that they are looked at.
    pub views: Vec<View>,
    /// Letter, name, value as shown.
    pub key: Vec<(String, String, String)>,
}

/// What draws one shape.
type Draw = fn(&Measures<'_>) -> Result<Vec<View>, Fault>;

/// The shapes by name, as `drawing` of a procedure or a row of `worked/figured.rs` gives it.
const SHAPES: [(&str, Draw); 38] = [
    ("breadboard", breadboard::views),
    ("bridle", bridle::views),
    ("comb-joint", comb_joint::views),
    ("cross-halving", halving::cross),
    ("dovetail-halving", halving::dovetail),
    ("dowel-row", dowels::row),
    ("dowels", dowels::views),
    ("drawbore", drawbore::views),
    ("drawer", drawer::views),
    ("edge-joint", edge_joint::views),
    ("end-halving", halving::end),
    ("frame-and-panel", frame_panel::views),
    ("frame-panel", frame_front::panel),
    ("frame-rail", frame_front::rail),
    ("halving", halving::slanting),
    ("haunched-tenon", tenon_haunched::views),
    ("housing", housing::views),
    ("housing-stop", housing_stop::views),
    ("keyed-mitre", keyed_mitre::views),
    ("lapped-dovetail", dovetails::lapped),
    ("loose-tenon", tenon::loose),
    ("mitre", splined_mitre::bare),
    ("one-sided-dovetail", one_sided::views),
    ("peg-slot", peg_slot::views),
    ("plan", plan::views),
    ("rail-tenon", rail_tenon::views),
    ("rebate", rebate::views),
    ("scribed-joint", scribed::views),
    ("sliding-dovetail", sliding_dovetail::views),
    ("splined-mitre", splined_mitre::views),
    ("stopped-housing", stopped_housing::views),
    ("stopped-sliding-dovetail", sliding_dovetail::stopped),
    ("tapered-sliding-dovetail", sliding_dovetail::tapered),
    ("tenon", tenon::stopped),
    ("through-dovetail", dovetails::through),
    ("through-tenon", tenon::through),
    ("tongue-and-groove", tongue::edges),
    ("tongue-in-housing", tongue::corner),
];

/// Draws a joint.
///
/// # Errors
/// An unknown shape (`unknown-name`), a missing length (`value-missing`), lengths that do not
/// make a joint (`out-of-range`).
pub fn figure(drawing: &Drawing) -> Result<Figure, Fault> {
    let measures = Measures::new(drawing);
    let shape = drawing.shape.as_str();
    let Some((_, views)) = SHAPES.iter().find(|(name, _)| *name == shape) else {
        let known: Vec<&str> = SHAPES.iter().map(|(name, _)| *name).collect();
        let message = format!("there is no figure of the shape `{shape}`");
        return Err(Fault::error(Code::UNKNOWN_NAME, message)
            .hint(format!("use one of {}", known.join(", "))));
    };
    let views = views(&measures)?;
    Ok(Figure {
        views,
        key: measures.key(),
    })
}
