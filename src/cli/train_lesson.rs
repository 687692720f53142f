//! Leads a lesson: screens in a terminal, plain lines in a pipe or with `--lines`.
//!
//! Both ask what the same talk asks. Every event is on disk before the next question is asked, so
//! that a lesson that stopped, however it did, goes on there.

use super::clock::now;
use super::input::line;
use super::output::Output;
use super::screen::{Answer, Screen, has_room, is_terminal};
use super::{End, Stop};
use crate::shoplog::Standing;
use crate::store::{Workshop, record_file, write_down};
use crate::training::{Lesson, Place, Prompt, Say, Sitting, Stopped, Talk, Turn, Wants, plain};

/// Exit code of a program that a signal ended, as shells know it: this and the signal's number.
const SIGNALLED: i32 = 128;

/// What is said when a lesson cannot be written down any more.
const GO_ON: &str = "what was answered before this is in the record; the same command goes on there \
    when it can be written again";

/// Where a lesson is shown and answered.
enum Face {
    Lines,
    Screen(Box<Screen>),
}

impl Face {
    /// Screens where a terminal has room for them.
    fn new(lesson: &Lesson, lines: bool, out: &mut Output) -> Self {
        if lines || !is_terminal() {
            return Self::Lines;
        }
        if !has_room() {
            out.say("This terminal is too small for screens; the lesson is asked in lines.");
            return Self::Lines;
        }
        match Screen::begin(lesson.title.clone(), out.has_color()) {
            Ok(screen) => Self::Screen(Box::new(screen)),
            Err(error) => {
                out.say(&format!(
                    "The terminal gives no single keys ({error}); the lesson is asked in lines."
                ));
                Self::Lines
            }
        }
    }

    /// Shows and asks; none at the end of the input, and for a pause.
    fn answer(
        &mut self,
        turn: &Turn,
        prompt: &Prompt,
        place: Option<&Place>,
        out: &mut Output,
    ) -> Option<String> {
        if let Self::Screen(screen) = self {
            match screen.answer(turn, prompt, place) {
                Answer::Line(line) => return Some(line),
                Answer::Pause => return None,
                Answer::Small => *self = Self::Lines,
            }
        }
        out.say(&plain(&turn.all(), Output::width()));
        out.ask(&format!("{} [{}]", prompt.text, prompt.wants.choices()));
        line()
    }

    /// Puts the terminal back; gives the signal that ended the lesson.
    fn end(self) -> Option<i32> {
        match self {
            Self::Lines => None,
            Self::Screen(screen) => screen.signal(),
        }
    }
}

/// Leads it: from where one like it stopped, when that is wanted.
pub(super) fn lead(
    lesson: Lesson,
    sitting: Sitting,
    lines: bool,
    (workshop, events): (&Workshop, &[Standing]),
    out: &mut Output,
) -> Result<End, Stop> {
    let home = workshop.home();
    let fresh = Talk::new(lesson.clone(), sitting.clone()).map_err(Stop::Usage)?;
    let mut face = Face::new(&lesson, lines, out);
    let stopped = stopped(events, &sitting, &lesson);
    let resumed = match &stopped {
        Some(stopped) => Talk::resume(lesson.clone(), sitting, stopped).map_err(Stop::Usage)?,
        None => None,
    };
    let (mut talk, why) = match (stopped, resumed) {
        (Some(stopped), Some(talk)) => match goes_on(&stopped, &talk, &mut face, out) {
            Some(true) => (talk, None),
            Some(false) => (fresh, None),
            None => {
                let signal = face.end();
                out.say("Nothing was begun; the lesson stays where it stopped.");
                return Ok(ended(signal));
            }
        },
        (stopped, _) => (fresh, stopped.and_then(|stopped| stopped.other(&lesson))),
    };
    let mut turn = talk.open();
    if let Some(why) = why {
        let words =
            format!("A lesson that stopped is not gone on with: {why}. This one begins anew.");
        turn.said.insert(0, Say::Text(words));
    }
    loop {
        for event in &turn.events {
            write_down(&home, &now(), event).map_err(|fault| fault.hint(GO_ON))?;
        }
        let Some(prompt) = &turn.ask else { break };
        let answer = face.answer(&turn, prompt, Some(&talk.place()), out);
        turn = talk.next(answer.as_deref());
    }
    let signal = face.end();
    out.say(&plain(&turn.all(), Output::width()));
    let record = record_file(&home, &now());
    out.say(&format!("Recorded in {}", record.display()));
    Ok(ended(signal))
}

fn ended(signal: Option<i32>) -> End {
    match signal {
        Some(signal) => std::process::exit(SIGNALLED + signal),
        None => End::Done,
    }
}

fn stopped(events: &[Standing], sitting: &Sitting, lesson: &Lesson) -> Option<Stopped> {
    let events = events.iter().map(|one| (&one.event, one.day()));
    Stopped::find(events, &sitting.learner, &lesson.procedure)
}

/// Asks whether a lesson goes on where it stopped; none when nothing is answered.
fn goes_on(stopped: &Stopped, talk: &Talk, face: &mut Face, out: &mut Output) -> Option<bool> {
    let place = talk.stopped_at();
    let words = format!(
        "The last lesson of this learner with this procedure stopped on {}, led by {}.",
        stopped.day, stopped.by
    );
    let choice = "Yes goes on there; no begins a new lesson, and what is recorded stays.";
    let prompt = Prompt {
        text: format!("Go on at {}?", place.words()),
        wants: Wants::YesNo,
    };
    let mut turn = Turn {
        show: [words, choice.to_owned()].map(Say::Text).to_vec(),
        is_new: true,
        ..Turn::default()
    };
    loop {
        let answer = face.answer(&turn, &prompt, Some(&place), out)?;
        match answer.trim() {
            "y" | "Y" | "yes" => return Some(true),
            "n" | "N" | "no" => return Some(false),
            "q" | "pause" => return None,
            _ => {
                turn = Turn {
                    said: vec![Say::Text("Answer y or n; q leaves it as it is.".to_owned())],
                    ..Turn::default()
                };
            }
        }
    }
}
