//! From parts to sheets: no cut is lost or doubled, what must come first stays first, and the
//! order never costs more than that of the job.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::disallowed_methods,
    reason = "a test may fail, and looks at files itself"
)]

use std::collections::BTreeMap;
use std::fmt::Write;

use faceside::diag::Source;
use faceside::jobs::{Checklist, Job, Sheets, plan};
use faceside::procedure::{Filled, Given, example, fill};
use faceside::store::Workshop;
use faceside::units::{Length, Value};
use proptest::prelude::*;

thread_local! {
    static SHOP: Workshop = Workshop::open(None, None).map_err(|f| format!("{f:?}")).unwrap().0;
}

/// A part of a random job.
#[derive(Debug, Clone)]
struct Rack {
    procedure: &'static str,
    shelf_mm_10: u32,
    pieces: u32,
    handed: bool,
}

fn rack() -> impl Strategy<Value = Rack> {
    let procedure = prop_oneof![
        Just("through-housing"),
        Just("stopped-housing"),
        Just("sliding-dovetail")
    ];
    // Few thicknesses, so that parts often share a set-up.
    let shelf = prop_oneof![Just(176_u32), Just(177), Just(192)];
    (procedure, shelf, 1_u32..4).prop_map(|(procedure, shelf_mm_10, pieces)| Rack {
        procedure,
        shelf_mm_10,
        pieces,
        handed: procedure == "stopped-housing",
    })
}

fn text(racks: &[Rack]) -> String {
    let mut text = "job: oars\ntitle: Oar racks\nparts:\n".to_owned();
    for (at, rack) in racks.iter().enumerate() {
        let thick = format!("{}.{} mm", rack.shelf_mm_10 / 10, rack.shelf_mm_10 % 10);
        let pieces = match rack.handed {
            true => format!("{{left: {0}, right: {0}}}", rack.pieces),
            false => rack.pieces.to_string(),
        };
        let measured = match rack.procedure {
            "sliding-dovetail" => format!(
                "tail: {}.2 mm, tail_width: 400 mm, shoulder_length: 410 mm, side: 27 mm, \
                 side_width: 400 mm, side_length: 1500 mm, centre: 150 mm",
                rack.shelf_mm_10 / 10 + 2
            ),
            _ => format!(
                "shelf: {thick}, side: 18.3 mm, side_width: 320 mm, side_length: 900 mm, \
                 from_end: 60 mm, inside_width: 560 mm"
            ),
        };
        writeln!(
            text,
            "  - part: Rack {at}\n    procedure: {}\n    pieces: {pieces}\n    measured: {{{measured}}}",
            rack.procedure
        )
        .unwrap();
    }
    text
}

fn planned(text: &str) -> Sheets {
    SHOP.with(|shop| {
        let job = Job::read(&Source::new("oars.yaml", text)).unwrap();
        plan(&job, &shop.procedures, shop.place(), "2026-11-25").unwrap_or_else(|f| panic!("{f:?}"))
    })
}

/// What one part alone needs: titles of its set-ups in order, by hand.
fn alone(rack: &Rack) -> Vec<(String, Vec<String>)> {
    let sheets = planned(&text(std::slice::from_ref(rack)));
    let hands = if rack.handed {
        vec!["left", "right"]
    } else {
        vec![""]
    };
    let of = |hand: &str| {
        let mine = |list: &&Checklist| list.pieces.iter().any(|piece| piece.hand == hand);
        let lists = sheets.checklists.iter().filter(mine);
        lists.map(|list| list.set_up.title.clone()).collect()
    };
    hands
        .into_iter()
        .map(|hand| (hand.to_owned(), of(hand)))
        .collect()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn merging_loses_no_cut_and_doubles_none(racks in prop::collection::vec(rack(), 1..5)) {
        let sheets = planned(&text(&racks));
        for (at, rack) in racks.iter().enumerate() {
            for (hand, titles) in alone(rack) {
                for number in 1..=rack.pieces {
                    let holds = |list: &Checklist| {
                        list.pieces.iter().filter(|piece| {
                            piece.part == format!("Rack {at}") && piece.hand == hand
                                && piece.number.0 == number
                        }).count()
                    };
                    let of_piece: Vec<&Checklist> =
                        sheets.checklists.iter().filter(|list| holds(list) > 0).collect();
                    prop_assert!(of_piece.iter().all(|list| holds(list) == 1));
                    let found: Vec<String> =
                        of_piece.iter().map(|list| list.set_up.title.clone()).collect();
                    // The same set-ups, none more, none less, in the order of the procedure.
                    prop_assert_eq!(&found, &titles, "Rack {}, {}", at, hand);
                }
            }
        }
        for list in &sheets.checklists {
            prop_assert!(list.after.iter().all(|before| *before < list.number));
        }
    }

    #[test]
    fn the_order_never_costs_more_than_part_by_part(racks in prop::collection::vec(rack(), 1..5)) {
        let together = planned(&text(&racks)).minutes;
        let apart: u32 =
            racks.iter().map(|rack| planned(&text(std::slice::from_ref(rack))).minutes).sum();
        prop_assert!(together <= apart, "{} together, {} apart", together, apart);
    }
}

