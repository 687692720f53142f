//! Questions about a procedure, made from its own key points, reasons, cautions and numbers.
//!
//! Procedure, revision, person and attempt make the questions, and nothing else: the same four give
//! the same questions, another attempt gives others. A wrong answer is something that is true
//! elsewhere in the procedure, or a number as far off as a common slip: half the cutter, the whole
//! cutter, a whole millimetre or more. No wrong number is nearer to the right one than [`NEAREST`],
//! so that none is right after rounding. What is asked is knowledge, and proves no skill (T12 of
//! `procedures.md` 1C).

use super::{Lesson, LessonStep, Point, Say};
use crate::diag::{Code, Fault};
use crate::procedure::plain;
use crate::shoplog::{Answered, Person};

/// How near a wrong number comes to the right one at most, in mm; a house value.
pub const NEAREST: f64 = 0.5;

/// Most answers to choose from.
const ANSWERS: usize = 4;

/// Slips of a setting besides those of the cutter, in mm.
const SLIPS: [f64; 6] = [1.0, 2.0, 3.0, 5.0, 10.0, 20.0];

/// A question with answers to choose from.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Question {
    /// What is asked.
    pub ask: String,
    /// Two to four answers, all different.
    pub answers: Vec<String>,
    /// Which of them is right, from 0.
    pub right: usize,
}

impl Question {
    /// The question with its answers, numbered from 1.
    pub fn show(&self) -> Vec<Say> {
        let answers = self.answers.iter().enumerate();
        let numbered = answers.map(|(at, answer)| Say::Item(format!("{}: {answer}", at + 1)));
        std::iter::once(Say::Text(self.ask.clone()))
            .chain(numbered)
            .collect()
    }

    /// The answer of that number.
    ///
    /// # Errors
    /// `out-of-range` when there is no such number.
    pub fn answered(&self, line: &str) -> Result<Answered, Fault> {
        let at = line.trim().parse::<usize>().ok();
        let answer = at.and_then(|at| self.answers.get(at.checked_sub(1)?));
        let Some(answer) = answer else {
            let message = format!("the answers are numbered from 1 to {}", self.answers.len());
            return Err(Fault::error(Code::OUT_OF_RANGE, message).hint("type one of the numbers"));
        };
        Ok(Answered {
            ask: self.ask.clone(),
            answer: answer.clone(),
            wanted: self.answers[self.right].clone(),
        })
    }
}

/// What is said to an answer.
pub fn told(answered: &Answered) -> Say {
    Say::Text(if answered.is_right() {
        "Right.".to_owned()
    } else {
        format!("Not right. It is: {}", answered.wanted)
    })
}

/// The questions for a person's attempt: at most two numbers, a key point, a reason, a caution.
pub fn questions(lesson: &Lesson, person: &Person, attempt: u32) -> Vec<Question> {
    let (id, revision) = (&lesson.procedure, lesson.revision);
    let mut lots = Lots::new(&format!("{id}\n{revision}\n{person}\n{attempt}"));
    let steps: Vec<&LessonStep> = lesson.units.iter().flat_map(|unit| &unit.steps).collect();
    let mut asked = Vec::new();
    let mut numbers = numbers(lesson);
    lots.mix(&mut numbers);
    let mut known: Vec<String> = Vec::new();
    for number in numbers {
        if known.len() < 2 && !known.contains(&number.ask) {
            known.push(number.ask.clone());
            asked.extend(number.question(&mut lots));
        }
    }
    asked.extend(point(&steps, &mut lots, key));
    asked.extend(point(&steps, &mut lots, reason));
    asked.extend(point(&steps, &mut lots, caution));
    lots.mix(&mut asked);
    asked
}

type Told<'p> = Option<(&'static str, &'p str)>;

fn key(point: &Point) -> Told<'_> {
    match point {
        Point::Key(words) => Some(("what makes or breaks it", words)),
        _ => None,
    }
}

fn reason(point: &Point) -> Told<'_> {
    match point {
        Point::Reason(words) => Some(("why is it done so", words)),
        _ => None,
    }
}

fn caution(point: &Point) -> Told<'_> {
    match point {
        Point::Caution(caution) => Some(("which caution stands before it", caution.avoid())),
        _ => None,
    }
}

/// A question about one step, with answers that belong to other steps.
fn point(steps: &[&LessonStep], lots: &mut Lots, of: fn(&Point) -> Told<'_>) -> Option<Question> {
    let told = |step: &LessonStep| -> Vec<(&'static str, String)> {
        let points = step.points().iter().filter_map(of);
        points.map(|(ask, words)| (ask, words.to_owned())).collect()
    };
    let mut places: Vec<usize> = (0..steps.len()).collect();
    lots.mix(&mut places);
    places.into_iter().find_map(|at| {
        let mine = told(steps[at]);
        let mut right = mine.clone();
        lots.mix(&mut right);
        let (ask, right) = right.first()?.clone();
        let mut wrong: Vec<String> = Vec::new();
        for (_, words) in steps.iter().flat_map(|step| told(step)) {
            if !wrong.contains(&words) && mine.iter().all(|(_, own)| *own != words) {
                wrong.push(words);
            }
        }
        let step = steps[at];
        let ask = format!("Step {}, \"{}\": {ask}?", step.number, step.act);
        lots.question(ask, right, wrong)
    })
}

