//! Procedures: model, load, check, fill.

mod filled;

pub use filled::{
    Does, Drawing, Filled, FilledCheck, FilledSetUp, FilledStep, FilledValue, PieceSize,
    Provenance, Run, RunCutter, RunTable, Setting, Trouble, plain,
};
