//! The words of the reader's side of the Atlantic, put into texts that are shown.
//!
//! The library is written in British words. In a shop whose region is American each term that is
//! `shown: true` in `terms.yaml` gives way to its American word: whole words only, plural and the
//! forms of a verb with it, capitals kept, `a` and `an` mended. A word with its American one in
//! brackets behind it changes places with it. What is no running text stays: names joined by
//! hyphens (ids), paths, what stands between braces or backticks. In a British shop nothing changes.

use std::borrow::Cow;
use std::cmp::Reverse;
use std::collections::BTreeMap;
use std::sync::Arc;

use super::terms::Terms;
use crate::shop::Region;

/// The words to show; cheap to clone. The default changes nothing.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Speech {
    /// By first word in small letters; of one first word the longest name first.
    names: Arc<BTreeMap<String, Vec<Name>>>,
}

#[derive(Debug, PartialEq, Eq)]
struct Name {
    /// Words in small letters.
    from: Vec<String>,
    to: String,
}

/// A word of a text: bytes from, to.
type Word = (usize, usize);

impl Speech {
    /// The words of a region.
    pub fn of(region: Region, terms: &Terms) -> Self {
        let mut names: BTreeMap<String, Vec<Name>> = BTreeMap::new();
        let shown = terms.terms.iter().filter(|term| term.shown);
        for term in shown.filter(|_| region == Region::American) {
            let Some(american) = &term.american else {
                continue;
            };
            let forms = forms(&term.term.to_lowercase()).into_iter();
            for (from, to) in forms.zip(self::forms(american)) {
                let from: Vec<String> = from.split_whitespace().map(str::to_owned).collect();
                if let Some(first) = from.first().cloned() {
                    names.entry(first).or_default().push(Name { from, to });
                }
            }
        }
        for list in names.values_mut() {
            list.sort_by_key(|name| Reverse(name.from.len()));
        }
        Self {
            names: Arc::new(names),
        }
    }

    /// Whether texts are changed at all.
    pub fn changes(&self) -> bool {
        !self.names.is_empty()
    }

    /// The text in the words of the region.
    pub fn say<'t>(&self, text: &'t str) -> Cow<'t, str> {
        if !self.changes() {
            return Cow::Borrowed(text);
        }
        let words = words(text);
        let mut out = String::new();
        let (mut said, mut at) = (0, 0);
        while at < words.len() {
            let Some((count, name)) = self.name(text, &words[at..]) else {
                at += 1;
                continue;
            };
            let (start, end) = (words[at].0, words[at + count - 1].1);
            out.push_str(&text[said..start]);
            let written = &text[start..end];
            mend_article(&mut out, written, &name.to);
            let new = capitals_of(written, &name.to);
            out.push_str(&new);
            said = end;
            at += count;
            if let Some(length) = in_brackets(&text[end..], &name.to) {
                out.push_str(&format!(" ({})", written.to_lowercase()));
                said = end + length;
                at += words[at..].iter().take_while(|word| word.0 < said).count();
            }
        }
        if said == 0 {
            return Cow::Borrowed(text);
        }
        out.push_str(&text[said..]);
        Cow::Owned(out)
    }

    /// The longest name that the words begin with.
    fn name(&self, text: &str, words: &[Word]) -> Option<(usize, &Name)> {
        let lower = |word: &Word| text[word.0..word.1].to_lowercase();
        let names = self.names.get(&lower(words.first()?))?;
        let name = names.iter().find(|name| {
            let count = name.from.len();
            count <= words.len()
                && name
                    .from
                    .iter()
                    .zip(words)
                    .all(|(from, word)| *from == lower(word))
                && words[..count].windows(2).all(|two| {
                    let between = &text[two[0].1..two[1].0];
                    !between.is_empty() && between.chars().all(char::is_whitespace)
                })
        })?;
        Some((name.from.len(), name))
    }
}

