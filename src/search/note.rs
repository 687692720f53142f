//! A note: a Markdown page with three keys in front.
//!
//! ```text
//! ---
//! note: fit-and-glue
//! title: Fit and glue
//! about: [sliding-dovetail, housing]
//! ---
//! The text, in Markdown, with links such as [housing](procedure:stopped-housing).
//! ```
//!
//! The keys are read through the YAML gate; faults point into the note itself, for the front
//! matter keeps its lines. What the links lead to is checked by whoever knows all ids.

use std::sync::Arc;

use serde::Deserialize;

use super::{Entry, EntryKind};
use crate::diag::{Code, Fault, Faults, Source, Span};
use crate::yaml;

/// A page of the shop's knowledge.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Note {
    /// Its id.
    pub id: String,
    /// Its title.
    pub title: String,
    /// Ids of the procedures and names of the calculators that it bears on.
    pub about: Vec<String>,
    /// The text, in Markdown.
    pub body: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Front {
    note: String,
    title: String,
    #[serde(default)]
    about: Vec<String>,
}

impl Note {
    /// Reads a note.
    ///
    /// # Errors
    /// `missing-key` without front matter, an id or a text, and all faults of the front matter.
    pub fn read(source: &Arc<Source>) -> Result<Self, Faults> {
        let Some((front, body)) = parts(&source.text) else {
            return Err(missing(
                source,
                "a note begins with `---`, its keys, and `---` again",
            ));
        };
        let keys = Source::new(source.name.clone(), front);
        let front: Front = yaml::read(&keys)?;
        if front.note.trim().is_empty() || front.title.trim().is_empty() {
            return Err(missing(
                source,
                "`note` and `title` of a note must not be empty",
            ));
        }
        if body.trim().is_empty() {
            return Err(missing(source, "the note has no text after its keys"));
        }
        Ok(Self {
            id: front.note,
            title: front.title,
            about: front.about,
            body: body.trim().to_owned(),
        })
    }

    /// The note as something that can be found: its paragraphs, without the signs of Markdown.
    pub fn entry(&self) -> Entry {
        let mut paragraphs = self.body.split("\n\n").map(plain);
        Entry {
            kind: EntryKind::Note,
            id: self.id.clone(),
            title: self.title.clone(),
            also: Vec::new(),
            summary: paragraphs.next().unwrap_or_default(),
            body: paragraphs.collect(),
            next: format!("faceside search {}", self.title.to_lowercase()),
        }
    }
}

fn missing(source: &Arc<Source>, message: &str) -> Faults {
    Fault::error(Code::MISSING_KEY, message)
        .at(Span::new(source, 0, 0))
        .hint("see procedures/notes/README.md for the form")
        .into()
}

/// Front matter with its first line blanked, so that line numbers stay, and the rest.
fn parts(text: &str) -> Option<(String, &str)> {
    let after = text
        .strip_prefix("---\n")
        .or(text.strip_prefix("---\r\n"))?;
    let end = after.match_indices("\n---").map(|(at, _)| at).find(|at| {
        let rest = &after[at + 4..];
        rest.is_empty() || rest.starts_with(['\n', '\r'])
    })?;
    Some((format!("\n{}\n", &after[..end]), &after[end + 4..]))
}

/// Words of a paragraph: link targets, emphasis, headings and list signs taken off.
fn plain(paragraph: &str) -> String {
    let mut words = String::new();
    let mut rest = paragraph;
    while let Some(at) = rest.find("](") {
        words.push_str(&rest[..at]);
        rest = rest[at..].find(')').map_or("", |end| &rest[at + end + 1..]);
    }
    words.push_str(rest);
    words.retain(|c| !matches!(c, '*' | '[' | ']' | '`' | '#'));
    words.split_whitespace().collect::<Vec<_>>().join(" ")
}
