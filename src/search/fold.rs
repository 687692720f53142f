//! Which words are one: stems with the trade's exceptions, and groups of synonyms.
//!
//! A group whose chief word is single (housing) takes the place of its other single words (dado),
//! on pages and in questions alike, so that they meet. Where a name has several words (sliding
//! dovetail, push-block), the words stay and a group mark `=sliding dovetail` is set beside them:
//! `dovetail` alone still finds the page, `dovetail groove` finds it through the mark. Forms of
//! several words are also known written as one (`pushblock`).

use std::cmp::Reverse;
use std::collections::{BTreeMap, BTreeSet, HashMap};
use std::sync::{Mutex, PoisonError};

use tantivy::tokenizer::{Language, RawTokenizer, Stemmer, TextAnalyzer, TokenStream};

use super::terms::{Term, Terms};

/// Begins the mark of a group whose chief name has several words; no word begins so.
pub(super) const MARK: char = '=';

/// The stems and groups of one shop.
pub(super) struct Fold {
    stemmer: Mutex<Stemmed>,
    exceptions: BTreeMap<String, String>,
    ignored: BTreeSet<String>,
    chief: BTreeMap<String, String>,
    /// By first word: names of groups, longest first.
    groups: BTreeMap<String, Vec<Group>>,
    /// Names of one word as written, those of several words joined.
    single: BTreeSet<String>,
}

/// The plain stemmer with what words were folded to so far: a page repeats its words, and the
/// stemmer is the dearest part of building an index.
struct Stemmed {
    stemmer: TextAnalyzer,
    known: HashMap<String, String>,
}

impl Stemmed {
    fn stem(&mut self, word: &str) -> String {
        let mut tokens = self.stemmer.token_stream(word);
        let stem = tokens.next().map_or(word, |token| token.text.as_str());
        stem.to_owned()
    }
}

/// A name with what is set beside it.
struct Group {
    name: Vec<String>,
    marks: Vec<String>,
}

impl Fold {
    /// Prepares the groups; their forms are cut as any text is.
    pub(super) fn new(terms: &Terms) -> Self {
        let lower = |word: &String| word.to_lowercase();
        let mut fold = Self {
            stemmer: Mutex::new(Stemmed {
                stemmer: TextAnalyzer::builder(RawTokenizer::default())
                    .filter(Stemmer::new(Language::English))
                    .build(),
                known: HashMap::new(),
            }),
            exceptions: BTreeMap::new(),
            ignored: terms.ignored.iter().map(lower).collect(),
            chief: BTreeMap::new(),
            groups: BTreeMap::new(),
            single: BTreeSet::new(),
        };
        for stem in &terms.stems {
            for word in &stem.words {
                fold.exceptions
                    .insert(lower(word), stem.stem.to_lowercase());
            }
        }
        let forms: Vec<_> = terms.terms.iter().map(|term| fold.forms(term)).collect();
        for forms in &forms {
            fold.learn_chief(forms);
        }
        for forms in forms {
            fold.learn_group(forms);
        }
        fold
    }

    /// Stems of single words, one for each.
    pub(super) fn stems(&self, words: &[String]) -> Vec<String> {
        let mut stemmer = self.stemmer.lock().unwrap_or_else(PoisonError::into_inner);
        let fold = |word: &String| {
            if let Some(folded) = stemmer.known.get(word) {
                return folded.clone();
            }
            let stem = match self.exceptions.get(word) {
                Some(exception) => exception.clone(),
                None => stemmer.stem(word),
            };
            let folded = self.chief.get(&stem).cloned().unwrap_or(stem);
            stemmer.known.insert(word.clone(), folded.clone());
            folded
        };
        words.iter().map(fold).collect()
    }

    /// Whether a word finds nothing.
    pub(super) fn ignores(&self, word: &str) -> bool {
        self.ignored.contains(word)
    }

    /// The words that find nothing.
    pub(super) fn ignored(&self) -> impl Iterator<Item = &str> {
        self.ignored.iter().map(String::as_str)
    }

    /// Words that are folded whether a page has them or not: exceptions to stemming, and names
    /// of one word or written as one.
    pub(super) fn words(&self) -> impl Iterator<Item = String> {
        self.exceptions.keys().chain(&self.single).cloned()
    }

    /// Names of groups with their marks; of one first word the longest name first.
    pub(super) fn groups(&self) -> impl Iterator<Item = (&[String], &[String])> {
        let groups = self.groups.values().flatten();
        groups.map(|group| (group.name.as_slice(), group.marks.as_slice()))
    }

    /// The longest name that `stems` begin with: how many words it has, and its group marks.
    pub(super) fn group(&self, stems: &[&str]) -> Option<(usize, &[String])> {
        let groups = self.groups.get(*stems.first()?)?;
        let group = groups.iter().find(|group| {
            let count = group.name.len();
            count <= stems.len()
                && group
                    .name
                    .iter()
                    .zip(stems)
                    .all(|(name, stem)| name == stem)
        })?;
        Some((group.name.len(), &group.marks))
    }

    /// The written words of each form of a term, its chief form first.
    fn forms(&self, term: &Term) -> Vec<Vec<String>> {
        let split = |form: &str| {
            form.to_lowercase()
                .split(|c: char| !c.is_alphanumeric())
                .filter(|word| !word.is_empty() && !self.ignores(word))
                .map(str::to_owned)
                .collect::<Vec<_>>()
        };
        term.forms()
            .map(split)
            .filter(|words| !words.is_empty())
            .collect()
    }

    fn learn_chief(&mut self, forms: &[Vec<String>]) {
        let Some([chief]) = forms.first().map(Vec::as_slice) else {
            return;
        };
        let chief = self.stems(std::slice::from_ref(chief)).remove(0);
        for form in forms.iter().filter(|form| form.len() == 1) {
            let stem = self.stems(form).remove(0);
            if stem != chief {
                self.chief.entry(stem).or_insert_with(|| chief.clone());
            }
        }
        // What was folded without these is folded anew.
        let stemmer = self.stemmer.get_mut();
        stemmer
            .unwrap_or_else(PoisonError::into_inner)
            .known
            .clear();
    }

    fn learn_group(&mut self, forms: Vec<Vec<String>>) {
        let Some(first) = forms.first() else {
            return;
        };
        let chief = self.stems(first);
        let mark = match chief.as_slice() {
            [single] => single.clone(),
            several => format!("{MARK}{}", several.join(" ")),
        };
        let joined = forms
            .iter()
            .filter(|form| form.len() > 1)
            .map(|form| vec![form.concat()]);
        let joined: Vec<_> = joined.collect();
        for form in forms.into_iter().chain(joined) {
            if let [one] = form.as_slice() {
                self.single.insert(one.clone());
            }
            let name = self.stems(&form);
            if name != [mark.as_str()] {
                self.learn_name(name, &mark);
            }
        }
    }

    fn learn_name(&mut self, name: Vec<String>, mark: &str) {
        let Some(first) = name.first() else {
            return;
        };
        let groups = self.groups.entry(first.clone()).or_default();
        let known = groups.iter_mut().find(|group| group.name == name);
        match known {
            Some(group) if group.marks.iter().any(|known| known == mark) => {}
            Some(group) => group.marks.push(mark.to_owned()),
            None => {
                groups.push(Group {
                    name,
                    marks: vec![mark.to_owned()],
                });
                groups.sort_by_key(|group| Reverse(group.name.len()));
            }
        }
    }
}
