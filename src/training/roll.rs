//! The roll: from what is recorded to how far each person is with each procedure.
//!
//! ```text
//! none -> taught -> practising -> tested -> authorised -> expired     (by date, or unused)
//!                       ^            |          |
//!                       +- failed ---+          +-> suspended   (near miss, unsafe act, failed test)
//! ```
//!
//! Pure: no file and no clock; the day is handed in. One function, [`Roll::take`], both reads the
//! record back and judges what somebody is about to sign, so that the two cannot differ: what it
//! refuses is not written down, and does not count where it stands in a file all the same.
//!
//! A near miss is nobody's fault: it stops the procedure, on the machine when one is named, for all
//! who may do it, until each has gone through it in a clean watched run. Whoever tells it is not
//! asked for. An unsafe act under watch, and a test that was not passed, lead back to the practice.

use std::collections::{BTreeMap, BTreeSet};

use super::progress::{Card, Hold};
use super::state::{AUTHORITY_DAYS, Row, Stage, State, Timetable};
use super::{Lesson, Signature};
use crate::diag::{Code, Fault, nearest};
use crate::shoplog::{
    Authority, Day, Event, NearMiss, Person, Questions, Taught, Test, Watched, WatchedRun,
};

/// What is to be known of a procedure.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Course {
    /// Its id.
    pub id: String,
    /// Its title.
    pub title: String,
    /// Its revision.
    pub revision: u32,
    /// Steps, counted through it.
    pub steps: u32,
    /// Readings among them.
    pub readings: usize,
    /// Procedures that are learned first.
    pub after: Vec<String>,
    /// Ids of its machines.
    pub machines: Vec<String>,
}

impl Course {
    /// What the roll knows of a procedure from its lesson, and what is learned before it.
    pub fn of(lesson: &Lesson, after: Vec<String>) -> Self {
        let steps = lesson.units.iter().flat_map(|unit| &unit.steps);
        Self {
            id: lesson.procedure.clone(),
            title: lesson.title.clone(),
            revision: lesson.revision,
            steps: lesson.last_step(),
            readings: steps.filter(|step| step.check.is_some()).count(),
            after,
            machines: lesson.machines(),
        }
    }
}

/// Everybody's state.
#[derive(Debug, Clone)]
pub struct Roll {
    courses: BTreeMap<String, Course>,
    cards: BTreeMap<Person, BTreeMap<String, Card>>,
}

impl Roll {
    /// Nobody has begun.
    pub fn new(courses: impl IntoIterator<Item = Course>) -> Self {
        let courses = courses.into_iter();
        Self {
            courses: courses.map(|one| (one.id.clone(), one)).collect(),
            cards: BTreeMap::new(),
        }
    }

    /// Takes what happened on `day`; what has nothing to do with training changes nothing.
    ///
    /// # Errors
    /// `refused` when the training does not allow it: one person on both sides, not taught, too
    /// few runs, a test by the teacher, a step, reading or prerequisite that is missing, not tested,
    /// suspended. `unknown-name` for a procedure that is not here; `out-of-range` for a day.
    pub fn take(&mut self, event: &Event, day: &Day) -> Result<(), Fault> {
        match event {
            Event::LessonStarted { lesson, .. } => {
                self.card(&lesson.learner, &lesson.procedure);
            }
            Event::Tried { lesson, step, did } => {
                let card = self.card(&lesson.learner, &lesson.procedure);
                let tried = card.tried.entry(lesson.revision).or_default();
                tried.insert(*step, *did);
            }
            Event::LessonEnded {
                lesson,
                taught_by: Some(_),
                ..
            }
            | Event::SignedTaught { lesson } => return self.signed(lesson, day),
            Event::WatchedRun(run) => return self.watched(run, day),
            Event::Test(test) => return self.test(test, day),
            Event::Authority(authority) => return self.authority(authority, day),
            Event::Questions(questions) => self.questions(questions),
            Event::Run(run) => self.used(&run.by, &run.work.procedure, day),
            Event::NearMiss(miss) => self.near_miss(miss, day),
            _ => {}
        }
        Ok(())
    }

    /// Whether anything of that kind can be signed now, before it is asked for.
    ///
    /// # Errors
    /// As [`Roll::take`].
    pub fn may(
        mut self,
        what: Signature,
        watched: &Watched,
        lesson: &Lesson,
        today: &Day,
    ) -> Result<(), Fault> {
        let event = what.least(watched, lesson, today);
        self.take(&event, today)
    }

