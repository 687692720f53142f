//! Splined mitre: grooves square to the faces of a mitre, and the spline that lies in both.
//!
//! Sketch: `SKETCH` below. Datums: the groove's centre along the mitre's face from the inside
//! corner; its depth square to that face.
//!
//! Derivation (`D`, joinery 3.10 for the square corner, the same for any m = 180/n). A point s along
//! the face lies s cos m from the inside face, and a groove runs towards the outside face by sin m
//! a unit of its depth. The groove is k = t + c wide; its outer wall, at x + k/2, leaves v to the
//! outside face at depth G = (T - v - (x + k/2) cos m)/sin m; at 45 degrees that is
//! sqrt 2 (T - v) - (x + k/2). The spline is as wide as both grooves less its play.
//!
//! Limits: the groove's inner wall stays outside the inside corner, x > k/2, so that it does not
//! break out there (`D`). Spline T/6 to T/4 thick, groove near the inside corner, where the wood is
//! deepest; play 0.8 mm or 1/32 in (`CP`, joinery 2.10).
//!
//! Example (joinery 3.10): n 4, T 19, t 3, x 9.5, v 3: groove at most 11.62742 mm; 6 deep, spline
//! 11.2.

use super::answer::needed;
use super::cheeks::CLEARANCE;
use super::figure::{about, at_most, under};
use super::fit::{Cause, HAND_PRESS, Slips};
use super::mitre::{FACE_LENGTH, MITRE_ANGLE, Mitre, SAW_ANGLE, SIDES};
use super::{Calculator, Fit, FitRule, Given, Input, Origin, Output, Refusal, Worked};
use crate::units::{Length, Role, Value};

const SKETCH: &str = r"
   one of n sides, seen along the corner's edge

   ---------------------------------------+ b   outside corner
     outside face             v         /
                              .       /
                            /   \   /
                          '   g   /
                            \    k
                              /   x: from the inside corner to
     inside face            /        the middle of the groove
   -----------------------+ m, from square

   T: from face to face          v: wall, from the groove to the outside face
   F: whole face of the mitre    k: groove's mouth, g: its depth, G: most of g
   spline: t thick, c = k - t: clearance, plus is loose
           w wide, p less than both grooves";

const NO_GROOVE: &str = "the clearance leaves no width for the groove";
const NO_DEPTH: &str = "the wall leaves no depth for the groove";
const TOO_DEEP: &str = "the groove is deeper than the wall allows";
const BREAKS_OUT: &str = "the groove breaks out at the inside corner";
const PLAY_WIDE: &str = "the play is as wide as both grooves";

/// First words of the warning of an unusual thickness.
const UNUSUAL: &str = "Spline outside a sixth to a quarter of the stock";

/// The table entry.
pub(super) const CALCULATOR: Calculator = Calculator {
    name: "splined-mitre",
    summary: "Deepest groove for a spline across a mitre, and the spline",
    family: "mitres",
    inputs: &[
        SIDES,
        Input::length("stock", "T", ("5 mm", "100 mm"), "Thickness of the sides"),
        Input::length(
            "spline",
            "t",
            ("0.5 mm", "30 mm"),
            "Thickness of the spline, measured",
        ),
        Input::length(
            "centre",
            "x",
            ("0.5 mm", "140 mm"),
            "From the inside corner along the mitre's face to the groove's centre",
        ),
        Input::length(
            "wall",
            "v",
            ("0.5 mm", "100 mm"),
            "Wood that is left between groove and outside face",
        ),
        Input::length("groove", "g", ("0.5 mm", "100 mm"), "Depth of each groove")
            .derived("no width of the spline"),
        CLEARANCE,
        Input::length(
            "play",
            "p",
            ("0 mm", "5 mm"),
            "Both grooves together less the spline's width",
        )
        .usual("0.8 mm"),
    ],
    results: &[
        MITRE_ANGLE,
        SAW_ANGLE,
        FACE_LENGTH,
        Output::length("groove_width", "k", Role::Opening, "Width of each groove"),
        Output::length(
            "groove_most",
            "G",
            Role::TakesOff,
            "Deepest that a groove may be",
        ),
        Output::length(
            "spline_width",
            "w",
            Role::TakesOff,
            "Width of the spline, across the joint; too wide it holds the mitre open",
        ),
    ],
    one_of: &[],
    refuses: &[NO_GROOVE, NO_DEPTH, TOO_DEEP, BREAKS_OUT, PLAY_WIDE],
    warns: &[UNUSUAL],
    sketch: SKETCH,
    source: "Geometry derived, as the sketch shows. A spline across the joint adds glue area: \
             Noyes, Handwork in Wood (1910), p. 170. Thickness a sixth to a quarter of the stock, \
             play 0.8 mm (1/32 in): common practice, no source.",
    example: &[
        ("sides", "4"),
        ("stock", "19 mm"),
        ("spline", "4 mm"),
        ("centre", "9.5 mm"),
        ("wall", "3 mm"),
        ("groove", "6 mm"),
    ],
    run,
    wants: None,
    fit: Some(FitRule {
        press: HAND_PRESS,
        of: fit,
    }),
};

