//! The deserialiser's words for a text that is not YAML, turned into ours, with the place.
//!
//! Together with `slip.rs` the one place that knows how the deserialiser words its errors.

use std::sync::Arc;

use super::lint::{TOO_MANY, empty};
use super::slip::without_place;
use crate::diag::{Code, Fault, Source, Span};

/// For an entry or an item that begins in another column than the ones before it.
const OUT_OF_LINE: &str = "this is not in line with what it belongs to";

/// What the parser says, whether the fault stands where the unfinished thing began, what we say,
/// and what to do.
const PROBLEMS: &[(&str, bool, &str, &str)] = &[
    (
        "found unexpected end of stream",
        true,
        "a quoted text is not closed",
        "put the closing quote where the text ends; write an inch sign as `in`",
    ),
    (
        "did not find expected ',' or ']'",
        true,
        "a list that begins with `[` is not closed",
        "put `]` where the list ends, and a comma between its items",
    ),
    (
        "did not find expected ',' or '}'",
        true,
        "a group that begins with `{` is not closed",
        "put `}` where the group ends, a comma between its entries, and texts that hold a comma in quotes",
    ),
    (
        "did not find expected node content",
        false,
        "a value is missing between the brackets",
        "put the value there, close the bracket, or put a text that holds brackets in quotes",
    ),
    (
        "mapping values are not allowed in this context",
        false,
        "`: ` stands where no key can be",
        "put a text that holds `: ` in quotes; if it is a key, bring it in line with the others",
    ),
    (
        "did not find expected key",
        false,
        OUT_OF_LINE,
        "begin entries that belong together in the same column",
    ),
    (
        "did not find expected '-' indicator",
        false,
        OUT_OF_LINE,
        "begin all `-` of a list in the same column",
    ),
    (
        "block sequence entries are not allowed",
        false,
        "`- ` begins a list where none can be",
        "begin the list on a line of its own",
    ),
    (
        "could not find expected ':'",
        true,
        "a key has no `:` after it",
        "write `key: value`",
    ),
    (
        "found character that cannot start any token",
        false,
        "a text cannot begin with this sign",
        "put the text in quotes",
    ),
    (
        "found unknown escape character",
        false,
        "`\\` in double quotes does not have this letter after it",
        "use single quotes, in which `\\` is an ordinary sign",
    ),
    (
        "unknown anchor",
        false,
        "a text that begins with `*` names no anchor",
        "put the text in quotes",
    ),
    (
        "did not find expected alphabetic or numeric character",
        true,
        "a text that begins with `*` or `&` names no anchor",
        "put the text in quotes",
    ),
    (
        "did not find expected <document start>",
        false,
        "this stands after the end of the document",
        "put the text of the line in quotes as a whole; begin all keys in the same column",
    ),
    (
        "invalid type:",
        false,
        "a key is not a text",
        "write `key: value`; put a text that begins with `{` or `[` in quotes",
    ),
];

/// The fault for an error that is not about the type of a value.
pub(super) fn explain(source: &Arc<Source>, error: &serde_yaml::Error) -> Fault {
    let words = error.to_string();
    let text = &source.text;
    let at = error
        .location()
        .map_or(0, |location| start_of(text, &location));
    if words.starts_with("EOF while parsing") {
        return empty(source);
    }
    if words.contains("more than one document") {
        return second_document(source);
    }
    if let Some(fault) = limit(&words) {
        return fault.at(Span::new(source, at, at));
    }
    if let Some(tab) = tab_before(text, at) {
        return Fault::error(Code::TAB_INDENT, "a tab stands where YAML wants spaces")
            .at(Span::new(source, tab, tab + 1))
            .label("this is a tab")
            .hint("put two spaces for each tab; most editors can do that for the whole file");
    }
    let (problem, context) = words.split_once(", ").unwrap_or((&words, ""));
    let known = PROBLEMS
        .iter()
        .find(|(theirs, ..)| problem.starts_with(theirs) || words.contains(theirs));
    let Some((_, at_start, message, hint)) = known else {
        let message = format!("this is not YAML: {}", without_place(problem));
        return Fault::error(Code::YAML_SYNTAX, message)
            .at(sign(source, at))
            .label("reading stopped here")
            .hint("put texts that hold `: `, ` #`, quotes or brackets in quotes as a whole");
    };
    if *message == OUT_OF_LINE && !starts_line(text, at) {
        return Fault::error(Code::YAML_SYNTAX, "this stands after the end of the value")
            .at(sign(source, at))
            .label("the value ends before this")
            .hint("put the text in quotes as a whole: one that begins with a quote or a brace ends where that closes");
    }
    let begun = line_column(context).map(|(line, column)| byte_at(text, line, column));
    let fault = Fault::error(Code::YAML_SYNTAX, *message).hint(*hint);
    match (at_start, begun) {
        (true, begun) => fault
            .at(sign(source, begun.unwrap_or(0)))
            .label("it begins here")
            .also(sign(source, at), "this is where reading stopped"),
        (false, _) => fault.at(sign(source, at)).label("reading stopped here"),
    }
}

