//! Every limit at its edge: the last value that is allowed, and the first that is refused or warned
//! of, a nanometre or two beyond; and the figures that a refusal gives, in both units.
//!
//! Expected figures: the formula of the limit (joinery 3, by its number), worked by hand from the
//! values beside it; inches are those by 25.4. Bounds are rounded to their safe side: `at most`
//! down, `at least` up, but within 10 nm of a step to that step; what is, to nearest. tan 14 = 0.2493280, so that a wall leans 2.368616 mm
//! at a depth of 9.5 mm (mouth 7.962768) and 5.983872 at 24 (mouth 0.732256).

use std::collections::BTreeMap;

use faceside::joints::{self, DepthPasses, Origin, Rim, SpindleChoice, Wood};
use faceside::shop::Speeds;
use faceside::units::{Length, RimSpeed, Spindle, Value};

use crate::{Texts, answer, calculator, count, length, near, refusal, with};

const DOVETAIL: Texts = &[
    ("stock", "19 mm"),
    ("cutter", "12.7 mm"),
    ("angle", "14 deg"),
    ("depth", "9.5 mm"),
    ("clearance", "0.1 mm"),
];
const ONE_SIDED: Texts = &[
    ("stock", "19 mm"),
    ("cutter", "12.7 mm"),
    ("angle", "14 deg"),
    ("depth", "9.5 mm"),
];
const DEEP: Texts = &[
    ("stock", "12 mm"),
    ("cutter", "12.7 mm"),
    ("angle", "14 deg"),
    ("depth", "24 mm"),
];
const HOUSING: Texts = &[("width", "17 mm"), ("cutter", "12 mm")];
const STOPPED: Texts = &[("panel", "285 mm"), ("stop", "12 mm"), ("cutter", "18 mm")];
const TAPERED: Texts = &[
    ("length", "300 mm"),
    ("taper", "1.5 mm"),
    ("clearance", "0.1 mm"),
];
const TONGUE: Texts = &[("stock", "18 mm"), ("depth", "6 mm")];
const BOARD: Texts = &[("stock", "18 mm"), ("side", "18 mm")];
const HALVING: Texts = &[
    ("stock_a", "19 mm"),
    ("stock_b", "19 mm"),
    ("width", "50 mm"),
];
const BRIDLE: Texts = &[("stock", "18 mm"), ("width", "45 mm"), ("cross", "50 mm")];
const TENON: Texts = &[
    ("stock", "22 mm"),
    ("width", "50 mm"),
    ("cutter", "8 mm"),
    ("length", "32 mm"),
];
const PEG: Texts = &[("peg", "6 mm"), ("offset", "0.8 mm"), ("distance", "10 mm")];
const PANEL: Texts = &[
    ("opening", "300 mm"),
    ("groove", "9.5 mm"),
    ("clearance", "0.8 mm"),
    ("coefficient", "0.0025"),
    ("rise", "0 %"),
    ("fall", "0 %"),
];
/// W 384 N, L 1000, b 120, h 10 mm, E 10 GPa: I 10000 mm4, 5 W L^3 / (384 E I) = 50 mm, 100 in years.
const SHELF: Texts = &[
    ("span", "1000 mm"),
    ("load", "384 N"),
    ("width", "120 mm"),
    ("thickness", "10 mm"),
    ("modulus", "10 GPa"),
];
const FEED: Texts = &[("feed", "3 m/min"), ("speed", "15000 rpm"), ("teeth", "2")];
const MOVEMENT: Texts = &[
    ("width", "232 mm"),
    ("from", "8 %"),
    ("to", "11 %"),
    ("coefficient", "0.00245"),
];
const SPINDLE: Texts = &[("diameter", "76 mm"), ("limit", "50 m/s")];

