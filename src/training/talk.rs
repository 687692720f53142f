//! A lesson as a conversation: a line comes in, and what to show, ask and record goes out.
//!
//! Pure: no clock, no terminal, no file; it is the same by hand, in a pipe and in a test. Events
//! are given out with the answer that they come from and never taken back: an answer that is given
//! again after `back` is one more event, and the older one stays readable (D13). So the record alone
//! tells where a lesson stopped. The end of the input is a pause. Nothing is made up: no day for the
//! next check, no signature, no reading.

use std::collections::BTreeMap;

use super::card::{Card, Subject, cards, opening};
use super::words::HELP;
use super::{Lesson, Place, Point, Prompt, Question, Say, Stopped, Wants, questions};
use crate::diag::{Code, Fault};
use crate::shoplog::{Answered, Day, Event, Person, Questions, Taught, Watched};
use crate::units::Unit;

/// Longest answer, in characters.
const LONGEST: usize = 2000;

/// Who sits down to a lesson, and how.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Sitting {
    /// Who learns.
    pub learner: Person,
    /// Who teaches.
    pub instructor: Person,
    /// The day of the lesson.
    pub today: Day,
    /// Unit of a bare number.
    pub unit: Unit,
    /// First step, from 1.
    pub from: u32,
    /// Which time the learner is asked questions of this procedure, from 1.
    pub attempt: u32,
    /// Why the instructor may not sign; none when that may be.
    pub unsigned: Option<String>,
}

/// What one line brings about.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Turn {
    /// What is said to the line.
    pub said: Vec<Say>,
    /// What the question is about; nothing when the last one is asked again.
    pub show: Vec<Say>,
    /// Whether it is a question that comes up anew, and not the last one asked again.
    pub is_new: bool,
    /// What is asked; none when the lesson is over.
    pub ask: Option<Prompt>,
    /// What is to be recorded, in order, before the next line is read.
    pub events: Vec<Event>,
}

impl Turn {
    /// All that it shows, in order.
    pub fn all(&self) -> Vec<Say> {
        [self.said.as_slice(), &self.show].concat()
    }
}

/// A lesson under way.
#[derive(Debug, Clone)]
pub struct Talk {
    pub(super) lesson: Lesson,
    pub(super) sitting: Sitting,
    pub(super) cards: Vec<Card>,
    pub(super) questions: Vec<Question>,
    pub(super) at: usize,
    /// The step that it goes on at, after a pause.
    pub(super) resumed: Option<u32>,
    noting: bool,
    over: bool,
    pub(super) done: Done,
}

/// What was answered so far.
#[derive(Debug, Clone, Default)]
pub(super) struct Done {
    /// Whether each step was done, by number.
    pub(super) did: BTreeMap<u32, bool>,
    /// The learner's words for the points that are asked now.
    pub(super) heard: String,
    /// Whether each point was said.
    pub(super) said: BTreeMap<Subject, BTreeMap<usize, bool>>,
    /// Whom the learner asks.
    pub(super) helper: Option<Person>,
}

/// What an answer does: stay at the card or go on, with words and events.
#[derive(Debug, Default)]
pub(super) struct Effect {
    pub(super) on: bool,
    pub(super) say: Vec<Say>,
    pub(super) events: Vec<Event>,
}

impl Talk {
    /// A lesson from the step where the sitting begins.
    ///
    /// # Errors
    /// `out-of-range` when there is no such step; `refused` when one person is both the learner
    /// and the instructor.
    pub fn new(mut lesson: Lesson, sitting: Sitting) -> Result<Self, Fault> {
        let last = lesson.last_step();
        if !(1..=last).contains(&sitting.from) {
            let message = format!("there is no step {} in this lesson", sitting.from);
            return Err(Fault::error(Code::OUT_OF_RANGE, message)
                .hint(format!("begin at a step from 1 to {last}")));
        }
        if sitting.learner == sitting.instructor {
            let message = "the learner and the instructor are the same person";
            return Err(Fault::error(Code::REFUSED, message)
                .hint("a lesson takes two: who learns at a machine is watched by another"));
        }
        let questions = questions(&lesson, &sitting.learner, sitting.attempt);
        for unit in &mut lesson.units {
            unit.steps.retain(|step| step.number >= sitting.from);
        }
        lesson.units.retain(|unit| !unit.steps.is_empty());
        Ok(Self {
            cards: cards(&lesson, questions.len()),
            questions,
            lesson,
            sitting,
            at: 0,
            resumed: None,
            noting: false,
            over: false,
            done: Done::default(),
        })
    }

