//! What holds after corrections: every event in the order of the files, those that were corrected
//! replaced or struck out.
//!
//! A correction of a correction puts the later one in the place of the first; a correction that
//! names no line, or a mark that two lines share, changes nothing and is told.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::{Correction, Event, Mark, What, read};
use crate::diag::{Code, Fault, Faults, Source, Span};

/// An event that holds.
#[derive(Debug, Clone, PartialEq)]
pub struct Standing {
    /// Its line; a corrected one keeps the mark of the line that was wrong.
    pub mark: Mark,
    /// When that line was written, RFC 3339.
    pub at: String,
    /// What happened.
    pub event: Event,
    /// The line that corrected it, when one did.
    pub corrected: Option<Mark>,
}

impl Standing {
    /// The day it was written, `YYYY-MM-DD`, as the clock showed it there: that of its own offset.
    pub fn day(&self) -> &str {
        self.at.get(..10).unwrap_or(&self.at)
    }
}

/// Where a line's event stands in the list; none for a line that is not known here.
struct Place {
    at: Option<usize>,
    twice: bool,
}

/// The events of these files that hold; the faults are warnings: of single lines, and of
/// corrections that name no line.
pub fn standing(files: &[Arc<Source>]) -> (Vec<Standing>, Faults) {
    let (mut all, mut faults) = (Vec::<(Standing, bool)>::new(), Faults::new());
    let mut places: BTreeMap<Mark, Place> = BTreeMap::new();
    let mut corrections: Vec<(Mark, Correction, Span)> = Vec::new();
    for file in files {
        let (entries, told) = read(file);
        faults.extend(told);
        for entry in entries {
            let mark = Mark::new(&file.name, entry.line.number());
            let at = match entry.what {
                What::Known(Event::Correction(correction)) => {
                    corrections.push((mark.clone(), correction, entry.place));
                    None
                }
                What::Known(event) => {
                    let at = entry.line.at().to_owned();
                    let corrected = None;
                    let mark = mark.clone();
                    let one = Standing {
                        mark,
                        at,
                        event,
                        corrected,
                    };
                    all.push((one, true));
                    Some(all.len() - 1)
                }
                What::Unknown { .. } => None,
            };
            let twice = places.contains_key(&mark);
            places.insert(mark, Place { at, twice });
        }
    }
    for (by, correction, span) in corrections {
        let at = match places.get(&correction.of) {
            Some(place) if !place.twice => place.at,
            other => {
                let shared = other.is_some();
                faults.push(no_line(&correction.of, shared).at(span));
                continue;
            }
        };
        if let Some(at) = at
            && let Some((one, holds)) = all.get_mut(at)
        {
            *holds = correction.instead.is_some();
            one.event = correction
                .instead
                .map_or_else(|| one.event.clone(), |new| *new);
            one.corrected = Some(by.clone());
        }
        if let Some(place) = places.get_mut(&by) {
            place.at = at;
        }
    }
    let holding = all.into_iter().filter(|(_, holds)| *holds);
    (holding.map(|(one, _)| one).collect(), faults)
}

fn no_line(of: &Mark, shared: bool) -> Fault {
    let message = if shared {
        format!("two lines have the mark `{of}`, so neither is corrected")
    } else {
        format!("this corrects `{of}`, and there is no such line")
    };
    Fault::warning(Code::RECORD_MARK, message).hint("compare with a copy of the record")
}
