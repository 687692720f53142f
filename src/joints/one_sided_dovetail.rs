//! Sliding dovetail sloped on one side only: one wall square, the other undercut.
//!
//! Sketch: `SKETCH` below. Datums: widths in the socket from the **square wall**; fence distances
//! from the fence to the cutter's axis; `from` is measured on the face of the side, from the edge
//! that runs on the fence to the square wall, which lies nearer the fence.
//!
//! Derivation (`D`, joinery 3.3): the mouth is M = B - h tan a; one face of the tail is cut,
//! e = T - M + c, at its end k = e - h tan a = T - B + c. A straight cutter makes the square wall,
//! then the dovetail cutter, its axis B - D/2 from that wall, the other: the larger fence distance
//! comes second, so nothing climbs. The dovetail cutter clears the square wall by G = B - D and a
//! shoulder T - B stays, each at least `margin`: D + margin <= B <= T - margin. The straight
//! trench W leaves no ridge and takes no bite: M - m <= W <= M, where m = D - 2 h tan a.
//!
//! Example (joinery 3.3): B 17, D 12.7, a 14 deg, h 9.5, T 19 mm: M 14.63138, e 4.36862, k 2 mm,
//! B may be 13.5 to 18.2, straight cutter 6.66862 to 14.63138 mm.

use std::collections::BTreeMap;

use super::answer::needed;
use super::figure::{about, at_least, at_most, under};
use super::fit::{Cause, SLIDING, Slips, TAIL_LOWER_MM, tightest};
use super::pass_plan::{FEED, NEVER_BACK, check_order};
use super::tail::{
    ANGLE, CLEARANCE, CUTTER, DEEP, DEPTH, END_CUT, FEATHER, MOUTH, NECK, NECK_WEAK, SHARED_CAUSES,
    STOCK, TAIL_HEIGHT, Tail,
};
use super::{
    Calculator, Fit, FitRule, Given, Input, Origin, Output, Refusal, Wanted, Wants, Worked,
};
use crate::shop::Shape;
use crate::units::{Angle, Length, Role, Value};

const SKETCH: &str = r"
   socket, seen from its end                  tail, end down on the table

                                               |<------ T ------>|
     x ->|<----- M ----->|                     |                 |
   ------+               +------ face          |               e_|   shoulder
         |              a \       ^            |               /     ^
  square |                 \      h            |<----- N ---->/      h
    wall |                  \     v            |               \     v
         +-------------------+  base           +----------------+ k  table
         |<------- B ------->|
         |<-- W -->| straight cutter           D: dovetail cutter at its tip
         |<- G ->|<--- D --->| dovetail        a: its angle
   c: clearance, plus is loose
   g: least G, and least shoulder T - B; L to U: range of B; V to Y: range of W";

const MOUTH_CLOSES: &str = "the dovetail cutter has no width left at the side's face";
const NO_WINDOW: &str = "the cutter leaves no room for a base in this stock";
const BASE_OUTSIDE: &str = "the base is outside its range";
const END_NEGATIVE: &str = "the clearance takes the tail's end away";
const SLIVER: &str = "the tail's cut would leave a sliver between cutter and fence";
const STRAIGHT_OUTSIDE: &str = "the straight cutter does not fit the socket";