/// Grooves across a mitre.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct SplinedMitre {
    /// Sides and thickness of the ring.
    pub ring: Mitre,
    /// Thickness of the spline.
    pub spline: Length,
    /// Inside corner to the groove's centre, along the mitre's face.
    pub centre: Length,
    /// Wood left to the outside face.
    pub wall: Length,
    /// Groove less the spline's thickness; plus is loose.
    pub clearance: Length,
}

impl SplinedMitre {
    /// Width of each groove.
    pub fn groove_width(&self) -> Length {
        self.spline + self.clearance
    }

    /// The deepest groove.
    ///
    /// # Errors
    /// A refusal with figures when there is no groove, it breaks out, or nothing is left for it.
    pub fn groove_most(&self) -> Result<Length, Refusal> {
        let width = self.groove_width();
        if width <= Length::ZERO {
            return Err(Refusal::new(
                NO_GROOVE,
                format!("clearance {}", about(self.clearance)),
                format!("over {}", about(-self.spline)),
                "Give more clearance, or take a thicker spline.",
            ));
        }
        let half = width.times(0.5);
        if self.centre <= half {
            return Err(Refusal::new(
                BREAKS_OUT,
                format!("centre {}", about(self.centre)),
                format!("over {}", about(half)),
                "Move the groove outwards, or take a thinner spline.",
            ));
        }
        let mitre = self.ring.mitre_angle();
        let room = self.ring.stock - (self.centre + half).times(mitre.cos());
        if self.wall >= room {
            return Err(Refusal::new(
                NO_DEPTH,
                format!("wall {}, centre {}", about(self.wall), about(self.centre)),
                format!("wall {}", under(room)),
                "Move the groove towards the inside corner, or leave less wall.",
            ));
        }
        Ok((room - self.wall).times(1.0 / mitre.sin()))
    }

    /// Thickness of the spline less its groove, in mm.
    fn fit_mm(&self, slips: &Slips) -> f64 {
        let groove = self.groove_width().to_mm() - slips.cutter;
        self.spline.to_mm() + slips.stock - groove
    }
}

const CAUSES: &[Cause] = &[
    Cause("spline thicker than measured", Origin::Measuring, |slips| {
        &mut slips.stock
    }),
    Cause(
        "groove narrower than its figure",
        Origin::Diameter,
        |slips| &mut slips.cutter,
    ),
];

/// Width of the spline for grooves of that depth.
fn spline_width(groove: Length, most: Length, play: Length) -> Result<Length, Refusal> {
    if groove > most {
        return Err(Refusal::new(
            TOO_DEEP,
            format!("groove {}", about(groove)),
            at_most(most),
            "Cut less deep, or move the groove towards the inside corner.",
        ));
    }
    if play >= groove + groove {
        return Err(Refusal::new(
            PLAY_WIDE,
            format!("play {}", about(play)),
            under(groove + groove),
            "Give less play, or cut deeper.",
        ));
    }
    Ok(groove + groove - play)
}

fn read(given: &Given) -> Result<SplinedMitre, Refusal> {
    Ok(SplinedMitre {
        ring: Mitre {
            sides: needed("sides", given.count("sides"))?,
            stock: needed("stock", given.length("stock"))?,
        },
        spline: needed("spline", given.length("spline"))?,
        centre: needed("centre", given.length("centre"))?,
        wall: needed("wall", given.length("wall"))?,
        clearance: needed("clearance", given.length("clearance"))?,
    })
}

fn run(given: &Given) -> Result<Worked, Refusal> {
    let joint = read(given)?;
    let most = joint.groove_most()?;
    let mut results = joint.ring.shared();
    results.insert("groove_width", Value::Length(joint.groove_width()));
    results.insert("groove_most", Value::Length(most));
    if let Some(groove) = given.length("groove") {
        let play = needed("play", given.length("play"))?;
        let width = spline_width(groove, most, play)?;
        results.insert("spline_width", Value::Length(width));
    }
    let (spline, stock) = (joint.spline, joint.ring.stock);
    let thin = spline.times(6.0) < stock;
    let thick = spline.times(4.0) > stock;
    let unusual =
        (thin || thick).then(|| format!("{UNUSUAL}: {} of {}.", about(spline), about(stock)));
    Ok(Worked {
        results,
        warnings: unusual.into_iter().collect(),
        notes: NOTES.iter().map(|note| (*note).to_owned()).collect(),
    })
}

const NOTES: &[&str] = &[
    "Run the grain of the spline across the joint, from side to side.",
    "Cut the grooves of both faces at one setting, from the inside corner: an error of the centre \
     is then alike in both, and the corners still meet.",
];

fn fit(given: &Given) -> Fit {
    read(given).map_or_else(
        |_| Fit::default(),
        |joint| Fit::of(CAUSES, |slips| joint.fit_mm(slips)),
    )
}
