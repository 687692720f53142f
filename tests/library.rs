//! The built-in library as a whole: every procedure that the shop is promised is there, is checked
//! without a word, fills from its own example and from the demo shop, prints, and carries at each
//! step every caution that its machine and operation ask for.
//!
//! The rows are typed here from `safety.md` section 8 (coverage matrix, derived), apart from
//! `procedures/cautions/matrix.yaml`; C1 and C2 are reckoned here from the sizes and left out where
//! the set-up alone cannot tell (a loose strip is a formula of the procedure).

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test may fail")]

mod example_job;
mod util;

use std::collections::BTreeSet;

use example_job::example_job;
use faceside::caution::{Caution, CautionKind};
use faceside::jobs::plan;
use faceside::procedure::{Does, Filled, FilledSetUp, example, fill, plain};
use faceside::store::Workshop;
use faceside::units::Length;
use util::Folder;

/// The ids that the shop is promised.
const JOINTS: [&str; 32] = [
    "through-housing",
    "stopped-housing",
    "housing-by-hand-router",
    "housing-on-table-saw",
    "sliding-dovetail",
    "one-sided-sliding-dovetail",
    "stopped-sliding-dovetail",
    "tapered-sliding-dovetail",
    "rebate",
    "rebate-on-table-saw",
    "tongue-and-groove",
    "tongue-in-housing",
    "end-halving",
    "cross-halving",
    "dovetail-halving",
    "bridle",
    "mortise-and-tenon",
    "haunched-mortise-and-tenon",
    "drawbored-mortise-and-tenon",
    "loose-tenon",
    "comb-joint",
    "through-dovetail",
    "lapped-dovetail",
    "splined-mitre",
    "keyed-mitre",
    "dowelled-joint",
    "edge-joint",
    "frame-and-panel",
    "scribed-joint",
    "breadboard-end",
    "drawer-box",
    "wedged-through-tenon",
];
const MACHINE_WORK: [&str; 12] = [
    "square-stock",
    "change-router-cutter",
    "set-router-table-fence",
    "measure-a-cutter",
    "true-table-saw",
    "fit-dado-head",
    "set-up-band-saw",
    "check-jointer",
    "set-up-thicknesser",
    "set-up-mortiser",
    "make-push-block",
    "make-end-grain-sled",
];

/// Columns of section 8.
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

/// Section 8, above its table: always required at a machine.
const ALWAYS: [&str; 6] = ["training", "ppe", "dust", "guard", "run-down", "isolate"];

