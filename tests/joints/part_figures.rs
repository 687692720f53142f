//! Check values of dowels, edge joints, shelves, rails and drawers: joinery 3.5, 3.11 to 3.13 and
//! the spare of 5; and their parts drawn again, which must fill what they are made for.

use std::collections::BTreeMap;

use faceside::joints::{self, Answer};
use faceside::units::{Length, Unit, Value};
use proptest::prelude::*;

use crate::{Texts, answer, calculator, count, length, lists, near, refusal, shows, with, without};

const ROW_INCH: Texts = &[
    ("length", "48 in"),
    ("first", "2 in"),
    ("pitch", "10 in"),
    ("dowel", "1.25 in"),
    ("gap", "1/8 in"),
];
const ROW_MM: Texts = &[
    ("length", "1200 mm"),
    ("first", "50 mm"),
    ("pitch", "150 mm"),
    ("dowel", "40 mm"),
];

// The spare of joinery 5; joinery 3.12. Places by adding up: 2 + 8.8 k and 50 + 137.5 k.
#[test]
fn dowels() {
    assert_eq!(count(&answer("dowels", ROW_INCH), "count"), 6);
    let wanted = [("pitch", 8.8), ("hole_depth", 0.6875)];
    shows("dowels", ROW_INCH, Unit::Inch, &wanted);
    let places = [2.0, 10.8, 19.6, 28.4, 37.2, 46.0];
    lists("dowels", ROW_INCH, "positions", Unit::Inch, &places);
    let longer = with(ROW_INCH, &[("dowel", "2 in")]);
    shows("dowels", &longer, Unit::Inch, &[("hole_depth", 1.0625)]);
    assert_eq!(count(&answer("dowels", ROW_MM), "count"), 9);
    let wanted = [("pitch", 137.5), ("hole_depth", 21.5), ("hole_mate", 21.5)];
    shows("dowels", ROW_MM, Unit::Mm, &wanted);
    // 1100 / 110 is ten steps and no eleventh.
    let even = with(ROW_MM, &[("pitch", "110 mm")]);
    assert_eq!(count(&answer("dowels", &even), "count"), 11);
    shows("dowels", &even, Unit::Mm, &[("pitch", 110.0)]);
}

// Derived: 40 + 3 mm of hole in all, 12 of it in the side of 16 mm.
#[test]
fn a_thin_piece_takes_the_lesser_part_of_a_dowel() {
    let thin = with(ROW_MM, &[("mate", "16 mm"), ("mate_hole", "12 mm")]);
    let wanted = [("hole_depth", 31.0), ("hole_mate", 12.0)];
    shows("dowels", &thin, Unit::Mm, &wanted);
    assert!(answer("dowels", &thin).worked.warnings.is_empty());
    refusal("dowels", &without(&thin, "mate_hole"));
}

// Joinery 2.11: a third to half of the stock, both allowed (common practice); Fairham p. 97: two
// rows from 2 in on.
#[test]
fn dowels_at_their_limits() {
    for diameter in ["8 mm", "12 mm"] {
        let more = [("stock", "24 mm"), ("diameter", diameter)];
        let texts = with(ROW_MM, &more);
        let warnings = answer("dowels", &texts).worked.warnings;
        assert!(warnings.is_empty(), "{warnings:?}");
    }
    let rows = |stock| {
        let notes = answer("dowels", &with(ROW_MM, &[("stock", stock)]))
            .worked
            .notes;
        notes.iter().any(|note| note.contains("two rows"))
    };
    assert!(rows("2 in") && !rows("50 mm"));
}

const EDGE_INCH: Texts = &[
    ("length", "36 in"),
    ("thickness", "0.75 in"),
    ("pressure", "150 lb/in2"),
    ("clamp_force", "800 lb"),
];

#[track_caller]
fn amount(answer: &Answer, name: &str, unit: Unit) -> f64 {
    match answer.worked.results.get(name) {
        Some(Value::Amount(amount)) => amount.usual(unit).0,
        other => panic!("`{name}` is {other:?}"),
    }
}

