//! What a formula may name: values with their kinds, and calculators with their parameters.

use std::collections::BTreeMap;

use crate::units::Kind;

/// A calculator as formulas see it.
#[derive(Debug, Clone, PartialEq)]
pub struct Signature {
    /// Its name in formulas, with underscores: `sliding_dovetail`.
    pub name: String,
    /// What it takes.
    pub params: Vec<Param>,
    /// What it gives.
    pub results: Vec<(String, Kind)>,
}

/// One argument that a calculator takes.
#[derive(Debug, Clone, PartialEq)]
pub struct Param {
    /// Its name in formulas.
    pub name: String,
    /// What kind of value.
    pub kind: Kind,
    /// Whether it must be given.
    pub required: bool,
    /// The words of a choice; empty if any word will do, and for all other kinds.
    pub options: Vec<String>,
}

/// What is known of a value before it is worked out.
#[derive(Debug, Clone, PartialEq)]
pub enum Known {
    /// One value of that kind. A choice whose words are not known compares with any word.
    One(Kind),
    /// One value of that kind, or none (a cutter without a marked speed): it can only be the
    /// whole of an argument that its calculator can do without. Never the outcome of a check.
    Maybe(Kind),
    /// One of these words.
    Choice(Vec<String>),
    /// The results of a calculator, to be used one by one as `name.result`.
    Results(Vec<(String, Kind)>),
}

impl Known {
    /// Whether this does where a value of `kind` is wanted; a count does for a number.
    ///
    /// ```
    /// use faceside::{formula::Known, units::Kind};
    /// assert!(Known::One(Kind::Count).does_for(Kind::Number));
    /// assert!(!Known::One(Kind::Number).does_for(Kind::Count));
    /// ```
    pub fn does_for(&self, kind: Kind) -> bool {
        match self {
            Self::One(Kind::Count) => matches!(kind, Kind::Count | Kind::Number),
            Self::One(own) => *own == kind,
            Self::Choice(_) => kind == Kind::Choice,
            Self::Maybe(_) | Self::Results(_) => false,
        }
    }
}

/// Everything that a formula may name.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Scope {
    /// Values by name; a name may hold dots (`cutter.diameter`). Results of a calculator stand
    /// once, under the name that they were given (`cut`).
    pub names: BTreeMap<String, Known>,
    /// Calculators that may be called.
    pub calls: Vec<Signature>,
}

impl Scope {
    /// What is known of a name, `cut.mouth` looked up in the results of `cut` as well.
    pub(super) fn find(&self, name: &str) -> Option<Known> {
        if let Some(known) = self.names.get(name) {
            return Some(known.clone());
        }
        let (before, result) = name.rsplit_once('.')?;
        let kind = self
            .results(before)?
            .iter()
            .find(|(own, _)| own == result)?
            .1;
        Some(Known::One(kind))
    }

    /// The results that stand under a name.
    pub(super) fn results(&self, name: &str) -> Option<&[(String, Kind)]> {
        match self.names.get(name)? {
            Known::Results(results) => Some(results),
            _ => None,
        }
    }

    /// Every name that a formula could write.
    pub(super) fn writable(&self) -> Vec<String> {
        let mut all = Vec::new();
        for (name, known) in &self.names {
            match known {
                Known::Results(results) => {
                    all.extend(results.iter().map(|(own, _)| format!("{name}.{own}")));
                }
                _ => all.push(name.clone()),
            }
        }
        all
    }

    pub(super) fn call(&self, name: &str) -> Option<&Signature> {
        self.calls.iter().find(|signature| signature.name == name)
    }
}
