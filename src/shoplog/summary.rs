//! The record counted: for each procedure with its machine and cutter, how often and how well.

use std::collections::BTreeMap;

use super::{Event, Measured, Standing, Verdict};

/// What was counted for one procedure on one machine with one cutter.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Tally {
    /// Id of the procedure.
    pub procedure: String,
    /// Id of the machine, empty at the bench.
    pub machine: String,
    /// Id of the cutter, empty where there is none.
    pub cutter: String,
    /// Runs.
    pub runs: u32,
    /// Pieces of those runs.
    pub pieces: u32,
    /// Test cuts that runs tell of.
    pub test_cuts: u32,
    /// Test cuts that were written down one by one.
    pub told_cuts: u32,
    /// Readings, those of test cuts with them, that were good.
    pub good: u32,
    /// Readings that were low.
    pub low: u32,
    /// Readings that were high.
    pub high: u32,
    /// Day of the last entry.
    pub last: String,
}

/// Counts runs, test cuts and readings; practice readings of lessons are left out.
pub fn summary(events: &[Standing]) -> Vec<Tally> {
    let mut all: BTreeMap<[&str; 3], Tally> = BTreeMap::new();
    for one in events {
        let counted = matches!(
            one.event,
            Event::Run(_)
                | Event::TestCut(_)
                | Event::Reading {
                    practice: false,
                    ..
                }
        );
        let Some(procedure) = one.event.procedure().filter(|_| counted) else {
            continue;
        };
        let (machine, cutter) = one.event.machine_and_cutter();
        let key = [procedure, machine.unwrap_or(""), cutter.unwrap_or("")];
        let tally = all.entry(key).or_insert_with(|| Tally {
            procedure: procedure.to_owned(),
            machine: machine.unwrap_or("").to_owned(),
            cutter: cutter.unwrap_or("").to_owned(),
            ..Tally::default()
        });
        tally.count(one);
    }
    all.into_values().collect()
}

impl Tally {
    fn count(&mut self, one: &Standing) {
        if self.last.as_str() < one.day() {
            one.day().clone_into(&mut self.last);
        }
        let verdict = match &one.event {
            Event::Run(run) => {
                self.runs += 1;
                self.pieces = self.pieces.saturating_add(run.pieces);
                self.test_cuts = self.test_cuts.saturating_add(run.test_cuts);
                None
            }
            Event::TestCut(cut) => {
                self.told_cuts += 1;
                cut.measured.as_ref().and_then(Measured::verdict)
            }
            Event::Reading { verdict, .. } => Some(*verdict),
            _ => None,
        };
        match verdict {
            Some(Verdict::In) => self.good += 1,
            Some(Verdict::Low) => self.low += 1,
            Some(Verdict::High) => self.high += 1,
            None => {}
        }
    }
}
