//! Rim speed: how fast a cutter's edge moves.
//!
//! Sketch: `SKETCH` below. Datum: the diameter over the cutting edges, at its widest.
//!
//! Derivation: v = pi D n / 60 with D in metres and n a minute; the fastest spindle for a limit is
//! n = 60 v / (pi D). Joinery 3.15, safety section 4 (both derived).
//!
//! Limits: none of its own; a `limit` that is given is kept. The maximum marked on the tool always
//! governs, see `spindle.rs`.
//!
//! Example (joinery 3.15): 10 in at 3450 rpm: 45.88296 m/s, 9032.08 ft/min.

use std::collections::BTreeMap;

use super::answer::needed;
use super::figure::{about, rpm};
use super::{Calculator, Given, Input, Output, Refusal, Worked};
use crate::units::{Kind, Length, RimSpeed, Role, Spindle, Value};

const SKETCH: &str = r"
        .---.
       /     \  v at the edge
      |   +   | n turns a minute
       \     /
        '---'
      |<- D ->|";

const TOO_FAST: &str = "the edge would run faster than the limit";

/// The table entry.
pub(super) const CALCULATOR: Calculator = Calculator {
    name: "rim-speed",
    summary: "How fast a cutter's edge moves, and the fastest spindle for a limit",
    family: "machine",
    inputs: &[
        Input::length(
            "diameter",
            "D",
            ("1 mm", "1000 mm"),
            "Diameter over the cutting edges",
        ),
        Input::length(
            "speed",
            "n",
            ("10 rpm", "60000 rpm"),
            "Speed of the spindle",
        )
        .kind(Kind::Speed),
        Input::length(
            "limit",
            "",
            ("1 m/s", "120 m/s"),
            "Highest rim speed that is allowed",
        )
        .kind(Kind::RimSpeed)
        .derived("no highest spindle speed"),
    ],
    results: &[
        Output::new(
            "rim_speed",
            "v",
            Kind::RimSpeed,
            Role::Place,
            "Speed of the edge",
        ),
        Output::new(
            "speed_most",
            "",
            Kind::Speed,
            Role::Speed,
            "Fastest spindle for the limit",
        ),
    ],
    one_of: &[],
    refuses: &[TOO_FAST],
    warns: &[],
    sketch: SKETCH,
    source: "Derived: v = pi D n.",
    example: &[("diameter", "10 in"), ("speed", "3450 rpm")],
    run,
    wants: None,
    fit: None,
};

/// A turning cutter and the limit that it is held to.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rim {
    /// Diameter over the cutting edges.
    pub diameter: Length,
    /// Speed of the spindle.
    pub speed: Spindle,
    /// Highest rim speed that is allowed, when there is one.
    pub limit: Option<RimSpeed>,
}

/// The speed of its edge.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RimPlan {
    /// Speed of the edge.
    pub rim_speed: RimSpeed,
    /// Fastest spindle for the limit.
    pub speed_most: Option<Spindle>,
}

impl Rim {
    /// Works out the speeds.
    ///
    /// # Errors
    /// A refusal with figures when the edge would run faster than the limit.
    pub fn work_out(&self) -> Result<RimPlan, Refusal> {
        let speed_most = self.limit.map(|limit| limit.spindle_at(self.diameter));
        match speed_most {
            Some(most) if self.speed > most => Err(Refusal::new(
                TOO_FAST,
                format!(
                    "speed {} at diameter {}",
                    rpm(self.speed),
                    about(self.diameter)
                ),
                format!("speed at most {}", rpm(most)),
                "Run slower, or take a smaller cutter.",
            )),
            _ => Ok(RimPlan {
                rim_speed: RimSpeed::of(self.diameter, self.speed),
                speed_most,
            }),
        }
    }
}

fn run(given: &Given) -> Result<Worked, Refusal> {
    let plan = Rim {
        diameter: needed("diameter", given.length("diameter"))?,
        speed: needed("speed", given.speed("speed"))?,
        limit: given.rim_speed("limit"),
    }
    .work_out()?;
    let mut results = BTreeMap::from([("rim_speed", Value::RimSpeed(plan.rim_speed))]);
    if let Some(most) = plan.speed_most {
        results.insert("speed_most", Value::Speed(most));
    }
    Ok(Worked {
        results,
        warnings: Vec::new(),
        notes: vec!["The maximum marked on the cutter governs, whatever is worked out.".to_owned()],
    })
}