    /// Whether a person may sign for others in a procedure today: one of the shop's `instructors`, or
    /// who may work alone in it (T27 of `procedures.md` 1C). It is asked before a signature and not
    /// when the record is read back, since it does not tell who was an instructor on an older day.
    ///
    /// # Errors
    /// `refused` when not; `unknown-name` for a procedure that is not here.
    pub fn may_sign(
        &self,
        by: &Person,
        procedure: &str,
        today: &Day,
        instructors: &[Person],
    ) -> Result<(), Fault> {
        let state = self.state(by, procedure, today)?;
        let may_alone = state.is_some_and(|state| matches!(state.stage, Stage::Authorised { .. }));
        if may_alone || instructors.contains(by) {
            return Ok(());
        }
        let message = format!("{by} is no instructor, and may not work alone in `{procedure}`");
        Err(refused(message).hint(format!(
            "who may work alone in it signs (`faceside train --timetable`), or who is named in \
             people.yaml: `instructors: [{by}]`"
        )))
    }

    fn card(&mut self, person: &Person, procedure: &str) -> &mut Card {
        let cards = self.cards.entry(person.clone()).or_default();
        cards.entry(procedure.to_owned()).or_default()
    }

    fn seen(&self, person: &Person, procedure: &str) -> Option<&Card> {
        self.cards.get(person)?.get(procedure)
    }

    /// The procedure of that id.
    ///
    /// # Errors
    /// `unknown-name` with the nearest one.
    pub fn course(&self, id: &str) -> Result<&Course, Fault> {
        self.courses.get(id).ok_or_else(|| {
            let message = format!("no procedure of this shop has the id `{id}`");
            let fault = Fault::error(Code::UNKNOWN_NAME, message);
            match nearest(id, self.courses.keys().map(String::as_str)) {
                Some(near) => fault.hint(format!("did you mean `{near}`?")),
                None => fault.hint("`faceside search` finds procedures"),
            }
        })
    }

    fn signed(&mut self, lesson: &Taught, day: &Day) -> Result<(), Fault> {
        let course = self.course(&lesson.procedure)?;
        two(&lesson.learner, &lesson.instructor)?;
        let wanted = match lesson.revision == course.revision {
            true => course.steps,
            false => 0,
        };
        let tried = self
            .seen(&lesson.learner, &lesson.procedure)
            .and_then(|card| card.tried.get(&lesson.revision));
        let did = |step: &u32| tried.is_some_and(|tried| tried.get(step) == Some(&true));
        let missing: Vec<u32> = (1..=wanted).filter(|step| !did(step)).collect();
        if let Some(first) = missing.first() {
            let steps: Vec<_> = missing.iter().map(u32::to_string).collect();
            let message = format!(
                "not taught: no lesson has these steps done rightly: {}",
                steps.join(", ")
            );
            return Err(refused(message).hint(format!(
                "`faceside train {} --person {} --by {} --from {first}`",
                lesson.procedure, lesson.learner, lesson.instructor
            )));
        }
        let card = self.card(&lesson.learner, &lesson.procedure);
        card.taught = Some((lesson.instructor.clone(), day.clone()));
        Ok(())
    }

    fn watched(&mut self, run: &WatchedRun, day: &Day) -> Result<(), Fault> {
        self.taught(&run.watched)?;
        let card = self.card(&run.watched.learner, &run.watched.procedure);
        card.runs = card.runs.saturating_add(1);
        if !run.is_clean() {
            card.clean.clear();
            if run.unsafe_act && card.authority.take().is_some() {
                let words = format!("an unsafe act in a watched run on {day}");
                card.tested = None;
                card.hold = Some(Hold::Unsafe(words));
            }
            return Ok(());
        }
        card.clean.push(day.clone());
        card.used = Some(day.clone());
        if matches!(card.hold, Some(Hold::NearMiss(_))) {
            card.hold = None;
        }
        Ok(())
    }

    /// The card of someone who is taught.
    fn taught(&self, watched: &Watched) -> Result<&Card, Fault> {
        self.course(&watched.procedure)?;
        two(&watched.learner, &watched.by)?;
        let card = self.seen(&watched.learner, &watched.procedure);
        card.filter(|card| card.taught.is_some()).ok_or_else(|| {
            let (who, what) = (&watched.learner, &watched.procedure);
            refused(format!("{who} is not signed as taught in `{what}`")).hint(format!(
                "a lesson comes first: `faceside train {what} --person {who} --by ID`"
            ))
        })
    }

