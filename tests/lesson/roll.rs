//! The roll: every state and every refusal of a training, from events alone.
//!
//! What is expected comes from `procedures.md` 1C (T6, T9, T10, T13 to T16, T18, T20 to T24) and
//! section 4; three runs on two days, 183 days and 1095 days are values of this house, told as such.

use std::collections::BTreeMap;

use faceside::diag::{Code, Fault};
use faceside::shoplog::{
    Authority, Day, Element, Event, NearMiss, Person, Run, Taught, Test, TestReading, Watched,
    WatchedRun, Work,
};
use faceside::training::{Course, Roll, Stage, State};
use faceside::units::Length;

const WHAT: &str = "fit-the-rack";

fn day(text: &str) -> Day {
    Day::new(text).unwrap()
}

fn person(id: &str) -> Person {
    Person::new(id).unwrap()
}

fn course(id: &str, after: &[&str]) -> Course {
    Course {
        id: id.to_owned(),
        title: "Fit the oar rack".to_owned(),
        revision: 2,
        steps: 2,
        readings: 1,
        after: after.iter().map(|id| (*id).to_owned()).collect(),
        machines: vec!["router-table-1".to_owned()],
    }
}

fn roll() -> Roll {
    Roll::new([course(WHAT, &[]), course("hang-the-rack", &[WHAT])])
}

fn taught(by: &str, what: &str) -> Taught {
    Taught {
        learner: person("A07"),
        instructor: person(by),
        procedure: what.to_owned(),
        revision: 2,
    }
}

fn watched(by: &str, what: &str) -> Watched {
    Watched {
        learner: person("A07"),
        by: person(by),
        procedure: what.to_owned(),
        revision: 2,
    }
}

fn tried(step: u32, did: bool) -> Event {
    let lesson = taught("I02", WHAT);
    Event::Tried { lesson, step, did }
}

fn signed(by: &str) -> Event {
    let lesson = taught(by, WHAT);
    Event::SignedTaught { lesson }
}

fn run(what: &str) -> WatchedRun {
    WatchedRun {
        watched: watched("I02", what),
        machines: vec!["router-table-1".to_owned()],
        helped: false,
        explained: true,
        unsafe_act: false,
        note: None,
    }
}

fn clean() -> Event {
    Event::WatchedRun(run(WHAT))
}

fn a_test(by: &str) -> Test {
    Test {
        watched: watched(by, WHAT),
        machines: vec!["router-table-1".to_owned()],
        elements: [1, 2].map(|step| Element { step, held: true }).to_vec(),
        readings: vec![reading(9.45)],
        prompts: 0,
        unsafe_act: None,
    }
}

/// A depth that is good from 9.40 to 9.50 mm.
fn reading(mm: f64) -> TestReading {
    TestReading {
        step: 2,
        what: "depth of the groove".to_owned(),
        value: Length::mm(mm),
        low: Length::mm(9.4),
        high: Length::mm(9.5),
    }
}

fn authority(by: &str, until: &str) -> Event {
    Event::Authority(Authority {
        watched: watched(by, WHAT),
        machines: vec!["router-table-1".to_owned()],
        limits: Some("boards up to 300 mm".to_owned()),
        until: day(until),
    })
}

fn near_miss(procedure: Option<&str>, machine: Option<&str>) -> Event {
    Event::NearMiss(NearMiss {
        by: None,
        machine: machine.map(str::to_owned),
        procedure: procedure.map(str::to_owned),
        text: "the piece was thrown".to_owned(),
        changed: None,
    })
}

fn own_run(by: &str) -> Event {
    Event::Run(Box::new(Run {
        by: person(by),
        work: Work {
            procedure: WHAT.to_owned(),
            revision: 2,
            stock: BTreeMap::new(),
            ..Work::default()
        },
        pieces: 4,
        test_cuts: 1,
        note: None,
    }))
}

