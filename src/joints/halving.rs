//! Halving: two pieces cross or meet in one plane, each cut away where the other lies.
//!
//! Sketch: `SKETCH` below. Datum: the faces that end up flush; a is cut in from its face, b from
//! its back, both gauged from the face.
//!
//! Derivation (`D`, joinery 2.1, 3.12): a line gauged g from both faces leaves a recess g deep in
//! a and g of wood in b, so the faces close flush whatever g is: depths g and B - g. With one
//! cutter height h for both, b keeps B - h and lies in a recess h deep: its face stands
//! B - 2 h proud. Pieces that cross at an angle v meet over w / sin v of their length.
//!
//! Limits: half the thickness of each (Fairham p. 13, Noyes p. 155), here of the thinner one; an
//! end lap is left 1.5 mm (1/16 in) long and trimmed after gluing (Noyes p. 156).
//!
//! Example (joinery 3.12): both 19, h 9.4: step 0.2 mm; gauged: 9.5 and 9.5 mm, step nothing.

use std::collections::BTreeMap;

use super::answer::needed;
use super::cheeks::CLEARANCE;
use super::figure::{about, under};
use super::fit::{Cause, HAND_PRESS, Slips};
use super::{Calculator, Fit, FitRule, Given, Input, Origin, Output, Refusal, Worked};
use crate::units::{Angle, Kind, Length, Role, Value};

const SKETCH: &str = r"
   a, seen from its side                 b, upside down beside it

   face, flush with b's                  back
   ----+             +----  ^     ^      ----+             +----  ^     ^
       |             |      g, i  A          |             |      j     B
       +-------------+      v     |          +-------------+      v     |
   -------------------------      v      -------------------------      v
       |<---- r ---->|                   face

   w: width of what lies in the recess   v: angle between the pieces
   h: one cutter height for both         p: b's face above a's at that height
   m: length of an end lap, e of it to trim    c: clearance, plus is loose";

const NOTHING_LEFT: &str = "nothing of a piece would be left";
const ONE_HEIGHT: &str = "the cutter height goes through a piece";

/// First words of the warning of a deep cut.
const OVER_HALF: &str = "Cut deeper than half of the piece";
/// First words of the warning of faces that are not flush.
const STEP: &str = "Faces not flush at one height";

/// The table entry.
pub(super) const CALCULATOR: Calculator = Calculator {
    name: "halving",
    summary: "Depths and recess of a halving (half lap), and the step at one cutter height",
    family: "halvings and bridles",
    inputs: &[
        Input::length("stock_a", "A", ("3 mm", "100 mm"), "Thickness of piece a"),
        Input::length("stock_b", "B", ("3 mm", "100 mm"), "Thickness of piece b"),
        Input::length(
            "width",
            "w",
            ("3 mm", "500 mm"),
            "Width of the piece that lies in the recess, measured",
        ),
        Input::length(
            "angle",
            "v",
            ("15 deg", "90 deg"),
            "Angle between the pieces, the smaller one",
        )
        .kind(Kind::Angle)
        .usual("90 deg"),
        Input::length(
            "gauge",
            "g",
            ("0.5 mm", "100 mm"),
            "Line gauged on both pieces from the faces that end up flush",
        )
        .derived("half of the thinner piece"),
        Input::length(
            "height",
            "h",
            ("0.5 mm", "100 mm"),
            "One cutter height for both pieces, for the step",
        )
        .derived("the depth of piece a"),
        CLEARANCE,
        Input::length(
            "trim",
            "e",
            ("0 mm", "20 mm"),
            "What an end lap is left long, trimmed after gluing",
        )
        .usual("1.5 mm"),
    ],
    results: &[
        Output::length("depth_a", "i", Role::TakesOff, "Cut in from the face of a"),
        Output::length("depth_b", "j", Role::TakesOff, "Cut in from the back of b"),
        Output::length(
            "step",
            "p",
            Role::Place,
            "Face of b above that of a when both are cut at one height",
        ),
        Output::length(
            "recess",
            "r",
            Role::Opening,
            "Length of the recess along its piece, shoulder to shoulder",
        ),
        Output::length(
            "end_lap",
            "m",
            Role::LeavesOn,
            "Length of the lap at a piece's end, from its shoulder",
        ),
    ],
    one_of: &[],
    refuses: &[NOTHING_LEFT, ONE_HEIGHT],
    warns: &[OVER_HALF, STEP],
    sketch: SKETCH,
    source: "Half the thickness of each: Fairham, Woodwork Joints, p. 13; Noyes, Handwork in \
             Wood (1910), p. 155. Gauged from the flush faces: Noyes, pp. 156, 203. End lap \
             1.5 mm (1/16 in) long: Noyes, p. 156. Step at one height and recess at an angle: \
             derived, as the sketch shows.",
    example: &[
        ("stock_a", "19 mm"),
        ("stock_b", "19 mm"),
        ("width", "50 mm"),
        ("height", "9.4 mm"),
    ],
    run,
    wants: None,
    fit: Some(FitRule {
        press: HAND_PRESS,
        of: fit,
    }),
};

/// What a halving is worked out from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Halving {
    /// Thickness of piece a.
    pub stock_a: Length,
    /// Thickness of piece b.
    pub stock_b: Length,
    /// Width of the piece that lies in the recess.
    pub width: Length,
    /// Angle between the pieces, over nothing and no more than 90 degrees.
    pub angle: Angle,
    /// Line gauged from the faces that end up flush.
    pub gauge: Length,
    /// One cutter height for both pieces.
    pub height: Length,
    /// Recess less the width that lies in it, measured across that piece; plus is loose.
    pub clearance: Length,
    /// What an end lap is left long.
    pub trim: Length,
}

