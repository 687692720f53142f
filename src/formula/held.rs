//! What stands on the stack: its shape while checking, itself while running.

use std::collections::BTreeMap;

use super::dimension::{Dim, measure};
use super::scope::Known;
use super::text::Place;
use crate::units::{Amount, Kind, Length, Measure, Value};

/// What something is, without its value.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Shape {
    Measure(Dim),
    Amount(Measure),
    Truth,
    /// One of these words; any word if there are none.
    Choice(Vec<String>),
    Lengths,
    Results(Vec<(String, Kind)>),
}

impl Shape {
    pub(super) fn of(kind: Kind) -> Self {
        match (Dim::of(kind), kind) {
            (Some(dim), _) => Self::Measure(dim),
            (None, Kind::Amount(measure)) => Self::Amount(measure),
            (None, Kind::Truth) => Self::Truth,
            (None, Kind::Lengths) => Self::Lengths,
            (None, _) => Self::Choice(Vec::new()),
        }
    }

    pub(super) fn words(&self) -> &'static str {
        match self {
            Self::Measure(dim) => dim.words(),
            Self::Amount(measure) => measure.words(),
            Self::Truth => Kind::Truth.words(),
            Self::Choice(_) => Kind::Choice.words(),
            Self::Lengths => Kind::Lengths.words(),
            Self::Results(_) => "the results of a calculator",
        }
    }

    /// What the caller is told; none for a power of a length, which nothing takes.
    pub(super) fn known(self) -> Option<Known> {
        Some(match self {
            Self::Measure(dim) => Known::One(dim.kind()?),
            Self::Amount(measure) => Known::One(Kind::Amount(measure)),
            Self::Truth => Known::One(Kind::Truth),
            Self::Choice(words) if words.is_empty() => Known::One(Kind::Choice),
            Self::Choice(words) => Known::Choice(words),
            Self::Lengths => Known::One(Kind::Lengths),
            Self::Results(results) => Known::Results(results),
        })
    }
}

/// A shape with the part of the text that it comes from.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Item {
    pub(super) shape: Shape,
    pub(super) place: Place,
}

/// A value that is being worked with.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Held {
    Measure(Dim, f64),
    Amount(Amount),
    Truth(bool),
    Choice(String),
    Lengths(Vec<Length>),
    Results(BTreeMap<String, Value>),
    /// A value that was said to be left out, on its way into a calculator's argument.
    Absent,
}

impl Held {
    pub(super) fn of(value: &Value) -> Self {
        match value {
            Value::Amount(amount) => Self::Amount(*amount),
            Value::Truth(truth) => Self::Truth(*truth),
            Value::Choice(word) => Self::Choice(word.clone()),
            Value::Lengths(lengths) => Self::Lengths(lengths.clone()),
            _ => measure(value).map_or(Self::Absent, |(dim, amount)| Self::Measure(dim, amount)),
        }
    }

    /// The shape, as far as the value alone shows it.
    pub(super) fn shape(&self) -> Shape {
        match self {
            Self::Measure(dim, _) => Shape::Measure(*dim),
            Self::Amount(amount) => Shape::Amount(amount.measure()),
            Self::Truth(_) => Shape::Truth,
            Self::Choice(_) | Self::Absent => Shape::Choice(Vec::new()),
            Self::Lengths(_) => Shape::Lengths,
            Self::Results(results) => {
                let kinds = results
                    .iter()
                    .map(|(name, value)| (name.clone(), value.kind()));
                Shape::Results(kinds.collect())
            }
        }
    }
}
