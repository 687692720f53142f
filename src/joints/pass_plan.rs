//! Several passes along one fence: how many, how far apart, in which order.
//!
//! Cutter in a table, seen from above: it turns anticlockwise, the fence is behind it, the work is
//! fed from right to left along the fence. On the side away from the fence the edge then meets the
//! work head on; on the side next to the fence it runs with the work and pulls it along (a climb
//! cut). So in a groove that is open, a later pass may only cut the wall farther from the fence:
//! every later fence distance is the larger. Source: reference safety RT-06 to RT-09 (practice;
//! derived from the rotation), joinery 3.0 (derived). Fence distance: fence face to cutter axis.

use super::Refusal;
use super::figure::about;
use crate::units::Length;

/// More passes than this mean that the cutter is the wrong one (own limit, common practice).
pub(super) const PASSES_MOST: i64 = 24;

/// What [`check_order`] refuses.
pub(super) const CLIMBS: &str =
    "a later pass would cut the wall next to the fence, with the feed: a climb cut";

/// Passes side by side that open a groove wider than the cutter.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct PassPlan {
    /// How many; at least one.
    pub(super) passes: i64,
    /// From one pass to the next; nothing for one pass.
    pub(super) shift: Length,
    /// From the first pass to the last.
    pub(super) extra: Length,
}

impl PassPlan {
    /// Passes for a groove `extra` wider than the cutter, no more than `step_most` apart.
    ///
    /// None when that is more than [`PASSES_MOST`], or when `step_most` is nothing.
    pub(super) fn new(extra: Length, step_most: Length) -> Option<Self> {
        let (nm, most) = (extra.to_nm().max(0), step_most.to_nm());
        if most <= 0 {
            return None;
        }
        let steps = nm / most + i64::from(nm % most != 0);
        (steps < PASSES_MOST).then(|| Self {
            passes: steps + 1,
            shift: Length::nm(nm / steps.max(1)),
            extra: Length::nm(nm),
        })
    }

    /// The place of each pass in the order in which they are cut, when the first is at `first`.
    pub(super) fn places(&self, first: Length) -> Vec<Length> {
        let steps = (self.passes - 1).max(1);
        (0..self.passes)
            .map(|step| first + Length::nm(self.extra.to_nm() * step / steps))
            .collect()
    }

    /// What each pass cuts, one sentence each.
    pub(super) fn notes(&self) -> Vec<String> {
        let last = self.passes;
        let mut notes = vec![FEED.to_owned()];
        if last == 1 {
            notes.push("One pass cuts both walls.".to_owned());
            return notes;
        }
        notes.push(format!(
            "Pass 1 of {last}, at the smallest fence distance, opens the groove and leaves the \
             wall nearer the fence at its size."
        ));
        for pass in 2..last {
            notes.push(format!(
                "Pass {pass} of {last}, the fence {} farther away, cuts the wall farther from the \
                 fence.",
                about(self.shift)
            ));
        }
        notes.push(format!(
            "Pass {last} of {last}, at the largest fence distance, brings the wall farther from the \
             fence to its size."
        ));
        notes.push(NEVER_BACK.to_owned());
        notes
    }
}

/// How the work passes the cutter in all that is worked out here.
pub(super) const FEED: &str = "Fence behind the cutter, cutter turning anticlockwise seen from \
                               above, feed from right to left.";

/// Why the order of passes may not be turned round.
pub(super) const NEVER_BACK: &str = "Keep this order: a later pass at a smaller fence distance \
                                     cuts the wall next to the fence and pulls the work along.";

/// Refuses fence distances in an order that climbs: each later one must be the larger.
///
/// # Errors
/// A refusal that names the first pass that would climb.
///
/// ```
/// use faceside::{joints::check_order, units::Length};
/// assert!(check_order(&[Length::mm(106.0), Length::mm(111.7)]).is_ok());
/// assert!(check_order(&[Length::mm(111.7), Length::mm(106.0)]).is_err());
/// ```
pub fn check_order(fence_distances: &[Length]) -> Result<(), Refusal> {
    let climbs = fence_distances
        .windows(2)
        .enumerate()
        .find(|(_, pair)| pair[1] <= pair[0]);
    let Some((before, pair)) = climbs else {
        return Ok(());
    };
    Err(Refusal::new(
        CLIMBS,
        format!("pass {} at fence distance {}", before + 2, about(pair[1])),
        format!("over {}", about(pair[0])),
        "Cut the passes in the order of growing fence distance.",
    ))
}
