//! A procedure with every slot filled: the one value that paper, screen, terminal, JSON and
//! training read.
//!
//! A [`FilledStep`] can only be made from the cautions that were selected for its set-up; there
//! is no other way to get one.

use std::collections::BTreeMap;

use super::plan_view::Guide;
use super::spoken::{Say, runs};
use crate::caution::{Caution, Selected, Stands};
use crate::joints::WoodOn;
use crate::units::{Length, Value};

/// A piece of a text: words, or a value in its place.
#[derive(Debug, Clone, PartialEq)]
pub enum Run {
    /// Words as written.
    Words(String),
    /// A slot with its value as shown.
    Value {
        /// Name of the slot.
        name: String,
        /// Number with unit, rounded for its tool.
        shown: String,
    },
}

/// The plain text of a run of pieces.
pub fn plain(runs: &[Run]) -> String {
    runs.iter()
        .map(|run| match run {
            Run::Words(words) => words.as_str(),
            Run::Value { shown, .. } => shown.as_str(),
        })
        .collect()
}

/// Where a value comes from; printed beside it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Provenance {
    /// Measured on today's stock.
    Measured,
    /// Chosen for this job.
    Chosen,
    /// The procedure's usual value, since none was chosen.
    Usual,
    /// To be measured later in the job; until then the planned value.
    Planned,
    /// From the shop, machine or cutter file.
    Shop,
    /// Worked out, by this formula.
    WorkedOut(String),
}

/// One named value of a filled procedure.
#[derive(Debug, Clone, PartialEq)]
pub struct FilledValue {
    /// Its name in formulas and slots.
    pub name: String,
    /// What it is, in words.
    pub label: String,
    /// Full figure.
    pub value: Value,
    /// Number with unit, rounded for its tool.
    pub shown: String,
    /// How it was rounded: `rounded down`, or empty when nothing was.
    pub rounding: String,
    /// Where it comes from.
    pub provenance: Provenance,
}

/// A value that a machine is set to.
#[derive(Debug, Clone, PartialEq)]
pub struct Setting {
    /// Name in the procedure: `height`, `fence`, `stop`, `speed`.
    pub name: String,
    /// What to set, in words: `Height of the cutter above the table`.
    pub label: String,
    /// Full figure.
    pub value: Value,
    /// As set: rounded to what the machine's scale resolves.
    pub shown: String,
    /// How it was rounded.
    pub rounding: String,
}

/// The cutter of a set-up.
#[derive(Debug, Clone, PartialEq)]
pub struct RunCutter {
    /// Its id in the shop.
    pub id: String,
    /// Its name.
    pub name: String,
    /// Diameter reckoned with, as shown.
    pub diameter: String,
    /// `measured 2026-11-02 with caliper`, or `as marked, not measured`.
    pub known_from: String,
    /// `marked for 24000 rpm at most`, or what to do when it bears no mark.
    pub speed_note: String,
    /// Why this cutter, when the program chose it.
    pub why: Option<String>,
}

/// Which setting moves a measured value, and how.
#[derive(Debug, Clone, PartialEq)]
pub struct MovedBy {
    /// Name of the setting.
    pub setting: String,
    /// How much the value grows when the figure of the setting grows by one.
    pub each: f64,
    /// On which side wood is still on; none for a place.
    pub wood: Option<WoodOn>,
    /// Name of the shop's fit that a wanted value has; none where it is not tried in its mate.
    pub fit: Option<String>,
}

/// A measured value against limits.
#[derive(Debug, Clone, PartialEq)]
pub struct FilledCheck {
    /// What is measured.
    pub measure: Vec<Run>,
    /// Wanted value, the full figure.
    pub is: Length,
    /// Wanted value as shown.
    pub wanted: String,
    /// Lowest good value.
    pub low: Length,
    /// Highest good value.
    pub high: Length,
    /// Lowest good value as shown.
    pub low_shown: String,
    /// Highest good value as shown.
    pub high_shown: String,
    /// Name of the measuring tool.
    pub tool: String,
    /// Which setting moves it.
    pub moved_by: Option<MovedBy>,
    /// What to do when it is lower.
    pub if_low: Vec<Run>,
    /// What to do when it is higher.
    pub if_high: Vec<Run>,
}

