//! Any text and any number into every input of every calculator: an answer, or a fault or a refusal
//! that names the input; never a panic, nothing without end, no piece of wood under nothing.
//!
//! Texts go the way of the command line: read by the kind of the input, then worked out; a fault of
//! the reading gets the input's name there. That inputs are named when a value of the wrong kind or
//! size is handed over without a text is `table.rs`.

use std::collections::BTreeMap;

use faceside::joints::{self, Answer, Calculator, Input, Stopped};
use faceside::units::{Amount, Angle, Feed, Kind, Length, RimSpeed, Spindle, Unit, Value, parse};
use proptest::prelude::*;

use crate::values;

type Values = BTreeMap<String, Value>;

/// No value of any kind.
const NO_VALUE: &[&str] = &[
    "",
    " ",
    "\t",
    "-",
    ".",
    "/",
    "NaN",
    "nan",
    "inf",
    "-inf",
    "Infinity",
    "infinity mm",
    "1e3 mm",
    "1e400",
    "0x10",
    "1/0",
    "1/0 in",
    "1 in 0",
    "--1 mm",
    "+-1 mm",
    "1..2 mm",
    "1.2.3 mm",
    "1 mm mm",
    "mm",
    "mm 1",
    "\u{1F4D0}",
    "12 \u{1F4D0}",
    "\u{1F4D0} mm",
    "١٢ مم",
    "\u{202E}mm 21",
    "12\u{0} mm",
    "12 mm; DROP",
    "𝟙𝟚 mm",
    "1_000 mm",
    "٣",
    "½½ in",
    "½\u{1F4D0}",
    "1 ½ ½ in",
    "1,250 mm",
    "99999999999999999999999999 mm",
    "0.00000000000000000000000001 mm",
];

/// Values of one kind; for all other kinds they are of the wrong dimension.
const OF_A_KIND: &[(&str, &str)] = &[
    ("a length", "12 mm"),
    ("a length", "3/4 in"),
    ("an angle", "14 deg"),
    ("a spindle speed", "18000 rpm"),
    ("a rim speed", "40 m/s"),
    ("a feed rate", "3 m/min"),
    ("a percentage", "12 %"),
    ("a temperature", "20 degC"),
    ("a load", "40 kg"),
    ("a modulus or a pressure", "11 GPa"),
    ("yes or no", "yes"),
];

/// The written unit of a kind, for figures that stand before it.
fn unit(kind: Kind) -> &'static str {
    match kind.words() {
        "a length" => " mm",
        "an angle" => " deg",
        "a spindle speed" => " rpm",
        "a rim speed" => " m/s",
        "a feed rate" => " m/min",
        "a percentage" => " %",
        "a temperature" => " degC",
        "a load" => " N",
        "a modulus or a pressure" => " GPa",
        _ => "",
    }
}

/// The example with the set of alternatives that the input belongs to, if it belongs to one.
fn around(calculator: &'static Calculator, input: &Input) -> Values {
    let mut given = values(calculator, calculator.example);
    let sets = calculator.one_of;
    if let Some(set) = sets.iter().find(|set| set.contains(&input.name)) {
        given.retain(|name, _| sets.iter().all(|set| !set.contains(&name.as_str())));
        let inputs = set.iter().filter_map(|name| calculator.input(name));
        given.extend(inputs.map(|input| (input.name.to_owned(), inside(input, 0.3))));
    }
    given
}

/// Whether the text gives an answer as this input; what stops it must name the input.
#[track_caller]
fn is_answered(calculator: &'static Calculator, input: &Input, given: &Values, text: &str) -> bool {
    let Ok(value) = parse(text, input.kind, Unit::Mm).map_err(|fault| {
        assert!(
            !fault.message.is_empty() && !fault.hints.is_empty(),
            "{text:?}: {fault:?}"
        );
    }) else {
        return false;
    };
    let mut given = given.clone();
    given.insert(input.name.to_owned(), value.clone());
    match joints::work_out(calculator, &given) {
        Ok(answer) => {
            assert_eq!(answer.given.get(input.name), Some(&value), "{text:?}");
            sound(calculator, &answer, &given);
            true
        }
        Err(Stopped::Fault(fault)) => {
            let said = fault.message;
            assert!(
                said.contains(input.name),
                "{} {} {text:?}: {said}",
                calculator.name,
                input.name
            );
            false
        }
        // A size that may be, but not with the others: one of them is named.
        Err(Stopped::Refused(refusal)) => {
            names_an_input(calculator, &format!("{refusal:?}"));
            false
        }
    }
}

#[track_caller]
fn names_an_input(calculator: &Calculator, said: &str) {
    let is_named = calculator
        .inputs
        .iter()
        .any(|input| said.contains(input.name));
    assert!(is_named, "{}: {said}", calculator.name);
}

