//! One calculation as text for the terminal and as JSON; the list of calculators; what one takes.
//!
//! Results are rounded to the reader's scale in the direction of their role, with what the rounding
//! took away; given values are shown in full. JSON carries the full figure beside what is shown:
//! lengths in mm to 0.000001 mm, which is what a length is made of.

use serde_json::{Map, Value as Json, json};

use super::layout::{columns, indented, items, section};
use crate::joints::{
    ALL, Absent, Answer, Calculator, FitBudget, Given, Influence, Origin, Output, Refusal, Worked,
};
use crate::units::{Length, Role, Scale, Towards, Unit, Value};

/// Width of a list of words, without its indent.
const WORDS_WIDE: usize = 76;

/// Every calculator, family by family, one line each.
pub fn list() -> String {
    let mut text = String::new();
    let mut family = "";
    for calculator in ALL {
        if calculator.family != family {
            family = calculator.family;
            text.push_str(&format!("{family}\n"));
        }
        text.push_str(&format!(
            "  {:<20}{}\n",
            calculator.name, calculator.summary
        ));
    }
    text
}

/// What a calculator takes and gives, what it refuses, and an example to type.
pub fn explain(calculator: &Calculator) -> String {
    let inputs = calculator.inputs.iter().map(|input| {
        let absent = match input.absent {
            Absent::Required => "must be given".to_owned(),
            Absent::Usual(text) => format!("usual {text}"),
            Absent::Derived(how) => format!("left out: {how}"),
        };
        let range = input.range_words();
        [input.name, input.letter, &range, &absent, input.meaning].map(str::to_owned)
    });
    let results = calculator.results.iter().map(|output| {
        let rounding = rounding_words(output);
        [output.name, output.letter, rounding, output.meaning].map(str::to_owned)
    });
    let typed = calculator
        .example
        .iter()
        .map(|(name, text)| format!(" {name}={}", text.replace(' ', "")));
    let sections = [
        format!("{}: {}\n", calculator.name, calculator.summary),
        section("Inputs", &columns(inputs)),
        section("Results", &columns(results)),
        many_options(calculator),
        section("Refuses when", &items(calculator.refuses)),
        section("Warns of", &items(calculator.warns)),
        section(
            "Example",
            &format!(
                "  faceside figure {}{}\n",
                calculator.name,
                typed.collect::<String>()
            ),
        ),
        section("Sketch", &indented(calculator.sketch)),
        section("Source", &indented(calculator.source)),
    ];
    sections.concat()
}

/// The words of each choice that has too many for its line, with their input over them.
fn many_options(calculator: &Calculator) -> String {
    let long = calculator
        .inputs
        .iter()
        .filter(|input| input.has_many_options());
    let sections = long.map(|input| {
        // A word is typed as it stands, so that no line may end at a hyphen inside it.
        let whole =
            textwrap::Options::new(WORDS_WIDE).word_splitter(textwrap::WordSplitter::NoHyphenation);
        let words = textwrap::fill(&input.options().join(", "), whole);
        section(&format!("Words for {}", input.name), &indented(&words))
    });
    sections.collect()
}

/// A calculation for the terminal: given, results, warnings, notes, fit, sketch, source.
pub fn table(
    calculator: &Calculator,
    answer: &Answer,
    budget: Option<&FitBudget>,
    scale: Scale,
) -> String {
    let fit = match budget {
        Some(budget) => budget_lines(budget, scale),
        None => influence_lines(&answer.influences(calculator)),
    };
    let sections = [
        format!("{}: {}\n", calculator.name, calculator.summary),
        section("Given", &given_lines(calculator, &answer.given, scale)),
        section("Results", &result_lines(calculator, &answer.worked, scale)),
        section("Beware", &items(&answer.worked.warnings)),
        section("Notes", &items(&answer.worked.notes)),
        section("Fit, plus is tighter", &fit),
        section("Sketch", &indented(calculator.sketch)),
        section("Source", &indented(calculator.source)),
    ];
    sections.concat()
}

