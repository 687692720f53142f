//! Where a node stands: the text is read again, and reading fails on purpose at the node.
//!
//! The deserialiser puts the place of the current node on every error that is raised inside it,
//! so the place of the deliberate failure is the place of the node. An alias has the place of the
//! text that its anchor stands at.

use std::fmt;
use std::sync::Arc;

use serde::de::{
    Deserialize, DeserializeSeed, Deserializer, Error, IgnoredAny, MapAccess, SeqAccess, Visitor,
};

use super::explain::start_of;
use super::extent::extent;
use crate::diag::{Source, Span};

/// One step down a document.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Step {
    /// Into the value of a key.
    Key(String),
    /// Into an item of a sequence, from 0.
    Item(usize),
}

impl From<&str> for Step {
    fn from(key: &str) -> Self {
        Self::Key(key.to_owned())
    }
}

impl From<usize> for Step {
    fn from(item: usize) -> Self {
        Self::Item(item)
    }
}

/// The place of the value at the end of `path`; of its nearest parent when there is none. The
/// text is read for it only when the place is looked at.
///
/// A plain or quoted scalar is marked from its first to its last character (without its quotes,
/// unless it holds escapes); a block scalar as a whole; any other node at its start.
pub fn place(source: &Arc<Source>, path: &[Step]) -> Span {
    let (text, path) = (Arc::clone(source), path.to_vec());
    Span::later(source, move || value_range(&text, &path))
}

/// The place of the key at the end of `path` itself; as [`place`] when there is no such key.
pub fn key_place(source: &Arc<Source>, path: &[Step]) -> Span {
    nth_key_place(source, path, 0)
}

/// The place of the key at the end of `path` where it is written for the `nth` time, from 0.
pub(super) fn nth_key_place(source: &Arc<Source>, path: &[Step], nth: usize) -> Span {
    let (text, path) = (Arc::clone(source), path.to_vec());
    Span::later(source, move || {
        find(&text, &path, Some(nth)).unwrap_or_else(|| value_range(&text, &path))
    })
}

fn value_range(source: &Source, path: &[Step]) -> (usize, usize) {
    (0..=path.len())
        .rev()
        .find_map(|length| find(source, &path[..length], None))
        .unwrap_or((0, 0))
}

fn find(source: &Source, path: &[Step], key: Option<usize>) -> Option<(usize, usize)> {
    let mut hit = Hit::default();
    let walk = Walk {
        path,
        key,
        hit: &mut hit,
    };
    let error = walk
        .deserialize(serde_yaml::Deserializer::from_str(&source.text))
        .err()?;
    if !hit.reached {
        return None;
    }
    let start = start_of(&source.text, &error.location()?);
    let inner = hit
        .scalar
        .map_or(0..0, |value| extent(&source.text[start..], &value));
    Some((start + inner.start, start + inner.end))
}

/// Whether the walk got there, and the text it found if that is a scalar.
#[derive(Default)]
struct Hit {
    reached: bool,
    scalar: Option<String>,
}

struct Walk<'w> {
    path: &'w [Step],
    /// Which of the equal keys is looked for, when it is a key.
    key: Option<usize>,
    hit: &'w mut Hit,
}

impl<'de> DeserializeSeed<'de> for Walk<'_> {
    type Value = ();

    fn deserialize<D: Deserializer<'de>>(self, deserializer: D) -> Result<(), D::Error> {
        match self.path.first() {
            Some(Step::Key(_)) => deserializer.deserialize_map(self),
            Some(Step::Item(_)) => deserializer.deserialize_seq(self),
            None => {
                self.hit.reached = true;
                deserializer.deserialize_str(Stop(self.hit))
            }
        }
    }
}

impl<'de> Visitor<'de> for Walk<'_> {
    type Value = ();

    fn expecting(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str("the next step of the path")
    }

    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<(), A::Error> {
        let Some((Step::Key(wanted), rest)) = self.path.split_first() else {
            return Ok(());
        };
        let mut key = if rest.is_empty() { self.key } else { None };
        while let Some(name) = map.next_key_seed(Key {
            wanted,
            stop: key == Some(0),
            hit: self.hit,
        })? {
            if name != *wanted {
                map.next_value::<IgnoredAny>()?;
            } else if let Some(left) = &mut key {
                *left -= 1;
                map.next_value::<IgnoredAny>()?;
            } else {
                map.next_value_seed(Walk {
                    path: rest,
                    key: self.key,
                    hit: self.hit,
                })?;
            }
        }
        Ok(())
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut sequence: A) -> Result<(), A::Error> {
        let Some((Step::Item(wanted), rest)) = self.path.split_first() else {
            return Ok(());
        };
        for _ in 0..*wanted {
            if sequence.next_element::<IgnoredAny>()?.is_none() {
                return Ok(());
            }
        }
        sequence.next_element_seed(Walk {
            path: rest,
            key: self.key,
            hit: self.hit,
        })?;
        while sequence.next_element::<IgnoredAny>()?.is_some() {}
        Ok(())
    }
}

/// Reads a key, and fails at the wanted one if that is the end of the walk.
struct Key<'w> {
    wanted: &'w str,
    stop: bool,
    hit: &'w mut Hit,
}

impl<'de> DeserializeSeed<'de> for Key<'_> {
    type Value = String;

    fn deserialize<D: Deserializer<'de>>(self, deserializer: D) -> Result<String, D::Error> {
        if self.stop {
            deserializer.deserialize_str(self)
        } else {
            String::deserialize(deserializer)
        }
    }
}

impl Visitor<'_> for Key<'_> {
    type Value = String;

    fn expecting(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str("a key")
    }

    fn visit_str<E: Error>(self, text: &str) -> Result<String, E> {
        if text != self.wanted {
            return Ok(text.to_owned());
        }
        self.hit.reached = true;
        Stop(self.hit).visit_str(text).map(|()| String::new())
    }
}

/// Notes the text of a scalar and fails.
struct Stop<'w>(&'w mut Hit);

impl Visitor<'_> for Stop<'_> {
    type Value = ();

    fn expecting(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str("nothing more")
    }

    fn visit_str<E: Error>(self, text: &str) -> Result<(), E> {
        self.0.scalar = Some(text.to_owned());
        Err(E::custom("the end of the walk"))
    }
}
