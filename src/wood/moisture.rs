//! Equilibrium moisture content: how moist wood becomes that stays in air of one kind.
//!
//! Handbook eq. 4-5 (two hydrates), constants for degrees Celsius: read at second hand, from a
//! note that quotes FPL-GTR-282 p. 4-3 and from an open R package that cites FPL-RN-0268.
//!   EMC = 1800/W [K h/(1 - K h) + (K1 K h + 2 K1 K2 K^2 h^2)/(1 + K1 K h + K1 K2 K^2 h^2)]
//! Within 0.055 points of every cell of Handbook Table 4-2 that was read (30 to 140 degrees
//! Fahrenheit, 5 to 95 %; reference wood 5). Good for any wood; wood that dries stays a little
//! moister than wood that takes moisture up.

/// Equilibrium moisture content in per cent at a temperature and a relative humidity in per cent.
///
/// ```
/// // Handbook Table 4-2: 70 degrees Fahrenheit, 50 %: 9.2 %.
/// let moisture = faceside::wood::equilibrium((70.0 - 32.0) / 1.8, 50.0);
/// assert!((moisture - 9.2).abs() < 0.07);
/// ```
pub fn equilibrium(celsius: f64, humidity_percent: f64) -> f64 {
    let t = celsius;
    let w = 349.0 + 1.29 * t + 0.0135 * t * t;
    let k = 0.805 + 0.000736 * t - 0.000_002_73 * t * t;
    let k1 = 6.27 - 0.00938 * t - 0.000303 * t * t;
    let k2 = 1.91 + 0.0407 * t - 0.000293 * t * t;
    let kh = k * humidity_percent / 100.0;
    let (first, second) = (k1 * kh, k1 * k2 * kh * kh);
    let dissolved = kh / (1.0 - kh);
    let hydrates = (first + 2.0 * second) / (1.0 + first + second);
    1800.0 / w * (dissolved + hydrates)
}
