//! Dowels: how many stand along a joint, where, and how deep their holes are.
//!
//! Sketch: `SKETCH` below. Datum: one end of the joint, marked on both pieces; depths from the
//! meeting faces.
//!
//! Derivation (joinery 3.12): between the two outer dowels lie L - 2 a; the fewest equal steps of
//! at most p make n = ceil((L - 2 a) / p) + 1 dowels, (L - 2 a) / (n - 1) apart. Both holes
//! together are the dowel and the gap: half of that each, or one as deep as the wood allows and
//! the other the rest.
//!
//! Limits: diameter a third to half of the stock (`CP`); dowel 3 mm (1/8 in) shorter than the two
//! holes (excerpt of a Victorian handbook, taken to be Spons). Length from 22 mm (7/8 in, Fairham
//! p. 96) to 2 in, which two holes of 1 in take (Noyes p. 175, Griffith p. 93). In an edge joint
//! no farther than 12 in apart (the same excerpt). A floor of 3 mm under a hole: `CP`.
//!
//! Example (joinery 3.12): L 1200, a 50, p 150: 9 at 137.5 mm; dowel 40, gap 3: holes 21.5 mm.

use std::collections::BTreeMap;

use super::answer::needed;
use super::figure::{about, at_least, at_most, under};
use super::{Calculator, Given, Input, Output, Refusal, Worked};
use crate::units::{Kind, Length, Role, Value};

const SKETCH: &str = r"
   the joint along its length, n dowels of diameter d

     |<- a ->|<- q ->|<- q ->|<- a ->|   q: at most p
     +-------------------------------+   ^
     |       |       |       |       |   h    one piece
     |=======+=======+=======+=======|   v
     |       |       |       |       |   ^
     |       |       |       |       |   m    the other, M that way
     +-------------------------------+   v
     |<------------- L ------------->|   h + m = l, the dowel, and g, the gap
                                         T: thickness across the dowels";

const BEYOND: &str = "the first dowel lies beyond the middle";
const BREAKS_OUT: &str = "the first hole would break out at the end";
const TOUCH: &str = "the holes would run into each other";
const NO_WALL: &str = "the dowel is as thick as the stock";
const THROUGH: &str = "the hole would go through the stock";
const ONE_PIECE: &str = "the dowel would lie in one piece only";

/// First words of the warning of an unusual diameter.
const DIAMETER: &str = "Diameter outside a third to half of the stock";
/// First words of the warning of an unusual length.
const LENGTH: &str = "Dowel length outside 22 to 51 mm (7/8 to 2 in)";
/// First words of the warning of dowels far apart.
const APART: &str = "Dowels over 305 mm (12 in) apart";
/// First words of the warning of little wood under a hole.
const FLOOR: &str = "Under 3 mm (1/8 in) of wood below the hole";

const LENGTH_LEAST: Length = Length::nm(22_000_000);
const LENGTH_MOST: Length = Length::nm(50_800_000);
const PITCH_MOST: Length = Length::nm(304_800_000);
const FLOOR_LEAST: Length = Length::nm(3_000_000);
/// From here on two rows (Fairham p. 97): 2 in.
const TWO_ROWS: Length = Length::nm(50_800_000);

