//! How far a scalar reaches in the text of its file.
//!
//! Plain and simply quoted scalars are marked so that the marked text is the value; where that
//! cannot be (escapes, folded lines, `|` and `>`), the whole node is marked.

use std::ops::Range;

/// The bytes of `rest` that a scalar with this value covers; `rest` begins with the node.
pub(super) fn extent(rest: &str, value: &str) -> Range<usize> {
    if value.is_empty() {
        return 0..0;
    }
    let start = after_properties(rest);
    let body = &rest[start..];
    let inner = match body.chars().next() {
        Some(quote @ ('"' | '\'')) => quoted(body, quote, value),
        Some('|' | '>') => 0..block(body),
        _ => 0..plain(body, value),
    };
    start + inner.start..start + inner.end
}

/// Where the node itself begins after its anchor or tag.
fn after_properties(rest: &str) -> usize {
    let mut at = 0;
    while rest[at..].starts_with(['&', '!']) {
        let word = rest[at..].find(char::is_whitespace);
        let Some(end) = word.map(|length| at + length) else {
            return at;
        };
        at = rest.len() - rest[end..].trim_start().len();
    }
    at
}

fn quoted(body: &str, quote: char, value: &str) -> Range<usize> {
    let exact = body[1..]
        .strip_prefix(value)
        .is_some_and(|after| after.starts_with(quote));
    if exact {
        return 1..1 + value.len();
    }
    let mut signs = body.char_indices().skip(1).peekable();
    while let Some((at, sign)) = signs.next() {
        if sign == '\\' && quote == '"' {
            signs.next();
        } else if sign == quote {
            if quote == '\'' && signs.peek().is_some_and(|(_, next)| *next == quote) {
                signs.next();
            } else {
                return 0..at + 1;
            }
        }
    }
    0..body.len()
}

/// A blank of the value stands for any run of blanks and line breaks of the file.
fn plain(body: &str, value: &str) -> usize {
    if body.starts_with(value) {
        return value.len();
    }
    let mut rest = body;
    for word in value.split_whitespace() {
        match rest.trim_start().strip_prefix(word) {
            Some(after) => rest = after,
            None => break,
        }
    }
    body.len() - rest.len()
}

/// The header line and all lines that are blank or indented as the first one of the text.
fn block(body: &str) -> usize {
    let mut lines = body.split_inclusive('\n');
    let mut reached = lines.next().map_or(0, str::len);
    let mut end = reached;
    let mut least = None;
    for line in lines {
        reached += line.len();
        if line.trim().is_empty() {
            continue;
        }
        let indent = line.len() - line.trim_start_matches(' ').len();
        if indent == 0 || indent < *least.get_or_insert(indent) {
            break;
        }
        end = reached;
    }
    body[..end].trim_end().len()
}
