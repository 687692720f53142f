//! How a text is cut into words that are searched for; the same for pages, questions and marks.
//!
//! Letters are lower-cased, stemmed and folded (`fold`); a hyphen parts words, and the words of a
//! hyphened one are also kept joined; numbers come from `number`. Ignored words are left out and
//! take no place, so that a phrase reaches over them. At one place several words may stand: the
//! word, its group mark, its joined form, a length and its rough millimetres.

use std::ops::Range;
use std::sync::Arc;

use tantivy::tokenizer::{Token, TokenStream, Tokenizer};

use super::fold::Fold;
use super::number;
use super::terms::Terms;

/// Longest word that is kept, in bytes; anything longer is no word of a shop.
const LONGEST: usize = 60;

/// What sort of word it is; decides its weight in a question.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Sort {
    /// A word as it stands, stemmed and folded; or a number.
    Plain,
    /// A mark for a name of one or several words, with how many places it covers.
    Group(usize),
    /// A hyphened word written as one; a number without its unit.
    Spelling,
    /// A length to the nearest millimetre.
    About,
}

/// One word that can be searched for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Word {
    /// As it is searched for.
    pub(super) text: String,
    /// Bytes that it stands for.
    pub(super) range: Range<usize>,
    /// Its place among the words.
    pub(super) place: usize,
    /// Its sort.
    pub(super) sort: Sort,
}

/// Words of letters as written, and numbers.
enum Cut {
    Letters { lower: String, hyphened: bool },
    Number(number::Number),
}

/// Cuts texts; cheap to clone.
#[derive(Clone)]
pub(super) struct Analyser {
    fold: Arc<Fold>,
}

impl Analyser {
    /// An analyser that knows these terms.
    pub(super) fn new(terms: &Terms) -> Self {
        Self {
            fold: Arc::new(Fold::new(terms)),
        }
    }

    /// The stems and groups that it uses.
    pub(super) fn fold(&self) -> &Fold {
        &self.fold
    }

    /// All words of the text, by place.
    pub(super) fn words(&self, text: &str) -> Vec<Word> {
        let cuts = self.cuts(text);
        let plain = self.plain(&cuts);
        let mut words = self.groups(&plain);
        self.spellings(&cuts, &plain, &mut words);
        words.extend(plain);
        words.sort_by_key(|word| word.place);
        words
    }

    /// Words of letters as written, in lower case, hyphened ones joined too: what slips of the
    /// hand are compared with.
    pub(super) fn written(&self, text: &str) -> Vec<String> {
        let cuts = self.cuts(text);
        let mut written: Vec<String> = chains(&cuts).map(|(_, joined)| joined).collect();
        written.extend(cuts.into_iter().filter_map(|(_, cut)| match cut {
            Cut::Letters { lower, .. } => Some(lower),
            Cut::Number(_) => None,
        }));
        written
    }

    fn cuts(&self, text: &str) -> Vec<(Range<usize>, Cut)> {
        let mut cuts = Vec::new();
        let mut at = 0;
        while let Some(first) = text[at..].chars().next() {
            let next = text[at + first.len_utf8()..].chars().next();
            if number::begins(first, next) {
                let number = number::read(&text[at..]);
                let range = at..at + number.bytes;
                at = range.end;
                if range.len() <= LONGEST {
                    cuts.push((range, Cut::Number(number)));
                }
            } else if first.is_alphabetic() {
                let length = text[at..].find(|c: char| !c.is_alphanumeric());
                let range = at..length.map_or(text.len(), |length| at + length);
                at = range.end;
                let lower = text[range.clone()].to_lowercase();
                let hyphened = text[..range.start].ends_with(['-', '\u{2010}', '\u{2011}']);
                if range.len() <= LONGEST && !self.fold.ignores(&lower) {
                    cuts.push((range, Cut::Letters { lower, hyphened }));
                }
                at += ["'s", "’s"]
                    .iter()
                    .find(|s| text[at..].starts_with(**s))
                    .map_or(0, |s| s.len());
            } else {
                at += first.len_utf8();
            }
        }
        cuts
    }

