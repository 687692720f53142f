//! Where a lesson is, for a head line and for the question whether to go on there.

use super::Lesson;
use super::card::Card;

/// A place in a lesson.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Place {
    /// Number of the unit, from 1.
    pub unit: usize,
    /// How many units there are.
    pub units: usize,
    /// Number of the step that is asked about; none between steps.
    pub step: Option<u32>,
    /// Number of the last step.
    pub steps: u32,
    /// What is done there, in a word or two.
    pub stage: &'static str,
    /// Questions behind it.
    pub gone: usize,
    /// All questions.
    pub of: usize,
}

impl Place {
    pub(super) fn new(lesson: &Lesson, card: Card, (gone, of): (usize, usize)) -> Self {
        Self {
            unit: card.unit(lesson) + 1,
            units: lesson.units.len(),
            step: card.step(lesson),
            steps: lesson.last_step(),
            stage: card.stage(),
            gone,
            of,
        }
    }

    /// It in words: `unit 2, step 7 (try out)`.
    pub fn words(&self) -> String {
        let step = self.step.map(|step| format!(", step {step}"));
        format!(
            "unit {}{} ({})",
            self.unit,
            step.unwrap_or_default(),
            self.stage
        )
    }
}
