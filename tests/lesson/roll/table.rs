//! Who and what the roll knows: names, revisions, the timetable.

use super::{
    WHAT, a_test, as_authorised, as_taught, authority, clean, course, day, own_run, person, run,
    signed, state, takes, taught, tried,
};
use faceside::diag::Code;
use faceside::shoplog::{Event, Taught};
use faceside::training::{Roll, Stage};

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
