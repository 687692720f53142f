//! The way of a training: from nothing to the authority, and what each signature wants before it.

use super::{
    WHAT, a_test, as_authorised, as_practised, as_taught, as_tested, authority, clean, day,
    near_miss, person, reading, refuses, roll, run, signed, state, takes, taught, tried,
};
use faceside::diag::Code;
use faceside::shoplog::{Event, Person};
use faceside::training::Stage;

#[test]
fn a_whole_training_goes_from_none_to_authorised() {
    let mut roll = roll();
    let nothing = roll.state(&person("A07"), WHAT, &day("2026-03-02"));
    assert_eq!(nothing.unwrap(), None);
    takes(&mut roll, &[("2026-03-02", tried(1, true))]);
    let none = state(&roll, "2026-03-02");
    assert_eq!(none.stage, Stage::None);
    assert_eq!(none.next, "a lesson, from step 2");
    let roll = as_taught();
    let taught = state(&roll, "2026-03-02");
    assert_eq!(taught.stage, Stage::Taught);
    assert!(taught.reason.contains("by I02"));
    let mut practising = as_taught();
    takes(&mut practising, &[("2026-03-03", clean())]);
    let one = state(&practising, "2026-03-03");
    assert_eq!(one.stage, Stage::Practising { runs: 1 });
    assert!(one.next.contains("1 of 3 clean"), "{}", one.next);
    let ready = state(&as_practised(), "2026-03-04");
    assert_eq!(ready.stage, Stage::Practising { runs: 3 });
    assert_eq!(ready.next, "the test, watched by another than I02");
    let tested = state(&as_tested(), "2026-03-05");
    assert_eq!(tested.stage, Stage::Tested);
    assert!(tested.reason.contains("watched by I05"));
    let may = state(&as_authorised(), "2026-03-06");
    let until = day("2028-12-31");
    assert_eq!(may.stage, Stage::Authorised { until });
    assert_eq!(may.machines, ["router-table-1"]);
    assert_eq!(may.limits.as_deref(), Some("boards up to 300 mm"));
    assert_eq!(may.next, "");
}

#[test]
fn a_lesson_that_ends_with_a_signature_is_taught_only_with_every_step_done() {
    let ended = Event::LessonEnded {
        lesson: taught("I02", WHAT),
        tried: vec![1],
        open: Vec::new(),
        taught_by: Some(person("I02")),
    };
    let mut roll = roll();
    takes(&mut roll, &[("2026-03-02", tried(1, true))]);
    let fault = refuses(&mut roll, "2026-03-02", &ended, "done rightly: 2");
    assert_eq!(fault.code, Code::REFUSED);
    // A step that was done with help counts when it is done again rightly.
    takes(&mut roll, &[("2026-03-03", tried(2, false))]);
    refuses(&mut roll, "2026-03-03", &ended, "done rightly: 2");
    takes(
        &mut roll,
        &[("2026-03-03", tried(2, true)), ("2026-03-03", ended)],
    );
    assert_eq!(state(&roll, "2026-03-03").stage, Stage::Taught);
}

#[test]
fn nobody_signs_for_himself() {
    let mut roll = as_tested();
    let mut own = run(WHAT);
    own.watched.by = person("A07");
    let events = [
        signed("A07"),
        Event::WatchedRun(own),
        Event::Test(a_test("A07")),
        authority("A07", "2027-01-01"),
    ];
    for event in &events {
        refuses(&mut roll, "2026-03-06", event, "cannot sign for");
    }
}

#[test]
fn who_taught_does_not_test() {
    let event = Event::Test(a_test("I02"));
    let words = "I02 signed it as taught";
    refuses(&mut as_practised(), "2026-03-05", &event, words);
}

#[test]
fn nothing_comes_before_the_signature_as_taught() {
    let mut roll = roll();
    takes(&mut roll, &[("2026-03-02", tried(1, true))]);
    let events = [
        clean(),
        Event::Test(a_test("I05")),
        authority("I05", "2027-01-01"),
    ];
    for event in &events {
        refuses(&mut roll, "2026-03-02", event, "not signed as taught");
    }
}

#[test]
fn a_test_wants_three_clean_runs_in_a_row_on_two_days() {
    let test = Event::Test(a_test("I05"));
    let mut roll = as_taught();
    refuses(&mut roll, "2026-03-03", &test, "0 of 3 clean");
    for _ in 0..3 {
        takes(&mut roll, &[("2026-03-03", clean())]);
    }
    refuses(&mut roll, "2026-03-03", &test, "on 1 of 2 days");
    // One run with help, or one that was not explained, and they are counted from nothing again.
    for (helped, explained) in [(true, true), (false, false)] {
        let mut not_clean = run(WHAT);
        (not_clean.helped, not_clean.explained) = (helped, explained);
        let mut roll = as_practised();
        takes(&mut roll, &[("2026-03-05", Event::WatchedRun(not_clean))]);
        refuses(&mut roll, "2026-03-05", &test, "0 of 3 clean");
    }
}