    /// A lesson that goes on where it stopped: the machine is looked at again first. None when there
    /// is nothing to go on with: no answer is recorded, or it was another lesson ([`Stopped::other`]).
    ///
    /// # Errors
    /// As [`Talk::new`].
    pub fn resume(
        lesson: Lesson,
        mut sitting: Sitting,
        stopped: &Stopped,
    ) -> Result<Option<Self>, Fault> {
        if stopped.other(&lesson).is_some() {
            return Ok(None);
        }
        sitting.from = stopped.from;
        sitting.attempt = stopped.attempt().unwrap_or(sitting.attempt);
        let mut talk = Self::new(lesson, sitting)?;
        talk.replay(stopped);
        if talk.at == 0 {
            return Ok(None);
        }
        talk.look_again();
        Ok(Some(talk))
    }

    /// Where it is now.
    pub fn place(&self) -> Place {
        Place::new(&self.lesson, self.card(), (self.at, self.cards.len()))
    }

    /// The first turn: what the lesson is, and its first question.
    pub fn open(&self) -> Turn {
        if let Some(step) = self.resumed {
            let lesson = self.taught();
            let said = vec![
                Say::Head(format!("The lesson goes on: {}", self.lesson.title)),
                Say::Text(self.lesson.limits.clone()),
            ];
            return self.card_turn(said, vec![Event::LessonResumed { lesson, step }]);
        }
        let values = self.lesson.values.iter();
        let started = Event::LessonStarted {
            lesson: self.taught(),
            from: self.sitting.from,
            values: values
                .map(|(name, _, shown)| (name.clone(), shown.clone()))
                .collect(),
        };
        let mut said = opening(&self.lesson);
        said.extend(
            self.sitting
                .unsigned
                .as_ref()
                .map(|why| Say::Text(format!("This lesson will not be signed as taught: {why}."))),
        );
        self.card_turn(said, vec![started])
    }

    /// The next turn: `answer` is one line without its end, or none at the end of the input.
    pub fn next(&mut self, answer: Option<&str>) -> Turn {
        if self.over {
            return Turn::default();
        }
        let Some(answer) = answer else {
            return self.pause();
        };
        let line = match clean(answer) {
            Ok(line) => line,
            Err(words) => return self.ask_turn(vec![Say::Text(words)], Vec::new()),
        };
        if self.noting {
            return self.note(line);
        }
        match Command::read(line, self.prompt().wants) {
            Some(command) => self.command(command),
            None => self.answer(line),
        }
    }

    /// Who is taught what by whom.
    pub(super) fn taught(&self) -> Taught {
        Taught {
            learner: self.sitting.learner.clone(),
            instructor: self.sitting.instructor.clone(),
            procedure: self.lesson.procedure.clone(),
            revision: self.lesson.revision,
        }
    }

    fn card(&self) -> Card {
        self.cards[self.at]
    }

    fn prompt(&self) -> Prompt {
        let mut prompt = self.card().prompt(&self.lesson);
        if self.noting {
            let (text, wants) = ("Note:".to_owned(), Wants::Note);
            prompt = Prompt { text, wants };
        } else if self.card() == Card::Sign
            && let Some(why) = self.why_unsigned()
        {
            let text = format!("Not signed as taught: {why}");
            prompt = Prompt {
                text,
                wants: Wants::Next,
            };
        }
        prompt
    }

    /// The same question again.
    fn ask_turn(&self, said: Vec<Say>, events: Vec<Event>) -> Turn {
        Turn {
            said,
            ask: Some(self.prompt()),
            events,
            ..Turn::default()
        }
    }

    fn card_turn(&self, said: Vec<Say>, events: Vec<Event>) -> Turn {
        let mut turn = self.ask_turn(said, events);
        turn.is_new = true;
        turn.show = self.card().show(&self.lesson);
        turn.show.extend(self.about_now());
        turn
    }

    /// What a card shows that hangs on earlier answers.
    fn about_now(&self) -> Vec<Say> {
        match self.card() {
            Card::Said(subject) => {
                let points = (1..).zip(subject.points(&self.lesson));
                let shared = points.filter_map(|(number, point)| {
                    let text = point.text();
                    let words = super::heard_in(&self.done.heard, &text).join(", ");
                    (!words.is_empty())
                        .then(|| format!("{number}, in the learner's words too: {words}"))
                });
                shared.map(Say::Text).collect()
            }
            Card::Choose(at) => self.questions[at].show(),
            Card::Sign => {
                let open = self.open_points().into_iter();
                open.map(|open| Say::Item(format!("Still open: {open}")))
                    .collect()
            }
            _ => Vec::new(),
        }
    }

    fn command(&mut self, command: Command) -> Turn {
        match command {
            Command::Back if self.at == 0 => self.ask_turn(
                vec![Say::Text("This is the first question.".to_owned())],
                Vec::new(),
            ),
            Command::Back => {
                self.at -= 1;
                self.card_turn(Vec::new(), Vec::new())
            }
            Command::Repeat => self.card_turn(Vec::new(), Vec::new()),
            Command::Note => {
                self.noting = true;
                self.ask_turn(Vec::new(), Vec::new())
            }
            Command::Pause => self.pause(),
            Command::Help => {
                let help = HELP.iter().map(|line| Say::Item((*line).to_owned()));
                self.ask_turn(help.collect(), Vec::new())
            }
        }
    }

