//! Every built-in procedure and the demo job carry their cautions: counted, not reviewed.
//!
//! The kinds are typed here from `safety.md` section 8 (coverage matrix, derived), apart from
//! `procedures/cautions/matrix.yaml`. C1 and C2 depend on sizes and are not counted on here.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::disallowed_methods,
    reason = "a test may fail, and looks at files itself"
)]

mod util;

use std::collections::BTreeSet;
use std::fs;

use faceside::caution::{Caution, CautionKind};
use faceside::procedure::{Does, FilledSetUp, example, fill};
use faceside::store::Workshop;
use util::{Folder, here};

/// Section 8, above its table: always required at a machine.
const EVERY: &[&str] = &["training", "ppe", "dust", "guard", "run-down"];

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

/// Checks one set-up at a machine; gives the numbers of cautions and of guarded steps.
fn is_guarded(procedure: &str, set_up: &FilledSetUp) -> (usize, usize) {
    let name = format!("{procedure}: {}", set_up.title);
    let steps = || set_up.steps.iter();
    let all = kinds(
        set_up
            .standing
            .iter()
            .chain(steps().flat_map(|step| step.cautions())),
    );
    let (_, row) = ROWS
        .iter()
        .find(|(operation, _)| *operation == set_up.operation)
        .unwrap_or_else(|| panic!("{name}: `{}` is not typed here", set_up.operation));
    for kind in EVERY.iter().chain(*row) {
        assert!(
            all.contains(kind),
            "{name}: no caution of the kind `{kind}`"
        );
    }
    for step in steps() {
        let before = kinds(step.cautions().iter());
        match step.does {
            Does::Cut => {
                for kind in ["hand-distance", "feed-direction", "no-trap"] {
                    assert!(before.contains(kind), "{name}: a cut without `{kind}`");
                }
            }
            Does::Adjust => {
                assert!(
                    before.contains("isolate"),
                    "{name}: an adjustment without `isolate`"
                );
            }
            _ => {}
        }
    }
    let guarded = steps().filter(|step| !step.cautions().is_empty()).count();
    (set_up.standing.len(), guarded)
}

#[test]
fn every_set_up_of_every_procedure_has_its_whole_row() {
    let (shop, _) = Workshop::open(None, None)
        .map_err(|faults| format!("{faults:?}"))
        .unwrap();
    let (mut set_ups, mut standing, mut guarded) = (0, 0, 0);
    for procedure in shop.procedures.values() {
        let filled = fill(procedure, shop.place(), &example(procedure, shop.place())).unwrap();
        for set_up in filled
            .set_ups
            .iter()
            .filter(|set_up| set_up.machine.is_some())
        {
            let (more, steps) = is_guarded(&procedure.id, set_up);
            (set_ups, standing, guarded) = (set_ups + 1, standing + more, guarded + steps);
        }
    }
    let pairs = shop.book.pairs().count();
    println!("{pairs} pairs, {set_ups} set-ups, {standing} standing, {guarded} guarded steps");
    assert!(
        set_ups >= 10 && guarded >= 50,
        "{set_ups} set-ups, {guarded} guarded steps"
    );
}

/// The name of every kind is known to the program, so that a slip here cannot pass.
#[test]
fn the_kinds_typed_here_are_kinds() {
    for kind in EVERY
        .iter()
        .chain(ROWS.iter().flat_map(|(_, row)| row.iter()))
    {
        assert!(CautionKind::find(kind).is_some(), "{kind}");
    }
}

/// A shop that asks a kind of a pair that has no rule prints nothing at all.
#[test]
fn without_a_required_caution_nothing_prints() {
    let mut folder = Folder::empty();
    for name in [
        "shop.yaml",
        "machines.yaml",
        "cutters.yaml",
        "jobs/boathouse-lockers.yaml",
    ] {
        folder = folder.file(
            name,
            fs::read_to_string(here().join("procedures/shop").join(name)).unwrap(),
        );
    }
    folder.run(&["print", "--out", "sheets"]).code(0);
    let folder = folder.file(
        "cautions/mine.yaml",
        "pairs:\n  - {machine: router-table, operation: oar-groove, required: [fire-chem]}\n",
    );
    folder
        .run(&["print", "--out", "others"])
        .code(1)
        .complains("caution-missing");
    folder.run(&["train", "through-housing", "--sheet"]).code(1);
    assert!(!folder.path().join("others").exists());
}
