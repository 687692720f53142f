//! A machine: what it is, how fast it turns, what its scales resolve, what guards are at hand.

use crate::units::{Length, Spindle};

/// Spindle speeds that a machine offers.
#[derive(Debug, Clone, PartialEq)]
pub enum Speeds {
    /// Only these, ascending.
    Steps(Vec<Spindle>),
    /// Any speed between two.
    Range {
        /// Slowest.
        from: Spindle,
        /// Fastest.
        to: Spindle,
    },
}

impl Speeds {
    /// The fastest speed on offer that is not over `most`.
    pub fn at_most(&self, most: Spindle) -> Option<Spindle> {
        match self {
            Self::Steps(steps) => steps.iter().copied().rfind(|step| *step <= most),
            Self::Range { from, to } if most >= *from => Some(if most < *to { most } else { *to }),
            Self::Range { .. } => None,
        }
    }
}

/// A scale that a setting is made by.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ScaleOf {
    /// Finest step that can be set.
    pub resolution: Length,
    /// How far a setting made twice may differ.
    pub repeatability: Length,
}

/// Minutes that a change of each kind takes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Minutes {
    /// Changing the cutter.
    pub cutter: u32,
    /// Changing the height.
    pub height: u32,
    /// Moving the fence.
    pub fence: u32,
    /// Setting a stop.
    pub stop: u32,
    /// Changing the speed.
    pub speed: u32,
}

/// A machine of the shop.
#[derive(Debug, Clone, PartialEq)]
pub struct Machine {
    /// Its id, unique in the shop.
    pub id: String,
    /// Kind, as procedures and cautions name it: `router-table`.
    pub kind: String,
    /// Name in texts: `the router table by the slipway door`.
    pub name: String,
    /// Spindle speeds.
    pub speeds: Speeds,
    /// Height scale.
    pub height: ScaleOf,
    /// Fence scale.
    pub fence: ScaleOf,
    /// Table size along the fence.
    pub table_length: Length,
    /// Table size across the fence.
    pub table_width: Length,
    /// Guards that are fitted or on the shelf.
    pub guards: Vec<String>,
    /// Push-blocks, featherboards, sleds at hand.
    pub aids: Vec<String>,
    /// Minutes for each change.
    pub minutes: Minutes,
}

impl Machine {
    /// The scale that a setting is made by, where `tool` is the finest step of the tool that it is
    /// measured with.
    ///
    /// A height has its own scale; fence and stop share one. What is built up of plates, chippers and
    /// shims is as close again as it was measured, whatever the scales of the machine (common
    /// practice, no source). Any other setting is as fine as the tool, and repeats no better than the
    /// worse scale of the machine.
    pub fn scale_of(&self, setting: &str, tool: Length) -> ScaleOf {
        let is = |name: &str| setting.starts_with(name);
        if is("height") {
            return self.height;
        }
        if is("fence") || is("stop") {
            return self.fence;
        }
        let built_up = is("width") || is("shims");
        let scales = [self.height, self.fence].map(|scale| scale.repeatability);
        ScaleOf {
            resolution: tool,
            repeatability: if built_up {
                tool
            } else {
                scales[0].max(scales[1])
            },
        }
    }
}
