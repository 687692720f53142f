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
//! | 8 | `live`: a page of the site worked out anew, as WebAssembly |
//! | 9 | `cli`: one file a command |
//!
//! Without features only the calculator layers are built: `diag`, `units`, `formula`, `wood`, `shop`,
//! `joints`; they use no files, clock or threads. The feature `page` adds what a page of the site
//! works with by itself, `program` all the rest.

#![cfg_attr(
    all(feature = "page", not(feature = "program")),
    allow(dead_code, reason = "a page takes less than the commands")
)]

pub mod diag;
pub mod formula;
pub mod joints;
pub mod shop;
pub mod units;
pub mod wood;

#[cfg(feature = "page")]
pub mod caution;
#[cfg(feature = "program")]
pub mod cli;
#[cfg(feature = "program")]
mod cores;
#[cfg(feature = "program")]
pub mod jobs;
#[cfg(feature = "page")]
pub mod live;
#[cfg(feature = "page")]
pub mod procedure;
#[cfg(feature = "page")]
pub mod render;
#[cfg(feature = "page")]
pub mod search;
#[cfg(feature = "program")]
pub mod shoplog;
#[cfg(feature = "program")]
pub mod store;
#[cfg(feature = "program")]
pub mod training;
#[cfg(feature = "page")]
pub mod yaml;
