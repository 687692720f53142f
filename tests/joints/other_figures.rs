//! Check values of housings, passes and speeds: joinery 5, rows 7, 8 and 15, and the tables of
//! joinery 3.5, 3.6 and 3.15 that they are from.

use faceside::joints::SpindleChoice;
use faceside::shop::Speeds;
use faceside::units::{Length, RimSpeed, Spindle, Unit, Value};

use crate::{Texts, answer, calculator, count, factor, lists, near, refusal, shows, with, without};

// Row 7; table of joinery 3.5.
#[test]
fn housing() {
    let inch = [
        ("thickness", "0.705 in"),
        ("clearance", "0.005 in"),
        ("cutter", "0.5 in"),
        ("from", "4 in"),
    ];
    let wanted = [
        ("width", 0.71),
        ("shift", 0.21),
        ("fence_first", 4.25),
        ("fence_last", 4.46),
    ];
    shows("housing", &inch, Unit::Inch, &wanted);
    lists("housing", &inch, "offsets", Unit::Inch, &[-0.105, 0.105]);
    let wide = [
        ("width", "1 in"),
        ("cutter", "0.375 in"),
        ("overlap", "1/16 in"),
    ];
    shows("housing", &wide, Unit::Inch, &[("shift", 0.3125)]);
    lists(
        "housing",
        &wide,
        "offsets",
        Unit::Inch,
        &[-0.3125, 0.0, 0.3125],
    );

    let metric = [
        ("width", "17.7 mm"),
        ("cutter", "12 mm"),
        ("from", "100 mm"),
        ("depth", "6 mm"),
    ];
    let wanted = [
        ("shift", 5.7),
        ("fence_first", 106.0),
        ("fence_last", 111.7),
    ];
    shows("housing", &metric, Unit::Mm, &wanted);
    lists("housing", &metric, "fences", Unit::Mm, &[106.0, 111.7]);
    let wide = [("width", "25 mm"), ("cutter", "9.5 mm")];
    lists("housing", &wide, "offsets", Unit::Mm, &[-7.75, 0.0, 7.75]);
    assert_eq!(count(&answer("housing", &wide), "passes"), 3);
    // Steps of half the cutter's diameter: 6 of 6 mm is one, 6.1 mm two.
    let steps = |depth| {
        count(
            &answer("housing", &with(&metric, &[("depth", depth)])),
            "depth_passes",
        )
    };
    assert_eq!((steps("6 mm"), steps("6.1 mm")), (1, 2));
    let same = [("width", "12 mm"), ("cutter", "12 mm")];
    lists("housing", &same, "offsets", Unit::Mm, &[0.0]);

    let refusal = refusal("housing", &[("width", "0.703 in"), ("cutter", "0.75 in")]);
    assert_eq!(refusal.is, "cutter 19.05 mm (0.750 in)");
    assert_eq!(refusal.may_be, "cutter at most 17.85 mm (0.703 in)");
}

// Derived: both walls stand half a diameter from their axes; the far wall moves with the last axis.
#[test]
fn housing_fit() {
    let two = [("width", "17.7 mm"), ("cutter", "12 mm")];
    near(factor("housing", &two, "thicker"), 1.0);
    near(factor("housing", &two, "smaller"), 1.0);
    near(factor("housing", &two, "farther apart"), -1.0);
    let one = answer("housing", &[("width", "12 mm"), ("cutter", "12 mm")]);
    assert_eq!(one.influences(calculator("housing")).len(), 2);
}

// Row 8; joinery 3.6.
#[test]
fn stopped_housing() {
    let name = "stopped-housing";
    let inch = [
        ("panel", "11.25 in"),
        ("stop", "0.5 in"),
        ("cutter", "0.75 in"),
        ("clearance", "1/32 in"),
    ];
    let wanted = [
        ("stop_near", 10.0),
        ("stop_far", 10.75),
        ("stop_axis", 10.375),
        ("length", 10.375),
        ("notch_width", 0.90625),
    ];
    shows(name, &inch, Unit::Inch, &wanted);
    let wanted = [("notch_width", 0.53125), ("length", 10.75)];
    shows(
        name,
        &with(&inch, &[("ends", "square")]),
        Unit::Inch,
        &wanted,
    );
    let metric = [("panel", "285 mm"), ("stop", "12 mm"), ("cutter", "18 mm")];
    let wanted = [
        ("stop_near", 255.0),
        ("stop_far", 273.0),
        ("stop_axis", 264.0),
        ("notch_width", 21.5),
    ];
    shows(name, &metric, Unit::Mm, &wanted);
    // 12.5 squared, less the 3 that the shelf stands back.
    let back = with(&metric, &[("ends", "square"), ("set_back", "3 mm")]);
    shows(
        name,
        &back,
        Unit::Mm,
        &[("notch_width", 9.5), ("length", 273.0)],
    );
}

