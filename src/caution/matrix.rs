//! The coverage matrix: which kinds of caution a machine and operation must carry, and which
//! pairs are never cut.
//!
//! Files only ever add: a pair named again gains kinds and loses none, and a forbidden pair stays
//! forbidden. The kinds of [`EVERY_MACHINE`] are needed at every machine without being written
//! down; work at the bench ([`BENCH`]) needs what its row says.

use std::collections::BTreeSet;

use super::CautionKind;
use super::condition;
use super::file::{RawForbidden, RawPair};
use super::rule::{Entry, kinds};
use crate::diag::{Code, Fault, Faults, Span, nearest};
use crate::formula::Formula;

/// Kinds that every cut at a machine needs.
pub const EVERY_MACHINE: [CautionKind; 6] = [
    CautionKind::Isolate,
    CautionKind::Guard,
    CautionKind::Dust,
    CautionKind::Ppe,
    CautionKind::Training,
    CautionKind::RunDown,
];

/// Machine and operation of work without a rotating tool; a set-up at the bench names only the
/// operation.
pub const BENCH: [(&str, &str); 3] = [
    ("hand-tool", "chisel-plane-saw"),
    ("glue-up", "glue-up"),
    ("finish", "finish"),
];

/// A row: what a cut must carry.
#[derive(Debug, Clone)]
pub(super) struct Pair {
    pub(super) machine: String,
    pub(super) operation: String,
    /// Always.
    pub(super) required: BTreeSet<CautionKind>,
    /// When the condition holds.
    pub(super) when: Vec<(CautionKind, Formula)>,
    /// The operation in the file.
    pub(super) place: Span,
}

/// A cut that is never made.
#[derive(Debug, Clone)]
pub(super) struct Forbidden {
    pub(super) machine: String,
    pub(super) operation: String,
    pub(super) why: String,
    pub(super) instead: String,
}

/// All rows.
#[derive(Debug, Clone, Default)]
pub(super) struct Matrix {
    pub(super) pairs: Vec<Pair>,
    pub(super) forbidden: Vec<Forbidden>,
}

impl Matrix {
    /// Adds a row, or adds to the one that is there.
    pub(super) fn add(&mut self, raw: RawPair, entry: &Entry, faults: &mut Faults) {
        let mut required = BTreeSet::new();
        for (index, name) in raw.required.iter().enumerate() {
            let below = ["required".into(), index.into()];
            required.extend(faults.keep(entry.listed(name, &below, kinds())));
        }
        let mut when = Vec::new();
        for (name, text) in raw.when.iter() {
            let below = ["if".into(), name.as_str().into()];
            let kind = faults.keep(entry.listed(name, &below, kinds()));
            let condition = faults.keep(condition::read(text, &entry.place(&below)));
            when.extend(kind.zip(condition));
        }
        if !is_bench(&raw.machine) {
            required.extend(EVERY_MACHINE);
        }
        let place = entry.place(&["operation".into()]);
        match self.find_mut(&raw.machine, &raw.operation) {
            Some(pair) => {
                pair.required.extend(required);
                pair.when.extend(when);
            }
            None => self.pairs.push(Pair {
                machine: raw.machine,
                operation: raw.operation,
                required,
                when,
                place,
            }),
        }
    }

    /// Adds a pair that is never cut.
    pub(super) fn forbid(&mut self, raw: RawForbidden) {
        self.forbidden.push(Forbidden {
            machine: raw.machine,
            operation: raw.operation,
            why: raw.why,
            instead: raw.instead,
        });
    }

    /// The row of a pair.
    ///
    /// # Errors
    /// `caution-forbidden` with the reason and what to do instead; `unknown-name` with the
    /// nearest one that is known.
    pub(super) fn find(&self, machine: &str, operation: &str) -> Result<&Pair, Fault> {
        let is_it = |one: (&str, &str)| one == (machine, operation);
        if let Some(forbidden) =
            (self.forbidden.iter()).find(|one| is_it((&one.machine, &one.operation)))
        {
            let why = &forbidden.why;
            let message = format!("`{operation}` at `{machine}` is never done: {why}");
            return Err(
                Fault::error(Code::CAUTION_FORBIDDEN, message).hint(forbidden.instead.clone())
            );
        }
        (self.pairs.iter())
            .find(|pair| is_it((&pair.machine, &pair.operation)))
            .ok_or_else(|| self.unknown(machine, operation))
    }

    fn find_mut(&mut self, machine: &str, operation: &str) -> Option<&mut Pair> {
        (self.pairs.iter_mut()).find(|pair| pair.machine == machine && pair.operation == operation)
    }

    /// The operations that are known at a machine, in the order of the files.
    pub(super) fn operations(&self, machine: &str) -> Vec<&str> {
        (self.pairs.iter())
            .filter(|pair| pair.machine == machine)
            .map(|pair| pair.operation.as_str())
            .collect()
    }

    /// Tells that a pair is not known, and which one may have been meant.
    pub(super) fn unknown(&self, machine: &str, operation: &str) -> Fault {
        let operations = self.operations(machine);
        let (typed, message, known) = if operations.is_empty() {
            let machines: BTreeSet<_> = self.pairs.iter().map(|one| one.machine.as_str()).collect();
            let message = format!("no cautions are known for `{machine}`");
            (machine, message, Vec::from_iter(machines))
        } else {
            let message = format!("no cautions are known for `{operation}` at `{machine}`");
            (operation, message, operations)
        };
        let near = nearest(typed, known.iter().copied());
        Fault::error(Code::UNKNOWN_NAME, message)
            .maybe_hint(near.map(|near| format!("did you mean `{near}`?")))
            .hint(format!("known are {}", known.join(", ")))
    }
}

/// Whether a machine name stands for work at the bench.
fn is_bench(machine: &str) -> bool {
    BENCH.iter().any(|(bench, _)| *bench == machine)
}
