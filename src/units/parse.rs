//! Quantities as people write them; what is unclear is refused with a hint.
//!
//! | kind | read |
//! |---|---|
//! | length | `19 mm`, `19mm`, `19,5 mm`, `1.9 cm`, `0.3 m`, `0.742 in`, `23/32"`, `3/4`, `1 1/2`, `1-1/2 in`, `1½ in`, `2 ft 3 1/8 in`, `2' 3"`, `5 thou`; a bare number takes the shop's unit, a bare fraction is inches and only in an inch shop |
//! | angle | `14 deg`, `14°`, `1 in 8`, `1:8` |
//! | spindle speed | `18000 rpm`, `18000 rev/min` |
//! | rim speed | `40 m/s`, `10000 ft/min` |
//! | feed | `3 m/min`, `10 ft/min` |
//! | percentage, temperature | `12 %`; `20 degC`, `70 degF` |
//! | load, modulus, pressure | `40 kg`, `400 N`, `90 lb`; `11.5 GPa`, `1 MPa`, `1600000 lb/in2` |
//! | count, number | `4`; `0.25`, `1/3` |
//! | yes or no | `yes`, `no` |
//! | choice | a word |
//!
//! Refused: `1,250` (a decimal comma or thousands?), `3/5` (no rule has fifths), `19 mm 3 in`,
//! anything over 100 m, text after the unit, two signs. A decimal is read exactly.

use super::inch::{Ratio, SIGNS, is_rule_part};
use super::{Amount, Angle, Feed, Kind, Length, RimSpeed, Spindle, Unit, Value};
use crate::diag::{Code, Fault};

/// Nanometres of a length unit by its written name (`mm`, `in`, `"`, ...).
///
/// ```
/// assert_eq!(faceside::units::length_unit("in"), Some(25_400_000));
/// ```
pub fn length_unit(name: &str) -> Option<i64> {
    Some(match name {
        "mm" => 1_000_000,
        "cm" => 10_000_000,
        "m" => 1_000_000_000,
        "in" | "inch" | "inches" | "\"" | "″" | "”" => 25_400_000,
        "ft" | "foot" | "feet" | "'" | "′" | "’" => 304_800_000,
        "thou" => 25_400,
        _ => return None,
    })
}

/// Reads a quantity of the wanted kind; a bare length takes `unit`.
///
/// # Errors
/// `quantity-syntax`, `quantity-unit`, `ambiguous-quantity` or `out-of-range`, without a place:
/// the caller knows where the text stands.
///
/// ```
/// use faceside::units::{Kind, Length, Unit, Value, parse};
/// let read = parse("2 ft 3 1/8 in", Kind::Length, Unit::Mm).unwrap();
/// assert_eq!(read, Value::Length(Length::inches(27.125)));
/// assert!(parse("1,250 mm", Kind::Length, Unit::Mm).is_err());
/// ```
pub fn parse(text: &str, kind: Kind, unit: Unit) -> Result<Value, Fault> {
    let trimmed = text.trim();
    if trimmed.is_empty() {
        return Err(Fault::error(
            Code::QUANTITY_SYNTAX,
            format!("{} is wanted here", kind.words()),
        )
        .hint(format!("write {}", example(kind))));
    }
    let mut cursor = Cursor {
        rest: trimmed,
        whole: trimmed,
        kind,
    };
    match kind {
        Kind::Length => cursor.length(unit).map(Value::Length),
        Kind::Angle => cursor.angle().map(Value::Angle),
        Kind::Speed => cursor
            .plain(&["rpm", "rev/min", "r/min"])
            .map(|(n, _)| n)
            .and_then(|n| positive(n, 1e6, kind).map(|n| Value::Speed(Spindle::rpm(n)))),
        Kind::RimSpeed => cursor.plain(&["m/s", "ft/min"]).and_then(|(n, unit)| {
            let speed = if unit == "m/s" { n } else { n * 0.3048 / 60.0 };
            positive(speed, 1e4, kind).map(|n| Value::RimSpeed(RimSpeed::metres_per_second(n)))
        }),
        Kind::Feed => cursor.plain(&["m/min", "ft/min"]).and_then(|(n, unit)| {
            let feed = if unit == "m/min" { n } else { n * 0.3048 };
            positive(feed, 1e4, kind).map(|n| Value::Feed(Feed::metres_per_minute(n)))
        }),
        Kind::Amount(measure) => cursor.plain(&measure.units()).and_then(|(number, unit)| {
            let amount = Amount::of(measure, number, unit).ok_or_else(|| cursor.wrong())?;
            Ok(Value::Amount(amount))
        }),
        Kind::Count => cursor.count().map(Value::Count),
        Kind::Number => cursor.plain(&[""]).map(|(number, _)| Value::Number(number)),
        Kind::Truth => match trimmed {
            "yes" => Ok(Value::Truth(true)),
            "no" => Ok(Value::Truth(false)),
            _ => Err(cursor.wrong()),
        },
        Kind::Choice => Ok(Value::Choice(trimmed.to_owned())),
        Kind::Lengths => {
            let parts = trimmed.split(';').map(|part| {
                let mut cursor = Cursor {
                    rest: part.trim(),
                    whole: part.trim(),
                    kind,
                };
                cursor.length(unit)
            });
            parts.collect::<Result<Vec<_>, _>>().map(Value::Lengths)
        }
    }
}

