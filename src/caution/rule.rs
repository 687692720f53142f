//! A rule: one caution's words, for which cuts it holds, and where its facts come from.
//!
//! In: an entry of a caution file. Out: a [`Rule`] whose kind, signal word, place, status and
//! condition are known good, or faults that point into the file. Coverage is not judged here
//! (`check.rs`), nor are the words (`wording.rs`).

use std::sync::Arc;

use super::condition;
use super::file::{RawCited, RawOperations, RawRule};
use super::{CautionKind, SignalWord, Stands, Status};
use crate::diag::{Code, Fault, Faults, Source, Span, nearest};
use crate::formula::Formula;
use crate::yaml::{Step, place};

/// Operations that a rule speaks of.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Operations {
    /// All that the matrix knows for the machine.
    Every,
    /// Only these.
    These(Vec<String>),
}

impl Operations {
    /// Whether one operation is among them.
    pub(super) fn cover(&self, operation: &str) -> bool {
        match self {
            Self::Every => true,
            Self::These(list) => list.iter().any(|one| one == operation),
        }
    }

    /// Whether all of `other` are among them.
    pub(super) fn cover_all(&self, other: &Self) -> bool {
        match other {
            Self::Every => *self == Self::Every,
            Self::These(list) => list.iter().all(|one| self.cover(one)),
        }
    }
}

/// A source of a rule.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Basis {
    /// The citation.
    pub(super) cite: String,
    /// Number of the fact in `procedures/cautions/README.md`.
    pub(super) fact: String,
    /// How well it is known.
    pub(super) status: Status,
}

/// One rule of the book.
#[derive(Debug, Clone)]
pub(super) struct Rule {
    pub(super) id: String,
    pub(super) machine: String,
    pub(super) kind: CautionKind,
    pub(super) operations: Operations,
    pub(super) stands: Stands,
    /// Holds always, or only then.
    pub(super) when: Option<Formula>,
    pub(super) signal: SignalWord,
    pub(super) hazard: String,
    pub(super) harm: String,
    pub(super) avoid: String,
    pub(super) sources: Vec<Basis>,
    /// Its id in the file.
    pub(super) place: Span,
}

impl Rule {
    /// Whether it speaks of a cut, its condition aside.
    pub(super) fn is_for(&self, machine: &str, operation: &str) -> bool {
        self.machine == machine && self.operations.cover(operation)
    }

    /// The text of its condition.
    pub(super) fn when_text(&self) -> Option<&str> {
        self.when.as_ref().map(Formula::text)
    }

    /// Hazard, harm and how to avoid it, as one text.
    pub(super) fn words(&self) -> String {
        format!("{} {} {}", self.hazard, self.harm, self.avoid)
    }
}

/// An entry of a file: where it is, for the faults in it.
pub(super) struct Entry<'s> {
    pub(super) source: &'s Arc<Source>,
    pub(super) list: &'static str,
    pub(super) item: usize,
}

impl Entry<'_> {
    /// The place of a value further down this entry.
    pub(super) fn place(&self, below: &[Step]) -> Span {
        let mut path = vec![Step::from(self.list), Step::from(self.item)];
        path.extend_from_slice(below);
        place(self.source, &path)
    }

    /// The member of a closed list that `name` means.
    pub(super) fn listed<T: Copy>(
        &self,
        name: &str,
        below: &[Step],
        known: impl Iterator<Item = (&'static str, T)> + Clone,
    ) -> Result<T, Fault> {
        if let Some((_, found)) = known.clone().find(|(one, _)| *one == name) {
            return Ok(found);
        }
        let names: Vec<_> = known.map(|(one, _)| one).collect();
        let near = nearest(name, names.iter().copied());
        Err(
            Fault::error(Code::UNKNOWN_NAME, format!("`{name}` is not known here"))
                .at(self.place(below))
                .label(format!("one of {}", names.join(", ")))
                .maybe_hint(near.map(|near| format!("did you mean `{near}`?"))),
        )
    }
}

/// Kinds by name, for [`Entry::listed`].
pub(super) fn kinds() -> impl Iterator<Item = (&'static str, CautionKind)> + Clone {
    CautionKind::ALL.iter().map(|one| (one.name(), *one))
}

/// Makes a rule of an entry, or notes all that is wrong with it.
pub(super) fn rule(
    raw: RawRule,
    machine: &str,
    entry: &Entry,
    faults: &mut Faults,
) -> Option<Rule> {
    let kind = faults.keep(entry.listed(&raw.kind, &["kind".into()], kinds()));
    let signals = SignalWord::ALL.iter().map(|one| (one.name(), *one));
    let signal = faults.keep(entry.listed(&raw.signal, &["signal".into()], signals));
    let places = Stands::ALL.iter().map(|one| (one.name(), *one));
    let stands = faults.keep(entry.listed(&raw.stands, &["stands".into()], places));
    let operations = faults.keep(operations(raw.operations, entry));
    let when = match raw.when {
        Some(text) => {
            let read = condition::read(&text, &entry.place(&["when".into()]));
            Some(faults.keep(read)?)
        }
        None => None,
    };
    let sources = basis(raw.sources, entry, faults);
    Some(Rule {
        id: raw.caution,
        machine: machine.to_owned(),
        kind: kind?,
        operations: operations?,
        stands: stands?,
        when,
        signal: signal?,
        hazard: raw.hazard,
        harm: raw.harm,
        avoid: raw.avoid,
        sources: sources?,
        place: entry.place(&["caution".into()]),
    })
}

fn operations(raw: RawOperations, entry: &Entry) -> Result<Operations, Fault> {
    let message = match raw {
        RawOperations::Word(word) if word == "every" => return Ok(Operations::Every),
        RawOperations::List(list) if !list.is_empty() => return Ok(Operations::These(list)),
        RawOperations::Word(word) => format!("`{word}` is not a list of operations"),
        RawOperations::List(_) => "the list of operations is empty".to_owned(),
    };
    Err(Fault::error(Code::WRONG_TYPE, message)
        .at(entry.place(&["operations".into()]))
        .hint("write `every`, or a list: `[stopped-groove]`"))
}

fn basis(raw: Vec<RawCited>, entry: &Entry, faults: &mut Faults) -> Option<Vec<Basis>> {
    let count = raw.len();
    let statuses = Status::ALL.iter().map(|one| (one.name(), *one));
    let mut sources = Vec::new();
    for (index, cited) in raw.into_iter().enumerate() {
        let below = ["sources".into(), index.into(), "status".into()];
        let status = entry.listed(&cited.status, &below, statuses.clone());
        if let Some(status) = faults.keep(status) {
            sources.push(Basis {
                cite: cited.cite,
                fact: cited.fact,
                status,
            });
        }
    }
    (sources.len() == count).then_some(sources)
}