#[test]
fn alike_parts_share_their_set_ups_and_a_pair_never_does() {
    let rack = Rack {
        procedure: "stopped-housing",
        shelf_mm_10: 176,
        pieces: 1,
        handed: true,
    };
    let one = planned(&text(std::slice::from_ref(&rack)));
    let two = planned(&text(&[rack.clone(), rack]));
    assert_eq!(one.checklists.len(), two.checklists.len());
    let cuts = two
        .checklists
        .iter()
        .filter(|list| list.set_up.operation == "stopped-groove");
    let mut seen = 0;
    for list in cuts {
        let hands: Vec<&str> = list
            .pieces
            .iter()
            .map(|piece| piece.hand.as_str())
            .collect();
        assert!(hands.iter().all(|hand| *hand == hands[0]), "{hands:?}");
        assert_eq!(hands.len(), 2, "both racks on one sheet");
        seen += 1;
    }
    assert!(seen >= 2);
}

/// joinery.md 3.6: the same distances for both parts of a pair, the block on the other side.
#[test]
fn a_pair_has_equal_stops_on_opposite_sides() {
    let demo = SHOP.with(|shop| {
        let job = Job::read(&shop.jobs["boathouse-lockers"]).unwrap();
        plan(&job, &shop.procedures, shop.place(), "2026-11-25").unwrap()
    });
    let mut stops: BTreeMap<String, Vec<(String, Length)>> = BTreeMap::new();
    for list in &demo.checklists {
        let hand = list.pieces[0].hand.clone();
        for setting in list.set_up.settings.iter().filter(|one| one.name == "stop") {
            let Value::Length(length) = setting.value else {
                panic!()
            };
            stops
                .entry(hand.clone())
                .or_default()
                .push((setting.label.clone(), length));
        }
    }
    let (left, right) = (&stops["left"], &stops["right"]);
    assert_eq!(left[0].1, right[0].1);
    // 320 mm panel, stopped 12 mm short, 15.70 mm cutter: (320 - 12) - 15.7 = 292.3 mm.
    assert_eq!(left[0].1, Length::mm(292.3));
    assert_ne!(
        left[0].0, right[0].0,
        "the label says on which side the block stands"
    );
    // Moving the block to the other side is a change, though its distance stays.
    let sides: Vec<bool> = demo
        .checklists
        .iter()
        .filter(|list| list.set_up.settings.iter().any(|one| one.name == "stop"))
        .map(|list| list.changes.iter().any(|change| change == "stop"))
        .collect();
    assert!(
        sides.iter().filter(|moved| **moved).count() >= 2,
        "{sides:?}"
    );
}

fn filled(id: &str) -> Filled {
    SHOP.with(|shop| {
        let procedure = &shop.procedures[id];
        let given: Given = example(procedure, shop.place());
        fill(procedure, shop.place(), &given).unwrap_or_else(|f| panic!("{f:?}"))
    })
}

fn value(filled: &Filled, name: &str) -> Length {
    let value = filled
        .values
        .iter()
        .find(|value| value.name == name)
        .unwrap();
    match value.value {
        Value::Length(length) => length,
        ref other => panic!("{other:?}"),
    }
}

/// Put together, tail and socket leave at least nothing of the asked clearance undone: the neck
/// that the printed exposure leaves is the mouth less the clearance, or fatter by at most two
/// steps of the fence (both faces are cut; a tail can be cut again).
#[test]
fn the_printed_exposure_leaves_the_asked_clearance_or_more_wood() {
    let dovetail = filled("sliding-dovetail");
    let neck = value(&dovetail, "tail") - value(&dovetail, "exposure").times(2.0);
    let wanted = value(&dovetail, "mouth") - Length::mm(0.1);
    assert!(
        neck >= wanted && neck - wanted < Length::mm(0.1),
        "{neck:?} {wanted:?}"
    );
    let one_sided = filled("one-sided-sliding-dovetail");
    let neck = value(&one_sided, "tail") - value(&one_sided, "exposure");
    let wanted = value(&one_sided, "mouth") - Length::mm(0.1);
    assert!(
        neck >= wanted && neck - wanted < Length::mm(0.05),
        "{neck:?} {wanted:?}"
    );
}
