//! Breadboard end: the slot that a peg needs, so that the boards can move under the end.
//!
//! Sketch: `SKETCH` below. Datum: the place where the end is fixed to the boards.
//!
//! Derivation (joinery 3.11): a point of the boards x from the fixed place moves x C for each point
//! of moisture. The peg stands in the end, the slot is in the boards' tongue: rising moisture takes
//! the slot outward, so that the peg needs x C rise toward the fixed place, and x C fall away from
//! it; slot = peg + both.
//!
//! Limits: moisture inside 6 to 14 %.
//!
//! Example (joinery 3.11): x 400, peg 6, C 0.00248, rise 4, fall 2: 11.952 mm, 3.968 in, 1.984 out.

use std::collections::BTreeMap;

use super::answer::needed;
use super::season::{FALL, LEAVES, NOW, RISE, Season};
use super::species::{Basis, COEFFICIENT, CUT, DISAGREE, EITHER, FROM_MEMORY, SPECIES};
use super::{Calculator, Given, Input, Output, Refusal, Worked};
use crate::units::{Role, Value};
use crate::wood::Method;

const SKETCH: &str = r"
   the tongue of the boards under the end; C: coefficient

     fixed             x
       |<------------------------------>|
       o                         .------+--------.
                                (      (d)        )
                                 '------+--------'
                                 |<- i ->|<- u ->|    from the peg's own edges
                                |<------ s ------>|   s = d + i + u";

/// The table entry.
pub(super) const CALCULATOR: Calculator = Calculator {
    name: "breadboard",
    summary: "Slot for a peg of a breadboard end (clamp), so that the boards can move",
    family: "frames",
    inputs: &[
        Input::length(
            "distance",
            "x",
            ("1 mm", "3000 mm"),
            "From the place where the end is fixed to the peg",
        ),
        Input::length(
            "peg",
            "d",
            ("1 mm", "30 mm"),
            "Diameter of the peg or screw",
        ),
        COEFFICIENT,
        SPECIES,
        CUT,
        RISE,
        FALL,
        NOW,
    ],
    results: &[
        Output::length("slot", "s", Role::LeavesOn, "Length of the slot"),
        Output::length(
            "slot_in",
            "i",
            Role::LeavesOn,
            "Slot beyond the peg, toward the fixed place",
        ),
        Output::length(
            "slot_out",
            "u",
            Role::LeavesOn,
            "Slot beyond the peg, away from the fixed place",
        ),
    ],
    one_of: EITHER,
    refuses: &[LEAVES],
    warns: &[FROM_MEMORY, DISAGREE],
    sketch: SKETCH,
    source: "Derived, as the sketch shows; coefficient: Wood Handbook FPL-GTR-190 (2010), p. 13-15. \
             Ends held in slots: Noyes, Handwork in Wood (1910), p. 186; Fairham, Woodwork Joints, \
             p. 188. Fixed at one place only: common practice, no source.",
    example: &[
        ("distance", "400 mm"),
        ("peg", "6 mm"),
        ("coefficient", "0.00248"),
        ("rise", "4 %"),
        ("fall", "2 %"),
    ],
    run,
    wants: None,
    fit: None,
};

fn run(given: &Given) -> Result<Worked, Refusal> {
    let distance = needed("distance", given.length("distance"))?;
    let peg = needed("peg", given.length("peg"))?;
    let basis = Basis::read(given)?;
    let season = Season::read(given)?;
    let slot_in = distance.times(basis.coefficient() * season.rise);
    let slot_out = distance.times(basis.coefficient() * season.fall);
    let results = [
        ("slot", peg + slot_in + slot_out),
        ("slot_in", slot_in),
        ("slot_out", slot_out),
    ];
    let mut worked = Worked {
        results: BTreeMap::from(results.map(|(name, length)| (name, Value::Length(length)))),
        warnings: Vec::new(),
        notes: vec![
            "Fix the end at one place only; no glue anywhere else. The slot is in the boards."
                .to_owned(),
        ],
    };
    basis.tell(Method::Coefficient, &mut worked);
    Ok(worked)
}
