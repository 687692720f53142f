//! A lesson that stopped before its end, from the record alone, and the talk that goes on there.
//!
//! Each answer that counts is an event, so the events of a lesson tell what was answered and which
//! question comes next; a pause that was told adds nothing to that, and a program that was killed
//! loses nothing. A lesson with other numbers, or of another revision, is never gone on with.

use std::collections::BTreeMap;

use super::card::{At, Card, Subject};
use super::words::{ISOLATED, TICKS};
use super::{Lesson, Place, Talk};
use crate::shoplog::{Event, Person, Verdict};

/// A lesson without its end.
#[derive(Debug, Clone, PartialEq)]
pub struct Stopped {
    /// Who taught last.
    pub by: Person,
    /// Day of the last entry, `YYYY-MM-DD`.
    pub day: String,
    /// First step of it.
    pub from: u32,
    revision: u32,
    values: BTreeMap<String, String>,
    events: Vec<Event>,
}

impl Stopped {
    /// The last lesson of a person with a procedure in which anything was answered, when it has no end;
    /// the events of the record come in order, each with its day.
    pub fn find<'e>(
        events: impl IntoIterator<Item = (&'e Event, &'e str)>,
        learner: &Person,
        procedure: &str,
    ) -> Option<Self> {
        let (mut found, mut begun): (Option<Self>, Option<Self>) = (None, None);
        for (event, day) in events {
            let is_theirs =
                event.procedure() == Some(procedure) && event.learner() == Some(learner);
            if !is_theirs {
                continue;
            }
            match event {
                Event::LessonStarted {
                    lesson,
                    from,
                    values,
                } => {
                    begun = Some(Self {
                        by: lesson.instructor.clone(),
                        day: day.to_owned(),
                        from: *from,
                        revision: lesson.revision,
                        values: values.clone(),
                        events: Vec::new(),
                    });
                }
                Event::LessonEnded { .. } => (found, begun) = (None, None),
                Event::LessonPaused { .. } => {}
                Event::LessonResumed { .. } => begun = None,
                // A lesson without an answer takes the place of none that has some.
                _ => {
                    found = begun.take().or(found);
                    if let Some(stopped) = &mut found {
                        stopped.take(event, day);
                    }
                }
            }
        }
        found
    }

    fn take(&mut self, event: &Event, day: &str) {
        day.clone_into(&mut self.day);
        if let Some(lesson) = event.lesson() {
            self.by.clone_from(&lesson.instructor);
        }
        self.events.push(event.clone());
    }

    /// Why `lesson` is another one than that which stopped; none when it is the same.
    pub fn other(&self, lesson: &Lesson) -> Option<String> {
        if self.revision != lesson.revision {
            return Some(format!(
                "it was revision {} of the procedure, and {} holds now",
                self.revision, lesson.revision
            ));
        }
        let now = lesson.values.iter();
        let now: BTreeMap<_, _> = now
            .map(|(name, label, shown)| (name, (label, shown)))
            .collect();
        let changed = now.iter().filter_map(|(name, (label, shown))| {
            let then = self.values.get(*name);
            (then != Some(*shown)).then(|| match then {
                Some(then) => format!("{label} was {then}, and is {shown}"),
                None => format!("{label} was not asked for, and is {shown}"),
            })
        });
        let gone = self
            .values
            .iter()
            .filter(|(name, _)| !now.contains_key(name));
        let gone = gone.map(|(name, then)| format!("`{name}` was {then}, and is not asked for"));
        let all: Vec<String> = changed.chain(gone).collect();
        (!all.is_empty()).then(|| format!("its numbers were others: {}", all.join("; ")))
    }

    /// Which time its questions were put, once one was answered.
    pub(super) fn attempt(&self) -> Option<u32> {
        self.events.iter().find_map(|event| match event {
            Event::Questions(questions) => Some(questions.attempt),
            _ => None,
        })
    }
}

