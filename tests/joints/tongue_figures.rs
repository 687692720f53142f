//! Check values of the tapered housing, the saw's ramp, rebates and tongues: joinery 3.4 and 3.6;
//! what the sources leave open is derived beside the check.

use faceside::units::{Angle, Role, Unit, Value};

use crate::{Texts, answer, calculator, factor, length, near, refusal, shows, with};

#[track_caller]
fn angle(name: &str, texts: Texts, result: &str) -> Angle {
    match answer(name, texts).worked.results[result] {
        Value::Angle(angle) => angle,
        ref other => panic!("{other:?}"),
    }
}

// Joinery 3.4.
#[test]
fn tapered_housing() {
    let name = "tapered-housing";
    let inch = [
        ("length", "12 in"),
        ("taper", "1/16 in"),
        ("clearance", "0.005 in"),
    ];
    near(angle(name, &inch, "angle_one_wall").to_degrees(), 0.29841);
    near(angle(name, &inch, "angle_two_walls").to_degrees(), 0.14921);
    shows(name, &inch, Unit::Inch, &[("tight_travel", 0.96)]);
    let metric = calculator(name).example;
    near(angle(name, metric, "angle_one_wall").to_degrees(), 0.28648);
    near(angle(name, metric, "angle_two_walls").to_degrees(), 0.14324);
    shows(name, metric, Unit::Mm, &[("tight_travel", 20.0)]);
    // A clearance of the whole taper closes over the whole length.
    let whole = with(metric, &[("clearance", "1.5 mm")]);
    shows(name, &whole, Unit::Mm, &[("tight_travel", 300.0)]);
    // 0.1 mm too thick stops 0.1 * 300 / 1.5 = 20 mm sooner; 1/16 in a foot over 300 mm is
    // 300 / 192 = 1.5625 mm.
    let notes = answer(name, metric).worked.notes;
    assert!(notes[0].contains("20.00 mm (0.787 in) sooner"), "{notes:?}");
    assert!(notes[1].contains("1.56 mm"), "{notes:?}");
}

// Joinery 3.6, last paragraph.
#[test]
fn saw_ramp() {
    let cases = [
        ("8 in", "0.375 in", Unit::Inch, 1.69097),
        ("8 in", "0.25 in", Unit::Inch, 1.39194),
        ("10 in", "0.375 in", Unit::Inch, 1.89984),
        ("200 mm", "9.5 mm", Unit::Mm, 42.54116),
    ];
    for (diameter, depth, unit, ramp) in cases {
        let texts = [("diameter", diameter), ("depth", depth)];
        shows("saw-ramp", &texts, unit, &[("ramp", ramp)]);
    }
}

// Griffith p. 107 (joinery 2.5): marked at the thickness of the side; depth half, and 1/64 in to
// trim (common practice).
#[test]
fn rebate() {
    let inch = [
        ("stock", "3/4 in"),
        ("mate", "1/2 in"),
        ("trim", "1/64 in"),
        ("depth", "1/2 in"),
    ];
    let wanted = [("width", 0.515625), ("depth", 0.5), ("lip", 0.25)];
    shows("rebate", &inch, Unit::Inch, &wanted);
    // Two thirds of 3/4 in, and 1/4 in (6.35 mm) of lip: both at their limits.
    assert!(answer("rebate", &inch).worked.warnings.is_empty());
    let wanted = [("width", 15.5), ("depth", 9.0), ("lip", 9.0)];
    shows("rebate", calculator("rebate").example, Unit::Mm, &wanted);
    let warned = |depth| {
        let texts = [("stock", "18 mm"), ("mate", "15 mm"), ("depth", depth)];
        answer("rebate", &texts).worked.warnings.len()
    };
    assert_eq!(
        ["8.9 mm", "9 mm", "12 mm", "12.1 mm"].map(warned),
        [1, 0, 0, 2]
    );
}

// Derived: w = 18 / 3; t = w - 0.1; shoulders (18 - 5.9) / 2; length 6 - 1.
#[test]
fn tongue_and_groove() {
    let (name, metric) = ("tongue-and-groove", calculator("tongue-and-groove").example);
    let wanted = [
        ("groove", 6.0),
        ("depth", 6.0),
        ("wall_face", 6.0),
        ("wall_back", 6.0),
        ("tongue", 5.9),
        ("tongue_length", 5.0),
        ("shoulder_face", 6.05),
        ("tongue_far", 11.95),
        ("shoulder_back", 6.05),
    ];
    shows(name, metric, Unit::Mm, &wanted);
    // Walls 5 and 18 - 5 - 6 = 7; shoulders half of the clearance more.
    let off = with(metric, &[("face", "5 mm")]);
    let wanted = [
        ("wall_back", 7.0),
        ("shoulder_face", 5.05),
        ("tongue_far", 10.95),
        ("shoulder_back", 7.05),
    ];
    shows(name, &off, Unit::Mm, &wanted);
    // 3/4 in in thirds; the tongue 1/16 in shorter than the groove.
    let inch = [
        ("stock", "3/4 in"),
        ("depth", "3/8 in"),
        ("end_gap", "1/16 in"),
    ];
    let wanted = [
        ("groove", 0.25),
        ("tongue", 0.25),
        ("tongue_length", 0.3125),
        ("shoulder_face", 0.25),
    ];
    shows(name, &inch, Unit::Inch, &wanted);
}