/// Takes events that are all allowed.
fn takes(roll: &mut Roll, events: &[(&str, Event)]) {
    for (on, event) in events {
        roll.take(event, &day(on)).unwrap();
    }
}

fn state(roll: &Roll, on: &str) -> State {
    let state = roll.state(&person("A07"), WHAT, &day(on)).unwrap();
    state.unwrap()
}

#[track_caller]
fn refuses(roll: &mut Roll, on: &str, event: &Event, words: &str) -> Fault {
    let before = state(roll, on);
    let fault = roll.take(event, &day(on)).unwrap_err();
    assert!(fault.message.contains(words), "{}", fault.message);
    assert!(!fault.hints.is_empty(), "no hint: {}", fault.message);
    assert_eq!(state(roll, on), before, "a refused event counts");
    fault
}

fn as_taught() -> Roll {
    let mut roll = roll();
    takes(
        &mut roll,
        &[
            ("2026-03-02", tried(1, true)),
            ("2026-03-02", tried(2, true)),
            ("2026-03-02", signed("I02")),
        ],
    );
    roll
}

fn as_practised() -> Roll {
    let mut roll = as_taught();
    takes(
        &mut roll,
        &[
            ("2026-03-03", clean()),
            ("2026-03-03", clean()),
            ("2026-03-04", clean()),
        ],
    );
    roll
}

fn as_tested() -> Roll {
    let mut roll = as_practised();
    takes(&mut roll, &[("2026-03-05", Event::Test(a_test("I05")))]);
    roll
}

fn as_authorised() -> Roll {
    let mut roll = as_tested();
    takes(&mut roll, &[("2026-03-06", authority("I05", "2028-12-31"))]);
    roll
}

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
fn an_authority_wants_a_test_its_machines_and_a_day_within_three_years_of_it() {
    let roll = &mut as_practised();
    let early = authority("I05", "2027-01-01");
    refuses(roll, "2026-03-05", &early, "has not passed the test");
    let roll = &mut as_tested();
    let over = authority("I05", "2026-03-05");
    refuses(roll, "2026-03-06", &over, "would be over");
    // 1095 days after 5 March 2026 is 4 March 2029 (2028 is a leap year).
    let long = authority("I05", "2029-03-05");
    let fault = refuses(roll, "2026-03-06", &long, "1095 days");
    assert_eq!(fault.code, Code::OUT_OF_RANGE);
    let Event::Authority(mut nowhere) = authority("I05", "2029-03-04") else {
        panic!()
    };
    takes(
        &mut as_tested(),
        &[("2026-03-06", Event::Authority(nowhere.clone()))],
    );
    nowhere.machines.clear();
    let event = Event::Authority(nowhere);
    refuses(roll, "2026-03-06", &event, "names its machines");
}

#[test]
fn an_authority_ends_with_its_day_and_needs_a_new_test() {
    let mut roll = as_authorised();
    takes(
        &mut roll,
        &[("2028-10-01", clean()), ("2028-12-31", own_run("A07"))],
    );
    let stage = state(&roll, "2028-12-31").stage;
    assert!(matches!(stage, Stage::Authorised { .. }));
    let over = state(&roll, "2029-01-01");
    assert_eq!(over.stage, Stage::Expired);
    assert!(over.reason.contains("over since 2028-12-31"));
    assert!(over.next.contains("a new test"));
    // The old test does not carry a second one, not even a short one.
    let again = authority("I05", "2029-02-01");
    refuses(
        &mut roll,
        "2029-01-01",
        &again,
        "carries an authority already",
    );
    takes(
        &mut roll,
        &[
            ("2029-01-02", Event::Test(a_test("I05"))),
            ("2029-01-02", again),
        ],
    );
    let stage = state(&roll, "2029-01-02").stage;
    assert!(matches!(stage, Stage::Authorised { .. }));
}

