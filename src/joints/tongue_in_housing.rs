//! Tongue in housing: a board's end rebated on one face, its tongue let into a housing near the
//! end of another (rebate and housing, barefaced tongue and housing).
//!
//! Sketch: `SKETCH` below. Datums: the tongue lies against the inner face of its board; the place
//! of the housing is measured from the side's end, flush with the outer face of the other board.
//!
//! Derivation (`D`): tongue t = w - c, cut in from the outer face by s = T - t; it reaches h - z
//! into the housing. In a flush corner the tongue's outer cheek lies s from the side's end, and
//! the housing's near wall c/2 before it: x = s - c/2.
//!
//! Limits: housing a quarter to a third of the side deep, never over half (`CP`, joinery 2.3);
//! tongue a third of the stock (`M`); gap at its end 1 to 1.5 mm (`CP`, joinery 2.6); between the
//! side's end and the housing a quarter of the stock or more (`CP`).
//!
//! Example (derived by hand): T 18, S 18, w 6, h 6, c 0.1, z 1 mm: t 5.9, s 12.1, x 12.05 mm.

use std::collections::BTreeMap;

use super::answer::needed;
use super::cheeks::{CLEARANCE, THIN_WALL, entering, reach, thin_wall, third};
use super::figure::{about, at_most, under};
use super::fit::{Cause, HAND_PRESS, Slips};
use super::{Calculator, Fit, FitRule, Given, Input, Origin, Output, Refusal, Worked};
use crate::units::{Length, Role, Value};

const SKETCH: &str = r"
   corner, seen from its edge

   side's end, flush with the board's outer face
   +------------------+---------------------  ^
   |   ^              |     ^                 |
   |   x              |     s                 |
   |   v   +----------+     v                 T
   |       | ^   +----+----                   |
   |       | w   |    t, tongue               |
   |       | v   |                            |
   |       +-----+--------------------------  v inner face
   |<- q ->|<-- h --->|
   |             |<l->|   z: h less l
   |<------ S ------->|

   c = w - t: clearance, plus is loose";

const NO_SHOULDER: &str = "the tongue is as thick as its board";
const NO_TONGUE: &str = "the clearance is as wide as the housing";
const TOO_SHORT: &str = "the gap is as deep as the housing";
const TOO_DEEP: &str = "the housing is deeper than half of the side";

/// First words of the warning of a deep housing.
const DEEP: &str = "Housing over a third of the side";

/// The table entry.
pub(super) const CALCULATOR: Calculator = Calculator {
    name: "tongue-in-housing",
    summary: "Housing, tongue and shoulder of a board rebated into a side",
    family: "rebates and tongues",
    inputs: &[
        Input::length(
            "stock",
            "T",
            ("3 mm", "100 mm"),
            "Thickness of the board with the tongue, measured",
        ),
        Input::length(
            "side",
            "S",
            ("3 mm", "100 mm"),
            "Thickness of the side with the housing",
        ),
        Input::length(
            "housing",
            "w",
            ("1 mm", "50 mm"),
            "Width of the housing, as its cutter leaves it",
        )
        .derived("a third of the stock"),
        Input::length("depth", "h", ("0.5 mm", "50 mm"), "Depth of the housing")
            .derived("a third of the side"),
        CLEARANCE,
        Input::length(
            "end_gap",
            "z",
            ("0 mm", "5 mm"),
            "What the tongue is shorter than the housing is deep",
        )
        .usual("1 mm"),
    ],
    results: &[
        Output::length("housing", "w", Role::Opening, "Width of the housing"),
        Output::length("depth", "h", Role::TakesOff, "Depth of the housing"),
        Output::length("rest", "q", Role::LeavesOn, "Side under the housing"),
        Output::length("tongue", "t", Role::Entering, "Thickness of the tongue"),
        Output::length("tongue_length", "l", Role::TakesOff, "Length of the tongue"),
        Output::length(
            "shoulder",
            "s",
            Role::TakesOff,
            "What is cut off the outer face to leave the tongue",
        ),
        Output::length(
            "from_end",
            "x",
            Role::LeavesOn,
            "From the side's end to the housing's near wall, for a flush corner",
        ),
    ],
    one_of: &[],
    refuses: &[NO_SHOULDER, NO_TONGUE, TOO_SHORT, TOO_DEEP],
    warns: &[DEEP, THIN_WALL],
    sketch: SKETCH,
    source: "Geometry derived, as the sketch shows. The joint: Noyes, Handwork in Wood (1910), \
             p. 158. Housing a quarter to a third of the side deep and never over half, gap 1 to \
             1.5 mm (1/32 to 1/16 in): common practice, no source. Tongue a third of the stock: \
             from memory.",
    example: &[
        ("stock", "18 mm"),
        ("side", "18 mm"),
        ("clearance", "0.1 mm"),
    ],
    run,
    wants: None,
    fit: Some(FitRule {
        press: HAND_PRESS,
        of: fit,
    }),
};

