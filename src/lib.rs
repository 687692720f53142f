//! Faceside: a small furniture shop's knowledge base and procedure checklist engine.
//!
//! Layers, lowest first; a module imports only from a lower layer (`tests/layers.rs` proves it):
//!
//! | layer | modules |
//! |---|---|
//! | 0 | [`diag`]: faults as data; `cores`: a list worked through on all cores |
//! | 1 | [`units`]: quantities; `yaml`: the one gate to YAML |
//! | 2 | [`formula`]: checked expressions; [`wood`]: movement, moisture, sag |
//! | 3 | [`shop`]: machines, cutters, measuring tools |
//! | 4 | [`joints`]: calculators; `caution`: rules by machine and operation |
//! | 5 | `procedure`: model, load, check, fill |
//! | 6 | `jobs`: today's parts; `shoplog`: what was done; `training`; `search` |
//! | 7 | `store`: the only file access; `render`: model to text |
//! | 8 | `cli`: one file a command |
//!
//! Without the feature `program` only the calculator layers are built: `diag`, `units`, `formula`,
//! `wood`, `shop`, `joints`; they use no files, clock or threads.

pub mod diag;
pub mod formula;
pub mod joints;
pub mod shop;
pub mod units;
pub mod wood;

#[cfg(feature = "program")]
pub mod caution;
#[cfg(feature = "program")]
pub mod cli;
#[cfg(feature = "program")]
mod cores;
#[cfg(feature = "program")]
pub mod jobs;
#[cfg(feature = "program")]
pub mod procedure;
#[cfg(feature = "program")]
pub mod render;
#[cfg(feature = "program")]
pub mod search;
#[cfg(feature = "program")]
pub mod shoplog;
#[cfg(feature = "program")]
pub mod store;
#[cfg(feature = "program")]
pub mod training;
#[cfg(feature = "program")]
pub mod yaml;
