//! The screens of a lesson in order, and what each shows and asks.
//!
//! A lesson is a row of cards, so that back, repeat and go on are steps in a list. Unit by unit it
//! is presented, then tried out: done first, then done again with the key points said (T6). The
//! cautions of a step are shown before what it tells to do, on every card that tells it; those of
//! a set-up at each of its units, and asked for at its first.

use super::words::{DRY_RUN, ISOLATED, TICKS, UNKNOWN};
use super::{Lesson, LessonStep, LessonUnit, Point, Prompt, Say, SetUp, Wants};
use crate::procedure::{FilledCheck, plain};

/// A step by its place in the lesson.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct At {
    pub(super) unit: usize,
    pub(super) step: usize,
}

/// What points are asked about: a step, or a whole set-up.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Subject {
    pub(super) unit: usize,
    pub(super) step: Option<usize>,
}

/// One screen.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Card {
    /// The ticks of the preparation.
    Prepare,
    /// The machine is off before a unit is presented, or gone on with.
    Isolated(usize),
    /// The set-up of a unit once more, after a pause.
    Again(usize),
    /// The head of a unit.
    SetUp(usize),
    /// A step, presented.
    Step(At),
    /// All steps of a unit were presented.
    Shown(usize),
    /// The try-out of a unit begins.
    TryOut(usize),
    /// Whether a step was done.
    Did(At),
    /// What was measured after it.
    Measure(At),
    /// The question for key points.
    Explain(Subject),
    /// Which of them were said.
    Said(Subject),
    /// A question with answers to choose from.
    Choose(usize),
    /// Whom the learner asks.
    Helper,
    /// When the learner is looked at again.
    FollowUp,
    /// Whether the lesson is signed as taught.
    Sign,
}

/// All cards of a lesson with so many questions.
pub(super) fn cards(lesson: &Lesson, questions: usize) -> Vec<Card> {
    let mut cards = vec![Card::Prepare];
    for (unit, taught) in lesson.units.iter().enumerate() {
        let steps = || (0..taught.steps.len()).map(move |step| At { unit, step });
        let isolated = match unit {
            0 => lesson.uses_machine(),
            _ => taught.set_up.machine.is_some(),
        };
        cards.extend(isolated.then_some(Card::Isolated(unit)));
        cards.push(Card::SetUp(unit));
        cards.extend(steps().map(Card::Step));
        cards.extend([Card::Shown(unit), Card::TryOut(unit)]);
        for at in steps() {
            cards.push(Card::Did(at));
            cards.extend(
                taught.steps[at.step]
                    .check
                    .as_ref()
                    .map(|_| Card::Measure(at)),
            );
        }
        let first = unit == 0 || lesson.units[unit - 1].set_up != taught.set_up;
        let whole = first.then_some(None).into_iter();
        let subjects = whole.chain((0..taught.steps.len()).map(Some));
        for subject in subjects.map(|step| Subject { unit, step }) {
            if !subject.points(lesson).is_empty() {
                cards.extend([Card::Explain(subject), Card::Said(subject)]);
            }
        }
    }
    cards.extend((0..questions).map(Card::Choose));
    cards.extend([Card::Helper, Card::FollowUp, Card::Sign]);
    cards
}

/// What is ticked before the lesson; the last one is isolation, where a machine is used.
pub fn ticks(lesson: &Lesson) -> Vec<&'static str> {
    let isolated = lesson.uses_machine().then_some(ISOLATED);
    TICKS.iter().copied().chain(isolated).collect()
}

impl At {
    pub(super) fn of(self, lesson: &Lesson) -> &LessonStep {
        &lesson.units[self.unit].steps[self.step]
    }
}

impl Subject {
    pub(super) fn points(self, lesson: &Lesson) -> &[Point] {
        let unit = &lesson.units[self.unit];
        match self.step {
            Some(step) => unit.steps[step].points(),
            None => unit.set_up.standing(),
        }
    }

    /// The number of its step.
    pub(super) fn number(self, lesson: &Lesson) -> Option<u32> {
        let unit = &lesson.units[self.unit];
        self.step.map(|step| unit.steps[step].number)
    }

    /// It in words: `step 3`, `set-up Cut the housings`.
    pub(super) fn words(self, lesson: &Lesson) -> String {
        match self.number(lesson) {
            Some(number) => format!("step {number}"),
            None => format!("set-up {}", lesson.units[self.unit].set_up.title),
        }
    }
}

impl Card {
    /// The unit that the card belongs to; the last one for the cards after all units.
    pub(super) fn unit(self, lesson: &Lesson) -> usize {
        match self {
            Self::Prepare => 0,
            Self::Isolated(unit)
            | Self::Again(unit)
            | Self::SetUp(unit)
            | Self::Shown(unit)
            | Self::TryOut(unit) => unit,
            Self::Step(at) | Self::Did(at) | Self::Measure(at) => at.unit,
            Self::Explain(subject) | Self::Said(subject) => subject.unit,
            Self::Choose(_) | Self::Helper | Self::FollowUp | Self::Sign => lesson.units.len() - 1,
        }
    }

