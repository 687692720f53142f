//! Calculations of many rows as a CSV: labels, what was given, results as shown, and why a row has
//! none.
//!
//! A figure stands with its unit, as one would set it. A size that is both given and worked out
//! has one column, the result's. Lines end as RFC 4180 lets Unix files end, with a line feed.

use std::collections::BTreeMap;

use super::show::{full, shown};
use crate::joints::{Answer, Calculator, Stopped};
use crate::units::{Scale, Value};

/// One row of a table of calculations.
#[derive(Debug)]
pub struct Row {
    /// Line of the table that it begins on, from 1.
    pub line: usize,
    /// What the row is called, one text for each label column.
    pub labels: Vec<String>,
    /// The values that could be read, those of every row included.
    pub values: BTreeMap<String, Value>,
    /// What came of it.
    pub outcome: Result<Answer, Stopped>,
}

/// The rows under one head: the labels, inputs and results that any row has a value for, then
/// `refused`, `warnings` and `notes`.
pub fn csv(calculator: &Calculator, labels: &[String], rows: &[Row], scale: Scale) -> String {
    let results = calculator.results.iter();
    let results: Vec<_> = results
        .filter(|output| rows.iter().any(|row| row.result(output.name).is_some()))
        .collect();
    let inputs = calculator.inputs.iter();
    let inputs: Vec<_> = inputs
        .filter(|input| results.iter().all(|output| output.name != input.name))
        .filter(|input| rows.iter().any(|row| row.given(input.name).is_some()))
        .collect();
    let head = labels.iter().map(String::as_str);
    let head = head
        .chain(inputs.iter().map(|input| input.name))
        .chain(results.iter().map(|output| output.name))
        .chain(["refused", "warnings", "notes"]);
    let mut text = line(head);
    for row in rows {
        let given = inputs.iter().map(|input| row.given_text(input.name, scale));
        let worked = results.iter().map(|output| match row.result(output.name) {
            Some(value) => shown(output, value, scale),
            None => row.given_text(output.name, scale),
        });
        let cells = row.labels.iter().cloned().chain(given).chain(worked);
        text.push_str(&line(cells.chain(row.said())));
    }
    text
}

impl Row {
    fn given(&self, name: &str) -> Option<&Value> {
        match &self.outcome {
            Ok(answer) => answer.given.get(name),
            Err(_) => self.values.get(name),
        }
    }

    fn given_text(&self, name: &str, scale: Scale) -> String {
        let value = self.given(name);
        value.map_or_else(String::new, |value| full(value, scale))
    }

    fn result(&self, name: &str) -> Option<&Value> {
        self.outcome.as_ref().ok()?.worked.results.get(name)
    }

    /// Why there are no results, warnings, notes.
    fn said(&self) -> [String; 3] {
        match &self.outcome {
            Ok(answer) => {
                let worked = &answer.worked;
                [
                    String::new(),
                    worked.warnings.join(" "),
                    worked.notes.join(" "),
                ]
            }
            Err(Stopped::Refused(refusal)) => {
                let (what, is, may_be) = (&refusal.what, &refusal.is, &refusal.may_be);
                let refused = format!("{what}: is {is}; may be {may_be}. {}", refusal.instead);
                [refused, String::new(), String::new()]
            }
            Err(Stopped::Fault(fault)) => {
                let unread = format!("cannot be read: {}", fault.message);
                [unread, String::new(), String::new()]
            }
        }
    }
}

fn line(cells: impl Iterator<Item = impl AsRef<str>>) -> String {
    let cells: Vec<_> = cells.map(|text| cell(text.as_ref())).collect();
    cells.join(",") + "\n"
}

/// A text as a cell: in quotes where it holds a sign of the format; signs that would steer a
/// terminal, which what is told of a wrong cell can repeat, as harmless ones.
fn cell(text: &str) -> String {
    let text = text.replace(char::is_control, "\u{fffd}");
    if text.contains([',', '"']) {
        return format!("\"{}\"", text.replace('"', "\"\""));
    }
    text
}