fn example(kind: Kind) -> &'static str {
    match kind {
        Kind::Length => "a length such as `19 mm` or `3/4 in`",
        Kind::Angle => "an angle such as `14 deg`",
        Kind::Speed => "a spindle speed such as `18000 rpm`",
        Kind::RimSpeed => "a rim speed such as `40 m/s`",
        Kind::Feed => "a feed such as `3 m/min`",
        Kind::Amount(measure) => measure.example(),
        Kind::Count => "a whole number such as `4`",
        Kind::Number => "a number such as `0.25`",
        Kind::Choice => "one of the words that are offered",
        Kind::Truth => "`yes` or `no`",
        Kind::Lengths => "lengths with `;` between them, such as `100 mm; 200 mm`",
    }
}

fn positive(number: f64, most: f64, kind: Kind) -> Result<f64, Fault> {
    if number > 0.0 && number <= most {
        return Ok(number);
    }
    let unit = match kind {
        Kind::Speed => " rpm",
        Kind::RimSpeed => " m/s",
        Kind::Feed => " m/min",
        _ => "",
    };
    let message = format!(
        "{} must be over nothing and at most {most}{unit}",
        kind.words()
    );
    Err(Fault::error(Code::OUT_OF_RANGE, message).hint(format!("write {}", example(kind))))
}

struct Cursor<'t> {
    rest: &'t str,
    whole: &'t str,
    kind: Kind,
}

impl<'t> Cursor<'t> {
    fn fault(&self, code: Code, message: String) -> Fault {
        Fault::error(code, message)
    }

    fn wrong(&self) -> Fault {
        let message = format!("`{}` is not {}", self.whole, self.kind.words());
        self.fault(Code::QUANTITY_SYNTAX, message)
            .hint(format!("write {}", example(self.kind)))
    }

    fn length(&mut self, shop: Unit) -> Result<Length, Fault> {
        let negative = self.sign();
        let (number, is_fraction) = self.mixed()?;
        let unit = self.unit_word();
        let mut nm = match length_unit(unit) {
            Some(nm) => number.of(i128::from(nm)),
            None if unit.is_empty() && self.rest.is_empty() => {
                number.of(self.bare(shop, is_fraction)?)
            }
            None => return Err(self.unknown_unit(unit)),
        };
        if length_unit(unit) == Some(304_800_000) && !self.rest.is_empty() {
            let (inches, _) = self.mixed()?;
            let unit = self.unit_word();
            if length_unit(unit) != Some(25_400_000) {
                let message = format!("`{}`: after feet come inches", self.whole);
                return Err(self
                    .fault(Code::QUANTITY_UNIT, message)
                    .hint("write it as `2 ft 3 1/8 in`, or all in one unit"));
            }
            nm += inches.of(25_400_000);
        }
        if !self.rest.is_empty() {
            return Err(self.wrong());
        }
        if nm > i128::from(Length::MOST.to_nm()) {
            let message = format!("`{}` is longer than 100 m", self.whole);
            return Err(self
                .fault(Code::OUT_OF_RANGE, message)
                .hint("check the unit"));
        }
        let nm = i64::try_from(nm).unwrap_or(i64::MAX);
        Ok(Length::nm(if negative { -nm } else { nm }))
    }

