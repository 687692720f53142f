//! The words in a plan view: person, feed, hands, what carries the work, and the face that is down.

use super::plan::Scene;
use super::plan_machine::Tool;
use super::section::boxed;
use super::sketch::Sketch;
use super::svg::{Bound, Point};
use crate::procedure::Guide;

impl Scene<'_> {
    pub(super) fn draw_words(&self, sketch: &mut Sketch, work: (Point, Point)) {
        let (least, most) = sketch.area();
        let unit = self.unit;
        let ((begin, top), (end, bottom)) = work;
        let (from, to) = (begin.max(least.0), end.min(most.0));
        let middle = (
            f64::midpoint(from, to),
            f64::midpoint(top, bottom.min(most.1)),
        );
        match self.plan.guide {
            Guide::Slot | Guide::EdgeGuide => self.draw_strokes(sketch),
            _ if self.moves() => self.draw_feed(sketch),
            _ => {}
        }
        let places = if self.machine.quarter {
            [0.75, 0.6, 0.9].map(|at| (most.0 - unit * 0.1, most.1 * at))
        } else {
            let ats = match self.machine.tool {
                Tool::Block => [0.6, 0.7, 0.5],
                // Out of the line of a swung blade.
                Tool::Chop if self.slant > 0.0 => [0.8, 0.9, 0.7],
                _ => [0.2, 0.35, 0.05],
            };
            ats.map(|at| (least.0 + (most.0 - least.0) * at, most.1))
        };
        let on_work = |inside| Bound {
            corners: boxed((from, top), (to, bottom.min(most.1))).to_vec(),
            inside,
        };
        let zone = self.zone((least, most));
        let in_zone = |inside| {
            let corners = zone.clone().into_iter();
            corners.map(move |corners| Bound { corners, inside })
        };
        let aside: Vec<Bound> = in_zone(false).chain([on_work(false)]).collect();
        sketch.note_in(&places, "person", &aside);
        if let Some(held) = self.machine.held {
            let low = self.most.1.max(0.0) + unit * 0.4;
            let under = [0.0, 0.2, 0.4, 0.6].map(|at| (self.least.0, low + unit * at));
            let aside = [-1.2, 1.2].map(|at| (self.least.0 + unit * at, low));
            sketch.note(&[&under[..], &aside[..]].concat(), held);
        }
        if self.hands.is_some() {
            let low = self.most.1.max(0.0) + unit * 0.55;
            let middle = f64::midpoint(self.least.0, self.most.0);
            let places = [
                (middle - unit * 0.35 + self.beside(low) * 1.5, low),
                (middle, low + unit * 0.15),
                (middle - unit * 0.5, low - unit * 0.2),
                (self.least.0 - unit * 0.55, unit * 0.25),
                (self.most.0 + unit * 0.5, self.most.1 * 0.5),
                (self.least.0 - unit * 0.5, self.most.1 * 0.5),
            ];
            sketch.note_in(&places, "no hands", &in_zone(true).collect::<Vec<_>>());
            // On the handles of a jig, not on the work.
            let free = match self.plan.guide {
                Guide::Jig => aside,
                _ => in_zone(false).collect(),
            };
            self.draw_hands(sketch, work, &free);
        }
        let word = match self.plan.guide {
            Guide::Sled => "sled",
            Guide::Carrier => "carrier",
            Guide::Gauge => "gauge",
            Guide::Jig => "jig",
            _ => return,
        };
        let places = [0.3, 0.5, 0.2].map(|at| (end + unit * at, middle.1.min(unit * 0.6)));
        sketch.note(&places, word);
    }

    /// Where hands may be, outside the bounds of the line.
    fn draw_hands(&self, sketch: &mut Sketch, work: (Point, Point), free: &[Bound]) {
        let unit = self.unit;
        let ((_, top), (end, bottom)) = work;
        let hands = self.hands.unwrap_or(unit);
        let (beyond, low) = (self.most.0 + hands * 1.25, bottom.min(hands) / 2.0);
        if self.plan.guide == Guide::Gauge {
            let on = (end + unit * 0.11, self.most.1 + hands * 1.15);
            sketch.note_in(&[on, (on.0, on.1 + unit * 0.2)], "hands", free);
        } else if self.plan.guide == Guide::Jig {
            let (on, low) = (end + unit * 0.2, self.most.1 + hands * 1.15);
            let places = [(beyond, self.most.1), (on, low), (on, low * 0.8)];
            sketch.note_in(&places, "hands", free);
        } else if self.machine.tool == Tool::Band && self.plan.guide == Guide::Freehand {
            // On both sides of the line, never on it.
            let aside = (bottom * 0.8).clamp(hands * 0.35, hands * 1.2);
            for side in [aside, -aside] {
                let places = [0.0, 0.2, 0.4].map(|more| (beyond + unit * more, side));
                sketch.note_in(&places, "hand", free);
            }
        } else if self.plan.guide == Guide::Freehand {
            let places = [0.0, 0.2].map(|more| (beyond + unit * more, f64::midpoint(top, bottom)));
            sketch.note_in(&places, "push-blocks", free);
        } else if self.moves() && end > beyond {
            let places = [(beyond, low), (beyond + unit * 0.2, low)];
            sketch.note_in(&places, "hands", free);
        }
    }

    /// The arrow of the feed and its word.
    fn draw_feed(&self, sketch: &mut Sketch) {
        let (least, most) = sketch.area();
        let (wide, high) = (most.0 - least.0, most.1 - least.1);
        let low = most.1 - high * 0.05;
        let (right, left) = (most.0 - wide * 0.03, most.0 - wide * 0.18);
        let (tail, tip) = match self.machine.held {
            Some(_) => (left, right),
            None => (right, left),
        };
        sketch.arrow(&[(tail, low), (tip, low)]);
        let beside = f64::midpoint(tail, tip);
        let step = high * 0.08;
        sketch.note(
            &[
                (beside, low - step),
                (left - wide * 0.09, low),
                (left - wide * 0.1, low - step),
                (beside, low - 2.0 * step),
            ],
            "feed",
        );
    }

    /// The face that lies on the table: its name, and the loop where the face side is up or down.
    pub(super) fn draw_face(&self, sketch: &mut Sketch, work: (Point, Point)) {
        let (least, most) = sketch.area();
        let unit = self.unit;
        let ((begin, top), (end, bottom)) = work;
        let (from, to) = (begin.max(least.0), end.min(most.0));
        let middle = f64::midpoint(from, to);
        let (first, last) = match &self.plan.down {
            Some(face) => (face.as_str(), "down"),
            None => ("", ""),
        };
        let spread = |at: f64| (top + (bottom.min(most.1) - top) * at).min(most.1);
        if first == "face side" || first == "back" {
            let places = [0.3, 0.5, 0.7, 0.15, 0.85].map(|at| (middle, spread(at)));
            let work = Bound {
                corners: boxed((from, top), (to, bottom.min(most.1))).to_vec(),
                inside: true,
            };
            sketch.face_mark(&places, first == "face side", work);
        }
        if !first.is_empty() {
            let word = format!("{first} {last}");
            let mut places: Vec<Point> = [0.55, 0.4, 0.7, 0.85, 0.25]
                .map(|at| (middle, spread(at)))
                .to_vec();
            let along = [0.7, 0.3, 0.85, 0.15].map(|at| from + (to - from) * at);
            places.extend(along.map(|x| (x, spread(0.5))));
            places.push((middle, (bottom + unit * 0.12).min(most.1 - unit * 0.1)));
            let along = [0.7, 0.9, 0.5].map(|at| from + (to - from) * at);
            let aside = [0.35, 0.7, 1.1].map(|far| bottom + unit * far);
            places.extend(aside.into_iter().flat_map(|y| along.map(|x| (x, y))));
            places.push((most.0 - unit * 0.5, most.1 - unit * 0.4));
            places.push((
                f64::midpoint(least.0, from),
                (bottom + unit * 0.3).min(most.1),
            ));
            sketch.note(&places, &word);
        }
    }
}
