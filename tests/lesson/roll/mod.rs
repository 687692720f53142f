//! The roll: every state and every refusal of a training, from events alone; here the events.
//!
//! What is expected comes from `procedures.md` 1C (T6, T9, T10, T13 to T16, T18, T20 to T24, T27) and
//! section 4; three runs on two days, 183 days and 1095 days are values of this house, told as such.
//! Days are counted in comments beside them.

mod authority;
mod table;
mod way;

use std::collections::BTreeMap;

use faceside::diag::Fault;
use faceside::shoplog::{
    Authority, Day, Element, Event, NearMiss, Person, Run, Taught, Test, TestReading, Watched,
    WatchedRun, Work,
};
use faceside::training::{Course, Roll, State};
use faceside::units::Length;

pub(super) const WHAT: &str = "fit-the-rack";

pub(super) fn day(text: &str) -> Day {
    Day::new(text).unwrap()
}

pub(super) fn person(id: &str) -> Person {
    Person::new(id).unwrap()
}

pub(super) fn course(id: &str, after: &[&str]) -> Course {
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

pub(super) fn roll() -> Roll {
    Roll::new([course(WHAT, &[]), course("hang-the-rack", &[WHAT])])
}

pub(super) fn taught(by: &str, what: &str) -> Taught {
    Taught {
        learner: person("A07"),
        instructor: person(by),
        procedure: what.to_owned(),
        revision: 2,
    }
}

pub(super) fn watched(by: &str, what: &str) -> Watched {
    Watched {
        learner: person("A07"),
        by: person(by),
        procedure: what.to_owned(),
        revision: 2,
    }
}

pub(super) fn tried(step: u32, did: bool) -> Event {
    let lesson = taught("I02", WHAT);
    Event::Tried { lesson, step, did }
}

pub(super) fn signed(by: &str) -> Event {
    let lesson = taught(by, WHAT);
    Event::SignedTaught { lesson }
}

pub(super) fn run(what: &str) -> WatchedRun {
    WatchedRun {
        watched: watched("I02", what),
        machines: vec!["router-table-1".to_owned()],
        helped: false,
        explained: true,
        unsafe_act: false,
        note: None,
    }
}

pub(super) fn clean() -> Event {
    Event::WatchedRun(run(WHAT))
}

pub(super) fn a_test(by: &str) -> Test {
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
pub(super) fn reading(mm: f64) -> TestReading {
    TestReading {
        step: 2,
        what: "depth of the groove".to_owned(),
        value: Length::mm(mm),
        low: Length::mm(9.4),
        high: Length::mm(9.5),
    }
}

pub(super) fn authority(by: &str, until: &str) -> Event {
    Event::Authority(Authority {
        watched: watched(by, WHAT),
        machines: vec!["router-table-1".to_owned()],
        limits: Some("boards up to 300 mm".to_owned()),
        until: day(until),
    })
}

pub(super) fn near_miss(procedure: Option<&str>, machine: Option<&str>) -> Event {
    Event::NearMiss(NearMiss {
        by: None,
        machine: machine.map(str::to_owned),
        procedure: procedure.map(str::to_owned),
        text: "the piece was thrown".to_owned(),
        changed: None,
    })
}

pub(super) fn own_run(by: &str) -> Event {
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
pub(super) fn takes(roll: &mut Roll, events: &[(&str, Event)]) {
    for (on, event) in events {
        roll.take(event, &day(on)).unwrap();
    }
}

pub(super) fn state(roll: &Roll, on: &str) -> State {
    let state = roll.state(&person("A07"), WHAT, &day(on)).unwrap();
    state.unwrap()
}

#[track_caller]
pub(super) fn refuses(roll: &mut Roll, on: &str, event: &Event, words: &str) -> Fault {
    let before = state(roll, on);
    let fault = roll.take(event, &day(on)).unwrap_err();
    assert!(fault.message.contains(words), "{}", fault.message);
    assert!(!fault.hints.is_empty(), "no hint: {}", fault.message);
    assert_eq!(state(roll, on), before, "a refused event counts");
    fault
}

pub(super) fn as_taught() -> Roll {
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

pub(super) fn as_practised() -> Roll {
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

pub(super) fn as_tested() -> Roll {
    let mut roll = as_practised();
    takes(&mut roll, &[("2026-03-05", Event::Test(a_test("I05")))]);
    roll
}

pub(super) fn as_authorised() -> Roll {
    let mut roll = as_tested();
    takes(&mut roll, &[("2026-03-06", authority("I05", "2028-12-31"))]);
    roll
}
