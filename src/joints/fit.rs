//! How sure a fit is: how much each thing that can go wrong changes it, and what that adds up to.
//!
//! A joint gives its fit as a function of [`Slips`], built from the outlines that the cutters
//! leave, not from the formulas of its settings; the influences are central differences of that
//! function, so they check the formulas instead of repeating them. Fit is what enters less the
//! opening: plus is tighter. Budget: reference joinery 3.1 (derived).

use super::{Answer, Calculator, FirstCut, Given};
use crate::shop::{Machine, Shop};
use crate::units::{Angle, Length, Value};

/// Where an error of an influence on the fit comes from; says which tool's figure bounds it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Origin {
    /// Reading of the measuring tool.
    Measuring,
    /// Repeatability of the fence.
    Fence,
    /// Repeatability of the height.
    Height,
    /// What is known of the cutter's diameter.
    Diameter,
    /// What is known of the cutter's angle; the error is in degrees.
    CutterAngle,
}

impl Origin {
    /// The origin in a word, for tables and JSON.
    pub fn word(self) -> &'static str {
        match self {
            Self::Measuring => "measuring",
            Self::Fence => "fence",
            Self::Height => "height",
            Self::Diameter => "diameter",
            Self::CutterAngle => "angle",
        }
    }
}

/// How much one thing that can go wrong changes the fit.
#[derive(Debug, Clone, PartialEq)]
pub struct Influence {
    /// What goes wrong, in words: `socket cut deeper`.
    pub what: &'static str,
    /// Which figure of the shop bounds it.
    pub origin: Origin,
    /// Change of the fit (plus is tighter) for one unit of the error: a ratio of lengths, or for
    /// an angle millimetres a degree.
    pub factor: f64,
}

/// The fit of a joint as planned, and what changes it.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Fit {
    /// Opening less what enters it, all as planned; none where what enters is not given.
    pub clearance: Option<Length>,
    /// What can go wrong, in the order of the calculator.
    pub influences: Vec<Influence>,
}

/// The clearances at which a joint goes home under the hand.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct HandPress {
    /// Least: under it the joint is too tight.
    pub least: Length,
    /// Most: over it the joint is too loose.
    pub most: Length,
}

/// Housings, halvings, tongues and tenons: 0.05 to 0.15 mm (joinery 4, `CP`).
pub(super) const HAND_PRESS: HandPress = HandPress {
    least: Length::nm(50_000),
    most: Length::nm(150_000),
};

/// A short sliding dovetail: 0.08 to 0.15 mm (joinery 4, `CP`).
pub(super) const SLIDING: HandPress = HandPress {
    least: Length::nm(80_000),
    most: Length::nm(150_000),
};

/// A comb joint, each finger: 0.05 to 0.13 mm (joinery 4, `CP`).
pub(super) const COMB: HandPress = HandPress {
    least: Length::nm(50_000),
    most: Length::nm(130_000),
};

/// How a calculator tells of its joint's fit.
#[derive(Debug, Clone, Copy)]
pub struct FitRule {
    /// The clearances wanted.
    pub press: HandPress,
    /// The fit of what was given.
    pub(super) of: fn(&Given) -> Fit,
}

/// What is off the plan, in millimetres (the angle in degrees).
#[derive(Debug, Clone, Copy)]
pub(super) struct Slips {
    /// What enters is thicker than measured.
    pub(super) stock: f64,
    /// The tail's fence leaves more of the cutter standing out.
    pub(super) exposure: f64,
    /// The last pass of the opening is farther from the first.
    pub(super) apart: f64,
    /// The opening is deeper.
    pub(super) depth: f64,
    /// The tail is cut with the cutter lower.
    pub(super) lower: f64,
    /// The cutter is smaller than its figure.
    pub(super) cutter: f64,
    /// The straight cutter beside a dovetail cutter is smaller than its figure.
    pub(super) straight: f64,
    /// The cutter's angle is larger, in degrees.
    pub(super) angle: f64,
    /// The setting of the first of two cheeks is larger.
    pub(super) near: f64,
    /// The setting of the second of two cheeks is larger.
    pub(super) far: f64,
    /// The saw cuts wider than its figure.
    pub(super) kerf: f64,
    /// The piece with the opening is thicker than measured.
    pub(super) mate: f64,
    /// The second of two boards is cut with a larger step.
    pub(super) step: f64,
}

impl Slips {
    /// All as planned.
    pub(super) const NONE: Self = Self {
        stock: 0.0,
        exposure: 0.0,
        apart: 0.0,
        depth: 0.0,
        lower: 0.0,
        cutter: 0.0,
        straight: 0.0,
        angle: 0.0,
        near: 0.0,
        far: 0.0,
        kerf: 0.0,
        mate: 0.0,
        step: 0.0,
    };
}

/// One thing that can go wrong: its words, what bounds it, and which slip it is.
pub(super) struct Cause(
    pub(super) &'static str,
    pub(super) Origin,
    pub(super) fn(&mut Slips) -> &mut f64,
);

/// Half the step of the differences, in mm or degrees: small beside any joint, large beside the
/// last digit of a double.
const STEP: f64 = 0.01;

impl Fit {
    /// The clearance without slips, and how much each cause changes `fit`, by central differences.
    pub(super) fn of<'c>(
        causes: impl IntoIterator<Item = &'c Cause>,
        fit: impl Fn(&Slips) -> f64,
    ) -> Self {
        let with = |slip: fn(&mut Slips) -> &mut f64, by: f64| {
            let mut slips = Slips::NONE;
            *slip(&mut slips) = by;
            fit(&slips)
        };
        let influences = causes
            .into_iter()
            .map(|Cause(what, origin, slip)| Influence {
                what,
                origin: *origin,
                factor: (with(*slip, STEP) - with(*slip, -STEP)) / (2.0 * STEP),
            })
            .collect();
        Self {
            clearance: Some(Length::mm(-fit(&Slips::NONE))),
            influences,
        }
    }
}