    /// The number of the step that it is about.
    pub(super) fn step(self, lesson: &Lesson) -> Option<u32> {
        match self {
            Self::Step(at) | Self::Did(at) | Self::Measure(at) => Some(at.of(lesson).number),
            Self::Explain(subject) | Self::Said(subject) => subject.number(lesson),
            _ => None,
        }
    }

    /// What is done at it, in a word or two.
    pub(super) fn stage(self) -> &'static str {
        match self {
            Self::Prepare => "prepare",
            Self::Isolated(_) | Self::Again(_) | Self::SetUp(_) => "set-up",
            Self::Step(_) | Self::Shown(_) => "present",
            Self::TryOut(_) | Self::Did(_) | Self::Measure(_) => "try out",
            Self::Explain(_) | Self::Said(_) => "explain",
            Self::Choose(_) => "questions",
            Self::Helper | Self::FollowUp | Self::Sign => "follow up",
        }
    }

    /// What it shows.
    pub(super) fn show(self, lesson: &Lesson) -> Vec<Say> {
        match self {
            Self::Prepare => ready(lesson)
                .into_iter()
                .chain(numbered(
                    TICKS.iter().map(|tick| Say::Text((*tick).to_owned())),
                ))
                .collect(),
            Self::Again(unit) => again(lesson, unit),
            Self::SetUp(unit) => set_up(lesson, unit),
            Self::Step(at) => presented(at.of(lesson), lesson.last_step()),
            Self::TryOut(unit) => try_out(&lesson.units[unit]),
            Self::Did(at) => told(at.of(lesson)),
            Self::Measure(at) => at.of(lesson).check.iter().flat_map(measure).collect(),
            Self::Said(subject) => {
                let points = subject.points(lesson).iter().cloned();
                numbered(points.map(Say::Point)).collect()
            }
            Self::Helper => vec![Say::Head("Follow up".to_owned())],
            Self::Isolated(_)
            | Self::Shown(_)
            | Self::Explain(_)
            | Self::Choose(_)
            | Self::FollowUp
            | Self::Sign => Vec::new(),
        }
    }

    /// What it asks.
    pub(super) fn prompt(self, lesson: &Lesson) -> Prompt {
        let (text, wants) = match self {
            Self::Prepare => ("Is all of this so?".to_owned(), Wants::All),
            Self::Isolated(_) => (ISOLATED.to_owned(), Wants::YesNo),
            Self::Again(_) => ("Looked at again, and so".to_owned(), Wants::Next),
            Self::SetUp(_) => ("Shown and explained".to_owned(), Wants::Next),
            Self::Step(_) => ("Told and shown".to_owned(), Wants::Next),
            Self::Shown(_) => (
                "Show the unit again: once with the key points, once with the reasons".to_owned(),
                Wants::Next,
            ),
            Self::TryOut(_) => ("Ready for the first time".to_owned(), Wants::Next),
            Self::Did(at) => {
                let number = at.of(lesson).number;
                (
                    format!("Step {number}: done rightly, without help?"),
                    Wants::YesNo,
                )
            }
            Self::Measure(_) => ("The learner's reading".to_owned(), Wants::Reading),
            Self::Choose(_) => ("Which is right?".to_owned(), Wants::Choice),
            Self::Explain(subject) => (question(subject, lesson), Wants::Words),
            Self::Said(_) => ("Did the learner say all of it?".to_owned(), Wants::All),
            Self::Sign => (
                "Instructor: do you sign these steps as taught (not as tested)?".to_owned(),
                Wants::YesNo,
            ),
            Self::Helper => (
                "Whom does the learner ask meanwhile?".to_owned(),
                Wants::Person,
            ),
            Self::FollowUp => ("Day of the next check?".to_owned(), Wants::Day),
        };
        Prompt { text, wants }
    }
}

/// The blocks numbered from 1.
pub(super) fn numbered(blocks: impl Iterator<Item = Say>) -> impl Iterator<Item = Say> {
    (1..)
        .zip(blocks)
        .map(|(number, say)| Say::Numbered(number, Box::new(say)))
}

/// What is shown before everything else.
pub(super) fn opening(lesson: &Lesson) -> Vec<Say> {
    let mut show = vec![
        Say::Head(format!(
            "Lesson: {} (revision {})",
            lesson.title, lesson.revision
        )),
        Say::Text(lesson.limits.clone()),
        Say::Text(super::words::PRACTICE.to_owned()),
        Say::Text(format!("What for: {}", lesson.purpose)),
        Say::Text(format!("Done when: {}", lesson.done_when)),
    ];
    let values = lesson.values.iter();
    show.extend(values.map(|(_, label, shown)| Say::Item(format!("{label}: {shown}"))));
    show.extend(lesson.warnings.iter().cloned().map(Say::Text));
    show
}