/// A refusal for the terminal.
pub fn refused(calculator: &Calculator, refusal: &Refusal) -> String {
    let rows = [
        ["is", &refusal.is],
        ["may be", &refusal.may_be],
        ["instead", &refusal.instead],
    ];
    let head = format!("{}: refused, {}\n", calculator.name, refusal.what);
    head + &columns(rows.map(|row| row.map(str::to_owned)))
}

/// A calculation as JSON: `calculator`, `given`, `results`, `warnings`, `notes` and, for a joint
/// with a fit, `fit`.
pub fn json(
    calculator: &Calculator,
    answer: &Answer,
    budget: Option<&FitBudget>,
    scale: Scale,
) -> Json {
    let given: Map<_, _> = answer
        .given
        .iter()
        .map(|(name, value)| (name.to_owned(), json_value(value, &full(value, scale))))
        .collect();
    let results: Map<_, _> = results_in_order(calculator, &answer.worked)
        .map(|(output, value)| (output.name.to_owned(), json_result(output, value, scale)))
        .collect();
    let mut whole = json!({
        "calculator": calculator.name,
        "given": given,
        "results": results,
        "warnings": answer.worked.warnings,
        "notes": answer.worked.notes,
    });
    if calculator.fit.is_some() {
        whole["fit"] = match budget {
            Some(budget) => json_budget(budget, scale),
            None => {
                let influences = answer.influences(calculator);
                json!({ "influences": influences.iter().map(json_influence).collect::<Vec<_>>() })
            }
        };
    }
    whole
}

/// A refusal as JSON: `calculator` and `refused`.
pub fn json_refused(calculator: &Calculator, refusal: &Refusal) -> Json {
    json!({
        "calculator": calculator.name,
        "refused": {
            "what": refusal.what,
            "is": refusal.is,
            "may_be": refusal.may_be,
            "instead": refusal.instead,
        },
    })
}

fn given_lines(calculator: &Calculator, given: &Given, scale: Scale) -> String {
    let rows = calculator.inputs.iter().filter_map(|input| {
        let value = given.get(input.name)?;
        let from = if given.is_usual(input.name) {
            "usual"
        } else {
            "given"
        };
        let shown = full(value, scale);
        Some([input.name, input.letter, &shown, from, input.meaning].map(str::to_owned))
    });
    columns(rows)
}

fn result_lines(calculator: &Calculator, worked: &Worked, scale: Scale) -> String {
    let rows = results_in_order(calculator, worked).map(|(output, value)| {
        let rounding = match value {
            Value::Length(length) => {
                let remainder = scale.show(*length, output.role.towards()).remainder;
                remainder_words(output, remainder, scale)
            }
            Value::Count(_) => String::new(),
            _ => rounding_words(output).to_owned(),
        };
        let shown = shown(output, value, scale);
        [
            output.name,
            output.letter,
            &shown,
            &rounding,
            output.meaning,
        ]
        .map(str::to_owned)
    });
    columns(rows)
}

fn remainder_words(output: &Output, remainder: Length, scale: Scale) -> String {
    if remainder == Length::ZERO {
        return "exact".to_owned();
    }
    let words = rounding_words(output);
    format!("{words}, remainder {}", full_length(remainder, scale))
}

/// How a result is rounded, which a word is not; a list of an opening's passes rounds its first item the other way.
fn rounding_words(output: &Output) -> &'static str {
    match output.towards_at(0) {
        _ if output.kind == crate::units::Kind::Choice => "",
        towards if towards == output.role.towards() => output.role.words(),
        _ if output.kind == crate::units::Kind::Lengths => "first rounded up, others down",
        _ => output.role.words(),
    }
}

fn results_in_order<'w>(
    calculator: &'w Calculator,
    worked: &'w Worked,
) -> impl Iterator<Item = (&'w Output, &'w Value)> {
    let results = &worked.results;
    calculator
        .results
        .iter()
        .filter_map(|output| Some((output, results.get(output.name)?)))
}

fn influence_lines(influences: &[Influence]) -> String {
    columns(
        influences
            .iter()
            .map(|influence| [influence.what.to_owned(), factor_words(influence)]),
    )
}

