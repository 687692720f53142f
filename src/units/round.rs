//! Rounding with a direction, and showing with a unit.
//!
//! The direction follows from the [`Role`] that a value has at the machine, always so that wood is
//! left on: openings round down, what enters them rounds up, counts round up, speeds down.
//! Rounding only happens when a value is shown or a machine is set; the full figure is kept for
//! later arithmetic. A value within 10 nm (0.00001 mm) of a step counts as being on it, so that
//! the last digit of a tangent never costs a whole step. What is written is what was rounded: a
//! scale of the other unit (0.05 mm read in inches) is shown in steps that decimals can say.

use super::inch::fraction_text;
use super::{Length, Unit};

/// Which way a value is rounded.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Towards {
    /// To the step below (towards minus infinity).
    Down,
    /// To the step above.
    Up,
    /// To the nearest step, halves up.
    Nearest,
}

/// What a value does at the machine; decides the direction of rounding.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Role {
    /// The width of an opening: down, so that it is never too wide.
    Opening,
    /// The size of what enters an opening: up, so that it is never too thin.
    Entering,
    /// A setting that takes more wood off the larger it is: down.
    TakesOff,
    /// A setting that leaves more wood on the larger it is: up.
    LeavesOn,
    /// A place or a size with no fit hanging on it: nearest.
    Place,
    /// A number of passes or pieces: up.
    Count,
    /// A speed that must not be exceeded: down.
    Speed,
}

impl Role {
    /// The direction that leaves wood on.
    pub fn towards(self) -> Towards {
        match self {
            Self::Opening | Self::TakesOff | Self::Speed => Towards::Down,
            Self::Entering | Self::LeavesOn | Self::Count => Towards::Up,
            Self::Place => Towards::Nearest,
        }
    }

    /// The direction in words: `rounded down`.
    pub fn words(self) -> &'static str {
        match self.towards() {
            Towards::Down => "rounded down",
            Towards::Up => "rounded up",
            Towards::Nearest => "rounded to nearest",
        }
    }
}

/// What a measuring or setting tool shows: unit, form and finest step.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Scale {
    /// Millimetres in steps of `step`.
    Mm {
        /// Finest step; at least 1 nm.
        step: Length,
    },
    /// Decimal inches in steps of `step`.
    DecimalInch {
        /// Finest step; at least 1 nm.
        step: Length,
    },
    /// A rule: inch fractions of `1/under`.
    Fraction {
        /// 2, 4, 8, 16, 32 or 64.
        under: u8,
    },
    /// A rule and a feeler: the fraction below, and what is left in thousandths (`7/64 + 0.006`).
    FractionAnd {
        /// 2, 4, 8, 16, 32 or 64.
        under: u8,
    },
}

/// A length as a person reads it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Shown {
    /// Number and unit.
    pub text: String,
    /// The length that the text says.
    pub rounded: Length,
    /// What the rounding took away: the full figure less what the text says.
    pub remainder: Length,
}

const MM: Length = Length::nm(1_000_000);
const INCH: Length = Length::nm(25_400_000);

/// How near to a step counts as on it.
const SNAP_NM: i64 = 10;

impl Scale {
    /// The scale for a reader's unit with the finest step of a tool.
    pub fn new(unit: Unit, step: Length) -> Self {
        let step = step.max(Length::nm(1));
        match unit {
            Unit::Mm => Self::Mm { step },
            Unit::Inch => Self::DecimalInch { step },
        }
    }

    /// The usual scale of a caliper: 0.01 mm, or 0.001 in.
    pub fn caliper(unit: Unit) -> Self {
        match unit {
            Unit::Mm => Self::new(unit, Length::nm(10_000)),
            Unit::Inch => Self::new(unit, Length::nm(25_400)),
        }
    }

    /// The reader's unit.
    pub fn unit(self) -> Unit {
        match self {
            Self::Mm { .. } => Unit::Mm,
            Self::DecimalInch { .. } | Self::Fraction { .. } | Self::FractionAnd { .. } => {
                Unit::Inch
            }
        }
    }

    /// The finest step that the scale shows.
    pub fn step(self) -> Length {
        match self {
            Self::Mm { step } | Self::DecimalInch { step } => step,
            Self::Fraction { under } => Length::nm(25_400_000 / i64::from(under.max(1))),
            Self::FractionAnd { .. } => Length::nm(25_400),
        }
    }

