//! What `faceside fit` works with where the last print does not say it: a procedure planned now,
//! from values that are typed.
//!
//! All that is measured must be given, and the cutter that is on the machine: nothing is taken from
//! an example or picked from the drawer, since a figure that moves a fence is today's.

use super::Stop;
use super::jobs::sheets;
use crate::diag::{Code, Fault, Faults, Source, Span, nearest};
use crate::jobs::{Job, Part};
use crate::procedure::{Choice, Given, Measure, Procedure, Want};
use crate::shoplog::{EntryKind, Printed};
use crate::store::{Workshop, printed};

/// A name and its text.
pub(super) type Answers<'t> = Vec<(&'t str, String)>;

/// A procedure with its values of now.
pub(super) struct Planned {
    /// As a print would leave it, of no job.
    pub(super) printed: Printed,
    /// What the values are warned of.
    pub(super) warnings: Vec<String>,
}

/// Measures that are taken before the first cut.
fn measures(procedure: &Procedure) -> impl Iterator<Item = &Measure> {
    let all = procedure.measures.iter();
    all.filter(|measure| measure.later.is_none())
}

/// Choices that must be made: the cutter is on the machine already.
fn choices(procedure: &Procedure) -> impl Iterator<Item = &Choice> {
    let all = procedure.choices.iter();
    all.filter(|choice| choice.usual.is_none() || matches!(choice.want, Want::Cutter { .. }))
}

/// Names and questions of what must be given.
fn needed(procedure: &Procedure) -> impl Iterator<Item = (&str, &str)> {
    let measures = measures(procedure).map(|one| (one.name.as_str(), one.ask.as_str()));
    measures.chain(choices(procedure).map(|one| (one.name.as_str(), one.ask.as_str())))
}

/// How a procedure is asked about without a print.
pub(super) fn way(procedure: &Procedure) -> String {
    let values = needed(procedure).map(|(name, _)| format!(" {name}=..."));
    let id = &procedure.id;
    let values: String = values.collect();
    format!("give what it measures, and the cutter: `faceside fit {id}{values}`")
}

/// Parts the values of the procedure from what is asked for a test cut. A name that both know, such
/// as `cutter`, is the procedure's where other values of it are given.
///
/// # Errors
/// `unknown-name` for one that neither knows.
pub(super) fn apart<'t>(
    procedure: &Procedure,
    answers: Answers<'t>,
) -> Result<(Answers<'t>, Answers<'t>), Fault> {
    let measures = procedure.measures.iter().map(|one| one.name.as_str());
    let choices = procedure.choices.iter().map(|one| one.name.as_str());
    let own: Vec<&str> = measures.chain(choices).collect();
    let fields = EntryKind::TestCut.fields().iter().map(|field| field.name);
    let fields: Vec<&str> = fields.collect();
    for (name, _) in &answers {
        if !own.contains(name) && !fields.contains(name) {
            let all = own.iter().chain(&fields).copied();
            let hint = match nearest(name, all.clone()) {
                Some(near) => format!("did you mean `{near}`?"),
                None => format!("it takes: {}", all.collect::<Vec<_>>().join(", ")),
            };
            let message = format!("`fit {}` takes no `{name}`", procedure.id);
            return Err(Fault::error(Code::UNKNOWN_NAME, message).hint(hint));
        }
    }
    let only_own = |name: &str| own.contains(&name) && !fields.contains(&name);
    if !answers.iter().any(|(name, _)| only_own(name)) {
        return Ok((Vec::new(), answers));
    }
    Ok(answers
        .into_iter()
        .partition(|(name, _)| own.contains(name)))
}

/// Plans one piece of a procedure from its values.
///
/// # Errors
/// Every value that is not given, cannot be read, or is refused.
pub(super) fn planned(
    procedure: &Procedure,
    values: &Answers<'_>,
    workshop: &Workshop,
) -> Result<Planned, Stop> {
    let given = given(procedure, values)?;
    let place = given.place.clone();
    let part = Part {
        procedure: (procedure.id.clone(), place.clone()),
        pieces: vec![(String::new(), 1)],
        pieces_place: place,
        given,
    };
    let job = Job {
        id: String::new(),
        title: procedure.title.clone(),
        parts: vec![part],
    };
    let sheets = sheets(&job, workshop)?;
    let mut warnings: Vec<String> = Vec::new();
    for warning in sheets.checklists.iter().flat_map(|list| &list.warnings) {
        if !warnings.contains(warning) {
            warnings.push(warning.clone());
        }
    }
    let mut printed = printed(&sheets, &workshop.shop.fits);
    // Nothing is on paper, so there is no check sum to find it by.
    printed.sheets = String::new();
    Ok(Planned { printed, warnings })
}

/// The part as it is typed.
fn given(procedure: &Procedure, values: &Answers<'_>) -> Result<Given, Faults> {
    let typed: Vec<String> = values
        .iter()
        .map(|(name, text)| format!("{name}={text}"))
        .collect();
    let source = Source::new("command line", typed.join(" "));
    let mut given = Given {
        part: procedure.id.clone(),
        place: Span::whole(&source),
        measured: std::collections::BTreeMap::new(),
        chosen: std::collections::BTreeMap::new(),
        names: std::collections::BTreeMap::new(),
    };
    let mut faults = Faults::new();
    let mut start = 0;
    for ((name, text), typed) in values.iter().zip(&typed) {
        let place = Span::new(&source, start + name.len() + 1, start + typed.len());
        start += typed.len() + 1;
        let is_measured = procedure.measures.iter().any(|one| one.name == *name);
        let kept = if is_measured {
            &mut given.measured
        } else {
            &mut given.chosen
        };
        let value = (text.trim().to_owned(), place.clone());
        if kept.insert((*name).to_owned(), value).is_some() {
            let message = format!("`{name}` is given twice");
            faults.push(Fault::error(Code::DUPLICATE_KEY, message).at(place));
        }
    }
    for (name, ask) in needed(procedure) {
        if !given.measured.contains_key(name) && !given.chosen.contains_key(name) {
            let message = format!("`{name}` is not given");
            faults.push(Fault::error(Code::VALUE_MISSING, message).hint(format!("asked: {ask}")));
        }
    }
    if faults.any_error() {
        return Err(faults);
    }
    Ok(given)
}
