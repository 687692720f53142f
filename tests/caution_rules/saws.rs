//! Saws: what their rows ask for, where it stands, and the directions.
//!
//! Outside references: the rows are typed from the project's safety reference, section 8 (our own
//! judgement, derived). `R*` is a cell with a condition there (C3 blade or speed changed, C4 knife
//! or hood taken off, C5 piece short, curved, round or thick) that no value of a set-up tells: the
//! kind is asked always.

use std::collections::BTreeSet;

use faceside::caution::{Caution, CautionKind, Stands};
use faceside::formula::Values;

use super::{ALWAYS, asked, kinds, plain, select};

/// Rows of the table saw. The mitre key in its cradle is a jig like that of the box joint.
const TABLE_SAW: &[(&str, &str)] = &[
    ("rip", "R R - R - R* R R R -"),
    ("crosscut", "R R - R - R* R R R R*"),
    ("housing-nonthrough", "R R - R - R R R - R"),
    ("groove-nonthrough", "R R R R - R R R - R"),
    ("rebate", "R R R R - R R R R R"),
    ("tenon-cheek-on-end", "R R - R - R* R R R R"),
    ("tenon-shoulder", "R R - R - R* R R R R"),
    ("box-joint-jig", "R R - R - R R R - R"),
    ("mitre-key-cradle", "R R - R - R R R - R"),
];

/// Rows of the band saw.
const BAND_SAW: &[(&str, &str)] = &[
    ("rip", "R R - R - - R R* R -"),
    ("resaw", "R R - R - - R R* R -"),
    ("curve", "R R - R - - R R* R -"),
    ("tenon-cheek", "R R - R R - R R* R -"),
    ("round-stock", "R R - R - - R R R -"),
];

/// Rows by machine.
pub(crate) const MACHINES: [(&str, &[(&str, &str)]); 2] =
    [("table-saw", TABLE_SAW), ("band-saw", BAND_SAW)];

/// Machines that are also set without a cut.
pub(crate) const SETTING: [&str; 3] = ["router-table", "table-saw", "band-saw"];

fn rows() -> impl Iterator<Item = (&'static str, &'static str, &'static str)> {
    MACHINES.iter().flat_map(|(machine, rows)| {
        rows.iter()
            .map(|(operation, row)| (*machine, *operation, *row))
    })
}

#[track_caller]
fn of_kind(machine: &str, operation: &str, kind: CautionKind) -> Caution {
    let all = select(machine, operation, &plain());
    let found: Vec<_> = all.into_iter().filter(|one| one.kind() == kind).collect();
    assert_eq!(found.len(), 1, "{machine} {operation} {}", kind.name());
    found.into_iter().next().unwrap()
}

#[test]
fn every_row_gives_what_it_says_and_no_more() {
    for (machine, operation, row) in rows() {
        let wanted = asked(row, &|cell| cell == "R*");
        let given = kinds(machine, operation, &plain());
        assert_eq!(given, wanted, "{machine} {operation}");
    }
}

#[test]
fn setting_without_a_cut_carries_what_every_machine_needs_and_no_more() {
    for machine in SETTING {
        let given = kinds(machine, "setting", &Values::new());
        assert_eq!(given, BTreeSet::from(ALWAYS), "{machine}");
    }
}

/// A stopped cut must be read before the step; so must what the hands do.
#[test]
fn before_each_cut_stand_the_sharp_cautions_and_four_at_most() {
    let sharp = [
        CautionKind::FeedDirection,
        CautionKind::NoTrap,
        CautionKind::HandDistance,
        CautionKind::StoppedCut,
        CautionKind::OffcutTrap,
    ];
    for (machine, operation, _) in rows() {
        let given = select(machine, operation, &plain());
        let at_cut = (given.iter()).filter(|one| one.stands() == Stands::Cut);
        let count = at_cut.clone().count();
        assert!((2..=4).contains(&count), "{machine} {operation}: {count}");
        for caution in &given {
            let stands = match caution.kind() {
                kind if sharp.contains(&kind) => Stands::Cut,
                CautionKind::Isolate => Stands::Adjust,
                _ => Stands::Sheet,
            };
            assert_eq!(caution.stands(), stands, "{}", caution.id());
        }
        for caution in given.iter().filter(|one| one.stands() != Stands::Sheet) {
            let brief = caution.brief().unwrap_or_default();
            let (short, long) = (brief.len(), caution.avoid().len());
            assert!(short > 0 && short < long, "{}", caution.id());
        }
    }
}

/// Seen from the left one looks along +x with +y (the way of the feed) on the left hand. The blade
/// turns so that its front (-y) goes down: there the right hand's side goes down, clockwise.
#[test]
fn a_saw_is_fed_from_front_to_back_against_the_teeth() {
    // x to the right, y from front to back, z up; turn about +x by the right hand: v = (0, -z, y).
    let edge = |turn: f64, (y, z): (f64, f64)| (turn * -z, turn * y);
    // Front teeth (y < 0) come down (vz < 0): safety reference TS-25.
    let turn = 1.0;
    assert!(edge(turn, (-1.0, 0.0)).1 < 0.0);
    // Above the table the teeth come forward, against a feed to +y; at the back they rise.
    assert!(edge(turn, (0.0, 1.0)).0 < 0.0);
    assert!(edge(turn, (1.0, 0.0)).1 > 0.0);
    // From the left the eye looks along +x: a turn about the line of sight is clockwise when it is
    // right-handed.
    let sense = if turn > 0.0 {
        "clockwise"
    } else {
        "anticlockwise"
    };
    for (operation, _) in TABLE_SAW {
        let feed = of_kind("table-saw", operation, CautionKind::FeedDirection);
        for text in [feed.avoid(), feed.brief().unwrap()] {
            let told = format!("Seen from the left the blade turns {sense}");
            assert!(text.contains(&told), "{operation}: {text}");
            assert!(text.contains("from front to back"), "{operation}: {text}");
        }
    }
    for (operation, _) in BAND_SAW {
        let feed = of_kind("band-saw", operation, CautionKind::FeedDirection);
        assert!(
            feed.avoid().contains("runs down through the table"),
            "{operation}"
        );
        assert!(feed.avoid().contains("from front to back"), "{operation}");
    }
}

/// Figures of the sources, safety reference section 2.3: TS-01 6.4 mm, TS-11 300 mm, TS-12 450 mm,
/// TS-15 1200 mm, TS-17 60 %.
#[test]
fn figures_at_the_table_saw_are_those_of_the_sources() {
    let told = |operation, kind| of_kind("table-saw", operation, kind).avoid().to_owned();
    for (kind, figures) in [
        (CautionKind::Guard, &["6 mm"][..]),
        (CautionKind::HandDistance, &["450 mm", "last 300 mm"]),
        (CautionKind::HoldSupport, &["1200 mm"]),
        (CautionKind::Speed, &["60 %"]),
    ] {
        let text = told("rip", kind);
        assert!(figures.iter().all(|one| text.contains(one)), "{text}");
    }
    // L-12: the fence is never stop and guide at once.
    let text = told("crosscut", CautionKind::OffcutTrap);
    assert!(text.contains("clearance block"), "{text}");
}
