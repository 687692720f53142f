//! Sliding dovetail, both sides sloped: socket in the side, tail on the end of what slides in.
//!
//! Sketch: `SKETCH` below. Datums: widths across the joint; heights from the face of the side, or from
//! the table; fence distances from the fence to the cutter's axis; `from` is measured on the face
//! of the side, from the edge that runs on the fence to the near wall **at the mouth** (the line
//! that can be marked and seen; the base lies `depth tan angle` nearer).
//!
//! Derivation (`D`, joinery 3.1, 3.2). The cutter is D wide at its tip and narrows by tan a a unit
//! of height on each side, so one pass leaves the mouth m = D - 2 h tan a. A base B takes passes
//! s = (B - D)/(n - 1) apart, no ridge while s <= m, and its mouth is M = B - 2 h tan a. The tail
//! stands on end against the fence; each face meets a cutter standing out by e at its tip:
//! neck T - 2 e = M - c gives e = (T - M + c)/2, cut at the end k = e - h tan a, end T - 2 k = B - c.
//!
//! Limits: mouth open, k >= 0, and the cutter's back at the table behind the fence's face,
//! e <= D - h tan a, or a sliver runs between cutter and fence (`D` 3.1); a feather edge below
//! k = 0.8 mm, depth a third of the side, neck half of the stock (`CP` 2.4, 3.1).
//!
//! Example (joinery 3.1): T 19, D 12.7, a 14 deg, h 9.5 mm: M 7.96277, e 5.51862, k 3.15 mm.

use std::collections::BTreeMap;

use super::answer::needed;
use super::figure::{about, at_least, at_most, under};
use super::fit::{Cause, SLIDING, Slips, TAIL_LOWER_MM, tightest};
use super::pass_plan::{PASSES_MOST, PassPlan, check_order};
use super::tail::{
    ANGLE, CLEARANCE, CUTTER, DEEP, DEPTH, END_CUT, FEATHER, MOUTH, NECK, NECK_WEAK, SHARED_CAUSES,
    SOCKET_DEEPER, STOCK, TAIL_HEIGHT, Tail,
};
use super::{
    Calculator, Fit, FitRule, Given, Input, Origin, Output, Refusal, Wanted, Wants, Worked,
};
use crate::shop::Shape;
use crate::units::{Angle, Kind, Length, Role, Value};

const SKETCH: &str = r"
   socket, seen from its end           tail, end down on the table

                                          |<------ T ------>|
     x ->|<--- M --->|                    |                 |
   ------+           +------ face         |_ e           e _|   shoulder
        /           a \       ^             \<--- N --->/       ^
       /               \      h             /           \       h
      /                 \     v            /             \      v
     +-------------------+  base        k +---------------+ k   table
     |<------- B ------->|                |<----- E ----->|

   D: the cutter at its tip, its widest     a: its angle, each side of its axis
   n passes, each s farther from the fence  c = M - N: clearance, plus is loose";

