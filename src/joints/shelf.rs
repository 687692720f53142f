//! Shelf: how far a shelf or a rail sags, at once and after years, and how long it may be.
//!
//! Sketch: `SKETCH` below. Datum: the straight line between the supports; load with the shelf's
//! own weight.
//!
//! Derivation and limits: `wood/beam.rs`. A load that stays adds creep: after several years about
//! the first sag again, so twice in all (Handbook p. 5-39, read); structural practice reckons 1.5
//! times for seasoned wood, and from 1 to 3 times is seen (American Wood Council, read). Simple
//! ends unless the joint is known to hold (reference wood 7, a choice of the project). A sag over
//! a tenth of the span is no small bending any more and is refused.
//!
//! Example (by hand, common formula 5 W L^3 / (384 E I)): 900 x 250 x 18 mm, 20 kg, 10 GPa: W
//! 196.133 N, I 121500 mm4: 1.53229 mm at once, 3.06458 mm after years.

use std::collections::BTreeMap;

use super::answer::needed;
use super::figure::{about, at_most};
use super::species::FROM_MEMORY;
use super::{Calculator, Given, Input, Output, Refusal, Worked};
use crate::units::{Amount, Kind, Measure, Role, Unit, Value};
use crate::wood::{Beam, Ends, Known, Placed, STIFF, Stiffness, stiffness};

const SKETCH: &str = r"
   front of a shelf; b: front to back

              W
     | v v v v v v v v v v |
     +---------------------+  ^
     '-._               _.-'  h
     |   '-._________.-'   |  v
     ^          | d        ^
     |<-------- L -------->|    E: modulus along the grain";

const OVER: &str = "the shelf would sag more than the limit";
const BENDS: &str = "the shelf would bend more than a tenth of its span";

const MODULUS: Input = Input::length(
    "modulus",
    "E",
    ("0.5 GPa", "30 GPa"),
    "Modulus of elasticity along the grain, as tables of bending tests give it",
)
.kind(Kind::Amount(Measure::Stress))
.derived("species is given");

const SPECIES: Input = Input::length(
    "species",
    "",
    (STIFF, ""),
    "Wood of the strength table, by its word",
)
.kind(Kind::Choice)
.derived("modulus is given");

const ENDS: Input = Input::length(
    "ends",
    "",
    ("simple | clamped | cantilever", ""),
    "Ends lie free, are held so that they cannot turn, or one is held and one hangs free",
)
.kind(Kind::Choice)
.usual("simple");

const PLACED: Input = Input::length(
    "placed",
    "",
    ("spread | point", ""),
    "Load even over the span, or at one point: the middle, of a cantilever its free end",
)
.kind(Kind::Choice)
.usual("spread");

const TIME: Input = Input::length(
    "time",
    "",
    ("days | years", ""),
    "How long the load stays; days: no creep is reckoned",
)
.kind(Kind::Choice)
.usual("years");

const LONG_TERM: Input = Input::length(
    "long_term",
    "",
    ("1", "3"),
    "Sag after years over sag at once: 2 Wood Handbook p. 5-39, 1.5 structural practice",
)
.kind(Kind::Number)
.usual("2");

const SAG_MOST: Input = Input::length(
    "sag_most",
    "",
    ("0.1 mm", "100 mm"),
    "Most sag that is allowed, for as long as the load stays",
)
.derived("no limit, no span_most");

/// The table entry.
pub(super) const CALCULATOR: Calculator = Calculator {
    name: "shelf",
    summary: "Sag of a shelf or a rail, at once and after years, and its longest span",
    family: "wood",
    inputs: &[
        Input::length("span", "L", ("10 mm", "10000 mm"), "Between the supports"),
        Input::length(
            "load",
            "W",
            ("0.1 N", "50000 N"),
            "All that the shelf carries, its own weight with it",
        )
        .kind(Kind::Amount(Measure::Load)),
        Input::length("width", "b", ("5 mm", "2000 mm"), "Front to back"),
        Input::length(
            "thickness",
            "h",
            ("3 mm", "500 mm"),
            "In the direction of the load",
        ),
        MODULUS,
        SPECIES,
        ENDS,
        PLACED,
        TIME,
        LONG_TERM,
        SAG_MOST,
    ],
    results: &[
        Output::length("sag", "d", Role::Place, "Sag at once"),
        Output::length(
            "sag_long_term",
            "",
            Role::Place,
            "Sag in the end, for as long as the load stays",
        ),
        Output::length(
            "span_most",
            "",
            Role::Opening,
            "Longest span for the limit; a spread load as heavy on each metre, a point's as it is",
        ),
    ],
    one_of: &[&["modulus"], &["species"]],
    refuses: &[OVER, BENDS],
    warns: &[FROM_MEMORY],
    sketch: SKETCH,
    source: "Wood Handbook FPL-GTR-190 (2010), eq. 9-2 to 9-4 and Table 9-1, p. 9-2, read but for the \
             shear area 5/6 b h (from memory, confirmed). Creep: p. 5-39, read; American Wood \
             Council on the NDS, read. Modulus: the project's table, each with its source.",
    example: &[
        ("span", "900 mm"),
        ("load", "20 kg"),
        ("width", "250 mm"),
        ("thickness", "18 mm"),
        ("modulus", "10 GPa"),
        ("sag_most", "4 mm"),
    ],
    run,
    wants: None,
    fit: None,
};

