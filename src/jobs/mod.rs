//! Today's parts to filled checklists: each part's procedure filled, set-ups that are the same at
//! the machine merged, the rest ordered so that the fewest and cheapest changes are made.
//!
//! What must come first is never reordered: each part's set-ups keep their order.

mod job;
mod merge;
mod order;
mod plan;
mod sheets;

pub use job::{Job, Part};
pub use plan::plan;
pub use sheets::{Checklist, CutSize, Piece, Sheets};
