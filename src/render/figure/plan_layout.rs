//! Where work and table of a plan view lie, in the frame of `plan.rs`.

use super::plan::Scene;
use super::plan_machine::Tool;
use super::svg::Point;
use crate::diag::Fault;
use crate::procedure::Guide;

/// Least width and most height of the drawing: with labels of eleven characters at one side the
/// picture is 478 wide, so that its letters are 8 pt high on paper 90 mm wide.
pub(super) const ROOM: (f64, f64) = (334.0, 190.0);
/// The same for a picture that is drawn a quarter turn on.
pub(super) const QUARTER: (f64, f64) = (334.0, 250.0);

impl Scene<'_> {
    /// Where the work lies: its left upper and right lower corner.
    pub(super) fn work(&self) -> Result<(Point, Point), Fault> {
        let stop = |name: &str| self.measures.optional(name);
        let in_middle = f64::midpoint(self.least.1, self.most.1) - self.across / 2.0;
        let top = match self.plan.guide {
            Guide::Rollers => (self.measures.mm("table")? - self.across) / 2.0,
            Guide::Freehand => in_middle,
            Guide::Gauge => match (stop("stop_near")?.or(stop("end_near")?), stop("stop_far")?) {
                (Some(near), _) => self.least.1 - near,
                (_, Some(far)) => self.most.1 - far,
                _ => in_middle,
            },
            Guide::EdgeGuide => -self.measures.mm("support")? - self.across,
            _ => stop("rest")?.unwrap_or(0.0),
        };
        // What lies under guide boards, or ends before the person, is drawn so far only.
        let down = match self.plan.guide {
            Guide::Boards => {
                let apart = self.measures.mm("apart")?;
                let passes = self.most.1 - self.least.1 <= apart;
                let refused = "the cutter does not pass between the guide boards";
                self.measures.demand(passes, refused)?;
                apart
            }
            _ => stop("edge_end")?.unwrap_or(top + self.across),
        };
        let begin = match self.machine.tool {
            Tool::Chop => -stop("stop_near")?.unwrap_or(self.long),
            _ if self.plan.guide == Guide::Jig => self.most.0 + self.unit * 0.2,
            _ if self.plan.guide == Guide::EdgeGuide => -self.long / 2.0,
            _ if self.plan.guide == Guide::Slot => {
                let (slot, bush) = (self.measures.mm("slot_long")?, self.measures.mm("bush")?);
                (slot - bush - self.long) / 2.0
            }
            _ if self.plan.guide == Guide::Cramped => -self.long / 2.0,
            _ => match stop("stop_right")? {
                Some(right) => right + self.most.0 - self.long,
                None => self.most.0 + self.unit * 0.12,
            },
        };
        let end = begin + self.long;
        Ok(((begin, top), (end, down)))
    }

    /// The corners of the table as far as it is drawn.
    pub(super) fn area(&self, work: (Point, Point)) -> Result<(Point, Point), Fault> {
        let stop = |name: &str| Ok::<f64, Fault>(self.measures.optional(name)?.unwrap_or(0.0));
        let around = self.unit * 1.12;
        // The person stands below the line that hands stay outside of.
        let front = self.most.1.max(0.0) + around + self.unit * 0.2;
        let front = match self.plan.guide {
            Guide::Cramped if self.machine.tool == Tool::Chop => {
                let low = self.across * 1.3 + self.unit * 0.3;
                low.max(if self.slant > 0.0 { self.unit } else { 0.0 })
            }
            Guide::Cramped => front.max(self.across * 1.1 + self.unit * 0.3),
            Guide::Rollers => self.measures.mm("table")?,
            Guide::Boards => front.max(work.1.1 + self.unit * 0.9),
            Guide::Slot | Guide::Jig => front.max(work.1.1 + self.unit * 0.6),
            Guide::Straightedge if self.measures.has("edge_end") => {
                front.max(work.1.1 + self.unit * 0.7)
            }
            _ => front,
        };
        // Work that stands off the fence begins inside the picture.
        let front = match stop("rest")? {
            rest if rest > 0.0 => front.max(work.0.1 + self.unit * 0.6),
            _ => front,
        };
        let mut back = (self.unit * 0.3).max(self.unit * 0.1 - self.least.1);
        // As high as its name, which stands in it.
        back = back.max(front * if self.machine.quarter { 0.18 } else { 0.14 });
        if self.plan.guide == Guide::Gauge {
            back = (self.unit * 0.6).max(-(work.0.1) + self.unit * 0.2);
        }
        back = match (self.plan.guide, self.machine.tool) {
            (Guide::Freehand, Tool::Band) => back.max(self.unit * 1.2),
            (Guide::EdgeGuide | Guide::Boards, _) => back.max(self.unit * 0.4 - work.0.1),
            _ => back - self.face,
        };
        let left = stop("stop_left")?.max(stop("stop_after")?) - self.least.0 + self.unit * 0.2;
        let left = left.max(around - self.least.0);
        let left = match self.machine.tool {
            Tool::Chop => {
                let near = match self.slant > 0.0 {
                    true => self.unit * (0.1 + self.along()) - self.beside(front),
                    false => 0.0,
                };
                left.max(self.unit * 0.12 - work.0.0).max(near)
            }
            _ => left,
        };
        let behind = match self.plan.guide {
            Guide::Sled | Guide::Carrier | Guide::Gauge | Guide::Carriage | Guide::Straightedge => {
                (work.1.0 + self.unit * 0.7).min(self.unit * 4.0)
            }
            Guide::Jig => (work.1.0 + self.unit * 0.8).min(self.unit * 4.0),
            Guide::Boards => work.1.0 + self.unit * 0.4,
            _ => 0.0,
        };
        let right = stop("stop_right")? + self.most.0 + self.unit * 0.2;
        let right = right.max(around + self.most.0).max(behind);
        let right = match self.slant > 0.0 {
            true => right.max(self.unit * (0.1 + self.along())),
            false => right,
        };
        let right = match stop("stop_beyond")? {
            beyond if beyond > 0.0 => right.max(work.1.0 + beyond + self.unit * 0.2),
            _ => right,
        };
        // The frame is wider than it is high, as the paper is; the room goes to the
        // infeed or to the side of the person.
        if self.machine.quarter {
            let right = right + self.unit * 0.25;
            let wide = (left + right) * QUARTER.0 / QUARTER.1;
            // As wide as the word in it.
            let word = if self.plan.guide == Guide::Carriage {
                0.33
            } else {
                0.16
            };
            let back = back.max(wide * word);
            let more = (wide - front - back).max(0.0);
            return Ok(((-left, -back), (right, front + more)));
        }
        let more = ((front + back) * ROOM.0 / ROOM.1 - left - right).max(0.0);
        // Where nothing comes from one side, it goes to both.
        let aside = match self.plan.guide {
            Guide::EdgeGuide | Guide::Slot => more / 2.0,
            _ => 0.0,
        };
        Ok(((-left - aside, -back), (right + more - aside, front)))
    }
}
