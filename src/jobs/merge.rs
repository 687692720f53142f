//! Set-ups of different parts that are the same at the machine become one.
//!
//! Same means: of one procedure, on one machine, with one cutter, every setting the same as set
//! (after rounding to what the machine resolves), and every word of the sheet the same, the labels
//! of the settings too: a label tells on which side a stop stands. No cut is lost and none
//! doubled: each set-up of each part lies in exactly one merged set-up.

use std::collections::BTreeMap;

use super::Piece;
use crate::procedure::{Filled, FilledSetUp, Run, plain};

/// One set-up with everything that passes it.
#[derive(Debug)]
pub(super) struct Merged<'f> {
    /// Whether it is the first set-up of its procedure.
    pub(super) first: bool,
    /// Index of the first part that needs it.
    pub(super) part: usize,
    /// The set-up as filled for that part.
    pub(super) set_up: &'f FilledSetUp,
    /// Parts that share it, by index.
    pub(super) parts: Vec<usize>,
    /// Every piece.
    pub(super) pieces: Vec<Piece>,
    /// Merged set-ups that must come before, by index.
    pub(super) after: Vec<usize>,
}

/// Merges the set-ups of all parts; `pieces` holds the pieces of each part.
pub(super) fn merge<'f>(filled: &'f [Filled], pieces: &[Vec<Piece>]) -> Vec<Merged<'f>> {
    let mut merged: Vec<Merged<'f>> = Vec::new();
    let mut known: BTreeMap<String, usize> = BTreeMap::new();
    for (part, one) in filled.iter().enumerate() {
        let mut before: Option<usize> = None;
        for (order, set_up) in one.set_ups.iter().enumerate() {
            let key = format!("{}\u{1}{order}\u{1}{}", one.procedure, face(set_up));
            let at = *known.entry(key).or_insert_with(|| {
                merged.push(Merged {
                    first: order == 0,
                    part,
                    set_up,
                    parts: Vec::new(),
                    pieces: Vec::new(),
                    after: Vec::new(),
                });
                merged.len() - 1
            });
            merged[at].parts.push(part);
            merged[at].pieces.extend(pieces[part].iter().cloned());
            if let Some(before) = before
                && !merged[at].after.contains(&before)
            {
                merged[at].after.push(before);
            }
            before = Some(at);
        }
    }
    merged
}

/// Everything of a set-up that a person would read on its sheet.
fn face(set_up: &FilledSetUp) -> String {
    let mut face = vec![set_up.title.clone(), set_up.operation.clone()];
    face.extend(set_up.machine.iter().map(|(id, _)| id.clone()));
    face.extend(set_up.holder.iter().map(|holder| plain(holder)));
    face.extend(set_up.cutter.iter().map(|cutter| cutter.id.clone()));
    for setting in &set_up.settings {
        face.extend([&setting.name, &setting.label, &setting.shown].map(String::clone));
    }
    face.extend(
        set_up
            .standing
            .iter()
            .map(|caution| caution.id().to_owned()),
    );
    for step in &set_up.steps {
        face.push(plain(&step.act));
        face.extend(step.after.iter().map(|(_, text)| plain(text)));
        face.extend(
            step.cautions()
                .iter()
                .map(|caution| caution.id().to_owned()),
        );
        face.extend(step.keys.iter().map(|key| plain(key)));
        face.push(plain(&step.why));
        if let Some(check) = &step.check {
            let texts: [&[Run]; 3] = [&check.measure, &check.if_low, &check.if_high];
            face.extend(texts.map(plain));
            let figures = [
                &check.tool,
                &check.wanted,
                &check.low_shown,
                &check.high_shown,
            ];
            face.extend(figures.map(String::clone));
        }
    }
    if let Some(table) = &set_up.table {
        face.push(table.measured.clone());
        for (reading, settings, _) in &table.rows {
            face.push(reading.clone());
            face.extend(settings.iter().cloned());
        }
    }
    face.join("\u{1}")
}
