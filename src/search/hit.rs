//! A hit, with the words around what was found.
//!
//! The paragraph with the most different words of the question is shown, cut to a line or two;
//! it is marked by the analyser that made the index, so that synonyms (`dado` for housing) and
//! corrected slips are marked too.

use std::collections::BTreeSet;
use std::ops::Range;

use super::analyse::Analyser;
use super::{Entry, EntryKind};

/// About how many bytes of context are shown, and how many stand before the first mark.
const SHOWN: usize = 160;
const BEFORE: usize = 40;

/// A piece of context.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Piece {
    /// The words.
    pub text: String,
    /// Whether they answer the question.
    pub matched: bool,
}

/// One answer.
#[derive(Debug, Clone, PartialEq)]
pub struct Hit {
    /// What was found.
    pub kind: EntryKind,
    /// Its id.
    pub id: String,
    /// Its title.
    pub title: String,
    /// Words around what was found.
    pub context: Vec<Piece>,
    /// The command to type next.
    pub next: String,
    /// How well its words answer; only good for comparing hits of one question.
    pub score: f32,
}

/// The best paragraph of an entry with its marks; its other names when only they were found.
pub(super) fn context(entry: &Entry, marks: &BTreeSet<&str>, analyser: &Analyser) -> Vec<Piece> {
    let mut best = Found::in_text(&entry.summary, marks, analyser);
    for paragraph in &entry.body {
        best = best.or_better(Found::in_text(paragraph, marks, analyser));
    }
    let other_names = entry.also.join(", ");
    if best.different == 0 {
        best = best.or_better(Found::in_text(&other_names, marks, analyser));
    }
    pieces(best.text, &joined(best.ranges))
}

/// What of the question was found in one paragraph.
struct Found<'t> {
    text: &'t str,
    different: usize,
    ranges: Vec<Range<usize>>,
}

impl<'t> Found<'t> {
    fn in_text(text: &'t str, marks: &BTreeSet<&str>, analyser: &Analyser) -> Self {
        let mut words = analyser.words(text);
        words.retain(|word| marks.contains(word.text.as_str()));
        let different: BTreeSet<&str> = words.iter().map(|word| word.text.as_str()).collect();
        Self {
            text,
            different: different.len(),
            ranges: words.iter().map(|word| word.range.clone()).collect(),
        }
    }

    fn or_better(self, other: Self) -> Self {
        if other.different > self.different {
            other
        } else {
            self
        }
    }
}

/// Ranges in order, overlapping ones made one.
fn joined(mut ranges: Vec<Range<usize>>) -> Vec<Range<usize>> {
    ranges.sort_by_key(|range| (range.start, range.end));
    let mut joined: Vec<Range<usize>> = Vec::new();
    for range in ranges {
        match joined.last_mut() {
            Some(last) if range.start < last.end => last.end = last.end.max(range.end),
            _ => joined.push(range),
        }
    }
    joined
}

fn pieces(text: &str, marks: &[Range<usize>]) -> Vec<Piece> {
    let shown = window(text, marks.first().map_or(0, |mark| mark.start));
    let mut pieces = Vec::new();
    let mut put = |text: &str, matched| {
        if !text.is_empty() {
            pieces.push(Piece {
                text: text.to_owned(),
                matched,
            });
        }
    };
    if shown.start > 0 {
        put("… ", false);
    }
    let mut at = shown.start;
    for mark in marks {
        let within = mark.start.max(at)..mark.end.min(shown.end);
        if within.start < within.end {
            put(&text[at..within.start], false);
            put(&text[within.clone()], true);
            at = within.end;
        }
    }
    put(&text[at..shown.end], false);
    if shown.end < text.len() {
        put(" …", false);
    }
    pieces
}

/// What is shown: whole words from a little before the first mark.
fn window(text: &str, first_mark: usize) -> Range<usize> {
    let mut start = text.floor_char_boundary(first_mark.saturating_sub(BEFORE));
    if start > 0 {
        let word = text[start..first_mark]
            .find(' ')
            .map(|blank| start + blank + 1);
        start = word.unwrap_or(first_mark);
    }
    let mut end = text.floor_char_boundary(start + SHOWN);
    if end < text.len() {
        let word = text[first_mark.min(end)..end].rfind(' ');
        end = word.map_or(end, |blank| first_mark.min(end) + blank);
    }
    start..end
}
