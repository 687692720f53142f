//! The calculators: pure functions from measured stock and chosen cutters to settings.
//!
//! All are entries of one table; see [`Calculator`].

mod calculator;

pub use calculator::{
    Absent, Calculator, Given, Influence, Input, Origin, Output, Refusal, Worked,
};