/// The table entry.
pub(super) const CALCULATOR: Calculator = Calculator {
    name: "dowels",
    summary: "Number, places and holes of the dowels along a joint",
    family: "edges and dowels",
    inputs: &[
        Input::length("length", "L", ("20 mm", "5000 mm"), "Length of the joint"),
        Input::length(
            "first",
            "a",
            ("3 mm", "2500 mm"),
            "From each end to the axis of its first dowel",
        ),
        Input::length(
            "pitch",
            "p",
            ("15 mm", "1000 mm"),
            "Largest distance from dowel to dowel",
        ),
        Input::length("dowel", "l", ("10 mm", "200 mm"), "Length of a dowel"),
        Input::length(
            "gap",
            "g",
            ("0.5 mm", "10 mm"),
            "What the dowel is shorter than its two holes together",
        )
        .usual("3 mm"),
        Input::length("diameter", "d", ("3 mm", "30 mm"), "Diameter of the dowels")
            .derived("not checked against stock, end and pitch"),
        Input::length(
            "stock",
            "T",
            ("6 mm", "200 mm"),
            "Thickness of the thinner piece, across the dowels",
        )
        .derived("diameter not checked against it"),
        Input::length(
            "mate",
            "M",
            ("3 mm", "200 mm"),
            "Wood of the other piece in the direction of its holes",
        )
        .derived("its holes not checked against it"),
        Input::length(
            "mate_hole",
            "m",
            ("2 mm", "200 mm"),
            "Depth of the holes in the other piece",
        )
        .derived("half of dowel and gap, as in the one"),
    ],
    results: &[
        Output::new("count", "n", Kind::Count, Role::Count, "Number of dowels"),
        Output::length("pitch", "q", Role::Place, "From dowel to dowel"),
        Output::new(
            "positions",
            "",
            Kind::Lengths,
            Role::Place,
            "From the end of the joint to the axis of each dowel",
        ),
        Output::length(
            "hole_depth",
            "h",
            Role::TakesOff,
            "Depth of the holes in the one piece",
        ),
        Output::length(
            "hole_mate",
            "m",
            Role::TakesOff,
            "Depth of the holes in the other piece",
        ),
    ],
    one_of: &[],
    refuses: &[BEYOND, BREAKS_OUT, TOUCH, NO_WALL, THROUGH, ONE_PIECE],
    warns: &[DIAMETER, LENGTH, APART, FLOOR],
    sketch: SKETCH,
    source: "Spacing derived, as the sketch shows. Dowel 3 mm (1/8 in) shorter than its holes, 3 to \
             12 in apart in an edge joint: Victorian handbook, read as an excerpt and taken from \
             memory to be Spons' Mechanics' Own Book (1885). Lengths: Fairham, Woodwork Joints, p. 96; \
             Noyes, Handwork in Wood (1910), p. 175; Griffith, Essentials of Woodworking (1908), \
             p. 93. Diameter a third to half of the stock, 3 mm below a hole: common practice, no \
             source.",
    example: &[
        ("length", "1200 mm"),
        ("first", "50 mm"),
        ("pitch", "150 mm"),
        ("dowel", "40 mm"),
        ("diameter", "8 mm"),
        ("stock", "22 mm"),
    ],
    run,
    wants: None,
    fit: None,
};

/// What a row of dowels is worked out from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Dowels {
    /// Length of the joint.
    pub length: Length,
    /// From each end to its first dowel.
    pub first: Length,
    /// Largest distance from dowel to dowel; over nothing.
    pub pitch: Length,
    /// Length of a dowel.
    pub dowel: Length,
    /// What a dowel is shorter than its two holes together.
    pub gap: Length,
    /// Diameter, when known.
    pub diameter: Option<Length>,
    /// Thickness of the thinner piece across the dowels, when known.
    pub stock: Option<Length>,
    /// Wood of the other piece in the direction of its holes, when known.
    pub mate: Option<Length>,
    /// Depth of the holes in the other piece, when it is not half.
    pub mate_hole: Option<Length>,
}

/// Places and holes of a row of dowels.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct DowelsPlan {
    /// From dowel to dowel.
    pub pitch: Length,
    /// From one end to the axis of each dowel.
    pub positions: Vec<Length>,
    /// Depth of the holes in the one piece.
    pub hole_depth: Length,
    /// Depth of the holes in the other piece.
    pub hole_mate: Length,
}

impl Dowels {
    /// Works out places and holes.
    ///
    /// # Errors
    /// A refusal with figures when the dowels or their holes do not find room.
    pub fn work_out(&self) -> Result<DowelsPlan, Refusal> {
        if self.first + self.first >= self.length {
            return Err(Refusal::new(
                BEYOND,
                format!("first {}", about(self.first)),
                format!("first {}", under(self.length.times(0.5))),
                "Set the first dowel nearer the end, or measure the joint again.",
            ));
        }
        let between = (self.length - self.first - self.first).to_nm();
        let most = self.pitch.to_nm().max(1);
        let steps = between / most + i64::from(between % most != 0);
        let pitch = Length::nm(between / steps);
        self.check_diameter(pitch)?;
        let (hole_depth, hole_mate) = self.holes()?;
        let at = |step: i64| self.first + Length::nm(between * step / steps);
        Ok(DowelsPlan {
            pitch,
            positions: (0..=steps).map(at).collect(),
            hole_depth,
            hole_mate,
        })
    }

