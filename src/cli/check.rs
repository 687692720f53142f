//! `faceside check [PATH...]`: is everything in order?
//!
//! Tells every fault of every file with its place. Exit code 1 when one of them is an error.

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;
use std::sync::Arc;

use serde_json::json;

use super::args::{Check, Common};
use super::check_files::check_files;
use super::open::{folder, unit};
use super::output::Output;
use super::site::pages;
use super::watch::watch;
use super::{End, Stop};
use crate::diag::{Code, Fault, Faults, Severity, Source, nearest};
use crate::jobs::{Job, plan};
use crate::procedure::{Procedure, check as check_procedure, example, fill};
use crate::render::{Built, Sink, site_into};
use crate::shoplog;
use crate::store::Workshop;

/// What was found.
pub(super) struct Verdict {
    /// Every fault.
    pub(super) faults: Faults,
    /// What was checked: `40 procedures, 30 notes, 1 job`.
    checked: String,
}

/// Checks the shop or the files that were named.
pub(super) fn check(typed: &Check, common: &Common, out: &mut Output) -> Result<End, Stop> {
    if let Some(code) = &typed.explain {
        return explain(code, out);
    }
    let folder = folder(common)?;
    if typed.watch {
        return watch(typed, common, folder.as_deref(), out);
    }
    let verdict = judge(typed, common, folder.as_deref());
    if common.json {
        out.json(&verdict.json());
    } else {
        out.report(verdict.faults.iter());
        out.say(&verdict.line());
    }
    Ok(if verdict.faults.any_error() {
        End::Findings
    } else {
        End::Done
    })
}

/// One look at everything that is to be checked.
pub(super) fn judge(typed: &Check, common: &Common, folder: Option<&Path>) -> Verdict {
    match Workshop::open(folder, unit(common)) {
        Err(faults) => Verdict {
            faults,
            checked: "the shop's files".to_owned(),
        },
        Ok((workshop, mut faults)) if typed.paths.is_empty() => {
            faults.extend(whole(&workshop));
            Verdict {
                faults,
                checked: counts(&workshop),
            }
        }
        Ok((workshop, _)) => Verdict {
            faults: check_files(&typed.paths, &workshop),
            checked: counted(typed.paths.len(), "file"),
        },
    }
}

impl Verdict {
    /// The verdict in a line.
    pub(super) fn line(&self) -> String {
        let state = if self.faults.any_error() {
            "errors above"
        } else {
            "in order"
        };
        format!("{} checked: {state}", self.checked)
    }

    /// All of it as JSON.
    pub(super) fn json(&self) -> serde_json::Value {
        let faults: Vec<_> = self.faults.told().iter().map(as_json).collect();
        json!({"version": 1, "faults": faults})
    }
}

fn counts(workshop: &Workshop) -> String {
    let counts = [
        counted(workshop.usable().count(), "procedure"),
        counted(workshop.notes.len(), "note"),
        counted(workshop.jobs.len(), "job"),
    ];
    counts.join(", ")
}

fn counted(number: usize, what: &str) -> String {
    let plural = if number == 1 { "" } else { "s" };
    format!("{number} {what}{plural}")
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

/// Everything: procedures checked and filled from their examples, jobs planned, the record read.
pub(super) fn whole(workshop: &Workshop) -> Faults {
    let mut faults = workshop.check();
    let errors = faults.iter().filter(|one| one.severity == Severity::Error);
    let places = errors.filter_map(|one| one.span.as_ref());
    let faulty: BTreeSet<String> = places.map(|place| place.source().name.clone()).collect();
    let mut not_here = Vec::new();
    for procedure in workshop.usable() {
        if faulty.contains(&procedure.source.name) {
            continue;
        }
        let told = example_faults(procedure, workshop);
        match told.iter().next() {
            Some(first) if workshop.is_borrowed(procedure) => {
                not_here.push((procedure.id.as_str(), first.clone()));
            }
            _ => faults.extend(told),
        }
    }
    faults.extend(cannot_be_used(&not_here));
    for source in workshop.jobs.values() {
        faults.extend(job_faults(source, workshop));
    }
    for source in &workshop.record {
        faults.extend(shoplog::read(source).1);
    }
    if !faults.any_error() {
        faults.extend(page_faults(workshop));
    }
    faults
}

/// Built-in procedures that this shop has not the cutters for: no error, since they may never be
/// wanted here, and one word for all.
fn cannot_be_used(not_here: &[(&str, Fault)]) -> Option<Fault> {
    let (id, first) = not_here.first()?;
    if let [_] = not_here {
        let why = &first.message;
        let message =
            format!("the built-in `{id}` cannot be used in this shop as it stands: {why}");
        return Some(Fault {
            severity: Severity::Warning,
            message,
            ..first.clone()
        });
    }
    let ids: Vec<&str> = not_here.iter().map(|(id, _)| *id).collect();
    let message = format!(
        "{} built-in procedures cannot be used in this shop as it stands: {}",
        ids.len(),
        ids.join(", ")
    );
    let hint = format!(
        "take one into a job to be told why, as for `{id}`: {}",
        first.message
    );
    Some(Fault::warning(Code::REFUSED, message).hint(hint))
}

/// What stands in the way of a procedure's own worked example.
pub(super) fn example_faults(procedure: &Procedure, workshop: &Workshop) -> Faults {
    let place = workshop.place();
    let filled = fill(procedure, place, &example(procedure, place));
    filled.err().unwrap_or_default()
}

/// What is wrong with a job; the errors of its procedures are told with those.
pub(super) fn job_faults(source: &Arc<Source>, workshop: &Workshop) -> Faults {
    let mut job = match Job::read(source) {
        Ok(job) => job,
        Err(told) => return told,
    };
    let mut known: BTreeMap<String, bool> = BTreeMap::new();
    job.parts.retain(|part| {
        let id = &part.procedure.0;
        let sound = |one| !check_procedure(one, workshop.place()).any_error();
        let found = || match workshop.procedures.get(id) {
            Some(procedure) => sound(procedure),
            None => workshop.drafts.iter().all(|draft| draft.id != *id),
        };
        *known.entry(id.clone()).or_insert_with(found)
    });
    let planned = plan(&job, &workshop.procedures, workshop.place(), "");
    planned.err().unwrap_or_default()
}

/// Errors of the site's pages, such as a link of a note that leads nowhere.
fn page_faults(workshop: &Workshop) -> Faults {
    struct Nowhere;
    impl Sink for Nowhere {
        fn put(&self, _: &str, _: Vec<u8>) -> Result<(), Fault> {
            Ok(())
        }

        fn keep(&self, _: &str) -> Result<bool, Fault> {
            Ok(false)
        }
    }
    site_into(&pages(workshop), &Built::default(), &Nowhere)
        .err()
        .unwrap_or_default()
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
