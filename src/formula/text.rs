//! The text of a formula and where it stands, so that each part of it can be pointed at.
//!
//! When the place holds exactly the text, a part is marked by its own span. Otherwise (the file's
//! own quoting stands between) the whole place is marked, and the part is quoted in words.

use crate::diag::{Code, Fault, Span};

/// A range of bytes in the formula's text.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Place {
    pub(super) from: usize,
    pub(super) to: usize,
}

impl Place {
    /// From the start of this to the end of `last`.
    pub(super) fn through(self, last: Self) -> Self {
        Self {
            from: self.from,
            to: last.to,
        }
    }
}

/// The text with its place.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Text {
    words: String,
    place: Span,
}

impl Text {
    pub(super) fn new(words: &str, place: &Span) -> Self {
        Self {
            words: words.to_owned(),
            place: place.clone(),
        }
    }

    pub(super) fn words(&self) -> &str {
        &self.words
    }

    pub(super) fn place(&self) -> &Span {
        &self.place
    }

    fn is_exact(&self) -> bool {
        self.place.text() == self.words
    }

    /// The words of a part.
    pub(super) fn of(&self, place: Place) -> &str {
        self.words.get(place.from..place.to).unwrap_or_default()
    }

    pub(super) fn span(&self, place: Place) -> Span {
        self.place.inside(&self.words, place.from, place.to)
    }

    pub(super) fn fault(&self, code: Code, message: impl Into<String>, place: Place) -> Fault {
        Fault::error(code, message).at(self.span(place))
    }

    /// The fault with words under its caret, which stands at `place`.
    pub(super) fn label(&self, fault: Fault, place: Place, words: &str) -> Fault {
        if self.is_exact() {
            fault.label(words)
        } else {
            fault.label(format!("`{}`: {words}", self.of(place)))
        }
    }

    /// The fault with a second place, or with a hint that quotes it.
    pub(super) fn also(&self, fault: Fault, place: Place, words: &str) -> Fault {
        if self.is_exact() {
            fault.also(self.span(place), words)
        } else {
            fault.hint(format!("`{}`: {words}", self.of(place)))
        }
    }
}
