//! Wood as a material: how much it moves, how moist it becomes, how far it bends, what it holds.
//!
//! The species tables are the project's two reference CSV files, figure for figure, inside the
//! program: they stay comparable with what they were copied from, keep one species a line with
//! its source and whether the value was read there or is from memory, and need nothing but a
//! strict reader of some lines (`csv.rs`), so that the calculator layers build with libm only.
//! Each table is read once, at its first use; a test proves that every line is whole.
//!
//! Formulas and their marks: reference wood (project), sections 1 to 9; "the Handbook" is the
//! U.S. Forest Products Laboratory's Wood Handbook, FPL-GTR-190 (2010). Figures are plain numbers
//! whose unit stands in their names: per cent, degrees Celsius, newtons, gigapascals.

mod beam;
mod csv;
mod duration;
mod known;
mod moisture;
mod movement;
mod nail;
mod names;
mod shrinkage;
mod stiffness;

pub use beam::{Beam, Ends, Placed, Sag};
pub use duration::strength_after;
pub use known::Known;
pub use moisture::equilibrium;
pub use movement::{COEFFICIENT_HOLDS, Change, Method, change_by_coefficient, shrinkage_at};
pub use nail::nail_withdrawal;
pub use names::{MOVING, STIFF};
pub use shrinkage::{Cut, Decided, Printed, Shrinkage, shrinkage, shrinkage_rows};
pub use stiffness::{Stiffness, stiffness, stiffness_rows};
