//! Edge joint: the force that presses it while the glue sets, how many cramps give it, and what a
//! planer's fence out of square does to it.
//!
//! Sketch: `SKETCH` below. Datum: one glue line; the force passes through every joint of a panel, so
//! that the area is that of one.
//!
//! Derivation (joinery 3.12, 3.13): force = pressure x length x thickness, cramps = force over that
//! of one, rounded up. A fence out of square by e leaves two edges that meet at 2 e: boards all
//! faced the same way gape by T tan 2 e when their other side closes, or bend 2 e at each joint;
//! boards turned in alternation cancel it.
//!
//! Limits: pressure from `GLUES`, none of it read in its own source; a glue film is 0.05 to 0.15 mm
//! (0.002 to 0.006 in; excerpt of a trade column).
//!
//! Example (joinery 3.12): 900 x 19 mm at 1.0 N/mm2: 17100 N; with 3500 N: 5 cramps.

use std::collections::BTreeMap;

use super::answer::needed;
use super::figure::{about, at_least};
use super::species::FROM_MEMORY;
use super::{Calculator, Given, Input, Output, Refusal, Worked};
use crate::units::{Amount, Angle, Kind, Length, Measure, Role, Unit, Value};

const SKETCH: &str = r"
   two boards on end, pressed by the force P       edges out of square by e

                                                            v
                                                         >|   |<
       +---------------+---------------+    ^      +------+   +------+
       |               |               |    |      |       \  |      |
   P ->|               |               |<-  T      |        \ | 2 e  |
       |               |               |    |      |         \|      |
       +---------------+---------------+    v      +----------+------+
                       glue line, L long
   u: pressure   c: force of a cramp   w: its width   n: cramps, s apart
   b: boards     k: cup of the panel, all joints shut";

const NO_ROOM: &str = "the cramps do not find room along the joint";

/// First words of the warning of a figure that was not read in its own source.
const NOT_PRIMARY: &str = "Not read at the maker";
/// First words of the warning of an unusual pressure.
const UNUSUAL: &str = "Pressure outside 100 to 250 lb/in2 (0.7 to 1.7 N/mm2)";
/// First words of the warning of a gap that glue does not bridge.
const OVER_FILM: &str = "Gap over 0.15 mm (0.006 in), the thickest glue film";

const PRESSURE: Kind = Kind::Amount(Measure::Stress);
const LOAD: Kind = Kind::Amount(Measure::Load);
const FILM_MOST: Length = Length::nm(150_000);
const SQUARE_INCH: &str = "lb/in2";

/// A figure for the pressure of a glue joint: the word of the choice, least and most in lb/in2,
/// whether it is from memory, and where it is from.
struct Glue {
    word: &'static str,
    pounds: (f64, f64),
    is_memory: bool,
    source: &'static str,
}

const HANDBOOK: &str = "Wood Handbook, chapter 10, from memory";
const MAKER: &str = "an adhesive maker's figures as a web page quotes them";

/// Joinery 2.12, in the order of the choice.
const GLUES: &[Glue] = &[
    Glue {
        word: "low-density",
        pounds: (100.0, 100.0),
        is_memory: true,
        source: HANDBOOK,
    },
    Glue {
        word: "high-density",
        pounds: (250.0, 250.0),
        is_memory: true,
        source: HANDBOOK,
    },
    Glue {
        word: "maker-softwood",
        pounds: (100.0, 150.0),
        is_memory: false,
        source: MAKER,
    },
    Glue {
        word: "maker-hardwood",
        pounds: (175.0, 250.0),
        is_memory: false,
        source: MAKER,
    },
];

