//! Where a piece of text stands: a named source and a range of bytes in it.
//!
//! Lines and columns count from 1; columns count characters, as an editor shows them.

use std::fmt;
use std::sync::{Arc, OnceLock};

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
///
/// A place can be costly to find (a file is read again for it) and is mostly never asked for, so
/// it may be found only when it is first looked at.
#[derive(Clone)]
pub struct Span {
    source: Arc<Source>,
    at: At,
}

#[derive(Clone)]
enum At {
    Bytes(usize, usize),
    Later(Arc<Later>),
}

struct Later {
    find: Box<dyn Fn() -> (usize, usize) + Send + Sync>,
    found: OnceLock<(usize, usize)>,
}

impl Span {
    /// Marks `start..end` of `source`, cut to the text and to whole characters.
    pub fn new(source: &Arc<Source>, start: usize, end: usize) -> Self {
        let (start, end) = whole_characters(&source.text, start, end);
        Self {
            source: Arc::clone(source),
            at: At::Bytes(start, end),
        }
    }

    /// A place that is found when it is first looked at.
    pub fn later(
        source: &Arc<Source>,
        find: impl Fn() -> (usize, usize) + Send + Sync + 'static,
    ) -> Self {
        let later = Later {
            find: Box::new(find),
            found: OnceLock::new(),
        };
        Self {
            source: Arc::clone(source),
            at: At::Later(Arc::new(later)),
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

    fn range(&self) -> (usize, usize) {
        match &self.at {
            At::Bytes(start, end) => (*start, *end),
            At::Later(later) => *later.found.get_or_init(|| {
                let (start, end) = (later.find)();
                whole_characters(&self.source.text, start, end)
            }),
        }
    }

    /// First byte of the range.
    pub fn start(&self) -> usize {
        self.range().0
    }

    /// Byte after the last of the range.
    pub fn end(&self) -> usize {
        self.range().1
    }

    /// The text of the range.
    pub fn text(&self) -> &str {
        let (start, end) = self.range();
        &self.source.text[start..end]
    }

    /// A part of this range, `from..to` counted in bytes from its start.
    pub fn part(&self, from: usize, to: usize) -> Self {
        let (start, end) = self.range();
        Self::new(&self.source, (start + from).min(end), (start + to).min(end))
    }

    /// The part `from..to` of `text` where this place holds exactly that text; else, where the
    /// file's own quoting stands between, the whole place.
    pub fn inside(&self, text: &str, from: usize, to: usize) -> Self {
        let (whole, text) = (self.clone(), text.to_owned());
        Self::later(&self.source, move || {
            let exact = whole.text() == text;
            let part = if exact {
                whole.part(from, to)
            } else {
                whole.clone()
            };
            part.range()
        })
    }

    /// Line and column of the start, both from 1, the column in characters.
    pub fn line_column(&self) -> (usize, usize) {
        let before = &self.source.text[..self.start()];
        let line_start = before.rfind('\n').map_or(0, |at| at + 1);
        let line = before.bytes().filter(|b| *b == b'\n').count() + 1;
        (line, before[line_start..].chars().count() + 1)
    }
}

impl PartialEq for Span {
    fn eq(&self, other: &Self) -> bool {
        self.source == other.source && self.range() == other.range()
    }
}

impl Eq for Span {}

impl fmt::Debug for Span {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (line, column) = self.line_column();
        write!(
            out,
            "{}:{line}:{column} {:?}",
            self.source.name,
            self.text()
        )
    }
}

fn whole_characters(text: &str, start: usize, end: usize) -> (usize, usize) {
    let start = text.floor_char_boundary(start.min(text.len()));
    (start, text.ceil_char_boundary(end.clamp(start, text.len())))
}
