//! Search in the site: the index and the script that asks it, as files beside the pages.
//!
//! A page opened from a folder can fetch nothing but may load a script, so the index is scripts: one
//! sets what all parts share, and says which others add the parts. An entry's part hangs on its id,
//! so that a change makes one part anew. An entry is found only when it has a page; cautions and
//! words stand on a page of many, which a browser opens at their words (a text fragment; one that
//! does not know them opens the page at its top). The words shown are those of the region.

use serde::Serialize;

use super::built::{Built, Sink, told};
use super::inert::{json_in_page, plain};
use super::pages::SitePages;
use super::places::Places;

use super::templates::SEARCH;
use crate::cores::try_each;
use crate::diag::{Code, Fault};
use crate::search::{Entry, EntryKind, Index, PagePart, PageSearch, Terms};

/// Most words of a text by which its place on a page is found.
const MOST_WORDS: usize = 8;

/// Entries of a part, about: with more a change costs more, with fewer there are more scripts.
const PART: usize = 256;

/// What all parts share.
#[derive(Serialize)]
struct SearchFile {
    index: PageSearch,
    /// Names of the scripts that add the parts.
    parts: Vec<String>,
}

/// What is searched and what is shown.
#[derive(Serialize)]
struct PartFile {
    index: PagePart,
    /// Kind, id, title, summary, address, in the order of the index.
    entries: Vec<[String; 5]>,
}

/// Gives the files of the search to `sink`, those of the same as `before` taken over.
///
/// # Errors
/// An index that cannot be built; and those of `sink`.
pub fn site_search(
    pages: &SitePages,
    (entries, terms): (&[Entry], &Terms),
    before: &Built,
    sink: &impl Sink,
) -> Result<Built, Fault> {
    let places = Places::of(pages);
    let found = entries
        .iter()
        .filter_map(|entry| Some((entry, place(pages, &places, entry)?)));
    let found: Vec<(&Entry, String)> = found.collect();
    // A power of two, which stays the same for long while entries come and go.
    let count = (found.len() / PART).next_power_of_two();
    let mut parts: Vec<Vec<(&Entry, String)>> = vec![Vec::new(); count];
    for one in found {
        let number = crc32fast::hash(one.0.id.as_bytes()) as usize;
        parts[number % count].push(one);
    }
    let numbered: Vec<(String, Vec<(&Entry, String)>)> = (1..)
        .map(|number| format!("search-part-{number}.js"))
        .zip(parts)
        .collect();
    let common = told(&pages.floor.files);
    let made = try_each(&numbered, |(path, part)| {
        let from = Some(told((common, part)));
        if before.same(path, from).is_some() && sink.keep(path)? {
            return Ok(from);
        }
        let bytes = part_file(part, pages, terms)?;
        sink.put(path, bytes).map(|()| from)
    })?;
    let mut built = Built::default();
    let names: Vec<String> = numbered.into_iter().map(|(path, _)| path).collect();
    for (path, from) in names.iter().zip(made) {
        built.add(path, from);
    }
    let file = SearchFile {
        index: PageSearch::of(terms),
        parts: names,
    };
    sink.put("search-index.js", script("facesideSearch = ", &file, "")?)?;
    sink.put("search.js", SEARCH.as_bytes().to_vec())?;
    built.count(2);
    Ok(built)
}

fn part_file(
    part: &[(&Entry, String)],
    pages: &SitePages,
    terms: &Terms,
) -> Result<Vec<u8>, Fault> {
    let kept: Vec<Entry> = part.iter().map(|(entry, _)| (*entry).clone()).collect();
    let say = |text: &str| plain(&pages.speech.say(text));
    let shown = part.iter().map(|(entry, place)| {
        [
            entry.kind.word().to_owned(),
            plain(&entry.id),
            say(&entry.title),
            say(&entry.summary),
            place.clone(),
        ]
    });
    let file = PartFile {
        index: Index::build(&kept, terms)?.for_page()?,
        entries: shown.collect(),
    };
    script("facesideParts.push(", &file, ")")
}

/// A script that hands over what is searched; nothing in it can end a script element.
fn script(begin: &str, file: &impl Serialize, end: &str) -> Result<Vec<u8>, Fault> {
    let json = serde_json::to_string(file).map_err(|error| {
        let message = format!("the search index fails: {error}");
        Fault::error(Code::SEARCH_INDEX, message)
    })?;
    Ok(format!("window.{begin}{}{end};\n", json_in_page(&json)).into_bytes())
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
