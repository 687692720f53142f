//! The calculators against worked figures, against an independent simulation of the cuts, and
//! against the rules that every entry of the table keeps.
//!
//! "joinery N" is the project's reference on joinery, section N: its figures were derived there in
//! Python, apart from this program, and in part simulated. Each check names the section or writes
//! its own derivation beside it.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a test and its helpers stop by a panic"
)]

mod any_input;
mod by_formula;
mod choosing;
mod closing;
mod corner_closing;
mod corner_figures;
mod corner_limits;
mod dovetail_figures;
mod edges;
mod first_cut;
mod frame_figures;
mod geometry;
mod limits;
mod other_figures;
mod part_figures;
mod part_limits;
mod refusals;
mod table;
mod tongue_figures;
mod warnings;
mod wood_figures;
#[cfg(feature = "program")]
mod worked;

use std::collections::BTreeMap;

use faceside::joints::{self, Answer, Calculator, Refusal, Stopped};
use faceside::units::{Length, Unit, Value, parse};

type Texts<'t> = &'t [(&'t str, &'t str)];

const DOVETAIL_INCH: Texts = &[
    ("stock", "0.75 in"),
    ("cutter", "0.5 in"),
    ("angle", "14 deg"),
    ("depth", "0.375 in"),
];
const DOVETAIL_MM: Texts = &[
    ("stock", "19 mm"),
    ("cutter", "12.7 mm"),
    ("angle", "14 deg"),
    ("depth", "9.5 mm"),
];
const ONE_SIDED_MM: Texts = &[
    ("stock", "19 mm"),
    ("cutter", "12.7 mm"),
    ("angle", "14 deg"),
    ("depth", "9.5 mm"),
    ("base", "17 mm"),
    ("straight", "12 mm"),
    ("from", "100 mm"),
];

/// The texts, with `more` in the place of those of the same name.
fn with<'t>(texts: Texts<'t>, more: Texts<'t>) -> Vec<(&'t str, &'t str)> {
    let kept = |(name, _): &&(&str, &str)| more.iter().all(|(other, _)| other != name);
    texts.iter().filter(kept).chain(more).copied().collect()
}

/// The texts without the one of that name.
fn without<'t>(texts: Texts<'t>, name: &str) -> Vec<(&'t str, &'t str)> {
    texts
        .iter()
        .filter(|(other, _)| *other != name)
        .copied()
        .collect()
}

#[track_caller]
fn calculator(name: &str) -> &'static Calculator {
    joints::find(name).expect("in the table")
}

#[track_caller]
fn values(calculator: &Calculator, texts: Texts) -> BTreeMap<String, Value> {
    let read = |(name, text): &(&str, &str)| {
        let kind = calculator.input(name).expect("an input").kind;
        (
            (*name).to_owned(),
            parse(text, kind, Unit::Mm).expect("a quantity"),
        )
    };
    texts.iter().map(read).collect()
}

#[track_caller]
fn answer(name: &str, texts: Texts) -> Answer {
    let calculator = calculator(name);
    joints::work_out(calculator, &values(calculator, texts)).expect("an answer")
}

#[track_caller]
fn refusal(name: &str, texts: Texts) -> Refusal {
    let calculator = calculator(name);
    match joints::work_out(calculator, &values(calculator, texts)) {
        Err(Stopped::Refused(refusal)) => refusal,
        other => panic!("{name} {texts:?}: not a refusal: {other:?}"),
    }
}

#[track_caller]
fn length(answer: &Answer, name: &str) -> Length {
    match answer.worked.results.get(name) {
        Some(Value::Length(length)) => *length,
        other => panic!("`{name}` is {other:?}"),
    }
}

#[track_caller]
fn lengths(answer: &Answer, name: &str) -> Vec<Length> {
    match answer.worked.results.get(name) {
        Some(Value::Lengths(lengths)) => lengths.clone(),
        other => panic!("`{name}` is {other:?}"),
    }
}

#[track_caller]
fn count(answer: &Answer, name: &str) -> i64 {
    match answer.worked.results.get(name) {
        Some(Value::Count(count)) => *count,
        other => panic!("`{name}` is {other:?}"),
    }
}

#[track_caller]
fn near(is: f64, wanted: f64) {
    assert!((is - wanted).abs() <= 1e-5, "{is} is not {wanted}");
}

#[track_caller]
fn shows(name: &str, texts: Texts, unit: Unit, wanted: &[(&str, f64)]) {
    let answer = answer(name, texts);
    for (result, wanted) in wanted {
        near(number(length(&answer, result), unit), *wanted);
    }
}

fn number(length: Length, unit: Unit) -> f64 {
    match unit {
        Unit::Mm => length.to_mm(),
        Unit::Inch => length.to_inches(),
    }
}

#[track_caller]
fn lists(name: &str, texts: Texts, result: &str, unit: Unit, wanted: &[f64]) {
    let is = lengths(&answer(name, texts), result);
    assert_eq!(is.len(), wanted.len());
    for (is, wanted) in is.iter().zip(wanted) {
        near(number(*is, unit), *wanted);
    }
}

/// The factor of the only influence whose words hold `part`.
#[track_caller]
fn factor(name: &str, texts: Texts, part: &str) -> f64 {
    let influences = answer(name, texts).influences(calculator(name));
    let found: Vec<_> = influences
        .iter()
        .filter(|i| i.what.contains(part))
        .collect();
    assert_eq!(found.len(), 1, "{part}: {influences:?}");
    found[0].factor
}
