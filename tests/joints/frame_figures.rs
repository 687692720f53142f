//! Check values of halvings, bridles, tenons and drawbores: joinery 5, rows 9 to 11 and 15, and the
//! figures of joinery 3.7 and 3.12 that they are from.

use faceside::units::{Angle, Kind, Length, Role, Unit, Value, parse};

use crate::{Texts, answer, calculator, factor, length, near, refusal, shows, with, without};

// Joinery 3.12: step T - 2 h at one height.
#[test]
fn halving() {
    let inch = [
        ("stock_a", "0.75 in"),
        ("stock_b", "0.75 in"),
        ("width", "2 in"),
        ("height", "0.370 in"),
        ("trim", "1/16 in"),
    ];
    let wanted = [
        ("step", 0.01),
        ("depth_a", 0.375),
        ("depth_b", 0.375),
        ("recess", 2.0),
        ("end_lap", 2.0625),
    ];
    shows("halving", &inch, Unit::Inch, &wanted);
    let metric = calculator("halving").example;
    let wanted = [("step", 0.2), ("depth_a", 9.5), ("depth_b", 9.5)];
    shows("halving", metric, Unit::Mm, &wanted);
    // Gauged from the faces (Noyes pp. 156, 203): one deeper, the other shallower by the same.
    let gauged = with(metric, &[("gauge", "9.3 mm")]);
    let wanted = [("depth_a", 9.3), ("depth_b", 9.7)];
    shows("halving", &gauged, Unit::Mm, &wanted);
    // Of 25 and 19 the thinner is halved; b keeps 9.5 of 25.
    let thick_b = with(metric, &[("stock_b", "25 mm")]);
    let wanted = [("depth_a", 9.5), ("depth_b", 15.5)];
    shows("halving", &thick_b, Unit::Mm, &wanted);
    // 50 / sin 30 = 100, and 1.5 to trim.
    let slant = with(metric, &[("angle", "30 deg")]);
    let wanted = [("recess", 100.0), ("end_lap", 101.5)];
    shows("halving", &slant, Unit::Mm, &wanted);
    // No word of a step where no height was asked for, even for pieces of two thicknesses.
    let unasked = without(&thick_b, "height");
    let warnings = answer("halving", &unasked).worked.warnings;
    assert!(
        warnings.len() == 1 && warnings[0].contains("half of the piece: b"),
        "{warnings:?}"
    );
}

// Row 11, the slopes of a dovetailed halving: Fairham p. 134, Ross p. 76 as typed; Noyes p. 165,
// 5/8 in 3.
#[test]
fn dovetail_slopes() {
    let cases = [
        ("1 in 8", 7.12502),
        ("1 in 6", 9.46232),
        ("1 in 4", 14.03624),
    ];
    for (text, degrees) in cases {
        match parse(text, Kind::Angle, Unit::Mm) {
            Ok(Value::Angle(angle)) => near(angle.to_degrees(), degrees),
            other => panic!("{text}: {other:?}"),
        }
    }
    let noyes = Angle::of_slope(Length::inches(0.625), Length::inches(3.0));
    near(noyes.to_degrees(), 11.76829);
}

// Derived: the recess lies askew, so its length counts by the sine in the width across.
#[test]
fn halving_fit() {
    let square = calculator("halving").example;
    near(factor("halving", square, "wider"), 1.0);
    near(factor("halving", square, "farther apart"), -1.0);
    let slant = with(square, &[("angle", "30 deg")]);
    near(factor("halving", &slant, "farther apart"), -0.5);
}

// Fairham p. 39: thirds, recess as wide as the slotted piece, 1/4 in over at the open end; p. 41:
// bit 1/8 in (here 3 mm) under the slot.
#[test]
fn bridle() {
    let metric = calculator("bridle").example;
    let wanted = [
        ("slot", 6.0),
        ("cheek", 6.0),
        ("slot_depth", 56.0),
        ("thickness", 6.0),
        ("shoulder", 6.0),
        ("recess", 45.0),
        ("bit_most", 3.0),
    ];
    shows("bridle", metric, Unit::Mm, &wanted);
    let inch = [
        ("stock", "1 1/8 in"),
        ("width", "1 3/4 in"),
        ("cross", "2 in"),
        ("trim", "1/4 in"),
        ("clearance", "0.004 in"),
    ];
    let wanted = [
        ("slot", 0.375),
        ("cheek", 0.375),
        ("slot_depth", 2.25),
        ("thickness", 0.371),
        ("shoulder", 0.377),
        ("recess", 1.75),
    ];
    shows("bridle", &inch, Unit::Inch, &wanted);
    // Two cuts each: t = T - 2 s and m = T' - 2 f.
    near(factor("bridle", metric, "crossing piece thicker"), 1.0);
    near(factor("bridle", metric, "slotted piece thicker"), -1.0);
    near(factor("bridle", metric, "cut deeper"), -2.0);
    near(factor("bridle", metric, "farther off"), 2.0);
}

