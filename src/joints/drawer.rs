//! Drawer: front, sides, back and bottom for an opening.
//!
//! Sketch: `SKETCH` below. Datums: the opening's walls, the lower edges of the parts, the face of
//! the front. Derivation: `drawer_sizes.rs`.
//!
//! Limits: sides 1/2 in shorter than the inside depth, back 1 in narrower than the front (excerpt of
//! a Victorian handbook, taken to be Spons); lap 6 mm, 1/4 in (Fairham p. 136); bottom groove 1/4 in
//! wide, bottom fixed at the front only (Noyes p. 191); groove up to half of its part: `CP`.
//! The sources disagree on the play: a little all round (Noyes p. 191); 1/8 in in all across one
//! set of small drawers (Foster, excerpt); 1/32 in a side and 1/16 in in height for fitted drawers
//! of solid wood (`CP`). So a rule is named, or both figures are given.
//!
//! Example (derived by hand): 400 x 120 x 450, play 2 and 2, front 19, sides 10, back 10, lap 6,
//! short 12.7: front 398 x 118, sides 437.3, back through the sides 398 long.

use std::collections::BTreeMap;

use super::answer::needed;
use super::drawer_sizes::{
    DRAGS, LET_IN, NO_BACK, NO_DEPTH, NO_INSIDE, NO_JOINT, SLIPS_OUT, STANDS_OUT, THROUGH,
};
use super::figure::about;
use super::{
    Calculator, Drawer, DrawerPlan, FrontCorner, Given, Input, Output, Play, Refusal, Worked,
};
use crate::units::{Kind, Length, Role, Value};

const SKETCH: &str = r"
   from above; opening W x H, D deep         a side, seen from inside

   |<------------- W ------------->|         +--------------------------+  ^
      +-------------------------+      ^     |                     | i  |  |
      |          front          | f    |     |                     +--+ |  |
      |   +-----------------+   |      |     |                     |  | |  E
      | t |<-- between ---->| t |      D     |                     | k| |  |
      |   |      sides      |   |      |     +---------------------+--+-+  |
      +---+-----------------+---+      |     |  groove, j wide, g deep  |  |
      |<----------- B --------->|      v     +--------------------------+  v
        play x across, y in height           u: up to it  b: bottom  v: its play

   e: sides z short of D   q: lap left of the front before their ends
   r: the back lies so deep in each side, m from their rear ends
   i: its drop   k: its height   a: back, thick   c: back, long
   l: bottom from side to side   s: from front to rear
   h, E: height of front and sides   n, o: between sides, between front and back";

/// First words of the warning of a deep groove.
const DEEP: &str = "Groove over half of its part";
/// First words of the warning of a thin lap.
const THIN_LAP: &str = "Lap under 6 mm (1/4 in)";

const LAP_LEAST: Length = Length::nm(6_000_000);
const EIGHTH: Length = Length::nm(3_175_000);
const SIXTEENTH: Length = Length::nm(1_587_500);

const WIDTH: Input = Input::length(
    "width",
    "W",
    ("40 mm", "2000 mm"),
    "Opening, from side to side",
);

const HEIGHT: Input = Input::length("height", "H", ("20 mm", "1000 mm"), "Opening, in height");

const DEPTH: Input = Input::length(
    "depth",
    "D",
    ("50 mm", "1500 mm"),
    "Opening, from its front edge to what stops the drawer",
);

const FRONT: Input = Input::length("front", "f", ("4 mm", "60 mm"), "Thickness of the front");

const SIDE: Input = Input::length("side", "t", ("3 mm", "40 mm"), "Thickness of each side");

const BACK: Input = Input::length("back", "a", ("3 mm", "40 mm"), "Thickness of the back")
    .derived("as thick as the sides");

const BOTTOM: Input = Input::length("bottom", "b", ("2 mm", "40 mm"), "Thickness of the bottom");

const PLAY: Input = Input::length(
    "play",
    "",
    ("small-set | fitted", ""),
    "What the drawer is smaller: 1/8 in in all across (Foster, a set of small drawers), or \
         1/32 in a side and 1/16 in in height (common practice, fitted solid wood)",
)
.kind(Kind::Choice)
.derived("play_width and play_height are given");

const PLAY_WIDTH: Input = Input::length(
    "play_width",
    "x",
    ("0 mm", "40 mm"),
    "What the drawer is narrower than the opening, both sides together",
)
.derived("by the rule of play");

const PLAY_HEIGHT: Input = Input::length(
    "play_height",
    "y",
    ("0 mm", "40 mm"),
    "What the drawer is lower than the opening",
)
.derived("by the rule of play");

