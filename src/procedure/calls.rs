//! The calculators as formulas call them: signatures for checking, calls for working out.

use std::cell::RefCell;
use std::collections::BTreeMap;

use crate::diag::{Code, Fault};
use crate::formula::Signature;
use crate::joints::{self, Effort};
use crate::units::{Role, Value};

/// The signatures of all calculators, with names as formulas write them.
pub(super) fn signatures() -> Vec<Signature> {
    let signature = |calculator: &&joints::Calculator| calculator.signature();
    joints::ALL.iter().map(signature).collect()
}

/// What the rounding of a result is for, and what the result means.
pub(super) fn meaning(calculator: &str, result: &str) -> Option<(Role, &'static str)> {
    let calculator = joints::find(calculator)?;
    let output = calculator
        .results
        .iter()
        .find(|output| output.name == result)?;
    Some((output.role, output.meaning))
}

/// Calls calculators and gathers what they warn of and tell.
#[derive(Debug, Default)]
pub(super) struct Calls {
    said: RefCell<Said>,
}

/// What calculators said, each sentence once, and what they ask of the cutters.
#[derive(Debug, Clone)]
pub(super) struct Said {
    pub(super) warnings: Vec<String>,
    pub(super) notes: Vec<String>,
    pub(super) effort: Effort,
}

impl Default for Said {
    fn default() -> Self {
        Self {
            warnings: Vec::new(),
            notes: Vec::new(),
            effort: Effort::NONE,
        }
    }
}

impl Calls {
    /// Runs one calculator; a refusal becomes a fault without a place.
    pub(super) fn call(
        &self,
        name: &str,
        values: BTreeMap<String, Value>,
    ) -> Result<BTreeMap<String, Value>, Fault> {
        let calculator = joints::find(name).ok_or_else(|| {
            Fault::error(
                Code::FORMULA_NAME,
                format!("no calculator is called `{name}`"),
            )
        })?;
        let answer = calculator.call(values).map_err(Fault::from)?;
        let mut said = self.said.borrow_mut();
        said.effort = said.effort.and(Effort::of(calculator, &answer));
        add(&mut said.warnings, answer.worked.warnings);
        add(&mut said.notes, answer.worked.notes);
        let results = answer.worked.results.into_iter();
        Ok(results
            .map(|(name, value)| (name.to_owned(), value))
            .collect())
    }

    /// What was said so far.
    pub(super) fn said(&self) -> Said {
        self.said.borrow().clone()
    }
}

fn add(list: &mut Vec<String>, more: Vec<String>) {
    for sentence in more {
        if !list.contains(&sentence) {
            list.push(sentence);
        }
    }
}
