//! The figures of a joint's two halves: the neck from the measured mouth, stops of a pair.

use faceside::procedure::{Filled, Given, example, fill};
use faceside::units::{Kind, Length, Unit, Value, parse};
use proptest::prelude::*;

use super::racks::{SHOP, planned};

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
