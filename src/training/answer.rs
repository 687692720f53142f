//! What an answer to each card means: what is kept, what is recorded, whether the lesson goes on.

use std::collections::BTreeSet;

use super::card::{At, Card, Subject};
use super::talk::{Effect, Talk};
use super::words::{ISOLATED, TICKS, UNPLUG};
use super::{Point, Say, Wants, measured};
use crate::shoplog::{Day, Event, Person, Verdict};

impl Talk {
    /// Takes the answer to a card.
    pub(super) fn take(&mut self, card: Card, wants: Wants, line: &str) -> Effect {
        let yes = match (wants, line) {
            (Wants::YesNo, "y" | "yes" | "Y" | "Yes") => true,
            (Wants::YesNo, "n" | "no" | "N" | "No") => false,
            (Wants::YesNo, _) => return stay("Answer y or n; ? lists what can be typed."),
            (Wants::Next, words) if !words.is_empty() => {
                return stay("Enter goes on; ? lists what can be typed.");
            }
            _ => false,
        };
        match card {
            Card::Prepare => self.prepared(line),
            Card::Isolated(_) if !yes => stay(UNPLUG),
            Card::Isolated(_) => go(vec![self.ticked(&[ISOLATED], &[])]),
            Card::Again(_) | Card::SetUp(_) | Card::Shown(_) | Card::TryOut(_) => go(Vec::new()),
            Card::Step(at) => self.shown(at),
            Card::Did(at) => self.did(at, yes),
            Card::Measure(at) => self.reading(at, line),
            Card::Explain(subject) => self.asked(subject, line),
            Card::Said(subject) => self.said(subject, line),
            Card::Choose(at) => self.chosen(at, line),
            Card::Helper => self.helper(line),
            Card::FollowUp => self.follow_up(line),
            // Yes can only be said here when nothing is open.
            Card::Sign => self.ended(yes),
        }
    }

