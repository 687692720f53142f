//! Mortise and tenon: sizes, and the settings for router table and table saw.
//!
//! Sketch: `SKETCH` below. Datums: thickness from the face, which lies at the fence or on the table;
//! width from the inner edge, which carries the panel groove; length from the shoulder.
//!
//! Sizes and their sources: `tenon_sizes.rs`; saw settings: `tenon_saw.rs`; errors of the cheeks:
//! `cheeks.rs`. Length: given, or from a mortise of 7/8 of the stile's width (Fairham p. 91); the
//! mortise is deeper than the tenon (Noyes p. 160) by 1.5 mm or 1/16 in (`CP`). The haunch fills the
//! groove (Fairham pp. 66-67); without one it projects 12 to 25 mm (Notes on Building Construction).
//!
//! Example (joinery 3.7): T 22, chisel 8, rail 100, groove 10, l 32, k 3.2 mm: t 8, width 40,
//! shoulders 7, fence 3.8 and 15, spacer 11.2, flipped 15 mm.

use std::collections::BTreeMap;

use super::answer::needed;
use super::cheeks::CLEARANCE;
use super::fit::HAND_PRESS;
use super::tenon_saw::{KERF_WIDE, TenonSaw};
use super::tenon_sizes::{
    HAUNCH_LONG, HELD_BACK, NO_TENON, NO_WIDTH, OFF_CENTRE, OFF_STOCK, THIN_SHOULDER, TOO_THICK,
    Tenon, TenonForm, TenonPlan, UNUSUAL, WIDE_GAP, WidthRule, mortise_by_rule,
};
use super::{
    Calculator, CheekMethod, Fit, FitRule, Given, Input, Output, Refusal, Wanted, Wants, Worked,
};
use crate::shop::Shape;
use crate::units::{Kind, Length, Role, Value};

const SKETCH: &str = r"
   rail, seen from its edge                 rail, seen on its face

     |<--- l --->|                            outer edge
                 +--------- face  ^                 +---------  ^
                 |  a             |              j  |  o        |
     +-----------+                |         +-------+  haunch   |
     |     t     tenon            T         |          ^        W
     +-----------+                |         |          w        |
                 |  b             |         |          v        |
                 +---------       v         +-------+           |
     |<---- z ---->| mortise                     g  |  i        |
                                                    +---------  v
   T, W: rail; S: thickness of the mortised piece;    inner edge, grooved g deep
   V: width of the mortised piece; d, m: cutter and mortise, c = m - t
   e: edge shoulder; u: mortise deeper than the tenon; x: gap of a pair
   table saw, blade k wide; fence to its near side: N, F one face, s spacer;
   P both faces; Q shoulder cut, blade H high";

/// The haunch of a rail without a groove: the least of 1/2 to 1 in.
const HAUNCH_UNPANELLED: Length = Length::nm(12_000_000);

/// The table entry.
pub(super) const CALCULATOR: Calculator = Calculator {
    name: "tenon",
    summary: "Sizes of a tenon and its mortise, settings for router table and table saw",
    family: "mortise and tenon",
    inputs: INPUTS,
    results: RESULTS,
    one_of: &[&["length"], &["stile"]],
    refuses: &[
        NO_TENON,
        TOO_THICK,
        OFF_STOCK,
        NO_WIDTH,
        HAUNCH_LONG,
        OFF_CENTRE,
        KERF_WIDE,
    ],
    warns: &[UNUSUAL, HELD_BACK, THIN_SHOULDER, WIDE_GAP],
    sketch: SKETCH,
    source: "Thickness a third: Fairham, Woodwork Joints, pp. 82, 85; Ross, Elementary Course in \
             Woodwork (1901), p. 52; Noyes, Handwork in Wood (1910), p. 164. The mortised piece \
             rules, half of the rail at most: common practice, no source. Width of a haunched \
             tenon: Noyes, p. 164, a sentence that can be read in two ways. Five times the \
             thickness at most; haunch of 1/2 to 1 in: Notes on Building Construction I (1893), \
             excerpt. Two in a row: Fairham, p. 73. Groove taken off the tenon: Fairham, \
             pp. 89-90. Haunch fills the groove: Fairham, pp. 66-67. Mortise 7/8 of the stile: \
             Fairham, p. 91. Mortise deeper: Noyes, p. 160; by 1.5 mm (1/16 in), edge shoulders \
             5 to 6 mm, side shoulders 3 mm or more: common practice, no source. Saw settings \
             derived, as the sketch shows.",
    example: &[
        ("stock", "22 mm"),
        ("width", "100 mm"),
        ("cutter", "8 mm"),
        ("groove", "10 mm"),
        ("form", "haunched"),
        ("length", "32 mm"),
        ("kerf", "3.2 mm"),
    ],
    run,
    wants: Some(Wants {
        cutters: &[Wanted {
            shape: Shape::Straight,
            size: "cutter",
            angle: None,
        }],
        reach: "mortise_depth",
        passes: &[],
    }),
    fit: Some(FitRule {
        press: HAND_PRESS,
        of: fit,
    }),
};

