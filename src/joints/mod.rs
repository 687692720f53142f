//! The calculators: pure functions from measured stock and chosen cutters to settings.
//!
//! All are entries of one table, [`ALL`]; see [`Calculator`]. One file a joint: sketch, datum,
//! derivation, limits with their source, a worked example. [`work_out()`] checks named values
//! against the table and runs the calculator. Source marks: `D` derived, `CP` common practice
//! without a source, `M` from memory; `reference joinery` and `reference safety` are the project's
//! collections of rules and worked figures.

mod answer;
mod breadboard;
mod calculator;
mod feed_per_tooth;
mod figure;
mod fit;
mod frame_panel;
mod housing;
mod moisture;
mod movement;
mod one_sided_dovetail;
mod pass_plan;
mod passes;
mod rim_speed;
mod season;
mod shelf;
mod sliding_dovetail;
mod species;
mod spindle;
mod stopped_housing;
mod table;
mod tail;
mod work_out;

pub use answer::{Answer, Given, Refusal, Stopped, Worked};
pub use calculator::{Absent, Calculator, Input, Output};
pub use fit::{BudgetLine, FitBudget, Influence, Origin, Tolerances};
pub use housing::{Housing, HousingPlan};
pub use one_sided_dovetail::{OneSidedDovetail, OneSidedDovetailPlan};
pub use pass_plan::check_order;
pub use passes::{DepthPasses, Wood};
pub use rim_speed::{Rim, RimPlan};
pub use sliding_dovetail::{SlidingDovetail, SlidingDovetailPlan};
pub use spindle::{SpindleChoice, SpindlePlan};
pub use stopped_housing::{End, StoppedHousing, StoppedHousingPlan};
pub use table::{ALL, find};
pub use work_out::work_out;
