//! Where work at a set-up may be left, so that a sheet may end there.
//!
//! At a machine: while it is isolated, and before the first act that connects it or cuts. At the
//! bench: anywhere, but not once glue is on, since glue does not wait.

use super::filled::Does;
use super::model::{SetUp, Step};

/// Acts that take the power away.
const ISOLATES: &[&str] = &["unplug", "isolate", "disconnect"];
/// Acts that give it back.
const CONNECTS: &[&str] = &["plug in", "connect", "start", "switch on"];

/// Whether the act of a step begins with one of these words.
pub(super) fn begins(step: &Step, with: &[&str]) -> bool {
    let text = step.act.unfilled().to_lowercase();
    with.iter().any(|start| text.starts_with(start))
}

/// Whether the machine is isolated after this step; none where the step changes nothing about it.
pub(super) fn isolates(step: &Step) -> Option<bool> {
    if begins(step, ISOLATES) {
        Some(true)
    } else if begins(step, CONNECTS) {
        Some(false)
    } else {
        None
    }
}

/// Whether work may be left at a place of a set-up: goes along with the steps that are done.
pub(super) struct Pauses {
    at_machine: bool,
    may: bool,
}

impl Pauses {
    /// Before the first step.
    pub(super) fn of(set_up: &SetUp) -> Self {
        Self {
            at_machine: set_up.machine.is_some(),
            may: true,
        }
    }

    /// Goes past a step; whether work may be left before it.
    pub(super) fn pass(&mut self, step: &Step) -> bool {
        let before = self.may;
        match step.does {
            Does::Glue => self.may = false,
            Does::Cut if self.at_machine => self.may = false,
            _ if self.at_machine => self.may = isolates(step).unwrap_or(self.may),
            _ => {}
        }
        before
    }
}