/// The table entry.
pub(super) const CALCULATOR: Calculator = Calculator {
    name: "edge-joint",
    summary: "Force and cramps (clamps) for a glued edge joint, and what an error of its angle does",
    family: "edges and dowels",
    inputs: &[
        Input::length("length", "L", ("20 mm", "6000 mm"), "Length of the joint"),
        Input::length(
            "thickness",
            "T",
            ("3 mm", "150 mm"),
            "Thickness of the boards at the joint",
        ),
        Input::length(
            "pressure",
            "u",
            ("0.05 MPa", "5 MPa"),
            "Pressure on the glue line, as the glue's maker gives it",
        )
        .kind(PRESSURE)
        .derived("by the wood's density"),
        Input::length(
            "wood",
            "",
            (
                "low-density | high-density | maker-softwood | maker-hardwood",
                "",
            ),
            "Pressure by density: 100 and 250 lb/in2 (Wood Handbook ch. 10, from memory), or 100 \
             to 150 and 175 to 250 lb/in2 (a maker's figures, quoted on a web page)",
        )
        .kind(Kind::Choice)
        .derived("pressure is given"),
        Input::length("clamp_force", "c", ("50 N", "100 kN"), "Force of one cramp")
            .kind(LOAD)
            .derived("no number of cramps"),
        Input::length(
            "clamp_width",
            "w",
            ("5 mm", "300 mm"),
            "Room that one cramp takes along the joint",
        )
        .derived("room not checked"),
        Input::length(
            "angle_error",
            "e",
            ("0.01 deg", "5 deg"),
            "Planer's fence out of square, the boards all faced the same way",
        )
        .kind(Kind::Angle)
        .derived("no gap, no cup"),
        Input::length("boards", "b", ("2", "100"), "Number of boards in the panel")
            .kind(Kind::Count)
            .derived("no cup"),
    ],
    results: &[
        Output::new(
            "pressure",
            "u",
            PRESSURE,
            Role::Place,
            "Pressure that is reckoned with",
        ),
        Output::new("force", "P", LOAD, Role::Place, "Force on the joint"),
        Output::new("clamps", "n", Kind::Count, Role::Count, "Number of cramps"),
        Output::length(
            "spacing",
            "s",
            Role::TakesOff,
            "From cramp to cramp; the outer ones half of it from the ends",
        ),
        Output::length(
            "gap",
            "v",
            Role::Place,
            "Opening at one side of each joint of boards faced the same way",
        ),
        Output::new(
            "cup",
            "k",
            Kind::Angle,
            Role::Place,
            "Bend of the whole panel when each joint is pressed shut",
        ),
    ],
    one_of: &[&["pressure"], &["wood"]],
    refuses: &[NO_ROOM],
    warns: &[FROM_MEMORY, NOT_PRIMARY, UNUSUAL, OVER_FILM],
    sketch: SKETCH,
    source: "Force and angle derived, as the sketch shows. Pressure 100 lb/in2 for wood of low density \
             and 250 lb/in2 for dense hardwood: Wood Handbook FPL-GTR-190 (2010), ch. 10, from \
             memory; 100 to 150 and 175 to 250 lb/in2: an adhesive maker's figures quoted on a web \
             page, not primary. Alternate faces: Fairham, Woodwork Joints, p. 7. Glue film: trade \
             column, read as an excerpt.",
    example: &[
        ("length", "900 mm"),
        ("thickness", "19 mm"),
        ("pressure", "1.0 N/mm2"),
        ("clamp_force", "3500 N"),
        ("angle_error", "0.2 deg"),
        ("boards", "6"),
    ],
    run,
    wants: None,
    fit: None,
};

impl Glue {
    fn words(&self) -> String {
        match self.pounds {
            (least, most) if least < most => format!("{least} to {most} {SQUARE_INCH}"),
            (_, most) => format!("{most} {SQUARE_INCH}"),
        }
    }

    /// Tells where the pressure is from.
    fn tell(&self, worked: &mut Worked) {
        let (words, source) = (self.words(), self.source);
        let taken = if self.pounds.0 < self.pounds.1 {
            "; the most is reckoned with, so that the cramps are enough for all of it"
        } else {
            ""
        };
        worked
            .notes
            .push(format!("Pressure {words}: {source}{taken}."));
        let begins = if self.is_memory {
            FROM_MEMORY
        } else {
            NOT_PRIMARY
        };
        worked.warnings.push(format!(
            "{begins}: a pressure of {words} ({source}); the glue's own label goes before it."
        ));
    }
}

/// The pressure in gigapascals, and the row that it is from.
fn pressure(given: &Given) -> Result<(f64, Option<&'static Glue>), Refusal> {
    if let Some(pressure) = given.amount("pressure") {
        return Ok((pressure, None));
    }
    let word = needed("wood", given.choice("wood"))?;
    let glue = needed("wood", GLUES.iter().find(|glue| glue.word == word))?;
    let most = Amount::of(Measure::Stress, glue.pounds.1, SQUARE_INCH);
    Ok((needed("wood", most)?.to_base(), Some(glue)))
}