#[test]
fn a_running_authority_can_be_made_narrower_without_a_test() {
    let mut roll = as_authorised();
    takes(&mut roll, &[("2026-04-01", authority("I02", "2027-01-01"))]);
    let until = day("2027-01-01");
    assert_eq!(
        state(&roll, "2026-04-01").stage,
        Stage::Authorised { until }
    );
}

#[test]
fn an_authority_rests_when_it_is_not_used_until_a_run_is_watched() {
    let mut roll = as_authorised();
    // Used last on 5 March, the day of the test; 183 days later is 4 September.
    let stage = state(&roll, "2026-09-04").stage;
    assert!(matches!(stage, Stage::Authorised { .. }));
    let rests = state(&roll, "2026-09-05");
    assert_eq!(rests.stage, Stage::Expired);
    assert!(rests.reason.contains("not used for 184 days"));
    assert!(rests.reason.contains("183"));
    // Work on one's own does not wake it, nor does that of another.
    takes(&mut roll, &[("2026-09-05", own_run("A07"))]);
    assert_eq!(state(&roll, "2026-09-05").stage, Stage::Expired);
    takes(&mut roll, &[("2026-09-06", clean())]);
    let stage = state(&roll, "2026-09-06").stage;
    assert!(matches!(stage, Stage::Authorised { .. }));
    // While it holds, work on one's own is use.
    let mut roll = as_authorised();
    takes(
        &mut roll,
        &[
            ("2026-09-04", own_run("A07")),
            ("2026-09-04", own_run("B11")),
        ],
    );
    let stage = state(&roll, "2026-12-01").stage;
    assert!(matches!(stage, Stage::Authorised { .. }));
}

#[test]
fn a_near_miss_stops_the_procedure_on_its_machine_until_a_clean_watched_run() {
    for (procedure, machine, stops) in [
        (Some(WHAT), None, true),
        (Some(WHAT), Some("router-table-1"), true),
        (None, Some("router-table-1"), true),
        (Some(WHAT), Some("table-saw-1"), false),
        (Some("hang-the-rack"), None, false),
        (None, Some("table-saw-1"), false),
        (None, None, false),
    ] {
        let mut roll = as_authorised();
        takes(&mut roll, &[("2026-04-01", near_miss(procedure, machine))]);
        let state = state(&roll, "2026-04-02");
        let stopped = state.stage == Stage::Suspended;
        assert_eq!(stopped, stops, "{procedure:?} {machine:?}");
    }
    let mut roll = as_authorised();
    takes(&mut roll, &[("2026-04-01", near_miss(Some(WHAT), None))]);
    let stopped = state(&roll, "2026-04-02");
    assert!(stopped.reason.contains("the piece was thrown"));
    assert!(stopped.next.contains("one clean watched run"));
    let more = authority("I05", "2027-01-01");
    refuses(&mut roll, "2026-04-02", &more, "suspended");
    let mut helped = run(WHAT);
    helped.helped = true;
    takes(&mut roll, &[("2026-04-03", Event::WatchedRun(helped))]);
    assert_eq!(state(&roll, "2026-04-03").stage, Stage::Suspended);
    takes(&mut roll, &[("2026-04-03", clean())]);
    let stage = state(&roll, "2026-04-03").stage;
    assert!(matches!(stage, Stage::Authorised { .. }));
}

#[test]
fn a_near_miss_leaves_the_practice_of_a_learner_alone() {
    let mut roll = as_practised();
    takes(&mut roll, &[("2026-04-01", near_miss(Some(WHAT), None))]);
    assert_eq!(
        state(&roll, "2026-04-01").stage,
        Stage::Practising { runs: 3 }
    );
}

