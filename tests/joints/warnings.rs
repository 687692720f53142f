//! Everything that the table warns of, met once.

use std::collections::BTreeSet;

use faceside::joints;

use crate::{
    DOVETAIL_MM, ONE_SIDED_MM, Texts, answer, calculator, corner_limits, limits, part_limits, with,
};

/// Calculator, first words of the warning, values that bring it.
const WARNED: &[(&str, &str, Texts)] = &[
    // End cut (19.05 - 18) / 2 = 0.525 mm, under 0.8 mm (joinery 3.1, common practice).
    (
        "sliding-dovetail",
        "Feather edge",
        &[
            ("stock", "19.05 mm"),
            ("cutter", "18 mm"),
            ("angle", "7 deg"),
            ("depth", "6 mm"),
        ],
    ),
    ("sliding-dovetail", "Depth over a third", DOVETAIL_MM),
    // Neck 7.96 of 19 mm.
    ("sliding-dovetail", "Neck under half", DOVETAIL_MM),
    // End cut 19 - 18.2 - 0.1 = 0.7 mm.
    (
        "one-sided-dovetail",
        "Feather edge",
        &[
            ("stock", "19 mm"),
            ("cutter", "12.7 mm"),
            ("angle", "14 deg"),
            ("depth", "6 mm"),
            ("base", "18.2 mm"),
            ("clearance", "-0.1 mm"),
        ],
    ),
    ("one-sided-dovetail", "Depth over a third", ONE_SIDED_MM),
    // Mouth 17 - 9.5 * 0.249328 = 14.631, neck 12.631 of 26 mm; e = 13.369 is under 16 - 2.369.
    (
        "one-sided-dovetail",
        "Neck under half",
        &[
            ("stock", "26 mm"),
            ("cutter", "16 mm"),
            ("angle", "14 deg"),
            ("depth", "9.5 mm"),
            ("base", "17 mm"),
            ("clearance", "2 mm"),
        ],
    ),
    (
        "spindle",
        "No marked maximum",
        &[("diameter", "12 mm"), ("limit", "40 m/s")],
    ),
    (
        "spindle",
        "Faster than the usual chart",
        &[
            ("diameter", "12 mm"),
            ("marked", "30000 rpm"),
            ("limit", "40 m/s"),
        ],
    ),
];

const WOODS_WARNED: &[(&str, &str, Texts)] = &[
    // Douglas-fir's C_T is from memory, northern red oak's printed C is the commercial group's, and
    // shrinkage starts at 30 % (the project's table).
    (
        "movement",
        "From memory",
        &[
            ("width", "200 mm"),
            ("from", "8 %"),
            ("to", "12 %"),
            ("species", "douglas-fir-coast"),
            ("cut", "plain"),
        ],
    ),
    (
        "movement",
        "Tables disagree",
        &[
            ("width", "200 mm"),
            ("from", "8 %"),
            ("to", "12 %"),
            ("species", "oak-red-northern"),
            ("cut", "plain"),
        ],
    ),
    (
        "movement",
        "Above the start",
        &[
            ("width", "200 mm"),
            ("from", "45 %"),
            ("to", "12 %"),
            ("species", "cherry-black"),
            ("cut", "quarter"),
        ],
    ),
    ("frame-panel", "From memory", PANEL_OF_TEAK),
    ("frame-panel", "Tables disagree", PANEL_OF_TEAK),
    // Joinery 3.11: 0.03568 in left when drifted, with 0.00369, under 1/8 in.
    (
        "frame-panel",
        "Little hold",
        &[
            ("opening", "12 in"),
            ("groove", "0.375 in"),
            ("coefficient", "0.00369"),
            ("rise", "4 %"),
            ("fall", "2 %"),
            ("clearance", "1/32 in"),
        ],
    ),
    ("breadboard", "From memory", PEG_IN_TEAK),
    ("breadboard", "Tables disagree", PEG_IN_TEAK),
    // All of baldcypress's line is from memory.
    (
        "shelf",
        "From memory",
        &[
            ("span", "900 mm"),
            ("load", "20 kg"),
            ("width", "250 mm"),
            ("thickness", "18 mm"),
            ("species", "baldcypress"),
        ],
    ),
];

/// Teak: both figures from memory, 0.00186 against 0.00272 (reference wood 4).
const PANEL_OF_TEAK: Texts = &[
    ("opening", "300 mm"),
    ("groove", "9.5 mm"),
    ("species", "teak"),
    ("cut", "plain"),
    ("rise", "4 %"),
    ("fall", "2 %"),
    ("clearance", "0.8 mm"),
];
const PEG_IN_TEAK: Texts = &[
    ("distance", "400 mm"),
    ("peg", "6 mm"),
    ("species", "teak"),
    ("cut", "plain"),
    ("rise", "4 %"),
    ("fall", "2 %"),
];

#[test]
fn every_warning_of_the_table_is_met() {
    let mut met = BTreeSet::new();
    let lists = [
        WARNED,
        WOODS_WARNED,
        limits::WARNED,
        corner_limits::WARNED,
        part_limits::WARNED,
    ];
    for (name, part, texts) in lists.into_iter().flatten() {
        for warning in answer(name, texts).worked.warnings {
            let known = calculator(name)
                .warns
                .iter()
                .find(|words| warning.starts_with(**words));
            let known = known.unwrap_or_else(|| panic!("{name}: {warning}"));
            if warning.starts_with(part) {
                met.insert((*name, *known));
            }
        }
    }
    let table: usize = joints::ALL
        .iter()
        .map(|calculator| calculator.warns.len())
        .sum();
    assert_eq!(met.len(), table, "met: {met:?}");
    // Depth 6 is a third of 18; the neck 12.7 - 12 * 0.249328 = 9.708 is over 9; end cut 2.65.
    let sound = with(DOVETAIL_MM, &[("depth", "6 mm"), ("stock", "18 mm")]);
    assert_eq!(
        answer("sliding-dovetail", &sound).worked.warnings,
        Vec::<String>::new()
    );
}