/// A name as it stands, in the plural, and as a verb: past and present participle.
fn forms(name: &str) -> [String; 4] {
    let hisses = ["s", "x", "z", "ch", "sh", "o"];
    let plural = if hisses.iter().any(|end| name.ends_with(end)) {
        "es"
    } else {
        "s"
    };
    let stem = name.strip_suffix('e').unwrap_or(name);
    [
        name.to_owned(),
        format!("{name}{plural}"),
        format!("{stem}ed"),
        format!("{stem}ing"),
    ]
}

/// The words of running text: no paths, nothing between braces or backticks. Letters and digits
/// that a hyphen or an underscore joins are one word.
fn words(text: &str) -> Vec<Word> {
    let mut words = Vec::new();
    let (mut braces, mut code) = (0_u32, false);
    let mut start = None;
    for (at, sign) in text.char_indices().chain([(text.len(), ' ')]) {
        if sign.is_alphanumeric() || matches!(sign, '-' | '_') {
            start.get_or_insert(at);
            continue;
        }
        if let Some(start) = start.take()
            && braces == 0
            && !code
            && !in_path(text, start, at)
        {
            words.push((start, at));
        }
        match sign {
            '{' => braces += 1,
            '}' => braces = braces.saturating_sub(1),
            '`' => code = !code,
            _ => {}
        }
    }
    words
}

/// Whether a word is part of a path, an address or the name of a file.
fn in_path(text: &str, start: usize, end: usize) -> bool {
    let before = text[..start].chars().next_back();
    let mut after = text[end..].chars();
    let (next, second) = (after.next(), after.next());
    let goes_on = second.is_some_and(char::is_alphanumeric);
    matches!(before, Some('/' | '\\' | ':' | '=' | '@' | '.'))
        || matches!(next, Some('/' | '\\' | '=' | '@'))
        || (matches!(next, Some('.' | ':')) && goes_on)
}

/// How long ` (word)` is, when the text goes on with it.
fn in_brackets(text: &str, word: &str) -> Option<usize> {
    let rest = text.strip_prefix(" (")?;
    let inner = rest.get(..word.len())?;
    (inner.eq_ignore_ascii_case(word) && rest[word.len()..].starts_with(')'))
        .then_some(word.len() + 3)
}

/// `a` before a consonant, `an` before a vowel, where the new word differs from the old in that.
fn mend_article(out: &mut String, old: &str, new: &str) {
    let vowel = |word: &str| word.starts_with(['a', 'e', 'i', 'o', 'u', 'A', 'E', 'I', 'O', 'U']);
    if vowel(old) == vowel(new) {
        return;
    }
    let article = out.trim_end();
    let blank = out[article.len()..].to_owned();
    let (wrong, right) = if vowel(new) { ("a", "an") } else { ("an", "a") };
    let start = article.len().saturating_sub(wrong.len());
    let Some(last) = article.get(start..) else {
        return;
    };
    let alone = article[..start]
        .chars()
        .next_back()
        .is_none_or(|sign| !sign.is_alphanumeric());
    if blank.is_empty() || !alone || !last.eq_ignore_ascii_case(wrong) {
        return;
    }
    let right = capitals_of(&last[..1], right);
    out.truncate(start);
    out.push_str(&right);
    out.push_str(&blank);
}

/// The new word with the capitals of the old one.
fn capitals_of(old: &str, new: &str) -> String {
    let mut letters = old.chars().filter(|sign| sign.is_alphabetic());
    let first = letters.next().is_some_and(char::is_uppercase);
    if !first {
        return new.to_owned();
    }
    let mut rest = letters.peekable();
    if rest.peek().is_some() && rest.all(char::is_uppercase) {
        return new.to_uppercase();
    }
    let mut signs = new.chars();
    let head = signs.next().map(|sign| sign.to_uppercase().to_string());
    head.unwrap_or_default() + signs.as_str()
}
