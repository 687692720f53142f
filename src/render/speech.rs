//! Blocks in the words of the reader's region: the one place where shown texts are put into them.
//!
//! Values in slots, ids, addresses, sketches, citations and the shop's own names of cutters,
//! tools and pieces stay as they are.

use super::block::{Block, Line, Panel, Reading, Row, Said, Sheet, Span, Step, Text};
use super::figure::Figure;
use super::inert::markup;
use crate::search::Speech;

/// Rows of facts whose values are ids, dates or other names for the same.
const KEPT: [&str; 8] = [
    "also called",
    "check sum",
    "for",
    "id",
    "job",
    "procedure",
    "source",
    "when",
];

/// Lists below these headings cite others.
const CITED: [&str; 2] = ["Sources", "Where the cautions come from"];

/// A sheet; its name as a file stays.
pub(super) fn sheet(mut sheet: Sheet, speech: &Speech) -> Sheet {
    sheet.over = say(speech, &sheet.over);
    sheet.title = say(speech, &sheet.title);
    blocks(&mut sheet.blocks, speech);
    sheet
}

/// The blocks of a page.
pub(super) fn blocks(blocks: &mut [Block], speech: &Speech) {
    if !speech.changes() {
        return;
    }
    let mut cited = false;
    for block in blocks {
        match block {
            Block::Heading { text, .. } => {
                cited = CITED.contains(&text.as_str());
                put(speech, text);
            }
            Block::Bullets { .. } if cited => {}
            other => one(other, speech),
        }
    }
}

/// A figure: its words and the words within its pictures.
pub(super) fn figure(mut figure: Figure, speech: &Speech) -> Figure {
    if !speech.changes() {
        return figure;
    }
    for view in &mut figure.views {
        for text in [&mut view.title, &mut view.says] {
            let new = say(speech, text);
            view.svg = view.svg.replace(&markup(text), &markup(&new));
            *text = new;
        }
    }
    for (_, name, _) in &mut figure.key {
        put(speech, name);
    }
    figure
}

fn one(block: &mut Block, speech: &Speech) {
    match block {
        Block::Heading { text, .. } | Block::Rule { text, .. } => put(speech, text),
        Block::Para { text } => runs(text, speech),
        Block::Bullets { items } | Block::Boxes { items } => {
            items.iter_mut().for_each(|item| runs(item, speech));
        }
        Block::Facts { rows } => {
            let free = rows.iter_mut();
            let free = free.filter(|(name, _)| !KEPT.contains(&name.as_str()));
            free.for_each(|(_, value)| put(speech, value));
        }
        Block::Table { head, rows, .. } => {
            head.iter_mut().for_each(|cell| put(speech, cell));
            rows.iter_mut().for_each(|one| row(one, speech));
        }
        Block::Links { rows } | Block::Contents { rows } | Block::Neighbours { rows } => {
            links(rows, speech)
        }
        Block::Family { name, rows, .. } => {
            put(speech, name);
            links(rows, speech);
        }
        Block::Settings { rows } => {
            // The label of a cutter is its name in the shop's file.
            let free = rows.iter_mut();
            let free = free.filter(|set| !set.label.starts_with("Cutter: "));
            for set in free {
                put(speech, &mut set.label);
                put(speech, &mut set.remark);
            }
        }
        Block::Standing { cautions } => cautions.iter_mut().for_each(|one| panel(one, speech)),
        Block::Steps { steps } | Block::Breakdown { steps } => {
            steps.iter_mut().for_each(|one| step(one, speech))
        }
        Block::Troubles { rows } => {
            for (see, cause, cure) in rows {
                [see, cause, cure]
                    .into_iter()
                    .for_each(|text| runs(text, speech));
            }
        }
        Block::Lines { label, .. } => put(speech, label),
        Block::Done { what } => put(speech, what),
        Block::Form { fields, .. } => {
            for field in fields {
                put(speech, &mut field.label);
                put(speech, &mut field.hint);
            }
        }
        Block::Live { blocks: inner, .. } | Block::Only { blocks: inner, .. } => {
            blocks(inner, speech);
        }
        Block::Drawing { speech: of, .. } => *of = speech.clone(),
        // Names of woods with their figures; entries that are in the words of the region already.
        Block::Sketch { .. } | Block::Index { .. } | Block::Entries { .. } => {}
    }
}

fn links(rows: &mut [(String, String, String)], speech: &Speech) {
    for (title, _, remark) in rows {
        put(speech, title);
        put(speech, remark);
    }
}

fn row(row: &mut Row, speech: &Speech) {
    // A value that was worked out names its calculator.
    let cells = row.cells.iter_mut();
    let free = cells.filter(|cell| !cell.starts_with("worked out: "));
    free.for_each(|cell| put(speech, cell));
}

fn panel(panel: &mut Panel, speech: &Speech) {
    for Said {
        hazard,
        harm,
        avoid,
    } in &mut panel.said
    {
        [hazard, harm, avoid]
            .into_iter()
            .for_each(|text| put(speech, text));
    }
}

fn step(step: &mut Step, speech: &Speech) {
    step.cautions.iter_mut().for_each(|one| panel(one, speech));
    runs(&mut step.act, speech);
    for Line { text, .. } in &mut step.after {
        runs(text, speech);
    }
    step.keys.iter_mut().for_each(|key| runs(key, speech));
    runs(&mut step.why, speech);
    for reading in &mut step.readings {
        let Reading {
            measure,
            if_low,
            if_high,
            ..
        } = reading;
        let texts = [measure, if_low, if_high].into_iter();
        texts.for_each(|text| runs(text, speech));
    }
}

fn runs(text: &mut Text, speech: &Speech) {
    let words = text.iter_mut().filter(|span| !span.value);
    words.for_each(|Span { words, .. }| put(speech, words));
}

fn put(speech: &Speech, text: &mut String) {
    *text = say(speech, text);
}

/// A text alone.
pub(super) fn say(speech: &Speech, text: &str) -> String {
    speech.say(text).into_owned()
}
