//! Bytes to text, text to a typed value.

use std::sync::Arc;

use serde::de::DeserializeOwned;

use crate::diag::{Code, Fault, Faults, Source, Span};

/// Largest file that is read, in bytes: the cost of aliases grows with its square.
pub const MOST_BYTES: usize = 128 * 1024;

/// Checks size and encoding of a file and strips its byte-order mark.
///
/// # Errors
/// `file-limit` or `file-not-text`, with the place of the first bad byte.
pub fn source(name: &str, bytes: &[u8]) -> Result<Arc<Source>, Fault> {
    match std::str::from_utf8(bytes) {
        Ok(text) => Ok(Source::new(
            name,
            text.strip_prefix('\u{feff}').unwrap_or(text),
        )),
        Err(error) => Err(Fault::error(Code::FILE_NOT_TEXT, error.to_string())),
    }
}

/// Reads one typed value.
///
/// # Errors
/// All faults that can be told, each with its place.
pub fn read<T: DeserializeOwned>(source: &Arc<Source>) -> Result<T, Faults> {
    serde_yaml::from_str(&source.text).map_err(|error| {
        let at = error.location().map_or(0, |location| location.index());
        Fault::error(Code::YAML_SYNTAX, error.to_string())
            .at(Span::new(source, at, at))
            .into()
    })
}