fn every_input(mut each: impl FnMut(&'static Calculator, &'static Input, &Values)) {
    for calculator in joints::ALL.iter().copied() {
        for input in calculator.inputs {
            each(calculator, input, &around(calculator, input));
        }
    }
}

#[test]
fn what_is_no_value_is_refused_everywhere() {
    every_input(|calculator, input, given| {
        for text in NO_VALUE {
            let name = calculator.name;
            assert!(
                !is_answered(calculator, input, given, text),
                "{name} {} {text:?}",
                input.name
            );
        }
    });
}

#[test]
fn the_wrong_dimension_is_refused_everywhere() {
    every_input(|calculator, input, given| {
        for (kind, text) in OF_A_KIND {
            let is_other = input.kind.words() != *kind;
            assert!(
                !is_other || !is_answered(calculator, input, given, text),
                "{} {}: {text}",
                calculator.name,
                input.name
            );
        }
        // A plain number stands for no quantity but a length in the shop's unit.
        let takes_number = matches!(input.kind, Kind::Length | Kind::Number | Kind::Count);
        assert!(
            takes_number || !is_answered(calculator, input, given, "12"),
            "{}",
            input.name
        );
    });
}

// No part of a shop is 99 m long, no angle of a joint 359 degrees, and so on.
#[test]
fn huge_values_are_refused_everywhere() {
    let huge = [
        "99000",
        "359",
        "999999",
        "9999",
        "999999999",
        "4294967296",
        "18446744073709551616",
    ];
    every_input(|calculator, input, given| {
        let kind = input.kind;
        for figure in huge {
            let is_small = match kind.words() {
                "a length" => figure.len() < 5,
                "an angle" => false,
                _ => figure.len() < 6,
            };
            let text = format!("{figure}{}", unit(kind));
            assert!(
                is_small || !is_answered(calculator, input, given, &text),
                "{} {}: {text}",
                calculator.name,
                input.name
            );
        }
    });
}

// Nothing, and less than nothing, is taken only where the range that is printed begins at it or
// under it.
#[test]
fn nothing_and_less_is_taken_where_the_range_says_so() {
    every_input(|calculator, input, given| {
        for (text, begins) in [
            ("0", &["0", "-"][..]),
            ("-0", &["0", "-"]),
            ("-0.5", &["-"]),
        ] {
            let text = format!("{text}{}", unit(input.kind));
            let may = begins.iter().any(|begin| input.range.0.starts_with(begin));
            assert!(
                may || !is_answered(calculator, input, given, &text),
                "{} {}: {text}",
                calculator.name,
                input.name
            );
        }
    });
}

/// Results that are lengths under nothing by their meaning.
const MAY_BE_NEGATIVE: &[(&str, &str, &str)] = &[
    (
        "housing",
        "offsets",
        "places from the middle of the housing, to both sides",
    ),
    ("halving", "step", "the face of b may lie under that of a"),
    (
        "frame-panel",
        "hold_drifted",
        "what the panel lacks to reach its groove, with a warning",
    ),
    ("movement", "change", "wood shrinks as well as swells"),
];

/// The value at a share of the way from the least of the range to the most; a word of a choice.
fn inside(input: &Input, share: f64) -> Value {
    if input.kind == Kind::Choice {
        let options = input.options();
        let at = (share * options.len() as f64) as usize;
        return Value::Choice(options[at.min(options.len() - 1)].to_owned());
    }
    let end = |text| parse(text, input.kind, Unit::Mm).unwrap();
    let (least, most) = (end(input.range.0), end(input.range.1));
    of_size(&least, size(&least) + (size(&most) - size(&least)) * share)
}

/// The value of the example, else the usual one, else the middle of the range, made larger or
/// smaller by up to a third; a word as `inside` takes it.
fn near_the_example(calculator: &Calculator, input: &Input, share: f64) -> Value {
    let typed = calculator
        .example
        .iter()
        .find(|(name, _)| *name == input.name);
    let usual = match input.absent {
        joints::Absent::Usual(text) => Some(text),
        _ => None,
    };
    match typed.map(|(_, text)| *text).or(usual) {
        Some(text) if input.kind != Kind::Choice => {
            let value = parse(text, input.kind, Unit::Mm).unwrap();
            of_size(&value, size(&value) * (0.67 + 0.66 * share))
        }
        _ => inside(input, share),
    }
}

/// The figure of a value, a length in nanometres.
pub(crate) fn size(value: &Value) -> f64 {
    match value {
        Value::Length(length) => length.to_nm() as f64,
        Value::Angle(angle) => angle.to_degrees(),
        Value::Speed(speed) => speed.to_rpm(),
        Value::RimSpeed(speed) => speed.to_metres_per_second(),
        Value::Feed(feed) => feed.to_metres_per_minute(),
        Value::Amount(amount) => amount.to_base(),
        Value::Count(count) => *count as f64,
        Value::Number(number) => *number,
        other => panic!("{other:?} has no size"),
    }
}

