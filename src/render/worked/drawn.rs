//! A calculator's sketch, and under it what each of its letters is in one calculation.

use std::collections::BTreeSet;

use super::super::layout::{WIDE, drawing};
use super::show::{full, shown};
use crate::joints::{Answer, Calculator};
use crate::units::{Kind, Scale};

/// Blanks before the letters: the sketches begin there too.
const INDENT: usize = 3;

/// The sketch, then the letters in columns; a letter of an input that was left out says so.
pub(super) fn drawn(calculator: &Calculator, answer: &Answer, scale: Scale) -> String {
    let letters = letters(calculator, answer, scale);
    let widest = letters.iter().map(|text| text.chars().count()).max();
    let cell = widest.unwrap_or(0) + 3;
    let in_a_line = ((WIDE - INDENT + 3) / cell).max(1);
    let lines = letters.chunks(in_a_line).map(|line| {
        let cells = line.iter().map(|text| format!("{text:<cell$}"));
        let line = " ".repeat(INDENT) + &cells.collect::<String>();
        line.trim_end().to_owned() + "\n"
    });
    drawing(calculator.sketch) + "\n" + &lines.collect::<String>()
}

/// `T = 19 mm` for each letter, those of the inputs first; a size that is both given and worked
/// out is shown as worked out.
fn letters(calculator: &Calculator, answer: &Answer, scale: Scale) -> Vec<String> {
    let outputs = || calculator.results.iter();
    let result = |letter: &str| {
        let mut found = outputs().filter(|output| output.letter == letter);
        found.find_map(|output| {
            let value = answer.worked.results.get(output.name)?;
            Some(shown(output, value, scale))
        })
    };
    let of_inputs = calculator.inputs.iter().map(|input| {
        let given = || Some(full(answer.given.get(input.name)?, scale));
        let text = result(input.letter).or_else(given);
        let left_out = || "left out".to_owned();
        (
            input.letter,
            text.map_or_else(left_out, |text| format!("= {text}")),
        )
    });
    let is_input = |letter: &str| calculator.inputs.iter().any(|input| input.letter == letter);
    let of_results = outputs()
        .filter(|output| output.kind != Kind::Lengths && !is_input(output.letter))
        .filter_map(|output| Some((output.letter, format!("= {}", result(output.letter)?))));
    // Front and side of a drawer are of one height and have one letter.
    let mut seen = BTreeSet::new();
    of_inputs
        .chain(of_results)
        .filter(|(letter, _)| !letter.is_empty() && seen.insert(*letter))
        .map(|(letter, text)| format!("{letter} {text}"))
        .collect()
}
