//! The rules of good procedures that a program can judge: what a careful colleague would say.
//!
//! Errors are for what would hurt or mislead at the machine, warnings for what reads badly; each
//! rule has a code of its own. Sources: the rules of procedure writing and of checklists that
//! design and reference name (DITA `cmd`, DOE-STD-1029, AC 20-71B as read there), and `isolate`
//! before each adjustment (29 CFR 1910.147 as cited in the cautions).

mod accepted;
mod at_machine;
mod verbs;
mod whole;
mod wording;

pub(super) use accepted::leave_out;

use super::model::{Procedure, Step};
use super::routine::Routine;
use crate::diag::Faults;

/// What the rules say of a procedure; the wording of a routine's steps is judged in its own file.
pub(super) fn judge(procedure: &Procedure) -> Faults {
    let mut faults = Faults::new();
    for set_up in &procedure.set_ups {
        let own = set_up.steps.iter().filter(|step| step.used.is_none());
        own.for_each(|step| one(step, &mut faults));
        at_machine::set_up(set_up, &mut faults);
    }
    at_machine::restored(procedure, &mut faults);
    whole::procedure(procedure, &mut faults);
    faults
}

/// What the rules say of a routine, whoever uses it.
pub fn check_routine(routine: &Routine) -> Faults {
    let mut faults = Faults::new();
    routine.steps.iter().for_each(|step| one(step, &mut faults));
    faults
}

fn one(step: &Step, faults: &mut Faults) {
    wording::act(step, faults);
    wording::parts(step, faults);
}
