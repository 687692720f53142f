//! The index as data for a page: what the script of the site asks, so that it answers alike.
//!
//! Everything is read back from the built index, so that page and command cannot differ: the words
//! of each field with the entries, places and lengths that rank them, the words as written with
//! the word that each is folded to; and, for all entries, groups of synonyms, ignored words, units
//! and weights. The script only looks a typed word up; what no page has is tried without its ending
//! ([`ENDINGS`]), then as a slip. Numbers are `packed`, lists of words parted by line ends.
//!
//! The entries of a great library are indexed in parts, each an [`Index`] of its own, so that one
//! that changes makes one part anew. The script adds up what ranks an answer over all parts: how
//! many entries there are, how many hold a word, how long a field is on average.

use std::collections::{BTreeMap, BTreeSet};

use serde::Serialize;
use tantivy::postings::Postings;
use tantivy::schema::{Field, IndexRecordOption};
use tantivy::{Result, SegmentReader, TERMINATED};

use super::analyse::Analyser;
use super::index::Index;
use super::packed::Packed;
use super::query::{Name, Weights};
use super::{EntryKind, Terms, number};
use crate::diag::Fault;

/// Endings that are taken off a word that no page has, with what takes their place; `=` stands
/// for one of two equal letters before the ending.
const ENDINGS: [(&str, &str); 13] = [
    ("ies", "y"),
    ("es", ""),
    ("s", ""),
    ("ings", ""),
    ("ings", "e"),
    ("ing", ""),
    ("ing", "e"),
    ("ing", "="),
    ("ed", ""),
    ("ed", "e"),
    ("ed", "="),
    ("er", ""),
    ("ly", ""),
];

/// One field of the entries of a part.
#[derive(Debug, Serialize)]
struct PageField {
    /// Length of the field in all entries together, in words.
    tokens: u64,
    /// Length of each entry's field; empty where length makes no difference.
    lengths: String,
    /// A line a term: entries by their gaps, how often, places by their gaps.
    postings: String,
}

/// What the script knows of every part.
#[derive(Debug, Serialize)]
pub struct PageSearch {
    weights: Weights,
    /// How much a word in each field counts.
    fields: Vec<f32>,
    /// Kinds of entries in the order that breaks ties.
    kinds: Vec<&'static str>,
    ignored: String,
    /// Groups of synonyms: the words of a name, its marks.
    groups: Vec<(Vec<String>, Vec<String>)>,
    endings: [(&'static str, &'static str); 13],
    lengths: Vec<(&'static str, i64)>,
    units: &'static [(&'static str, &'static str)],
    /// Fractions of one sign.
    signs: String,
}

impl PageSearch {
    /// What follows from the words of the trade.
    pub fn of(terms: &Terms) -> Self {
        let analyser = Analyser::new(terms);
        let fold = analyser.fold();
        let groups = fold.groups();
        Self {
            weights: Weights::default(),
            fields: super::index::schema()
                .1
                .weighted()
                .map(|(_, weight)| weight)
                .to_vec(),
            kinds: EntryKind::ALL.map(EntryKind::word).to_vec(),
            ignored: lines(fold.ignored()),
            groups: groups
                .map(|(name, marks)| (name.to_vec(), marks.to_vec()))
                .collect(),
            endings: ENDINGS,
            lengths: number::lengths(),
            units: number::UNITS,
            signs: number::SIGNS.iter().collect(),
        }
    }
}

/// The index of some entries as data.
#[derive(Debug, Serialize)]
pub struct PagePart {
    /// Every word that can be searched for; others are numbers of its lines.
    terms: String,
    fields: Vec<PageField>,
    /// Names of each entry, a line each: the whole names, then their single words.
    names: String,
    /// Words as written, in order.
    written: String,
    /// The term of each written word.
    folded: String,
    /// In how many entries each is written; none for a synonym that no page has.
    pages: String,
}

/// Terms by their number.
struct Numbered(BTreeMap<String, u32>);

impl Numbered {
    fn of(&self, texts: &[String]) -> Vec<u32> {
        let numbers = texts.iter().filter_map(|text| self.0.get(text).copied());
        numbers.collect()
    }
}

impl Index {
    /// The index for a page, of the whole or of a part; entries keep their order.
    ///
    /// # Errors
    /// `search-index` when the index cannot be read.
    pub fn for_page(&self) -> std::result::Result<PagePart, Fault> {
        self.page_part().map_err(super::index::fault)
    }

