//! Questions of a lesson: the same for the same person and attempt, one right answer each, wrong
//! numbers that no rounding makes right.

use std::collections::BTreeSet;

use crate::fixture::lesson;
use faceside::procedure::{example, fill};
use faceside::shoplog::Person;
use faceside::store::Workshop;
use faceside::training::{Lesson, NEAREST, Question, questions};

fn person(id: &str) -> Person {
    Person::new(id).unwrap()
}

#[test]
fn the_same_attempt_has_the_same_questions_and_another_has_others() {
    let first = questions(&lesson(), &person("A07"), 1);
    assert_eq!(first, questions(&lesson(), &person("A07"), 1));
    assert_ne!(first, questions(&lesson(), &person("A07"), 2));
    assert_ne!(first, questions(&lesson(), &person("B11"), 1));
    let mut newer = lesson();
    newer.revision += 1;
    assert_ne!(first, questions(&newer, &person("A07"), 1));
    // Two numbers, a key point, a reason, a caution.
    assert_eq!(first.len(), 5);
}

#[test]
fn an_answer_is_taken_by_its_number_only() {
    let question = Question {
        ask: "Which?".to_owned(),
        answers: vec!["this".to_owned(), "that".to_owned()],
        right: 1,
    };
    for line in ["0", "3", "", "that", "-1", "1.0"] {
        assert!(question.answered(line).is_err(), "{line}");
    }
    assert!(!question.answered("1").unwrap().is_right());
    assert!(question.answered(" 2 ").unwrap().is_right());
}

/// Number, decimals and unit of a plain decimal length.
fn decimal(text: &str) -> Option<(f64, usize, &str)> {
    let (number, unit) = text.split_once(' ')?;
    let places = number.split_once('.').map_or(0, |(_, part)| part.len());
    matches!(unit, "mm" | "in").then_some(())?;
    Some((number.parse().ok()?, places, unit))
}

/// Holds every question of the whole library: the wrong ones were never told of the same step, and
/// no wrong number comes nearer than the house value, whatever it is rounded to.
#[test]
fn every_question_of_the_library_has_one_right_answer() {
    let (workshop, _) = Workshop::open(None, None).unwrap();
    let (mut asked, mut numbers, mut places) = (0, 0, BTreeSet::new());
    for procedure in workshop.usable() {
        let filled = fill(
            procedure,
            workshop.place(),
            &example(procedure, workshop.place()),
        );
        let lesson = Lesson::new(&filled.unwrap(), &workshop.limits.short).unwrap();
        for attempt in 1..=8 {
            let all = questions(&lesson, &person("A07"), attempt);
            assert!(all.len() >= 2, "{}", procedure.id);
            for question in all {
                asked += 1;
                let all: BTreeSet<_> = question.answers.iter().collect();
                assert_eq!(all.len(), question.answers.len(), "{question:?}");
                assert!((2..=4).contains(&all.len()), "{question:?}");
                places.insert(question.right);
                let right = &question.answers[question.right];
                let is_number = question.ask.contains("what is set?")
                    || question.ask.contains("which value is wanted?");
                if !is_number {
                    continue;
                }
                numbers += 1;
                let (value, digits, unit) = decimal(right).unwrap();
                for wrong in question.answers.iter().filter(|one| *one != right) {
                    let (other, same, of) = decimal(wrong).unwrap();
                    assert_eq!((same, of), (digits, unit), "{wrong} beside {right}");
                    let mm = if unit == "in" { 25.4 } else { 1.0 };
                    let apart = (other - value).abs() * mm;
                    assert!(apart > NEAREST * 0.998, "{wrong} beside {right}");
                    assert!(other > 0.0 && other < 3.0 * value, "{wrong} beside {right}");
                }
            }
        }
    }
    assert!(
        asked > 1000 && numbers > 300,
        "{asked} asked, {numbers} numbers"
    );
    assert_eq!(places.len(), 4, "the right answer stands everywhere");
}