/// A value of the kind of `like`.
fn of_size(like: &Value, size: f64) -> Value {
    match like {
        Value::Length(_) => Value::Length(Length::nm(size.round() as i64)),
        Value::Angle(_) => Value::Angle(Angle::degrees(size)),
        Value::Speed(_) => Value::Speed(Spindle::rpm(size)),
        Value::RimSpeed(_) => Value::RimSpeed(RimSpeed::metres_per_second(size)),
        Value::Feed(_) => Value::Feed(Feed::metres_per_minute(size)),
        Value::Amount(amount) => Value::Amount(Amount::new(amount.measure(), size)),
        Value::Count(_) => Value::Count(size.round() as i64),
        _ => Value::Number(size),
    }
}

/// Every result is finite, no length is longer than ten times the longest that is worked with, and
/// none is under nothing but where that has a meaning.
#[track_caller]
fn sound(calculator: &Calculator, answer: &Answer, given: &Values) {
    for (name, value) in &answer.worked.results {
        let what = format!("{} {name}: {value:?} of {given:?}", calculator.name);
        let lengths = match value {
            Value::Lengths(lengths) => lengths.clone(),
            Value::Length(length) => vec![*length],
            Value::Choice(_) | Value::Truth(_) => continue,
            other => {
                assert!(size(other).is_finite(), "{what}");
                continue;
            }
        };
        let may = |entry: &&(&str, &str, &str)| entry.0 == calculator.name && entry.1 == *name;
        let may_be_negative = MAY_BE_NEGATIVE.iter().any(|entry| may(&entry));
        for length in lengths {
            assert!(
                length.to_nm().unsigned_abs() <= 10 * Length::MOST.to_nm().unsigned_abs(),
                "{what}"
            );
            assert!(may_be_negative || length >= Length::ZERO, "{what}");
        }
    }
}

/// For each input: whether it is left out when it may be, and a share of its range.
fn draws() -> impl Strategy<Value = Vec<(bool, f64)>> {
    let share = prop_oneof![6 => 0.0..=1.0_f64, 1 => Just(0.0), 1 => Just(1.0)];
    prop::collection::vec((prop::bool::weighted(0.4), share), 24)
}

fn drawn(calculator: &'static Calculator, draws: &[(bool, f64)], is_near: bool) -> Values {
    let sets = calculator.one_of;
    let (first, rest) = draws.split_first().unwrap();
    let chosen = sets
        .get((first.1 * sets.len() as f64) as usize)
        .or(sets.last());
    let inputs = calculator
        .inputs
        .iter()
        .zip(rest)
        .filter(|(input, (left_out, _))| {
            let is_in_set = sets.iter().any(|set| set.contains(&input.name));
            let is_chosen = chosen.is_some_and(|set| set.contains(&input.name));
            is_chosen || !is_in_set && (input.is_required() || !left_out)
        });
    let value = |(input, (_, share)): (&Input, &(bool, f64))| {
        let value = match is_near {
            true => near_the_example(calculator, input, *share),
            false => inside(input, *share),
        };
        (input.name.to_owned(), value)
    };
    inputs.map(value).collect()
}

// Draws are as many as the most inputs that a calculator has, and one.
#[test]
fn there_is_a_draw_for_every_input() {
    assert!(
        joints::ALL
            .iter()
            .all(|calculator| calculator.inputs.len() <= 23)
    );
}

proptest! {
    #[test]
    fn any_value_in_its_range_is_answered_or_refused_by_name(draws in draws(), is_near: bool) {
        for calculator in joints::ALL.iter().copied() {
            let given = drawn(calculator, &draws, is_near);
            match joints::work_out(calculator, &given) {
                Ok(answer) => sound(calculator, &answer, &given),
                Err(Stopped::Fault(fault)) => names_an_input(calculator, &fault.message),
                Err(Stopped::Refused(refusal)) => {
                    names_an_input(calculator, &format!("{refusal:?}"));
                }
            }
        }
    }

    #[test]
    fn any_text_is_answered_or_refused_by_name(
        text in prop_oneof![
            any::<String>(),
            "[0-9 ./,½-]{0,12}( ?(mm|in|\"|deg|rpm|m/s|m/min|%|degC|kg|GPa|ft|'))?",
        ],
        at: prop::sample::Index,
    ) {
        for calculator in joints::ALL.iter().copied() {
            let input = at.get(calculator.inputs);
            is_answered(calculator, input, &around(calculator, input), &text);
        }
    }
}
