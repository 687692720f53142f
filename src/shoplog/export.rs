//! The record as CSV (RFC 4180): one line an event that holds, lengths in millimetres.

use super::show::{setting, verdict_word};
use super::{Event, Measured, SetTo, Standing, Verdict, Work, say};
use crate::units::{Length, Unit};

/// The head of the table.
const HEAD: [&str; 20] = [
    "mark",
    "at",
    "kind",
    "by",
    "procedure",
    "revision",
    "set_up",
    "machine",
    "cutter",
    "wood",
    "settings",
    "what",
    "value_mm",
    "wanted_mm",
    "low_mm",
    "high_mm",
    "verdict",
    "pieces",
    "test_cuts",
    "said",
];

/// One row, by the names of [`HEAD`].
#[derive(Default)]
struct Row {
    kind: &'static str,
    by: String,
    work: Work,
    what: String,
    value: Option<Length>,
    wanted: Option<Length>,
    low: Option<Length>,
    high: Option<Length>,
    verdict: Option<Verdict>,
    pieces: Option<u32>,
    test_cuts: Option<u32>,
}

/// The whole table with its head line.
pub fn csv(events: &[Standing]) -> String {
    let mut text = line(HEAD.map(str::to_owned));
    for one in events {
        text.push_str(&line(cells(one)));
    }
    text
}

fn cells(one: &Standing) -> [String; HEAD.len()] {
    let row = row(&one.event);
    let mm = |length: Option<Length>| length.map_or_else(String::new, |it| it.to_mm().to_string());
    let count = |count: Option<u32>| count.map_or_else(String::new, |it| it.to_string());
    let settings: Vec<_> = row
        .work
        .settings
        .iter()
        .map(|one: &SetTo| setting(one))
        .collect();
    let revision = Some(row.work.revision).filter(|revision| *revision > 0);
    [
        one.mark.to_string(),
        one.at.clone(),
        row.kind.to_owned(),
        row.by,
        row.work.procedure,
        count(revision),
        row.work.set_up.unwrap_or_default(),
        row.work.machine.unwrap_or_default(),
        row.work.cutter.unwrap_or_default(),
        row.work.wood.unwrap_or_default(),
        settings.join("; "),
        row.what,
        mm(row.value),
        mm(row.wanted),
        mm(row.low),
        mm(row.high),
        row.verdict.map_or("", verdict_word).to_owned(),
        count(row.pieces),
        count(row.test_cuts),
        say(&one.event, Unit::Mm),
    ]
}

fn row(event: &Event) -> Row {
    let kind = event.kind();
    match event {
        Event::Run(run) => Row {
            kind,
            by: run.by.to_string(),
            work: run.work.clone(),
            pieces: Some(run.pieces),
            test_cuts: Some(run.test_cuts),
            ..Row::default()
        },
        Event::TestCut(cut) => Row {
            kind,
            by: cut.by.to_string(),
            work: cut.work.clone(),
            ..cut.measured.as_ref().map(measured).unwrap_or_default()
        },
        Event::Reading {
            by,
            procedure,
            revision,
            machine,
            cutter,
            what,
            value,
            low,
            high,
            verdict,
            ..
        } => Row {
            kind,
            by: by.to_string(),
            work: Work {
                procedure: procedure.clone(),
                revision: *revision,
                machine: machine.clone(),
                cutter: cutter.clone(),
                ..Work::default()
            },
            what: what.clone(),
            value: Some(*value),
            low: Some(*low),
            high: Some(*high),
            verdict: Some(*verdict),
            ..Row::default()
        },
        Event::CutterMeasured(one) => Row {
            kind,
            by: one.by.to_string(),
            work: Work {
                cutter: Some(one.cutter.clone()),
                ..Work::default()
            },
            what: one.state.word().to_owned(),
            value: Some(one.size),
            ..Row::default()
        },
        other => Row {
            kind,
            by: other.by().map_or_else(String::new, ToString::to_string),
            work: Work {
                procedure: other.procedure().unwrap_or_default().to_owned(),
                ..Work::default()
            },
            ..Row::default()
        },
    }
}

fn measured(one: &Measured) -> Row {
    Row {
        what: one.what.clone(),
        value: Some(one.value),
        wanted: one.wanted,
        low: one.limits.map(|limits| limits.low),
        high: one.limits.map(|limits| limits.high),
        verdict: one.verdict(),
        ..Row::default()
    }
}

fn line<const N: usize>(cells: [String; N]) -> String {
    cells.map(|cell| quoted(&cell)).join(",") + "\r\n"
}

/// A cell with a comma, a quote or a line break stands in quotes, its own quotes doubled.
fn quoted(cell: &str) -> String {
    if cell.contains([',', '"', '\n', '\r']) {
        return format!("\"{}\"", cell.replace('"', "\"\""));
    }
    cell.to_owned()
}
