//! A machine from above as a set-up leaves it: fence, tool and its rotation, work, feed, stops,
//! guard, and the place that hands stay out of; beside it the tool enlarged.
//!
//! All is reckoned in one frame (`plan_machine.rs`), from the length that places the tool (`FENCES`),
//! `cutter` (d), `long` and `across` (the work along and across the feed), `table` (across the feed);
//! where they are known `rest` (P, from the fence to the work), `hands` (H), the stops, `height` and
//! `kerf` of a saw, and the fence of another pass. A jig is drawn by `plan_jig.rs`, what lies under
//! a router in the hands by `plan_held.rs`; where all lies is reckoned in `plan_layout.rs`.

use super::View;
use super::measures::Measures;
use super::plan_layout::{QUARTER, ROOM};
use super::plan_machine::{Machine, Tool, Turns, guard, kinds, machine};
use super::plan_words::says;
use super::section::boxed;
use super::sketch::Sketch;
use super::svg::{Edge, Point, finish};
use crate::diag::{Code, Fault};
use crate::procedure::{Guide, Plan};
use crate::units::Angle;

/// Kerf, width of a band-saw blade and diameter of a cutter block where they are not known.
const KERF: f64 = 3.0;
const BAND: f64 = 10.0;
const BLOCK: f64 = 70.0;
/// Between the halves of a fence and the tool that stands in it (`router-table.yaml`, fact RT-04).
const OPENING: f64 = 3.0;

/// The lengths that place the tool: from the guide to its axis (`fence`, `guide_axis`, `block_axis`),
/// to its far edge (`fence_edge`), to its near side.
const FENCES: [&str; 7] = [
    "fence",
    "fence_edge",
    "fence_near",
    "edge_near",
    "pin_gap",
    "guide_axis",
    "block_axis",
];

/// One plan view, reckoned.
pub(super) struct Scene<'a> {
    pub(super) measures: &'a Measures<'a>,
    pub(super) plan: &'a Plan,
    pub(super) machine: &'static Machine,
    /// Name of the length from the fence, where there is one.
    pub(super) fence: Option<&'static str>,
    /// Corners of the tool.
    pub(super) least: Point,
    pub(super) most: Point,
    pub(super) long: f64,
    pub(super) across: f64,
    /// How far a swung blade goes to the left for its way toward the person; 0 for a square cut.
    pub(super) slant: f64,
    /// Where the face of the fence is: at 0, or as far behind as a pin stands before it.
    pub(super) face: f64,
    pub(super) hands: Option<f64>,
    /// What distances that nothing tells are taken from: the hands' distance or the work.
    pub(super) unit: f64,
}

/// The view or views of a set-up.
pub(super) fn views(measures: &Measures<'_>) -> Result<Vec<View>, Fault> {
    let scene = Scene::new(measures)?;
    let mut views = finish(vec![scene.whole()?]);
    // In a jig only the pin is near enough to the cutter to be enlarged with it.
    let near = scene.plan.guide != Guide::Jig || scene.fence == Some("pin_gap");
    if near && scene.machine.tool == Tool::Round && scene.machine.turns == Turns::Against {
        views.extend(finish(vec![scene.detail()?]));
    }
    Ok(views)
}

impl<'a> Scene<'a> {
    fn new(measures: &'a Measures<'a>) -> Result<Self, Fault> {
        let Some(plan) = measures.plan() else {
            let fault = Fault::error(Code::VALUE_MISSING, "a plan view needs its machine");
            return Err(fault.hint("draw it from a set-up that says how the work is guided"));
        };
        let Some(machine) = machine(&plan.machine) else {
            let message = format!("there is no plan view of the machine `{}`", plan.machine);
            return Err(Fault::error(Code::UNKNOWN_NAME, message)
                .hint(format!("use one of {}", kinds().join(", "))));
        };
        let fence = FENCES.into_iter().find(|name| measures.has(name));
        let (long, across) = (measures.mm("long")?, measures.mm("across")?);
        let hands = measures.optional("hands")?;
        let (least, most) = tool(measures, machine, fence)?;
        let swing = Angle::degrees(measures.angle().unwrap_or_default());
        let swung = (0.0..80.0).contains(&swing.to_degrees());
        measures.demand(
            swung,
            "the saw is swung by less than nothing or by 80° or more",
        )?;
        let held = match (plan.guide, measures.optional("slot_long")?) {
            (Guide::Slot, Some(slot)) => slot,
            _ if measures.has("edge_end") => long * 0.3,
            _ => long * 0.5,
        };
        Ok(Self {
            measures,
            plan,
            machine,
            fence,
            least,
            most,
            long,
            across,
            slant: swing.tan(),
            face: measures.optional("behind")?.map_or(0.0, |behind| -behind),
            hands,
            unit: hands.unwrap_or(match machine.held {
                Some(_) => held.max(40.0),
                None => (across * 0.6).max(40.0),
            }),
        })
    }

