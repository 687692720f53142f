//! A value of any kind, as formulas, calculators and slots hand it on.

use super::{Amount, Angle, Feed, Length, Measure, RimSpeed, Spindle};

/// What kind of thing a value is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// A length.
    Length,
    /// An angle.
    Angle,
    /// A spindle speed.
    Speed,
    /// The speed of a cutter's edge.
    RimSpeed,
    /// A feed rate.
    Feed,
    /// An amount that formulas do not reckon with: a percentage, a temperature, a load,
    /// a modulus or a pressure.
    Amount(Measure),
    /// A whole number of things.
    Count,
    /// A plain number, a ratio.
    Number,
    /// One of a few words.
    Choice,
    /// Yes or no.
    Truth,
    /// Several lengths in order, such as the fence distances of successive passes.
    Lengths,
}

impl Kind {
    /// The kind in words, with its article, for messages: `a length`.
    pub fn words(self) -> &'static str {
        match self {
            Self::Length => "a length",
            Self::Angle => "an angle",
            Self::Speed => "a spindle speed",
            Self::RimSpeed => "a rim speed",
            Self::Feed => "a feed rate",
            Self::Amount(measure) => measure.words(),
            Self::Count => "a count",
            Self::Number => "a plain number",
            Self::Choice => "a choice",
            Self::Truth => "yes or no",
            Self::Lengths => "a list of lengths",
        }
    }
}

/// A value with its kind.
#[derive(Debug, Clone, PartialEq)]
pub enum Value {
    /// A length.
    Length(Length),
    /// An angle.
    Angle(Angle),
    /// A spindle speed.
    Speed(Spindle),
    /// The speed of a cutter's edge.
    RimSpeed(RimSpeed),
    /// A feed rate.
    Feed(Feed),
    /// An amount that formulas do not reckon with.
    Amount(Amount),
    /// A whole number of things.
    Count(i64),
    /// A plain number.
    Number(f64),
    /// One of a few words.
    Choice(String),
    /// Yes or no.
    Truth(bool),
    /// Several lengths in order.
    Lengths(Vec<Length>),
}

impl Value {
    /// What kind this value is.
    pub fn kind(&self) -> Kind {
        match self {
            Self::Length(_) => Kind::Length,
            Self::Angle(_) => Kind::Angle,
            Self::Speed(_) => Kind::Speed,
            Self::RimSpeed(_) => Kind::RimSpeed,
            Self::Feed(_) => Kind::Feed,
            Self::Amount(amount) => Kind::Amount(amount.measure()),
            Self::Count(_) => Kind::Count,
            Self::Number(_) => Kind::Number,
            Self::Choice(_) => Kind::Choice,
            Self::Truth(_) => Kind::Truth,
            Self::Lengths(_) => Kind::Lengths,
        }
    }
}
