//! `faceside figure CALCULATOR --rows < parts.csv`: one calculation for each row of a CSV.
//!
//! The head names inputs, and with `part` or `label` what a row is called; an empty cell is not
//! given; values of the command line hold for every row. All rows are read before anything is
//! printed; a row that cannot be read stands in the answer as such, and its faults are told with
//! their places. A label that a spreadsheet would run as a formula is refused, since the answer is
//! made to be opened in one. Exit code 0: all done, 1: a row was refused, 2: one cannot be read.

use std::collections::BTreeMap;
use std::io::{self, IsTerminal};

use serde_json::{Value as Json, json};

use super::args::Common;
use super::output::Output;
use super::table::{self, Cell, Line};
use super::{End, Stop};
use crate::diag::{Code, Fault, Faults};
use crate::joints::{self, Calculator, FitBudget, Input, Stopped, input_of, read_input};
use crate::render::worked::{self, Row};
use crate::shop::Cutter;
use crate::store::Workshop;
use crate::units::{Unit, Value};

/// Columns that are copied through.
const LABELS: [&str; 2] = ["part", "label"];

/// So many faults are told with their places; each costs a look through the whole table.
const MOST_TOLD: usize = 20;

/// A column of the table.
enum Column {
    Label(String),
    Input(&'static Input),
}

/// What is the same for all rows.
struct Plan<'p> {
    calculator: &'static Calculator,
    columns: Vec<Column>,
    values: &'p BTreeMap<String, Value>,
    drawer: &'p [Cutter],
    unit: Unit,
}

/// Works out every row of standard input.
pub(super) fn rows(
    calculator: &'static Calculator,
    values: &BTreeMap<String, Value>,
    workshop: &Workshop,
    common: &Common,
    out: &mut Output,
) -> Result<End, Stop> {
    let (head, lines) = read().map_err(Stop::Usage)?;
    let plan = Plan {
        calculator,
        columns: columns(calculator, &head, values).map_err(Stop::Usage)?,
        values,
        drawer: workshop.place().cutters,
        unit: workshop.shop.units,
    };
    let mut faults = Faults::new();
    let rows: Vec<_> = lines
        .iter()
        .map(|line| row(line, &plan, &mut faults))
        .collect();
    let scale = workshop.shop.scale();
    let labels = plan.labels();
    if common.json {
        let rows = rows
            .iter()
            .map(|row| as_json(row, &labels, calculator, workshop));
        out.say(&format!("{:#}", rows.collect::<Json>()));
    } else {
        out.say(&worked::csv(calculator, &labels, &rows, scale));
    }
    let is_refused = |row: &Row| matches!(row.outcome, Err(Stopped::Refused(_)));
    Ok(match (faults.is_empty(), rows.iter().any(is_refused)) {
        (false, _) => {
            tell(&faults, out);
            End::Unread
        }
        (true, true) => End::Findings,
        (true, false) => End::Done,
    })
}

fn read() -> Result<(Line, Vec<Line>), Fault> {
    let input = io::stdin();
    if input.is_terminal() {
        let message = "`--rows` reads a table from standard input";
        return Err(Fault::error(Code::VALUE_MISSING, message)
            .hint("`faceside figure housing --rows < parts.csv`"));
    }
    let (head, lines) = table::read(input.lock())?;
    if lines.is_empty() {
        let message = "the table has a head line and no rows";
        return Err(Fault::error(Code::VALUE_MISSING, message).at(head.place));
    }
    Ok((head, lines))
}

/// What the head names, each once, and nothing that the command line gives already.
fn columns(
    calculator: &Calculator,
    head: &Line,
    values: &BTreeMap<String, Value>,
) -> Result<Vec<Column>, Fault> {
    let mut seen: BTreeMap<&str, &Cell> = BTreeMap::new();
    let mut columns = Vec::new();
    for cell in &head.cells {
        let name = cell.text.as_str();
        columns.push(column(calculator, head, cell)?);
        let twice = |message| Fault::error(Code::DUPLICATE_KEY, message).at(cell.place.clone());
        if let Some(first) = seen.insert(name, cell) {
            let fault = twice(format!("two columns are called `{name}`"));
            return Err(fault.also(first.place.clone(), "the first one"));
        }
        if values.contains_key(name) {
            let message = format!("`{name}` is given on the command line and is a column");
            return Err(twice(message).hint("give it in one of the two only"));
        }
    }
    Ok(columns)
}

fn column(calculator: &Calculator, head: &Line, cell: &Cell) -> Result<Column, Fault> {
    let name = cell.text.as_str();
    let refused = |fault: Fault| fault.at(cell.place.clone());
    match cell {
        _ if cell.is_torn => Err(torn(cell)),
        _ if name.is_empty() => {
            let message = "a column has no name";
            Err(refused(Fault::error(Code::TABLE_SYNTAX, message)).hint("name it, or take it out"))
        }
        _ if calculator.input(name).is_none() && LABELS.contains(&name) => {
            Ok(Column::Label(name.to_owned()))
        }
        _ if head.cells.len() == 1 && name.contains([';', '\t']) => {
            let message = "the cells of a table are parted by commas";
            Err(refused(Fault::error(Code::TABLE_SYNTAX, message))
                .hint("save it as CSV with commas; a figure such as 19,5 then stands in quotes"))
        }
        _ => input_of(calculator, name)
            .map(Column::Input)
            .map_err(|fault| {
                refused(fault).hint("a column `part` or `label` holds what a row is called")
            }),
    }
}

