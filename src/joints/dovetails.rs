//! Through and lapped dovetails: division of the width, slope, marks for tails and sockets.
//!
//! Sketch: `SKETCH` below. Datums: marks from the edge of the board, on the tail board's base line
//! and on its end; base lines from the end.
//!
//! Derivation (`D`, joinery 3.9): the width is divided in `dovetail_division.rs`, slope and base
//! line come from `dovetail_rules.rs`. A lap shortens the tails: L = T - l. No fit budget: the
//! second part is scribed from the first, so no setting reaches the fit.
//!
//! Limits: the lap leaves some length (`D`), 6 mm (1/4 in) on a drawer front (Fairham p. 136).
//!
//! Example (joinery 3.9): W 150, L 19, 1 in 6, n 4, r 3: sockets 9.375 and 3.04167, tails 28.125
//! and 34.45833, half sockets 4.6875 and 1.52083 mm.

use std::collections::BTreeMap;

use super::answer::needed;
use super::dovetail_division::{
    Dovetails, DovetailsPlan, HALF_THIN, KERF_STUCK, RATIO_HIGH, SLOPE_STEEP, TAIL_WIDE,
};
use super::dovetail_rules::{BASE_LINES, HARD_SLOPES, base_line, slope};
use super::figure::{about, under};
use super::{Calculator, Given, Input, Output, Refusal, Worked};
use crate::units::{Kind, Length, Role, Value};

const SKETCH: &str = r"
   tail board, seen on its face, end up

     |<------------------- W ------------------>|
     |y|<----- V ----->|U|<----- V ----->| ... y|   end
     | \               / \               / ...  |  ^  ^
     |  \             /   \             /  ...  |  |  L
     |   \           /a    \           /   ...  |  |  v
     | x |<--- v --->|<-u->|<--- v --->|   ...  |   base line
     0: marks from this edge

   n tails, r = v / u                      a: slope from the square line
   T: pin board; l: its lap in front of    S: tail board
      the tails, L = T - l                 B: base line of the pins
   k: what passes between tails at U       q: least that y may be
   o: how far a base line lies over or under";

const LAP_THICK: &str = "the lap leaves no length for the tails";
const BASE_GONE: &str = "the base line leaves no length for tails or pins";

/// The table entry.
pub(super) const CALCULATOR: Calculator = Calculator {
    name: "dovetails",
    summary: "Division, slope and marks of through and lapped dovetails",
    family: "combs and dovetails",
    inputs: INPUTS,
    results: RESULTS,
    one_of: &[&["slope"], &["wood", "hard_slope"]],
    refuses: &[LAP_THICK, BASE_GONE, KERF_STUCK, HALF_THIN],
    warns: &[TAIL_WIDE, RATIO_HIGH, SLOPE_STEEP],
    sketch: SKETCH,
    source: "Geometry derived, as the sketch shows. Division, tails to 1 3/4 in and 4 times the \
             gap, base line 1/32 in over, slope 5/8 in 3: Noyes, Handwork in Wood (1910), p. 165. \
             Slopes 1 in 8 and 1 in 6, base line a shaving under, lap 1/4 in: Fairham, Woodwork \
             Joints, pp. 134, 136. Slope 1 in 4: Ross, Elementary Course in Woodwork, p. 76. \
             Narrowest socket a saw kerf: Griffith, Essentials of Woodworking (1908), p. 103. \
             More slope in hard wood: Notes on Building Construction I (1893) and Our Workshop, \
             read in part; more in soft wood: from memory. A shaving as 0.1 mm, half sockets of \
             1.5 mm: common practice, no source.",
    example: &[
        ("width", "150 mm"),
        ("thickness", "19 mm"),
        ("tails", "4"),
        ("ratio", "3"),
        ("slope", "1 in 6"),
        ("base_line", "even"),
    ],
    run,
    wants: None,
    fit: None,
};

const INPUTS: &[Input] = &[
    Input::length("width", "W", ("20 mm", "3000 mm"), "Width of the boards"),
    Input::length(
        "thickness",
        "T",
        ("3 mm", "100 mm"),
        "Thickness of the pin board",
    ),
    Input::length("tails", "n", ("1", "100"), "Number of tails").kind(Kind::Count),
    Input::length(
        "ratio",
        "r",
        ("0.5", "12"),
        "Tail to socket at the base line; 1 is strongest and what machines cut, up to 4 for looks",
    )
    .kind(Kind::Number),
    Input::length(
        "slope",
        "a",
        ("1 deg", "20 deg"),
        "Slope of the tails, as `1 in 8` or an angle from the square line",
    )
    .kind(Kind::Angle)
    .derived("wood and hard_slope together"),
    Input::length("wood", "", ("soft | hard", ""), "What the boards are of")
        .kind(Kind::Choice)
        .derived("slope is given"),
    Input::length(
        "hard_slope",
        "",
        (HARD_SLOPES, ""),
        "Slope of hard wood beside that of soft; shallower: hard 1 in 8, soft 1 in 6 (later \
         practice, from memory); steeper: hard 1 in 6, soft 1 in 8 (two Victorian texts for the \
         order, Fairham p. 134 for the two slopes)",
    )
    .kind(Kind::Choice)
    .derived("slope is given"),
    Input::length(
        "base_line",
        "",
        (BASE_LINES, ""),
        "Base line beside the mate's thickness; over: the ends stand proud and are dressed off \
         (Noyes p. 165); under: the side is planed to the ends, for drawers (Fairham p. 136); \
         even: as thick as the mate",
    )
    .kind(Kind::Choice),
    Input::length("offset", "o", ("0.01 mm", "3 mm"), "How far over or under")
        .derived("0.79 mm (1/32 in) over; 0.1 mm, a shaving, under"),
    Input::length(
        "lap",
        "l",
        ("0 mm", "60 mm"),
        "Wood of the pin board in front of the tails; 6 mm (1/4 in) on a drawer front",
    )
    .derived("through dovetails, no lap"),
    Input::length(
        "side",
        "S",
        ("3 mm", "100 mm"),
        "Thickness of the tail board",
    )
    .derived("no base line of the pins"),
    Input::length(
        "kerf",
        "k",
        ("0.3 mm", "30 mm"),
        "What must pass between two tails at the end: kerf of the saw, or narrowest chisel",
    )
    .usual("1.6 mm"),
    Input::length(
        "half_least",
        "q",
        ("0.5 mm", "30 mm"),
        "Narrowest that a half socket may be at the end",
    )
    .usual("1.5 mm"),
];

