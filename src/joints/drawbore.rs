//! Drawbore: the hole in the tenon lies nearer the shoulder than that in the mortise's cheeks, so
//! that the peg draws the joint up.
//!
//! Sketch: `SKETCH` below. Datum: the mouth of the mortise, which is the tenon's shoulder when the
//! joint is home; distances from there to the axes of the holes.
//!
//! Derivation (`D`, joinery 3.12). Two holes of the peg's diameter, o apart, leave a straight
//! passage q = d - o; the peg's lead end must be thinner. The tenon's hole lies x - o from the
//! shoulder, and stays inside the tenon while x - o > d/2.
//!
//! Limits: the sources disagree on the offset. Framing: 1/8 in with a 3/8 in peg, a third of the
//! peg (Fairham pp. 78-79). Cabinet work: 1/32 to 3/64 in with 1/4 in, 1/16 in with 3/8 in, about
//! a sixth of the peg (`CP`, joinery 2.7). An interlocking chair joint: about 1/64 in (Fairham
//! p. 92). So the offset is given, or one of these rules is named.
//!
//! Example (joinery 3.12): d 6, o 0.8 mm: passage 5.2 mm.

use std::collections::BTreeMap;

use super::answer::needed;
use super::cheeks::third;
use super::figure::{about, at_most};
use super::{Calculator, Given, Input, Output, Refusal, Worked};
use crate::units::{Kind, Length, Role, Value};

const SKETCH: &str = r"
   along the tenon, through the axes of both holes

   shoulder
     |        |<--- d --->|    hole in the mortise's cheeks
     |<----- x ---->|          to its axis
     |    |<--- d --->|        hole in the tenon
     |<--- y -->|              to its axis
     |          |<o>|          offset
     |        |<- q ->|        straight passage";

const NO_PASSAGE: &str = "the offset leaves no passage for the peg";
const OVER_SHOULDER: &str = "the tenon's hole would break out at the shoulder";

/// First words of the warning of a heavy draw.
const HEAVY: &str = "Offset over a third of the peg";

/// Offset of an interlocking chair joint: 1/64 in.
const CHAIR: Length = Length::nm(396_875);

/// The table entry.
pub(super) const CALCULATOR: Calculator = Calculator {
    name: "drawbore",
    summary: "Offset, straight passage and place of the hole of a drawbored tenon",
    family: "mortise and tenon",
    inputs: &[
        Input::length(
            "peg",
            "d",
            ("2 mm", "40 mm"),
            "Diameter of the peg and of both holes",
        ),
        Input::length(
            "offset",
            "o",
            ("0.1 mm", "20 mm"),
            "What the tenon's hole lies nearer the shoulder",
        )
        .derived("by the rule"),
        Input::length(
            "rule",
            "",
            ("framing | cabinet | chair", ""),
            "Offset by a rule: framing, a third of the peg (Fairham p. 78); cabinet, a sixth \
             (common practice); chair, 1/64 in (Fairham p. 92)",
        )
        .kind(Kind::Choice)
        .derived("the offset is given"),
        Input::length(
            "distance",
            "x",
            ("2 mm", "200 mm"),
            "From the mouth of the mortise to the hole in its cheeks",
        )
        .derived("no place of the hole in the tenon"),
    ],
    results: &[
        Output::length(
            "offset",
            "o",
            Role::TakesOff,
            "What the tenon's hole lies nearer the shoulder",
        ),
        Output::length(
            "passage",
            "q",
            Role::Opening,
            "Straight passage through both holes; the peg's lead end is thinner",
        ),
        Output::length(
            "hole_from_shoulder",
            "y",
            Role::LeavesOn,
            "From the tenon's shoulder to its hole",
        ),
    ],
    one_of: &[&["offset"], &["rule"]],
    refuses: &[NO_PASSAGE, OVER_SHOULDER],
    warns: &[HEAVY],
    sketch: SKETCH,
    source: "Geometry derived, as the sketch shows. The sources disagree on the offset: 1/8 in \
             with a 3/8 in peg (Fairham, Woodwork Joints, pp. 78-79); about 1/64 in for an \
             interlocking chair joint (Fairham, p. 92); 1/32 to 3/64 in with a 1/4 in peg and \
             1/16 in with 3/8 in in cabinet work (common practice, no source).",
    example: &[("peg", "6 mm"), ("offset", "0.8 mm"), ("distance", "10 mm")],
    run,
    wants: None,
    fit: None,
};

