//! The job breakdown: important steps, and beside each its key points, reason and check.
//!
//! Made from a filled procedure and from nothing else, so that no step can lose the cautions that
//! stand before it: they come first among its key points (T1, T2). Steps are taught in units of at
//! most seven (T5; the number is a choice of this house), as even as they can be, and no unit
//! reaches over two set-ups.

use std::collections::BTreeMap;

use crate::caution::Caution;
use crate::diag::{Code, Fault};
use crate::procedure::{Filled, FilledCheck, FilledSetUp, FilledStep, Provenance, Run, plain};

/// Most steps of a unit.
pub const UNIT_STEPS: usize = 7;

/// What a learner must say about a step.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Point {
    /// A caution that stands before the step.
    Caution(Caution),
    /// What makes or breaks the step.
    Key(String),
    /// Why it is done so.
    Reason(String),
}

impl Point {
    /// The point in full, as it is shown and recorded.
    pub fn text(&self) -> String {
        match self {
            Self::Caution(caution) => format!(
                "{}: {} {} {}",
                caution.signal().printed(),
                caution.hazard(),
                caution.harm(),
                caution.avoid()
            ),
            Self::Key(words) => words.clone(),
            Self::Reason(words) => format!("Reason: {words}"),
        }
    }
}

/// One important step.
#[derive(Debug, Clone, PartialEq)]
pub struct LessonStep {
    points: Vec<Point>,
    /// Its number, counted through the procedure from 1.
    pub number: u32,
    /// What to do.
    pub act: String,
    /// The figures in what to do and in its key points: label and value.
    pub figures: Vec<(String, String)>,
    /// What is measured after it.
    pub check: Option<FilledCheck>,
}

impl LessonStep {
    fn new(step: &FilledStep, number: u32, labels: &BTreeMap<&str, &str>) -> Self {
        let cautions = step.cautions().iter().cloned().map(Point::Caution);
        let after = step.after.iter();
        let after = after.map(|(mark, text)| format!("{}: {}", mark.word(), plain(text)));
        let keys = after.chain(step.keys.iter().map(|key| plain(key)));
        let keys = keys.map(Point::Key);
        let reason = Some(plain(&step.why)).filter(|why| !why.trim().is_empty());
        Self {
            points: cautions
                .chain(keys)
                .chain(reason.map(Point::Reason))
                .collect(),
            number,
            act: plain(&step.act),
            figures: figures(std::iter::once(&step.act).chain(&step.keys), labels),
            check: step.check.clone(),
        }
    }

    /// Cautions, key points, reason, in this order.
    pub fn points(&self) -> &[Point] {
        &self.points
    }
}

/// The set-up that a unit belongs to.
#[derive(Debug, Clone, PartialEq)]
pub struct SetUp {
    standing: Vec<Point>,
    /// What it makes.
    pub title: String,
    /// Id and name of the machine; none at the bench.
    pub machine: Option<(String, String)>,
    /// Id of the cutter, and what is said of it.
    pub cutter: Option<(String, String)>,
    /// Size of the cutter as shown; empty where there is none.
    pub cutter_size: String,
    /// What the machine is set to: label and value.
    pub settings: Vec<(String, String)>,
}

impl SetUp {
    fn new(set_up: &FilledSetUp) -> Self {
        let cutter = set_up.cutter.as_ref().map(|cutter| {
            let parts = [
                &cutter.name,
                &cutter.diameter,
                &cutter.known_from,
                &cutter.speed_note,
            ];
            let said: Vec<_> = parts
                .into_iter()
                .filter(|part| !part.is_empty())
                .map(String::as_str)
                .collect();
            (cutter.id.clone(), said.join("; "))
        });
        let settings = set_up.settings.iter();
        let held = set_up.holder.iter();
        let held = held.map(|holder| ("Short piece, held in".to_owned(), plain(holder)));
        Self {
            standing: set_up
                .standing
                .iter()
                .cloned()
                .map(Point::Caution)
                .collect(),
            title: set_up.title.clone(),
            machine: set_up.machine.clone(),
            cutter,
            cutter_size: set_up
                .cutter
                .as_ref()
                .map_or_else(String::new, |cutter| cutter.diameter.clone()),
            settings: settings
                .map(|setting| (setting.label.clone(), setting.shown.clone()))
                .chain(held)
                .collect(),
        }
    }

    /// The cautions for all of it.
    pub fn standing(&self) -> &[Point] {
        &self.standing
    }
}

/// What is taught at one go.
#[derive(Debug, Clone, PartialEq)]
pub struct LessonUnit {
    /// The set-up that its steps belong to.
    pub set_up: SetUp,
    /// One to seven steps.
    pub steps: Vec<LessonStep>,
}

