//! Quantities of the shop: exact lengths, angles, speeds, feeds; read, refused, rounded, shown.
//!
//! A length is a whole number of nanometres (1 in = 25.4 mm exactly, international yard and
//! pound agreement of 1959, from memory), so that 1/64 in, 0.001 in and 0.01 mm are whole and
//! sums are exact. A bare number never crosses a public function of a higher layer: it comes in
//! and goes out as one of these types, or as a [`Value`] with its [`Kind`].
//!
//! Read: see [`parse()`]. Shown and rounded: see [`Scale`] and [`Role`].

mod amount;
mod angle;
mod feed;
mod inch;
mod length;
mod parse;
mod round;
mod speed;
mod value;

pub use amount::{Amount, Measure};
pub use angle::Angle;
pub use feed::Feed;
pub use length::{Length, Unit};
pub use parse::{length_unit, parse};
pub use round::{Role, Scale, Shown, Towards};
pub use speed::{RimSpeed, Spindle};
pub use value::{Kind, Value};
