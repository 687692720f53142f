//! Whatever is typed, and whatever is allowed: a word that names the input, or an answer in bounds,
//! and never a panic.
//!
//! Values of the wrong kind and size, already typed, are in `table.rs`; here they come as text. The
//! limits that answers are held to: no length over 100 m (`units`: the longest that is worked with),
//! no number that is not finite, nothing under nothing that is a size of wood or a setting.

use std::collections::{BTreeMap, BTreeSet};

use faceside::joints::{self, Answer, Calculator, Input, Stopped};
use faceside::units::{Amount, Angle, Feed, Kind, Length, RimSpeed, Spindle, Unit, Value, parse};
use proptest::prelude::*;
use proptest::strategy::ValueTree;
use proptest::test_runner::TestRunner;

use crate::table::around;
use crate::{Texts, answer, values};

/// What no input takes, with the kinds that it would be a value of (and may be in range).
const BAD: &[&str] = &[
    "",
    " ",
    "0",
    "-1",
    "-0",
    "0 mm",
    "-1 mm",
    "-5 deg",
    "-3 rpm",
    "-1 m/s",
    "-2 m/min",
    "-4 %",
    "-300 degC",
    "-1 N",
    "-1 GPa",
    "0 rpm",
    "0 m/s",
    "0 GPa",
    "0 N",
    "0 deg",
    "1e9",
    "1e400 mm",
    "99999 mm",
    "99999999999999999999 mm",
    "100000 ft",
    "999999999 rpm",
    "999999999 m/s",
    "999999999 m/min",
    "999999999 %",
    "999999999 degC",
    "999999999 kN",
    "999999999 GPa",
    "90 deg",
    "999999999",
    "999999999999999999999999",
    "nan",
    "NaN",
    "inf",
    "-inf",
    "infinity",
    "NaN mm",
    "inf mm",
    "inf deg",
    "NaN rpm",
    "inf %",
    "mm",
    "deg",
    "banana",
    "1,5 mm",
    "1/0 in",
    "0/0 in",
    "1 1 1 mm",
    "19 mm mm",
    "19 furlong",
    "- 1 mm",
    "--1 mm",
    "1..2 mm",
    ".",
    "/",
    "1/",
    "/2 in",
    "19mm;20mm",
    "\0",
    "\u{0}1 mm",
    "\n",
    "\t19 mm\t x",
    "𝔽",
    "𝟙𝟡 mm",
    "19 𝔪𝔪",
    "\u{1F600}",
    "١٩ mm",
    "\u{202e}mm 91",
    "\u{200f}19 mm",
    "\u{feff}19 mm",
    "19\u{a0}mm",
    "１９ mm",
    "é",
    "e\u{301}",
    "\"",
    "`",
    "$(x)",
    "{{7*7}}",
    "<b>",
    "../..",
    "%s%n",
    "\\",
    "yes",
    "no",
    "round or square",
    "ROUND",
    "0x10 mm",
    "1_000 mm",
    "+19 mm",
];

/// The size of a value in the unit of its kind; none of a word or a list.
fn size(value: &Value) -> Option<f64> {
    Some(match value {
        Value::Length(length) => length.to_nm() as f64,
        Value::Angle(angle) => angle.to_degrees(),
        Value::Speed(speed) => speed.to_rpm(),
        Value::RimSpeed(speed) => speed.to_metres_per_second(),
        Value::Feed(feed) => feed.to_metres_per_minute(),
        Value::Amount(amount) => amount.to_base(),
        Value::Count(count) => *count as f64,
        Value::Number(number) => *number,
        Value::Choice(_) | Value::Truth(_) | Value::Lengths(_) => return None,
    })
}

fn range(input: &Input) -> (f64, f64) {
    let end = |text| size(&parse(text, input.kind, Unit::Mm).unwrap()).unwrap();
    (end(input.range.0), end(input.range.1))
}

fn is_allowed(input: &Input, value: &Value) -> bool {
    match (value, size(value)) {
        (Value::Choice(word), _) => input.options().contains(&word.as_str()),
        (_, Some(size)) => {
            let (least, most) = range(input);
            least <= size && size <= most
        }
        _ => false,
    }
}

