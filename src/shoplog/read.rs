//! A file of the record, read back: every line that is whole, and a warning for each that is not.
//!
//! No line is ever a reason to refuse the rest. Set aside: a last line that was torn while it was
//! written, a line whose check sum does not agree. Kept as text: a line of a later version or of a
//! kind not known here. Told: a jump in the numbers, where a line may have been taken out. A file
//! that is not UTF-8 any more may be handed in with its bad bytes replaced: their line is then set
//! aside. A carriage return before the line feed is passed over, since tools for version control
//! add it.

use std::sync::Arc;

use serde::Deserialize;

use super::line::is_whole;
use super::{Event, Line, VERSION};
use crate::diag::{Code, Fault, Faults, Source, Span};

/// One line of the record.
#[derive(Debug, Clone, PartialEq)]
pub struct Entry {
    /// Number and time.
    pub line: Line,
    /// What it says.
    pub what: What,
    /// Where it stands.
    pub place: Span,
}

/// What a line says.
#[derive(Debug, Clone, PartialEq)]
pub enum What {
    /// An event of a kind known here.
    Known(Event),
    /// A whole line of a later version or another kind.
    Unknown {
        /// Its version.
        version: u32,
        /// Its kind.
        kind: String,
        /// The line as it stands.
        text: String,
    },
}

/// What every version of a line has.
#[derive(Deserialize)]
struct Head {
    v: u32,
    n: u64,
    at: String,
    kind: String,
}

/// Reads every line; the faults are all warnings.
pub fn read(text: &Arc<Source>) -> (Vec<Entry>, Faults) {
    let (mut entries, mut faults) = (Vec::<Entry>::new(), Faults::new());
    let mut expected = Some(1);
    for (place, ended) in lines(text) {
        if !is_whole(place.text()) {
            faults.push(set_aside(place, ended));
            expected = None;
            continue;
        }
        let Some(entry) = faults.keep(entry(&place)) else {
            expected = None;
            continue;
        };
        if let What::Unknown { version, kind, .. } = &entry.what {
            faults.push(unknown(*version, kind).at(place.clone()));
        }
        if let Some(wanted) = expected.filter(|wanted| *wanted != entry.line.number()) {
            faults.push(jump(wanted, entry.line.number()).at(place));
        }
        expected = entry.line.number().checked_add(1);
        entries.push(entry);
    }
    (entries, faults)
}

/// The number for the next line of a file.
pub fn next_number(entries: &[Entry]) -> u64 {
    let numbers = entries.iter().map(|entry| entry.line.number());
    numbers.max().unwrap_or(0).saturating_add(1)
}

/// Places of all lines that are not blank, and whether a line feed ends each.
fn lines(text: &Arc<Source>) -> impl Iterator<Item = (Span, bool)> {
    let mut start = 0;
    text.text.split_inclusive('\n').filter_map(move |line| {
        let bare = line.strip_suffix('\n').unwrap_or(line);
        let bare = bare.strip_suffix('\r').unwrap_or(bare);
        let place = Span::new(text, start, start + bare.len());
        start += line.len();
        (!bare.trim().is_empty()).then_some((place, line.ends_with('\n')))
    })
}

fn entry(place: &Span) -> Result<Entry, Fault> {
    let text = place.text();
    let head: Head = serde_json::from_str(text).map_err(|error| {
        let message = format!("this line has no version, number, time or kind: {error}");
        Fault::warning(Code::RECORD_LINE, message).at(place.clone())
    })?;
    let line = Line::new(head.n, &head.at)
        .map_err(|fault| Fault::warning(Code::RECORD_LINE, fault.message).at(place.clone()))?;
    let known = (head.v == VERSION).then(|| serde_json::from_str::<Event>(text).ok());
    let what = match known.flatten() {
        Some(event) => What::Known(event),
        None => What::Unknown {
            version: head.v,
            kind: head.kind,
            text: text.to_owned(),
        },
    };
    let place = place.clone();
    Ok(Entry { line, what, place })
}

fn set_aside(place: Span, ended: bool) -> Fault {
    if ended {
        let message = "this line is not as it was written: its check sum does not agree";
        return Fault::warning(Code::RECORD_LINE, message)
            .at(place)
            .label("set aside; all other lines are read")
            .hint("take the line from a copy of the record, or write it down again");
    }
    Fault::warning(
        Code::RECORD_LINE,
        "the last line is torn: it was not written to its end",
    )
    .at(place)
    .label("set aside; all other lines are read")
    .hint("write down again what happened last")
}

fn unknown(version: u32, kind: &str) -> Fault {
    let message = format!("this program does not know lines of version {version}, kind `{kind}`");
    Fault::warning(Code::RECORD_LINE, message)
        .label("kept in the file; not shown")
        .hint("use the newer program that wrote it")
}

fn jump(wanted: u64, found: u64) -> Fault {
    let message = format!("line number {wanted} is expected here, and {found} is found");
    Fault::warning(Code::RECORD_LINE, message)
        .label("read; but a line may be missing, or two files were put together")
        .hint("compare with a copy of the record")
}
