//! How far a person is with a procedure, why, and what is needed next; and the values of this
//! house that decide it.
//!
//! | value | is | from |
//! |---|---|---|
//! | [`RUNS`] | 3 clean watched runs in a row | house value, no source gives a number |
//! | [`RUN_DAYS`] | on at least 2 days | house value |
//! | [`UNUSED_DAYS`] | 183 days without use | house value; about half the gain in accuracy is lost after some 6.5 months unused (`procedures.md` T22) |
//! | [`AUTHORITY_DAYS`] | 1095 days at most | refresher at least every three to five years (`procedures.md` T21) |

use crate::shoplog::{Day, Person};

/// Clean watched runs in a row that a test wants before it; a house value.
pub const RUNS: u32 = 3;

/// Days that these runs are spread over at least; a house value.
pub const RUN_DAYS: u32 = 2;

/// Days without use after which an authority rests; a house value.
pub const UNUSED_DAYS: i32 = 183;

/// Most days from a test to the end of the authority that rests on it: three years.
pub const AUTHORITY_DAYS: i32 = 1095;

/// How far a person is with a procedure.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Stage {
    /// Not taught yet.
    None,
    /// Signed as taught.
    Taught,
    /// Practising, with so many clean watched runs in a row.
    Practising {
        /// Clean runs.
        runs: u32,
    },
    /// The test is passed.
    Tested,
    /// May work alone.
    Authorised {
        /// Last day of it.
        until: Day,
    },
    /// The authority is over, or rests because it was not used.
    Expired,
    /// Stopped by an event.
    Suspended,
}

impl Stage {
    /// Its name in JSON.
    pub fn name(&self) -> &'static str {
        match self {
            Self::None => "none",
            Self::Taught => "taught",
            Self::Practising { .. } => "practising",
            Self::Tested => "tested",
            Self::Authorised { .. } => "authorised",
            Self::Expired => "expired",
            Self::Suspended => "suspended",
        }
    }

    /// It in a cell of the timetable.
    pub fn cell(&self) -> String {
        match self {
            Self::None => "begun".to_owned(),
            Self::Practising { runs } => format!("run {runs} of {RUNS}"),
            Self::Authorised { until } => format!("until {until}"),
            other => other.name().to_owned(),
        }
    }
}

/// A person's state with a procedure.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct State {
    /// How far.
    pub stage: Stage,
    /// Why.
    pub reason: String,
    /// What is needed next; empty when nothing is.
    pub next: String,
    /// Machines of the authority.
    pub machines: Vec<String>,
    /// Its limits in words.
    pub limits: Option<String>,
}

/// People against procedures (T8).
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Timetable {
    /// The day that it holds for.
    pub day: Day,
    /// Everybody of whom anything is recorded.
    pub people: Vec<Person>,
    /// The procedures that anybody has begun.
    pub rows: Vec<Row>,
    /// How many procedures nobody has begun.
    pub others: usize,
}

/// A procedure of the timetable.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Row {
    /// Id of the procedure.
    pub procedure: String,
    /// Its title.
    pub title: String,
    /// The state of each person, in the order of the people; none where nothing is recorded.
    pub states: Vec<Option<State>>,
}

impl Row {
    /// How many may do it alone on that day.
    pub fn allowed(&self) -> usize {
        let states = self.states.iter().flatten();
        states
            .filter(|state| matches!(state.stage, Stage::Authorised { .. }))
            .count()
    }
}

impl Timetable {
    /// Heads of the table: the procedure, each person, how many may.
    pub fn head(&self) -> Vec<String> {
        let people = self.people.iter().map(ToString::to_string);
        let first = std::iter::once("procedure".to_owned());
        first
            .chain(people)
            .chain(["may alone".to_owned()])
            .collect()
    }

    /// A row in cells, an empty one where nothing is recorded.
    pub fn cells(row: &Row) -> Vec<String> {
        let states = row.states.iter().map(|state| match state {
            Some(state) => state.stage.cell(),
            None => String::new(),
        });
        let first = std::iter::once(row.procedure.clone());
        first
            .chain(states)
            .chain([row.allowed().to_string()])
            .collect()
    }

    /// What the figures of the table rest on.
    pub fn house_values() -> String {
        format!(
            "House values: {RUNS} clean watched runs in a row, on at least {RUN_DAYS} days, before a \
             test; an authority ends at most {AUTHORITY_DAYS} days after its test, and rests after \
             {UNUSED_DAYS} days without use."
        )
    }
}
