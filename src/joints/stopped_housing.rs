//! Stopped housing: open at the back edge of a panel, ending short of its front edge.
//!
//! Sketch: `SKETCH` below. Datums: `stop` is measured from the panel's front edge to the crown of
//! the housing's round end; stop distances run along the fence, from the face of the stop block to
//! the cutter's nearer edge, axis or farther edge.
//!
//! Derivation (`D`, joinery 3.6). The crown lies l = L - b from the open back edge, and in both
//! hands of a pair it is the back edge that meets the block: at the end of the cut when it leads,
//! at its start when it trails. The block's face is then l from the cutter's far edge, l - d from
//! its near edge, l - d/2 from its axis. A round end takes d/2 from the length of full width and
//! d/2 from the shelf's corner: notch b + d/2 + c - r, or b + c - r when the end is squared.
//!
//! Limits: the housing is no shorter than the cutter; the shelf's front stands at the crown or in
//! front of it, or the empty end would show. Clearance of the notch 0.5 to 0.8 mm or 1/32 in
//! (`CP`).
//!
//! Example (joinery 3.6): L 285, b 12, d 18, c 0.5 mm: near 255, far 273, axis 264, notch 21.5 mm.

use std::collections::BTreeMap;

use super::answer::needed;
use super::figure::{about, at_most};
use super::pass_plan::FEED;
use super::{Calculator, Given, Input, Output, Refusal, Wanted, Wants, Worked};
use crate::shop::Shape;
use crate::units::{Kind, Length, Role, Value};

const SKETCH: &str = r"
   panel, seen on the face with the housing
   back edge, open                               front edge
     |<---------------------- L --------------------->|
     |                                    |<--- b --->|
     |====================================)           |  d: cutter
     |<-------------- u ------------->|<->| d/2 of the round end
     |<---------------- F --------------->|    stop to the cutter's far edge
     |<------------- A ------------->|         stop to its axis
     |<---------- S --------->|                stop to its near edge

   shelf: its front r behind the panel's front; its corner notched N back from
   its front, c of that to spare";

const TOO_SHORT: &str = "the housing would be shorter than the cutter is wide";
const END_SHOWS: &str = "the shelf stands so far back that the housing's end would show";

/// The table entry.
pub(super) const CALCULATOR: Calculator = Calculator {
    name: "stopped-housing",
    summary: "Stop blocks and shelf notch for a housing that ends short of the front",
    family: "housings",
    inputs: &[
        Input::length(
            "panel",
            "L",
            ("20 mm", "3000 mm"),
            "Width of the panel, back to front edge",
        ),
        Input::length(
            "stop",
            "b",
            ("1 mm", "1000 mm"),
            "From the front edge to the housing's end",
        ),
        Input::length(
            "cutter",
            "d",
            ("1 mm", "100 mm"),
            "Diameter of the straight cutter",
        ),
        Input::length(
            "set_back",
            "r",
            ("0 mm", "1000 mm"),
            "Shelf's front behind the panel's front",
        )
        .usual("0 mm"),
        Input::length(
            "ends",
            "",
            ("round | square", ""),
            "End left round, or chopped square",
        )
        .kind(Kind::Choice)
        .usual("round"),
        Input::length(
            "clearance",
            "c",
            ("0 mm", "5 mm"),
            "Room between notch and housing's end",
        )
        .usual("0.5 mm"),
    ],
    results: &[
        Output::length(
            "length",
            "u",
            Role::Opening,
            "Length of full width, from the back edge",
        ),
        Output::length(
            "stop_near",
            "S",
            Role::TakesOff,
            "Stop block to the cutter's near edge",
        ),
        Output::length(
            "stop_far",
            "F",
            Role::TakesOff,
            "Stop block to the cutter's far edge",
        ),
        Output::length(
            "stop_axis",
            "A",
            Role::TakesOff,
            "Stop block to the cutter's axis",
        ),
        Output::length(
            "notch_width",
            "N",
            Role::LeavesOn,
            "Notch in the shelf, from its front",
        ),
    ],
    one_of: &[],
    refuses: &[TOO_SHORT, END_SHOWS],
    warns: &[],
    sketch: SKETCH,
    source: "Geometry derived, as the sketch shows. Shelf notched so that the fronts finish \
             flush: Noyes, Handwork in Wood (1910), pp. 159, 205. Clearance of the notch 0.5 to \
             0.8 mm (1/32 in): common practice, no source. Starting and ending at blocks: \
             workshop practice.",
    example: &[("panel", "285 mm"), ("stop", "12 mm"), ("cutter", "18 mm")],
    run,
    wants: Some(Wants {
        cutters: &[Wanted {
            shape: Shape::Straight,
            size: "cutter",
            angle: None,
        }],
        reach: "",
        passes: &[],
    }),
    fit: None,
};

