//! `faceside check PATH...`: single files, each read as what its first words say that it is.
//!
//! A procedure, a job or a note is checked against the open shop, which need not hold it; of the
//! other files of a shop the form is checked. A folder is a shop of its own.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use super::check::{example_faults, job_faults, whole};
use crate::caution::Book;
use crate::diag::{Code, Fault, Faults, Source, Span};
use crate::procedure::{Routines, check as check_procedure, load};
use crate::search::{Note, Terms};
use crate::shop::{read_cutters, read_machines, read_shop};
use crate::store::{Workshop, find_shop, read_file};
use crate::training::read_people;

/// The faults of all files that were named.
pub(super) fn check_files(paths: &[PathBuf], workshop: &Workshop) -> Faults {
    let mut faults = Faults::new();
    for path in paths {
        if path.is_dir() {
            faults.extend(shop(path));
        } else if let Some(source) = faults.keep(read_file(path)) {
            faults.extend(file(&source, workshop));
        }
    }
    faults
}

fn shop(folder: &Path) -> Faults {
    if let Err(fault) = find_shop(Some(folder), None, folder) {
        return fault.into();
    }
    match Workshop::open(Some(folder), None) {
        Ok((workshop, mut faults)) => {
            faults.extend(whole(&workshop));
            faults
        }
        Err(faults) => faults,
    }
}

fn file(source: &Arc<Source>, workshop: &Workshop) -> Faults {
    let unit = workshop.shop.units;
    let keys = [
        "job",
        "cutter",
        "machine",
        "shop",
        "terms",
        "routine",
        "instructors",
        "procedure",
    ];
    let cautions = ["cautions", "pairs", "forbidden", "limits"];
    let begins = |key: &&str| source.text.lines().any(|line| first_key(line) == *key);
    if source.name.ends_with(".md") {
        return match Note::read(source) {
            Ok(note) => workshop.broken_links(&note),
            Err(told) => told,
        };
    }
    if cautions.iter().any(begins) {
        return Book::read(std::slice::from_ref(source)).1;
    }
    match keys.iter().find(|key| begins(key)) {
        Some(&"job") => job_faults(source, workshop),
        Some(&"cutter") => read_cutters(source, unit).1,
        Some(&"machine") => read_machines(source, unit).1,
        Some(&"shop") => read_shop(source).1,
        Some(&"terms") => Terms::read(source).1,
        Some(&"routine") => Routines::read(source).1,
        Some(&"instructors") => read_people(source).1,
        Some(_) => procedure(source, workshop),
        None if source.text.trim().is_empty() => procedure(source, workshop),
        None => unknown(source).into(),
    }
}

/// The key that a line at the left edge begins with, be it that of an item of a list.
fn first_key(line: &str) -> &str {
    let entry = line.strip_prefix("- ").unwrap_or(line);
    let key = entry.trim_start_matches('{').split_once(':');
    key.map_or("", |(key, _)| key)
}

fn procedure(source: &Arc<Source>, workshop: &Workshop) -> Faults {
    let (procedure, mut faults) = load(source, &workshop.routines);
    let Some(procedure) = procedure else {
        return faults;
    };
    faults.extend(check_procedure(&procedure, workshop.place()));
    if !faults.any_error() {
        faults.extend(example_faults(&procedure, workshop));
    }
    faults
}

fn unknown(source: &Arc<Source>) -> Fault {
    let message = "the file does not say what it is";
    Fault::error(Code::MISSING_KEY, message)
        .at(Span::new(source, 0, 0))
        .hint("begin it with `procedure:`, `job:`, or the first key of another file of a shop")
}
