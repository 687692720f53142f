//! The arrows between modules point downward only (see the head of `src/lib.rs`).
//!
//! Every `crate::module` path outside tests is read from the sources; an import from the same or
//! a higher layer fails, and so does a module that the table does not know.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::disallowed_methods,
    reason = "a test may fail, and looks at files itself"
)]

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

/// Layer of each module; `diag`, `units` and `yaml` are open to all above them.
const LAYERS: &[(&str, u8)] = &[
    ("diag", 0),
    ("cores.rs", 0),
    ("cores", 0),
    ("units", 1),
    ("yaml", 1),
    ("formula", 2),
    ("wood", 2),
    ("shop", 3),
    ("joints", 4),
    ("caution", 4),
    ("procedure", 5),
    ("jobs", 6),
    ("shoplog", 6),
    ("training", 6),
    ("search", 6),
    ("store", 7),
    ("render", 7),
    ("live", 8),
    ("cli", 9),
];

/// The library's heads and the program itself stand above all layers.
const HEADS: &[&str] = &["lib.rs", "main.rs"];

/// Imports that a layer may make besides lower ones: training writes the record's events.
const SIDEWAYS: &[(&str, &str)] = &[("training", "shoplog")];

fn rust_files(folder: &Path, found: &mut Vec<String>) {
    let mut entries: Vec<_> = fs::read_dir(folder)
        .unwrap()
        .map(|e| e.unwrap().path())
        .collect();
    entries.sort();
    for path in entries {
        if path.is_dir() {
            rust_files(&path, found);
        } else if path.extension().is_some_and(|end| end == "rs") {
            found.push(path.to_string_lossy().into_owned());
        }
    }
}

/// The text before its unit tests.
fn product(text: &str) -> &str {
    text.split("#[cfg(test)]").next().unwrap()
}

fn imports(text: &str) -> Vec<String> {
    let mut modules = Vec::new();
    for line in text
        .lines()
        .filter(|line| !line.trim_start().starts_with("//"))
    {
        for part in line.split("crate::").skip(1) {
            let name: String = part
                .chars()
                .take_while(|c| c.is_alphanumeric() || *c == '_')
                .collect();
            modules.push(name);
        }
    }
    modules
}

#[test]
fn modules_import_downward_only() {
    let layers: BTreeMap<_, _> = LAYERS.iter().copied().collect();
    let mut files = Vec::new();
    rust_files(Path::new("src"), &mut files);
    assert!(files.len() > 40, "the sources were not found: {files:?}");
    let mut edges = 0;
    let mut wrong = Vec::new();
    for file in files {
        let module = file
            .trim_start_matches("src/")
            .split('/')
            .next()
            .unwrap()
            .to_owned();
        if HEADS.contains(&module.as_str()) {
            continue;
        }
        let from = *layers
            .get(module.as_str())
            .unwrap_or_else(|| panic!("{file}: no layer"));
        let text = fs::read_to_string(&file).unwrap();
        for import in imports(product(&text)) {
            if import == module {
                continue;
            }
            edges += 1;
            let allowed = SIDEWAYS.contains(&(module.as_str(), import.as_str()));
            match layers.get(import.as_str()) {
                Some(to) if *to < from || allowed => {}
                other => wrong.push(format!("{file}: crate::{import} (layer {other:?})")),
            }
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
    assert!(edges > 60, "only {edges} imports were found");
}

#[test]
fn every_source_file_says_in_its_head_what_it_is_for() {
    let mut files = Vec::new();
    rust_files(Path::new("src"), &mut files);
    let headless: Vec<_> = files
        .iter()
        .filter(|file| !fs::read_to_string(file).unwrap().starts_with("//!"))
        .collect();
    assert!(headless.is_empty(), "{headless:?}");
}

#[test]
fn only_store_touches_files_and_only_cli_the_clock() {
    let mut files = Vec::new();
    rust_files(Path::new("src"), &mut files);
    for file in files {
        let text = fs::read_to_string(&file).unwrap();
        let product = product(&text);
        if !file.starts_with("src/store/") {
            assert!(!product.contains("std::fs"), "{file} uses std::fs");
        }
        if !file.starts_with("src/cli/") {
            assert!(!product.contains("DateTime::now"), "{file} reads the clock");
        }
    }
}

#[test]
fn no_unfinished_marks() {
    let mut files = Vec::new();
    rust_files(Path::new("src"), &mut files);
    for file in files {
        let text = fs::read_to_string(&file).unwrap();
        for mark in ["TODO", "FIXME", "todo!(", "unimplemented!(", "dbg!("] {
            assert!(!text.contains(mark), "{file} holds {mark}");
        }
    }
}
