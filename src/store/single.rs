//! One file that was named on the command line.

use std::path::Path;
use std::sync::Arc;

use super::own::read_text;
use crate::diag::{Fault, Source};

/// Reads one YAML file.
///
/// # Errors
/// `file-unreadable`, `file-limit` or `file-not-text`, with the path.
pub fn read_file(path: &Path) -> Result<Arc<Source>, Fault> {
    read_text(path)
}
