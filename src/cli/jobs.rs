//! Finds the job that was named and plans its sheets.

use std::path::Path;
use std::sync::Arc;

use super::Stop;
use super::clock::today;
use crate::diag::{Code, Fault, Faults, Severity, Source, nearest};
use crate::jobs::{Job, Sheets, plan};
use crate::procedure::{check, lacking};
use crate::shoplog::History;
use crate::store::{Workshop, read_file};

/// The job of that name, or the only one when none is named.
pub(super) fn job(name: Option<&str>, workshop: &Workshop) -> Result<Job, Stop> {
    Ok(Job::read(&source(name, workshop)?)?)
}

fn source(name: Option<&str>, workshop: &Workshop) -> Result<Arc<Source>, Stop> {
    let ids = || workshop.jobs.keys().map(String::as_str);
    let Some(name) = name else {
        let mut jobs = workshop.jobs.values();
        return match (jobs.next(), jobs.next()) {
            (Some(job), None) => Ok(Arc::clone(job)),
            (None, _) => Err(Stop::Usage(
                Fault::error(Code::VALUE_MISSING, "this shop has no job")
                    .hint("put a file into its folder `jobs`, or name one"),
            )),
            _ => Err(Stop::Usage(
                Fault::error(Code::VALUE_MISSING, "this shop has several jobs").hint(format!(
                    "name one: {}",
                    ids().collect::<Vec<_>>().join(", ")
                )),
            )),
        };
    };
    if let Some(job) = workshop.jobs.get(name) {
        return Ok(Arc::clone(job));
    }
    if name.ends_with(".yaml") || Path::new(name).is_file() {
        return Ok(read_file(Path::new(name))?);
    }
    let hint = match nearest(name, ids()) {
        Some(near) => format!("did you mean `{near}`?"),
        None => format!("jobs here: {}", ids().collect::<Vec<_>>().join(", ")),
    };
    let message = format!("no job is called `{name}`");
    Err(Stop::Usage(
        Fault::error(Code::UNKNOWN_NAME, message).hint(hint),
    ))
}

/// Says on each checklist how its set-up was last cut here.
pub(super) fn put_history(sheets: &mut Sheets, history: &History<'_>) {
    for list in &mut sheets.checklists {
        list.history = history.last_cut(&list.procedure.0, Some(&list.set_up.title));
    }
}

/// Plans a job; a procedure of it with an error prints nothing.
pub(super) fn sheets(job: &Job, workshop: &Workshop) -> Result<Sheets, Stop> {
    let mut faults = Faults::new();
    let mut seen: Vec<&str> = Vec::new();
    for part in &job.parts {
        let id = part.procedure.0.as_str();
        if let Some(procedure) = workshop.procedures.get(id).filter(|_| !seen.contains(&id)) {
            seen.push(id);
            if lacking(procedure, workshop.place()).is_some() {
                continue;
            }
            let found = check(procedure, workshop.place()).into_iter();
            faults.extend(found.filter(|fault| fault.severity == Severity::Error));
        }
    }
    if faults.any_error() {
        return Err(faults.into());
    }
    Ok(plan(job, &workshop.procedures, workshop.place(), &today())?)
}
