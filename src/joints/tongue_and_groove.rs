//! Tongue and groove along the edges of two boards of the same thickness.
//!
//! Sketch: `SKETCH` below. Datum: the face, which both boards keep towards the fence or the table
//! where both cheeks are cut from one face.
//!
//! Derivation (`D`): the groove's walls lie f and f + w from the face; the tongue t = w - c stands
//! in the middle of the groove, so its cheeks lie f + c/2 and f + c/2 + t from the face; it is
//! shorter than the groove by z. What an error does follows from how the cheeks are cut
//! (`cheeks.rs`).
//!
//! Limits: tongue about a third of the stock (`M`, as the tenon's: Fairham p. 82). Tongue shorter
//! than the groove by 1 to 1.5 mm, walls of a quarter of the stock (`CP`, joinery 2.6).
//!
//! Example (derived by hand): stock 18, depth 6, c 0.1, z 1 mm: groove 6, tongue 5.9 by 5, its
//! shoulders 6.05 mm each.

use std::collections::BTreeMap;

use super::answer::needed;
use super::cheeks::{CLEARANCE, CheekMethod, Cheeks, THIN_WALL, entering, reach, thin_wall, third};
use super::figure::about;
use super::fit::HAND_PRESS;
use super::{Calculator, Fit, FitRule, Given, Input, Output, Refusal, Worked};
use crate::units::{Kind, Length, Role, Value};

const SKETCH: &str = r"
   seen from the end

   -------------+            +------------- face
                |  ^         |  ^
                |  f         |  s
        +-------+  v     +---+  v
        |          w     |      t  tongue  ^ u, from the face
        +-------+        +---+             v to its far cheek
        |<- g ->|        |<->| l, z less than g
                |  b         |  k, what is cut off the back
   -------------+            +------------- back

   T: thickness of both boards   c = w - t: clearance, plus is loose";

const NO_WALL: &str = "no wall stays beside the groove";
const NO_TONGUE: &str = "the clearance is as wide as the groove";
const TOO_SHORT: &str = "the gap is as deep as the groove";
const OFF_CENTRE: &str = "one setting for both faces makes a tongue in the middle only";

/// The table entry.
pub(super) const CALCULATOR: Calculator = Calculator {
    name: "tongue-and-groove",
    summary: "Groove, tongue and shoulders of a tongued and grooved edge",
    family: "rebates and tongues",
    inputs: &[
        Input::length("stock", "T", ("3 mm", "100 mm"), "Thickness of both boards"),
        Input::length("depth", "g", ("1 mm", "50 mm"), "Depth of the groove"),
        Input::length(
            "groove",
            "w",
            ("1 mm", "50 mm"),
            "Width of the groove, as its cutter leaves it",
        )
        .derived("a third of the stock"),
        Input::length(
            "face",
            "f",
            ("0.5 mm", "100 mm"),
            "From the face to the groove",
        )
        .derived("the groove in the middle"),
        CLEARANCE,
        Input::length(
            "end_gap",
            "z",
            ("0 mm", "5 mm"),
            "What the tongue is shorter than the groove is deep",
        )
        .usual("1 mm"),
        Input::length(
            "method",
            "",
            ("one-face | flipped", ""),
            "Both cheeks cut from one face, or each from its own face at one setting",
        )
        .kind(Kind::Choice)
        .usual("one-face"),
    ],
    results: &[
        Output::length("groove", "w", Role::Opening, "Width of the groove"),
        Output::length("depth", "g", Role::TakesOff, "Depth of the groove"),
        Output::length("wall_face", "f", Role::Place, "From the face to the groove"),
        Output::length("wall_back", "b", Role::Place, "From the groove to the back"),
        Output::length("tongue", "t", Role::Entering, "Thickness of the tongue"),
        Output::length("tongue_length", "l", Role::TakesOff, "Length of the tongue"),
        Output::length(
            "shoulder_face",
            "s",
            Role::TakesOff,
            "From the face to the tongue: what is cut off the face",
        ),
        Output::length(
            "tongue_far",
            "u",
            Role::LeavesOn,
            "From the face to the tongue's far cheek",
        ),
        Output::length(
            "shoulder_back",
            "k",
            Role::TakesOff,
            "From the tongue to the back: what is cut off the back",
        ),
    ],
    one_of: &[],
    refuses: &[NO_WALL, NO_TONGUE, TOO_SHORT, OFF_CENTRE],
    warns: &[THIN_WALL],
    sketch: SKETCH,
    source: "Geometry derived, as the sketch shows. Tongue a third of the stock: from memory, in \
             agreement with the tenon's third (Fairham, Woodwork Joints, p. 82). Tongue shorter \
             than the groove by 1 to 1.5 mm (1/32 to 1/16 in), walls of a quarter of the stock: \
             common practice, no source. Hidden lip cut back: Noyes, Handwork in Wood (1910), \
             pp. 174, 206. A deep tongue is no stronger than a shallow one: Forest Products \
             Laboratory, Wood Handbook (2010), ch. 10.",
    example: &[
        ("stock", "18 mm"),
        ("depth", "6 mm"),
        ("clearance", "0.1 mm"),
    ],
    run,
    wants: None,
    fit: Some(FitRule {
        press: HAND_PRESS,
        of: fit,
    }),
};

