//! The fixed words of a lesson: ticks of the preparation, help, and what a lesson is not.
//!
//! The ticks are in our own words. Everything ready and the workplace arranged: T3; the five of
//! putting the learner in the way of learning: `procedures.md` section 4, state `prepared` (T4).
//! Isolation while presenting: 29 CFR 1910.147(a)(2)(iii)(A) (read second-hand, to be checked) on
//! unplugging under one's own control; for a lesson, workshop practice.

/// The tick that a lesson at a machine cannot go on without.
pub(super) const ISOLATED: &str = "The machine is unplugged, and the plug in sight.";

/// What is said until it is.
pub(super) const UNPLUG: &str = "Unplug the machine and keep the plug in sight; then answer y.";

/// Ticks of the preparation, in order.
pub(super) const TICKS: &[&str] = &[
    "Everything on the list is at hand, and the workplace is as it should be kept.",
    "The learner is at ease.",
    "The learner knows which job this is and what it is for.",
    "You have found out what the learner already knows of it.",
    "You have told the learner why it is worth knowing.",
    "The learner stands where the work is done from.",
];

/// Why the machine is looked at again after a pause.
pub(super) const UNKNOWN: &str = "Nobody knows what was done to the machine since: look at all of \
    this again before you go on.";

/// What a lesson is not.
pub(super) const PRACTICE: &str = "This lesson is practice, with help in it. It is not a test: \
    nobody is competent or allowed to work alone because of it. A test is another event, watched, \
    without help, with a signature of its own.";

/// How the try-out of a unit at a machine begins.
pub(super) const DRY_RUN: &str = "First go through the motions with the machine unplugged. Plug \
    in only for a cut, with the instructor beside the learner, and unplug again before anything \
    near the cutter is touched.";

/// What can be typed.
pub(super) const HELP: &[&str] = &[
    "Enter: go on",
    "b or back: one question back",
    "r or repeat: show this again",
    "n or note: write a note (where y or n is asked, n is no: write note)",
    "q or pause: stop here; what was done is kept",
    "? or help: this list",
];
