//! Everything that the table refuses, met once; and the order of passes.

use std::collections::BTreeSet;

use faceside::joints::{self, check_order};
use faceside::units::Length;

use crate::{
    ONE_SIDED_MM, Texts, answer, calculator, corner_limits, limits, part_limits, refusal, with,
};

/// Calculator, words of the refusal, the input that is named, and what brings it, in the place of
/// the values of the calculator's example.
const REFUSED: &[(&str, &str, &str, Texts)] = &[
    // 12.7 / (2 tan 14) = 25.468 mm.
    (
        "sliding-dovetail",
        "mouth closes",
        "depth",
        &[("depth", "25.5 mm")],
    ),
    (
        "sliding-dovetail",
        "base is narrower",
        "base",
        &[("base", "12.6 mm")],
    ),
    // One pass leaves 12.7 - 2 * 25.4 * 0.249328 = 0.034 mm at the mouth.
    (
        "sliding-dovetail",
        "too many passes",
        "base",
        &[("depth", "25.4 mm"), ("base", "20 mm")],
    ),
    (
        "sliding-dovetail",
        "too thin",
        "stock",
        &[("stock", "12.5 mm")],
    ),
    // Largest e 10.33138 (joinery 3.1): T = 7.96277 - 0.1 + 2 * 10.33138 = 28.52553 mm.
    (
        "sliding-dovetail",
        "sliver",
        "stock",
        &[("stock", "28.53 mm")],
    ),
    // Mouth 12.7 - 2 * 24 * 0.249328 = 0.73226 mm.
    (
        "sliding-dovetail",
        "clearance is as wide",
        "clearance",
        &[
            ("depth", "24 mm"),
            ("stock", "12 mm"),
            ("clearance", "0.74 mm"),
        ],
    ),
    (
        "one-sided-dovetail",
        "no width left",
        "depth",
        &[("depth", "25.5 mm")],
    ),
    // D <= T - g - q (joinery 3.3): 14.3 - 1.6 = 12.7, so 14.2 is too thin.
    (
        "one-sided-dovetail",
        "no room for a base",
        "cutter",
        &[("stock", "14.2 mm")],
    ),
    // 13.5 to 18.2 mm (joinery 3.3).
    (
        "one-sided-dovetail",
        "outside its range",
        "base",
        &[("base", "18.3 mm")],
    ),
    // k = T - B + c = 19 - 18.9 - 0.5 = -0.4 mm.
    (
        "one-sided-dovetail",
        "takes the tail's end",
        "clearance",
        &[
            ("base", "18.9 mm"),
            ("margin", "0.1 mm"),
            ("clearance", "-0.5 mm"),
        ],
    ),
    // e = T - 14.63138 is 10.33138 at most: T 24.96276 mm.
    (
        "one-sided-dovetail",
        "sliver",
        "stock",
        &[("stock", "24.97 mm")],
    ),
    // 6.66862 to 14.63138 mm (joinery 3.3).
    (
        "one-sided-dovetail",
        "straight cutter",
        "straight",
        &[("straight", "6.66 mm")],
    ),
    (
        "one-sided-dovetail",
        "straight cutter",
        "straight",
        &[("straight", "14.64 mm")],
    ),
    (
        "housing",
        "wider than the housing",
        "cutter",
        &[("cutter", "18 mm")],
    ),
    (
        "housing",
        "overlap is as wide",
        "overlap",
        &[("overlap", "12 mm")],
    ),
    // 24 passes of 6 mm with 1.5 mm overlap reach 6 + 23 * 4.5 = 109.5 mm.
    (
        "housing",
        "too many passes",
        "width",
        &[("thickness", "109.5 mm"), ("cutter", "6 mm")],
    ),
    (
        "stopped-housing",
        "shorter than the cutter",
        "stop",
        &[("stop", "267.1 mm")],
    ),
    (
        "stopped-housing",
        "end would show",
        "set_back",
        &[("set_back", "12.1 mm")],
    ),
    (
        "passes",
        "deeper than the cutter",
        "most",
        &[("most", "12.1 mm")],
    ),
    (
        "passes",
        "too many steps",
        "most",
        &[("depth", "24.1 mm"), ("most", "1 mm")],
    ),
    // 10 in at 3450 rpm run 45.88296 m/s (joinery 3.15).
    (
        "rim-speed",
        "faster than the limit",
        "speed",
        &[("limit", "45.88 m/s")],
    ),
    // 76 mm at 50 m/s is 12564.9 rpm (joinery 3.15).
    (
        "spindle",
        "slowest speed is too fast",
        "machine_least",
        &[("machine_least", "12565 rpm")],
    ),
    (
        "spindle",
        "over its fastest",
        "machine_least",
        &[("machine_most", "7999 rpm")],
    ),
    // 3 m/min at 18000 rpm, 2 flutes: 0.083333 mm (joinery 3.15).
    (
        "feed-per-tooth",
        "more than the limit",
        "feed",
        &[("most", "0.083 mm")],
    ),
    // A coefficient holds from 6 to 14 % (Handbook p. 13-15).
    ("movement", "leaves 6 to 14 %", "to", &[("to", "14.1 %")]),
    // Handbook Table 4-2 was read at 30 to 140 degrees Fahrenheit and 5 to 95 %.
    ("moisture", "outside", "humidity", &[("humidity", "96 %")]),
    (
        "moisture",
        "outside",
        "temperature",
        &[("temperature", "141 degF")],
    ),
    (
        "moisture",
        "outside",
        "temperature",
        &[("temperature", "29 degF")],
    ),
    // Sag 3.06458 mm in the end (5 W L^3 / (384 E I) by hand, twice).
    (
        "shelf",
        "more than the limit",
        "span",
        &[("sag_most", "3 mm")],
    ),
    // 3.06458 mm for 20 kg: a tenth of 900 mm is reached at 587.4 kg.
    ("shelf", "tenth of its span", "load", &[("load", "588 kg")]),
    (
        "frame-panel",
        "leaves 6 to 14 %",
        "rise",
        &[("rise", "6.1 %")],
    ),
    (
        "frame-panel",
        "leaves 6 to 14 %",
        "now",
        &[("now", "14.1 %")],
    ),
    (
        "frame-panel",
        "leaves 6 to 14 %",
        "rise",
        &[("now", "10.1 %")],
    ),
    (
        "frame-panel",
        "leaves 6 to 14 %",
        "fall",
        &[("now", "7.9 %")],
    ),
    (
        "frame-panel",
        "as deep as the groove",
        "clearance",
        &[("clearance", "9.5 mm")],
    ),
    // Groove at least 0.8 + 150 (1.00992 / 0.99504 - 1) = 3.04313 mm.
    (
        "frame-panel",
        "drops out",
        "groove",
        &[("groove", "3.04 mm")],
    ),
    // 450 + 2 * 9.5 = 469, so that a stile of 234.5 mm leaves nothing.
    (
        "frame-panel",
        "leave no rail",
        "stile",
        &[("stile", "234.5 mm")],
    ),
    (
        "breadboard",
        "leaves 6 to 14 %",
        "fall",
        &[("fall", "4.1 %")],
    ),
];