/// What a tongue in a housing is worked out from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct TongueInHousing {
    /// Thickness of the board with the tongue.
    pub stock: Length,
    /// Thickness of the side.
    pub side: Length,
    /// Width of the housing.
    pub housing: Length,
    /// Depth of the housing.
    pub depth: Length,
    /// Housing less tongue; plus is loose.
    pub clearance: Length,
    /// Depth of the housing less length of the tongue.
    pub end_gap: Length,
}

/// Sizes of a tongue in a housing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct TongueInHousingPlan {
    /// Side under the housing.
    pub rest: Length,
    /// Thickness of the tongue.
    pub tongue: Length,
    /// Length of the tongue.
    pub tongue_length: Length,
    /// What is cut off the outer face.
    pub shoulder: Length,
    /// From the side's end to the housing, for a flush corner.
    pub from_end: Length,
}

impl TongueInHousing {
    /// Works out the sizes.
    ///
    /// # Errors
    /// A refusal with figures when tongue, shoulder or side do not come out.
    pub fn work_out(&self) -> Result<TongueInHousingPlan, Refusal> {
        let tongue = entering(NO_TONGUE, self.housing, self.clearance)?;
        let tongue_length = reach(TOO_SHORT, self.depth, self.end_gap)?;
        let shoulder = self.stock - tongue;
        let housing_under = self.stock + self.clearance.min(Length::ZERO);
        if self.housing >= housing_under {
            return Err(Refusal::new(
                NO_SHOULDER,
                format!(
                    "housing {}, stock {}",
                    about(self.housing),
                    about(self.stock)
                ),
                format!("housing {}", under(housing_under)),
                "Take a narrower housing, or let the whole end in: `housing`.",
            ));
        }
        if self.depth + self.depth > self.side {
            return Err(Refusal::new(
                TOO_DEEP,
                format!("depth {}", about(self.depth)),
                at_most(self.side.times(0.5)),
                "Cut a quarter to a third of the side.",
            ));
        }
        Ok(TongueInHousingPlan {
            rest: self.side - self.depth,
            tongue,
            tongue_length,
            shoulder,
            from_end: shoulder - self.clearance.times(0.5),
        })
    }

    /// Tongue less housing, in mm: what the cut from the outer face leaves of the stock.
    fn fit_mm(&self, plan: &TongueInHousingPlan, slips: &Slips) -> f64 {
        let stock = self.stock.to_mm() + slips.stock;
        let tongue = stock - (plan.shoulder.to_mm() + slips.exposure);
        tongue - (self.housing.to_mm() - slips.cutter)
    }
}

const CAUSES: &[Cause] = &[
    Cause("stock thicker than measured", Origin::Measuring, |slips| {
        &mut slips.stock
    }),
    Cause("outer face cut deeper", Origin::Height, |slips| {
        &mut slips.exposure
    }),
    Cause(
        "housing narrower than its figure",
        Origin::Diameter,
        |slips| &mut slips.cutter,
    ),
];

fn read(given: &Given) -> Result<TongueInHousing, Refusal> {
    let stock = needed("stock", given.length("stock"))?;
    let side = needed("side", given.length("side"))?;
    Ok(TongueInHousing {
        stock,
        side,
        housing: given.length("housing").unwrap_or_else(|| third(stock)),
        depth: given.length("depth").unwrap_or_else(|| third(side)),
        clearance: needed("clearance", given.length("clearance"))?,
        end_gap: needed("end_gap", given.length("end_gap"))?,
    })
}

fn run(given: &Given) -> Result<Worked, Refusal> {
    let joint = read(given)?;
    let plan = joint.work_out()?;
    let results = [
        ("housing", joint.housing),
        ("depth", joint.depth),
        ("rest", plan.rest),
        ("tongue", plan.tongue),
        ("tongue_length", plan.tongue_length),
        ("shoulder", plan.shoulder),
        ("from_end", plan.from_end),
    ];
    let deep = (joint.depth > third(joint.side)).then(|| {
        format!(
            "{DEEP}: {} of {}; a quarter to a third is usual.",
            about(joint.depth),
            about(joint.side)
        )
    });
    Ok(Worked {
        results: BTreeMap::from(results.map(|(name, length)| (name, Value::Length(length)))),
        warnings: deep
            .into_iter()
            .chain(thin_wall(plan.from_end, joint.stock))
            .collect(),
        notes: NOTES.iter().map(|note| (*note).to_owned()).collect(),
    })
}

const NOTES: &[&str] = &[
    "Cut the housing first, measure it, and cut the tongue to it.",
    "Leave the side a little long until the glue has set: the wood between housing and end is \
     short in the grain.",
];

fn fit(given: &Given) -> Fit {
    let planned = read(given).and_then(|joint| Ok((joint, joint.work_out()?)));
    planned.map_or_else(
        |_| Fit::default(),
        |(joint, plan)| Fit::of(CAUSES, |slips| joint.fit_mm(&plan, slips)),
    )
}