/// What a step does; decides the cautions before it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Does {
    /// Passes work over a turning cutter.
    Cut,
    /// Changes the cutter or adjusts near it.
    Adjust,
    /// Measures or marks.
    Measure,
    /// Works with an edge tool by hand.
    Hand,
    /// Works with glue or finish.
    Glue,
    /// Anything else.
    Other,
}

impl Does {
    /// The cautions that stand before such a step.
    pub fn stands(self) -> Option<Stands> {
        match self {
            Self::Cut => Some(Stands::Cut),
            Self::Adjust => Some(Stands::Adjust),
            Self::Hand => Some(Stands::Hand),
            Self::Glue => Some(Stands::Glue),
            Self::Measure | Self::Other => None,
        }
    }
}

/// What is said below an act.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Mark {
    /// What to do when the act's condition does not hold.
    Otherwise,
    /// One way to do the act.
    Way,
    /// Until when it is done again.
    Until,
    /// How long it takes.
    Timed,
    /// What somebody signs before anyone goes on.
    Hold,
}

impl Mark {
    /// The word that it begins with.
    pub fn word(self) -> &'static str {
        match self {
            Self::Otherwise => "Otherwise",
            Self::Way => "Either",
            Self::Until => "Again until",
            Self::Timed => "Time",
            Self::Hold => "HOLD",
        }
    }
}

/// One step, its cautions inseparable from it.
#[derive(Debug, Clone, PartialEq)]
pub struct FilledStep {
    cautions: Vec<Caution>,
    /// What it does.
    pub does: Does,
    /// The one thing to do.
    pub act: Vec<Run>,
    /// What is said below it, in order.
    pub after: Vec<(Mark, Vec<Run>)>,
    /// Key points.
    pub keys: Vec<Vec<Run>>,
    /// Reason.
    pub why: Vec<Run>,
    /// Measurement after it.
    pub check: Option<FilledCheck>,
    /// Whether each piece gets a box of its own.
    pub each_piece: bool,
    /// Whether work may be left before it: the machine is isolated, no glue is on.
    pub pause: bool,
}

impl FilledStep {
    /// A step that does `does`, with the cautions that guard it.
    pub fn new(does: Does, selected: &Selected, act: Vec<Run>) -> Self {
        let cautions = does
            .stands()
            .map(|stands| selected.standing(stands).cloned().collect())
            .unwrap_or_default();
        Self {
            cautions,
            does,
            act,
            after: Vec::new(),
            keys: Vec::new(),
            why: Vec::new(),
            check: None,
            each_piece: does == Does::Cut,
            pause: false,
        }
    }

    /// The cautions that stand directly before it, gravest first.
    pub fn cautions(&self) -> &[Caution] {
        &self.cautions
    }

    /// The same step, its cautions with it, as `say` says it.
    pub(super) fn spoken(&self, say: Say<'_>) -> Self {
        let list = |texts: &[Vec<Run>]| texts.iter().map(|text| runs(text, say)).collect();
        Self {
            cautions: (self.cautions.iter())
                .map(|caution| caution.spoken(say))
                .collect(),
            act: runs(&self.act, say),
            after: (self.after.iter())
                .map(|(mark, text)| (*mark, runs(text, say)))
                .collect(),
            keys: list(&self.keys),
            why: runs(&self.why, say),
            check: self.check.as_ref().map(|check| FilledCheck {
                measure: runs(&check.measure, say),
                if_low: runs(&check.if_low, say),
                if_high: runs(&check.if_high, say),
                ..check.clone()
            }),
            ..*self
        }
    }
}

/// A small table for a value that is measured during the job: settings for other readings.
#[derive(Debug, Clone, PartialEq)]
pub struct RunTable {
    /// What is measured, in words.
    pub measured: String,
    /// Names of the settings, in words.
    pub heads: Vec<String>,
    /// A reading as shown and the settings for it; the planned one is marked.
    pub rows: Vec<(String, Vec<String>, bool)>,
}

