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
//! matter keeps its lines. What the links and `about` lead to is checked by whoever knows all ids.

use std::sync::Arc;

use pulldown_cmark::{Event, Options, Parser, Tag};
use serde::Deserialize;

use super::{Entry, EntryKind};
use crate::diag::{Code, Fault, Faults, Source, Span};
use crate::yaml::{self, Step, place};

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
    /// What it leads to in the shop's own schemes, its `about` first.
    pub links: Vec<Link>,
}

/// A place of a note that names something else of the shop.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Link {
    /// What kind of thing.
    pub to: LinkTo,
    /// Its id or name.
    pub name: String,
    /// Where the note names it.
    pub place: Span,
}

/// What a note can lead to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LinkTo {
    /// `about:` names a procedure or a calculator.
    About,
    /// `procedure:ID`.
    Procedure,
    /// `figure:CALCULATOR`.
    Figure,
    /// `note:ID`.
    Note,
    /// `caution:MACHINE`, or the id of a rule.
    Caution,
}

impl LinkTo {
    /// What the word before the colon of a link means here.
    pub fn scheme(word: &str) -> Option<Self> {
        match word {
            "procedure" => Some(Self::Procedure),
            "figure" => Some(Self::Figure),
            "note" => Some(Self::Note),
            "caution" => Some(Self::Caution),
            _ => None,
        }
    }
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
            links: links(source, body, &keys, &front.about),
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

/// All that a note leads to; `body` is the end of its source, `keys` its front matter.
fn links(source: &Arc<Source>, body: &str, keys: &Arc<Source>, about: &[String]) -> Vec<Link> {
    let mut links: Vec<Link> = Vec::new();
    for (at, name) in about.iter().enumerate() {
        links.push(Link {
            to: LinkTo::About,
            name: name.clone(),
            place: place(keys, &[Step::from("about"), Step::from(at)]),
        });
    }
    let start = source.text.len() - body.len();
    for (event, range) in Parser::new_ext(body, Options::ENABLE_TABLES).into_offset_iter() {
        let Event::Start(Tag::Link { dest_url, .. }) = event else {
            continue;
        };
        let Some((scheme, name)) = dest_url.split_once(':') else {
            continue;
        };
        let Some(to) = LinkTo::scheme(scheme) else {
            continue;
        };
        let written = body[range.clone()].rfind(&*dest_url);
        let (from, length) = match written {
            Some(at) => (range.start + at, dest_url.len()),
            None => (range.start, range.len()),
        };
        links.push(Link {
            to,
            name: name.to_owned(),
            place: Span::new(source, start + from, start + from + length),
        });
    }
    links
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
