//! Saw ramp: how far a circular blade's cut runs on at the surface beyond its full depth.
//!
//! Sketch: `SKETCH` below. Datum: along the cut, from below the arbor, where the cut is at its full
//! depth, to where the blade leaves the surface.
//!
//! Derivation (`D`, joinery 3.6). The arbor lies R - h on the other side of the surface, so the
//! blade crosses it sqrt(R^2 - (R - h)^2) = sqrt(2 R h - h^2) = sqrt(h (D - h)) from below the
//! arbor.
//!
//! Limits: h under R, since the arbor never comes through the table (`D`); flanges and table take
//! more away, which only the machine tells. Forbidden cuts stay forbidden: a stopped cut on a
//! table saw is the business of the cautions, not of this figure.
//!
//! Example (joinery 3.6): D 200, h 9.5 mm: 42.54116 mm.

use std::collections::BTreeMap;

use super::answer::needed;
use super::figure::about;
use super::{Calculator, Given, Input, Output, Refusal, Worked};
use crate::units::{Length, Role, Value};

const SKETCH: &str = r"
   the groove along its length, the blade leaves it at the right

   -----+                          +----- face
        |                         /  ^
        |                      _-'   h
        |       full depth  _-'      v
        +-----------------''
                          |<-- r -->|
                          below the arbor

   D: the blade's diameter";

const TOO_DEEP: &str = "the blade does not reach that deep";

/// The table entry.
pub(super) const CALCULATOR: Calculator = Calculator {
    name: "saw-ramp",
    summary: "How far the cut of a circular blade runs on beyond its full depth",
    family: "housings",
    inputs: &[
        Input::length(
            "diameter",
            "D",
            ("50 mm", "500 mm"),
            "Diameter of the blade or the dado head",
        ),
        Input::length("depth", "h", ("0.5 mm", "150 mm"), "Depth of the groove"),
    ],
    results: &[Output::length(
        "ramp",
        "r",
        Role::LeavesOn,
        "From the end of the full depth to the end of the cut at the face",
    )],
    one_of: &[],
    refuses: &[TOO_DEEP],
    warns: &[],
    sketch: SKETCH,
    source: "Geometry derived, as the sketch shows.",
    example: &[("diameter", "200 mm"), ("depth", "9.5 mm")],
    run,
    wants: None,
    fit: None,
};

/// What the ramp of a blade is worked out from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct SawRamp {
    /// Diameter of the blade.
    pub diameter: Length,
    /// Depth of the groove.
    pub depth: Length,
}

impl SawRamp {
    /// Works out the ramp.
    ///
    /// # Errors
    /// A refusal with figures when the arbor would have to come through the table.
    pub fn work_out(&self) -> Result<Length, Refusal> {
        let radius = self.diameter.times(0.5);
        if self.depth >= radius {
            return Err(Refusal::new(
                TOO_DEEP,
                format!("depth {}", about(self.depth)),
                format!("under {}, less flange and table", about(radius)),
                "Cut less deep, or take a larger blade that the machine is made for.",
            ));
        }
        let (depth, diameter) = (self.depth.to_mm(), self.diameter.to_mm());
        Ok(Length::mm((depth * (diameter - depth)).sqrt()))
    }
}

fn run(given: &Given) -> Result<Worked, Refusal> {
    let ramp = SawRamp {
        diameter: needed("diameter", given.length("diameter"))?,
        depth: needed("depth", given.length("depth"))?,
    }
    .work_out()?;
    Ok(Worked {
        results: BTreeMap::from([("ramp", Value::Length(ramp))]),
        warnings: Vec::new(),
        notes: NOTES.iter().map(|note| (*note).to_owned()).collect(),
    })
}

const NOTES: &[&str] = &[
    "A groove that may not show ends its full depth this far before the place where it would \
     show; the rest is chopped square by hand.",
    "A stopped cut on a table saw is not made here: use the router table or a plunge router.",
];
