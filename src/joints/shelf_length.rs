//! Shelf length: how long a shelf is cut that stands in housings or sockets of two sides.
//!
//! Sketch: `SKETCH` below. Datum: the inner faces of the two sides.
//!
//! Derivation (joinery 3.5): inside width and both depths, less what keeps the shelf's ends from
//! holding the sides apart: l = W + 2 h - z. The inside is given, or F - 2 T.
//!
//! Limits: depth a quarter to a third of the side and never over half (`CP`, joinery 2.3 and 2.4);
//! z 0.4 mm (1/64 in) in all (`CP`).
//!
//! Example (derived by hand): F 600, T 18, h 6, z 0.4: W 564, l 575.6 mm.

use std::collections::BTreeMap;

use super::answer::needed;
use super::cheeks::third;
use super::figure::{about, at_most, under};
use super::{Calculator, Given, Input, Output, Refusal, Worked};
use crate::units::{Kind, Length, Role, Value};

const SKETCH: &str = r"
   the carcase from its front, the shelf's ends in the sides

     |<------------------ F ------------------>|
     +-------+                         +-------+
     |   +---+-------------------------+---+   |
     |   |   |         shelf           |   |   |
     |   +---+-------------------------+---+   |
     +-------+                         +-------+
     |<- T ->|<---------- W ---------->|
         |<h>|                         |<h>|
         |<--------- l and z ------------->|
   z: clearance at both ends together";

const NO_INSIDE: &str = "the sides leave no inside between them";
const TOO_DEEP: &str = "the housing is deeper than half of the side";
const DROPS: &str = "the shelf would be no longer than the inside";

/// First words of the warning of a deep housing.
const DEEP: &str = "Housing over a third of the side";

/// The table entry.
pub(super) const CALCULATOR: Calculator = Calculator {
    name: "shelf-length",
    summary: "Length of a shelf that is housed or dovetailed into two sides",
    family: "part sizes",
    inputs: &[
        Input::length(
            "inside",
            "W",
            ("20 mm", "4000 mm"),
            "Between the inner faces of the sides, measured",
        )
        .derived("overall and side are given"),
        Input::length(
            "overall",
            "F",
            ("20 mm", "4000 mm"),
            "Carcase over its sides",
        )
        .derived("inside is given"),
        Input::length("side", "T", ("3 mm", "100 mm"), "Thickness of each side")
            .derived("inside is given"),
        Input::length(
            "depth",
            "h",
            ("0.5 mm", "50 mm"),
            "Depth of the housing or socket in each side, as cut",
        ),
        Input::length(
            "clearance",
            "z",
            ("0 mm", "5 mm"),
            "What the shelf is shorter than from bottom to bottom",
        )
        .usual("0.4 mm"),
        Input::length(
            "joint",
            "",
            ("housing | stopped-housing | sliding-dovetail", ""),
            "How the ends stand in the sides: whole, notched at the front, or as tails",
        )
        .kind(Kind::Choice)
        .usual("housing"),
    ],
    results: &[
        Output::length("length", "l", Role::Entering, "Shelf from end to end"),
        Output::length(
            "shoulders",
            "W",
            Role::Entering,
            "Between the shoulders of the tails or of the notches; the inside of the carcase",
        ),
    ],
    one_of: &[&["inside"], &["overall", "side"]],
    refuses: &[NO_INSIDE, TOO_DEEP, DROPS],
    warns: &[DEEP],
    sketch: SKETCH,
    source: "Derived, as the sketch shows. Clearance 0.4 mm (1/64 in); depth a quarter to a third of \
             the side, never over half: common practice, no source. The shelf's corner notched at a \
             stopped housing: Noyes, Handwork in Wood (1910), pp. 159, 205.",
    example: &[("overall", "600 mm"), ("side", "18 mm"), ("depth", "6 mm")],
    run,
    wants: None,
    fit: None,
};

/// Width between the sides.
fn inside(given: &Given) -> Result<Length, Refusal> {
    if let Some(inside) = given.length("inside") {
        return Ok(inside);
    }
    let overall = needed("overall", given.length("overall"))?;
    let side = needed("side", given.length("side"))?;
    let inside = overall - side - side;
    if inside > Length::ZERO {
        return Ok(inside);
    }
    Err(Refusal::new(
        NO_INSIDE,
        format!("overall {}, side {}", about(overall), about(side)),
        format!("overall over {}", about(side + side)),
        "Measure the carcase over its sides again, or take thinner sides.",
    ))
}

fn check(given: &Given, depth: Length, clearance: Length) -> Result<(), Refusal> {
    if let Some(side) = given.length("side").filter(|side| depth + depth > *side) {
        return Err(Refusal::new(
            TOO_DEEP,
            format!("depth {}", about(depth)),
            format!("depth {}", at_most(side.times(0.5))),
            "Cut a quarter to a third of the side.",
        ));
    }
    if clearance >= depth + depth {
        return Err(Refusal::new(
            DROPS,
            format!("clearance {}", about(clearance)),
            format!("clearance {}", under(depth + depth)),
            "Give less clearance, or cut the housings deeper.",
        ));
    }
    Ok(())
}

fn run(given: &Given) -> Result<Worked, Refusal> {
    let inside = inside(given)?;
    let depth = needed("depth", given.length("depth"))?;
    let clearance = needed("clearance", given.length("clearance"))?;
    check(given, depth, clearance)?;
    let deep = given
        .length("side")
        .filter(|side| depth > third(*side))
        .map(|side| {
            format!(
                "{DEEP}: {} of {}; a quarter to a third is usual.",
                about(depth),
                about(side)
            )
        });
    let length = inside + depth + depth - clearance;
    let mut results = BTreeMap::from([("length", Value::Length(length))]);
    let joint = needed("joint", given.choice("joint"))?;
    if joint != "housing" {
        results.insert("shoulders", Value::Length(inside));
    }
    Ok(Worked {
        results,
        warnings: deep.into_iter().collect(),
        notes: [of_joint(joint), TRIM].map(str::to_owned).to_vec(),
    })
}

fn of_joint(joint: &str) -> &'static str {
    match joint {
        "sliding-dovetail" => {
            "The shoulders close on the inner faces; cut the tails a trifle shorter than the sockets \
             are deep, and never the shoulders farther apart than the inside."
        }
        "stopped-housing" => {
            "Notch the front corners so that the notches' shoulders close on the inner faces."
        }
        _ => "The whole end is let in; the carcase closes on the housings' bottoms last.",
    }
}

const TRIM: &str = "Rounded up, to be trimmed: try it dry with the carcase cramped up, and plane an \
                    end until both sides close.";
