//! A rule: one caution's words, for which cuts it holds, and where its facts come from.
//!
//! In: an entry of a caution file. Out: a [`Rule`] whose kind, signal word, place, status and
//! condition are known good, or faults that point into the file. Coverage is not judged here
//! (`check.rs`), nor are the words (`wording.rs`).

use super::condition;
use super::entry::{Entry, kinds};
use super::file::{RawCited, RawOperations, RawRule};
use super::{CautionKind, Cited, SignalWord, Stands, Status};
use crate::diag::{Code, Fault, Faults, Span};
use crate::formula::Formula;
use crate::shop::Jurisdiction;

/// Operations that a rule speaks of.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Operations {
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
pub struct Basis {
    /// The citation.
    pub cite: String,
    /// Number of the fact in `procedures/cautions/README.md`.
    pub fact: String,
    /// How well it is known.
    pub status: Status,
}

/// One rule of the book.
#[derive(Debug, Clone)]
pub struct Rule {
    /// Its id, unique in the book.
    pub id: String,
    /// Kind of machine, or the bench work, that it is for.
    pub machine: String,
    /// What it is about.
    pub kind: CautionKind,
    /// Operations that it holds for.
    pub operations: Operations,
    /// Where it stands on a sheet.
    pub stands: Stands,
    /// Holds always, or only then.
    pub(super) when: Option<Formula>,
    /// Jurisdictions that it holds in; all of them where its entry names none.
    pub(super) jurisdictions: Vec<Jurisdiction>,
    /// How grave it is.
    pub signal: SignalWord,
    /// The hazard, in a sentence.
    pub hazard: String,
    /// What happens if it is not avoided.
    pub harm: String,
    /// How to avoid it.
    pub avoid: String,
    /// How to avoid it in a line, for where the caution stands again on one sheet.
    pub brief: Option<String>,
    /// Where its facts come from.
    pub sources: Vec<Basis>,
    /// Where it stands in its file.
    pub(super) entry: Entry,
}

impl Rule {
    /// Whether it speaks of a cut, its condition aside.
    pub(super) fn is_for(
        &self,
        machine: &str,
        operation: &str,
        jurisdiction: Jurisdiction,
    ) -> bool {
        self.machine == machine
            && self.operations.cover(operation)
            && self.jurisdictions.contains(&jurisdiction)
    }

    /// The text of its condition.
    pub fn when_text(&self) -> Option<&str> {
        self.when.as_ref().map(Formula::text)
    }

    /// The place of its id.
    pub(super) fn place(&self) -> Span {
        self.entry.place(&["caution".into()])
    }

    /// Its sources as printed, with `(to be checked)` where nobody has read them.
    pub fn cited(&self) -> Vec<Cited> {
        self.sources.iter().map(cited).collect()
    }

    /// Hazard, harm and how to avoid it, as one text.
    pub(super) fn words(&self) -> String {
        format!("{} {} {}", self.hazard, self.harm, self.avoid)
    }
}

/// A citation as printed: where, number of the fact, and whether it was read.
fn cited(basis: &Basis) -> Cited {
    let Basis { cite, fact, status } = basis;
    let doubt = match status {
        Status::Read2nd | Status::Memory => " (to be checked)",
        Status::Read | Status::Practice | Status::Derived => "",
    };
    Cited {
        text: format!("{cite}, {fact}{doubt}"),
        status: *status,
    }
}

/// Makes a rule of an entry, or notes all that is wrong with it.
pub(super) fn rule(raw: RawRule, machine: &str, entry: Entry, faults: &mut Faults) -> Option<Rule> {
    let kind = faults.keep(entry.listed(&raw.kind, &["kind".into()], kinds()));
    let signals = SignalWord::ALL.iter().map(|one| (one.name(), *one));
    let signal = faults.keep(entry.listed(&raw.signal, &["signal".into()], signals));
    let places = Stands::ALL.iter().map(|one| (one.name(), *one));
    let stands = faults.keep(entry.listed(&raw.stands, &["stands".into()], places));
    let operations = faults.keep(operations(raw.operations, &entry));
    let when = match raw.when {
        Some(text) => {
            let read = condition::read(&text, &entry, &["when".into()]);
            Some(faults.keep(read)?)
        }
        None => None,
    };
    let jurisdictions = jurisdictions(raw.jurisdiction, &entry, faults);
    let sources = basis(raw.sources, &entry, faults);
    Some(Rule {
        id: raw.caution,
        machine: machine.to_owned(),
        kind: kind?,
        operations: operations?,
        stands: stands?,
        when,
        jurisdictions: jurisdictions?,
        signal: signal?,
        hazard: raw.hazard,
        harm: raw.harm,
        avoid: raw.avoid,
        brief: raw.brief,
        sources: sources?,
        entry,
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

fn jurisdictions(
    raw: Option<Vec<String>>,
    entry: &Entry,
    faults: &mut Faults,
) -> Option<Vec<Jurisdiction>> {
    let Some(names) = raw else {
        return Some(Jurisdiction::ALL.to_vec());
    };
    let known = Jurisdiction::ALL.iter().map(|one| (one.name(), *one));
    let read = names.iter().enumerate().map(|(index, name)| {
        let below = ["jurisdiction".into(), index.into()];
        faults.keep(entry.listed(name, &below, known.clone()))
    });
    let read: Vec<Option<Jurisdiction>> = read.collect();
    if read.is_empty() {
        let message = "the list of jurisdictions is empty";
        let fault = Fault::error(Code::WRONG_TYPE, message)
            .at(entry.place(&["jurisdiction".into()]))
            .hint("leave the key out where the rule holds everywhere");
        faults.push(fault);
        return None;
    }
    read.into_iter().collect()
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
