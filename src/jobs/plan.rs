//! From a job to its sheets: fill each part, merge, order, gather what to get ready.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::job::{Job, Part};
use super::merge::{Merged, merge};
use super::order::{change, order};
use super::{Checklist, CutSize, Piece, Sheets};
use crate::diag::{Code, Fault, Faults, nearest};
use crate::procedure::{
    Choice, Filled, FilledSetUp, FilledValue, Procedure, Provenance, Workplace, fill, plain,
};

/// Plans a job.
///
/// # Errors
/// Every part that cannot be filled, with all its faults; nothing is planned then.
pub fn plan(
    job: &Job,
    procedures: &BTreeMap<String, Arc<Procedure>>,
    at: Workplace<'_>,
    date: &str,
) -> Result<Sheets, Faults> {
    let mut faults = Faults::new();
    let mut filled = Vec::new();
    let mut pieces = Vec::new();
    let mut cutting_list = Vec::new();
    for part in &job.parts {
        match fill_part(part, procedures, at) {
            Ok(hands) => {
                cutting_list.extend(cut_size(part, &hands));
                for (one, hand, count) in hands {
                    pieces.push(pieces_of(part, &hand, count));
                    filled.push(one);
                }
            }
            Err(more) => faults.extend(more),
        }
    }
    if faults.any_error() {
        return Err(faults);
    }
    let limits = at.book.limits().cloned().ok_or_else(|| {
        Fault::error(
            Code::CAUTION_MISSING,
            "the cautions hold no limits statement",
        )
        .hint("add `limits: {long: ..., short: ...}` to a caution file")
    })?;
    let merged = merge(&filled, &pieces);
    let order = order(&merged, at.machines);
    let checklists = checklists(&merged, &order, &filled, &pieces, at);
    let minutes = checklists.iter().map(|checklist| checklist.minutes).sum();
    let mut sheets = Sheets {
        job: job.id.clone(),
        title: job.title.clone(),
        shop: at.shop.name.clone(),
        date: String::new(),
        hash: String::new(),
        limits,
        ready: ready(&filled, &checklists),
        cutting_list,
        checklists,
        minutes,
    };
    sheets.hash = format!("{:08x}", crc32fast::hash(format!("{sheets:?}").as_bytes()));
    date.clone_into(&mut sheets.date);
    Ok(sheets)
}

fn fill_part(
    part: &Part,
    procedures: &BTreeMap<String, Arc<Procedure>>,
    at: Workplace<'_>,
) -> Result<Vec<(Filled, String, u32)>, Faults> {
    let (id, place) = &part.procedure;
    let Some(procedure) = procedures.get(id) else {
        let message = format!("no procedure has the id `{id}`");
        let near = nearest(id, procedures.keys().map(String::as_str));
        let hint = match near {
            Some(near) => format!("did you mean `{near}`?"),
            None => "`faceside search WORDS` finds one".to_owned(),
        };
        return Err(Fault::error(Code::UNKNOWN_NAME, message)
            .at(place.clone())
            .hint(hint)
            .into());
    };
    let mut filled = Vec::new();
    wrong_hands(part, procedure)?;
    for (hand, count) in &part.pieces {
        let mut given = part.given.clone();
        if !hand.is_empty() {
            given.part = format!("{}, {hand}", given.part);
            given
                .chosen
                .insert("hand".to_owned(), (hand.clone(), place.clone()));
        }
        filled.push((fill(procedure, at, &given)?, hand.clone(), *count));
    }
    Ok(filled)
}

/// A pair is cut by a procedure that asks for the hand, and only such a procedure makes pairs.
fn wrong_hands(part: &Part, procedure: &Procedure) -> Result<(), Fault> {
    let id = &procedure.id;
    let hand = procedure
        .choices
        .iter()
        .find(|choice| choice.name == "hand");
    let in_pairs = part.pieces.iter().any(|(hand, _)| !hand.is_empty());
    let known = |choice: &Choice| choice.usual.is_some() || part.given.chosen.contains_key("hand");
    let (message, hint) = match (hand, in_pairs) {
        (None, true) => (
            format!("`{id}` has no left and right"),
            "write how many pieces there are in all: `pieces: 2`",
        ),
        (Some(choice), false) if !known(choice) => (
            format!("{}: `{id}` must know left from right", part.given.part),
            "write `pieces: {left: 1, right: 1}`, or name the hand under `chosen`",
        ),
        _ => return Ok(()),
    };
    Err(Fault::error(Code::VALUE_MISSING, message)
        .at(part.pieces_place.clone())
        .hint(hint))
}

fn pieces_of(part: &Part, hand: &str, count: u32) -> Vec<Piece> {
    let piece = |number| Piece {
        part: part.given.part.clone(),
        number: (number, count),
        hand: hand.to_owned(),
    };
    (1..=count).map(piece).collect()
}

