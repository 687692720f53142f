//! An entry of the record in one line for a person, figures in the reader's unit.

use super::{
    Correction, CutterState, Event, Measured, NearMiss, SetTo, SheetFault, Standing, Verdict,
    Watched, Work,
};
use crate::units::{Length, Scale, Towards, Unit};

/// The entry after its mark and day: `2026-7  2026-11-25  test cut ...`.
pub fn lines_of(standing: &Standing, unit: Unit) -> String {
    let corrected = match &standing.corrected {
        Some(by) => format!("  (corrected by {by})"),
        None => String::new(),
    };
    let said = say(&standing.event, unit);
    format!("{}  {}  {said}{corrected}", standing.mark, standing.day())
}

/// What happened, in one line.
pub fn say(event: &Event, unit: Unit) -> String {
    let parts = match event {
        Event::Run(run) => {
            let mut parts = vec!["run".to_owned()];
            parts.extend(work(&run.work));
            parts.push(format!(
                "{} pieces, {} test cuts",
                run.pieces, run.test_cuts
            ));
            parts.extend(run.note.clone());
            parts.push(format!("by {}", run.by));
            parts
        }
        Event::TestCut(cut) => {
            let mut parts = vec!["test cut".to_owned()];
            parts.extend(work(&cut.work));
            parts.extend(cut.measured.as_ref().map(|one| measured(one, unit)));
            parts.extend(cut.feel.map(|feel| feel.words().to_owned()));
            parts.extend(cut.note.clone());
            parts.push(format!("by {}", cut.by));
            parts
        }
        Event::Reading {
            by,
            procedure,
            what,
            value,
            verdict,
            practice,
            ..
        } => {
            let kind = if *practice {
                "practice reading"
            } else {
                "reading"
            };
            let read = format!(
                "{what} {}, {}",
                length(*value, unit),
                verdict_word(*verdict)
            );
            vec![kind.to_owned(), procedure.clone(), read, format!("by {by}")]
        }
        Event::CutterMeasured(one) => {
            let state = match one.state {
                CutterState::Same => "measured",
                CutterState::Sharpened => "measured after sharpening",
                CutterState::New => "measured, a new one",
            };
            let size = length(one.size, unit);
            vec![
                one.cutter.clone(),
                format!("{state}: {size}"),
                format!("by {}", one.by),
            ]
        }
        Event::NearMiss(one) => near_miss(one),
        Event::Note { by, about, text } => {
            let mut parts = vec!["note".to_owned()];
            parts.extend(about.clone());
            parts.extend([text.clone(), format!("by {by}")]);
            parts
        }
        Event::SheetFault(one) => sheet_fault(one),
        Event::Correction(one) => correction(one, unit),
        other => training(other),
    };
    // What was typed may hold line breaks or worse; a line of the list stays one line.
    let line = parts.join("; ");
    line.chars()
        .map(|c| if c.is_control() { ' ' } else { c })
        .collect()
}

/// Lessons and what follows them.
fn training(event: &Event) -> Vec<String> {
    match event {
        Event::WatchedRun(run) => {
            let how = if run.is_clean() {
                "clean"
            } else {
                "with help, slips or unsaid points"
            };
            watched(&format!("watched run, {how}"), &run.watched)
        }
        Event::Test(test) => {
            let failed = test.failed();
            let how = failed.map_or("passed".to_owned(), |why| format!("not passed, {why}"));
            watched(&format!("test, {how}"), &test.watched)
        }
        Event::Authority(one) => watched(&format!("authorised until {}", one.until), &one.watched),
        Event::Questions(one) => {
            let right = one
                .answers
                .iter()
                .filter(|answer| answer.is_right())
                .count();
            let what = format!("questions, {right} of {} right", one.answers.len());
            watched(&what, &one.watched)
        }
        lesson => vec![lesson_words(lesson)],
    }
}

fn near_miss(one: &NearMiss) -> Vec<String> {
    let mut parts = vec!["near miss".to_owned()];
    parts.extend(one.machine.clone());
    parts.extend(one.procedure.clone());
    parts.push(one.text.clone());
    parts.extend(one.changed.as_ref().map(|text| format!("changed: {text}")));
    parts
}

fn sheet_fault(one: &SheetFault) -> Vec<String> {
    let mut parts = vec!["fault in a sheet".to_owned(), one.procedure.clone()];
    parts.extend(one.set_up.clone());
    parts.extend(one.step.map(|step| format!("step {step}")));
    parts.extend([one.text.clone(), format!("by {}", one.by)]);
    parts
}

fn correction(one: &Correction, unit: Unit) -> Vec<String> {
    let mut parts = vec![format!("corrects {}", one.of), one.why.clone()];
    parts.push(match &one.instead {
        Some(event) => format!("instead: {}", say(event, unit)),
        None => "struck out".to_owned(),
    });
    parts.push(format!("by {}", one.by));
    parts
}

fn watched(what: &str, of: &Watched) -> Vec<String> {
    vec![
        what.to_owned(),
        of.procedure.clone(),
        format!("learner {}", of.learner),
        format!("by {}", of.by),
    ]
}

fn lesson_words(event: &Event) -> String {
    let (lesson, what) = match event {
        Event::LessonStarted { lesson, .. } => (lesson, "begun"),
        Event::LessonPaused { lesson, .. } => (lesson, "paused"),
        Event::LessonResumed { lesson, .. } => (lesson, "taken up again"),
        Event::LessonEnded { lesson, .. } => (lesson, "ended"),
        Event::SignedTaught { lesson } => (lesson, "signed as taught"),
        Event::FollowUp { lesson, .. } => (lesson, "to be followed up"),
        Event::Prepared { lesson, .. }
        | Event::Presented { lesson, .. }
        | Event::Tried { lesson, .. }
        | Event::Explained { lesson, .. } => (lesson, "went on"),
        _ => return "entry".to_owned(),
    };
    format!(
        "lesson {what}; {}; learner {}",
        lesson.procedure, lesson.learner
    )
}

fn work(work: &Work) -> Vec<String> {
    let mut parts = vec![work.procedure.clone()];
    parts.extend(work.set_up.clone());
    let on: Vec<_> = [&work.machine, &work.cutter, &work.wood]
        .into_iter()
        .flatten()
        .cloned()
        .collect();
    if !on.is_empty() {
        parts.push(on.join(", "));
    }
    let set: Vec<_> = work.settings.iter().map(setting).collect();
    if !set.is_empty() {
        parts.push(set.join(", "));
    }
    parts
}

/// `fence 60.2 mm`.
pub(super) fn setting(one: &SetTo) -> String {
    format!("{} {}", one.name, one.shown)
}

fn measured(one: &Measured, unit: Unit) -> String {
    let read = format!("{} {}", one.what, length(one.value, unit));
    match (one.verdict(), one.limits) {
        (Some(verdict), Some(limits)) => format!(
            "{read}, {} ({} to {})",
            verdict_word(verdict),
            length(limits.low, unit),
            length(limits.high, unit)
        ),
        _ => read,
    }
}

/// Where a reading lies: `good`, `low`, `high`.
pub(super) fn verdict_word(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::In => "good",
        Verdict::Low => "low",
        Verdict::High => "high",
    }
}

fn length(length: Length, unit: Unit) -> String {
    Scale::caliper(unit).show(length, Towards::Nearest).text
}
