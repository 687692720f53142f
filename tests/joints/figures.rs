//! Check values of joinery 5, rows 1 to 8 and 15, and the tables of joinery 3 that they are from.

use faceside::joints::{FitBudget, SpindleChoice, Tolerances};
use faceside::shop::Speeds;
use faceside::units::{Angle, Length, RimSpeed, Spindle, Unit, Value};

use crate::{
    DOVETAIL_INCH, DOVETAIL_MM, ONE_SIDED_MM, Texts, answer, calculator, count, length, lengths,
    near, refusal, with, without,
};

#[track_caller]
fn shows(name: &str, texts: Texts, unit: Unit, wanted: &[(&str, f64)]) {
    let answer = answer(name, texts);
    for (result, wanted) in wanted {
        near(number(length(&answer, result), unit), *wanted);
    }
}

fn number(length: Length, unit: Unit) -> f64 {
    match unit {
        Unit::Mm => length.to_mm(),
        Unit::Inch => length.to_inches(),
    }
}

#[track_caller]
fn lists(name: &str, texts: Texts, result: &str, unit: Unit, wanted: &[f64]) {
    let is = lengths(&answer(name, texts), result);
    assert_eq!(is.len(), wanted.len());
    for (is, wanted) in is.iter().zip(wanted) {
        near(number(*is, unit), *wanted);
    }
}

/// The factor of the only influence whose words hold `part`.
#[track_caller]
fn factor(name: &str, texts: Texts, part: &str) -> f64 {
    let influences = answer(name, texts).influences(calculator(name));
    let found: Vec<_> = influences
        .iter()
        .filter(|i| i.what.contains(part))
        .collect();
    assert_eq!(found.len(), 1, "{part}: {influences:?}");
    found[0].factor
}

// Rows 1 and 2; table of joinery 3.1 with c = 0, both cutters.
#[test]
fn sliding_dovetail_in_one_pass() {
    let wanted = [
        ("mouth", 0.313),
        ("exposure", 0.2185),
        ("end_cut", 0.125),
        ("tail_end", 0.5),
    ];
    shows("sliding-dovetail", DOVETAIL_INCH, Unit::Inch, &wanted);
    let wanted = [
        ("mouth", 7.96277),
        ("exposure", 5.51862),
        ("end_cut", 3.15),
        ("shift", 0.0),
    ];
    shows("sliding-dovetail", DOVETAIL_MM, Unit::Mm, &wanted);
    let seven = with(DOVETAIL_INCH, &[("angle", "7 deg"), ("depth", "0.5 in")]);
    let wanted = [
        ("mouth", 0.37722),
        ("exposure", 0.18639),
        ("end_cut", 0.125),
    ];
    shows("sliding-dovetail", &seven, Unit::Inch, &wanted);
    let seven = [
        ("stock", "18 mm"),
        ("cutter", "14 mm"),
        ("angle", "7 deg"),
        ("depth", "12 mm"),
    ];
    let wanted = [("mouth", 11.05317), ("exposure", 3.47341), ("end_cut", 2.0)];
    shows("sliding-dovetail", &seven, Unit::Mm, &wanted);
}

// Last line of the table of joinery 3.1.
#[test]
fn sliding_dovetail_with_clearance() {
    let inch = with(DOVETAIL_INCH, &[("clearance", "0.004 in")]);
    let wanted = [("exposure", 0.2205), ("neck", 0.309), ("tail_end", 0.496)];
    shows("sliding-dovetail", &inch, Unit::Inch, &wanted);
    let metric = with(DOVETAIL_MM, &[("clearance", "0.1 mm")]);
    let wanted = [("exposure", 5.56862), ("neck", 7.86277), ("tail_end", 12.6)];
    shows("sliding-dovetail", &metric, Unit::Mm, &wanted);
}

