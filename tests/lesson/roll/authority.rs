//! The authority to work alone: what it wants, and what ends, stops and wakes it.

use super::{
    WHAT, a_test, as_authorised, as_practised, as_tested, authority, clean, day, near_miss,
    own_run, refuses, run, state, takes,
};
use faceside::diag::Code;
use faceside::shoplog::Event;
use faceside::training::Stage;

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
    // Used last on 5 March, the day of the test; 183 days later is 4 September (26 of March, then 30,
    // 31, 30, 31, 31 make 179).
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