    /// Whether something lies at y = 0 along the whole feed.
    fn has_fence(&self) -> bool {
        match self.plan.guide {
            Guide::Gauge | Guide::Rollers | Guide::Boards | Guide::Slot | Guide::EdgeGuide => false,
            Guide::Freehand => self.machine.tool == Tool::Block,
            _ => true,
        }
    }

    fn whole(&self) -> Result<(super::svg::Picture, &'static str, String), Fault> {
        let work = self.work()?;
        let (least, most) = self.area(work)?;
        let room = if self.machine.quarter { QUARTER } else { ROOM };
        let mut sketch = Sketch::new(least, most, self.machine.quarter, room);
        self.draw_guide(&mut sketch, work);
        self.draw_work(&mut sketch, work);
        self.draw_tool(&mut sketch, work);
        self.draw_stops(&mut sketch, work)?;
        self.draw_far_stop(&mut sketch, work.1.0)?;
        if let Some(zone) = self.zone(sketch.area()) {
            sketch.phantom(&zone);
        }
        self.draw_words(&mut sketch, work);
        self.draw_guard(&mut sketch);
        self.draw_face(&mut sketch, work);
        if let Some(name) = self.fence {
            let to = self.fence_end(name);
            let (starts, span) = match name {
                "guide_axis" => ([0.0, least.0], [to, 0.0]),
                "pin_gap" => ([work.0.0, 0.0], [0.0, to]),
                _ => ([least.0, 0.0], [0.0, to]),
            };
            sketch.mark(self.measures, Edge::Left, starts, name, span);
        }
        for (name, from) in [("rest", self.face), ("edge_end", 0.0)] {
            if let (Guide::Jig | Guide::Straightedge, true) =
                (self.plan.guide, self.measures.has(name))
            {
                let to = if name == "rest" { work.0.1 } else { work.1.1 };
                let end = work.1.0.min(most.0);
                sketch.mark(self.measures, Edge::Right, [most.0, end], name, [from, to]);
            }
        }
        // Beside a swung blade the distance is not seen along the edge of the picture.
        if let Some(hands) = self.hands.filter(|_| self.slant <= 0.0) {
            let span = [self.most.0, self.most.0 + hands];
            sketch.mark(
                self.measures,
                Edge::Bottom,
                [self.most.1.max(0.0); 2],
                "hands",
                span,
            );
        }
        Ok((sketch.finish(), self.machine.title, says(self)))
    }

    /// Where the length from the fence ends.
    pub(super) fn fence_end(&self, name: &str) -> f64 {
        match name {
            "fence" | "guide_axis" | "block_axis" => f64::midpoint(self.least.1, self.most.1),
            "fence_edge" => self.most.1,
            _ => self.least.1,
        }
    }