// Joinery 3.12: 4050 lb and 6; 17100 N and 5.
#[test]
fn cramps() {
    let inch = answer("edge-joint", EDGE_INCH);
    near(amount(&inch, "force", Unit::Inch), 4050.0);
    assert_eq!(count(&inch, "clamps"), 6);
    near(length(&inch, "spacing").to_inches(), 6.0);
    let metric = answer("edge-joint", calculator("edge-joint").example);
    // Kilograms by standard gravity, 9.80665.
    near(amount(&metric, "force", Unit::Mm) * 9.80665, 17100.0);
    assert_eq!(count(&metric, "clamps"), 5);
    near(length(&metric, "spacing").to_mm(), 180.0);
    // Derived: 4050 / 810 is five, and not six for the last digit of a double; 4050 / 809 is six.
    for (force, wanted) in [("810 lb", 5), ("809 lb", 6), ("9000 lb", 1)] {
        let more = [("clamp_force", force)];
        let texts = with(EDGE_INCH, &more);
        assert_eq!(count(&answer("edge-joint", &texts), "clamps"), wanted);
    }
    let unknown = answer("edge-joint", &without(EDGE_INCH, "clamp_force"));
    assert!(!unknown.worked.results.contains_key("clamps"));
    // Just as much room as six cramps of 6 in need.
    answer("edge-joint", &with(EDGE_INCH, &[("clamp_width", "6 in")]));
}

// Joinery 2.12: 100 and 250 lb/in2 (Wood Handbook ch. 10, from memory); 100 to 150 and 175 to 250
// (a maker's, quoted on a web page). The answer says which.
#[test]
fn pressure_by_density_says_where_it_is_from() {
    let open = without(EDGE_INCH, "pressure");
    let cases = [
        (
            "low-density",
            100.0,
            "From memory",
            "100 lb/in2: Wood Handbook",
        ),
        (
            "high-density",
            250.0,
            "From memory",
            "250 lb/in2: Wood Handbook",
        ),
        ("maker-softwood", 150.0, "Not read", "100 to 150 lb/in2: an"),
        ("maker-hardwood", 250.0, "Not read", "175 to 250 lb/in2: an"),
    ];
    for (wood, pounds, warning, source) in cases {
        let answer = answer("edge-joint", &with(&open, &[("wood", wood)]));
        near(amount(&answer, "pressure", Unit::Inch), pounds);
        // 36 * 0.75 = 27 square inches.
        near(amount(&answer, "force", Unit::Inch), 27.0 * pounds);
        let (warnings, notes) = (answer.worked.warnings, answer.worked.notes);
        assert!(warnings[0].starts_with(warning), "{warnings:?}");
        assert!(notes.iter().any(|note| note.contains(source)), "{notes:?}");
    }
    // A figure that was given rests on nobody's table, and the ends of the tables are usual.
    for pressure in ["100 lb/in2", "150 lb/in2", "250 lb/in2"] {
        let given = answer("edge-joint", &with(EDGE_INCH, &[("pressure", pressure)]));
        assert_eq!(given.worked.warnings, Vec::<String>::new());
    }
}

// Joinery 3.13: 0.2 degrees and 0.75 in gape by 0.00524 in, five joints cup by 2 degrees. mm: 19 by
// tan 0.4 deg = 0.006981434, a table's figure: 0.132647.
#[test]
fn fence_out_of_square() {
    let angle = [("angle_error", "0.2 deg"), ("boards", "6")];
    let inch = with(EDGE_INCH, &angle);
    shows("edge-joint", &inch, Unit::Inch, &[("gap", 0.00524)]);
    match answer("edge-joint", &inch).worked.results["cup"] {
        Value::Angle(cup) => near(cup.to_degrees(), 2.0),
        ref other => panic!("{other:?}"),
    }
    let metric = calculator("edge-joint").example;
    shows("edge-joint", metric, Unit::Mm, &[("gap", 0.132647)]);
    let one = answer("edge-joint", &without(&inch, "boards"));
    assert!(!one.worked.results.contains_key("cup"));
    let square = answer("edge-joint", &without(&inch, "angle_error"));
    assert!(!square.worked.results.contains_key("gap"));
}

// Joinery 3.5, the last line: inside width and two depths, less 1/64 in or 0.4 mm; by hand 564 + 12 -
// 0.4, and 24 - 1.5 + 0.375 - 0.015625.
#[test]
fn shelf_length() {
    let metric = calculator("shelf-length").example;
    shows("shelf-length", metric, Unit::Mm, &[("length", 575.6)]);
    let measured = [("inside", "564 mm"), ("depth", "6 mm")];
    shows("shelf-length", &measured, Unit::Mm, &[("length", 575.6)]);
    let inch = [
        ("overall", "24 in"),
        ("side", "3/4 in"),
        ("depth", "3/16 in"),
        ("clearance", "1/64 in"),
    ];
    shows("shelf-length", &inch, Unit::Inch, &[("length", 22.859375)]);
    // Tails and notches have shoulders, which close on the sides' inner faces.
    for joint in ["sliding-dovetail", "stopped-housing"] {
        let more = [("joint", joint)];
        let shouldered = with(&inch, &more);
        let wanted = [("length", 22.859375), ("shoulders", 22.5)];
        shows("shelf-length", &shouldered, Unit::Inch, &wanted);
    }
    let whole = answer("shelf-length", &inch);
    assert!(!whole.worked.results.contains_key("shoulders"));
}

