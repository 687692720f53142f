//! What can happen in the shop that the record keeps; one kind of line for each variant.
//!
//! A new kind is a new variant: older programs keep its lines and say that they do not know them.
//! Lengths are written in millimetres, exactly as held (whole nanometres). Teaching and testing
//! are separate events (1206 p. 9 and 1012 p. 11, read; see `procedures.md` 1C, T9). What is recorded
//! is what was ticked, not what was done (D17).

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use super::{
    Authority, Correction, CutterMeasured, Day, NearMiss, Person, Questions, Run, SheetFault, Test,
    TestCut, WatchedRun, mm,
};
use crate::units::Length;

/// Who is taught what by whom; on every line of a lesson, so that each stands alone.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Taught {
    /// Who learns.
    pub learner: Person,
    /// Who teaches.
    pub instructor: Person,
    /// Id of the procedure.
    pub procedure: String,
    /// Its revision on that day.
    pub revision: u32,
}

/// A reading against its limits.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Verdict {
    /// From the lowest to the highest good value, both included.
    In,
    /// Under the lowest good value.
    Low,
    /// Over the highest good value.
    High,
}

impl Verdict {
    /// Where `value` lies; the limits themselves are good.
    pub fn of(value: Length, low: Length, high: Length) -> Self {
        if value < low {
            Self::Low
        } else if value > high {
            Self::High
        } else {
            Self::In
        }
    }
}

/// One thing that happened.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(tag = "kind", rename_all = "kebab-case")]
pub enum Event {
    /// A lesson began.
    LessonStarted {
        /// Who, what, by whom.
        lesson: Taught,
        /// First step of it; over 1 when it goes on after a pause.
        from: u32,
        /// Measured and chosen values as shown, by name.
        values: BTreeMap<String, String>,
    },
    /// The first of the four steps: the learner was prepared.
    Prepared {
        /// Who, what, by whom.
        lesson: Taught,
        /// What was ticked.
        done: Vec<String>,
        /// What was answered with no.
        not_done: Vec<String>,
    },
    /// The second: steps were told and shown.
    Presented {
        /// Who, what, by whom.
        lesson: Taught,
        /// Title of the set-up.
        set_up: String,
        /// Numbers of the steps, counted through the procedure.
        steps: Vec<u32>,
    },
    /// The third, first time: the learner did a step.
    Tried {
        /// Who, what, by whom.
        lesson: Taught,
        /// Number of the step.
        step: u32,
        /// Whether it was done rightly without help.
        did: bool,
    },
    /// The third, second time: the learner said the key points.
    Explained {
        /// Who, what, by whom.
        lesson: Taught,
        /// Title of the set-up.
        set_up: String,
        /// Number of the step; none for the cautions of the whole set-up.
        step: Option<u32>,
        /// Points that were said.
        said: Vec<String>,
        /// Points that were not.
        missed: Vec<String>,
    },
    /// A value was measured.
    Reading {
        /// Who measured.
        by: Person,
        /// Id of the procedure.
        procedure: String,
        /// Its revision.
        revision: u32,
        /// Id of the machine, none at the bench.
        machine: Option<String>,
        /// Id of the cutter.
        cutter: Option<String>,
        /// What was measured.
        what: String,
        /// As read.
        #[serde(rename = "value_mm", with = "mm")]
        value: Length,
        /// Lowest good value.
        #[serde(rename = "low_mm", with = "mm")]
        low: Length,
        /// Highest good value.
        #[serde(rename = "high_mm", with = "mm")]
        high: Length,
        /// Where the value lies.
        verdict: Verdict,
        /// Name of the measuring tool.
        tool: String,
        /// Whether it was taken in a lesson, with help at hand.
        practice: bool,
    },
    /// The fourth: when the learner is looked at again.
    FollowUp {
        /// Who, what, by whom.
        lesson: Taught,
        /// Day of the next check; none when none was set.
        on: Option<Day>,
        /// Whom the learner asks meanwhile.
        helper: Option<Person>,
    },
    /// A lesson stopped before its end.
    LessonPaused {
        /// Who, what, by whom.
        lesson: Taught,
        /// Step to go on from.
        from: u32,
    },
    /// A lesson that had stopped went on.
    LessonResumed {
        /// Who, what, by whom.
        lesson: Taught,
        /// Step that it went on at.
        step: u32,
    },
    /// A lesson came to its end.
    LessonEnded {
        /// Who, what, by whom.
        lesson: Taught,
        /// Steps that were tried out in it.
        tried: Vec<u32>,
        /// Steps and set-ups in which something was not done or not said.
        open: Vec<String>,
        /// Who signed these steps as taught; not a test.
        taught_by: Option<Person>,
    },
    /// Steps were signed as taught, apart from a lesson.
    SignedTaught {
        /// Who, what, by whom.
        lesson: Taught,
    },
    /// A run was watched.
    WatchedRun(WatchedRun),
    /// A test was watched.
    Test(Test),
    /// Somebody may work alone.
    Authority(Authority),
    /// Questions were answered.
    Questions(Questions),
    /// Anything worth keeping.
    Note {
        /// Who wrote it.
        by: Person,
        /// Id of the procedure that it is about.
        about: Option<String>,
        /// The note; no names of people in it.
        text: String,
    },
    /// Pieces of a job were cut.
    Run(Box<Run>),
    /// A test piece was cut.
    TestCut(Box<TestCut>),
    /// A cutter was measured.
    CutterMeasured(CutterMeasured),
    /// It nearly went wrong.
    NearMiss(NearMiss),
    /// A sheet was wrong or unclear.
    SheetFault(SheetFault),
    /// An earlier line was wrong.
    Correction(Correction),
}