    fn bare(&self, shop: Unit, is_fraction: bool) -> Result<i128, Fault> {
        match shop {
            Unit::Inch => Ok(25_400_000),
            Unit::Mm if is_fraction => {
                let message = format!("`{}` has no unit, and this shop works in mm", self.whole);
                Err(self
                    .fault(Code::AMBIGUOUS_QUANTITY, message)
                    .hint(format!("write `{} in`, or the size in mm", self.whole)))
            }
            Unit::Mm => Ok(1_000_000),
        }
    }

    fn unknown_unit(&self, unit: &str) -> Fault {
        let message = if unit.is_empty() {
            format!("`{}` is not {}", self.whole, self.kind.words())
        } else {
            format!(
                "`{unit}` is not a unit of {}",
                self.kind.words().trim_start_matches("a ")
            )
        };
        self.fault(Code::QUANTITY_UNIT, message)
            .hint(format!("write {}", example(self.kind)))
    }

    fn angle(&mut self) -> Result<Angle, Fault> {
        let (number, _) = self.mixed()?;
        if let Some(rest) = self
            .rest
            .strip_prefix("in ")
            .or(self.rest.strip_prefix(':'))
        {
            self.rest = rest.trim_start();
            let (run, _) = self.mixed()?;
            if !self.rest.is_empty() || run.over == 0 {
                return Err(self.wrong());
            }
            return Ok(Angle::of_slope(
                Length::nm(ratio_nm(number)),
                Length::nm(ratio_nm(run)),
            ));
        }
        let unit = self.unit_word();
        if unit.is_empty() && self.rest.is_empty() {
            let message = format!("`{}` has no unit", self.whole);
            return Err(self
                .fault(Code::QUANTITY_UNIT, message)
                .hint(format!("write `{} deg`", self.whole)));
        }
        if !matches!(unit, "deg" | "°" | "degrees" | "degree") {
            return Err(self.unknown_unit(unit));
        }
        if !self.rest.is_empty() {
            return Err(self.wrong());
        }
        let degrees = number.over as f64 / number.under as f64;
        if degrees > 360.0 {
            let message = format!("`{}` is more than a full turn", self.whole);
            return Err(self
                .fault(Code::OUT_OF_RANGE, message)
                .hint(format!("write {}", example(self.kind))));
        }
        Ok(Angle::degrees(degrees))
    }