    fn check_diameter(&self, pitch: Length) -> Result<(), Refusal> {
        let Some(diameter) = self.diameter else {
            return Ok(());
        };
        if diameter >= self.first + self.first {
            return Err(Refusal::new(
                BREAKS_OUT,
                format!("first {}", about(self.first)),
                format!("first over {}", about(diameter.times(0.5))),
                "Set the first dowel farther from the end, or take thinner dowels.",
            ));
        }
        if diameter >= pitch {
            return Err(Refusal::new(
                TOUCH,
                format!("pitch {}, worked out", about(pitch)),
                format!("pitch over {}", about(diameter)),
                "Take fewer dowels or thinner ones.",
            ));
        }
        match self.stock.filter(|stock| diameter >= *stock) {
            Some(stock) => Err(Refusal::new(
                NO_WALL,
                format!("diameter {}", about(diameter)),
                format!("diameter {}", at_most(stock.times(0.5))),
                "Take a dowel of a third to half of the stock.",
            )),
            None => Ok(()),
        }
    }

    /// Depths of the holes in the one piece and in the other.
    fn holes(&self) -> Result<(Length, Length), Refusal> {
        let both = self.dowel + self.gap;
        let mate_hole = self.mate_hole.unwrap_or_else(|| both.times(0.5));
        if mate_hole >= self.dowel || mate_hole <= self.gap {
            return Err(Refusal::new(
                ONE_PIECE,
                format!("mate_hole {}", about(mate_hole)),
                format!(
                    "mate_hole over {} and under {}",
                    about(self.gap),
                    about(self.dowel)
                ),
                "Bore nearer half of the dowel, or take a longer dowel.",
            ));
        }
        match self.mate.filter(|mate| mate_hole >= *mate) {
            Some(mate) => Err(Refusal::new(
                THROUGH,
                format!("hole {}, mate {}", about(mate_hole), about(mate)),
                format!("mate_hole {}", under(mate)),
                "Give a shallower mate_hole, so that the other hole takes the rest, or a shorter \
                 dowel.",
            )),
            None => Ok((both - mate_hole, mate_hole)),
        }
    }

    fn warnings(&self, plan: &DowelsPlan) -> Vec<String> {
        let unusual = |(diameter, stock): &(Length, Length)| {
            diameter.times(3.0) < *stock || diameter.times(2.0) > *stock
        };
        let diameter = self.diameter.zip(self.stock).filter(unusual);
        let diameter = diameter.map(|(diameter, stock)| {
            format!("{DIAMETER}: {} in {}.", about(diameter), about(stock))
        });
        let is_usual = (LENGTH_LEAST..=LENGTH_MOST).contains(&self.dowel);
        let length = (!is_usual).then(|| format!("{LENGTH}: {}.", about(self.dowel)));
        let apart = (plan.pitch > PITCH_MOST).then(|| {
            format!(
                "{APART}: {}; an edge joint needs more of them.",
                about(plan.pitch)
            )
        });
        let floor = self.mate.map(|mate| mate - plan.hole_mate);
        let floor = floor.filter(|floor| *floor < FLOOR_LEAST).map(|floor| {
            format!(
                "{FLOOR}: {}; better {}, and the bit's point goes deeper than its edge.",
                about(floor),
                at_least(FLOOR_LEAST)
            )
        });
        [diameter, length, apart, floor]
            .into_iter()
            .flatten()
            .collect()
    }
}

fn run(given: &Given) -> Result<Worked, Refusal> {
    let row = Dowels {
        length: needed("length", given.length("length"))?,
        first: needed("first", given.length("first"))?,
        pitch: needed("pitch", given.length("pitch"))?,
        dowel: needed("dowel", given.length("dowel"))?,
        gap: needed("gap", given.length("gap"))?,
        diameter: given.length("diameter"),
        stock: given.length("stock"),
        mate: given.length("mate"),
        mate_hole: given.length("mate_hole"),
    };
    let plan = row.work_out()?;
    let warnings = row.warnings(&plan);
    let two_rows = row.stock.is_some_and(|stock| stock >= TWO_ROWS);
    let notes = NOTES.iter().copied().chain(two_rows.then_some(ROWS));
    Ok(Worked {
        results: BTreeMap::from([
            ("count", Value::Count(plan.positions.len() as i64)),
            ("pitch", Value::Length(plan.pitch)),
            ("positions", Value::Lengths(plan.positions)),
            ("hole_depth", Value::Length(plan.hole_depth)),
            ("hole_mate", Value::Length(plan.hole_mate)),
        ]),
        warnings,
        notes: notes.map(str::to_owned).collect(),
    })
}

const ROWS: &str = "Stock of 2 in and more takes two rows of dowels (Fairham, p. 97).";

const NOTES: &[&str] = &[
    "Mark both pieces from the same end, and bore from the faces that end up flush.",
    "One groove along a dowel lets air and glue out (Fairham, p. 95; Noyes, p. 176; Griffith, \
     p. 93); each hole is slightly countersunk (Noyes, p. 175).",
];
