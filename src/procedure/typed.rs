//! What a part gives, against what its procedure asks: names that are known, words among the
//! options, quantities in their range.

use super::model::Procedure;
use super::show::show;
use super::values::{Given, caliper};
use super::workplace::Workplace;
use crate::diag::{Code, Fault, nearest};
use crate::units::{Role, Value};

/// A fault for each name that the procedure does not ask for.
pub(super) fn unknown_names(procedure: &Procedure, given: &Given) -> Vec<Fault> {
    let measures: Vec<_> = procedure.measures.iter().map(|m| m.name.as_str()).collect();
    let choices: Vec<_> = procedure.choices.iter().map(|c| c.name.as_str()).collect();
    let lists = [
        (&given.measured, &measures, "measured"),
        (&given.chosen, &choices, "chosen"),
    ];
    let mut faults = Vec::new();
    for (typed, known, what) in lists {
        for (name, (_, place)) in typed
            .iter()
            .filter(|(name, _)| !known.contains(&name.as_str()))
        {
            let message = format!("`{}` has no `{name}` to be {what}", procedure.id);
            let hint = match nearest(name, known.iter().copied()) {
                Some(near) => format!("did you mean `{near}`?"),
                None => format!("{what} are: {}", known.join(", ")),
            };
            let place = given.names.get(name).unwrap_or(place);
            faults.push(
                Fault::error(Code::UNKNOWN_NAME, message)
                    .at(place.clone())
                    .hint(hint),
            );
        }
    }
    faults
}

/// Whether a measured name that is not known is a slip of the hand for this one, which was told.
pub(super) fn is_misspelt(procedure: &Procedure, given: &Given, name: &str) -> bool {
    let known = || procedure.measures.iter().map(|one| one.name.as_str());
    let mut typed = given.measured.keys();
    typed.any(|typed| !known().any(|one| one == typed) && nearest(typed, known()) == Some(name))
}

/// A word among the options.
pub(super) fn one_of(text: &str, options: &[String]) -> Result<Value, Fault> {
    if options.iter().any(|option| option == text) {
        return Ok(Value::Choice(text.to_owned()));
    }
    let hint = match nearest(text, options.iter().map(String::as_str)) {
        Some(near) => format!("did you mean `{near}`?"),
        None => format!("one of: {}", options.join(", ")),
    };
    Err(Fault::error(
        Code::UNKNOWN_NAME,
        format!("`{text}` cannot be chosen here"),
    )
    .hint(hint))
}

/// A quantity in its range.
pub(super) fn in_range(
    value: &Value,
    range: &(Option<Value>, Option<Value>),
    (name, typed): (&str, &str),
    at: Workplace<'_>,
) -> Result<(), Fault> {
    let below = range
        .0
        .as_ref()
        .is_some_and(|least| size(value) < size(least));
    let above = range
        .1
        .as_ref()
        .is_some_and(|most| size(value) > size(most));
    if !below && !above {
        return Ok(());
    }
    let text = |value: &Value| show(value, caliper(at), Role::Place).0;
    let bound = |value: &Option<Value>| value.as_ref().map_or("any".to_owned(), text);
    let message = format!(
        "`{name}` is `{typed}`, it may be {} to {}",
        bound(&range.0),
        bound(&range.1)
    );
    Err(Fault::error(Code::OUT_OF_RANGE, message))
}

/// The size of a value of any kind that has one, for comparison within a kind.
fn size(value: &Value) -> f64 {
    match value {
        Value::Length(length) => length.to_mm(),
        Value::Angle(angle) => angle.to_degrees(),
        Value::Speed(speed) => speed.to_rpm(),
        Value::RimSpeed(speed) => speed.to_metres_per_second(),
        Value::Feed(feed) => feed.to_metres_per_minute(),
        Value::Amount(amount) => amount.to_base(),
        Value::Count(count) => *count as f64,
        Value::Number(number) => *number,
        Value::Choice(_) | Value::Truth(_) | Value::Lengths(_) => 0.0,
    }
}