/// A number of the lesson: a setting, or a value that is measured.
struct Number {
    ask: String,
    shown: String,
    /// Size of the cutter as shown; empty at the bench.
    cutter: String,
}

fn numbers(lesson: &Lesson) -> Vec<Number> {
    let mut all = Vec::new();
    for unit in &lesson.units {
        let title = &unit.set_up.title;
        let number = |ask: String, shown: &str| Number {
            ask,
            shown: shown.to_owned(),
            cutter: unit.set_up.cutter_size.clone(),
        };
        for (label, shown) in &unit.set_up.settings {
            all.push(number(format!("{title}: what is set? {label}"), shown));
        }
        for step in &unit.steps {
            all.extend(step.check.iter().map(|check| {
                let what = plain(&check.measure);
                number(
                    format!("{title}: which value is wanted? {what}"),
                    &check.wanted,
                )
            }));
        }
    }
    all
}

impl Number {
    /// None for what is no decimal number of mm or inches.
    fn question(self, lots: &mut Lots) -> Option<Question> {
        let right = Decimal::read(&self.shown)?;
        let cutter = Decimal::read(&self.cutter);
        let cutter = cutter.map_or(0.0, |size| size.mm());
        // A slip of half a cutter, on the half millimetres that a scale shows too.
        let by_cutter = [cutter / 2.0, cutter].map(|mm| (mm * 2.0).round() / 2.0);
        let mut wrong: Vec<String> = Vec::new();
        for slip in by_cutter.into_iter().chain(SLIPS) {
            for signed in [slip, -slip] {
                let other = right.plus(signed).filter(|_| slip >= NEAREST);
                let other = other.filter(|other| right.is_like(other));
                let text = other.map(|other| other.text());
                wrong.extend(text.filter(|text| !wrong.contains(text) && *text != self.shown));
            }
        }
        lots.question(self.ask, self.shown, wrong)
    }
}

/// A decimal number of mm or inches, in whole last digits.
struct Decimal<'s> {
    digits: i64,
    places: u32,
    unit: &'s str,
}

impl<'s> Decimal<'s> {
    fn read(shown: &'s str) -> Option<Self> {
        let (number, unit) = shown.split_once(' ')?;
        let (whole, part) = number.split_once('.').unwrap_or((number, ""));
        let digits = format!("{whole}{part}").parse().ok()?;
        let places = u32::try_from(part.len())
            .ok()
            .filter(|places| *places <= 4)?;
        let known = matches!(unit, "mm" | "in") && digits > 0;
        known.then_some(Self {
            digits,
            places,
            unit,
        })
    }

    fn last_digits_in_mm(&self) -> f64 {
        let unit = if self.unit == "in" { 25.4 } else { 1.0 };
        f64::from(10_i32.pow(self.places)) / unit
    }

    fn mm(&self) -> f64 {
        self.digits as f64 / self.last_digits_in_mm()
    }

    /// So many mm more; none where that cannot be told apart, or is nothing.
    fn plus(&self, mm: f64) -> Option<Self> {
        let more = (mm * self.last_digits_in_mm()).round() as i64;
        let digits = self.digits.checked_add(more)?;
        let other = Self { digits, ..*self };
        let apart = (other.mm() - self.mm()).abs();
        (digits > 0 && apart >= NEAREST * 0.999).then_some(other)
    }

    /// Whether the other is of the same size, so that it is not out of the question at once.
    fn is_like(&self, other: &Self) -> bool {
        other.digits < self.digits.saturating_mul(3) && other.digits * 3 > self.digits
    }

    fn text(&self) -> String {
        let places = self.places as usize;
        let digits = format!("{:0>width$}", self.digits, width = places + 1);
        let (whole, part) = digits.split_at(digits.len() - places);
        let point = if places > 0 { "." } else { "" };
        format!("{whole}{point}{part} {}", self.unit)
    }
}

/// Lots that fall the same way for the same seed: FNV-1a for the seed, then `SplitMix64` (published
/// constants of both, from memory; any others would serve).
struct Lots(u64);

impl Lots {
    fn new(seed: &str) -> Self {
        let mixed = seed.bytes().fold(0xcbf2_9ce4_8422_2325_u64, |hash, byte| {
            (hash ^ u64::from(byte)).wrapping_mul(0x0000_0100_0000_01b3)
        });
        Self(mixed)
    }

    fn below(&mut self, most: usize) -> usize {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut lot = self.0;
        lot = (lot ^ (lot >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        lot = (lot ^ (lot >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        ((lot ^ (lot >> 31)) % most.max(1) as u64) as usize
    }

    /// Fisher and Yates' shuffle (textbook, from memory).
    fn mix<T>(&mut self, list: &mut [T]) {
        for last in (1..list.len()).rev() {
            let other = self.below(last + 1);
            list.swap(last, other);
        }
    }

    /// None where there is no wrong answer.
    fn question(&mut self, ask: String, right: String, mut wrong: Vec<String>) -> Option<Question> {
        self.mix(&mut wrong);
        wrong.truncate(ANSWERS - 1);
        let mut answers = wrong;
        answers.push(right.clone());
        self.mix(&mut answers);
        let at = answers.iter().position(|answer| *answer == right)?;
        (answers.len() > 1).then_some(Question {
            ask,
            answers,
            right: at,
        })
    }
}
