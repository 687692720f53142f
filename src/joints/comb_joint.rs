//! Comb joint: equal fingers and slots, cut one after the other over a pin that fills the last slot.
//!
//! Sketch: `SKETCH` below. Datums: widths across the board from the edge that bears on the pin;
//! the gap lies between pin and cutter; the depth is from the end of the board.
//!
//! Derivation (`D`, joinery 3.8). Cutter, slot and pin are w wide, the gap leaves fingers
//! g = w - c, so the step is P = g + w. N fingers of both boards fill t = N w - ceil(N/2) c; those
//! that fill W exactly are (W + ceil(N/2) c)/N wide. Finger j of a board begins at j P, so a step
//! that is off by e moves the last one by floor((N - 1)/2) e: two boards of one setting stay
//! together however large e is, boards of two settings do not.
//!
//! Limits: a finger is left, three fingers at least (`D`); clearance 0.05 to 0.13 mm, fingers 0.4
//! to 0.8 mm proud (`CP`, joinery 2.8, 4). An odd count gives one board a full finger at both edges
//! (`D`, joinery 2.8).
//!
//! Example (joinery 3.8): W 114, w 9.5, c 0: 12 fit, so 11 over 104.5 mm, or of 10.36364 mm.

use std::collections::BTreeMap;

use super::answer::needed;
use super::cheeks::{CLEARANCE, entering};
use super::figure::{about, at_least};
use super::fit::{COMB, Cause, Slips};
use super::{
    Calculator, Fit, FitRule, Given, Input, Origin, Output, Refusal, Wanted, Wants, Worked,
};
use crate::shop::Shape;
use crate::units::{Kind, Length, Role, Value};

const SKETCH: &str = r"
   board A, seen on its face, end up        jig, seen as the work is fed

   |<---------- W ----------->|                 |<-- P -->|
   |<-------- t --------->|   |                 +----+    +----+
   +----+    +----+    +----+ |  ^              |pin |    |    | cutter
   |    |    |    |    |    | |  h              |    |    |    |
   |    +----+    +----+    +-+  v          ----+----+----+----+----
   |<g->|<w->|                                  |<w->|<g->|<w->|

   N: fingers of both boards over t      c = w - g: clearance, plus is loose
   S: thickness of the other board       a = h - S: how far fingers stand out
   f: pin and cutter that fill W         e: step error, E: its sum at the end";

const NO_FINGER: &str = "the clearance leaves no finger";
const FEW: &str = "the board takes fewer than three fingers";

/// First words of the warning of boards that will not go together.
const DRIFT: &str = "Drift over the clearance";
/// First words of the warning of a rest at the last edge.
const NOT_FILLED: &str = "Width is no whole number of fingers";
/// First words of the warning of an unusual clearance.
const UNUSUAL: &str = "Clearance outside 0.05 to 0.13 mm (0.002 to 0.005 in)";

/// The table entry.
pub(super) const CALCULATOR: Calculator = Calculator {
    name: "comb-joint",
    summary: "Number, gap and step of the fingers of a comb joint (box joint)",
    family: "combs and dovetails",
    inputs: &[
        Input::length("width", "W", ("10 mm", "3000 mm"), "Width of the boards"),
        Input::length(
            "pin",
            "w",
            ("1 mm", "100 mm"),
            "Width of the slots as the cutter leaves them, and of the pin",
        ),
        Input::length(
            "stock",
            "S",
            ("1 mm", "100 mm"),
            "Thickness of the other board",
        ),
        CLEARANCE,
        Input::length(
            "proud",
            "a",
            ("0 mm", "5 mm"),
            "How far the fingers stand out, to be dressed off",
        )
        .usual("0.5 mm"),
        Input::length(
            "count",
            "",
            ("odd | even", ""),
            "Fingers of both boards together: odd has a full finger at both edges of one board, \
             even makes both boards alike",
        )
        .kind(Kind::Choice)
        .usual("odd"),
        Input::length(
            "step_error",
            "e",
            ("0 mm", "2 mm"),
            "How far the steps of two settings may differ",
        )
        .derived("both boards are cut at one setting, no drift"),
    ],
    results: &[
        Output::new(
            "fingers",
            "N",
            Kind::Count,
            Role::Count,
            "Fingers of both boards together that fit into the width",
        ),
        Output::length(
            "finger",
            "g",
            Role::Entering,
            "Width of a finger, and gap between pin and cutter",
        ),
        Output::length(
            "step",
            "P",
            Role::LeavesOn,
            "From one slot to the next: a side of the pin to the same side of the cutter",
        ),
        Output::length(
            "trim_to",
            "t",
            Role::LeavesOn,
            "Width of the boards that the fingers fill",
        ),
        Output::length(
            "fill_pin",
            "f",
            Role::Opening,
            "Width of cutter and pin with which as many fingers fill the untrimmed width",
        ),
        Output::length(
            "next_width",
            "",
            Role::LeavesOn,
            "Width of wider boards, which two fingers more fill",
        ),
        Output::length(
            "next_pin",
            "",
            Role::Opening,
            "Width of cutter and pin with which two fingers more fill the untrimmed width",
        ),
        Output::length(
            "depth",
            "h",
            Role::TakesOff,
            "Height of the cutter, length of the fingers",
        ),
        Output::length(
            "worst_drift",
            "E",
            Role::LeavesOn,
            "How far the last finger may be off its slot between boards of two settings",
        ),
    ],
    one_of: &[],
    refuses: &[NO_FINGER, FEW],
    warns: &[DRIFT, NOT_FILLED, UNUSUAL],
    sketch: SKETCH,
    source: "Geometry derived, as the sketch shows. Equal fingers and slots: Fairham, Woodwork \
             Joints, p. 55; Griffith, Essentials of Woodworking (1908), p. 102. Clearance 0.05 to \
             0.13 mm (0.002 to 0.005 in), fingers 0.4 to 0.8 mm (1/64 to 1/32 in) proud: common \
             practice, no source.",
    example: &[
        ("width", "114 mm"),
        ("pin", "9.5 mm"),
        ("stock", "12 mm"),
        ("clearance", "0.1 mm"),
    ],
    run,
    wants: Some(Wants {
        cutters: &[Wanted {
            shape: Shape::Straight,
            size: "pin",
            angle: None,
        }],
        reach: "depth",
        passes: &[],
    }),
    fit: Some(FitRule {
        press: COMB,
        of: fit,
    }),
};

