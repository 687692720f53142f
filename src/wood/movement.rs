//! Change of size with moisture.
//!
//! Inside 6 to 14 %, by the coefficient (Handbook eq. 13-2, read, p. 13-15):
//!   change = D C (to - from)
//! Outside, by the green-dimension form (eq. 13-3; from memory, limits read on p. 13-17; it is the
//! exact ratio of two sizes by eq. 4-7, derived in reference wood 4):
//!   change = D (to - from) / (100 f / S - f + from)
//! f: moisture at which shrinkage starts; above it wood does not change, so that neither moisture
//! counts as more. Plus is swelling. D: the size at `from`.

use super::shrinkage::Decided;
use crate::units::Length;

/// Least and most moisture, in per cent, between which a coefficient holds (Handbook p. 13-15).
pub const COEFFICIENT_HOLDS: (f64, f64) = (6.0, 14.0);

/// Which formula a change was worked out by.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Method {
    /// The dimensional-change coefficient, inside 6 to 14 %.
    Coefficient,
    /// The green-dimension form, outside.
    GreenDimension,
}

/// A change of size.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Change {
    /// What is added to the size; minus when it shrinks.
    pub change: Length,
    /// How it was worked out.
    pub method: Method,
    /// Whether a moisture content lies above the start of shrinkage and was counted as that.
    pub is_capped: bool,
}

/// Shrinkage from green to `moisture_percent`, in per cent of the green size (Handbook eq. 4-7,
/// read at second hand), of a wood that shrinks `total_percent` from `start_percent` to ovendry.
pub fn shrinkage_at(total_percent: f64, moisture_percent: f64, start_percent: f64) -> f64 {
    total_percent * (1.0 - moisture_percent.min(start_percent) / start_percent)
}

/// Change by a coefficient; moistures in per cent, inside [`COEFFICIENT_HOLDS`].
pub fn change_by_coefficient(
    size: Length,
    coefficient: f64,
    from_percent: f64,
    to_percent: f64,
) -> Length {
    size.times(coefficient * (to_percent - from_percent))
}

impl Decided {
    /// Change of a board `size` wide between two moisture contents in per cent, not negative.
    ///
    /// ```
    /// use faceside::{units::Length, wood::{Cut, Method, shrinkage}};
    /// // Handbook p. 13-17: white fir 232 mm wide, 8 to 11 %: 1.7 mm.
    /// let fir = shrinkage("fir-white").unwrap().decided(Cut::Plain);
    /// let swelling = fir.change(Length::mm(232.0), 8.0, 11.0);
    /// assert_eq!(swelling.method, Method::Coefficient);
    /// assert!((swelling.change.to_mm() - 1.7).abs() < 0.05);
    /// ```
    pub fn change(&self, size: Length, from_percent: f64, to_percent: f64) -> Change {
        let (least, most) = COEFFICIENT_HOLDS;
        let holds = |percent| (least..=most).contains(&percent);
        if holds(from_percent) && holds(to_percent) {
            return Change {
                change: change_by_coefficient(size, self.coefficient, from_percent, to_percent),
                method: Method::Coefficient,
                is_capped: false,
            };
        }
        let start = self.start_percent;
        let (from, to) = (from_percent.min(start), to_percent.min(start));
        let under = 100.0 * start / self.shrinkage_percent - start + from;
        Change {
            change: size.times((to - from) / under),
            method: Method::GreenDimension,
            is_capped: from_percent > start || to_percent > start,
        }
    }
}
