//! An angle, and the only home of trigonometry.
//!
//! All trigonometric functions come from `libm`, which gives the same digits on every platform;
//! the standard library's do not (`.clippy.toml` bans them elsewhere).

use super::Length;

/// An angle in degrees.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default)]
pub struct Angle(f64);

impl Angle {
    /// An angle of so many degrees.
    pub const fn degrees(degrees: f64) -> Self {
        Self(degrees)
    }

    /// The angle whose tangent is `rise / run`.
    ///
    /// ```
    /// use faceside::units::{Angle, Length};
    /// // A dovetail slope of 1 in 8 (Fairham, Woodwork Joints, p. 134) is 7.12502 degrees.
    /// let slope = Angle::of_slope(Length::mm(1.0), Length::mm(8.0));
    /// assert!((slope.to_degrees() - 7.12502).abs() < 1e-5);
    /// ```
    pub fn of_slope(rise: Length, run: Length) -> Self {
        Self(libm::atan2(rise.to_mm(), run.to_mm()).to_degrees())
    }

    /// The degrees.
    pub const fn to_degrees(self) -> f64 {
        self.0
    }

    /// The radians.
    pub fn to_radians(self) -> f64 {
        self.0.to_radians()
    }

    /// The tangent.
    pub fn tan(self) -> f64 {
        libm::tan(self.to_radians())
    }

    /// The sine.
    pub fn sin(self) -> f64 {
        libm::sin(self.to_radians())
    }

    /// The cosine.
    pub fn cos(self) -> f64 {
        libm::cos(self.to_radians())
    }

    /// This angle and `degrees` more.
    #[must_use]
    pub fn plus_degrees(self, degrees: f64) -> Self {
        Self(self.0 + degrees)
    }
}
