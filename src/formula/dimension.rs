//! The dimensions of what can be reckoned with, and their algebra.
//!
//! Pure tables: what a sum, a product, a quotient or a root of given dimensions gives, or that it
//! gives nothing. The head of this folder shows them all in one table.

use crate::units::{Angle, Feed, Kind, Length, RimSpeed, Spindle, Value};

/// Dimension of an amount; in brackets the unit that amounts are kept in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Dim {
    /// Plain number.
    Number,
    /// Whole number.
    Count,
    /// Power of a length, from -3 to 3 but not 0 (nanometres).
    Length(i8),
    /// Angle (degrees).
    Angle,
    /// Spindle speed (revolutions a minute).
    Speed,
    /// Rim speed (metres a second).
    RimSpeed,
    /// Feed rate (metres a minute).
    Feed,
}

const POWER_MOST: i8 = 3;
/// Up to here every whole number is its own f64.
const COUNT_MOST: f64 = 9_007_199_254_740_992.0;

impl Dim {
    pub(super) fn of(kind: Kind) -> Option<Self> {
        Some(match kind {
            Kind::Length => Self::Length(1),
            Kind::Angle => Self::Angle,
            Kind::Speed => Self::Speed,
            Kind::RimSpeed => Self::RimSpeed,
            Kind::Feed => Self::Feed,
            Kind::Count => Self::Count,
            Kind::Number => Self::Number,
            Kind::Amount(_) | Kind::Choice | Kind::Truth | Kind::Lengths => return None,
        })
    }

    /// The kind of value that an amount of this dimension is; none for a power of a length.
    pub(super) fn kind(self) -> Option<Kind> {
        Some(match self {
            Self::Number => Kind::Number,
            Self::Count => Kind::Count,
            Self::Length(1) => Kind::Length,
            Self::Length(_) => return None,
            Self::Angle => Kind::Angle,
            Self::Speed => Kind::Speed,
            Self::RimSpeed => Kind::RimSpeed,
            Self::Feed => Kind::Feed,
        })
    }

    /// With its article; a count is called a plain number, which it is beside quantities.
    pub(super) fn words(self) -> &'static str {
        match self {
            Self::Number | Self::Count => "a plain number",
            Self::Length(1) => "a length",
            Self::Length(2) => "an area",
            Self::Length(3) => "a volume",
            Self::Length(-1) => "a number divided by a length",
            Self::Length(-2) => "a number divided by an area",
            Self::Length(_) => "a number divided by a volume",
            Self::Angle => "an angle",
            Self::Speed => "a spindle speed",
            Self::RimSpeed => "a rim speed",
            Self::Feed => "a feed rate",
        }
    }

    pub(super) fn is_plain(self) -> bool {
        matches!(self, Self::Number | Self::Count)
    }

    fn power(power: i8) -> Option<Self> {
        match power {
            0 => Some(Self::Number),
            _ if power.abs() <= POWER_MOST => Some(Self::Length(power)),
            _ => None,
        }
    }

    pub(super) fn plus(self, other: Self) -> Option<Self> {
        if self == other {
            Some(self)
        } else if self.is_plain() && other.is_plain() {
            Some(Self::Number)
        } else {
            None
        }
    }

    pub(super) fn times(self, other: Self) -> Option<Self> {
        match (self, other) {
            (Self::Count, Self::Count) => Some(Self::Count),
            (Self::Length(one), Self::Length(two)) => Self::power(one + two),
            _ if self.is_plain() && other.is_plain() => Some(Self::Number),
            _ if self.is_plain() => Some(other),
            _ if other.is_plain() => Some(self),
            _ => None,
        }
    }

    pub(super) fn over(self, other: Self) -> Option<Self> {
        match (self, other) {
            (Self::Length(one), Self::Length(two)) => Self::power(one - two),
            _ if self == other || self.is_plain() && other.is_plain() => Some(Self::Number),
            _ if other.is_plain() => Some(self),
            (_, Self::Length(power)) if self.is_plain() => Self::power(-power),
            _ => None,
        }
    }

    pub(super) fn root(self) -> Option<Self> {
        match self {
            Self::Number | Self::Count => Some(Self::Number),
            Self::Length(2) => Some(Self::Length(1)),
            Self::Length(-2) => Some(Self::Length(-1)),
            _ => None,
        }
    }

    /// The largest amount that is worked with.
    pub(super) fn most(self) -> f64 {
        let length = Length::MOST.to_nm() as f64;
        match self {
            Self::Length(1) => length,
            Self::Length(2) => length * length,
            Self::Length(3) => length * length * length,
            Self::Count => COUNT_MOST,
            _ => f64::MAX,
        }
    }
}

/// Dimension and amount of a value; none when it cannot be reckoned with.
pub(super) fn measure(value: &Value) -> Option<(Dim, f64)> {
    let amount = match value {
        Value::Length(length) => length.to_nm() as f64,
        Value::Angle(angle) => angle.to_degrees(),
        Value::Speed(speed) => speed.to_rpm(),
        Value::RimSpeed(speed) => speed.to_metres_per_second(),
        Value::Feed(feed) => feed.to_metres_per_minute(),
        Value::Count(count) => *count as f64,
        Value::Number(number) => *number,
        Value::Amount(_) | Value::Choice(_) | Value::Truth(_) | Value::Lengths(_) => return None,
    };
    Some((Dim::of(value.kind())?, amount))
}

/// The value of an amount, a length to the nearest nanometre; none for a power of a length.
pub(super) fn value(dim: Dim, amount: f64) -> Option<Value> {
    let amount = amount + 0.0; // turns -0 into 0
    Some(match dim {
        Dim::Length(1) => Value::Length(Length::nm(amount.round() as i64)),
        Dim::Length(_) => return None,
        Dim::Angle => Value::Angle(Angle::degrees(amount)),
        Dim::Speed => Value::Speed(Spindle::rpm(amount)),
        Dim::RimSpeed => Value::RimSpeed(RimSpeed::metres_per_second(amount)),
        Dim::Feed => Value::Feed(Feed::metres_per_minute(amount)),
        Dim::Count => Value::Count(amount as i64),
        Dim::Number => Value::Number(amount),
    })
}

#[cfg(test)]
mod tests {
    use super::{Dim, measure, value};
    use crate::units::{Length, Value};

    #[test]
    fn a_length_leaves_as_the_nearest_nanometre() {
        let nm = |nm: i64| Some(Value::Length(Length::nm(nm)));
        assert_eq!(value(Dim::Length(1), 6_333_333.4), nm(6_333_333));
        assert_eq!(value(Dim::Length(1), -0.5), nm(-1));
        assert_eq!(value(Dim::Length(2), 4.0), None);
        let length = Value::Length(Length::nm(7));
        assert_eq!(measure(&length), Some((Dim::Length(1), 7.0)));
    }

    #[test]
    fn no_number_leaves_as_minus_nothing() {
        let Some(Value::Number(number)) = value(Dim::Number, -0.0) else {
            panic!("a number is wanted");
        };
        assert!(number.is_sign_positive());
    }

    #[test]
    fn powers_end_at_the_third() {
        assert_eq!(Dim::Length(2).times(Dim::Length(1)), Some(Dim::Length(3)));
        assert_eq!(Dim::Length(2).times(Dim::Length(2)), None);
        assert_eq!(Dim::Length(-2).over(Dim::Length(2)), None);
        assert_eq!(Dim::Length(3).root(), None);
    }
}
