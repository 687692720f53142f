//! What every event can be asked: its kind, who, and which procedure, machine and cutter it is
//! about.

use super::{Authority, Event, Person, Questions, Taught, Test, WatchedRun};

impl Event {
    /// The kind as it stands in a line.
    pub fn kind(&self) -> &'static str {
        match self {
            Self::LessonStarted { .. } => "lesson-started",
            Self::Prepared { .. } => "prepared",
            Self::Presented { .. } => "presented",
            Self::Tried { .. } => "tried",
            Self::Explained { .. } => "explained",
            Self::Reading { .. } => "reading",
            Self::FollowUp { .. } => "follow-up",
            Self::LessonPaused { .. } => "lesson-paused",
            Self::LessonResumed { .. } => "lesson-resumed",
            Self::LessonEnded { .. } => "lesson-ended",
            Self::SignedTaught { .. } => "signed-taught",
            Self::WatchedRun(_) => "watched-run",
            Self::Test(_) => "test",
            Self::Authority(_) => "authority",
            Self::Questions(_) => "questions",
            Self::Note { .. } => "note",
            Self::Run(_) => "run",
            Self::TestCut(_) => "test-cut",
            Self::CutterMeasured(_) => "cutter-measured",
            Self::NearMiss(_) => "near-miss",
            Self::SheetFault(_) => "sheet-fault",
            Self::Correction(_) => "correction",
        }
    }

    /// Who is taught what by whom, of what happens in a lesson.
    pub fn lesson(&self) -> Option<&Taught> {
        match self {
            Self::LessonStarted { lesson, .. }
            | Self::Prepared { lesson, .. }
            | Self::Presented { lesson, .. }
            | Self::Tried { lesson, .. }
            | Self::Explained { lesson, .. }
            | Self::FollowUp { lesson, .. }
            | Self::LessonPaused { lesson, .. }
            | Self::LessonResumed { lesson, .. }
            | Self::LessonEnded { lesson, .. }
            | Self::SignedTaught { lesson } => Some(lesson),
            _ => None,
        }
    }

    /// Who learns or practises by it.
    pub fn learner(&self) -> Option<&Person> {
        match self {
            Self::WatchedRun(WatchedRun { watched, .. })
            | Self::Test(Test { watched, .. })
            | Self::Authority(Authority { watched, .. })
            | Self::Questions(Questions { watched, .. }) => Some(&watched.learner),
            Self::Reading {
                by, practice: true, ..
            } => Some(by),
            _ => self.lesson().map(|lesson| &lesson.learner),
        }
    }

    /// Who did or told it: the instructor of a lesson.
    pub fn by(&self) -> Option<&Person> {
        match self {
            Self::WatchedRun(WatchedRun { watched, .. })
            | Self::Test(Test { watched, .. })
            | Self::Authority(Authority { watched, .. })
            | Self::Questions(Questions { watched, .. }) => Some(&watched.by),
            Self::Reading { by, .. } | Self::Note { by, .. } => Some(by),
            Self::Run(run) => Some(&run.by),
            Self::TestCut(cut) => Some(&cut.by),
            Self::CutterMeasured(one) => Some(&one.by),
            Self::NearMiss(one) => one.by.as_ref(),
            Self::SheetFault(one) => Some(&one.by),
            Self::Correction(one) => Some(&one.by),
            _ => self.lesson().map(|lesson| &lesson.instructor),
        }
    }

    /// Id of the procedure that it is about.
    pub fn procedure(&self) -> Option<&str> {
        match self {
            Self::WatchedRun(WatchedRun { watched, .. })
            | Self::Test(Test { watched, .. })
            | Self::Authority(Authority { watched, .. })
            | Self::Questions(Questions { watched, .. }) => Some(&watched.procedure),
            Self::Reading { procedure, .. } => Some(procedure),
            Self::Note { about, .. } => about.as_deref(),
            Self::Run(run) => Some(&run.work.procedure),
            Self::TestCut(cut) => Some(&cut.work.procedure),
            Self::NearMiss(one) => one.procedure.as_deref(),
            Self::SheetFault(one) => Some(&one.procedure),
            _ => self.lesson().map(|lesson| lesson.procedure.as_str()),
        }
    }

    /// Ids of its machine and its cutter.
    pub fn machine_and_cutter(&self) -> (Option<&str>, Option<&str>) {
        match self {
            Self::Reading {
                machine, cutter, ..
            } => (machine.as_deref(), cutter.as_deref()),
            Self::Run(run) => (run.work.machine.as_deref(), run.work.cutter.as_deref()),
            Self::TestCut(cut) => (cut.work.machine.as_deref(), cut.work.cutter.as_deref()),
            Self::CutterMeasured(one) => (None, Some(&one.cutter)),
            Self::NearMiss(one) => (one.machine.as_deref(), None),
            Self::WatchedRun(run) => (run.machines.first().map(String::as_str), None),
            Self::Test(test) => (test.machines.first().map(String::as_str), None),
            _ => (None, None),
        }
    }
}
