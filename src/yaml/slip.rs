//! The deserialiser's words for a value that is not of the wanted type, taken apart.
//!
//! An error comes as `steps[0].key: invalid type: ..., expected ...`; the path is found again in
//! the tree of the document, so that keys may hold dots.

use std::sync::Arc;

use serde_yaml::Value;

use super::walk::{Step, key_place, place};
use crate::diag::{Code, Fault, Source, nearest};

/// One thing that the typed read found wrong.
#[derive(Debug)]
pub(super) struct Slip {
    /// Where; for a key that is not known or missing, the mapping that it is in.
    pub(super) path: Vec<Step>,
    /// What.
    pub(super) kind: Kind,
}

#[derive(Debug)]
pub(super) enum Kind {
    /// A key that the type does not know, and those that it knows.
    UnknownKey { key: String, known: Vec<String> },
    /// A key that the type needs.
    MissingKey(String),
    /// A word that is none of those that are offered.
    UnknownWord { word: String, known: Vec<String> },
    /// A value of another type than the wanted one, in the deserialiser's words.
    WrongType { found: String, wanted: String },
    /// Anything else.
    Other(String),
}

impl Slip {
    /// Takes an error of the typed read apart.
    pub(super) fn of(error: &serde_yaml::Error, tree: &Value) -> Self {
        let words = error.to_string();
        let (path, message) = split_path(without_place(&words), tree);
        let kind = Kind::of(message);
        Self { path, kind }
    }

    /// The fault to tell.
    pub(super) fn fault(&self, source: &Arc<Source>) -> Fault {
        let path = &self.path;
        match &self.kind {
            Kind::UnknownKey { key, known } => {
                let mut path = path.clone();
                path.push(Step::Key(key.clone()));
                let near = nearest(key, known.iter().map(String::as_str));
                Fault::error(Code::UNKNOWN_KEY, format!("the key `{key}` is not known"))
                    .at(key_place(source, &path))
                    .label("not known here")
                    .maybe_hint(near.map(|near| format!("write `{near}`")))
                    .hint(format!("known here: {}", listed(known)))
            }
            Kind::MissingKey(key) => {
                Fault::error(Code::MISSING_KEY, format!("the key `{key}` is missing"))
                    .at(place(source, path))
                    .label(format!("these entries lack `{key}`"))
                    .hint(format!("add `{key}: ...`"))
            }
            Kind::UnknownWord { word, known } => {
                let near = nearest(word, known.iter().map(String::as_str));
                Fault::error(
                    Code::WRONG_TYPE,
                    format!("`{word}` is none of the words here"),
                )
                .at(place(source, path))
                .label("not known here")
                .maybe_hint(near.map(|near| format!("write `{near}`")))
                .hint(format!("known here: {}", listed(known)))
            }
            Kind::WrongType { found, wanted } => {
                let (found, wanted) = (found_words(found), wanted_words(wanted));
                Fault::error(Code::WRONG_TYPE, format!("{wanted} is wanted, not {found}"))
                    .at(place(source, path))
                    .label(format!("{wanted} is wanted here"))
                    .hint(format!(
                        "write {wanted} there; the README beside the files tells the form"
                    ))
            }
            Kind::Other(message) => {
                Fault::error(Code::WRONG_TYPE, message.clone()).at(place(source, path))
            }
        }
    }
}

impl Kind {
    fn of(message: &str) -> Self {
        let pair = |start| {
            let rest = message.strip_prefix(start)?;
            rest.rsplit_once(", expected ")
        };
        let named = |start| {
            let rest = message.strip_prefix(start)?;
            rest.split_once("`, ")
        };
        if let Some((key, known)) = named("unknown field `") {
            let (key, known) = (key.to_owned(), backquoted(known));
            return Self::UnknownKey { key, known };
        }
        if let Some((word, known)) = named("unknown variant `") {
            let (word, known) = (word.to_owned(), backquoted(known));
            return Self::UnknownWord { word, known };
        }
        if let Some(key) = message.strip_prefix("missing field `") {
            return Self::MissingKey(key.trim_end_matches('`').to_owned());
        }
        let typed = ["invalid type: ", "invalid value: ", "invalid length "];
        match typed.into_iter().find_map(pair) {
            Some((found, wanted)) => Self::WrongType {
                found: found.to_owned(),
                wanted: wanted.to_owned(),
            },
            None => Self::Other(message.to_owned()),
        }
    }
}

