//! A set-up at the router table from above: fence, cutter and its rotation, feed, work, stop blocks,
//! and the place that hands stay out of.
//!
//! The fence is at the top, the person stands at the bottom. Seen from above the cutter turns
//! against the clock: its edge runs from left to right on the side of the person, so that work is
//! fed from right to left, against it (`safety.md` section 2). Needs `fence` (F), fence face to the
//! cutter's axis, or `fence_edge` (F), fence face to its far edge; `cutter` (d) and `hands` (H). May
//! have `stop_left` (L), `stop_right` (R) and `across` (the work across the feed).

use super::View;
use super::measures::Measures;
use super::section::boxed;
use super::svg::{Edge, Picture, Point, finish};
use crate::diag::Fault;
use crate::units::Angle;

/// Least width and most height of the drawing.
const ROOM: (f64, f64) = (430.0, 280.0);

/// How far the centre lines stand out of the cutter, as a share of the hands' distance.
const CROSS: f64 = 0.04;

struct Table {
    /// Fence face to the cutter's axis; less than nothing when it lies inside the fence.
    axis: f64,
    radius: f64,
    hands: f64,
    /// How far the table is drawn to each side, toward the person, and behind the fence face.
    aside: f64,
    front: f64,
    back: f64,
}

/// The fence by the cutter's axis.
pub(super) fn axis(measures: &Measures<'_>) -> Result<Vec<View>, Fault> {
    let fence = measures.mm("fence")?;
    views(measures, "fence", fence, fence)
}

/// The fence by the cutter's far edge.
pub(super) fn edge(measures: &Measures<'_>) -> Result<Vec<View>, Fault> {
    let fence = measures.mm("fence_edge")?;
    let axis = fence - measures.mm("cutter")? / 2.0;
    views(measures, "fence_edge", fence, axis)
}

fn views(measures: &Measures<'_>, named: &str, fence: f64, axis: f64) -> Result<Vec<View>, Fault> {
    let (radius, hands) = (measures.mm("cutter")? / 2.0, measures.mm("hands")?);
    let optional = |name: &str| match measures.shown(name) {
        "" => Ok(None),
        _ => measures.mm(name).map(Some),
    };
    let (left, right) = (optional("stop_left")?, optional("stop_right")?);
    let across = optional("across")?;
    let far = left.unwrap_or(0.0).max(right.unwrap_or(0.0)) + radius + hands * 0.3;
    let front = (axis + radius).max(0.0) + hands * 1.35;
    let table = Table {
        axis,
        radius,
        hands,
        aside: far.max(front * 1.15),
        front,
        back: (hands * 0.25).max(radius + hands * CROSS - axis),
    };
    let mut picture = Picture::new((-table.aside, -table.back), (table.aside, table.front));
    picture.room(ROOM);
    table.draw(&mut picture, across, right);
    let block = hands * 0.14;
    let distance = [
        left.map(|stop| -stop - radius),
        right.map(|stop| stop + radius),
    ];
    if let Some(x) = distance[0] {
        picture.solid(&boxed((x - block, 0.0), (x, block)));
        measures.mark(&mut picture, Edge::Top, [0.0; 2], "stop_left", [x, -radius]);
    }
    if let Some(x) = distance[1] {
        picture.solid(&boxed((x, 0.0), (x + block, block)));
        measures.mark(&mut picture, Edge::Top, [0.0; 2], "stop_right", [radius, x]);
    }
    let starts = [-table.aside, 0.0];
    measures.mark(&mut picture, Edge::Left, starts, named, [0.0, fence]);
    let edge = axis + radius;
    let away = [edge, edge + hands];
    measures.mark(&mut picture, Edge::Left, [0.0; 2], "hands", away);
    let size = [-radius, radius];
    measures.mark(&mut picture, Edge::Bottom, [axis; 2], "cutter", size);
    let says = says(measures, named);
    Ok(finish(vec![(picture, "Router table, from above", says)]))
}

impl Table {
    /// Points of a circle about the cutter, from one angle to another; 0 is right, 90 the person.
    fn arc(&self, radius: f64, from: f64, to: f64) -> Vec<Point> {
        let point = |step: u32| {
            let angle = Angle::degrees(from + (to - from) * f64::from(step) / 48.0);
            (radius * angle.cos(), self.axis + radius * angle.sin())
        };
        (0..=48).map(point).collect()
    }

    fn draw(&self, picture: &mut Picture, across: Option<f64>, right: Option<f64>) {
        let most = (self.aside, self.front);
        // Cutter first: fence and work lie over it.
        picture.round((0.0, self.axis), self.radius * 2.0);
        let over = self.radius + self.hands * CROSS;
        picture.centre((-over, self.axis), (over, self.axis));
        picture.centre((0.0, self.axis - over), (0.0, self.axis + over));
        let fence = boxed((-self.aside, -self.back), (self.aside, 0.0));
        picture.outline(&fence[..]);
        let wide = across.unwrap_or(self.hands).min(self.front * 0.72);
        let end = right.map_or(self.aside, |stop| stop + self.radius);
        let begin = (self.radius * 2.2 + self.hands * 0.06).min(end * 0.8);
        picture.phantom(&boxed((begin, 0.0), (end, wide)));
        let turn = self.radius + self.hands * 0.08;
        picture.arrow(&self.arc(turn, 160.0, 20.0));
        // On all sides of the cutter, as far as the fence.
        let zone = self.arc(self.radius + self.hands, 0.0, 360.0);
        let kept = zone.into_iter().map(|(x, y)| (x, y.max(0.0)));
        let kept: Vec<Point> = kept.collect();
        picture.phantom(&kept);
        let low = most.1 - self.hands * 0.08;
        picture.arrow(&[(self.aside * 0.96, low), (self.aside * 0.6, low)]);
        picture.note((self.aside * 0.78, low - self.hands * 0.12), "feed");
        let under = self.axis.max(0.0) + self.radius + self.hands * 0.75;
        picture.note((0.0, under), "no hands");
        picture.note((-self.aside * 0.75, -self.back / 2.0), "fence");
    }
}

fn says(measures: &Measures<'_>, named: &str) -> String {
    let to = if named == "fence" {
        "the axis of the cutter"
    } else {
        "the far edge of the cutter, the one toward the person"
    };
    let mut says = format!(
        "The table from above, the fence behind the cutter, the person in front. From the fence face \
         to {to}: {}. The cutter, {} across, turns against the clock: its edge runs from left to \
         right on the side of the person. The work is fed along the fence from right to left, against \
         the cutter. Hands stay outside the line around the cutter, {} from it.",
        measures.shown(named),
        measures.shown("cutter"),
        measures.shown("hands")
    );
    for (name, side, edge) in [
        ("stop_left", "at the left", "left"),
        ("stop_right", "at the right", "right"),
    ] {
        let shown = measures.shown(name);
        if !shown.is_empty() {
            says += &format!(
                " A stop block {side}: its face {shown} from the {edge} edge of the cutter."
            );
        }
    }
    says
}
