//! What YAML would let pass and a shop must not: looked for in every node before the typed read.
//!
//! Keys given twice, merge keys, keys that are no text, tags, entries without a value, numbers
//! that are none, and aliases that expand to more nodes than the largest file can hold.

use std::collections::BTreeMap;
use std::fmt;
use std::sync::Arc;

use serde::de::{
    DeserializeSeed, Deserializer, EnumAccess, Error, IgnoredAny, MapAccess, SeqAccess,
    VariantAccess, Visitor,
};

use super::clean::MOST_BYTES;
use super::explain::explain;
use super::walk::{Step, key_place, nth_key_place, place};
use crate::diag::{Code, Fault, Faults, Source, Span};

/// Most faults that are told: the place of each costs a reading of the text.
const MOST_TOLD: usize = 10;

/// Words of the error that ends the reading of too many nodes.
pub(super) const TOO_MANY: &str = "too many nodes";

/// Everything in the text that YAML allows and the gate does not, and its syntax error if any.
pub(super) fn lint(source: &Arc<Source>) -> Faults {
    let mut state = State::default();
    let deserializer = serde_yaml::Deserializer::from_str(&source.text);
    let end = Node(&mut state).deserialize(deserializer);
    let mut faults = Faults::new();
    faults.extend(state.found.iter().map(|found| found.fault(source)));
    if state.more > 0 {
        let message = format!("{} more of the kind in this file", state.more);
        let fault = Fault::error(Code::FILE_LIMIT, message).at(Span::new(source, 0, 0));
        faults.push(fault.hint("mend those that are told, then check again"));
    }
    if let Err(error) = end {
        faults.push(explain(source, &error));
    }
    faults
}

struct Found {
    path: Vec<Step>,
    what: What,
}

enum What {
    /// The key at the end of the path, given once more; `nth` counts from 0.
    Duplicate {
        nth: usize,
    },
    Merge,
    Tag,
    NotFinite,
    NoValue,
}

#[derive(Default)]
struct State {
    path: Vec<Step>,
    found: Vec<Found>,
    /// How many more were found than are told.
    more: usize,
    nodes: usize,
}

impl State {
    fn note(&mut self, what: What) {
        if self.found.len() == MOST_TOLD {
            self.more += 1;
            return;
        }
        let path = self.path.clone();
        self.found.push(Found { path, what });
    }
}

impl Found {
    fn fault(&self, source: &Arc<Source>) -> Fault {
        let path = &self.path;
        let key = match path.last() {
            Some(Step::Key(key)) => format!("`{key}`"),
            Some(Step::Item(item)) => format!("item {} of the list", item + 1),
            None => "the file".to_owned(),
        };
        match self.what {
            What::Duplicate { nth } => {
                Fault::error(Code::DUPLICATE_KEY, format!("{key} is given twice"))
                    .at(nth_key_place(source, path, nth))
                    .label("given again here")
                    .also(key_place(source, path), "first given here")
                    .hint("keep one of them")
            }
            What::Merge => Fault::error(Code::UNKNOWN_KEY, "the merge key `<<` is not read")
                .at(key_place(source, path))
                .label("nothing is merged here")
                .hint("write the entries out"),
            What::Tag => Fault::error(Code::YAML_SYNTAX, "a word with `!` in front is not read")
                .at(place(source, path))
                .label("YAML takes the word with `!` for a tag and drops it")
                .hint("put the text in quotes if the `!` belongs to it, or leave it out"),
            What::NotFinite => Fault::error(Code::WRONG_TYPE, format!("{key} is not a number"))
                .at(place(source, path))
                .label("neither infinite nor undefined numbers are read")
                .hint("write a figure"),
            What::NoValue if path.is_empty() => empty(source),
            What::NoValue => self.no_value(source, &key),
        }
    }

