//! The shop file: units, paper, region, jurisdiction, measuring tools, default fits.

use std::collections::BTreeMap;

use crate::units::{Length, Scale, Unit};

/// Paper that checklists are printed on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Paper {
    /// 210 x 297 mm.
    A4,
    /// 8 1/2 x 11 in.
    Letter,
}

/// Side of the Atlantic whose trade words are shown first.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Region {
    /// Housing, rebate, cramp.
    British,
    /// Dado, rabbet, clamp.
    American,
}

/// Whose safety rules the shop works under, as far as the sources of the cautions differ.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Jurisdiction {
    /// Not said: the strictest of the texts stands.
    #[default]
    Unknown,
    /// United States.
    Us,
    /// United Kingdom.
    Uk,
    /// European Union.
    Eu,
}

impl Jurisdiction {
    /// Every one.
    pub const ALL: [Self; 4] = [Self::Unknown, Self::Us, Self::Uk, Self::Eu];

    /// The name in files.
    pub fn name(self) -> &'static str {
        match self {
            Self::Unknown => "unknown",
            Self::Us => "us",
            Self::Uk => "uk",
            Self::Eu => "eu",
        }
    }
}

/// A measuring tool.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Tool {
    /// Name in texts: `caliper`.
    pub name: String,
    /// Finest step that it shows.
    pub resolution: Length,
}

/// The habits of the shop.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Shop {
    /// What it is called at the head of a sheet.
    pub name: String,
    /// Unit of a bare number, and of what is shown.
    pub units: Unit,
    /// Paper of the printed checklists.
    pub paper: Paper,
    /// Whose words are shown.
    pub region: Region,
    /// Whose safety rules hold.
    pub jurisdiction: Jurisdiction,
    /// Measuring tools by name.
    pub tools: Vec<Tool>,
    /// Wanted total clearances by name (`hand_press`, `sliding`), for formulas as `fit.NAME`.
    pub fits: BTreeMap<String, Length>,
    /// Highest rim speed of a router cutter that the shop allows itself, in metres a second times
    /// a thousand; see [`Shop::rim_speed_limit`].
    pub rim_limit_mm_per_s: u32,
    /// Shortest piece that passes a router table without a holder.
    pub short_piece: Length,
    /// Distance that hands keep from a turning cutter.
    pub hand_distance: Length,
}

impl Shop {
    /// Highest rim speed of a router cutter that the shop allows itself.
    pub fn rim_speed_limit(&self) -> crate::units::RimSpeed {
        crate::units::RimSpeed::metres_per_second(f64::from(self.rim_limit_mm_per_s) / 1000.0)
    }

    /// The finest step of the finest measuring tool.
    pub fn finest_tool(&self) -> Option<&Tool> {
        self.tools.iter().min_by_key(|tool| tool.resolution)
    }

    /// The scale of the finest measuring tool, in the shop's unit.
    pub fn scale(&self) -> Scale {
        match self.finest_tool() {
            Some(tool) => Scale::new(self.units, tool.resolution),
            None => Scale::caliper(self.units),
        }
    }
}
