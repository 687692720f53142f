//! The one table of calculators, in the order in which they are listed.

use super::{
    Calculator, breadboard, bridle, comb_joint, dovetails, dowels, drawbore, drawer, edge_joint,
    feed_per_tooth, frame_panel, halving, housing, mitre, mitre_key, moisture, movement,
    one_sided_dovetail, passes, rail_length, rebate, rim_speed, saw_ramp, shelf, shelf_length,
    sliding_dovetail, spindle, splined_mitre, stopped_housing, tapered_housing, tenon,
    tongue_and_groove, tongue_in_housing,
};

/// Every calculator, family by family.
pub const ALL: &[&Calculator] = &[
    &housing::CALCULATOR,
    &stopped_housing::CALCULATOR,
    &tapered_housing::CALCULATOR,
    &saw_ramp::CALCULATOR,
    &sliding_dovetail::CALCULATOR,
    &one_sided_dovetail::CALCULATOR,
    &rebate::CALCULATOR,
    &tongue_and_groove::CALCULATOR,
    &tongue_in_housing::CALCULATOR,
    &halving::CALCULATOR,
    &bridle::CALCULATOR,
    &tenon::CALCULATOR,
    &drawbore::CALCULATOR,
    &comb_joint::CALCULATOR,
    &dovetails::CALCULATOR,
    &mitre::CALCULATOR,
    &splined_mitre::CALCULATOR,
    &mitre_key::CALCULATOR,
    &dowels::CALCULATOR,
    &edge_joint::CALCULATOR,
    &frame_panel::CALCULATOR,
    &breadboard::CALCULATOR,
    &shelf_length::CALCULATOR,
    &rail_length::CALCULATOR,
    &drawer::CALCULATOR,
    &movement::CALCULATOR,
    &moisture::CALCULATOR,
    &shelf::CALCULATOR,
    &passes::CALCULATOR,
    &spindle::CALCULATOR,
    &rim_speed::CALCULATOR,
    &feed_per_tooth::CALCULATOR,
];

/// The calculator of that name, written with hyphens or underscores.
pub fn find(name: &str) -> Option<&'static Calculator> {
    let name = name.replace('_', "-");
    ALL.iter()
        .find(|calculator| calculator.name == name)
        .copied()
}