#[test]
fn an_unsafe_act_or_a_failed_retest_takes_the_authority_and_leads_back_to_the_test() {
    let mut act = run(WHAT);
    act.unsafe_act = true;
    let mut failed = a_test("I05");
    failed.prompts = 2;
    // The retest comes after the three runs of the first practice, which still stand.
    for event in [Event::WatchedRun(act), Event::Test(failed)] {
        let mut roll = as_authorised();
        takes(&mut roll, &[("2026-05-01", event)]);
        let stopped = state(&roll, "2026-05-01");
        assert_eq!(stopped.stage, Stage::Suspended);
        assert!(stopped.next.contains("practice and a test"));
        let test = Event::Test(a_test("I05"));
        refuses(&mut roll, "2026-05-01", &test, "0 of 3 clean");
        takes(
            &mut roll,
            &[
                ("2026-05-02", clean()),
                ("2026-05-03", clean()),
                ("2026-05-03", clean()),
            ],
        );
        let ready = state(&roll, "2026-05-03");
        assert_eq!(ready.stage, Stage::Suspended);
        assert!(ready.next.contains("the test"), "{}", ready.next);
        takes(&mut roll, &[("2026-05-04", test)]);
        assert_eq!(state(&roll, "2026-05-04").stage, Stage::Tested);
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

#[test]
fn a_procedure_or_a_person_that_is_not_known_is_told_with_the_nearest() {
    let mut roll = as_taught();
    let mut elsewhere = run("fit-the-rac");
    elsewhere.watched.learner = person("A07");
    let fault = roll.take(&Event::WatchedRun(elsewhere), &day("2026-03-03"));
    let fault = fault.unwrap_err();
    assert_eq!(fault.code, Code::UNKNOWN_NAME);
    assert!(
        fault
            .hints
            .iter()
            .any(|hint| hint.contains("`fit-the-rack`"))
    );
    let fault = roll.of(&person("A08"), &day("2026-03-03")).unwrap_err();
    assert_eq!(fault.code, Code::UNKNOWN_NAME);
    assert!(fault.hints.iter().any(|hint| hint.contains("`A07`")));
    assert_eq!(
        roll.of(&person("A07"), &day("2026-03-03")).unwrap().len(),
        1
    );
}

#[test]
fn a_later_revision_is_told_and_takes_nothing() {
    let mut roll = as_authorised();
    let events = [own_run("A07")];
    takes(&mut roll, &[("2026-03-07", events[0].clone())]);
    let mut newer = course(WHAT, &[]);
    (newer.revision, newer.steps) = (3, 5);
    let mut later = Roll::new([newer]);
    for (on, event) in [
        ("2026-03-02", tried(1, true)),
        ("2026-03-02", tried(2, true)),
        ("2026-03-02", signed("I02")),
        ("2026-03-03", clean()),
        ("2026-03-03", clean()),
        ("2026-03-04", clean()),
        ("2026-03-05", Event::Test(a_test("I05"))),
        ("2026-03-06", authority("I05", "2028-12-31")),
    ] {
        later.take(&event, &day(on)).unwrap();
    }
    let state = state(&later, "2026-03-07");
    assert!(matches!(state.stage, Stage::Authorised { .. }));
    assert!(state.next.contains("revision 2 was signed, 3 holds"));
}

#[test]
fn the_timetable_has_people_against_procedures_and_counts_who_may() {
    let mut roll = as_authorised();
    let mut other = run(WHAT);
    other.watched.learner = person("B11");
    assert!(
        roll.take(&Event::WatchedRun(other), &day("2026-03-06"))
            .is_err()
    );
    let lesson = Taught {
        learner: person("B11"),
        ..taught("I02", WHAT)
    };
    let did = true;
    let step = 1;
    takes(
        &mut roll,
        &[("2026-03-06", Event::Tried { lesson, step, did })],
    );
    let table = roll.timetable(&day("2026-03-07"));
    assert_eq!(table.head(), ["procedure", "A07", "B11", "may alone"]);
    let [row] = &table.rows[..] else { panic!() };
    let cells = faceside::training::Timetable::cells(row);
    assert_eq!(cells, [WHAT, "until 2028-12-31", "begun", "1"]);
    assert_eq!(table.others, 1);
}