/// The rules that sources give for the offset.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum DrawRule {
    /// A third of the peg.
    Framing,
    /// A sixth of the peg.
    Cabinet,
    /// 1/64 in, whatever the peg.
    Chair,
}

impl DrawRule {
    /// The offset for a peg of that diameter.
    pub fn offset(self, peg: Length) -> Length {
        match self {
            Self::Framing => third(peg),
            Self::Cabinet => Length::nm(peg.to_nm() / 6),
            Self::Chair => CHAIR,
        }
    }
}

/// What a drawbored tenon is worked out from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Drawbore {
    /// Diameter of the peg.
    pub peg: Length,
    /// What the tenon's hole lies nearer the shoulder.
    pub offset: Length,
    /// From the mouth of the mortise to the hole in its cheeks.
    pub distance: Option<Length>,
}

/// Passage and hole of a drawbored tenon.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct DrawborePlan {
    /// Straight passage through both holes.
    pub passage: Length,
    /// From the shoulder to the tenon's hole.
    pub hole_from_shoulder: Option<Length>,
}

impl Drawbore {
    /// Works out passage and hole.
    ///
    /// # Errors
    /// A refusal with figures when the peg has no passage or the hole breaks out.
    pub fn work_out(&self) -> Result<DrawborePlan, Refusal> {
        if self.offset >= self.peg {
            return Err(Refusal::new(
                NO_PASSAGE,
                format!("offset {}, peg {}", about(self.offset), about(self.peg)),
                format!("offset under the peg, usually {}", at_most(third(self.peg))),
                "Give less offset, or take a thicker peg.",
            ));
        }
        Ok(DrawborePlan {
            passage: self.peg - self.offset,
            hole_from_shoulder: self.distance.map(|x| self.hole(x)).transpose()?,
        })
    }

    /// From the shoulder to the tenon's hole, for a hole `distance` from the mortise's mouth.
    fn hole(&self, distance: Length) -> Result<Length, Refusal> {
        let least = self.offset + self.peg.times(0.5);
        if distance <= least {
            return Err(Refusal::new(
                OVER_SHOULDER,
                format!("distance {}", about(distance)),
                format!("over {}", about(least)),
                "Bore farther from the mouth of the mortise, or take a thinner peg.",
            ));
        }
        Ok(distance - self.offset)
    }
}

fn read(given: &Given) -> Result<Drawbore, Refusal> {
    let peg = needed("peg", given.length("peg"))?;
    let rule = given.choice("rule").map(|word| match word {
        "framing" => DrawRule::Framing,
        "chair" => DrawRule::Chair,
        _ => DrawRule::Cabinet,
    });
    let by_rule = rule.map(|rule| rule.offset(peg));
    Ok(Drawbore {
        peg,
        offset: needed("offset", given.length("offset").or(by_rule))?,
        distance: given.length("distance"),
    })
}

fn run(given: &Given) -> Result<Worked, Refusal> {
    let joint = read(given)?;
    let plan = joint.work_out()?;
    let mut results = BTreeMap::from([
        ("offset", Value::Length(joint.offset)),
        ("passage", Value::Length(plan.passage)),
    ]);
    if let Some(hole) = plan.hole_from_shoulder {
        results.insert("hole_from_shoulder", Value::Length(hole));
    }
    let heavy = (joint.offset > third(joint.peg)).then(|| {
        format!(
            "{HEAVY}: {} of {}; a third is the heaviest that a source gives.",
            about(joint.offset),
            about(joint.peg)
        )
    });
    Ok(Worked {
        results,
        warnings: heavy.into_iter().collect(),
        notes: NOTES.iter().map(|note| (*note).to_owned()).collect(),
    })
}

const NOTES: &[&str] = &[
    "Bore the mortise's cheeks without the tenon, push the tenon home, prick its hole through \
     them with the bit, draw it out, and bore nearer the shoulder by the offset.",
    "Point the peg so that its lead end is thinner than the passage.",
];
