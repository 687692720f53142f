//! The words of the trade: what they mean, which mean the same, and how they are cut for search.
//!
//! ```yaml
//! terms:
//!   - {term: housing, also: [trench], american: dado, means: "A groove across a board.", source: "..."}
//! clashes:                     # one word, two joints
//!   - {word: lap dovetail, british: "...", american: "...", source: "..."}
//! stems:                       # where plain stemming joins or parts the wrong words
//!   - {words: [housing, housings, housed], as: housing}
//! ignored: [a, the, of]        # words that find nothing
//! ```
//!
//! British first: `term` is the word that the shop's own texts use. A term, its `also` and its
//! `american` words find the same pages; with `shown: true` an American shop reads the one for the
//! other (`speech`). The order of the file is kept.

use std::collections::BTreeMap;
use std::sync::Arc;

use serde::Deserialize;

use super::{Entry, EntryKind};
use crate::diag::{Code, Fault, Faults, Source};
use crate::yaml::{self, Step, place};

/// One word of the trade, with those that mean the same.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Term {
    /// The British or trade word.
    pub term: String,
    /// Other words for the same.
    #[serde(default)]
    pub also: Vec<String>,
    /// The American word, where it differs.
    #[serde(default)]
    pub american: Option<String>,
    /// Whether an American shop reads that word in place of this one.
    #[serde(default)]
    pub shown: bool,
    /// What it is, in a sentence.
    pub means: String,
    /// Where the words come from.
    pub source: String,
}

impl Term {
    /// The word and all that mean the same.
    pub fn forms(&self) -> impl Iterator<Item = &str> {
        std::iter::once(self.term.as_str())
            .chain(self.american.as_deref())
            .chain(self.also.iter().map(String::as_str))
    }
}

/// One word that means two things on the two sides of the Atlantic, or in two trades.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Clash {
    /// The word.
    pub word: String,
    /// What it means in Britain, or in the first source named.
    pub british: String,
    /// What it means in America, or in the second source named.
    pub american: String,
    /// Where both come from.
    pub source: String,
}

/// Words that are cut to one stem, whatever plain stemming makes of them.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Stem {
    /// The words as written, lower case.
    pub words: Vec<String>,
    /// Their stem.
    #[serde(rename = "as")]
    pub stem: String,
}

/// All words of `terms.yaml`.
#[derive(Debug, Clone, Default, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Terms {
    /// Words and their synonyms.
    pub terms: Vec<Term>,
    /// Words with two meanings.
    pub clashes: Vec<Clash>,
    /// Exceptions to stemming.
    pub stems: Vec<Stem>,
    /// Words that are left out of search.
    pub ignored: Vec<String>,
}

impl Terms {
    /// Reads `terms.yaml`; what cannot be read at all gives no terms, and says why.
    pub fn read(source: &Arc<Source>) -> (Self, Faults) {
        match yaml::read::<Self>(source) {
            Ok(terms) => {
                let faults = terms.check(source);
                (terms, faults)
            }
            Err(faults) => (Self::default(), faults),
        }
    }

    fn check(&self, source: &Arc<Source>) -> Faults {
        let mut faults = Faults::new();
        let mut homes: BTreeMap<String, usize> = BTreeMap::new();
        for (at, term) in self.terms.iter().enumerate() {
            for (key, text) in [
                ("term", &term.term),
                ("means", &term.means),
                ("source", &term.source),
            ] {
                if text.trim().is_empty() {
                    let message = format!("`{key}` of a term is empty");
                    faults
                        .push(Fault::error(Code::MISSING_KEY, message).at(at_key(source, at, key)));
                }
            }
            if term.shown && term.american.is_none() {
                let message = format!("`{}` is shown by its American word and has none", term.term);
                let fault = Fault::error(Code::MISSING_KEY, message);
                let fault = fault.at(at_key(source, at, "shown"));
                faults.push(fault.hint("add `american:`, or take `shown` out"));
            }
            if term.term.contains([' ', '-']) {
                continue;
            }
            for form in term.forms().filter(|form| !form.contains([' ', '-'])) {
                let before = homes.insert(form.to_lowercase(), at);
                if let Some(first) = before.filter(|first| *first != at) {
                    let other = &self.terms[first].term;
                    let message = format!("`{form}` stands for `{other}` and for `{}`", term.term);
                    faults.push(
                        Fault::error(Code::DUPLICATE_ID, message)
                            .at(at_key(source, at, "term"))
                            .also(at_key(source, first, "term"), "the first one")
                            .hint("a word that means two things belongs under `clashes`"),
                    );
                }
            }
        }
        faults
    }

    /// Adds a shop's own words; a term, clash or stem of the same name takes the old one's place.
    ///
    /// Gives the names of what was replaced.
    pub fn overlay(&mut self, own: Self) -> Vec<String> {
        let mut replaced = Vec::new();
        put(&mut self.terms, own.terms, |term| &term.term, &mut replaced);
        put(
            &mut self.clashes,
            own.clashes,
            |clash| &clash.word,
            &mut replaced,
        );
        put(&mut self.stems, own.stems, |stem| &stem.stem, &mut replaced);
        self.ignored.extend(own.ignored);
        replaced
    }

    /// Every term and clash as something that can be found.
    pub fn entries(&self) -> Vec<Entry> {
        let terms = self.terms.iter().map(|term| Entry {
            kind: EntryKind::Term,
            id: id(&term.term),
            title: term.term.clone(),
            also: term.forms().skip(1).map(str::to_owned).collect(),
            summary: term.means.clone(),
            body: Vec::new(),
            next: format!("faceside search {}", term.term),
        });
        let clashes = self.clashes.iter().map(|clash| Entry {
            kind: EntryKind::Term,
            id: format!("two-meanings-of-{}", id(&clash.word)),
            title: format!("{}: one word, two meanings", clash.word),
            also: Vec::new(),
            summary: format!("British: {} American: {}", clash.british, clash.american),
            body: Vec::new(),
            next: format!("faceside search {}", clash.word),
        });
        terms.chain(clashes).collect()
    }
}

fn at_key(source: &Arc<Source>, term: usize, key: &str) -> crate::diag::Span {
    place(
        source,
        &[Step::from("terms"), Step::from(term), Step::from(key)],
    )
}

fn id(name: &str) -> String {
    let kept = name
        .chars()
        .map(|c| if c.is_alphanumeric() { c } else { '-' });
    kept.collect::<String>().to_lowercase()
}

fn put<T>(list: &mut Vec<T>, own: Vec<T>, name: fn(&T) -> &String, replaced: &mut Vec<String>) {
    for item in own {
        match list.iter_mut().find(|old| name(old) == name(&item)) {
            Some(old) => {
                replaced.push(name(&item).clone());
                *old = item;
            }
            None => list.push(item),
        }
    }
}