const MOUTH_CLOSES: &str = "the mouth closes before the cutter is that deep";
const BASE_NARROW: &str = "the base is narrower than the cutter";
const MANY_PASSES: &str = "the base takes too many passes of this cutter";
const END_NEGATIVE: &str = "the tail's stock is too thin to fill the base";
const SLIVER: &str = "the tail's cut would leave a sliver between cutter and fence";
const NO_NECK: &str = "the clearance is as wide as the mouth";
/// The table entry.
pub(super) const CALCULATOR: Calculator = Calculator {
    name: "sliding-dovetail",
    summary: "Settings for a sliding dovetail sloped on both sides",
    family: "dovetails",
    inputs: &[
        STOCK,
        CUTTER,
        ANGLE,
        DEPTH,
        CLEARANCE,
        Input::length(
            "base",
            "B",
            ("3 mm", "150 mm"),
            "Width of the socket at its base",
        )
        .derived("the cutter's diameter, in one pass"),
        Input::length(
            "from",
            "x",
            ("0 mm", "3000 mm"),
            "From the edge that runs on the fence to the near wall of the socket at its mouth",
        )
        .derived("no fence distances"),
    ],
    results: &[
        MOUTH,
        Output::length(
            "exposure",
            "e",
            Role::TakesOff,
            "How far the cutter's tip stands out of the fence for the tail, each face; also the \
             shoulder that is seen",
        ),
        END_CUT,
        NECK,
        Output::length(
            "tail_end",
            "E",
            Role::Entering,
            "Thickness of the tail at its end",
        ),
        Output::new(
            "passes",
            "n",
            Kind::Count,
            Role::Count,
            "Passes that the socket takes",
        ),
        Output::length("shift", "s", Role::TakesOff, "From one pass to the next"),
        Output::length(
            "fence_first",
            "",
            Role::LeavesOn,
            "Fence to axis, first pass",
        ),
        Output::length("fence_last", "", Role::TakesOff, "Fence to axis, last pass"),
        Output::new(
            "fences",
            "",
            Kind::Lengths,
            Role::Opening,
            "Fence to axis, every pass in order",
        ),
        Output::new(
            "fit_per_depth",
            "",
            Kind::Number,
            Role::Place,
            "How much tighter the joint is for a socket deeper by one",
        ),
    ],
    one_of: &[],
    refuses: &[
        MOUTH_CLOSES,
        BASE_NARROW,
        MANY_PASSES,
        END_NEGATIVE,
        SLIVER,
        NO_NECK,
    ],
    warns: &[FEATHER, DEEP, NECK_WEAK],
    sketch: SKETCH,
    source: "Geometry derived, as the sketch shows. Feather edge 0.8 mm (1/32 in), depth a \
             third of the side, neck half of the stock: common practice, no source. Order of \
             passes: derived from the rotation of the cutter.",
    example: &[
        ("stock", "19 mm"),
        ("cutter", "12.7 mm"),
        ("angle", "14 deg"),
        ("depth", "9.5 mm"),
        ("clearance", "0.1 mm"),
    ],
    run,
    wants: Some(Wants {
        cutters: &[Wanted {
            shape: Shape::Dovetail,
            size: "cutter",
            angle: Some("angle"),
        }],
        reach: "depth",
        passes: &["passes"],
    }),
    fit: Some(FitRule {
        press: SLIDING,
        of: fit,
    }),
};

/// What a two-sided sliding dovetail is worked out from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SlidingDovetail {
    /// Thickness of the tail's stock.
    pub stock: Length,
    /// Diameter of the cutter at its tip.
    pub cutter: Length,
    /// Angle of the cutter, each side from its axis.
    pub angle: Angle,
    /// Depth of the socket, and height of the cutter for both parts.
    pub depth: Length,
    /// Mouth less neck; plus is loose.
    pub clearance: Length,
    /// Width of the socket at its base; the cutter's diameter for one pass.
    pub base: Length,
}

/// Sizes and settings of a two-sided sliding dovetail.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SlidingDovetailPlan {
    /// Width of the socket at the side's face.
    pub mouth: Length,
    /// How far the cutter's tip stands out of the fence for the tail.
    pub exposure: Length,
    /// Cut at the tail's end, each face.
    pub end_cut: Length,
    /// Thickness of the tail at its shoulder.
    pub neck: Length,
    /// Thickness of the tail at its end.
    pub tail_end: Length,
    /// Width that one pass leaves at the side's face.
    pub one_pass_mouth: Length,
    passes: PassPlan,
}

