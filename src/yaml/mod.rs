//! The one gate through which YAML enters.
//!
//! [`source`] turns bytes into a text or a fault; [`read`] turns a text into a typed value or all
//! faults that can be told; [`place`] and [`key_place`] find where a node stands when a later
//! stage has something to say about it. No other module uses the deserialiser, so that it can be
//! exchanged here.

mod ordered;
mod read;
mod walk;

pub use ordered::Ordered;
pub use read::{MOST_BYTES, read, source};
pub use walk::{Step, key_place, place};
