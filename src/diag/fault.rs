//! One thing that is wrong: code, words, place, what was expected, the next act.
//!
//! Messages are lower case without a full stop, the user's own text in backquotes. A hint says
//! what to do. A stage collects all its faults in [`Faults`] before it gives up.

use std::collections::BTreeMap;

use super::{Code, Span};

/// Most faults of one file that are told at once: who has more begins with these. To find a place
/// costs one more reading of its file, so that many faults of a large file would take minutes.
const MOST_OF_A_FILE: usize = 40;

/// How much a fault weighs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Severity {
    /// Worth mending; does not stop anything.
    Warning,
    /// Nothing that depends on it is printed.
    Error,
}

/// A fault with its place and its cure.
#[derive(Debug, Clone, PartialEq)]
pub struct Fault {
    /// Error or warning.
    pub severity: Severity,
    /// Stable code, explained by `faceside check --explain CODE`.
    pub code: Code,
    /// What is wrong, in one line.
    pub message: String,
    /// Where, when there is a text to point into.
    pub span: Option<Span>,
    /// Words under the caret: what was expected there. May be empty.
    pub label: String,
    /// Second places that matter, each with its words.
    pub also: Vec<(Span, String)>,
    /// What to do next, one act each.
    pub hints: Vec<String>,
}

impl Fault {
    /// An error without a place.
    pub fn error(code: Code, message: impl Into<String>) -> Self {
        Self {
            severity: Severity::Error,
            code,
            message: message.into(),
            span: None,
            label: String::new(),
            also: Vec::new(),
            hints: Vec::new(),
        }
    }

    /// A warning without a place.
    pub fn warning(code: Code, message: impl Into<String>) -> Self {
        Self {
            severity: Severity::Warning,
            ..Self::error(code, message)
        }
    }

    /// The same fault at a place.
    #[must_use]
    pub fn at(mut self, span: Span) -> Self {
        self.span = Some(span);
        self
    }

    /// The same fault at a place, unless it has one already.
    #[must_use]
    pub fn at_least(mut self, span: &Span) -> Self {
        self.span.get_or_insert_with(|| span.clone());
        self
    }

    /// The same fault with words under its caret.
    #[must_use]
    pub fn label(mut self, label: impl Into<String>) -> Self {
        self.label = label.into();
        self
    }

    /// The same fault with a second place.
    #[must_use]
    pub fn also(mut self, span: Span, words: impl Into<String>) -> Self {
        self.also.push((span, words.into()));
        self
    }

    /// The same fault with one more hint.
    #[must_use]
    pub fn hint(mut self, hint: impl Into<String>) -> Self {
        self.hints.push(hint.into());
        self
    }

    /// The same fault with a hint when there is one.
    #[must_use]
    pub fn maybe_hint(self, hint: Option<String>) -> Self {
        match hint {
            Some(hint) => self.hint(hint),
            None => self,
        }
    }
}

/// Faults gathered on the way, in the order found.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Faults {
    list: Vec<Fault>,
}

impl Faults {
    /// No faults yet.
    pub fn new() -> Self {
        Self::default()
    }

    /// Notes one more.
    pub fn push(&mut self, fault: Fault) {
        self.list.push(fault);
    }

    /// Notes all of another stage's.
    pub fn extend(&mut self, other: impl IntoIterator<Item = Fault>) {
        self.list.extend(other);
    }

    /// Keeps the value, or notes the fault and gives nothing.
    pub fn keep<T>(&mut self, result: Result<T, Fault>) -> Option<T> {
        result.map_err(|fault| self.push(fault)).ok()
    }

    /// Whether any of them is an error.
    pub fn any_error(&self) -> bool {
        self.list
            .iter()
            .any(|fault| fault.severity == Severity::Error)
    }

    /// Those that are told: at most forty of each file, and then one that counts the rest.
    #[must_use]
    pub fn told(&self) -> Self {
        let mut counts: BTreeMap<&str, usize> = BTreeMap::new();
        let mut left_out: BTreeMap<&str, Self> = BTreeMap::new();
        let mut told = Self::new();
        for fault in &self.list {
            let file = fault.span.as_ref().map_or("", |span| &span.source().name);
            let count = counts.entry(file).or_default();
            *count += 1;
            if file.is_empty() || *count <= MOST_OF_A_FILE {
                told.push(fault.clone());
            } else {
                left_out.entry(file).or_default().push(fault.clone());
            }
        }
        for (file, rest) in left_out {
            let message = format!("`{file}` has {} more", rest.len());
            let fault = if rest.any_error() {
                Fault::error(Code::FILE_LIMIT, message)
            } else {
                Fault::warning(Code::FILE_LIMIT, message)
            };
            told.push(fault.hint("mend those that are told, then check again"));
        }
        told
    }

    /// Whether there are none at all.
    pub fn is_empty(&self) -> bool {
        self.list.is_empty()
    }

    /// How many.
    pub fn len(&self) -> usize {
        self.list.len()
    }

    /// All of them, in the order found.
    pub fn iter(&self) -> std::slice::Iter<'_, Fault> {
        self.list.iter()
    }
}

impl IntoIterator for Faults {
    type Item = Fault;
    type IntoIter = std::vec::IntoIter<Fault>;

    fn into_iter(self) -> Self::IntoIter {
        self.list.into_iter()
    }
}

impl FromIterator<Fault> for Faults {
    fn from_iter<I: IntoIterator<Item = Fault>>(faults: I) -> Self {
        Self {
            list: faults.into_iter().collect(),
        }
    }
}

impl From<Fault> for Faults {
    fn from(fault: Fault) -> Self {
        Self { list: vec![fault] }
    }
}
