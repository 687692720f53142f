//! Amounts that are read, shown and handed on, but not reckoned with in formulas: percentages,
//! temperatures, loads, stresses.
//!
//! One table holds their units, so that a kind that calculators need costs one row and no new arm
//! anywhere. A formula may name such an amount and pass it to a calculator; a sum or a product of
//! them is refused (20 degC and 20 degC are not 40 degC).
//!
//! Factors: 1 lb = 0.45359237 kg, 1 in = 25.4 mm (both exact, international yard and pound
//! agreement of 1959), standard gravity 9.80665 m/s2 (exact by definition); all from memory.

use super::Unit;

/// What an amount measures.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Measure {
    /// A share in per cent: moisture content of wood, relative humidity.
    Percent,
    /// A temperature; kept in degrees Celsius.
    Temperature,
    /// The weight of a load; kept in newtons.
    Load,
    /// A modulus of elasticity or a pressure; kept in gigapascals.
    Stress,
}

/// An amount, kept in the base unit of its measure.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Amount {
    measure: Measure,
    base: f64,
}

/// Measure, written unit, and `factor` and `offset` of `base = number * factor + offset`.
type Row = (Measure, &'static str, f64, f64);

const POUND: f64 = 0.453_592_37 * 9.806_65;
const POUND_A_SQUARE_INCH: f64 = POUND / (25.4 * 25.4) / 1e3;

/// A stress of fewer gigapascals is told in megapascals: no wood's modulus along the grain is so
/// small, no pressure on a glue joint so large.
const MODULUS_LEAST: f64 = 0.1;

const UNITS: &[Row] = &[
    (Measure::Percent, "%", 1.0, 0.0),
    (Measure::Temperature, "degC", 1.0, 0.0),
    (Measure::Temperature, "°C", 1.0, 0.0),
    (Measure::Temperature, "degF", 5.0 / 9.0, -160.0 / 9.0),
    (Measure::Temperature, "°F", 5.0 / 9.0, -160.0 / 9.0),
    (Measure::Load, "N", 1.0, 0.0),
    (Measure::Load, "kN", 1e3, 0.0),
    (Measure::Load, "kg", 9.806_65, 0.0),
    (Measure::Load, "lb", POUND, 0.0),
    (Measure::Load, "lbf", POUND, 0.0),
    (Measure::Stress, "GPa", 1.0, 0.0),
    (Measure::Stress, "MPa", 1e-3, 0.0),
    (Measure::Stress, "N/mm2", 1e-3, 0.0),
    (Measure::Stress, "lb/in2", POUND_A_SQUARE_INCH, 0.0),
    (Measure::Stress, "psi", POUND_A_SQUARE_INCH, 0.0),
];

impl Measure {
    /// The measure in words, with its article: `a temperature`.
    pub fn words(self) -> &'static str {
        match self {
            Self::Percent => "a percentage",
            Self::Temperature => "a temperature",
            Self::Load => "a load",
            Self::Stress => "a modulus or a pressure",
        }
    }

    /// Name of the kind in JSON, and the key of its figure in the base unit.
    pub fn json_names(self) -> (&'static str, &'static str) {
        match self {
            Self::Percent => ("percent", "percent"),
            Self::Temperature => ("temperature", "deg_c"),
            Self::Load => ("load", "n"),
            Self::Stress => ("stress", "gpa"),
        }
    }

    /// An amount as it is written, for hints.
    pub(super) fn example(self) -> &'static str {
        match self {
            Self::Percent => "a percentage such as `12 %`",
            Self::Temperature => "a temperature such as `20 degC` or `70 degF`",
            Self::Load => "a load such as `40 kg`, `400 N` or `90 lb`",
            Self::Stress => "a modulus or a pressure such as `11.5 GPa`, `1.0 MPa` or `150 lb/in2`",
        }
    }

    /// Its units as they are written.
    pub(super) fn units(self) -> Vec<&'static str> {
        let own = UNITS.iter().filter(|row| row.0 == self);
        own.map(|row| row.1).collect()
    }

    /// The unit that a reader of lengths in `unit` thinks in.
    fn usual_unit(self, unit: Unit) -> &'static str {
        match (self, unit) {
            (Self::Percent, _) => "%",
            (Self::Temperature, Unit::Mm) => "degC",
            (Self::Temperature, Unit::Inch) => "degF",
            (Self::Load, Unit::Mm) => "kg",
            (Self::Load, Unit::Inch) => "lb",
            (Self::Stress, Unit::Mm) => "GPa",
            (Self::Stress, Unit::Inch) => "lb/in2",
        }
    }
}

impl Amount {
    /// An amount in the base unit of its measure: %, degrees Celsius, newtons, gigapascals.
    pub const fn new(measure: Measure, base: f64) -> Self {
        Self { measure, base }
    }

    /// `number` of a written unit of the measure; none for a unit that it does not have.
    ///
    /// ```
    /// use faceside::units::{Amount, Measure};
    /// let freezing = Amount::of(Measure::Temperature, 32.0, "degF").unwrap();
    /// assert!(freezing.to_base().abs() < 1e-12);
    /// assert_eq!(Amount::of(Measure::Temperature, 32.0, "kg"), None);
    /// ```
    pub fn of(measure: Measure, number: f64, unit: &str) -> Option<Self> {
        let row = row(measure, unit)?;
        Some(Self::new(measure, number * row.2 + row.3))
    }

    /// What it measures.
    pub const fn measure(self) -> Measure {
        self.measure
    }

    /// The figure in the base unit.
    pub const fn to_base(self) -> f64 {
        self.base
    }

    /// The figure in the unit that a reader of lengths in `unit` thinks in, and that unit.
    pub fn usual(self, unit: Unit) -> (f64, &'static str) {
        let name = match self.measure.usual_unit(unit) {
            "GPa" if self.base < MODULUS_LEAST => "MPa",
            name => name,
        };
        let number = row(self.measure, name).map_or(self.base, |row| (self.base - row.3) / row.2);
        (number, name)
    }
}

fn row(measure: Measure, unit: &str) -> Option<&'static Row> {
    UNITS.iter().find(|row| row.0 == measure && row.1 == unit)
}
