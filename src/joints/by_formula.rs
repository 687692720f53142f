//! A calculator as formulas see and call it.
//!
//! The signature is made from its entry in the table; a call brings each value to the kind of its
//! input, since a formula's plain number may stand for a count, and then works out as everyone does.

use std::collections::BTreeMap;

use super::{Answer, Calculator, Input, Stopped, work_out};
use crate::formula::{Param, Signature, as_kind};
use crate::units::Value;

impl Calculator {
    /// What formulas may call, and what that gives.
    pub fn signature(&self) -> Signature {
        let param = |input: &Input| Param {
            name: input.name.to_owned(),
            kind: input.kind,
            required: input.is_required(),
            options: input.options().into_iter().map(str::to_owned).collect(),
        };
        let results = self.results.iter();
        Signature {
            name: self.formula_name(),
            params: self.inputs.iter().map(param).collect(),
            results: results.map(|out| (out.name.to_owned(), out.kind)).collect(),
        }
    }

    /// The answer to a formula's arguments.
    ///
    /// # Errors
    /// As of [`work_out()`](super::work_out()).
    pub fn call(&'static self, values: BTreeMap<String, Value>) -> Result<Answer, Stopped> {
        let values = values.into_iter().map(|(name, value)| {
            let value = match self.input(&name) {
                Some(input) => as_kind(value, input.kind),
                None => value,
            };
            (name, value)
        });
        work_out(self, &values.collect())
    }
}
