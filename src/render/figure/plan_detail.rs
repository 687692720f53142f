//! The cutter of a plan view enlarged: its fence distance, its size, and the pass before or after.

use super::plan::{Scene, arc};
use super::plan_words::near;
use super::section::boxed;
use super::sketch::Sketch;
use super::svg::{Edge, Picture};
use crate::diag::Fault;

/// Least width and most height of the drawing, between labels at both sides.
const DETAIL: (f64, f64) = (236.0, 200.0);

impl Scene<'_> {
    /// The tool and the fence, enlarged, with the other pass.
    pub(super) fn detail(&self) -> Result<(Picture, &'static str, String), Fault> {
        let radius = (self.most.0 - self.least.0) / 2.0;
        let axis = f64::midpoint(self.least.1, self.most.1);
        let named = self.fence.unwrap_or("fence");
        let end = self.fence_end(named);
        let other = ["pass_before", "pass_after"];
        let other = other.into_iter().find(|name| self.measures.has(name));
        let to = match other {
            Some(name) => Some(self.measures.mm(name)?),
            None => None,
        };
        let beyond = to.map_or(axis, |to| axis + to - end);
        let low = axis.max(beyond) + radius * 1.9;
        let high = (axis.min(beyond) - radius * 1.5).min(-radius * 0.7);
        let aside = (radius * 2.6).max((low - high) * 0.5);
        let mut sketch = Sketch::new((-aside, high), (aside, low), false, DETAIL);
        if named == "pin_gap" {
            let pin = boxed((-radius, high), (radius * 1.5, 0.0));
            sketch.outline(&pin);
            sketch.note(&[(0.0, high / 2.0)], "pin");
            sketch.keep(&pin);
        } else {
            self.draw_fence(&mut sketch);
        }
        sketch.round((0.0, axis), radius * 2.0);
        let over = radius * 1.25;
        sketch.centre((-over, axis), (over, axis));
        sketch.centre((0.0, axis - over), (0.0, axis + over));
        sketch.arrow(&arc((0.0, axis), radius * 1.45, 150.0, 30.0));
        let sides = [
            (-radius * 2.1, 0.0),
            (radius * 2.1, 0.0),
            (-radius * 2.1, radius),
            (radius * 2.1, radius),
        ];
        let beside = |y: f64| sides.map(|(x, aside)| (x, y + aside));
        if let (Some(name), Some(to)) = (other, to) {
            sketch.ring((0.0, beyond), radius * 2.0);
            let [this, that] = match name {
                "pass_before" => ["2", "1"],
                _ => ["1", "2"],
            };
            sketch.note(&beside(axis), this);
            sketch.note(&beside(beyond), that);
            sketch.mark(self.measures, Edge::Right, [0.0; 2], name, [0.0, to]);
        }
        let fed = low - radius * 0.25;
        sketch.arrow(&[(aside * 0.95, fed), (aside * 0.45, fed)]);
        sketch.note(&[(aside * 0.15, fed), (-aside * 0.3, fed)], "feed");
        sketch.mark(self.measures, Edge::Left, [-aside, 0.0], named, [0.0, end]);
        let size = [-radius, radius];
        sketch.mark(self.measures, Edge::Bottom, [axis; 2], "cutter", size);
        Ok((sketch.finish(), "At the cutter, enlarged", near(self)))
    }
}
