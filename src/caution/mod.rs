//! Cautions: rules by machine and operation that no sheet can leave out.
//!
//! That no rule matches never means that a cut is safe.

mod kind;
mod selected;

pub use kind::{CautionKind, SignalWord, Stands, Status};
pub use selected::{Caution, Cited, Selected};
