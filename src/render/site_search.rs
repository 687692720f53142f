//! Search in the site: the index and the script that asks it, as files beside the pages.
//!
//! A page opened from a folder can fetch nothing but may load a script, so the index is one: it
//! sets a single name. An entry is found only when it has a page; cautions and words stand on a
//! page of many, which a browser opens at their words (a text fragment; one that does not know
//! them opens the page at its top). The words shown are those of the region.

use serde::Serialize;

use super::inert::{json_in_page, plain};
use super::pages::SitePages;
use super::places::Places;
use super::templates::SEARCH;
use crate::diag::{Code, Fault};
use crate::search::{Entry, EntryKind, Index, PageIndex, Terms};

/// Most words of a text by which its place on a page is found.
const MOST_WORDS: usize = 8;

/// What is searched and what is shown.
#[derive(Serialize)]
struct SearchFile {
    index: PageIndex,
    /// Kind, id, title, summary, address, in the order of the index.
    entries: Vec<[String; 5]>,
}

/// The files of the search: path within the site's folder, bytes.
///
/// # Errors
/// An index that cannot be built.
pub fn site_search(
    pages: &SitePages,
    entries: &[Entry],
    terms: &Terms,
) -> Result<Vec<(String, Vec<u8>)>, Fault> {
    let places = Places::of(pages);
    let found = entries
        .iter()
        .filter_map(|entry| Some((entry, place(pages, &places, entry)?)));
    let (kept, addresses): (Vec<Entry>, Vec<String>) =
        found.map(|(entry, place)| (entry.clone(), place)).unzip();
    let index = Index::build(&kept, terms)?.for_page()?;
    let say = |text: &str| plain(&pages.speech.say(text));
    let shown = kept.iter().zip(&addresses).map(|(entry, place)| {
        [
            entry.kind.word().to_owned(),
            plain(&entry.id),
            say(&entry.title),
            say(&entry.summary),
            place.clone(),
        ]
    });
    let file = SearchFile {
        index,
        entries: shown.collect(),
    };
    Ok(vec![
        ("search-index.js".to_owned(), script(&file)?.into_bytes()),
        ("search.js".to_owned(), SEARCH.as_bytes().to_vec()),
    ])
}

/// A script that sets the index; nothing in it can end a script element.
fn script(file: &SearchFile) -> Result<String, Fault> {
    let json = serde_json::to_string(file).map_err(|error| {
        Fault::error(
            Code::SEARCH_INDEX,
            format!("the search index fails: {error}"),
        )
    })?;
    Ok(format!("var facesideSearch = {};\n", json_in_page(&json)))
}

/// Where an entry is read, from the site's folder; none when it has no page.
fn place(pages: &SitePages, places: &Places, entry: &Entry) -> Option<String> {
    let page = |scheme| places.address("", scheme, &entry.id).flatten();
    match entry.kind {
        EntryKind::Procedure => page("procedure"),
        EntryKind::Note => page("note"),
        EntryKind::Calculator => page("figure"),
        EntryKind::Caution => Some(at_words(&page("caution")?, &pages.speech.say(&entry.title))),
        EntryKind::Term => Some(at_words(
            "words.html",
            &pages.speech.say(meaning(pages, entry)?),
        )),
        EntryKind::Record => None,
    }
}

/// The words by which an entry of the page of words is told from its neighbours.
fn meaning<'p>(pages: &'p SitePages, entry: &Entry) -> Option<&'p str> {
    let term = pages.terms.iter().find(|term| term.term == entry.title);
    let clash = || {
        let mut all = pages.clashes.iter();
        let begins = |word: &str| entry.title.strip_prefix(word);
        all.find(|(word, ..)| begins(word).is_some_and(|rest| rest.starts_with(':')))
    };
    term.map(|term| term.means.as_str())
        .or_else(|| clash().map(|(_, british, _)| british.as_str()))
}

/// A page opened at these words.
fn at_words(page: &str, words: &str) -> String {
    let words: Vec<&str> = words.split_whitespace().take(MOST_WORDS).collect();
    format!("{page}#:~:text={}", percent(&words.join(" ")))
}

/// All but letters and digits as `%20`.
fn percent(text: &str) -> String {
    let mut out = String::new();
    for byte in text.bytes() {
        if byte.is_ascii_alphanumeric() {
            out.push(char::from(byte));
        } else {
            out.push_str(&format!("%{byte:02X}"));
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::{at_words, percent};

    #[test]
    fn a_dash_and_a_comma_mean_something_in_a_text_fragment() {
        assert_eq!(percent("off-cut, ½"), "off%2Dcut%2C%20%C2%BD");
        assert_eq!(
            at_words("words.html", "A  groove"),
            "words.html#:~:text=A%20groove"
        );
    }
}
