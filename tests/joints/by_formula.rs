//! Every calculator in the language of formulas, by its name there, gives what it gives directly.

use std::collections::BTreeMap;

use faceside::diag::{Fault, Source, Span};
use faceside::formula::{Formula, Known, Outcome, Scope, Values};
use faceside::joints::{self, Calculator};
use faceside::units::{Kind, Unit, Value, parse};

use crate::answer;

fn call(name: &str, given: BTreeMap<String, Value>) -> Result<BTreeMap<String, Value>, Fault> {
    let answer = joints::find(name).expect("in the table").call(given)?;
    let results = answer.worked.results.into_iter();
    Ok(results
        .map(|(name, value)| (name.to_owned(), value))
        .collect())
}

/// The kinds of a calculator's results, from its entry in the table.
fn kinds(calculator: &Calculator) -> Vec<(String, Kind)> {
    let results = calculator.results.iter();
    results.map(|out| (out.name.to_owned(), out.kind)).collect()
}

/// Whether a text is a slope, `1 in 6`: a formula has none, since `1 in` is a length there, and gets
/// it by a name.
fn is_slope(text: &str) -> bool {
    text.contains(" in ")
}

/// The slopes of an example by their inputs' names.
fn slopes(calculator: &Calculator) -> Values {
    let slopes = calculator.example.iter().filter(|(_, text)| is_slope(text));
    let value = |text| parse(text, Kind::Angle, Unit::Mm).expect("a slope");
    slopes
        .map(|(name, text)| ((*name).to_owned(), value(text)))
        .collect()
}

/// The example's values as a formula writes them: words in quotes.
fn written(calculator: &Calculator) -> String {
    let argument = |(name, text): &(&str, &str)| match calculator.input(name).expect("one").kind {
        Kind::Choice => format!("{name}: \"{text}\""),
        _ if is_slope(text) => format!("{name}: {name}"),
        _ => format!("{name}: {text}"),
    };
    let arguments: Vec<_> = calculator.example.iter().map(argument).collect();
    format!("{}({})", calculator.formula_name(), arguments.join(", "))
}

#[track_caller]
fn run(text: &str, scope: &Scope, values: &Values) -> (Known, Outcome) {
    let span = Span::whole(&Source::new("shop.yaml", text));
    let formula = Formula::parse(text, &span).expect(text);
    let known = formula.check(scope).expect(text);
    (known, formula.run(values, &call).expect(text))
}

#[test]
fn every_calculator_gives_the_same_by_formula() {
    let scope = Scope {
        calls: joints::ALL
            .iter()
            .map(|calculator| calculator.signature())
            .collect(),
        names: BTreeMap::from([("slope".to_owned(), Known::One(Kind::Angle))]),
    };
    for calculator in joints::ALL.iter().copied() {
        let wanted = answer(calculator.name, calculator.example).worked.results;
        let text = written(calculator);
        let (known, outcome) = run(&text, &scope, &slopes(calculator));
        assert_eq!(known, Known::Results(kinds(calculator)), "{text}");
        let Outcome::Results(results) = outcome else {
            panic!("{text}: {outcome:?}");
        };
        let own = wanted
            .iter()
            .map(|(name, value)| ((*name).to_owned(), value.clone()));
        assert_eq!(results, own.collect(), "{text}");
        for (name, value) in &wanted {
            let text = format!("{text}.{name}");
            let (known, outcome) = run(&text, &scope, &slopes(calculator));
            assert_eq!(known, Known::One(value.kind()), "{text}");
            assert_eq!(outcome, Outcome::One(value.clone()), "{text}");
        }
    }
}
