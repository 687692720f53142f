//! Rebate: a step along the edge or the end of a board, into which another board's edge lies.
//!
//! Sketch: `SKETCH` below. Datums: width from the edge or end that is cut, depth from the face that
//! is cut.
//!
//! Derivation (`D`): the width is the thickness of what lies in the rebate, measured, and what is
//! trimmed flush after gluing; the lip is what stays under the rebate.
//!
//! Limits: marked at the mate's thickness (Griffith p. 107). Depth half to two thirds of the
//! stock, a lip of 6 mm (1/4 in), 0.5 to 1 mm (1/64 to 1/32 in) to trim (`CP`, joinery 2.5). Where
//! no depth is given it is half: the smaller of the two leaves wood on.
//!
//! Example (derived by hand): stock 18, mate 15, trim 0.5 mm: width 15.5, depth 9, lip 9 mm.

use std::collections::BTreeMap;

use super::answer::needed;
use super::figure::{about, at_least, under};
use super::{Calculator, Given, Input, Output, Refusal, Worked};
use crate::units::{Length, Role, Value};

const SKETCH: &str = r"
   seen from the end; what lies in the rebate is t thick, e of w trimmed flush

     |<--- w --->|
                 +------------------ face     ^     ^
                 |                            |     h
     +-----------+                            T     v
     |             lip                        |     q
     +------------------------------          v     v";

const NO_LIP: &str = "the rebate is as deep as the stock is thick";

/// First words of the warning of a thin lip.
const THIN_LIP: &str = "Lip under 6 mm (1/4 in)";
/// First words of the warning of an unusual depth.
const UNUSUAL: &str = "Depth outside half to two thirds of the stock";

const LIP_LEAST: Length = Length::nm(6_000_000);

/// The table entry.
pub(super) const CALCULATOR: Calculator = Calculator {
    name: "rebate",
    summary: "Width, depth and lip of a rebate (rabbet) for a board of known thickness",
    family: "rebates and tongues",
    inputs: &[
        Input::length(
            "stock",
            "T",
            ("3 mm", "100 mm"),
            "Thickness of the board that is rebated",
        ),
        Input::length(
            "mate",
            "t",
            ("1 mm", "100 mm"),
            "Thickness of what lies in the rebate, measured",
        ),
        Input::length(
            "trim",
            "e",
            ("0 mm", "5 mm"),
            "Added to the width, planed flush after gluing",
        )
        .usual("0.5 mm"),
        Input::length("depth", "h", ("0.5 mm", "100 mm"), "Depth of the rebate")
            .derived("half of the stock"),
    ],
    results: &[
        Output::length(
            "width",
            "w",
            Role::TakesOff,
            "From the edge to the rebate's wall; how far the cutter stands out of the fence",
        ),
        Output::length(
            "depth",
            "h",
            Role::TakesOff,
            "From the face to the rebate's floor; the height of the cutter, face down",
        ),
        Output::length("lip", "q", Role::LeavesOn, "What stays under the rebate"),
    ],
    one_of: &[],
    refuses: &[NO_LIP],
    warns: &[THIN_LIP, UNUSUAL],
    sketch: SKETCH,
    source: "Width from the thickness of what lies in it: Griffith, Essentials of Woodworking \
             (1908), p. 107. Depth half to two thirds of the stock, lip 6 mm (1/4 in), 0.5 to \
             1 mm (1/64 to 1/32 in) to trim: common practice, no source.",
    example: &[("stock", "18 mm"), ("mate", "15 mm")],
    run,
    wants: None,
    fit: None,
};

/// What a rebate is worked out from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Rebate {
    /// Thickness of the board that is rebated.
    pub stock: Length,
    /// Thickness of what lies in the rebate.
    pub mate: Length,
    /// Added to the width, planed flush after gluing.
    pub trim: Length,
    /// Depth of the rebate.
    pub depth: Length,
}

/// Sizes of a rebate.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct RebatePlan {
    /// From the edge to the wall.
    pub width: Length,
    /// From the face to the floor.
    pub depth: Length,
    /// What stays under the rebate.
    pub lip: Length,
}

impl Rebate {
    /// Works out the sizes.
    ///
    /// # Errors
    /// A refusal with figures when nothing stays under the rebate.
    pub fn work_out(&self) -> Result<RebatePlan, Refusal> {
        if self.depth >= self.stock {
            return Err(Refusal::new(
                NO_LIP,
                format!("depth {}, stock {}", about(self.depth), about(self.stock)),
                format!("depth {}", under(self.stock)),
                "Cut half to two thirds of the stock, or take thicker stock.",
            ));
        }
        Ok(RebatePlan {
            width: self.mate + self.trim,
            depth: self.depth,
            lip: self.stock - self.depth,
        })
    }

    fn warnings(&self, plan: &RebatePlan) -> Vec<String> {
        let thin = (plan.lip < LIP_LEAST).then(|| {
            format!(
                "{THIN_LIP}: {}; better {}.",
                about(plan.lip),
                at_least(LIP_LEAST)
            )
        });
        let shallow = plan.depth + plan.depth < self.stock;
        let deep = plan.depth.times(3.0) > self.stock.times(2.0);
        let unusual = (shallow || deep)
            .then(|| format!("{UNUSUAL}: {} of {}.", about(plan.depth), about(self.stock)));
        [thin, unusual].into_iter().flatten().collect()
    }
}

fn run(given: &Given) -> Result<Worked, Refusal> {
    let stock = needed("stock", given.length("stock"))?;
    let joint = Rebate {
        stock,
        mate: needed("mate", given.length("mate"))?,
        trim: needed("trim", given.length("trim"))?,
        // Half, up to the next nanometre: rounded to nearest it might count as too shallow.
        depth: given
            .length("depth")
            .unwrap_or_else(|| stock - Length::nm(stock.to_nm() / 2)),
    };
    let plan = joint.work_out()?;
    let results = [
        ("width", plan.width),
        ("depth", plan.depth),
        ("lip", plan.lip),
    ];
    Ok(Worked {
        results: BTreeMap::from(results.map(|(name, length)| (name, Value::Length(length)))),
        warnings: joint.warnings(&plan),
        notes: NOTES.iter().map(|note| (*note).to_owned()).collect(),
    })
}

const NOTES: &[&str] = &[
    "Bury the cutter in a false fence so that it stands out by the width; take the last cut with \
     the whole of the work down on the table.",
    "In a corner of carcase or drawer, nail through the side into the front, not the other way \
     (Griffith, p. 107).",
];
