//! Choosing cutters: which of a drawer can make a cut, which of those first, and what to buy when
//! none can.
//!
//! A cutter can make the cut when the calculator does not refuse it, its edges reach the depth, it
//! bears its maximum speed and the machine turns slowly enough. Of those that can, in this order
//! (common practice, no source): fewest passes, fewest warnings of the calculator, measured before
//! only marked, thickest shank, widest, least edge beyond the depth, marked for the higher speed.

use std::cmp::Reverse;
use std::collections::BTreeMap;

use super::figure::{about, at_least, rpm};
use super::{Answer, Calculator, Stopped, Wanted, Wants, on_sale, work_out};
use crate::diag::{Code, Fault};
use crate::shop::{Cutter, Shape};
use crate::units::{Length, Spindle, Value};

/// What a cut asks of its cutters.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Effort {
    /// Passes: of one cut side by side times one below the other; nothing where none are counted.
    pub passes: i64,
    /// How deep the cutters cut, where the calculator knows.
    pub reach: Option<Length>,
    /// Warnings of the calculator.
    pub warnings: usize,
}

/// Cutters that can make the cut, and what it comes to with them.
#[derive(Debug, Clone)]
pub struct Candidate<'c> {
    /// One for each [`Wanted`], in its order.
    pub cutters: Vec<&'c Cutter>,
    /// The calculation with them.
    pub answer: Answer,
    /// What the cut asks of them.
    pub effort: Effort,
}

/// A drawer judged for one cut.
#[derive(Debug, Clone)]
pub struct Choice<'c> {
    /// Those that can make it, best first.
    pub fit: Vec<Candidate<'c>>,
    /// Names of those that cannot, and why.
    pub unfit: Vec<(String, String)>,
}

impl Effort {
    /// Nothing asked.
    pub const NONE: Self = Self {
        passes: 0,
        reach: None,
        warnings: 0,
    };

    /// What an answer of this calculator asks.
    pub fn of(calculator: &Calculator, answer: &Answer) -> Self {
        let warnings = answer.worked.warnings.len();
        let Some(wants) = &calculator.wants else {
            return Self {
                warnings,
                ..Self::NONE
            };
        };
        let results = &answer.worked.results;
        let count = |name: &&str| match results.get(name) {
            Some(Value::Count(count)) => *count,
            _ => 1,
        };
        let reach = match results.get(wants.reach) {
            Some(Value::Length(reach)) => Some(*reach),
            _ => answer.given.length(wants.reach),
        };
        let passes = match wants.passes {
            [] => 0,
            counted => counted.iter().map(count).fold(1, i64::saturating_mul),
        };
        Self {
            passes,
            reach,
            warnings,
        }
    }

    /// Both cuts, made with the same cutters.
    pub fn and(self, other: Self) -> Self {
        Self {
            passes: self.passes.saturating_add(other.passes),
            reach: self.reach.max(other.reach),
            warnings: self.warnings + other.warnings,
        }
    }
}

/// What decides between two cutters that can make a cut: the lesser comes first.
pub fn merit(cutter: &Cutter, effort: Effort) -> impl Ord + use<> {
    let spare = effort.reach.map(|reach| cutter.cutting_length - reach);
    let speed = cutter.marked_speed.map(|speed| speed.to_rpm() as i64);
    (
        (effort.passes, effort.warnings),
        (cutter.measured.is_none(), Reverse(cutter.shank)),
        (Reverse(cutter.diameter()), spare, Reverse(speed)),
        cutter.id.clone(),
    )
}

