//! Checklists for paper: an overview, a file for each set-up, and one file with all of them.
//!
//! Each file stands alone, its style inside it. Paper size and the running heads and feet are CSS
//! page rules; since some browsers print none, each sheet says the same in its own head.

use serde::Serialize;
use tera::Context;

use super::block::Sheet;
use super::html;
use super::inert::css_string;
use super::paper::Room;
use super::set_up::joined;
use super::sheet::{refuse_unfilled, sheets};
use super::templates::{STYLE, Templates};
use crate::diag::Fault;
use crate::jobs::Sheets;
use crate::search::Speech;
use crate::shop::Paper;

/// A sheet as its template wants it; texts for page rules are CSS strings.
#[derive(Serialize)]
struct Printed {
    at: usize,
    over: String,
    title: String,
    head_left: String,
    head_right: String,
    content: String,
}

/// The files of a job: `overview.html`, `NN-slug.html` for each set-up, `all.html`.
///
/// # Errors
/// A value that is not there, a drawing that cannot be made, a template that cannot be filled.
pub fn checklist_html(
    job: &Sheets,
    paper: Paper,
    speech: &Speech,
) -> Result<Vec<(String, String)>, Fault> {
    refuse_unfilled(job)?;
    let templates = Templates::new()?;
    let limits = speech.say(&job.limits.short);
    let limits = limits.as_ref();
    let sheets = sheets(job, speech, Some(Room::on(paper)));
    let mut printed = Vec::with_capacity(sheets.len());
    for (at, sheet) in sheets.iter().enumerate() {
        printed.push(print(&templates, at, sheet)?);
    }
    let mut files = Vec::with_capacity(sheets.len() + 1);
    let mut rest = printed.as_slice();
    for parts in sheets.chunk_by(|one, next| one.slug == next.slug) {
        let (these, others) = rest.split_at(parts.len());
        rest = others;
        let first = &parts[0];
        let title = format!("{}: {}, {}", job.job, first.title, first.running.revision);
        let text = file(&templates, &title, (paper, limits), these)?;
        files.push((format!("{}.html", first.slug), text));
    }
    let title = format!("{}: all sheets", job.job);
    files.push((
        "all.html".to_owned(),
        file(&templates, &title, (paper, limits), &printed)?,
    ));
    Ok(files)
}

/// A sheet that stands alone, as one file.
pub(super) fn lone(sheet: Sheet, paper: Paper, limits: &str) -> Result<String, Fault> {
    let templates = Templates::new()?;
    let title = format!("{}: {}", sheet.running.job, sheet.title);
    let printed = print(&templates, 0, &sheet)?;
    file(&templates, &title, (paper, limits), &[printed])
}

fn print(templates: &Templates, at: usize, sheet: &Sheet) -> Result<Printed, Fault> {
    let running = &sheet.running;
    let left = format!("{} · {}", running.job, running.procedure);
    let right = joined(&[&running.revision, &running.date], " · ");
    Ok(Printed {
        at,
        over: sheet.over.clone(),
        title: sheet.title.clone(),
        head_left: css_string(&left),
        head_right: css_string(&right),
        content: html::blocks(templates, &sheet.blocks)?,
    })
}

fn file(
    templates: &Templates,
    title: &str,
    (paper, limits): (Paper, &str),
    sheets: &[Printed],
) -> Result<String, Fault> {
    let mut context = Context::new();
    context.insert("title", title);
    context.insert("style", STYLE);
    context.insert(
        "paper",
        match paper {
            Paper::A4 => "A4",
            Paper::Letter => "letter",
        },
    );
    context.insert("limits", &css_string(limits));
    context.insert("sheets", sheets);
    templates.fill("sheets.html", &context)
}