/// Calculator, values, and what stands in their place: just allowed.
const ALLOWED: &[(&str, Texts, Texts)] = &[
    ("sliding-dovetail", DOVETAIL, &[("base", "12.7 mm")]),
    // 12.7 + 23 * 0.732256 = 29.541888.
    (
        "sliding-dovetail",
        DEEP,
        &[("base", "29.541888 mm"), ("stock", "29.6 mm")],
    ),
    // T - D + c = 0.
    ("sliding-dovetail", DOVETAIL, &[("stock", "12.6 mm")]),
    // e = 12.7 - 2.368616: T = 2 * 10.331384 + 7.962768 - 0.1.
    ("sliding-dovetail", DOVETAIL, &[("stock", "28.525536 mm")]),
    ("sliding-dovetail", DEEP, &[("clearance", "0.732255 mm")]),
    // T = D + g + q.
    ("one-sided-dovetail", ONE_SIDED, &[("stock", "14.3 mm")]),
    ("one-sided-dovetail", ONE_SIDED, &[("base", "13.5 mm")]),
    ("one-sided-dovetail", ONE_SIDED, &[("base", "18.2 mm")]),
    // T - B + c = 0.
    (
        "one-sided-dovetail",
        ONE_SIDED,
        &[
            ("base", "18.9 mm"),
            ("margin", "0.1 mm"),
            ("clearance", "-0.1 mm"),
        ],
    ),
    // T = 10.331384 + 14.631384 - 0.2.
    (
        "one-sided-dovetail",
        ONE_SIDED,
        &[
            ("base", "17 mm"),
            ("clearance", "0.2 mm"),
            ("stock", "24.762768 mm"),
        ],
    ),
    // Mb - m and Mb: 14.631384 - 7.962768.
    (
        "one-sided-dovetail",
        ONE_SIDED,
        &[("base", "17 mm"), ("straight", "6.668616 mm")],
    ),
    (
        "one-sided-dovetail",
        ONE_SIDED,
        &[("base", "17 mm"), ("straight", "14.631384 mm")],
    ),
    ("housing", HOUSING, &[("cutter", "17 mm")]),
    // A nanometre of shift for a nanometre more than the cutter.
    (
        "housing",
        HOUSING,
        &[("width", "12.000001 mm"), ("overlap", "11.999999 mm")],
    ),
    // 6 + 23 * 4.5.
    (
        "housing",
        HOUSING,
        &[("width", "109.5 mm"), ("cutter", "6 mm")],
    ),
    ("stopped-housing", STOPPED, &[("stop", "267 mm")]),
    ("stopped-housing", STOPPED, &[("set_back", "12 mm")]),
    ("tapered-housing", TAPERED, &[("clearance", "1.5 mm")]),
    (
        "saw-ramp",
        &[("diameter", "200 mm"), ("depth", "99.999999 mm")],
        &[],
    ),
    (
        "rebate",
        &[
            ("stock", "18 mm"),
            ("mate", "15 mm"),
            ("depth", "17.999999 mm"),
        ],
        &[],
    ),
    (
        "tongue-and-groove",
        TONGUE,
        &[("groove", "6 mm"), ("face", "11.999999 mm")],
    ),
    // The half of the clearance is taken off the face.
    (
        "tongue-and-groove",
        TONGUE,
        &[
            ("groove", "6 mm"),
            ("face", "0.500001 mm"),
            ("clearance", "-0.5 mm"),
        ],
    ),
    ("tongue-and-groove", TONGUE, &[("depth", "1.000001 mm")]),
    (
        "tongue-and-groove",
        TONGUE,
        &[("groove", "1 mm"), ("clearance", "0.999999 mm")],
    ),
    ("tongue-in-housing", BOARD, &[("housing", "17.999999 mm")]),
    (
        "tongue-in-housing",
        BOARD,
        &[("housing", "17.899999 mm"), ("clearance", "-0.1 mm")],
    ),
    ("tongue-in-housing", BOARD, &[("depth", "9 mm")]),
    (
        "halving",
        HALVING,
        &[("gauge", "18.999999 mm"), ("height", "18.999999 mm")],
    ),
    ("bridle", BRIDLE, &[("slot", "17.999999 mm")]),
    (
        "bridle",
        BRIDLE,
        &[("slot", "17.899999 mm"), ("clearance", "-0.1 mm")],
    ),
    ("tenon", TENON, &[("cutter", "21.999999 mm")]),
    (
        "tenon",
        TENON,
        &[("cutter", "21.899999 mm"), ("clearance", "-0.1 mm")],
    ),
    (
        "tenon",
        TENON,
        &[("cutter", "19.999999 mm"), ("mortised", "20 mm")],
    ),
    ("tenon", TENON, &[("shoulder", "14 mm")]),
    // 5 + 1 + 5, 5 + 3 * 1 + 5, 2 * (1 + 10), 2 * 1 + 10, 12 + 1 + 5.
    ("tenon", TENON, &[("width", "11 mm")]),
    ("tenon", TENON, &[("width", "13 mm"), ("form", "twin")]),
    (
        "tenon",
        TENON,
        &[
            ("width", "22 mm"),
            ("groove", "10 mm"),
            ("form", "haunched"),
            ("width_rule", "half-less-groove"),
        ],
    ),
    (
        "tenon",
        TENON,
        &[
            ("width", "12 mm"),
            ("groove", "10 mm"),
            ("form", "haunched"),
        ],
    ),
    ("tenon", TENON, &[("width", "18 mm"), ("groove", "12 mm")]),
    (
        "tenon",
        TENON,
        &[("form", "haunched"), ("haunch", "31.999999 mm")],
    ),
    (
        "tenon",
        TENON,
        &[
            ("method", "one-face"),
            ("shoulder", "3.2 mm"),
            ("kerf", "3.2 mm"),
        ],
    ),
    (
        "drawbore",
        &[("peg", "6 mm"), ("offset", "5.999999 mm")],
        &[],
    ),
    ("drawbore", PEG, &[("distance", "3.800001 mm")]),
    // The widest step is the cutter; 24 steps.
    (
        "passes",
        &[("depth", "12 mm"), ("cutter", "12 mm"), ("most", "12 mm")],
        &[],
    ),
    (
        "passes",
        &[("depth", "24 mm"), ("cutter", "12 mm"), ("most", "1 mm")],
        &[],
    ),
    // 3000 mm by 15000 by 2: 0.1 mm.
    ("feed-per-tooth", FEED, &[("most", "0.1 mm")]),
    (
        "spindle",
        SPINDLE,
        &[("machine_least", "8000 rpm"), ("machine_most", "8000 rpm")],
    ),
    ("movement", MOVEMENT, &[("from", "6 %"), ("to", "14 %")]),
    ("movement", MOVEMENT, &[("from", "14 %"), ("to", "6 %")]),
    ("frame-panel", PANEL, &[("rise", "5 %"), ("fall", "3 %")]),
    ("frame-panel", PANEL, &[("rise", "4 %"), ("now", "10 %")]),
    ("frame-panel", PANEL, &[("fall", "4 %"), ("now", "10 %")]),
    ("frame-panel", PANEL, &[("now", "6 %")]),
    ("frame-panel", PANEL, &[("now", "14 %")]),
    (
        "frame-panel",
        PANEL,
        &[("overall", "450 mm"), ("stile", "224.999999 mm")],
    ),
    // 300 * 1.01 = 303 fills the frame when wettest, with 1.5 mm in each groove.
    (
        "frame-panel",
        PANEL,
        &[("rise", "4 %"), ("groove", "2.300002 mm")],
    ),
    // A tenth of 1000 mm, and the limit itself.
    ("shelf", SHELF, &[]),
    ("shelf", SHELF, &[("sag_most", "100 mm")]),
];

