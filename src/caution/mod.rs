//! Cautions: rules by machine and operation that no sheet can leave out.
//!
//! The rules, the coverage matrix and the limits statement are data (`procedures/cautions/`, with
//! their origin in its README); a shop's files add to them and take nothing away. A [`Book`] is
//! read, proved complete by [`Book::check`], and picked from by [`Book::select`]. Every rule that
//! holds is given; none wins over another. A forbidden or unknown cut, a value that is not at
//! hand or a kind without a rule is an error: that no rule matches never means that a cut is safe.

mod book;
mod check;
mod condition;
mod file;
mod kind;
mod matrix;
mod rule;
mod select;
mod selected;
mod wording;

pub use book::{Book, Limits};
pub use condition::{NAMES, scope};
pub use kind::{CautionKind, SignalWord, Stands, Status};
pub use matrix::{BENCH, EVERY_MACHINE};
pub use selected::{Caution, Cited, Selected};
