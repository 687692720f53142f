//! What is recorded of one person and one procedure, and the state that follows from it on a day.

use std::collections::{BTreeMap, BTreeSet};

use super::Course;
use super::state::{RUN_DAYS, RUNS, Stage, State, UNUSED_DAYS};
use crate::shoplog::{Authority, Day, Person};

/// What stops an authority.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Hold {
    /// Over after a clean watched run.
    NearMiss(String),
    /// Over after practice and a test.
    Unsafe(String),
}

/// What is recorded of one person and one procedure.
#[derive(Debug, Clone, Default)]
pub(super) struct Card {
    /// Whether each step was done in a lesson, by revision.
    pub(super) tried: BTreeMap<u32, BTreeMap<u32, bool>>,
    pub(super) taught: Option<(Person, Day)>,
    /// Watched runs since then.
    pub(super) runs: u32,
    /// Days of the clean ones in a row.
    pub(super) clean: Vec<Day>,
    pub(super) tested: Option<(Person, Day)>,
    /// Whether an authority rests on that test already.
    pub(super) is_spent: bool,
    pub(super) failed: Option<String>,
    pub(super) authority: Option<Authority>,
    /// Last day of use that counts.
    pub(super) used: Option<Day>,
    pub(super) hold: Option<Hold>,
    /// Times that questions were put.
    pub(super) asked: u32,
}

impl Hold {
    pub(super) fn words(&self) -> &str {
        match self {
            Self::NearMiss(words) | Self::Unsafe(words) => words,
        }
    }

    pub(super) fn next(&self) -> String {
        match self {
            Self::NearMiss(_) => {
                "go through what happened and what was changed, then one clean watched run"
                    .to_owned()
            }
            Self::Unsafe(_) => "practice and a test, as at first".to_owned(),
        }
    }
}

impl Card {
    pub(super) fn has_practised(&self) -> bool {
        let days: BTreeSet<&Day> = self.clean.iter().collect();
        self.clean.len() >= RUNS as usize && days.len() >= RUN_DAYS as usize
    }

    pub(super) fn practice(&self) -> String {
        let days: BTreeSet<&Day> = self.clean.iter().collect();
        format!(
            "{} of {RUNS} clean watched runs in a row, on {} of {RUN_DAYS} days",
            self.clean.len(),
            days.len()
        )
    }

    fn clean_runs(&self) -> u32 {
        u32::try_from(self.clean.len()).unwrap_or(RUNS).min(RUNS)
    }

    /// Days without use, when they are too many.
    pub(super) fn unused(&self, today: &Day) -> Option<i32> {
        let days = today.since(self.used.as_ref()?);
        (days > UNUSED_DAYS).then_some(days)
    }

    pub(super) fn state(&self, course: &Course, lacking: Option<String>, today: &Day) -> State {
        let (stage, reason, next) = self.stage(course, lacking, today);
        let authority = self.authority.as_ref();
        State {
            stage,
            reason,
            next,
            machines: authority.map_or_else(Vec::new, |one| one.machines.clone()),
            limits: authority.and_then(|one| one.limits.clone()),
        }
    }

    fn stage(
        &self,
        course: &Course,
        lacking: Option<String>,
        today: &Day,
    ) -> (Stage, String, String) {
        if let Some(hold) = &self.hold {
            let next = match hold {
                Hold::Unsafe(_) if self.has_practised() => self.test_next(lacking),
                _ => hold.next(),
            };
            return (Stage::Suspended, hold.words().to_owned(), next);
        }
        if let Some(authority) = &self.authority {
            return self.authorised(authority, course, today);
        }
        if let Some((by, day)) = &self.tested {
            let next = "the authority to work alone, signed: machines, limits, last day";
            let reason = format!("test passed on {day}, watched by {by}");
            return (Stage::Tested, reason, next.to_owned());
        }
        let Some((by, day)) = &self.taught else {
            let steps = self.tried.get(&course.revision);
            let did = |step: &u32| steps.is_some_and(|steps| steps.get(step) == Some(&true));
            let open = (1..=course.steps).find(|step| !did(step));
            let (reason, next) = match open {
                Some(step) => (
                    format!("step {step} is not done in a lesson yet"),
                    format!("a lesson, from step {step}"),
                ),
                None => (
                    "every step was done in a lesson".to_owned(),
                    "the signature as taught".to_owned(),
                ),
            };
            return (Stage::None, reason, next);
        };
        let failed = self.failed.as_ref();
        let failed = failed.map_or_else(String::new, |why| format!("; test not passed: {why}"));
        let reason = format!("taught on {day} by {by}{failed}");
        let next = if self.has_practised() {
            self.test_next(lacking)
        } else {
            format!("practice: {}", self.practice())
        };
        let stage = match self.runs {
            0 => Stage::Taught,
            _ => Stage::Practising {
                runs: self.clean_runs(),
            },
        };
        (stage, reason, next)
    }

    fn test_next(&self, lacking: Option<String>) -> String {
        match (lacking, &self.taught) {
            (Some(lacking), _) => format!("first the tests of: {lacking}"),
            (None, Some((by, _))) => format!("the test, watched by another than {by}"),
            (None, None) => "a lesson".to_owned(),
        }
    }

    fn authorised(
        &self,
        authority: &Authority,
        course: &Course,
        today: &Day,
    ) -> (Stage, String, String) {
        let until = authority.until.clone();
        let signed = format!("signed by {}", authority.watched.by);
        if until < *today {
            let next = "a new test, then the authority again".to_owned();
            return (
                Stage::Expired,
                format!("over since {until}; {signed}"),
                next,
            );
        }
        if let Some(days) = self.unused(today) {
            let reason = format!("not used for {days} days; it rests after {UNUSED_DAYS}");
            let next = "one clean watched run".to_owned();
            return (Stage::Expired, reason, next);
        }
        let since = authority.watched.revision;
        let next = if since < course.revision {
            format!(
                "go through what has changed: revision {since} was signed, {} holds",
                course.revision
            )
        } else {
            String::new()
        };
        (Stage::Authorised { until }, signed, next)
    }
}
