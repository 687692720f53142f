//! A whole job on paper: an overview, and one checklist for each set-up.

use crate::caution::Limits;
use crate::procedure::{Drawing, FilledSetUp, FilledValue, Trouble};

/// One piece of wood on a checklist: it gets a box of its own.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Piece {
    /// Name of the part: `Locker A, side`.
    pub part: String,
    /// Number of the piece within the part, from 1, and how many there are.
    pub number: (u32, u32),
    /// `left`, `right`, or empty.
    pub hand: String,
}

impl Piece {
    /// How it is written beside its box: `Locker A, side, left`.
    pub fn label(&self) -> String {
        let mut label = self.part.clone();
        if !self.hand.is_empty() {
            label = format!("{label}, {}", self.hand);
        }
        if self.number.1 > 1 {
            label = format!("{label} {}/{}", self.number.0, self.number.1);
        }
        label
    }
}

/// One set-up of the job with all its pieces.
#[derive(Debug, Clone, PartialEq)]
pub struct Checklist {
    /// Number on the sheet, from 1.
    pub number: usize,
    /// Id, title and revision of the procedure.
    pub procedure: (String, String, u32),
    /// The set-up, filled.
    pub set_up: FilledSetUp,
    /// Whether it is the first set-up of its procedure, where the stock is measured.
    pub first: bool,
    /// Every piece that passes it.
    pub pieces: Vec<Piece>,
    /// The values that its numbers come from, by part: measured and chosen ones.
    pub from: Vec<(String, Vec<FilledValue>)>,
    /// Numbers of the sheets that must be done before.
    pub after: Vec<usize>,
    /// Changes from the set-up before, in words: `cutter`, `height`.
    pub changes: Vec<String>,
    /// Minutes for those changes.
    pub minutes: u32,
    /// Faults and cures of the procedure.
    pub troubles: Vec<Trouble>,
    /// What must be true afterwards; only on the last set-up of a machine.
    pub close: Vec<String>,
    /// The joint drawn to scale.
    pub drawing: Option<Drawing>,
    /// What calculators and the procedure warn of.
    pub warnings: Vec<String>,
    /// Order of passes and the like.
    pub notes: Vec<String>,
    /// How it was last cut here, from the shop's record; empty until whoever reads that fills it in.
    pub history: Vec<String>,
}

/// A finished size of the cutting list.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CutSize {
    /// Name of the part.
    pub part: String,
    /// Number of pieces.
    pub pieces: u32,
    /// What is cut to which size, as shown: `shelf length 522.4 mm`.
    pub sizes: Vec<String>,
}

/// A whole job.
#[derive(Debug, Clone, PartialEq)]
pub struct Sheets {
    /// Id of the job.
    pub job: String,
    /// Its title.
    pub title: String,
    /// Name of the shop.
    pub shop: String,
    /// Day it is printed, `YYYY-MM-DD`.
    pub date: String,
    /// Check sum of all that the sheets say, eight hexadecimal digits.
    pub hash: String,
    /// What a sheet is and is not; on each.
    pub limits: Limits,
    /// What to get ready, by heading.
    pub ready: Vec<(String, Vec<String>)>,
    /// Finished sizes with joint allowances.
    pub cutting_list: Vec<CutSize>,
    /// Checklists in the order of work.
    pub checklists: Vec<Checklist>,
    /// Minutes for all changes.
    pub minutes: u32,
}
