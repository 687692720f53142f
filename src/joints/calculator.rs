//! What an entry of the calculator table is: name, inputs, results, limits, the function.
//!
//! Everything that a person or a program can know of a calculator stands here once; the command
//! line, the formula language, the documentation pages and the checks read it from here.

use std::collections::BTreeMap;

use crate::units::{Angle, Kind, Length, RimSpeed, Role, Spindle, Value};

/// One calculator of the table.
#[derive(Debug)]
pub struct Calculator {
    /// Name on the command line and in JSON: `sliding-dovetail` (in formulas `sliding_dovetail`).
    pub name: &'static str,
    /// What it works out, in one line.
    pub summary: &'static str,
    /// The group that it is listed under.
    pub family: &'static str,
    /// What it takes, in order.
    pub inputs: &'static [Input],
    /// What it gives, in order.
    pub results: &'static [Output],
    /// What it refuses, one sentence each.
    pub refuses: &'static [&'static str],
    /// The letters of inputs and results on a drawing made of characters.
    pub sketch: &'static str,
    /// Where formulas and limits come from.
    pub source: &'static str,
    /// A worked example: input names and texts as typed on the command line.
    pub example: &'static [(&'static str, &'static str)],
    /// The calculation.
    pub run: fn(&Given) -> Result<Worked, Refusal>,
    /// The fit of the joint as a function of what can go wrong; none for a calculator without fit.
    pub fit: Option<fn(&Given, &Worked) -> Vec<Influence>>,
}

/// One input of a calculator.
#[derive(Debug)]
pub struct Input {
    /// Name, as typed: `stock`.
    pub name: &'static str,
    /// Its symbol on the sketch; may be empty.
    pub letter: &'static str,
    /// What kind of value.
    pub kind: Kind,
    /// Least and most, as text with units (`0 mm`, `100 mm`); for a choice the words, with ` | `.
    pub range: (&'static str, &'static str),
    /// What holds when it is not given.
    pub absent: Absent,
    /// What it is, with its datum.
    pub meaning: &'static str,
}

/// What happens when an input is not given.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Absent {
    /// It must be given.
    Required,
    /// It takes this value, written as text; said in the answer.
    Usual(&'static str),
    /// The calculator derives it, in the way that these words tell, or leaves out what needs it.
    Derived(&'static str),
}

/// One result of a calculator.
#[derive(Debug)]
pub struct Output {
    /// Name, as in JSON and formulas: `fence_first`.
    pub name: &'static str,
    /// Its symbol on the sketch; may be empty.
    pub letter: &'static str,
    /// What kind of value.
    pub kind: Kind,
    /// What it does at the machine; decides the direction of rounding.
    pub role: Role,
    /// What it is, with its datum.
    pub meaning: &'static str,
}

/// The values that a calculator is given, already of the right kind and in range.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Given {
    values: BTreeMap<&'static str, Value>,
}

/// What a calculator worked out.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Worked {
    /// Results by name; one that does not apply (a fence distance without `from`) is absent.
    pub results: BTreeMap<&'static str, Value>,
    /// What to beware of, one sentence each.
    pub warnings: Vec<String>,
    /// What to do in which order, such as the wall that each pass cuts; one sentence each.
    pub notes: Vec<String>,
}

/// Why a calculator gives no answer: what is, what may be, what to do instead.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Refusal {
    /// What is refused, in a sentence without a full stop.
    pub what: String,
    /// The figure that is too much or too little, with its name and unit.
    pub is: String,
    /// What it may be.
    pub may_be: String,
    /// What to do instead.
    pub instead: String,
}

/// Where an error of an influence on the fit comes from; says which tool's figure bounds it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Origin {
    /// Reading of the measuring tool.
    Measuring,
    /// Repeatability of the fence.
    Fence,
    /// Repeatability of the height.
    Height,
    /// What is known of the cutter's diameter.
    Diameter,
    /// What is known of the cutter's angle; the error is in degrees.
    CutterAngle,
}

/// How much one thing that can go wrong changes the fit.
#[derive(Debug, Clone, PartialEq)]
pub struct Influence {
    /// What goes wrong, in words: `socket cut deeper`.
    pub what: &'static str,
    /// Which figure of the shop bounds it.
    pub origin: Origin,
    /// Change of the fit (plus is tighter) for one unit of the error: a ratio of lengths, or for
    /// an angle millimetres a degree.
    pub factor: f64,
}

impl Given {
    /// The values by name, as the table names them.
    pub fn new(values: BTreeMap<&'static str, Value>) -> Self {
        Self { values }
    }

    /// All values in the order of their names.
    pub fn iter(&self) -> impl Iterator<Item = (&'static str, &Value)> {
        self.values.iter().map(|(name, value)| (*name, value))
    }

    /// The value of that name, whatever its kind.
    pub fn get(&self, name: &str) -> Option<&Value> {
        self.values.get(name)
    }

    /// The length of that name, when given.
    pub fn length(&self, name: &str) -> Option<Length> {
        match self.values.get(name) {
            Some(Value::Length(length)) => Some(*length),
            _ => None,
        }
    }

    /// The angle of that name, when given.
    pub fn angle(&self, name: &str) -> Option<Angle> {
        match self.values.get(name) {
            Some(Value::Angle(angle)) => Some(*angle),
            _ => None,
        }
    }

    /// The spindle speed of that name, when given.
    pub fn speed(&self, name: &str) -> Option<Spindle> {
        match self.values.get(name) {
            Some(Value::Speed(speed)) => Some(*speed),
            _ => None,
        }
    }

    /// The rim speed of that name, when given.
    pub fn rim_speed(&self, name: &str) -> Option<RimSpeed> {
        match self.values.get(name) {
            Some(Value::RimSpeed(speed)) => Some(*speed),
            _ => None,
        }
    }

    /// The word of that name, when given.
    pub fn choice(&self, name: &str) -> Option<&str> {
        match self.values.get(name) {
            Some(Value::Choice(word)) => Some(word),
            _ => None,
        }
    }
}