impl SlidingDovetail {
    /// Works out the settings.
    ///
    /// # Errors
    /// A refusal with figures when mouth, base, end or neck do not come out.
    pub fn work_out(&self) -> Result<SlidingDovetailPlan, Refusal> {
        let flare = self.flare();
        let one_pass_mouth = self.cutter - flare - flare;
        self.refuse_socket(one_pass_mouth)?;
        let passes = PassPlan::new(self.base - self.cutter, one_pass_mouth)
            .ok_or_else(|| self.many_passes(one_pass_mouth))?;
        let mouth = self.base - flare - flare;
        let exposure = (self.stock - mouth + self.clearance).times(0.5);
        let plan = SlidingDovetailPlan {
            mouth,
            exposure,
            end_cut: exposure - flare,
            neck: mouth - self.clearance,
            tail_end: self.base - self.clearance,
            one_pass_mouth,
            passes,
        };
        self.refuse_tail(&plan)?;
        Ok(plan)
    }

    /// How much a wall leans over the depth: h tan a.
    fn flare(&self) -> Length {
        self.depth.times(self.angle.tan())
    }

    fn refuse_socket(&self, one_pass_mouth: Length) -> Result<(), Refusal> {
        if one_pass_mouth <= Length::ZERO {
            let most = self.cutter.times(0.5 / self.angle.tan());
            return Err(Refusal::new(
                MOUTH_CLOSES,
                format!("depth {}", about(self.depth)),
                format!(
                    "{} and less, as the cutter's waist and length allow",
                    at_most(most)
                ),
                "Cut less deep, or take a wider cutter or one of a smaller angle.",
            ));
        }
        if self.base < self.cutter {
            return Err(Refusal::new(
                BASE_NARROW,
                format!("base {}, cutter {}", about(self.base), about(self.cutter)),
                format!("base {}", at_least(self.cutter)),
                "Take a smaller cutter, or make the base as wide as the cutter.",
            ));
        }
        Ok(())
    }

    fn many_passes(&self, one_pass_mouth: Length) -> Refusal {
        let most = self.cutter + one_pass_mouth.times((PASSES_MOST - 1) as f64);
        Refusal::new(
            MANY_PASSES,
            format!("base {}", about(self.base)),
            format!("{} in {PASSES_MOST} passes", at_most(most)),
            "Take a wider cutter, or cut less deep.",
        )
    }

    fn refuse_tail(&self, plan: &SlidingDovetailPlan) -> Result<(), Refusal> {
        if plan.end_cut.is_negative() {
            return Err(Refusal::new(
                END_NEGATIVE,
                format!("stock {}, base {}", about(self.stock), about(self.base)),
                format!(
                    "stock {}, or cutter and base {}",
                    at_least(self.base - self.clearance),
                    at_most(self.stock + self.clearance)
                ),
                "Take a smaller cutter, or thicker stock.",
            ));
        }
        let exposure_most = self.cutter - self.flare();
        if plan.exposure > exposure_most {
            let stock_most = exposure_most + exposure_most + plan.mouth - self.clearance;
            return Err(Refusal::new(
                SLIVER,
                format!("stock {}", about(self.stock)),
                at_most(stock_most),
                "Take a larger cutter or a wider base, or thinner stock for the tail.",
            ));
        }
        if plan.neck <= Length::ZERO {
            return Err(Refusal::new(
                NO_NECK,
                format!("clearance {}", about(self.clearance)),
                under(plan.mouth),
                "Give less clearance, or cut less deep.",
            ));
        }
        Ok(())
    }

    /// Neck less mouth when the joint is put together with these slips, in mm: socket and tail as
    /// the cutter leaves them, compared at 11 heights.
    fn fit_mm(&self, plan: &SlidingDovetailPlan, slips: &Slips) -> f64 {
        let tan = self.angle.plus_degrees(slips.angle).tan();
        let cutter = self.cutter.to_mm() - slips.cutter;
        let apart = plan.passes.extra.to_mm() + slips.apart;
        let socket_depth = self.depth.to_mm() + slips.depth;
        let tail_height = self.depth.to_mm() - TAIL_LOWER_MM - slips.lower;
        let gap = (tail_height - socket_depth).max(0.0);
        let stock = self.stock.to_mm() + slips.stock;
        let exposure = plan.exposure.to_mm() + slips.exposure;
        tightest(tail_height - gap, |below_face| {
            let socket = apart + cutter - 2.0 * (socket_depth - below_face) * tan;
            let tail = stock - 2.0 * (exposure - (gap + below_face) * tan);
            tail - socket
        })
    }

