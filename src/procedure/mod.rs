//! Procedures: how a joint or a set-up is done, as a file of steps with slots.
//!
//! `load` reads the file, `check` proves it without values, `fill` gives every slot a value and
//! every step its cautions. Procedures know nothing of geometry: the calculators of `joints` are
//! called by name from the formulas.

mod calls;
mod check;
mod check_set_up;
mod example;
mod fill;
mod fill_set_up;
mod filled;
mod floor;
mod format;
mod load;
mod load_set_up;
mod model;
mod pause;
mod pick;
mod plan_view;
mod raw;
mod routine;
mod rules;
mod schema;
mod show;
mod spoken;
mod text;
mod typed;
mod values;
mod workplace;

pub use check::check;
pub use example::example;
pub use fill::{fill, lacking};
pub use filled::{
    Does, Drawing, Filled, FilledCheck, FilledSetUp, FilledStep, FilledValue, Mark, MovedBy,
    PieceSize, Plan, Provenance, Run, RunCutter, RunTable, Setting, Trouble, plain,
};
pub use floor::{Floor, FloorFiles};
pub use format::{Key, Level, levels};
pub use load::load;
pub use model::{Accepted, Check, Choice, Measure, Procedure, Rule, SetUp, Step, Table, Want};
pub use plan_view::Guide;
pub use routine::{Routine, Routines};
pub use rules::check_routine;
pub use schema::{schema, schema_text};
pub use text::{Piece, Text};
pub use values::Given;
pub use workplace::Workplace;