    fn draw_guide(&self, sketch: &mut Sketch, work: (Point, Point)) {
        let ((begin, top), (end, bottom)) = work;
        let (least, most) = sketch.area();
        let unit = self.unit;
        if self.has_fence() {
            self.draw_fence(sketch);
        }
        let low = bottom.min(most.1);
        match self.plan.guide {
            Guide::Sled => {
                let (to, low) = ((end + unit * 0.6).min(most.0), low.min(unit * 0.8));
                sketch.phantom(&boxed((end, 0.0), (to, low)));
            }
            Guide::Carrier => {
                let low = low.min(unit * 0.8);
                sketch.phantom(&boxed((begin - unit * 0.1, 0.0), (begin, low)));
                sketch.phantom(&boxed((end, 0.0), ((end + unit * 0.3).min(most.0), low)));
            }
            Guide::Carriage => {
                let low = low.min(most.1);
                sketch.phantom(&boxed((end, 0.0), ((end + unit * 0.12).min(most.0), low)));
            }
            Guide::Gauge => {
                let to = (end + unit * 0.22).min(most.0);
                let high = (top - unit * 0.1).max(least.1);
                let low = (self.most.1 + unit * 1.5).min(most.1);
                sketch.phantom(&boxed((end, high), (to, low)));
            }
            Guide::Jig => self.draw_jig(sketch, work),
            Guide::Straightedge | Guide::Boards | Guide::Slot | Guide::EdgeGuide => {
                self.draw_under(sketch, work);
            }
            Guide::Fence | Guide::Cramped | Guide::Rollers | Guide::Freehand => {}
        }
    }

    /// The fence with its name; in two halves where the tool stands in it.
    pub(super) fn draw_fence(&self, sketch: &mut Sketch) {
        let (least, most) = sketch.area();
        let strip = boxed(least, (most.0, self.face));
        if self.machine.tool != Tool::Chop && self.least.1 >= 0.0 {
            sketch.outline(&strip);
        } else {
            let swung = self.beside(least.1);
            let (left, right) = (self.least.0 - OPENING, self.most.0 + OPENING + swung);
            sketch.outline(&boxed(least, (left, 0.0)));
            sketch.outline(&boxed((right, least.1), (most.0, 0.0)));
        }
        let word = match self.plan.guide {
            Guide::Carriage => "carriage",
            Guide::Straightedge => "straightedge",
            _ => "fence",
        };
        let middle = f64::midpoint(least.1, self.face);
        let places = [0.75, 0.6, 0.4, 0.9].map(|at| (least.0 * at, middle));
        sketch.note(&places, word);
        sketch.keep(&strip);
    }

    fn draw_work(&self, sketch: &mut Sketch, ((begin, top), (end, bottom)): (Point, Point)) {
        let (least, most) = sketch.area();
        let (from, to) = (begin.max(least.0), end.min(most.0));
        let low = bottom.min(most.1);
        let ends = self.beside(low) - self.beside(top);
        sketch.outline(&[(from, top), (to, top), (to + ends, low), (from - ends, low)]);
        for (cut, points) in [
            (begin < least.0, [(from, top), (from, low)]),
            (end > most.0, [(to, top), (to, low)]),
            (bottom > most.1, [(from, low), (to, low)]),
        ] {
            if cut {
                sketch.broken(points[0], points[1]);
            }
        }
        // The line of the cut.
        let middle = f64::midpoint(self.least.1, self.most.1);
        if matches!(self.machine.tool, Tool::Round | Tool::Chisel) && middle > 0.0 {
            sketch.centre((least.0, middle), (most.0, middle));
        }
    }

    fn draw_tool(&self, sketch: &mut Sketch, work: (Point, Point)) {
        let (least, most) = (self.least, self.most);
        let middle = (
            f64::midpoint(least.0, most.0),
            f64::midpoint(least.1, most.1),
        );
        let size = most.0 - least.0;
        match self.machine.tool {
            Tool::Round => {
                let over = self.plan.guide == Guide::Cramped || self.machine.held.is_some();
                let under = !over && work.0.0 < most.0;
                if under {
                    sketch.ring(middle, size);
                } else {
                    sketch.round(middle, size);
                }
                let out = size / 2.0 + self.unit * 0.05;
                sketch.centre((middle.0, middle.1 - out), (middle.0, middle.1 + out));
                sketch.centre((middle.0 - out, middle.1), (middle.0 + out, middle.1));
            }
            Tool::Chisel | Tool::Blade | Tool::Band => {
                sketch.solid(&boxed(least, most));
            }
            Tool::Chop => {
                let (low, high) = (sketch.area().0.1, sketch.area().1.1);
                let (far, near) = (self.beside(low), self.beside(high * 0.85));
                sketch.solid(&[
                    (least.0 + far, low),
                    (most.0 + far, low),
                    (most.0 + near, high * 0.85),
                    (least.0 + near, high * 0.85),
                ]);
            }
            Tool::Block => {
                let lip = size * 0.15;
                for x in [least.0 - lip, least.0, most.0, most.0 + lip] {
                    sketch.hidden((x, least.1), (x, most.1));
                }
            }
        }
        self.draw_turns(sketch, middle, size / 2.0);
    }

