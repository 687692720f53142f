//! What a router in the hands runs on in a plan view: guide boards, a jig with a slot, supports at an
//! end; and what lies beside the work, or ends the way, where it runs along a straightedge.

use super::plan::Scene;
use super::section::boxed;
use super::sketch::Sketch;
use super::svg::{Edge, Point};
use crate::diag::Fault;
use crate::procedure::Guide;

impl Scene<'_> {
    /// Draws it before the work.
    pub(super) fn draw_under(&self, sketch: &mut Sketch, work: (Point, Point)) {
        match self.plan.guide {
            Guide::Boards => self.draw_boards(sketch, work),
            Guide::Slot => self.draw_slot(sketch),
            Guide::EdgeGuide => self.draw_supports(sketch, work),
            _ if self.fence == Some("edge_near") && self.measures.has("edge_end") => {
                self.draw_beside(sketch, work);
            }
            _ => {}
        }
    }

    /// The two guide boards, and the side boards between them beside the work.
    fn draw_boards(&self, sketch: &mut Sketch, ((begin, _), (end, apart)): (Point, Point)) {
        let (least, most) = sketch.area();
        let unit = self.unit;
        let low = apart + unit * 0.35;
        let far = boxed(least, (most.0, 0.0));
        let near = boxed((least.0, apart), (most.0, low));
        sketch.outline(&far);
        sketch.outline(&near);
        sketch.phantom(&boxed((least.0, 0.0), (begin, apart)));
        sketch.phantom(&boxed((end, 0.0), (most.0, apart)));
        let ats = [0.6, 0.5, 0.35];
        let along = |y: f64| ats.map(|at| (least.0 + (most.0 - least.0) * at, y));
        sketch.note(&along(least.1 / 2.0), "guide board");
        sketch.note(&along(f64::midpoint(apart, low)), "guide board");
        sketch.keep(&far);
        sketch.keep(&near);
        let beside = f64::midpoint(end, most.0);
        sketch.note(
            &[(beside, apart / 2.0), (beside, apart * 0.7)],
            "side board",
        );
        sketch.mark(
            self.measures,
            Edge::Right,
            [most.0; 2],
            "apart",
            [0.0, apart],
        );
    }

    /// The plate with its slot, and the block under it that bears on the work.
    fn draw_slot(&self, sketch: &mut Sketch) {
        let has = |name: &str| self.measures.mm(name).unwrap_or_default();
        let (long, bush) = (has("slot_long"), has("bush"));
        let axis = f64::midpoint(self.least.1, self.most.1);
        let (begin, end) = (-bush / 2.0, long - bush / 2.0);
        let slot = boxed((begin, axis - bush / 2.0), (end, axis + bush / 2.0));
        let (more, wide) = ((has("plate_long") - long) / 2.0, has("plate_wide") / 2.0);
        let (least, most) = sketch.area();
        let plate = (
            ((begin - more).max(least.0), (axis - wide).max(least.1)),
            ((end + more).min(most.0), (axis + wide).min(most.1)),
        );
        if more > 0.0 && wide > bush {
            sketch.phantom(&boxed(plate.0, plate.1));
            let low = plate.1.1 - self.unit * 0.12;
            sketch.note(&[(plate.0.0 * 0.7, low), (plate.1.0 * 0.7, low)], "plate");
        }
        let block = boxed((plate.0.0, -self.unit * 0.2), (plate.1.0, 0.0));
        sketch.outline(&block);
        let middle = f64::midpoint(begin, end);
        sketch.note(
            &[(middle, -self.unit * 0.1), (end, -self.unit * 0.1)],
            "block",
        );
        sketch.outline(&slot);
        let span = [begin, end];
        sketch.mark(
            self.measures,
            Edge::Bottom,
            [slot[2].1; 2],
            "slot_long",
            span,
        );
    }

    /// The supports at both faces of an end, and the router's guide on the near one.
    fn draw_supports(&self, sketch: &mut Sketch, ((begin, top), (end, bottom)): (Point, Point)) {
        let (least, most) = sketch.area();
        let unit = self.unit;
        let (left, right) = (
            (begin - unit * 0.3).max(least.0),
            (end + unit * 0.3).min(most.0),
        );
        let middle = f64::midpoint(left, right);
        let far = (top - unit * 0.3).max(least.1);
        for (above, below) in [(far, top), (bottom, 0.0)] {
            sketch.phantom(&boxed((left, above), (right, below)));
            let y = f64::midpoint(above, below);
            let places = [0.55, 0.8, 0.3].map(|at| (left + (right - left) * at, y));
            sketch.note(&places, "support");
        }
        let low = unit * 0.14;
        let guide = boxed((-unit * 0.5, 0.0), (unit * 0.5, low));
        sketch.outline(&guide);
        sketch.note(
            &[(0.0, low / 2.0), (middle, low + unit * 0.12)],
            "edge guide",
        );
        let face = bottom;
        sketch.mark(
            self.measures,
            Edge::Right,
            [right; 2],
            "support",
            [face, 0.0],
        );
    }

    /// Blocks at both edges of the work and a strip beyond its end, which carry the base.
    fn draw_beside(&self, sketch: &mut Sketch, ((begin, _), (end, down)): (Point, Point)) {
        let (least, most) = sketch.area();
        let unit = self.unit;
        let wide = unit * 0.55;
        let run_on = boxed((begin - wide, 0.0), (begin, self.least.1 * 0.9));
        sketch.phantom(&run_on);
        let middle = (f64::midpoint(begin - wide, begin), self.least.1 * 0.45);
        sketch.note(&[middle, (middle.0 - wide, middle.1)], "run-on");
        if end + wide < most.0 {
            sketch.phantom(&boxed((end, 0.0), (end + wide, down)));
            let middle = (end + wide / 2.0, down / 2.0);
            sketch.note(&[middle, (middle.0, down * 0.3)], "backing");
        }
        let strip = (down + unit * 0.12, down + unit * 0.4);
        let over = boxed(
            ((begin - wide).max(least.0), strip.0),
            ((end + wide).min(most.0), strip.1),
        );
        sketch.phantom(&over);
        let y = f64::midpoint(strip.0, strip.1);
        let places = [0.5, 0.7, 0.3].map(|at| (least.0 + (most.0 - least.0) * at, y));
        sketch.note(&places, "support strip");
        sketch.keep(&over);
    }

    /// The block that the base meets where a cut along a straightedge ends.
    pub(super) fn draw_far_stop(&self, sketch: &mut Sketch, end: f64) -> Result<(), Fault> {
        let name = "stop_beyond";
        let (Some(beyond), Some(bare)) = (
            self.measures.optional(name)?,
            self.measures.optional("stop")?,
        ) else {
            return Ok(());
        };
        let (from, low) = (end - bare, self.most.1 + self.unit * 0.3);
        let face = from + beyond;
        sketch.solid(&boxed((face, 0.0), (face + self.unit * 0.13, low)));
        sketch.hidden((from, self.least.1), (from, self.most.1));
        let y = self.most.1;
        sketch.mark(
            self.measures,
            Edge::Top,
            [self.least.1, 0.0],
            name,
            [from, face],
        );
        sketch.mark(self.measures, Edge::Bottom, [y, low], "stop", [from, end]);
        Ok(())
    }

    /// The movements of a router that is not fed in one line: clockwise round a slot; away from the
    /// person, then along the end.
    pub(super) fn draw_strokes(&self, sketch: &mut Sketch) {
        let axis = f64::midpoint(self.least.1, self.most.1);
        if self.plan.guide == Guide::Slot {
            let has = |name: &str| self.measures.mm(name).unwrap_or_default();
            let bush = has("bush");
            let (left, right) = (bush * 0.7, has("slot_long") - bush * 0.8);
            let (far, near) = (axis - bush * 0.25, axis + bush * 0.25);
            sketch.arrow(&[(right, near), (left, near), (left, far), (right, far)]);
            let low = axis + bush * 0.5 + self.unit * 0.14;
            let middle = f64::midpoint(left, right);
            sketch.note(&[(middle, low), (right, low), (left, low)], "feed");
            return;
        }
        let unit = self.unit;
        let right = self.most.0 + unit * 0.25;
        sketch.arrow(&[(right, unit * -0.02), (right, axis)]);
        sketch.note(
            &[
                (right + unit * 0.1, axis / 2.0),
                (right - unit * 0.1, axis / 2.0),
            ],
            "1",
        );
        let (tail, tip) = (self.least.0 - unit * 0.35, self.least.0 - unit * 0.1);
        sketch.arrow(&[(tail, axis), (tip, axis)]);
        let beside = [(tail - unit * 0.1, axis), (tail, axis + unit * 0.12)];
        sketch.note(&beside, "2");
        let low = unit * 0.3;
        sketch.note(&[(right, low), (tail, low), (0.0, low)], "feed");
    }
}