fn factor_words(influence: &Influence) -> String {
    // Adding zero turns a minus zero into a plain one.
    let factor = to_millionth(influence.factor) + 0.0;
    match influence.origin {
        Origin::CutterAngle => format!("{factor:+.4} mm a degree"),
        _ => format!("{factor:+.4} times"),
    }
}

fn budget_lines(budget: &FitBudget, scale: Scale) -> String {
    let rows = budget.lines.iter().map(|line| {
        [
            line.influence.what.to_owned(),
            factor_words(&line.influence),
            format!("error {}", full(&line.error, scale)),
            format!("effect {}", fine(line.effect, scale)),
            format!("{:.0} %", line.share * 100.0),
        ]
    });
    let largest = budget.largest.unwrap_or("none");
    columns(rows)
        + &format!("  largest: {largest}\n")
        + &format!("  worst case: {}\n", fine(budget.worst, scale))
        + &format!(
            "  root of the sum of squares: {}\n",
            fine(budget.root_sum_square, scale)
        )
        + &first_cut_words(budget, scale)
}

/// How the first cut may turn out, when what enters is given.
fn first_cut_words(budget: &FitBudget, scale: Scale) -> String {
    let Some(cut) = budget.first_cut else {
        return String::new();
    };
    let percent = |chance: f64| format!("{:.0} %", chance * 100.0);
    let (least, most) = (budget.press.least, budget.press.most);
    let (least, most) = (fine(least, scale), fine(most, scale));
    format!(
        "  first cut: hand press {} (clearance {least} to {most}), too tight {}, too loose {}\n  \
         reckoned with each error anywhere within its bound (JCGM 100:2008, 4.3.7)\n",
        percent(cut.press),
        percent(cut.tight),
        percent(cut.loose)
    )
}

fn json_result(output: &Output, value: &Value, scale: Scale) -> Json {
    match value {
        Value::Lengths(lengths) => lengths
            .iter()
            .enumerate()
            .map(|(index, length)| {
                let text = scale.show(*length, output.towards_at(index)).text;
                json_value(&Value::Length(*length), &text)
            })
            .collect(),
        _ => json_value(value, &shown(output, value, scale)),
    }
}

fn json_value(value: &Value, shown: &str) -> Json {
    match value {
        Value::Length(length) => json!({"kind": "length", "mm": length.to_mm(), "shown": shown}),
        Value::Angle(angle) => {
            json!({"kind": "angle", "deg": to_millionth(angle.to_degrees()), "shown": shown})
        }
        Value::Speed(speed) => {
            json!({"kind": "speed", "rpm": to_millionth(speed.to_rpm()), "shown": shown})
        }
        Value::RimSpeed(speed) => {
            let speed = to_millionth(speed.to_metres_per_second());
            json!({"kind": "rim-speed", "m_per_s": speed, "shown": shown})
        }
        Value::Feed(feed) => {
            let feed = to_millionth(feed.to_metres_per_minute());
            json!({"kind": "feed", "m_per_min": feed, "shown": shown})
        }
        Value::Amount(amount) => {
            let (kind, key) = amount.measure().json_names();
            json!({"kind": kind, key: to_millionth(amount.to_base()), "shown": shown})
        }
        Value::Count(count) => json!({"kind": "count", "count": count, "shown": shown}),
        Value::Number(number) => {
            json!({"kind": "number", "number": to_millionth(*number), "shown": shown})
        }
        Value::Choice(word) => json!({"kind": "choice", "choice": word, "shown": shown}),
        Value::Truth(truth) => json!({"kind": "truth", "truth": truth, "shown": shown}),
        Value::Lengths(lengths) => lengths
            .iter()
            .map(|length| json!({"kind": "length", "mm": length.to_mm()}))
            .collect(),
    }
}

fn json_influence(influence: &Influence) -> Json {
    json!({
        "what": influence.what,
        "origin": influence.origin.word(),
        "factor": to_millionth(influence.factor) + 0.0,
    })
}

