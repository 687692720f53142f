//! A slot that lets wood move past a peg, from above.
//!
//! Needs `slot` (s), `cutter` (d, the peg), and how far the slot reaches past the peg: `slot_in` (i)
//! toward the fixed point, at the left, and `slot_out` (u) away from it. The board is broken off
//! around the slot.

use super::View;
use super::measures::Measures;
use super::section::boxed;
use super::svg::{Edge, Picture, Point, finish};
use crate::diag::Fault;
use crate::units::Angle;

/// Points of a half circle.
const STEPS: u32 = 16;

pub(super) fn views(measures: &Measures<'_>) -> Result<Vec<View>, Fault> {
    let (slot, peg) = (measures.mm("slot")?, measures.mm("cutter")?);
    let near = measures.or_nothing("slot_in")?;
    let far = measures.or_nothing("slot_out")?;
    let agrees = (near + peg + far - slot).abs() < peg / 20.0;
    measures.demand(agrees, "peg and play do not make the length of the slot")?;
    let (half, aside) = (peg / 2.0, peg * 1.2);
    let mut picture = Picture::new((-peg, -aside), (slot + peg, aside));
    let corners = boxed((-peg, -aside), (slot + peg, aside));
    picture.outline(&corners);
    for (at, from) in corners.iter().enumerate() {
        picture.broken(*from, corners[(at + 1) % corners.len()]);
    }
    picture.outline(&round_ended(slot, half));
    let axis = near + half;
    picture.round((axis, 0.0), peg);
    picture.centre((-half, 0.0), (slot + half, 0.0));
    let mut mark = |edge, starts, name, span| measures.mark(&mut picture, edge, starts, name, span);
    mark(Edge::Top, [0.0; 2], "slot", [0.0, slot]);
    mark(Edge::Bottom, [0.0; 2], "slot_in", [0.0, near]);
    mark(Edge::Bottom, [0.0; 2], "slot_out", [slot - far, slot]);
    mark(Edge::Right, [slot - half; 2], "cutter", [-half, half]);
    let shown = |name| measures.shown(name);
    let says = format!(
        "The tongue from above, broken off around a slot {} long with round ends, the fixed point \
         far to the left. A peg of {} stands in it with {} to the end of the slot on the side of \
         the fixed point, and {} on the other side.",
        shown("slot"),
        shown("cutter"),
        shown("slot_in"),
        shown("slot_out")
    );
    Ok(finish(vec![(picture, "Slot and peg, from above", says)]))
}

/// The outline of a slot from x = 0, its ends half circles.
fn round_ended(long: f64, radius: f64) -> Vec<Point> {
    let arc = |middle: f64, turned: u32, side: f64| {
        let angle = Angle::degrees(f64::from(turned) * 180.0 / f64::from(STEPS) - 90.0);
        let (along, across) = (radius * angle.cos(), radius * angle.sin());
        (middle + side * along, side * across)
    };
    let right = (0..=STEPS).map(|turned| arc(long - radius, turned, 1.0));
    right
        .chain((0..=STEPS).map(|turned| arc(radius, turned, -1.0)))
        .collect()
}
