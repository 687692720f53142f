//! The speed to set: the smallest of what the cutter, the rim limit and the machine allow.
//!
//! Sketch: `SKETCH` below. Datum: the diameter over the cutting edges, at its widest.
//!
//! Derivation: the rim limit allows n = 60 v / (pi D) (joinery 3.15); `speed_most` is the smaller
//! of that and the marked maximum, `speed_set` the fastest that the machine offers under it
//! (safety section 4).
//!
//! Limits: a machine whose slowest speed is faster is refused. Without a marked maximum the
//! figure stands with a warning: whether a checklist may print it is for the caller to decide. The
//! usual chart of router cutters (practice, not a standard) only warns.
//!
//! Example: 76 mm, limit 50 m/s, marked 18000, machine 8000 to 22000 rpm: the rim allows 12564.9
//! (joinery 3.15), so 12564.9 rpm.

use std::collections::BTreeMap;

use super::answer::needed;
use super::figure::{about, rpm};
use super::{Calculator, Given, Input, Output, Refusal, Worked};
use crate::shop::Speeds;
use crate::units::{Kind, Length, RimSpeed, Role, Spindle, Value};

const SKETCH: &str = r"
   machine   A|---------------------------------------------|Z
   marked     |--------------------------------|m
   rim limit  |----------------------|r = 60 V / (pi D)
                                     ^
   N, the speed to set: the smallest of m, r and Z, and no less than A;
   v = pi D N / 60";

const MACHINE_FAST: &str = "the machine's slowest speed is too fast for this cutter";
const MACHINE_TURNED: &str = "the machine's slowest speed is over its fastest";
/// The warning of a cutter without a mark, in the words of reference safety section 4.
const NO_MARK: &str = "No marked maximum: do not run before the maker's figure is known";
const OVER_CHART: &str = "Faster than the usual chart for this diameter";

/// The table entry.
pub(super) const CALCULATOR: Calculator = Calculator {
    name: "spindle",
    summary: "The spindle speed to set for a cutter",
    family: "machine",
    inputs: &[
        Input::length(
            "diameter",
            "D",
            ("1 mm", "500 mm"),
            "Diameter over the cutting edges",
        ),
        Input::length(
            "marked",
            "m",
            ("100 rpm", "60000 rpm"),
            "Maximum marked on the cutter",
        )
        .kind(Kind::Speed)
        .derived("a warning"),
        Input::length(
            "limit",
            "V",
            ("1 m/s", "120 m/s"),
            "Highest rim speed that is allowed",
        )
        .kind(Kind::RimSpeed),
        Input::length(
            "machine_least",
            "A",
            ("10 rpm", "60000 rpm"),
            "Slowest speed of the machine",
        )
        .kind(Kind::Speed)
        .derived("not compared"),
        Input::length(
            "machine_most",
            "Z",
            ("10 rpm", "60000 rpm"),
            "Fastest speed of the machine",
        )
        .kind(Kind::Speed)
        .derived("not compared"),
    ],
    results: &[
        Output::new(
            "rim_speed",
            "v",
            Kind::RimSpeed,
            Role::Place,
            "Speed of the edge at the speed that is set",
        ),
        Output::new(
            "speed_most",
            "",
            Kind::Speed,
            Role::Speed,
            "Most that mark and rim limit allow",
        ),
        Output::new("speed_set", "N", Kind::Speed, Role::Speed, "Speed to set"),
    ],
    one_of: &[],
    refuses: &[MACHINE_FAST, MACHINE_TURNED],
    warns: &[NO_MARK, OVER_CHART],
    sketch: SKETCH,
    source: "Smallest of marked maximum, machine and rim limit: EN 847 and saw makers' \
             information (RT-15, read in excerpts). Rim speed: derived. Chart of speeds by \
             diameter: common practice, not a standard.",
    example: &[
        ("diameter", "76 mm"),
        ("marked", "18000 rpm"),
        ("limit", "50 m/s"),
        ("machine_least", "8000 rpm"),
        ("machine_most", "22000 rpm"),
    ],
    run,
    wants: None,
    fit: None,
};

/// Highest speeds usually advised for router cutters, by the largest diameter of each row in
/// nanometres (1, 2, 2 1/2, 3 1/2 in): reference safety section 4, common practice.
const CHART: &[(i64, f64)] = &[
    (25_400_000, 24_000.0),
    (50_800_000, 18_000.0),
    (63_500_000, 16_000.0),
    (88_900_000, 12_000.0),
];