const RESULTS: &[Output] = &[
    Output::new(
        "angle",
        "a",
        Kind::Angle,
        Role::Place,
        "Slope from the square line",
    ),
    Output::length(
        "tail_length",
        "L",
        Role::LeavesOn,
        "Base line of the tails from the end",
    ),
    Output::length(
        "pin_line",
        "B",
        Role::LeavesOn,
        "Base line of the pins from the end",
    ),
    Output::length("socket_wide", "u", Role::Opening, "Socket at the base line"),
    Output::length("socket_narrow", "U", Role::Opening, "Socket at the end"),
    Output::length("tail_wide", "V", Role::Entering, "Tail at the end"),
    Output::length("tail_narrow", "v", Role::Entering, "Tail at the base line"),
    Output::length(
        "half_socket_wide",
        "x",
        Role::Opening,
        "Half socket at the base line",
    ),
    Output::length(
        "half_socket_narrow",
        "y",
        Role::Opening,
        "Half socket at the end",
    ),
    Output::new(
        "layout",
        "",
        Kind::Lengths,
        Role::Place,
        "Marks on the base line from the edge: near and far side of each tail in turn",
    ),
    Output::new(
        "layout_end",
        "",
        Kind::Lengths,
        Role::Place,
        "Marks on the end from the edge: near and far side of each tail in turn",
    ),
];

/// Base line of the tails: with a lap the tails are as long as their sockets are deep, whatever
/// holds for the pins.
fn tail_length(given: &Given, offset: Length) -> Result<Length, Refusal> {
    let thickness = needed("thickness", given.length("thickness"))?;
    let lap = given.length("lap").unwrap_or(Length::ZERO);
    if lap >= thickness {
        return Err(Refusal::new(
            LAP_THICK,
            format!("lap {}", about(lap)),
            under(thickness),
            "Leave a thinner lap, or take a thicker front.",
        ));
    }
    Ok(match lap {
        Length::ZERO => thickness + offset,
        lap => thickness - lap,
    })
}

/// Refuses a base line that lies at the end or beyond.
fn refuse_base(offset: Length, shorter: Length) -> Result<(), Refusal> {
    if shorter > Length::ZERO {
        return Ok(());
    }
    Err(Refusal::new(
        BASE_GONE,
        format!("offset {}, base line under", about(-offset)),
        under(shorter - offset),
        "Give less offset.",
    ))
}

fn run(given: &Given) -> Result<Worked, Refusal> {
    let (angle, slope_note) = slope(given)?;
    let (offset, base_note) = base_line(given)?;
    let tail_length = tail_length(given, offset)?;
    let pin_line = given.length("side").map(|side| side + offset);
    refuse_base(offset, tail_length.min(pin_line.unwrap_or(tail_length)))?;
    let joint = Dovetails {
        width: needed("width", given.length("width"))?,
        tail_length,
        angle,
        tails: needed("tails", given.count("tails"))?,
        ratio: needed("ratio", given.number("ratio"))?,
    };
    let plan = joint.work_out(
        needed("kerf", given.length("kerf"))?,
        needed("half_least", given.length("half_least"))?,
    )?;
    let mut results = results(&plan);
    results.insert("angle", Value::Angle(angle));
    results.insert("tail_length", Value::Length(tail_length));
    results.extend(pin_line.map(|line| ("pin_line", Value::Length(line))));
    let lapped = given.length("lap").filter(|lap| *lap > Length::ZERO);
    let always = lapped
        .map(|_| LAPPED)
        .into_iter()
        .chain(NOTES.iter().copied());
    Ok(Worked {
        results,
        warnings: joint.warnings(&plan),
        notes: slope_note
            .into_iter()
            .chain([base_note])
            .chain(always.map(str::to_owned))
            .collect(),
    })
}

fn results(plan: &DovetailsPlan) -> BTreeMap<&'static str, Value> {
    let lengths = [
        ("socket_wide", plan.socket_wide),
        ("socket_narrow", plan.socket_narrow),
        ("tail_wide", plan.tail_wide),
        ("tail_narrow", plan.tail_narrow),
        ("half_socket_wide", plan.half_socket_wide()),
        ("half_socket_narrow", plan.half_socket_narrow()),
    ];
    let lengths = lengths.map(|(name, length)| (name, Value::Length(length)));
    let marks = [
        ("layout", Value::Lengths(plan.layout())),
        ("layout_end", Value::Lengths(plan.layout_end())),
    ];
    lengths.into_iter().chain(marks).collect()
}

const LAPPED: &str = "Lapped: the tails are as long as their sockets are deep; over or under holds \
                      for the base line of the pins only.";

const NOTES: &[&str] = &[
    "Scribe the second part from the first that was cut, and saw in the waste.",
    "Keep a groove for a bottom wholly inside one tail, so that it does not show (Noyes, p. 166; \
     Griffith, p. 107).",
    "Mark left and right parts as a pair (Noyes, p. 166).",
    "It goes together under light driving (Ross, p. 77).",
];
