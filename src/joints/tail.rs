//! What both sliding dovetails share: limits of a sound tail, and how its height is set.
//!
//! Limits, all common practice (joinery 2.4, 3.1): a cut of 0.8 mm (1/32 in) at the tail's end so
//! that it has no feather edge; a depth of a third of the side, which is taken to be as thick as
//! the tail's stock since its thickness is not asked; a neck of half of the stock.

use super::figure::{about, at_least};
use crate::units::Length;

/// First words of the warning of a thin cut at the end.
pub(super) const FEATHER: &str = "Feather edge at the tail's end";
/// First words of the warning of a deep socket.
pub(super) const DEEP: &str = "Depth over a third of the stock";
/// First words of the warning of a thin neck.
pub(super) const NECK_WEAK: &str = "Neck under half of the stock";

const FEATHER_LEAST: Length = Length::nm(800_000);

/// How the height of the tail's cut stands to that of the socket ([D] joinery 3.1).
pub(super) const TAIL_HEIGHT: &str = "Cut the tail with the cutter at the socket's height or 0.1 \
                                      to 0.25 mm (0.005 to 0.010 in) lower, never higher: then \
                                      its end bottoms before the shoulder closes.";

/// The sizes of a tail that are looked at.
pub(super) struct Tail {
    pub(super) stock: Length,
    pub(super) depth: Length,
    pub(super) neck: Length,
    pub(super) end_cut: Length,
}

impl Tail {
    /// One sentence for each limit that is passed.
    pub(super) fn warnings(&self) -> Vec<String> {
        let feather = (self.end_cut < FEATHER_LEAST).then(|| {
            format!(
                "{FEATHER}: the cut there is {}; better {}.",
                about(self.end_cut),
                at_least(FEATHER_LEAST)
            )
        });
        let deep = (self.depth.times(3.0) > self.stock).then(|| {
            format!(
                "{DEEP}: {} of {}. In a side no thicker than that, a third is usual and half the \
                 limit.",
                about(self.depth),
                about(self.stock)
            )
        });
        let weak = (self.neck.times(2.0) < self.stock).then(|| {
            format!(
                "{NECK_WEAK}: {} of {}.",
                about(self.neck),
                about(self.stock)
            )
        });
        [feather, deep, weak].into_iter().flatten().collect()
    }
}