/// Rows of section 8. A mitre key in its cradle is a jig like that of the box joint and has its
/// row; `setting` cuts nothing and has none. C3 to C6 (blade or speed changed, piece that may
/// twist, guard off or altered) cannot be told from a set-up and are left to the matrix.
const ROWS: &[(&str, &str, &str)] = &[
    ("router-table", "through-groove", "R R R C1 - R R R C2 -"),
    ("router-table", "stopped-groove", "R R R R R R R R C2 -"),
    ("router-table", "widen-groove", "R R R C1 - R R R C2 -"),
    ("router-table", "end-grain-narrow", "R R R R - R R R - -"),
    ("router-table", "rebate", "R R R C1 - R R R C2 -"),
    ("router-table", "edge-mould-fence", "R R R C1 - R R R C2 -"),
    ("router-table", "edge-mould-bearing", "R R - R - R R R - -"),
    (
        "router-table",
        "dovetail-tail-on-end",
        "R R R R - R R R - -",
    ),
    ("router-table", "box-joint-jig", "R R - R - R R R - -"),
    ("router-table", "mitre-key-cradle", "R R - R - R R R - -"),
    ("hand-router", "through-groove", "R R - R - R R R - -"),
    ("hand-router", "stopped-groove", "R R - R R R R R - -"),
    ("hand-router", "mortise-jig", "R R - R R R R R - -"),
    ("hand-router", "rebate", "R R - R - R R R - -"),
    ("hand-router", "edge-mould", "R R - R - R R R - -"),
    ("hand-router", "template", "R R - R - R R R C2 -"),
    ("table-saw", "rip", "R R - R - C3 R R R -"),
    ("table-saw", "crosscut", "R R - R - C3 R R R C4"),
    ("table-saw", "housing-nonthrough", "R R - R - R R R - R"),
    ("table-saw", "groove-nonthrough", "R R R R - R R R - R"),
    ("table-saw", "rebate", "R R R R - R R R R R"),
    ("table-saw", "tenon-cheek-on-end", "R R - R - C3 R R R R"),
    ("table-saw", "tenon-shoulder", "R R - R - C3 R R R R"),
    ("table-saw", "box-joint-jig", "R R - R - R R R - R"),
    ("table-saw", "mitre-key-cradle", "R R - R - R R R - R"),
    ("band-saw", "rip", "R R - R - - R C5 R -"),
    ("band-saw", "resaw", "R R - R - - R C5 R -"),
    ("band-saw", "curve", "R R - R - - R C5 R -"),
    ("band-saw", "tenon-cheek", "R R - R R - R C5 R -"),
    ("band-saw", "round-stock", "R R - R - - R R R -"),
    ("jointer", "face-plane", "R R - R - - R R - -"),
    ("jointer", "edge-plane", "R R - R - - R R - -"),
    ("jointer", "rebate", "R R - R - - R R - R"),
    ("thicknesser", "thickness", "R R - R - - R R - -"),
    ("drill-press", "drill", "R - - R - R R R - -"),
    ("mortiser", "hollow-chisel-mortise", "R - - R - R R - - -"),
    ("mortiser", "chain-mortise", "R - - R - - R R - -"),
    ("mitre-saw", "crosscut", "R R - R - C3 R R R -"),
    ("mitre-saw", "mitre", "R R - R - C3 R R R -"),
    ("mitre-saw", "trench-nonthrough", "R R - R - C3 R R - C6"),
    ("sander", "disc", "R R - R - - R C5 - -"),
    ("sander", "drum", "R R - R - - R C5 - -"),
    ("sander", "belt", "R R - R - - R C5 - -"),
];

fn open() -> Workshop {
    let opened = Workshop::open(None, None);
    opened.map_err(|faults| format!("{faults:?}")).unwrap().0
}

fn filled(shop: &Workshop) -> Vec<Filled> {
    let procedures = shop.procedures.values();
    procedures
        .map(|procedure| {
            let given = example(procedure, shop.place());
            fill(procedure, shop.place(), &given)
                .map_err(|faults| format!("{}: {faults:#?}", procedure.id))
                .unwrap()
        })
        .collect()
}

fn kinds<'c>(cautions: impl Iterator<Item = &'c Caution>) -> BTreeSet<&'static str> {
    cautions.map(|caution| caution.kind().name()).collect()
}

#[test]
fn every_procedure_that_is_promised_is_there() {
    let shop = open();
    let promised: BTreeSet<&str> = JOINTS.into_iter().chain(MACHINE_WORK).collect();
    let there: BTreeSet<&str> = shop.procedures.keys().map(String::as_str).collect();
    let lacking: Vec<_> = promised.difference(&there).collect();
    assert!(lacking.is_empty(), "{lacking:?}");
    assert!(shop.notes.len() >= 25, "{} notes", shop.notes.len());
}

#[test]
fn the_library_is_in_order_and_accepts_no_warning_without_a_reason() {
    let folder = Folder::empty();
    let run = folder.run(&["check"]);
    run.code(0);
    assert_eq!(run.err(), "");
    let shop = open();
    let accepted = shop.procedures.values().flat_map(|one| &one.accepted);
    let mut count = 0;
    for one in accepted {
        assert!(
            one.because.unfilled().split(' ').count() >= 4,
            "{}",
            one.code
        );
        count += 1;
    }
    println!("{count} warnings accepted");
}

/// Each procedure is a part of a job in the demo shop, and its sheets are planned and printed.
#[test]
fn each_procedure_prints_in_the_demo_shop() {
    let shop = open();
    for procedure in shop.procedures.values() {
        let job = example_job(procedure, shop.place());
        let sheets = plan(&job, &shop.procedures, shop.place(), "2026-11-25");
        let sheets = sheets
            .map_err(|faults| format!("{}: {faults:#?}", procedure.id))
            .unwrap();
        let printed = faceside::render::checklist_text(&sheets, 100, &shop.speech());
        assert!(printed.contains(&procedure.title), "{}", procedure.id);
        assert!(!printed.contains("{"), "{}: a slot is open", procedure.id);
    }
}

