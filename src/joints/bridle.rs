//! Bridle: the open slot in the end of one piece straddles a tongue left on another.
//!
//! Sketch: `SKETCH` below. Datums: thickness from the faces, which are flush; the slot's depth from
//! the end of the slotted piece.
//!
//! Derivation (`D`): slot m in the middle leaves cheeks f = (T - m)/2, the fence distance of a saw
//! that cuts the slot from both faces. The tongue is t = m - c, so the crossing piece is cut in by
//! s = (T - t)/2 from each face, over the width of the slotted piece. The slot is as deep as the
//! crossing piece is wide, and the ends are left e long.
//!
//! Limits: thirds; recess as wide as the slotted piece; ends at least 6 mm (1/4 in) long (Fairham
//! p. 39); waste bored with a bit about 3 mm (1/8 in) under the slot (Fairham p. 41). Cheeks no
//! thinner than a quarter of the stock (`CP`).
//!
//! Example (thirds, Fairham p. 39): T 18, crossing piece 50 wide: slot 6, cheeks 6, depth 56 mm.

use std::collections::BTreeMap;

use super::answer::needed;
use super::cheeks::{CLEARANCE, THIN_WALL, entering, thin_wall, third};
use super::figure::{about, under};
use super::fit::{Cause, HAND_PRESS, Slips};
use super::{Calculator, Fit, FitRule, Given, Input, Origin, Output, Refusal, Worked};
use crate::units::{Length, Role, Value};

const SKETCH: &str = r"
   slotted piece, from its edge              crossing piece, from its edge

     |<------ d ------>|
     +--------------------------  ^          -----+         +-----  ^
     |        f, cheek            |               |    s    |       |
     +-----------------+          |               +---------+       |
     |<- e ->|         |  m slot  T                 tongue, t       T
     +-----------------+          |               +---------+       |
     |        f                   |               |    s    |       |
     +--------------------------  v          -----+         +-----  v
                                                  |<-- r -->| as wide as W

   W: width of the slotted piece, V: of the crossing piece, d = V + e
   n: largest bit to bore the waste   c = m - t: clearance, plus is loose";

const NO_CHEEK: &str = "no cheeks stay beside the slot";
const NO_TONGUE: &str = "the clearance is as wide as the slot";

/// First words of the warning of a slot too narrow to bore.
const NO_BIT: &str = "Slot too narrow to bore its waste out";

/// Bit under the slot: Fairham p. 41.
const BIT_UNDER: Length = Length::nm(3_000_000);

/// The table entry.
pub(super) const CALCULATOR: Calculator = Calculator {
    name: "bridle",
    summary: "Slot, cheeks, tongue and recess of a bridle joint (slip joint)",
    family: "halvings and bridles",
    inputs: &[
        Input::length("stock", "T", ("3 mm", "100 mm"), "Thickness of both pieces"),
        Input::length(
            "width",
            "W",
            ("3 mm", "500 mm"),
            "Width of the slotted piece, measured",
        ),
        Input::length(
            "cross",
            "V",
            ("3 mm", "500 mm"),
            "Width of the crossing piece, measured",
        ),
        Input::length(
            "slot",
            "m",
            ("1 mm", "50 mm"),
            "Width of the slot, as it is cut",
        )
        .derived("a third of the stock"),
        CLEARANCE,
        Input::length(
            "trim",
            "e",
            ("0 mm", "50 mm"),
            "What the slotted end is left long, trimmed after gluing",
        )
        .usual("6 mm"),
    ],
    results: &[
        Output::length("slot", "m", Role::Opening, "Width of the slot"),
        Output::length(
            "cheek",
            "f",
            Role::LeavesOn,
            "Cheek beside the slot; fence to the near side of a saw that cuts the slot's wall",
        ),
        Output::length("slot_depth", "d", Role::LeavesOn, "Depth of the slot"),
        Output::length("thickness", "t", Role::Entering, "Thickness of the tongue"),
        Output::length(
            "shoulder",
            "s",
            Role::TakesOff,
            "What is cut off each face of the crossing piece; height of the cutter",
        ),
        Output::length(
            "recess",
            "r",
            Role::Opening,
            "Width of the recess in the crossing piece, each face",
        ),
        Output::length("bit_most", "n", Role::TakesOff, "Bit to bore the waste out"),
    ],
    one_of: &[],
    refuses: &[NO_CHEEK, NO_TONGUE],
    warns: &[THIN_WALL, NO_BIT],
    sketch: SKETCH,
    source: "Thirds, recess as wide as the slotted piece, ends 6 mm (1/4 in) long: Fairham, \
             Woodwork Joints, p. 39. Bit 3 mm (1/8 in) under the slot: Fairham, p. 41. Cheeks no \
             thinner than a quarter of the stock: common practice, no source. Settings derived, \
             as the sketch shows.",
    example: &[("stock", "18 mm"), ("width", "45 mm"), ("cross", "50 mm")],
    run,
    wants: None,
    fit: Some(FitRule {
        press: HAND_PRESS,
        of: fit,
    }),
};