// Row 13 of joinery 5 (Ross, Elementary Course in Woodwork (1901), p. 79-81): 5 5/8 in; joinery
// 3.11: 355 mm. Two tenons more: 355 + 76, 5.625 + 2.5; two horns: 600 + 50.
#[test]
fn rail_length() {
    let metric = calculator("rail-length").example;
    let wanted = [
        ("rail_shoulder", 355.0),
        ("rail", 431.0),
        ("stile_length", 650.0),
    ];
    shows("rail-length", metric, Unit::Mm, &wanted);
    let inch = [
        ("overall", "9 in"),
        ("stile", "2 in"),
        ("profile", "5/16 in"),
        ("tenon", "1.25 in"),
    ];
    let wanted = [("rail_shoulder", 5.625), ("rail", 8.125)];
    shows("rail-length", &inch, Unit::Inch, &wanted);
    // Square stiles: 450 - 2 * 57.
    let square = without(metric, "profile");
    shows(
        "rail-length",
        &square,
        Unit::Mm,
        &[("rail_shoulder", 336.0)],
    );
    // Through, and 6 mm proud of 57 - 9.5 = 47.5 mm: as Fairham p. 85 leaves it.
    let through = with(metric, &[("tenon", "53.5 mm")]);
    assert!(answer("rail-length", &through).worked.warnings.is_empty());
    // The same rail as the frame's own calculator finds.
    let shoulders = ["frame-panel", "rail-length"].map(|name| {
        let texts = calculator(name).example;
        length(&answer(name, texts), "rail_shoulder")
    });
    assert_eq!(shoulders[0], shoulders[1]);
}

// Sizes of Griffith p. 106 (3/4 and 3/8 in), play of Foster (1/8 in across) with 1/16 in in height
// (common practice), sides 1/2 in short (the Victorian handbook), groove 1/4 in wide (Noyes p. 191).
// By hand: 12 - 1/8; 4 - 1/16; 16 - 1/2; between 11.875 - 0.75 = 11.125. With the groove 1/2 in up and
// a drop of 1/4 in the back is 1 in narrower than the front, as the Victorian handbook says.
#[test]
fn drawer_inch() {
    let texts = [
        ("width", "12 in"),
        ("height", "4 in"),
        ("depth", "16 in"),
        ("play", "small-set"),
        ("front", "3/4 in"),
        ("side", "3/8 in"),
        ("bottom", "3/8 in"),
        ("joint", "through-dovetail"),
        ("groove", "3/16 in"),
        ("groove_width", "1/4 in"),
        ("groove_up", "1/2 in"),
        ("bottom_play", "1/64 in"),
        ("back_let", "3/16 in"),
        ("back_in", "1 in"),
        ("back_drop", "1/4 in"),
    ];
    let wanted = [
        ("front_length", 11.875),
        ("front_height", 3.9375),
        ("side_length", 15.5),
        ("side_height", 3.9375),
        ("back_length", 11.5),
        ("back_height", 2.9375),
        ("bottom_length", 11.484375),
        ("bottom_width", 13.9375),
        ("inside_width", 11.125),
        ("inside_depth", 13.375),
    ];
    shows("drawer", &texts, Unit::Inch, &wanted);
    assert!(answer("drawer", &texts).worked.warnings.is_empty());
}

// By hand, with 1/32 in a side and 1/16 in in height (common practice): 1.5875 mm each; a lap of 6 mm
// (Fairham p. 136): 450 - 12.7 + 6 = 443.3 from face to rear.
#[test]
fn drawer_mm() {
    let example = calculator("drawer").example;
    let wanted = [
        ("front_length", 398.4125),
        ("front_height", 118.4125),
        ("side_length", 437.3),
        ("back_length", 398.4125),
        ("back_height", 102.4125),
        ("bottom_length", 388.0125),
        ("bottom_width", 429.3),
        ("inside_width", 378.4125),
        ("inside_depth", 414.3),
    ];
    shows("drawer", example, Unit::Mm, &wanted);
    // A rebate leaves the same wood before the sides; a comb none, so that less is inside.
    for (joint, between) in [("rebate", 414.3), ("comb", 408.3)] {
        let more = [("joint", joint)];
        let texts = with(example, &more);
        shows("drawer", &texts, Unit::Mm, &[("inside_depth", between)]);
    }
    // Both figures given, in the place of a rule; and the two rules differ across only.
    let own = [("play_width", "2 mm"), ("play_height", "1 mm")];
    let open = without(example, "play");
    let own = with(&open, &own);
    let wanted = [("front_length", 398.0), ("side_height", 119.0)];
    shows("drawer", &own, Unit::Mm, &wanted);
    let small = with(example, &[("play", "small-set")]);
    let wanted = [("front_length", 396.825), ("side_height", 118.4125)];
    shows("drawer", &small, Unit::Mm, &wanted);
    let said = |texts, words: &str| answer("drawer", texts).worked.notes[0].contains(words);
    assert!(said(example, "common practice") && said(&small[..], "Foster"));
}

