//! The calculator that was named, or which one may have been meant.
//!
//! A word of the trade (`dado`, `rabbet`, `half-lap`) leads to the calculator of the same joint,
//! through the shop's words; it is a hint and not an answer, for one word can mean two joints.

use super::args::Common;
use super::open::folder;
use crate::diag::{Code, Fault, nearest};
use crate::joints::{self, Calculator};
use crate::search::Terms;
use crate::store::Workshop;

/// The calculator of that name.
///
/// # Errors
/// `unknown-name`, with the one that may have been meant.
pub(super) fn find(name: &str, common: &Common) -> Result<&'static Calculator, Fault> {
    joints::find(name).ok_or_else(|| {
        let message = format!("no calculator is called `{name}`");
        let hint = meant(name, &terms(common));
        Fault::error(Code::UNKNOWN_NAME, message)
            .hint(hint.unwrap_or_else(|| "`faceside figure` lists them".to_owned()))
    })
}

/// The shop's words; a shop that cannot be opened has none to help with.
fn terms(common: &Common) -> Terms {
    let folder = folder(common).ok().flatten();
    let opened = Workshop::open(folder.as_deref(), None);
    opened.map_or_else(|_| Terms::default(), |(workshop, _)| workshop.terms)
}

/// What to type instead: the calculator of a joint that goes by that word, the nearest name, the
/// calculator of a word that is near, or those that speak of it.
fn meant(typed: &str, terms: &Terms) -> Option<String> {
    let typed = hyphened(typed);
    let groups = terms.terms.iter();
    let groups: Vec<Vec<_>> = groups
        .map(|term| term.forms().map(hyphened).collect())
        .collect();
    let near_name = || nearest(&typed, joints::ALL.iter().map(|one| one.name));
    word_of(&groups, |word| word == typed)
        .or_else(|| Some(format!("did you mean `{}`?", near_name()?)))
        .or_else(|| word_of(&groups, |word| is_slip(&typed, word)))
        .or_else(|| speaking_of(&typed, &groups))
}

/// The calculator that has the name of a joint of which one word will do.
fn word_of(groups: &[Vec<String>], will_do: impl Fn(&str) -> bool) -> Option<String> {
    groups.iter().find_map(|forms| {
        let calculator = forms.iter().find_map(|form| joints::find(form))?;
        let word = forms.iter().find(|form| will_do(form))?;
        let name = calculator.name;
        Some(match word == name {
            true => format!("did you mean `{name}`?"),
            false => format!("did you mean `{name}`, which is also called {word}?"),
        })
    })
}

/// Whether each part is the other's with a slip of the hand at most.
fn is_slip(typed: &str, word: &str) -> bool {
    let (typed, word): (Vec<_>, Vec<_>) = (typed.split('-').collect(), word.split('-').collect());
    let mut pairs = typed.iter().zip(&word);
    typed.len() == word.len() && pairs.all(|(typed, word)| nearest(typed, [*word]).is_some())
}

/// The calculators whose summary has all parts of the word, or of another word for it.
fn speaking_of(typed: &str, groups: &[Vec<String>]) -> Option<String> {
    let same = groups
        .iter()
        .filter(|forms| forms.iter().any(|form| form == typed));
    let words: Vec<&str> = same
        .flatten()
        .map(String::as_str)
        .chain([typed].into_iter().filter(|typed| !typed.is_empty()))
        .collect();
    let has = |summary: &str, word: &str| word.split('-').all(|part| summary.contains(part));
    let speak = joints::ALL.iter().filter(|calculator| {
        let summary = calculator.summary.to_lowercase();
        words.iter().any(|word| has(&summary, word))
    });
    let names: Vec<_> = speak.map(|calculator| calculator.name).collect();
    (!names.is_empty()).then(|| format!("these speak of it: `{}`", names.join("`, `")))
}

fn hyphened(words: &str) -> String {
    words.trim().to_lowercase().replace([' ', '_'], "-")
}