/// One text for one input, all others sound: a fault that helps, or a value that the range allows.
fn try_text(calculator: &'static Calculator, input: &'static Input, text: &str) {
    let shown = format!("{} {}={text:?}", calculator.name, input.name);
    let value = match parse(text, input.kind, Unit::Mm) {
        Ok(value) => value,
        Err(fault) => {
            // Which input it was is said by whoever holds the text: see the program below.
            assert!(
                !fault.message.is_empty() && !fault.hints.is_empty(),
                "{shown}"
            );
            return;
        }
    };
    let mut given = around(calculator, input);
    given.insert(input.name.to_owned(), value.clone());
    match joints::work_out(calculator, &given) {
        Err(Stopped::Fault(fault)) => {
            assert!(!is_allowed(input, &value), "{shown}: {fault:?}");
            assert!(
                fault.message.contains(input.name),
                "{shown}: {}",
                fault.message
            );
            assert!(!fault.hints.is_empty(), "{shown}");
        }
        Err(Stopped::Refused(refusal)) => {
            assert!(is_allowed(input, &value), "{shown}: {refusal:?}");
        }
        Ok(answer) => {
            assert!(is_allowed(input, &value), "{shown}: it was taken");
            sound(calculator, &answer, &shown);
        }
    }
}

fn inputs() -> impl Iterator<Item = (&'static Calculator, &'static Input)> {
    let own = |calculator: &&'static Calculator| {
        let calculator = *calculator;
        calculator
            .inputs
            .iter()
            .map(move |input| (calculator, input))
    };
    joints::ALL.iter().flat_map(own)
}

#[test]
fn bad_texts_are_refused_by_every_input() {
    for (calculator, input) in inputs() {
        for text in BAD {
            try_text(calculator, input, text);
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(32))]

    // Any characters, any bytes, and texts that are nearly a quantity: each to every input.
    #[test]
    fn any_text_is_refused_or_in_range(
        characters in any::<String>(),
        bytes in prop::collection::vec(any::<u8>(), 0..24),
        nearly in "[-+]?[0-9]{0,12}[./ ]?[0-9]{0,12} ?(mm|in|ft|deg|rpm|m/s|m/min|%|degF|kg|GPa|psi|)",
    ) {
        let bytes = String::from_utf8_lossy(&bytes);
        for (calculator, input) in inputs() {
            for text in [characters.as_str(), &bytes, &nearly] {
                try_text(calculator, input, text);
            }
        }
    }
}

/// The built program, once for each input: it ends with a fault that names the input, whichever
/// text of the list it is; a text that the input takes is passed over.
#[cfg(feature = "program")]
#[test]
fn the_program_names_the_input_of_a_bad_text() {
    let all: Vec<_> = inputs().enumerate().collect();
    // Several at a time: each run opens the whole library of procedures.
    std::thread::scope(|scope| {
        for some in all.chunks(all.len() / 4 + 1) {
            scope.spawn(move || {
                for (at, (calculator, input)) in some {
                    run_with_bad_text(calculator, input, *at);
                }
            });
        }
    });
}

#[cfg(feature = "program")]
fn run_with_bad_text(calculator: &Calculator, input: &Input, at: usize) {
    // No argument of a command holds a zero byte.
    let texts: Vec<_> = BAD.iter().filter(|text| !text.contains('\0')).collect();
    let is_bad = |text: &&&&str| match parse(text, input.kind, Unit::Mm) {
        Ok(value) => !is_allowed(input, &value),
        Err(_) => true,
    };
    let mut turned = texts.iter().cycle().skip(at * 7).take(texts.len());
    let text = turned.find(is_bad).expect("a bad text");
    let others = calculator.example.iter();
    let others = others.filter(|(name, _)| *name != input.name);
    let others = others.filter(|(name, _)| !is_other_set(calculator, input.name, name));
    let output = std::process::Command::new(env!("CARGO_BIN_EXE_faceside"))
        .env_remove("FACESIDE_SHOP")
        .args(["figure", calculator.name, &format!("{}={text}", input.name)])
        .args(others.map(|(name, text)| format!("{name}={text}")))
        .output()
        .unwrap();
    let said = String::from_utf8(output.stderr).unwrap();
    let shown = format!("{} {}={text:?}: {said}", calculator.name, input.name);
    assert!(matches!(output.status.code(), Some(1 | 2)), "{shown}");
    assert!(
        said.starts_with("error[") && said.contains(input.name),
        "{shown}"
    );
}

