//! A lesson that stopped goes on where it stopped: from its events alone, after any number of
//! answers, told or not told as a pause; never with other numbers or another revision.

use crate::fixture::{lesson, sitting};
use crate::play::Play;
use faceside::shoplog::{Event, Person, Questions, Taught};
use faceside::training::{Lesson, Say, Stopped, Talk, Wants, plain};

const DAY: &str = "2026-11-24";

fn find(events: &[Event]) -> Option<Stopped> {
    let events = events.iter().map(|event| (event, DAY));
    Stopped::find(events, &Person::new("A07").unwrap(), "stopped-housing")
}

fn resume(events: &[Event]) -> Option<Talk> {
    Talk::resume(lesson(), sitting(1), &find(events)?).unwrap()
}

/// A lesson that goes well until a question holds `words`, and its events.
fn until(words: &str) -> (Play, Vec<Event>) {
    let mut play = Play::from(1);
    play.until(words);
    let events = play.events().into_iter().cloned().collect();
    (play, events)
}

/// What is recorded of steps, points and questions: what must not be lost or doubled.
fn kept<'e>(events: impl Iterator<Item = &'e Event>) -> Vec<Event> {
    let counts = |event: &&Event| {
        matches!(
            event,
            Event::Presented { .. }
                | Event::Tried { .. }
                | Event::Explained { .. }
                | Event::Questions(_)
                | Event::FollowUp { .. }
                | Event::LessonEnded { .. }
        )
    };
    events.filter(counts).cloned().collect()
}

/// Stopped after every answer in turn, by a pause or by nothing at all, and gone on with: in the end
/// the same is recorded as by a lesson without a stop.
#[test]
fn a_lesson_stopped_anywhere_ends_as_one_that_never_stopped() {
    let mut whole = Play::from(1);
    whole.finish();
    let wanted = kept(whole.events().into_iter());
    let mut stopped_at = std::collections::BTreeSet::new();
    for lines in 0..whole.turns.len() - 1 {
        let mut play = Play::from(1);
        for _ in 0..lines {
            let good = play.good().unwrap();
            play.line(Some(good));
        }
        let asked = play.asked().to_owned();
        // Killed in every other round.
        if lines % 2 == 0 {
            play.line(None);
        }
        let mut events: Vec<Event> = play.events().into_iter().cloned().collect();
        let Some(talk) = resume(&events) else {
            assert!(lines == 0, "nothing to go on with after {lines} answers");
            continue;
        };
        stopped_at.insert(talk.stopped_at().words());
        let mut rest = Play::of(talk);
        rest.finish();
        events.extend(rest.events().into_iter().cloned());
        assert_eq!(
            kept(events.iter()),
            wanted,
            "after {lines} answers, at: {asked}"
        );
        let resumed = |event: &&Event| matches!(event, Event::LessonResumed { .. });
        assert_eq!(events.iter().filter(resumed).count(), 1);
    }
    for words in [
        "unit 1 (set-up)",
        "unit 2, step 7 (present)",
        "unit 3, step 11 (explain)",
    ] {
        assert!(stopped_at.contains(words), "{words}: {stopped_at:?}");
    }
}

#[test]
fn the_machine_is_looked_at_again_before_it_goes_on() {
    let (_, events) = until("Step 7: done rightly");
    let talk = resume(&events).unwrap();
    assert_eq!(talk.stopped_at().words(), "unit 2, step 7 (try out)");
    let mut play = Play::of(talk);
    assert!(matches!(
        play.last_event(),
        Event::LessonResumed { step: 7, .. }
    ));
    assert!(play.asked().contains("unplugged"));
    for not_yes in ["", "n"] {
        play.say(not_yes);
        assert!(play.asked().contains("unplugged"));
    }
    let again = play.say("y");
    for words in [
        "Avoid rt-dust so.",
        "Cutter above the table: 9.50 mm",
        "11.95 mm",
        "Nobody knows",
    ] {
        assert!(again.contains(words), "{words}\n{again}");
    }
    assert!(play.asked().contains("Looked at again"));
    assert!(play.say("").contains("Avoid rt-no-trap so."));
    assert!(play.asked().contains("Step 7: done rightly"));
    // Back leads to what was answered before the stop.
    play.say("b");
    play.say("b");
    play.say("b");
    assert!(
        play.asked().contains("Step 6: done rightly"),
        "{}",
        play.asked()
    );
}

