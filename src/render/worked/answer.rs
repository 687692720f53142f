//! A calculation, or its refusal, for the terminal.

use super::super::layout::{items, paragraph, section, table as rows, wrapped};
use super::drawn::drawn;
use super::show::{fine, full, full_length, rounding_words, show_length, shown, to_millionth};
use crate::joints::{
    Absent, Answer, Calculator, FirstCut, FitBudget, Given, Influence, Origin, Output, Refusal,
    Worked,
};
use crate::units::{Length, Scale, Value};

/// A value of more letters stands above its meaning, not beside it.
const MOST_BESIDE: usize = 24;

/// A calculation for the terminal: given, results, warnings, notes, fit, sketch with its letters,
/// source.
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
        wrapped(
            &format!("{}: {}", calculator.name, calculator.summary),
            "",
            "  ",
        ),
        section("Given", &given_lines(calculator, &answer.given, scale)),
        section("Results", &result_lines(calculator, &answer.worked, scale)),
        section("Beware", &items(&answer.worked.warnings)),
        section("Notes", &items(&answer.worked.notes)),
        section("Fit, plus is tighter", &fit),
        section("Sketch", &drawn(calculator, answer, scale)),
        section("Source", &paragraph(calculator.source)),
    ];
    sections.concat()
}

/// A refusal for the terminal.
pub fn refused(calculator: &Calculator, refusal: &Refusal) -> String {
    let lines = [
        ("is", &refusal.is),
        ("may be", &refusal.may_be),
        ("instead", &refusal.instead),
    ];
    let head = format!("{}: refused, {}", calculator.name, refusal.what);
    let lines = lines.map(|(name, words)| ([name.to_owned()], vec![words.clone()]));
    wrapped(&head, "", "  ") + &rows(lines)
}

/// Every input that has a value, and those that were left out with what stands for them.
fn given_lines(calculator: &Calculator, given: &Given, scale: Scale) -> String {
    let lines = calculator.inputs.iter().filter_map(|input| {
        let cells = |value: String, from: &str| {
            [
                input.name.to_owned(),
                input.letter.to_owned(),
                value,
                from.to_owned(),
            ]
        };
        match (given.get(input.name), input.absent) {
            (Some(value), _) => {
                let is_usual = given.is_usual(input.name);
                let from = if is_usual { "usual" } else { "given" };
                let cells = cells(full(value, scale), from);
                Some((cells, vec![input.meaning.to_owned()]))
            }
            (None, Absent::Derived(how)) => {
                Some((cells("left out".to_owned(), ""), vec![how.to_owned()]))
            }
            (None, _) => None,
        }
    });
    rows(lines)
}

fn result_lines(calculator: &Calculator, worked: &Worked, scale: Scale) -> String {
    rows(results_in_order(calculator, worked).map(|(output, value)| {
        let mut cell = shown(output, value, scale);
        let mut said = vec![
            meaning_and_rounding(output, value, scale),
            remainder_words(output, value, scale),
        ];
        if cell.chars().count() > MOST_BESIDE {
            said.insert(0, std::mem::take(&mut cell));
        }
        (
            [output.name.to_owned(), output.letter.to_owned(), cell],
            said,
        )
    }))
}

fn remainder(output: &Output, value: &Value, scale: Scale) -> Option<Length> {
    match value {
        Value::Length(length) => Some(show_length(output, *length, scale).remainder),
        _ => None,
    }
}

/// How a result was rounded where no remainder tells it; may be nothing.
pub(super) fn rounding(output: &Output, value: &Value, scale: Scale) -> &'static str {
    match (remainder(output, value, scale), value) {
        (Some(Length::ZERO), _) => "exact",
        (Some(_), _) | (_, Value::Count(_)) => "",
        (None, _) => rounding_words(output),
    }
}

/// The meaning, and how it was rounded where no remainder tells it.
fn meaning_and_rounding(output: &Output, value: &Value, scale: Scale) -> String {
    match rounding(output, value, scale) {
        "" => output.meaning.to_owned(),
        rounding => format!("{}; {rounding}", output.meaning),
    }
}

/// What rounding took away of a length; nothing when it is exact.
pub(super) fn remainder_words(output: &Output, value: &Value, scale: Scale) -> String {
    match remainder(output, value, scale) {
        None | Some(Length::ZERO) => String::new(),
        Some(rest) => {
            let (words, rest) = (rounding_words(output), full_length(rest, scale));
            format!("{words}, remainder {rest}")
        }
    }
}

/// The results that there are, in the order of the table.
pub(super) fn results_in_order<'w>(
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
    let lines = influences.iter();
    rows(lines.map(|one| ([factor_words(one)], vec![one.what.to_owned()])))
}

pub(super) fn factor_words(influence: &Influence) -> String {
    // Adding zero turns a minus zero into a plain one.
    let factor = to_millionth(influence.factor) + 0.0;
    match influence.origin {
        Origin::CutterAngle => format!("{factor:+.4} mm a degree"),
        _ => format!("{factor:+.4} times"),
    }
}

fn budget_lines(budget: &FitBudget, scale: Scale) -> String {
    let head = ["counts", "error", "effect", "share"].map(str::to_owned);
    let lines = budget.lines.iter().map(|line| {
        let cells = [
            factor_words(&line.influence),
            full(&line.error, scale),
            fine(line.effect, scale),
            format!("{:.0} %", line.share * 100.0),
        ];
        (cells, vec![line.influence.what.to_owned()])
    });
    let largest = budget.largest.unwrap_or("none");
    rows(std::iter::once((head, Vec::new())).chain(lines))
        + &paragraph(&format!("largest: {largest}"))
        + &format!("  worst case: {}\n", fine(budget.worst, scale))
        + &format!(
            "  root of the sum of squares: {}\n",
            fine(budget.root_sum_square, scale)
        )
        + &first_cut_lines(budget, scale)
}

/// How the first cut may turn out, when what enters is given.
fn first_cut_lines(budget: &FitBudget, scale: Scale) -> String {
    let Some(cut) = budget.first_cut else {
        return String::new();
    };
    paragraph(&format!("first cut: {}", chances(cut))) + &paragraph(&hand_press(budget, scale))
}

/// How likely a first cut is a hand press, too tight, too loose.
pub(super) fn chances(cut: FirstCut) -> String {
    let percent = |chance: f64| format!("{:.0} %", chance * 100.0);
    format!(
        "hand press {}, too tight {}, too loose {}",
        percent(cut.press),
        percent(cut.tight),
        percent(cut.loose)
    )
}

/// What is called a hand press, and how the errors are taken to lie.
pub(super) fn hand_press(budget: &FitBudget, scale: Scale) -> String {
    let (least, most) = (budget.press.least, budget.press.most);
    format!(
        "A hand press is a clearance of {} to {} (common practice, no source); each error is taken \
         to lie anywhere within its bound (JCGM 100:2008, 4.3.7).",
        fine(least, scale),
        fine(most, scale)
    )
}
