//! A CSV on standard input as cells, each with its place.
//!
//! Commas part the cells; a cell with a comma, a quote or a line break stands in double quotes,
//! a quote inside it doubled (RFC 4180). Lines end with LF, CRLF or CR; a byte-order mark is
//! dropped; a line of empty cells is no row, as spreadsheets leave them at the end.
//! Text that is not UTF-8, over 10 MB or with a quote that is never closed is not read at all,
//! for nothing sure can be said of its rows.

use std::io::Read;
use std::sync::Arc;

use csv_core::{ReadFieldResult, Reader};

use crate::diag::{Code, Fault, Source, Span};

/// Largest table that is read, in bytes.
const MOST_BYTES: usize = 10_000_000;

const NAME: &str = "standard input";

/// A cell: its text without quotes and blanks around it, and where it stands.
#[derive(Debug)]
pub(super) struct Cell {
    pub(super) text: String,
    pub(super) place: Span,
    /// Its quotes are not as they must be.
    pub(super) is_torn: bool,
}

/// A line of cells, the first of them from 1.
#[derive(Debug)]
pub(super) struct Line {
    pub(super) number: usize,
    pub(super) cells: Vec<Cell>,
    /// The whole of it.
    pub(super) place: Span,
}

/// Reads the head line and all that follow.
///
/// # Errors
/// `file-limit`, `file-not-text` or `value-missing`: too large, no text, nothing in it; also a
/// quote that is never closed.
pub(super) fn read(input: impl Read) -> Result<(Line, Vec<Line>), Fault> {
    let mut bytes = Vec::new();
    let most = MOST_BYTES as u64 + 1;
    input.take(most).read_to_end(&mut bytes).map_err(|error| {
        Fault::error(
            Code::FILE_UNREADABLE,
            format!("{NAME} cannot be read: {error}"),
        )
    })?;
    if bytes.len() > MOST_BYTES {
        let message = format!(
            "{NAME} holds more than {} MB, the most that is read",
            MOST_BYTES / 1_000_000
        );
        return Err(Fault::error(Code::FILE_LIMIT, message).hint("split the table"));
    }
    let bytes = bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(&bytes);
    let text = std::str::from_utf8(bytes).map_err(|error| not_text(bytes, error.valid_up_to()))?;
    let source = Source::new(NAME, with_line_feeds(text));
    if let Some(at) = source.text.find('\0') {
        return Err(not_text(source.text.as_bytes(), at));
    }
    let mut lines = lines(&source)?.into_iter();
    let nothing = || {
        Fault::error(Code::VALUE_MISSING, format!("{NAME} holds no table"))
            .hint("its first line names the inputs; `faceside figure --help` shows one")
    };
    Ok((lines.next().ok_or_else(nothing)?, lines.collect()))
}

/// A line end of CR alone as LF, of the same length, since places are counted by LF.
fn with_line_feeds(text: &str) -> String {
    let mut next = text.chars().skip(1);
    let line_feed = |c| match (c, next.next()) {
        ('\r', after) if after != Some('\n') => '\n',
        _ => c,
    };
    text.chars().map(line_feed).collect()
}

fn not_text(bytes: &[u8], at: usize) -> Fault {
    let source = Source::new(NAME, String::from_utf8_lossy(bytes));
    Fault::error(Code::FILE_NOT_TEXT, "the table is not text in UTF-8")
        .at(Span::new(&source, at, at + 1))
        .hint("save it as CSV in UTF-8")
}

/// The lines of which a cell is not empty.
fn lines(source: &Arc<Source>) -> Result<Vec<Line>, Fault> {
    let mut reader = Reader::new();
    let mut scratch = vec![0; source.text.len()];
    let (mut at, mut counted, mut number) = (0, 0, 1);
    let (mut lines, mut cells) = (Vec::new(), Vec::new());
    loop {
        let left = &source.text.as_bytes()[at..];
        let (mut result, taken, _) = reader.read_field(left, &mut scratch);
        if result == ReadFieldResult::InputEmpty {
            // An empty read tells the reader that there is no more, and ends the last cell.
            (result, _, _) = reader.read_field(&[], &mut scratch);
        }
        let ReadFieldResult::Field { record_end } = result else {
            break;
        };
        cells.push(cell(source, at, at + taken, cells.is_empty())?);
        at += taken;
        if record_end {
            let place = whole(source, &cells);
            number += newlines(&source.text[counted..place.start()]);
            counted = place.start();
            let cells = std::mem::take(&mut cells);
            if cells.iter().any(|cell| !cell.text.is_empty()) {
                lines.push(Line {
                    number,
                    cells,
                    place,
                });
            }
        }
    }
    Ok(lines)
}

fn newlines(text: &str) -> usize {
    text.bytes().filter(|byte| *byte == b'\n').count()
}

fn whole(source: &Arc<Source>, cells: &[Cell]) -> Span {
    let start = cells.first().map_or(0, |cell| cell.place.start());
    let end = cells.last().map_or(0, |cell| cell.place.end());
    Span::new(source, start, end)
}

/// The cell in `start..end`, which may hold the ends of lines before it and the comma or the end
/// of the line after it.
fn cell(source: &Arc<Source>, start: usize, end: usize, is_first: bool) -> Result<Cell, Fault> {
    let mut raw = &source.text[start..end];
    if is_first {
        raw = raw.trim_start_matches(['\r', '\n']);
    }
    let start = end - raw.len();
    let is_last = end == source.text.len();
    raw = raw.strip_suffix([',', '\r', '\n']).unwrap_or(raw);
    let place = Span::new(source, start, start + raw.len());
    let text = match raw.strip_prefix('"') {
        None => Some(raw.to_owned()),
        Some(quoted) => quoted.strip_suffix('"').and_then(unquoted),
    };
    if text.is_none() && is_last && raw.matches('"').count() % 2 == 1 {
        let message = "a quote is opened here and never closed";
        return Err(Fault::error(Code::TABLE_SYNTAX, message)
            .at(place)
            .hint("close it; a quote inside quotes is written twice"));
    }
    Ok(Cell {
        is_torn: text.is_none(),
        text: text.as_deref().unwrap_or(raw).trim().to_owned(),
        place,
    })
}

/// What stands between two quotes; none where a single quote stands inside.
fn unquoted(inside: &str) -> Option<String> {
    let parts: Vec<_> = inside.split("\"\"").collect();
    let is_whole = parts.iter().all(|part| !part.contains('"'));
    is_whole.then(|| parts.join("\""))
}