    /// Rounds to a step of the scale.
    ///
    /// ```
    /// use faceside::units::{Length, Scale, Towards, Unit};
    /// let caliper = Scale::new(Unit::Mm, Length::mm(0.05));
    /// assert_eq!(caliper.round(Length::mm(5.51862), Towards::Down), Length::mm(5.5));
    /// assert_eq!(caliper.round(Length::mm(12.7000001), Towards::Up), Length::mm(12.7));
    /// ```
    pub fn round(self, length: Length, towards: Towards) -> Length {
        if let Self::FractionAnd { under } = self {
            let base = Self::Fraction { under }.round(length, Towards::Down);
            return base + round_to(length - base, Length::nm(25_400), towards);
        }
        round_to(length, self.step(), towards)
    }

    /// Rounds and writes the length with its unit; the text says exactly what was rounded to.
    pub fn show(self, length: Length, towards: Towards) -> Shown {
        let scale = self.sayable();
        let rounded = scale.round(length, towards);
        let text = match scale {
            Self::Mm { step } => {
                format!("{} mm", decimal(rounded, MM, step))
            }
            Self::DecimalInch { step } => {
                format!("{} in", decimal(rounded, INCH, step))
            }
            Self::Fraction { under } => {
                let parts = rounded.to_nm() / scale.step().to_nm();
                format!("{} in", fraction_text(parts, i64::from(under)))
            }
            Self::FractionAnd { under } => fraction_and(length, rounded, under),
        };
        Shown {
            text,
            rounded,
            remainder: length - rounded,
        }
    }

    /// The same scale, or the next finer decimal one where decimals of its unit cannot say its
    /// steps: cutting digits off afterwards could turn a figure that was rounded down into a
    /// larger one.
    fn sayable(self) -> Self {
        match self {
            Self::Mm { step } => Self::Mm {
                step: decimal_step(MM, step),
            },
            Self::DecimalInch { step } => Self::DecimalInch {
                step: decimal_step(INCH, step),
            },
            Self::Fraction { .. } | Self::FractionAnd { .. } => self,
        }
    }
}

fn fraction_and(length: Length, rounded: Length, under: u8) -> String {
    let rule = Scale::Fraction { under };
    let base = rule.round(length, Towards::Down);
    let left = rounded - base;
    let parts = base.to_nm() / rule.step().to_nm();
    if left == Length::ZERO {
        return format!("{} in", fraction_text(parts, i64::from(under)));
    }
    let thousandths = decimal(left, INCH, Length::nm(25_400));
    format!(
        "{} + {thousandths} in",
        fraction_text(parts, i64::from(under))
    )
}

fn round_to(length: Length, step: Length, towards: Towards) -> Length {
    let (nm, step) = (length.to_nm(), step.to_nm());
    let below = nm.div_euclid(step) * step;
    let over = nm - below;
    let snap = SNAP_NM.min((step - 1) / 2);
    let up = match towards {
        Towards::Down => step - over <= snap,
        Towards::Up => over > snap,
        Towards::Nearest => over * 2 >= step,
    };
    Length::nm(if up { below + step } else { below })
}

/// `length` in `unit`, with as many decimals as `step` needs.
fn decimal(length: Length, unit: Length, step: Length) -> String {
    let places = places(unit, step) as usize;
    let text = format!("{:.places$}", length.to_nm() as f64 / unit.to_nm() as f64);
    if text.trim_start_matches(['-', '0', '.']).is_empty() {
        text.trim_start_matches('-').to_owned()
    } else {
        text
    }
}

/// Decimals of `unit` that say `step` exactly; where four cannot, as many as are finer than it.
fn places(unit: Length, step: Length) -> u32 {
    let (unit, step) = (i128::from(unit.to_nm()), i128::from(step.to_nm()));
    let exact = (0..=4).find(|places| step * 10_i128.pow(*places) % unit == 0);
    let fine = (0..=9).find(|places| unit <= step * 10_i128.pow(*places));
    exact.or(fine).unwrap_or(9)
}

/// `step` where decimals of `unit` say it exactly, else the size of the last decimal; a decimal
/// that is no whole number of nanometres is far under what any tool shows, and `step` stays.
fn decimal_step(unit: Length, step: Length) -> Length {
    let (nm, last) = (unit.to_nm(), 10_i64.pow(places(unit, step)));
    let decimal = nm / last;
    if nm % last == 0 && step.to_nm() % decimal != 0 {
        return Length::nm(decimal);
    }
    step
}
