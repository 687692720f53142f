//! The worked example of a procedure as a job of one part, two pieces.

#![allow(clippy::unwrap_used, reason = "a test may fail")]

use std::collections::BTreeMap;

use faceside::diag::Source;
use faceside::jobs::Job;
use faceside::procedure::{Procedure, Workplace, example};

/// The job, as a shop would write it.
pub(crate) fn example_job(procedure: &Procedure, at: Workplace<'_>) -> Job {
    let given = example(procedure, at);
    let entries = |values: &BTreeMap<String, (String, _)>| {
        let rows = values.iter().filter(|(name, _)| *name != "hand");
        let rows = rows.map(|(name, (text, _))| format!("      {name}: \"{text}\"\n"));
        rows.collect::<String>()
    };
    let pieces = match given.chosen.get("hand") {
        Some((hand, _)) => format!("{{{hand}: 2}}"),
        None => "2".to_owned(),
    };
    let mut text = format!(
        "job: try\ntitle: Try it\nparts:\n  - part: piece\n    procedure: {}\n    pieces: {pieces}\n",
        procedure.id
    );
    for (head, values) in [("measured", &given.measured), ("chosen", &given.chosen)] {
        let rows = entries(values);
        if !rows.is_empty() {
            text += &format!("    {head}:\n{rows}");
        }
    }
    Job::read(&Source::new("try.yaml", text)).unwrap()
}
