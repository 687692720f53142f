//! The YAML form of a caution file, before anything in it is believed.
//!
//! One form for all: a file may hold rules (`machine`, `cautions`), the matrix (`pairs`,
//! `forbidden`), the limits statement, or several of them. `procedures/cautions/README.md` tells
//! what each entry means; `rule.rs`, `matrix.rs` and `book.rs` turn them into what is used.

use serde::Deserialize;

use crate::yaml::Ordered;

/// A whole file.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct File {
    pub(super) machine: Option<String>,
    #[serde(default)]
    pub(super) cautions: Vec<RawRule>,
    #[serde(default)]
    pub(super) pairs: Vec<RawPair>,
    #[serde(default)]
    pub(super) forbidden: Vec<RawForbidden>,
    pub(super) limits: Option<RawLimits>,
}

/// A rule as written.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct RawRule {
    pub(super) caution: String,
    pub(super) kind: String,
    pub(super) operations: RawOperations,
    pub(super) stands: String,
    pub(super) when: Option<String>,
    pub(super) jurisdiction: Option<Vec<String>>,
    pub(super) signal: String,
    pub(super) hazard: String,
    pub(super) harm: String,
    pub(super) avoid: String,
    pub(super) brief: Option<String>,
    #[serde(default)]
    pub(super) sources: Vec<RawCited>,
}

/// `every`, or a list of operations.
#[derive(Debug, Deserialize)]
#[serde(untagged)]
pub(super) enum RawOperations {
    Word(String),
    List(Vec<String>),
}

/// A source as written.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct RawCited {
    pub(super) cite: String,
    pub(super) fact: String,
    pub(super) status: String,
}

/// A row of the matrix as written.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct RawPair {
    pub(super) machine: String,
    pub(super) operation: String,
    #[serde(default)]
    pub(super) required: Vec<String>,
    #[serde(default, rename = "if")]
    pub(super) when: Ordered<String>,
}

/// A forbidden pair as written.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct RawForbidden {
    pub(super) machine: String,
    pub(super) operation: String,
    pub(super) why: String,
    pub(super) instead: String,
}

/// The limits statement as written.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct RawLimits {
    pub(super) long: String,
    pub(super) short: String,
}
