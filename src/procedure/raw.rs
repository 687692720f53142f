//! A procedure file as it is written: names and texts, nothing looked up yet.
//!
//! The doc comments of the fields are the description of the format.

use std::fmt;

use serde::Deserialize;
use serde::de::{Deserializer, SeqAccess, Visitor};

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
    pub(super) measure: Ordered<RawMeasure>,
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
    pub(super) ready: Ordered<Listed>,
    pub(super) set_ups: Vec<RawSetUp>,
    pub(super) faults: Vec<RawTrouble>,
    pub(super) close: Listed,
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

/// A step.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct RawStep {
    #[serde(rename = "do")]
    pub(super) act: String,
    pub(super) does: Option<String>,
    pub(super) each: Option<String>,
    #[serde(default)]
    pub(super) key: Listed,
    pub(super) why: Option<String>,
    pub(super) check: Option<RawCheck>,
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