    /// What stands over the tool, with its name.
    fn draw_guard(&self, sketch: &mut Sketch) {
        let (least, most) = (self.least, self.most);
        let middle = f64::midpoint(least.0, most.0);
        let around = self.unit * 0.13;
        let high = if self.has_fence() {
            (least.1 - around).max(0.0)
        } else {
            least.1 - around
        };
        let (first, last) = sketch.area();
        let over = boxed(
            (
                (least.0 - around + self.beside(most.1)).max(first.0),
                high.max(first.1),
            ),
            ((most.0 + around).min(last.0), (most.1 + around).min(last.1)),
        );
        sketch.above(&over);
        let (step, beside) = (self.unit * 0.14, over[0].0 - self.unit * 0.35);
        let mut places: Vec<Point> = [0.5, 1.0, 0.2]
            .map(|at| (beside, over[0].1 + (over[2].1 - over[0].1) * at))
            .to_vec();
        if self.machine.quarter {
            places.insert(0, (middle, over[2].1 + self.unit * 0.3));
        }
        places.push((middle, over[2].1 + step));
        places.push((middle, over[0].1 - step));
        places.push((beside - self.unit * 0.3, over[2].1));
        places.push((beside - self.unit * 0.9, over[0].1));
        places.push((over[1].0 + self.unit * 0.35, over[2].1));
        sketch.note(&places, guard(self.plan));
    }

    fn draw_turns(&self, sketch: &mut Sketch, middle: Point, radius: f64) {
        let turn = radius + self.unit * 0.07;
        match self.machine.turns {
            Turns::Against => sketch.arrow(&arc(middle, turn, 160.0, 20.0)),
            Turns::With => sketch.arrow(&arc(middle, turn, 20.0, 160.0)),
            Turns::Over if self.machine.tool == Tool::Blade => {
                let y = self.most.1 + self.unit * 0.07;
                sketch.arrow(&[(middle.0 - radius * 0.8, y), (middle.0 + radius * 0.8, y)]);
            }
            Turns::Over => {
                let y = self.most.1 * 0.8;
                sketch.arrow(&[(middle.0 - radius, y), (middle.0 + radius, y)]);
            }
            Turns::Unseen => {}
        }
    }

    fn draw_stops(&self, sketch: &mut Sketch, work: (Point, Point)) -> Result<(), Fault> {
        let block = self.unit * 0.13;
        let (begin, top) = work.0;
        for (name, from, to, after) in [
            ("stop_left", self.least.0, -1.0, true),
            ("stop_right", self.most.0, 1.0, false),
            ("stop_after", self.most.0, -1.0, true),
        ] {
            if let Some(far) = self.measures.optional(name)? {
                let face = from + far * to;
                let other = face + if after { -block } else { block };
                let (low, high) = (face.min(other), face.max(other));
                sketch.solid(&boxed((low, 0.0), (high, block)));
                let span = [from.min(face), from.max(face)];
                sketch.mark(self.measures, Edge::Top, [0.0; 2], name, span);
            }
        }
        let from = [
            ("stop_near", self.least),
            ("stop_far", self.most),
            ("end_near", self.least),
        ];
        for (name, edge) in from {
            if self.measures.optional(name)?.is_none() {
                continue;
            }
            if name == "end_near" {
                let face = work.1.0.min(sketch.area().1.0);
                let starts = [face, self.most.0];
                sketch.mark(self.measures, Edge::Left, starts, name, [top, edge.1]);
            } else if self.machine.tool == Tool::Chop {
                sketch.solid(&boxed((begin - block, 0.0), (begin, block)));
                sketch.mark(self.measures, Edge::Top, [0.0; 2], name, [begin, edge.0]);
            } else {
                let face = work.1.0.min(sketch.area().1.0);
                sketch.solid(&boxed((face - block, top - block), (face, top)));
                let starts = [face, self.most.0];
                sketch.mark(self.measures, Edge::Left, starts, name, [top, edge.1]);
            }
        }
        Ok(())
    }

