//! A length: a whole number of nanometres.
//!
//! Exact: every multiple of 1/64 in (396,875 nm), 0.001 in (25,400 nm), 0.01 mm (10,000 nm).
//! Not whole: 1/128 in (198,437.5 nm); it and every other part of a nanometre is rounded to the
//! nearest, halves away from zero. 1 nm is a thousandth of what any shop can measure.

use std::iter::Sum;
use std::ops::{Add, Neg, Sub};

/// The unit that a reader thinks in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Unit {
    /// Millimetres.
    Mm,
    /// Inches.
    Inch,
}

impl Unit {
    /// How the unit is written after a number.
    pub fn symbol(self) -> &'static str {
        match self {
            Self::Mm => "mm",
            Self::Inch => "in",
        }
    }
}

/// A length, exact to the nanometre; may be negative (a position on the other side of a datum).
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Length(i64);

impl Length {
    /// No length.
    pub const ZERO: Self = Self(0);
    /// Longest length that is read or worked with, 100 m; keeps all arithmetic far from overflow.
    pub const MOST: Self = Self(100_000_000_000);

    /// A whole number of nanometres.
    pub const fn nm(nm: i64) -> Self {
        Self(nm)
    }

    /// Millimetres, to the nearest nanometre.
    ///
    /// Not finite or beyond the range of the type: cut to the range (callers check before).
    pub fn mm(mm: f64) -> Self {
        Self::nearest_nm(mm * 1e6)
    }

    /// Inches, to the nearest nanometre.
    ///
    /// ```
    /// use faceside::units::Length;
    /// assert_eq!(Length::inches(1.0 / 64.0), Length::nm(396_875));
    /// ```
    pub fn inches(inches: f64) -> Self {
        Self::nearest_nm(inches * 25.4e6)
    }

    fn nearest_nm(nm: f64) -> Self {
        Self(nm.round() as i64)
    }

    /// The nanometres, for exact arithmetic and storage.
    pub const fn to_nm(self) -> i64 {
        self.0
    }

    /// Millimetres.
    pub fn to_mm(self) -> f64 {
        self.0 as f64 / 1e6
    }

    /// Inches.
    pub fn to_inches(self) -> f64 {
        self.0 as f64 / 25.4e6
    }

    /// Metres.
    pub fn to_metres(self) -> f64 {
        self.0 as f64 / 1e9
    }

    /// This length `factor` times, to the nearest nanometre.
    #[must_use]
    pub fn times(self, factor: f64) -> Self {
        Self::nearest_nm(self.0 as f64 * factor)
    }

    /// How many times `other` this is; not finite when `other` is nothing.
    pub fn per(self, other: Self) -> f64 {
        self.0 as f64 / other.0 as f64
    }

    /// The length without its sign.
    #[must_use]
    pub const fn abs(self) -> Self {
        Self(self.0.saturating_abs())
    }

    /// Whether it lies below zero.
    pub const fn is_negative(self) -> bool {
        self.0 < 0
    }
}

impl Add for Length {
    type Output = Self;

    fn add(self, other: Self) -> Self {
        Self(self.0.saturating_add(other.0))
    }
}

impl Sub for Length {
    type Output = Self;

    fn sub(self, other: Self) -> Self {
        Self(self.0.saturating_sub(other.0))
    }
}

impl Neg for Length {
    type Output = Self;

    fn neg(self) -> Self {
        Self(self.0.saturating_neg())
    }
}

impl Sum for Length {
    fn sum<I: Iterator<Item = Self>>(lengths: I) -> Self {
        lengths.fold(Self::ZERO, Add::add)
    }
}
