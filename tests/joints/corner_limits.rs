//! What brings each refusal and each warning of comb joints, dovetails, mitres, their splines and
//! keys; met in `refusals.rs` and `warnings.rs`.

use crate::Texts;

/// Calculator, words of the refusal, the input that is named, and what brings it, in the place of
/// the values of the calculator's example.
pub(crate) const REFUSED: &[(&str, &str, &str, Texts)] = &[
    (
        "comb-joint",
        "leaves no finger",
        "clearance",
        &[("pin", "1.5 mm"), ("clearance", "1.5 mm")],
    ),
    // 9.4 + 9.5 + 9.4 = 28.3 mm.
    (
        "comb-joint",
        "fewer than three",
        "width",
        &[("width", "28.29 mm")],
    ),
    // 2 (9.4 + 9.5) = 37.8 mm: an even number starts at four.
    (
        "comb-joint",
        "fewer than three",
        "width",
        &[("width", "37.79 mm"), ("count", "even")],
    ),
    ("dovetails", "lap leaves no", "lap", &[("lap", "19 mm")]),
    (
        "dovetails",
        "base line leaves no",
        "offset",
        &[
            ("thickness", "3 mm"),
            ("base_line", "under"),
            ("offset", "3 mm"),
        ],
    ),
    // The pins' base line as well, where the tail board is the thinner.
    (
        "dovetails",
        "base line leaves no",
        "offset",
        &[("side", "3 mm"), ("base_line", "under"), ("offset", "3 mm")],
    ),
    // Socket 3.04167, half socket 1.52083 mm at the end (joinery 3.9).
    ("dovetails", "kerf does not", "kerf", &[("kerf", "3.05 mm")]),
    (
        "dovetails",
        "half sockets",
        "half_least",
        &[("half_least", "1.53 mm")],
    ),
    // 150 / 20 = 7.5 - 6.33333 = 1.16667 mm.
    ("dovetails", "kerf does not", "tails", &[("tails", "5")]),
    // A square corner: 2 * 19 tan 45 = 38 mm.
    (
        "mitre",
        "sides are too short",
        "length",
        &[("length", "38 mm")],
    ),
    // 12 cuts of 3.75 are 45 degrees.
    (
        "mitre",
        "45 degrees",
        "angle_error",
        &[("sides", "6"), ("angle_error", "3.75 deg")],
    ),
    (
        "splined-mitre",
        "no width for the groove",
        "clearance",
        &[("spline", "0.5 mm"), ("clearance", "-0.5 mm")],
    ),
    // 19 - (9.5 + 2) / sqrt 2 = 10.86827 mm.
    (
        "splined-mitre",
        "leaves no depth",
        "wall",
        &[("wall", "10.87 mm")],
    ),
    // sqrt 2 (19 - 3) - 11.5 = 11.12742 mm.
    (
        "splined-mitre",
        "deeper than the wall",
        "groove",
        &[("groove", "11.13 mm")],
    ),
    (
        "splined-mitre",
        "breaks out",
        "centre",
        &[("centre", "2 mm")],
    ),
    (
        "splined-mitre",
        "play is as wide",
        "play",
        &[("groove", "2 mm"), ("play", "4 mm")],
    ),
    // 19 sqrt 2 = 26.87006 mm.
    (
        "mitre-key",
        "comes through",
        "depth",
        &[("depth", "26.88 mm")],
    ),
];

const COMB: [(&str, &str); 3] = [("width", "114 mm"), ("pin", "9.5 mm"), ("stock", "12 mm")];

/// Calculator, first words of the warning, values that bring it.
pub(crate) const WARNED: &[(&str, &str, Texts)] = &[
    // 11 fingers: 5 steps of 0.021 mm are 0.105, over 0.1 mm.
    (
        "comb-joint",
        "Drift over",
        &[
            COMB[0],
            COMB[1],
            COMB[2],
            ("clearance", "0.1 mm"),
            ("step_error", "0.021 mm"),
        ],
    ),
    // 103.9 of 114 mm.
    (
        "comb-joint",
        "Width is no whole",
        &[COMB[0], COMB[1], COMB[2], ("clearance", "0.1 mm")],
    ),
    (
        "comb-joint",
        "Clearance outside",
        &[COMB[0], COMB[1], COMB[2], ("clearance", "0.14 mm")],
    ),
    // 150 / 2 * 3 / 4 = 56.25 mm at the base line.
    (
        "dovetails",
        "Tail over 44.45",
        &dovetails("2", "3", "1 in 8"),
    ),
    (
        "dovetails",
        "Tail over 4 times",
        &dovetails("3", "4.1", "1 in 8"),
    ),
    ("dovetails", "Slope steeper", &dovetails("3", "1", "1 in 4")),
    // 180 / 3 = 60 degrees from square.
    (
        "mitre",
        "Cut over 45",
        &[("sides", "3"), ("stock", "19 mm")],
    ),
    // 19 / 6 = 3.16667, 19 / 4 = 4.75 mm.
    ("splined-mitre", "Spline outside", &spline("3.1 mm")),
    ("splined-mitre", "Spline outside", &spline("4.8 mm")),
    // 26.87006 - 24 mm.
    (
        "mitre-key",
        "Under 3 mm",
        &[("stock", "19 mm"), ("depth", "24 mm")],
    ),
];

const fn dovetails(
    tails: &'static str,
    ratio: &'static str,
    slope: &'static str,
) -> [(&'static str, &'static str); 6] {
    [
        ("width", "150 mm"),
        ("thickness", "19 mm"),
        ("tails", tails),
        ("ratio", ratio),
        ("slope", slope),
        ("base_line", "even"),
    ]
}

const fn spline(thickness: &'static str) -> [(&'static str, &'static str); 5] {
    [
        ("sides", "4"),
        ("stock", "19 mm"),
        ("spline", thickness),
        ("centre", "9.5 mm"),
        ("wall", "3 mm"),
    ]
}
