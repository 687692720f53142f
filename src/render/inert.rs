//! Makes text harmless in each medium.
//!
//! Controls and marks that turn the direction of writing could hide a number or drive a terminal:
//! they become U+FFFD in every medium, so that a reader sees that something was there. What HTML,
//! XML and CSS would take for markup is escaped on top, by the writer of that medium.

use std::io::{self, Write};

/// Whether a character acts on the text around it instead of being read.
fn acts(one: char) -> bool {
    let turns = matches!(one, '\u{61c}' | '\u{200e}' | '\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}');
    turns || matches!(one, '\u{2028}' | '\u{2029}') || (one.is_control() && one != '\n')
}

/// The text with every acting character made visible.
pub(super) fn plain(text: &str) -> String {
    text.chars()
        .map(|one| match one {
            '\t' => ' ',
            one if acts(one) => '\u{fffd}',
            one => one,
        })
        .collect()
}

/// A text for a terminal, every acting character in it made visible; the line ends of a CSV stay.
#[cfg(feature = "program")]
pub fn terminal_text(text: &str) -> String {
    let lines: Vec<String> = text.split("\r\n").map(plain).collect();
    lines.join("\r\n")
}

/// JSON over several lines for a terminal.
#[cfg(feature = "program")]
pub fn json_text(json: &serde_json::Value) -> String {
    numbered(&format!("{json:#}"), acts)
}

/// JSON within a page or a script: no markup can begin in it.
pub(super) fn json_in_page(json: &str) -> String {
    numbered(json, |one| one == '<' || acts(one))
}

/// JSON with some characters, which can stand within its texts only, as their numbers: the texts
/// are read back whole.
fn numbered(json: &str, which: impl Fn(char) -> bool) -> String {
    let mut out = String::with_capacity(json.len());
    for one in json.chars() {
        if which(one) {
            out.push_str(&format!("\\u{:04x}", u32::from(one)));
        } else {
            out.push(one);
        }
    }
    out
}

/// The text as HTML or XML, in an element or in an attribute.
pub(super) fn markup(text: &str) -> String {
    let mut out = String::with_capacity(text.len() + 8);
    for one in plain(text).chars() {
        match one {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\'' => out.push_str("&#39;"),
            one => out.push(one),
        }
    }
    out
}

/// The same, as the template engine calls it.
pub(super) fn escape(text: &str, out: &mut dyn Write) -> io::Result<()> {
    out.write_all(markup(text).as_bytes())
}

/// The text as a CSS string, with its quotes; safe inside a `style` element.
pub(super) fn css_string(text: &str) -> String {
    let mut out = String::from("\"");
    for one in plain(text).chars() {
        if one.is_alphanumeric() || matches!(one, ' ' | '.' | ',' | ':' | '-' | '·') {
            out.push(one);
        } else {
            out.push_str(&format!("\\{:x} ", u32::from(one)));
        }
    }
    out.push('"');
    out
}

/// A name for a file: small letters, digits and hyphens, at most 48 of them.
pub(super) fn slug(text: &str) -> String {
    let mut out = String::new();
    for one in text.chars().flat_map(char::to_lowercase) {
        if one.is_ascii_alphanumeric() {
            out.push(one);
        } else if !out.is_empty() && !out.ends_with('-') {
            out.push('-');
        }
    }
    out.truncate(48);
    let out = out.trim_end_matches('-');
    if out.is_empty() { "sheet" } else { out }.to_owned()
}
