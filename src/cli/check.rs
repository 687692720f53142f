//! `faceside check [PATH...]`: is everything in order?
//!
//! Tells every fault of every file with its place. Exit code 1 when one of them is an error.

use serde_json::json;

use super::args::{Check, Common};
use super::open::folder;
use super::output::Output;
use super::site::pages;
use super::{End, Stop};
use crate::diag::{Code, Fault, Faults, nearest};
use crate::jobs::{Job, plan};
use crate::procedure::{check as check_procedure, example, fill, load};
use crate::render::site;
use crate::store::{Workshop, read_file};

/// Checks the shop or the files that were named.
pub(super) fn check(typed: &Check, common: &Common, out: &mut Output) -> Result<End, Stop> {
    if let Some(code) = &typed.explain {
        return explain(code, out);
    }
    let folder = folder(common)?;
    let (workshop, loose) = Workshop::open(folder.as_deref(), super::open::unit(common))?;
    let faults = if typed.paths.is_empty() {
        let mut faults = loose;
        faults.extend(whole(&workshop));
        faults
    } else {
        files(typed, &workshop)
    };
    if common.json {
        let list: Vec<_> = faults.iter().map(as_json).collect();
        out.say(&format!("{:#}", json!({"version": 1, "faults": list})));
    } else {
        out.report(faults.iter());
        out.say(&format!(
            "{} procedures, {} notes, {} jobs checked: {}",
            workshop.usable().count(),
            workshop.notes.len(),
            workshop.jobs.len(),
            if faults.any_error() {
                "errors above"
            } else {
                "in order"
            }
        ));
    }
    Ok(if faults.any_error() {
        End::Findings
    } else {
        End::Done
    })
}

fn explain(code: &str, out: &mut Output) -> Result<End, Stop> {
    let Some(found) = Code::find(code) else {
        let names = Code::ALL.iter().map(|(code, _)| code.name());
        let near = nearest(code, names).map(|near| format!("did you mean `{near}`?"));
        let fault = Fault::error(
            Code::UNKNOWN_NAME,
            format!("no fault has the code `{code}`"),
        );
        return Err(Stop::Usage(fault.maybe_hint(near)));
    };
    out.say(&format!("{}: {}", found.name(), found.explanation()));
    Ok(End::Done)
}

/// Everything: procedures checked and filled from their examples, jobs planned.
fn whole(workshop: &Workshop) -> Faults {
    let mut faults = workshop.check();
    for procedure in workshop.usable() {
        if !check_procedure(procedure, workshop.place()).any_error() {
            let filled = fill(procedure, workshop.place(), &example(procedure));
            faults.extend(filled.err().into_iter().flatten());
        }
    }
    for source in workshop.jobs.values() {
        match Job::read(source) {
            Ok(job) => faults.extend(plan_faults(&job, workshop)),
            Err(told) => faults.extend(told),
        }
    }
    if !faults.any_error() {
        faults.extend(page_faults(workshop));
    }
    faults
}

/// Errors of the site's pages, such as a link of a note that leads nowhere.
fn page_faults(workshop: &Workshop) -> Faults {
    match pages(workshop) {
        Ok(pages) => site(&pages).err().map(Faults::from).unwrap_or_default(),
        Err(faults) => faults,
    }
}

fn plan_faults(job: &Job, workshop: &Workshop) -> Faults {
    let planned = plan(job, &workshop.procedures, workshop.place(), "");
    planned.err().unwrap_or_default()
}

/// The files that were named: a procedure, or a job.
fn files(typed: &Check, workshop: &Workshop) -> Faults {
    let mut faults = Faults::new();
    for path in &typed.paths {
        let Some(source) = faults.keep(read_file(path)) else {
            continue;
        };
        let is_job = source.text.lines().any(|line| line.starts_with("job:"));
        if is_job {
            match Job::read(&source) {
                Ok(job) => faults.extend(plan_faults(&job, workshop)),
                Err(told) => faults.extend(told),
            }
            continue;
        }
        let (procedure, told) = load(&source);
        let mut whole = !told.any_error();
        faults.extend(told);
        let Some(procedure) = procedure else { continue };
        let found = check_procedure(&procedure, workshop.place());
        whole &= !found.any_error();
        faults.extend(found);
        if whole {
            let filled = fill(&procedure, workshop.place(), &example(&procedure));
            faults.extend(filled.err().into_iter().flatten());
        }
    }
    faults
}

fn as_json(fault: &Fault) -> serde_json::Value {
    let place = fault.span.as_ref().map(|span| {
        let (line, column) = span.line_column();
        json!({"file": span.source().name, "line": line, "column": column})
    });
    json!({
        "code": fault.code.name(),
        "severity": format!("{:?}", fault.severity).to_lowercase(),
        "message": fault.message,
        "place": place,
        "hints": fault.hints,
    })
}