/// What a spindle speed is chosen from.
#[derive(Debug, Clone, PartialEq)]
pub struct SpindleChoice {
    /// Diameter over the cutting edges.
    pub diameter: Length,
    /// Maximum marked on the cutter, when it bears one.
    pub marked: Option<Spindle>,
    /// Highest rim speed that is allowed.
    pub limit: RimSpeed,
    /// What the machine offers: a range, or steps.
    pub machine: Speeds,
}

/// The speed to set.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SpindlePlan {
    /// Speed of the edge at the speed to set.
    pub rim_speed: RimSpeed,
    /// Most that the mark and the rim limit allow.
    pub speed_most: Spindle,
    /// Speed to set.
    pub speed_set: Spindle,
}

impl SpindleChoice {
    /// Chooses the speed.
    ///
    /// # Errors
    /// A refusal with figures when the machine has no speed that is slow enough.
    pub fn work_out(&self) -> Result<SpindlePlan, Refusal> {
        let by_rim = self.limit.spindle_at(self.diameter);
        let speed_most = match self.marked {
            Some(marked) if marked < by_rim => marked,
            _ => by_rim,
        };
        let Some(speed_set) = self.machine.at_most(speed_most) else {
            return Err(Refusal::new(
                MACHINE_FAST,
                self.slowest_words(),
                format!(
                    "machine_least at most {} at diameter {}",
                    rpm(speed_most),
                    about(self.diameter)
                ),
                "Take a smaller cutter, or a machine that runs slower.",
            ));
        };
        Ok(SpindlePlan {
            rim_speed: RimSpeed::of(self.diameter, speed_set),
            speed_most,
            speed_set,
        })
    }

    fn slowest_words(&self) -> String {
        let slowest = match &self.machine {
            Speeds::Steps(steps) => steps.first().copied(),
            Speeds::Range { from, .. } => Some(*from),
        };
        match slowest {
            Some(slowest) => format!("machine_least {}", rpm(slowest)),
            None => "machine_least unknown, the machine lists no speeds".to_owned(),
        }
    }

    fn warnings(&self, speed_set: Spindle) -> Vec<String> {
        let no_mark = self
            .marked
            .is_none()
            .then(|| format!("{NO_MARK}; the figure here is only a reason to go slower."));
        let row = CHART.iter().find(|(nm, _)| self.diameter.to_nm() <= *nm);
        let over = row
            .filter(|(_, most)| speed_set.to_rpm() > *most)
            .map(|(_, most)| format!("{OVER_CHART}: {}.", rpm(Spindle::rpm(*most))));
        [no_mark, over].into_iter().flatten().collect()
    }
}

fn run(given: &Given) -> Result<Worked, Refusal> {
    let least = given.speed("machine_least");
    let most = given.speed("machine_most");
    if let (Some(least), Some(most)) = (least, most)
        && least > most
    {
        return Err(Refusal::new(
            MACHINE_TURNED,
            format!("machine_least {}", rpm(least)),
            format!("at most machine_most, {}", rpm(most)),
            "Give the slowest speed as machine_least and the fastest as machine_most.",
        ));
    }
    let choice = SpindleChoice {
        diameter: needed("diameter", given.length("diameter"))?,
        marked: given.speed("marked"),
        limit: needed("limit", given.rim_speed("limit"))?,
        machine: Speeds::Range {
            from: least.unwrap_or(Spindle::rpm(0.0)),
            to: most.unwrap_or(Spindle::rpm(f64::INFINITY)),
        },
    };
    let plan = choice.work_out()?;
    let unknown = least.is_none() || most.is_none();
    let note = unknown.then(|| {
        "Slowest or fastest speed of the machine was not given: the figure leaves it out."
            .to_owned()
    });
    Ok(Worked {
        results: BTreeMap::from([
            ("rim_speed", Value::RimSpeed(plan.rim_speed)),
            ("speed_most", Value::Speed(plan.speed_most)),
            ("speed_set", Value::Speed(plan.speed_set)),
        ]),
        warnings: choice.warnings(plan.speed_set),
        notes: note.into_iter().collect(),
    })
}
