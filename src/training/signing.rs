//! What is asked when something of a training is signed, and the event made of the answers.
//!
//! A test is watched step by step and reading by reading, without help (T13), and ends at an unsafe
//! act (T14). Pure like the lesson: a line comes in, a question goes out; nothing is signed before
//! the last answer, and no answer is made up.

use super::card::{cautions, check};
use super::{Lesson, LessonStep, Prompt, Say, Wants, measured};
use crate::diag::{Code, Fault};
use crate::shoplog::{
    Authority, Day, Element, Event, Taught, Test, TestReading, Watched, WatchedRun,
};
use crate::units::Unit;

const BRIEFING: &str = "The test: the whole job at the machine, with the sheet that the learner finds, \
    without help or hints. An act that can hurt ends it as not passed. Is the learner told so?";

/// What is signed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Signature {
    /// The procedure is taught.
    Taught,
    /// A run was watched.
    Run,
    /// A test was watched.
    Tested,
    /// The learner may work alone.
    Allowed,
}

/// What a signature is made with.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Grounds {
    /// The day.
    pub today: Day,
    /// Unit of a bare number.
    pub unit: Unit,
    /// Ids of the shop's machines.
    pub machines: Vec<String>,
    /// Last day that an authority may have, when there is a test.
    pub latest: Option<Day>,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Ask {
    Briefed,
    Element(usize),
    Reading(usize),
    Act,
    Prompts,
    Helped,
    Explained,
    Unsafe,
    Note,
    Machines,
    Limits,
    Until,
}

/// A signature under way.
#[derive(Debug, Clone)]
pub struct Signing {
    lesson: Lesson,
    grounds: Grounds,
    asks: Vec<Ask>,
    at: usize,
    event: Event,
}

impl Signature {
    /// The least event of its kind, which the roll refuses when nothing of the kind can be signed.
    pub fn least(self, watched: &Watched, lesson: &Lesson, today: &Day) -> Event {
        let (watched, machines) = (watched.clone(), lesson.machines());
        match self {
            Self::Taught => Event::SignedTaught {
                lesson: Taught {
                    learner: watched.learner,
                    instructor: watched.by,
                    procedure: watched.procedure,
                    revision: watched.revision,
                },
            },
            Self::Run => Event::WatchedRun(WatchedRun {
                watched,
                machines,
                helped: false,
                explained: false,
                unsafe_act: false,
                note: None,
            }),
            Self::Tested => Event::Test(Test {
                watched,
                machines,
                elements: Vec::new(),
                readings: Vec::new(),
                prompts: 0,
                unsafe_act: None,
            }),
            Self::Allowed => Event::Authority(Authority {
                watched,
                machines,
                limits: None,
                until: today.clone(),
            }),
        }
    }
}

impl Signing {
    /// Nothing is answered yet.
    pub fn new(what: Signature, watched: &Watched, lesson: Lesson, grounds: Grounds) -> Self {
        let asks = match what {
            Signature::Taught => Vec::new(),
            Signature::Run => vec![Ask::Helped, Ask::Explained, Ask::Unsafe, Ask::Note],
            Signature::Tested => test_asks(&lesson),
            Signature::Allowed => vec![Ask::Machines, Ask::Limits, Ask::Until],
        };
        Self {
            event: what.least(watched, &lesson, &grounds.today),
            lesson,
            grounds,
            asks,
            at: 0,
        }
    }

    /// The event, once all is answered.
    pub fn event(&self) -> Option<&Event> {
        (self.at == self.asks.len()).then_some(&self.event)
    }

    fn step(&self, at: usize) -> Option<&LessonStep> {
        self.lesson
            .units
            .iter()
            .flat_map(|unit| &unit.steps)
            .nth(at)
    }

    /// What is shown and asked now; none when all is answered.
    pub fn ask(&self) -> Option<(Vec<Say>, Prompt)> {
        let ask = *self.asks.get(self.at)?;
        let show = match ask {
            Ask::Element(at) => self.step(at).map(step).unwrap_or_default(),
            Ask::Reading(at) => {
                let found = self.step(at).and_then(|step| step.check.as_ref());
                found.map(check).map(Say::Item).into_iter().collect()
            }
            _ => Vec::new(),
        };
        let machines = self.lesson.machines().join(" ");
        let (text, wants) = match ask {
            Ask::Briefed => (BRIEFING.to_owned(), Wants::YesNo),
            Ask::Element(_) => ("Done as written, in its place?".to_owned(), Wants::Held),
            Ask::Reading(_) => ("The learner's reading".to_owned(), Wants::Value),
            Ask::Act => ("What was done that can hurt?".to_owned(), Wants::Text),
            Ask::Prompts => ("How often was help given?".to_owned(), Wants::Count),
            Ask::Helped => ("Was any help given?".to_owned(), Wants::YesNo),
            Ask::Explained => (
                "Did the learner say each step, what makes or breaks it, why, and what can hurt?"
                    .to_owned(),
                Wants::YesNo,
            ),
            Ask::Unsafe => ("Was anything done that can hurt?".to_owned(), Wants::YesNo),
            Ask::Note => ("Slips, and anything else".to_owned(), Wants::Note),
            Ask::Machines => (format!("Machines (Enter: {machines})"), Wants::Machines),
            Ask::Limits => (
                "Limits, such as a largest or smallest piece".to_owned(),
                Wants::Note,
            ),
            Ask::Until => (
                match &self.grounds.latest {
                    Some(day) => format!("Last day (Enter: {day}, the latest)"),
                    None => "Last day".to_owned(),
                },
                Wants::Until,
            ),
        };
        Some((show, Prompt { text, wants }))
    }

