//! A page of the site worked out anew from what is typed into it, by the same code as the commands.
//!
//! `.ci/live` builds this crate with the feature `page` to WebAssembly. A page opens a [`Bench`] with
//! the shop's files and what it is about, once, and then asks for one set of texts after the other;
//! question and answer are JSON. `abi` is the door to the page: the only place with exported names.
//!
//! | question | answer |
//! |---|---|
//! | `{"open": {"files": .., "about": .., "units": "mm"}}` | `{}` |
//! | `{"work": {"stock": "19 mm", ..}}` | `{"parts": [[id, HTML], ..], "said": .., "faults": {"stock": ..}}` |
//!
//! What cannot be done at all (a file of the shop that cannot be read) is `{"broken": why}`.

pub mod abi;
mod bench;
mod files;

pub use bench::{Bench, Reply};
pub use files::LiveFiles;

use std::collections::BTreeMap;

use serde::Deserialize;
use serde_json::json;

use bench::About;

#[derive(Deserialize)]
#[serde(rename_all = "kebab-case")]
enum Question {
    Open(Box<Opening>),
    Work(BTreeMap<String, String>),
}

#[derive(Deserialize)]
struct Opening {
    files: LiveFiles,
    about: About,
    units: String,
}

/// Answers one question; opening leaves the open bench for those that follow.
pub fn ask(bench: &mut Option<Bench>, question: &str) -> String {
    answer(bench, question).unwrap_or_else(|why| json!({ "broken": why }).to_string())
}

fn answer(bench: &mut Option<Bench>, question: &str) -> Result<String, String> {
    let question = serde_json::from_str(question).map_err(|error| error.to_string())?;
    match question {
        Question::Open(opening) => {
            let Opening {
                files,
                about,
                units,
            } = *opening;
            *bench = None;
            *bench = Some(Bench::open(&files, about, &units)?);
            Ok("{}".to_owned())
        }
        Question::Work(texts) => {
            let bench = bench.as_ref().ok_or("nothing is open")?;
            let reply = bench.work(&texts)?;
            serde_json::to_string(&reply).map_err(|error| error.to_string())
        }
    }
}
