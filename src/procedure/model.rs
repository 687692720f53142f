//! A loaded procedure: formulas and texts parsed, every part with its place.
//!
//! What holds after `check`: every name has a giver of the right dimension, every slot a value,
//! every set-up a machine and operation that the cautions know. `fill` relies on it.

use super::filled::MovedBy;
use std::sync::Arc;

use super::Does;
use super::plan_view::Guide;
use super::text::Text;
use crate::diag::{Source, Span};
use crate::formula::Formula;
use crate::shop::Shape;
use crate::units::{Kind, Value};

/// A procedure.
#[derive(Debug)]
pub struct Procedure {
    /// The file that it came from.
    pub source: Arc<Source>,
    /// Id, unique in the library.
    pub id: String,
    /// Place of the id.
    pub id_place: Span,
    /// Title.
    pub title: String,
    /// Other names that people look for.
    pub also_called: Vec<String>,
    /// Family of joints.
    pub family: String,
    /// What the joint is for.
    pub purpose: String,
    /// When to take it.
    pub use_when: String,
    /// When not to.
    pub not_for: Vec<String>,
    /// Ids of procedures that an apprentice learns first, with their places.
    pub after: Vec<(String, Span)>,
    /// Revision, counted up.
    pub revision: u32,
    /// Day of the last review.
    pub reviewed: String,
    /// State in which the work is done.
    pub done_when: String,
    /// Where its rules come from.
    pub sources: Vec<String>,
    /// What is measured.
    pub measures: Vec<Measure>,
    /// What is chosen.
    pub choices: Vec<Choice>,
    /// What is worked out, in order.
    pub work_out: Vec<(String, Formula)>,
    /// When it is refused.
    pub refusals: Vec<Rule>,
    /// When it is warned.
    pub warnings: Vec<Rule>,
    /// Finished sizes.
    pub sizes: Vec<(String, Formula)>,
    /// Shape of the drawing and the formulas of its lengths.
    pub drawing: Option<(String, Vec<(String, Formula)>)>,
    /// What to get ready, by heading.
    pub ready: Vec<(String, Vec<Text>)>,
    /// Set-ups in order.
    pub set_ups: Vec<SetUp>,
    /// See, cause, cure.
    pub troubles: Vec<[Text; 3]>,
    /// What must be true afterwards, by heading.
    pub close: Vec<(String, Vec<Text>)>,
    /// Warnings that it accepts.
    pub accepted: Vec<Accepted>,
}

/// A warning that a procedure accepts.
#[derive(Debug)]
pub struct Accepted {
    /// Its code.
    pub code: String,
    /// Place of the code.
    pub place: Span,
    /// Why.
    pub because: Text,
}

/// Something that is measured.
#[derive(Debug)]
pub struct Measure {
    /// Name in formulas.
    pub name: String,
    /// Place of the name.
    pub place: Span,
    /// The question.
    pub ask: String,
    /// Kind of the value.
    pub kind: Kind,
    /// Least and most.
    pub range: (Option<Value>, Option<Value>),
    /// Value of the worked example, as text.
    pub example: Option<String>,
    /// Planned value, for what is measured during the job.
    pub later: Option<Formula>,
}

/// Something that is chosen.
#[derive(Debug)]
pub struct Choice {
    /// Name in formulas.
    pub name: String,
    /// Place of the name.
    pub place: Span,
    /// The question.
    pub ask: String,
    /// What may be chosen.
    pub want: Want,
    /// Value when none is chosen, as text.
    pub usual: Option<String>,
    /// Value of the worked example, as text.
    pub example: Option<String>,
}

/// What may be chosen.
#[derive(Debug)]
pub enum Want {
    /// A cutter of the shop.
    Cutter {
        /// Of this shape.
        shape: Shape,
        /// That meets this condition.
        fits: Option<Formula>,
    },
    /// A quantity in a range.
    Quantity {
        /// Of this kind.
        kind: Kind,
        /// Least and most.
        range: (Option<Value>, Option<Value>),
    },
    /// One of these words.
    Word(Vec<String>),
}

/// A condition with what to say when it holds.
#[derive(Debug)]
pub struct Rule {
    /// The condition.
    pub when: Formula,
    /// What to say.
    pub say: Text,
    /// What to do instead; empty for a warning.
    pub instead: Text,
}

