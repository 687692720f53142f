//! The line format of the shop record: round trip, torn files, changed bytes, lines of the future.
//!
//! The check sums are compared with the published check value of CRC-32/ISO-HDLC and with a plain
//! bitwise CRC written here, not with the library that the program uses.

#![expect(clippy::unwrap_used, reason = "a test that cannot be set up must fail")]

mod any_event;
mod corrections;
mod form;
mod round_trip;
mod set_aside;

use faceside::diag::{Faults, Source};
use faceside::shoplog::{Entry, Event, Line, Person, Taught, read};

pub(crate) const AT: &str = "2026-11-25T09:10:00Z";

pub(crate) fn person(id: &str) -> Person {
    Person::new(id).unwrap()
}

pub(crate) fn taught() -> Taught {
    Taught {
        learner: person("A07"),
        instructor: person("BK"),
        procedure: "stopped-housing".to_owned(),
        revision: 3,
    }
}

pub(crate) fn written(events: &[Event]) -> String {
    (1..)
        .zip(events)
        .map(|(number, event)| Line::new(number, AT).unwrap().write(event).unwrap())
        .collect()
}

pub(crate) fn read_text(text: &str) -> (Vec<Entry>, Faults) {
    read(&Source::new("record/2026.jsonl", text))
}

pub(crate) fn note(text: &str) -> Event {
    Event::Note {
        by: person("BK"),
        about: None,
        text: text.to_owned(),
    }
}

/// CRC-32 bit by bit: reflected polynomial 0xEDB88320, start and end inverted.
pub(crate) fn plain_crc(bytes: &[u8]) -> u32 {
    !bytes.iter().fold(!0, |crc, byte| {
        (0..8).fold(crc ^ u32::from(*byte), |crc: u32, _| {
            (crc >> 1) ^ (0xEDB8_8320 & (crc & 1).wrapping_neg())
        })
    })
}

pub(crate) fn sealed(body: &str) -> String {
    format!("{body},\"crc\":\"{:08x}\"}}\n", plain_crc(body.as_bytes()))
}