/// What is to be got ready.
pub(super) fn ready(lesson: &Lesson) -> Vec<Say> {
    let mut show = vec![Say::Head("Prepare".to_owned())];
    for (head, things) in &lesson.ready {
        let things = match things.as_slice() {
            [] => "none".to_owned(),
            things => things.join("; "),
        };
        show.push(Say::Item(format!("{head}: {things}")));
    }
    show
}

fn set_up(lesson: &Lesson, unit: usize) -> Vec<Say> {
    let (number, of) = (unit + 1, lesson.units.len());
    let set_up = &lesson.units[unit].set_up;
    let mut show = vec![Say::Head(format!(
        "Present unit {number} of {of}: {}",
        set_up.title
    ))];
    show.extend(how_set(set_up));
    show
}

fn again(lesson: &Lesson, unit: usize) -> Vec<Say> {
    let (number, of) = (unit + 1, lesson.units.len());
    let set_up = &lesson.units[unit].set_up;
    let head = format!(
        "Before you go on in unit {number} of {of}: {}",
        set_up.title
    );
    let mut show = vec![Say::Head(head)];
    show.extend(how_set(set_up));
    show.push(Say::Text(UNKNOWN.to_owned()));
    show
}

/// The cautions for a whole set-up, then machine, cutter and settings.
fn how_set(set_up: &SetUp) -> Vec<Say> {
    let mut show: Vec<Say> = set_up.standing().iter().cloned().map(Say::Point).collect();
    let machine = set_up
        .machine
        .iter()
        .map(|(_, name)| format!("Machine: {name}"));
    let cutter = set_up
        .cutter
        .iter()
        .map(|(_, said)| format!("Cutter: {said}"));
    show.extend(machine.chain(cutter).map(Say::Item));
    let settings = set_up.settings.iter();
    show.extend(settings.map(|(label, shown)| figure(label, shown, false)));
    show
}

/// The cautions among the points.
pub(super) fn cautions(points: &[Point]) -> impl Iterator<Item = Say> {
    let cautions = points
        .iter()
        .filter(|point| matches!(point, Point::Caution(_)));
    cautions.cloned().map(Say::Point)
}

fn presented(step: &LessonStep, last: u32) -> Vec<Say> {
    let mut show = vec![Say::Head(format!("Step {} of {last}", step.number))];
    show.extend(cautions(step.points()));
    show.push(Say::Act(step.act.clone()));
    show.extend(step.figures.iter().map(told_figure));
    let others = step
        .points()
        .iter()
        .filter(|point| !matches!(point, Point::Caution(_)));
    show.extend(others.cloned().map(Say::Point));
    show.extend(step.check.iter().flat_map(measure));
    show
}

fn try_out(unit: &LessonUnit) -> Vec<Say> {
    let mut show = vec![Say::Head(format!("Try out: {}", unit.set_up.title))];
    show.extend(unit.set_up.standing().iter().cloned().map(Say::Point));
    show.extend(
        unit.set_up
            .machine
            .iter()
            .map(|_| Say::Text(DRY_RUN.to_owned())),
    );
    show.push(Say::Text(
        "First time: the learner does it; put every slip right at once. Second time: the learner \
         says what matters before each step, then does it again."
            .to_owned(),
    ));
    show
}

fn told(step: &LessonStep) -> Vec<Say> {
    let mut show: Vec<_> = cautions(step.points()).collect();
    show.push(Say::Act(format!("Step {}: {}", step.number, step.act)));
    show.extend(step.figures.iter().map(told_figure));
    show
}

fn figure(label: &str, shown: &str, told: bool) -> Say {
    let (label, shown) = (label.to_owned(), shown.to_owned());
    Say::Figure { label, shown, told }
}

fn told_figure((label, shown): &(String, String)) -> Say {
    figure(label, shown, true)
}

/// What is wanted, and the check in words.
fn measure(found: &FilledCheck) -> [Say; 2] {
    let wanted = figure(&plain(&found.measure), &found.wanted, true);
    [wanted, Say::Item(check(found))]
}

fn question(subject: Subject, lesson: &Lesson) -> String {
    match subject.number(lesson) {
        Some(number) => format!(
            "Before step {number} is done again: what is done, what can hurt, what makes or \
             breaks it, and why?"
        ),
        None => "What can hurt in this whole set-up, and how is it avoided?".to_owned(),
    }
}

/// A check in words.
pub(super) fn check(check: &FilledCheck) -> String {
    format!(
        "Measure {}: {} wanted, good from {} to {}; with {}.",
        plain(&check.measure),
        check.wanted,
        check.low_shown,
        check.high_shown,
        check.tool
    )
}
