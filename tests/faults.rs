//! What goes wrong in a shop's files, and the whole text that tells it.
//!
//! Each folder of `tests/faults` is a shop (the demo's habits, machines and cutters unless it has
//! its own) with a `command`, and beside it `expected`: standard error, standard output and exit
//! code. `FACESIDE_BLESS=1` writes `expected` anew; it is then read as a maker would.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::disallowed_methods,
    reason = "a test may fail, and looks at files itself"
)]

mod util;

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};
use std::thread;

use faceside::diag::Code;
use util::{Folder, here};

/// Codes that no file of a shop can cause.
const NOT_FROM_FILES: &[(&str, &str)] = &[
    ("address-taken", "a port of the machine: tests/site_watch"),
    ("search-index", "the index in memory cannot be built"),
    (
        "table-syntax",
        "a table comes on standard input: tests/figure_rows",
    ),
    ("template", "the page templates are inside the program"),
];

fn cases() -> Vec<PathBuf> {
    let folder = here().join("tests/faults");
    let mut cases: Vec<_> = fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .collect();
    cases.retain(|path| path.is_dir());
    cases.sort();
    cases
}

fn copy(from: &Path, to: &Path) {
    fs::create_dir_all(to).unwrap();
    for entry in fs::read_dir(from).unwrap() {
        let path = entry.unwrap().path();
        let target = to.join(path.file_name().unwrap());
        if path.is_dir() {
            copy(&path, &target);
        } else {
            fs::copy(&path, &target).unwrap();
        }
    }
}

/// What a case prints, as it stands in its golden.
fn told(case: &Path) -> String {
    let folder = Folder::empty();
    for name in ["shop.yaml", "machines.yaml", "cutters.yaml"] {
        fs::copy(
            here().join("procedures/shop").join(name),
            folder.path().join(name),
        )
        .unwrap();
    }
    copy(case, folder.path());
    let command = fs::read_to_string(case.join("command")).unwrap();
    let arguments: Vec<&str> = command.split_whitespace().collect();
    let run = folder.run(&arguments);
    format!(
        "{}---\n{}---\nexit code {}\n",
        run.err(),
        uncounted(&run.out()),
        run.exit()
    )
}

/// How many procedures and notes the library has is no part of a golden.
fn uncounted(out: &str) -> String {
    let number = |word: &str| word.parse::<u32>().is_ok();
    let line = |line: &str| {
        if !line.contains(" checked: ") {
            return format!("{line}\n");
        }
        let words = line.split(' ');
        let words: Vec<_> = words
            .map(|word| if number(word) { "N" } else { word })
            .collect();
        words.join(" ") + "\n"
    };
    out.lines().map(line).collect()
}

/// What is wrong with the answer of a case, if anything is.
fn judge(case: &Path, bless: bool) -> Option<String> {
    let told = told(case);
    let golden = case.join("expected");
    if bless {
        fs::write(&golden, &told).unwrap();
    }
    let expected = fs::read_to_string(&golden).unwrap_or_default();
    let name = case.display();
    (told != expected).then(|| format!("{name}\nexpected:\n{expected}\ntold:\n{told}"))
}

#[test]
fn each_fault_is_told_with_its_place_and_the_next_act() {
    let bless = std::env::var_os("FACESIDE_BLESS").is_some();
    let cases = cases();
    assert!(cases.len() > 30);
    let judge_all = |part: &[PathBuf]| -> Vec<String> {
        part.iter().filter_map(|case| judge(case, bless)).collect()
    };
    let (front, back) = cases.split_at(cases.len() / 2);
    let wrong = thread::scope(|scope| {
        let front = scope.spawn(|| judge_all(front));
        let back = judge_all(back);
        [front.join().unwrap(), back].concat()
    });
    assert!(wrong.is_empty(), "{}", wrong.join("\n\n"));
}

#[test]
fn every_code_has_a_case() {
    let goldens: String = cases()
        .iter()
        .map(|case| fs::read_to_string(case.join("expected")).unwrap())
        .collect();
    let cased: BTreeSet<&str> = Code::ALL
        .iter()
        .map(|(code, _)| code.name())
        .filter(|name| {
            let shown = [format!("error[{name}]"), format!("warning[{name}]")];
            shown.iter().any(|shown| goldens.contains(shown))
        })
        .collect();
    let excused: BTreeSet<&str> = NOT_FROM_FILES.iter().map(|(name, _)| *name).collect();
    for (code, explanation) in Code::ALL {
        let name = code.name();
        assert!(
            cased.contains(name) || excused.contains(name),
            "no case shows `{name}`"
        );
        assert!(
            !(cased.contains(name) && excused.contains(name)),
            "`{name}` has a case"
        );
        assert!(!explanation.trim().is_empty());
    }
}

#[test]
fn each_golden_has_a_place_or_says_where_and_a_hint() {
    for case in cases() {
        let golden = fs::read_to_string(case.join("expected")).unwrap();
        let faults: Vec<&str> = golden
            .split("\n\n")
            .filter(|t| t.starts_with("error["))
            .collect();
        for fault in faults {
            let placed = fault.contains("-->") || fault.contains('`');
            assert!(
                placed && fault.contains("help: "),
                "{}:\n{fault}",
                case.display()
            );
        }
    }
}
