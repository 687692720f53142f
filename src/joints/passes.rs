//! How many steps to a depth, and the cutter's height at each.
//!
//! Sketch: `SKETCH` below. Datum: heights from the table, or depths from the face of the work.
//!
//! Derivation: n = ceil(h / m), all steps equal, so the height at step j is h j/n; the last is h
//! itself. The most per step m is half the cutter's diameter (`CP`, joinery 3.5; no source was
//! found), a third in hard wood (`M`, no source), or what is given. Several light passes: safety
//! RT-20 (practice).
//!
//! Limits: a step is no deeper than the cutter is wide (`CP`).
//!
//! Example: h 9.5 mm, d 12 mm: m 6 mm, 2 steps, heights 4.75 and 9.5 mm.

use std::collections::BTreeMap;

use super::answer::needed;
use super::figure::{about, at_least, at_most};
use super::pass_plan::PASSES_MOST;
use super::{Calculator, Given, Input, Output, Refusal, Wanted, Wants, Worked};
use crate::shop::Shape;
use crate::units::{Kind, Length, Role, Value};

const SKETCH: &str = r"
   ------+          +------ face    d: the cutter's diameter
         |..........|  ^            m: most a step
         |..........|  h            n: steps, each h / n deep
         +----------+  v
         |<-- d --->|";

const STEP_DEEP: &str = "a step is deeper than the cutter is wide";
const MANY_STEPS: &str = "the depth takes too many steps";

/// The table entry.
pub(super) const CALCULATOR: Calculator = Calculator {
    name: "passes",
    summary: "Steps to a depth, and the cutter's height at each",
    family: "machine",
    inputs: &[
        Input::length("depth", "h", ("0.1 mm", "150 mm"), "Full depth of the cut"),
        Input::length("cutter", "d", ("1 mm", "100 mm"), "Diameter of the cutter"),
        Input::length("wood", "", ("soft | hard", ""), "What is cut")
            .kind(Kind::Choice)
            .derived("most is half the cutter's diameter, as in soft wood"),
        Input::length(
            "most",
            "m",
            ("0.1 mm", "50 mm"),
            "Most that one step takes off",
        )
        .derived("half the cutter's diameter, a third in hard wood"),
    ],
    results: &[
        Output::new(
            "count",
            "n",
            Kind::Count,
            Role::Count,
            "Steps to the full depth",
        ),
        Output::new(
            "depths",
            "",
            Kind::Lengths,
            Role::TakesOff,
            "Cutter's height at each step",
        ),
    ],
    one_of: &[],
    refuses: &[STEP_DEEP, MANY_STEPS],
    warns: &[],
    sketch: SKETCH,
    source: "Half the cutter's diameter a step: common practice, no source. A third in hard \
             wood: from memory, no source. Several light passes: workshop practice.",
    example: &[("depth", "9.5 mm"), ("cutter", "12 mm")],
    run,
    wants: Some(Wants {
        cutters: &[Wanted {
            shape: Shape::Straight,
            size: "cutter",
            angle: None,
        }],
        reach: "depth",
        passes: &["count"],
    }),
    fit: None,
};

/// What is cut.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Wood {
    /// Soft wood: half the cutter's diameter a step.
    Soft,
    /// Hard wood: a third.
    Hard,
}

/// What the steps to a depth are worked out from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct DepthPasses {
    /// Full depth.
    pub depth: Length,
    /// Diameter of the cutter.
    pub cutter: Length,
    /// What is cut.
    pub wood: Wood,
    /// Most that one step takes off, when the shop knows it.
    pub most: Option<Length>,
}

impl DepthPasses {
    /// The cutter's height at each step, the last being the full depth.
    ///
    /// # Errors
    /// A refusal with figures when a step would be too deep or there would be too many.
    pub fn work_out(&self) -> Result<Vec<Length>, Refusal> {
        if let Some(most) = self.most.filter(|most| *most > self.cutter) {
            return Err(Refusal::new(
                STEP_DEEP,
                format!("most {}", about(most)),
                at_most(self.cutter),
                "Take less a step.",
            ));
        }
        let count = match (self.most, self.wood) {
            (Some(most), _) => steps(self.depth, most.to_nm(), 1),
            (None, Wood::Soft) => steps_of_half(self.depth, self.cutter),
            (None, Wood::Hard) => steps(self.depth, self.cutter.to_nm(), 3),
        };
        if count > PASSES_MOST {
            return Err(self.many(count));
        }
        let depth = self.depth.to_nm();
        Ok((1..=count)
            .map(|step| Length::nm(depth * step / count))
            .collect())
    }

    fn many(&self, count: i64) -> Refusal {
        let least = Length::nm(self.depth.to_nm() / PASSES_MOST + 1);
        Refusal::new(
            MANY_STEPS,
            format!("depth {} in {count} steps", about(self.depth)),
            format!("{PASSES_MOST} steps, most {}", at_least(least)),
            "Take more a step, a wider cutter, or less depth.",
        )
    }
}

/// How many equal steps of at most `numerator / parts` nanometres make up a depth; at least one.
fn steps(depth: Length, numerator_nm: i64, parts: i64) -> i64 {
    let (depth, most) = (depth.to_nm() * parts, numerator_nm.max(1));
    (depth / most + i64::from(depth % most != 0)).max(1)
}

/// How many steps of at most half the cutter's diameter make up a depth; at least one.
pub(super) fn steps_of_half(depth: Length, cutter: Length) -> i64 {
    steps(depth, cutter.to_nm(), 2)
}

fn run(given: &Given) -> Result<Worked, Refusal> {
    let hard = given.choice("wood") == Some("hard");
    let heights = DepthPasses {
        depth: needed("depth", given.length("depth"))?,
        cutter: needed("cutter", given.length("cutter"))?,
        wood: if hard { Wood::Hard } else { Wood::Soft },
        most: given.length("most"),
    }
    .work_out()?;
    let note = match (given.length("most"), hard) {
        (Some(_), _) => None,
        (None, false) => Some("Most a step was not given: half the cutter's diameter."),
        (None, true) => Some("Most a step was not given: a third of the cutter's diameter."),
    };
    Ok(Worked {
        results: BTreeMap::from([
            ("count", Value::Count(heights.len() as i64)),
            ("depths", Value::Lengths(heights)),
        ]),
        warnings: Vec::new(),
        notes: note.map(str::to_owned).into_iter().collect(),
    })
}
