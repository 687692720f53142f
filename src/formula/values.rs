//! The values that a formula is worked out with, and what comes out.

use std::collections::BTreeMap;

use crate::units::{Kind, Value};

/// Values by name. Results of a calculator stand as `cut.mouth`.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Values {
    named: BTreeMap<String, Option<Value>>,
}

/// What a formula gives.
#[derive(Debug, Clone, PartialEq)]
pub enum Outcome {
    /// One value; a length to the nearest nanometre.
    One(Value),
    /// The results of a calculator, as its call handed them back.
    Results(BTreeMap<String, Value>),
}

impl Values {
    /// No values yet.
    pub fn new() -> Self {
        Self::default()
    }

    /// Gives a name its value.
    pub fn insert(&mut self, name: impl Into<String>, value: Value) {
        self.named.insert(name.into(), Some(value));
    }

    /// Gives `name.result` its value for each result of a calculator.
    pub fn insert_results(&mut self, name: &str, results: &BTreeMap<String, Value>) {
        for (result, value) in results {
            self.insert(format!("{name}.{result}"), value.clone());
        }
    }

    /// Says that a name has no value and that this is in order (a cutter without a marked
    /// speed): an argument that is this name is left out.
    pub fn leave_out(&mut self, name: impl Into<String>) {
        self.named.insert(name.into(), None);
    }

    /// The value of a name, when it has one.
    pub fn get(&self, name: &str) -> Option<&Value> {
        self.named.get(name)?.as_ref()
    }

    /// Whether the name was said to have no value.
    pub(super) fn is_left_out(&self, name: &str) -> bool {
        matches!(self.named.get(name), Some(None))
    }

    /// The parts `x` of all `before.x` that have a value.
    pub(super) fn parts(&self, before: &str) -> Vec<&str> {
        let given = self.named.iter().filter(|(_, value)| value.is_some());
        given
            .filter_map(|(name, _)| name.strip_prefix(before)?.strip_prefix('.'))
            .collect()
    }
}

impl FromIterator<(String, Value)> for Values {
    fn from_iter<I: IntoIterator<Item = (String, Value)>>(values: I) -> Self {
        let named = values.into_iter().map(|(name, value)| (name, Some(value)));
        Self {
            named: named.collect(),
        }
    }
}

/// The value as `kind` wants it: a count becomes a number; all else stays what it is.
///
/// A formula hands a calculator a count where the count does for a number; what calls the
/// calculator brings each argument to the kind of its input with this.
///
/// ```
/// use faceside::{formula::as_kind, units::{Kind, Value}};
/// assert_eq!(as_kind(Value::Count(3), Kind::Number), Value::Number(3.0));
/// ```
pub fn as_kind(value: Value, kind: Kind) -> Value {
    match (value, kind) {
        (Value::Count(count), Kind::Number) => Value::Number(count as f64),
        (value, _) => value,
    }
}