    /// Takes a line.
    ///
    /// # Errors
    /// What is wrong with it; it is then asked again.
    pub fn take(&mut self, line: &str) -> Result<(), Fault> {
        let Some(ask) = self.asks.get(self.at).copied() else {
            return Ok(());
        };
        let line = line.trim();
        let mut event = self.event.clone();
        match (&mut event, ask) {
            (_, Ask::Briefed) if !yes(line)? => {
                let message = "a test begins when the learner knows what ends it";
                return Err(Fault::error(Code::REFUSED, message).hint("tell it; then answer y"));
            }
            (Event::Test(test), _) => self.of_test(test, ask, line)?,
            (Event::WatchedRun(run), Ask::Helped) => run.helped = yes(line)?,
            (Event::WatchedRun(run), Ask::Explained) => run.explained = yes(line)?,
            (Event::WatchedRun(run), Ask::Unsafe) => run.unsafe_act = yes(line)?,
            (Event::WatchedRun(run), _) => run.note = words(line),
            (Event::Authority(one), Ask::Machines) if !line.is_empty() => {
                one.machines = self.machines(line)?;
            }
            (Event::Authority(one), Ask::Limits) => one.limits = words(line),
            (Event::Authority(one), Ask::Until) => one.until = self.until(line)?,
            _ => {}
        }
        self.event = event;
        self.at += 1;
        Ok(())
    }

    fn of_test(&mut self, test: &mut Test, ask: Ask, line: &str) -> Result<(), Fault> {
        match ask {
            Ask::Element(at) => {
                let step = self.step(at).map_or(0, |step| step.number);
                let is_unsafe = line == "u";
                let held = !is_unsafe && yes(line)?;
                test.elements.push(Element { step, held });
                if is_unsafe {
                    self.asks.truncate(self.at + 1);
                    self.asks.push(Ask::Act);
                }
            }
            Ask::Reading(at) => {
                let Some(step) = self.step(at) else {
                    return Ok(());
                };
                let Some(check) = &step.check else {
                    return Ok(());
                };
                let value = measured(check, line, self.grounds.unit)?.value;
                test.readings.push(TestReading {
                    step: step.number,
                    what: crate::procedure::plain(&check.measure),
                    value,
                    low: check.low,
                    high: check.high,
                });
            }
            Ask::Act => {
                let act = words(line).ok_or_else(|| {
                    let fault = Fault::error(Code::VALUE_MISSING, "it is not said what was done");
                    fault.hint("a few words, no names of people")
                })?;
                test.unsafe_act = Some(act);
            }
            Ask::Prompts => {
                test.prompts = line.parse().map_err(|_| {
                    let message = format!("`{line}` is not a whole number");
                    Fault::error(Code::QUANTITY_SYNTAX, message).hint("type 0 when there was none")
                })?;
            }
            _ => {}
        }
        Ok(())
    }

    fn machines(&self, line: &str) -> Result<Vec<String>, Fault> {
        let ids = line.split([' ', ',']).filter(|id| !id.is_empty());
        let known = &self.grounds.machines;
        ids.map(|id| {
            if known.iter().any(|one| one == id) {
                return Ok(id.to_owned());
            }
            let fault = Fault::error(
                Code::UNKNOWN_NAME,
                format!("the shop has no machine `{id}`"),
            );
            Err(fault.hint(format!("its machines: {}", known.join(", "))))
        })
        .collect()
    }

    fn until(&self, line: &str) -> Result<Day, Fault> {
        match (&self.grounds.latest, line) {
            (Some(latest), "") => Ok(latest.clone()),
            _ => Day::new(line),
        }
    }
}

fn test_asks(lesson: &Lesson) -> Vec<Ask> {
    let steps = lesson.units.iter().flat_map(|unit| &unit.steps);
    let mut asks = vec![Ask::Briefed];
    for (at, step) in steps.enumerate() {
        asks.push(Ask::Element(at));
        asks.extend(step.check.as_ref().map(|_| Ask::Reading(at)));
    }
    asks.push(Ask::Prompts);
    asks
}

/// A step for the assessor: its cautions, then what is to be seen.
fn step(step: &LessonStep) -> Vec<Say> {
    let mut show = vec![Say::Head(format!("Step {}", step.number))];
    show.extend(cautions(step.points()));
    show.push(Say::Text(step.act.clone()));
    show
}

/// Enter is never taken for yes.
fn yes(line: &str) -> Result<bool, Fault> {
    match line {
        "y" | "Y" | "yes" => Ok(true),
        "n" | "N" | "no" => Ok(false),
        _ => Err(
            Fault::error(Code::QUANTITY_SYNTAX, "this is answered by y or n").hint("type y or n"),
        ),
    }
}

fn words(line: &str) -> Option<String> {
    (!line.is_empty()).then(|| line.to_owned())
}