    fn prepared(&mut self, line: &str) -> Effect {
        let missed = match missed(line, TICKS.len()) {
            Ok(missed) => missed,
            Err(words) => return stay(words),
        };
        let (not_done, done): (Vec<_>, Vec<_>) = (1..)
            .zip(TICKS.iter().copied())
            .partition(|(number, _)| missed.contains(number));
        let ticks = |list: &[(usize, &'static str)]| -> Vec<&'static str> {
            list.iter().map(|(_, tick)| *tick).collect()
        };
        let (done, not_done) = (ticks(&done), ticks(&not_done));
        let mut effect = go(vec![self.ticked(&done, &not_done)]);
        if !not_done.is_empty() {
            let words = "Recorded as not done; see to it before you go on:";
            effect.say.push(Say::Text(words.to_owned()));
            let items = not_done.iter().map(|tick| Say::Item((*tick).to_owned()));
            effect.say.extend(items);
        }
        effect
    }

    fn ticked(&self, done: &[&str], not_done: &[&str]) -> Event {
        let owned = |list: &[&str]| list.iter().map(|tick| (*tick).to_owned()).collect();
        Event::Prepared {
            lesson: self.taught(),
            done: owned(done),
            not_done: owned(not_done),
        }
    }

    fn shown(&mut self, at: At) -> Effect {
        go(vec![Event::Presented {
            lesson: self.taught(),
            set_up: self.lesson.units[at.unit].set_up.title.clone(),
            steps: vec![at.of(&self.lesson).number],
        }])
    }

    fn did(&mut self, at: At, did: bool) -> Effect {
        let step = at.of(&self.lesson).number;
        self.done.did.insert(step, did);
        let lesson = self.taught();
        let mut effect = go(vec![Event::Tried { lesson, step, did }]);
        if !did {
            let words = "Put it right at once, and do it together; it stays open in this lesson.";
            effect.say.push(Say::Text(words.to_owned()));
        }
        effect
    }

    /// A reading out of its limits is asked for again, until one is good or none is taken.
    fn reading(&mut self, at: At, line: &str) -> Effect {
        let Some(check) = &at.of(&self.lesson).check else {
            return go(Vec::new());
        };
        if line.is_empty() {
            let mut effect = go(Vec::new());
            let words = "No reading recorded. Nothing is cut on a setting without a good reading.";
            effect.say.push(Say::Text(words.to_owned()));
            return effect;
        }
        let reading = match measured(check, line, self.sitting.unit) {
            Ok(reading) => reading,
            Err(fault) => {
                let hints = fault.hints.iter().map(|hint| format!("; {hint}"));
                return stay(format!("{}{}.", fault.message, hints.collect::<String>()));
            }
        };
        let set_up = &self.lesson.units[at.unit].set_up;
        let event = Event::Reading {
            by: self.sitting.learner.clone(),
            procedure: self.lesson.procedure.clone(),
            revision: self.lesson.revision,
            machine: set_up.machine.as_ref().map(|(id, _)| id.clone()),
            cutter: set_up.cutter.as_ref().map(|(id, _)| id.clone()),
            what: crate::procedure::plain(&check.measure),
            value: reading.value,
            low: check.low,
            high: check.high,
            verdict: reading.verdict,
            tool: check.tool.clone(),
            practice: true,
        };
        let on = reading.verdict == Verdict::In;
        let mut say = vec![Say::Text(reading.say)];
        if !on {
            let words = "Recorded as out of its limits. Put it right, note the cause (n), and \
                measure again.";
            say.push(Say::Text(words.to_owned()));
        }
        let events = vec![event];
        Effect { on, say, events }
    }

    fn asked(&mut self, subject: Subject, words: &str) -> Effect {
        words.clone_into(&mut self.done.heard);
        self.done.said.remove(&subject);
        go(Vec::new())
    }

    fn said(&mut self, subject: Subject, line: &str) -> Effect {
        let points = subject.points(&self.lesson);
        let missed = match missed(line, points.len()) {
            Ok(missed) => missed,
            Err(words) => return stay(words),
        };
        let cautions: Vec<_> = missed
            .iter()
            .map(|number| points[number - 1].clone())
            .filter(|point| matches!(point, Point::Caution(_)))
            .map(Say::Point)
            .collect();
        let answers = (0..points.len()).map(|at| (at, !missed.contains(&(at + 1))));
        let answers = answers.collect();
        self.done.said.insert(subject, answers);
        let mut effect = go(vec![self.explained(subject)]);
        if !cautions.is_empty() {
            let words = "A caution that was not said is read out before anything is done again:";
            effect.say.push(Say::Text(words.to_owned()));
            effect.say.extend(cautions);
        }
        effect
    }

    fn chosen(&mut self, at: usize, line: &str) -> Effect {
        let answered = match self.questions[at].answered(line) {
            Ok(answered) => answered,
            Err(fault) => return stay(format!("{}.", fault.message)),
        };
        let mut effect = go(vec![self.answered(answered.clone())]);
        effect.say.push(super::told(&answered));
        effect
    }

    fn helper(&mut self, line: &str) -> Effect {
        self.done.helper = match line {
            "" => None,
            id => match Person::new(id) {
                Ok(person) => Some(person),
                Err(fault) => return stay(format!("{}.", fault.message)),
            },
        };
        go(Vec::new())
    }

    fn follow_up(&mut self, line: &str) -> Effect {
        let on = match line {
            "" => None,
            day => match Day::new(day) {
                Ok(day) if day < self.sitting.today => {
                    return stay(format!("{day} is over; today is {}.", self.sitting.today));
                }
                Ok(day) => Some(day),
                Err(fault) => return stay(format!("{}.", fault.message)),
            },
        };
        let next = on
            .as_ref()
            .map_or("Next check: none set.".to_owned(), |day| {
                format!("Next check: {day}.")
            });
        let (lesson, helper) = (self.taught(), self.done.helper.clone());
        let mut effect = go(vec![Event::FollowUp { lesson, on, helper }]);
        effect.say.push(Say::Text(next));
        effect
    }

    fn ended(&mut self, signed: bool) -> Effect {
        let tried: Vec<u32> = self.done.did.keys().copied().collect();
        let covered: Vec<_> = tried.iter().map(u32::to_string).collect();
        let words = if signed {
            "signed as taught"
        } else {
            "not signed as taught"
        };
        let over = format!(
            "This lesson covered the steps {}, {words}. It says nothing of competence.",
            covered.join(", ")
        );
        let mut effect = go(vec![Event::LessonEnded {
            lesson: self.taught(),
            tried,
            open: self.open_points(),
            taught_by: signed.then(|| self.sitting.instructor.clone()),
        }]);
        effect.say.push(Say::Text(over));
        effect
    }
}

/// The numbers of a list of so many that were not; none for yes.
fn missed(line: &str, count: usize) -> Result<BTreeSet<usize>, String> {
    match line {
        "y" | "yes" | "Y" | "Yes" => return Ok(BTreeSet::new()),
        "n" | "no" | "N" | "No" if count == 1 => return Ok(BTreeSet::from([1])),
        _ => {}
    }
    let numbers = line.split([' ', ',']).filter(|one| !one.is_empty());
    let numbers: Option<BTreeSet<usize>> = numbers
        .map(|one| one.parse().ok().filter(|one| (1..=count).contains(one)))
        .collect();
    numbers
        .filter(|numbers| !numbers.is_empty())
        .ok_or_else(|| {
            format!(
                "Answer y when all of it is so, else the numbers of what is not, from 1 to {count}."
            )
        })
}

fn go(events: Vec<Event>) -> Effect {
    let on = true;
    Effect {
        on,
        events,
        ..Effect::default()
    }
}

fn stay(words: impl Into<String>) -> Effect {
    let say = vec![Say::Text(words.into())];
    Effect {
        say,
        ..Effect::default()
    }
}