fn json_budget(budget: &FitBudget, scale: Scale) -> Json {
    let length = |length: Length| json_value(&Value::Length(length), &fine(length, scale));
    let lines = budget.lines.iter().map(|line| {
        let mut json = json_influence(&line.influence);
        json["error"] = json_value(&line.error, &full(&line.error, scale));
        json["effect"] = length(line.effect);
        json["share"] = to_millionth(line.share).into();
        json
    });
    let first_cut = budget.first_cut.map(|cut| {
        json!({
            "hand_press": to_millionth(cut.press),
            "too_tight": to_millionth(cut.tight),
            "too_loose": to_millionth(cut.loose),
        })
    });
    json!({
        "influences": lines.collect::<Vec<_>>(),
        "largest": budget.largest,
        "worst": length(budget.worst),
        "root_sum_square": length(budget.root_sum_square),
        "hand_press": {"least": length(budget.press.least), "most": length(budget.press.most)},
        "first_cut": first_cut,
    })
}

/// A result rounded in the direction of its role.
fn shown(output: &Output, value: &Value, scale: Scale) -> String {
    match value {
        Value::Length(length) => scale.show(*length, output.role.towards()).text,
        Value::Lengths(lengths) => {
            let items = lengths.iter().enumerate();
            let texts = items.map(|(at, length)| scale.show(*length, output.towards_at(at)).text);
            texts.collect::<Vec<_>>().join("; ")
        }
        Value::Speed(speed) if output.role == Role::Speed => {
            format!("{:.0} rpm", (speed.to_rpm() + 1e-6).floor())
        }
        Value::Feed(feed) if output.role == Role::Speed => {
            let tenths = (feed.to_metres_per_minute() * 10.0 + 1e-6).floor();
            format!("{:.1} m/min", tenths / 10.0)
        }
        Value::RimSpeed(speed) => format!("{:.2} m/s", speed.to_metres_per_second()),
        Value::Number(number) => format!("{number:.4}"),
        Value::Amount(amount) => {
            let (number, unit) = amount.usual(scale.unit());
            format!("{number:.1} {unit}")
        }
        _ => full(value, scale),
    }
}

/// A value as it is, without rounding that would matter.
fn full(value: &Value, scale: Scale) -> String {
    let unit = |number: f64, unit: &str| format!("{} {unit}", to_millionth(number));
    match value {
        Value::Length(length) => full_length(*length, scale),
        Value::Lengths(lengths) => {
            let texts = lengths.iter().map(|length| full_length(*length, scale));
            texts.collect::<Vec<_>>().join("; ")
        }
        Value::Angle(angle) => unit(angle.to_degrees(), "deg"),
        Value::Speed(speed) => unit(speed.to_rpm(), "rpm"),
        Value::RimSpeed(speed) => unit(speed.to_metres_per_second(), "m/s"),
        Value::Feed(feed) => unit(feed.to_metres_per_minute(), "m/min"),
        Value::Amount(amount) => {
            let (number, name) = amount.usual(scale.unit());
            unit(number, name)
        }
        Value::Count(count) => count.to_string(),
        Value::Number(number) => to_millionth(*number).to_string(),
        Value::Choice(word) => word.clone(),
        Value::Truth(true) => "yes".to_owned(),
        Value::Truth(false) => "no".to_owned(),
    }
}

/// A length as the scale shows it when it is on the scale, else as a decimal of the scale's unit to
/// its last digit.
fn full_length(length: Length, scale: Scale) -> String {
    let shown = scale.show(length, Towards::Nearest);
    if shown.remainder == Length::ZERO && !matches!(scale, Scale::Mm { .. }) {
        return shown.text;
    }
    match scale.unit() {
        Unit::Mm => format!("{} mm", length.to_mm()),
        Unit::Inch => format!("{} in", to_millionth(length.to_inches())),
    }
}

/// A small length to 0.001 mm or 0.0001 in.
fn fine(length: Length, scale: Scale) -> String {
    let step = match scale.unit() {
        Unit::Mm => Length::nm(1_000),
        Unit::Inch => Length::nm(2_540),
    };
    Scale::new(scale.unit(), step)
        .show(length, Towards::Nearest)
        .text
}

fn to_millionth(number: f64) -> f64 {
    (number * 1e6).round() / 1e6
}
