//! Rules that every entry of the table keeps, and what is said to wrong values.

use std::collections::{BTreeMap, BTreeSet};

use faceside::joints::{self, Absent, Calculator, Input, Stopped};
use faceside::units::{
    Amount, Angle, Feed, Kind, Length, Measure, RimSpeed, Role, Spindle, Towards, Unit, Value,
    parse,
};

use crate::{answer, calculator, values};

#[test]
fn every_entry_is_whole() {
    let mut names = BTreeSet::new();
    for calculator in joints::ALL {
        let name = calculator.name;
        assert!(names.insert(name), "{name} twice");
        assert_eq!(
            joints::find(&calculator.formula_name()).map(|found| found.name),
            Some(name)
        );
        for text in [
            calculator.summary,
            calculator.family,
            calculator.sketch,
            calculator.source,
        ] {
            assert!(!text.trim().is_empty(), "{name}");
        }
        assert!(
            !calculator.refuses.is_empty() && !calculator.example.is_empty(),
            "{name}"
        );
        let (mut inputs, mut results) = (BTreeSet::new(), BTreeSet::new());
        for input in calculator.inputs {
            assert!(inputs.insert(input.name), "{name}: {} twice", input.name);
            assert!(
                calculator.sketch.contains(input.letter),
                "{name}: {}",
                input.letter
            );
            assert!(!input.meaning.is_empty());
            let reads = |text| parse(text, input.kind, Unit::Mm).is_ok();
            match input.kind {
                Kind::Choice => assert!(input.options().len() > 1, "{name}: {}", input.name),
                _ => assert!(
                    reads(input.range.0) && reads(input.range.1),
                    "{}",
                    input.name
                ),
            }
            if let Absent::Usual(text) = input.absent {
                assert!(reads(text), "{name}: {}", input.name);
            }
        }
        for output in calculator.results {
            assert!(results.insert(output.name), "{name}: {} twice", output.name);
            assert!(
                calculator.sketch.contains(output.letter),
                "{name}: {}",
                output.letter
            );
            assert!(!output.meaning.is_empty());
            assert_eq!(
                output.kind == Kind::Count,
                output.role == Role::Count,
                "{}",
                output.name
            );
        }
        for input in calculator.one_of.iter().copied().flatten() {
            assert!(
                calculator
                    .input(input)
                    .is_some_and(|input| !input.is_required())
            );
        }
    }
}

#[test]
fn every_example_runs_and_says_its_usual_values() {
    for calculator in joints::ALL {
        let answer = answer(calculator.name, calculator.example);
        assert!(!answer.worked.results.is_empty());
        for (name, value) in &answer.worked.results {
            assert_eq!(
                calculator.output(name).expect("in the table").kind,
                value.kind(),
                "{name}"
            );
        }
        for input in calculator.inputs {
            let typed = calculator
                .example
                .iter()
                .any(|(name, _)| *name == input.name);
            let usual = matches!(input.absent, Absent::Usual(_)) && !typed;
            assert_eq!(
                answer.given.get(input.name).is_some(),
                typed || usual,
                "{}",
                input.name
            );
            assert_eq!(answer.given.is_usual(input.name), usual, "{}", input.name);
        }
    }
}

/// Values that are tried on every input, whatever its kind.
fn tries() -> Vec<Value> {
    let lengths = [0, -1, -5_000_000, 1, i64::MAX, i64::MIN, 100_000_000_000].map(Length::nm);
    let numbers = [0.0, -1.0, 1e300, f64::INFINITY, f64::NAN, f64::NEG_INFINITY];
    let mut tries: Vec<_> = lengths.map(Value::Length).to_vec();
    tries.extend(numbers.map(|number| Value::Angle(Angle::degrees(number))));
    tries.extend(numbers.map(|number| Value::Speed(Spindle::rpm(number))));
    tries.extend(numbers.map(|number| Value::RimSpeed(RimSpeed::metres_per_second(number))));
    tries.extend(numbers.map(|number| Value::Feed(Feed::metres_per_minute(number))));
    let measures = [
        Measure::Percent,
        Measure::Temperature,
        Measure::Load,
        Measure::Stress,
    ];
    for measure in measures {
        // Times 1000, as a degree below nothing is a temperature.
        let amounts = numbers.map(|number| Amount::new(measure, number * 1e3));
        tries.extend(amounts.map(Value::Amount));
    }
    tries.extend(numbers.map(Value::Number));
    tries.extend([Value::Count(0), Value::Count(i64::MIN), Value::Truth(true)]);
    tries.extend(["", "oval"].map(|word| Value::Choice(word.to_owned())));
    tries.push(Value::Lengths(vec![Length::ZERO]));
    tries
}

/// A value that each input of a set of alternatives takes: a housing of 30 mm, or a piece of 30 mm
/// with 1 mm of clearance; the first word of a choice; else the least of the range.
fn of_a_set(input: &Input) -> Value {
    let size = if input.name == "clearance" { 1.0 } else { 30.0 };
    match input.kind {
        Kind::Length => Value::Length(Length::mm(size)),
        Kind::Choice => Value::Choice(input.options()[0].to_owned()),
        kind => parse(input.range.0, kind, Unit::Mm).unwrap(),
    }
}