impl Plan<'_> {
    fn labels(&self) -> Vec<String> {
        let labels = self.columns.iter().filter_map(|column| match column {
            Column::Label(name) => Some(name.clone()),
            Column::Input(_) => None,
        });
        labels.collect()
    }
}

/// Works out a row; what cannot be read of it is put among the faults.
fn row(line: &Line, plan: &Plan, faults: &mut Faults) -> Row {
    let mut own = Faults::new();
    let mut values = plan.values.clone();
    let mut labels = Vec::new();
    let (is, wanted) = (line.cells.len(), plan.columns.len());
    if is != wanted {
        let message = format!("this line has {is} cells, the head line {wanted}");
        own.push(
            Fault::error(Code::TABLE_SYNTAX, message)
                .at(line.place.clone())
                .hint("a cell with a comma in it stands in quotes, with no blank before them"),
        );
    }
    for (at, column) in plan.columns.iter().enumerate() {
        let cell = line.cells.get(at);
        match column {
            Column::Label(_) => {
                let text = cell.and_then(|cell| own.keep(label(cell)));
                labels.push(text.unwrap_or_default());
            }
            Column::Input(input) => {
                let read = cell.and_then(|cell| own.keep(cell_values(input, cell, plan)));
                for (name, value) in read.into_iter().flatten() {
                    if values.insert(name.clone(), value).is_some() {
                        let message = format!("`{name}` is given twice");
                        let fault = Fault::error(Code::DUPLICATE_KEY, message);
                        own.push(fault.at(line.place.clone()));
                    }
                }
            }
        }
    }
    let outcome = match own.iter().next() {
        Some(first) => Err(Stopped::Fault(first.clone())),
        None => joints::work_out(plan.calculator, &values),
    };
    if let (Err(Stopped::Fault(fault)), true) = (&outcome, own.is_empty()) {
        own.push(fault.clone().at_least(&line.place));
    }
    faults.extend(own);
    Row {
        line: line.number,
        labels,
        values,
        outcome,
    }
}

fn torn(cell: &Cell) -> Fault {
    Fault::error(
        Code::TABLE_SYNTAX,
        "the quotes of this cell do not close at its end",
    )
    .at(cell.place.clone())
    .hint("a quote inside quotes is written twice")
}

/// The values of a cell; none of an empty one.
fn cell_values(input: &Input, cell: &Cell, plan: &Plan) -> Result<Vec<(String, Value)>, Fault> {
    if cell.is_torn {
        return Err(torn(cell));
    }
    if cell.text.is_empty() {
        return Ok(Vec::new());
    }
    let of = (plan.drawer, plan.unit);
    let read = read_input(plan.calculator, input, &cell.text, of);
    read.map_err(|fault| fault.at(cell.place.clone()))
}

/// What a row is called: one line, and nothing that a spreadsheet takes for a formula.
fn label(cell: &Cell) -> Result<String, Fault> {
    let text = &cell.text;
    let fault = |message: &str| Fault::error(Code::WRONG_TYPE, message).at(cell.place.clone());
    if cell.is_torn {
        return Err(torn(cell));
    }
    if text.contains(char::is_control) {
        return Err(fault(
            "a label is one line, without signs that steer a terminal",
        ));
    }
    let rest = text.strip_prefix(['=', '+', '-', '@', '＝', '＋', '－', '＠']);
    let is_number = |text: &str| text.chars().all(|c| c.is_ascii_digit() || ".,".contains(c));
    match rest {
        Some(rest) if rest.is_empty() || !is_number(rest) || text.starts_with(['=', '@']) => {
            Err(fault("a spreadsheet would take this label for a formula")
                .hint("begin it with a letter or a figure"))
        }
        _ => Ok(text.clone()),
    }
}

fn tell(faults: &Faults, out: &Output) {
    let more = faults.len().saturating_sub(MOST_TOLD);
    let more = (more > 0).then(|| {
        let message = format!("{more} more faults are not shown");
        Fault::error(Code::TABLE_SYNTAX, message)
            .hint("mend these first; in the answer, `refused` tells every row that has one")
    });
    out.report(faults.iter().take(MOST_TOLD).chain(&more));
}

/// A text of which no sign steers a terminal.
fn harmless(text: &str) -> String {
    text.replace(char::is_control, "\u{fffd}")
}

/// A row as `figure --json` answers one calculation, with its line and labels; one that cannot be
/// read has `fault` in the place of results.
fn as_json(row: &Row, labels: &[String], calculator: &Calculator, workshop: &Workshop) -> Json {
    let mut whole = match &row.outcome {
        Ok(answer) => {
            let budget =
                FitBudget::in_shop(calculator, answer, (&workshop.shop, &workshop.machines));
            worked::json(calculator, answer, budget.as_ref(), workshop.shop.scale())
        }
        Err(Stopped::Refused(refusal)) => worked::json_refused(calculator, refusal),
        Err(Stopped::Fault(fault)) => json!({
            "calculator": calculator.name,
            "fault": {
                "code": fault.code.name(),
                "message": harmless(&fault.message),
                "hints": fault.hints,
            },
        }),
    };
    whole["line"] = json!(row.line);
    let labels = labels.iter().zip(&row.labels);
    let labels = labels.map(|(name, text)| (name.clone(), json!(text)));
    whole["labels"] = Json::Object(labels.collect());
    whole
}