    fn plain(&self, cuts: &[(Range<usize>, Cut)]) -> Vec<Word> {
        let letters: Vec<String> = cuts
            .iter()
            .filter_map(|(_, cut)| match cut {
                Cut::Letters { lower, .. } => Some(lower.clone()),
                Cut::Number(_) => None,
            })
            .collect();
        let mut stems = self.fold.stems(&letters).into_iter();
        let words = cuts.iter().enumerate().map(|(place, (range, cut))| Word {
            text: match cut {
                Cut::Letters { .. } => stems.next().unwrap_or_default(),
                Cut::Number(number) => number.exact.clone(),
            },
            range: range.clone(),
            place,
            sort: Sort::Plain,
        });
        words.collect()
    }

    fn groups(&self, plain: &[Word]) -> Vec<Word> {
        let stems: Vec<&str> = plain.iter().map(|word| word.text.as_str()).collect();
        let mut words = Vec::new();
        let mut at = 0;
        while at < stems.len() {
            let Some((count, marks)) = self.fold.group(&stems[at..]) else {
                at += 1;
                continue;
            };
            words.extend(marks.iter().map(|mark| Word {
                text: mark.clone(),
                range: plain[at].range.start..plain[at + count - 1].range.end,
                place: at,
                sort: Sort::Group(count),
            }));
            at += count;
        }
        words
    }

    fn spellings(&self, cuts: &[(Range<usize>, Cut)], plain: &[Word], words: &mut Vec<Word>) {
        let (places, joined): (Vec<_>, Vec<_>) = chains(cuts).unzip();
        let stems = self.fold.stems(&joined);
        words.extend(places.into_iter().zip(stems).map(|(places, text)| Word {
            text,
            range: cuts[places.start].0.start..cuts[places.end - 1].0.end,
            place: places.start,
            sort: Sort::Spelling,
        }));
        for (word, (_, cut)) in plain.iter().zip(cuts) {
            let Cut::Number(number) = cut else { continue };
            let mut beside = |text: &str, sort| {
                words.push(Word {
                    text: text.to_owned(),
                    sort,
                    ..word.clone()
                });
            };
            if let Some(about) = &number.about {
                beside(about, Sort::About);
            }
            if number.bare != number.exact {
                beside(&number.bare, Sort::Spelling);
            }
        }
    }
}

/// Hyphened words: their places, and the letters joined.
fn chains(cuts: &[(Range<usize>, Cut)]) -> impl Iterator<Item = (Range<usize>, String)> {
    let follows =
        |at: usize| matches!(cuts.get(at), Some((_, Cut::Letters { hyphened: true, .. })));
    let starts = (0..cuts.len()).filter(move |at| !follows(*at) && follows(at + 1));
    starts.filter_map(move |start| {
        let end = (start + 1..).find(|at| !follows(*at))?;
        let letters = cuts[start..end].iter().map(|(_, cut)| match cut {
            Cut::Letters { lower, .. } => Some(lower.as_str()),
            Cut::Number(_) => None,
        });
        Some((start..end, letters.collect::<Option<String>>()?))
    })
}

impl Tokenizer for Analyser {
    type TokenStream<'a> = Words;

    fn token_stream<'a>(&'a mut self, text: &'a str) -> Words {
        let tokens = self.words(text).into_iter().map(|word| Token {
            offset_from: word.range.start,
            offset_to: word.range.end,
            position: word.place,
            text: word.text,
            position_length: 1,
        });
        Words {
            left: tokens.collect::<Vec<_>>().into_iter(),
            token: Token::default(),
        }
    }
}

/// The words of one text, handed to the index one by one.
pub(super) struct Words {
    left: std::vec::IntoIter<Token>,
    token: Token,
}

impl TokenStream for Words {
    fn advance(&mut self) -> bool {
        self.left.next().map(|token| self.token = token).is_some()
    }

    fn token(&self) -> &Token {
        &self.token
    }

    fn token_mut(&mut self) -> &mut Token {
        &mut self.token
    }
}