/// The table entry.
pub(super) const CALCULATOR: Calculator = Calculator {
    name: "one-sided-dovetail",
    summary: "Settings for a sliding dovetail sloped on one side",
    family: "dovetails",
    inputs: &[
        STOCK,
        CUTTER,
        ANGLE,
        DEPTH,
        Input::length(
            "straight",
            "W",
            ("1 mm", "60 mm"),
            "Diameter of the straight cutter",
        )
        .derived("only its range is given"),
        Input::length(
            "base",
            "B",
            ("3 mm", "100 mm"),
            "Width of the socket at its base",
        )
        .derived("the middle of its range"),
        CLEARANCE,
        Input::length(
            "margin",
            "g",
            ("0.1 mm", "5 mm"),
            "Least gap from dovetail cutter to square wall, and least shoulder",
        )
        .usual("0.8 mm"),
        Input::length(
            "from",
            "x",
            ("0 mm", "3000 mm"),
            "From the edge that runs on the fence to the square wall of the socket",
        )
        .derived("no fence distances"),
    ],
    results: &[
        Output::length(
            "base",
            "B",
            Role::Opening,
            "Width of the socket at its base",
        ),
        Output::length(
            "base_least",
            "L",
            Role::LeavesOn,
            "Least base for this cutter",
        ),
        Output::length(
            "base_most",
            "U",
            Role::TakesOff,
            "Widest base for this stock",
        ),
        MOUTH,
        Output::length(
            "exposure",
            "e",
            Role::TakesOff,
            "How far the cutter's tip stands out of the fence for the tail, one face; also the \
             shoulder that is seen",
        ),
        END_CUT,
        NECK,
        Output::length(
            "straight_least",
            "V",
            Role::LeavesOn,
            "Least straight trench: no ridge",
        ),
        Output::length(
            "straight_most",
            "Y",
            Role::TakesOff,
            "Widest straight trench: no bite",
        ),
        Output::length(
            "square_wall_gap",
            "G",
            Role::Place,
            "From the dovetail cutter to the square wall",
        ),
        Output::length(
            "fence_straight",
            "",
            Role::LeavesOn,
            "Fence to axis, straight cutter",
        ),
        Output::length(
            "fence_dovetail",
            "",
            Role::TakesOff,
            "Fence to axis, dovetail cutter",
        ),
    ],
    one_of: &[],
    refuses: &[
        MOUTH_CLOSES,
        NO_WINDOW,
        BASE_OUTSIDE,
        END_NEGATIVE,
        SLIVER,
        STRAIGHT_OUTSIDE,
    ],
    warns: &[FEATHER, DEEP, NECK_WEAK],
    sketch: SKETCH,
    source: "Geometry derived, as the sketch shows. One sloped side is usually enough: Noyes, \
             Handwork in Wood (1910), p. 206. Gap, shoulder and feather edge 0.8 mm (1/32 in), \
             depth a third of the side, neck half of the stock: common practice, no source.",
    example: &[
        ("stock", "19 mm"),
        ("cutter", "12.7 mm"),
        ("angle", "14 deg"),
        ("depth", "9.5 mm"),
        ("straight", "12 mm"),
        ("base", "17 mm"),
        ("from", "100 mm"),
    ],
    run,
    wants: Some(Wants {
        cutters: &[
            Wanted {
                shape: Shape::Dovetail,
                size: "cutter",
                angle: Some("angle"),
            },
            Wanted {
                shape: Shape::Straight,
                size: "straight",
                angle: None,
            },
        ],
        reach: "depth",
        passes: &[],
    }),
    fit: Some(FitRule {
        press: SLIDING,
        of: fit,
    }),
};

/// What a one-sided sliding dovetail is worked out from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OneSidedDovetail {
    /// Thickness of the tail's stock.
    pub stock: Length,
    /// Diameter of the dovetail cutter at its tip.
    pub cutter: Length,
    /// Angle of the cutter, from its axis.
    pub angle: Angle,
    /// Depth of the socket, and height of both cutters and of the tail's cut.
    pub depth: Length,
    /// Diameter of the straight cutter; when it is not known only its range is worked out.
    pub straight: Option<Length>,
    /// Width of the socket at its base; else the middle of its range.
    pub base: Option<Length>,
    /// Mouth less neck; plus is loose.
    pub clearance: Length,
    /// Least gap from dovetail cutter to square wall, and least shoulder.
    pub margin: Length,
}

/// Sizes and settings of a one-sided sliding dovetail.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct OneSidedDovetailPlan {
    /// Width of the socket at its base.
    pub base: Length,
    /// Least and widest base.
    pub base_range: (Length, Length),
    /// Width of the socket at the side's face.
    pub mouth: Length,
    /// How far the cutter's tip stands out of the fence for the tail.
    pub exposure: Length,
    /// Cut at the tail's end.
    pub end_cut: Length,
    /// Thickness of the tail at its shoulder.
    pub neck: Length,
    /// Least and widest straight trench.
    pub straight_range: (Length, Length),
    /// From the square wall to the dovetail cutter's axis.
    pub axis: Length,
}

