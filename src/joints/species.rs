//! How much wood moves, as an input: a coefficient, or a species and how the board is cut.
//!
//! Where the species tables decide, the answer says by which printed figure, from which source,
//! and warns when that figure is from memory or when two printed figures disagree.

use super::answer::needed;
use super::{Given, Input, Refusal, Worked};
use crate::units::Kind;
use crate::wood::{Cut, Decided, Known, MOVING, Method, Printed, Shrinkage, shrinkage};

/// First words of the warning that a figure is from memory.
pub(super) const FROM_MEMORY: &str = "From memory";
/// First words of the warning that two printed figures disagree.
pub(super) const DISAGREE: &str = "Tables disagree";

/// The alternatives: a coefficient, or species and cut.
pub(super) const EITHER: &[&[&str]] = &[&["coefficient"], &["species", "cut"]];

pub(super) const COEFFICIENT: Input = Input::length(
    "coefficient",
    "C",
    ("0.0001", "0.006"),
    "Change for 1 % of moisture, as a part of the width; holds from 6 to 14 %",
)
.kind(Kind::Number)
.derived("species and cut are given");

pub(super) const SPECIES: Input = Input::length(
    "species",
    "",
    (MOVING, ""),
    "Wood of the shrinkage table, by its word",
)
.kind(Kind::Choice)
.derived("coefficient is given");

pub(super) const CUT: Input = Input::length(
    "cut",
    "",
    ("plain | quarter", ""),
    "Growth rings flat in the width (plain sawn, moves more) or upright (quarter sawn)",
)
.kind(Kind::Choice)
.derived("coefficient is given");

/// What decides how much a width moves.
pub(super) enum Basis {
    /// A coefficient that was given.
    Given(f64),
    /// A wood of the table, with what its figures say of the cut.
    Wood(&'static Shrinkage, Decided),
}

impl Basis {
    /// Reads the inputs.
    ///
    /// # Errors
    /// A refusal that names what is missing.
    pub(super) fn read(given: &Given) -> Result<Self, Refusal> {
        if let Some(coefficient) = given.number("coefficient") {
            return Ok(Self::Given(coefficient));
        }
        let row = needed("species", given.choice("species").and_then(shrinkage))?;
        let cut = match needed("cut", given.choice("cut"))? {
            "quarter" => Cut::Quarter,
            _ => Cut::Plain,
        };
        Ok(Self::Wood(row, row.decided(cut)))
    }

    /// The change for 1 % of moisture, as a part of the width.
    pub(super) fn coefficient(&self) -> f64 {
        match self {
            Self::Given(coefficient) => *coefficient,
            Self::Wood(_, decided) => decided.coefficient,
        }
    }

    /// Tells which printed figure decides and warns of what is not sure about it.
    pub(super) fn tell(&self, method: Method, worked: &mut Worked) {
        let Self::Wood(row, decided) = self else {
            return;
        };
        let by = match method {
            Method::Coefficient => &decided.coefficient_by,
            Method::GreenDimension => &decided.shrinkage_by,
        };
        worked.notes.push(match method {
            Method::Coefficient => format!(
                "C {:.5} for 1 % of moisture rests on {}.",
                decided.coefficient,
                cited(row, by)
            ),
            Method::GreenDimension => format!(
                "Shrinkage {:.1} % from {} % of moisture to none rests on {}.",
                decided.shrinkage_percent,
                decided.start_percent,
                cited(row, by)
            ),
        });
        if by.known != Known::Read {
            let figure = figure(by);
            worked.warnings.push(format!(
                "{FROM_MEMORY}: {figure} of {} ({}) was not read in its source; look it up before \
                 you rely on it.",
                row.name, by.source
            ));
        }
        if let Some((printed, follows)) = decided.disagree {
            worked.warnings.push(format!(
                "{DISAGREE}: for {} C {printed:.5} is printed, and {follows:.5} follows from its \
                 shrinkage; the one that moves more is taken.",
                row.name
            ));
        }
    }
}

fn figure(by: &Printed) -> String {
    let unit = if by.symbol.starts_with('S') { " %" } else { "" };
    let places = if unit.is_empty() { 5 } else { 1 };
    format!("{} {:.places$}{unit}", by.symbol, by.figure)
}

fn cited(row: &Shrinkage, by: &Printed) -> String {
    let (figure, known) = (figure(by), by.known.words());
    format!("{figure} of {}: {} ({known})", row.name, by.source)
}