// Table of joinery 3.15 (row 15), and the two speeds under it.
#[test]
fn rim_speed() {
    let cases = [
        ("10 in", "3450 rpm", 45.88296),
        ("8 in", "3450 rpm", 36.70637),
        ("1/2 in", "22000 rpm", 14.62935),
        ("1 1/2 in", "16000 rpm", 31.91858),
        ("3 in", "22000 rpm", 87.77610),
        ("250 mm", "4000 rpm", 52.35988),
        ("12 mm", "18000 rpm", 11.30973),
    ];
    for (diameter, speed, wanted) in cases {
        match answer("rim-speed", &[("diameter", diameter), ("speed", speed)])
            .worked
            .results["rim_speed"]
        {
            Value::RimSpeed(speed) => near(speed.to_metres_per_second(), wanted),
            ref other => panic!("{other:?}"),
        }
    }
    // Row 15 in feet a minute: 10 in at 3450 rpm, 9032.08.
    let typed = [("diameter", "10 in"), ("speed", "3450 rpm")];
    match answer("rim-speed", &typed).worked.results["rim_speed"] {
        Value::RimSpeed(speed) => assert!((speed.to_feet_per_minute() - 9032.08).abs() < 0.005),
        ref other => panic!("{other:?}"),
    }
    let fast = [
        ("diameter", "3 in"),
        ("speed", "22000 rpm"),
        ("limit", "10000 ft/min"),
    ];
    assert_eq!(
        refusal("rim-speed", &fast).may_be,
        "speed at most 12732 rpm"
    );
}

#[track_caller]
fn rpm(name: &str, texts: Texts, result: &str) -> f64 {
    match answer(name, texts).worked.results[result] {
        Value::Speed(speed) => speed.to_rpm(),
        ref other => panic!("{other:?}"),
    }
}

// Safety section 4: the smallest of mark, machine and rim limit. 76 mm at 50 m/s is 12564.9 rpm
// (joinery 3.15).
#[test]
fn spindle_takes_the_smallest() {
    let all = [
        ("diameter", "76 mm"),
        ("marked", "18000 rpm"),
        ("limit", "50 m/s"),
        ("machine_least", "8000 rpm"),
        ("machine_most", "22000 rpm"),
    ];
    assert!((rpm("spindle", &all, "speed_set") - 12564.9).abs() < 0.05);
    near(
        rpm(
            "spindle",
            &with(&all, &[("marked", "9000 rpm")]),
            "speed_set",
        ),
        9000.0,
    );
    let slow = with(&all, &[("machine_most", "10000 rpm")]);
    near(rpm("spindle", &slow, "speed_set"), 10000.0);
    assert!((rpm("spindle", &slow, "speed_most") - 12564.9).abs() < 0.05);
    let unmarked = answer("spindle", &without(&all, "marked")).worked.warnings;
    let words = "No marked maximum: do not run before the maker's figure is known";
    assert!(unmarked[0].starts_with(words), "{unmarked:?}");
}

// A machine with steps: the fastest step that is slow enough. 8000 rpm at 76 mm run 31.83 m/s.
#[test]
fn spindle_takes_a_step() {
    let choice = |limit| SpindleChoice {
        diameter: Length::mm(76.0),
        marked: None,
        limit: RimSpeed::metres_per_second(limit),
        machine: Speeds::Steps([8e3, 12e3, 18e3].map(Spindle::rpm).to_vec()),
    };
    assert_eq!(
        choice(50.0).work_out().unwrap().speed_set,
        Spindle::rpm(12e3)
    );
    assert!(choice(31.9).work_out().is_ok() && choice(31.8).work_out().is_err());
}

// Safety section 4, usual chart: up to 25.4 mm 24 000 rpm, up to 50.8 mm 18 000 rpm.
#[test]
fn spindle_warns_over_the_usual_chart() {
    let warned = |diameter, speed| {
        let texts = [
            ("diameter", diameter),
            ("marked", speed),
            ("limit", "120 m/s"),
        ];
        let warnings = answer("spindle", &texts).worked.warnings;
        warnings
            .iter()
            .any(|warning| warning.contains("usual chart"))
    };
    assert!(!warned("25.4 mm", "24000 rpm") && warned("25.5 mm", "24000 rpm"));
    assert!(!warned("50.8 mm", "18000 rpm") && warned("50.9 mm", "18000 rpm"));
}

// Joinery 3.5: ceil(h / a) with a half the diameter; a third in hard wood is from memory.
#[test]
fn passes() {
    let half = [("depth", "9.5 mm"), ("cutter", "12 mm")];
    lists("passes", &half, "depths", Unit::Mm, &[4.75, 9.5]);
    let hard = [("depth", "9 mm"), ("cutter", "12 mm"), ("wood", "hard")];
    lists("passes", &hard, "depths", Unit::Mm, &[3.0, 6.0, 9.0]);
    lists(
        "passes",
        &with(&hard, &[("most", "4.5 mm")]),
        "depths",
        Unit::Mm,
        &[4.5, 9.0],
    );
    let once = [("depth", "6 mm"), ("cutter", "12 mm")];
    assert_eq!(count(&answer("passes", &once), "count"), 1);
}