// Derived: a lap as deep as the sides are short, a bottom level with the edges, half a side go.
#[test]
fn drawer_at_its_limits() {
    let example = calculator("drawer").example;
    let flush = with(example, &[("lap", "12.7 mm")]);
    let wanted = [("side_length", 437.3), ("inside_depth", 421.0)];
    shows("drawer", &flush, Unit::Mm, &wanted);
    let level = [
        ("bottom", "16 mm"),
        ("groove_width", "6 mm"),
        ("groove_up", "10 mm"),
    ];
    let level = with(example, &level);
    shows("drawer", &level, Unit::Mm, &[("back_height", 102.4125)]);
    let housed = with(example, &[("back_let", "5 mm")]);
    shows("drawer", &housed, Unit::Mm, &[("back_length", 388.4125)]);
    let refused = refusal("drawer", &with(example, &[("back_let", "8 mm")]));
    assert!(refused.may_be.starts_with("back_let at most 5.00 mm"));
    assert!(
        refused
            .may_be
            .ends_with("the same as side for a dovetail through it")
    );
}

type Sizes<'s> = &'s [(&'s str, i64)];

fn worked(name: &str, sizes: Sizes, words: Texts) -> Option<Answer> {
    let size = |(name, nm): &(&str, i64)| ((*name).to_owned(), Value::Length(Length::nm(*nm)));
    let word =
        |(name, word): &(&str, &str)| ((*name).to_owned(), Value::Choice((*word).to_owned()));
    let given: BTreeMap<_, _> = sizes
        .iter()
        .map(size)
        .chain(words.iter().map(word))
        .collect();
    joints::work_out(calculator(name), &given).ok()
}

proptest! {
    // The same from both ends, never farther apart than the largest pitch, and no dowel too many.
    #[test]
    fn dowels_stand_alike_from_both_ends(
        long in 100_000_000..3_000_000_000_i64, first in 10_000_000..200_000_000_i64,
        most in 20_000_000..400_000_000_i64, dowel in 20_000_000..60_000_000_i64,
        gap in 500_000..5_000_000_i64,
    ) {
        let sizes = [("length", long), ("first", first), ("pitch", most), ("dowel", dowel), ("gap", gap)];
        let answer = worked("dowels", &sizes, &[]);
        prop_assert_eq!(answer.is_some(), 2 * first < long);
        let Some(answer) = answer else { return Ok(()) };
        let places: Vec<_> = crate::lengths(&answer, "positions").iter().map(|at| at.to_nm()).collect();
        prop_assert_eq!(places.len() as i64, count(&answer, "count"));
        prop_assert_eq!((places[0], places[places.len() - 1]), (first, long - first));
        for (from_one, from_other) in places.iter().zip(places.iter().rev()) {
            prop_assert!((from_one + from_other - long).abs() <= 1);
        }
        let pitch = length(&answer, "pitch").to_nm();
        for pair in places.windows(2) {
            let apart = pair[1] - pair[0];
            prop_assert!(apart <= most && (apart - pitch).abs() <= 1);
        }
        // With one dowel fewer they would stand too far apart.
        let steps = places.len() as i64 - 1;
        prop_assert!(steps == 1 || (steps - 1) * most < long - 2 * first);
        let both = length(&answer, "hole_depth") + length(&answer, "hole_mate");
        prop_assert_eq!(both.to_nm(), dowel + gap);
    }

    // The parts laid in a box of coordinates: x across, y up, z from the face of the front to the rear.
    #[test]
    fn a_drawer_fills_its_opening_less_its_play(
        opening in (100_000_000..900_000_000_i64, 60_000_000..400_000_000_i64, 150_000_000..700_000_000_i64),
        play in (0..6_000_000_i64, 0..6_000_000_i64, 0..30_000_000_i64),
        stock in (8_000_000..25_000_000_i64, 6_000_000..16_000_000_i64, 6_000_000..16_000_000_i64),
        groove in (2_000_000..10_000_000_i64, 3_000_000..9_000_000_i64, 4_000_000..20_000_000_i64),
        back in (0..8_000_000_i64, 0..30_000_000_i64, 0..10_000_000_i64),
        lap in 1_000_000..15_000_000_i64, bottom_play in 0..1_000_000_i64, joint in 0..4_usize,
    ) {
        let (width, height, depth) = opening;
        let (front, side, thick) = stock;
        let (deep, bottom, up) = groove;
        let (let_in, inward, drop) = back;
        let sizes = [("width", width), ("height", height), ("depth", depth),
            ("play_width", play.0), ("play_height", play.1), ("short", play.2),
            ("front", front), ("side", side), ("back", thick), ("bottom", bottom),
            ("groove", deep), ("groove_up", up), ("bottom_play", bottom_play),
            ("back_let", let_in), ("back_in", inward), ("back_drop", drop), ("lap", lap)];
        let joint = ["through-dovetail", "comb", "lapped-dovetail", "rebate"][joint];
        let answer = worked("drawer", &sizes, &[("joint", joint)]);
        let is_lapped = matches!(joint, "lapped-dovetail" | "rebate");
        let lap = if is_lapped { lap } else { 0 };
        let goes = deep < side.min(front) && lap < front && lap <= play.2
            && (2 * let_in <= side || let_in == side);
        prop_assert_eq!(answer.is_some(), goes);
        let Some(answer) = answer else { return Ok(()) };
        let get = |name| length(&answer, name).to_nm();
        // Across: play, side, what is between, side.
        let inner = (side, side + get("inside_width"));
        prop_assert_eq!(inner.1 + side + play.0, width);
        prop_assert_eq!(get("front_length") + play.0, width);
        let housings = (inner.0 - let_in, inner.1 + let_in);
        prop_assert_eq!(housings.1 - housings.0, get("back_length"));
        let floors = (inner.0 - deep, inner.1 + deep);
        prop_assert_eq!(floors.1 - floors.0 - get("bottom_length"), bottom_play);
        // Up: front and sides under the play; the back stands on the groove's upper wall.
        prop_assert_eq!(get("front_height") + play.1, height);
        prop_assert_eq!(get("side_height"), get("front_height"));
        prop_assert_eq!(up + bottom + get("back_height") + drop, get("side_height"));
        // To the rear: the sides begin behind the lap; nothing stands out of the opening.
        let rear = lap + get("side_length");
        prop_assert!(rear <= depth);
        prop_assert_eq!(get("side_length") + play.2, depth);
        let faces_of_back = (front + get("inside_depth"), rear - inward);
        prop_assert_eq!(faces_of_back.1 - faces_of_back.0, thick);
        prop_assert_eq!(front - deep + get("bottom_width"), faces_of_back.1);
    }

    // Shelf and rail laid between the sides and the stiles.
    #[test]
    fn shelves_and_rails_fill_what_is_between(
        overall in 200_000_000..2_000_000_000_i64, side in 10_000_000..60_000_000_i64,
        depth in 1_000_000..20_000_000_i64, clearance in 0..2_000_000_i64, tenon in 10_000_000..90_000_000_i64,
    ) {
        let sizes = [("overall", overall), ("side", side), ("depth", depth), ("clearance", clearance)];
        let answer = worked("shelf-length", &sizes, &[("joint", "sliding-dovetail")]);
        prop_assert_eq!(answer.is_some(), 2 * depth <= side && clearance < 2 * depth);
        if let Some(answer) = answer {
            let floors = (side - depth, overall - side + depth);
            prop_assert_eq!(floors.1 - floors.0 - length(&answer, "length").to_nm(), clearance);
            prop_assert_eq!(2 * side + length(&answer, "shoulders").to_nm(), overall);
        }
        let sizes = [("overall", overall), ("stile", side), ("profile", depth), ("tenon", tenon)];
        let answer = worked("rail-length", &sizes, &[]);
        prop_assert_eq!(answer.is_some(), depth < side);
        if let Some(answer) = answer {
            let shoulders = (side - depth, overall - side + depth);
            prop_assert_eq!(shoulders.1 - shoulders.0, length(&answer, "rail_shoulder").to_nm());
            let ends = (shoulders.0 - tenon, shoulders.1 + tenon);
            prop_assert_eq!(ends.1 - ends.0, length(&answer, "rail").to_nm());
        }
    }
}
