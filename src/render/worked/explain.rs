//! What the table knows of its calculators, as text: the list, and what one takes and gives.

use super::super::layout::{Row, WIDE, drawing, items, paragraph, section, table, wrapped};
use super::command;
use super::show::rounding_words;
use crate::joints::{ALL, Absent, Calculator, Input, Output};

/// Every calculator, family by family, and what to type next.
pub fn list() -> String {
    let mut text = String::new();
    let name_wide = ALL.iter().map(|one| one.name.len()).max().unwrap_or(0);
    let mut family = "";
    for calculator in ALL {
        if calculator.family != family {
            family = calculator.family;
            text.push_str(&format!("{family}\n"));
        }
        let start = format!("  {:<name_wide$}  ", calculator.name);
        let under = " ".repeat(start.len());
        text.push_str(&wrapped(calculator.summary, &start, &under));
    }
    let first = ALL.first().map_or("", |calculator| calculator.name);
    let next = format!("next: faceside figure {first} (what it takes and gives, an example)");
    text + &format!("\n{next}\n")
}

/// What a calculator takes and gives, what it refuses and warns of, and an example to type.
pub fn explain(calculator: &Calculator) -> String {
    let sections = [
        wrapped(
            &format!("{}: {}", calculator.name, calculator.summary),
            "",
            "  ",
        ),
        section("Inputs", &table(calculator.inputs.iter().map(input_row))),
        section("Give one of", &items(&sets(calculator))),
        many_options(calculator),
        section("Results", &table(calculator.results.iter().map(result_row))),
        section("Refuses when", &items(calculator.refuses)),
        section("Warns of", &items(calculator.warns)),
        section("Sketch", &drawing(calculator.sketch)),
        section("Source", &paragraph(calculator.source)),
        section("Example", &typed(calculator)),
    ];
    sections.concat()
}

fn input_row(input: &Input) -> Row<2> {
    let absent = match input.absent {
        Absent::Required => "must be given".to_owned(),
        Absent::Usual(text) => format!("usual {text}"),
        Absent::Derived(how) => format!("left out: {how}"),
    };
    let taken = format!("{}; {absent}", input.range_words());
    let cells = [input.name, input.letter].map(str::to_owned);
    (cells, vec![input.meaning.to_owned(), taken])
}

fn result_row(output: &Output) -> Row<2> {
    let cells = [output.name, output.letter].map(str::to_owned);
    let said = match rounding_words(output) {
        "" => output.meaning.to_owned(),
        rounding => format!("{}; {rounding}", output.meaning),
    };
    (cells, vec![said])
}

/// The sets of inputs of which one is given: `thickness and clearance`.
fn sets(calculator: &Calculator) -> Vec<String> {
    let sets = calculator.one_of.iter();
    sets.map(|set| set.join(" and ")).collect()
}

/// The words of each choice that has too many for its line, with their input over them.
fn many_options(calculator: &Calculator) -> String {
    let long = calculator
        .inputs
        .iter()
        .filter(|input| input.has_many_options());
    let sections = long.map(|input| {
        let words = paragraph(&input.options().join(", "));
        section(&format!("Words for {}", input.name), &words)
    });
    sections.collect()
}

/// The example as it is typed, on as many lines as it needs, each but the last ending with the
/// backslash that a shell goes on after.
pub fn typed(calculator: &Calculator) -> String {
    let mut lines = String::new();
    let mut line = " ".to_owned();
    for word in command(calculator) {
        if line.len() + word.len() + " \\ ".len() > WIDE {
            lines.push_str(&format!("{line} \\\n"));
            line = "     ".to_owned();
        }
        line.push_str(&format!(" {word}"));
    }
    lines + &line + "\n"
}