/// Counts pairs, texts and steps, and prints the figures.
#[test]
fn every_set_up_with_a_turning_cutter_has_its_whole_row() {
    let shop = open();
    let (mut pairs, mut texts) = (BTreeSet::new(), BTreeSet::new());
    let (mut set_ups, mut steps, mut before) = (0, 0, 0);
    for procedure in filled(&shop) {
        for set_up in &procedure.set_ups {
            let Some((id, _)) = &set_up.machine else {
                continue;
            };
            let machine = shop
                .machines
                .iter()
                .find(|machine| machine.id == *id)
                .unwrap();
            is_guarded(&procedure.procedure, &machine.kind, set_up);
            pairs.insert((machine.kind.clone(), set_up.operation.clone()));
            set_ups += 1;
            let in_steps = set_up.steps.iter().flat_map(|step| step.cautions());
            texts.extend(
                set_up
                    .standing
                    .iter()
                    .chain(in_steps)
                    .map(|one| one.id().to_owned()),
            );
            steps += set_up.steps.len();
            before += set_up
                .steps
                .iter()
                .filter(|step| !step.cautions().is_empty())
                .count();
        }
    }
    println!(
        "{} pairs of machine and operation in {set_ups} set-ups; {} texts of cautions; \
         {before} of {steps} steps with cautions before them",
        pairs.len(),
        texts.len(),
    );
    assert!(pairs.len() >= 25 && set_ups >= 130 && before >= 600);
}

fn is_guarded(procedure: &str, machine: &str, set_up: &FilledSetUp) {
    let name = format!("{procedure}: {}", set_up.title);
    let steps = || set_up.steps.iter();
    let all = kinds(
        set_up
            .standing
            .iter()
            .chain(steps().flat_map(|step| step.cautions())),
    );
    let adjusts = steps().any(|step| step.does == Does::Adjust);
    for kind in ALWAYS
        .into_iter()
        .filter(|kind| *kind != "isolate" || adjusts)
    {
        assert!(all.contains(kind), "{name}: no `{kind}`");
    }
    for step in steps().filter(|step| step.does == Does::Adjust) {
        let act = plain(&step.act);
        assert!(
            kinds(step.cautions().iter()).contains("isolate"),
            "{name}: {act}"
        );
    }
    if set_up.operation == "setting" {
        assert!(
            steps().all(|step| step.does != Does::Cut),
            "{name}: a cut while setting"
        );
        return;
    }
    let mut rows = ROWS.iter();
    let row = rows.find(|row| (row.0, row.1) == (machine, &set_up.operation));
    let cells = row
        .unwrap_or_else(|| panic!("{name}: {machine} {}", set_up.operation))
        .2;
    for (kind, cell) in COLUMNS.iter().zip(cells.split(' ')) {
        let required = cell == "R" || (cell == "C1" && must_be_supported(set_up));
        assert!(!required || all.contains(kind), "{name}: no `{kind}`");
    }
    // What a hand does in the cut is said before each cut, never only at the head.
    for step in steps().filter(|step| step.does == Does::Cut) {
        let said = kinds(step.cautions().iter());
        for (kind, cell) in COLUMNS.iter().zip(cells.split(' ')) {
            let sharp = ["hand-distance", "feed-direction", "no-trap", "stopped-cut"];
            let required = cell == "R" && sharp.contains(kind);
            let act = plain(&step.act);
            assert!(
                !required || said.contains(kind),
                "{name}: {act}: no `{kind}`"
            );
        }
    }
}

/// C1: shorter than 300 mm, narrower than 150 mm, or over the table on either side of a cutter in
/// the middle of its 800 mm by 600 mm (the demo shop's router table).
fn must_be_supported(set_up: &FilledSetUp) -> bool {
    let mm = |mm: i64| Length::nm(mm * 1_000_000);
    set_up.piece.is_some_and(|piece| {
        piece.length < mm(300)
            || piece.width < mm(150)
            || piece.length > mm(400)
            || piece.width > mm(300)
    })
}

/// The name of every kind is known to the program, so that a slip here cannot pass.
#[test]
fn the_kinds_typed_here_are_kinds() {
    for kind in COLUMNS.iter().chain(&ALWAYS) {
        assert!(CautionKind::find(kind).is_some(), "{kind}");
    }
}