    fn test(&mut self, test: &Test, day: &Day) -> Result<(), Fault> {
        let watched = &test.watched;
        let card = self.taught(watched)?;
        if card.taught.as_ref().map(|(by, _)| by) == Some(&watched.by) {
            let message = format!("{} signed it as taught, and cannot test it too", watched.by);
            return Err(refused(message).hint("another person watches the test"));
        }
        if !card.has_practised() {
            return Err(refused(card.practice()).hint("sign the runs with `--sign run`"));
        }
        let course = self.course(&watched.procedure)?;
        if let Some(lacking) = self.lacking(&watched.learner, course) {
            let message = format!("learned first, and not tested: {lacking}");
            return Err(refused(message).hint("test those first"));
        }
        let failed = test.failed();
        let (steps, readings) = (test.elements.len(), test.readings.len());
        let is_short = steps < course.steps as usize || readings < course.readings;
        if failed.is_none() && watched.revision == course.revision && is_short {
            let message = format!(
                "{steps} of {} steps and {readings} of {} readings were watched",
                course.steps, course.readings
            );
            return Err(refused(message).hint("a test is passed with all of them"));
        }
        let card = self.card(&watched.learner, &watched.procedure);
        card.failed.clone_from(&failed);
        match failed {
            None => {
                card.tested = Some((watched.by.clone(), day.clone()));
                card.is_spent = false;
                card.used = Some(day.clone());
                if matches!(card.hold, Some(Hold::Unsafe(_))) {
                    card.hold = None;
                }
            }
            Some(why) => {
                card.tested = None;
                card.clean.clear();
                if card.authority.take().is_some() {
                    card.hold = Some(Hold::Unsafe(format!("a test not passed on {day}: {why}")));
                }
            }
        }
        Ok(())
    }

    /// Prerequisites that were never tested.
    fn lacking(&self, person: &Person, course: &Course) -> Option<String> {
        let lacking = course.after.iter().filter(|id| {
            let card = self.seen(person, id);
            card.is_none_or(|card| card.tested.is_none())
        });
        let lacking: Vec<_> = lacking.cloned().collect();
        (!lacking.is_empty()).then(|| lacking.join(", "))
    }

    fn authority(&mut self, given: &Authority, day: &Day) -> Result<(), Fault> {
        let watched = &given.watched;
        let card = self.taught(watched)?;
        let course = self.course(&watched.procedure)?;
        if let Some(hold) = &card.hold {
            return Err(refused(format!("suspended: {}", hold.words())).hint(hold.next()));
        }
        let Some((_, tested)) = &card.tested else {
            let message = format!("{} has not passed the test", watched.learner);
            return Err(refused(message).hint("sign the test first, with `--sign tested`"));
        };
        if given.until < *day {
            let message = format!("the authority would be over on {}", given.until);
            return Err(Fault::error(Code::OUT_OF_RANGE, message).hint(format!("today is {day}")));
        }
        let last = tested.plus(AUTHORITY_DAYS);
        if given.until > last {
            let message = format!(
                "an authority ends at most {AUTHORITY_DAYS} days after its test of {tested}"
            );
            return Err(Fault::error(Code::OUT_OF_RANGE, message).hint(format!("by {last}")));
        }
        let runs_on = card
            .authority
            .as_ref()
            .is_some_and(|before| given.until <= before.until);
        if card.is_spent && !runs_on {
            let message = format!("the test of {tested} carries an authority already");
            return Err(refused(message).hint("a longer one needs a new test"));
        }
        if given.machines.is_empty() && !course.machines.is_empty() {
            let message = "an authority names its machines";
            return Err(refused(message).hint(format!("such as {}", course.machines.join(", "))));
        }
        let card = self.card(&watched.learner, &watched.procedure);
        card.authority = Some(given.clone());
        card.is_spent = true;
        Ok(())
    }

    fn questions(&mut self, questions: &Questions) {
        let watched = &questions.watched;
        let card = self.card(&watched.learner, &watched.procedure);
        card.asked = card.asked.max(questions.attempt);
    }