/// A procedure as a lesson.
#[derive(Debug, Clone, PartialEq)]
pub struct Lesson {
    /// Id of the procedure.
    pub procedure: String,
    /// Its title.
    pub title: String,
    /// Why it is done.
    pub purpose: String,
    /// Its revision.
    pub revision: u32,
    /// When the work is done.
    pub done_when: String,
    /// The limits statement, short form.
    pub limits: String,
    /// Measured and chosen values: name, label, as shown.
    pub values: Vec<(String, String, String)>,
    /// What to get ready, by heading.
    pub ready: Vec<(String, Vec<String>)>,
    /// What calculators and the procedure warn of.
    pub warnings: Vec<String>,
    /// Units in order; at least one.
    pub units: Vec<LessonUnit>,
}

impl Lesson {
    /// The breakdown of `filled`, under the limits statement of the shop's cautions.
    ///
    /// # Errors
    /// `procedure-rule` when there is not one step, or no limits statement to show.
    pub fn new(filled: &Filled, limits: &str) -> Result<Self, Fault> {
        let units = units(filled);
        if units.is_empty() {
            let message = format!("`{}` has no steps to teach", filled.procedure);
            return Err(Fault::error(Code::PROCEDURE_RULE, message).hint("write its steps first"));
        }
        if limits.trim().is_empty() {
            let message = "a lesson is not given without its limits statement";
            return Err(Fault::error(Code::PROCEDURE_RULE, message)
                .hint("put the statement back into the shop's cautions"));
        }
        Ok(Self {
            procedure: filled.procedure.clone(),
            title: filled.title.clone(),
            purpose: filled.purpose.clone(),
            revision: filled.revision,
            done_when: filled.done_when.clone(),
            limits: limits.to_owned(),
            values: values(filled),
            ready: filled
                .ready
                .iter()
                .map(|(head, things)| (head.clone(), things.iter().map(|t| plain(t)).collect()))
                .collect(),
            warnings: filled.warnings.clone(),
            units,
        })
    }

    /// Number of the last step.
    pub fn last_step(&self) -> u32 {
        let steps = self.units.iter().flat_map(|unit| &unit.steps);
        steps.map(|step| step.number).max().unwrap_or(0)
    }

    /// Ids of its machines, each once, in the order met.
    pub fn machines(&self) -> Vec<String> {
        let machines = self
            .units
            .iter()
            .filter_map(|unit| unit.set_up.machine.as_ref());
        let mut ids: Vec<String> = Vec::new();
        for (id, _) in machines {
            if !ids.contains(id) {
                ids.push(id.clone());
            }
        }
        ids
    }

    /// Whether any part of it is done at a machine.
    pub fn uses_machine(&self) -> bool {
        self.units.iter().any(|unit| unit.set_up.machine.is_some())
    }
}

fn values(filled: &Filled) -> Vec<(String, String, String)> {
    let given = filled.values.iter().filter(|value| match value.provenance {
        Provenance::Measured | Provenance::Chosen | Provenance::Usual | Provenance::Planned => true,
        Provenance::Shop | Provenance::WorkedOut(_) => false,
    });
    given
        .map(|value| (value.name.clone(), value.label.clone(), value.shown.clone()))
        .collect()
}

/// The slots of texts that hold a number, each once, under the labels of their names.
fn figures<'r>(
    texts: impl Iterator<Item = &'r Vec<Run>>,
    labels: &BTreeMap<&str, &str>,
) -> Vec<(String, String)> {
    let mut figures = Vec::new();
    for run in texts.flatten() {
        let Run::Value { name, shown } = run else {
            continue;
        };
        let name = name.strip_prefix("set.").unwrap_or(name);
        let label = labels.get(name).copied().unwrap_or(name);
        let figure = (label.to_owned(), shown.clone());
        if shown.starts_with(|first: char| first.is_ascii_digit()) && !figures.contains(&figure) {
            figures.push(figure);
        }
    }
    figures
}

fn units(filled: &Filled) -> Vec<LessonUnit> {
    let values = filled.values.iter();
    let values = values.map(|value| (value.name.as_str(), value.label.as_str()));
    let values: BTreeMap<&str, &str> = values.collect();
    let mut numbers = 1_u32..;
    let mut units = Vec::new();
    for set_up in &filled.set_ups {
        let head = SetUp::new(set_up);
        let mut labels = values.clone();
        let settings = set_up.settings.iter();
        labels.extend(settings.map(|one| (one.name.as_str(), one.label.as_str())));
        let steps: Vec<_> = set_up
            .steps
            .iter()
            .zip(numbers.by_ref())
            .map(|(step, number)| LessonStep::new(step, number, &labels))
            .collect();
        let parts = steps.len().div_ceil(UNIT_STEPS).max(1);
        let most = steps.len().div_ceil(parts).max(1);
        units.extend(steps.chunks(most).map(|steps| LessonUnit {
            set_up: head.clone(),
            steps: steps.to_vec(),
        }));
    }
    units
}
