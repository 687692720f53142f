//! One set-up as its checklist: on one page where it fits, else in parts that end at pauses.
//!
//! Every part has its head, the cautions of the set-up, the stop rule and a completion line; the
//! steps go on counting. What the figures came from stands on a sheet of its own.

use std::ops::Range;

use super::block::{self, Block, Running, Sheet, Step, heading};
use super::inert::slug;
use super::pages::{LAST_CUT, bullets};
use super::paper::{self, Room};
use super::set_up::{self, joined};
use super::sheet::{STOP, boxes, head, rule};
use super::split::{Beside, split, turns};
use crate::jobs::{Checklist, Piece, Sheets};
use crate::procedure::{FilledValue, Provenance};
use crate::search::Speech;

const PLACE: &str = "Circle a number when begun, slash it when done; interrupted, do the last \
    slashed step again.";

/// The name of a checklist's file without suffix.
pub(super) fn name(list: &Checklist) -> String {
    format!("{:02}-{}", list.number, slug(&list.set_up.title))
}

/// The machine's name; empty at the bench.
pub(super) fn machine(list: &Checklist) -> &str {
    let machine = list.set_up.machine.as_ref();
    machine.map_or("", |(_, name)| name.as_str())
}

/// What is to be changed before it, and how long that takes.
pub(super) fn changes(list: &Checklist) -> String {
    if list.changes.is_empty() {
        return String::new();
    }
    format!("{} ({} min)", list.changes.join(", "), list.minutes)
}

/// The parts of a checklist on pages with that much room; without pages it is whole.
pub(super) fn parts(job: &Sheets, list: &Checklist, room: Option<Room>) -> Vec<Sheet> {
    let pieces: Vec<String> = list.pieces.iter().map(Piece::label).collect();
    let mut steps = set_up::steps(&list.set_up, &pieces, false);
    let (runs, keyed) = match room {
        Some(room) => {
            let keyed = has_room_for_key(job, list, &steps, room);
            (runs(job, list, &mut steps, (room, keyed)), keyed)
        }
        None => (std::iter::once(0..steps.len()).collect(), true),
    };
    let count = runs.len();
    let part = |(at, run): (usize, Range<usize>)| {
        let part = (at + 1, count);
        let mut blocks = before(job, list, part, keyed);
        if room.is_none() {
            blocks.extend(bullets(LAST_CUT, &list.history));
        }
        if !run.is_empty() {
            if at == 0 {
                blocks.push(heading("Do"));
            }
            let steps = steps[run].to_vec();
            blocks.push(Block::Steps { steps });
        }
        if at + 1 == count {
            blocks.extend(last(list));
        }
        blocks.extend(after(job, list, part));
        sheet(job, list, part, blocks)
    };
    runs.into_iter().enumerate().map(part).collect()
}

/// Whether the words of a plan view's letters cost no page.
fn has_room_for_key(job: &Sheets, list: &Checklist, steps: &[Step], room: Room) -> bool {
    let pages = |keyed| {
        // Pages that begin without a pause, and all pages.
        let mut steps = steps.to_vec();
        let parts = runs(job, list, &mut steps, (room, keyed)).len();
        let turns = steps.iter().filter(|step| step.turn).count();
        (turns, parts + turns)
    };
    let (with, without) = (pages(true), pages(false));
    list.set_up.plan.is_some() && with.0 <= without.0 && with.1 <= without.1
}

/// Which steps stand on which part; in a part that is longer than a page, the steps that begin one
/// are marked. A plan view has the words of its letters below it where it is `keyed`.
fn runs(
    job: &Sheets,
    list: &Checklist,
    steps: &mut [Step],
    (room, keyed): (Room, bool),
) -> Vec<Range<usize>> {
    let pauses: Vec<bool> = list.set_up.steps.iter().map(|step| step.pause).collect();
    let heights: Vec<f64> = steps.iter().map(|step| paper::step(step, room)).collect();
    let high = |blocks: &[Block]| paper::blocks(blocks, room);
    // Titles and heads of the parts of a split sheet; one that is not split has shorter ones.
    let begin =
        |part| paper::head(&title(list, part), room) + high(&before(job, list, part, keyed));
    let end = |part| high(&after(job, list, part));
    let alone = begin((1, 2)) + end((1, 2));
    let beside = Beside {
        alone,
        first: alone + high(&[heading("Do")]),
        later: begin((2, 2)) + end((2, 2)),
        last: high(&last(list)),
    };
    let runs = split(&heights, &pauses, beside, room.height);
    let end = end((1, 2));
    for (at, run) in runs.iter().enumerate() {
        let beside_it = if at == 0 { beside.first } else { beside.later };
        let last = if at + 1 == runs.len() {
            beside.last
        } else {
            0.0
        };
        let heights = &heights[run.clone()];
        for turn in turns(heights, beside_it - end, end + last, room.height) {
            steps[run.start + turn].turn = true;
        }
    }
    runs
}

fn title(list: &Checklist, (part, count): (usize, usize)) -> String {
    let title = format!("{}. {}", list.number, list.set_up.title);
    match count {
        1 => title,
        _ => format!("{title}, part {part} of {count}"),
    }
}