#[test]
fn a_test_is_passed_with_all_steps_and_readings_only() {
    let mut short = a_test("I05");
    short.elements.pop();
    let words = "1 of 2 steps and 1 of 1 readings";
    refuses(
        &mut as_practised(),
        "2026-03-05",
        &Event::Test(short),
        words,
    );
    let mut unread = a_test("I05");
    unread.readings.clear();
    let words = "0 of 1 readings";
    refuses(
        &mut as_practised(),
        "2026-03-05",
        &Event::Test(unread),
        words,
    );
}

#[test]
fn a_test_that_is_not_passed_leads_back_to_the_practice() {
    let mut missed = a_test("I05");
    missed.elements[0].held = false;
    let mut out = a_test("I05");
    out.readings[0] = reading(9.51);
    let mut helped = a_test("I05");
    helped.prompts = 1;
    let mut hurt = a_test("I05");
    hurt.unsafe_act = Some("reached over the cutter".to_owned());
    hurt.elements.truncate(1);
    for (test, why) in [
        (missed, "step 1"),
        (out, "depth of the groove"),
        (helped, "help was given"),
        (hurt, "reached over the cutter"),
    ] {
        let mut roll = as_practised();
        takes(&mut roll, &[("2026-03-05", Event::Test(test))]);
        let state = state(&roll, "2026-03-05");
        assert_eq!(state.stage, Stage::Practising { runs: 0 });
        assert!(state.reason.contains(why), "{}", state.reason);
        let event = authority("I05", "2027-01-01");
        refuses(&mut roll, "2026-03-05", &event, "has not passed the test");
    }
    // The limits themselves are good.
    for mm in [9.4, 9.5] {
        let mut edge = a_test("I05");
        edge.readings[0] = reading(mm);
        assert_eq!(edge.failed(), None, "{mm}");
    }
}

#[test]
fn what_is_learned_first_is_tested_first() {
    let next = "hang-the-rack";
    let mut roll = as_practised();
    for step in [1, 2] {
        let lesson = taught("I02", next);
        let did = true;
        let tried = Event::Tried { lesson, step, did };
        takes(&mut roll, &[("2026-03-04", tried)]);
    }
    let lesson = taught("I02", next);
    let mut events = vec![("2026-03-04", Event::SignedTaught { lesson })];
    for on in ["2026-03-05", "2026-03-05", "2026-03-06"] {
        events.push((on, Event::WatchedRun(run(next))));
    }
    takes(&mut roll, &events);
    let mut test = a_test("I05");
    test.watched.procedure = next.to_owned();
    let test = Event::Test(test);
    let fault = roll.take(&test, &day("2026-03-07")).unwrap_err();
    assert!(
        fault.message.contains("not tested: fit-the-rack"),
        "{}",
        fault.message
    );
    let mine = roll.state(&person("A07"), next, &day("2026-03-07"));
    assert!(
        mine.unwrap()
            .unwrap()
            .next
            .contains("first the tests of: fit-the-rack")
    );
    let first = Event::Test(a_test("I05"));
    takes(&mut roll, &[("2026-03-07", first), ("2026-03-07", test)]);
}

/// T27: who teaches and tests is qualified; the first ones are named by the shop.
#[test]
fn who_signs_is_an_instructor_or_may_work_alone_in_it() {
    let roll = as_authorised();
    let may = |by: &str, what: &str, on: &str, named: &[&str]| {
        let named: Vec<Person> = named.iter().map(|id| person(id)).collect();
        roll.may_sign(&person(by), what, &day(on), &named)
    };
    for by in ["I02", "I05", "Z9"] {
        let fault = may(by, WHAT, "2026-03-07", &[]).unwrap_err();
        assert_eq!(fault.code, Code::REFUSED);
        assert!(fault.hints.iter().any(|hint| hint.contains("people.yaml")));
        assert!(may(by, WHAT, "2026-03-07", &["B1"]).is_err());
        assert!(may(by, WHAT, "2026-03-07", &["B1", by]).is_ok());
    }
    // Authorised from 2026-03-06 until 2028-12-31, and 183 days without use are too many.
    assert!(may("A07", WHAT, "2026-03-07", &[]).is_ok());
    assert!(may("A07", "hang-the-rack", "2026-03-07", &[]).is_err());
    assert!(may("A07", WHAT, "2026-12-01", &[]).is_err());
    assert!(may("A07", "unheard-of", "2026-03-07", &["A07"]).is_err());
    let mut stopped = roll.clone();
    takes(&mut stopped, &[("2026-03-08", near_miss(Some(WHAT), None))]);
    let by = person("A07");
    let may = stopped.may_sign(&by, WHAT, &day("2026-03-09"), &[]);
    assert!(may.unwrap_err().message.contains("may not work alone"));
}