const TENON_INCH: Texts = &[
    ("stock", "0.875 in"),
    ("width", "4 in"),
    ("cutter", "5/16 in"),
    ("groove", "3/8 in"),
    ("form", "haunched"),
    ("length", "1.25 in"),
    ("kerf", "1/8 in"),
];

// Row 9; joinery 3.7.
#[test]
fn tenon_on_the_table_saw() {
    let wanted = [
        ("thickness", 0.3125),
        ("shoulder_face", 0.28125),
        ("shoulder_back", 0.28125),
        ("fence_near", 0.15625),
        ("fence_far", 0.59375),
        ("spacer", 0.4375),
        ("fence_flipped", 0.59375),
        ("blade_height", 0.28125),
        ("fence_shoulder", 1.125),
    ];
    shows("tenon", TENON_INCH, Unit::Inch, &wanted);
    let metric = calculator("tenon").example;
    let wanted = [
        ("thickness", 8.0),
        ("shoulder_face", 7.0),
        ("fence_near", 3.8),
        ("fence_far", 15.0),
        ("spacer", 11.2),
        ("fence_flipped", 15.0),
        ("blade_height", 7.0),
        ("fence_shoulder", 28.8),
        ("mortise_depth", 33.5),
    ];
    shows("tenon", metric, Unit::Mm, &wanted);
    // Out of the middle: a = 5, a + t = 13, and no setting for both faces.
    let off = answer("tenon", &with(metric, &[("shoulder", "5 mm")]));
    near(length(&off, "fence_far").to_mm(), 13.0);
    near(length(&off, "shoulder_back").to_mm(), 9.0);
    assert!(!off.worked.results.contains_key("fence_flipped"));
    // A blade wider than the shoulder cannot cut both cheeks from one face.
    let thin = answer("tenon", &with(metric, &[("shoulder", "3.1 mm")]));
    assert!(!thin.worked.results.contains_key("fence_near"));
    let no_kerf = answer("tenon", &without(metric, "kerf"));
    assert!(!no_kerf.worked.results.contains_key("fence_far"));
}

// Row 10; thirds of joinery 3.7 (Fairham p. 82, Ross p. 52).
#[test]
fn tenon_thickness_is_a_third() {
    let cases = [
        ("0.75 in", Unit::Inch, 0.25),
        ("0.875 in", Unit::Inch, 0.29167),
        ("1 in", Unit::Inch, 0.33333),
        ("1.125 in", Unit::Inch, 0.375),
        ("1.375 in", Unit::Inch, 0.45833),
        ("18 mm", Unit::Mm, 6.0),
        ("19 mm", Unit::Mm, 6.33333),
        ("20 mm", Unit::Mm, 6.66667),
        ("22 mm", Unit::Mm, 7.33333),
        ("45 mm", Unit::Mm, 15.0),
    ];
    for (stock, unit, third) in cases {
        let texts = [("stock", stock), ("width", "100 mm"), ("length", "30 mm")];
        let wanted = [("thickness", third), ("mortise", third)];
        shows("tenon", &texts, unit, &wanted);
    }
    // Zerbe p. 45: a 1 in rail with a 1/2 in tenon in a thicker leg; here of 2 in.
    let leg = [
        ("stock", "1 in"),
        ("mortised", "2 in"),
        ("width", "4 in"),
        ("length", "1.5 in"),
    ];
    shows("tenon", &leg, Unit::Inch, &[("thickness", 0.5)]);
    // A third of the mortised piece where it is thinner: 15 / 3.
    let thin = [
        ("stock", "22 mm"),
        ("mortised", "15 mm"),
        ("width", "60 mm"),
        ("length", "20 mm"),
    ];
    shows("tenon", &thin, Unit::Mm, &[("thickness", 5.0)]);
}

