//! Mitre: the angles of a ring of equal sides, the length of the mitre's face, what errors do.
//!
//! Sketch: `SKETCH` below. Datums: `mitre_angle` is the tilt from the square cut (a saw scale that
//! reads 0 at square), `saw_angle` that from the edge of the side (a scale that reads 90 at
//! square); the stock is measured across the ring: thickness of a case's sides, width of a frame's
//! members.
//!
//! Derivation (`D`, joinery 3.10). The corners of a ring of n turn by 360/n, half in each part:
//! m = 180/n, b = 90 - m. A face runs slantwise through the stock: F = T/cos m. Each side is
//! shorter inside by T tan m at both ends. All cuts off by e: two meet in a joint, which opens
//! F tan 2e; with all others forced shut the last opens F tan 2ne; laid out unforced, each side
//! turns by 360/n + 2e and the ring's ends miss by L sin(ne)/sin(m + e).
//!
//! Limits: the sides keep some length inside, the errors of the whole ring are under 45 degrees
//! together (`D`). Mitre as half of the angle between the parts: Fairham p. 164.
//!
//! Example (joinery 3.10): 4 sides, T 19: 45 and 45 degrees, F 26.87006 mm.

use std::collections::BTreeMap;

use super::answer::needed;
use super::figure::about;
use super::{Calculator, Given, Input, Output, Refusal, Worked};
use crate::units::{Angle, Kind, Length, Role, Value};

const SKETCH: &str = r"
   one side of n, seen along the corner's edge, outside up

     |<---------------- L ---------------->|
     +-------------------------------------+ b    ^
      \ F                               m./:      T
       \                                 / :      v
        +-------------------------------+  :
        |<------------- I ------------->|  : square

   m: from the square cut     b: from the edge, m + b = 90 deg
   e: error of every cut      g, G: each joint, or the last one, opens
   M: how far the ends of the ring miss each other";

const CLOSED: &str = "the sides are too short for so thick a stock";
const ERROR_LARGE: &str = "the errors of the whole ring come to 45 degrees or more";

/// First words of the warning of a cut that few saws reach.
const FAR_OVER: &str = "Cut over 45 deg from square";

/// The table entry.
pub(super) const CALCULATOR: Calculator = Calculator {
    name: "mitre",
    summary: "Angles and face of a mitre for any number of sides, and what an error opens",
    family: "mitres",
    inputs: &[
        SIDES,
        Input::length(
            "stock",
            "T",
            ("1 mm", "500 mm"),
            "Thickness of a case's sides, or width of a frame's members",
        ),
        Input::length(
            "length",
            "L",
            ("5 mm", "5000 mm"),
            "Length of a side, outside",
        )
        .derived("no inner length, no miss"),
        Input::length(
            "angle_error",
            "e",
            ("0.01 deg", "5 deg"),
            "How far every cut is off, all the same way",
        )
        .kind(Kind::Angle)
        .derived("no openings, no miss"),
    ],
    results: &[
        MITRE_ANGLE,
        SAW_ANGLE,
        FACE_LENGTH,
        Output::length(
            "inner_length",
            "I",
            Role::LeavesOn,
            "Length of a side, inside",
        ),
        Output::length(
            "open_each",
            "g",
            Role::LeavesOn,
            "What each joint opens, the error shared out",
        ),
        Output::length(
            "open_last",
            "G",
            Role::LeavesOn,
            "What the last joint opens, all others forced shut",
        ),
        Output::length(
            "miss",
            "M",
            Role::LeavesOn,
            "How far the ends of the ring miss each other, all joints closed but the last",
        ),
    ],
    one_of: &[],
    refuses: &[CLOSED, ERROR_LARGE],
    warns: &[FAR_OVER],
    sketch: SKETCH,
    source: "Half of the angle between the parts: Fairham, Woodwork Joints, p. 164. Face, inner \
             length and openings derived, as the sketch shows. Scales of saws that end near 45 \
             deg: common practice, no source.",
    example: &[("sides", "4"), ("stock", "19 mm")],
    run,
    wants: None,
    fit: None,
};

/// The number of sides, n.
pub(super) const SIDES: Input =
    Input::length("sides", "n", ("3", "24"), "Equal sides of the ring").kind(Kind::Count);

/// The angle from square, m.
pub(super) const MITRE_ANGLE: Output = Output::new(
    "mitre_angle",
    "m",
    Kind::Angle,
    Role::Place,
    "Cut from square: for a scale that reads 0 at a square cut",
);

/// The angle from the edge, b.
pub(super) const SAW_ANGLE: Output = Output::new(
    "saw_angle",
    "b",
    Kind::Angle,
    Role::Place,
    "Cut from the edge: for a scale that reads 90 at a square cut",
);

