//! Figures inside the sentences of refusals, warnings and notes: in mm and in inches, since a
//! calculator does not know the reader's unit.
//!
//! A bound is rounded to its safe side, so that whoever takes it at its word is not refused again
//! (but for the 10 nm within which a length counts as on a step of the scale).

use crate::units::{Length, Scale, Spindle, Towards, Unit};

fn both(length: Length, towards: Towards) -> String {
    let mm = Scale::caliper(Unit::Mm).show(length, towards).text;
    let inches = Scale::caliper(Unit::Inch).show(length, towards).text;
    format!("{mm} ({inches})")
}

/// A length as it is: `17.86 mm (0.703 in)`.
pub(super) fn about(length: Length) -> String {
    both(length, Towards::Nearest)
}

/// An upper bound: `at most 17.86 mm (0.703 in)`.
pub(super) fn at_most(length: Length) -> String {
    format!("at most {}", both(length, Towards::Down))
}

/// A lower bound: `at least 17.86 mm (0.704 in)`.
pub(super) fn at_least(length: Length) -> String {
    format!("at least {}", both(length, Towards::Up))
}

/// A bound that is too much itself: `under 17.86 mm (0.703 in)`.
pub(super) fn under(length: Length) -> String {
    format!("under {}", both(length, Towards::Down))
}

/// A bound that is too little itself: `over 17.86 mm (0.704 in)`.
pub(super) fn over(length: Length) -> String {
    format!("over {}", both(length, Towards::Up))
}

/// Per cent to a hundredth: `12 %`, `6.25 %`.
pub(super) fn percent(percent: f64) -> String {
    format!("{} %", (percent * 100.0).round() / 100.0)
}

/// A spindle speed in whole revolutions, rounded down.
pub(super) fn rpm(speed: Spindle) -> String {
    format!("{:.0} rpm", speed.to_rpm().floor())
}
