//! What brings each refusal and each warning of rebates, tongues, halvings, bridles, tenons, and
//! of the tapered housing and the saw's ramp; met in `refusals.rs`.

use crate::Texts;

/// Calculator, words of the refusal, the input that is named, and what brings it, in the place of
/// the values of the calculator's example.
pub(crate) const REFUSED: &[(&str, &str, &str, Texts)] = &[
    // A taper of 1.5 mm takes up 1.5 mm.
    (
        "tapered-housing",
        "more than the taper",
        "clearance",
        &[("clearance", "1.51 mm")],
    ),
    // Half of 200 mm.
    (
        "saw-ramp",
        "does not reach",
        "depth",
        &[("depth", "100 mm")],
    ),
    ("rebate", "as deep as", "depth", &[("depth", "18 mm")]),
    (
        "tongue-and-groove",
        "no wall",
        "groove",
        &[("groove", "18 mm")],
    ),
    (
        "tongue-and-groove",
        "clearance is as wide",
        "clearance",
        &[("groove", "1 mm"), ("clearance", "1 mm")],
    ),
    (
        "tongue-and-groove",
        "gap is as deep",
        "end_gap",
        &[("depth", "5 mm"), ("end_gap", "5 mm")],
    ),
    // The middle is (18 - 6) / 2 = 6 mm.
    (
        "tongue-and-groove",
        "in the middle only",
        "face",
        &[("method", "flipped"), ("face", "5 mm")],
    ),
    (
        "tongue-in-housing",
        "as thick as its board",
        "housing",
        &[("housing", "18 mm")],
    ),
    (
        "tongue-in-housing",
        "clearance is as wide",
        "clearance",
        &[("housing", "1 mm"), ("clearance", "1 mm")],
    ),
    (
        "tongue-in-housing",
        "gap is as deep",
        "end_gap",
        &[("depth", "5 mm"), ("end_gap", "5 mm")],
    ),
    // Never over half of 18 mm (joinery 2.3, common practice).
    (
        "tongue-in-housing",
        "deeper than half",
        "depth",
        &[("depth", "9.1 mm")],
    ),
    (
        "halving",
        "nothing of a piece",
        "gauge",
        &[("gauge", "19 mm")],
    ),
    (
        "halving",
        "goes through a piece",
        "height",
        &[("height", "19 mm")],
    ),
    ("bridle", "no cheeks", "slot", &[("slot", "18 mm")]),
    (
        "bridle",
        "clearance is as wide",
        "clearance",
        &[("slot", "1 mm"), ("clearance", "1 mm")],
    ),
    (
        "tenon",
        "clearance is as wide",
        "clearance",
        &[("cutter", "2 mm"), ("clearance", "2 mm")],
    ),
    (
        "tenon",
        "takes the whole thickness",
        "cutter",
        &[("cutter", "22 mm")],
    ),
    // 22 - 8 = 14 mm.
    (
        "tenon",
        "inside the stock",
        "shoulder",
        &[("shoulder", "14.1 mm")],
    ),
    // (11 - 10) / 2 = 0.5 mm, under the least of 1 mm.
    ("tenon", "too narrow", "width", &[("width", "11 mm")]),
    (
        "tenon",
        "as long as the tenon",
        "haunch",
        &[("haunch", "32 mm")],
    ),
    // The middle is (22 - 8) / 2 = 7 mm.
    (
        "tenon",
        "in the middle only",
        "shoulder",
        &[("method", "flipped"), ("shoulder", "6 mm")],
    ),
    // f1 = a - k = 3.1 - 3.2 < 0 (joinery 3.7).
    (
        "tenon",
        "wider than the shoulder",
        "kerf",
        &[("method", "one-face"), ("shoulder", "3.1 mm")],
    ),
    ("drawbore", "no passage", "offset", &[("offset", "6 mm")]),
    // 0.8 + 6 / 2 = 3.8 mm.
    (
        "drawbore",
        "break out",
        "distance",
        &[("distance", "3.8 mm")],
    ),
];

/// Calculator, first words of the warning, values that bring it.
pub(crate) const WARNED: &[(&str, &str, Texts)] = &[
    // Joinery 2.5: a lip of 6 mm, depth half to two thirds (common practice).
    (
        "rebate",
        "Lip under",
        &[("stock", "10 mm"), ("mate", "10 mm")],
    ),
    (
        "rebate",
        "Depth outside",
        &[("stock", "18 mm"), ("mate", "15 mm"), ("depth", "8.9 mm")],
    ),
    // Walls (18 - 10) / 2 = 4 mm, a quarter is 4.5 mm.
    (
        "tongue-and-groove",
        "Wall beside",
        &[("stock", "18 mm"), ("depth", "6 mm"), ("groove", "10 mm")],
    ),
    // A third of 18 is 6 mm (joinery 2.3).
    (
        "tongue-in-housing",
        "Housing over a third",
        &[("stock", "18 mm"), ("side", "18 mm"), ("depth", "6.1 mm")],
    ),
    // 18 - 14 = 4 mm.
    (
        "tongue-in-housing",
        "Wall beside",
        &[("stock", "18 mm"), ("side", "18 mm"), ("housing", "14 mm")],
    ),
    (
        "halving",
        "Cut deeper than half",
        &[
            ("stock_a", "19 mm"),
            ("stock_b", "19 mm"),
            ("width", "50 mm"),
            ("gauge", "10 mm"),
        ],
    ),
    (
        "halving",
        "Faces not flush",
        &[
            ("stock_a", "19 mm"),
            ("stock_b", "19 mm"),
            ("width", "50 mm"),
            ("height", "9.4 mm"),
        ],
    ),
    // (18 - 9.2) / 2 = 4.4 mm.
    (
        "bridle",
        "Wall beside",
        &[
            ("stock", "18 mm"),
            ("width", "45 mm"),
            ("cross", "50 mm"),
            ("slot", "9.2 mm"),
        ],
    ),
    // A third of 9 mm, and the bit is 3 mm less (Fairham p. 41).
    (
        "bridle",
        "Slot too narrow",
        &[("stock", "9 mm"), ("width", "45 mm"), ("cross", "50 mm")],
    ),
    // A quarter of 22 is 5.5 mm (joinery 2.7).
    (
        "tenon",
        "Thickness outside",
        &tenon("5.4 mm", "plain", "100 mm"),
    ),
    // 100 - 5 - 5 = 90 over 5 times 8 (Notes on Building Construction I).
    ("tenon", "Width held", &tenon("8 mm", "plain", "100 mm")),
    // (22 - 16.2) / 2 = 2.9 mm.
    (
        "tenon",
        "Side shoulder",
        &tenon("16.2 mm", "plain", "50 mm"),
    ),
    // 250 - 5 - 5 - 2 * 40 = 160 mm; 75 at most (Fairham p. 73).
    ("tenon", "Gap between", &tenon("8 mm", "twin", "250 mm")),
    // A third of 6 mm (Fairham pp. 78-79).
    (
        "drawbore",
        "Offset over a third",
        &[("peg", "6 mm"), ("offset", "2.1 mm")],
    ),
];

const fn tenon<'t>(cutter: &'t str, form: &'t str, width: &'t str) -> [(&'t str, &'t str); 5] {
    [
        ("stock", "22 mm"),
        ("length", "32 mm"),
        ("cutter", cutter),
        ("form", form),
        ("width", width),
    ]
}
