//! Strength and time: what is left of wood's strength under a load that stays.
//!
//! SL = 18.3 + 108.4 t^-0.0464, t in seconds, SL in per cent of the strength of a short test: the
//! Madison curve of the U.S. Forest Products Laboratory (1951), read in Forests 12, 1148 (2021).

/// Strength in per cent of that in a short test, after so many seconds under load.
///
/// ```
/// // A day against ten years: 1.33 (a civil materials text; reference wood 8a).
/// let day = 86_400.0;
/// let ratio = faceside::wood::strength_after(day) / faceside::wood::strength_after(3652.5 * day);
/// assert!((ratio - 1.33).abs() < 0.005);
/// ```
pub fn strength_after(seconds: f64) -> f64 {
    18.3 + 108.4 * libm::pow(seconds, -0.0464)
}