/// Size of the piece that passes the machine.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct PieceSize {
    /// Along the feed.
    pub length: Length,
    /// Across the feed, on the table.
    pub width: Length,
    /// Off the table.
    pub thickness: Length,
}

/// One set-up, filled.
#[derive(Debug, Clone, PartialEq)]
pub struct FilledSetUp {
    /// What it makes: `Cut the sockets`.
    pub title: String,
    /// Id and name of the machine; none at the bench.
    pub machine: Option<(String, String)>,
    /// Operation, as cautions name it: `stopped-groove`.
    pub operation: String,
    /// The cutter.
    pub cutter: Option<RunCutter>,
    /// Size of the piece that is cut, when one is.
    pub piece: Option<PieceSize>,
    /// What holds a piece that is too short to be fed by hand; none for a longer one.
    pub holder: Option<Vec<Run>>,
    /// What the machine is set to, in order.
    pub settings: Vec<Setting>,
    /// Cautions for the whole set-up, gravest first.
    pub standing: Vec<Caution>,
    /// Steps in order.
    pub steps: Vec<FilledStep>,
    /// Settings for other readings of a value measured during the job.
    pub table: Option<RunTable>,
    /// The machine from above; none where it is not known for certain.
    pub plan: Option<Drawing>,
}

/// A fault of the work with its cause and cure.
#[derive(Debug, Clone, PartialEq)]
pub struct Trouble {
    /// What is seen.
    pub see: Vec<Run>,
    /// Why it happens.
    pub cause: Vec<Run>,
    /// What to do.
    pub cure: Vec<Run>,
}

/// What a drawing needs: its shape and its lengths by letter name.
#[derive(Debug, Clone, PartialEq)]
pub struct Drawing {
    /// Name of the figure: `sliding-dovetail`.
    pub shape: String,
    /// Lengths and how each is shown, by name.
    pub lengths: BTreeMap<String, (Length, String)>,
    /// Angle in degrees and how it is shown, where there is one.
    pub angle: Option<(f64, String)>,
    /// For the plan view of a machine: what is known besides lengths.
    pub plan: Option<Plan>,
    /// Letter and words of a length, or of `angle`, in the place of the figure's own: those of a
    /// calculation, which need not know every length.
    pub letters: BTreeMap<String, (String, String)>,
}

/// How work passes a machine, for its plan view.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Plan {
    /// Kind of the machine: `router-table`.
    pub machine: String,
    /// Operation: `through-groove`.
    pub operation: String,
    /// What guides the work.
    pub guide: Guide,
    /// The face that lies on the table.
    pub down: Option<String>,
    /// What bears on fence, gauge or carriage.
    pub to_guide: Option<String>,
}

/// A procedure filled for one part.
#[derive(Debug, Clone, PartialEq)]
pub struct Filled {
    /// Id of the procedure.
    pub procedure: String,
    /// Its title.
    pub title: String,
    /// Its purpose.
    pub purpose: String,
    /// When the work is done.
    pub done_when: String,
    /// Its revision.
    pub revision: u32,
    /// Day it was last reviewed.
    pub reviewed: String,
    /// Every named value: measured, chosen, worked out, in that order.
    pub values: Vec<FilledValue>,
    /// Tools, guards and pieces to get ready, by heading, in order; an empty list says `none`.
    pub ready: Vec<(String, Vec<Vec<Run>>)>,
    /// Set-ups in order.
    pub set_ups: Vec<FilledSetUp>,
    /// Faults and cures.
    pub troubles: Vec<Trouble>,
    /// What must be true after the job, by heading.
    pub close: Vec<(String, Vec<Vec<Run>>)>,
    /// What calculators and the procedure warn of.
    pub warnings: Vec<String>,
    /// Order of passes and the like, from the calculators.
    pub notes: Vec<String>,
    /// The joint drawn to scale.
    pub drawing: Option<Drawing>,
    /// Finished sizes with joint allowances: what, and the size as shown.
    pub sizes: Vec<(String, String)>,
}
