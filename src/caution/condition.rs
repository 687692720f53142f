//! Conditions on the values of a set-up, such as `piece.length < short_piece`.
//!
//! In: a formula over the names of [`scope`]. Out: yes or no. A value that is not at hand is a
//! fault, never a no: a caution must not vanish because somebody forgot a measure.

use std::collections::{BTreeMap, BTreeSet};

use crate::diag::{Code, Fault, Span};
use crate::formula::{Formula, Known, Outcome, Scope, Values};
use crate::units::{Kind, Value};

/// Names that a condition may use, with their kinds.
pub const NAMES: &[(&str, Kind)] = &[
    ("cutter.diameter", Kind::Length),
    ("hand_distance", Kind::Length),
    ("leaves_strip", Kind::Truth),
    ("piece.length", Kind::Length),
    ("piece.thickness", Kind::Length),
    ("piece.width", Kind::Length),
    ("short_piece", Kind::Length),
    ("speed_set", Kind::Speed),
    ("table.length", Kind::Length),
    ("table.width", Kind::Length),
];

/// What conditions are checked against: [`NAMES`], and no calculators.
pub fn scope() -> Scope {
    let names = NAMES
        .iter()
        .map(|(name, kind)| ((*name).to_owned(), Known::One(*kind)));
    Scope {
        names: names.collect(),
        calls: Vec::new(),
    }
}

/// Reads a condition and proves that it gives yes or no.
pub(super) fn read(text: &str, place: &Span) -> Result<Formula, Fault> {
    let formula = Formula::parse(text, place)?;
    match formula.check(&scope())? {
        Known::One(Kind::Truth) => Ok(formula),
        _ => {
            let message = format!("`{text}` is not a condition");
            Err(Fault::error(Code::FORMULA_DIMENSION, message)
                .at(place.clone())
                .label("gives no yes or no")
                .hint("compare two values: `piece.length < short_piece`"))
        }
    }
}

/// Whether a condition holds with these values.
pub(super) fn holds(condition: &Formula, values: &Values) -> Result<bool, Fault> {
    let text = condition.text();
    let lost: BTreeSet<_> = (condition.names())
        .filter(|name| values.get(name).is_none())
        .map(|name| format!("`{name}`"))
        .collect();
    if !lost.is_empty() {
        let lost = Vec::from_iter(lost).join(", ");
        let message = format!("no value for {lost}, and the caution condition `{text}` needs it");
        return Err(Fault::error(Code::VALUE_MISSING, message).hint(format!(
            "give the set-up {lost}; without it no caution can be left out"
        )));
    }
    match condition.run(values, &no_calls)? {
        Outcome::One(Value::Truth(holds)) => Ok(holds),
        _ => {
            let message = format!("the caution condition `{text}` gives no yes or no");
            Err(Fault::error(Code::FORMULA_DIMENSION, message))
        }
    }
}

fn no_calls(name: &str, _: BTreeMap<String, Value>) -> Result<BTreeMap<String, Value>, Fault> {
    let message = format!("`{name}` cannot be worked out in a caution condition");
    Err(Fault::error(Code::FORMULA_NAME, message))
}
