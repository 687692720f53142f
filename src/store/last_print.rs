//! What the last print put on paper, left beside the record: `record/last-print.json`.
//!
//! Written whole or not at all, and only read by the commands that write to the record.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use super::own::read_text;
use super::record::RECORD_FOLDER;
use super::write_whole;
use crate::diag::{Code, Fault};
use crate::jobs::{Checklist, Sheets};
use crate::procedure::{FilledCheck, FilledSetUp, plain};
use crate::shoplog::{Limits, Moves, Printed, PrintedCheck, PrintedSheet, SetTo, Wood};
use crate::units::{Length, Value};

/// The shop's fits: the clearance of each by its name.
type Fits = BTreeMap<String, Length>;

fn path(home: &Path) -> PathBuf {
    home.join(RECORD_FOLDER).join("last-print.json")
}

/// Leaves the sheets for the record.
///
/// # Errors
/// `file-unreadable` with the path; the one before is then still there.
pub fn leave_print(home: &Path, sheets: &Sheets, fits: &Fits) -> Result<(), Fault> {
    let json = serde_json::to_vec_pretty(&printed(sheets, fits))
        .map_err(|error| Fault::error(Code::FILE_UNREADABLE, error.to_string()))?;
    write_whole(&path(home), &json)
}

/// The last print, when there was one.
///
/// # Errors
/// A warning when the file is there and cannot be read: it is then as if nothing was printed.
pub fn last_print(home: &Path) -> Result<Option<Printed>, Fault> {
    let path = path(home);
    if !path.exists() {
        return Ok(None);
    }
    let broken = |reason: String| {
        let message = format!("`{}` cannot be read: {reason}", path.display());
        Fault::warning(Code::FILE_UNREADABLE, message).hint("print the job again")
    };
    let text = read_text(&path).map_err(|fault| broken(fault.message))?;
    let printed: Printed =
        serde_json::from_str(&text.text).map_err(|error| broken(error.to_string()))?;
    if printed.v != Printed::VERSION {
        return Err(broken(format!("it is of version {}", printed.v)));
    }
    Ok(Some(printed))
}

/// What a print says that the record can use.
pub fn printed(sheets: &Sheets, fits: &Fits) -> Printed {
    let checklists = sheets.checklists.iter();
    Printed {
        v: Printed::VERSION,
        job: sheets.job.clone(),
        title: sheets.title.clone(),
        date: sheets.date.clone(),
        sheets: sheets.hash.clone(),
        checklists: checklists.map(|one| checklist(one, fits)).collect(),
    }
}

fn checklist(one: &Checklist, fits: &Fits) -> PrintedSheet {
    let set_up = &one.set_up;
    let (procedure, _, revision) = &one.procedure;
    let stock = one.from.first().map(|(_, values)| values);
    let stock = stock.into_iter().flatten();
    PrintedSheet {
        number: one.number,
        procedure: procedure.clone(),
        revision: *revision,
        set_up: set_up.title.clone(),
        machine: set_up.machine.as_ref().map(|(id, _)| id.clone()),
        cutter: set_up.cutter.as_ref().map(|cutter| cutter.id.clone()),
        pieces: u32::try_from(one.pieces.len()).unwrap_or(u32::MAX),
        stock: stock
            .map(|value| (value.name.clone(), value.shown.clone()))
            .collect(),
        settings: settings(set_up),
        checks: checks(set_up, fits),
    }
}

/// The settings of a set-up as planned.
fn settings(set_up: &FilledSetUp) -> Vec<SetTo> {
    let settings = set_up.settings.iter().map(|setting| {
        let length = match setting.value {
            Value::Length(length) => Some(length),
            _ => None,
        };
        SetTo {
            name: setting.name.clone(),
            shown: setting.shown.clone(),
            planned: length,
            set: length,
        }
    });
    settings.collect()
}

fn checks(set_up: &FilledSetUp, fits: &Fits) -> Vec<PrintedCheck> {
    let checks = set_up.steps.iter().filter_map(|step| step.check.as_ref());
    checks.map(|one| check(one, fits)).collect()
}

fn check(check: &FilledCheck, fits: &Fits) -> PrintedCheck {
    let (low, high) = (check.low, check.high);
    PrintedCheck {
        what: plain(&check.measure),
        wanted: check.is,
        limits: Limits { low, high },
        tool: check.tool.clone(),
        moves: check.moved_by.as_ref().map(|moved_by| Moves {
            setting: moved_by.setting.clone(),
            by: moved_by.each,
            wood: moved_by.wood.map(Wood::from),
            clearance: (moved_by.fit.as_ref()).and_then(|fit| fits.get(fit).copied()),
        }),
    }
}
