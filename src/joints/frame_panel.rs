//! Frame and panel: how wide the panel is cut, so that it neither splits the frame nor drops out.
//!
//! Sketch: `SKETCH` below. Datum: across the panel's grain; moisture rises and falls from now.
//!
//! Derivation (joinery 3.11): at its wettest the panel stops z short of each groove's bottom:
//!   P (1 + C rise) = O + 2 g - 2 z
//! at its driest it is P (1 - C fall) wide, and holds half of what it covers more than O when it
//! is pinned at its centre, or that less g on the side that it drifts from.
//! Rail between shoulders = F - 2 S + 2 p (read: Ross 1901, p. 79-81, for a profile).
//!
//! Limits: moisture inside 6 to 14 %; hold at least 3 mm or 1/8 in (common practice).
//!
//! Example (joinery 3.11): O 300, g 9.5, C 0.00248, rise 4, fall 2, z 0.8: P 314.28232 mm.

use std::collections::BTreeMap;

use super::answer::needed;
use super::figure::{about, over, under};
use super::season::{FALL, LEAVES, NOW, RISE, Season};
use super::species::{Basis, COEFFICIENT, CUT, DISAGREE, EITHER, FROM_MEMORY, SPECIES};
use super::{Calculator, Given, Input, Output, Refusal, Worked};
use crate::units::{Length, Role, Value};
use crate::wood::Method;

const SKETCH: &str = r"
   section across the panel's grain; C: coefficient

     |<------------------- F ------------------->|
     |<- S ->|<------------- O ----------->|
     +-------+                             +-------+
     |   +---+                             +---+   |
     |   | +---------------- P --------------+ |   |
     |   +---+                             +---+   |
     +-------+                             +-------+
         |<g>|   z: left at each bottom when wettest
                 p: depth of the stile's profile";

const NO_ROOM: &str = "the clearance is as deep as the groove";
const DROPS: &str = "the driest panel drops out of its groove";
const NO_RAIL: &str = "the stiles leave no rail between them";
const LITTLE_HOLD: &str = "Little hold";

/// Least hold of a panel that has drifted (common practice: 3 mm or 1/8 in).
const HOLD_LEAST: Length = Length::nm(3_000_000);

const OPENING: Input = Input::length(
    "opening",
    "O",
    ("10 mm", "3000 mm"),
    "Sight opening, across the panel's grain",
);

const GROOVE: Input = Input::length("groove", "g", ("1 mm", "50 mm"), "Depth of each groove");

const CLEARANCE: Input = Input::length(
    "clearance",
    "z",
    ("0 mm", "20 mm"),
    "Left at the bottom of each groove when the panel is wettest",
);

const OVERALL: Input = Input::length(
    "overall",
    "F",
    ("10 mm", "3000 mm"),
    "Frame over its stiles",
)
.derived("no rail_shoulder");

const STILE: Input = Input::length("stile", "S", ("5 mm", "500 mm"), "Width of each stile")
    .derived("no rail_shoulder");

const PROFILE: Input = Input::length(
    "profile",
    "p",
    ("0 mm", "50 mm"),
    "Depth of the stile's profile that the rail is scribed over",
)
.derived("square stiles, nothing to scribe over");

/// The table entry.
pub(super) const CALCULATOR: Calculator = Calculator {
    name: "frame-panel",
    summary: "Width of a panel in a grooved frame, and what holds it when it is dry",
    family: "frames",
    inputs: &[
        OPENING,
        GROOVE,
        COEFFICIENT,
        SPECIES,
        CUT,
        RISE,
        FALL,
        NOW,
        CLEARANCE,
        OVERALL,
        STILE,
        PROFILE,
    ],
    results: &[
        Output::length(
            "panel",
            "P",
            Role::Entering,
            "Width to cut the panel to now",
        ),
        Output::length("panel_wet", "", Role::Place, "Width of the wettest panel"),
        Output::length("panel_dry", "", Role::Place, "Width of the driest panel"),
        Output::length(
            "hold_centred",
            "",
            Role::Place,
            "Driest panel in each groove, pinned at its centre",
        ),
        Output::length(
            "hold_drifted",
            "",
            Role::Place,
            "Driest panel in one groove, drifted to the bottom of the other; minus: it is out",
        ),
        Output::length(
            "rail_shoulder",
            "",
            Role::Entering,
            "Rail between its shoulders; given overall and stile",
        ),
    ],
    one_of: EITHER,
    refuses: &[LEAVES, NO_ROOM, DROPS, NO_RAIL],
    warns: &[FROM_MEMORY, DISAGREE, LITTLE_HOLD],
    sketch: SKETCH,
    source: "Derived, as the sketch shows; coefficient: Wood Handbook FPL-GTR-190 (2010), p. 13-15. \
             Shoulders of a scribed rail: Ross, Elementary Course in Woodwork (1901), p. 79-81, read. A hold of 3 mm (1/8 in): common \
             practice, no source.",
    example: &[
        ("opening", "300 mm"),
        ("groove", "9.5 mm"),
        ("coefficient", "0.00248"),
        ("rise", "4 %"),
        ("fall", "2 %"),
        ("clearance", "0.8 mm"),
        ("overall", "450 mm"),
        ("stile", "57 mm"),
        ("profile", "9.5 mm"),
    ],
    run,
    wants: None,
    fit: None,
};

