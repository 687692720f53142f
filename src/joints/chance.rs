//! How a first cut may turn out: the chance of a hand press when each error lies anywhere within
//! its bound.
//!
//! Model: the errors know nothing of each other, and of each only its bound is known, so that every
//! size within it is as likely (a rectangular distribution: JCGM 100:2008, Guide to the expression
//! of uncertainty in measurement, 4.3.7). The sum of such errors has a distribution in closed form
//! (`D`, by integrating one error after the other): for half widths a1 ... an, the chance that the
//! sum is at most x is
//!
//! ```text
//! 1 / (n! 2^n a1 ... an)  times the sum over all signs v1 ... vn of
//! v1 ... vn max(0, x + v1 a1 + ... + vn an)^n
//! ```
//!
//! Effects under a hundredth of the largest are left out: they move the chance by less than its
//! last shown digit and would cost the sum its digits.

use super::HandPress;
use crate::units::Length;

/// Effects under this part of the largest are left out.
const SMALL: f64 = 0.01;

/// How the first cut may turn out: chances from 0 to 1, which make up 1.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FirstCut {
    /// Too tight: it can be cut again.
    pub tight: f64,
    /// It goes home under the hand.
    pub press: f64,
    /// Too loose: cut a new piece.
    pub loose: f64,
}

impl FirstCut {
    /// The chances for a planned clearance and the largest effect of each error.
    pub(super) fn of(clearance: Length, effects: &[Length], press: HandPress) -> Self {
        let effects: Vec<_> = effects.iter().map(|effect| effect.to_mm()).collect();
        let largest = effects.iter().copied().fold(0.0, f64::max);
        let counted: Vec<_> = effects
            .into_iter()
            .filter(|effect| *effect > largest * SMALL)
            .collect();
        let below = |bound: Length| at_most((bound - clearance).to_mm(), &counted);
        // The bounds themselves are a press: without any error the planned clearance decides.
        let tight = match counted[..] {
            [] => f64::from(u8::from(clearance < press.least)),
            _ => below(press.least),
        };
        let loose = match counted[..] {
            [] => f64::from(u8::from(clearance > press.most)),
            _ => 1.0 - below(press.most),
        };
        Self {
            tight,
            press: 1.0 - tight - loose,
            loose,
        }
    }
}

/// The chance that the sum of errors within these half widths, of which there is one at least, is
/// at most `x`.
fn at_most(x: f64, half_widths: &[f64]) -> f64 {
    let reach: f64 = half_widths.iter().sum();
    if x <= -reach {
        return 0.0;
    }
    if x >= reach {
        return 1.0;
    }
    let power = half_widths.len() as i32;
    let corners = half_widths
        .iter()
        .fold(vec![(1.0, x)], |corners, half_width| {
            let both = |(sign, place): (f64, f64)| {
                [(sign, place + half_width), (-sign, place - half_width)]
            };
            corners.into_iter().flat_map(both).collect()
        });
    let volume: f64 = corners
        .into_iter()
        .map(|(sign, place)| sign * place.max(0.0).powi(power))
        .sum();
    let whole: f64 = half_widths
        .iter()
        .zip(1..)
        .map(|(half_width, nth)| 2.0 * half_width * f64::from(nth))
        .product();
    (volume / whole).clamp(0.0, 1.0)
}
