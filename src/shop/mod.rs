//! What the shop owns: its habits, machines, cutters and measuring tools.
//!
//! The types here are plain; `shop/read.rs` (with the feature `program`) reads them from YAML.

mod cutter;
mod machine;
mod settings;

pub use cutter::{Cutter, Measured, Shape};
pub use machine::{Machine, Minutes, ScaleOf, Speeds};
pub use settings::{Paper, Region, Shop, Tool};