/// Why a cutter comes where it comes, in a line: `1 pass; measured 2026-11-02; ...`.
pub fn reasons(cutter: &Cutter, effort: Effort) -> String {
    let passes = match effort.passes {
        0 => None,
        1 => Some("1 pass".to_owned()),
        more => Some(format!("{more} passes")),
    };
    let warnings = match effort.warnings {
        0 => None,
        1 => Some("1 warning".to_owned()),
        more => Some(format!("{more} warnings")),
    };
    let known = match &cutter.measured {
        Some(measured) => format!("measured {}", measured.on),
        None => "marked, not measured".to_owned(),
    };
    let reach = effort.reach.map(|reach| {
        format!(
            "edges {} long for {}",
            about(cutter.cutting_length),
            about(reach)
        )
    });
    let speed = cutter
        .marked_speed
        .map(|speed| format!("marked for {}", rpm(speed)));
    let shank = Some(format!("shank {}", about(cutter.shank)));
    let parts = [passes, warnings, Some(known), shank, reach, speed];
    parts.into_iter().flatten().collect::<Vec<_>>().join("; ")
}

/// Why a cutter cannot be run, whatever is cut with it; `slowest` is the machine's slowest speed.
pub fn unfit_to_run(cutter: &Cutter, slowest: Option<Spindle>) -> Option<String> {
    match (cutter.marked_speed, slowest) {
        (None, _) if cutter.shape.bears_speed() => Some("it bears no maximum speed".to_owned()),
        (Some(marked), Some(slowest)) if marked < slowest => Some(format!(
            "it is marked for {}, and the machine turns at {} at the slowest",
            rpm(marked),
            rpm(slowest)
        )),
        _ => None,
    }
}

/// Why a cutter's edges cannot make a cut.
pub fn too_short(cutter: &Cutter, effort: Effort) -> Option<String> {
    let reach = effort.reach?;
    (cutter.cutting_length < reach).then(|| {
        format!(
            "its edges are {} long, the cut is {} deep",
            about(cutter.cutting_length),
            about(reach)
        )
    })
}

