//! What the shop writes down of its own work: runs, test cuts, cutters, near misses, faults of a
//! sheet, corrections. All figures as read, never only "good" (C7 and D9 of `procedures.md` 1C, 1D).

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use super::{Event, Mark, Person, Verdict, mm};
use crate::joints::{Feel, WoodOn};
use crate::units::Length;

/// What was set up, and from which sheet; on every line of work, so that each stands alone (D11).
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
pub struct Work {
    /// Id of the job.
    pub job: Option<String>,
    /// Check sum of the sheets that it was cut from.
    pub sheets: Option<String>,
    /// Id of the procedure.
    pub procedure: String,
    /// Its revision.
    pub revision: u32,
    /// Title of the set-up.
    pub set_up: Option<String>,
    /// Id of the machine, none at the bench.
    pub machine: Option<String>,
    /// Id of the cutter.
    pub cutter: Option<String>,
    /// The wood, as the shop calls it.
    pub wood: Option<String>,
    /// Measured and chosen values as shown, by name.
    pub stock: BTreeMap<String, String>,
    /// What the machine was set to, in the order of the sheet.
    pub settings: Vec<SetTo>,
}

/// One setting: as planned on the sheet and as it was set.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct SetTo {
    /// Its name: `fence`.
    pub name: String,
    /// As set, with its unit.
    pub shown: String,
    /// As planned; none for what is no length, and where there was no sheet.
    #[serde(rename = "planned_mm", with = "mm::maybe", default)]
    pub planned: Option<Length>,
    /// As set; none for what is no length.
    #[serde(rename = "set_mm", with = "mm::maybe", default)]
    pub set: Option<Length>,
}

/// Pieces of a job were cut.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Run {
    /// Who cut.
    pub by: Person,
    /// What was set up.
    pub work: Work,
    /// Pieces that were cut.
    pub pieces: u32,
    /// Test cuts before the first of them.
    pub test_cuts: u32,
    /// Anything worth keeping; no names of people in it.
    pub note: Option<String>,
}

/// A test piece was cut, and measured or tried.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct TestCut {
    /// Who cut.
    pub by: Person,
    /// What was set up.
    pub work: Work,
    /// What was measured of it.
    pub measured: Option<Measured>,
    /// How it went together.
    #[serde(with = "feel", default)]
    pub feel: Option<Feel>,
    /// Anything worth keeping.
    pub note: Option<String>,
}

/// A reading of a test piece.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Measured {
    /// What was measured.
    pub what: String,
    /// As read.
    #[serde(rename = "value_mm", with = "mm")]
    pub value: Length,
    /// As wanted.
    #[serde(rename = "wanted_mm", with = "mm::maybe", default)]
    pub wanted: Option<Length>,
    /// Lowest and highest good value.
    pub limits: Option<Limits>,
    /// Name of the measuring tool.
    pub tool: Option<String>,
    /// Which setting moves it, and how much it changes for one unit of that setting.
    pub moves: Option<Moves>,
}

impl Measured {
    /// Where it lies, when limits are known.
    pub fn verdict(&self) -> Option<Verdict> {
        let limits = self.limits.as_ref()?;
        Some(Verdict::of(self.value, limits.low, limits.high))
    }
}

/// The lowest and the highest good value of a reading.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct Limits {
    /// Lowest good value.
    #[serde(rename = "low_mm", with = "mm")]
    pub low: Length,
    /// Highest good value.
    #[serde(rename = "high_mm", with = "mm")]
    pub high: Length,
}

/// Which setting moves a measured value.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Moves {
    /// Name of the setting.
    pub setting: String,
    /// Change of the value for a change of the setting by one.
    pub by: f64,
    /// On which side wood is still on; none for a place.
    #[serde(default)]
    pub wood: Option<Wood>,
    /// Clearance that the joint has at the wanted value; none where it is not tried in its mate.
    #[serde(rename = "clearance_mm", with = "mm::maybe", default)]
    pub clearance: Option<Length>,
}

/// On which side wood is still on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Wood {
    /// The value is low.
    Low,
    /// The value is high.
    High,
}

impl From<WoodOn> for Wood {
    fn from(wood: WoodOn) -> Self {
        match wood {
            WoodOn::Low => Self::Low,
            WoodOn::High => Self::High,
        }
    }
}

impl From<Wood> for WoodOn {
    fn from(wood: Wood) -> Self {
        match wood {
            Wood::Low => Self::Low,
            Wood::High => Self::High,
        }
    }
}

/// A cutter was measured.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct CutterMeasured {
    /// Who measured.
    pub by: Person,
    /// Id of the cutter.
    pub cutter: String,
    /// Its size as read.
    #[serde(rename = "size_mm", with = "mm")]
    pub size: Length,
    /// Name of the measuring tool.
    pub tool: Option<String>,
    /// What happened to it before: what was learned of the cutter as it was no longer counts when
    /// it was sharpened or is new.
    pub state: CutterState,
}

/// What happened to a cutter before it was measured.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum CutterState {
    /// Nothing but use.
    Same,
    /// It was sharpened.
    Sharpened,
    /// Another one in its place.
    New,
}

impl CutterState {
    /// Every one.
    pub const ALL: [Self; 3] = [Self::Same, Self::Sharpened, Self::New];

    /// The word: `sharpened`.
    pub fn word(self) -> &'static str {
        match self {
            Self::Same => "same",
            Self::Sharpened => "sharpened",
            Self::New => "new",
        }
    }
}

/// It nearly went wrong. No person need be named: what matters is what happened.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct NearMiss {
    /// Who tells it.
    pub by: Option<Person>,
    /// Id of the machine.
    pub machine: Option<String>,
    /// Id of the procedure.
    pub procedure: Option<String>,
    /// What happened; no names of people in it.
    pub text: String,
    /// What was changed since.
    pub changed: Option<String>,
}

/// A sheet was wrong or unclear (D16).
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct SheetFault {
    /// Who tells it.
    pub by: Person,
    /// Id of the procedure.
    pub procedure: String,
    /// Its revision.
    pub revision: u32,
    /// Title of the set-up.
    pub set_up: Option<String>,
    /// Number of the step on the sheet.
    pub step: Option<u32>,
    /// What is wrong or unclear.
    pub text: String,
}

/// An earlier line was wrong; it stays in the file, readable (D13).
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Correction {
    /// Who corrects.
    pub by: Person,
    /// The line that was wrong.
    pub of: Mark,
    /// Why.
    pub why: String,
    /// What stands in its place; none where it is only struck out.
    pub instead: Option<Box<Event>>,
}

/// A feel by its words.
mod feel {
    use serde::de::Error;
    use serde::{Deserialize, Deserializer, Serializer};

    use crate::joints::Feel;

    #[expect(clippy::ref_option, reason = "serde hands the field in so")]
    pub(super) fn serialize<S: Serializer>(feel: &Option<Feel>, out: S) -> Result<S::Ok, S::Error> {
        match feel {
            Some(feel) => out.serialize_some(feel.words()),
            None => out.serialize_none(),
        }
    }

    pub(super) fn deserialize<'de, D: Deserializer<'de>>(
        from: D,
    ) -> Result<Option<Feel>, D::Error> {
        let words = Option::<String>::deserialize(from)?;
        let known = |words: String| {
            Feel::named(&words).ok_or_else(|| D::Error::custom("no such word for a fit"))
        };
        words.map(known).transpose()
    }
}
