//! After a test cut: the next move of the setting that the measured value hangs on, never one that
//! could take off more than may go.
//!
//! ```text
//! wood    E = value - wanted where wood is on when the value is high (what enters),
//!         E = wanted - value where it is on when the value is low (an opening);
//!         good is E from -f to c, f and c from the limits of the value
//! move    m of the setting changes the value by k m; it takes a = |k| |m| of the wood
//! after   E - a, off by no more than |k| r (two settings of one figure differ by at most r, the
//!         repeatability of the machine), and E itself is known to u (the tool's finest step)
//! safe    E - u - a - |k| r >= -f, so a is at most E - u - |k| r + f
//! aim     a = E, the wanted value; the smaller of the two counts, down to a step of the scale
//! ```
//!
//! `D`. Both errors are bounds, so no move that is proposed can pass the limit (a later step, a
//! worn stop or another piece of wood still can). Where the smallest step of the scale is too much,
//! a shim between stop and fence makes a smaller one, with the same repeatability; where no move is
//! safe, what is left comes off by hand. A tail can be pared, a socket cannot be refilled
//! (reference joinery 4). A word for how the joint went together instead of a reading bounds the
//! clearance ([`Feel::loosest`]): the wood is at least what the loosest clearance leaves.
//!
//! A place has no side with wood: each try takes a fresh piece, and the whole difference is moved,
//! to the nearest step.

use super::{Feel, HandPress};
use crate::units::{Length, Scale, Towards, Unit};

/// On which side of the wanted value wood is still on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WoodOn {
    /// The value is high: a tail, a tenon, a finger.
    High,
    /// The value is low: an opening, a depth.
    Low,
}

/// A value that a setting moves.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Aim {
    /// Wanted value.
    pub wanted: Length,
    /// Lowest good value.
    pub low: Length,
    /// Highest good value.
    pub high: Length,
    /// Growth of the value for a growth of the setting by one.
    pub each: f64,
    /// On which side wood is on; none for a place.
    pub wood: Option<WoodOn>,
}

/// What the move is made and judged with.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Means {
    /// Finest step of the machine's scale.
    pub step: Length,
    /// How far two settings to one figure may differ.
    pub repeatability: Length,
    /// Finest step of the measuring tool: the bound of a reading's error.
    pub tool: Length,
    /// Most that one pass takes off; none where that is not known.
    pub most: Option<Length>,
}

/// What was found on the test piece.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Found {
    /// A reading.
    Value(Length),
    /// How it went together, and the clearances of a hand press.
    Feel(Feel, HandPress),
    /// Both.
    Both(Length, Feel, HandPress),
}

/// A move of a setting.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Move {
    /// Change of the setting's figure, a whole number of steps.
    pub by: Length,
    /// What it changes the value by.
    pub value: Length,
    /// Wood left over the wanted value afterwards: least and most of what the errors allow; below
    /// nothing is past the wanted value, never past the limit. The most is none after a word.
    pub left: (Length, Option<Length>),
    /// Passes on each wall.
    pub passes: u32,
    /// Whether the value is then good, whatever the errors.
    pub sure: bool,
}

/// What to do next.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Next {
    /// It is good: stop.
    Stop,
    /// Move the setting.
    Move(Move),
    /// A step of the scale is too much; this move is safe with a shim.
    Shim(Move),
    /// No move is safe: take off this by hand, with what the reading may be off.
    ByHand(Length),
    /// Too much is off by this, and it does not come back: a new piece, or a mate to suit.
    Over(Length),
    /// This piece is good, and the joint is tight: the mate is at fault.
    MateTight,
    /// This piece is good, and the joint is loose: the mate is at fault.
    MateLoose,
}

impl Aim {
    /// Wood on a reading, over the wanted value.
    fn wood(&self, value: Length) -> Length {
        match self.wood {
            Some(WoodOn::Low) => self.wanted - value,
            _ => value - self.wanted,
        }
    }

    /// Least and most wood of a good value; the least is not over nothing.
    fn good(&self) -> (Length, Length) {
        match self.wood {
            Some(WoodOn::Low) => (self.wanted - self.high, self.wanted - self.low),
            _ => (self.low - self.wanted, self.high - self.wanted),
        }
    }

    /// The next move.
    pub fn next(&self, means: &Means, found: Found) -> Next {
        match found {
            Found::Value(value) => self.after_reading(means, value),
            Found::Feel(feel, press) => self.after_feel(means, feel, press),
            Found::Both(value, feel, _) => {
                let next = self.after_reading(means, value);
                match (next, feel) {
                    (Next::Stop, Feel::WillNotStart | Feel::StartsAndBinds) => Next::MateTight,
                    (Next::Stop, Feel::Slides | Feel::DropsIn) => Next::MateLoose,
                    (next, _) => next,
                }
            }
        }
    }

    fn after_reading(&self, means: &Means, value: Length) -> Next {
        if value >= self.low && value <= self.high {
            return Next::Stop;
        }
        let wood = self.wood(value);
        if self.wood.is_none() {
            return self.place(means, wood);
        }
        let (least, _) = self.good();
        if wood < least {
            return Next::Over(least - wood);
        }
        self.toward(means, (wood - means.tool, wood, Some(wood + means.tool)))
    }

