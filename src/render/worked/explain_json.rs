//! What the table knows of its calculators, as JSON: all of them, or one.

use serde_json::{Map, Value as Json, json};

use super::command;
use super::json::kind_name;
use super::show::rounding_words;
use crate::joints::{ALL, Absent, Calculator, Input, Output};

/// Every calculator: `version` and `calculators`, each as in [`json_explain`].
pub fn json_list() -> Json {
    let calculators: Vec<_> = ALL.iter().map(|calculator| whole(calculator)).collect();
    json!({ "version": 1, "calculators": calculators })
}

/// One calculator: `version` and `calculator` with name, family, summary, inputs, sets of which
/// one is given, results, what it refuses and warns of, sketch, source, example, command.
pub fn json_explain(calculator: &Calculator) -> Json {
    json!({ "version": 1, "calculator": whole(calculator) })
}

fn whole(calculator: &Calculator) -> Json {
    let example: Map<_, _> = calculator
        .example
        .iter()
        .map(|(name, text)| ((*name).to_owned(), json!(text)))
        .collect();
    json!({
        "name": calculator.name,
        "family": calculator.family,
        "summary": calculator.summary,
        "inputs": calculator.inputs.iter().map(input).collect::<Vec<_>>(),
        "one_of": calculator.one_of,
        "results": calculator.results.iter().map(output).collect::<Vec<_>>(),
        "refuses": calculator.refuses,
        "warns": calculator.warns,
        "sketch": calculator.sketch.trim_start_matches('\n'),
        "source": calculator.source,
        "example": example,
        "command": command(calculator).join(" "),
    })
}

/// An input; `range` is its least and most or its words, and one of `required`, `usual` and
/// `left_out` tells what holds without it.
fn input(input: &Input) -> Json {
    let (least, most) = input.range;
    let range = match input.options() {
        words if words.is_empty() => json!({ "least": least, "most": most }),
        words => json!({ "words": words }),
    };
    let (absent, how) = match input.absent {
        Absent::Required => ("required", json!(true)),
        Absent::Usual(text) => ("usual", json!(text)),
        Absent::Derived(how) => ("left_out", json!(how)),
    };
    json!({
        "name": input.name,
        "letter": input.letter,
        "kind": kind_name(input.kind),
        "range": range,
        absent: how,
        "meaning": input.meaning,
    })
}

fn output(output: &Output) -> Json {
    json!({
        "name": output.name,
        "letter": output.letter,
        "kind": kind_name(output.kind),
        "rounding": rounding_words(output),
        "meaning": output.meaning,
    })
}
