//! `faceside train PROCEDURE`: who and what a lesson is for; its sheet; and, in the files beside, how
//! it is led, the timetable and signatures.

use super::args::{Common, Train};
use super::clock::today;
use super::jobs::job;
use super::open::{events, open};
use super::output::Output;
use super::train_roll::timetable;
use super::{End, Stop, train_lesson, train_roll, train_sign};
use crate::diag::{Code, Fault, nearest};
use crate::procedure::{Filled, Given, Procedure, example, fill};
use crate::render::{lesson_html, timetable_html};
use crate::search::Speech;
use crate::shop::Paper;
use crate::shoplog::{Day, Person, Watched};
use crate::store::{Workshop, write_whole};
use crate::training::{Lesson, Sitting, lesson_sheet};

/// Leads a lesson.
pub(super) fn train(typed: &Train, common: &Common, out: &mut Output) -> Result<End, Stop> {
    let workshop = open(common, out)?;
    if typed.timetable {
        let table = timetable(&workshop, common.json, out)?;
        return sheet(typed, &workshop, out, |paper, speech| {
            let html = timetable_html(&table, &workshop.shop.name, paper, speech)?;
            Ok(("timetable.html".to_owned(), html))
        });
    }
    let Some(id) = &typed.procedure else {
        let who = typed.person.as_deref().ok_or_else(nothing_named)?;
        let who = Person::new(who).map_err(Stop::Usage)?;
        return train_roll::person(&who, &workshop, common.json, out);
    };
    let procedure = procedure(id, &workshop)?;
    let speech = workshop.speech();
    let say = |text: &str| speech.say(text).into_owned();
    let filled = filled(typed, procedure, &workshop)?.spoken(&say);
    let lesson = Lesson::new(&filled, &say(&workshop.limits.short))?;
    if typed.sheet {
        out.say(&lesson_sheet(&lesson, Output::width()));
        return sheet(typed, &workshop, out, |paper, speech| {
            let html = lesson_html(
                &filled,
                &lesson,
                (&workshop.shop.name, &today()),
                paper,
                speech,
            )?;
            Ok((format!("lesson-{}.html", lesson.procedure), html))
        });
    }
    let learner = person(typed.person.as_deref(), "--person", "who learns")?;
    let instructor = person(typed.by.as_deref(), "--by", "who teaches")?;
    let watched = Watched {
        learner: learner.clone(),
        by: instructor.clone(),
        procedure: lesson.procedure.clone(),
        revision: lesson.revision,
    };
    if let Some(what) = typed.sign {
        return train_sign::sign(what, &watched, lesson, &workshop, out);
    }
    if typed.questions {
        return train_sign::ask(&watched, &lesson, &workshop, out);
    }
    let today = Day::new(&today())?;
    let events = events(&workshop, out);
    let roll = train_roll::roll_of_one(&lesson, &events);
    let may_sign = roll.may_sign(
        &instructor,
        &lesson.procedure,
        &today,
        &workshop.instructors,
    );
    let sitting = Sitting {
        unsigned: may_sign.err().map(|fault| fault.message),
        attempt: roll.attempt(&learner, &lesson.procedure),
        learner,
        instructor,
        today,
        unit: workshop.shop.units,
        from: typed.from.unwrap_or(1),
    };
    train_lesson::lead(lesson, sitting, typed.lines, (&workshop, &events), out)
}

/// Writes a sheet as HTML where a folder for it was named; other sheets there stay.
fn sheet(
    typed: &Train,
    workshop: &Workshop,
    out: &mut Output,
    made: impl FnOnce(Paper, &Speech) -> Result<(String, String), Fault>,
) -> Result<End, Stop> {
    let Some(folder) = &typed.out else {
        return Ok(End::Done);
    };
    let (name, html) = made(workshop.shop.paper, &workshop.speech())?;
    let path = folder.join(name);
    write_whole(&path, html.as_bytes())?;
    out.say(&format!("As HTML for paper: {}", path.display()));
    Ok(End::Done)
}

/// Nothing was said of what to do: the ways to go on.
fn nothing_named() -> Stop {
    let fault = Fault::error(
        Code::VALUE_MISSING,
        "neither a procedure nor a person is named",
    );
    let ways = "a lesson: `faceside train PROCEDURE --person ID --by ID`; how far somebody is: \
                `faceside train --person ID`; who may do what: `faceside train --timetable`";
    Stop::Usage(fault.hint(ways))
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
    let found = workshop.procedures.get(id).map(AsRef::as_ref);
    found.ok_or_else(|| {
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