/// What a comb joint is worked out from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct CombJoint {
    /// Width of the boards.
    pub width: Length,
    /// Width of slot, cutter and pin.
    pub pin: Length,
    /// Slot less finger; plus is loose.
    pub clearance: Length,
    /// Whether the number of fingers is odd.
    pub odd: bool,
}

/// Fingers of a comb joint.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct CombPlan {
    /// Fingers of both boards together.
    pub fingers: i64,
    /// Width of a finger.
    pub finger: Length,
    /// From one slot to the next.
    pub step: Length,
    /// Width that the fingers fill.
    pub trim_to: Length,
    /// Width of cutter and pin that fills the untrimmed width.
    pub fill_pin: Length,
    /// Width that two fingers more fill.
    pub next_width: Length,
    /// Width of cutter and pin with which two fingers more fill the untrimmed width.
    pub next_pin: Length,
}

impl CombJoint {
    /// Works out the fingers: as many as fit.
    ///
    /// # Errors
    /// A refusal with figures when no finger is left or fewer than three fit.
    pub fn work_out(&self) -> Result<CombPlan, Refusal> {
        let finger = entering(NO_FINGER, self.pin, self.clearance)?;
        let least = if self.odd { 3 } else { 4 };
        if self.filled(least) > self.width {
            return Err(Refusal::new(
                FEW,
                format!("width {}, pin {}", about(self.width), about(self.pin)),
                format!("width {}", at_least(self.filled(least))),
                "Take a narrower cutter and pin.",
            ));
        }
        let fingers = self.fingers(finger);
        Ok(CombPlan {
            fingers,
            finger,
            step: finger + self.pin,
            trim_to: self.filled(fingers),
            fill_pin: self.filling_pin(fingers),
            next_width: self.filled(fingers + 2),
            next_pin: self.filling_pin(fingers + 2),
        })
    }

    /// The largest number of the wanted parity that the width takes: whole steps, and for an odd
    /// number a last finger.
    fn fingers(&self, finger: Length) -> i64 {
        let step = (finger + self.pin).to_nm();
        if self.odd {
            2 * ((self.width - finger).to_nm() / step) + 1
        } else {
            2 * (self.width.to_nm() / step)
        }
    }

    /// All clearances of so many fingers: one board has half of them, and of an odd number one
    /// more.
    fn clearances_nm(&self, fingers: i64) -> i64 {
        (fingers + 1) / 2 * self.clearance.to_nm()
    }

    /// The width that so many fingers fill.
    fn filled(&self, fingers: i64) -> Length {
        Length::nm(fingers * self.pin.to_nm() - self.clearances_nm(fingers))
    }

    /// The pin with which so many fingers fill the untrimmed width.
    fn filling_pin(&self, fingers: i64) -> Length {
        let filled = self.width + Length::nm(self.clearances_nm(fingers));
        filled.times(1.0 / fingers as f64)
    }
}

impl CombPlan {
    /// Steps from the first finger of a board to its last.
    fn steps(&self) -> i64 {
        (self.fingers - 1) / 2
    }