const JOINT: Input = Input::length(
    "joint",
    "",
    ("through-dovetail | comb | lapped-dovetail | rebate", ""),
    "How front and sides are joined",
)
.kind(Kind::Choice);

const LAP: Input = Input::length(
    "lap",
    "q",
    ("1 mm", "40 mm"),
    "Wood of the front before the sides' ends, for a lapped dovetail or a rebate",
)
.usual("6 mm");

const SHORT: Input = Input::length(
    "short",
    "z",
    ("0 mm", "100 mm"),
    "What the sides are shorter than the opening is deep",
)
.usual("1/2 in");

const GROOVE: Input = Input::length(
    "groove",
    "g",
    ("1 mm", "20 mm"),
    "Depth of the groove for the bottom, in sides and front",
);

const GROOVE_WIDTH: Input = Input::length(
    "groove_width",
    "j",
    ("1 mm", "40 mm"),
    "Width of the groove",
)
.derived("as wide as the bottom is thick");

const GROOVE_UP: Input = Input::length(
    "groove_up",
    "u",
    ("1 mm", "100 mm"),
    "From the lower edges to the groove's lower wall",
);

const BOTTOM_PLAY: Input = Input::length(
    "bottom_play",
    "v",
    ("0 mm", "10 mm"),
    "What the bottom is smaller than from groove to groove, side to side",
)
.usual("0.4 mm");

const BACK_LET: Input = Input::length(
    "back_let",
    "r",
    ("0 mm", "40 mm"),
    "How deep the back lies in each side: its housing's depth, or the side's thickness for a \
         through dovetail",
);

const BACK_IN: Input = Input::length(
    "back_in",
    "m",
    ("0 mm", "200 mm"),
    "From the sides' rear ends to the back's rear face",
)
.usual("0 mm");

const BACK_DROP: Input = Input::length(
    "back_drop",
    "i",
    ("0 mm", "200 mm"),
    "The back's upper edge below that of the sides",
)
.usual("0 mm");

/// The table entry.
pub(super) const CALCULATOR: Calculator = Calculator {
    name: "drawer",
    summary: "Sizes of a drawer's front, sides, back and bottom for an opening",
    family: "part sizes",
    inputs: &[
        WIDTH,
        HEIGHT,
        DEPTH,
        FRONT,
        SIDE,
        BACK,
        BOTTOM,
        PLAY,
        PLAY_WIDTH,
        PLAY_HEIGHT,
        JOINT,
        LAP,
        SHORT,
        GROOVE,
        GROOVE_WIDTH,
        GROOVE_UP,
        BOTTOM_PLAY,
        BACK_LET,
        BACK_IN,
        BACK_DROP,
    ],
    results: &[
        Output::length("front_length", "B", Role::Entering, "Front from end to end"),
        Output::length("front_height", "h", Role::Entering, "Height of the front"),
        Output::length(
            "side_length",
            "e",
            Role::LeavesOn,
            "Side from end to end, tails or fingers included",
        ),
        Output::length("side_height", "h", Role::Entering, "Height of the sides"),
        Output::length(
            "back_length",
            "c",
            Role::Entering,
            "Back from end to end, what lies in the sides included",
        ),
        Output::length("back_height", "k", Role::LeavesOn, "Height of the back"),
        Output::length(
            "bottom_length",
            "l",
            Role::Entering,
            "Bottom from side to side, along its grain",
        ),
        Output::length(
            "bottom_width",
            "s",
            Role::LeavesOn,
            "Bottom from front to rear, across its grain, flush with the back",
        ),
        Output::length("inside_width", "n", Role::Place, "Between the sides"),
        Output::length("inside_depth", "o", Role::Place, "Between front and back"),
    ],
    one_of: &[&["play"], &["play_width", "play_height"]],
    refuses: &[
        NO_INSIDE, NO_DEPTH, NO_BACK, NO_JOINT, STANDS_OUT, THROUGH, LET_IN, DRAGS, SLIPS_OUT,
    ],
    warns: &[DEEP, THIN_LAP],
    sketch: SKETCH,
    source: "Sizes derived, as the sketch shows. Play, where the sources disagree: 1/8 in in all across \
             a set of small drawers (Foster, Carpentry and Woodwork, read as an excerpt; year 1911 \
             from memory); 1/32 in a side and 1/16 in in height (common practice, no source). Sides \
             1/2 in shorter than the inside: Victorian handbook, read as an excerpt and taken from \
             memory to be Spons' Mechanics' Own Book (1885). Lap: Fairham, Woodwork Joints, p. 136. \
             Bottom: Noyes, Handwork in Wood (1910), pp. 191-192; Griffith, Essentials of \
             Woodworking (1908), pp. 107-109. Play of the bottom 0.4 mm (1/64 in), groove up to half \
             of its part: common practice, no source.",
    example: &[
        ("width", "400 mm"),
        ("height", "120 mm"),
        ("depth", "450 mm"),
        ("front", "19 mm"),
        ("side", "10 mm"),
        ("bottom", "6 mm"),
        ("play", "fitted"),
        ("joint", "lapped-dovetail"),
        ("groove", "5 mm"),
        ("groove_up", "10 mm"),
        ("back_let", "10 mm"),
    ],
    run,
    wants: None,
    fit: None,
};