/// Whether `other` belongs to another set of alternatives than `name`.
#[cfg(feature = "program")]
fn is_other_set(calculator: &Calculator, name: &str, other: &str) -> bool {
    let of = |name| calculator.one_of.iter().position(|set| set.contains(&name));
    matches!((of(name), of(other)), (Some(one), Some(two)) if one != two)
}

/// Results that may lie below nothing by what they mean, each met by the values beside it.
const BELOW_NOTHING: &[(&str, &str, Texts)] = &[
    // From the centre line: passes nearer the fence are minus.
    (
        "housing",
        "offsets",
        &[("width", "17.7 mm"), ("cutter", "12 mm")],
    ),
    // The face of b lies below that of a when both are cut deeper than half: 19 - 2 x 9.6 = -0.2.
    (
        "halving",
        "step",
        &[
            ("stock_a", "19 mm"),
            ("stock_b", "19 mm"),
            ("width", "50 mm"),
            ("height", "9.6 mm"),
        ],
    ),
    // Wood that dries becomes narrower.
    (
        "movement",
        "change",
        &[
            ("width", "232 mm"),
            ("from", "11 %"),
            ("to", "8 %"),
            ("coefficient", "0.00245"),
        ],
    ),
    // A panel that has drifted out of the other groove: 300 + 2 x 3 = 306 wet, 304.5 dry by 0.5 %,
    // less 300 and 6 (the groove) is under nothing.
    (
        "frame-panel",
        "hold_drifted",
        &[
            ("opening", "300 mm"),
            ("groove", "6 mm"),
            ("coefficient", "0.0025"),
            ("rise", "1 %"),
            ("fall", "1 %"),
            ("clearance", "3 mm"),
        ],
    ),
];

#[test]
fn what_may_be_below_nothing_can_be() {
    for (name, result, texts) in BELOW_NOTHING {
        let answer = answer(name, texts);
        let below = match &answer.worked.results[result] {
            Value::Length(length) => length.is_negative(),
            Value::Lengths(lengths) => lengths.iter().any(|length| length.is_negative()),
            other => panic!("{name} {result}: {other:?}"),
        };
        assert!(below, "{name} {result}: strike it off the list");
    }
}

/// Every result is one of the table's, finite, in bounds, and not under nothing where it may not be.
fn sound(calculator: &Calculator, answer: &Answer, shown: &str) {
    for (name, value) in &answer.worked.results {
        let shown = format!("{shown}: {name} {value:?}");
        let output = calculator.output(name).expect("in the table");
        assert_eq!(output.kind, value.kind(), "{shown}");
        let may_be_below = BELOW_NOTHING
            .iter()
            .any(|(of, result, _)| (*of, *result) == (calculator.name, *name));
        let lengths = match value {
            Value::Length(length) => vec![*length],
            Value::Lengths(lengths) => lengths.clone(),
            _ => Vec::new(),
        };
        for length in lengths {
            assert!(length.abs() <= Length::MOST, "{shown}");
            assert!(may_be_below || !length.is_negative(), "{shown}");
        }
        match value {
            Value::Count(count) => assert!((1..=1_000_000).contains(count), "{shown}"),
            Value::Lengths(lengths) => assert!(!lengths.is_empty(), "{shown}"),
            Value::Choice(word) => assert!(!word.is_empty(), "{shown}"),
            Value::Speed(_) | Value::RimSpeed(_) | Value::Feed(_) => {
                assert!(
                    size(value).is_some_and(|size| size > 0.0 && size.is_finite()),
                    "{shown}"
                );
            }
            _ => assert!(size(value).is_some_and(f64::is_finite), "{shown}"),
        }
    }
    let listed = |words: &str, all: &[&str]| all.iter().any(|own| words.starts_with(own));
    for warning in &answer.worked.warnings {
        assert!(listed(warning, calculator.warns), "{shown}: {warning}");
    }
}

/// Random whole numbers, one at a time.
struct Numbers(TestRunner);

impl Numbers {
    fn next(&mut self) -> u64 {
        any::<u64>()
            .new_tree(&mut self.0)
            .expect("a number")
            .current()
    }

    fn share(&mut self) -> f64 {
        self.next() as f64 / u64::MAX as f64
    }

    /// A value in the input's range: an end, evenly, or with small ones as likely as large ones.
    fn value(&mut self, input: &Input) -> Value {
        if input.kind == Kind::Choice {
            let options = input.options();
            let at = self.next() as usize % options.len();
            return Value::Choice(options[at].to_owned());
        }
        let (least, most) = range(input);
        let share = self.share();
        let above = least.max(most * 1e-3);
        let size = match self.next() % 16 {
            0 => least,
            1 => most,
            2..9 => least + (most - least) * share,
            _ => above * libm::pow(most / above, share),
        };
        of_size(input.kind, size.clamp(least, most))
    }
}

