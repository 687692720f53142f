//! How fast the calculators are, called directly and through a formula; `cargo bench --bench
//! calculators` prints the table.
//!
//! For each entry of the table, with the values of its worked example: `run`, its function alone on
//! values that were checked before; `work_out`, the direct call with typed values, names, kinds and
//! ranges checked (what the command line does after reading); `formula`, a formula that was parsed
//! and checked before, `name(input: input, ...)`, worked out with its names bound; its arguments go to
//! `work_out`, and what is said is gathered, as in a procedure. Medians of samples that take turns; the
//! ratio is the median of the ratios of neighbours, which share whatever else the machine was doing.
//!
//! Allocations of a call are counted after a thousand and after a hundred thousand calls; they must
//! be as many, and none may be kept. The bench fails when that breaks, or when a formula takes over
//! three times the direct call. Without `--bench` (as `cargo test --benches` starts it) few calls are
//! made and the times are not judged.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::print_stdout,
    reason = "a bench prints its table, and stops by a panic"
)]

use std::alloc::System;
use std::cell::RefCell;
use std::collections::BTreeMap;
use std::hint::black_box;
use std::process::ExitCode;
use std::time::{Duration, Instant};

use faceside::diag::{Fault, Source, Span};
use faceside::formula::{Formula, Known, Outcome, Scope, Values};
use faceside::joints::{self, Answer, Calculator, Effort};
use faceside::units::{Unit, Value, parse};
use stats_alloc::{INSTRUMENTED_SYSTEM, Region, StatsAlloc};

#[global_allocator]
static ALLOCATOR: &StatsAlloc<System> = &INSTRUMENTED_SYSTEM;

/// A formula may take so many times the direct call.
const RATIO_MOST: f64 = 3.0;

/// How much is measured.
struct Amount {
    samples: usize,
    of: Duration,
    repetitions: [usize; 2],
}

const FULL: Amount = Amount {
    samples: 301,
    of: Duration::from_micros(200),
    repetitions: [1_000, 100_000],
};

const SHORT: Amount = Amount {
    samples: 3,
    of: Duration::from_micros(100),
    repetitions: [10, 100],
};

/// A calculator with all that its three calls need, made before any is timed.
struct Case {
    calculator: &'static Calculator,
    values: BTreeMap<String, Value>,
    answer: Answer,
    formula: Formula,
    bound: Values,
    said: RefCell<Said>,
}

impl Case {
    fn new(calculator: &'static Calculator) -> Self {
        let read = |(name, text): &(&str, &str)| {
            let kind = calculator.input(name).expect("an input").kind;
            let value = parse(text, kind, Unit::Mm).expect("a quantity");
            ((*name).to_owned(), value)
        };
        let values: BTreeMap<_, _> = calculator.example.iter().map(read).collect();
        let arguments: Vec<_> = values
            .keys()
            .map(|name| format!("{name}: {name}"))
            .collect();
        let text = format!("{}({})", calculator.formula_name(), arguments.join(", "));
        let span = Span::whole(&Source::new("bench.yaml", text.as_str()));
        let formula = Formula::parse(&text, &span).expect("a formula");
        let known = values
            .iter()
            .map(|(name, value)| (name.clone(), Known::One(value.kind())));
        let scope = Scope {
            names: known.collect(),
            calls: vec![calculator.signature()],
        };
        formula.check(&scope).expect("a sound formula");
        let case = Self {
            calculator,
            answer: joints::work_out(calculator, &values).expect("an answer"),
            bound: values.clone().into_iter().collect(),
            values,
            formula,
            said: RefCell::new(Said {
                effort: Effort::NONE,
                sentences: Vec::new(),
            }),
        };
        case.agrees();
        case
    }

    /// The three calls give the same results.
    fn agrees(&self) {
        let alone = (self.calculator.run)(&self.answer.given).expect("results");
        assert_eq!(alone, self.answer.worked);
        let Ok(Outcome::Results(results)) = self.outcome() else {
            panic!("{}: no results", self.calculator.name);
        };
        assert!(
            results
                .iter()
                .map(|(name, value)| (name.as_str(), value))
                .eq(alone.results.iter().map(|(name, value)| (*name, value)))
        );
    }

    fn run(&self) {
        black_box((self.calculator.run)(black_box(&self.answer.given))).ok();
    }

    fn work_out(&self) {
        black_box(joints::work_out(self.calculator, black_box(&self.values))).ok();
    }

    fn by_formula(&self) {
        black_box(self.outcome()).ok();
    }

    fn outcome(&self) -> Result<Outcome, Fault> {
        let call = |name: &str, given| call(&self.said, name, given);
        self.formula.run(black_box(&self.bound), &call)
    }
}

/// What calculators said, each sentence once, and what they ask of the cutters.
struct Said {
    effort: Effort,
    sentences: Vec<String>,
}

