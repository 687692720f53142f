//! A cutter: what is marked on it, what was measured, what nobody knows.
//!
//! Marked and measured size are kept apart; a missing marked speed stays missing.

use crate::units::{Angle, Length, Spindle};

/// Shape of a cutter.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Shape {
    /// Straight router cutter.
    Straight,
    /// Dovetail router cutter, widest at its end.
    Dovetail,
    /// Rebate cutter with a bearing.
    Rebate,
    /// Slot cutter.
    Slot,
    /// Moulding cutter, or the scribe that fits it.
    Profile,
    /// Dado head of a saw.
    DadoHead,
    /// Saw blade.
    SawBlade,
    /// Drill.
    Drill,
    /// Hollow chisel with its bit.
    MortiseChisel,
}

impl Shape {
    /// Every shape.
    pub const ALL: [Self; 9] = [
        Self::Straight,
        Self::Dovetail,
        Self::Rebate,
        Self::Slot,
        Self::Profile,
        Self::DadoHead,
        Self::SawBlade,
        Self::Drill,
        Self::MortiseChisel,
    ];

    /// The name in files: `dado-head`.
    pub fn name(self) -> &'static str {
        match self {
            Self::Straight => "straight",
            Self::Dovetail => "dovetail",
            Self::Rebate => "rebate",
            Self::Slot => "slot",
            Self::Profile => "profile",
            Self::DadoHead => "dado-head",
            Self::SawBlade => "saw-blade",
            Self::Drill => "drill",
            Self::MortiseChisel => "mortise-chisel",
        }
    }

    /// Whether one that bears no maximum speed must not run. Drills and mortise bits are not
    /// marked (common practice, no source).
    pub fn bears_speed(self) -> bool {
        !matches!(self, Self::Drill | Self::MortiseChisel)
    }
}

/// A size that was measured.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Measured {
    /// Cutting diameter, at its widest.
    pub size: Length,
    /// Day of the measurement, `YYYY-MM-DD`.
    pub on: String,
    /// Name of the tool it was measured with.
    pub with: String,
}

/// A cutter in the drawer.
#[derive(Debug, Clone, PartialEq)]
pub struct Cutter {
    /// Its id, unique in the shop.
    pub id: String,
    /// Name in texts: `12 mm straight`.
    pub name: String,
    /// Shape.
    pub shape: Shape,
    /// Cutting diameter as marked, at its widest.
    pub marked: Length,
    /// Cutting diameter as measured, when it was.
    pub measured: Option<Measured>,
    /// Angle a side from the axis, for a dovetail cutter.
    pub angle: Option<Angle>,
    /// Cutting length.
    pub cutting_length: Length,
    /// Shank diameter.
    pub shank: Length,
    /// Marked maximum speed; none when the cutter bears no mark.
    pub marked_speed: Option<Spindle>,
    /// Number of cutting edges.
    pub flutes: u32,
}

impl Cutter {
    /// Diameter to reckon with: the measured one, else the marked one.
    pub fn diameter(&self) -> Length {
        self.measured
            .as_ref()
            .map_or(self.marked, |measured| measured.size)
    }
}