/// What a tongued and grooved edge is worked out from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct TongueAndGroove {
    /// Thickness of both boards.
    pub stock: Length,
    /// Depth of the groove.
    pub depth: Length,
    /// Width of the groove.
    pub groove: Length,
    /// From the face to the groove; in the middle when none.
    pub face: Option<Length>,
    /// Groove less tongue; plus is loose.
    pub clearance: Length,
    /// Depth of the groove less length of the tongue.
    pub end_gap: Length,
    /// How the tongue's cheeks are cut.
    pub method: CheekMethod,
}

/// Sizes of a tongued and grooved edge.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct TongueAndGroovePlan {
    /// From the face to the groove.
    pub wall_face: Length,
    /// From the groove to the back.
    pub wall_back: Length,
    /// Thickness of the tongue.
    pub tongue: Length,
    /// Length of the tongue.
    pub tongue_length: Length,
    /// From the face to the tongue.
    pub shoulder_face: Length,
    /// From the face to the tongue's far cheek.
    pub tongue_far: Length,
    /// From the tongue to the back.
    pub shoulder_back: Length,
}

impl TongueAndGroove {
    /// Works out the sizes.
    ///
    /// # Errors
    /// A refusal with figures when a wall or the tongue does not come out, or the method cannot
    /// make the tongue there.
    pub fn work_out(&self) -> Result<TongueAndGroovePlan, Refusal> {
        let tongue = entering(NO_TONGUE, self.groove, self.clearance)?;
        let tongue_length = reach(TOO_SHORT, self.depth, self.end_gap)?;
        let wall_face = self.wall_face();
        let shoulder_face = wall_face + self.clearance.times(0.5);
        let plan = TongueAndGroovePlan {
            wall_face,
            wall_back: self.stock - wall_face - self.groove,
            tongue,
            tongue_length,
            shoulder_face,
            tongue_far: shoulder_face + tongue,
            shoulder_back: self.stock - shoulder_face - tongue,
        };
        self.refuse(&plan)?;
        Ok(plan)
    }

    fn wall_face(&self) -> Length {
        self.face
            .unwrap_or_else(|| (self.stock - self.groove).times(0.5))
    }

    fn refuse(&self, plan: &TongueAndGroovePlan) -> Result<(), Refusal> {
        let walls = [
            plan.wall_face,
            plan.wall_back,
            plan.shoulder_face,
            plan.shoulder_back,
        ];
        if walls.iter().any(|wall| *wall <= Length::ZERO) {
            let face = self.face.map(|face| format!(", face {}", about(face)));
            return Err(Refusal::new(
                NO_WALL,
                format!("groove {}{}", about(self.groove), face.unwrap_or_default()),
                format!("groove and both walls {} together", about(self.stock)),
                "Take a narrower groove, or move it towards the middle.",
            ));
        }
        if self.method == CheekMethod::OwnFaces && !self.cheeks(plan).is_centred() {
            return Err(Refusal::new(
                OFF_CENTRE,
                format!("face {}", about(plan.wall_face)),
                about((self.stock - self.groove).times(0.5)),
                "Put the groove in the middle, or cut both cheeks from one face.",
            ));
        }
        Ok(())
    }

    fn cheeks(&self, plan: &TongueAndGroovePlan) -> Cheeks {
        Cheeks {
            stock: self.stock,
            near: plan.shoulder_face,
            thickness: plan.tongue,
            opening: self.groove,
            method: self.method,
        }
    }
}

fn read(given: &Given) -> Result<TongueAndGroove, Refusal> {
    let stock = needed("stock", given.length("stock"))?;
    Ok(TongueAndGroove {
        stock,
        depth: needed("depth", given.length("depth"))?,
        groove: given.length("groove").unwrap_or_else(|| third(stock)),
        face: given.length("face"),
        clearance: needed("clearance", given.length("clearance"))?,
        end_gap: needed("end_gap", given.length("end_gap"))?,
        method: match given.choice("method") {
            Some("flipped") => CheekMethod::OwnFaces,
            _ => CheekMethod::OneFace,
        },
    })
}

fn run(given: &Given) -> Result<Worked, Refusal> {
    let joint = read(given)?;
    let plan = joint.work_out()?;
    let results = [
        ("groove", joint.groove),
        ("depth", joint.depth),
        ("wall_face", plan.wall_face),
        ("wall_back", plan.wall_back),
        ("tongue", plan.tongue),
        ("tongue_length", plan.tongue_length),
        ("shoulder_face", plan.shoulder_face),
        ("tongue_far", plan.tongue_far),
        ("shoulder_back", plan.shoulder_back),
    ];
    let thinner = plan.wall_face.min(plan.wall_back);
    Ok(Worked {
        results: BTreeMap::from(results.map(|(name, length)| (name, Value::Length(length)))),
        warnings: thin_wall(thinner, joint.stock).into_iter().collect(),
        notes: NOTES.iter().map(|note| (*note).to_owned()).collect(),
    })
}

const NOTES: &[&str] = &[
    "Cut the groove first, measure it, and cut the tongue to it; keep the same face of every \
     board at the fence.",
    "Where one side is hidden, cut its lip back a little so that the seen edges close first \
     (Noyes, pp. 174, 206).",
];

fn fit(given: &Given) -> Fit {
    let planned = read(given).and_then(|joint| Ok(joint.cheeks(&joint.work_out()?)));
    planned.map_or_else(|_| Fit::default(), |cheeks| cheeks.fit())
}
