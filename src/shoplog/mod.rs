//! The shop record: what was cut, measured, taught; append only.
//!
//! [`Event`] is what happened, [`Line`] how one event is written, [`read()`] how a file is read
//! back. Nothing here opens a file or asks the clock: `store` appends the lines under a lock, and
//! the time comes in as text. Of a person no more is kept than an id or initials ([`Person`]).
//! This module imports only `diag` and `units`; `training`, beside it, writes its events (the one
//! import sideways that `tests/layers.rs` allows).

mod event;
mod line;
mod person;
mod read;

pub use event::{Event, Taught, Verdict};
pub use line::{Line, VERSION};
pub use person::{Day, Person};
pub use read::{Entry, What, next_number, read};
