//! Faults as data: what is wrong, where, what was expected, what to do next.
//!
//! A [`Fault`] carries its place as a [`Span`] into a [`Source`]; nothing here prints.
//! `cli/report.rs` alone turns faults into text. Every module may use this one; it uses none.

mod code;
mod fault;
mod span;
mod suggest;

pub use code::Code;
pub use fault::{Fault, Faults, Severity};
pub use span::{Source, Span};
pub use suggest::nearest;
