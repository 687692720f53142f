//! What a question becomes: clauses of weighted words, built from words and never parsed.
//!
//! Each word is looked for in all fields (title 4, other names 3, summary 2, body 1; the best
//! counts). Beside that: group marks (2.5), the whole as a phrase (1.5), other spellings (0.3).
//! A word that no page has is taken for a slip of the hand: the nearest written word stands in
//! for it, one letter off from 4 letters, two from 8, a swap counting as one; else two words
//! written as one are parted. The last word may be unfinished. Only the first 24 words count.
//!
//! The weights are our own choice, tried on the questions of `tests/search_found.rs`.

use std::collections::{BTreeMap, BTreeSet};

use serde::Serialize;
use tantivy::query::TermQuery;
use tantivy::query::{BooleanQuery, BoostQuery, DisjunctionMaxQuery, Occur, PhraseQuery, Query};
use tantivy::schema::{Field, IndexRecordOption};
use tantivy::{Result, Term};

use super::analyse::{Analyser, Sort, Word};
use super::fold::MARK;
use super::index::Fields;
use super::written::{LEAST_PREFIX, MOST_LONGER, MOST_NEAR, Written};

const MOST_BYTES: usize = 1_000;
const MOST_WORDS: usize = 24;
/// A longer row of words stands on no page.
const MOST_PHRASE: usize = 8;
const GROUP: f32 = 2.5;
const PHRASE: f32 = 1.5;
const SPELLING: f32 = 0.8;
const ABOUT: f32 = 0.4;
const GUESS: f32 = 0.3;
/// How much of the other fields' scores is added to the best one's, so that they part ties.
const TIE: f32 = 0.1;
/// Factors of an entry that is named, of a procedure whose names hold all words, of a record.
pub(super) const NAMED: f32 = 2.0;
pub(super) const HOLDS_ALL: f32 = 1.5;
pub(super) const RECORD: f32 = 0.8;

/// All weights and bounds of a question, for the site's script.
#[derive(Debug, Serialize)]
pub(super) struct Weights {
    most_words: usize,
    most_phrase: usize,
    group: f32,
    phrase: f32,
    spelling: f32,
    about: f32,
    guess: f32,
    tie: f32,
    named: f32,
    holds_all: f32,
    record: f32,
    most_near: usize,
    most_longer: usize,
    least_prefix: usize,
}

impl Default for Weights {
    fn default() -> Self {
        Self {
            most_words: MOST_WORDS,
            most_phrase: MOST_PHRASE,
            group: GROUP,
            phrase: PHRASE,
            spelling: SPELLING,
            about: ABOUT,
            guess: GUESS,
            tie: TIE,
            named: NAMED,
            holds_all: HOLDS_ALL,
            record: RECORD,
            most_near: MOST_NEAR,
            most_longer: MOST_LONGER,
            least_prefix: LEAST_PREFIX,
        }
    }
}

/// A name as a row of places, each with the words that may stand there.
pub(super) type Name = Vec<Vec<String>>;

/// A question, ready to be put to the index.
pub(super) struct Question {
    words: Vec<Word>,
    guesses: Vec<Vec<String>>,
    joined: Vec<String>,
}

impl Question {
    /// Understands what was typed; words of no page are replaced by the nearest.
    pub(super) fn new(typed: &str, analyser: &Analyser, written: &Written) -> Result<Self> {
        let typed = &typed[..typed.floor_char_boundary(MOST_BYTES)];
        let plain = first_words(analyser.words(typed));
        let plain: Vec<&Word> = plain.iter().filter(|w| w.sort == Sort::Plain).collect();
        let mut mended = String::new();
        let mut guesses = Vec::new();
        let mut joined = Vec::new();
        let mut at = 0;
        for (place, word) in plain.iter().enumerate() {
            let surface = typed[word.range.clone()].to_lowercase();
            let is_last = place + 1 == plain.len();
            let mut spellings = written.spellings(&surface, &word.text, is_last)?;
            mended.push_str(&typed[at..word.range.start]);
            at = word.range.end;
            match spellings.first() {
                Some(first) if !written.knows(&word.text)? => {
                    mended.push_str(first);
                    spellings.remove(0);
                }
                _ => mended.push_str(&typed[word.range.clone()]),
            }
            guesses.push(
                spellings
                    .iter()
                    .flat_map(|s| texts(&analyser.words(s)))
                    .collect(),
            );
            if let Some(next) = plain.get(place + 1) {
                let pair = surface + &typed[next.range.clone()].to_lowercase();
                joined.extend(texts(&analyser.words(&pair)));
            }
        }
        mended.push_str(&typed[at..]);
        Ok(Self {
            words: first_words(analyser.words(&mended)),
            guesses,
            joined,
        })
    }

