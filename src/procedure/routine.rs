//! Routines: runs of steps that many procedures share, each written once.
//!
//! A procedure's `- use: fit-cutter` stands for the routine's steps. They read the settings of the
//! set-up that uses them as `{set.height}` and its cutter as `{set.cutter}`, and no other slot.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::load::Reader;
use super::model::Step;
use super::raw::RawRoutine;
use crate::diag::{Code, Fault, Faults, Source, Span};
use crate::yaml;

/// A run of steps.
#[derive(Debug)]
pub struct Routine {
    /// Its id.
    pub id: String,
    /// Place of the id.
    pub place: Span,
    /// What is so when its steps are done.
    pub what: String,
    /// Its steps in order.
    pub steps: Vec<Step>,
}

/// The routines by id.
#[derive(Debug, Default)]
pub struct Routines {
    all: BTreeMap<String, Routine>,
}

impl Routines {
    /// Reads a file of routines: those that are whole, and all faults.
    pub fn read(source: &Arc<Source>) -> (Self, Faults) {
        let raw: Vec<RawRoutine> = match yaml::read(source) {
            Ok(raw) => raw,
            Err(faults) => return (Self::default(), faults),
        };
        let none = Self::default();
        let mut reader = Reader::new(source, &none);
        let mut all = BTreeMap::new();
        for (at, raw) in raw.iter().enumerate() {
            let routine = reader.down(at, |here| here.routine(raw));
            let (id, place) = (routine.id.clone(), routine.place.clone());
            if let Some(before) = all.insert(id.clone(), routine) {
                let message = format!("two routines have the id `{id}`");
                let fault = Fault::error(Code::DUPLICATE_ID, message).at(place);
                reader.note(
                    fault
                        .also(before.place, "the other one")
                        .hint("give one of them another id"),
                );
            }
        }
        (Self { all }, reader.into_faults())
    }

    /// Adds others; gives those of the same id that were there, with the place of the new one.
    pub fn overlay(&mut self, others: Self) -> Vec<(String, Span)> {
        let mut replaced = Vec::new();
        for (id, routine) in others.all {
            let place = routine.place.clone();
            if self.all.insert(id.clone(), routine).is_some() {
                replaced.push((id, place));
            }
        }
        replaced
    }

    /// The routine of an id.
    pub fn get(&self, id: &str) -> Option<&Routine> {
        self.all.get(id)
    }

    /// All of them, by id.
    pub fn iter(&self) -> impl Iterator<Item = &Routine> {
        self.all.values()
    }
}

impl Reader<'_> {
    fn routine(&mut self, raw: &RawRoutine) -> Routine {
        Routine {
            id: raw.routine.clone(),
            place: self.id("routine", &raw.routine),
            what: raw.what.clone(),
            steps: self.steps(&raw.steps),
        }
    }
}
