//! Whole lessons played by script: every stage, back and repeat, readings, pauses, any input.
//!
//! What is expected comes from `procedures.md` 1C and section 4 (ticks, units of at most seven,
//! done and explained apart, taught is not tested) and from the fixture below, whose figures are
//! made up for the tests. Cautions come through the caution book, as they do in the program.

#![expect(clippy::unwrap_used, reason = "a test that cannot be set up must fail")]
#![expect(clippy::panic, reason = "a test that meets the wrong event must fail")]

mod asked;
mod breakdown;
mod fixture;
mod play;
mod resume;
mod roll;
mod screen;
mod stages;
mod turns;