// Haunch check of joinery 3.7: half minus groove, half of the remainder, cap 5 t (row 10).
#[test]
fn tenon_width() {
    let less = with(TENON_INCH, &[("width_rule", "half-less-groove")]);
    shows("tenon", TENON_INCH, Unit::Inch, &[("width", 1.5625)]);
    shows("tenon", &less, Unit::Inch, &[("width", 1.5625)]);
    // With a mortise of 3/8 in the cap is 1.875, and the two readings show.
    let wide = |texts| with(texts, &[("cutter", "3/8 in")]);
    shows("tenon", &wide(TENON_INCH), Unit::Inch, &[("width", 1.8125)]);
    shows("tenon", &wide(&less), Unit::Inch, &[("width", 1.625)]);
    let metric = calculator("tenon").example;
    let less = with(metric, &[("width_rule", "half-less-groove")]);
    shows("tenon", metric, Unit::Mm, &[("width", 40.0)]);
    shows("tenon", &less, Unit::Mm, &[("width", 40.0)]);
    let wide = with(metric, &[("cutter", "10 mm")]);
    // The haunch fills groove and rest: 10 long, 100 - 10 - 45 wide (Fairham pp. 66-67).
    let wanted = [
        ("width", 45.0),
        ("haunch", 10.0),
        ("edge_inner", 10.0),
        ("edge_outer", 45.0),
    ];
    shows("tenon", &wide, Unit::Mm, &wanted);
    // Without a groove (100 / 2 = 50, held to 5 * 8), and the haunch 12 mm, the least of 1/2 to
    // 1 in (Notes on Building Construction I).
    let unpanelled = without(metric, "groove");
    let wanted = [("width", 40.0), ("haunch", 12.0), ("edge_outer", 60.0)];
    shows("tenon", &unpanelled, Unit::Mm, &wanted);
}

// Derived: a plain tenon keeps 5 mm at each edge, and the groove's depth where that is more
// (Fairham pp. 89-90); widths and gap of a pair are equal (Fairham p. 73).
#[test]
fn tenon_plain_and_twin() {
    let plain = with(
        calculator("tenon").example,
        &[("form", "plain"), ("width", "50 mm")],
    );
    let wanted = [("width", 35.0), ("edge_inner", 10.0), ("edge_outer", 5.0)];
    shows("tenon", &plain, Unit::Mm, &wanted);
    // 85 is held to 40; the 45 over are shared out.
    let held = with(&plain, &[("width", "100 mm")]);
    let wanted = [("width", 40.0), ("edge_inner", 32.5), ("edge_outer", 27.5)];
    shows("tenon", &held, Unit::Mm, &wanted);
    let twin = with(&plain, &[("form", "twin"), ("width", "120 mm")]);
    let wanted = [
        ("width", 35.0),
        ("gap", 35.0),
        ("edge_inner", 10.0),
        ("edge_outer", 5.0),
    ];
    shows("tenon", &twin, Unit::Mm, &wanted);
}

// 3 mm (1/8 in) is enough of a side shoulder (joinery 2.7, common practice), and none at all is
// the barefaced tenon of Fairham p. 64.
#[test]
fn tenon_side_shoulder() {
    let warned = |shoulder| {
        let more = [("shoulder", shoulder), ("kerf", "1 mm")];
        let texts = with(calculator("tenon").example, &more);
        let warnings = answer("tenon", &texts).worked.warnings;
        warnings.iter().any(|one| one.starts_with("Side shoulder"))
    };
    let shoulders = ["0 mm", "2.9 mm", "3 mm", "11 mm", "11.1 mm", "14 mm"];
    assert_eq!(
        shoulders.map(warned),
        [false, true, false, false, true, false]
    );
}

// Fairham p. 91: mortise 7/8 of the stile; 56 * 7 / 8 = 49, less 1.5 mm at the bottom.
#[test]
fn tenon_length_from_the_stile() {
    let texts = [("stock", "22 mm"), ("width", "60 mm"), ("stile", "56 mm")];
    let wanted = [("mortise_depth", 49.0), ("length", 47.5)];
    shows("tenon", &texts, Unit::Mm, &wanted);
}

// Joinery 3.7: dt/df = 1 from one face, whatever the stock; 2 with both faces at the fence, and a
// board thicker by x gives a tenon thinner by x. Router table: t = T - 2 h.
#[test]
fn tenon_fit() {
    let router = calculator("tenon").example;
    near(factor("tenon", router, "stock thicker"), 1.0);
    near(factor("tenon", router, "both faces cut deeper"), -2.0);
    near(factor("tenon", router, "opening narrower"), 1.0);
    let off = with(router, &[("shoulder", "5 mm")]);
    near(factor("tenon", &off, "the face cut deeper"), -1.0);
    near(factor("tenon", &off, "the back cut deeper"), -1.0);
    near(factor("tenon", &off, "stock thicker"), 1.0);
    let one = with(router, &[("method", "one-face")]);
    near(factor("tenon", &one, "for the farther cheek"), 1.0);
    near(factor("tenon", &one, "for the nearer cheek"), -1.0);
    near(factor("tenon", &one, "cut wider"), -1.0);
    near(factor("tenon", &one, "stock thicker"), 0.0);
    let flipped = with(router, &[("method", "flipped")]);
    near(factor("tenon", &flipped, "farther off"), 2.0);
    near(factor("tenon", &flipped, "stock thicker"), -1.0);
    let said = |texts, words: &str| {
        let notes = answer("tenon", texts).worked.notes;
        assert!(notes.iter().any(|note| note.contains(words)), "{notes:?}");
    };
    said(&flipped, "counts twice");
    said(&one, "counts once");
    said(&one, "trapped");
}