#[test]
fn at_the_bench_of_a_lesson_with_a_machine_the_plug_is_asked_for_too() {
    let (_, events) = until("Step 10: done rightly");
    let mut play = Play::of(resume(&events).unwrap());
    assert!(play.asked().contains("unplugged"));
    assert!(play.say("y").contains("Square the ends"));
}

#[test]
fn what_was_open_stays_open() {
    let mut play = Play::from(10);
    play.until("Step 10: done rightly");
    play.say("n");
    play.until("Before step 11");
    play.say("");
    play.say("1");
    let events: Vec<Event> = play.events().into_iter().cloned().collect();
    let mut rest = Play::of(resume(&events).unwrap());
    rest.until("Not signed as taught");
    let shown = plain(&rest.turns.last().unwrap().show, 3000);
    assert!(shown.contains("step 10, not done without help"), "{shown}");
    assert!(shown.contains("step 11, points not said"), "{shown}");
}

#[test]
fn a_reading_that_was_bad_is_measured_again_and_a_good_one_is_not() {
    for (reading, asked) in [("9.9 mm", "reading"), ("9.45 mm", "Step 3: done rightly")] {
        let (mut play, _) = until("reading");
        play.say(reading);
        let events: Vec<Event> = play.events().into_iter().cloned().collect();
        let mut rest = Play::of(resume(&events).unwrap());
        rest.say("y");
        rest.say("");
        assert!(rest.asked().contains(asked), "{reading}: {}", rest.asked());
    }
}

#[test]
fn the_questions_that_are_left_are_those_of_the_same_attempt() {
    let (mut play, _) = until("Which is right?");
    play.say("1");
    let events: Vec<Event> = play.events().into_iter().cloned().collect();
    let first = play.turns.last().unwrap().show.clone();
    let mut later = sitting(1);
    later.attempt = 2;
    let talk = Talk::resume(lesson(), later, &find(&events).unwrap()).unwrap();
    let mut rest = Play::of(talk.unwrap());
    rest.say("y");
    rest.say("");
    assert_eq!(rest.turns.last().unwrap().show, first);
    rest.say("1");
    let Event::Questions(Questions { attempt, .. }) = rest.last_event() else {
        panic!()
    };
    assert_eq!(*attempt, 1);
}

#[test]
fn other_numbers_and_another_revision_are_not_gone_on_with() {
    let (_, events) = until("Step 3: done rightly");
    let stopped = find(&events).unwrap();
    assert_eq!(stopped.other(&lesson()), None);
    let refused = |lesson: Lesson, words: &str| {
        let why = stopped.other(&lesson).unwrap();
        assert!(why.contains(words), "{why}");
        assert!(
            Talk::resume(lesson, sitting(1), &stopped)
                .unwrap()
                .is_none()
        );
    };
    let mut newer = lesson();
    newer.revision += 1;
    refused(newer, "it was revision 3 of the procedure, and 4 holds now");
    let mut other = lesson();
    other.values[0].2 = "18.0 mm".to_owned();
    refused(other, "Thickness of the shelf was 17.6 mm, and is 18.0 mm");
    let mut more = lesson();
    let value = ("side", "Thickness of the side", "18.3 mm");
    more.values
        .push((value.0.into(), value.1.into(), value.2.into()));
    refused(
        more,
        "Thickness of the side was not asked for, and is 18.3 mm",
    );
    let mut fewer = lesson();
    fewer.values.clear();
    refused(fewer, "`shelf` was 17.6 mm, and is not asked for");
}