/// How many cramps give a force: rounded up, but not for the last digit of a double.
fn cramps(force: f64, of_one: f64) -> f64 {
    (force / of_one - 1e-9).ceil().max(1.0)
}

/// Number and distance of the cramps.
fn spaced(given: &Given, length: Length, force: f64) -> Result<Option<(i64, Length)>, Refusal> {
    let Some(of_one) = given.amount("clamp_force") else {
        return Ok(None);
    };
    let count = cramps(force, of_one);
    let spacing = length.times(1.0 / count);
    match given.length("clamp_width").filter(|width| *width > spacing) {
        Some(width) => Err(Refusal::new(
            NO_ROOM,
            format!("clamp_width {} for {count} cramps", about(width)),
            format!(
                "{count} cramps on {}",
                at_least(Length::nm(width.to_nm() * count as i64))
            ),
            "Take stronger cramps, or a glue that needs less pressure.",
        )),
        None => Ok(Some((count as i64, spacing))),
    }
}

/// What boards all faced the same way make of the fence's error.
fn tell_angle(given: &Given, thickness: Length, worked: &mut Worked) {
    let Some(error) = given.angle("angle_error") else {
        return;
    };
    let meets = Angle::degrees(error.to_degrees() * 2.0);
    let gap = thickness.times(meets.tan());
    worked.results.insert("gap", Value::Length(gap));
    if let Some(boards) = given.number("boards") {
        let cup = Angle::degrees(meets.to_degrees() * (boards - 1.0));
        worked.results.insert("cup", Value::Angle(cup));
    }
    if gap > FILM_MOST {
        worked.warnings.push(format!(
            "{OVER_FILM}: {}; square the fence, or turn every other board.",
            about(gap)
        ));
    }
}

fn run(given: &Given) -> Result<Worked, Refusal> {
    let length = needed("length", given.length("length"))?;
    let thickness = needed("thickness", given.length("thickness"))?;
    let (pressure, glue) = pressure(given)?;
    let force = pressure * 1e3 * length.to_mm() * thickness.to_mm();
    let mut worked = Worked {
        results: BTreeMap::from([
            (
                "pressure",
                Value::Amount(Amount::new(Measure::Stress, pressure)),
            ),
            ("force", Value::Amount(Amount::new(Measure::Load, force))),
        ]),
        ..Worked::default()
    };
    if let Some((count, spacing)) = spaced(given, length, force)? {
        worked.results.insert("clamps", Value::Count(count));
        worked.results.insert("spacing", Value::Length(spacing));
    }
    if let Some(glue) = glue {
        glue.tell(&mut worked);
    } else if is_unusual(pressure) {
        worked.warnings.push(format!(
            "{UNUSUAL}: {:.2} N/mm2; no source of the project goes farther.",
            pressure * 1e3
        ));
    }
    tell_angle(given, thickness, &mut worked);
    worked.notes.push(format!("The force is {force:.0} N."));
    worked
        .notes
        .extend(NOTES.iter().map(|note| (*note).to_owned()));
    Ok(worked)
}

/// Whether a pressure lies outside the figures of all rows; the last digit of a double does not.
fn is_unusual(pressure_gpa: f64) -> bool {
    let (pounds, _) = Amount::new(Measure::Stress, pressure_gpa).usual(Unit::Inch);
    let is_enough = |glue: &Glue| glue.pounds.0 - 1e-6 <= pounds;
    let is_borne = |glue: &Glue| pounds <= glue.pounds.1 + 1e-6;
    !(GLUES.iter().any(is_enough) && GLUES.iter().any(is_borne))
}

const NOTES: &[&str] = &[
    "The pressure passes through every joint of a panel: the cramps of one joint press them all.",
    "Turn every other board's face to the planer's fence, so that an error of its angle cancels \
     (Fairham, p. 7).",
    "Plane a long joint very slightly hollow, so that its ends are pressed (Noyes, p. 174; \
     Griffith, p. 91).",
];
