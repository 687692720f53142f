//! The built-in cautions against the coverage matrix, and the engine against what would weaken it.
//!
//! Outside references: the coverage matrix is typed here row by row from the project's safety
//! reference, section 8 (our own engineering judgement, derived; not a published table); the
//! thresholds of 300 mm and 150 mm from its section 3 (common practice, no authority); the signal
//! words from its section 6.1 (ANSI Z535.4-2007, 4.14, read as quoted). Directions of feed are
//! derived in `caution_texts.rs` from the rotation.

mod caution_files;
mod caution_matrix;
mod caution_texts;
mod planers_and_routers;
mod saws;

use std::collections::BTreeSet;
use std::sync::{Arc, LazyLock};

use faceside::caution::{Book, Caution};
use faceside::diag::{Code, Faults, Source};
use faceside::formula::Values;
use faceside::shop::Jurisdiction;
use faceside::units::{Length, Value};

const FILES: [(&str, &str); 16] = [
    (
        "router-table.yaml",
        include_str!("../../procedures/cautions/router-table.yaml"),
    ),
    (
        "table-saw.yaml",
        include_str!("../../procedures/cautions/table-saw.yaml"),
    ),
    (
        "band-saw.yaml",
        include_str!("../../procedures/cautions/band-saw.yaml"),
    ),
    (
        "mitre-saw.yaml",
        include_str!("../../procedures/cautions/mitre-saw.yaml"),
    ),
    (
        "spindle-moulder.yaml",
        include_str!("../../procedures/cautions/spindle-moulder.yaml"),
    ),
    (
        "sander.yaml",
        include_str!("../../procedures/cautions/sander.yaml"),
    ),
    (
        "hand-router.yaml",
        include_str!("../../procedures/cautions/hand-router.yaml"),
    ),
    (
        "jointer.yaml",
        include_str!("../../procedures/cautions/jointer.yaml"),
    ),
    (
        "thicknesser.yaml",
        include_str!("../../procedures/cautions/thicknesser.yaml"),
    ),
    (
        "drill-press.yaml",
        include_str!("../../procedures/cautions/drill-press.yaml"),
    ),
    (
        "mortiser.yaml",
        include_str!("../../procedures/cautions/mortiser.yaml"),
    ),
    (
        "hand-tool.yaml",
        include_str!("../../procedures/cautions/hand-tool.yaml"),
    ),
    (
        "glue-up.yaml",
        include_str!("../../procedures/cautions/glue-up.yaml"),
    ),
    (
        "finish.yaml",
        include_str!("../../procedures/cautions/finish.yaml"),
    ),
    (
        "matrix.yaml",
        include_str!("../../procedures/cautions/matrix.yaml"),
    ),
    (
        "limits.yaml",
        include_str!("../../procedures/cautions/limits.yaml"),
    ),
];

/// Columns of the matrix, section 8.
const COLUMNS: [&str; 10] = [
    "hand-distance",
    "feed-direction",
    "no-trap",
    "hold-support",
    "stopped-cut",
    "speed",
    "tool-security",
    "kickback",
    "offcut-trap",
    "restore-guard",
];

/// Rows of the router table, section 8, as they stand there; the mitre key in its cradle is a jig
/// like that of the box joint, and has its row.
const ROUTER_TABLE: [(&str, &str); 10] = [
    ("through-groove", "R R R C1 - R R R C2 -"),
    ("stopped-groove", "R R R R R R R R C2 -"),
    ("widen-groove", "R R R C1 - R R R C2 -"),
    ("end-grain-narrow", "R R R R - R R R - -"),
    ("rebate", "R R R C1 - R R R C2 -"),
    ("edge-mould-fence", "R R R C1 - R R R C2 -"),
    ("edge-mould-bearing", "R R - R - R R R - -"),
    ("dovetail-tail-on-end", "R R R R - R R R - -"),
    ("box-joint-jig", "R R - R - R R R - -"),
    ("mitre-key-cradle", "R R - R - R R R - -"),
];

/// "For every machine row these are always required", section 8.
const ALWAYS: [&str; 6] = ["training", "ppe", "dust", "guard", "run-down", "isolate"];

