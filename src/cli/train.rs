//! `faceside train PROCEDURE`: a lesson in the terminal, written to the shop record as it goes.
//!
//! Reads plain lines, so that it works in a pipe; the end of the input is a pause. Every event is
//! on disk before the next question is asked.

use std::path::PathBuf;

use super::args::{Common, Train};
use super::clock::{now, today};
use super::input::line;
use super::jobs::job;
use super::open::open;
use super::output::Output;
use super::{End, Stop};
use crate::diag::{Code, Fault, nearest};
use crate::procedure::{Filled, Given, Procedure, example, fill};
use crate::shoplog::{Day, Person, read};
use crate::store::{Workshop, append_event, record_file};
use crate::training::{Lesson, Sitting, Talk, lesson_sheet, plain};

/// Leads a lesson.
pub(super) fn train(typed: &Train, common: &Common, out: &mut Output) -> Result<End, Stop> {
    let workshop = open(common, out)?;
    let procedure = procedure(&typed.procedure, &workshop)?;
    let speech = workshop.speech();
    let say = |text: &str| speech.say(text).into_owned();
    let filled = filled(typed, procedure, &workshop)?.spoken(&say);
    let lesson = Lesson::new(&filled, &say(&workshop.limits.short))?;
    if typed.sheet {
        out.say(&lesson_sheet(&lesson, Output::width()));
        return Ok(End::Done);
    }
    let sitting = Sitting {
        learner: person(typed.person.as_deref(), "--person", "who learns")?,
        instructor: person(typed.by.as_deref(), "--by", "who teaches")?,
        today: Day::new(&today())?,
        unit: workshop.shop.units,
        from: u32::try_from(typed.from).unwrap_or(u32::MAX),
    };
    let record = record(&workshop, out);
    let mut talk = Talk::new(lesson, sitting).map_err(Stop::Usage)?;
    let mut turn = talk.open();
    loop {
        for event in &turn.events {
            append_event(&record, &now(), event)?;
        }
        out.say(&plain(&turn.show, Output::width()));
        let Some(prompt) = &turn.ask else { break };
        out.ask(&format!("{} [{}]", prompt.text, prompt.wants.choices()));
        turn = talk.next(line().as_deref());
    }
    out.say(&format!("Recorded in {}", record.display()));
    Ok(End::Done)
}

fn person(typed: Option<&str>, flag: &str, who: &str) -> Result<Person, Stop> {
    let Some(id) = typed else {
        let message = format!("a lesson is recorded with {who}");
        let fault = Fault::error(Code::VALUE_MISSING, message);
        return Err(Stop::Usage(
            fault.hint(format!("add `{flag} ID`, an id or initials")),
        ));
    };
    Person::new(id).map_err(Stop::Usage)
}

fn procedure<'w>(id: &str, workshop: &'w Workshop) -> Result<&'w Procedure, Stop> {
    workshop.procedures.get(id).ok_or_else(|| {
        let ids = || workshop.procedures.keys().map(String::as_str);
        let hint = match nearest(id, ids()) {
            Some(near) => format!("did you mean `{near}`?"),
            None => format!("procedures here: {}", ids().collect::<Vec<_>>().join(", ")),
        };
        let message = format!("no procedure has the id `{id}`");
        Stop::Usage(Fault::error(Code::UNKNOWN_NAME, message).hint(hint))
    })
}

/// The procedure with the numbers of a job's first part that uses it, or of its own example.
fn filled(typed: &Train, procedure: &Procedure, workshop: &Workshop) -> Result<Filled, Stop> {
    let given = match &typed.job {
        None => example(procedure, workshop.place()),
        Some(name) => part(name, procedure, workshop)?,
    };
    Ok(fill(procedure, workshop.place(), &given)?)
}

fn part(name: &str, procedure: &Procedure, workshop: &Workshop) -> Result<Given, Stop> {
    let job = job(Some(name), workshop)?;
    let parts = job.parts.into_iter();
    let part = parts
        .into_iter()
        .find(|part| part.procedure.0 == procedure.id);
    let Some(part) = part else {
        let message = format!("no part of `{name}` is cut by `{}`", procedure.id);
        return Err(Stop::Usage(Fault::error(Code::UNKNOWN_NAME, message)));
    };
    let mut given = part.given;
    if let Some((hand, _)) = part.pieces.first().filter(|(hand, _)| !hand.is_empty()) {
        given
            .chosen
            .insert("hand".to_owned(), (hand.clone(), part.procedure.1));
    }
    Ok(given)
}

/// The record of the shop; of the folder `out` when there is no shop. Lines that were set aside
/// are told.
fn record(workshop: &Workshop, out: &Output) -> PathBuf {
    for source in &workshop.record {
        out.report(read(source).1.iter());
    }
    record_file(&workshop.home(), &today())
}
