//! What must be so at a machine: isolated while it is adjusted, connected when it cuts, its guard
//! back after a cut without it, a cutter and a speed where they are changed from cut to cut.

use super::super::Does;
use super::super::model::{Procedure, SetUp, Step};
use super::super::pause::{begins, isolates};
use crate::diag::{Code, Fault, Faults};

/// Machines whose cutter is changed from cut to cut, and with it the speed.
const BY_CUTTER: &[&str] = &[
    "router-table",
    "hand-router",
    "spindle-moulder",
    "drill-press",
];
/// What keeps a hand or the work from the tool.
const GUARDS: &[&str] = &["guard", "riving knife", "splitter"];
/// Acts that take it off, and those that put it back.
const TAKES_OFF: &[&str] = &["take off", "take the", "remove", "unscrew", "lift off"];
const PUTS_BACK: &[&str] = &[
    "put",
    "fit",
    "refit",
    "replace",
    "set the riving",
    "restore",
];

/// The steps of one set-up.
pub(super) fn set_up(set_up: &SetUp, faults: &mut Faults) {
    let Some((kind, _)) = &set_up.machine else {
        return;
    };
    let mut isolated = None;
    for step in &set_up.steps {
        isolated = isolates(step).or(isolated);
        match step.does {
            Does::Adjust if isolated != Some(true) => {
                let message = "an adjustment near the cutter, and nothing isolates the machine";
                let fault = Fault::error(Code::ADJUST_LIVE, message);
                let hint = "put a step before it: `- do: Unplug the router table.`, `does: adjust`";
                faults.push(told(fault, step).hint(hint));
                isolated = Some(true);
            }
            Does::Cut if isolated == Some(true) => {
                let fault = Fault::error(Code::CUT_ISOLATED, "a cut while the machine is isolated");
                let hint = "put a step before it that connects the machine, behind the guard's";
                faults.push(told(fault, step).hint(hint));
                isolated = Some(false);
            }
            _ => {}
        }
    }
    let mut cuts = set_up.steps.iter().filter(|step| step.does == Does::Cut);
    let cut = cuts.clone().next();
    let bare = |step: &Step| step.keys.is_empty() && step.check.is_none() && step.why.is_none();
    if let Some(step) = cut.filter(|_| cuts.all(bare)) {
        let message = "no cut of this set-up has a key point, a check or a reason";
        let fault = Fault::warning(Code::KEY_MISSING, message);
        faults.push(told(fault, step).hint("say what makes or breaks it, under `key`"));
    }
    if cut.is_none() || !BY_CUTTER.contains(&kind.as_str()) {
        return;
    }
    let place = &set_up.place;
    if set_up.cutter.is_none() {
        let fault = Fault::error(Code::CUTTER_MISSING, "this set-up names no cutter");
        let hint = "choose one under `choose` and name it here: `cutter: cutter`";
        faults.push(fault.at(place.clone()).hint(hint));
    }
    if !set_up.settings.iter().any(|(name, ..)| name == "speed") {
        let fault = Fault::error(Code::SPEED_MISSING, "this set-up sets no speed");
        let hint =
            "add it to the settings: `speed: {label: \"Spindle speed\", is: spin.speed_set}`";
        faults.push(fault.at(place.clone()).hint(hint));
    }
}

/// A fault of a step; one of a routine is told where it is used.
pub(super) fn told(fault: Fault, step: &Step) -> Fault {
    match &step.used {
        Some((_, place)) => fault
            .at(place.clone())
            .also(step.place.clone(), "this step"),
        None => fault.at(step.place.clone()),
    }
}

/// A guard that is taken off is put back in the same set-up, so that no other work meets the
/// machine without it.
pub(super) fn restored(procedure: &Procedure, faults: &mut Faults) {
    for set_up in procedure.set_ups.iter().filter(|one| one.machine.is_some()) {
        let names_guard = |step: &Step| {
            let text = step.act.unfilled().to_lowercase();
            GUARDS.iter().any(|guard| text.contains(guard))
        };
        let off = |step: &&Step| names_guard(step) && begins(step, TAKES_OFF);
        let Some(at) = set_up.steps.iter().position(|step| off(&step)) else {
            continue;
        };
        let back = |step: &Step| names_guard(step) && begins(step, PUTS_BACK);
        if set_up.steps[at + 1..].iter().any(back) {
            continue;
        }
        let message = "a guard is taken off and not put back in this set-up";
        let fault = told(
            Fault::error(Code::GUARD_RESTORED, message),
            &set_up.steps[at],
        );
        faults.push(fault.hint("end the set-up with it: `- use: restore-saw`"));
    }
}
