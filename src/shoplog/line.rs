//! One line of the record: JSON with a version, a number, a time and a check sum.
//!
//! ```text
//! {"v":1,"n":7,"at":"2026-11-25T09:10:00Z","kind":"note",...,"crc":"0a1b2c3d"}
//! ```
//!
//! The check sum is the CRC-32 (IEEE) of the line's bytes from its first `{` up to, not including,
//! the `,"crc":` that ends it, as eight lower-case hexadecimal digits. The bytes are taken as they
//! stand, never written anew, so that a line of a later version can be checked too. CRC-32 notices
//! every change within four neighbouring bytes (property of the code, from memory).
//! The time is an exact instant with the offset of the place where it was written, so that its day
//! is the day that whoever wrote it had (`2026-11-26T00:10:00+13:00` is a line of the 26th, though
//! it is the 25th in UTC); the file is that of the same day's year. A line that ends in `Z` has the
//! day of UTC.
//! `v`, `n`, `at`, `kind` and `crc` stay in all versions. `n` counts up by one in each file, so
//! that a line that was taken out is missed.

use crate::diag::{Code, Fault};

use super::Event;

/// Version of the lines that are written.
pub const VERSION: u32 = 1;

/// Bytes of `,"crc":"0a1b2c3d"}`.
const TAIL: usize = 18;

/// Number and time of a line.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Line {
    number: u64,
    at: String,
}

impl Line {
    /// A line with its number in the file and its time in RFC 3339, seconds and offset included.
    ///
    /// # Errors
    /// `wrong-type` when the time is not written so.
    ///
    /// ```
    /// use faceside::shoplog::Line;
    /// assert!(Line::new(1, "2026-11-25T09:10:00+01:00").is_ok());
    /// assert!(Line::new(1, "25 November").is_err());
    /// ```
    pub fn new(number: u64, at: &str) -> Result<Self, Fault> {
        if is_rfc_3339(at) {
            let at = at.to_owned();
            return Ok(Self { number, at });
        }
        let message = format!("`{at}` is not a time with its offset");
        Err(Fault::error(Code::WRONG_TYPE, message)
            .hint("write a time such as `2026-11-25T09:10:00Z`"))
    }

    /// Its number in the file, from 1.
    pub fn number(&self) -> u64 {
        self.number
    }

    /// Its time as written.
    pub fn at(&self) -> &str {
        &self.at
    }

    /// The line for `event`, with the line feed that ends it.
    ///
    /// Whoever appends it begins with a line feed of his own when the file does not end in one.
    ///
    /// # Errors
    /// `record-line` when the event cannot be said in JSON.
    pub fn write(&self, event: &Event) -> Result<String, Fault> {
        let json = serde_json::to_string(event)
            .map_err(|error| Fault::error(Code::RECORD_LINE, error.to_string()))?;
        let fields = json.trim_start_matches('{').strip_suffix('}');
        let fields = fields.unwrap_or_default();
        let (number, at) = (self.number, &self.at);
        let body = format!(r#"{{"v":{VERSION},"n":{number},"at":"{at}",{fields}"#);
        let tail = tail(&body);
        Ok(format!("{body}{tail}\n"))
    }
}

/// Whether the check sum at the end of a line, taken without its line feed, agrees.
pub(super) fn is_whole(line: &str) -> bool {
    line.len()
        .checked_sub(TAIL)
        .and_then(|at| line.split_at_checked(at))
        .is_some_and(|(body, end)| end == tail(body))
}

fn tail(body: &str) -> String {
    format!(r#","crc":"{:08x}"}}"#, crc32fast::hash(body.as_bytes()))
}

/// RFC 3339 section 5.6 (from memory), with a capital `T` and `Z`; jiff knows the calendar, and
/// reads more forms than the record wants.
fn is_rfc_3339(at: &str) -> bool {
    let bytes = at.as_bytes();
    let byte = |from_start: usize| bytes.get(from_start);
    let offset = at.ends_with('Z')
        || at.len().checked_sub(6).is_some_and(|sign| {
            matches!(byte(sign), Some(b'+' | b'-')) && byte(sign + 3) == Some(&b':')
        });
    offset
        && (20..=35).contains(&at.len())
        && byte(10) == Some(&b'T')
        && byte(16) == Some(&b':')
        && bytes.iter().all(|b| b"0123456789-+:.TZ".contains(b))
        && at.parse::<jiff::Timestamp>().is_ok()
}