/// Sizes of a halving.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct HalvingPlan {
    /// Cut in from the face of a.
    pub depth_a: Length,
    /// Cut in from the back of b.
    pub depth_b: Length,
    /// Face of b above that of a when both are cut at one height.
    pub step: Length,
    /// Length of the recess along its piece.
    pub recess: Length,
    /// Length of the lap at a piece's end.
    pub end_lap: Length,
}

impl Halving {
    /// Works out the sizes.
    ///
    /// # Errors
    /// A refusal with figures when gauge or height go through a piece.
    pub fn work_out(&self) -> Result<HalvingPlan, Refusal> {
        let thinner = self.stock_a.min(self.stock_b);
        if self.gauge >= thinner {
            return Err(Refusal::new(
                NOTHING_LEFT,
                format!("gauge {}", about(self.gauge)),
                under(thinner),
                "Gauge half of the thinner piece.",
            ));
        }
        if self.height >= thinner {
            return Err(Refusal::new(
                ONE_HEIGHT,
                format!("height {}", about(self.height)),
                under(thinner),
                "Set half of the thickness, or cut each piece to its own depth.",
            ));
        }
        let along = |across: Length| across.times(1.0 / self.angle.sin());
        Ok(HalvingPlan {
            depth_a: self.gauge,
            depth_b: self.stock_b - self.gauge,
            step: self.stock_b - self.height - self.height,
            recess: along(self.width + self.clearance),
            end_lap: along(self.width) + self.trim,
        })
    }

    /// Width of what lies in the recess less the recess, across that piece, in mm.
    fn fit_mm(&self, plan: &HalvingPlan, slips: &Slips) -> f64 {
        let recess = plan.recess.to_mm() + slips.apart;
        self.width.to_mm() + slips.stock - recess * self.angle.sin()
    }

    fn warnings(&self, plan: &HalvingPlan) -> Vec<String> {
        let pieces = [
            ("a", plan.depth_a, self.stock_a),
            ("b", plan.depth_b, self.stock_b),
        ];
        // A half of an odd nanometre is not deeper than half.
        let deep =
            |(_, depth, stock): &(_, Length, Length)| *depth + *depth > *stock + Length::nm(1);
        pieces
            .into_iter()
            .filter(deep)
            .map(|(piece, depth, stock)| {
                format!(
                    "{OVER_HALF}: {piece}, {} of {}.",
                    about(depth),
                    about(stock)
                )
            })
            .collect()
    }

    /// The warning of a step, where both are to be cut at one height.
    fn warning_of_step(&self, plan: &HalvingPlan) -> Option<String> {
        (plan.step.abs() > Length::nm(1)).then(|| {
            format!(
                "{STEP}: {} for both leaves b {} above a; cut each to its own depth.",
                about(self.height),
                about(plan.step)
            )
        })
    }
}

const CAUSES: &[Cause] = &[
    Cause(
        "what lies in the recess wider than measured",
        Origin::Measuring,
        |slips| &mut slips.stock,
    ),
    Cause(
        "shoulders of the recess farther apart",
        Origin::Fence,
        |slips| &mut slips.apart,
    ),
];

fn read(given: &Given) -> Result<Halving, Refusal> {
    let stock_a = needed("stock_a", given.length("stock_a"))?;
    let stock_b = needed("stock_b", given.length("stock_b"))?;
    let half = || Length::nm(stock_a.min(stock_b).to_nm() / 2);
    let gauge = given.length("gauge").unwrap_or_else(half);
    Ok(Halving {
        stock_a,
        stock_b,
        width: needed("width", given.length("width"))?,
        angle: needed("angle", given.angle("angle"))?,
        gauge,
        height: given.length("height").unwrap_or(gauge),
        clearance: needed("clearance", given.length("clearance"))?,
        trim: needed("trim", given.length("trim"))?,
    })
}

fn run(given: &Given) -> Result<Worked, Refusal> {
    let joint = read(given)?;
    let plan = joint.work_out()?;
    let results = [
        ("depth_a", plan.depth_a),
        ("depth_b", plan.depth_b),
        ("step", plan.step),
        ("recess", plan.recess),
        ("end_lap", plan.end_lap),
    ];
    let mut warnings = joint.warnings(&plan);
    if given.length("height").is_some() {
        warnings.extend(joint.warning_of_step(&plan));
    }
    Ok(Worked {
        results: BTreeMap::from(results.map(|(name, length)| (name, Value::Length(length)))),
        warnings,
        notes: NOTES.iter().map(|note| (*note).to_owned()).collect(),
    })
}

const NOTES: &[&str] = &[
    "Gauge both pieces from the faces that end up flush: an error of the line then cuts one piece \
     deeper and the other shallower, and the faces still close (Noyes, pp. 156, 203).",
    "At one cutter height for both, an error of the height counts twice in the step.",
    "It closes under the hand (Noyes, p. 156) or the weight of the fist (Fairham, p. 33), never \
     under a mallet.",
    "For the recess in the other piece give this piece's width.",
];

fn fit(given: &Given) -> Fit {
    let planned = read(given).and_then(|joint| Ok((joint, joint.work_out()?)));
    planned.map_or_else(
        |_| Fit::default(),
        |(joint, plan)| Fit::of(CAUSES, |slips| joint.fit_mm(&plan, slips)),
    )
}
