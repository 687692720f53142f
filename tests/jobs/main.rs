//! From parts to sheets: no cut is lost or doubled, what must come first stays first, and the
//! order never costs more than that of the job.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::disallowed_methods,
    reason = "a test may fail, and looks at files itself"
)]

mod joint;
mod plain;
mod racks;

use std::collections::BTreeMap;
use std::sync::Arc;

use faceside::diag::Source;
use faceside::jobs::{Checklist, Job, plan};
use faceside::procedure::load;
use faceside::units::{Length, Value};
use proptest::prelude::*;

use plain::{are_one, in_the_order_of_the_job, plain_change, plain_cost};
use racks::{Rack, SHOP, alone, machines, planned, planned_at, rack, text};

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

    /// In any shop: the minutes printed are those of the changes printed, and never more than the
    /// same set-ups cost in the order of the job file.
    #[test]
    fn the_order_never_costs_more_than_that_of_the_job(
        racks in prop::collection::vec(rack(), 2..6),
        minutes in prop::array::uniform5(0_u32..15),
    ) {
        let machines = machines(minutes);
        let sheets = planned_at(&text(&racks), &machines);
        let mut last = None;
        for list in &sheets.checklists {
            let (changes, minutes) = plain_change(last, &list.set_up, &machines);
            prop_assert_eq!(&list.changes, &changes, "sheet {}", list.number);
            prop_assert_eq!(list.minutes, minutes, "sheet {}", list.number);
            if list.set_up.machine.is_some() {
                last = Some(&list.set_up);
            }
        }
        prop_assert_eq!(sheets.minutes, plain_cost(sheets.checklists.iter(), &machines));
        let of_the_job = plain_cost(in_the_order_of_the_job(&racks, &sheets).into_iter(), &machines);
        prop_assert!(sheets.minutes <= of_the_job, "{} > {}", sheets.minutes, of_the_job);
    }

    /// Every pair of set-ups of every two parts, compared one by one: together on one sheet if
    /// they are alike, on two if not. Racks that are written twice need no sheet more.
    #[test]
    fn merging_agrees_with_a_plain_comparison(racks in prop::collection::vec(rack(), 1..4)) {
        let twice = [racks.clone(), racks.clone()].concat();
        let sheets = planned(&text(&twice));
        prop_assert_eq!(sheets.checklists.len(), planned(&text(&racks)).checklists.len());
        // Each set-up of each part by itself, with its place in its part.
        let mut alone: Vec<(String, String, usize, Checklist)> = Vec::new();
        for (at, rack) in twice.iter().enumerate() {
            let own = planned(&text(std::slice::from_ref(rack)));
            for hand in if rack.handed { vec!["left", "right"] } else { vec![""] } {
                let of_hand = own.checklists.iter()
                    .filter(|list| list.pieces.iter().any(|piece| piece.hand == hand));
                for (place, list) in of_hand.enumerate() {
                    alone.push((format!("Rack {at}"), hand.to_owned(), place, list.clone()));
                }
            }
        }
        let sheet_of = |(part, hand, _, list): &(String, String, usize, Checklist)| {
            let holds = |sheet: &&Checklist| sheet.set_up.title == list.set_up.title
                && sheet.pieces.iter().any(|one| (&one.part, &one.hand) == (part, hand));
            sheets.checklists.iter().find(holds).unwrap().number
        };
        for one in &alone {
            for other in &alone {
                let together = sheet_of(one) == sheet_of(other);
                let alike = one.2 == other.2 && are_one(&one.3, &other.3);
                prop_assert_eq!(together, alike, "{} {} / {} {}: {}",
                    one.0, one.1, other.0, other.1, one.3.set_up.title);
            }
        }
        for list in sheets.checklists.iter().filter(|one| one.set_up.operation == "stopped-groove") {
            prop_assert!(list.pieces.iter().all(|piece| piece.hand == list.pieces[0].hand));
        }
    }
}

#[test]
fn alike_parts_share_their_set_ups_and_a_pair_never_does() {
    let rack = Rack {
        procedure: "stopped-housing",
        shelf_mm_10: 176,
        from_end_mm: 60,
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

/// A job and minutes at which the cheapest next set-up leads to 50 minutes, and the order of the
/// job file costs 44.
#[test]
fn the_cheapest_next_set_up_is_not_taken_where_it_costs_more_in_the_end() {
    let rack = |procedure| Rack {
        procedure,
        shelf_mm_10: 176,
        from_end_mm: 60,
        pieces: 1,
        handed: procedure == "stopped-housing",
    };
    let racks = ["through-housing", "stopped-housing", "sliding-dovetail"].map(rack);
    let machines = machines([0, 4, 0, 5, 0]);
    let sheets = planned_at(&text(&racks), &machines);
    let of_the_job = plain_cost(
        in_the_order_of_the_job(&racks, &sheets).into_iter(),
        &machines,
    );
    assert!(
        sheets.minutes <= of_the_job,
        "{} > {of_the_job}",
        sheets.minutes
    );
}

/// A procedure whose left and right set-ups have the same title, figures and words, and tell only
/// by the label of the stop on which side the block stands: cut at the wrong block, a side is
/// spoilt, so they are two set-ups.
#[test]
fn set_ups_that_differ_only_in_a_label_stay_apart() {
    let path = concat!(
        env!("CARGO_MANIFEST_DIR"),
        "/procedures/joints/stopped-housing.yaml"
    );
    let text = std::fs::read_to_string(path).unwrap();
    let at = |words: &str| text.find(words).unwrap();
    let (right, left, end) = (
        at("  - set_up: Cut the right-hand"),
        at("  - set_up: Cut the left-hand"),
        at("  - set_up: Square the ends"),
    );
    let mirrored = text[right..left]
        .replace("hand == \"right\"", "hand == \"left\"")
        .replace(
            "label: \"Stop block beyond the cutter (left)",
            "label: \"Stop block before the cutter (right)",
        );
    let text = format!("{}{mirrored}{}", &text[..left], &text[end..]);
    let source = Source::new("stopped-housing.yaml", text);
    let (procedure, faults) = SHOP.with(|shop| load(&source, &shop.routines));
    assert!(!faults.any_error(), "{faults:?}");
    let procedures = BTreeMap::from([("stopped-housing".to_owned(), Arc::new(procedure.unwrap()))]);
    let rack = Rack {
        procedure: "stopped-housing",
        shelf_mm_10: 176,
        from_end_mm: 60,
        pieces: 1,
        handed: true,
    };
    let job = Job::read(&Source::new("oars.yaml", racks::text(&[rack]))).unwrap();
    let sheets = SHOP.with(|shop| plan(&job, &procedures, shop.place(), "2026-11-25").unwrap());
    let cuts = sheets.checklists.iter();
    for list in cuts.filter(|one| one.set_up.operation == "stopped-groove") {
        let hands: Vec<&str> = list.pieces.iter().map(|one| one.hand.as_str()).collect();
        assert_eq!(hands.len(), 1, "{}: {hands:?}", list.set_up.title);
    }
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