impl Talk {
    /// Takes the answers that are recorded, and stands at the question after the last of them.
    pub(super) fn replay(&mut self, stopped: &Stopped) {
        for event in &stopped.events {
            match event {
                Event::Prepared { done, not_done, .. } => {
                    let mut ticks = done.iter().chain(not_done);
                    if ticks.any(|tick| TICKS.contains(&tick.as_str())) {
                        self.behind(Card::Prepare);
                    }
                    if done.iter().any(|tick| tick == ISOLATED) {
                        self.past(|card| matches!(card, Card::Isolated(_)));
                    }
                }
                Event::Presented { steps, .. } => {
                    if let Some(at) = steps.last().and_then(|step| self.step(*step)) {
                        self.behind(Card::Step(at));
                    }
                }
                Event::Tried { step, did, .. } => {
                    if let Some(at) = self.step(*step) {
                        self.done.did.insert(*step, *did);
                        self.behind(Card::Did(at));
                    }
                }
                Event::Reading { verdict, .. } if *verdict == Verdict::In => {
                    self.past(|card| matches!(card, Card::Measure(_)));
                }
                Event::Explained {
                    set_up,
                    step,
                    said,
                    missed,
                    ..
                } => self.replay_said(set_up, *step, said, missed),
                Event::Questions(questions) => {
                    for answer in &questions.answers {
                        let at = self.questions.iter().position(|one| one.ask == answer.ask);
                        if let Some(at) = at {
                            self.behind(Card::Choose(at));
                        }
                    }
                }
                Event::FollowUp { .. } => self.behind(Card::FollowUp),
                _ => {}
            }
        }
    }

    /// Before the question where it goes on: isolation, then cautions and settings of its set-up.
    pub(super) fn look_again(&mut self) {
        let unit = self.cards[self.at].unit(&self.lesson);
        self.resumed = Some(self.place().step.unwrap_or_else(|| {
            let steps = self.lesson.units[unit].steps.iter();
            steps.map(|step| step.number).next().unwrap_or(1)
        }));
        let of_unit =
            |card: &Card| matches!(card, Card::Isolated(of) | Card::SetUp(of) if *of == unit);
        let first = self.cards.iter().position(of_unit).unwrap_or(self.at);
        if of_unit(&self.cards[self.at]) {
            self.at = first;
            return;
        }
        let isolated = self.lesson.uses_machine().then_some(Card::Isolated(unit));
        let again = isolated.into_iter().chain([Card::Again(unit)]);
        self.cards.splice(self.at..self.at, again);
    }

    /// Where the lesson stopped, for one that goes on.
    pub fn stopped_at(&self) -> Place {
        let mut place = self.place();
        let next = self.cards[self.at..]
            .iter()
            .find(|card| !matches!(card, Card::Isolated(_) | Card::Again(_)));
        if let Some(card) = next {
            place = Place::new(&self.lesson, *card, (place.gone, place.of));
        }
        place
    }

    fn step(&self, number: u32) -> Option<At> {
        let units = self.lesson.units.iter().enumerate();
        units
            .flat_map(|(unit, taught)| {
                let steps = taught.steps.iter().enumerate();
                steps.map(move |(step, one)| (At { unit, step }, one.number))
            })
            .find_map(|(at, one)| (one == number).then_some(at))
    }

    /// Stands behind a card, where there is one more.
    fn behind(&mut self, card: Card) {
        let last = self.cards.len() - 1;
        if let Some(found) = self.cards.iter().position(|one| *one == card) {
            self.at = (found + 1).min(last);
        }
    }

    /// Goes past the card of now, when it is of that kind.
    fn past(&mut self, is: impl Fn(Card) -> bool) {
        let last = self.cards.len() - 1;
        if is(self.cards[self.at]) {
            self.at = (self.at + 1).min(last);
        }
    }

    fn replay_said(&mut self, set_up: &str, step: Option<u32>, said: &[String], missed: &[String]) {
        let subject = match step {
            Some(step) => self.step(step).map(|at| Subject {
                unit: at.unit,
                step: Some(at.step),
            }),
            None => self.whole(set_up),
        };
        let Some(subject) = subject else { return };
        let points = subject.points(&self.lesson).iter().enumerate();
        let answers: BTreeMap<usize, bool> = points
            .filter_map(|(at, point)| {
                let text = point.text();
                let is_said = said.contains(&text);
                (is_said || missed.contains(&text)).then_some((at, is_said))
            })
            .collect();
        let is_whole = answers.len() == subject.points(&self.lesson).len();
        self.done.said.insert(subject, answers);
        self.behind(if is_whole {
            Card::Said(subject)
        } else {
            Card::Explain(subject)
        });
    }

    /// The whole of a set-up: of two with one title, the one that comes next.
    fn whole(&self, set_up: &str) -> Option<Subject> {
        let asked = self
            .cards
            .iter()
            .enumerate()
            .filter_map(|(at, card)| match card {
                Card::Said(subject) if subject.step.is_none() => Some((at, *subject)),
                _ => None,
            });
        let titled: Vec<_> = asked
            .filter(|(_, subject)| self.lesson.units[subject.unit].set_up.title == set_up)
            .collect();
        let next = titled.iter().find(|(at, _)| *at >= self.at);
        next.or(titled.last()).map(|(_, subject)| *subject)
    }
}