fn sheet(job: &Sheets, list: &Checklist, part: (usize, usize), blocks: Vec<Block>) -> Sheet {
    let (id, procedure, revision) = &list.procedure;
    Sheet {
        slug: name(list),
        over: format!("{} · {procedure}", job.shop),
        title: title(list, part),
        running: Running {
            job: job.job.clone(),
            procedure: id.clone(),
            revision: format!("revision {revision}"),
            date: job.date.clone(),
        },
        blocks,
    }
}

/// What stands before the steps: in full on the first part, in short on the others.
fn before(
    job: &Sheets,
    list: &Checklist,
    (part, count): (usize, usize),
    keyed: bool,
) -> Vec<Block> {
    let set_up = &list.set_up;
    if part > 1 {
        return go_on(job, list, (part, count));
    }
    let mut blocks = vec![Block::Facts {
        rows: facts(job, list),
    }];
    blocks.push(rule("Keeping the place", PLACE));
    if list.first {
        blocks.extend(bullets("Mind", &list.warnings));
    }
    let settings = set_up::settings(set_up);
    if settings.is_some() || set_up.plan.is_some() {
        blocks.push(heading("Set"));
        blocks.extend(set_up.plan.clone().map(|drawing| Block::Drawing {
            drawing,
            speech: Speech::default(),
            beside: Some(block::Beside { keyed }),
        }));
        blocks.extend(settings);
    }
    blocks.extend(set_up::standing(set_up));
    blocks.extend(set_up::holder(set_up));
    blocks
}

/// What stands before the steps of a later part.
fn go_on(job: &Sheets, list: &Checklist, (part, count): (usize, usize)) -> Vec<Block> {
    let set_up = &list.set_up;
    let sheet = format!("{} of {}", list.number, job.checklists.len());
    let begin = format!("Part {} of {count} complete", part - 1);
    let isolated = match machine(list) {
        "" => String::new(),
        machine => format!("{machine} isolated"),
    };
    let mut blocks = vec![
        Block::Facts {
            rows: head(job, &[("sheet", sheet)]),
        },
        rule("Begin when", &joined(&[&begin, &isolated], "; ")),
    ];
    blocks.extend(set_up::standing_again(set_up, "on part 1"));
    blocks.extend(set_up::holder(set_up));
    blocks
}

/// What stands on the last part only.
fn last(list: &Checklist) -> Vec<Block> {
    let mut blocks = Vec::new();
    if !list.close.is_empty() {
        blocks.push(heading("Before you leave the machine"));
        blocks.push(boxes(&list.close));
    }
    let mut from = measured(&given(&list.from));
    if list.set_up.table.is_some() {
        from += ". Another reading than planned: its settings are on the sheet of the figures";
    }
    blocks.extend((!from.is_empty()).then(|| rule("Worked out from", &from)));
    blocks.push(Block::Lines {
        label: "What was odd, what was done; wrong or unclear in this sheet".to_owned(),
        count: 1,
    });
    blocks
}

/// What ends each part.
fn after(job: &Sheets, list: &Checklist, (part, count): (usize, usize)) -> Vec<Block> {
    let of = match count {
        1 => String::new(),
        _ => format!(", part {part} of {count}"),
    };
    vec![
        rule("Stop", STOP),
        rule("Limits", &job.limits.short),
        Block::Done {
            what: format!("Sheet {}{of} complete", list.number),
        },
    ]
}

fn facts(job: &Sheets, list: &Checklist) -> Vec<(String, String)> {
    let (id, _, revision) = &list.procedure;
    let mut more = vec![
        ("procedure", format!("{id}, revision {revision}")),
        (
            "sheet",
            format!("{} of {}", list.number, job.checklists.len()),
        ),
    ];
    if !machine(list).is_empty() {
        more.push(("machine", machine(list).to_owned()));
    }
    if !changes(list).is_empty() {
        more.push(("to change", changes(list)));
    }
    head(job, &more)
}

/// The values of all parts: one that they share once, others with the parts that they hold for.
pub(super) fn given(from: &[(String, Vec<FilledValue>)]) -> Vec<FilledValue> {
    let mut all: Vec<(FilledValue, Vec<&str>)> = Vec::new();
    for (part, values) in from {
        for value in values {
            let same = |(known, _): &&mut (FilledValue, Vec<&str>)| {
                known.name == value.name && known.shown == value.shown
            };
            match all.iter_mut().find(same) {
                Some((_, parts)) => parts.push(part),
                None => all.push((value.clone(), vec![part])),
            }
        }
    }
    let labelled = all.into_iter().map(|(mut value, parts)| {
        if parts.len() < from.len() {
            value.label = format!("{} ({})", value.label, parts.join("; "));
        }
        value
    });
    labelled.collect()
}

/// The measured values in a line.
fn measured(values: &[FilledValue]) -> String {
    let texts: Vec<String> = values
        .iter()
        .filter_map(|value| {
            let name = value.name.replace('_', " ");
            match value.provenance {
                Provenance::Measured => Some(format!("{name} {}", value.shown)),
                Provenance::Planned => Some(format!("{name} {} planned", value.shown)),
                _ => None,
            }
        })
        .collect();
    texts.join(" · ")
}