/// How far a tail is taken to be cut lower than its socket, in mm: it is advised lower so that the
/// shoulder closes, and it keeps the differences on one side of the point where the end would
/// bottom first.
pub(super) const TAIL_LOWER_MM: f64 = 0.1;

/// The tightest place of a joint: the largest of what `too_much` gives at 11 heights from 0 to
/// `height_mm`.
pub(super) fn tightest(height_mm: f64, too_much: impl Fn(f64) -> f64) -> f64 {
    (0..=10)
        .map(|tenth| too_much(height_mm * f64::from(tenth) / 10.0))
        .fold(f64::NEG_INFINITY, f64::max)
}

/// How far off each kind of figure may be.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tolerances {
    /// Error of a reading of the measuring tool.
    pub measuring: Length,
    /// Difference between two settings of the fence to one figure.
    pub fence: Length,
    /// Difference between two settings of the height to one figure.
    pub height: Length,
    /// Error of the cutter's diameter.
    pub diameter: Length,
    /// Error of the cutter's angle.
    pub angle: Angle,
}

/// One line of a fit budget.
#[derive(Debug, Clone, PartialEq)]
pub struct BudgetLine {
    /// What goes wrong, and how much it counts.
    pub influence: Influence,
    /// How far off it may be: a length, or an angle.
    pub error: Value,
    /// What that does to the fit, without its sign.
    pub effect: Length,
    /// Part of the worst case that it makes, 0 to 1.
    pub share: f64,
}

/// What all errors together may do to the fit.
#[derive(Debug, Clone, PartialEq)]
pub struct FitBudget {
    /// Every influence, in the order of the calculator.
    pub lines: Vec<BudgetLine>,
    /// The influence with the largest effect; none when nothing has an effect.
    pub largest: Option<&'static str>,
    /// All errors at once and in one direction.
    pub worst: Length,
    /// Root of the sum of the squares: what to expect of errors that know nothing of each other.
    pub root_sum_square: Length,
    /// The clearances wanted.
    pub press: HandPress,
    /// How the first cut may turn out; none where what enters is not given.
    pub first_cut: Option<FirstCut>,
}

impl Tolerances {
    /// The tolerances of a shop and one of its machines: the resolution of the finest measuring
    /// tool for stock and cutter, the repeatability of the machine's scales. A cutter's angle is
    /// taken as marked, within a quarter of a degree (common practice, no source).
    pub fn of_machine(shop: &Shop, machine: &Machine) -> Self {
        let measuring = shop
            .finest_tool()
            .map_or(Length::ZERO, |tool| tool.resolution);
        Self {
            measuring,
            fence: machine.fence.repeatability,
            height: machine.height.repeatability,
            diameter: measuring,
            angle: Angle::degrees(0.25),
        }
    }

    /// What the error of this origin does to the fit, without its sign.
    fn effect(&self, influence: &Influence) -> Length {
        match self.of(influence.origin) {
            Value::Length(error) => error.times(influence.factor).abs(),
            Value::Angle(error) => Length::mm(error.to_degrees() * influence.factor).abs(),
            _ => Length::ZERO,
        }
    }

    fn of(&self, origin: Origin) -> Value {
        match origin {
            Origin::Measuring => Value::Length(self.measuring),
            Origin::Fence => Value::Length(self.fence),
            Origin::Height => Value::Length(self.height),
            Origin::Diameter => Value::Length(self.diameter),
            Origin::CutterAngle => Value::Angle(self.angle),
        }
    }
}

impl FitBudget {
    /// The budget of an answer with the tolerances of a shop's router table; none without one, and
    /// for a calculator without a fit.
    pub fn in_shop(
        calculator: &Calculator,
        answer: &Answer,
        (shop, machines): (&Shop, &[Machine]),
    ) -> Option<Self> {
        let mut machines = machines.iter();
        let machine = machines.find(|machine| machine.kind == "router-table")?;
        Self::of(calculator, answer, &Tolerances::of_machine(shop, machine))
    }

    /// The budget of an answer under these tolerances; none for a calculator without a fit.
    pub fn of(calculator: &Calculator, answer: &Answer, tolerances: &Tolerances) -> Option<Self> {
        let rule = calculator.fit?;
        let Fit {
            clearance,
            influences,
        } = (rule.of)(&answer.given);
        let effects: Vec<_> = influences
            .iter()
            .map(|influence| tolerances.effect(influence))
            .collect();
        let worst: Length = effects.iter().copied().sum();
        let squares: f64 = effects.iter().map(|effect| effect.to_mm().powi(2)).sum();
        let share = |effect: Length| match worst {
            Length::ZERO => 0.0,
            worst => effect.per(worst),
        };
        let lines: Vec<_> = influences
            .into_iter()
            .zip(&effects)
            .map(|(influence, effect)| BudgetLine {
                error: tolerances.of(influence.origin),
                effect: *effect,
                share: share(*effect),
                influence,
            })
            .collect();
        let largest = lines
            .iter()
            .filter(|line| line.effect > Length::ZERO)
            .max_by_key(|line| line.effect)
            .map(|line| line.influence.what);
        Some(Self {
            lines,
            largest,
            worst,
            root_sum_square: Length::mm(squares.sqrt()),
            press: rule.press,
            first_cut: clearance.map(|clearance| FirstCut::of(clearance, &effects, rule.press)),
        })
    }
}