/// Sound values for all inputs beside `input`: those of the example, with the set of alternatives
/// that it belongs to in the place of another.
pub(crate) fn around(calculator: &Calculator, input: &Input) -> BTreeMap<String, Value> {
    let mut given = values(calculator, calculator.example);
    let sets = calculator.one_of;
    if let Some(set) = sets.iter().find(|set| set.contains(&input.name)) {
        given.retain(|name, _| !sets.iter().any(|set| set.contains(&name.as_str())));
        let value = |name: &str| of_a_set(calculator.input(name).unwrap());
        given.extend(set.iter().map(|name| ((*name).to_owned(), value(name))));
    }
    given
}

/// Whether nothing, or a nanometre more or less of a length, may be in the range.
fn is_about_nothing(value: &Value, input: &Input) -> bool {
    let is_signed = input.range.0.starts_with('-');
    let is_near = match value {
        Value::Length(length) => (-i64::from(is_signed)..=1).contains(&length.to_nm()),
        Value::Amount(amount) => amount.to_base().abs() < 1e-12,
        _ => false,
    };
    is_near && (is_signed || input.range.0.starts_with("0 "))
}

/// Of all values tried, only a length or an amount of nothing, a nanometre more or less, is ever in
/// a range (a clearance, a `from`).
#[test]
fn every_input_refuses_what_it_cannot_take_and_is_named() {
    for calculator in joints::ALL {
        for input in calculator.inputs {
            let mut given = around(calculator, input);
            for value in tries() {
                given.insert(input.name.to_owned(), value.clone());
                let said = match joints::work_out(calculator, &given) {
                    Err(Stopped::Fault(fault)) => fault.message,
                    Err(Stopped::Refused(refusal)) => format!("{refusal:?}"),
                    Ok(answer) => {
                        assert!(is_about_nothing(&value, input), "{}: {value:?}", input.name);
                        assert_eq!(answer.given.get(input.name), Some(&value));
                        continue;
                    }
                };
                assert!(
                    said.contains(input.name),
                    "{} {}: {said}",
                    calculator.name,
                    input.name
                );
            }
            given.remove(input.name);
            let is_in_set = calculator
                .one_of
                .iter()
                .any(|set| set.contains(&input.name));
            match joints::work_out(calculator, &given) {
                Err(Stopped::Fault(fault)) => {
                    assert!(input.is_required() || is_in_set, "{}", input.name);
                    assert!(fault.message.contains(input.name), "{}", fault.message);
                }
                other => assert!(
                    !input.is_required() && other.is_ok(),
                    "{}: {other:?}",
                    input.name
                ),
            }
        }
    }
}

#[test]
fn faults_help() {
    let fault = |texts: &[(&str, f64)]| {
        let value = |mm: f64| Value::Length(Length::mm(mm));
        let texts = texts
            .iter()
            .map(|(name, mm)| ((*name).to_owned(), value(*mm)));
        match joints::work_out(calculator("housing"), &texts.collect()) {
            Err(Stopped::Fault(fault)) => fault,
            other => panic!("{other:?}"),
        }
    };
    let slip = fault(&[("widht", 17.0), ("cutter", 12.0)]);
    assert_eq!(slip.message, "`housing` takes no `widht`");
    assert_eq!(slip.hints, ["did you mean `width`?"]);
    let none = fault(&[("cutter", 12.0)]);
    assert_eq!(
        none.message,
        "`housing` needs `width`, or `thickness` and `clearance`"
    );
    let half = fault(&[("cutter", 12.0), ("thickness", 17.0)]);
    assert_eq!(half.message, "`housing` needs `clearance`");
    let both = fault(&[("cutter", 12.0), ("thickness", 17.0), ("width", 17.0)]);
    assert_eq!(
        both.message,
        "`width` and `thickness` and `clearance` are both given"
    );
    // A word that is none of a long list: the words that hold it, or the nearest.
    let species = |word: &str| {
        let mut given = values(calculator("movement"), calculator("movement").example);
        given.remove("coefficient");
        let choice = |word: &str| Value::Choice(word.to_owned());
        given.insert("species".to_owned(), choice(word));
        given.insert("cut".to_owned(), choice("plain"));
        match joints::work_out(calculator("movement"), &given) {
            Err(Stopped::Fault(fault)) => fault.hints[0].clone(),
            other => panic!("{other:?}"),
        }
    };
    let cherry = "did you mean `cherry-black`?";
    assert_eq!(
        [species("cherry"), species("chery-black")],
        [cherry, cherry]
    );
    assert!(species("oak").contains("`oak-red-northern`"));
    let wide = fault(&[("cutter", 120.0), ("width", 17.0)]);
    assert_eq!(wide.message, "`cutter` must be 1 mm to 100 mm");
}

