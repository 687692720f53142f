//! The calculators: pure functions from measured stock and chosen cutters to settings.
//!
//! All are entries of one table, [`ALL`]; see [`Calculator`]. One file a joint: sketch, datum,
//! derivation, limits with their source, a worked example. [`work_out()`] checks named values
//! against the table and runs the calculator. Source marks: `D` derived, `CP` common practice
//! without a source, `M` from memory; `reference joinery` and `reference safety` are the project's
//! collections of rules and worked figures.

mod answer;
mod breadboard;
mod bridle;
mod by_formula;
mod calculator;
mod chance;
mod cheeks;
mod choose;
mod comb_joint;
mod dovetail_division;
mod dovetail_rules;
mod dovetails;
mod dowels;
mod drawbore;
mod drawer;
mod drawer_sizes;
mod edge_joint;
mod feed_per_tooth;
mod feel;
mod figure;
mod fit;
mod frame_panel;
mod halving;
mod housing;
mod mitre;
mod mitre_key;
mod moisture;
mod movement;
mod next_move;
mod on_sale;
mod one_sided_dovetail;
mod pass_plan;
mod passes;
mod rail_length;
mod rebate;
mod rim_speed;
mod saw_ramp;
mod season;
mod shelf;
mod shelf_length;
mod sliding_dovetail;
mod species;
mod spindle;
mod splined_mitre;
mod stopped_housing;
mod table;
mod tail;
mod tapered_housing;
mod tenon;
mod tenon_saw;
mod tenon_sizes;
mod tongue_and_groove;
mod tongue_in_housing;
mod work_out;

pub use answer::{Answer, Given, Refusal, Stopped, Worked};
pub use bridle::{Bridle, BridlePlan};
pub use calculator::{Absent, Calculator, Input, Output, Wanted, Wants};
pub use chance::FirstCut;
pub use cheeks::CheekMethod;
pub use choose::{Candidate, Choice, Effort, merit, reasons, too_short, unfit_to_run, what_to_buy};
pub use comb_joint::{CombJoint, CombPlan};
pub use dovetail_division::{Dovetails, DovetailsPlan};
pub use dowels::{Dowels, DowelsPlan};
pub use drawbore::{DrawRule, Drawbore, DrawborePlan};
pub use drawer_sizes::{Drawer, DrawerPlan, FrontCorner, Play};
pub use feel::Feel;
pub use fit::{BudgetLine, Fit, FitBudget, FitRule, HandPress, Influence, Origin, Tolerances};
pub use halving::{Halving, HalvingPlan};
pub use housing::{Housing, HousingPlan};
pub use mitre::Mitre;
pub use mitre_key::{MitreKey, MitreKeyPlan};
pub use next_move::{Aim, Found, Means, Move, Next, WoodOn};
pub use on_sale::on_sale;
pub use one_sided_dovetail::{OneSidedDovetail, OneSidedDovetailPlan};
pub use pass_plan::check_order;
pub use passes::{DepthPasses, Wood};
pub use rebate::{Rebate, RebatePlan};
pub use rim_speed::{Rim, RimPlan};
pub use saw_ramp::SawRamp;
pub use sliding_dovetail::{SlidingDovetail, SlidingDovetailPlan};
pub use spindle::{SpindleChoice, SpindlePlan};
pub use splined_mitre::SplinedMitre;
pub use stopped_housing::{End, StoppedHousing, StoppedHousingPlan};
pub use table::{ALL, find};
pub use tapered_housing::{TaperedHousing, TaperedHousingPlan};
pub use tenon_saw::TenonSaw;
pub use tenon_sizes::{Tenon, TenonForm, TenonPlan, WidthRule, mortise_by_rule};
pub use tongue_and_groove::{TongueAndGroove, TongueAndGroovePlan};
pub use tongue_in_housing::{TongueInHousing, TongueInHousingPlan};
pub use work_out::{check_value, work_out};
