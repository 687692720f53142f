//! Warnings that a procedure accepts, each with its reason: `accept: [{code: ..., because: ...}]`.

use super::super::model::Accepted;
use crate::diag::{Code, Fault, Faults, Severity};

/// Leaves out the warnings that are accepted. An error cannot be accepted, and what accepts
/// nothing is told, so that no reason outlives its warning.
pub(in super::super) fn leave_out(faults: Faults, accepted: &[Accepted]) -> Faults {
    let is = |one: &Accepted, fault: &Fault| fault.code.name() == one.code;
    let mut left = Faults::new();
    let mut met = vec![false; accepted.len()];
    for fault in faults {
        let by = accepted.iter().position(|one| is(one, &fault));
        match by.filter(|_| fault.severity == Severity::Warning) {
            Some(at) => met[at] = true,
            None => left.push(fault),
        }
    }
    let errors: Vec<bool> = accepted
        .iter()
        .map(|one| left.iter().any(|fault| is(one, fault)))
        .collect();
    for ((one, met), error) in accepted.iter().zip(met).zip(errors) {
        if Code::find(&one.code).is_none() {
            let message = format!("no fault has the code `{}`", one.code);
            let codes = Code::ALL.iter().map(|(code, _)| code.name());
            let near = crate::diag::nearest(&one.code, codes);
            let hint = near.map_or_else(
                || "the code stands in brackets at the head of a warning".to_owned(),
                |near| format!("did you mean `{near}`?"),
            );
            let fault = Fault::error(Code::UNKNOWN_NAME, message).at(one.place.clone());
            left.push(fault.hint(hint));
        } else if error {
            let fault = Fault::error(Code::ACCEPT_ERROR, "an error cannot be accepted");
            left.push(fault.at(one.place.clone()).hint("mend what it tells"));
        } else if !met {
            let fault = Fault::warning(Code::ACCEPT_UNUSED, "there is no such warning to accept");
            left.push(fault.at(one.place.clone()).hint("take the entry out"));
        }
    }
    left
}