/// What a bridle joint is worked out from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Bridle {
    /// Thickness of both pieces.
    pub stock: Length,
    /// Width of the slotted piece.
    pub width: Length,
    /// Width of the crossing piece.
    pub cross: Length,
    /// Width of the slot.
    pub slot: Length,
    /// Slot less tongue; plus is loose.
    pub clearance: Length,
    /// What the slotted end is left long.
    pub trim: Length,
}

/// Sizes of a bridle joint.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct BridlePlan {
    /// Thickness of each cheek beside the slot.
    pub cheek: Length,
    /// Depth of the slot from the end that is left long.
    pub slot_depth: Length,
    /// Thickness of the tongue.
    pub thickness: Length,
    /// What is cut off each face of the crossing piece.
    pub shoulder: Length,
    /// Width of the recess in the crossing piece.
    pub recess: Length,
    /// Largest bit to bore the waste; none in a slot too narrow for it.
    pub bit_most: Option<Length>,
}

impl Bridle {
    /// Works out the sizes.
    ///
    /// # Errors
    /// A refusal with figures when cheeks or tongue do not come out.
    pub fn work_out(&self) -> Result<BridlePlan, Refusal> {
        let thickness = entering(NO_TONGUE, self.slot, self.clearance)?;
        let slot_under = self.stock + self.clearance.min(Length::ZERO);
        if self.slot >= slot_under {
            return Err(Refusal::new(
                NO_CHEEK,
                format!("slot {}, stock {}", about(self.slot), about(self.stock)),
                format!("slot {}", under(slot_under)),
                "Cut a third of the stock, or take thicker stock.",
            ));
        }
        let bit_most = self.slot - BIT_UNDER;
        Ok(BridlePlan {
            cheek: (self.stock - self.slot).times(0.5),
            slot_depth: self.cross + self.trim,
            thickness,
            shoulder: (self.stock - thickness).times(0.5),
            recess: self.width,
            bit_most: (bit_most > Length::ZERO).then_some(bit_most),
        })
    }

    /// Tongue less slot, in mm: each as two cuts from both faces leave it.
    fn fit_mm(&self, plan: &BridlePlan, slips: &Slips) -> f64 {
        let crossing = self.stock.to_mm() + slips.stock;
        let slotted = self.stock.to_mm() + slips.mate;
        let tongue = crossing - 2.0 * (plan.shoulder.to_mm() + slips.exposure);
        let slot = slotted - 2.0 * (plan.cheek.to_mm() + slips.near);
        tongue - slot
    }
}

const CAUSES: &[Cause] = &[
    Cause(
        "crossing piece thicker than measured",
        Origin::Measuring,
        |slips| &mut slips.stock,
    ),
    Cause(
        "slotted piece thicker than measured",
        Origin::Measuring,
        |slips| &mut slips.mate,
    ),
    Cause(
        "crossing piece cut deeper, both faces",
        Origin::Height,
        |slips| &mut slips.exposure,
    ),
    Cause(
        "fence farther off for the slot, both faces cut",
        Origin::Fence,
        |slips| &mut slips.near,
    ),
];

fn read(given: &Given) -> Result<Bridle, Refusal> {
    let stock = needed("stock", given.length("stock"))?;
    Ok(Bridle {
        stock,
        width: needed("width", given.length("width"))?,
        cross: needed("cross", given.length("cross"))?,
        slot: given.length("slot").unwrap_or_else(|| third(stock)),
        clearance: needed("clearance", given.length("clearance"))?,
        trim: needed("trim", given.length("trim"))?,
    })
}

fn run(given: &Given) -> Result<Worked, Refusal> {
    let joint = read(given)?;
    let plan = joint.work_out()?;
    let lengths = [
        ("slot", Some(joint.slot)),
        ("cheek", Some(plan.cheek)),
        ("slot_depth", Some(plan.slot_depth)),
        ("thickness", Some(plan.thickness)),
        ("shoulder", Some(plan.shoulder)),
        ("recess", Some(plan.recess)),
        ("bit_most", plan.bit_most),
    ];
    let narrow = plan.bit_most.is_none().then(|| {
        format!(
            "{NO_BIT}: {}, and the bit is {} less; saw it.",
            about(joint.slot),
            about(BIT_UNDER)
        )
    });
    Ok(Worked {
        results: lengths
            .into_iter()
            .filter_map(|(name, length)| Some((name, Value::Length(length?))))
            .collect::<BTreeMap<_, _>>(),
        warnings: thin_wall(plan.cheek, joint.stock)
            .into_iter()
            .chain(narrow)
            .collect(),
        notes: NOTES.iter().map(|note| (*note).to_owned()).collect(),
    })
}

const NOTES: &[&str] = &[
    "Cut the slot first, measure it, and cut the tongue to it; both pieces come from one \
     thicknessing.",
    "A piece bridled at both ends is cut about 10 mm (3/8 in) over length (Fairham, p. 39).",
];

fn fit(given: &Given) -> Fit {
    let planned = read(given).and_then(|joint| Ok((joint, joint.work_out()?)));
    planned.map_or_else(
        |_| Fit::default(),
        |(joint, plan)| Fit::of(CAUSES, |slips| joint.fit_mm(&plan, slips)),
    )
}