    fn fit(&self, plan: &SlidingDovetailPlan) -> Fit {
        let several = plan.passes.passes > 1;
        Fit::of(
            SHARED_CAUSES
                .iter()
                .chain(CAUSES)
                .chain(APART.iter().filter(|_| several)),
            |slips| self.fit_mm(plan, slips),
        )
    }
}

const CAUSES: &[Cause] = &[
    Cause(
        "fence back, cutter standing out more, both faces cut",
        Origin::Fence,
        |slips| &mut slips.exposure,
    ),
    Cause(
        "cutter smaller than its figure",
        Origin::Diameter,
        |slips| &mut slips.cutter,
    ),
];

const APART: &[Cause] = &[Cause(
    "first and last pass of the socket farther apart",
    Origin::Fence,
    |slips| &mut slips.apart,
)];

fn read(given: &Given) -> Result<SlidingDovetail, Refusal> {
    let cutter = needed("cutter", given.length("cutter"))?;
    Ok(SlidingDovetail {
        stock: needed("stock", given.length("stock"))?,
        cutter,
        angle: needed("angle", given.angle("angle"))?,
        depth: needed("depth", given.length("depth"))?,
        clearance: needed("clearance", given.length("clearance"))?,
        base: given.length("base").unwrap_or(cutter),
    })
}

fn run(given: &Given) -> Result<Worked, Refusal> {
    let joint = read(given)?;
    let plan = joint.work_out()?;
    let per_depth = joint
        .fit(&plan)
        .influences
        .iter()
        .find(|influence| influence.what == SOCKET_DEEPER)
        .map_or(0.0, |influence| influence.factor);
    let mut results = BTreeMap::from([
        ("mouth", Value::Length(plan.mouth)),
        ("exposure", Value::Length(plan.exposure)),
        ("end_cut", Value::Length(plan.end_cut)),
        ("neck", Value::Length(plan.neck)),
        ("tail_end", Value::Length(plan.tail_end)),
        ("passes", Value::Count(plan.passes.passes)),
        ("shift", Value::Length(plan.passes.shift)),
        ("fit_per_depth", Value::Number(per_depth)),
    ]);
    if let Some(from) = given.length("from") {
        let first = from + plan.one_pass_mouth.times(0.5);
        let fences = plan.passes.places(first);
        check_order(&fences)?;
        results.insert("fence_first", Value::Length(first));
        results.insert("fence_last", Value::Length(first + plan.passes.extra));
        results.insert("fences", Value::Lengths(fences));
    }
    Ok(Worked {
        results,
        warnings: Tail {
            stock: joint.stock,
            depth: joint.depth,
            neck: plan.neck,
            end_cut: plan.end_cut,
        }
        .warnings(),
        notes: notes(&plan),
    })
}

fn notes(plan: &SlidingDovetailPlan) -> Vec<String> {
    let mut notes = plan.passes.notes();
    notes.push(
        "Clear the socket first with a straight cutter no wider than the mouth of one pass, a \
         little less deep."
            .to_owned(),
    );
    notes.push(TAIL_HEIGHT.to_owned());
    notes.push(
        "Measure the mouth that was cut: exposure = (stock - mouth + clearance) / 2 takes the \
         errors of depth, angle and cutter out."
            .to_owned(),
    );
    notes
}

fn fit(given: &Given) -> Fit {
    let planned = read(given).and_then(|joint| Ok((joint, joint.work_out()?)));
    planned.map_or_else(|_| Fit::default(), |(joint, plan)| joint.fit(&plan))
}