    /// The corners of the line around the tool that hands stay outside of.
    pub(super) fn zone(&self, (least, most): (Point, Point)) -> Option<Vec<Point>> {
        let hands = self.hands?;
        if self.slant > 0.0 {
            let half = hands * self.along();
            let (far, near) = (self.beside(self.face), self.beside(most.1));
            return Some(vec![
                (self.least.0 + far - half, self.face),
                (self.most.0 + far + half, self.face),
                (self.most.0 + near + half, most.1),
                (self.least.0 + near - half, most.1),
            ]);
        }
        let mut points = Vec::new();
        let (left, right) = if self.machine.tool == Tool::Round {
            let middle = f64::midpoint(self.least.0, self.most.0);
            (middle, middle)
        } else {
            (self.least.0, self.most.0)
        };
        let round = hands + right.max(self.most.0) - right;
        let (up, down) = match self.machine.tool {
            Tool::Round => {
                let middle = f64::midpoint(self.least.1, self.most.1);
                (middle, middle)
            }
            Tool::Chop => (least.1, most.1),
            _ => (self.least.1, self.most.1),
        };
        for (corner, from) in [
            ((right, down), 0.0),
            ((left, down), 90.0),
            ((left, up), 180.0),
            ((right, up), 270.0),
        ] {
            points.extend(arc(corner, round, from, from + 90.0));
        }
        let top = if self.has_fence() { self.face } else { least.1 };
        let kept = points.into_iter().map(|(x, y)| {
            let y = y.clamp(top, most.1);
            (x.clamp(least.0, most.0), y)
        });
        Some(kept.collect())
    }

    /// How far a swung blade, and the end that it cuts, stand beside their place at the fence.
    pub(super) fn beside(&self, y: f64) -> f64 {
        -y * self.slant
    }

    /// How much farther along the fence a distance reaches than square to a swung blade.
    pub(super) fn along(&self) -> f64 {
        libm::sqrt(1.0 + self.slant * self.slant)
    }

    /// Whether the work is fed.
    pub(super) fn moves(&self) -> bool {
        self.plan.guide != Guide::Cramped
    }
}

/// Points of a circle, from one angle to another; 0 is right, 90 the person.
pub(super) fn arc(middle: Point, radius: f64, from: f64, to: f64) -> Vec<Point> {
    let point = |step: u32| {
        let turn = from + (to - from) * f64::from(step) / 24.0;
        let angle = Angle::degrees(turn);
        (
            middle.0 + radius * angle.cos(),
            middle.1 + radius * angle.sin(),
        )
    };
    (0..=24).map(point).collect()
}

/// Left upper and right lower corner of the tool.
fn tool(
    measures: &Measures<'_>,
    machine: &Machine,
    fence: Option<&str>,
) -> Result<(Point, Point), Fault> {
    let from = fence.map(|name| measures.mm(name)).transpose()?;
    let from = from.unwrap_or(0.0);
    match machine.tool {
        Tool::Round => {
            let radius = measures.mm("cutter")? / 2.0;
            let axis = match fence {
                Some("fence_edge") => from - radius,
                Some("edge_near" | "pin_gap") => from + radius,
                Some("guide_axis") => -from,
                // In the last pass along the far guide board.
                None => radius,
                _ => from,
            };
            Ok(((-radius, axis - radius), (radius, axis + radius)))
        }
        Tool::Chisel => {
            let size = measures.mm("cutter")?;
            Ok(((-size / 2.0, from), (size / 2.0, from + size)))
        }
        Tool::Blade => {
            let (size, high) = (measures.mm("cutter")?, measures.mm("height")?);
            measures.demand(high < size, "the blade stands higher than it is wide")?;
            // Half of the chord that the table cuts off the blade.
            let half = libm::sqrt(high * (size - high));
            let kerf = measures.optional("kerf")?.unwrap_or(KERF);
            Ok(((-half, from), (half, from + kerf)))
        }
        Tool::Band => Ok(((-BAND, from), (0.0, from + KERF / 2.0))),
        Tool::Chop => Ok(((0.0, 0.0), (KERF, measures.mm("across")?))),
        Tool::Block => {
            let table = measures.mm("table")?;
            Ok(((-BLOCK / 2.0, 0.0), (BLOCK / 2.0, table)))
        }
    }
}