    fn no_value(&self, source: &Arc<Source>, key: &str) -> Fault {
        let span = match self.path.last() {
            Some(Step::Key(_)) => key_place(source, &self.path),
            _ => place(source, &self.path),
        };
        // Between braces a word alone is a key, so `{depth}` and `{size: 11,95 mm}` come here.
        let after = source.text[span.end()..].trim_start();
        let hint = if after.starts_with([',', '}']) {
            "put a text that holds a brace or a comma in quotes as a whole"
        } else {
            "write the value, or take the entry out"
        };
        Fault::error(Code::WRONG_TYPE, format!("{key} has no value"))
            .at(span)
            .label("a value is wanted here")
            .hint(hint)
    }
}

/// The fault of a file with nothing in it but blanks and comments.
pub(super) fn empty(source: &Arc<Source>) -> Fault {
    Fault::error(Code::MISSING_KEY, "the file is empty")
        .at(Span::new(source, 0, 0))
        .label("nothing but blanks and comments")
        .hint("write its entries, or delete it")
}

/// Reads any node, noting what is not allowed.
struct Node<'s>(&'s mut State);

impl<'de> DeserializeSeed<'de> for Node<'_> {
    type Value = ();

    fn deserialize<D: Deserializer<'de>>(self, deserializer: D) -> Result<(), D::Error> {
        deserializer.deserialize_any(self)
    }
}

impl Node<'_> {
    fn count<E: Error>(&mut self) -> Result<(), E> {
        self.0.nodes += 1;
        if self.0.nodes > MOST_BYTES {
            return Err(E::custom(TOO_MANY));
        }
        Ok(())
    }
}

impl<'de> Visitor<'de> for Node<'_> {
    type Value = ();

    fn expecting(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str("any node")
    }

    fn visit_map<A: MapAccess<'de>>(mut self, mut map: A) -> Result<(), A::Error> {
        self.count()?;
        let mut seen = BTreeMap::new();
        while let Some(key) = map.next_key::<String>()? {
            self.0.path.push(Step::Key(key.clone()));
            if key == "<<" {
                self.0.note(What::Merge);
            }
            let times: &mut usize = seen.entry(key).or_insert(0);
            if *times > 0 {
                self.0.note(What::Duplicate { nth: *times });
            }
            *times += 1;
            map.next_value_seed(Node(self.0))?;
            self.0.path.pop();
        }
        Ok(())
    }

    fn visit_seq<A: SeqAccess<'de>>(mut self, mut sequence: A) -> Result<(), A::Error> {
        self.count()?;
        for item in 0.. {
            self.0.path.push(Step::Item(item));
            let more = sequence.next_element_seed(Node(self.0))?;
            self.0.path.pop();
            if more.is_none() {
                break;
            }
        }
        Ok(())
    }

    fn visit_enum<A: EnumAccess<'de>>(self, tagged: A) -> Result<(), A::Error> {
        self.0.note(What::Tag);
        let (_, node) = tagged.variant::<String>()?;
        node.newtype_variant::<IgnoredAny>().map(|_| ())
    }

    fn visit_unit<E: Error>(self) -> Result<(), E> {
        self.0.note(What::NoValue);
        Ok(())
    }

    fn visit_none<E: Error>(self) -> Result<(), E> {
        self.visit_unit()
    }

    fn visit_f64<E: Error>(mut self, number: f64) -> Result<(), E> {
        if !number.is_finite() {
            self.0.note(What::NotFinite);
        }
        self.count()
    }

    fn visit_str<E: Error>(mut self, _: &str) -> Result<(), E> {
        self.count()
    }

    fn visit_bool<E: Error>(mut self, _: bool) -> Result<(), E> {
        self.count()
    }

    fn visit_i64<E: Error>(mut self, _: i64) -> Result<(), E> {
        self.count()
    }

    fn visit_u64<E: Error>(mut self, _: u64) -> Result<(), E> {
        self.count()
    }

    fn visit_i128<E: Error>(mut self, _: i128) -> Result<(), E> {
        self.count()
    }

    fn visit_u128<E: Error>(mut self, _: u128) -> Result<(), E> {
        self.count()
    }
}
