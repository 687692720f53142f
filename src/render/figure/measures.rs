//! The lengths of a drawing by name, each with its letter; and the one scale of its views.

use super::svg::{Dimension, Edge, Picture};
use crate::diag::{Code, Fault};
use crate::procedure::Drawing;

/// Name in the drawing, letter on the sheet, words in its key.
const LETTERS: [(&str, &str, &str); 66] = [
    ("stock", "T", "thickness of the board that enters"),
    ("board", "T", "thickness of the board"),
    ("side", "S", "thickness of the grooved board"),
    ("mortised", "S", "thickness of the mortised piece"),
    ("end_thick", "S", "thickness of the end strip"),
    ("mortised_width", "V", "width of the piece that is let into"),
    ("rail_width", "W", "width of the rail"),
    ("board_width", "W", "width of the board"),
    ("width", "w", "width of the housing"),
    ("groove", "k", "width of the groove"),
    ("slot", "k", "width of the slot"),
    ("depth", "h", "depth"),
    ("wall", "f", "wall before the cut, from the face or the end"),
    ("cheek", "f", "cheek beside the slot"),
    ("mouth", "M", "mouth of the socket"),
    ("base", "B", "base of the socket"),
    (
        "exposure",
        "e",
        "exposure: shoulder of the tail, each cut face",
    ),
    ("end_cut", "k", "cut at the end of the tail, each cut face"),
    ("panel", "L", "grooved board, front to back"),
    ("stop", "b", "front edge to the end of the housing"),
    ("length", "l", "length of the housing to its crown"),
    ("cutter", "d", "diameter of the cutter"),
    ("notch", "N", "notch at the front of the shelf"),
    ("stock_a", "A", "thickness of the piece cut from its face"),
    ("stock_b", "B", "thickness of the piece cut from its back"),
    ("depth_a", "g", "cut into the face of the first piece"),
    ("depth_b", "j", "cut into the back of the second piece"),
    ("lap_a", "m", "lap of the piece cut from its face"),
    ("lap_b", "n", "lap of the piece cut from its back"),
    ("recess_a", "r", "recess in the face of the first piece"),
    ("recess_b", "s", "recess in the back of the second piece"),
    ("width_a", "v", "width of the first piece"),
    ("width_b", "w", "width of the piece that lies in the cut"),
    ("neck", "k", "neck of the tail"),
    ("tenon", "t", "thickness of the tenon"),
    ("tongue", "t", "thickness of the tongue"),
    ("mate", "t", "thickness of the board that lies in it"),
    ("tenon_length", "l", "length of the tenon"),
    ("tongue_length", "l", "length of the tongue"),
    ("dowel", "l", "length of the dowel"),
    ("tenon_width", "w", "width of the tenon"),
    ("shoulder_face", "a", "shoulder on the face side"),
    ("shoulder_back", "b", "shoulder on the back"),
    ("mortise", "m", "width of the mortise"),
    ("mortise_depth", "z", "depth of the mortise"),
    ("rail_depth", "y", "depth of the mortise in the rail"),
    ("haunch_long", "j", "length of the haunch"),
    ("haunch_wide", "o", "width of the haunch"),
    ("proud", "p", "stands out, to be planed off"),
    ("rebate", "w", "width of the rebate"),
    ("finger", "g", "width of a finger"),
    ("panel_edge", "p", "thickness of the panel at its edge"),
    ("gap", "z", "left before the bottom of the groove"),
    ("centre", "x", "inside corner to the middle of the groove"),
    ("spline", "s", "thickness of the spline"),
    ("spline_width", "w", "width of the spline"),
    ("first", "a", "edge of the rail to the first dowel"),
    ("pitch", "q", "dowel to dowel"),
    ("joint_length", "L", "length of the joint"),
    ("first_cramp", "c", "end of the joint to the first cramp"),
    ("spacing", "s", "cramp to cramp"),
    ("fence", "F", "fence face to the axis of the cutter"),
    (
        "fence_edge",
        "F",
        "fence face to the far edge of the cutter",
    ),
    ("hands", "H", "hands stay away from the cutter, at least"),
    ("stop_left", "L", "stop block at the left to the cutter"),
    ("stop_right", "R", "stop block at the right to the cutter"),
];

/// Longest label, in characters; a fraction with its remainder takes 17.
const LONGEST: usize = 20;

/// The lengths of one drawing.
pub(super) struct Measures<'a> {
    drawing: &'a Drawing,
}

impl<'a> Measures<'a> {
    pub(super) fn new(drawing: &'a Drawing) -> Self {
        Self { drawing }
    }

    /// A length in millimetres; a fault when it is missing or not more than nothing.
    pub(super) fn mm(&self, name: &str) -> Result<f64, Fault> {
        let shape = &self.drawing.shape;
        let Some((length, shown)) = self.drawing.lengths.get(name) else {
            let message = format!("the figure `{shape}` needs a length named `{name}`");
            return Err(Fault::error(Code::VALUE_MISSING, message)
                .hint(format!("add `{name}: ...` under `drawing`")));
        };
        if length.to_nm() > 0 {
            return Ok(length.to_mm());
        }
        let message = format!("the figure `{shape}` cannot be drawn with `{name}` of {shown}");
        Err(Fault::error(Code::OUT_OF_RANGE, message).hint("give a length of more than nothing"))
    }

    /// How a length is shown.
    pub(super) fn shown(&self, name: &str) -> &str {
        let found = self.drawing.lengths.get(name);
        found.map_or("", |(_, shown)| shown.as_str())
    }

    /// A dimension for a length: its letter and value; a value too long for the drawing stands in
    /// the key only.
    pub(super) fn dimension(&self, name: &str, from: f64, to: f64) -> Dimension {
        let whole = format!("{} {}", letter(name), self.shown(name));
        let label = if whole.chars().count() > LONGEST {
            letter(name).to_owned()
        } else {
            whole
        };
        Dimension { from, to, label }
    }

    /// Puts the dimension of a length at an edge of a picture.
    pub(super) fn mark(
        &self,
        picture: &mut Picture,
        edge: Edge,
        starts: [f64; 2],
        name: &str,
        span: [f64; 2],
    ) {
        let dimension = self.dimension(name, span[0], span[1]);
        picture.measure(edge, starts, dimension);
    }

    /// Refuses lengths that do not make a joint.
    pub(super) fn demand(&self, holds: bool, what: &str) -> Result<(), Fault> {
        if holds {
            return Ok(());
        }
        let message = format!(
            "the figure `{}` cannot be drawn: {what}",
            self.drawing.shape
        );
        Err(Fault::error(Code::OUT_OF_RANGE, message).hint("look at the lengths under `drawing`"))
    }

    /// Letter, words and value of every length that has a letter, and of the angle.
    pub(super) fn key(&self) -> Vec<(String, String, String)> {
        let known = LETTERS
            .iter()
            .filter(|(name, _, _)| self.drawing.lengths.contains_key(*name));
        let mut key: Vec<_> = known
            .map(|(name, letter, words)| {
                let shown = self.shown(name).to_owned();
                ((*letter).to_owned(), (*words).to_owned(), shown)
            })
            .collect();
        if let Some(angle) = self.drawing.angle {
            let words = "angle of the cutter, each side";
            key.push(("θ".to_owned(), words.to_owned(), format!("{angle}°")));
        }
        key
    }
}

fn letter(name: &str) -> &'static str {
    let found = LETTERS.iter().find(|(known, _, _)| *known == name);
    found.map_or("", |(_, letter, _)| letter)
}
