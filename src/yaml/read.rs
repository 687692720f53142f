//! Text to a typed value, through every check of the gate in order.

use std::sync::Arc;

use serde::de::DeserializeOwned;

use super::clean::unfit;
use super::lint::lint;
use super::mend::type_faults;
use crate::diag::{Faults, Source};

/// Reads one typed value.
///
/// The type should refuse keys that it does not know (`deny_unknown_fields`) and be neither
/// untagged, flattened nor internally tagged: those lose the places.
///
/// # Errors
/// All faults that can be told, each with its place: first those of the text as YAML, then, if
/// there are none, those of its types (at most twenty).
pub fn read<T: DeserializeOwned>(source: &Arc<Source>) -> Result<T, Faults> {
    if let Some(fault) = unfit(source) {
        return Err(fault.into());
    }
    let faults = lint(source);
    if !faults.is_empty() {
        return Err(faults);
    }
    serde_yaml::from_str(&source.text).map_err(|error| type_faults::<T>(source, error))
}
