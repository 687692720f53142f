//! A jig in a plan view: it runs along the fence between two stops, the work cramped in it.
//!
//! It is drawn at the stop at the right, where its way begins: the cutter stands under the cover (the
//! guard of `plan.rs`), the work waits at its right, behind the work the block in which the cutter is
//! hidden when the jig meets the other stop.

use super::plan::Scene;
use super::section::boxed;
use super::sketch::Sketch;
use super::svg::Point;

impl Scene<'_> {
    pub(super) fn draw_jig(&self, sketch: &mut Sketch, ((_, top), (end, bottom)): (Point, Point)) {
        let (least, most) = sketch.area();
        let unit = self.unit;
        let axis = f64::midpoint(self.least.1, self.most.1);
        let (left, right) = (self.least.0 - unit * 0.2, end + unit * 0.45);
        let low = (bottom.max(self.most.1) + unit * 0.15).min(most.1);
        sketch.phantom(&boxed((left, self.face), (right, low)));
        let aside = self.most.1 - axis + unit * 0.13;
        let exit = boxed(
            (end + unit * 0.05, axis - aside),
            (end + unit * 0.35, axis + aside),
        );
        if exit[1].0 < most.0 {
            sketch.outline(&exit);
            let under = exit[2].1 + unit * 0.12;
            let beside = exit[1].0 + unit * 0.3;
            let middle = f64::midpoint(exit[0].0, exit[1].0);
            sketch.note(
                &[
                    (beside, axis),
                    (middle, under),
                    (middle, exit[0].1 - unit * 0.1),
                ],
                "block",
            );
        }
        let block = unit * 0.13;
        let begin = least.0 + unit * 0.08;
        sketch.solid(&boxed(
            (begin, self.face),
            (begin + block, self.face + block),
        ));
        if right + block < most.0 {
            sketch.solid(&boxed(
                (right, self.face),
                (right + block, self.face + block),
            ));
        }
        if self.fence == Some("pin_gap") {
            let wide = self.most.1 - self.least.1;
            let long = unit * 0.05;
            sketch.solid(&boxed((end - self.long - long, -wide), (end, top)));
        }
    }
}
