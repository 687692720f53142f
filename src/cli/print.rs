//! `faceside print [JOB]`: the job's checklists, to the terminal and as HTML for paper.

use std::path::PathBuf;

use super::args::{Common, PaperWord, Print};
use super::jobs::{job, put_history, sheets};
use super::open::{events, open};
use super::output::Output;
use super::{End, Stop};
use crate::diag::{Fault, Severity};
use crate::render::{checklist_html, checklist_text, sheets_json};
use crate::shop::Paper;
use crate::shoplog::History;
use crate::store::{Page, leave_print, replace_folder};

/// Prints a job.
pub(super) fn print(typed: &Print, common: &Common, out: &mut Output) -> Result<End, Stop> {
    let workshop = open(common, out)?;
    let job = job(typed.job.as_deref(), &workshop)?;
    let mut sheets = sheets(&job, &workshop)?;
    let events = events(&workshop, out);
    put_history(&mut sheets, &History::new(&events));
    let speech = workshop.speech();
    let paper = match typed.paper {
        Some(PaperWord::A4) => Paper::A4,
        Some(PaperWord::Letter) => Paper::Letter,
        None => workshop.shop.paper,
    };
    if common.json {
        out.json(&sheets_json(&sheets));
    } else {
        out.say(&checklist_text(&sheets, Output::width(), &speech));
    }
    if typed.plain || (common.json && typed.out.is_none()) {
        return Ok(End::Done);
    }
    let pages: Vec<Page> = checklist_html(&sheets, paper, &speech)?
        .into_iter()
        .map(|(name, html)| Page {
            path: PathBuf::from(name),
            bytes: html.into_bytes(),
        })
        .collect();
    let default = || PathBuf::from("out").join(&sheets.job);
    let folder = typed.out.clone().unwrap_or_else(default);
    replace_folder(&folder, "print", &pages)?;
    // Without a shop nothing is left but in the folder that such a print makes anyway.
    if workshop.folder.is_some() || typed.out.is_none() {
        let left = leave_print(&workshop.home(), &sheets, &workshop.shop.fits);
        // The sheets are whole; the record then asks for what stands on them.
        let warned = left.err().map(|fault| Fault {
            severity: Severity::Warning,
            ..fault
        });
        out.report(warned.iter());
    }
    if !common.json {
        let count = sheets.checklists.len();
        out.say(&format!(
            "{count} checklists as HTML for {}: {}",
            paper_name(paper),
            folder.join("all.html").display()
        ));
    }
    Ok(End::Done)
}

fn paper_name(paper: Paper) -> &'static str {
    match paper {
        Paper::A4 => "A4",
        Paper::Letter => "Letter",
    }
}
