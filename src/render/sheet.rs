//! A whole job as sheets of blocks: the overview first, then one checklist for each set-up.
//!
//! What stands on every checklist: head, place-keeping, cautions before what they guard, settings,
//! steps with blanks, faults and cures, the stop rule, the limits in short, and the completion line
//! last. The limits in full stand once, on the overview.

use super::block::{Block, Row, Running, Sheet, heading, words};
use super::inert::slug;
use super::pages::bullets;
use super::set_up::{self, joined};
use super::speech;
use crate::diag::{Code, Fault};
use crate::jobs::{Checklist, CutSize, Piece, Sheets};
use crate::procedure::{FilledValue, Provenance};
use crate::search::Speech;

const STOP: &str = "If anything is not as the sheet says, or you are unsure: stop, let the cutter \
    run down, isolate the machine, ask. Ask: ____________________";

const PLACE: &str = "Circle a step's number when you begin it, slash the circle when it is done. \
    Interrupted? Do the last slashed step again; unsure, begin the sheet again.";

const SIGNALS: &str = "DANGER: death or serious injury will follow if it is not avoided. WARNING: \
    death or serious injury could follow. CAUTION: minor or moderate injury could follow. NOTICE: \
    damage to work, tool or machine, no injury.";

/// All sheets of a job in the order of work, the overview first, in the words of the region.
pub(super) fn sheets(job: &Sheets, spoken: &Speech) -> Vec<Sheet> {
    let mut all = vec![overview(job)];
    all.extend(job.checklists.iter().map(|list| checklist(job, list)));
    all.extend(trouble_sheets(job));
    all.into_iter()
        .map(|one| speech::sheet(one, spoken))
        .collect()
}

/// Refuses a job with a slot that has nothing to show.
pub(super) fn refuse_unfilled(job: &Sheets) -> Result<(), Fault> {
    for list in &job.checklists {
        if let Some(name) = set_up::unfilled(&list.set_up) {
            let message = format!("`{}` has no value for `{name}`", list.set_up.title);
            return Err(Fault::error(Code::VALUE_MISSING, message)
                .hint("give the value in the job, then print again"));
        }
    }
    Ok(())
}

/// The name of a checklist's file without suffix.
fn name(list: &Checklist) -> String {
    format!("{:02}-{}", list.number, slug(&list.set_up.title))
}

fn overview(job: &Sheets) -> Sheet {
    let mut blocks = vec![Block::Facts {
        rows: head(job, &[("sheets", job.checklists.len().to_string())]),
    }];
    blocks.push(heading("Order of work"));
    blocks.push(Block::Links { rows: order(job) });
    blocks.push(Block::Para {
        text: words(format!("Set-up time for all changes: {} min.", job.minutes)),
    });
    blocks.extend(bullets("Mind", &warnings(job)));
    for (what, items) in &job.ready {
        blocks.push(heading(&format!("Get ready: {what}")));
        blocks.push(boxes(items));
    }
    blocks.push(heading("Cutting list"));
    blocks.push(cutting_list(&job.cutting_list));
    let sources = sources(job);
    if !sources.is_empty() {
        blocks.push(heading("Where the cautions come from"));
        blocks.push(Block::Bullets {
            items: sources.into_iter().map(words).collect(),
        });
    }
    blocks.push(rule("Signal words", SIGNALS));
    blocks.push(rule("Limits of these sheets", &job.limits.long));
    blocks.push(Block::Done {
        what: "Everything ready".to_owned(),
    });
    Sheet {
        slug: "overview".to_owned(),
        over: format!("{} · overview", job.shop),
        title: job.title.clone(),
        running: Running {
            job: job.job.clone(),
            procedure: "overview".to_owned(),
            revision: format!("check sum {}", job.hash),
            date: job.date.clone(),
        },
        blocks,
    }
}

fn order(job: &Sheets) -> Vec<(String, String, String)> {
    let lists = job.checklists.iter();
    lists
        .map(|list| {
            let set_up = &list.set_up;
            let cutter = set_up.cutter.as_ref().map_or("", |cutter| &cutter.name);
            let pieces = count(list.pieces.len(), "piece");
            let remark = joined(
                &[machine(list), cutter, &pieces, &changes(list), &after(list)],
                " · ",
            );
            let title = format!("{}. {}", list.number, set_up.title);
            (title, format!("{}.html", name(list)), remark)
        })
        .collect()
}

fn after(list: &Checklist) -> String {
    let before: Vec<String> = list.after.iter().map(usize::to_string).collect();
    if before.is_empty() {
        return String::new();
    }
    format!("after sheet {}", before.join(", "))
}

/// What calculators and procedures warn of, each once.
fn warnings(job: &Sheets) -> Vec<String> {
    let mut all: Vec<String> = Vec::new();
    for warning in job.checklists.iter().flat_map(|list| &list.warnings) {
        if !all.contains(warning) {
            all.push(warning.clone());
        }
    }
    all
}

fn cutting_list(list: &[CutSize]) -> Block {
    let head = ["part", "pieces", "finished sizes, joints allowed for"];
    let rows = list.iter().map(|size| Row {
        cells: vec![
            size.part.clone(),
            size.pieces.to_string(),
            size.sizes.join("; "),
        ],
        marked: false,
    });
    Block::Table {
        head: head.map(str::to_owned).to_vec(),
        rows: rows.collect(),
        numbers: vec![false, true, false],
    }
}

