//! The next move after a test cut: worked by hand, against random errors, and for ten thousand
//! joints; and what the record says of a machine, against another reckoning of Student's t.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a test that cannot be set up must fail"
)]

mod learned;
mod library;
mod moves;
mod simulation;