impl Calculator {
    /// Judges a drawer for a cut: `values` holds all inputs but those of the cutters to be chosen.
    /// None for a calculator that wants no cutter.
    ///
    /// # Errors
    /// The fault of a value that is missing, unknown or out of range for whatever cutter.
    pub fn choose<'c>(
        &'static self,
        values: &BTreeMap<String, Value>,
        drawer: &'c [Cutter],
        slowest: Option<Spindle>,
    ) -> Result<Option<Choice<'c>>, Fault> {
        let Some(wants) = &self.wants else {
            return Ok(None);
        };
        let mut unfit = Vec::new();
        let mut sets: Vec<Vec<&Cutter>> = vec![Vec::new()];
        for wanted in wants.missing(values) {
            let of_shape = drawer.iter().filter(|cutter| cutter.shape == wanted.shape);
            let mut ready = Vec::new();
            for cutter in of_shape {
                match unfit_to_run(cutter, slowest) {
                    Some(why) => unfit.push((cutter.name.clone(), why)),
                    None => ready.push(cutter),
                }
            }
            let with_each = |set: &Vec<&'c Cutter>| {
                let with = |cutter: &&'c Cutter| [&set[..], &[*cutter]].concat();
                ready.iter().map(with).collect::<Vec<_>>()
            };
            sets = sets.iter().flat_map(with_each).collect();
        }
        let mut fit = Vec::new();
        for set in sets {
            match self.try_set(wants, values, set)? {
                Ok(candidate) => fit.push(candidate),
                Err(refused) => unfit.push(refused),
            }
        }
        fit.sort_by_cached_key(|candidate| {
            let merit = |cutter: &&Cutter| merit(cutter, candidate.effort);
            candidate.cutters.iter().map(merit).collect::<Vec<_>>()
        });
        Ok(Some(Choice { fit, unfit }))
    }

    /// The calculation with these cutters, or their names and why they cannot make the cut.
    fn try_set<'c>(
        &'static self,
        wants: &Wants,
        values: &BTreeMap<String, Value>,
        cutters: Vec<&'c Cutter>,
    ) -> Result<Result<Candidate<'c>, (String, String)>, Fault> {
        let mut values = values.clone();
        for (wanted, cutter) in wants.missing(&values).into_iter().zip(&cutters) {
            wanted.put(&mut values, cutter);
        }
        let names: Vec<_> = cutters.iter().map(|cutter| cutter.name.as_str()).collect();
        let name = names.join(" with ");
        let answer = match work_out(self, &values) {
            Ok(answer) => answer,
            Err(Stopped::Fault(fault)) if wants.is_of_a_cutter(&fault) => {
                return Ok(Err((name, fault.message)));
            }
            Err(Stopped::Fault(fault)) => return Err(fault),
            Err(Stopped::Refused(refusal)) => {
                let why = format!(
                    "{}: {}, may be {}",
                    refusal.what, refusal.is, refusal.may_be
                );
                return Ok(Err((name, why)));
            }
        };
        let effort = Effort::of(self, &answer);
        let short = cutters.iter().find_map(|cutter| too_short(cutter, effort));
        Ok(match short {
            Some(why) => Err((name, why)),
            None => Ok(Candidate {
                cutters,
                answer,
                effort,
            }),
        })
    }

    /// What to buy or borrow so that the cut can be made: the best that is sold, with what to look
    /// for; none when no cutter that is sold makes it either.
    ///
    /// # Errors
    /// As of [`choose`](Self::choose).
    pub fn to_buy(
        &'static self,
        values: &BTreeMap<String, Value>,
        drawer: &[Cutter],
    ) -> Result<Option<String>, Fault> {
        let Some(wants) = &self.wants else {
            return Ok(None);
        };
        // The drawer's own serve where they can: of the sets that make the cut, the best of those
        // with the fewest to buy.
        let missing = wants.missing(values).into_iter();
        let shapes: Vec<Shape> = missing.map(|wanted| wanted.shape).collect();
        let sold: Vec<Cutter> = shapes.iter().flat_map(|shape| on_sale(*shape)).collect();
        let own = drawer
            .iter()
            .filter(|cutter| shapes.contains(&cutter.shape));
        let both: Vec<Cutter> = own.chain(&sold).cloned().collect();
        let Some(choice) = self.choose(values, &both, None)? else {
            return Ok(None);
        };
        let bought = |candidate: &Candidate<'_>| {
            candidate.cutters.iter().filter(|c| c.id.is_empty()).count()
        };
        let best = choice.fit.iter().min_by_key(|candidate| bought(candidate));
        Ok(best.map(|candidate| {
            let new = candidate
                .cutters
                .iter()
                .filter(|cutter| cutter.id.is_empty());
            let names: Vec<_> = new.map(|cutter| cutter.name.as_str()).collect();
            what_to_buy(&names.join(" and "), candidate.effort)
        }))
    }
}

/// A sentence that says what to buy, and what to look for on it.
pub fn what_to_buy(name: &str, effort: Effort) -> String {
    let edges = effort.reach.map_or(String::new(), |reach| {
        format!(", edges {} long", at_least(reach))
    });
    format!("Buy or borrow {name}{edges}, its maximum speed marked on it; measure it.")
}

impl Wants {
    /// Whether a fault is that a cutter's size or angle is out of the calculator's range.
    fn is_of_a_cutter(&self, fault: &Fault) -> bool {
        let names = |wanted: &Wanted| [Some(wanted.size), wanted.angle];
        let mut names = self.cutters.iter().flat_map(names).flatten();
        fault.code == Code::OUT_OF_RANGE
            && names.any(|name| fault.message.starts_with(&format!("`{name}`")))
    }

    /// The cutters whose size is not among the values.
    pub fn missing<'w>(&'w self, values: &BTreeMap<String, Value>) -> Vec<&'w Wanted> {
        let is_missing = |wanted: &&Wanted| !values.contains_key(wanted.size);
        self.cutters.iter().filter(is_missing).collect()
    }
}

impl Wanted {
    /// Puts a cutter's size and angle among the values.
    pub fn put(&self, values: &mut BTreeMap<String, Value>, cutter: &Cutter) {
        values.insert(self.size.to_owned(), Value::Length(cutter.diameter()));
        if let (Some(name), Some(angle)) = (self.angle, cutter.angle) {
            values.insert(name.to_owned(), Value::Angle(angle));
        }
    }
}