/// What a formula of a procedure calls: the direct call with each value brought to its input's kind,
/// its results under names of their own, what it says gathered.
fn call(
    said: &RefCell<Said>,
    name: &str,
    given: BTreeMap<String, Value>,
) -> Result<BTreeMap<String, Value>, Fault> {
    let calculator = joints::find(name).expect("in the table");
    let answer = calculator.call(given)?;
    let mut said = said.borrow_mut();
    said.effort = said.effort.and(Effort::of(calculator, &answer));
    for sentence in answer
        .worked
        .warnings
        .into_iter()
        .chain(answer.worked.notes)
    {
        if !said.sentences.contains(&sentence) {
            said.sentences.push(sentence);
        }
    }
    let results = answer.worked.results.into_iter();
    Ok(results
        .map(|(name, value)| (name.to_owned(), value))
        .collect())
}

type Way = fn(&Case);

const WAYS: [Way; 3] = [Case::run, Case::work_out, Case::by_formula];

/// Seconds a call of each way, and the last of them over the one before; medians of samples that take
/// turns.
fn times(case: &Case, amount: &Amount) -> [f64; 4] {
    let calls = WAYS.map(|way| calls_in(case, way, amount.of));
    let mut samples = [const { Vec::new() }; 4];
    for _ in 0..amount.samples {
        let mut each = [0.0; 3];
        for ((way, calls), seconds) in WAYS.iter().zip(calls).zip(&mut each) {
            let begun = Instant::now();
            (0..calls).for_each(|_| way(case));
            *seconds = begun.elapsed().as_secs_f64() / f64::from(calls);
        }
        let [run, work_out, formula] = each;
        let round = [run, work_out, formula, formula / work_out];
        samples
            .iter_mut()
            .zip(round)
            .for_each(|(samples, sample)| samples.push(sample));
    }
    samples.map(|mut samples| {
        samples.sort_by(f64::total_cmp);
        samples[samples.len() / 2]
    })
}

/// How many calls fill the time of a sample; warms up by finding out.
fn calls_in(case: &Case, way: Way, time: Duration) -> u32 {
    let mut calls = 1;
    loop {
        let begun = Instant::now();
        (0..calls).for_each(|_| way(case));
        if begun.elapsed() >= time {
            return calls;
        }
        calls *= 2;
    }
}

/// Allocations of so many calls, and bytes kept after them.
fn allocations(case: &Case, way: Way, repetitions: usize) -> (usize, i128) {
    let region = Region::new(ALLOCATOR);
    (0..repetitions).for_each(|_| way(case));
    let change = region.change();
    // What a reallocation adds or takes is counted in bytes allocated or deallocated as well.
    let kept = change.bytes_allocated as i128 - change.bytes_deallocated as i128;
    (change.allocations + change.reallocations, kept)
}

/// Allocations a call of each way; none when they grow with repetition or bytes are kept.
fn steady(case: &Case, amount: &Amount) -> Option<[usize; 3]> {
    let mut each = [0; 3];
    for (way, each) in WAYS.into_iter().zip(&mut each) {
        let [few, many] = amount.repetitions.map(|repetitions| {
            let (count, kept) = allocations(case, way, repetitions);
            (kept == 0 && count % repetitions == 0).then_some(count / repetitions)
        });
        *each = few.filter(|few| many == Some(*few))?;
    }
    Some(each)
}

fn main() -> ExitCode {
    let full = std::env::args().any(|argument| argument == "--bench");
    let amount = if full { &FULL } else { &SHORT };
    println!("calls a second; allocations a call; formula over work_out");
    println!(
        "{:<20}{:>12}{:>12}{:>12}{:>7}{:>7}{:>7}{:>8}",
        "calculator", "run", "work_out", "formula", "run", "w_o", "form", "ratio"
    );
    let (mut worst, mut failed) = ((0.0, ""), Vec::new());
    for calculator in joints::ALL.iter().copied() {
        let (case, name) = (Case::new(calculator), calculator.name);
        let [run, work_out, formula, ratio] = times(&case, amount);
        if ratio > worst.0 {
            worst = (ratio, name);
        }
        if full && ratio > RATIO_MOST {
            failed.push(format!(
                "{name}: a formula takes {ratio:.2} times the direct call"
            ));
        }
        let allocations = steady(&case, amount);
        if allocations.is_none() {
            failed.push(format!(
                "{name}: allocations grow with repetition, or are kept"
            ));
        }
        let [a, b, c] = allocations.unwrap_or_default();
        let [run, work_out, formula] = [run, work_out, formula].map(f64::recip);
        println!(
            "{name:<20}{run:>12.0}{work_out:>12.0}{formula:>12.0}{a:>7}{b:>7}{c:>7}{ratio:>8.2}"
        );
    }
    println!(
        "worst ratio {:.2}, {}; {RATIO_MOST} is allowed",
        worst.0, worst.1
    );
    failed.iter().for_each(|words| println!("FAILED {words}"));
    if failed.is_empty() {
        ExitCode::SUCCESS
    } else {
        ExitCode::FAILURE
    }
}
