//! What brings each refusal and each warning of dowels, edge joints and part sizes; met in
//! `refusals.rs` and `warnings.rs`.

use crate::Texts;

/// Calculator, words of the refusal, the input that is named, and what brings it, in the place of
/// the values of the calculator's example.
pub(crate) const REFUSED: &[(&str, &str, &str, Texts)] = &[
    // Half of 1200 mm.
    (
        "dowels",
        "beyond the middle",
        "first",
        &[("first", "600 mm")],
    ),
    // Half of 8 mm.
    ("dowels", "break out", "first", &[("first", "4 mm")]),
    // 1100 mm in 55 steps of 20.
    (
        "dowels",
        "run into each other",
        "pitch",
        &[
            ("pitch", "20 mm"),
            ("diameter", "20 mm"),
            ("stock", "50 mm"),
        ],
    ),
    (
        "dowels",
        "as thick as the stock",
        "diameter",
        &[("diameter", "22 mm")],
    ),
    // (40 + 3) / 2 = 21.5 mm.
    ("dowels", "go through", "mate_hole", &[("mate", "21.5 mm")]),
    (
        "dowels",
        "one piece only",
        "mate_hole",
        &[("mate_hole", "40 mm")],
    ),
    // 40 of the dowel and 3 of gap less 3 leave 40 mm in the one piece.
    (
        "dowels",
        "one piece only",
        "mate_hole",
        &[("mate_hole", "3 mm")],
    ),
    // Five on 900 mm: 180 mm each.
    (
        "edge-joint",
        "do not find room",
        "clamp_width",
        &[("clamp_width", "180.1 mm")],
    ),
    (
        "shelf-length",
        "no inside",
        "overall",
        &[("overall", "36 mm")],
    ),
    // Never over half of 18 mm (joinery 2.3, common practice).
    (
        "shelf-length",
        "deeper than half",
        "depth",
        &[("depth", "9.1 mm")],
    ),
    (
        "shelf-length",
        "no longer than",
        "clearance",
        &[("depth", "2.5 mm"), ("clearance", "5 mm")],
    ),
    // 450 + 2 * 9.5 = 469, so that a stile of 234.5 mm leaves nothing.
    ("rail-length", "no rail", "stile", &[("stile", "234.5 mm")]),
    (
        "rail-length",
        "as deep as the stile",
        "profile",
        &[("stile", "40 mm"), ("profile", "40 mm")],
    ),
    // 80 - 1.5875 less twice 40 mm.
    (
        "drawer",
        "no inside between them",
        "side",
        &[("width", "80 mm"), ("side", "40 mm")],
    ),
    // 80 - 12.7 + 6 - 19 - 10 - 50 = -5.7 mm.
    (
        "drawer",
        "front and back leave",
        "depth",
        &[("depth", "80 mm"), ("back_in", "50 mm")],
    ),
    // 20 - 1.5875 - 10 - 6 - 5 = -2.5875 mm.
    (
        "drawer",
        "no height is left",
        "height",
        &[("height", "20 mm"), ("back_drop", "5 mm")],
    ),
    (
        "drawer",
        "leaves no front",
        "lap",
        &[("lap", "19 mm"), ("short", "20 mm")],
    ),
    // 1/2 in is 12.7 mm.
    (
        "drawer",
        "deeper than its opening",
        "lap",
        &[("lap", "12.8 mm")],
    ),
    (
        "drawer",
        "goes through a part",
        "groove",
        &[("groove", "10 mm")],
    ),
    // Half of 10 mm.
    (
        "drawer",
        "over half of the side",
        "back_let",
        &[("back_let", "5.1 mm")],
    ),
    // 12 - 6 = 6 mm below the groove.
    (
        "drawer",
        "stands out below",
        "groove_up",
        &[
            ("bottom", "12 mm"),
            ("groove_width", "6 mm"),
            ("groove_up", "5.9 mm"),
        ],
    ),
    // Pushed 5 mm into one groove, a bottom that is 5 mm short leaves the other.
    (
        "drawer",
        "slip out of a groove",
        "bottom_play",
        &[("bottom_play", "5 mm")],
    ),
];

