//! Lessons on the four-step method: prepare, present, try out, follow up.
//!
//! A [`Lesson`] is the job breakdown of a filled procedure; [`lesson_sheet`] prints it, [`Talk`]
//! leads an instructor and a learner through it and says what to record. The method, its ticks
//! and the units of at most seven steps: `procedures.md` 1C (T1 to T10) and section 4, whose own
//! source is the job-instruction card of the 1940s (read for the steps; the seven is a choice of
//! this house). A lesson is practice with help in it: it tests nobody and certifies nothing. What follows it (watched runs,
//! the test, the authority, its end) is kept by [`Roll`].

mod answer;
mod asked;
mod card;
mod lesson;
mod people;
mod place;
mod progress;
mod question;
mod roll;
mod say;
mod sheet;
mod signing;
mod state;
mod stopped;
mod talk;
mod words;

pub use asked::{NEAREST, Question, questions, told};
pub use card::ticks;
pub use lesson::{Lesson, LessonStep, LessonUnit, Point, SetUp, UNIT_STEPS};
pub use people::read_people;
pub use place::Place;
pub use question::{Measured, heard_in, measured};
pub use roll::{Course, Roll};
pub use say::{Prompt, Say, Wants, plain, wrap};
pub use sheet::lesson_sheet;
pub use signing::{Grounds, Signature, Signing};
pub use state::{AUTHORITY_DAYS, RUN_DAYS, RUNS, Row, Stage, State, Timetable, UNUSED_DAYS};
pub use stopped::Stopped;
pub use talk::{Sitting, Talk, Turn};