    /// Whether there is nothing to look for.
    pub(super) fn is_empty(&self) -> bool {
        self.words.is_empty()
    }

    /// Every word that makes a hit, for marking.
    pub(super) fn marks(&self) -> BTreeSet<&str> {
        let words = self.words.iter().map(|word| &word.text);
        words
            .chain(self.guesses.iter().flatten())
            .chain(&self.joined)
            .map(String::as_str)
            .collect()
    }

    /// The question as a name.
    pub(super) fn name(&self) -> Name {
        name(&self.words)
    }

    /// The single words of the question.
    pub(super) fn plain(&self) -> impl Iterator<Item = &str> {
        let plain = self.words.iter().filter(|word| word.sort == Sort::Plain);
        plain.map(|word| word.text.as_str())
    }

    /// The clauses; a page must answer at least one.
    pub(super) fn clauses(&self, fields: &Fields) -> BooleanQuery {
        let mut places: BTreeMap<usize, Vec<(&str, f32)>> = BTreeMap::new();
        let mut clauses = Vec::new();
        for word in &self.words {
            let boost = match word.sort {
                Sort::Plain => 1.0,
                Sort::Spelling => SPELLING,
                Sort::About => ABOUT,
                Sort::Group(_) if !word.text.starts_with(MARK) => 1.0,
                Sort::Group(_) => {
                    clauses.push(best(&[(&word.text, GROUP)], fields));
                    continue;
                }
            };
            places
                .entry(word.place)
                .or_default()
                .push((&word.text, boost));
        }
        clauses.extend(places.values().map(|words| best(words, fields)));
        for guesses in self.guesses.iter().chain([&self.joined]) {
            let guesses: Vec<_> = guesses.iter().map(|text| (text.as_str(), GUESS)).collect();
            clauses.push(best(&guesses, fields));
        }
        let phrase: Vec<&str> = self.plain().collect();
        if (2..=MOST_PHRASE).contains(&phrase.len()) {
            clauses.push(phrase_clause(&phrase, fields));
        }
        BooleanQuery::new(
            clauses
                .into_iter()
                .map(|clause| (Occur::Should, clause))
                .collect(),
        )
    }
}

/// The words as a name: group marks in place of the words that they cover.
pub(super) fn name(words: &[Word]) -> Name {
    let mut name = Vec::new();
    let mut next = 0;
    for word in words.iter().filter(|word| word.sort == Sort::Plain) {
        if word.place < next {
            continue;
        }
        let mut choices = Vec::new();
        next = word.place + 1;
        for other in words.iter().filter(|other| other.place == word.place) {
            if let Sort::Group(covers) = other.sort {
                next = next.max(word.place + covers);
                choices.push(other.text.clone());
            }
        }
        if next == word.place + 1 {
            choices.push(word.text.clone());
        }
        name.push(choices);
    }
    name
}

/// Whether two names are one.
pub(super) fn same(one: &Name, other: &Name) -> bool {
    let meet = |(one, other): (&Vec<String>, &Vec<String>)| one.iter().any(|w| other.contains(w));
    !one.is_empty() && one.len() == other.len() && one.iter().zip(other).all(meet)
}

fn first_words(mut words: Vec<Word>) -> Vec<Word> {
    words.retain(|word| word.place < MOST_WORDS);
    words
}

fn texts(words: &[Word]) -> Vec<String> {
    words.iter().map(|word| word.text.clone()).collect()
}

/// The best of several words in the best of all fields.
fn best(words: &[(&str, f32)], fields: &Fields) -> Box<dyn Query> {
    let mut any: Vec<Box<dyn Query>> = Vec::new();
    for (text, boost) in words {
        for (field, weight) in fields.weighted() {
            let term = Term::from_field_text(field, text);
            let query = TermQuery::new(term, IndexRecordOption::WithFreqs);
            any.push(Box::new(BoostQuery::new(Box::new(query), boost * weight)));
        }
    }
    Box::new(DisjunctionMaxQuery::with_tie_breaker(any, TIE))
}

fn phrase_clause(words: &[&str], fields: &Fields) -> Box<dyn Query> {
    let in_field = |(field, weight): (Field, f32)| -> Box<dyn Query> {
        let terms = words.iter().enumerate();
        let terms = terms.map(|(at, text)| (at, Term::from_field_text(field, text)));
        let phrase = PhraseQuery::new_with_offset_and_slop(terms.collect(), 1);
        Box::new(BoostQuery::new(Box::new(phrase), PHRASE * weight))
    };
    let any = fields.weighted().into_iter().map(in_field).collect();
    Box::new(DisjunctionMaxQuery::with_tie_breaker(any, TIE))
}