// Leave wood on: openings and exposures down, what enters up; the first fence distance up and the
// last down, so that the groove is never too wide; stops down, notch up, counts up, speeds down.
#[test]
fn roles_leave_wood_on() {
    let (up, down) = (Towards::Up, Towards::Down);
    let wanted = [
        ("sliding-dovetail", "mouth", down),
        ("sliding-dovetail", "exposure", down),
        ("sliding-dovetail", "neck", up),
        ("sliding-dovetail", "tail_end", up),
        ("sliding-dovetail", "passes", up),
        ("sliding-dovetail", "fence_first", up),
        ("sliding-dovetail", "fence_last", down),
        ("one-sided-dovetail", "fence_straight", up),
        ("one-sided-dovetail", "fence_dovetail", down),
        ("one-sided-dovetail", "exposure", down),
        ("housing", "width", down),
        ("housing", "fence_first", up),
        ("housing", "fence_last", down),
        ("stopped-housing", "stop_near", down),
        ("stopped-housing", "stop_far", down),
        ("stopped-housing", "notch_width", up),
        ("passes", "count", up),
        ("spindle", "speed_set", down),
        ("frame-panel", "panel", up),
        ("frame-panel", "rail_shoulder", up),
        ("rail-length", "rail_shoulder", up),
        ("rail-length", "stile_length", up),
        ("shelf-length", "length", up),
        ("drawer", "front_length", up),
        ("drawer", "back_height", up),
        ("drawer", "bottom_width", up),
        ("dowels", "count", up),
        ("dowels", "hole_depth", down),
        ("edge-joint", "clamps", up),
        ("breadboard", "slot", up),
        ("shelf", "span_most", down),
        ("feed-per-tooth", "feed_most", down),
    ];
    for (name, result, towards) in wanted {
        let output = calculator(name).output(result).expect("a result");
        assert_eq!(output.role.towards(), towards, "{name}: {result}");
    }
    let fences = calculator("housing").output("fences").unwrap();
    assert_eq!([0, 1, 2].map(|at| fences.towards_at(at)), [up, down, down]);
    let heights = calculator("passes").output("depths").unwrap();
    assert_eq!([0, 1].map(|at| heights.towards_at(at)), [down, down]);
}

/// Whether the sketch shows the letter by itself, not within a word.
fn shows_letter(sketch: &str, letter: &str) -> bool {
    let is_apart = |other: Option<char>| other.is_none_or(|other| !other.is_alphanumeric());
    sketch.match_indices(letter).any(|(at, _)| {
        let (before, after) = (&sketch[..at], &sketch[at + letter.len()..]);
        is_apart(before.chars().next_back()) && is_apart(after.chars().next())
    })
}

/// The tests of worked figures, one subject a file.
#[expect(clippy::disallowed_methods, reason = "a test looks at files itself")]
fn figure_tests() -> String {
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/joints");
    let files = std::fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().path());
    let figures = files.filter(|path| path.to_string_lossy().ends_with("_figures.rs"));
    figures
        .map(|path| std::fs::read_to_string(path).unwrap())
        .collect()
}

#[expect(clippy::disallowed_methods, reason = "a test looks at files itself")]
fn source_file(calculator: &Calculator) -> String {
    let path = format!("src/joints/{}.rs", calculator.formula_name());
    let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join(path);
    std::fs::read_to_string(path).unwrap()
}

#[test]
fn every_entry_is_drawn_bounded_sourced_and_worked() {
    let figures = figure_tests();
    for calculator in joints::ALL {
        let name = calculator.name;
        for input in calculator.inputs {
            let must_be_drawn = input.is_required() && input.kind == Kind::Length;
            assert!(
                !must_be_drawn || !input.letter.is_empty(),
                "{name}: {}",
                input.name
            );
            let (least, most) = input.range;
            let is_choice = input.kind == Kind::Choice;
            assert!(
                !least.is_empty() && most.is_empty() == is_choice,
                "{name}: {}",
                input.name
            );
            let is_drawn = input.letter.is_empty() || shows_letter(calculator.sketch, input.letter);
            assert!(is_drawn, "{name}: {} {}", input.name, input.letter);
        }
        for output in calculator.results {
            let is_drawn =
                output.letter.is_empty() || shows_letter(calculator.sketch, output.letter);
            assert!(is_drawn, "{name}: {} {}", output.name, output.letter);
        }
        let drawn = calculator
            .results
            .iter()
            .filter(|output| !output.letter.is_empty());
        assert!(drawn.count() > 0, "{name}: no result on the sketch");
        // A source says where it is from: a book or paper with its year or page, or one of the marks.
        let marks = ["erived", "ommon practice", "rom memory", "orkshop practice"];
        let is_cited = calculator.source.contains("p. ") || calculator.source.contains("pp. ");
        let is_marked = marks.iter().any(|mark| calculator.source.contains(mark));
        assert!(is_cited || is_marked, "{name}: {}", calculator.source);
        assert!(
            figures.contains(&format!("\"{name}\"")),
            "{name}: no test of figures"
        );
        let file = source_file(calculator);
        let head: Vec<_> = file
            .lines()
            .take_while(|line| line.starts_with("//!"))
            .collect();
        assert!(
            head.iter().any(|line| line.starts_with("//! Example")),
            "{name}: no example"
        );
    }
}
