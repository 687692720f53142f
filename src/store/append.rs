//! One line more at the end of a file that only grows.
//!
//! The line is written in one piece under a lock and flushed to the disk before this returns. A
//! kill leaves it out or whole; a power cut may leave a torn last line, which the next line does
//! not join: it begins on a line of its own.

use std::fs::{self, File, OpenOptions};
use std::io::{self, Read, Seek, SeekFrom, Write};
use std::path::Path;

use super::save::{parent, sync_folder, unwritable};
use crate::diag::{Code, Fault, Source};
use crate::shoplog::{Event, Line, next_number, read};

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
    let failed = |error| unwritable(path, &error);
    let mut file = locked(path).map_err(failed)?;
    write(&mut file, path, line).map_err(failed)
}

/// Appends an event of the shop record, numbered under the lock: two programs at once never give
/// one number twice. Gives the number once the line is on the disk.
///
/// # Errors
/// `record-line` when the event cannot be said, `file-unreadable` with the path.
pub fn append_event(path: &Path, at: &str, event: &Event) -> Result<u64, Fault> {
    let failed = |error| unwritable(path, &error);
    let mut file = locked(path).map_err(failed)?;
    let mut bytes = Vec::new();
    file.seek(SeekFrom::Start(0)).map_err(failed)?;
    file.read_to_end(&mut bytes).map_err(failed)?;
    let text = Source::new("record", String::from_utf8_lossy(&bytes));
    let number = next_number(&read(&text).0);
    let line = Line::new(number, at)?.write(event)?;
    write(&mut file, path, line.trim_end()).map_err(failed)?;
    Ok(number)
}

fn locked(path: &Path) -> io::Result<File> {
    fs::create_dir_all(parent(path))?;
    let file = OpenOptions::new()
        .read(true)
        .append(true)
        .create(true)
        .open(path)?;
    file.lock()?;
    Ok(file)
}

/// A line that finds no room is taken back, so that a full disk leaves no torn one.
fn write(file: &mut File, path: &Path, line: &str) -> io::Result<()> {
    let before = if is_torn(file)? { "\n" } else { "" };
    let length = file.metadata()?.len();
    let written = file
        .write_all(format!("{before}{line}\n").as_bytes())
        .and_then(|()| file.sync_all());
    if let Err(error) = written {
        file.set_len(length)?;
        return Err(error);
    }
    sync_folder(parent(path))
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
