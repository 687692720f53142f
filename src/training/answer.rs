//! What an answer to each card means: what is kept, what is recorded, whether the lesson goes on.

use super::card::{At, Card, Subject};
use super::talk::{Effect, Talk};
use super::words::{ISOLATED, UNPLUG};
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
            Card::Tick(tick) => self.ticked(tick, yes),
            Card::Isolated(_) if !yes => stay(UNPLUG),
            Card::Isolated(_) | Card::SetUp(_) | Card::TryOut(_) => go(Vec::new()),
            Card::Step(at) => self.shown(at),
            Card::Shown(_) => go(self.presented().into_iter().collect()),
            Card::Did(at) => self.did(at, yes),
            Card::Measure(at) => self.reading(at, line),
            Card::Explain(subject) => self.asked(subject, line),
            Card::Said(subject, point) => self.said(subject, point, yes),
            Card::Choose(at) => self.chosen(at, line),
            // Yes can only be said here when nothing is open.
            Card::Sign => {
                self.done.signed = yes;
                go(Vec::new())
            }
            Card::Helper => self.helper(line),
            Card::FollowUp => self.follow_up(line),
        }
    }

    fn ticked(&mut self, tick: usize, yes: bool) -> Effect {
        let all = super::card::ticks(&self.lesson);
        if !yes && all[tick] == ISOLATED {
            return stay(UNPLUG);
        }
        self.done.ticks.insert(tick, yes);
        let last = tick + 1 == all.len();
        let events = if last { self.prepared() } else { None };
        let say = (!yes).then_some("Recorded as not done; see to it before you go on.");
        Effect {
            on: true,
            say: say
                .map(|words| Say::Text(words.to_owned()))
                .into_iter()
                .collect(),
            events: events.into_iter().collect(),
        }
    }

    fn shown(&mut self, at: At) -> Effect {
        let number = at.of(&self.lesson).number;
        if !self.done.shown.contains(&number) {
            self.done.shown.push(number);
        }
        go(Vec::new())
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

    fn said(&mut self, subject: Subject, point: usize, yes: bool) -> Effect {
        self.done
            .said
            .entry(subject)
            .or_default()
            .insert(point, yes);
        let points = subject.points(&self.lesson);
        let last = point + 1 == points.len();
        let mut effect = go(Vec::new());
        if last {
            effect.events.push(self.explained(subject));
        }
        if let (false, caution @ Point::Caution(_)) = (yes, &points[point]) {
            let words = "A caution that was not said is read out before anything is done again:";
            effect.say = vec![Say::Text(words.to_owned()), Say::Point(caution.clone())];
        }
        effect
    }

    /// The last answer puts all of them on record.
    fn chosen(&mut self, at: usize, line: &str) -> Effect {
        let answered = match self.questions[at].answered(line) {
            Ok(answered) => answered,
            Err(fault) => return stay(format!("{}.", fault.message)),
        };
        let say = vec![super::told(&answered)];
        self.done.chosen.insert(at, answered);
        let last = at + 1 == self.questions.len();
        let events = if last { self.answers() } else { None };
        let on = true;
        Effect {
            on,
            say,
            events: events.into_iter().collect(),
        }
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
        let tried: Vec<u32> = self.done.did.keys().copied().collect();
        let covered: Vec<_> = tried.iter().map(u32::to_string).collect();
        let signed = if self.done.signed {
            "signed as taught"
        } else {
            "not signed as taught"
        };
        let over = format!(
            "This lesson covered the steps {}, {signed}. It says nothing of competence.",
            covered.join(", ")
        );
        let (lesson, helper) = (self.taught(), self.done.helper.clone());
        let ended = Event::LessonEnded {
            lesson: self.taught(),
            tried,
            open: self.open_points(),
            taught_by: self.done.signed.then(|| self.sitting.instructor.clone()),
        };
        Effect {
            on: true,
            say: vec![Say::Text(next), Say::Text(over)],
            events: vec![Event::FollowUp { lesson, on, helper }, ended],
        }
    }
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
