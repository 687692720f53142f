//! The one gate through which YAML enters.
//!
//! [`source`] turns bytes into a text or a fault; [`read()`] turns a text into a typed value or all
//! faults that can be told; [`place`] and [`key_place`] find where a node stands when a later
//! stage has something to say about it. No other module uses the deserialiser, so that it can be
//! exchanged here.
//!
//! Stricter than YAML: one document; no tags, merge keys, duplicate keys, nulls or empty values,
//! `.nan` or `.inf`. Anchors and aliases are read, within a limit on what they expand to.

mod clean;
mod explain;
mod extent;
mod lint;
mod mend;
mod ordered;
mod read;
mod slip;
mod walk;

pub use clean::{MOST_BYTES, source};
pub use ordered::Ordered;
pub use read::read;
pub use walk::{Step, key_place, place};