/// Calculator, first words of the warning, values that bring it.
pub(crate) const WARNED: &[(&str, &str, Texts)] = &[
    // A third of 22 is 7.333, half 11 mm (joinery 2.11, common practice).
    ("dowels", "Diameter outside", &row("40 mm", "7.3 mm")),
    ("dowels", "Diameter outside", &row("40 mm", "11.1 mm")),
    // Fairham p. 96: 7/8 in; Noyes p. 175: two holes of 1 in.
    ("dowels", "Dowel length", &row("21.9 mm", "8 mm")),
    ("dowels", "Dowel length", &row("50.9 mm", "8 mm")),
    // 900 / 3 = 300 is fine, 920 / 3 = 306.7 mm is over 12 in.
    (
        "dowels",
        "Dowels over 305 mm",
        &[
            ("length", "1020 mm"),
            ("first", "50 mm"),
            ("pitch", "310 mm"),
            ("dowel", "40 mm"),
        ],
    ),
    // 24 - 21.5 = 2.5 mm.
    (
        "dowels",
        "Under 3 mm",
        &[
            ("length", "600 mm"),
            ("first", "50 mm"),
            ("pitch", "100 mm"),
            ("dowel", "40 mm"),
            ("mate", "24 mm"),
        ],
    ),
    // Joinery 2.12: from memory, and a maker's figures that a web page quotes.
    (
        "edge-joint",
        "From memory",
        &[
            ("length", "900 mm"),
            ("thickness", "19 mm"),
            ("wood", "low-density"),
        ],
    ),
    (
        "edge-joint",
        "Not read at the maker",
        &[
            ("length", "900 mm"),
            ("thickness", "19 mm"),
            ("wood", "maker-hardwood"),
        ],
    ),
    (
        "edge-joint",
        "Pressure outside",
        &[
            ("length", "900 mm"),
            ("thickness", "19 mm"),
            ("pressure", "251 lb/in2"),
        ],
    ),
    // 19 tan 0.6 deg = 0.19897 mm.
    (
        "edge-joint",
        "Gap over",
        &[
            ("length", "900 mm"),
            ("thickness", "19 mm"),
            ("pressure", "1 MPa"),
            ("angle_error", "0.3 deg"),
        ],
    ),
    // A third of 18 is 6 mm.
    (
        "shelf-length",
        "Housing over a third",
        &[
            ("overall", "600 mm"),
            ("side", "18 mm"),
            ("depth", "6.1 mm"),
        ],
    ),
    // 57 - 9.5 + 6.35 = 53.85 mm (Fairham p. 85: 1/4 in proud).
    (
        "rail-length",
        "Tenon stands out",
        &[
            ("overall", "450 mm"),
            ("stile", "57 mm"),
            ("profile", "9.5 mm"),
            ("tenon", "53.9 mm"),
        ],
    ),
    // Fairham pp. 83-84: 1 to 3 in.
    (
        "rail-length",
        "Horn outside",
        &[
            ("overall", "450 mm"),
            ("stile", "57 mm"),
            ("height", "600 mm"),
            ("horn", "24 mm"),
        ],
    ),
    ("drawer", "Groove over half", &drawer("5.1 mm", "6 mm")),
    // Fairham p. 136: 1/4 in, about 6 mm.
    ("drawer", "Lap under", &drawer("5 mm", "5.9 mm")),
];

const fn row<'t>(dowel: &'t str, diameter: &'t str) -> [(&'t str, &'t str); 6] {
    [
        ("length", "600 mm"),
        ("first", "50 mm"),
        ("pitch", "100 mm"),
        ("stock", "22 mm"),
        ("dowel", dowel),
        ("diameter", diameter),
    ]
}

const fn drawer<'t>(groove: &'t str, lap: &'t str) -> [(&'t str, &'t str); 12] {
    [
        ("width", "400 mm"),
        ("height", "120 mm"),
        ("depth", "450 mm"),
        ("front", "19 mm"),
        ("side", "10 mm"),
        ("bottom", "6 mm"),
        ("play", "fitted"),
        ("joint", "rebate"),
        ("groove_up", "10 mm"),
        ("back_let", "5 mm"),
        ("groove", groove),
        ("lap", lap),
    ]
}
