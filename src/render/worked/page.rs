//! A calculation, its refusal, or what is wrong with the texts, as blocks of a page.

use super::super::block::{Block, Row, drawn, heading, words};
use super::Told;
use super::answer::{
    chances, factor_words, hand_press, remainder_words, results_in_order, rounding,
};
use super::figured::drawing;
use super::show::{fine, full, shown};
use crate::diag::Fault;
use crate::joints::{Absent, Answer, Calculator, FitBudget, Given, Influence, Refusal, Worked};
use crate::units::Scale;

/// Name of the part of a page that follows from its form.
pub(in super::super) const ANSWER: &str = "now-answer";

/// What the given values are called in a page as it is built, and in one that somebody has typed
/// into.
pub(in super::super) const EXAMPLE: &str = "The worked example";
pub(in super::super) const TYPED: &str = "As typed on this page";

/// What came of the texts; `named` is what the given values are called.
pub(in super::super) fn page(
    calculator: &Calculator,
    told: &Told,
    scale: Scale,
    named: &str,
) -> Vec<Block> {
    match told {
        Told::Worked(worked) => {
            let (answer, budget) = &**worked;
            answered(calculator, (answer, budget.as_ref()), scale, named)
        }
        Told::Refused(refusal) => refused(refusal),
        Told::Amiss(faults) => faults.iter().flat_map(|(_, fault)| amiss(fault)).collect(),
    }
}

fn answered(
    calculator: &Calculator,
    (answer, budget): (&Answer, Option<&FitBudget>),
    scale: Scale,
    named: &str,
) -> Vec<Block> {
    let mut blocks = vec![heading(named)];
    let drawing = drawing(calculator, answer, scale);
    blocks.extend(drawing.as_ref().map(drawn));
    blocks.extend([
        given(calculator, &answer.given, scale),
        heading("Results"),
        results(calculator, &answer.worked, scale),
    ]);
    listed(&mut blocks, "Beware", &answer.worked.warnings);
    listed(&mut blocks, "In this order", &answer.worked.notes);
    match budget {
        Some(budget) => blocks.extend(errors(budget, scale)),
        None => blocks.extend(influences(&answer.influences(calculator))),
    }
    blocks
}

fn refused(refusal: &Refusal) -> Vec<Block> {
    let row = |name: &str, words: &str| (name.to_owned(), words.to_owned());
    vec![
        heading("Not with these values"),
        Block::Rule {
            name: "Refused".to_owned(),
            text: refusal.what.clone(),
        },
        Block::Facts {
            rows: vec![
                row("is", &refusal.is),
                row("may be", &refusal.may_be),
                row("instead", &refusal.instead),
            ],
        },
    ]
}

fn amiss(fault: &Fault) -> [Block; 2] {
    [
        Block::Rule {
            name: "Not worked out".to_owned(),
            text: fault.message.clone(),
        },
        Block::Bullets {
            items: fault.hints.iter().map(words).collect(),
        },
    ]
}

fn given(calculator: &Calculator, given: &Given, scale: Scale) -> Block {
    let rows = calculator.inputs.iter().filter_map(|input| {
        let (value, from) = match (given.get(input.name), input.absent) {
            (Some(value), _) if given.is_usual(input.name) => (full(value, scale), "usual value"),
            (Some(value), _) => (full(value, scale), "given"),
            (None, Absent::Derived(how)) => ("left out".to_owned(), how),
            (None, _) => return None,
        };
        Some([
            input.name.to_owned(),
            input.letter.to_owned(),
            value,
            from.to_owned(),
            input.meaning.to_owned(),
        ])
    });
    table(["input", "letter", "value", "from", "what it is"], rows)
}

fn results(calculator: &Calculator, worked: &Worked, scale: Scale) -> Block {
    let rows = results_in_order(calculator, worked).map(|(output, value)| {
        let rounded = match remainder_words(output, value, scale) {
            rest if rest.is_empty() => rounding(output, value, scale).to_owned(),
            rest => rest,
        };
        [
            output.name.to_owned(),
            output.letter.to_owned(),
            shown(output, value, scale),
            rounded,
            output.meaning.to_owned(),
        ]
    });
    table(["result", "letter", "value", "rounded", "what it is"], rows)
}

/// The results in a line each: name and value as shown.
pub fn results_said(calculator: &Calculator, answer: &Answer, scale: Scale) -> Vec<String> {
    results_in_order(calculator, &answer.worked)
        .map(|(output, value)| {
            let name = output.name.replace('_', " ");
            format!("{name} {}", shown(output, value, scale))
        })
        .collect()
}

fn errors(budget: &FitBudget, scale: Scale) -> Vec<Block> {
    let rows = budget.lines.iter().map(|line| {
        [
            line.influence.what.to_owned(),
            factor_words(&line.influence),
            full(&line.error, scale),
            fine(line.effect, scale),
            format!("{:.0} %", line.share * 100.0),
        ]
    });
    let row = |name: &str, words: String| (name.to_owned(), words);
    let mut facts = vec![
        row("largest", budget.largest.unwrap_or("none").to_owned()),
        row("worst case", fine(budget.worst, scale)),
        row(
            "root of the sum of squares",
            fine(budget.root_sum_square, scale),
        ),
    ];
    facts.extend(budget.first_cut.map(|cut| row("first cut", chances(cut))));
    let mut blocks = vec![
        heading(FIT),
        table(["error of", "counts", "error", "effect", "share"], rows),
        Block::Facts { rows: facts },
    ];
    blocks.extend(budget.first_cut.map(|_| Block::Para {
        text: words(hand_press(budget, scale)),
    }));
    blocks
}

const FIT: &str = "What errors do to the fit, plus is tighter";

fn influences(influences: &[Influence]) -> Vec<Block> {
    if influences.is_empty() {
        return Vec::new();
    }
    let rows = influences
        .iter()
        .map(|one| [one.what.to_owned(), factor_words(one)]);
    vec![heading(FIT), table(["error of", "counts"], rows)]
}

fn listed(blocks: &mut Vec<Block>, title: &str, items: &[String]) {
    if !items.is_empty() {
        blocks.push(heading(title));
        blocks.push(Block::Bullets {
            items: items.iter().map(words).collect(),
        });
    }
}

fn table<const N: usize>(head: [&str; N], rows: impl Iterator<Item = [String; N]>) -> Block {
    Block::Table {
        head: head.map(str::to_owned).to_vec(),
        rows: rows
            .map(|cells| Row {
                cells: cells.to_vec(),
                marked: false,
            })
            .collect(),
        numbers: vec![false; N],
    }
}