// A refusal taken at its word is not refused again.
#[test]
fn what_may_be_may_be() {
    // Groove 10: 10 + 2 * 1; plain 10 + 5 + 1; twin 10 + 5 + 3 * 1 mm.
    let cases = [
        ("haunched", "11.9 mm", "12 mm", "12.00 mm (0.473 in)"),
        ("plain", "15.9 mm", "16 mm", "16.00 mm (0.630 in)"),
        ("twin", "17.9 mm", "18 mm", "18.00 mm (0.709 in)"),
    ];
    for (form, narrow, least, words) in cases {
        let example = calculator("tenon").example;
        let refused = [("form", form), ("width", narrow)];
        let refused = refusal("tenon", &with(example, &refused));
        assert_eq!(refused.may_be, format!("width at least {words}"));
        let more = [("form", form), ("width", least)];
        let answer = answer("tenon", &with(example, &more));
        near(length(&answer, "width").to_mm(), 1.0);
    }
}

// Row 15 and joinery 3.12.
#[test]
fn drawbore() {
    let cases = [
        ("3/8 in", "1/8 in", Unit::Inch, 0.25),
        ("1/4 in", "1/32 in", Unit::Inch, 0.21875),
        ("3/8 in", "1/16 in", Unit::Inch, 0.3125),
        ("6 mm", "0.8 mm", Unit::Mm, 5.2),
        ("9.5 mm", "3.2 mm", Unit::Mm, 6.3),
    ];
    for (peg, offset, unit, passage) in cases {
        let texts = [("peg", peg), ("offset", offset)];
        shows("drawbore", &texts, unit, &[("passage", passage)]);
    }
    // 10 - 0.8.
    let wanted = [("hole_from_shoulder", 9.2)];
    shows(
        "drawbore",
        calculator("drawbore").example,
        Unit::Mm,
        &wanted,
    );
}

// The sources disagree: a third of a 3/8 in peg (Fairham p. 78); 1/16 in with it and 1/32 to 3/64 in
// with 1/4 in (common practice); 1/64 in (Fairham p. 92).
#[test]
fn drawbore_by_rule() {
    let offset = |peg, rule| {
        let answer = answer("drawbore", &[("peg", peg), ("rule", rule)]);
        length(&answer, "offset").to_inches()
    };
    near(offset("3/8 in", "framing"), 0.125);
    near(offset("3/8 in", "cabinet"), 0.0625);
    near(offset("3/8 in", "chair"), 0.015625);
    let quarter = offset("1/4 in", "cabinet");
    assert!((1.0 / 32.0..=3.0 / 64.0).contains(&quarter), "{quarter}");
}

// Leave wood on: tenons and tongues up, mortises and cuts down; a fence that leaves wood on up.
#[test]
fn roles() {
    let wanted = [
        ("halving", "depth_a", Role::TakesOff),
        ("halving", "depth_b", Role::TakesOff),
        ("halving", "recess", Role::Opening),
        ("halving", "end_lap", Role::LeavesOn),
        ("bridle", "slot", Role::Opening),
        ("bridle", "thickness", Role::Entering),
        ("bridle", "cheek", Role::LeavesOn),
        ("bridle", "shoulder", Role::TakesOff),
        ("tenon", "mortise", Role::Opening),
        ("tenon", "thickness", Role::Entering),
        ("tenon", "width", Role::Entering),
        ("tenon", "haunch", Role::Entering),
        ("tenon", "shoulder_face", Role::TakesOff),
        ("tenon", "fence_near", Role::TakesOff),
        ("tenon", "fence_far", Role::LeavesOn),
        ("tenon", "spacer", Role::LeavesOn),
        ("tenon", "fence_flipped", Role::LeavesOn),
        ("tenon", "blade_height", Role::TakesOff),
        ("drawbore", "passage", Role::Opening),
        ("drawbore", "hole_from_shoulder", Role::LeavesOn),
    ];
    for (name, result, role) in wanted {
        let output = calculator(name).output(result).expect("a result");
        assert_eq!(output.role, role, "{name}: {result}");
    }
}
