//! What both sliding dovetails share: inputs and results of the table, limits of a sound tail, how
//! its height is set, and what can go wrong in both.
//!
//! Limits, all common practice (joinery 2.4, 3.1): a cut of 0.8 mm (1/32 in) at the tail's end so
//! that it has no feather edge; a depth of a third of the side, which is taken to be as thick as
//! the tail's stock since its thickness is not asked; a neck of half of the stock.

use super::figure::{about, at_least};
use super::fit::Cause;
use super::{Input, Origin, Output};
use crate::units::{Kind, Length, Role};

/// The tail's stock, T.
pub(super) const STOCK: Input = Input::length(
    "stock",
    "T",
    ("3 mm", "100 mm"),
    "Thickness of the tail's stock",
);
/// The dovetail cutter, D.
pub(super) const CUTTER: Input = Input::length(
    "cutter",
    "D",
    ("3 mm", "60 mm"),
    "Diameter of the dovetail cutter at its tip",
);
/// Its angle, a.
pub(super) const ANGLE: Input = Input::length(
    "angle",
    "a",
    ("1 deg", "30 deg"),
    "Angle of the cutter, each side from its axis",
)
.kind(Kind::Angle);
/// The depth, h.
pub(super) const DEPTH: Input = Input::length(
    "depth",
    "h",
    ("1 mm", "50 mm"),
    "Depth of the socket from the side's face",
);
/// The clearance, c.
pub(super) const CLEARANCE: Input = Input::length(
    "clearance",
    "c",
    ("-0.5 mm", "2 mm"),
    "Mouth less neck; plus is loose",
)
.usual("0 mm");

/// The mouth, M.
pub(super) const MOUTH: Output = Output::length(
    "mouth",
    "M",
    Role::Opening,
    "Width of the socket at the side's face",
);
/// The cut at the end, k.
pub(super) const END_CUT: Output = Output::length(
    "end_cut",
    "k",
    Role::TakesOff,
    "Cut at the tail's end, each face that is cut",
);
/// The neck, N.
pub(super) const NECK: Output = Output::length(
    "neck",
    "N",
    Role::Entering,
    "Thickness of the tail at its shoulder",
);

/// Words of the influence of the socket's depth.
pub(super) const SOCKET_DEEPER: &str = "socket cut deeper";

/// What can go wrong in both joints.
pub(super) const SHARED_CAUSES: &[Cause] = &[
    Cause(
        "tail's stock thicker than measured",
        Origin::Measuring,
        |slips| &mut slips.stock,
    ),
    Cause(SOCKET_DEEPER, Origin::Height, |slips| &mut slips.depth),
    Cause("tail cut with the cutter lower", Origin::Height, |slips| {
        &mut slips.lower
    }),
    Cause(
        "cutter's angle larger, by the degree",
        Origin::CutterAngle,
        |slips| &mut slips.angle,
    ),
];

/// First words of the warning of a thin cut at the end.
pub(super) const FEATHER: &str = "Feather edge at the tail's end";
/// First words of the warning of a deep socket.
pub(super) const DEEP: &str = "Depth over a third of the stock";
/// First words of the warning of a thin neck.
pub(super) const NECK_WEAK: &str = "Neck under half of the stock";

const FEATHER_LEAST: Length = Length::nm(800_000);

/// How the height of the tail's cut stands to that of the socket (`D`, joinery 3.1).
pub(super) const TAIL_HEIGHT: &str = "Cut the tail with the cutter at the socket's height or 0.1 \
                                      to 0.25 mm (0.005 to 0.010 in) lower. Never higher: its end \
                                      would bottom before the shoulder closes.";

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
