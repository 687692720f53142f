//! The files of the shop record, `record/*.jsonl` in the shop folder.
//!
//! They may be of any size, and a line may be torn in the middle of a character: such bytes are
//! read as the replacement character, and the line's check sum then tells.

use std::fs;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use crate::diag::{Code, Fault, Faults, Source};

/// The folder of the record in a shop folder.
pub const RECORD_FOLDER: &str = "record";

/// The file that events of a year are written to: `record/2026.jsonl` for a day of 2026.
pub fn record_file(shop: &Path, day: &str) -> PathBuf {
    let year = day.split('-').next().unwrap_or("undated");
    shop.join(RECORD_FOLDER).join(format!("{year}.jsonl"))
}

/// Reads all files of the record, sorted by name; one that cannot be read is a fault.
pub(super) fn read_record(shop: &Path) -> (Vec<Arc<Source>>, Faults) {
    let mut faults = Faults::new();
    let Ok(entries) = fs::read_dir(shop.join(RECORD_FOLDER)) else {
        return (Vec::new(), faults);
    };
    let mut paths: Vec<PathBuf> = entries.flatten().map(|entry| entry.path()).collect();
    paths.retain(|path| path.extension().is_some_and(|ending| ending == "jsonl"));
    paths.sort();
    let mut files = Vec::new();
    for path in paths {
        #[expect(
            clippy::disallowed_methods,
            reason = "store is the home of file access"
        )]
        let bytes = fs::read(&path);
        match bytes {
            Ok(bytes) => {
                let text = String::from_utf8_lossy(&bytes);
                files.push(Source::new(path.display().to_string(), text));
            }
            Err(error) => faults.push(Fault::error(
                Code::FILE_UNREADABLE,
                format!("`{}` cannot be read: {error}", path.display()),
            )),
        }
    }
    (files, faults)
}