fn of_size(kind: Kind, size: f64) -> Value {
    match kind {
        Kind::Length => Value::Length(Length::nm(size.round() as i64)),
        Kind::Angle => Value::Angle(Angle::degrees(size)),
        Kind::Speed => Value::Speed(Spindle::rpm(size)),
        Kind::RimSpeed => Value::RimSpeed(RimSpeed::metres_per_second(size)),
        Kind::Feed => Value::Feed(Feed::metres_per_minute(size)),
        Kind::Amount(measure) => Value::Amount(Amount::new(measure, size)),
        Kind::Count => Value::Count(size.round() as i64),
        Kind::Number => Value::Number(size),
        Kind::Choice | Kind::Truth | Kind::Lengths => panic!("no input is {}", kind.words()),
    }
}

/// Which inputs are given: every choice of the optional ones, with every set of alternatives.
fn combinations(calculator: &'static Calculator) -> Vec<Vec<&'static Input>> {
    let in_a_set = |input: &&Input| {
        calculator
            .one_of
            .iter()
            .any(|set| set.contains(&input.name))
    };
    let alone = calculator.inputs.iter().filter(|input| !in_a_set(input));
    let (must, may): (Vec<_>, Vec<_>) = alone.partition(|input| input.is_required());
    let input = |name: &&'static str| calculator.input(name).expect("an input");
    let sets = calculator
        .one_of
        .iter()
        .map(|set| set.iter().map(input).collect());
    let mut sets: Vec<Vec<_>> = sets.collect();
    if sets.is_empty() {
        sets.push(Vec::new());
    }
    let mut all = Vec::new();
    for set in &sets {
        for choice in 0..1_usize << may.len() {
            let taken = may
                .iter()
                .enumerate()
                .filter(|(at, _)| choice >> at & 1 == 1);
            let taken = taken.map(|(_, input)| *input);
            all.push(must.iter().chain(set).copied().chain(taken).collect());
        }
    }
    all
}

/// Draws for each calculator, at least; each combination of inputs takes part.
const DRAWS: usize = 1_200;

#[test]
fn what_the_ranges_allow_gives_an_answer_in_bounds_or_a_listed_refusal() {
    let mut numbers = Numbers(TestRunner::default());
    for calculator in joints::ALL.iter().copied() {
        let combinations = combinations(calculator);
        let (mut answers, mut met) = (0, BTreeSet::new());
        let draws = DRAWS.max(combinations.len());
        for inputs in combinations.iter().cycle().take(draws) {
            let draw = |input: &&Input| (input.name.to_owned(), numbers.value(input));
            let given: BTreeMap<_, _> = inputs.iter().map(draw).collect();
            let shown = format!("{} {given:?}", calculator.name);
            match joints::work_out(calculator, &given) {
                Ok(answer) => {
                    sound(calculator, &answer, &shown);
                    answers += 1;
                }
                Err(Stopped::Refused(refusal)) => {
                    let what = refusal.what.as_str();
                    assert!(calculator.refuses.contains(&what), "{shown}: {refusal:?}");
                    let parts = [&refusal.is, &refusal.may_be, &refusal.instead];
                    assert!(
                        parts.iter().all(|part| !part.is_empty()),
                        "{shown}: {refusal:?}"
                    );
                    let all = calculator.inputs;
                    let names = |text: &str| all.iter().any(|input| text.contains(input.name));
                    assert!(names(&refusal.is), "{shown}: {refusal:?}");
                    met.insert(refusal.what);
                }
                Err(Stopped::Fault(fault)) => panic!("{shown}: {fault:?}"),
            }
        }
        // So that the draws test answers as well as refusals.
        assert!(answers >= 20, "{}: {answers} of {draws}", calculator.name);
        assert!(!met.is_empty(), "{}: no draw was refused", calculator.name);
    }
}

// The example of a calculator is itself a sound answer.
#[test]
fn examples_are_in_bounds() {
    for calculator in joints::ALL.iter().copied() {
        let given = values(calculator, calculator.example);
        let answer = joints::work_out(calculator, &given).expect("an answer");
        sound(calculator, &answer, calculator.name);
    }
}
