//! A procedure file as it is written: names and texts, nothing looked up yet.
//!
//! The doc comments of the fields are the description of the format.

use std::fmt;
use std::marker::PhantomData;

use serde::Deserialize;
use serde::de::value::MapAccessDeserializer;
use serde::de::{Deserializer, MapAccess, SeqAccess, Visitor};

use crate::yaml::Ordered;

/// A text, a list of texts, or the word `none` for a list that is empty on purpose.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub(super) struct Listed {
    pub(super) texts: Vec<String>,
    /// Whether it was written as a list, so that an item has a place of its own.
    pub(super) is_list: bool,
}

impl<'de> Deserialize<'de> for Listed {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Either;

        impl<'de> Visitor<'de> for Either {
            type Value = Listed;

            fn expecting(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
                out.write_str("a text, a list of texts, or the word none")
            }

            fn visit_str<E: serde::de::Error>(self, text: &str) -> Result<Listed, E> {
                let texts = if text == "none" {
                    Vec::new()
                } else {
                    vec![text.to_owned()]
                };
                Ok(Listed {
                    texts,
                    is_list: false,
                })
            }

            fn visit_seq<A: SeqAccess<'de>>(self, mut items: A) -> Result<Listed, A::Error> {
                let mut texts = Vec::new();
                while let Some(text) = items.next_element()? {
                    texts.push(text);
                }
                Ok(Listed {
                    texts,
                    is_list: true,
                })
            }
        }

        deserializer.deserialize_any(Either)
    }
}

/// A mapping, or the word `none` for one that is empty on purpose.
#[derive(Debug)]
pub(super) struct OrNone<T>(pub(super) T);

impl<'de, T: Deserialize<'de> + Default> Deserialize<'de> for OrNone<T> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Either<T>(PhantomData<T>);

        impl<'de, T: Deserialize<'de> + Default> Visitor<'de> for Either<T> {
            type Value = OrNone<T>;

            fn expecting(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
                out.write_str("a mapping of names, or the word none")
            }

            fn visit_str<E: serde::de::Error>(self, text: &str) -> Result<OrNone<T>, E> {
                if text == "none" {
                    return Ok(OrNone(T::default()));
                }
                Err(E::invalid_value(serde::de::Unexpected::Str(text), &self))
            }

            fn visit_map<A: MapAccess<'de>>(self, entries: A) -> Result<OrNone<T>, A::Error> {
                T::deserialize(MapAccessDeserializer::new(entries)).map(OrNone)
            }
        }

        deserializer.deserialize_any(Either(PhantomData))
    }
}

/// The whole file.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct RawProcedure {
    pub(super) procedure: String,
    pub(super) title: String,
    #[serde(default)]
    pub(super) also_called: Vec<String>,
    pub(super) family: String,
    pub(super) purpose: String,
    pub(super) use_when: String,
    #[serde(default)]
    pub(super) not_for: Vec<String>,
    #[serde(default)]
    pub(super) after: Vec<String>,
    pub(super) revision: u32,
    pub(super) reviewed: String,
    pub(super) done_when: String,
    pub(super) sources: Vec<String>,
    pub(super) measure: OrNone<Ordered<RawMeasure>>,
    #[serde(default)]
    pub(super) choose: Ordered<RawChoose>,
    #[serde(default)]
    pub(super) work_out: Ordered<String>,
    #[serde(default)]
    pub(super) refuse: Vec<RawRefuse>,
    #[serde(default)]
    pub(super) warn: Vec<RawWarn>,
    #[serde(default)]
    pub(super) sizes: Vec<RawSize>,
    pub(super) drawing: Option<Ordered<String>>,
    pub(super) ready: RawReady,
    pub(super) set_ups: Vec<RawSetUp>,
    pub(super) faults: Vec<RawTrouble>,
    pub(super) close: RawClose,
    #[serde(default)]
    pub(super) accept: Vec<RawAccept>,
}

/// A warning that the procedure accepts.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct RawAccept {
    pub(super) code: String,
    pub(super) because: String,
}

/// What must be ready before the work begins; each a list, or `none`.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct RawReady {
    pub(super) people: Listed,
    pub(super) tools: Listed,
    pub(super) guards: Listed,
    pub(super) aids: Listed,
    pub(super) supplies: Listed,
    pub(super) pieces: Listed,
}

