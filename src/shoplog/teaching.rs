//! What is written down of a training after its lessons: runs that were watched, tests, questions,
//! and the authority to work alone.
//!
//! Taught and tested are separate lines by separate people (T9), a practice run is no test (T10),
//! and a test keeps what was seen, element by element and reading by reading (T13 to T17 of
//! `procedures.md` 1C), never only its outcome: that follows from it.

use serde::{Deserialize, Serialize};

use super::{Day, Person, Verdict, mm};
use crate::units::Length;

/// Who was watched by whom at what; on every line, so that each stands alone.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Watched {
    /// Who worked.
    pub learner: Person,
    /// Who watched.
    pub by: Person,
    /// Id of the procedure.
    pub procedure: String,
    /// Its revision on that day.
    pub revision: u32,
}

/// A run under the eyes of another (T18).
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct WatchedRun {
    /// Who, by whom, at what.
    pub watched: Watched,
    /// Ids of the machines; none at the bench.
    pub machines: Vec<String>,
    /// Whether help was given.
    pub helped: bool,
    /// Whether the learner said the steps, their key points, reasons and cautions (T6).
    pub explained: bool,
    /// Whether anything was done that can hurt.
    pub unsafe_act: bool,
    /// Slips, and anything else; no names of people in it.
    pub note: Option<String>,
}

impl WatchedRun {
    /// Without help, explained, and safe.
    pub fn is_clean(&self) -> bool {
        !self.helped && self.explained && !self.unsafe_act
    }
}

/// A test by a watched run, without coaching.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Test {
    /// Who, by whom, at what.
    pub watched: Watched,
    /// Ids of the machines; none at the bench.
    pub machines: Vec<String>,
    /// The steps, in order, as far as the test went.
    pub elements: Vec<Element>,
    /// The readings of the procedure, in order, as far as the test went.
    pub readings: Vec<TestReading>,
    /// How often help was given.
    pub prompts: u32,
    /// What was done that can hurt; it ends the test (T14).
    pub unsafe_act: Option<String>,
}

/// A step of a test.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Element {
    /// Number of the step, counted through the procedure.
    pub step: u32,
    /// Whether it was done as written, in its place.
    pub held: bool,
}

/// A reading of a test; the limits are good.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct TestReading {
    /// Number of the step that it belongs to.
    pub step: u32,
    /// What was measured.
    pub what: String,
    /// As read.
    #[serde(rename = "value_mm", with = "mm")]
    pub value: Length,
    /// Lowest good value.
    #[serde(rename = "low_mm", with = "mm")]
    pub low: Length,
    /// Highest good value.
    #[serde(rename = "high_mm", with = "mm")]
    pub high: Length,
}

impl Test {
    /// Why it is not passed; none when it is. Safe, without help, every step as written, every
    /// reading good.
    pub fn failed(&self) -> Option<String> {
        if let Some(act) = &self.unsafe_act {
            return Some(format!("an unsafe act: {act}"));
        }
        if self.prompts > 0 {
            return Some(format!("help was given, {} times", self.prompts));
        }
        let missed = self.elements.iter().find(|element| !element.held);
        if let Some(element) = missed {
            return Some(format!("step {} was not done as written", element.step));
        }
        let out = self
            .readings
            .iter()
            .find(|one| Verdict::of(one.value, one.low, one.high) != Verdict::In);
        if let Some(one) = out {
            return Some(format!("out of its limits: {}", one.what));
        }
        let nothing = self.elements.is_empty();
        nothing.then(|| "nothing was watched".to_owned())
    }
}

/// The written authority to work alone (T20).
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Authority {
    /// Who may, who signs, for what.
    pub watched: Watched,
    /// Ids of the machines; none at the bench.
    pub machines: Vec<String>,
    /// Limits in words, such as a largest stock.
    pub limits: Option<String>,
    /// Last day of it.
    pub until: Day,
}

/// Questions that were put and answered.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Questions {
    /// Who answered, who asked, about what.
    pub watched: Watched,
    /// Which time it was, from 1; procedure, revision, person and this make the same questions.
    pub attempt: u32,
    /// In order.
    pub answers: Vec<Answered>,
}

/// One question with its answer.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Answered {
    /// The question.
    pub ask: String,
    /// What was answered.
    pub answer: String,
    /// What is right.
    pub wanted: String,
}

impl Answered {
    /// Whether it was answered rightly.
    pub fn is_right(&self) -> bool {
        self.answer == self.wanted
    }
}