const INPUTS: &[Input] = &[
    Input::length("stock", "T", ("5 mm", "150 mm"), "Thickness of the rail"),
    Input::length("width", "W", ("10 mm", "500 mm"), "Width of the rail"),
    Input::length(
        "mortised",
        "S",
        ("5 mm", "200 mm"),
        "Thickness of the mortised piece",
    )
    .derived("as thick as the rail"),
    Input::length(
        "cutter",
        "d",
        ("2 mm", "100 mm"),
        "Cutter or chisel of the mortise, as wide as it cuts",
    )
    .derived("a third of the mortised piece, at most half of the rail"),
    CLEARANCE,
    Input::length(
        "shoulder",
        "a",
        ("0 mm", "100 mm"),
        "From the face to the tenon",
    )
    .derived("the tenon in the middle"),
    Input::length(
        "groove",
        "g",
        ("0 mm", "50 mm"),
        "Depth of the panel groove in the inner edge; nothing without one",
    )
    .usual("0 mm"),
    Input::length(
        "form",
        "",
        ("plain | haunched | twin", ""),
        "One tenon, one with a haunch to the outer edge, or two in a row",
    )
    .kind(Kind::Choice)
    .usual("plain"),
    Input::length(
        "width_rule",
        "",
        ("half-less-groove | half-of-rest", ""),
        "Width of a haunched tenon, as Noyes p. 164 is read: W/2 - g, or (W - g)/2",
    )
    .kind(Kind::Choice)
    .derived("half-of-rest, the larger"),
    Input::length(
        "haunch",
        "j",
        ("1 mm", "100 mm"),
        "Projection of the haunch from the shoulder",
    )
    .derived("the groove's depth, 12 mm without a groove"),
    Input::length(
        "edge",
        "e",
        ("0 mm", "50 mm"),
        "Least shoulder at each edge of a plain or twin tenon",
    )
    .usual("5 mm"),
    Input::length("length", "l", ("6 mm", "300 mm"), "Length of the tenon")
        .derived("7/8 of the stile less the end gap"),
    Input::length(
        "stile",
        "V",
        ("12 mm", "340 mm"),
        "Width of the mortised piece, along the tenon",
    )
    .derived("the length is given"),
    Input::length(
        "end_gap",
        "u",
        ("0 mm", "3 mm"),
        "What the mortise is deeper than the tenon is long",
    )
    .usual("1.5 mm"),
    Input::length(
        "method",
        "",
        ("router | one-face | flipped", ""),
        "Router table, each cheek in from its own face; table saw, one face at the fence or both \
         in turn",
    )
    .kind(Kind::Choice)
    .usual("router"),
    Input::length("kerf", "k", ("0.5 mm", "6 mm"), "Kerf of the table saw")
        .derived("no settings for the table saw"),
];

const RESULTS: &[Output] = &[
    Output::length("mortise", "m", Role::Opening, "Width of the mortise"),
    Output::length("thickness", "t", Role::Entering, "Thickness of the tenon"),
    Output::length(
        "width",
        "w",
        Role::Entering,
        "Width of the tenon, or of each of two",
    ),
    Output::length("gap", "x", Role::Opening, "Between two tenons"),
    Output::length("length", "l", Role::TakesOff, "Length of the tenon"),
    Output::length("mortise_depth", "z", Role::TakesOff, "Depth of the mortise"),
    Output::length(
        "haunch",
        "j",
        Role::Entering,
        "Projection of the haunch from the shoulder",
    ),
    Output::length(
        "shoulder_face",
        "a",
        Role::TakesOff,
        "Face to tenon; height of the router cutter, face down",
    ),
    Output::length(
        "shoulder_back",
        "b",
        Role::TakesOff,
        "Tenon to back; height of the router cutter, back down",
    ),
    Output::length("edge_inner", "i", Role::TakesOff, "Inner edge to tenon"),
    Output::length(
        "edge_outer",
        "o",
        Role::TakesOff,
        "Tenon to outer edge; the haunch's width where there is one",
    ),
    Output::length(
        "fence_near",
        "N",
        Role::TakesOff,
        "Table saw, one face: fence to blade for the cheek nearer the fence",
    ),
    Output::length(
        "fence_far",
        "F",
        Role::LeavesOn,
        "Table saw, one face: fence to blade for the cheek farther from the fence",
    ),
    Output::length(
        "spacer",
        "s",
        Role::LeavesOn,
        "Table saw, one face: spacer that stands for the move of the fence",
    ),
    Output::length(
        "fence_flipped",
        "P",
        Role::LeavesOn,
        "Table saw, both faces in turn: fence to blade",
    ),
    Output::length(
        "blade_height",
        "H",
        Role::TakesOff,
        "Table saw, shoulder cut: height of the blade, face down",
    ),
    Output::length(
        "fence_shoulder",
        "Q",
        Role::TakesOff,
        "Table saw, shoulder cut: fence to blade, and the stand-off block's thickness",
    ),
];