/// The play, and where its figures are from.
fn play(given: &Given) -> Result<(Play, &'static str), Refusal> {
    let of = |width, height| Play { width, height };
    Ok(match given.choice("play") {
        Some("fitted") => (of(SIXTEENTH, SIXTEENTH), FITTED),
        Some(_) => (of(EIGHTH, SIXTEENTH), SMALL_SET),
        None => {
            let width = needed("play_width", given.length("play_width"))?;
            let height = needed("play_height", given.length("play_height"))?;
            (of(width, height), "Play as given.")
        }
    })
}

fn read(given: &Given, play: Play) -> Result<Drawer, Refusal> {
    let must = |name| needed(name, given.length(name));
    let (side, bottom) = (must("side")?, must("bottom")?);
    Ok(Drawer {
        width: must("width")?,
        height: must("height")?,
        depth: must("depth")?,
        play,
        short: must("short")?,
        front: must("front")?,
        side,
        back: given.length("back").unwrap_or(side),
        bottom,
        corner: match needed("joint", given.choice("joint"))? {
            "lapped-dovetail" | "rebate" => FrontCorner::Lapped(must("lap")?),
            _ => FrontCorner::Through,
        },
        groove: must("groove")?,
        groove_width: given.length("groove_width").unwrap_or(bottom),
        groove_up: must("groove_up")?,
        bottom_play: must("bottom_play")?,
        back_let: must("back_let")?,
        back_in: must("back_in")?,
        back_drop: must("back_drop")?,
    })
}

fn warnings(drawer: &Drawer) -> Vec<String> {
    let thinnest = drawer.side.min(drawer.front);
    let deep = (drawer.groove + drawer.groove > thinnest).then(|| {
        format!(
            "{DEEP}: {} in {}; grooved slips glued to thin sides keep them whole.",
            about(drawer.groove),
            about(thinnest)
        )
    });
    let thin = match drawer.corner {
        FrontCorner::Lapped(lap) if lap < LAP_LEAST => Some(format!("{THIN_LAP}: {}.", about(lap))),
        _ => None,
    };
    deep.into_iter().chain(thin).collect()
}

fn results(plan: &DrawerPlan) -> BTreeMap<&'static str, Value> {
    let results = [
        ("front_length", plan.front_length),
        ("front_height", plan.front_height),
        ("side_length", plan.side_length),
        ("side_height", plan.front_height),
        ("back_length", plan.back_length),
        ("back_height", plan.back_height),
        ("bottom_length", plan.bottom_length),
        ("bottom_width", plan.bottom_width),
        ("inside_width", plan.inside_width),
        ("inside_depth", plan.inside_depth),
    ];
    BTreeMap::from(results.map(|(name, length)| (name, Value::Length(length))))
}

fn run(given: &Given) -> Result<Worked, Refusal> {
    let (play, from) = play(given)?;
    let drawer = read(given, play)?;
    let plan = drawer.work_out()?;
    let corner = match drawer.corner {
        FrontCorner::Through => "The sides run to the face of the front: no lap is reckoned with.",
        FrontCorner::Lapped(_) => "The lap covers the sides' ends.",
    };
    let notes = [from, corner].into_iter().chain(NOTES.iter().copied());
    Ok(Worked {
        results: results(&plan),
        warnings: warnings(&drawer),
        notes: notes.map(str::to_owned).collect(),
    })
}

const FITTED: &str = "Play 1/32 in a side and 1/16 in in height: common practice for fitted drawers of \
                      solid wood, no source; a set of small drawers has 1/8 in in all across (Foster).";
const SMALL_SET: &str = "Play 1/8 in in all across: Foster, for a set of small drawers. The excerpt \
                         has none in height, so that 1/16 in is taken: common practice, no source.";

const NOTES: &[&str] = &[
    "Fit the front and the sides to the opening before the joints are cut: the sizes are rounded up, \
     to be planed.",
    "The bottom's grain runs from side to side; glue or nail it at the front only, and leave it free at \
     the back, screws in slots (Noyes, pp. 191-192; Griffith, p. 109; Fairham, p. 188). How much it \
     moves from front to rear: `movement`.",
    "One source makes the back 25 mm (1 in) narrower than the front (Victorian handbook, excerpt).",
];
