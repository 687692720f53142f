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
use faceside::procedure::{
    Filled, FilledSetUp, FilledStep, Given, Workplace, example, fill, load, plain,
};
use faceside::shop::{Machine, Minutes};
use faceside::store::Workshop;
use faceside::units::{Kind, Length, Unit, Value, parse};
use proptest::prelude::*;

thread_local! {
    static SHOP: Workshop = Workshop::open(None, None).map_err(|f| format!("{f:?}")).unwrap().0;
}

/// A part of a random job.
#[derive(Debug, Clone)]
struct Rack {
    procedure: &'static str,
    shelf_mm_10: u32,
    from_end_mm: u32,
    pieces: u32,
    handed: bool,
}

fn rack() -> impl Strategy<Value = Rack> {
    let procedure = prop_oneof![
        Just("through-housing"),
        Just("stopped-housing"),
        Just("sliding-dovetail"),
        Just("one-sided-sliding-dovetail")
    ];
    // Few thicknesses, so that parts often share a set-up.
    let shelf = prop_oneof![Just(176_u32), Just(177), Just(192)];
    let from_end = prop_oneof![Just(60_u32), Just(80)];
    (procedure, shelf, from_end, 1_u32..4).prop_map(
        |(procedure, shelf_mm_10, from_end_mm, pieces)| Rack {
            procedure,
            shelf_mm_10,
            from_end_mm,
            pieces,
            handed: procedure == "stopped-housing",
        },
    )
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
            "one-sided-sliding-dovetail" => format!(
                "tail: {}.9 mm, tail_width: 320 mm, inside_width: 560 mm, side: 22 mm, \
                 side_width: 320 mm, side_length: 900 mm, from_end: {} mm",
                rack.shelf_mm_10 / 10 + 1,
                rack.from_end_mm + 60
            ),
            "sliding-dovetail" => format!(
                "tail: {}.2 mm, tail_width: 400 mm, shoulder_length: 410 mm, side: 27 mm, \
                 side_width: 400 mm, side_length: 1500 mm, centre: {} mm",
                rack.shelf_mm_10 / 10 + 2,
                rack.from_end_mm + 90
            ),
            _ => format!(
                "shelf: {thick}, side: 18.3 mm, side_width: 320 mm, side_length: 900 mm, \
                 from_end: {} mm, inside_width: 560 mm",
                rack.from_end_mm
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
    SHOP.with(|shop| planned_at(text, &shop.machines))
}

/// The same in a shop with other machines.
fn planned_at(text: &str, machines: &[Machine]) -> Sheets {
    SHOP.with(|shop| {
        let at = Workplace {
            machines,
            ..shop.place()
        };
        let job = Job::read(&Source::new("oars.yaml", text)).unwrap();
        plan(&job, &shop.procedures, at, "2026-11-25").unwrap_or_else(|f| panic!("{f:?}"))
    })
}

/// What changes between two set-ups, by design.md 6: cutter, height, fence, stops, speed, each
/// when the later one asks for it and the machine does not stand so already. Names and minutes.
fn plain_change(
    before: Option<&FilledSetUp>,
    after: &FilledSetUp,
    machines: &[Machine],
) -> (Vec<String>, u32) {
    let Some((id, _)) = &after.machine else {
        return (Vec::new(), 0);
    };
    let minutes = machines.iter().find(|one| one.id == *id).unwrap().minutes;
    let before = before.filter(|before| before.machine == after.machine);
    let cutter = |set_up: &FilledSetUp| set_up.cutter.as_ref().map(|cutter| cutter.id.clone());
    let mut names = Vec::new();
    let mut total = 0;
    if cutter(after).is_some() && before.is_none_or(|before| cutter(before) != cutter(after)) {
        names.push("cutter".to_owned());
        total += minutes.cutter;
    }
    for (name, cost) in [
        ("height", minutes.height),
        ("fence", minutes.fence),
        ("stop", minutes.stop),
        ("speed", minutes.speed),
    ] {
        let stands = |set_up: &FilledSetUp| {
            let mut stands = String::new();
            for one in set_up.settings.iter().filter(|one| one.name == name) {
                write!(stands, "{} {};", one.label, one.shown).unwrap();
            }
            stands
        };
        let wanted = stands(after);
        if !wanted.is_empty() && before.is_none_or(|before| stands(before) != wanted) {
            names.push(name.to_owned());
            total += cost;
        }
    }
    (names, total)
}

/// Minutes for checklists in some order; work at the bench leaves the machine as it stands.
fn plain_cost<'c>(lists: impl Iterator<Item = &'c Checklist>, machines: &[Machine]) -> u32 {
    let mut last = None;
    let mut total = 0;
    for list in lists {
        total += plain_change(last, &list.set_up, machines).1;
        if list.set_up.machine.is_some() {
            last = Some(&list.set_up);
        }
    }
    total
}