/// Calculator, values, what stands in their place; words of the refusal, what is, what may be.
type Refused = (
    &'static str,
    Texts<'static>,
    Texts<'static>,
    [&'static str; 3],
);

const REFUSED: &[Refused] = &[
    // 12.7 / (2 tan 14) = 25.468459: at 25.468457 each wall leans 6.35 mm to the nanometre.
    (
        "sliding-dovetail",
        DOVETAIL,
        &[("depth", "25.468457 mm")],
        [
            "mouth closes",
            "depth 25.47 mm (1.003 in)",
            "at most 25.46 mm (1.002 in) and less, as the cutter's waist and length allow",
        ],
    ),
    (
        "sliding-dovetail",
        DOVETAIL,
        &[("base", "12.699999 mm")],
        [
            "narrower than the cutter",
            "base 12.70 mm (0.500 in), cutter 12.70 mm (0.500 in)",
            "base at least 12.70 mm (0.500 in)",
        ],
    ),
    (
        "sliding-dovetail",
        DEEP,
        &[("base", "29.541889 mm"), ("stock", "29.6 mm")],
        [
            "too many passes",
            "base 29.54 mm (1.163 in)",
            "at most 29.54 mm (1.163 in) in 24 passes",
        ],
    ),
    (
        "sliding-dovetail",
        DOVETAIL,
        &[("stock", "12.599998 mm")],
        [
            "too thin",
            "stock 12.60 mm (0.496 in), base 12.70 mm (0.500 in)",
            "stock at least 12.60 mm (0.497 in), or cutter and base at most 12.70 mm (0.500 in)",
        ],
    ),
    (
        "sliding-dovetail",
        DOVETAIL,
        &[("stock", "28.525538 mm")],
        [
            "sliver",
            "stock 28.53 mm (1.123 in)",
            "at most 28.52 mm (1.123 in)",
        ],
    ),
    (
        "sliding-dovetail",
        DEEP,
        &[("clearance", "0.732256 mm")],
        [
            "clearance is as wide",
            "clearance 0.73 mm (0.029 in)",
            "under 0.73 mm (0.029 in)",
        ],
    ),
    (
        "one-sided-dovetail",
        ONE_SIDED,
        &[("depth", "25.468457 mm")],
        [
            "no width left",
            "depth 25.47 mm (1.003 in)",
            "under 25.47 mm (1.003 in)",
        ],
    ),
    (
        "one-sided-dovetail",
        ONE_SIDED,
        &[("stock", "14.2 mm")],
        [
            "no room for a base",
            "cutter 12.70 mm (0.500 in), stock 14.20 mm (0.559 in)",
            "cutter at most 12.60 mm (0.496 in), or stock at least 14.30 mm (0.563 in)",
        ],
    ),
    (
        "one-sided-dovetail",
        ONE_SIDED,
        &[("base", "13.499999 mm")],
        [
            "outside its range",
            "base 13.50 mm (0.531 in)",
            "at least 13.50 mm (0.532 in), at most 18.20 mm (0.716 in)",
        ],
    ),
    (
        "one-sided-dovetail",
        ONE_SIDED,
        &[("base", "18.200001 mm")],
        [
            "outside its range",
            "base 18.20 mm (0.717 in)",
            "at least 13.50 mm (0.532 in), at most 18.20 mm (0.716 in)",
        ],
    ),
    (
        "one-sided-dovetail",
        ONE_SIDED,
        &[
            ("base", "18.9 mm"),
            ("margin", "0.1 mm"),
            ("clearance", "-0.100001 mm"),
        ],
        [
            "takes the tail's end",
            "clearance -0.10 mm (-0.004 in)",
            "at least -0.10 mm (-0.003 in)",
        ],
    ),
    // B = T + c + 2.368616 - 10.331384 = 17.000001.
    (
        "one-sided-dovetail",
        ONE_SIDED,
        &[
            ("base", "17 mm"),
            ("clearance", "0.2 mm"),
            ("stock", "24.762769 mm"),
        ],
        [
            "sliver",
            "stock 24.76 mm (0.975 in), base 17.00 mm (0.669 in)",
            "stock at most 24.76 mm (0.974 in), or base at least 17.00 mm (0.670 in)",
        ],
    ),
    (
        "one-sided-dovetail",
        ONE_SIDED,
        &[("base", "17 mm"), ("straight", "6.668615 mm")],
        [
            "straight cutter",
            "straight 6.67 mm (0.263 in)",
            "at least 6.67 mm (0.263 in), at most 14.63 mm (0.576 in)",
        ],
    ),
    (
        "one-sided-dovetail",
        ONE_SIDED,
        &[("base", "17 mm"), ("straight", "14.631385 mm")],
        [
            "straight cutter",
            "straight 14.63 mm (0.576 in)",
            "at least 6.67 mm (0.263 in), at most 14.63 mm (0.576 in)",
        ],
    ),
    (
        "housing",
        HOUSING,
        &[("cutter", "17.000001 mm")],
        [
            "wider than the housing",
            "cutter 17.00 mm (0.669 in)",
            "cutter at most 17.00 mm (0.669 in)",
        ],
    ),
    (
        "housing",
        HOUSING,
        &[("overlap", "12 mm")],
        [
            "overlap is as wide",
            "overlap 12.00 mm (0.472 in)",
            "under 12.00 mm (0.472 in)",
        ],
    ),
    (
        "housing",
        HOUSING,
        &[("width", "109.500001 mm"), ("cutter", "6 mm")],
        [
            "too many passes",
            "width 109.50 mm (4.311 in)",
            "at most 109.50 mm (4.311 in) in 24 passes",
        ],
    ),
    (
        "stopped-housing",
        STOPPED,
        &[("stop", "267.000001 mm")],
        [
            "shorter than the cutter",
            "stop 267.00 mm (10.512 in), cutter 18.00 mm (0.709 in)",
            "stop at most 267.00 mm (10.511 in) in this panel",
        ],
    ),
    (
        "stopped-housing",
        STOPPED,
        &[("set_back", "12.000001 mm")],
        [
            "end would show",
            "set_back 12.00 mm (0.472 in)",
            "at most 12.00 mm (0.472 in)",
        ],
    ),
    (
        "tapered-housing",
        TAPERED,
        &[("clearance", "1.500001 mm")],
        [
            "more than the taper",
            "clearance 1.50 mm (0.059 in)",
            "at most 1.50 mm (0.059 in)",
        ],
    ),
    (
        "saw-ramp",
        &[("diameter", "200 mm"), ("depth", "100 mm")],
        &[],
        [
            "does not reach",
            "depth 100.00 mm (3.937 in)",
            "under 100.00 mm (3.937 in), less flange and table",
        ],
    ),
    (
        "rebate",
        &[("stock", "18 mm"), ("mate", "15 mm"), ("depth", "18 mm")],
        &[],
        [
            "as deep as",
            "depth 18.00 mm (0.709 in), stock 18.00 mm (0.709 in)",
            "depth under 18.00 mm (0.709 in)",
        ],
    ),
    (
        "tongue-and-groove",
        TONGUE,
        &[("groove", "6 mm"), ("face", "12 mm")],
        [
            "no wall",
            "groove 6.00 mm (0.236 in), face 12.00 mm (0.472 in)",
            "groove and both walls 18.00 mm (0.709 in) together",
        ],
    ),
    (
        "tongue-and-groove",
        TONGUE,
        &[("groove", "1 mm"), ("clearance", "1 mm")],
        [
            "clearance is as wide",
            "clearance 1.00 mm (0.039 in)",
            "under 1.00 mm (0.039 in)",
        ],
    ),
    (
        "tongue-and-groove",
        TONGUE,
        &[("depth", "1 mm")],
        [
            "gap is as deep",
            "end_gap 1.00 mm (0.039 in)",
            "under 1.00 mm (0.039 in)",
        ],
    ),
    // (18 - 6) / 2.
    (
        "tongue-and-groove",
        TONGUE,
        &[
            ("groove", "6 mm"),
            ("face", "5.9 mm"),
            ("method", "flipped"),
        ],
        [
            "in the middle only",
            "face 5.90 mm (0.232 in)",
            "6.00 mm (0.236 in)",
        ],
    ),
    (
        "tongue-in-housing",
        BOARD,
        &[("housing", "17.9 mm"), ("clearance", "-0.1 mm")],
        [
            "as thick as its board",
            "housing 17.90 mm (0.705 in), stock 18.00 mm (0.709 in)",
            "housing under 17.90 mm (0.705 in)",
        ],
    ),
    (
        "tongue-in-housing",
        BOARD,
        &[("housing", "18 mm"), ("clearance", "0.1 mm")],
        [
            "as thick as its board",
            "housing 18.00 mm (0.709 in), stock 18.00 mm (0.709 in)",
            "housing under 18.00 mm (0.709 in)",
        ],
    ),
    (
        "tongue-in-housing",
        BOARD,
        &[("depth", "9.000001 mm")],
        [
            "deeper than half",
            "depth 9.00 mm (0.354 in)",
            "at most 9.00 mm (0.354 in)",
        ],
    ),
    (
        "halving",
        HALVING,
        &[("gauge", "19 mm")],
        [
            "nothing of a piece",
            "gauge 19.00 mm (0.748 in)",
            "under 19.00 mm (0.748 in)",
        ],
    ),
    (
        "halving",
        HALVING,
        &[("height", "18 mm"), ("stock_b", "18 mm")],
        [
            "goes through a piece",
            "height 18.00 mm (0.709 in)",
            "under 18.00 mm (0.709 in)",
        ],
    ),
    (
        "bridle",
        BRIDLE,
        &[("slot", "17.9 mm"), ("clearance", "-0.1 mm")],
        [
            "no cheeks",
            "slot 17.90 mm (0.705 in), stock 18.00 mm (0.709 in)",
            "slot under 17.90 mm (0.705 in)",
        ],
    ),
    (
        "bridle",
        BRIDLE,
        &[("slot", "18 mm"), ("clearance", "0.1 mm")],
        [
            "no cheeks",
            "slot 18.00 mm (0.709 in), stock 18.00 mm (0.709 in)",
            "slot under 18.00 mm (0.709 in)",
        ],
    ),
    (
        "tenon",
        TENON,
        &[("cutter", "21.9 mm"), ("clearance", "-0.1 mm")],
        [
            "takes the whole thickness",
            "cutter 21.90 mm (0.862 in)",
            "under 21.90 mm (0.862 in)",
        ],
    ),
    (
        "tenon",
        TENON,
        &[("cutter", "20 mm"), ("mortised", "20 mm")],
        [
            "takes the whole thickness",
            "cutter 20.00 mm (0.787 in)",
            "under 20.00 mm (0.787 in)",
        ],
    ),
    (
        "tenon",
        TENON,
        &[("shoulder", "14.000001 mm")],
        [
            "inside the stock",
            "shoulder 14.00 mm (0.551 in)",
            "at most 14.00 mm (0.551 in)",
        ],
    ),
    (
        "tenon",
        TENON,
        &[("shoulder", "6.9 mm"), ("method", "flipped")],
        [
            "in the middle only",
            "shoulder 6.90 mm (0.272 in)",
            "7.00 mm (0.276 in)",
        ],
    ),
    (
        "tenon",
        TENON,
        &[("width", "10.999999 mm")],
        [
            "too narrow",
            "width 11.00 mm (0.433 in), groove 0.00 mm (0.000 in)",
            "width at least 11.00 mm (0.434 in)",
        ],
    ),
    (
        "tenon",
        TENON,
        &[("width", "12.999997 mm"), ("form", "twin")],
        [
            "too narrow",
            "width 13.00 mm (0.512 in), groove 0.00 mm (0.000 in)",
            "width at least 13.00 mm (0.512 in)",
        ],
    ),
    (
        "tenon",
        TENON,
        &[
            ("width", "21.999998 mm"),
            ("groove", "10 mm"),
            ("form", "haunched"),
            ("width_rule", "half-less-groove"),
        ],
        [
            "too narrow",
            "width 22.00 mm (0.866 in), groove 10.00 mm (0.394 in)",
            "width at least 22.00 mm (0.867 in)",
        ],
    ),
    (
        "tenon",
        TENON,
        &[
            ("width", "11.999998 mm"),
            ("groove", "10 mm"),
            ("form", "haunched"),
        ],
        [
            "too narrow",
            "width 12.00 mm (0.472 in), groove 10.00 mm (0.394 in)",
            "width at least 12.00 mm (0.473 in)",
        ],
    ),
    (
        "tenon",
        TENON,
        &[("width", "17.999999 mm"), ("groove", "12 mm")],
        [
            "too narrow",
            "width 18.00 mm (0.709 in), groove 12.00 mm (0.472 in)",
            "width at least 18.00 mm (0.709 in)",
        ],
    ),
    (
        "tenon",
        TENON,
        &[("form", "haunched"), ("haunch", "32 mm")],
        [
            "as long as the tenon",
            "haunch 32.00 mm (1.260 in)",
            "under 32.00 mm (1.260 in)",
        ],
    ),
    (
        "tenon",
        TENON,
        &[
            ("method", "one-face"),
            ("shoulder", "3.1 mm"),
            ("kerf", "3.100001 mm"),
        ],
        [
            "wider than the shoulder",
            "kerf 3.10 mm (0.122 in), shoulder 3.10 mm (0.122 in)",
            "kerf at most 3.10 mm (0.122 in)",
        ],
    ),
    (
        "drawbore",
        &[("peg", "6 mm"), ("offset", "6 mm")],
        &[],
        [
            "no passage",
            "offset 6.00 mm (0.236 in), peg 6.00 mm (0.236 in)",
            "offset under the peg, usually at most 2.00 mm (0.078 in)",
        ],
    ),
    (
        "drawbore",
        PEG,
        &[("distance", "3.8 mm")],
        [
            "break out",
            "distance 3.80 mm (0.150 in)",
            "over 3.80 mm (0.150 in)",
        ],
    ),
    (
        "passes",
        &[
            ("depth", "12 mm"),
            ("cutter", "12 mm"),
            ("most", "12.000001 mm"),
        ],
        &[],
        [
            "deeper than the cutter",
            "most 12.00 mm (0.472 in)",
            "at most 12.00 mm (0.472 in)",
        ],
    ),
    // 60 / 24 = 2.5.
    (
        "passes",
        &[("depth", "60 mm"), ("cutter", "12 mm"), ("most", "2.4 mm")],
        &[],
        [
            "too many steps",
            "depth 60.00 mm (2.362 in) in 25 steps",
            "24 steps, most at least 2.50 mm (0.099 in)",
        ],
    ),
    // A nanometre over the cutter's 0.1 mm, whose words round back to 3 m/min.
    (
        "feed-per-tooth",
        FEED,
        &[("most", "0.099999 mm")],
        [
            "more than the limit",
            "feed 3.000 m/min at 15000 rpm with 2 teeth: 0.10 mm (0.004 in)",
            "feed at most 2.999 m/min",
        ],
    ),
    // 60000 * 45.88 / (pi 254) = 3449.8.
    (
        "rim-speed",
        &[
            ("diameter", "10 in"),
            ("speed", "3450 rpm"),
            ("limit", "45.88 m/s"),
        ],
        &[],
        [
            "faster than the limit",
            "speed 3450 rpm at diameter 254.00 mm (10.000 in)",
            "speed at most 3449 rpm",
        ],
    ),
    // 12564.9 rpm (joinery 3.15).
    (
        "spindle",
        SPINDLE,
        &[("machine_least", "12565 rpm")],
        [
            "slowest speed is too fast",
            "machine_least 12565 rpm",
            "machine_least at most 12564 rpm at diameter 76.00 mm (2.992 in)",
        ],
    ),
    (
        "spindle",
        SPINDLE,
        &[("machine_least", "8001 rpm"), ("machine_most", "8000 rpm")],
        [
            "over its fastest",
            "machine_least 8001 rpm",
            "at most machine_most, 8000 rpm",
        ],
    ),
    (
        "movement",
        MOVEMENT,
        &[("to", "14.01 %")],
        [
            "leaves 6 to 14 %",
            "from 8 % to 14.01 %",
            "from and to 6 % to 14 %",
        ],
    ),
    (
        "movement",
        MOVEMENT,
        &[("from", "5.99 %")],
        [
            "leaves 6 to 14 %",
            "from 5.99 % to 11 %",
            "from and to 6 % to 14 %",
        ],
    ),
    (
        "moisture",
        &[("temperature", "141 degF"), ("humidity", "50 %")],
        &[],
        [
            "outside",
            "temperature 61 degC (141 degF)",
            "temperature -1 degC (30 degF) to 60 degC (140 degF)",
        ],
    ),
    (
        "moisture",
        &[("temperature", "20 degC"), ("humidity", "4.99 %")],
        &[],
        ["outside", "humidity 4.99 %", "humidity 5 % to 95 %"],
    ),
    (
        "frame-panel",
        PANEL,
        &[("rise", "5 %"), ("fall", "3.01 %")],
        [
            "leaves 6 to 14 %",
            "rise 5 % and fall 3.01 %",
            "rise and fall together at most 8 %",
        ],
    ),
    (
        "frame-panel",
        PANEL,
        &[("now", "14.5 %")],
        ["leaves 6 to 14 %", "now 14.5 %", "now 6 % to 14 %"],
    ),
    (
        "frame-panel",
        PANEL,
        &[("rise", "4 %"), ("now", "10.5 %")],
        [
            "leaves 6 to 14 %",
            "rise 4 % from now 10.5 %",
            "rise at most 3.5 %",
        ],
    ),
    (
        "frame-panel",
        PANEL,
        &[("fall", "4 %"), ("now", "9.5 %")],
        [
            "leaves 6 to 14 %",
            "fall 4 % from now 9.5 %",
            "fall at most 3.5 %",
        ],
    ),
    (
        "frame-panel",
        PANEL,
        &[("clearance", "9.5 mm")],
        [
            "as deep as the groove",
            "clearance 9.50 mm (0.374 in)",
            "clearance under 9.50 mm (0.374 in)",
        ],
    ),
    // Nothing in the grooves when driest: 0.8 + 1.5.
    (
        "frame-panel",
        PANEL,
        &[("rise", "4 %"), ("groove", "2.3 mm")],
        [
            "drops out",
            "groove 2.30 mm (0.091 in)",
            "groove at least 2.30 mm (0.091 in) and more",
        ],
    ),
    // 450 / 2 + 9.5 = 234.5.
    (
        "frame-panel",
        PANEL,
        &[
            ("overall", "450 mm"),
            ("stile", "240 mm"),
            ("profile", "9.5 mm"),
        ],
        [
            "leave no rail",
            "stile 240.00 mm (9.449 in)",
            "stile at most 234.50 mm (9.232 in)",
        ],
    ),
    // 384 N by 120.001 / 120 = 384.0032 N, 39.1574 kg, 86.3274 lb; sag 100 * 390 / 384.0032 = 101.5617.
    (
        "shelf",
        SHELF,
        &[("load", "390 N"), ("width", "120.001 mm")],
        [
            "tenth of its span",
            "load 39.76 kg (87.67 lb): sag 101.56 mm (3.998 in)",
            "load at most 39.15 kg (86.32 lb): sag 100.00 mm (3.937 in)",
        ],
    ),
    // As L^4: 1000 (0.5)^(1/4) = 840.8964, 33.1062 in.
    (
        "shelf",
        SHELF,
        &[("sag_most", "50 mm")],
        [
            "more than the limit",
            "sag 100.00 mm (3.937 in) at span 1000.00 mm (39.370 in)",
            "sag 50.00 mm (1.969 in) at span at most 840.89 mm (33.106 in)",
        ],
    ),
    (
        "shelf",
        SHELF,
        &[("sag_most", "99.999999 mm")],
        [
            "more than the limit",
            "sag 100.00 mm (3.937 in) at span 1000.00 mm (39.370 in)",
            "sag 100.00 mm (3.937 in) at span at most 1000.00 mm (39.370 in)",
        ],
    ),
];

/// Calculator, values, first words; what stands in their place where it is just silent, and where it
/// just speaks.
type Warned = (
    &'static str,
    Texts<'static>,
    &'static str,
    [Texts<'static>; 2],
);

const WARNED: &[Warned] = &[
    // k = (T - D + c) / 2 = 0.8.
    (
        "sliding-dovetail",
        DOVETAIL,
        "Feather edge",
        [&[("stock", "14.2 mm")], &[("stock", "14.199998 mm")]],
    ),
    (
        "sliding-dovetail",
        DOVETAIL,
        "Depth over",
        [
            &[("stock", "18 mm"), ("depth", "6 mm")],
            &[("stock", "18 mm"), ("depth", "6.000001 mm")],
        ],
    ),
    // Depth 6: neck 12.7 - 2 * 1.495968 - 0.1 = 9.608064, of 19.216128.
    (
        "sliding-dovetail",
        DOVETAIL,
        "Neck under",
        [
            &[("stock", "19.216128 mm"), ("depth", "6 mm")],
            &[("stock", "19.216129 mm"), ("depth", "6 mm")],
        ],
    ),
    (
        "rebate",
        &[("stock", "12 mm"), ("mate", "10 mm")],
        "Lip under",
        [&[("depth", "6 mm")], &[("depth", "6.000001 mm")]],
    ),
    (
        "rebate",
        &[("stock", "18 mm"), ("mate", "15 mm")],
        "Depth outside",
        [&[("depth", "9 mm")], &[("depth", "8.999999 mm")]],
    ),
    (
        "rebate",
        &[("stock", "18 mm"), ("mate", "15 mm")],
        "Depth outside",
        [&[("depth", "12 mm")], &[("depth", "12.000001 mm")]],
    ),
    // Walls of a quarter of 18 mm.
    (
        "tongue-and-groove",
        TONGUE,
        "Wall beside",
        [&[("groove", "9 mm")], &[("groove", "9.000002 mm")]],
    ),
    (
        "bridle",
        BRIDLE,
        "Wall beside",
        [&[("slot", "9 mm")], &[("slot", "9.000002 mm")]],
    ),
    (
        "bridle",
        BRIDLE,
        "Slot too narrow",
        [&[("slot", "3.000001 mm")], &[("slot", "3 mm")]],
    ),
    (
        "tongue-in-housing",
        BOARD,
        "Housing over a third",
        [&[("depth", "6 mm")], &[("depth", "6.000001 mm")]],
    ),
    // x = 18 - w.
    (
        "tongue-in-housing",
        BOARD,
        "Wall beside",
        [&[("housing", "13.5 mm")], &[("housing", "13.500001 mm")]],
    ),
    // A half that is not whole leaves b a nanometre over half.
    (
        "halving",
        HALVING,
        "Cut deeper",
        [
            &[("stock_a", "19.000001 mm"), ("stock_b", "19.000001 mm")],
            &[("gauge", "9.500001 mm")],
        ],
    ),
    (
        "halving",
        HALVING,
        "Faces not flush",
        [
            &[("stock_b", "19.000001 mm"), ("height", "9.5 mm")],
            &[("stock_b", "19.000002 mm"), ("height", "9.5 mm")],
        ],
    ),
    // A quarter of the thinner, half of either.
    (
        "tenon",
        TENON,
        "Thickness outside",
        [&[("cutter", "5.5 mm")], &[("cutter", "5.499999 mm")]],
    ),
    (
        "tenon",
        TENON,
        "Thickness outside",
        [
            &[("cutter", "11 mm"), ("mortised", "30 mm")],
            &[("cutter", "11.000001 mm"), ("mortised", "30 mm")],
        ],
    ),
    (
        "tenon",
        TENON,
        "Thickness outside",
        [
            &[("cutter", "10 mm"), ("mortised", "20 mm")],
            &[("cutter", "10.000001 mm"), ("mortised", "20 mm")],
        ],
    ),
    // 50 - 5 - 5 = 5 * 8.
    (
        "tenon",
        TENON,
        "Width held",
        [&[("width", "50 mm")], &[("width", "50.000001 mm")]],
    ),
    (
        "tenon",
        TENON,
        "Side shoulder",
        [&[("shoulder", "3 mm")], &[("shoulder", "2.999999 mm")]],
    ),
    (
        "tenon",
        TENON,
        "Side shoulder",
        [&[("shoulder", "0 mm")], &[("shoulder", "0.1 mm")]],
    ),
    // 5 + 40 + 75 + 40 + 5.
    (
        "tenon",
        TENON,
        "Gap between",
        [
            &[("form", "twin"), ("width", "165 mm")],
            &[("form", "twin"), ("width", "165.000001 mm")],
        ],
    ),
    (
        "drawbore",
        PEG,
        "Offset over",
        [&[("offset", "2 mm")], &[("offset", "2.000001 mm")]],
    ),
    // Drifted: O + 2 (g - z) - O - g = g - 1.6 = 3.
    (
        "frame-panel",
        PANEL,
        "Little hold",
        [&[("groove", "4.6 mm")], &[("groove", "4.599999 mm")]],
    ),
    (
        "spindle",
        SPINDLE,
        "Faster than the usual",
        [
            &[("diameter", "25.4 mm"), ("machine_most", "24000 rpm")],
            &[("diameter", "25.4 mm"), ("machine_most", "24001 rpm")],
        ],
    ),
    (
        "spindle",
        SPINDLE,
        "Faster than the usual",
        [
            &[("diameter", "50.8 mm"), ("machine_most", "18000 rpm")],
            &[("diameter", "50.800001 mm"), ("machine_most", "18000 rpm")],
        ],
    ),
];

#[test]
fn what_is_just_allowed_is_allowed() {
    for (name, texts, more) in ALLOWED {
        answer(name, &with(texts, more));
    }
}

#[test]
fn what_is_just_too_much_is_refused_with_its_figures() {
    for (name, texts, more, [what, is, may_be]) in REFUSED {
        let refusal = refusal(name, &with(texts, more));
        assert!(refusal.what.contains(what), "{name} {more:?}: {refusal:?}");
        assert_eq!(refusal.is, *is, "{name} {more:?}");
        assert_eq!(refusal.may_be, *may_be, "{name} {more:?}");
    }
}

#[test]
fn warnings_speak_from_their_limit_on() {
    for (name, texts, words, [silent, speaks]) in WARNED {
        let warned = |more| {
            let warnings = answer(name, &with(texts, more)).worked.warnings;
            warnings.iter().any(|warning| warning.starts_with(words))
        };
        assert!(!warned(silent), "{name} {words} {silent:?}");
        assert!(warned(speaks), "{name} {words} {speaks:?}");
    }
}

// Half of 12 mm in soft wood, a third in hard wood; the next nanometre takes one step more.
#[test]
fn steps_at_their_edges() {
    let steps = |wood, depth| {
        let given = DepthPasses {
            depth: Length::nm(depth),
            cutter: Length::mm(12.0),
            wood,
            most: None,
        };
        given.work_out().unwrap().len()
    };
    assert_eq!(
        [6_000_000, 6_000_001, 12_000_000, 12_000_001].map(|nm| steps(Wood::Soft, nm)),
        [1, 2, 2, 3]
    );
    assert_eq!(
        [4_000_000, 4_000_001, 12_000_000, 12_000_001].map(|nm| steps(Wood::Hard, nm)),
        [1, 2, 3, 4]
    );
    let housing = |depth| count(&answer("housing", &with(HOUSING, depth)), "depth_passes");
    assert_eq!(
        (
            housing(&[("depth", "6 mm")]),
            housing(&[("depth", "6.000001 mm")])
        ),
        (1, 2)
    );
}

// A pass more from the next nanometre on: 12 + 10.5 = 22.5 mm with an overlap of 1.5.
#[test]
fn passes_at_their_edges() {
    let passes = |width| count(&answer("housing", &with(HOUSING, width)), "passes");
    assert_eq!(passes(&[("width", "12 mm")]), 1);
    assert_eq!(passes(&[("width", "12.000001 mm")]), 2);
    assert_eq!(passes(&[("width", "22.5 mm")]), 2);
    assert_eq!(passes(&[("width", "22.500001 mm")]), 3);
}

// Joinery 3.4: c L / tau: 0.1 * 300 / 1.5 = 20 mm, 0.7874 in; 300 / 192 = 1.5625 mm, 0.0615 in.
#[test]
fn a_taper_tells_travel_and_usual_taper() {
    let notes = answer("tapered-housing", TAPERED).worked.notes;
    assert!(
        notes[0].contains("thicker by 0.10 mm (0.004 in) stops 20.00 mm (0.787 in) sooner"),
        "{notes:?}"
    );
    assert!(
        notes[1].starts_with("About 1.56 mm (0.062 in) of taper"),
        "{notes:?}"
    );
}

// The limit is allowed itself: a rim at the speed that its limit gives.
#[test]
fn a_rim_at_its_limit_is_allowed() {
    let limit = RimSpeed::metres_per_second(50.0);
    let diameter = Length::mm(76.0);
    let rim = Rim {
        diameter,
        speed: limit.spindle_at(diameter),
        limit: Some(limit),
    };
    near(
        rim.work_out().unwrap().rim_speed.to_metres_per_second(),
        50.0,
    );
}

// 76 mm at 50 m/s: 12564.9 rpm at most (joinery 3.15).
#[test]
fn a_machine_of_steps_names_its_slowest() {
    let refused = |steps: &[f64]| {
        let choice = SpindleChoice {
            diameter: Length::mm(76.0),
            marked: None,
            limit: RimSpeed::metres_per_second(50.0),
            machine: Speeds::Steps(steps.iter().map(|rpm| Spindle::rpm(*rpm)).collect()),
        };
        choice.work_out().unwrap_err().is
    };
    assert_eq!(refused(&[13_000.0, 18_000.0]), "machine_least 13000 rpm");
    assert!(refused(&[]).contains("lists no speeds"));
}

// Notes of a pass plan: the sketch of joinery 3.5, three passes 5.25 mm apart for 12 + 10.5 mm.
#[test]
fn each_pass_between_first_and_last_has_its_note() {
    let texts = [("width", "22.500001 mm"), ("cutter", "12 mm")];
    let notes = answer("housing", &texts).worked.notes;
    let passes: Vec<_> = notes
        .iter()
        .filter(|note| note.starts_with("Pass"))
        .collect();
    assert_eq!(passes.len(), 3, "{notes:?}");
    assert!(passes[0].starts_with("Pass 1 of 3, at the smallest"));
    assert!(
        passes[1].starts_with("Pass 2 of 3, the fence 5.25 mm (0.207 in) farther"),
        "{notes:?}"
    );
    assert!(passes[2].starts_with("Pass 3 of 3, at the largest"));
    let one = answer("housing", &[("width", "12 mm"), ("cutter", "12 mm")]);
    assert_eq!(one.worked.notes.len(), 2);
}

// A slot of 3.5 mm leaves a bit of 0.5 (Fairham p. 41: 3 mm less).
#[test]
fn the_bit_is_three_millimetres_less() {
    let bridle = |slot| answer("bridle", &with(BRIDLE, slot));
    near(
        length(&bridle(&[("slot", "3.5 mm")]), "bit_most").to_mm(),
        0.5,
    );
    let none = bridle(&[("slot", "3 mm")]);
    assert!(!none.worked.results.contains_key("bit_most"));
}

#[test]
fn given_values_are_listed_and_origins_have_their_word() {
    let given = answer("housing", HOUSING).given;
    let names: Vec<_> = given.iter().map(|(name, _)| name).collect();
    assert_eq!(names, ["cutter", "overlap", "width"]);
    let usual = given.iter().find(|(name, _)| *name == "overlap");
    assert_eq!(
        usual.map(|(_, value)| value),
        Some(&Value::Length(Length::mm(1.5)))
    );
    let origins = [
        Origin::Measuring,
        Origin::Fence,
        Origin::Height,
        Origin::Diameter,
        Origin::CutterAngle,
    ];
    let words = ["measuring", "fence", "height", "diameter", "angle"];
    assert_eq!(origins.map(Origin::word), words);
}

// The ends of a range are in it.
#[test]
fn the_ends_of_a_range_are_allowed() {
    for name in ["saw-ramp", "stopped-housing", "feed-per-tooth", "moisture"] {
        let calculator = calculator(name);
        for input in calculator.inputs {
            if !input.options().is_empty() {
                continue;
            }
            for end in [input.range.0, input.range.1] {
                let texts = with(calculator.example, &[]);
                let mut given: BTreeMap<_, _> = crate::values(calculator, &texts);
                let value = faceside::units::parse(end, input.kind, faceside::units::Unit::Mm);
                given.insert(input.name.to_owned(), value.unwrap());
                let is_fault = matches!(
                    joints::work_out(calculator, &given),
                    Err(joints::Stopped::Fault(_))
                );
                assert!(!is_fault, "{name} {} {end}", input.name);
            }
        }
    }
}
