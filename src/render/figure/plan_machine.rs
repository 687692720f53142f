//! The machines of the plan views as data: where the tool is, how it turns, what is said of it.
//!
//! One frame serves all: the fence behind (y = 0), the person in front, the feed from right to left.
//! A machine that is fed from front to back is drawn a quarter turn on, so that its fence comes to
//! the right and its infeed to the front. Rotation and feed: `safety.md` sections 2 and 4, as the
//! cautions of each machine say it.

use crate::procedure::{Guide, Plan};

/// Shape of the tool as it is seen from above.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Tool {
    /// A round cutter or drill on an upright axis.
    Round,
    /// A square hollow chisel.
    Chisel,
    /// A saw blade that stands along the feed.
    Blade,
    /// A band-saw blade, its teeth toward the infeed.
    Band,
    /// A saw blade that comes down across the work.
    Chop,
    /// A cutter block across the feed.
    Block,
}

/// How the rotation is drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Turns {
    /// Against the clock, from above.
    Against,
    /// With the clock, from above.
    With,
    /// The upper side of the tool runs toward the infeed.
    Over,
    /// It is not seen from above.
    Unseen,
}

/// One machine.
#[derive(Debug)]
pub(super) struct Machine {
    /// Kind, as procedures name it.
    pub(super) kind: &'static str,
    /// Title of the view.
    pub(super) title: &'static str,
    /// Whether it is drawn a quarter turn on.
    pub(super) quarter: bool,
    pub(super) tool: Tool,
    pub(super) turns: Turns,
    /// What the guide is called where it is not a fence.
    pub(super) stands: &'static str,
    /// What holds it, where it moves itself, from left to right, and the work lies still.
    pub(super) held: Option<&'static str>,
    /// The tool and its rotation, in words.
    pub(super) tool_says: &'static str,
    /// The feed, in words.
    pub(super) feed_says: &'static str,
}

/// All of them.
const MACHINES: [Machine; 9] = [
    Machine {
        kind: "router-table",
        title: "Router table, from above",
        quarter: false,
        tool: Tool::Round,
        turns: Turns::Against,
        held: None,
        stands: "The fence is behind the cutter, the person in front",
        tool_says: "The cutter turns against the clock: its edge runs from left to right on the \
                    side of the person",
        feed_says: "The work is fed from right to left, against the cutter",
    },
    Machine {
        kind: "table-saw",
        title: "Table saw, from above",
        quarter: true,
        tool: Tool::Blade,
        turns: Turns::Over,
        held: None,
        stands: "The person is in front, beside the line of the blade",
        tool_says: "The upper teeth run toward the person, the front teeth down; the thickness of \
                    the blade is not to scale unless the head is built up to a width",
        feed_says: "The work is fed from front to back, against the front teeth",
    },
    Machine {
        kind: "band-saw",
        title: "Band saw, from above",
        quarter: true,
        tool: Tool::Band,
        turns: Turns::Unseen,
        held: None,
        stands: "The person is in front",
        tool_says: "The blade runs down through the table, teeth toward the person; its width and \
                    thickness are not to scale",
        feed_says: "The work is fed from front to back, against the teeth",
    },
    Machine {
        kind: "mitre-saw",
        title: "Mitre saw, from above",
        quarter: false,
        tool: Tool::Chop,
        turns: Turns::Unseen,
        held: None,
        stands: "The fence is behind the work, the person in front",
        tool_says: "The blade comes down across the work; seen from the left it turns with the \
                    clock; its thickness is not to scale",
        feed_says: "The work does not move: it is cramped to the fence",
    },
    Machine {
        kind: "jointer",
        title: "Surface planer, from above",
        quarter: false,
        tool: Tool::Block,
        turns: Turns::Over,
        held: None,
        stands: "The fence is behind the work, the person in front, the infeed table on the right",
        tool_says: "The knives on top of the block run from left to right; its diameter is not to \
                    scale",
        feed_says: "The work is fed from right to left, against the knives",
    },
    Machine {
        kind: "thicknesser",
        title: "Thicknesser, from above",
        quarter: false,
        tool: Tool::Block,
        turns: Turns::Unseen,
        held: None,
        stands: "The infeed is on the right; the person stands aside of the line of feed",
        tool_says: "The block turns above the work under its hood, its lower knives from left to \
                    right; its diameter is not to scale",
        feed_says: "Rollers draw the work from right to left, against the knives",
    },
    Machine {
        kind: "drill-press",
        title: "Drill press, from above",
        quarter: false,
        tool: Tool::Round,
        turns: Turns::With,
        held: None,
        stands: "The fence is behind the drill, the person in front",
        tool_says: "The drill turns with the clock",
        feed_says: "The work does not move: it is cramped to the fence, its mark under the drill",
    },
    Machine {
        kind: "mortiser",
        title: "Mortiser, from above",
        quarter: false,
        tool: Tool::Chisel,
        turns: Turns::Unseen,
        held: None,
        stands: "The fence is behind the chisel, the person in front",
        tool_says: "The bit turns inside the chisel",
        feed_says: "The work is cramped for each hole; the handwheel moves it along the fence",
    },
    Machine {
        kind: "hand-router",
        title: "Hand-held router, from above",
        quarter: false,
        tool: Tool::Round,
        turns: Turns::With,
        held: Some("both hands on the handles"),
        stands: "The straightedge is on the far side of the router, the person in front",
        tool_says: "The cutter turns with the clock: its edge runs from right to left on the side of the \
                    person",
        feed_says: "The router is fed from left to right; the work does not move: it is cramped to \
                    the bench, the straightedge to the work",
    },
];

/// The machine of that kind.
pub(super) fn machine(kind: &str) -> Option<&'static Machine> {
    MACHINES.iter().find(|one| one.kind == kind)
}

/// Their kinds.
pub(super) fn kinds() -> Vec<&'static str> {
    MACHINES.iter().map(|one| one.kind).collect()
}

/// What stands over the tool, as the guard cautions of the pair call it.
pub(super) fn guard(plan: &Plan) -> &'static str {
    match (plan.machine.as_str(), plan.operation.as_str()) {
        _ if plan.guide == Guide::Jig => "cover",
        ("table-saw", "rip" | "crosscut") => "crown guard",
        ("table-saw", "tenon-cheek-on-end") => "shield",
        ("table-saw", _) => "tunnel guard",
        ("band-saw", _) => "upper guard",
        ("mitre-saw", _) => "lower guard",
        ("jointer", _) => "bridge guard",
        ("thicknesser", _) => "hood",
        ("mortiser", _) => "chuck cover",
        ("hand-router", _) => "chip guard",
        _ => "guard",
    }
}
