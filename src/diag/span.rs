//! Where a piece of text stands: a named source and a range of bytes in it.
//!
//! Lines and columns count from 1; columns count characters, as an editor shows them.

use std::sync::Arc;

/// A text that was read, with the name that its user knows it by (a path, or `command line`).
#[derive(Debug, PartialEq, Eq)]
pub struct Source {
    /// Path as the user would type it, or what stands in for one.
    pub name: String,
    /// The whole text, without a byte-order mark.
    pub text: String,
}

impl Source {
    /// Wraps a text under its name.
    pub fn new(name: impl Into<String>, text: impl Into<String>) -> Arc<Self> {
        Arc::new(Self {
            name: name.into(),
            text: text.into(),
        })
    }
}

/// A range of bytes in a source; may be empty (a point).
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Span {
    source: Arc<Source>,
    start: usize,
    end: usize,
}

impl Span {
    /// Marks `start..end` of `source`, cut to the text and to whole characters.
    pub fn new(source: &Arc<Source>, start: usize, end: usize) -> Self {
        let text = &source.text;
        let start = text.floor_char_boundary(start.min(text.len()));
        let end = text.ceil_char_boundary(end.clamp(start, text.len()));
        Self {
            source: Arc::clone(source),
            start,
            end,
        }
    }

    /// Marks the whole of a source.
    pub fn whole(source: &Arc<Source>) -> Self {
        Self::new(source, 0, source.text.len())
    }

    /// The source that this place is in.
    pub fn source(&self) -> &Arc<Source> {
        &self.source
    }

    /// First byte of the range.
    pub fn start(&self) -> usize {
        self.start
    }

    /// Byte after the last of the range.
    pub fn end(&self) -> usize {
        self.end
    }

    /// The text of the range.
    pub fn text(&self) -> &str {
        &self.source.text[self.start..self.end]
    }

    /// A part of this range, `from..to` counted in bytes from its start.
    pub fn part(&self, from: usize, to: usize) -> Self {
        let start = (self.start + from).min(self.end);
        Self::new(&self.source, start, (self.start + to).min(self.end))
    }

    /// Line and column of the start, both from 1, the column in characters.
    pub fn line_column(&self) -> (usize, usize) {
        let before = &self.source.text[..self.start];
        let line_start = before.rfind('\n').map_or(0, |at| at + 1);
        let line = before.bytes().filter(|b| *b == b'\n').count() + 1;
        (line, before[line_start..].chars().count() + 1)
    }
}
