//! `faceside train PROCEDURE --sign` and `--questions`: asked in plain lines, judged by the roll
//! before anything is written down.

use super::args::SignWord;
use super::clock::{now, today};
use super::input::line;
use super::open::events;
use super::output::Output;
use super::train_roll::roll;
use super::{End, Stop};
use crate::diag::{Code, Fault};
use crate::shoplog::{Day, Event, Questions, Watched, say};
use crate::store::{Workshop, write_down};
use crate::training::{Grounds, Lesson, Signature, Signing, plain, questions, told};

/// What is said when an answer cannot be written down.
const KEPT: &str = "the answers before this one are in the record; this one is not";

/// Signs what was watched.
pub(super) fn sign(
    what: SignWord,
    watched: &Watched,
    lesson: Lesson,
    workshop: &Workshop,
    out: &mut Output,
) -> Result<End, Stop> {
    let what = match what {
        SignWord::Taught => Signature::Taught,
        SignWord::Run => Signature::Run,
        SignWord::Tested => Signature::Tested,
        SignWord::Allowed => Signature::Allowed,
    };
    let mut roll = roll(workshop, &events(workshop, out));
    let today = Day::new(&today())?;
    // That nobody signs for himself is told by the next one.
    if watched.by != watched.learner {
        let (by, id) = (&watched.by, &watched.procedure);
        roll.may_sign(by, id, &today, &workshop.instructors)?;
    }
    roll.clone().may(what, watched, &lesson, &today)?;
    let grounds = Grounds {
        today: today.clone(),
        unit: workshop.shop.units,
        machines: workshop.machines.iter().map(|one| one.id.clone()).collect(),
        latest: roll.latest(&watched.learner, &watched.procedure),
    };
    let mut signing = Signing::new(what, watched, lesson, grounds);
    while let Some((show, prompt)) = signing.ask() {
        out.say(&plain(&show, Output::width()));
        out.ask(&format!("{} [{}]", prompt.text, prompt.wants.choices()));
        let Some(line) = line() else {
            let message = "the answers ended before all was asked; nothing is signed";
            let fault = Fault::error(Code::VALUE_MISSING, message);
            return Err(Stop::Usage(fault.hint("sign it again, with every answer")));
        };
        if let Err(fault) = signing.take(&line) {
            out.report([&fault]);
        }
    }
    let Some(event) = signing.event() else {
        return Ok(End::Done);
    };
    roll.take(event, &today)?;
    write(event, workshop, out)?;
    let state = roll.state(&watched.learner, &watched.procedure, &today)?;
    if let Some(state) = state {
        out.say(&format!(
            "{} is now: {} ({})",
            watched.learner,
            state.stage.cell(),
            state.reason
        ));
        if !state.next.is_empty() {
            out.say(&format!("Next: {}", state.next));
        }
    }
    Ok(End::Done)
}

/// Asks the questions of the person's next attempt; each answer is on the disk before the next
/// question is asked, as in a lesson.
pub(super) fn ask(
    watched: &Watched,
    lesson: &Lesson,
    workshop: &Workshop,
    out: &mut Output,
) -> Result<End, Stop> {
    let roll = roll(workshop, &events(workshop, out));
    let attempt = roll.attempt(&watched.learner, &watched.procedure);
    let event = |answers| {
        Event::Questions(Questions {
            watched: watched.clone(),
            attempt,
            answers,
        })
    };
    let (mut answers, mut last) = (Vec::new(), None);
    let all = questions(lesson, &watched.learner, attempt);
    'all: for question in &all {
        out.say(&plain(&question.show(), Output::width()));
        loop {
            out.ask("Which is right? [number; the end of the input stops]");
            let Some(line) = line() else { break 'all };
            match question.answered(&line) {
                Ok(answered) => {
                    let one = event(vec![answered.clone()]);
                    let written = write_down(&workshop.home(), &now(), &one);
                    last = Some(written.map_err(|fault| fault.hint(KEPT))?);
                    out.say(&plain(&[told(&answered)], Output::width()));
                    answers.push(answered);
                    break;
                }
                Err(fault) => out.report([&fault]),
            }
        }
    }
    let said = match last {
        None => "No question was answered; nothing is recorded.".to_owned(),
        Some(last) => {
            let said = say(&event(answers), workshop.shop.units);
            format!("Recorded, an answer a line, the last {last}: {said}")
        }
    };
    out.say(&said);
    Ok(End::Done)
}

fn write(event: &Event, workshop: &Workshop, out: &mut Output) -> Result<(), Stop> {
    let mark = write_down(&workshop.home(), &now(), event)?;
    out.say(&format!(
        "Recorded {mark}: {}",
        say(event, workshop.shop.units)
    ));
    Ok(())
}
