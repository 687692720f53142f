//! What the last print put on paper, kept beside the record so that nothing on a sheet is asked
//! again: job, procedure, set-up, machine, cutter, stock, settings, and the values to measure.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use super::{Limits, Measured, Moves, SetTo, Work, mm};
use crate::units::Length;

/// The sheets of one print.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Printed {
    /// Version of this file.
    pub v: u32,
    /// Id of the job; empty for what was planned without one.
    pub job: String,
    /// Its title.
    pub title: String,
    /// Day it was printed.
    pub date: String,
    /// Check sum that stands on the sheets; empty where there are none.
    pub sheets: String,
    /// Its checklists.
    pub checklists: Vec<PrintedSheet>,
}

/// One checklist.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct PrintedSheet {
    /// Number on the sheet.
    pub number: usize,
    /// Id of the procedure.
    pub procedure: String,
    /// Its revision.
    pub revision: u32,
    /// Title of the set-up.
    pub set_up: String,
    /// Id of the machine.
    pub machine: Option<String>,
    /// Id of the cutter.
    pub cutter: Option<String>,
    /// Number of pieces.
    pub pieces: u32,
    /// Measured and chosen values as shown.
    pub stock: BTreeMap<String, String>,
    /// Settings as planned.
    pub settings: Vec<SetTo>,
    /// What is measured, in order.
    pub checks: Vec<PrintedCheck>,
}

/// A value to measure.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct PrintedCheck {
    /// What is measured.
    pub what: String,
    /// As wanted, the full figure.
    #[serde(rename = "wanted_mm", with = "mm")]
    pub wanted: Length,
    /// Its limits.
    pub limits: Limits,
    /// Name of the measuring tool.
    pub tool: String,
    /// Which setting moves it; none where no setting does.
    pub moves: Option<Moves>,
}

impl Printed {
    /// Version that is written and read.
    pub const VERSION: u32 = 1;

    /// The checklist of that number.
    pub fn sheet(&self, number: usize) -> Option<&PrintedSheet> {
        self.checklists.iter().find(|sheet| sheet.number == number)
    }

    /// The work of a checklist, set as planned.
    pub fn work(&self, sheet: &PrintedSheet) -> Work {
        let there = |text: &String| Some(text.clone()).filter(|text| !text.is_empty());
        Work {
            job: there(&self.job),
            sheets: there(&self.sheets),
            procedure: sheet.procedure.clone(),
            revision: sheet.revision,
            set_up: Some(sheet.set_up.clone()),
            machine: sheet.machine.clone(),
            cutter: sheet.cutter.clone(),
            wood: None,
            stock: sheet.stock.clone(),
            settings: sheet.settings.clone(),
        }
    }
}

impl PrintedCheck {
    /// A reading of it.
    pub fn measured(&self, value: Length) -> Measured {
        Measured {
            what: self.what.clone(),
            value,
            wanted: Some(self.wanted),
            limits: Some(self.limits),
            tool: Some(self.tool.clone()),
            moves: self.moves.clone(),
        }
    }
}