// Row 3: end cut -0.02350 in, the cutter is wider than the stock. 0.703 in is 17.8562 mm; bounds
// are rounded to their safe side.
#[test]
fn sliding_dovetail_refuses_thin_stock() {
    let thin = with(
        DOVETAIL_INCH,
        &[("cutter", "0.75 in"), ("stock", "0.703 in")],
    );
    let refusal = refusal("sliding-dovetail", &thin);
    assert_eq!(
        refusal.is,
        "stock 17.86 mm (0.703 in), base 19.05 mm (0.750 in)"
    );
    let may_be =
        "stock at least 19.05 mm (0.750 in), or cutter and base at most 17.85 mm (0.703 in)";
    assert_eq!(refusal.may_be, may_be);
}

// Row 4 and the closed forms of joinery 3.1: 2 tan(theta) d, 0, -2 f, t, b.
#[test]
fn sliding_dovetail_fit() {
    let name = "sliding-dovetail";
    let seven = with(DOVETAIL_INCH, &[("angle", "7 deg"), ("depth", "0.5 in")]);
    near(
        0.005 * factor(name, DOVETAIL_INCH, "socket cut deeper"),
        0.00249,
    );
    near(0.005 * factor(name, &seven, "socket cut deeper"), 0.00123);
    near(factor(name, DOVETAIL_MM, "socket cut deeper"), 0.49866);
    for texts in [DOVETAIL_INCH, DOVETAIL_MM, &seven] {
        near(factor(name, texts, "cutter lower"), 0.0);
        near(factor(name, texts, "fence back"), -2.0);
        near(factor(name, texts, "thicker"), 1.0);
        near(factor(name, texts, "cutter smaller"), 1.0);
    }
    // 2 h sec2(theta) pi/180 a degree: 0.25 degrees at h 9.5 mm give 0.08806 mm; tan 14 is 0.249328,
    // sec2 is 1 + tan2.
    near(0.25 * factor(name, DOVETAIL_MM, "angle"), 0.08806);
    let closed = 2.0 * 9.5 * (1.0 + 0.249328 * 0.249328) * std::f64::consts::PI / 180.0;
    near(factor(name, DOVETAIL_MM, "angle"), closed);
    match answer(name, DOVETAIL_MM).worked.results["fit_per_depth"] {
        Value::Number(number) => near(number, 0.49866),
        ref other => panic!("{other:?}"),
    }
}

// Row 5, and the limit of two passes in joinery 3.2: base 0.81300 in, 20.66277 mm.
#[test]
fn sliding_dovetail_in_two_passes() {
    let name = "sliding-dovetail";
    let inch = with(
        DOVETAIL_INCH,
        &[("stock", "0.875 in"), ("base", "0.625 in")],
    );
    let wanted = [
        ("shift", 0.125),
        ("mouth", 0.438),
        ("exposure", 0.2185),
        ("end_cut", 0.125),
    ];
    shows(name, &inch, Unit::Inch, &wanted);
    let more = [("stock", "22 mm"), ("base", "16 mm"), ("from", "100 mm")];
    let metric = with(DOVETAIL_MM, &more);
    let wanted = [
        ("shift", 3.3),
        ("mouth", 11.26277),
        ("exposure", 5.36862),
        ("end_cut", 3.0),
    ];
    shows(name, &metric, Unit::Mm, &wanted);
    // The near wall at the mouth lies half the mouth of one pass, 7.96277 / 2, before the axis.
    let wanted = [("fence_first", 103.98138), ("fence_last", 107.28138)];
    shows(name, &metric, Unit::Mm, &wanted);
    lists(name, &metric, "fences", Unit::Mm, &[103.98138, 107.28138]);
    // Derived: the far wall moves with the last pass.
    near(factor(name, &metric, "farther apart"), -1.0);

    let passes = |base| {
        let more = [("stock", "24 mm"), ("base", base)];
        count(&answer(name, &with(DOVETAIL_MM, &more)), "passes")
    };
    assert_eq!((passes("20.6627 mm"), passes("20.6628 mm")), (2, 3));
}

