//! The formula language from outside: what it gives, what it refuses and where, what never breaks.
//!
//! Expected figures are worked out beside each row; expected dimensions come from vectors of
//! exponents, which the language itself does not use. Here is what all of them read formulas with.
#![expect(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "helpers of tests; a wrong value ends the test"
)]

mod any_formula;
mod dimensions;
mod faults;
mod gives;

use std::collections::BTreeMap;

use faceside::diag::{Fault, Source, Span};
use faceside::formula::{Formula, Known, Outcome, Param, Scope, Signature, Values};
use faceside::units::{Angle, Feed, Kind, Length, RimSpeed, Spindle, Value};

fn read(text: &str) -> Result<Formula, Fault> {
    Formula::parse(text, &Span::whole(&Source::new("test", text)))
}

fn param(name: &str, kind: Kind, required: bool) -> Param {
    let words: &[&str] = if kind == Kind::Choice {
        &["soft", "hard"]
    } else {
        &[]
    };
    Param {
        name: name.to_owned(),
        kind,
        required,
        options: words.iter().map(|word| (*word).to_owned()).collect(),
    }
}

fn results() -> Vec<(String, Kind)> {
    vec![
        ("mouth".to_owned(), Kind::Length),
        ("fence_first".to_owned(), Kind::Length),
        ("passes".to_owned(), Kind::Count),
    ]
}

/// One name of every kind, a calculator, and the results of one.
fn scope() -> Scope {
    let words = ["left", "right"].map(str::to_owned).to_vec();
    let names = [
        ("side", Known::One(Kind::Length)),
        ("cutter.diameter", Known::One(Kind::Length)),
        ("slope", Known::One(Kind::Angle)),
        ("spin", Known::One(Kind::Speed)),
        ("rim", Known::One(Kind::RimSpeed)),
        ("feed", Known::One(Kind::Feed)),
        ("pins", Known::One(Kind::Count)),
        ("ratio", Known::One(Kind::Number)),
        ("ready", Known::One(Kind::Truth)),
        ("hand", Known::Choice(words)),
        ("places", Known::One(Kind::Lengths)),
        ("cutter.marked_speed", Known::Maybe(Kind::Speed)),
        ("cut", Known::Results(results())),
    ];
    Scope {
        names: names
            .map(|(name, known)| (name.to_owned(), known))
            .into_iter()
            .collect(),
        calls: vec![Signature {
            name: "housing".to_owned(),
            params: vec![
                param("width", Kind::Length, true),
                param("cutter", Kind::Length, true),
                param("from", Kind::Length, false),
                param("wood", Kind::Choice, false),
                param("marked", Kind::Speed, false),
                param("factor", Kind::Number, false),
                param("count", Kind::Count, false),
            ],
            results: results(),
        }],
    }
}

fn values() -> Values {
    let named = [
        ("side", Value::Length(Length::nm(19_000_000))),
        ("cutter.diameter", Value::Length(Length::nm(12_000_000))),
        ("slope", Value::Angle(Angle::degrees(14.0))),
        ("spin", Value::Speed(Spindle::rpm(18_000.0))),
        ("rim", Value::RimSpeed(RimSpeed::metres_per_second(40.0))),
        ("feed", Value::Feed(Feed::metres_per_minute(3.0))),
        ("pins", Value::Count(7)),
        ("ratio", Value::Number(0.25)),
        ("ready", Value::Truth(true)),
        ("hand", Value::Choice("left".to_owned())),
        ("places", Value::Lengths(vec![Length::nm(5)])),
        ("cut.mouth", Value::Length(Length::nm(9_000_000))),
        ("cut.passes", Value::Count(2)),
    ];
    let mut values: Values = named
        .map(|(name, value)| (name.to_owned(), value))
        .into_iter()
        .collect();
    values.leave_out("cutter.marked_speed");
    values
}

/// Stands for a calculator: gives back its width as the mouth, `from` as the fence when given,
/// and as passes how many arguments it was given.
fn call(_: &str, given: BTreeMap<String, Value>) -> Result<BTreeMap<String, Value>, Fault> {
    let mut results = BTreeMap::new();
    results.insert("passes".to_owned(), Value::Count(given.len() as i64));
    if let Some(width) = given.get("width") {
        results.insert("mouth".to_owned(), width.clone());
    }
    if let Some(from) = given.get("from") {
        results.insert("fence_first".to_owned(), from.clone());
    }
    Ok(results)
}

/// Reads, checks and runs.
fn worked(text: &str) -> Result<Value, Fault> {
    let formula = read(text)?;
    let known = formula.check(&scope())?;
    match formula.run(&values(), &call)? {
        Outcome::One(value) => {
            assert!(known.does_for(value.kind()) || value.kind() == Kind::Count);
            Ok(value)
        }
        Outcome::Results(_) => panic!("{text}: one value is wanted"),
    }
}

/// The fault in one line: place, code, message, marked text, label, second place, hints.
fn shown(fault: &Fault) -> String {
    let span = fault.span.as_ref().unwrap();
    let (line, column) = span.line_column();
    let mut text = format!(
        "{line}:{column} {} `{}`: {}",
        fault.code.name(),
        span.text(),
        fault.message
    );
    if !fault.label.is_empty() {
        text += &format!(" [{}]", fault.label);
    }
    for (span, words) in &fault.also {
        let (line, column) = span.line_column();
        text += &format!(" {line}:{column} `{}` [{words}]", span.text());
    }
    for hint in &fault.hints {
        text += &format!(" = {hint}");
    }
    text
}

/// Pairs of lines: a formula (`\\n` for a line break), and how its fault begins.
#[track_caller]
fn refused(rows: &str) {
    let lines: Vec<_> = rows.trim_matches('\n').lines().map(str::trim).collect();
    assert_eq!(lines.len() % 2, 0, "a formula without its fault");
    for pair in lines.chunks(2) {
        let text = pair[0].replace("\\n", "\n");
        let fault = worked(&text).expect_err(&text);
        let found = shown(&fault);
        assert!(found.starts_with(pair[1]), "{text}\n  gave {found}");
    }
}
