//! Housing: a groove across a board that takes the end of another, as wide as the cutter or wider.
//!
//! Sketch: `SKETCH` below. Datums: `from` is measured from the edge that runs on the fence to the
//! near wall; fence distances from the fence to the cutter's axis; offsets from the housing's
//! centre line, plus is farther from the fence.
//!
//! Derivation (`D`, joinery 3.5). Width w = thickness measured + clearance. Passes overlap by o at
//! least, so n = 1 + ceil((w - d)/(d - o)) of them, s = (w - d)/(n - 1) apart; the first axis lies
//! x + d/2 from the fence, each next s farther (the order of `pass_plan.rs`). Cut to the depth in
//! steps of half the cutter's diameter (`CP`).
//!
//! Limits: the cutter is no wider than the housing; o 1.5 mm or 1/16 in (`CP`).
//!
//! Example (joinery 3.5): sheet 17.6 + 0.1 mm, d 12: 2 passes, 5.7 mm apart, near wall at 100 mm:
//! fence distances 106 and 111.7 mm.

use std::collections::BTreeMap;

use super::answer::needed;
use super::figure::{about, at_most, under};
use super::fit::{Cause, HAND_PRESS, Slips};
use super::pass_plan::{PASSES_MOST, PassPlan, check_order};
use super::passes::steps_of_half;
use super::{
    Calculator, Fit, FitRule, Given, Input, Origin, Output, Refusal, Wanted, Wants, Worked,
};
use crate::shop::Shape;
use crate::units::{Kind, Length, Role, Value};

const SKETCH: &str = r"
   side, seen from its edge; the fence is at the left

     x ->|<-------- w -------->|
   ------+                     +------ face    w = t + c, t: what goes in
         |                     |  ^
         |                     |  h            d: cutter, o: least overlap
         +---------------------+  v
         |<--- d --->|                         pass 1
               s ->|<--- d --->|               pass 2, s farther from the fence
   n passes; p steps to the depth";

const CUTTER_WIDE: &str = "the cutter is wider than the housing";
const OVERLAP_WIDE: &str = "the overlap is as wide as the cutter";
const MANY_PASSES: &str = "the housing takes too many passes of this cutter";

/// The table entry.
pub(super) const CALCULATOR: Calculator = Calculator {
    name: "housing",
    summary: "Passes and fence distances for a housing (dado) of any width",
    family: "housings",
    inputs: &[
        Input::length("width", "w", ("1 mm", "300 mm"), "Width of the housing")
            .derived("thickness and clearance together"),
        Input::length(
            "thickness",
            "t",
            ("1 mm", "300 mm"),
            "Thickness of what goes in, measured",
        )
        .derived("width is given"),
        Input::length(
            "clearance",
            "c",
            ("-0.5 mm", "2 mm"),
            "Added to the thickness; plus is loose",
        )
        .derived("width is given"),
        Input::length(
            "cutter",
            "d",
            ("1 mm", "100 mm"),
            "Diameter of the straight cutter",
        ),
        Input::length(
            "overlap",
            "o",
            ("0.5 mm", "20 mm"),
            "Least overlap of two passes",
        )
        .usual("1.5 mm"),
        Input::length("depth", "h", ("0.5 mm", "60 mm"), "Depth of the housing")
            .derived("no number of steps to the depth"),
        Input::length(
            "from",
            "x",
            ("0 mm", "3000 mm"),
            "From the edge that runs on the fence to the near wall of the housing",
        )
        .derived("no fence distances"),
    ],
    results: &[
        Output::length("width", "w", Role::Opening, "Width of the housing"),
        Output::new(
            "passes",
            "n",
            Kind::Count,
            Role::Count,
            "Passes side by side",
        ),
        Output::length("shift", "s", Role::TakesOff, "From one pass to the next"),
        Output::new(
            "offsets",
            "",
            Kind::Lengths,
            Role::Opening,
            "Axis from the centre line, every pass in order; plus is farther from the fence",
        ),
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
            "depth_passes",
            "p",
            Kind::Count,
            Role::Count,
            "Steps to the full depth",
        ),
    ],
    one_of: &[&["width"], &["thickness", "clearance"]],
    refuses: &[CUTTER_WIDE, OVERLAP_WIDE, MANY_PASSES],
    warns: &[],
    sketch: SKETCH,
    source: "Geometry derived, as the sketch shows. Width from the piece that goes in, not from \
             a nominal size: Noyes, Handwork in Wood (1910), p. 158; Griffith, Essentials of \
             Woodworking (1908), p. 87. Overlap 1.5 mm (1/16 in), steps of half the cutter's \
             diameter: common practice, no source. Order of passes: derived from the rotation \
             of the cutter.",
    example: &[
        ("thickness", "17.6 mm"),
        ("clearance", "0.1 mm"),
        ("cutter", "12 mm"),
        ("depth", "6 mm"),
        ("from", "100 mm"),
    ],
    run,
    wants: Some(Wants {
        cutters: &[Wanted {
            shape: Shape::Straight,
            size: "cutter",
            angle: None,
        }],
        reach: "depth",
        passes: &["passes", "depth_passes"],
    }),
    fit: Some(FitRule {
        press: HAND_PRESS,
        of: fit,
    }),
};