fn cut_size(part: &Part, hands: &[(Filled, String, u32)]) -> Option<CutSize> {
    let (first, _, _) = hands.first()?;
    if first.sizes.is_empty() {
        return None;
    }
    Some(CutSize {
        part: part.given.part.clone(),
        pieces: hands.iter().map(|(_, _, count)| count).sum(),
        sizes: first
            .sizes
            .iter()
            .map(|(what, size)| format!("{what} {size}"))
            .collect(),
    })
}

fn checklists(
    merged: &[Merged<'_>],
    order: &[usize],
    filled: &[Filled],
    pieces: &[Vec<Piece>],
    at: Workplace<'_>,
) -> Vec<Checklist> {
    let mut last: Option<&FilledSetUp> = None;
    let mut checklists: Vec<Checklist> = Vec::new();
    for (number, index) in order.iter().enumerate() {
        let one = &merged[*index];
        let (changes, minutes) = change(last, one.set_up, at.machines);
        let procedure = &filled[one.part];
        let from = one
            .parts
            .iter()
            .map(|part| (name_of(&pieces[*part]), given(&filled[*part])));
        checklists.push(Checklist {
            number: number + 1,
            procedure: (
                procedure.procedure.clone(),
                procedure.title.clone(),
                procedure.revision,
            ),
            set_up: one.set_up.clone(),
            first: one.first,
            after: one
                .after
                .iter()
                .map(|before| number_of(order, *before))
                .collect(),
            pieces: one.pieces.clone(),
            from: from.collect(),
            changes,
            minutes,
            troubles: procedure.troubles.clone(),
            close: Vec::new(),
            drawing: procedure.drawing.clone(),
            history: Vec::new(),
            warnings: union(one.parts.iter().map(|part| &filled[*part].warnings)),
            notes: union(one.parts.iter().map(|part| &filled[*part].notes)),
        });
        if one.set_up.machine.is_some() {
            last = Some(one.set_up);
        }
    }
    close(&mut checklists, merged, order, filled);
    checklists
}

/// Puts each procedure's closing state on the last of its set-ups.
fn close(list: &mut [Checklist], merged: &[Merged<'_>], order: &[usize], filled: &[Filled]) {
    let mut closed: Vec<&str> = Vec::new();
    for (checklist, index) in list.iter_mut().zip(order).rev() {
        let procedure = &filled[merged[*index].part];
        if !closed.contains(&procedure.procedure.as_str()) {
            closed.push(&procedure.procedure);
            let close = procedure.close.iter().flat_map(|(_, items)| items);
            checklist.close = close.map(|runs| plain(runs)).collect();
        }
    }
}

/// The name of a part with its hand.
fn name_of(pieces: &[Piece]) -> String {
    pieces.first().map_or_else(String::new, |piece| {
        Piece {
            number: (1, 1),
            ..piece.clone()
        }
        .label()
    })
}

/// The values that a part's numbers come from.
fn given(filled: &Filled) -> Vec<FilledValue> {
    let worked_out = |value: &&FilledValue| !matches!(value.provenance, Provenance::WorkedOut(_));
    filled.values.iter().filter(worked_out).cloned().collect()
}

fn union<'s>(lists: impl Iterator<Item = &'s Vec<String>>) -> Vec<String> {
    let mut all: Vec<String> = Vec::new();
    for sentence in lists.flatten() {
        if !all.contains(sentence) {
            all.push(sentence.clone());
        }
    }
    all
}

/// What to get ready: the procedures' lists, and the cutters that were picked.
fn ready(filled: &[Filled], checklists: &[Checklist]) -> Vec<(String, Vec<String>)> {
    let mut lists: Vec<(String, Vec<String>)> = Vec::new();
    let mut add = |head: &str, item: Option<String>| {
        let at = lists
            .iter()
            .position(|(known, _)| known == head)
            .unwrap_or_else(|| {
                lists.push((head.to_owned(), Vec::new()));
                lists.len() - 1
            });
        if let Some(item) = item.filter(|item| !lists[at].1.contains(item)) {
            lists[at].1.push(item);
        }
    };
    let cutters = checklists
        .iter()
        .filter_map(|checklist| checklist.set_up.cutter.as_ref());
    let mut known: BTreeMap<&str, String> = BTreeMap::new();
    for cutter in cutters {
        let mut item = format!(
            "{} ({}, {})",
            cutter.name, cutter.diameter, cutter.known_from
        );
        if let Some(why) = &cutter.why {
            item = format!("{item}; picked: {why}");
        }
        let longest = known.entry(&cutter.id).or_default();
        if item.len() > longest.len() {
            *longest = item;
        }
    }
    for item in known.into_values() {
        add("cutters", Some(item));
    }
    for (head, items) in filled.iter().flat_map(|one| &one.ready) {
        add(head, None);
        for item in items {
            add(head, Some(plain(item)));
        }
    }
    lists
}

/// The number of the sheet of a merged set-up.
fn number_of(order: &[usize], index: usize) -> usize {
    order
        .iter()
        .position(|at| *at == index)
        .map_or(0, |at| at + 1)
}
