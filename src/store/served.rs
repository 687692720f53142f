//! A file of the built pages as a browser gets it: found below one folder, its type, its bytes.
//!
//! A path is taken apart before a file is looked for: no part may be hidden, go up or hold a sign
//! that a file system reads as a way elsewhere, and nothing on the way may be a link.

use std::fs;
use std::io::{self, Read};
use std::path::Path;

/// What a browser is told a file to be, by its ending.
const TYPES: [(&str, &str); 8] = [
    ("html", "text/html; charset=utf-8"),
    ("css", "text/css; charset=utf-8"),
    ("js", "text/javascript; charset=utf-8"),
    ("json", "application/json"),
    ("svg", "image/svg+xml"),
    ("png", "image/png"),
    ("wasm", "application/wasm"),
    ("txt", "text/plain; charset=utf-8"),
];

/// The content type of a path.
pub(super) fn content_type(path: &str) -> &'static str {
    let ending = path.rsplit_once('.').map_or("", |(_, ending)| ending);
    let found = TYPES.iter().find(|(known, _)| *known == ending);
    found.map_or("application/octet-stream", |(_, name)| name)
}

/// The bytes of a file below the folder.
pub(super) fn file(folder: &Path, path: &str) -> io::Result<Vec<u8>> {
    let missing = || io::Error::from(io::ErrorKind::NotFound);
    let mut whole = folder.to_owned();
    for part in path.split('/') {
        if part.is_empty() || part.starts_with('.') || part.contains(['\\', ':', '\0']) {
            return Err(missing());
        }
        whole.push(part);
        if fs::symlink_metadata(&whole)?.is_symlink() {
            return Err(missing());
        }
    }
    if !fs::metadata(&whole)?.is_file() {
        return Err(missing());
    }
    let mut bytes = Vec::new();
    fs::File::open(&whole)?.read_to_end(&mut bytes)?;
    Ok(bytes)
}

/// A page with one more script in its head, and an empty sign for its tab, which a browser would
/// ask for; the file stays as it is.
pub(super) fn with_script(mut page: Vec<u8>, address: &str) -> Vec<u8> {
    const END: &[u8] = b"</head>";
    let script =
        format!("<link rel=\"icon\" href=\"data:,\">\n<script src=\"{address}\"></script>\n");
    let at = page.windows(END.len()).position(|part| part == END);
    let at = at.unwrap_or(page.len());
    page.splice(at..at, script.into_bytes());
    page
}
