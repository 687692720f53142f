//! The tables of the lexer: units, signs, and signs that people write out of habit.

use super::op::Comparison;
use super::token::Token;
use crate::units::{Kind, Measure};

/// Units with what they measure; a longer one stands before its own beginning.
pub(super) const UNITS: &[(&str, Kind)] = &[
    ("rev/min", Kind::Speed),
    ("r/min", Kind::Speed),
    ("rpm", Kind::Speed),
    ("m/min", Kind::Feed),
    ("m/s", Kind::RimSpeed),
    ("%", Kind::Amount(Measure::Percent)),
    ("degC", Kind::Amount(Measure::Temperature)),
    ("degF", Kind::Amount(Measure::Temperature)),
    ("°C", Kind::Amount(Measure::Temperature)),
    ("°F", Kind::Amount(Measure::Temperature)),
    ("kN", Kind::Amount(Measure::Load)),
    ("kg", Kind::Amount(Measure::Load)),
    ("N/mm2", Kind::Amount(Measure::Stress)),
    ("N", Kind::Amount(Measure::Load)),
    ("lb/in2", Kind::Amount(Measure::Stress)),
    ("lbf", Kind::Amount(Measure::Load)),
    ("lb", Kind::Amount(Measure::Load)),
    ("psi", Kind::Amount(Measure::Stress)),
    ("GPa", Kind::Amount(Measure::Stress)),
    ("MPa", Kind::Amount(Measure::Stress)),
    ("degrees", Kind::Angle),
    ("degree", Kind::Angle),
    ("deg", Kind::Angle),
    ("°", Kind::Angle),
    ("inches", Kind::Length),
    ("inch", Kind::Length),
    ("in", Kind::Length),
    ("feet", Kind::Length),
    ("foot", Kind::Length),
    ("ft", Kind::Length),
    ("thou", Kind::Length),
    ("mm", Kind::Length),
    ("cm", Kind::Length),
    ("m", Kind::Length),
];

/// Signs with their tokens; a longer one stands before its own beginning.
pub(super) const SIGNS: &[(&str, Token<'static>)] = &[
    ("<=", Token::Compare(Comparison::LessEqual)),
    (">=", Token::Compare(Comparison::GreaterEqual)),
    ("==", Token::Compare(Comparison::Equal)),
    ("!=", Token::Compare(Comparison::Unequal)),
    ("<", Token::Compare(Comparison::Less)),
    (">", Token::Compare(Comparison::Greater)),
    ("+", Token::Plus),
    ("-", Token::Minus),
    ("*", Token::Times),
    ("/", Token::Over),
    ("(", Token::Open),
    (")", Token::Close),
    (",", Token::Comma),
    (":", Token::Colon),
];

/// Signs that are not of the language, with what to do instead; tried before [`SIGNS`].
pub(super) const STRANGE: &[(&str, &str)] = &[
    ("**", "write a square as `x * x`"),
    ("^", "write a square as `x * x`"),
    ("&&", "write `and`"),
    ("||", "write `or`"),
    ("<>", "write `!=`"),
    ("=<", "write `<=`"),
    ("=>", "write `>=`"),
    ("≤", "write `<=`"),
    ("≥", "write `>=`"),
    ("≠", "write `!=`"),
    ("−", "write the hyphen-minus of the keyboard, `-`"),
    ("–", "write the hyphen-minus of the keyboard, `-`"),
    ("—", "write the hyphen-minus of the keyboard, `-`"),
    ("×", "write `*`"),
    ("·", "write `*`"),
    ("÷", "write `/`"),
    ("½", "write `1/2`"),
    ("¼", "write `1/4`"),
    ("¾", "write `3/4`"),
    ("“", "write words in straight quotes, `\"`"),
    ("”", "write words in straight quotes, `\"`"),
    ("'", "write words in straight double quotes, `\"`"),
    ("%", "write a part as a number: a half is `0.5`"),
    ("{", "a name stands without braces in a formula"),
    ("}", "a name stands without braces in a formula"),
    ("[", "write round brackets, `(`"),
    ("]", "write round brackets, `)`"),
    (
        ";",
        "a formula is one expression; arguments have `,` between them",
    ),
];

/// Signs that are only strange where no longer sign of the language begins with them.
pub(super) const LONE: &[(&str, &str)] = &[("=", "write `==` to compare"), ("!", "write `not`")];

/// Marks that stand for inches or feet on drawings; `"` begins a word here.
pub(super) const INCH_MARKS: [char; 6] = ['"', '″', '”', '\'', '′', '’'];

#[cfg(test)]
mod tests {
    use super::{LONE, SIGNS, STRANGE, UNITS};

    /// The first entry that matches is taken, so a later one must not begin with it.
    #[test]
    fn longer_entries_come_first() {
        let units: Vec<_> = UNITS.iter().map(|(unit, _)| *unit).collect();
        let signs: Vec<_> = SIGNS.iter().map(|(sign, _)| *sign).collect();
        let strange: Vec<_> = STRANGE.iter().map(|(sign, _)| *sign).collect();
        for table in [units, signs, strange] {
            for (at, first) in table.iter().enumerate() {
                let hidden = table[at + 1..]
                    .iter()
                    .find(|later| later.starts_with(first));
                assert_eq!(hidden, None, "{first} hides a longer one");
            }
        }
    }

    /// What is strange is tried first, so it must not be the beginning of a sign that is known.
    #[test]
    fn strange_signs_hide_none_that_are_known() {
        for (strange, _) in STRANGE {
            assert!(SIGNS.iter().all(|(sign, _)| !sign.starts_with(strange)));
        }
        for (lone, _) in LONE {
            assert!(SIGNS.iter().any(|(sign, _)| sign.contains(lone)));
        }
    }
}
