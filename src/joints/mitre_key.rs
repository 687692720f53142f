//! Mitre key: a kerf across the outside of a square corner, with a three-sided key glued in.
//!
//! Sketch: `SKETCH` below. Datum: the kerf's depth runs from the outside corner along the
//! corner's bisector, towards the inside corner.
//!
//! Derivation (`D`, joinery 3.10). The kerf's bottom is square to the bisector, so with depth p it
//! meets each outside face p sqrt 2 from the corner, and is 2 p long. The inside corner lies
//! T sqrt 2 from the outside one: T sqrt 2 - p is left.
//!
//! Limits: the kerf does not come through at the inside corner, p < T sqrt 2 (`D`); 3 mm (1/8 in)
//! are left there (`CP`).
//!
//! Example (joinery 3.10): p 19 in stock of 19: leg 26.87006, base 38, 7.87006 mm left.

use std::collections::BTreeMap;

use super::answer::needed;
use super::figure::{about, at_least, under};
use super::{Calculator, Given, Input, Output, Refusal, Worked};
use crate::units::{Angle, Length, Role, Value};

const SKETCH: &str = r"
   square corner, seen along its edge, outside corner up

                 /|\           ^
               /  |  \  l      p
             /    |    \       v
           /------+------\     b: bottom of the kerf, from face to face
         /    .   | r .    \
       /   .      v      .   \
     /  .   inside corner   .  \   T: thickness of both parts";

const THROUGH: &str = "the kerf comes through at the inside corner";

/// First words of the warning of a deep kerf.
const LITTLE_LEFT: &str = "Under 3 mm (1/8 in) left to the inside corner";

const LEFT_LEAST: Length = Length::nm(3_000_000);

/// The table entry.
pub(super) const CALCULATOR: Calculator = Calculator {
    name: "mitre-key",
    summary: "Size of the key for a kerf across a square mitred corner",
    family: "mitres",
    inputs: &[
        Input::length("stock", "T", ("1 mm", "100 mm"), "Thickness of both parts"),
        Input::length(
            "depth",
            "p",
            ("0.5 mm", "140 mm"),
            "Depth of the kerf from the outside corner, towards the inside corner",
        ),
    ],
    results: &[
        Output::length(
            "leg",
            "l",
            Role::LeavesOn,
            "Side of the key on each outside face, before it is dressed off",
        ),
        Output::length(
            "base",
            "b",
            Role::LeavesOn,
            "Side of the key at the kerf's bottom",
        ),
        Output::length("left", "r", Role::Place, "Wood left to the inside corner"),
    ],
    one_of: &[],
    refuses: &[THROUGH],
    warns: &[LITTLE_LEFT],
    sketch: SKETCH,
    source: "Geometry derived, as the sketch shows. Keys glued into kerfs after the mitre has \
             set: Fairham, Woodwork Joints, p. 178. 3 mm (1/8 in) left: common practice, no \
             source.",
    example: &[("stock", "19 mm"), ("depth", "19 mm")],
    run,
    wants: None,
    fit: None,
};

/// A kerf across a mitred corner.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct MitreKey {
    /// Thickness of both parts.
    pub stock: Length,
    /// Depth of the kerf from the outside corner.
    pub depth: Length,
}

/// The key for a kerf.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct MitreKeyPlan {
    /// Side on each outside face.
    pub leg: Length,
    /// Side at the kerf's bottom.
    pub base: Length,
    /// Wood left to the inside corner.
    pub left: Length,
}

impl MitreKey {
    /// Works out the key.
    ///
    /// # Errors
    /// A refusal with figures when the kerf comes through.
    pub fn work_out(&self) -> Result<MitreKeyPlan, Refusal> {
        let slant = 1.0 / Angle::degrees(45.0).cos();
        let most = self.stock.times(slant);
        if self.depth >= most {
            return Err(Refusal::new(
                THROUGH,
                format!("depth {}", about(self.depth)),
                under(most),
                "Cut less deep.",
            ));
        }
        Ok(MitreKeyPlan {
            leg: self.depth.times(slant),
            base: self.depth + self.depth,
            left: most - self.depth,
        })
    }
}

fn run(given: &Given) -> Result<Worked, Refusal> {
    let plan = MitreKey {
        stock: needed("stock", given.length("stock"))?,
        depth: needed("depth", given.length("depth"))?,
    }
    .work_out()?;
    let results = [("leg", plan.leg), ("base", plan.base), ("left", plan.left)];
    let little = (plan.left < LEFT_LEAST).then(|| {
        format!(
            "{LITTLE_LEFT}: {}; better {}.",
            about(plan.left),
            at_least(LEFT_LEAST)
        )
    });
    Ok(Worked {
        results: BTreeMap::from(results.map(|(name, length)| (name, Value::Length(length)))),
        warnings: little.into_iter().collect(),
        notes: NOTES.iter().map(|note| (*note).to_owned()).collect(),
    })
}

const NOTES: &[&str] = &[
    "Cut the kerfs after the mitre has set (Fairham, p. 178).",
    "Run the key's grain along its base, from face to face.",
];
