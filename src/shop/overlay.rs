//! A shop's own entries over the built-in ones: the same id replaces, and that is told.

use super::{Cutter, Machine};
use crate::diag::{Code, Fault};

/// Something that a shop lists by id.
pub trait Entry {
    /// What it is called in messages: `cutter`.
    const WHAT: &'static str;

    /// Its id, unique in its list.
    fn id(&self) -> &str;
}

impl Entry for Cutter {
    const WHAT: &'static str = "cutter";

    fn id(&self) -> &str {
        &self.id
    }
}

impl Entry for Machine {
    const WHAT: &'static str = "machine";

    fn id(&self) -> &str {
        &self.id
    }
}

/// The built-in entries with the shop's own in their place or after them, and an `overlaid`
/// warning for each that was replaced.
pub fn overlay<T: Entry>(built_in: Vec<T>, own: Vec<T>) -> (Vec<T>, Vec<Fault>) {
    let mut list = built_in;
    let mut notes = Vec::new();
    for entry in own {
        match list.iter_mut().find(|old| old.id() == entry.id()) {
            Some(old) => {
                let message = format!(
                    "the shop's own {} `{}` replaces the built-in one",
                    T::WHAT,
                    entry.id()
                );
                notes.push(Fault::warning(Code::OVERLAID, message));
                *old = entry;
            }
            None => list.push(entry),
        }
    }
    (list, notes)
}
