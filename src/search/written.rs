//! The words as they are written on the pages: what a slip of the hand is compared with.
//!
//! The index's own dictionaries are walked with tantivy's edit-distance automaton, so that each
//! guess is a real word which is then stemmed, folded and marked like any other.

use std::cmp::Reverse;

use tantivy::query::FuzzyTermQuery;
use tantivy::schema::Field;
use tantivy::{Result, Searcher, Term};

use super::index::Fields;

/// Most words that a slip, and an unfinished word, are taken for.
pub(super) const MOST_NEAR: usize = 6;
pub(super) const MOST_LONGER: usize = 12;
/// An unfinished word shorter than this could become anything.
pub(super) const LEAST_PREFIX: usize = 2;

/// The dictionaries of one index.
pub(super) struct Written<'i> {
    /// The open index.
    pub(super) searcher: &'i Searcher,
    /// Its fields.
    pub(super) fields: &'i Fields,
}

impl Written<'_> {
    /// Whether any page has this word, as it is searched for.
    pub(super) fn knows(&self, text: &str) -> Result<bool> {
        for (field, _) in self.fields.weighted() {
            if self
                .searcher
                .doc_freq(&Term::from_field_text(field, text))?
                > 0
            {
                return Ok(true);
            }
        }
        Ok(false)
    }

    /// Other written words that `surface` may stand for, likeliest first; `text` is the same
    /// word as it is searched for.
    pub(super) fn spellings(
        &self,
        surface: &str,
        text: &str,
        is_last: bool,
    ) -> Result<Vec<String>> {
        if !surface.chars().all(char::is_alphabetic) {
            return Ok(Vec::new());
        }
        let letters = surface.chars().count();
        let mut spellings = Vec::new();
        if is_last && letters >= LEAST_PREFIX {
            spellings = self.longer(surface)?;
        }
        if !self.knows(text)? {
            let distances: &[u8] = match letters {
                0..4 => &[],
                4..6 => &[1],
                6..8 => &[1, 2],
                _ => &[2],
            };
            for distance in distances {
                if spellings.is_empty() {
                    spellings = self.near(surface, *distance)?;
                }
            }
            if spellings.is_empty() {
                spellings.extend(self.parted(surface)?);
            }
        }
        Ok(spellings)
    }

    /// Every word as written, for far guesses.
    pub(super) fn all(&self) -> Result<Vec<String>> {
        let mut all = Vec::new();
        for segment in self.searcher.segment_readers() {
            let index = segment.inverted_index(self.fields.written)?;
            let mut words = index.terms().stream()?;
            while words.advance() {
                all.push(String::from_utf8_lossy(words.key()).into_owned());
            }
        }
        Ok(all)
    }

    fn longer(&self, surface: &str) -> Result<Vec<String>> {
        let query = FuzzyTermQuery::new_prefix(self.term(surface), 0, true);
        let mut words = self.matching(&query)?;
        words.retain(|(word, _)| word != surface);
        words.sort_by_cached_key(|(word, pages)| (Reverse(*pages), word.len(), word.clone()));
        Ok(words
            .into_iter()
            .map(|(word, _)| word)
            .take(MOST_LONGER)
            .collect())
    }

    fn near(&self, surface: &str, distance: u8) -> Result<Vec<String>> {
        let query = FuzzyTermQuery::new(self.term(surface), distance, true);
        let mut words = self.matching(&query)?;
        let first = surface.chars().next();
        words.sort_by_cached_key(|(word, pages)| {
            let off = strsim::osa_distance(surface, word);
            (
                off,
                word.chars().next() != first,
                Reverse(*pages),
                word.clone(),
            )
        });
        Ok(words
            .into_iter()
            .map(|(word, _)| word)
            .take(MOST_NEAR)
            .collect())
    }

    /// `routertable` as `router table`, where both words are written somewhere.
    fn parted(&self, surface: &str) -> Result<Option<String>> {
        for (at, _) in surface.char_indices().skip(3) {
            let (one, other) = surface.split_at(at);
            if other.chars().count() >= 3 && self.is_written(one)? && self.is_written(other)? {
                return Ok(Some(format!("{one} {other}")));
            }
        }
        Ok(None)
    }

    fn is_written(&self, surface: &str) -> Result<bool> {
        Ok(self.searcher.doc_freq(&self.term(surface))? > 0)
    }

    fn term(&self, surface: &str) -> Term {
        let written: Field = self.fields.written;
        Term::from_field_text(written, surface)
    }

    /// Words that the automaton takes, with the number of pages that have them.
    fn matching(&self, query: &FuzzyTermQuery) -> Result<Vec<(String, u32)>> {
        let mut words = Vec::new();
        for segment in self.searcher.segment_readers() {
            let index = segment.inverted_index(self.fields.written)?;
            let mut found = index.terms().search(query.automaton()?).into_stream()?;
            while found.advance() {
                let word = String::from_utf8_lossy(found.key()).into_owned();
                words.push((word, found.value().doc_freq));
            }
        }
        Ok(words)
    }
}