    fn note(&mut self, text: &str) -> Turn {
        self.noting = false;
        let note = (!text.is_empty()).then(|| Event::Note {
            by: self.sitting.instructor.clone(),
            about: Some(self.lesson.procedure.clone()),
            text: text.to_owned(),
        });
        let said = if note.is_some() { "Noted." } else { "No note." };
        self.card_turn(vec![Say::Text(said.to_owned())], note.into_iter().collect())
    }

    fn answer(&mut self, line: &str) -> Turn {
        let wants = self.prompt().wants;
        let effect = self.take(self.card(), wants, line);
        if !effect.on {
            return self.ask_turn(effect.say, effect.events);
        }
        if self.at + 1 == self.cards.len() {
            return self.end(effect.say, effect.events);
        }
        self.at += 1;
        self.card_turn(effect.say, effect.events)
    }

    fn end(&mut self, said: Vec<Say>, events: Vec<Event>) -> Turn {
        self.over = true;
        Turn {
            said,
            events,
            ..Turn::default()
        }
    }

    fn pause(&mut self) -> Turn {
        let unit = &self.lesson.units[self.card().unit(&self.lesson)];
        let from = unit.steps.first().map_or(1, |step| step.number);
        let lesson = self.taught();
        let said = [
            "Paused. What was done until here is in the record.",
            "To go on here: the same command again.",
        ];
        let said = said.map(|words| Say::Text(words.to_owned()));
        self.end(said.to_vec(), vec![Event::LessonPaused { lesson, from }])
    }

    /// An answer to a question.
    pub(super) fn answered(&self, answer: Answered) -> Event {
        let taught = self.taught();
        Event::Questions(Questions {
            watched: Watched {
                learner: taught.learner,
                by: taught.instructor,
                procedure: taught.procedure,
                revision: taught.revision,
            },
            attempt: self.sitting.attempt,
            answers: vec![answer],
        })
    }

    /// The points of a subject that were answered, said and missed.
    pub(super) fn explained(&self, subject: Subject) -> Event {
        let points: &[Point] = subject.points(&self.lesson);
        let answers = self.done.said.get(&subject);
        let list = |wanted: bool| {
            let answers = answers.into_iter().flatten();
            answers
                .filter(|(_, said)| **said == wanted)
                .map(|(point, _)| points[*point].text())
                .collect()
        };
        Event::Explained {
            lesson: self.taught(),
            set_up: self.lesson.units[subject.unit].set_up.title.clone(),
            step: subject.number(&self.lesson),
            said: list(true),
            missed: list(false),
        }
    }

    /// Why the lesson is not signed as taught, whatever the instructor answers.
    fn why_unsigned(&self) -> Option<String> {
        let is_open = !self.open_points().is_empty();
        let open = is_open.then(|| "teach what is open once more".to_owned());
        open.or_else(|| self.sitting.unsigned.clone())
    }

    /// What was not done or not said, in words.
    pub(super) fn open_points(&self) -> Vec<String> {
        let did = self.done.did.iter().filter(|(_, did)| !**did);
        let did = did.map(|(number, _)| format!("step {number}, not done without help"));
        let said = self.done.said.iter();
        let said = said
            .filter(|(_, points)| points.values().any(|said| !said))
            .map(|(subject, _)| format!("{}, points not said", subject.words(&self.lesson)));
        did.chain(said).collect()
    }
}

/// What can be typed at any question.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Command {
    Back,
    Repeat,
    Note,
    Pause,
    Help,
}

impl Command {
    fn read(line: &str, wants: Wants) -> Option<Self> {
        match line {
            "b" | "back" => Some(Self::Back),
            "r" | "repeat" => Some(Self::Repeat),
            "n" if matches!(wants, Wants::YesNo | Wants::All) => None,
            "n" | "note" => Some(Self::Note),
            "q" | "pause" => Some(Self::Pause),
            "?" | "help" => Some(Self::Help),
            _ => None,
        }
    }
}

/// The line without blanks at its ends, or why it is not taken.
fn clean(line: &str) -> Result<&str, String> {
    let line = line.trim();
    if line.chars().any(char::is_control) {
        return Err(
            "That line holds a key that is not a letter (an arrow?); type it again.".into(),
        );
    }
    let letters = line.chars().count();
    if letters > LONGEST {
        return Err(format!(
            "That line is {letters} characters long; at most {LONGEST} are taken. Nothing was \
             recorded."
        ));
    }
    Ok(line)
}