/// How the stopped end of a housing is left.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum End {
    /// As the cutter leaves it.
    Round,
    /// Chopped square to the crown.
    Square,
}

/// What a stopped housing is worked out from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct StoppedHousing {
    /// Width of the panel, back to front edge.
    pub panel: Length,
    /// From the panel's front edge to the crown of the housing's end.
    pub stop: Length,
    /// Diameter of the cutter.
    pub cutter: Length,
    /// How far the shelf's front lies behind the panel's front.
    pub set_back: Length,
    /// How the end is left.
    pub end: End,
    /// Room between the shelf's notch and the end of the housing.
    pub clearance: Length,
}

/// Stop distances and notch of a stopped housing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct StoppedHousingPlan {
    /// Length of full width from the back edge.
    pub length: Length,
    /// Stop block to the near edge of the cutter.
    pub stop_near: Length,
    /// Stop block to the far edge of the cutter.
    pub stop_far: Length,
    /// Stop block to the cutter's axis.
    pub stop_axis: Length,
    /// Width of the notch in the shelf's front corner.
    pub notch_width: Length,
}

impl StoppedHousing {
    /// Works out stops and notch.
    ///
    /// # Errors
    /// A refusal with figures when the housing is too short or its end would show.
    pub fn work_out(&self) -> Result<StoppedHousingPlan, Refusal> {
        let to_crown = self.panel - self.stop;
        if to_crown < self.cutter {
            return Err(Refusal::new(
                TOO_SHORT,
                format!("stop {}, cutter {}", about(self.stop), about(self.cutter)),
                format!("stop {} in this panel", at_most(self.panel - self.cutter)),
                "Stop the housing nearer the front edge, or take a smaller cutter.",
            ));
        }
        if self.set_back > self.stop {
            return Err(Refusal::new(
                END_SHOWS,
                format!("set_back {}", about(self.set_back)),
                at_most(self.stop),
                "Bring the shelf forward, or stop the housing farther from the front edge.",
            ));
        }
        let half = self.cutter.times(0.5);
        let round = match self.end {
            End::Round => half,
            End::Square => Length::ZERO,
        };
        Ok(StoppedHousingPlan {
            length: to_crown - round,
            stop_near: to_crown - self.cutter,
            stop_far: to_crown,
            stop_axis: to_crown - half,
            notch_width: self.stop + round + self.clearance - self.set_back,
        })
    }
}

fn run(given: &Given) -> Result<Worked, Refusal> {
    let end = match given.choice("ends") {
        Some("square") => End::Square,
        _ => End::Round,
    };
    let plan = StoppedHousing {
        panel: needed("panel", given.length("panel"))?,
        stop: needed("stop", given.length("stop"))?,
        cutter: needed("cutter", given.length("cutter"))?,
        set_back: needed("set_back", given.length("set_back"))?,
        end,
        clearance: needed("clearance", given.length("clearance"))?,
    }
    .work_out()?;
    let results = [
        ("length", plan.length),
        ("stop_near", plan.stop_near),
        ("stop_far", plan.stop_far),
        ("stop_axis", plan.stop_axis),
        ("notch_width", plan.notch_width),
    ];
    Ok(Worked {
        results: BTreeMap::from(results.map(|(name, length)| (name, Value::Length(length)))),
        warnings: Vec::new(),
        notes: NOTES.iter().map(|note| (*note).to_owned()).collect(),
    })
}

const NOTES: &[&str] = &[
    FEED,
    "Both parts of a pair take the same distances, mirrored, and the open back edge meets the \
     block in both; they are cut with the same end of the panel against the fence.",
    "One hand, the open end leads: block on the outfeed side, left of the cutter, its face \
     at its distance from the cutter's near edge. Feed until the back edge meets the block; \
     switch off, wait until the cutter stands, then lift the panel.",
    "The other hand, dropped on: block on the infeed side, right of the cutter, at the same \
     distance. Hold the trailing back edge against the block, lower the panel on to the turning \
     cutter, then feed left until the cutter has run out of the back edge.",
    "Prefer the hand in which the open end leads, or a plunge router, where the work allows it; \
     dropping on needs the block clamped and the panel firmly against it.",
];
