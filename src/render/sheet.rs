//! A whole job as sheets of blocks: the overview first, then the checklists of each set-up, then
//! for each procedure what its figures came from, and its faults with their cures.
//!
//! The limits in full stand once, on the overview.

use super::block::{Block, Row, Running, Sheet, drawn, heading, words};
use super::inert::slug;
use super::pages::{LAST_CUT, bullets};
use super::paper::Room;
use super::set_up::{self, joined};
use super::{speech, work_sheet};
use crate::diag::{Code, Fault};
use crate::jobs::{Checklist, CutSize, Sheets};
use crate::procedure::FilledValue;
use crate::search::Speech;

pub(super) const STOP: &str = "Anything not as the sheet says, or unsure? Let the cutter run down, isolate, \
    ask ____________";

const SIGNALS: &str = "DANGER: death or serious injury will follow if it is not avoided. WARNING: \
    death or serious injury could follow. CAUTION: minor or moderate injury could follow. NOTICE: \
    damage to work, tool or machine, no injury.";

/// All sheets of a job in the order of work, the overview first, in the words of the region; a
/// checklist that is too long for the pages is split, and is whole where there are none.
pub(super) fn sheets(job: &Sheets, spoken: &Speech, room: Option<Room>) -> Vec<Sheet> {
    let mut all = vec![overview(job)];
    let lists = job.checklists.iter();
    all.extend(lists.flat_map(|list| work_sheet::parts(job, list, room)));
    all.extend(of_procedures(job, room));
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
                &[
                    work_sheet::machine(list),
                    cutter,
                    &pieces,
                    &work_sheet::changes(list),
                    &after(list),
                ],
                " · ",
            );
            let title = format!("{}. {}", list.number, set_up.title);
            (title, format!("{}.html", work_sheet::name(list)), remark)
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

/// For each procedure, in the order met: what the figures came from, and the faults of its work. On
/// paper a checklist has no room for how it was last cut; it stands with the figures.
fn of_procedures(job: &Sheets, room: Option<Room>) -> Vec<Sheet> {
    let mut known: Vec<&str> = Vec::new();
    let mut sheets = Vec::new();
    for list in &job.checklists {
        let id = list.procedure.0.as_str();
        if known.contains(&id) {
            continue;
        }
        known.push(id);
        let of_it = job.checklists.iter().filter(|one| one.procedure.0 == id);
        let mut blocks = figures(of_it.clone());
        let last: Vec<String> = of_it
            .filter(|one| room.is_some() && !one.history.is_empty())
            .map(|one| format!("Sheet {}: {}", one.number, one.history.join(". ")))
            .collect();
        blocks.extend(bullets(LAST_CUT, &last));
        sheets.push(of_procedure(
            job,
            list,
            ("figures", titled("What the figures came from", list, room)),
            blocks,
        ));
        if let Some(troubles) = set_up::troubles(&list.troubles) {
            let blocks = vec![rule("Stop", STOP), troubles];
            sheets.push(of_procedure(
                job,
                list,
                ("faults", titled("If it goes wrong", list, room)),
                blocks,
            ));
        }
    }
    sheets
}

fn of(name: &str, procedure: &str) -> String {
    format!("{name}-{}", slug(procedure))
}

/// The file of a procedure's faults and their cures, without suffix.
pub(super) fn faults(procedure: &str) -> String {
    of("faults", procedure)
}

/// On a screen the title tells of which procedure; on paper that stands over it.
fn titled(what: &str, list: &Checklist, room: Option<Room>) -> String {
    match room {
        Some(_) => what.to_owned(),
        None => format!("{what}: {}", list.procedure.1),
    }
}

fn of_procedure(
    job: &Sheets,
    list: &Checklist,
    (name, what): (&str, String),
    mut blocks: Vec<Block>,
) -> Sheet {
    let (id, title, revision) = &list.procedure;
    blocks.push(rule("Limits", &job.limits.short));
    Sheet {
        slug: of(name, id),
        over: format!("{} · {title}", job.shop),
        title: what,
        running: Running {
            job: job.job.clone(),
            procedure: id.clone(),
            revision: format!("revision {revision}"),
            date: job.date.clone(),
        },
        blocks,
    }
}

/// The joint to scale, and every measured and chosen value with a blank for a second reading.
fn figures<'j>(lists: impl Iterator<Item = &'j Checklist>) -> Vec<Block> {
    let mut blocks: Vec<Block> = Vec::new();
    let (mut plans, mut tables) = (Vec::new(), Vec::new());
    let mut from: Vec<(String, Vec<FilledValue>)> = Vec::new();
    for list in lists {
        if let Some(table) = &list.set_up.table {
            let name = format!("Sheet {} at another reading", list.number);
            tables.extend([heading(&name), set_up::other_readings(table)]);
        }
        for joint in list.drawing.iter().map(drawn) {
            if !blocks.contains(&joint) {
                blocks.push(joint);
            }
        }
        if let Some(plan) = &list.set_up.plan {
            let name = format!("The machine at sheet {}", list.number);
            plans.extend([heading(&name), drawn(plan)]);
        }
        for (part, values) in &list.from {
            if !from.iter().any(|(known, _)| known == part) {
                from.push((part.clone(), values.clone()));
            }
        }
    }
    blocks.push(set_up::values(&work_sheet::given(&from), true));
    blocks.append(&mut tables);
    blocks.append(&mut plans);
    blocks
}

/// What every sheet says of the job: names and values, then those of its own.
pub(super) fn head(job: &Sheets, more: &[(&str, String)]) -> Vec<(String, String)> {
    let first = [
        ("job", job.job.clone()),
        ("printed", format!("{}; use once", job.date)),
        ("check sum", job.hash.clone()),
    ];
    let all = first.iter().chain(more);
    all.map(|(name, value)| ((*name).to_owned(), value.clone()))
        .collect()
}

pub(super) fn boxes(items: &[String]) -> Block {
    Block::Boxes {
        items: items.iter().map(words).collect(),
    }
}

pub(super) fn rule(name: &str, text: &str) -> Block {
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