#[test]
fn every_refusal_of_the_table_is_met_and_names_its_input() {
    let mut met = BTreeSet::new();
    let lists = [
        REFUSED,
        limits::REFUSED,
        corner_limits::REFUSED,
        part_limits::REFUSED,
    ];
    for (name, part, input, more) in lists.into_iter().flatten() {
        let calculator = calculator(name);
        let refusal = refusal(name, &with(calculator.example, more));
        assert!(refusal.what.contains(part), "{name} {part}: {refusal:?}");
        let says = |text: &str| text.split([' ', ',']).any(|word| word == *input);
        assert!(
            says(&refusal.is) || says(&refusal.may_be),
            "{input}: {refusal:?}"
        );
        assert!(
            refusal.may_be.chars().any(|c| c.is_ascii_digit()),
            "{refusal:?}"
        );
        assert!(refusal.instead.ends_with('.'), "{refusal:?}");
        assert!(
            calculator.refuses.contains(&refusal.what.as_str()),
            "{refusal:?}"
        );
        met.insert((*name, refusal.what));
    }
    let table: usize = joints::ALL
        .iter()
        .map(|calculator| calculator.refuses.len())
        .sum();
    assert_eq!(met.len(), table, "met: {met:?}");
}

// Safety RT-09: with the fence behind the cutter and feed right to left, each later fence distance
// is the larger.
#[test]
fn an_order_that_climbs_is_refused() {
    let order = [106.0, 111.7, 117.4].map(Length::mm);
    assert!(check_order(&order).is_ok() && check_order(&[]).is_ok());
    let turned = check_order(&[order[0], order[2], order[1]]).unwrap_err();
    assert!(
        turned.is.contains("pass 3") && turned.what.contains("climb"),
        "{turned:?}"
    );
    assert!(check_order(&[order[0], order[0]]).is_err());
}

#[test]
fn notes_say_which_wall_each_pass_cuts_and_how_both_hands_stop() {
    let two = answer("housing", &[("width", "17.7 mm"), ("cutter", "12 mm")])
        .worked
        .notes;
    assert!(
        two[0].contains("right to left") && two[0].contains("anticlockwise"),
        "{two:?}"
    );
    assert!(
        two[1].contains("Pass 1") && two[1].contains("nearer the fence"),
        "{two:?}"
    );
    assert!(
        two[2].contains("Pass 2") && two[2].contains("farther from the fence"),
        "{two:?}"
    );
    let one_sided = answer("one-sided-dovetail", ONE_SIDED_MM).worked.notes;
    let said = |words: &[&str]| {
        one_sided
            .iter()
            .any(|note| words.iter().all(|w| note.contains(w)))
    };
    assert!(
        said(&["Pass 1", "square wall", "nearer the fence"]),
        "{one_sided:?}"
    );
    assert!(
        said(&["Pass 2", "sloped wall", "farther from the fence"]),
        "{one_sided:?}"
    );
    let stops = answer("stopped-housing", calculator("stopped-housing").example)
        .worked
        .notes;
    let said = |words: &str| stops.iter().filter(|note| note.contains(words)).count();
    assert_eq!(
        (said("outfeed side"), said("infeed side")),
        (1, 1),
        "{stops:?}"
    );
}
