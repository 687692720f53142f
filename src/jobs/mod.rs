//! Today's parts to filled checklists.

mod sheets;

pub use sheets::{Checklist, CutSize, Piece, Sheets};