/// What a housing is worked out from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Housing {
    /// Width of the housing.
    pub width: Length,
    /// Diameter of the straight cutter.
    pub cutter: Length,
    /// Least overlap of two passes.
    pub overlap: Length,
}

/// The passes of a housing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct HousingPlan {
    passes: PassPlan,
    cutter: Length,
}

impl Housing {
    /// Works out the passes.
    ///
    /// # Errors
    /// A refusal with figures when the cutter or the overlap is too wide.
    pub fn work_out(&self) -> Result<HousingPlan, Refusal> {
        if self.width < self.cutter {
            return Err(Refusal::new(
                CUTTER_WIDE,
                format!("cutter {}", about(self.cutter)),
                format!("cutter {}", at_most(self.width)),
                "Take a smaller cutter.",
            ));
        }
        let step_most = self.cutter - self.overlap;
        if step_most <= Length::ZERO {
            return Err(Refusal::new(
                OVERLAP_WIDE,
                format!("overlap {}", about(self.overlap)),
                under(self.cutter),
                "Give less overlap, or take a wider cutter.",
            ));
        }
        let passes = PassPlan::new(self.width - self.cutter, step_most).ok_or_else(|| {
            let most = self.cutter + step_most.times((PASSES_MOST - 1) as f64);
            Refusal::new(
                MANY_PASSES,
                format!("width {}", about(self.width)),
                format!("{} in {PASSES_MOST} passes", at_most(most)),
                "Take a wider cutter, or give less overlap.",
            )
        })?;
        Ok(HousingPlan {
            passes,
            cutter: self.cutter,
        })
    }
}

impl HousingPlan {
    /// How many passes side by side.
    pub fn passes(&self) -> i64 {
        self.passes.passes
    }

    /// From one pass to the next; nothing for one pass.
    pub fn shift(&self) -> Length {
        self.passes.shift
    }

    /// Axis from the centre line, pass by pass; plus is farther from the fence.
    pub fn offsets(&self) -> Vec<Length> {
        self.passes.places(-self.passes.extra.times(0.5))
    }

    /// Fence to axis, pass by pass, for a near wall `from` the edge that runs on the fence.
    pub fn fences(&self, from: Length) -> Vec<Length> {
        self.passes.places(from + self.cutter.times(0.5))
    }

    /// What goes in less the width between the two walls that the passes leave, in mm.
    fn fit_mm(&self, slips: &Slips) -> f64 {
        let cutter = self.cutter.to_mm() - slips.cutter;
        let first_axis = 0.0;
        let last_axis = self.passes.extra.to_mm() + slips.apart;
        let near_wall = first_axis - cutter / 2.0;
        let far_wall = last_axis + cutter / 2.0;
        let goes_in = self.passes.extra.to_mm() + self.cutter.to_mm() + slips.stock;
        goes_in - (far_wall - near_wall)
    }
}

const CAUSES: &[Cause] = &[
    Cause(
        "what goes in thicker than measured",
        Origin::Measuring,
        |slips| &mut slips.stock,
    ),
    Cause(
        "cutter smaller than its figure",
        Origin::Diameter,
        |slips| &mut slips.cutter,
    ),
];

const APART: &[Cause] = &[Cause(
    "first and last pass farther apart",
    Origin::Fence,
    |slips| &mut slips.apart,
)];

fn read(given: &Given) -> Result<Housing, Refusal> {
    let width = match given.length("width") {
        Some(width) => width,
        None => {
            let thickness = needed("thickness", given.length("thickness"))?;
            thickness + needed("clearance", given.length("clearance"))?
        }
    };
    Ok(Housing {
        width,
        cutter: needed("cutter", given.length("cutter"))?,
        overlap: needed("overlap", given.length("overlap"))?,
    })
}

fn run(given: &Given) -> Result<Worked, Refusal> {
    let joint = read(given)?;
    let plan = joint.work_out()?;
    let mut results = BTreeMap::from([
        ("width", Value::Length(joint.width)),
        ("passes", Value::Count(plan.passes())),
        ("shift", Value::Length(plan.shift())),
        ("offsets", Value::Lengths(plan.offsets())),
    ]);
    if let Some(from) = given.length("from") {
        let fences = plan.fences(from);
        check_order(&fences)?;
        let first = from + joint.cutter.times(0.5);
        results.insert("fence_first", Value::Length(first));
        results.insert("fence_last", Value::Length(first + plan.passes.extra));
        results.insert("fences", Value::Lengths(fences));
    }
    if let Some(depth) = given.length("depth") {
        let steps = steps_of_half(depth, joint.cutter);
        results.insert("depth_passes", Value::Count(steps));
    }
    Ok(Worked {
        results,
        warnings: Vec::new(),
        notes: plan.passes.notes(),
    })
}

fn fit(given: &Given) -> Fit {
    let Ok(plan) = read(given).and_then(|joint| joint.work_out()) else {
        return Fit::default();
    };
    let several = plan.passes() > 1;
    let fit = Fit::of(
        CAUSES.iter().chain(APART.iter().filter(|_| several)),
        |slips| plan.fit_mm(slips),
    );
    // Of a width without the thickness that goes in nobody knows the clearance.
    Fit {
        clearance: given.length("clearance"),
        ..fit
    }
}