// A quarter of 18 is 4.5 mm: at it no word, under it one, on whichever side of the groove.
#[test]
fn a_thin_wall_is_told_on_either_side() {
    let warned = |groove, face| {
        let texts = [
            ("stock", "18 mm"),
            ("depth", "6 mm"),
            ("groove", groove),
            ("face", face),
        ];
        answer("tongue-and-groove", &texts).worked.warnings.len()
    };
    assert_eq!(warned("9 mm", "4.5 mm"), 0);
    assert_eq!(warned("6 mm", "4.4 mm"), 1);
    assert_eq!(warned("6 mm", "7.6 mm"), 1);
}

// Joinery 3.7: from one face dt/df = 1 and the stock does not matter; from both faces 2. A cheek cut
// in from its own face keeps what the stock is thicker (t = T - 2 s).
#[test]
fn tongue_and_groove_fit() {
    let (name, one) = ("tongue-and-groove", calculator("tongue-and-groove").example);
    near(factor(name, one, "stock thicker"), 0.0);
    near(factor(name, one, "for the nearer cheek"), -1.0);
    near(factor(name, one, "for the farther cheek"), 1.0);
    near(factor(name, one, "cut wider"), -1.0);
    near(factor(name, one, "opening narrower"), 1.0);
    let both = with(one, &[("method", "flipped")]);
    near(factor(name, &both, "stock thicker"), 1.0);
    near(factor(name, &both, "both faces cut deeper"), -2.0);
    near(factor(name, &both, "opening narrower"), 1.0);
}

// Derived: t = 18 / 3 - 0.1; shoulder 18 - 5.9; the housing 0.05 nearer the end than the tongue.
#[test]
fn tongue_in_housing() {
    let (name, metric) = ("tongue-in-housing", calculator("tongue-in-housing").example);
    let wanted = [
        ("housing", 6.0),
        ("depth", 6.0),
        ("rest", 12.0),
        ("tongue", 5.9),
        ("tongue_length", 5.0),
        ("shoulder", 12.1),
        ("from_end", 12.05),
    ];
    shows(name, metric, Unit::Mm, &wanted);
    // 3/4 in stock, 1/4 in housing 3/8 in deep: half of the side, the limit (joinery 2.3).
    let inch = [
        ("stock", "3/4 in"),
        ("side", "3/4 in"),
        ("housing", "1/4 in"),
        ("depth", "3/8 in"),
        ("end_gap", "1/32 in"),
    ];
    let wanted = [
        ("tongue", 0.25),
        ("tongue_length", 0.34375),
        ("shoulder", 0.5),
        ("from_end", 0.5),
        ("rest", 0.375),
    ];
    shows(name, &inch, Unit::Inch, &wanted);
    let deeper = refusal(name, &with(&inch, &[("depth", "0.376 in")]));
    assert_eq!(deeper.may_be, "at most 9.52 mm (0.375 in)");
    // One cut leaves the tongue: t = T - s.
    near(factor(name, metric, "stock thicker"), 1.0);
    near(factor(name, metric, "outer face cut deeper"), -1.0);
    near(factor(name, metric, "housing narrower"), 1.0);
}

// Leave wood on: what enters up, openings and cuts down; a stop that allows for the ramp up.
#[test]
fn roles() {
    let wanted = [
        ("saw-ramp", "ramp", Role::LeavesOn),
        ("rebate", "width", Role::TakesOff),
        ("rebate", "depth", Role::TakesOff),
        ("tongue-and-groove", "groove", Role::Opening),
        ("tongue-and-groove", "tongue", Role::Entering),
        ("tongue-and-groove", "shoulder_face", Role::TakesOff),
        ("tongue-and-groove", "tongue_far", Role::LeavesOn),
        ("tongue-in-housing", "housing", Role::Opening),
        ("tongue-in-housing", "tongue", Role::Entering),
        ("tongue-in-housing", "shoulder", Role::TakesOff),
    ];
    for (name, result, role) in wanted {
        let output = calculator(name).output(result).expect("a result");
        assert_eq!(output.role, role, "{name}: {result}");
    }
    // The tongue never reaches the groove's floor: both rounded down, 1 mm apart.
    let answer = answer("tongue-and-groove", calculator("tongue-and-groove").example);
    assert!(length(&answer, "tongue_length") < length(&answer, "depth"));
}