/// The face, F.
pub(super) const FACE_LENGTH: Output = Output::length(
    "face_length",
    "F",
    Role::Place,
    "Length of the mitre's face",
);

/// A ring of equal mitred sides.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Mitre {
    /// Number of sides, three at least.
    pub sides: i64,
    /// Stock across the ring.
    pub stock: Length,
}

impl Mitre {
    /// The cut's angle from square.
    pub fn mitre_angle(&self) -> Angle {
        Angle::degrees(180.0 / self.sides as f64)
    }

    /// The cut's angle from the edge.
    pub fn saw_angle(&self) -> Angle {
        Angle::degrees(90.0 - 180.0 / self.sides as f64)
    }

    /// Length of the mitre's face.
    pub fn face_length(&self) -> Length {
        self.stock.times(1.0 / self.mitre_angle().cos())
    }

    /// Length of a side inside, for its length outside.
    ///
    /// # Errors
    /// A refusal with figures when nothing is left.
    pub fn inner_length(&self, length: Length) -> Result<Length, Refusal> {
        let both_ends = self.stock.times(2.0 * self.mitre_angle().tan());
        if length <= both_ends {
            return Err(Refusal::new(
                CLOSED,
                format!("length {}", about(length)),
                format!("over {}", about(both_ends)),
                "Make the sides longer, or take thinner stock.",
            ));
        }
        Ok(length - both_ends)
    }

    /// What each joint opens with all cuts off by `error`, and the last with all others forced
    /// shut.
    ///
    /// # Errors
    /// A refusal with figures when the errors add up to 45 degrees.
    pub fn openings(&self, error: Angle) -> Result<(Length, Length), Refusal> {
        let cuts = 2.0 * self.sides as f64;
        let sum = error.to_degrees() * cuts;
        if sum >= 45.0 {
            return Err(Refusal::new(
                ERROR_LARGE,
                format!("angle_error {} deg", error.to_degrees()),
                format!("under {:.3} deg", 45.0 / cuts),
                "Set the saw again by a test ring before cutting.",
            ));
        }
        let opens = |degrees| self.face_length().times(Angle::degrees(degrees).tan());
        Ok((opens(2.0 * error.to_degrees()), opens(sum)))
    }

    /// How far the ends of the unforced ring miss each other with all cuts off by `error`.
    pub fn miss(&self, length: Length, error: Angle) -> Length {
        let all = Angle::degrees(error.to_degrees() * self.sides as f64);
        let half_turn = self.mitre_angle().plus_degrees(error.to_degrees());
        length.times(all.sin() / half_turn.sin())
    }

    /// The results that every mitre has.
    pub(super) fn shared(&self) -> BTreeMap<&'static str, Value> {
        BTreeMap::from([
            ("mitre_angle", Value::Angle(self.mitre_angle())),
            ("saw_angle", Value::Angle(self.saw_angle())),
            ("face_length", Value::Length(self.face_length())),
        ])
    }
}

fn run(given: &Given) -> Result<Worked, Refusal> {
    let joint = Mitre {
        sides: needed("sides", given.count("sides"))?,
        stock: needed("stock", given.length("stock"))?,
    };
    let mut results = joint.shared();
    let (length, error) = (given.length("length"), given.angle("angle_error"));
    if let Some(length) = length {
        results.insert("inner_length", Value::Length(joint.inner_length(length)?));
    }
    if let Some(error) = error {
        let (each, last) = joint.openings(error)?;
        results.insert("open_each", Value::Length(each));
        results.insert("open_last", Value::Length(last));
    }
    if let (Some(length), Some(error)) = (length, error) {
        results.insert("miss", Value::Length(joint.miss(length, error)));
    }
    let far = joint.mitre_angle() > Angle::degrees(45.0);
    let warning = far.then(|| {
        format!(
            "{FAR_OVER}: {} deg, which few saws reach. A carriage that holds the work square to its \
             usual way is set to {} deg.",
            joint.mitre_angle().to_degrees(),
            joint.saw_angle().to_degrees()
        )
    });
    Ok(Worked {
        results,
        warnings: warning.into_iter().collect(),
        notes: NOTES.iter().map(|note| (*note).to_owned()).collect(),
    })
}

const NOTES: &[&str] = &[
    "Find out what the saw's scale reads at a square cut before setting it: 0 takes the mitre \
     angle, 90 the saw angle.",
    "Like sides must be equally long: cut them against one stop.",
    "Close a test ring: an error of the setting counts twice in each joint, and with all others \
     shut as often as there are cuts in the last.",
];
