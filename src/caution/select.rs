//! Picks the cautions of one set-up; the only maker of [`Selected`].
//!
//! In: machine kind, operation, the values that conditions ask for. Out: every rule that holds in
//! the book's jurisdiction, gravest first, or all reasons why nothing may be printed: a forbidden or unknown pair, a value
//! that is not at hand, a kind that the matrix requires and no rule gives.

use std::collections::BTreeSet;

use super::condition::holds;
use super::rule::Rule;
use super::{Book, Caution, CautionKind, Selected};
use crate::diag::{Code, Fault, Faults};
use crate::formula::{Formula, Values};

impl Book {
    /// The cautions of a set-up.
    ///
    /// # Errors
    /// `caution-forbidden`, `unknown-name`, `value-missing` or `caution-missing`; every one that
    /// was found, each naming machine, operation and kind where it concerns them.
    pub fn select(
        &self,
        machine: &str,
        operation: &str,
        values: &Values,
    ) -> Result<Selected, Faults> {
        let pair = self.matrix.find(machine, operation)?;
        let mut faults = Faults::new();
        if self.limits.is_none() {
            faults.push(no_limits());
        }
        let mut cautions = Vec::new();
        let here = self.jurisdiction;
        let speaking = (self.rules.iter()).filter(|rule| rule.is_for(machine, operation, here));
        for rule in speaking {
            if (rule.when.iter()).all(|when| met(when, values, &mut faults)) {
                cautions.push(caution(rule));
            }
        }
        let mut required = pair.required.clone();
        for (kind, when) in &pair.when {
            if met(when, values, &mut faults) {
                required.insert(*kind);
            }
        }
        let given: BTreeSet<_> = cautions.iter().map(Caution::kind).collect();
        faults.extend((required.difference(&given)).map(|kind| missing(machine, operation, *kind)));
        if faults.any_error() {
            return Err(faults);
        }
        cautions.sort_by_key(|caution| (caution.signal, caution.kind));
        Ok(Selected { cautions })
    }
}

/// Whether a condition holds; that it cannot be told is noted once.
fn met(when: &Formula, values: &Values, faults: &mut Faults) -> bool {
    holds(when, values).unwrap_or_else(|fault| {
        if faults.iter().all(|noted| *noted != fault) {
            faults.push(fault);
        }
        false
    })
}

/// Tells that a kind is required and not given.
pub(super) fn missing(machine: &str, operation: &str, kind: CautionKind) -> Fault {
    let name = kind.name();
    let message = format!("`{operation}` at `{machine}` has no caution of the kind `{name}`");
    Fault::error(Code::CAUTION_MISSING, message).hint(format!(
        "add a rule of the kind `{name}` to a file in cautions/"
    ))
}

/// Tells that no file holds the limits statement.
pub(super) fn no_limits() -> Fault {
    Fault::error(Code::CAUTION_MISSING, "no file holds the limits statement")
        .hint("add `limits:` with `long` and `short` to a file in cautions/")
}

fn caution(rule: &Rule) -> Caution {
    Caution {
        id: rule.id.clone(),
        kind: rule.kind,
        signal: rule.signal,
        stands: rule.stands,
        hazard: rule.hazard.clone(),
        harm: rule.harm.clone(),
        avoid: rule.avoid.clone(),
        brief: rule.brief.clone(),
        sources: rule.cited(),
    }
}
