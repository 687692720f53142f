//! A drawbored tenon on its face: its own hole, and the hole of the mortise's cheeks over it.
//!
//! Needs `cutter` (d, the peg) and `offset` (o); `passage` (q) where it is known, and for the places
//! `distance` (x) from the shoulder to the hole of the cheeks and `from_shoulder` (y) to that of the
//! tenon. The shoulder is at the left; the width of the tenon is broken off.

use super::View;
use super::measures::Measures;
use super::section::boxed;
use super::svg::{Edge, Picture, finish};
use crate::diag::Fault;

pub(super) fn views(measures: &Measures<'_>) -> Result<Vec<View>, Fault> {
    let (peg, offset) = (measures.mm("cutter")?, measures.or_nothing("offset")?);
    let distance = measures.optional("distance")?;
    measures.demand(offset < peg, "the holes do not meet")?;
    let (half, cheek) = (peg / 2.0, distance.unwrap_or(peg * 2.0));
    let tenon = cheek - offset;
    let (high, right) = (peg * 1.3, cheek + peg * 1.5);
    let mut picture = Picture::new(((tenon - half).min(0.0), -high), (right, high));
    let corners = boxed((0.0, -high), (right, high));
    picture.outline(&corners);
    picture.broken(corners[0], corners[1]);
    picture.broken(corners[1], corners[2]);
    picture.broken(corners[3], corners[2]);
    if distance.is_none() {
        picture.broken(corners[0], corners[3]);
    }
    picture.round((tenon, 0.0), peg);
    picture.ring((cheek, 0.0), peg);
    let mut mark = |edge, starts, name, span| measures.mark(&mut picture, edge, starts, name, span);
    mark(Edge::Top, [0.0; 2], "passage", [cheek - half, tenon + half]);
    mark(Edge::Top, [-high, 0.0], "distance", [0.0, cheek]);
    mark(Edge::Bottom, [0.0; 2], "offset", [tenon, cheek]);
    mark(Edge::Bottom, [high, 0.0], "from_shoulder", [0.0, tenon]);
    mark(Edge::Right, [cheek; 2], "cutter", [-half, half]);
    let shown = |name| measures.shown(name);
    let place = match distance {
        Some(_) => format!(
            " The hole of the cheeks lies {} from the shoulder, that of the tenon {}.",
            shown("distance"),
            shown("from_shoulder")
        ),
        None => String::new(),
    };
    let says = format!(
        "The tenon on its face, its shoulder at the left: a hole of {}, and dashed over it the hole \
         of the mortise's cheeks, {} farther from the shoulder. Through both a straight passage of \
         {} is left.{place}",
        shown("cutter"),
        shown("offset"),
        shown("passage")
    );
    Ok(finish(vec![(
        picture,
        "Both holes, on the tenon's face",
        says,
    )]))
}
