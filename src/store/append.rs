//! One line more at the end of a file that only grows.
//!
//! The line is written in one piece under a lock and flushed to the disk before this returns. A
//! kill leaves it out or whole; a power cut may leave a torn last line, which the next line does
//! not join: it begins on a line of its own.

use std::fs::{self, File, OpenOptions};
use std::io::{self, Read, Seek, SeekFrom, Write};
use std::path::Path;

use super::save::{parent, sync_folder, unwritable};
use crate::diag::{Code, Fault};

/// Appends a line, without its line break; the file and its folder are made when not there.
///
/// Two programs at once wait for each other.
///
/// # Errors
/// `record-line` when the line holds a line break, `file-unreadable` with the path otherwise.
pub fn append_line(path: &Path, line: &str) -> Result<(), Fault> {
    if line.contains(['\n', '\r']) {
        let message = "a line of the record cannot hold a line break";
        return Err(Fault::error(Code::RECORD_LINE, message));
    }
    append(path, line).map_err(|error| unwritable(path, &error))
}

fn append(path: &Path, line: &str) -> io::Result<()> {
    let folder = parent(path);
    fs::create_dir_all(folder)?;
    let mut file = OpenOptions::new()
        .read(true)
        .append(true)
        .create(true)
        .open(path)?;
    file.lock()?;
    let before = if is_torn(&mut file)? { "\n" } else { "" };
    file.write_all(format!("{before}{line}\n").as_bytes())?;
    file.sync_all()?;
    sync_folder(folder)
}

/// Whether the file ends within a line.
fn is_torn(file: &mut File) -> io::Result<bool> {
    if file.metadata()?.len() == 0 {
        return Ok(false);
    }
    file.seek(SeekFrom::End(-1))?;
    let mut last = [0];
    file.read_exact(&mut last)?;
    Ok(last != *b"\n")
}