    fn after_feel(&self, means: &Means, feel: Feel, press: HandPress) -> Next {
        match (feel, feel.loosest(press)) {
            (Feel::HandPress, _) => Next::Stop,
            (_, Some(loosest)) => {
                // The wanted value has the clearance in the middle between the bounds of its range.
                let (least, _) = self.good();
                let wood = press.most + least - loosest;
                self.toward(means, (wood, wood, None))
            }
            _ => Next::Over(Length::ZERO),
        }
    }

    /// A move that takes wood off, when at least, likely and at most so much is on.
    fn toward(&self, means: &Means, on: (Length, Length, Option<Length>)) -> Next {
        let (at_least, likely, at_most) = on;
        let (least, most) = self.good();
        let slip = means.repeatability.times(self.each.abs());
        let room = at_least - slip - least;
        let takes = likely.min(room);
        let one_step = means.step.times(self.each.abs());
        let plan = |takes: Length, step: Length| {
            let scale = Scale::new(Unit::Mm, step);
            let size = scale.round(takes.times(1.0 / self.each.abs()), Towards::Down);
            self.planned(means, size, (at_least, at_most), (slip, least, most))
        };
        if takes >= one_step {
            return Next::Move(plan(takes, means.step));
        }
        // A shim is measured with the tool; a smaller one than it shows cannot be chosen.
        let finest = means.tool.max(Length::nm(10_000));
        if takes >= finest.times(self.each.abs()) {
            return Next::Shim(plan(takes, finest));
        }
        Next::ByHand(likely.max(Length::ZERO))
    }

    fn planned(
        &self,
        means: &Means,
        size: Length,
        (at_least, at_most): (Length, Option<Length>),
        (slip, least, most): (Length, Length, Length),
    ) -> Move {
        let takes = size.times(self.each.abs());
        let shrinks = self.wood == Some(WoodOn::High);
        let value = if shrinks { -takes } else { takes };
        let by = if shrinks == (self.each < 0.0) {
            size
        } else {
            -size
        };
        let low = at_least - takes - slip;
        let high = at_most.map(|at_most| at_most - takes + slip);
        Move {
            by,
            value,
            left: (low, high),
            passes: passes(size, means.most),
            sure: low >= least && high.is_some_and(|high| high <= most),
        }
    }

    /// The whole difference of a place, to the nearest step.
    fn place(&self, means: &Means, off: Length) -> Next {
        let scale = Scale::new(Unit::Mm, means.step);
        let by = scale.round(off.times(-1.0 / self.each), Towards::Nearest);
        if by == Length::ZERO {
            return Next::ByHand(off.abs());
        }
        let value = by.times(self.each);
        let slip = means.repeatability.times(self.each.abs()) + means.tool;
        let left = off + value;
        let (least, most) = self.good();
        Next::Move(Move {
            by,
            value,
            left: (left - slip, Some(left + slip)),
            passes: 1,
            sure: left - slip >= least && left + slip <= most,
        })
    }

    /// The first setting, as a change of the planned figure: the wanted value where the machine is
    /// that sure, else so much wood more that the limit is not passed.
    ///
    /// `offset` is how much more the machine cuts than is set, `bound` how far the next cut may be
    /// from that on one side. Rounded to the scale's step so that wood is left on.
    ///
    /// ```text
    /// wood after the cut   E = g (d + o), g = k where wood is high, else -k; o within offset -+ bound
    /// not past the limit   g (d + offset) - |k| bound >= -f
    /// ```
    pub fn first(&self, means: &Means, offset: Length, bound: Length) -> Length {
        let scale = Scale::new(Unit::Mm, means.step);
        let side = match self.wood {
            None => return scale.round(-offset, Towards::Nearest),
            Some(WoodOn::High) => self.each,
            Some(WoodOn::Low) => -self.each,
        };
        let (least, _) = self.good();
        let wood = (least + bound.times(side.abs())).max(Length::ZERO);
        let towards = if side > 0.0 {
            Towards::Up
        } else {
            Towards::Down
        };
        scale.round(wood.times(1.0 / side) - offset, towards)
    }

    /// How much of a first cut nothing explains: what the reading is off what the setting should
    /// have cut, less what machine, tool and cutter may be off; none when that is nothing. Measure
    /// the cutter then, before anything is moved.
    pub fn unexplained(
        &self,
        means: &Means,
        value: Length,
        set_over_plan: Length,
    ) -> Option<Length> {
        let meant = self.wanted + set_over_plan.times(self.each);
        let over = (value - meant).abs() - self.explained(means);
        (over > Length::ZERO).then_some(over)
    }

    /// How far a first cut may be off by what machine, tool and cutter are known to be off: a step
    /// and the repeatability of the scale, the tool once for a reading and once for the cutter's
    /// size.
    pub fn explained(&self, means: &Means) -> Length {
        let slip = (means.repeatability + means.step).times(self.each.abs());
        slip + means.tool + means.tool
    }

    /// The first setting where nothing is recorded, as a change of the planned figure: the limit is
    /// not passed by all that machine, tool and cutter explain.
    pub fn unlearned(&self, means: &Means) -> Length {
        let bound = self.explained(means).times(1.0 / self.each.abs());
        self.first(means, Length::ZERO, bound)
    }
}

/// Passes for a move of that size.
fn passes(size: Length, most: Option<Length>) -> u32 {
    match most {
        Some(most) if most > Length::ZERO => {
            let passes =
                size.to_nm().div_euclid(most.to_nm()) + i64::from(size.to_nm() % most.to_nm() != 0);
            u32::try_from(passes.max(1)).unwrap_or(u32::MAX)
        }
        _ => 1,
    }
}