fn beam(given: &Given, modulus_gpa: f64) -> Result<Beam, Refusal> {
    Ok(Beam {
        width: needed("width", given.length("width"))?,
        thickness: needed("thickness", given.length("thickness"))?,
        modulus_gpa,
        ends: match needed("ends", given.choice("ends"))? {
            "clamped" => Ends::Clamped,
            "cantilever" => Ends::Cantilever,
            _ => Ends::Simple,
        },
        placed: match needed("placed", given.choice("placed"))? {
            "point" => Placed::Point,
            _ => Placed::Spread,
        },
    })
}

/// The modulus, and the row of the table that it is from.
fn modulus(given: &Given) -> Result<(f64, Option<&'static Stiffness>), Refusal> {
    match given.amount("modulus") {
        Some(modulus) => Ok((modulus, None)),
        None => {
            let row = needed("species", given.choice("species").and_then(stiffness))?;
            Ok((row.modulus_gpa, Some(row)))
        }
    }
}

fn load_words(newtons: f64) -> String {
    let amount = Amount::new(Measure::Load, newtons);
    let down = |unit| {
        let (number, name) = amount.usual(unit);
        format!("{:.2} {name}", (number * 100.0).floor() / 100.0)
    };
    format!("{} ({})", down(Unit::Mm), down(Unit::Inch))
}

fn run(given: &Given) -> Result<Worked, Refusal> {
    let span = needed("span", given.length("span"))?;
    let load = needed("load", given.amount("load"))?;
    let (modulus, row) = modulus(given)?;
    let beam = beam(given, modulus)?;
    let creep = match needed("time", given.choice("time"))? {
        "days" => 1.0,
        _ => needed("long_term", given.number("long_term"))?,
    };
    let sag = beam.sag(span, load);
    let in_the_end = sag.most.times(creep);
    let bend_most = span.times(0.1);
    if in_the_end > bend_most {
        return Err(Refusal::new(
            BENDS,
            format!("load {}: sag {}", load_words(load), about(in_the_end)),
            format!(
                "load at most {}: sag {}",
                load_words(load * bend_most.per(in_the_end)),
                about(bend_most)
            ),
            "Take a thicker or a shorter shelf, or a support in the middle.",
        ));
    }
    let mut results = BTreeMap::from([
        ("sag", Value::Length(sag.most)),
        ("sag_long_term", Value::Length(in_the_end)),
    ]);
    if let Some(most) = given.length("sag_most") {
        let span_most = beam.span_most(span, load, most.times(1.0 / creep));
        if in_the_end > most {
            return Err(Refusal::new(
                OVER,
                format!("sag {} at span {}", about(in_the_end), about(span)),
                format!("sag {} at span {}", about(most), at_most(span_most)),
                "Take a thicker or a shorter shelf, or glue a lipping under its front edge.",
            ));
        }
        results.insert("span_most", Value::Length(span_most));
    }
    let mut worked = Worked {
        results,
        ..Worked::default()
    };
    tell(row, sag.with_shear, &mut worked);
    Ok(worked)
}

/// Tells where the modulus is from and which way the sag was reckoned.
fn tell(row: Option<&Stiffness>, with_shear: bool, worked: &mut Worked) {
    if let Some(row) = row {
        let (modulus, known) = (row.modulus_gpa, row.known.words());
        worked.notes.push(format!(
            "E {modulus:.2} GPa of {}: {} ({known}).",
            row.name, row.source
        ));
        if row.known != Known::Read {
            worked.warnings.push(format!(
                "{FROM_MEMORY}: E {modulus:.2} GPa of {} was not read in its source; look it up \
                 before you rely on it.",
                row.name
            ));
        }
    }
    let way = if with_shear {
        "Reckoned with 1.1 E and the shear term, which gives more sag here than E alone."
    } else {
        "Reckoned with E alone, which holds the shear of its test; the shear term gives less here."
    };
    worked.notes.push(way.to_owned());
    worked.notes.push(
        "Means of small clear pieces: nothing is said of strength, knots or sloping grain."
            .to_owned(),
    );
}
