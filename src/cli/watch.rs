//! `faceside check --watch`: the verdict anew at each change, until Ctrl-C.
//!
//! A file that is half written gives the faults that it has at that moment, and is judged again
//! when the rest arrives. The faults stand above their verdict, as they do without `--watch`.

use std::path::Path;

use serde_json::Value;

use super::args::{Check, Common};
use super::check::judge;
use super::clock::time;
use super::output::Output;
use super::{End, Stop};
use crate::diag::{Code, Fault};
use crate::store::Watch;

/// Judges, waits for a change, and so on.
pub(super) fn watch(
    typed: &Check,
    common: &Common,
    folder: Option<&Path>,
    out: &mut Output,
) -> Result<End, Stop> {
    if folder.is_none() && typed.paths.is_empty() {
        let fault = Fault::error(Code::FILE_UNREADABLE, "the built-in library never changes");
        return Err(Stop::Usage(fault.hint(
            "go into the folder of a shop, or name a file; `faceside start` makes a shop",
        )));
    }
    // The watch begins before the first look, so that no change falls between the two.
    let mut watch = Watch::new(folder, &typed.paths)?;
    while !out.is_closed() {
        let verdict = judge(typed, common, folder);
        if common.json {
            let mut answer = verdict.json();
            answer["time"] = Value::String(time());
            out.say(&answer.to_string());
        } else {
            out.report(verdict.faults.iter());
            out.say(&format!("{}  {}", time(), verdict.line()));
        }
        watch.wait()?;
    }
    Ok(End::Done)
}
