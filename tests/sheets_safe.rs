//! The demo job carries its cautions: counted, not reviewed. The whole library: `library.rs`.
//!
//! The kinds are typed here from `safety.md` section 8 (coverage matrix, derived), apart from
//! `procedures/cautions/matrix.yaml`. C1 is reckoned here from the sizes; C2 is tried by taking
//! its rules away. The built-in files are inside the program, so a rule is taken from a copy.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::disallowed_methods,
    reason = "a test may fail, and looks at files itself"
)]

mod util;

use std::collections::BTreeSet;
use std::fs;

use faceside::caution::{Book, Caution, CautionKind, Operations};
use faceside::diag::{Code, Source};
use faceside::jobs::{Job, Sheets, plan};
use faceside::procedure::{Does, FilledSetUp, Workplace};
use faceside::store::Workshop;
use faceside::units::Length;
use util::{Folder, demo_shop, here};

/// Section 8, above its table: always required at a machine.
const EVERY: &[&str] = &["training", "ppe", "dust", "guard", "run-down", "isolate"];

/// Section 8: the rows without a rotating tool.
const BENCH: &[(&str, &[&str])] = &[
    (
        "chisel-plane-saw",
        &["hand-distance", "hold-support", "tool-security"],
    ),
    ("glue-up", &["fire-chem", "ppe", "training"]),
];

/// Section 8, C1 and C2 in the rows below: required when the sizes or the strip ask for it.
const SOMETIMES: &[(&str, &[&str])] = &[
    ("through-groove", &["hold-support", "offcut-trap"]),
    ("stopped-groove", &["offcut-trap"]),
    ("widen-groove", &["hold-support", "offcut-trap"]),
];

/// Section 8, the rows of the router table that the procedures use: kinds marked R.
const ROWS: &[(&str, &[&str])] = &[
    (
        "through-groove",
        &[
            "hand-distance",
            "feed-direction",
            "no-trap",
            "speed",
            "tool-security",
            "kickback",
        ],
    ),
    (
        "stopped-groove",
        &[
            "hand-distance",
            "feed-direction",
            "no-trap",
            "hold-support",
            "stopped-cut",
            "speed",
            "tool-security",
            "kickback",
        ],
    ),
    (
        "widen-groove",
        &[
            "hand-distance",
            "feed-direction",
            "no-trap",
            "speed",
            "tool-security",
            "kickback",
        ],
    ),
    (
        "dovetail-tail-on-end",
        &[
            "hand-distance",
            "feed-direction",
            "no-trap",
            "hold-support",
            "speed",
            "tool-security",
            "kickback",
        ],
    ),
];

fn kinds<'c>(cautions: impl Iterator<Item = &'c Caution>) -> BTreeSet<&'static str> {
    cautions.map(|caution| caution.kind().name()).collect()
}

