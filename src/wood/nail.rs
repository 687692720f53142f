//! What a nail holds: withdrawal from the side grain of seasoned wood.
//!
//! Handbook eq. 8-1, read at second hand: p = 54.12 G^(5/2) D L in newtons and mm; the exponent is
//! confirmed by published figures (reference wood 9). An average of tests that tells when the
//! nail comes out, not what it may be loaded with. G: specific gravity by volume at 12 %.

use crate::units::Length;

/// Load in newtons at which a nail of that diameter comes out, driven in by `depth`.
pub fn nail_withdrawal(gravity: f64, diameter: Length, depth: Length) -> f64 {
    54.12 * libm::pow(gravity, 2.5) * diameter.to_mm() * depth.to_mm()
}
