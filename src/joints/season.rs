//! The year's swing of moisture as an input: from now it rises so far and falls so far.
//!
//! A coefficient holds from 6 to 14 % of moisture (Handbook p. 13-15), so that rise and fall
//! together are 8 points at most, and with the moisture of the wood now each has its own bound.

use super::answer::needed;
use super::figure::percent;
use super::{Given, Input, Refusal};
use crate::units::{Kind, Measure};
use crate::wood::COEFFICIENT_HOLDS;

/// The refusal of a moisture at which no coefficient holds.
pub(super) const LEAVES: &str = "the moisture leaves 6 to 14 %, where the coefficient holds";

const PERCENT: Kind = Kind::Amount(Measure::Percent);

pub(super) const RISE: Input = Input::length(
    "rise",
    "",
    ("0 %", "30 %"),
    "Points that the moisture of the wood will rise above what it is now",
)
.kind(PERCENT);

pub(super) const FALL: Input = Input::length(
    "fall",
    "",
    ("0 %", "30 %"),
    "Points that the moisture of the wood will fall below what it is now",
)
.kind(PERCENT);

pub(super) const NOW: Input = Input::length(
    "now",
    "",
    ("0 %", "100 %"),
    "Moisture of the wood now, measured",
)
.kind(PERCENT)
.derived("only rise and fall together are held to 8 points");

/// Rise and fall, in points of moisture.
pub(super) struct Season {
    pub(super) rise: f64,
    pub(super) fall: f64,
}

impl Season {
    /// Reads the inputs.
    ///
    /// # Errors
    /// A refusal with figures when the moisture leaves the range of the coefficients.
    pub(super) fn read(given: &Given) -> Result<Self, Refusal> {
        let rise = needed("rise", given.amount("rise"))?;
        let fall = needed("fall", given.amount("fall"))?;
        let (least, most) = COEFFICIENT_HOLDS;
        if rise + fall > most - least {
            return Err(refused(
                format!("rise {} and fall {}", percent(rise), percent(fall)),
                format!("rise and fall together at most {}", percent(most - least)),
            ));
        }
        match given.amount("now") {
            Some(now) if !(least..=most).contains(&now) => Err(refused(
                format!("now {}", percent(now)),
                format!("now {} to {}", percent(least), percent(most)),
            )),
            Some(now) if now + rise > most => Err(refused(
                format!("rise {} from now {}", percent(rise), percent(now)),
                format!("rise at most {}", percent(most - now)),
            )),
            Some(now) if now - fall < least => Err(refused(
                format!("fall {} from now {}", percent(fall), percent(now)),
                format!("fall at most {}", percent(now - least)),
            )),
            _ => Ok(Self { rise, fall }),
        }
    }
}

fn refused(is: String, may_be: String) -> Refusal {
    let instead = "Let the wood come to the moisture of its place first, and work out larger \
                   changes with `movement`.";
    Refusal::new(LEAVES, is, may_be, instead)
}