impl OneSidedDovetail {
    /// Works out the settings.
    ///
    /// # Errors
    /// A refusal with figures when a cutter does not fit stock, base or depth.
    pub fn work_out(&self) -> Result<OneSidedDovetailPlan, Refusal> {
        let flare = self.depth.times(self.angle.tan());
        let one_pass_mouth = self.cutter - flare - flare;
        if one_pass_mouth <= Length::ZERO {
            return Err(Refusal::new(
                MOUTH_CLOSES,
                format!("depth {}", about(self.depth)),
                under(self.cutter.times(0.5 / self.angle.tan())),
                "Cut less deep, or take a wider cutter or one of a smaller angle.",
            ));
        }
        let base_range = (self.cutter + self.margin, self.stock - self.margin);
        let base = self.base_in(base_range)?;
        let mouth = base - flare;
        let exposure = self.stock - mouth + self.clearance;
        let plan = OneSidedDovetailPlan {
            base,
            base_range,
            mouth,
            exposure,
            end_cut: exposure - flare,
            neck: mouth - self.clearance,
            straight_range: (mouth - one_pass_mouth, mouth),
            axis: base - self.cutter.times(0.5),
        };
        self.refuse_tail(&plan, flare)?;
        self.refuse_straight(plan.straight_range)?;
        Ok(plan)
    }

    /// The base that was asked for, or the middle of its range.
    fn base_in(&self, (least, most): (Length, Length)) -> Result<Length, Refusal> {
        if least > most {
            return Err(Refusal::new(
                NO_WINDOW,
                format!("cutter {}, stock {}", about(self.cutter), about(self.stock)),
                format!(
                    "cutter {}, or stock {}",
                    at_most(self.stock - self.margin - self.margin),
                    at_least(self.cutter + self.margin + self.margin)
                ),
                "Take a smaller dovetail cutter, or thicker stock.",
            ));
        }
        let base = self.base.unwrap_or_else(|| (least + most).times(0.5));
        if base < least || base > most {
            return Err(Refusal::new(
                BASE_OUTSIDE,
                format!("base {}", about(base)),
                format!("{}, {}", at_least(least), at_most(most)),
                "Choose a base in this range, or another cutter.",
            ));
        }
        Ok(base)
    }

    fn refuse_tail(&self, plan: &OneSidedDovetailPlan, flare: Length) -> Result<(), Refusal> {
        if plan.end_cut.is_negative() {
            return Err(Refusal::new(
                END_NEGATIVE,
                format!("clearance {}", about(self.clearance)),
                at_least(plan.base - self.stock),
                "Give more clearance, or a narrower base.",
            ));
        }
        let exposure_most = self.cutter - flare;
        if plan.exposure > exposure_most {
            return Err(Refusal::new(
                SLIVER,
                format!("stock {}, base {}", about(self.stock), about(plan.base)),
                format!(
                    "stock {}, or base {}",
                    at_most(exposure_most + plan.mouth - self.clearance),
                    at_least(self.stock + self.clearance + flare - exposure_most)
                ),
                "Take a wider base, a larger cutter, or thinner stock for the tail.",
            ));
        }
        Ok(())
    }

    fn refuse_straight(&self, (least, most): (Length, Length)) -> Result<(), Refusal> {
        match self.straight {
            Some(straight) if straight < least || straight > most => Err(Refusal::new(
                STRAIGHT_OUTSIDE,
                format!("straight {}", about(straight)),
                format!("{}, {}", at_least(least), at_most(most)),
                "Take a straight cutter in this range: a smaller one leaves a ridge, a larger one \
                 bites into the mouth.",
            )),
            _ => Ok(()),
        }
    }