#[test]
fn a_lesson_that_ended_or_is_another_persons_is_not_gone_on_with() {
    let mut play = Play::from(1);
    play.finish();
    let ended: Vec<Event> = play.events().into_iter().cloned().collect();
    assert_eq!(find(&ended), None);
    let (_, events) = until("Told and shown");
    let all = || events.iter().map(|event| (event, DAY));
    let other = Person::new("B11").unwrap();
    assert_eq!(Stopped::find(all(), &other, "stopped-housing"), None);
    let learner = Person::new("A07").unwrap();
    assert_eq!(Stopped::find(all(), &learner, "through-housing"), None);
}

#[test]
fn a_new_lesson_without_an_answer_hides_none_that_stopped() {
    let (_, mut events) = until("Step 3: done rightly");
    let mut begun = Play::from(1);
    begun.line(None);
    events.extend(begun.events().into_iter().cloned());
    let talk = resume(&events).unwrap();
    assert_eq!(talk.stopped_at().words(), "unit 1, step 3 (try out)");
    // One with an answer does.
    let mut begun = Play::from(1);
    begun.say("y");
    events.extend(begun.events().into_iter().cloned());
    assert_eq!(
        resume(&events).unwrap().stopped_at().words(),
        "unit 1 (set-up)"
    );
}

/// As an older program wrote it: the isolation among the ticks, all steps of a unit in one line, the
/// points of a step in part.
#[test]
fn a_lesson_of_an_older_program_is_gone_on_with() {
    let (_, events) = until("unplugged");
    let started = events[0].clone();
    let lesson = Taught {
        learner: Person::new("A07").unwrap(),
        instructor: Person::new("BK").unwrap(),
        procedure: "stopped-housing".to_owned(),
        revision: 3,
    };
    let Event::Prepared { mut done, .. } = events[1].clone() else {
        panic!()
    };
    done.push("The machine is unplugged, and the plug in sight.".to_owned());
    let mut all = vec![started];
    all.push(Event::Prepared {
        lesson: lesson.clone(),
        done,
        not_done: Vec::new(),
    });
    let at = |all: &[Event]| resume(all).unwrap().stopped_at().words();
    assert_eq!(at(&all), "unit 1 (set-up)");
    all.push(Event::Presented {
        lesson: lesson.clone(),
        set_up: "Cut the housings".to_owned(),
        steps: vec![1, 2, 3, 4, 5],
    });
    assert_eq!(at(&all), "unit 1 (present)");
    all.push(Event::Explained {
        lesson,
        set_up: "Cut the housings".to_owned(),
        step: Some(2),
        said: vec!["Key of 2.".to_owned()],
        missed: Vec::new(),
    });
    assert_eq!(at(&all), "unit 1, step 2 (explain)");
}

/// Lines with any events, in any order: never a panic, and what goes on can be played to its end.
#[test]
fn events_in_any_order_are_survived() {
    let mut play = Play::from(1);
    play.until("sign these steps");
    let events: Vec<Event> = play.events().into_iter().cloned().collect();
    for step in [1, 3, 7, 13, 29] {
        let mut mixed = vec![events[0].clone()];
        let mut at = 0;
        for _ in 1..events.len() {
            at = (at + step) % events.len();
            mixed.push(events[at].clone());
        }
        mixed.retain(|event| !matches!(event, Event::LessonStarted { .. }));
        mixed.insert(0, events[0].clone());
        if let Some(talk) = resume(&mixed) {
            let mut rest = Play::of(talk);
            rest.finish();
            assert!(matches!(rest.last_event(), Event::LessonEnded { .. }));
        }
    }
}

#[test]
fn what_is_asked_for_a_whole_list_is_said_so() {
    let (play, _) = until("say all of it");
    let turn = play.turns.last().unwrap();
    assert_eq!(turn.ask.as_ref().unwrap().wants, Wants::All);
    assert!(matches!(turn.show[0], Say::Numbered(1, _)));
}