    fn page_part(&self) -> Result<PagePart> {
        let fold = self.analyser.fold();
        let mut written = self.written_pages()?;
        for word in fold.words() {
            written.entry(word).or_default();
        }
        let surfaces: Vec<String> = written.keys().cloned().collect();
        let folded = fold.stems(&surfaces);
        let mut terms: BTreeSet<String> = folded.iter().cloned().collect();
        let mut fields = Vec::new();
        for (field, _) in self.fields.weighted() {
            let found = self.field(field)?;
            terms.extend(found.keys().cloned());
            fields.push((field, found));
        }
        let numbered = Numbered(terms.iter().cloned().zip(0..).collect());
        let fields: Result<Vec<_>> = fields
            .into_iter()
            .map(|(field, mut found)| {
                let lines = terms.iter().map(|term| found.remove(term));
                self.page_field(field, lines.map(Option::unwrap_or_default))
            })
            .collect();
        Ok(PagePart {
            terms: lines(&terms),
            fields: fields?,
            names: lines(self.names.iter().map(|names| {
                let mut packed = Packed::default();
                pack_names(&mut packed, &names.whole, &numbered);
                let words: Vec<String> = names.words.iter().cloned().collect();
                packed.put_list(&numbered.of(&words));
                packed.text()
            })),
            written: lines(&surfaces),
            folded: pack(numbered.of(&folded)),
            pages: pack(written.values().copied()),
        })
    }

    /// The written words, and in how many entries each stands.
    fn written_pages(&self) -> Result<BTreeMap<String, u32>> {
        let mut written = BTreeMap::new();
        for segment in self.searcher.segment_readers() {
            let index = segment.inverted_index(self.fields.written)?;
            let mut words = index.terms().stream()?;
            while words.advance() {
                let word = String::from_utf8_lossy(words.key()).into_owned();
                *written.entry(word).or_default() += words.value().doc_freq;
            }
        }
        Ok(written)
    }

    /// The terms of one field with their postings; there is one segment.
    fn field(&self, field: Field) -> Result<BTreeMap<String, String>> {
        let mut found = BTreeMap::new();
        for segment in self.searcher.segment_readers() {
            let index = segment.inverted_index(field)?;
            let mut words = index.terms().stream()?;
            while words.advance() {
                let record = IndexRecordOption::WithFreqsAndPositions;
                let postings = index.read_postings_from_terminfo(words.value(), record)?;
                let word = String::from_utf8_lossy(words.key()).into_owned();
                found.insert(word, pack_postings(postings));
            }
        }
        Ok(found)
    }

    fn page_field(
        &self,
        field: Field,
        postings: impl Iterator<Item = String>,
    ) -> Result<PageField> {
        let mut tokens = 0;
        let mut lengths = String::new();
        for segment in self.searcher.segment_readers() {
            tokens += segment.inverted_index(field)?.total_num_tokens();
            lengths.push_str(&pack_lengths(segment, field)?);
        }
        Ok(PageField {
            tokens,
            lengths,
            postings: lines(postings),
        })
    }
}

fn pack_postings(mut postings: impl Postings) -> String {
    let mut packed = Packed::default();
    let mut places = Vec::new();
    let mut next = 0;
    while postings.doc() != TERMINATED {
        packed.put(postings.doc() - next);
        next = postings.doc() + 1;
        postings.positions(&mut places);
        let mut before = 0;
        for place in &mut places {
            let gap = *place - before;
            before = *place;
            *place = gap;
        }
        packed.put_list(&places);
        postings.advance();
    }
    packed.text()
}

fn pack_lengths(segment: &SegmentReader, field: Field) -> Result<String> {
    let norms = segment.fieldnorms_readers().get_field(field)?;
    let lengths = norms.map(|norms| (0..norms.num_docs()).map(move |at| norms.fieldnorm(at)));
    Ok(lengths.map(pack).unwrap_or_default())
}

fn pack_names(packed: &mut Packed, names: &[Name], numbered: &Numbered) {
    packed.put(u32::try_from(names.len()).unwrap_or(u32::MAX));
    for name in names {
        packed.put(u32::try_from(name.len()).unwrap_or(u32::MAX));
        for choices in name {
            packed.put_list(&numbered.of(choices));
        }
    }
}

fn pack(numbers: impl IntoIterator<Item = u32>) -> String {
    let mut packed = Packed::default();
    numbers.into_iter().for_each(|number| packed.put(number));
    packed.text()
}

fn lines<T: AsRef<str>>(texts: impl IntoIterator<Item = T>) -> String {
    let mut lines = String::new();
    for (at, text) in texts.into_iter().enumerate() {
        if at > 0 {
            lines.push('\n');
        }
        lines.push_str(text.as_ref());
    }
    lines
}
