//! From named values to an answer: names, kinds, ranges and what is missing are checked against
//! the table before a calculator runs.
//!
//! The first fault is told, always with the input's name; a usual value that stands in for one
//! that was not given is put among the given values and marked as usual.

use std::collections::BTreeMap;

use super::{Absent, Answer, Calculator, Given, Input, Stopped};
use crate::diag::{Code, Fault, nearest};
use crate::units::Value;

/// Checks the values and runs the calculator.
///
/// # Errors
/// [`Stopped::Fault`] when a name, a kind, a size is wrong or a value is missing;
/// [`Stopped::Refused`] when the joint cannot be cut so.
///
/// ```
/// use faceside::{joints, units::{Kind, Unit, Value, parse}};
/// let length = |text| parse(text, Kind::Length, Unit::Mm).unwrap();
/// let values = [("width", length("17.7 mm")), ("cutter", length("12 mm"))];
/// let values = values.map(|(name, value)| (name.to_owned(), value)).into();
/// let answer = joints::work_out(joints::find("housing").unwrap(), &values).unwrap();
/// assert_eq!(answer.worked.results["shift"], length("5.7 mm"));
/// ```
pub fn work_out(
    calculator: &'static Calculator,
    values: &BTreeMap<String, Value>,
) -> Result<Answer, Stopped> {
    let given = check(calculator, values)?;
    let worked = (calculator.run)(&given)?;
    Ok(Answer { given, worked })
}

fn check(
    calculator: &'static Calculator,
    values: &BTreeMap<String, Value>,
) -> Result<Given, Fault> {
    if let Some(name) = values.keys().find(|name| calculator.input(name).is_none()) {
        return Err(unknown(calculator, name));
    }
    let mut given = BTreeMap::new();
    for input in calculator.inputs {
        match values.get(input.name) {
            Some(value) => {
                check_value(input, value)?;
                given.insert(input.name, value.clone());
            }
            None if input.is_required() => return Err(missing(calculator, input)),
            None => {}
        }
    }
    check_sets(calculator, &given)?;
    let mut given = Given::new(given);
    for input in calculator.inputs {
        if let (Absent::Usual(text), None) = (input.absent, given.get(input.name)) {
            given.add_usual(input.name, input.read(text)?);
        }
    }
    Ok(given)
}

fn unknown(calculator: &Calculator, name: &str) -> Fault {
    let names: Vec<_> = calculator.inputs.iter().map(|input| input.name).collect();
    let message = format!("`{}` takes no `{name}`", calculator.name);
    let hint = match nearest(name, names.iter().copied()) {
        Some(near) => format!("did you mean `{near}`?"),
        None => format!("it takes {}", names.join(", ")),
    };
    Fault::error(Code::UNKNOWN_NAME, message).hint(hint)
}

fn missing(calculator: &Calculator, input: &Input) -> Fault {
    let message = format!("`{}` needs `{}`", calculator.name, input.name);
    Fault::error(Code::VALUE_MISSING, message).hint(format!(
        "{}; {}",
        input.meaning,
        input.range_words()
    ))
}

/// Whether a value has the input's kind and lies in its range, as [`work_out`] asks; for those who
/// know the place that it was written in.
///
/// # Errors
/// `wrong-type` or `out-of-range` with the input's name and what it may be, without a place.
pub fn check_value(input: &Input, value: &Value) -> Result<(), Fault> {
    if value.kind() != input.kind {
        let message = format!(
            "`{}` is {}, not {}",
            input.name,
            input.kind.words(),
            value.kind().words()
        );
        return Err(Fault::error(Code::WRONG_TYPE, message).hint(format!(
            "{}; {}",
            input.meaning,
            input.range_words()
        )));
    }
    let fits = match value {
        Value::Choice(word) => input.options().contains(&word.as_str()),
        _ => {
            let (least, most) = (input.read(input.range.0)?, input.read(input.range.1)?);
            is_between(value, &least, &most)
        }
    };
    if fits {
        return Ok(());
    }
    let message = format!("`{}` must be {}", input.name, input.range_words());
    let near = match value {
        Value::Choice(word) => near_words(input, word),
        _ => None,
    };
    Err(Fault::error(Code::OUT_OF_RANGE, message)
        .maybe_hint(near)
        .hint(input.meaning))
}

/// Which words of a choice may have been meant: those that hold the one typed, else the nearest.
fn near_words(input: &Input, typed: &str) -> Option<String> {
    let options = input.options();
    let holds = |option: &&&str| !typed.is_empty() && option.contains(typed);
    let holding: Vec<_> = options.iter().filter(holds).copied().collect();
    let near = match holding.is_empty() {
        true => nearest(typed, options)?.to_owned(),
        false => holding.join("`, `"),
    };
    Some(format!("did you mean `{near}`?"))
}

/// Whether the value lies between the other two, which are of its kind; what is not a number does
/// not.
fn is_between(value: &Value, least: &Value, most: &Value) -> bool {
    let size = |value: &Value| match value {
        Value::Length(length) => Some(length.to_mm()),
        Value::Angle(angle) => Some(angle.to_degrees()),
        Value::Speed(speed) => Some(speed.to_rpm()),
        Value::RimSpeed(speed) => Some(speed.to_metres_per_second()),
        Value::Feed(feed) => Some(feed.to_metres_per_minute()),
        Value::Amount(amount) => Some(amount.to_base()),
        Value::Count(count) => Some(*count as f64),
        Value::Number(number) => Some(*number),
        Value::Choice(_) | Value::Truth(_) | Value::Lengths(_) => None,
    };
    match (size(value), size(least), size(most)) {
        (Some(size), Some(least), Some(most)) => least <= size && size <= most,
        _ => false,
    }
}

/// Of the sets of inputs that stand for each other, one is there whole and no other is touched.
fn check_sets(calculator: &Calculator, given: &BTreeMap<&'static str, Value>) -> Result<(), Fault> {
    let sets = calculator.one_of;
    let touched: Vec<_> = sets
        .iter()
        .filter(|set| set.iter().any(|name| given.contains_key(name)))
        .collect();
    let words = |set: &&[&str]| format!("`{}`", set.join("` and `"));
    match touched[..] {
        [] if sets.is_empty() => Ok(()),
        [] => {
            let choices: Vec<_> = sets.iter().map(words).collect();
            let message = format!("`{}` needs {}", calculator.name, choices.join(", or "));
            Err(Fault::error(Code::VALUE_MISSING, message).hint("give one of them"))
        }
        [set] => match set.iter().find(|name| !given.contains_key(*name)) {
            None => Ok(()),
            Some(name) => {
                let message = format!("`{}` needs `{name}`", calculator.name);
                Err(Fault::error(Code::VALUE_MISSING, message)
                    .hint(format!("{} belong together", words(set))))
            }
        },
        [first, second, ..] => {
            let message = format!("{} and {} are both given", words(first), words(second));
            Err(Fault::error(Code::AMBIGUOUS_QUANTITY, message).hint("give one of them only"))
        }
    }
}