    /// Work on one's own counts as use while the authority holds, and does not wake one that rests.
    fn used(&mut self, person: &Person, procedure: &str, day: &Day) {
        let cards = self.cards.get_mut(person);
        if let Some(card) = cards.and_then(|cards| cards.get_mut(procedure))
            && card.hold.is_none()
            && card.unused(day).is_none()
            && card.authority.as_ref().is_some_and(|one| *day <= one.until)
        {
            card.used = Some(day.clone());
        }
    }

    fn near_miss(&mut self, miss: &NearMiss, day: &Day) {
        if miss.procedure.is_none() && miss.machine.is_none() {
            return;
        }
        for (procedure, card) in self.cards.values_mut().flatten() {
            let Some(authority) = &card.authority else {
                continue;
            };
            let there = miss.procedure.as_ref().is_none_or(|id| id == procedure)
                && miss
                    .machine
                    .as_ref()
                    .is_none_or(|id| authority.machines.contains(id));
            if there && card.hold.is_none() {
                let words = format!("a near miss was told on {day}: {}", miss.text);
                card.hold = Some(Hold::NearMiss(words));
            }
        }
    }

    /// Which time questions are put to a person now, from 1.
    pub fn attempt(&self, person: &Person, procedure: &str) -> u32 {
        let card = self.seen(person, procedure);
        card.map_or(1, |card| card.asked.saturating_add(1))
    }

    /// Last day that an authority may have, for who has passed the test.
    pub fn latest(&self, person: &Person, procedure: &str) -> Option<Day> {
        let (_, tested) = self.seen(person, procedure)?.tested.as_ref()?;
        Some(tested.plus(AUTHORITY_DAYS))
    }

    /// How far a person is; none where nothing is recorded.
    ///
    /// # Errors
    /// `unknown-name` for a procedure that is not here.
    pub fn state(
        &self,
        person: &Person,
        procedure: &str,
        today: &Day,
    ) -> Result<Option<State>, Fault> {
        let course = self.course(procedure)?;
        let card = self.seen(person, procedure);
        Ok(card.map(|card| card.state(course, self.lacking(person, course), today)))
    }

    /// A person's own record: each procedure that was begun, by id, with its state.
    ///
    /// # Errors
    /// `unknown-name` when nothing is recorded of that person.
    pub fn of(&self, person: &Person, today: &Day) -> Result<Vec<(&Course, State)>, Fault> {
        let Some(cards) = self.cards.get(person) else {
            let message = format!("nothing is recorded of a person `{person}`");
            let fault = Fault::error(Code::UNKNOWN_NAME, message);
            return Err(
                match nearest(person.id(), self.cards.keys().map(Person::id)) {
                    Some(near) => fault.hint(format!("did you mean `{near}`?")),
                    None => fault.hint("`faceside train --timetable` shows everybody"),
                },
            );
        };
        let here = cards.iter().filter_map(|(id, card)| {
            let course = self.courses.get(id)?;
            Some((
                course,
                card.state(course, self.lacking(person, course), today),
            ))
        });
        Ok(here.collect())
    }

    /// Everybody against every procedure that anybody has begun.
    pub fn timetable(&self, today: &Day) -> Timetable {
        let begun: BTreeSet<&str> = self
            .cards
            .values()
            .flat_map(BTreeMap::keys)
            .map(String::as_str)
            .collect();
        let begun = begun.into_iter().filter_map(|id| self.courses.get(id));
        let rows: Vec<Row> = begun
            .map(|course| Row {
                procedure: course.id.clone(),
                title: course.title.clone(),
                states: self
                    .cards
                    .iter()
                    .map(|(person, cards)| {
                        let card = cards.get(&course.id)?;
                        Some(card.state(course, self.lacking(person, course), today))
                    })
                    .collect(),
            })
            .collect();
        Timetable {
            day: today.clone(),
            people: self.cards.keys().cloned().collect(),
            others: self.courses.len() - rows.len(),
            rows,
        }
    }
}

/// Nobody signs for himself.
fn two(learner: &Person, by: &Person) -> Result<(), Fault> {
    if learner == by {
        let message = format!("{learner} cannot sign for himself or herself");
        return Err(refused(message).hint("another person signs"));
    }
    Ok(())
}

fn refused(message: impl Into<String>) -> Fault {
    Fault::error(Code::REFUSED, message)
}