/// Rows without a rotating tool, section 8. The hand-tool row asks for three kinds; of those that
/// every machine row needs, training and protection have a meaning there, and are asked too.
const BENCH: [(&str, &str, &[&str]); 3] = [
    (
        "hand-tool",
        "chisel-plane-saw",
        &[
            "hand-distance",
            "hold-support",
            "tool-security",
            "training",
            "ppe",
        ],
    ),
    ("glue-up", "glue-up", &["fire-chem", "ppe", "training"]),
    ("finish", "finish", &["fire-chem", "ppe", "training"]),
];

fn read(files: &[(&str, String)]) -> (Book, Faults) {
    let sources: Vec<Arc<Source>> = files
        .iter()
        .map(|(name, text)| Source::new(*name, text.clone()))
        .collect();
    Book::read(&sources)
}

fn files() -> Vec<(&'static str, String)> {
    FILES.map(|(name, text)| (name, text.to_owned())).to_vec()
}

/// The built-in book; read once, since reading takes longer than the tests.
fn book() -> &'static Book {
    static BOOK: LazyLock<Book> = LazyLock::new(|| {
        let (book, faults) = read(&files());
        assert!(faults.is_empty(), "{faults:#?}");
        book
    });
    &BOOK
}

/// The built-in book as a shop under a jurisdiction reads it.
fn book_in(jurisdiction: Jurisdiction) -> Book {
    book().clone().with_jurisdiction(jurisdiction)
}

/// The built-in book with a shop's file after it.
fn with(text: &str) -> (Book, Faults) {
    let mut all = files();
    all.push(("shop/cautions/own.yaml", text.to_owned()));
    read(&all)
}

/// A piece of 500 x 200 x 18 mm on a table of 1200 x 600 mm: no condition of the matrix holds.
fn plain() -> Values {
    let lengths = [
        ("piece.length", 500.0),
        ("piece.width", 200.0),
        ("piece.thickness", 18.0),
        ("cutter.diameter", 12.0),
        ("table.length", 1200.0),
        ("table.width", 600.0),
        ("short_piece", 300.0),
        ("hand_distance", 150.0),
    ];
    let mut values = Values::new();
    for (name, mm) in lengths {
        values.insert(name, Value::Length(Length::mm(mm)));
    }
    values.insert("leaves_strip", Value::Truth(false));
    values
}

fn but(name: &str, value: Value) -> Values {
    let mut values = plain();
    values.insert(name, value);
    values
}

fn mm(mm: f64) -> Value {
    Value::Length(Length::mm(mm))
}

/// Every condition of the matrix holds: a piece of 200 mm that leaves a strip.
fn all_hold() -> Values {
    let mut values = but("piece.length", mm(200.0));
    values.insert("leaves_strip", Value::Truth(true));
    values
}

#[track_caller]
fn select(machine: &str, operation: &str, values: &Values) -> Vec<Caution> {
    let selected = book().select(machine, operation, values);
    assert!(selected.is_ok(), "{machine} {operation}: {selected:#?}");
    selected.map_or_else(|_| Vec::new(), |selected| selected.all().to_vec())
}

/// The kinds that a row of the matrix asks for, given which of its conditions hold.
fn asked(row: &str, holds: &dyn Fn(&str) -> bool) -> BTreeSet<&'static str> {
    COLUMNS
        .iter()
        .zip(row.split(' '))
        .filter(|(_, cell)| *cell == "R" || holds(cell))
        .map(|(kind, _)| *kind)
        .chain(ALWAYS)
        .collect()
}

#[track_caller]
fn kinds(machine: &str, operation: &str, values: &Values) -> BTreeSet<&'static str> {
    select(machine, operation, values)
        .iter()
        .map(|caution| caution.kind().name())
        .collect()
}

fn codes(faults: &Faults) -> Vec<Code> {
    faults.iter().map(|fault| fault.code).collect()
}

/// A file's text without one of its rules.
fn without(text: &str, id: &str) -> String {
    let mut kept = Vec::new();
    let mut inside = false;
    for line in text.lines() {
        if let Some(name) = line.strip_prefix("  - caution: ") {
            inside = name == id;
        }
        if !inside {
            kept.push(line);
        }
    }
    kept.join("\n").replace("cautions:\n\n", "cautions:\n")
}
