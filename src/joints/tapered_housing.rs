//! Tapered housing or sliding dovetail: one wall or both lean, so that the joint tightens as it
//! goes home.
//!
//! Sketch: `SKETCH` below. Datums: length along the joint, from where it is driven in; the taper is
//! what the opening is narrower at its far end than at its near end, both walls together.
//!
//! Derivation (`D`, joinery 3.4). One leaning wall turns by atan(y / L), each of two by
//! atan(y / 2L). Both parts have the same taper, so x before home the gap is x y / L: a clearance
//! c closes in the last c L / y of the travel, and thickness t too much stops the joint t L / y
//! before home.
//!
//! Limits: the clearance is no more than the taper, or the joint would be loose all the way.
//! About 5 mm a metre (1/16 in a foot) on one wall is usual (`CP`, joinery 2.3).
//!
//! Example (joinery 3.4): L 300, y 1.5, c 0.1 mm: 0.28648 or 0.14324 deg, tight for 20 mm.

use std::collections::BTreeMap;

use super::answer::needed;
use super::figure::{about, at_most};
use super::{Calculator, Given, Input, Output, Refusal, Worked};
use crate::units::{Angle, Kind, Length, Role, Value};

const SKETCH: &str = r"
   housing, seen on the face of the side; the taper drawn far too large

   driven in here
     +------------------------------------------+  square wall
     |                                          |
     |                                          |
     |                           ____----````   |  ^ leaning wall,
     |              ____----````                |  y at the angle a
     +____----````                              |  v
     |<------------------- L ------------------>|
                                     |<--- g -->|  c, clearance, closes here
   b: each wall's angle when both lean";

const LOOSE: &str = "the clearance is more than the taper takes up";

/// The table entry.
pub(super) const CALCULATOR: Calculator = Calculator {
    name: "tapered-housing",
    summary: "Angle of the walls of a tapered housing, and where it draws tight",
    family: "housings",
    inputs: &[
        Input::length("length", "L", ("20 mm", "3000 mm"), "Length of the housing"),
        Input::length(
            "taper",
            "y",
            ("0.05 mm", "20 mm"),
            "What the housing is narrower at its far end, both walls together",
        ),
        Input::length(
            "clearance",
            "c",
            ("0 mm", "2 mm"),
            "Gap that the taper takes up: what shows where the joint starts to draw tight",
        ),
    ],
    results: &[
        Output::new(
            "angle_one_wall",
            "a",
            Kind::Angle,
            Role::Place,
            "Angle of the leaning wall when the other is square",
        ),
        Output::new(
            "angle_two_walls",
            "b",
            Kind::Angle,
            Role::Place,
            "Angle of each wall when both lean",
        ),
        Output::length(
            "tight_travel",
            "g",
            Role::Place,
            "Last part of the travel, in which the clearance closes",
        ),
    ],
    one_of: &[],
    refuses: &[LOOSE],
    warns: &[],
    sketch: SKETCH,
    source: "Geometry derived, as the sketch shows. About 5 mm a metre (1/16 in a foot) on one \
             wall: common practice, no source.",
    example: &[
        ("length", "300 mm"),
        ("taper", "1.5 mm"),
        ("clearance", "0.1 mm"),
    ],
    run,
    wants: None,
    fit: None,
};

/// What a tapered housing is worked out from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct TaperedHousing {
    /// Length of the housing, more than nothing.
    pub length: Length,
    /// Width at the near end less width at the far end, more than nothing.
    pub taper: Length,
    /// Gap that the taper is to take up.
    pub clearance: Length,
}

/// Angles of a tapered housing, and where it draws tight.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TaperedHousingPlan {
    /// Angle of the leaning wall when the other is square.
    pub angle_one_wall: Angle,
    /// Angle of each wall when both lean.
    pub angle_two_walls: Angle,
    /// Last part of the travel, in which the clearance closes.
    pub tight_travel: Length,
}

impl TaperedHousing {
    /// Works out angles and travel.
    ///
    /// # Errors
    /// A refusal with figures when the taper never takes the clearance up.
    pub fn work_out(&self) -> Result<TaperedHousingPlan, Refusal> {
        if self.clearance > self.taper {
            return Err(Refusal::new(
                LOOSE,
                format!("clearance {}", about(self.clearance)),
                at_most(self.taper),
                "Give more taper, or make what slides in thicker.",
            ));
        }
        let twice_as_long = self.length + self.length;
        Ok(TaperedHousingPlan {
            angle_one_wall: Angle::of_slope(self.taper, self.length),
            angle_two_walls: Angle::of_slope(self.taper, twice_as_long),
            tight_travel: self.travel(self.clearance),
        })
    }

    /// How far the joint moves while the taper takes up `gap`.
    fn travel(&self, gap: Length) -> Length {
        gap.times(self.length.per(self.taper))
    }
}

/// The error of thickness that the note tells the effect of.
const TENTH: Length = Length::nm(100_000);

/// The usual taper of one wall for each part of the length: 1/16 in a foot.
const USUAL_TAPER: f64 = 1.0 / 192.0;

fn run(given: &Given) -> Result<Worked, Refusal> {
    let joint = TaperedHousing {
        length: needed("length", given.length("length"))?,
        taper: needed("taper", given.length("taper"))?,
        clearance: needed("clearance", given.length("clearance"))?,
    };
    let plan = joint.work_out()?;
    Ok(Worked {
        results: BTreeMap::from([
            ("angle_one_wall", Value::Angle(plan.angle_one_wall)),
            ("angle_two_walls", Value::Angle(plan.angle_two_walls)),
            ("tight_travel", Value::Length(plan.tight_travel)),
        ]),
        warnings: Vec::new(),
        notes: notes(&joint),
    })
}

fn notes(joint: &TaperedHousing) -> Vec<String> {
    vec![
        format!(
            "What slides in thicker by {} stops {} sooner.",
            about(TENTH),
            about(joint.travel(TENTH))
        ),
        format!(
            "About {} of taper is usual over this length (common practice).",
            about(joint.length.times(USUAL_TAPER))
        ),
        "Cut both parts to the same taper, leave what slides in long, and trim it when it is \
         tight."
            .to_owned(),
    ]
}