    /// How far the last finger is off when the steps of two settings differ by `step_error`.
    pub fn drift(&self, step_error: Length) -> Length {
        Length::nm(self.steps() * step_error.to_nm())
    }

    /// How much the fingers of both boards overlap, in mm, the edges flush: at the first pair of
    /// neighbours, where those of one setting meet tightest, and at the last, where what two
    /// settings differ by has added up.
    fn fit_mm(&self, pin: Length, slips: &Slips) -> f64 {
        let slot = pin.to_mm() - slips.cutter;
        let step_a = self.step.to_mm() + slips.apart;
        let step_b = step_a + slips.step;
        let steps = self.steps() as f64;
        let first_finger_of_a_ends = step_a - slot;
        let first_finger_of_b_begins = slot;
        let last_finger_of_b_ends = steps * step_b;
        let last_finger_of_a_begins = steps * step_a;
        (first_finger_of_a_ends - first_finger_of_b_begins)
            + (last_finger_of_b_ends - last_finger_of_a_begins)
    }
}

const ONE_SETTING: &[Cause] = &[
    Cause("pin farther from the cutter", Origin::Fence, |slips| {
        &mut slips.apart
    }),
    Cause(
        "slots narrower than measured, the step the same",
        Origin::Diameter,
        |slips| &mut slips.cutter,
    ),
];

const TWO_SETTINGS: &[Cause] = &[Cause(
    "step of the second board's setting larger, at the last finger",
    Origin::Fence,
    |slips| &mut slips.step,
)];

fn read(given: &Given) -> Result<CombJoint, Refusal> {
    Ok(CombJoint {
        width: needed("width", given.length("width"))?,
        pin: needed("pin", given.length("pin"))?,
        clearance: needed("clearance", given.length("clearance"))?,
        odd: needed("count", given.choice("count"))? == "odd",
    })
}

fn run(given: &Given) -> Result<Worked, Refusal> {
    let joint = read(given)?;
    let plan = joint.work_out()?;
    let stock = needed("stock", given.length("stock"))?;
    let depth = stock + needed("proud", given.length("proud"))?;
    let drift = given.length("step_error").map(|error| plan.drift(error));
    let lengths = [
        ("finger", plan.finger),
        ("step", plan.step),
        ("trim_to", plan.trim_to),
        ("fill_pin", plan.fill_pin),
        ("next_width", plan.next_width),
        ("next_pin", plan.next_pin),
        ("depth", depth),
    ];
    let mut results = BTreeMap::from(lengths.map(|(name, length)| (name, Value::Length(length))));
    results.insert("fingers", Value::Count(plan.fingers));
    results.extend(drift.map(|drift| ("worst_drift", Value::Length(drift))));
    Ok(Worked {
        results,
        warnings: warnings(&joint, &plan, drift),
        notes: NOTES.iter().map(|note| (*note).to_owned()).collect(),
    })
}

const NOTES: &[&str] = &[
    "Measure the slot that was cut; pin and gap are made to it.",
    "Cut both boards of a corner, and all like boards, at one setting and from the same edge: an \
     error of the step is then alike in both.",
    "Board A starts with its edge against the pin. Then turn A round, its first slot over the pin \
     and its first finger between pin and cutter: board B starts with its edge against A's.",
];

fn warnings(joint: &CombJoint, plan: &CombPlan, drift: Option<Length>) -> Vec<String> {
    let drifts = drift.filter(|drift| *drift > joint.clearance).map(|drift| {
        format!(
            "{DRIFT}: {} at the last finger, clearance {}. Boards of two settings will not go \
             together.",
            about(drift),
            about(joint.clearance)
        )
    });
    let left = joint.width - plan.trim_to;
    let unfilled = (left > Length::ZERO).then(|| {
        format!(
            "{NOT_FILLED}: {} is left over; trim the boards to {}, or all of it lies at the last \
             edge.",
            about(left),
            about(plan.trim_to)
        )
    });
    let usual = COMB.least..=COMB.most;
    let unusual = (!usual.contains(&joint.clearance))
        .then(|| format!("{UNUSUAL}: {}. Cut a test corner.", about(joint.clearance)));
    [drifts, unfilled, unusual].into_iter().flatten().collect()
}

fn fit(given: &Given) -> Fit {
    let planned = read(given).and_then(|joint| Ok((joint, joint.work_out()?)));
    let two: &[Cause] = match given.length("step_error") {
        Some(_) => TWO_SETTINGS,
        None => &[],
    };
    planned.map_or_else(
        |_| Fit::default(),
        |(joint, plan)| {
            let causes = ONE_SETTING.iter().chain(two);
            Fit::of(causes, |slips| plan.fit_mm(joint.pin, slips))
        },
    )
}
