//! Plain lines of standard input, so that every question can be answered from a pipe.

use std::io::{self, BufRead};

/// A line of standard input; none at its end, or when it cannot be read.
pub(super) fn line() -> Option<String> {
    let mut bytes = Vec::new();
    match io::stdin().lock().read_until(b'\n', &mut bytes) {
        Ok(read) if read > 0 => Some(String::from_utf8_lossy(&bytes).trim_end().to_owned()),
        _ => None,
    }
}
