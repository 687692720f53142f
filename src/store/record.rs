//! The files of the shop record, `record/*.jsonl` in the shop folder.
//!
//! They may be of any size, and a line may be torn in the middle of a character: such bytes are
//! read as the replacement character, and the line's check sum then tells.

use std::fs;
use std::io;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use super::append::append_event;
use crate::diag::{Code, Fault, Faults, Source};
use crate::shoplog::{Event, Mark};

/// The folder of the record in a shop folder.
pub const RECORD_FOLDER: &str = "record";

/// The file that an event of this time is written to: `record/2026.jsonl` for a day of 2026, as the
/// clock showed it where the line was written.
pub fn record_file(shop: &Path, at: &str) -> PathBuf {
    let year = at.split('-').next().unwrap_or("undated");
    shop.join(RECORD_FOLDER).join(format!("{year}.jsonl"))
}

/// Writes an event down in the record of this shop; gives its mark once it is on the disk.
///
/// # Errors
/// Those of [`append_event`].
pub fn write_down(shop: &Path, at: &str, event: &Event) -> Result<Mark, Fault> {
    let file = record_file(shop, at);
    let number = append_event(&file, at, event)?;
    Ok(Mark::new(&file.to_string_lossy(), number))
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
        match bytes(&path) {
            Ok(bytes) => {
                let text = String::from_utf8_lossy(&bytes);
                files.push(Source::new(path.display().to_string(), text));
            }
            Err(error) => {
                let message = format!("`{}` cannot be read: {error}", path.display());
                let fault = Fault::error(Code::FILE_UNREADABLE, message);
                faults.push(fault.hint("mend its name or its rights, or take it away"));
            }
        }
    }
    (files, faults)
}

/// Only a plain file is opened: a pipe would keep the program waiting.
fn bytes(path: &Path) -> io::Result<Vec<u8>> {
    if !fs::metadata(path)?.is_file() {
        return Err(io::Error::other("it is not a plain file"));
    }
    #[expect(
        clippy::disallowed_methods,
        reason = "store is the home of file access"
    )]
    fs::read(path)
}