/// What must be true when the work is left; each a list, or `none`.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct RawClose {
    pub(super) machine: Listed,
    pub(super) cutters: Listed,
    pub(super) guards: Listed,
    pub(super) place: Listed,
}

/// An entry under `measure`.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct RawMeasure {
    pub(super) ask: String,
    pub(super) kind: String,
    pub(super) from: Option<String>,
    pub(super) to: Option<String>,
    pub(super) example: Option<String>,
    pub(super) later: Option<String>,
}

/// An entry under `choose`.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct RawChoose {
    pub(super) ask: String,
    pub(super) kind: String,
    pub(super) shape: Option<String>,
    pub(super) fits: Option<String>,
    #[serde(default)]
    pub(super) options: Vec<String>,
    pub(super) from: Option<String>,
    pub(super) to: Option<String>,
    pub(super) usual: Option<String>,
    pub(super) example: Option<String>,
}

/// An entry under `refuse`.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct RawRefuse {
    pub(super) when: String,
    pub(super) say: String,
    pub(super) instead: String,
}

/// An entry under `warn`.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct RawWarn {
    pub(super) when: String,
    pub(super) say: String,
}

/// An entry under `sizes`.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct RawSize {
    pub(super) what: String,
    pub(super) is: String,
}

/// A set-up.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct RawSetUp {
    pub(super) set_up: String,
    pub(super) machine: Option<String>,
    pub(super) operation: String,
    pub(super) cutter: Option<String>,
    pub(super) when: Option<String>,
    pub(super) piece: Option<RawPiece>,
    pub(super) leaves_strip: Option<String>,
    pub(super) holder: Option<String>,
    #[serde(default)]
    pub(super) settings: Ordered<RawSetting>,
    pub(super) table: Option<RawTable>,
    pub(super) steps: Vec<RawStep>,
}

/// The size of the piece that passes the machine, as formulas.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct RawPiece {
    pub(super) length: String,
    pub(super) width: String,
    pub(super) thickness: String,
}

/// A setting of the machine.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct RawSetting {
    pub(super) label: String,
    pub(super) is: String,
}

/// A table of settings for other readings of a value measured during the job.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct RawTable {
    pub(super) vary: String,
    pub(super) by: String,
    pub(super) rows: u32,
}

/// A step, or with `use` alone the steps of a routine.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct RawStep {
    #[serde(rename = "use")]
    pub(super) routine: Option<String>,
    pub(super) when: Option<String>,
    #[serde(rename = "if")]
    pub(super) only_if: Option<String>,
    #[serde(rename = "do")]
    pub(super) act: Option<String>,
    pub(super) otherwise: Option<String>,
    #[serde(default)]
    pub(super) one_of: Vec<String>,
    pub(super) until: Option<String>,
    pub(super) timed: Option<String>,
    pub(super) hold: Option<String>,
    pub(super) who: Option<String>,
    pub(super) does: Option<String>,
    pub(super) each: Option<String>,
    #[serde(default)]
    pub(super) key: Listed,
    pub(super) why: Option<String>,
    pub(super) check: Option<RawCheck>,
}

impl RawStep {
    /// Whether nothing but `use` was written.
    pub(super) fn is_use_alone(&self) -> bool {
        let texts = [&self.when, &self.only_if, &self.act, &self.otherwise];
        let more = [&self.until, &self.timed, &self.hold, &self.who];
        let last = [&self.does, &self.each, &self.why];
        let none = |texts: &[&Option<String>]| texts.iter().all(|text| text.is_none());
        let lists = self.one_of.is_empty() && self.key.texts.is_empty();
        none(&texts) && none(&more) && none(&last) && lists && self.check.is_none()
    }
}

/// A run of steps that several procedures share.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct RawRoutine {
    pub(super) routine: String,
    pub(super) what: String,
    pub(super) steps: Vec<RawStep>,
}

/// A check after a step.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct RawCheck {
    pub(super) measure: String,
    pub(super) is: String,
    pub(super) low: String,
    pub(super) high: String,
    pub(super) tool: String,
    pub(super) if_low: String,
    pub(super) if_high: String,
}

/// A fault of the work.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct RawTrouble {
    pub(super) see: String,
    pub(super) cause: String,
    pub(super) cure: String,
}