/// A set-up.
#[derive(Debug)]
pub struct SetUp {
    /// Place of its title.
    pub place: Span,
    /// What it makes.
    pub title: Text,
    /// Kind of machine and its place; none at the bench.
    pub machine: Option<(String, Span)>,
    /// Operation.
    pub operation: String,
    /// Place of the operation.
    pub operation_place: Span,
    /// Name of the choice that is its cutter.
    pub cutter: Option<(String, Span)>,
    /// When there is such a set-up; always when none.
    pub when: Option<Formula>,
    /// Length, width, thickness of the piece.
    pub piece: Option<[Formula; 3]>,
    /// Whether the cut leaves a loose strip.
    pub leaves_strip: Option<Formula>,
    /// What holds a piece that is too short to be fed by hand.
    pub holder: Option<Text>,
    /// How the work is guided past the tool, and the place of that; no plan view where none.
    pub guided: Option<(Guide, Span)>,
    /// The face that lies on the table.
    pub down: Option<String>,
    /// What bears on fence, gauge or carriage.
    pub to_guide: Option<String>,
    /// Lengths of the plan view that are no settings, by their names there.
    pub drawn: Vec<(String, Formula)>,
    /// Settings in order: name, label, formula.
    pub settings: Vec<(String, String, Formula)>,
    /// Table for other readings.
    pub table: Option<Table>,
    /// Steps in order.
    pub steps: Vec<Step>,
}

/// A table of settings for other readings.
#[derive(Debug)]
pub struct Table {
    /// The measured name.
    pub vary: String,
    /// Its place.
    pub place: Span,
    /// From row to row.
    pub by: Formula,
    /// Rows on either side of the planned one.
    pub rows: u32,
}

/// A step.
#[derive(Debug, Clone)]
pub struct Step {
    /// Place of the act.
    pub place: Span,
    /// Where the procedure uses the routine that it is a step of.
    pub used: Option<(String, Span)>,
    /// When there is such a step; always when none.
    pub when: Option<Formula>,
    /// What is seen at the machine when it is to be done; always when none.
    pub only_if: Option<Text>,
    /// What it does.
    pub does: Does,
    /// Whether each piece gets a box; a cut in a test piece has none.
    pub each: bool,
    /// The one thing to do.
    pub act: Text,
    /// What to do when it is not to be done.
    pub otherwise: Option<Text>,
    /// Ways to do it, the usual one first.
    pub one_of: Vec<Text>,
    /// It is done again until this is so.
    pub until: Option<Text>,
    /// How long it takes, or is waited for.
    pub timed: Option<Text>,
    /// What somebody signs before anyone goes on.
    pub hold: Option<Text>,
    /// Who does it, when not the person of the sheet.
    pub who: Option<Text>,
    /// Key points.
    pub keys: Vec<Text>,
    /// Reason.
    pub why: Option<Text>,
    /// Check after it.
    pub check: Option<Check>,
}

impl Step {
    /// Every text of the step but those of its check.
    pub fn texts(&self) -> impl Iterator<Item = &Text> {
        let said = [&self.only_if, &self.otherwise, &self.until, &self.timed];
        let more = [&self.hold, &self.who, &self.why];
        let said = said.into_iter().chain(more).flatten();
        std::iter::once(&self.act)
            .chain(said)
            .chain(&self.one_of)
            .chain(&self.keys)
    }
}

/// A check: a reading against its limits.
#[derive(Debug, Clone)]
pub struct Check {
    /// What is measured.
    pub measure: Text,
    /// Wanted value.
    pub is: Formula,
    /// Lowest good value.
    pub low: Formula,
    /// Highest good value.
    pub high: Formula,
    /// Name of the tool, and its place.
    pub tool: (String, Span),
    /// Which setting moves it, and the place of its name.
    pub moved_by: Option<(MovedBy, Span)>,
    /// What to do when it is lower.
    pub if_low: Text,
    /// What to do when it is higher.
    pub if_high: Text,
}

impl Procedure {
    /// Every text of its set-ups, steps and faults, for search.
    pub fn words(&self) -> Vec<String> {
        let mut words = Vec::new();
        for set_up in &self.set_ups {
            words.push(set_up.title.unfilled());
            for step in &set_up.steps {
                words.extend(step.texts().map(Text::unfilled));
            }
        }
        let troubles = self
            .troubles
            .iter()
            .flat_map(|trouble| trouble.iter().map(Text::unfilled));
        words.extend(troubles);
        words
    }
}