// Joinery 3.1, fit budget at 14 degrees.
#[test]
fn fit_budget_of_a_sliding_dovetail() {
    let budget = |texts, [measuring, fence, height, diameter]: [Length; 4], degrees| {
        let influences =
            answer("sliding-dovetail", texts).influences(calculator("sliding-dovetail"));
        let angle = Angle::degrees(degrees);
        FitBudget::new(
            influences,
            &Tolerances {
                measuring,
                fence,
                height,
                diameter,
                angle,
            },
        )
    };
    let inch = budget(
        DOVETAIL_INCH,
        [0.003, 0.001, 0.003, 0.002].map(Length::inches),
        0.0,
    );
    near(inch.worst.to_inches(), 0.00850);
    near(inch.root_sum_square.to_inches(), 0.00439);
    assert_eq!(inch.largest, Some("tail's stock thicker than measured"));
    let metric = budget(DOVETAIL_MM, [0.08, 0.03, 0.08, 0.05].map(Length::mm), 0.0);
    near(metric.worst.to_mm(), 0.22989);
    near(metric.root_sum_square.to_mm(), 0.11871);
    // 0.08 of 0.22989.
    near(metric.lines[0].share, 0.34799);
    near(metric.lines.iter().map(|line| line.share).sum(), 1.0);
    // The angle alone: 0.08806 mm for 0.25 degrees.
    let angle = budget(DOVETAIL_MM, [Length::ZERO; 4], 0.25);
    near(angle.worst.to_mm(), 0.08806);
    near(angle.root_sum_square.to_mm(), 0.08806);
    assert_eq!(budget(DOVETAIL_MM, [Length::ZERO; 4], 0.0).largest, None);
}

// Row 6; table of joinery 3.3.
#[test]
fn one_sided_dovetail() {
    let more = [
        ("base", "0.6875 in"),
        ("straight", "0.5 in"),
        ("margin", "1/32 in"),
        ("from", "4 in"),
    ];
    let wanted = [
        ("base_least", 0.53125),
        ("base_most", 0.71875),
        ("mouth", 0.594),
        ("exposure", 0.156),
        ("end_cut", 0.0625),
        ("straight_least", 0.281),
        ("straight_most", 0.594),
        ("square_wall_gap", 0.1875),
        ("fence_straight", 4.25),
        ("fence_dovetail", 4.4375),
    ];
    shows(
        "one-sided-dovetail",
        &with(DOVETAIL_INCH, &more),
        Unit::Inch,
        &wanted,
    );
    let wanted = [
        ("base_least", 13.5),
        ("base_most", 18.2),
        ("mouth", 14.63138),
        ("exposure", 4.36862),
        ("end_cut", 2.0),
        ("straight_least", 6.66862),
        ("straight_most", 14.63138),
        ("square_wall_gap", 4.3),
        ("fence_straight", 106.0),
        ("fence_dovetail", 110.65),
    ];
    shows("one-sided-dovetail", ONE_SIDED_MM, Unit::Mm, &wanted);
    // Without a base: the middle of 13.5 and 18.2.
    shows(
        "one-sided-dovetail",
        &without(ONE_SIDED_MM, "base"),
        Unit::Mm,
        &[("base", 15.85)],
    );
}

// Joinery 3.3: depth counts tan(theta), the fence once. Derived: an axis keeps its place, so half
// of a diameter's error reaches the wall; Mb = Bb - h tan(theta), so the angle counts half as much
// as in the two-sided joint.
#[test]
fn one_sided_dovetail_fit() {
    let fit = |part| factor("one-sided-dovetail", ONE_SIDED_MM, part);
    near(fit("socket cut deeper"), 0.249328);
    near(fit("fence back"), -1.0);
    near(fit("farther from the straight"), -1.0);
    near(fit("thicker"), 1.0);
    near(fit("cutter lower"), 0.0);
    near(fit("dovetail cutter smaller"), 0.5);
    near(fit("straight cutter smaller"), 0.5);
    near(0.25 * fit("angle"), 0.08806 / 2.0);
}

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