/// Each caution of the job once, with its sources; in the order met.
fn sources(job: &Sheets) -> Vec<String> {
    let mut said: Vec<String> = Vec::new();
    for list in &job.checklists {
        let at_steps = list.set_up.steps.iter().flat_map(|step| step.cautions());
        for caution in list.set_up.standing.iter().chain(at_steps) {
            let cited: Vec<&str> = caution.sources().iter().map(|one| &*one.text).collect();
            let line = format!("{} {}", caution.hazard(), cited.join("; "));
            if !said.contains(&line) {
                said.push(line);
            }
        }
    }
    said
}

fn checklist(job: &Sheets, list: &Checklist) -> Sheet {
    let (id, title, revision) = &list.procedure;
    let mut blocks = vec![
        Block::Facts {
            rows: checklist_head(job, list),
        },
        rule("Keeping the place", PLACE),
    ];
    if list.first {
        blocks.extend(bullets("Mind", &list.warnings));
    }
    blocks.extend(set_up::standing(&list.set_up));
    blocks.extend(set_up::holder(&list.set_up));
    blocks.extend(setting_part(list));
    blocks.push(heading("Do"));
    let pieces: Vec<String> = list.pieces.iter().map(Piece::label).collect();
    blocks.push(set_up::steps(&list.set_up, &pieces, false));
    if !list.close.is_empty() {
        blocks.push(heading("Before you leave the machine"));
        blocks.push(boxes(&list.close));
    }
    blocks.extend(after_part(job, list));
    blocks.push(Block::Done {
        what: format!("Sheet {}: {}, complete", list.number, list.set_up.title),
    });
    Sheet {
        slug: name(list),
        over: format!("{} · {title}", job.shop),
        title: format!("{}. {}", list.number, list.set_up.title),
        running: Running {
            job: job.job.clone(),
            procedure: id.clone(),
            revision: format!("revision {revision}"),
            date: job.date.clone(),
        },
        blocks,
    }
}

fn head(job: &Sheets, more: &[(&str, String)]) -> Vec<(String, String)> {
    let first = [
        ("job", job.job.clone()),
        ("printed", format!("{}; use once", job.date)),
        ("check sum", job.hash.clone()),
    ];
    let all = first.iter().chain(more);
    all.map(|(name, value)| ((*name).to_owned(), value.clone()))
        .collect()
}

fn checklist_head(job: &Sheets, list: &Checklist) -> Vec<(String, String)> {
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

fn machine(list: &Checklist) -> &str {
    let machine = list.set_up.machine.as_ref();
    machine.map_or("", |(_, name)| name.as_str())
}

fn changes(list: &Checklist) -> String {
    if list.changes.is_empty() {
        return String::new();
    }
    format!("{} ({} min)", list.changes.join(", "), list.minutes)
}

/// What the machine is set to, what that came from, the drawing, the order of the passes.
fn setting_part(list: &Checklist) -> Vec<Block> {
    let mut blocks = Vec::new();
    if let Some(settings) = set_up::settings(&list.set_up) {
        blocks.push(heading("Set"));
        blocks.push(settings);
    }
    if let Some(table) = &list.set_up.table {
        blocks.push(heading("If the reading differs"));
        blocks.push(set_up::other_readings(table));
    }
    blocks
}

/// What is read when something is odd, and what every sheet says of itself.
fn after_part(job: &Sheets, list: &Checklist) -> Vec<Block> {
    let mut blocks = Vec::new();
    if let Some(drawing) = list
        .drawing
        .as_ref()
        .filter(|_| list.set_up.machine.is_some())
    {
        blocks.push(Block::Drawing {
            drawing: drawing.clone(),
            speech: Speech::default(),
        });
    }
    let values = given(&list.from);
    if list.first {
        blocks.push(heading("Worked out from"));
        blocks.push(set_up::values(&values, true));
    } else {
        blocks.push(rule("Worked out from", &measured(&values)));
    }
    blocks.push(Block::Lines {
        label: "What was odd, what was done; wrong or unclear in this sheet".to_owned(),
        count: 2,
    });
    blocks.push(rule("Stop", STOP));
    blocks.push(rule("Limits", &job.limits.short));
    blocks
}

/// The values of all parts: one that they share once, others with the parts that they hold for.
fn given(from: &[(String, Vec<FilledValue>)]) -> Vec<FilledValue> {
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

/// One sheet a procedure with its faults and cures, to hang up beside the machine.
fn trouble_sheets(job: &Sheets) -> Vec<Sheet> {
    let mut sheets: Vec<Sheet> = Vec::new();
    for list in &job.checklists {
        let (id, title, revision) = &list.procedure;
        let slug = format!("faults-{}", slug(id));
        let known = sheets.iter().any(|sheet| sheet.slug == slug);
        let Some(troubles) = set_up::troubles(&list.troubles).filter(|_| !known) else {
            continue;
        };
        sheets.push(Sheet {
            slug,
            over: format!("{} · {title}", job.shop),
            title: "If it goes wrong".to_owned(),
            running: Running {
                job: job.job.clone(),
                procedure: id.clone(),
                revision: format!("revision {revision}"),
                date: job.date.clone(),
            },
            blocks: vec![
                troubles,
                rule("Stop", STOP),
                rule("Limits", &job.limits.short),
            ],
        });
    }
    sheets
}

fn boxes(items: &[String]) -> Block {
    Block::Boxes {
        items: items.iter().map(words).collect(),
    }
}

fn rule(name: &str, text: &str) -> Block {
    Block::Rule {
        name: name.to_owned(),
        text: text.to_owned(),
    }
}

/// A number of things, the word in its right form.
fn count(number: usize, one: &str) -> String {
    match number {
        1 => format!("1 {one}"),
        _ => format!("{number} {one}s"),
    }
}