fn limit(words: &str) -> Option<Fault> {
    if words.starts_with("recursion limit exceeded") {
        return Some(
            Fault::error(
                Code::FILE_LIMIT,
                "the file is nested deeper than 128 levels",
            )
            .hint("close the brackets, or write it flatter"),
        );
    }
    let swollen = words.contains(TOO_MANY) || words.starts_with("repetition limit exceeded");
    swollen.then(|| {
        Fault::error(
            Code::FILE_LIMIT,
            "the aliases of the file expand to more than can be read",
        )
        .hint("write the entries out instead of using `*`")
    })
}

/// The place of the first `---` line that has something before it.
fn second_document(source: &Arc<Source>) -> Fault {
    let mut content = false;
    let mut start = 0;
    let mut place = Span::new(source, 0, 0);
    for line in source.text.split_inclusive('\n') {
        let begins = line.starts_with("---") && line[3..].chars().all(char::is_whitespace)
            || line.starts_with("--- ");
        if begins && content {
            place = Span::new(source, start, start + 3);
            break;
        }
        let trimmed = line.trim();
        content |= !(trimmed.is_empty() || trimmed.starts_with(['#', '%']));
        start += line.len();
    }
    Fault::error(Code::YAML_SYNTAX, "a second document begins here")
        .at(place)
        .label("a file holds one document")
        .hint("put it into a file of its own, or delete this line")
}

fn starts_line(text: &str, at: usize) -> bool {
    let line = text[..at].rfind('\n').map_or(0, |end| end + 1);
    text[line..at].trim().is_empty()
}

/// A tab at the place of an error, or in the indentation of its line.
fn tab_before(text: &str, at: usize) -> Option<usize> {
    if text[at..].starts_with('\t') {
        return Some(at);
    }
    let line = text[..at].rfind('\n').map_or(0, |end| end + 1);
    let indent = text[line..].find(|c| c != ' ' && c != '\t')?;
    text[line..line + indent].find('\t').map(|tab| line + tab)
}

/// The sign at a place, or the point at the end of a line; the end of the file is after its last
/// word, where there is something to show.
fn sign(source: &Arc<Source>, at: usize) -> Span {
    let at = at.min(source.text.trim_end().len());
    let next = source.text[at..].chars().next().filter(|c| !c.is_control());
    Span::new(source, at, at + next.map_or(0, char::len_utf8))
}

/// The byte that a place of the parser means; it counts bytes, cut to whole characters.
pub(super) fn start_of(text: &str, location: &serde_yaml::Location) -> usize {
    text.floor_char_boundary(location.index().min(text.len()))
}

/// Reads `... line 3 column 7`, the way the parser ends its words.
fn line_column(words: &str) -> Option<(usize, usize)> {
    let (_, numbers) = words.rsplit_once("line ")?;
    let (line, column) = numbers.split_once(" column ")?;
    Some((line.parse().ok()?, column.parse().ok()?))
}

/// The byte of a line and column, both from 1, as the parser counts them.
fn byte_at(text: &str, line: usize, column: usize) -> usize {
    let (mut lines, mut columns) = (1, 1);
    let mut signs = text.char_indices().peekable();
    while let Some((byte, sign)) = signs.next() {
        if (lines, columns) == (line, column) {
            return byte;
        }
        let next = signs.peek().map(|(_, next)| *next);
        match sign {
            '\r' if next == Some('\n') => {}
            '\n' | '\r' | '\u{85}' | '\u{2028}' | '\u{2029}' => (lines, columns) = (lines + 1, 1),
            _ => columns += 1,
        }
    }
    text.len()
}
