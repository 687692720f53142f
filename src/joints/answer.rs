//! What goes into a calculator and what comes out: given values, results, or a refusal.
//!
//! A refusal is an answer, not a mistake of the program: it says in the figures of the inputs what
//! is, what may be, and what to do instead.

use std::collections::{BTreeMap, BTreeSet};

use super::{Calculator, Influence};
use crate::diag::{Code, Fault};
use crate::units::{Angle, Feed, Length, RimSpeed, Spindle, Value};

/// The values that a calculator is given, already of the right kind and in range.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Given {
    values: BTreeMap<&'static str, Value>,
    usual: BTreeSet<&'static str>,
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

/// A calculation done: what it was given, usual values included, and what it gave.
#[derive(Debug, Clone, PartialEq)]
pub struct Answer {
    /// All values that it was worked out from.
    pub given: Given,
    /// Results, warnings, notes.
    pub worked: Worked,
}

/// Why there is no answer.
#[derive(Debug, Clone, PartialEq)]
pub enum Stopped {
    /// The values do not fit the calculator: a wrong name, kind or size, or one missing.
    Fault(Fault),
    /// The values fit, and the joint cannot be cut so.
    Refused(Refusal),
}

impl Given {
    /// The values by name, as the table names them.
    pub fn new(values: BTreeMap<&'static str, Value>) -> Self {
        Self {
            values,
            usual: BTreeSet::new(),
        }
    }

    /// Adds the usual value of an input that was left out.
    pub(super) fn add_usual(&mut self, name: &'static str, value: Value) {
        self.values.insert(name, value);
        self.usual.insert(name);
    }

    /// Whether the value of that name is the table's usual one, since none was given.
    pub fn is_usual(&self, name: &str) -> bool {
        self.usual.contains(name)
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

    /// The feed rate of that name, when given.
    pub fn feed(&self, name: &str) -> Option<Feed> {
        match self.values.get(name) {
            Some(Value::Feed(feed)) => Some(*feed),
            _ => None,
        }
    }

    /// The amount of that name in its base unit (%, degrees Celsius, N, GPa), when given.
    pub fn amount(&self, name: &str) -> Option<f64> {
        match self.values.get(name) {
            Some(Value::Amount(amount)) => Some(amount.to_base()),
            _ => None,
        }
    }

    /// The count of that name, when given.
    pub fn count(&self, name: &str) -> Option<i64> {
        match self.values.get(name) {
            Some(Value::Count(count)) => Some(*count),
            _ => None,
        }
    }

    /// The plain number or the count of that name, when given.
    pub fn number(&self, name: &str) -> Option<f64> {
        match self.values.get(name) {
            Some(Value::Number(number)) => Some(*number),
            Some(Value::Count(count)) => Some(*count as f64),
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

impl Refusal {
    /// A refusal: what, what is, what may be, what to do instead.
    pub(super) fn new(
        what: &str,
        is: impl Into<String>,
        may_be: impl Into<String>,
        instead: &str,
    ) -> Self {
        Self {
            what: what.to_owned(),
            is: is.into(),
            may_be: may_be.into(),
            instead: instead.to_owned(),
        }
    }
}

/// The value of an input that cannot be done without.
///
/// # Errors
/// A refusal that names it; [`work_out`](super::work_out()) finds it missing before.
pub(super) fn needed<T>(name: &str, value: Option<T>) -> Result<T, Refusal> {
    let missing = "a value that must be given is missing";
    value.ok_or_else(|| Refusal::new(missing, format!("no `{name}`"), "given", "Give it."))
}

impl Answer {
    /// How much each thing that can go wrong changes the fit; none for a calculator without fit.
    pub fn influences(&self, calculator: &Calculator) -> Vec<Influence> {
        calculator
            .fit
            .map_or_else(Vec::new, |rule| (rule.of)(&self.given).influences)
    }
}

impl From<Fault> for Stopped {
    fn from(fault: Fault) -> Self {
        Self::Fault(fault)
    }
}

impl From<Refusal> for Stopped {
    fn from(refusal: Refusal) -> Self {
        Self::Refused(refusal)
    }
}

impl From<Refusal> for Fault {
    fn from(refusal: Refusal) -> Self {
        let Refusal {
            what,
            is,
            may_be,
            instead,
        } = refusal;
        Self::error(Code::REFUSED, format!("{what}: {is}, may be {may_be}")).hint(instead)
    }
}

impl From<Stopped> for Fault {
    fn from(stopped: Stopped) -> Self {
        match stopped {
            Stopped::Fault(fault) => fault,
            Stopped::Refused(refusal) => refusal.into(),
        }
    }
}