/// A panel and its grooves.
struct Panel {
    opening: Length,
    groove: Length,
    clearance: Length,
    /// Width when wettest over the width now.
    swells: f64,
    /// Width when driest over the width now.
    shrinks: f64,
}

impl Panel {
    fn wet(&self) -> Length {
        self.opening + (self.groove - self.clearance).times(2.0)
    }

    fn now(&self) -> Length {
        self.wet().times(1.0 / self.swells)
    }

    fn dry(&self) -> Length {
        self.wet().times(self.shrinks / self.swells)
    }

    fn hold_centred(&self) -> Length {
        (self.dry() - self.opening).times(0.5)
    }

    fn hold_drifted(&self) -> Length {
        self.dry() - self.opening - self.groove
    }

    /// The groove in which the driest panel, pinned at its centre, just touches both edges.
    fn groove_least(&self) -> Length {
        let wet_least = self.opening.times(self.swells / self.shrinks);
        self.clearance + (wet_least - self.opening).times(0.5)
    }

    fn check(&self) -> Result<(), Refusal> {
        if self.clearance >= self.groove {
            return Err(Refusal::new(
                NO_ROOM,
                format!("clearance {}", about(self.clearance)),
                format!("clearance {}", under(self.groove)),
                "Give less clearance, or plough the groove deeper.",
            ));
        }
        if self.hold_centred() <= Length::ZERO {
            return Err(Refusal::new(
                DROPS,
                format!("groove {}", about(self.groove)),
                format!("groove {}", over(self.groove_least())),
                "Plough the groove deeper, divide the panel with a muntin, or take a wood or a cut \
                 that moves less.",
            ));
        }
        Ok(())
    }
}

fn rail(given: &Given) -> Result<Option<Length>, Refusal> {
    let (Some(overall), Some(stile)) = (given.length("overall"), given.length("stile")) else {
        return Ok(None);
    };
    let profile = given.length("profile").unwrap_or(Length::ZERO);
    let rail = overall - stile.times(2.0) + profile.times(2.0);
    if rail > Length::ZERO {
        return Ok(Some(rail));
    }
    Err(Refusal::new(
        NO_RAIL,
        format!("stile {}", about(stile)),
        format!("stile {}", under(overall.times(0.5) + profile)),
        "Take narrower stiles, or measure the frame over its stiles again.",
    ))
}

fn run(given: &Given) -> Result<Worked, Refusal> {
    let basis = Basis::read(given)?;
    let season = Season::read(given)?;
    let panel = Panel {
        opening: needed("opening", given.length("opening"))?,
        groove: needed("groove", given.length("groove"))?,
        clearance: needed("clearance", given.length("clearance"))?,
        swells: 1.0 + basis.coefficient() * season.rise,
        shrinks: 1.0 - basis.coefficient() * season.fall,
    };
    panel.check()?;
    let results = [
        ("panel", panel.now()),
        ("panel_wet", panel.wet()),
        ("panel_dry", panel.dry()),
        ("hold_centred", panel.hold_centred()),
        ("hold_drifted", panel.hold_drifted()),
    ];
    let rail = rail(given)?.map(|rail| ("rail_shoulder", rail));
    let results = results.into_iter().chain(rail);
    let mut worked = Worked {
        results: results
            .map(|(name, length)| (name, Value::Length(length)))
            .collect::<BTreeMap<_, _>>(),
        ..Worked::default()
    };
    basis.tell(Method::Coefficient, &mut worked);
    if panel.hold_drifted() < HOLD_LEAST {
        worked.warnings.push(format!(
            "{LITTLE_HOLD}: a panel that drifts into one groove has {} in the other, and {} is \
             usual; plough the grooves deeper, or pin the panel at its centre.",
            about(panel.hold_drifted()),
            about(HOLD_LEAST)
        ));
    }
    worked.notes.push(
        "The panel stays free in its grooves: no glue there, and none from the corners.".to_owned(),
    );
    Ok(worked)
}