/// The checklists as the job file has them: by part, then as the part's own set-ups follow each
/// other; one that must wait for another part's set-up comes as soon as that is done.
fn in_the_order_of_the_job<'s>(racks: &[Rack], sheets: &'s Sheets) -> Vec<&'s Checklist> {
    let mut wanted: Vec<(String, String, String)> = Vec::new();
    for (at, rack) in racks.iter().enumerate() {
        for (hand, titles) in alone(rack) {
            let of = titles
                .into_iter()
                .map(|title| (format!("Rack {at}"), hand.clone(), title));
            wanted.extend(of);
        }
    }
    let place = |list: &Checklist| {
        let first = &list.pieces[0];
        wanted
            .iter()
            .position(|(part, hand, title)| {
                (part, hand, title) == (&first.part, &first.hand, &list.set_up.title)
            })
            .unwrap()
    };
    let mut left: Vec<&Checklist> = sheets.checklists.iter().collect();
    left.sort_by_key(|list| place(list));
    let mut done: Vec<&Checklist> = Vec::new();
    while !left.is_empty() {
        let is_done = |number: &usize| done.iter().any(|one| one.number == *number);
        let next = left
            .iter()
            .position(|list| list.after.iter().all(is_done))
            .unwrap();
        done.push(left.remove(next));
    }
    done
}

/// All that two set-ups must have alike to be one, by design.md 6: procedure, machine, cutter,
/// every setting as set, and every word that is read while it is done.
fn are_one(one: &Checklist, other: &Checklist) -> bool {
    fn settings(set_up: &FilledSetUp) -> Vec<(&str, &str)> {
        let settings = set_up.settings.iter();
        settings
            .map(|set| (set.label.as_str(), set.shown.as_str()))
            .collect()
    }
    fn words(set_up: &FilledSetUp) -> Vec<String> {
        let step = |step: &FilledStep| {
            let mut words = vec![plain(&step.act), plain(&step.why)];
            words.extend(step.keys.iter().map(|key| plain(key)));
            if let Some(check) = &step.check {
                words.extend([&check.measure, &check.if_low, &check.if_high].map(|w| plain(w)));
                words.extend(
                    [&check.wanted, &check.low_shown, &check.high_shown].map(String::clone),
                );
            }
            words
        };
        set_up.steps.iter().flat_map(step).collect()
    }
    let (a, b) = (&one.set_up, &other.set_up);
    let cutter = |set_up: &FilledSetUp| set_up.cutter.as_ref().map(|cutter| cutter.id.clone());
    one.procedure.0 == other.procedure.0
        && (&a.title, &a.machine, &a.operation) == (&b.title, &b.machine, &b.operation)
        && cutter(a) == cutter(b)
        && settings(a) == settings(b)
        && words(a) == words(b)
        && a.table == b.table
}