    fn plain(&mut self, units: &[&'static str]) -> Result<(f64, &'static str), Fault> {
        let negative = self.sign();
        let (number, _) = self.mixed()?;
        let found = units.iter().find(|unit| **unit == self.rest);
        let Some(unit) = found else {
            let unit = self.rest;
            if unit.is_empty() {
                let message = format!("`{}` has no unit", self.whole);
                return Err(self
                    .fault(Code::QUANTITY_UNIT, message)
                    .hint(format!("write {}", example(self.kind))));
            }
            return Err(self.unknown_unit(unit));
        };
        let value = number.over as f64 / number.under as f64;
        Ok((if negative { -value } else { value }, unit))
    }

    fn count(&mut self) -> Result<i64, Fault> {
        match self.whole.parse::<u32>() {
            Ok(count) if count <= 1_000_000 => Ok(i64::from(count)),
            _ => Err(self.wrong()),
        }
    }

    fn sign(&mut self) -> bool {
        match self.rest.strip_prefix(['-', '−']) {
            Some(rest) => {
                self.rest = rest.trim_start();
                true
            }
            None => false,
        }
    }

    /// A whole number, a decimal, a fraction, or a whole number and a fraction.
    fn mixed(&mut self) -> Result<(Ratio, bool), Fault> {
        if let Some(sign) = self.fraction_sign() {
            return Ok((sign, true));
        }
        let (whole, decimals) = self.decimal()?;
        if decimals {
            return Ok((whole, false));
        }
        if let Some(rest) = self.rest.strip_prefix('/') {
            self.rest = rest;
            return self.under(whole.over).map(|ratio| (ratio, true));
        }
        let before = self.rest;
        self.rest = self
            .rest
            .strip_prefix('-')
            .unwrap_or(self.rest)
            .trim_start();
        if let Some(sign) = self.fraction_sign() {
            return Ok((whole.plus(sign), true));
        }
        let digits = self
            .rest
            .find(|c: char| !c.is_ascii_digit())
            .unwrap_or(self.rest.len());
        if digits > 0 && self.rest[digits..].starts_with('/') {
            let over = self.digits(digits)?;
            self.rest = &self.rest[1..];
            let part = self.under(over)?;
            if part.over >= part.under {
                return Err(self
                    .wrong()
                    .hint("after a whole number comes less than one"));
            }
            return Ok((whole.plus(part), true));
        }
        self.rest = before.trim_start();
        Ok((whole, false))
    }

    fn fraction_sign(&mut self) -> Option<Ratio> {
        let first = self.rest.chars().next()?;
        let (_, over, under) = SIGNS.iter().find(|(sign, _, _)| *sign == first)?;
        self.rest = self.rest[first.len_utf8()..].trim_start();
        Some(Ratio {
            over: *over,
            under: *under,
        })
    }

    fn under(&mut self, over: i128) -> Result<Ratio, Fault> {
        let end = self
            .rest
            .find(|c: char| !c.is_ascii_digit())
            .unwrap_or(self.rest.len());
        let under = self.digits(end)?;
        self.rest = self.rest.trim_start();
        if under == 0 {
            return Err(self.wrong());
        }
        if self.kind == Kind::Length && !is_rule_part(under) {
            let message = format!("no rule has parts of 1/{under}");
            return Err(self
                .fault(Code::QUANTITY_SYNTAX, message)
                .hint("use halves to 128ths, or a decimal"));
        }
        Ok(Ratio { over, under })
    }

    fn digits(&mut self, end: usize) -> Result<i128, Fault> {
        let (digits, rest) = self.rest.split_at(end);
        if digits.is_empty() || digits.len() > 9 {
            return Err(self.wrong());
        }
        self.rest = rest;
        digits.parse().map_err(|_| self.wrong())
    }

    /// Digits with an optional decimal point or comma; says whether there was one.
    fn decimal(&mut self) -> Result<(Ratio, bool), Fault> {
        let end = self
            .rest
            .find(|c: char| !c.is_ascii_digit())
            .unwrap_or(self.rest.len());
        let bare_point = end == 0 && self.rest.starts_with('.');
        let whole = if bare_point { 0 } else { self.digits(end)? };
        let Some(mark) = self.rest.chars().next().filter(|c| matches!(c, '.' | ',')) else {
            return Ok((
                Ratio {
                    over: whole,
                    under: 1,
                },
                false,
            ));
        };
        self.rest = &self.rest[1..];
        let end = self
            .rest
            .find(|c: char| !c.is_ascii_digit())
            .unwrap_or(self.rest.len());
        if mark == ',' && end == 3 {
            let message = format!("`{}` can be read in two ways", self.whole);
            return Err(self
                .fault(Code::AMBIGUOUS_QUANTITY, message)
                .hint("write a decimal with a point, and thousands without a mark"));
        }
        let places = u32::try_from(end).unwrap_or(u32::MAX);
        let part = self.digits(end)?;
        if self.rest.starts_with(['.', ',']) {
            return Err(self.wrong());
        }
        self.rest = self.rest.trim_start();
        let under = 10_i128.pow(places);
        Ok((
            Ratio {
                over: whole * under + part,
                under,
            },
            true,
        ))
    }

    /// The letters or signs of a unit, and the blanks after it.
    fn unit_word(&mut self) -> &'t str {
        let word_end = self
            .rest
            .find(|c: char| !c.is_alphabetic() && c != '/')
            .unwrap_or(self.rest.len());
        let end = match self.rest.chars().next() {
            Some(sign) if word_end == 0 && !sign.is_ascii_digit() => sign.len_utf8(),
            _ => word_end,
        };
        let (unit, rest) = self.rest.split_at(end);
        self.rest = rest.trim_start();
        unit
    }
}

fn ratio_nm(ratio: Ratio) -> i64 {
    i64::try_from(ratio.of(1_000_000)).unwrap_or(i64::MAX)
}
