//! The screens of a lesson in order, and what each shows and asks.
//!
//! A lesson is a row of cards, so that back, repeat and go on are steps in a list. Unit by unit it
//! is presented, then tried out: done first, then done again with the key points said (T6). The
//! cautions of a step are shown before what it tells to do, on every card that tells it; those of
//! a set-up at each of its units, and asked for at its first.

use super::words::{DRY_RUN, ISOLATED, TICKS};
use super::{Lesson, LessonStep, LessonUnit, Point, Prompt, Say, Wants};
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
    /// A tick of the preparation.
    Tick(usize),
    /// The machine is off again before the next unit is presented.
    Isolated(usize),
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
    /// Whether one of them was said.
    Said(Subject, usize),
    /// A question with answers to choose from.
    Choose(usize),
    /// Whether the lesson is signed as taught.
    Sign,
    /// Whom the learner asks.
    Helper,
    /// When the learner is looked at again.
    FollowUp,
}

/// All cards of a lesson with so many questions.
pub(super) fn cards(lesson: &Lesson, questions: usize) -> Vec<Card> {
    let mut cards: Vec<_> = (0..ticks(lesson).len()).map(Card::Tick).collect();
    for (unit, taught) in lesson.units.iter().enumerate() {
        let steps = || (0..taught.steps.len()).map(move |step| At { unit, step });
        let again = unit > 0 && taught.set_up.machine.is_some();
        cards.extend(again.then_some(Card::Isolated(unit)));
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
            let points = subject.points(lesson).len();
            cards.extend((points > 0).then_some(Card::Explain(subject)));
            cards.extend((0..points).map(|point| Card::Said(subject, point)));
        }
    }
    cards.extend((0..questions).map(Card::Choose));
    cards.extend([Card::Sign, Card::Helper, Card::FollowUp]);
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
            Self::Tick(_) => 0,
            Self::Isolated(unit) | Self::SetUp(unit) | Self::Shown(unit) | Self::TryOut(unit) => {
                unit
            }
            Self::Step(at) | Self::Did(at) | Self::Measure(at) => at.unit,
            Self::Explain(subject) | Self::Said(subject, _) => subject.unit,
            Self::Choose(_) | Self::Sign | Self::Helper | Self::FollowUp => lesson.units.len() - 1,
        }
    }

    /// What it shows.
    pub(super) fn show(self, lesson: &Lesson) -> Vec<Say> {
        match self {
            Self::Tick(0) => ready(lesson),
            Self::SetUp(unit) => set_up(lesson, unit),
            Self::Step(at) => presented(at.of(lesson), lesson.last_step()),
            Self::TryOut(unit) => try_out(&lesson.units[unit]),
            Self::Did(at) => told(at.of(lesson)),
            Self::Measure(at) => at
                .of(lesson)
                .check
                .iter()
                .map(check)
                .map(Say::Item)
                .collect(),
            Self::Said(subject, point) => {
                vec![Say::Point(subject.points(lesson)[point].clone())]
            }
            Self::Sign => vec![Say::Head("Follow up".to_owned())],
            Self::Tick(_)
            | Self::Isolated(_)
            | Self::Shown(_)
            | Self::Explain(_)
            | Self::Choose(_)
            | Self::Helper
            | Self::FollowUp => Vec::new(),
        }
    }

    /// What it asks.
    pub(super) fn prompt(self, lesson: &Lesson) -> Prompt {
        let (text, wants) = match self {
            Self::Tick(tick) => (ticks(lesson)[tick].to_owned(), Wants::YesNo),
            Self::Isolated(_) => (ISOLATED.to_owned(), Wants::YesNo),
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
            Self::Said(..) => ("Said it?".to_owned(), Wants::YesNo),
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
    show.extend(set_up.standing().iter().cloned().map(Say::Point));
    let machine = set_up
        .machine
        .iter()
        .map(|(_, name)| format!("Machine: {name}"));
    let cutter = set_up
        .cutter
        .iter()
        .map(|(_, said)| format!("Cutter: {said}"));
    let settings = set_up
        .settings
        .iter()
        .map(|(label, shown)| format!("{label}: {shown}"));
    show.extend(machine.chain(cutter).chain(settings).map(Say::Item));
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
    show.push(Say::Text(step.act.clone()));
    let others = step
        .points()
        .iter()
        .filter(|point| !matches!(point, Point::Caution(_)));
    show.extend(others.cloned().map(Say::Point));
    show.extend(step.check.iter().map(check).map(Say::Item));
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
    show.push(Say::Text(format!("Step {}: {}", step.number, step.act)));
    show
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