fn machines(minutes: [u32; 5]) -> Vec<Machine> {
    let [cutter, height, fence, stop, speed] = minutes;
    let minutes = Minutes {
        cutter,
        height,
        fence,
        stop,
        speed,
    };
    let with = |machine: &Machine| Machine {
        minutes,
        ..machine.clone()
    };
    SHOP.with(|shop| shop.machines.iter().map(with).collect())
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
    let (procedure, faults) = load(&Source::new("stopped-housing.yaml", text));
    assert!(!faults.any_error(), "{faults:?}");
    let procedures = BTreeMap::from([("stopped-housing".to_owned(), procedure.unwrap())]);
    let rack = Rack {
        procedure: "stopped-housing",
        shelf_mm_10: 176,
        from_end_mm: 60,
        pieces: 1,
        handed: true,
    };
    let job = Job::read(&Source::new("oars.yaml", self::text(&[rack]))).unwrap();
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

fn filled(id: &str) -> Filled {
    filled_with(id, &[]).unwrap()
}

/// The procedure's example with other measures; nothing when they are refused.
fn filled_with(id: &str, measures: &[(&str, String)]) -> Option<Filled> {
    SHOP.with(|shop| {
        let procedure = &shop.procedures[id];
        let mut given: Given = example(procedure, shop.place());
        for (name, text) in measures {
            let value = (text.clone(), given.place.clone());
            given.measured.insert((*name).to_owned(), value);
        }
        fill(procedure, shop.place(), &given).ok()
    })
}

/// A length of whole 0.05 mm as a caliper shows it.
fn twentieths(count: i64) -> String {
    format!("{}.{:02} mm", count / 20, count % 20 * 5)
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

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    /// The neck is the mouth as measured less the shop's 0.1 mm for sliding, to the nanometre; the
    /// neck that is cut is that, or fatter by less than the fence's step of 0.05 mm at each face.
    #[test]
    fn the_neck_is_the_measured_mouth_less_the_clearance(
        tail in 380_i64..460, off in -6_i64..=6, one_sided in any::<bool>(),
    ) {
        let (id, faces) = match one_sided {
            true => ("one-sided-sliding-dovetail", 1.0),
            false => ("sliding-dovetail", 2.0),
        };
        let stock = ("tail", twentieths(tail));
        let planned = filled_with(id, std::slice::from_ref(&stock));
        prop_assume!(planned.is_some());
        let mouth = value(&planned.unwrap(), "mouth").to_nm() / 50_000 + off;
        let measured = filled_with(id, &[stock, ("mouth", twentieths(mouth))]);
        prop_assume!(measured.is_some());
        let measured = measured.unwrap();
        let clearance = Length::nm(100_000);
        prop_assert_eq!(value(&measured, "mouth"), Length::nm(mouth * 50_000));
        prop_assert_eq!(value(&measured, "mouth") - value(&measured, "neck"), clearance);
        let exposure = value(&measured, "exposure").times(faces);
        let cut = Length::nm(tail * 50_000) - exposure;
        let fatter = cut - value(&measured, "neck");
        prop_assert!(!fatter.is_negative() && fatter < Length::nm(50_000).times(faces), "{:?}", fatter);
    }

    /// joinery.md 3.6: the stop's face stands at panel - stop - cutter from the near edge, for
    /// both hands; which side of the cutter, only the label tells.
    #[test]
    fn every_pair_has_equal_stops_on_opposite_sides(
        side_width in 300_u32..700, stop in 8_u32..30, shelf in 170_u32..195,
    ) {
        let text = format!(
            "job: oars\ntitle: Oar racks\nparts:\n  - part: Rack\n    procedure: stopped-housing\n    \
             pieces: {{left: 1, right: 1}}\n    measured: {{shelf: {}.{} mm, side: 18.3 mm, \
             side_width: {side_width} mm, side_length: 900 mm, from_end: 60 mm, \
             inside_width: 560 mm}}\n    chosen: {{stop: {stop} mm}}\n",
            shelf / 10, shelf % 10
        );
        let sheets = planned(&text);
        let stops = |hand: &str| -> Vec<(String, Length)> {
            let of_hand = sheets.checklists.iter().filter(|list| list.pieces[0].hand == hand);
            let settings = of_hand.flat_map(|list| &list.set_up.settings);
            settings.filter(|one| one.name == "stop").map(|one| match one.value {
                Value::Length(length) => (one.label.clone(), length),
                ref other => panic!("{other:?}"),
            }).collect()
        };
        let (left, right) = (stops("left"), stops("right"));
        prop_assert!(!left.is_empty());
        prop_assert_eq!(left.len(), right.len());
        let cutters = sheets.checklists.iter().filter_map(|list| list.set_up.cutter.as_ref());
        let diameter = cutters.map(|one| one.diameter.clone()).next().unwrap();
        let Ok(Value::Length(diameter)) = parse(&diameter, Kind::Length, Unit::Mm) else { panic!() };
        let wanted = Length::nm(i64::from(side_width - stop) * 1_000_000) - diameter;
        for (one, other) in left.iter().zip(&right) {
            prop_assert_eq!(one.1, wanted);
            prop_assert_eq!(other.1, wanted);
            prop_assert!(one.0.contains("before the cutter (right)"), "{}", one.0);
            prop_assert!(other.0.contains("beyond the cutter (left)"), "{}", other.0);
        }
    }
}
