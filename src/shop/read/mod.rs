//! The shop's files to its types: every quantity read, every range checked, every fault placed.
//!
//! What is good is handed on beside all faults; the caller stops when one of them is an error.
//! Ranges without a source named beside them are common practice, no source.

mod cutters;
mod fields;
mod habits;
mod machines;

pub use cutters::read_cutters;
pub use habits::read_shop;
pub use machines::read_machines;
