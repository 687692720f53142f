//! The book of cautions: all rules, the coverage matrix, the limits statement.
//!
//! In: caution files in order, the built-in ones first. Out: the [`Book`], and what was wrong
//! with the files. A later file adds; it may reword a rule by using its id again, if machine,
//! kind and place stay, the signal word is no milder and no cut loses the rule; it can remove
//! nothing. [`Book::check`] proves coverage, [`Book::select`] picks for one set-up.

use std::sync::Arc;

use super::entry::Entry;
use super::file::{File, RawLimits};
use super::matrix::{BENCH, Matrix};
use super::rule::{Rule, rule};
use crate::diag::{Code, Fault, Faults, Source, Span};
use crate::shop::Jurisdiction;
use crate::yaml;

/// What a sheet is and is not; stands on every one.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Limits {
    /// The whole statement.
    pub long: String,
    /// The form for the foot of a page.
    pub short: String,
}

/// All caution rules with what they must cover.
#[derive(Debug, Clone, Default)]
pub struct Book {
    pub(super) rules: Vec<Rule>,
    pub(super) matrix: Matrix,
    pub(super) limits: Option<Limits>,
    pub(super) jurisdiction: Jurisdiction,
}

impl Book {
    /// Reads caution files in order, the built-in ones first.
    ///
    /// What cannot be read is left out and told; [`Book::check`] then tells which cuts lack it.
    pub fn read(sources: &[Arc<Source>]) -> (Self, Faults) {
        let mut book = Self::default();
        let mut faults = Faults::new();
        for source in sources {
            match yaml::read::<File>(source) {
                Ok(file) => book.add(file, source, &mut faults),
                Err(told) => faults.extend(told),
            }
        }
        (book, faults)
    }

    /// The book as a shop under this jurisdiction reads it; without it the strictest texts stand.
    pub fn with_jurisdiction(self, jurisdiction: Jurisdiction) -> Self {
        Self {
            jurisdiction,
            ..self
        }
    }

    /// The limits statement; none when no file held it, and then nothing can be selected.
    pub fn limits(&self) -> Option<&Limits> {
        self.limits.as_ref()
    }

    /// All rules of every jurisdiction, in the order of the files.
    pub fn rules(&self) -> impl Iterator<Item = &Rule> {
        self.rules.iter()
    }

    /// The rules that can stand on a sheet of this shop, in the order of the files.
    pub fn rules_here(&self) -> impl Iterator<Item = &Rule> {
        (self.rules.iter()).filter(|rule| rule.jurisdictions.contains(&self.jurisdiction))
    }

    /// Every machine kind and operation that may be cut, in the order of the files.
    pub fn pairs(&self) -> impl Iterator<Item = (&str, &str)> {
        (self.matrix.pairs.iter()).map(|pair| (pair.machine.as_str(), pair.operation.as_str()))
    }

    /// The machine name under which the cautions of an operation at the bench stand.
    pub fn bench(operation: &str) -> Option<&'static str> {
        (BENCH.iter())
            .find(|(_, known)| *known == operation)
            .map(|(machine, _)| *machine)
    }

    fn add(&mut self, file: File, source: &Arc<Source>, faults: &mut Faults) {
        let entry = |list, item| Entry {
            source: Arc::clone(source),
            list,
            item,
        };
        match file.machine {
            Some(machine) => {
                for (item, raw) in file.cautions.into_iter().enumerate() {
                    if let Some(rule) = rule(raw, &machine, entry("cautions", item), faults) {
                        self.put(rule, faults);
                    }
                }
            }
            None if file.cautions.is_empty() => {}
            None => {
                let message = "the file holds cautions but names no machine";
                let fault = Fault::error(Code::MISSING_KEY, message).at(Span::new(source, 0, 0));
                faults.push(fault.hint("write `machine: router-table` above them"));
            }
        }
        for (item, raw) in file.pairs.into_iter().enumerate() {
            self.matrix.add(raw, entry("pairs", item), faults);
        }
        for raw in file.forbidden {
            self.matrix.forbid(raw);
        }
        match file.limits {
            Some(_) if self.limits.is_some() => {
                let message = "the limits statement is there already";
                let fault = Fault::error(Code::DUPLICATE_ID, message)
                    .at(yaml::key_place(source, &["limits".into()]));
                faults.push(fault.hint("leave it out; it cannot be replaced"));
            }
            Some(RawLimits { long, short }) => self.limits = Some(Limits { long, short }),
            None => {}
        }
    }

    /// Adds a rule, or lets it replace the words of the one with its id.
    fn put(&mut self, new: Rule, faults: &mut Faults) {
        let Some(old) = self.rules.iter_mut().find(|old| old.id == new.id) else {
            self.rules.push(new);
            return;
        };
        let id = &new.id;
        let fault = if Arc::ptr_eq(&old.entry.source, &new.entry.source) {
            let message = format!("two cautions of this file have the id `{id}`");
            Fault::error(Code::DUPLICATE_ID, message).hint("give one of them another id")
        } else if let Some(lost) = loss(old, &new) {
            let message = format!("this may not replace the caution `{id}`: {lost}");
            Fault::error(Code::DUPLICATE_ID, message)
                .hint("a caution can be reworded or widened, never narrowed; else add one with another id")
        } else {
            let message = format!("the caution `{id}` is replaced by this file's");
            Fault::warning(Code::OVERLAID, message)
        };
        let fault = fault
            .at(new.place())
            .also(old.place(), "the one that is there");
        if fault.code == Code::OVERLAID {
            *old = new;
        }
        faults.push(fault);
    }
}

/// What would be lost if `new` replaced `old`.
fn loss(old: &Rule, new: &Rule) -> Option<String> {
    if new.machine != old.machine {
        return Some(format!("it is for a {}", old.machine));
    }
    if new.kind != old.kind {
        return Some(format!("its kind is {}", old.kind.name()));
    }
    if new.stands != old.stands {
        return Some(format!("its place is {}", old.stands.name()));
    }
    if new.signal > old.signal {
        return Some(format!("its signal word is {}", old.signal.name()));
    }
    if !new.operations.cover_all(&old.operations) {
        return Some("some of its operations are missing".to_owned());
    }
    if !(old.jurisdictions.iter()).all(|one| new.jurisdictions.contains(one)) {
        return Some("some of its jurisdictions are missing".to_owned());
    }
    if new.when.is_some() && new.when_text() != old.when_text() {
        return Some("it holds in more cases".to_owned());
    }
    None
}
