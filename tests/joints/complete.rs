//! What every calculator has beside its entry: letters that stand in its sketch, a test of its figures,
//! and the same results when a formula calls it.
//!
//! That its refusals and warnings are met is `refusals.rs` and `warnings.rs`; that its texts are
//! there, that its ranges read and its example runs, `table.rs`.

use faceside::joints;
use faceside::units::{Kind, Unit, parse};

use crate::any_input::size;

/// The tests of figures; a calculator is named there as the text that it is called by.
const FIGURES: &[&str] = &[
    include_str!("corner_figures.rs"),
    include_str!("dovetail_figures.rs"),
    include_str!("frame_figures.rs"),
    include_str!("other_figures.rs"),
    include_str!("part_figures.rs"),
    include_str!("tongue_figures.rs"),
    include_str!("wood_figures.rs"),
];

#[test]
fn every_calculator_has_a_test_of_its_figures() {
    for calculator in joints::ALL {
        let name = format!("\"{}\"", calculator.name);
        let tests = FIGURES.iter().filter(|text| text.contains(&name));
        assert!(tests.count() > 0, "no test of figures names {name}");
    }
}

/// Whether the letters stand in the drawing by themselves, not inside a word.
fn stands_alone(letter: &str, sketch: &str) -> bool {
    let is_letter = |c: Option<char>| c.is_some_and(char::is_alphanumeric);
    sketch.match_indices(letter).any(|(at, _)| {
        let (before, after) = (&sketch[..at], &sketch[at + letter.len()..]);
        !is_letter(before.chars().next_back()) && !is_letter(after.chars().next())
    })
}

#[test]
fn every_letter_stands_in_the_sketch() {
    for calculator in joints::ALL {
        let inputs = calculator
            .inputs
            .iter()
            .map(|input| (input.name, input.letter));
        let results = calculator
            .results
            .iter()
            .map(|output| (output.name, output.letter));
        let lettered = inputs
            .chain(results)
            .filter(|(_, letter)| !letter.is_empty());
        for (name, letter) in lettered {
            let what = format!("{}: {name} {letter}", calculator.name);
            assert!(stands_alone(letter, calculator.sketch), "{what}");
        }
    }
}

#[test]
fn every_range_has_room() {
    for calculator in joints::ALL {
        let inputs = calculator.inputs.iter();
        for input in inputs.filter(|input| input.kind != Kind::Choice) {
            let end = |text| size(&parse(text, input.kind, Unit::Mm).unwrap());
            let (least, most) = (end(input.range.0), end(input.range.1));
            assert!(least < most, "{}: {}", calculator.name, input.name);
        }
    }
}

#[cfg(feature = "program")]
mod by_formula {
    //! Each calculator called by a formula, as a procedure calls it.

    use faceside::diag::{Source, Span};
    use faceside::formula::{Formula, Known, Outcome, Scope, Values};
    use faceside::procedure::{Calls, signatures};

    use faceside::joints::{self, Calculator};
    use faceside::units::Kind;

    use crate::{answer, calculator, values};

    /// `name(input: value, ...)` with values as typed (a word in quotes, a slope as its arc tangent),
    /// and with names in their place.
    fn texts(calculator: &Calculator) -> [String; 2] {
        let typed = calculator.example.iter().map(|(name, text)| {
            match (
                calculator.input(name).unwrap().kind,
                text.split_once(" in "),
            ) {
                (Kind::Choice, _) => format!("{name}: \"{text}\""),
                (Kind::Angle, Some((rise, run))) => format!("{name}: atan({rise} / {run})"),
                _ => format!("{name}: {text}"),
            }
        });
        let named = calculator
            .example
            .iter()
            .map(|(name, _)| format!("{name}: {name}"));
        let call = |arguments: Vec<String>| {
            format!("{}({})", calculator.formula_name(), arguments.join(", "))
        };
        [call(typed.collect()), call(named.collect())]
    }

    fn scope(calculator: &'static Calculator) -> (Scope, Values) {
        let given = values(calculator, calculator.example);
        let known = given
            .iter()
            .map(|(name, value)| (name.clone(), Known::One(value.kind())));
        let names = known.collect();
        let calls = signatures();
        (Scope { names, calls }, given.into_iter().collect())
    }

    fn formula(text: &str) -> Formula {
        Formula::parse(text, &Span::whole(&Source::new("test", text))).unwrap()
    }

    #[test]
    fn a_formula_gives_what_a_direct_call_gives() {
        for calculator in joints::ALL.iter().copied() {
            let (scope, values) = scope(calculator);
            let direct = answer(calculator.name, calculator.example).worked.results;
            for text in texts(calculator) {
                let formula = formula(&text);
                assert!(
                    matches!(formula.check(&scope), Ok(Known::Results(_))),
                    "{text}"
                );
                let calls = Calls::default();
                let outcome = formula.run(&values, &|name, given| calls.call(name, given));
                let Ok(Outcome::Results(results)) = outcome else {
                    panic!("{text}: {outcome:?}");
                };
                let names = results.iter().map(|(name, value)| (name.as_str(), value));
                assert!(
                    names.eq(direct.iter().map(|(name, value)| (*name, value))),
                    "{text}"
                );
            }
        }
    }

    // One result at a time, as procedures use them.
    #[test]
    fn every_result_of_the_example_can_be_picked() {
        for calculator in joints::ALL.iter().copied() {
            let (scope, values) = scope(calculator);
            let [_, text] = texts(calculator);
            for (name, value) in answer(calculator.name, calculator.example).worked.results {
                let formula = formula(&format!("{text}.{name}"));
                assert_eq!(
                    formula.check(&scope),
                    Ok(Known::One(value.kind())),
                    "{name}"
                );
                let calls = Calls::default();
                let outcome = formula.run(&values, &|name, given| calls.call(name, given));
                assert_eq!(outcome, Ok(Outcome::One(value)), "{text}.{name}");
            }
        }
    }

    // A missing input, a wrong name and a refusal are told through a formula as well.
    #[test]
    fn a_formula_tells_what_a_direct_call_tells() {
        let (scope, values) = scope(calculator("saw-ramp"));
        let fault = |text: &str| {
            let formula = formula(text);
            let calls = Calls::default();
            formula.check(&scope).err().unwrap_or_else(|| {
                formula
                    .run(&values, &|name, given| calls.call(name, given))
                    .unwrap_err()
            })
        };
        assert!(
            fault("saw_ramp(diameter: 200 mm)")
                .message
                .contains("`depth`")
        );
        assert!(
            fault("saw_ramp(diameter: 200 mm, deep: 9 mm)")
                .message
                .contains("`deep`")
        );
        assert!(
            fault("saw_ramp(diameter: 200 mm, depth: 9 deg)")
                .message
                .contains("`depth`")
        );
        assert!(
            fault("saw_ramp(diameter: 200 mm, depth: 100 mm)")
                .message
                .contains("does not reach")
        );
    }
}
