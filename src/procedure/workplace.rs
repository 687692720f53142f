//! Where a procedure is filled: the shop, its machines and cutters, its cautions; and the names
//! that formulas find there.
//!
//! | name | value |
//! |---|---|
//! | `fit.NAME` | a wanted clearance of the shop |
//! | `caliper`, `steel_rule`, ... | the finest step of each measuring tool |
//! | `router_table.height_step`, `.fence_step`, `.table_length`, `.table_width`, `.speed_least`, `.speed_most` | the first machine of each kind |
//! | `short_piece`, `hand_distance`, `rim_speed_limit` | the shop's limits |

use super::model::SetUp;
use crate::caution::Book;
use crate::formula::{Known, Values};
use crate::shop::{Cutter, Machine, Shape, Shop, Speeds};
use crate::units::{Kind, Value};

/// What a procedure is filled from, besides the part.
#[derive(Debug, Clone, Copy)]
pub struct Workplace<'a> {
    /// The habits of the shop.
    pub shop: &'a Shop,
    /// Its machines.
    pub machines: &'a [Machine],
    /// Its cutters.
    pub cutters: &'a [Cutter],
    /// Its cautions.
    pub book: &'a Book,
}

impl<'a> Workplace<'a> {
    /// The first machine of a kind.
    pub fn machine(&self, kind: &str) -> Option<&'a Machine> {
        self.machines.iter().find(|machine| machine.kind == kind)
    }

    /// The cutter of an id.
    pub fn cutter(&self, id: &str) -> Option<&'a Cutter> {
        self.cutters.iter().find(|cutter| cutter.id == id)
    }

    /// The names that every formula sees, with their values.
    pub fn values(&self) -> Vec<(String, Value)> {
        let mut values = vec![
            (
                "short_piece".to_owned(),
                Value::Length(self.shop.short_piece),
            ),
            (
                "hand_distance".to_owned(),
                Value::Length(self.shop.hand_distance),
            ),
            (
                "rim_speed_limit".to_owned(),
                Value::RimSpeed(self.shop.rim_speed_limit()),
            ),
        ];
        for (name, clearance) in &self.shop.fits {
            values.push((
                format!("fit.{}", underscored(name)),
                Value::Length(*clearance),
            ));
        }
        for tool in &self.shop.tools {
            values.push((underscored(&tool.name), Value::Length(tool.resolution)));
        }
        let mut kinds: Vec<&str> = Vec::new();
        for machine in self.machines {
            if kinds.contains(&machine.kind.as_str()) {
                continue;
            }
            kinds.push(&machine.kind);
            values.extend(machine_values(machine));
        }
        values
    }
}

fn machine_values(machine: &Machine) -> Vec<(String, Value)> {
    let kind = underscored(&machine.kind);
    let (least, most) = match &machine.speeds {
        Speeds::Range { from, to } => (Some(*from), Some(*to)),
        Speeds::Steps(steps) => (steps.first().copied(), steps.last().copied()),
    };
    let mut values = vec![
        (
            format!("{kind}.height_step"),
            Value::Length(machine.height.resolution),
        ),
        (
            format!("{kind}.fence_step"),
            Value::Length(machine.fence.resolution),
        ),
        (
            format!("{kind}.table_length"),
            Value::Length(machine.table_length),
        ),
        (
            format!("{kind}.table_width"),
            Value::Length(machine.table_width),
        ),
    ];
    values.extend(least.map(|speed| (format!("{kind}.speed_least"), Value::Speed(speed))));
    values.extend(most.map(|speed| (format!("{kind}.speed_most"), Value::Speed(speed))));
    values
}

/// The kind of machine under which the cautions of a set-up stand; at the bench the operation
/// decides.
pub(super) fn machine_kind(set_up: &SetUp) -> &str {
    let bench = || Book::bench(&set_up.operation).unwrap_or("hand-tool");
    let machine = set_up.machine.as_ref();
    machine.map_or_else(bench, |(kind, _)| kind.as_str())
}

/// A name of the shop as formulas write it: `steel rule` and `router-table` with underscores.
pub(super) fn underscored(name: &str) -> String {
    name.replace(['-', ' '], "_")
}

/// The fields of a cutter that formulas see, after the name of the choice and a dot; the speed
/// may be missing and serves only where an argument may.
pub(super) fn cutter_fields(shape: Shape) -> Vec<(&'static str, Known)> {
    let mut fields = vec![
        ("diameter", Known::One(Kind::Length)),
        ("cutting_length", Known::One(Kind::Length)),
        ("shank", Known::One(Kind::Length)),
        ("marked_speed", Known::Maybe(Kind::Speed)),
    ];
    if shape == Shape::Dovetail {
        fields.push(("angle", Known::One(Kind::Angle)));
    }
    fields
}

/// Puts those fields among the values; a speed that is not marked is left out on purpose.
pub(super) fn put_cutter(values: &mut Values, choice: &str, cutter: &Cutter) {
    let mut put = |field: &str, value| values.insert(format!("{choice}.{field}"), value);
    put("diameter", Value::Length(cutter.diameter()));
    put("cutting_length", Value::Length(cutter.cutting_length));
    put("shank", Value::Length(cutter.shank));
    if let Some(angle) = cutter.angle {
        put("angle", Value::Angle(angle));
    }
    match cutter.marked_speed {
        Some(speed) => put("marked_speed", Value::Speed(speed)),
        None => values.leave_out(format!("{choice}.marked_speed")),
    }
}
