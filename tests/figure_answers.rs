//! `faceside figure` in mm and in inches, driven from outside, against reference joinery, section
//! 5, with the row named beside each.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a test and its helpers stop by a panic"
)]

mod util;

use serde_json::Value as Json;
use util::{Folder, Run};

/// `faceside figure ...`.
#[track_caller]
fn figure(arguments: &[&str]) -> Run {
    Folder::empty().run(&[&["figure"], arguments].concat())
}

/// A text without its line breaks and runs of blanks.
fn joined(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Half of the last digit of the five that the reference gives, and of its inches in mm.
const LAST: [f64; 2] = [0.6e-5, 0.6e-5 * 25.4];

const MM: usize = 0;
const INCH: usize = 1;

/// The figure of a value, whatever its kind.
fn number(value: &Json) -> f64 {
    let keys = ["mm", "deg", "m_per_s", "number", "count"];
    let found = keys.iter().find_map(|key| value[*key].as_f64());
    found.unwrap_or_else(|| panic!("no figure in {value}"))
}

/// Asks for what `typed` says and compares; inches are compared in mm.
#[track_caller]
fn is(typed: &str, unit: usize, wanted: &[(&str, f64)]) {
    let mut arguments: Vec<&str> = typed.split(", ").collect();
    arguments.extend(["--json", "--units", ["mm", "in"][unit]]);
    let json = figure(&arguments).code(0).json();
    for (name, figure) in wanted {
        let value = &json["results"][*name];
        let figure = match (unit, value["kind"].as_str()) {
            (INCH, Some("length")) => figure * 25.4,
            _ => *figure,
        };
        let found = number(value);
        assert!(
            (found - figure).abs() <= LAST[unit],
            "{typed}: {name} is {found}, not {figure}"
        );
    }
}

// Rows 1 and 2.
#[test]
fn sliding_dovetail_in_one_pass() {
    let inch = "sliding-dovetail, stock=3/4, cutter=1/2, angle=14deg, depth=3/8";
    let settings = [
        ("mouth", 0.313),
        ("exposure", 0.2185),
        ("end_cut", 0.125),
        ("tail_end", 0.5),
    ];
    is(inch, INCH, &settings);
    let mm = "sliding-dovetail, stock=19, cutter=12.7, angle=14deg, depth=9.5";
    let settings = [
        ("mouth", 7.96277),
        ("exposure", 5.51862),
        ("end_cut", 3.15),
        ("tail_end", 12.7),
    ];
    is(mm, MM, &settings);
}

// Row 3: an end cut of -0.0235 in is refused.
#[test]
fn stock_thinner_than_the_cutter_is_refused() {
    let values = [
        "stock=0.703in",
        "cutter=0.75in",
        "angle=14deg",
        "depth=3/8in",
    ];
    let typed = [&["sliding-dovetail"], &values[..]].concat();
    let run = figure(&typed);
    let text = joined(&run.code(1).out());
    assert!(
        text.contains("0.703 in") && text.contains("0.750 in"),
        "{text}"
    );
    let json = figure(&[&typed[..], &["--json"]].concat()).code(1).json();
    assert_eq!(json["calculator"], "sliding-dovetail");
    assert_eq!(json.as_object().unwrap().len(), 2);
    for key in ["what", "is", "may_be", "instead"] {
        assert!(!json["refused"][key].as_str().unwrap().is_empty(), "{key}");
    }
}

// Row 4: 0.005 in too deep makes the fit tighter by 0.00249 in at 14 degrees, 0.00123 in at 7.
#[test]
fn a_socket_too_deep_is_too_tight() {
    for (angle, tighter) in [("14deg", 0.002_49), ("7deg", 0.001_23)] {
        let angle = format!("angle={angle}");
        let typed = [
            "sliding-dovetail",
            "stock=19",
            "cutter=12.7",
            &angle,
            "depth=9.5",
            "--json",
        ];
        let json = figure(&typed).code(0).json();
        let found = number(&json["results"]["fit_per_depth"]) * 0.005;
        assert!((found - tighter).abs() < 0.6e-5, "{found}");
    }
}

// Row 5.
#[test]
fn sliding_dovetail_in_two_passes() {
    let inch = "sliding-dovetail, stock=3/4, cutter=1/2, angle=14deg, depth=3/8, base=5/8";
    is(
        inch,
        INCH,
        &[("passes", 2.0), ("shift", 0.125), ("mouth", 0.438)],
    );
    let mm = "sliding-dovetail, stock=19, cutter=12.7, angle=14deg, depth=9.5, base=16";
    is(
        mm,
        MM,
        &[("passes", 2.0), ("shift", 3.3), ("mouth", 11.26277)],
    );
}

// Row 6; the window of the base has 1/32 in beside the cutter and the shoulder.
#[test]
fn one_sided_dovetail() {
    let inch = "one-sided-dovetail, stock=3/4, cutter=1/2, angle=14deg, depth=3/8, base=11/16, \
                margin=1/32";
    let settings = [
        ("mouth", 0.594),
        ("exposure", 0.156),
        ("straight_least", 0.281),
        ("straight_most", 0.594),
        ("base_least", 0.53125),
        ("base_most", 0.71875),
    ];
    is(inch, INCH, &settings);
    let mm = "one-sided-dovetail, stock=19, cutter=12.7, angle=14deg, depth=9.5, base=17";
    let settings = [
        ("mouth", 14.63138),
        ("exposure", 4.36862),
        ("base_least", 13.5),
        ("base_most", 18.2),
    ];
    is(mm, MM, &settings);
}

// Row 8.
#[test]
fn stopped_housing() {
    let inch = "stopped-housing, panel=11 1/4, stop=1/2, cutter=3/4, clearance=1/32";
    is(
        inch,
        INCH,
        &[
            ("stop_near", 10.0),
            ("stop_far", 10.75),
            ("notch_width", 0.90625),
        ],
    );
    let mm = "stopped-housing, panel=285, stop=12, cutter=18";
    is(
        mm,
        MM,
        &[
            ("stop_near", 255.0),
            ("stop_far", 273.0),
            ("notch_width", 21.5),
        ],
    );
}

// Rows 9 and 10.
#[test]
fn tenon() {
    let inch = "tenon, stock=7/8, width=4, cutter=5/16, length=1 1/4, kerf=1/8";
    let settings = [
        ("fence_near", 0.15625),
        ("fence_far", 0.59375),
        ("spacer", 0.4375),
        ("fence_flipped", 0.59375),
        ("width", 1.5625),
    ];
    is(inch, INCH, &settings);
    let mm = "tenon, stock=22, width=100, cutter=8, length=32, kerf=3.2";
    is(
        mm,
        MM,
        &[
            ("fence_near", 3.8),
            ("fence_far", 15.0),
            ("spacer", 11.2),
            ("fence_flipped", 15.0),
        ],
    );
    is(
        "tenon, stock=3/4, width=2, length=1",
        INCH,
        &[("thickness", 0.25)],
    );
    is(
        "tenon, stock=1 3/8, width=2, length=1",
        INCH,
        &[("thickness", 0.45833)],
    );
    is(
        "tenon, stock=45, width=60, length=30",
        MM,
        &[("thickness", 15.0)],
    );
}

// Rows 11 and 12.
#[test]
fn dovetails() {
    for (slope, angle) in [
        ("1 in 8", 7.12502),
        ("1 in 6", 9.46232),
        ("5/8 in 3", 11.76829),
        ("1 in 4", 14.03624),
    ] {
        let board = "dovetails, width=150, thickness=19, tails=3, ratio=1, base_line=even";
        is(&format!("{board}, slope={slope}"), MM, &[("angle", angle)]);
    }
    let inch = "dovetails, width=6, thickness=3/4, tails=4, ratio=3, slope=1 in 6, base_line=even";
    let marks = [
        ("socket_narrow", 0.125),
        ("tail_wide", 1.375),
        ("half_socket_narrow", 0.0625),
    ];
    is(inch, INCH, &marks);
    let mm = "dovetails, width=150, thickness=19, tails=4, ratio=3, slope=1 in 6, base_line=even";
    let marks = [
        ("socket_narrow", 3.04167),
        ("tail_wide", 34.45833),
        ("half_socket_narrow", 1.52083),
    ];
    is(mm, MM, &marks);
}

// Rows 13 and 14.
#[test]
fn frame_and_panel() {
    let wood = "coefficient=0.00248, rise=4%, fall=2%";
    let inch = format!(
        "frame-panel, opening=12, groove=3/8, {wood}, clearance=1/32, overall=9, stile=2, \
         profile=5/16"
    );
    let sizes = [
        ("panel", 12.56288),
        ("hold_drifted", 0.12556),
        ("rail_shoulder", 5.625),
    ];
    is(&inch, INCH, &sizes);
    let mm = format!("frame-panel, opening=300, groove=9.5, {wood}, clearance=0.8");
    is(&mm, MM, &[("panel", 314.28232), ("hold_drifted", 3.22348)]);
}

// Row 15 and the spare ones: dowels, and the ramp of an 8 in dado head.
#[test]
fn speeds_drawbore_dowels_and_ramp() {
    is(
        "rim-speed, diameter=10, speed=3450rpm",
        INCH,
        &[("rim_speed", 45.88296)],
    );
    is("drawbore, peg=3/8, offset=1/8", INCH, &[("passage", 0.25)]);
    is(
        "dowels, length=48, first=2, pitch=10, dowel=2",
        INCH,
        &[("count", 6.0), ("pitch", 8.8)],
    );
    is(
        "saw-ramp, diameter=8, depth=3/8",
        INCH,
        &[("ramp", 1.69097)],
    );
    // 20 ft/min = 6096 mm/min; over 3450 x 40 teeth it is 0.0441739 mm, the reference's 0.001739 in.
    let typed = [
        "feed-per-tooth",
        "feed=20ft/min",
        "speed=3450rpm",
        "teeth=40",
    ];
    let json = figure(&[&typed[..], &["--json"]].concat()).json();
    let found = number(&json["results"]["feed_per_tooth"]);
    assert!((found - 0.044_173_9).abs() < 1e-6, "{found}");
    // So small a figure says nothing in the 0.05 mm of a rule.
    figure(&typed).says("0.044 mm");
    figure(&[&typed[..], &["--units", "in"]].concat()).says("0.0017 in");
}