    /// Neck less mouth when the joint is put together with these slips, in mm: socket and tail as
    /// the cutters leave them, compared at 11 heights.
    fn fit_mm(&self, plan: &OneSidedDovetailPlan, slips: &Slips) -> f64 {
        let tan = self.angle.plus_degrees(slips.angle).tan();
        let square_wall = slips.straight / 2.0;
        let axis = plan.axis.to_mm() + slips.apart;
        let cutter = self.cutter.to_mm() - slips.cutter;
        let socket_depth = self.depth.to_mm() + slips.depth;
        let tail_height = self.depth.to_mm() - TAIL_LOWER_MM - slips.lower;
        let gap = (tail_height - socket_depth).max(0.0);
        let stock = self.stock.to_mm() + slips.stock;
        let exposure = plan.exposure.to_mm() + slips.exposure;
        tightest(tail_height - gap, |below_face| {
            let sloped_wall = axis + cutter / 2.0 - (socket_depth - below_face) * tan;
            let tail = stock - (exposure - (gap + below_face) * tan);
            tail - (sloped_wall - square_wall)
        })
    }
}

const CAUSES: &[Cause] = &[
    Cause(
        "fence back, cutter standing out more, one face cut",
        Origin::Fence,
        |slips| &mut slips.exposure,
    ),
    Cause(
        "dovetail pass farther from the straight pass",
        Origin::Fence,
        |slips| &mut slips.apart,
    ),
    Cause(
        "dovetail cutter smaller than its figure",
        Origin::Diameter,
        |slips| &mut slips.cutter,
    ),
    Cause(
        "straight cutter smaller than its figure",
        Origin::Diameter,
        |slips| &mut slips.straight,
    ),
];

fn read(given: &Given) -> Result<OneSidedDovetail, Refusal> {
    Ok(OneSidedDovetail {
        stock: needed("stock", given.length("stock"))?,
        cutter: needed("cutter", given.length("cutter"))?,
        angle: needed("angle", given.angle("angle"))?,
        depth: needed("depth", given.length("depth"))?,
        straight: given.length("straight"),
        base: given.length("base"),
        clearance: needed("clearance", given.length("clearance"))?,
        margin: needed("margin", given.length("margin"))?,
    })
}

fn run(given: &Given) -> Result<Worked, Refusal> {
    let joint = read(given)?;
    let plan = joint.work_out()?;
    let mut results = BTreeMap::from(
        [
            ("base", plan.base),
            ("base_least", plan.base_range.0),
            ("base_most", plan.base_range.1),
            ("mouth", plan.mouth),
            ("exposure", plan.exposure),
            ("end_cut", plan.end_cut),
            ("neck", plan.neck),
            ("straight_least", plan.straight_range.0),
            ("straight_most", plan.straight_range.1),
            ("square_wall_gap", plan.base - joint.cutter),
        ]
        .map(|(name, length)| (name, Value::Length(length))),
    );
    if let Some(from) = given.length("from") {
        let dovetail = from + plan.axis;
        results.insert("fence_dovetail", Value::Length(dovetail));
        if let Some(straight) = joint.straight {
            let first = from + straight.times(0.5);
            check_order(&[first, dovetail])?;
            results.insert("fence_straight", Value::Length(first));
        }
    }
    let tail = Tail {
        stock: joint.stock,
        depth: joint.depth,
        neck: plan.neck,
        end_cut: plan.end_cut,
    };
    Ok(Worked {
        results,
        warnings: tail.warnings(),
        notes: notes(&joint),
    })
}

fn notes(joint: &OneSidedDovetail) -> Vec<String> {
    let mut notes = [
        FEED,
        "Lay the work so that the square wall is nearer the fence.",
        "Pass 1, straight cutter: cuts the square wall, nearer the fence.",
        "Pass 2, dovetail cutter, at the larger fence distance: cuts the sloped wall, farther from \
         the fence.",
        NEVER_BACK,
        "Set both cutters to one depth, the straight one never shallower: it alone cuts the base \
         beside the square wall.",
        TAIL_HEIGHT,
        "Cut one face of the tail only; the other lies against the square wall.",
    ]
    .map(str::to_owned)
    .to_vec();
    if joint.base.is_none() {
        notes.push("The base was not given: it is the middle of its range.".to_owned());
    }
    notes
}

fn fit(given: &Given) -> Fit {
    let planned = read(given).and_then(|joint| Ok((joint, joint.work_out()?)));
    planned.map_or_else(
        |_| Fit::default(),
        |(joint, plan)| {
            Fit::of(SHARED_CAUSES.iter().chain(CAUSES), |slips| {
                joint.fit_mm(&plan, slips)
            })
        },
    )
}