/// The kinds of a row.
fn row(rows: &'static [(&str, &[&str])], operation: &str) -> &'static [&'static str] {
    rows.iter()
        .find(|(known, _)| *known == operation)
        .map_or(&[], |(_, kinds)| kinds)
}

/// C1: shorter than 300 mm, narrower than 150 mm, or over the table on either side of a cutter
/// in the middle of its 800 mm by 600 mm (the demo shop's figures).
fn must_be_supported(set_up: &FilledSetUp) -> bool {
    let mm = |mm: i64| Length::nm(mm * 1_000_000);
    set_up.piece.is_some_and(|piece| {
        piece.length < mm(300)
            || piece.width < mm(150)
            || piece.length > mm(400)
            || piece.width > mm(300)
    })
}

/// Checks one set-up; gives the numbers of standing cautions and of guarded steps.
fn is_guarded(procedure: &str, set_up: &FilledSetUp) -> (usize, usize) {
    let name = format!("{procedure}: {}", set_up.title);
    let steps = || set_up.steps.iter();
    let in_steps = steps().flat_map(|step| step.cautions());
    let all = kinds(set_up.standing.iter().chain(in_steps));
    let at_machine = set_up.machine.is_some();
    let of_row = row(if at_machine { ROWS } else { BENCH }, &set_up.operation);
    assert!(
        !of_row.is_empty(),
        "{name}: `{}` is not typed here",
        set_up.operation
    );
    let mut required: BTreeSet<&str> = of_row.iter().copied().collect();
    if at_machine {
        required.extend(EVERY);
        let is_c1 = row(SOMETIMES, &set_up.operation).contains(&"hold-support");
        required.extend((is_c1 && must_be_supported(set_up)).then_some("hold-support"));
    } else {
        // These two guard an edge tool and a pot of glue; work that only measures has neither.
        let does = |wanted: Does| steps().any(|step| step.does == wanted);
        required.retain(|kind| match *kind {
            "hand-distance" => does(Does::Hand),
            "fire-chem" => does(Does::Glue),
            _ => true,
        });
    }
    for kind in required {
        assert!(
            all.contains(kind),
            "{name}: no caution of the kind `{kind}`"
        );
    }
    for step in steps() {
        let before = kinds(step.cautions().iter());
        let wanted: &[&str] = match step.does {
            Does::Cut => &["hand-distance", "feed-direction", "no-trap"],
            Does::Adjust => &["isolate"],
            Does::Hand => &["hand-distance"],
            Does::Glue => &["fire-chem"],
            Does::Measure | Does::Other => &[],
        };
        for kind in wanted {
            assert!(
                before.contains(kind),
                "{name}: {:?} without `{kind}`",
                step.does
            );
        }
        let is_stopped = set_up.operation == "stopped-groove" && step.does == Does::Cut;
        assert!(
            !is_stopped || before.contains("stopped-cut"),
            "{name}: a stopped cut"
        );
    }
    let guarded = steps().filter(|step| !step.cautions().is_empty()).count();
    (set_up.standing.len(), guarded)
}

fn open() -> Workshop {
    Workshop::open(None, None)
        .map_err(|faults| format!("{faults:?}"))
        .unwrap()
        .0
}

/// The demo job with the cautions of a book; nothing when it is refused.
fn demo(shop: &Workshop, book: &Book) -> Option<Sheets> {
    let job = Job::read(&shop.jobs["boathouse-lockers"]).unwrap();
    let at = Workplace {
        book,
        ..shop.place()
    };
    plan(&job, &shop.procedures, at, "2026-11-25").ok()
}

#[test]
fn every_sheet_of_the_demo_job_has_its_whole_row() {
    let shop = open();
    let sheets = demo(&shop, &shop.book).unwrap();
    let mut met: BTreeSet<&str> = BTreeSet::new();
    let mut supported = 0;
    for list in &sheets.checklists {
        is_guarded(&list.procedure.0, &list.set_up);
        met.insert(&list.set_up.operation);
        let is_c1 = row(SOMETIMES, &list.set_up.operation).contains(&"hold-support");
        supported += usize::from(is_c1 && must_be_supported(&list.set_up));
    }
    for (operation, _) in ROWS {
        assert!(met.contains(operation), "no sheet is a `{operation}`");
    }
    // Lockers, racks and benches are all longer than half the table.
    assert!(supported > 0);
}

/// The built-in caution files, by name.
fn caution_files() -> Vec<(String, String)> {
    let folder = fs::read_dir(here().join("procedures/cautions")).unwrap();
    let mut files: Vec<(String, String)> = folder
        .map(|entry| entry.unwrap().path())
        .filter(|path| path.extension().is_some_and(|ending| ending == "yaml"))
        .map(|path| {
            let name = path.file_name().unwrap().display().to_string();
            (name, fs::read_to_string(path).unwrap())
        })
        .collect();
    files.sort();
    files
}

/// A file without the rule of an id: from its `- caution:` to the next.
fn without(text: &str, id: &str) -> Option<String> {
    let from = text.find(&format!("  - caution: {id}\n"))?;
    let rest = &text[from + 1..];
    let to = rest.find("\n  - caution: ");
    let end = to.map_or(text.len(), |to| from + 1 + to + 1);
    Some(format!("{}{}", &text[..from], &text[end..]))
}

fn book(files: &[(String, String)], left_out: Option<&str>) -> Book {
    let sources = files.iter().map(|(name, text)| {
        let shorter = left_out.and_then(|id| without(text, id));
        Source::new(name, shorter.as_deref().unwrap_or(text))
    });
    let (book, faults) = Book::read(&sources.collect::<Vec<_>>());
    assert!(!faults.any_error(), "{left_out:?}: {faults:?}");
    book
}

/// Kinds that a pair must have and no rule of the book is left for: whether always or sometimes.
fn lacking(book: &Book) -> Vec<(&'static str, &'static str, bool)> {
    let gives = |operation: &str, kind: &str, always: bool| {
        book.rules().any(|rule| {
            let fits = match &rule.operations {
                Operations::Every => true,
                Operations::These(list) => list.iter().any(|one| one == operation),
            };
            let holds = !always || rule.when_text().is_none();
            rule.machine == "router-table" && fits && holds && rule.kind.name() == kind
        })
    };
    let mut lacking = Vec::new();
    for (operation, kinds) in ROWS {
        for kind in kinds.iter().chain(EVERY) {
            if !gives(operation, kind, true) {
                lacking.push((*operation, *kind, true));
            }
        }
        for kind in row(SOMETIMES, operation) {
            if !gives(operation, kind, false) {
                lacking.push((*operation, *kind, false));
            }
        }
    }
    lacking
}

/// Each rule is taken away in turn: where a cut is left without a kind, `check` names both, and
/// nothing of the job prints.
#[test]
fn no_rule_can_be_taken_away_unnoticed() {
    let shop = open();
    let files = caution_files();
    let whole = book(&files, None);
    assert_eq!(lacking(&whole), []);
    assert!(!whole.check().any_error() && demo(&shop, &whole).is_some());
    let all = whole.rules().count();
    let of_the_job = ["router-table", "hand-tool", "glue-up"];
    let rules = whole
        .rules()
        .filter(|rule| of_the_job.contains(&rule.machine.as_str()));
    let ids: Vec<String> = rules.map(|rule| rule.id.clone()).collect();
    let (mut needed, mut spare) = (0, Vec::new());
    for id in &ids {
        let fewer = book(&files, Some(id));
        assert_eq!(fewer.rules().count(), all - 1, "{id}");
        let lacking = lacking(&fewer);
        let told = fewer.check();
        for (operation, kind, _) in &lacking {
            let names = |message: &str| {
                message.contains(&format!("`{operation}`"))
                    && message.contains(&format!("`{kind}`"))
            };
            assert!(
                told.iter()
                    .any(|one| one.code == Code::CAUTION_MISSING && names(&one.message)),
                "without {id}: `{operation}` lacks `{kind}`, and it is not told"
            );
        }
        if lacking.iter().any(|(_, _, always)| *always) {
            assert!(demo(&shop, &fewer).is_none(), "without {id} the job prints");
        }
        match lacking.is_empty() && !told.any_error() {
            true => spare.push(id.as_str()),
            false => needed += 1,
        }
    }
    println!("{needed} rules needed, spare: {spare:?}");
    assert!(needed >= 40, "{needed}");
}

/// The name of every kind is known to the program, so that a slip here cannot pass.
#[test]
fn the_kinds_typed_here_are_kinds() {
    let rows = ROWS.iter().chain(BENCH).chain(SOMETIMES);
    for kind in EVERY.iter().chain(rows.flat_map(|(_, row)| row.iter())) {
        assert!(CautionKind::find(kind).is_some(), "{kind}");
    }
}

/// Fails unless `check` tells the code, and neither a sheet, a page nor a lesson comes out.
#[track_caller]
fn nothing_prints(folder: &Folder, code: &str) {
    folder.run(&["check"]).code(1);
    let all = folder.run(&["check", "--json"]).out();
    assert!(all.contains(code), "no `{code}` in {all}");
    for command in [
        &["print", "--out", "others"][..],
        &["print", "--plain"],
        &["print", "--json"],
        &["site", "--out", "others"],
        &["train", "through-housing", "--sheet"],
    ] {
        let run = folder.run(command);
        run.code(1).complains(code);
        assert_eq!(run.out(), "", "{command:?}");
    }
    assert!(!folder.path().join("others").exists());
}

/// A shop that asks a kind of a pair that has no rule prints nothing at all.
#[test]
fn without_a_required_caution_nothing_prints() {
    let folder = demo_shop();
    folder.run(&["print", "--out", "sheets"]).code(0);
    for operation in ["oar-groove", "through-groove"] {
        let pair = format!(
            "pairs:\n  - {{machine: router-table, operation: {operation}, required: [fire-chem]}}\n"
        );
        let folder = demo_shop().file("cautions/mine.yaml", pair);
        nothing_prints(&folder, "caution-missing");
    }
}

/// A shop that takes a cut out of a built-in rule, or makes it milder, prints nothing at all.
#[test]
fn a_narrowed_caution_prints_nothing() {
    let (_, text) = caution_files()
        .into_iter()
        .find(|(name, _)| name == "router-table.yaml")
        .unwrap();
    let from = text.find("  - caution: rt-stopped-cut\n").unwrap();
    let rule = &text[from..from + text[from..].find("\n\n").unwrap() + 1];
    for (old, new) in [
        ("[stopped-groove]", "[through-groove]"),
        ("signal: warning", "signal: caution"),
        ("stands: cut", "stands: sheet"),
        ("kind: stopped-cut", "kind: kickback"),
    ] {
        assert!(rule.contains(old), "{old}");
        let narrowed = rule.replace(old, new);
        let file = format!("machine: router-table\ncautions:\n{narrowed}");
        let folder = demo_shop().file("cautions/mine.yaml", file);
        nothing_prints(&folder, "duplicate-id");
    }
}