fn read(given: &Given) -> Result<Tenon, Refusal> {
    let stock = needed("stock", given.length("stock"))?;
    let mortised = given.length("mortised").unwrap_or(stock);
    let end_gap = needed("end_gap", given.length("end_gap"))?;
    let by_stile = given
        .length("stile")
        .map(|stile| stile.times(7.0 / 8.0) - end_gap);
    Ok(Tenon {
        stock,
        width: needed("width", given.length("width"))?,
        mortised,
        mortise: given
            .length("cutter")
            .unwrap_or_else(|| mortise_by_rule(stock, mortised)),
        clearance: needed("clearance", given.length("clearance"))?,
        shoulder: given.length("shoulder"),
        groove: needed("groove", given.length("groove"))?,
        edge: needed("edge", given.length("edge"))?,
        length: needed("length", given.length("length").or(by_stile))?,
        form: form(given),
        method: match given.choice("method") {
            Some("one-face") => CheekMethod::OneFace,
            Some("flipped") => CheekMethod::Flipped,
            _ => CheekMethod::OwnFaces,
        },
    })
}

fn form(given: &Given) -> TenonForm {
    let rule = match given.choice("width_rule") {
        Some("half-less-groove") => WidthRule::HalfLessGroove,
        _ => WidthRule::HalfOfRest,
    };
    let groove = given.length("groove").filter(|g| *g > Length::ZERO);
    let haunch = given.length("haunch").or(groove);
    match given.choice("form") {
        Some("haunched") => TenonForm::Haunched(rule, haunch.unwrap_or(HAUNCH_UNPANELLED)),
        Some("twin") => TenonForm::Twin,
        _ => TenonForm::Plain,
    }
}

fn run(given: &Given) -> Result<Worked, Refusal> {
    let tenon = read(given)?;
    let plan = tenon.work_out()?;
    let saw = given
        .length("kerf")
        .map(|kerf| TenonSaw::new(&tenon.cheeks()?, tenon.length, kerf))
        .transpose()?;
    let end_gap = needed("end_gap", given.length("end_gap"))?;
    let lengths = sizes(&tenon, &plan, end_gap)
        .into_iter()
        .chain(saw.iter().flat_map(settings));
    Ok(Worked {
        results: lengths
            .filter_map(|(name, length)| Some((name, Value::Length(length?))))
            .collect::<BTreeMap<_, _>>(),
        warnings: tenon.warnings(&plan),
        notes: notes(&tenon, saw.is_some()),
    })
}

type Named = (&'static str, Option<Length>);

fn sizes(tenon: &Tenon, plan: &TenonPlan, end_gap: Length) -> [Named; 11] {
    let haunch = match tenon.form {
        TenonForm::Haunched(_, haunch) => Some(haunch),
        TenonForm::Plain | TenonForm::Twin => None,
    };
    [
        ("mortise", Some(tenon.mortise)),
        ("thickness", Some(plan.thickness)),
        ("width", Some(plan.width)),
        ("gap", plan.gap),
        ("length", Some(tenon.length)),
        ("mortise_depth", Some(tenon.length + end_gap)),
        ("haunch", haunch),
        ("shoulder_face", Some(plan.shoulder_face)),
        ("shoulder_back", Some(plan.shoulder_back)),
        ("edge_inner", Some(plan.edge_inner)),
        ("edge_outer", Some(plan.edge_outer)),
    ]
}

fn settings(saw: &TenonSaw) -> [Named; 6] {
    [
        ("fence_near", saw.one_face.map(|(near, _)| near)),
        ("fence_far", saw.one_face.map(|(_, far)| far)),
        ("spacer", saw.one_face.map(|_| saw.spacer)),
        ("fence_flipped", saw.flipped),
        ("blade_height", Some(saw.blade_height)),
        ("fence_shoulder", Some(saw.fence_shoulder)),
    ]
}

fn notes(tenon: &Tenon, has_saw: bool) -> Vec<String> {
    let errors = match tenon.method {
        CheekMethod::OwnFaces => {
            "Each cheek is cut in from its own face: an error of the height counts in both, and \
             thicker stock makes a thicker tenon."
        }
        CheekMethod::OneFace => {
            "One face at the fence for both cheeks: the thickness of the stock does not matter, an \
             error of the fence counts once."
        }
        CheekMethod::Flipped => {
            "Both faces at the fence in turn: an error of the fence counts twice, and thicker \
             stock makes a thinner tenon; all stock comes from one thicknessing."
        }
    };
    let trap = "The cheek nearer the fence drops its waste between fence and blade, where it can be \
                trapped: hold the rail in a carriage, and cut shoulders with a stand-off block that \
                ends before the blade.";
    let first = "Cut the mortise first, measure it, and cut the tenon to it: as tight as goes in \
                 without risk of splitting (Noyes, p. 161).";
    let mut notes = vec![first.to_owned(), errors.to_owned()];
    notes.extend(has_saw.then(|| trap.to_owned()));
    notes
}

fn fit(given: &Given) -> Fit {
    let cheeks = read(given).and_then(|tenon| tenon.cheeks());
    cheeks.map_or_else(|_| Fit::default(), |cheeks| cheeks.fit())
}
