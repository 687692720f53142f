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

/// The nearest of all names, and of all words that mean the joint of a calculator.
fn meant(typed: &str, terms: &Terms) -> Option<String> {
    let names = joints::ALL
        .iter()
        .map(|one| (one.name.to_owned(), one.name));
    let mut words: Vec<(String, &'static str)> = names.collect();
    for term in &terms.terms {
        let forms: Vec<_> = term.forms().map(hyphened).collect();
        if let Some(named) = forms.iter().find_map(|form| joints::find(form)) {
            words.extend(forms.into_iter().map(|form| (form, named.name)));
        }
    }
    let near = nearest(
        &hyphened(typed),
        words.iter().map(|(word, _)| word.as_str()),
    )?;
    let (_, name) = words.iter().find(|(word, _)| word == near)?;
    Some(match near == *name {
        true => format!("did you mean `{name}`?"),
        false => format!("did you mean `{name}`, which is also called {near}?"),
    })
}

fn hyphened(words: &str) -> String {
    words.trim().to_lowercase().replace([' ', '_'], "-")
}
