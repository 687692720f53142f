//! Proves that the book leaves no cut without its cautions, whatever the values.
//!
//! A required kind needs a rule without a condition; a kind that is required under a condition
//! needs a rule without one, or with that very condition: that one formula follows from another is
//! not proved here. Both hold in each jurisdiction, whichever the shop has. The words are judged in
//! `wording.rs`.

use std::collections::{BTreeMap, BTreeSet};

use super::rule::{Operations, Rule};
use super::select::{missing, no_limits};
use super::{Book, CautionKind, Stands, wording};
use crate::diag::{Code, Fault, Faults};
use crate::shop::Jurisdiction;

/// Most cautions before one step that cuts; more are not read (own rule, derived).
const MOST_AT_A_CUT: usize = 4;

/// Tells in which jurisdictions a kind is missing.
fn only_in(jurisdictions: &[Jurisdiction]) -> String {
    let names: Vec<_> = jurisdictions.iter().map(|one| one.name()).collect();
    let names = names.join(", ");
    format!(
        "it is missing where the jurisdiction is {names}; let a rule without `jurisdiction` or with these hold there"
    )
}

impl Book {
    /// All that is wrong with the book: cuts that lack a kind, rules that no cut uses, words that
    /// break a rule.
    pub fn check(&self) -> Faults {
        let mut faults = Faults::new();
        if self.limits.is_none() {
            faults.push(no_limits());
        }
        for pair in &self.matrix.pairs {
            let lacking = self.check_pair(&pair.machine, &pair.operation);
            faults.extend(lacking.into_iter().map(|one| one.at(pair.place())));
            let at_cut = Jurisdiction::ALL.map(|one| {
                let standing = (self.rules.iter()).filter(|rule| rule.stands == Stands::Cut);
                standing
                    .filter(|rule| rule.is_for(&pair.machine, &pair.operation, one))
                    .count()
            });
            let at_cut = at_cut.into_iter().max().unwrap_or(0);
            if at_cut > MOST_AT_A_CUT {
                let cut = format!("`{}` at `{}`", pair.operation, pair.machine);
                let message = format!("{at_cut} cautions stand before each cut of {cut}");
                let fault = Fault::warning(Code::STYLE, message).at(pair.place());
                faults.push(fault.hint("let one of them stand at the head: `stands: sheet`"));
            }
        }
        for rule in &self.rules {
            faults.extend(self.unused(rule));
            faults.extend(wording::faults(rule));
        }
        faults
    }

    /// Whether a machine and operation have all kinds that can ever be required of them.
    ///
    /// Faults: `caution-forbidden`, `unknown-name`, or a `caution-missing` for each kind.
    pub fn check_pair(&self, machine: &str, operation: &str) -> Faults {
        let pair = match self.matrix.find(machine, operation) {
            Ok(pair) => pair,
            Err(fault) => return fault.into(),
        };
        let mut lacking: BTreeMap<CautionKind, Vec<Jurisdiction>> = BTreeMap::new();
        for jurisdiction in Jurisdiction::ALL {
            let gives = |kind: CautionKind, condition: Option<&str>| {
                (self.rules.iter())
                    .filter(|rule| rule.kind == kind)
                    .filter(|rule| rule.is_for(machine, operation, jurisdiction))
                    .any(|rule| rule.when.is_none() || rule.when_text() == condition)
            };
            let always = (pair.required.iter().copied()).filter(|kind| !gives(*kind, None));
            let sometimes = (pair.when.iter())
                .filter(|(kind, when)| !gives(*kind, Some(when.text())))
                .map(|(kind, _)| *kind);
            for kind in always.chain(sometimes).collect::<BTreeSet<_>>() {
                lacking.entry(kind).or_default().push(jurisdiction);
            }
        }
        let mut faults = Faults::new();
        for (kind, jurisdictions) in lacking {
            let fault = missing(machine, operation, kind);
            faults.push(match jurisdictions.len() == Jurisdiction::ALL.len() {
                true => fault,
                false => fault.hint(only_in(&jurisdictions)),
            });
        }
        faults
    }

    /// Operations of a rule that the matrix does not know: the rule would never be shown.
    fn unused(&self, rule: &Rule) -> Faults {
        let known = self.matrix.operations(&rule.machine);
        let unknown: Vec<&str> = match &rule.operations {
            Operations::Every if known.is_empty() => vec![""],
            Operations::Every => Vec::new(),
            Operations::These(list) => (list.iter().map(String::as_str))
                .filter(|one| !known.contains(one))
                .collect(),
        };
        let mut faults = Faults::new();
        faults.extend(
            (unknown.into_iter())
                .map(|operation| (self.matrix.unknown(&rule.machine, operation)).at(rule.place())),
        );
        faults
    }
}
