//! The calculators against general-purpose libraries, on random inputs.
//!
//! Each check takes another route than the program: parts are drawn as polygons, cut and laid over
//! each other by `i_overlay`, and their areas compared; sizes are solved from where the walls stand
//! in exact fractions (`num-rational`); speeds, loads and temperatures pass through the units of
//! `uom`; sag is the integral of virtual work (`quadrature`). The derivation stands beside each.
//! Nothing here calls the program for an expected value.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a test and its helpers stop by a panic"
)]

mod beams;
mod dovetails;
mod exact;
mod housings;
mod outline;
mod slots;
mod speeds;
mod tenons;

use std::collections::BTreeMap;

use faceside::joints::{self, Answer, Stopped};
use faceside::units::{Angle, Length, Value};
use uom::si::angle::{degree, radian};
use uom::si::f64::Angle as UomAngle;

/// A question to a calculator, put together value by value.
#[derive(Clone)]
struct Ask {
    name: &'static str,
    values: BTreeMap<String, Value>,
}

impl Ask {
    fn new(name: &'static str, lengths: &[(&str, i64)]) -> Self {
        let values = BTreeMap::new();
        Self { name, values }.lengths(lengths)
    }

    fn lengths(mut self, lengths: &[(&str, i64)]) -> Self {
        let value = |(name, nm): &(&str, i64)| ((*name).to_owned(), Value::Length(Length::nm(*nm)));
        self.values.extend(lengths.iter().map(value));
        self
    }

    fn with(mut self, name: &str, value: Value) -> Self {
        self.values.insert(name.to_owned(), value);
        self
    }

    fn degrees(self, degrees: f64) -> Self {
        self.with("angle", Value::Angle(Angle::degrees(degrees)))
    }

    fn word(self, name: &str, word: &str) -> Self {
        self.with(name, Value::Choice(word.to_owned()))
    }

    /// The answer; none for a refusal, and a panic for a fault of the question.
    fn maybe(&self) -> Option<Answer> {
        let calculator = joints::find(self.name).expect("in the table");
        match joints::work_out(calculator, &self.values) {
            Ok(answer) => Some(answer),
            Err(Stopped::Refused(_)) => None,
            Err(Stopped::Fault(fault)) => panic!("{} {:?}: {fault:?}", self.name, self.values),
        }
    }

    #[track_caller]
    fn answer(&self) -> Answer {
        let answer = self.maybe();
        answer.unwrap_or_else(|| panic!("{} refuses {:?}", self.name, self.values))
    }
}

#[track_caller]
fn nm(answer: &Answer, name: &str) -> i64 {
    match answer.worked.results.get(name) {
        Some(Value::Length(length)) => length.to_nm(),
        other => panic!("`{name}` is {other:?}"),
    }
}

#[track_caller]
fn mm(answer: &Answer, name: &str) -> f64 {
    nm(answer, name) as f64 / 1e6
}

#[track_caller]
fn all_nm(answer: &Answer, name: &str) -> Vec<i64> {
    match answer.worked.results.get(name) {
        Some(Value::Lengths(lengths)) => lengths.iter().map(|length| length.to_nm()).collect(),
        other => panic!("`{name}` is {other:?}"),
    }
}

#[track_caller]
fn count(answer: &Answer, name: &str) -> i64 {
    match answer.worked.results.get(name) {
        Some(Value::Count(count)) => *count,
        other => panic!("`{name}` is {other:?}"),
    }
}

#[track_caller]
fn within(is: f64, wanted: f64, tolerance: f64) {
    assert!(
        (is - wanted).abs() <= tolerance,
        "{is} is not {wanted} to {tolerance}"
    );
}

/// The tangent by `uom` (the standard library's; the program's is `libm`'s).
fn tangent(degrees: f64) -> f64 {
    UomAngle::new::<degree>(degrees).tan().value
}

/// Sine and cosine by `uom`.
fn sine_cosine(degrees: f64) -> (f64, f64) {
    let (sine, cosine) = UomAngle::new::<degree>(degrees).sin_cos();
    (sine.value, cosine.value)
}

/// A part of a whole turn in radians, by `uom`.
fn turned(part: f64) -> (f64, f64) {
    let (sine, cosine) = UomAngle::new::<radian>(part * std::f64::consts::TAU).sin_cos();
    (sine.value, cosine.value)
}
