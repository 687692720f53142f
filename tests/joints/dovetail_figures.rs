//! Check values of the sliding dovetails: joinery 5, rows 1 to 6, and the tables of joinery 3.1 to
//! 3.3 that they are from.

use faceside::joints::{FitBudget, Tolerances};
use faceside::units::{Angle, Length, Unit, Value};

use crate::{
    DOVETAIL_INCH, DOVETAIL_MM, ONE_SIDED_MM, answer, calculator, count, factor, lists, near,
    refusal, shows, with, without,
};

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
        let name = "sliding-dovetail";
        let angle = Angle::degrees(degrees);
        FitBudget::of(
            calculator(name),
            &answer(name, texts),
            &Tolerances {
                measuring,
                fence,
                height,
                diameter,
                angle,
            },
        )
        .expect("a fit")
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