/// Takes ` at line 3 column 7` off the end.
pub(super) fn without_place(words: &str) -> &str {
    let is_place = |tail: &str| {
        let numbers = tail.split_once(" column ");
        numbers.is_some_and(|(line, column)| {
            line.parse::<usize>().is_ok() && column.parse::<usize>().is_ok()
        })
    };
    match words.rsplit_once(" at line ") {
        Some((message, tail)) if is_place(tail) => message,
        _ => words,
    }
}

/// Parts the path from the message: the first text before `: ` that leads somewhere.
fn split_path<'m>(words: &'m str, tree: &Value) -> (Vec<Step>, &'m str) {
    words
        .match_indices(": ")
        .find_map(|(at, colon)| {
            let path = resolve(&words[..at], tree)?;
            Some((path, &words[at + colon.len()..]))
        })
        .unwrap_or((Vec::new(), words))
}

fn resolve(path: &str, node: &Value) -> Option<Vec<Step>> {
    if path.is_empty() {
        return Some(Vec::new());
    }
    let (step, rest, below) = match node {
        Value::Sequence(items) => {
            // The root is shown as a dot, so its items begin `.[0]`.
            let path = path.strip_prefix('.').unwrap_or(path);
            let (number, rest) = path.strip_prefix('[')?.split_once(']')?;
            let item: usize = number.parse().ok()?;
            (Step::Item(item), rest, items.get(item)?)
        }
        Value::Mapping(entries) => {
            let names = entries.iter().filter_map(|(key, value)| {
                let key = key.as_str()?;
                let rest = path.strip_prefix(key)?;
                (rest.is_empty() || rest.starts_with(['.', '['])).then_some((key, rest, value))
            });
            let (key, rest, value) = names.max_by_key(|(key, ..)| key.len())?;
            (Step::from(key), rest, value)
        }
        _ => return None,
    };
    let mut steps = vec![step];
    steps.extend(resolve(rest.strip_prefix('.').unwrap_or(rest), below)?);
    Some(steps)
}

fn backquoted(words: &str) -> Vec<String> {
    let parts = words.split('`').skip(1).step_by(2);
    parts.map(str::to_owned).collect()
}

fn listed(names: &[String]) -> String {
    if names.is_empty() {
        return "no key at all".to_owned();
    }
    let quoted: Vec<_> = names.iter().map(|name| format!("`{name}`")).collect();
    quoted.join(", ")
}

fn found_words(found: &str) -> String {
    match found.split_once(' ').unwrap_or((found, "")) {
        ("string", text) => format!("the text `{}`", text.trim_matches('"')),
        ("integer" | "floating", _) => {
            format!("the number `{}`", found.split('`').nth(1).unwrap_or(found))
        }
        ("boolean", _) => format!("`{}`", found.split('`').nth(1).unwrap_or(found)),
        ("sequence", _) => "a list".to_owned(),
        ("map", _) => "a group of entries".to_owned(),
        ("unit", _) => "nothing".to_owned(),
        _ => found.to_owned(),
    }
}

/// The wanted type as an author calls it.
fn wanted_words(wanted: &str) -> &str {
    match Wanted::of(wanted) {
        Some(Wanted::Text) => "a text",
        Some(Wanted::List) => "a list",
        Some(Wanted::Group) => "a group of entries (`key: value`)",
        Some(Wanted::Whole) => "a whole number",
        Some(Wanted::Number) => "a number",
        Some(Wanted::Truth) => "`true` or `false`",
        None => wanted,
    }
}

/// What a type of the program looks like in a file.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Wanted {
    Text,
    List,
    Group,
    Whole,
    Number,
    Truth,
}

impl Wanted {
    /// The shape that the deserialiser's words mean, when they are its own.
    pub(super) fn of(words: &str) -> Option<Self> {
        let whole = [
            "u8",
            "u16",
            "u32",
            "u64",
            "usize",
            "i8",
            "i16",
            "i32",
            "i64",
            "isize",
            "an integer",
        ];
        Some(match words {
            "a string" => Self::Text,
            "a sequence" => Self::List,
            "a map" | "a mapping of names to values" => Self::Group,
            "a boolean" => Self::Truth,
            "f32" | "f64" | "a float" => Self::Number,
            words if words.starts_with("struct ") => Self::Group,
            words if whole.contains(&words) => Self::Whole,
            _ => return None,
        })
    }
}
