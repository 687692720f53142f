//! What the shop owns: its habits, machines, cutters and measuring tools.
//!
//! The types here are plain; `shop/read` (with the feature `page`) reads them from YAML, and
//! [`overlay()`] lays a shop's own entries over the built-in ones.

mod cutter;
mod machine;
mod overlay;
#[cfg(feature = "page")]
mod read;
mod settings;

pub use cutter::{Cutter, Measured, Shape};
pub use machine::{Machine, Minutes, ScaleOf, Speeds};
pub use overlay::{Entry, overlay};
#[cfg(feature = "page")]
pub use read::{read_cutters, read_machines, read_shop};
pub use settings::{Jurisdiction, Paper, Region, Shop, Tool};
