//! The questions of the try-out: readings against their limits, and words against a key point.
//!
//! A reading is judged by its limits alone. What was said in the learner's own words is never
//! judged here: the words shared with the point are shown, and the instructor answers.

use std::collections::BTreeSet;

use crate::diag::{Code, Fault};
use crate::procedure::{FilledCheck, plain};
use crate::shoplog::Verdict;
use crate::units::{Kind, Length, Unit, Value, parse};

/// A reading and what follows from it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Measured {
    /// As read.
    pub value: Length,
    /// Where it lies.
    pub verdict: Verdict,
    /// What the limits are, and what to do when it is outside them.
    pub say: String,
}

/// Reads what was measured and holds it against the limits; a bare number takes `unit`.
///
/// # Errors
/// Those of [`parse`]; `out-of-range` for a length below nothing, where the limits are not.
pub fn measured(check: &FilledCheck, answer: &str, unit: Unit) -> Result<Measured, Fault> {
    let value = match parse(answer, Kind::Length, unit)? {
        Value::Length(value) => value,
        other => {
            let message = format!("{} is not a length", other.kind().words());
            return Err(Fault::error(Code::QUANTITY_SYNTAX, message));
        }
    };
    if value.is_negative() && !check.low.is_negative() {
        let message = format!("`{answer}` is below nothing");
        return Err(Fault::error(Code::OUT_OF_RANGE, message).hint("write it without the sign"));
    }
    let verdict = Verdict::of(value, check.low, check.high);
    let (low, high) = (&check.low_shown, &check.high_shown);
    let say = match verdict {
        Verdict::In => format!("{answer} is good: from {low} to {high}."),
        Verdict::Low => {
            let cure = plain(&check.if_low);
            format!("{answer} is under the lowest good value, {low}. {cure}")
        }
        Verdict::High => {
            let cure = plain(&check.if_high);
            format!("{answer} is over the highest good value, {high}. {cure}")
        }
    };
    Ok(Measured {
        value,
        verdict,
        say,
    })
}

/// The words of `point` that `answer` has too, in the order of the point, each once.
///
/// Words of fewer than four letters are passed over unless they are numbers.
pub fn heard_in<'p>(answer: &str, point: &'p str) -> Vec<&'p str> {
    let said: BTreeSet<String> = words(answer).map(str::to_lowercase).collect();
    let mut told = BTreeSet::new();
    words(point)
        .filter(|word| {
            let word = word.to_lowercase();
            said.contains(&word) && told.insert(word)
        })
        .collect()
}

fn words(text: &str) -> impl Iterator<Item = &str> {
    text.split(|letter: char| !letter.is_alphanumeric())
        .filter(|word| word.chars().count() > 3 || word.parse::<u32>().is_ok())
}
