//! Events of every kind at random.

use std::collections::BTreeMap;

use faceside::joints::Feel;
use faceside::shoplog::{
    Answered, Authority, Correction, CutterMeasured, CutterState, Day, Element, Event, Limits,
    Mark, Measured, Moves, NearMiss, Questions, Run, SetTo, SheetFault, Test, TestCut, TestReading,
    Verdict, Watched, WatchedRun, Wood, Work,
};
use faceside::units::Length;
use proptest::prelude::{Just, Strategy, any, prop, prop_oneof};

use crate::{note, person, taught};

fn length() -> impl Strategy<Value = Length> {
    (-Length::MOST.to_nm()..=Length::MOST.to_nm()).prop_map(Length::nm)
}

fn words() -> impl Strategy<Value = Vec<String>> {
    prop::collection::vec(any::<String>(), 0..4)
}

fn reading() -> impl Strategy<Value = Event> {
    let lengths = (length(), length(), length());
    (lengths, any::<String>(), any::<Option<String>>()).prop_map(
        |((value, low, high), what, cutter)| Event::Reading {
            by: person("A07"),
            procedure: "p".to_owned(),
            revision: 1,
            machine: Some("router-table-1".to_owned()),
            cutter,
            what,
            value,
            low,
            high,
            verdict: Verdict::of(value, low, high),
            tool: "caliper".to_owned(),
            practice: true,
        },
    )
}

fn lesson_event() -> impl Strategy<Value = Event> {
    let inputs = (any::<u32>(), any::<bool>(), any::<Vec<u32>>());
    let texts = (any::<String>(), words(), words());
    (0..9, inputs, texts, any::<BTreeMap<String, String>>()).prop_map(
        |(kind, (step, yes, steps), (set_up, said, missed), values)| {
            let lesson = taught();
            match kind {
                0 => Event::LessonStarted {
                    lesson,
                    from: step,
                    values,
                },
                1 => Event::Prepared {
                    lesson,
                    done: said,
                    not_done: missed,
                },
                2 => Event::Presented {
                    lesson,
                    set_up,
                    steps,
                },
                3 => Event::Tried {
                    lesson,
                    step,
                    did: yes,
                },
                4 => Event::Explained {
                    lesson,
                    set_up,
                    step: yes.then_some(step),
                    said,
                    missed,
                },
                5 => Event::LessonPaused { lesson, from: step },
                7 => Event::LessonResumed { lesson, step },
                6 => Event::FollowUp {
                    lesson,
                    on: yes.then(|| Day::new("2026-12-02").unwrap()),
                    helper: yes.then(|| person("CD")),
                },
                _ => Event::LessonEnded {
                    lesson,
                    tried: steps,
                    open: missed,
                    taught_by: yes.then(|| person("BK")),
                },
            }
        },
    )
}

fn work() -> impl Strategy<Value = Work> {
    let texts = (any::<String>(), any::<Option<String>>(), any::<u32>());
    let figures = (prop::option::of(length()), prop::option::of(length()));
    (texts, figures, any::<BTreeMap<String, String>>()).prop_map(
        |((procedure, some, revision), (planned, set), stock)| Work {
            job: some.clone(),
            sheets: some.clone(),
            procedure: procedure.clone(),
            revision,
            set_up: some.clone(),
            machine: some.clone(),
            cutter: some.clone(),
            wood: some,
            stock,
            settings: vec![SetTo {
                name: procedure.clone(),
                shown: procedure,
                planned,
                set,
            }],
        },
    )
}

fn measured() -> impl Strategy<Value = Measured> {
    let lengths = (length(), prop::option::of(length()));
    let limits = prop::option::of((length(), length()));
    (lengths, limits, any::<Option<String>>(), -4_i8..=4).prop_map(
        |((value, wanted), limits, tool, by)| Measured {
            what: "width of the housing".to_owned(),
            value,
            wanted,
            limits: limits.map(|(low, high)| Limits { low, high }),
            moves: tool.clone().map(|setting| Moves {
                setting,
                by: f64::from(by) / 2.0,
                wood: (by > 0).then_some(Wood::High),
                clearance: wanted,
            }),
            tool,
        },
    )
}

/// Entries of work, all kinds but corrections.
fn work_event() -> impl Strategy<Value = Event> {
    let texts = (any::<String>(), any::<Option<String>>());
    let feel = prop::option::of(0..Feel::ALL.len());
    (
        0..5,
        work(),
        prop::option::of(measured()),
        texts,
        feel,
        any::<u32>(),
    )
        .prop_map(|(kind, work, measured, (text, some), feel, count)| {
            let by = person("BK");
            match kind {
                0 => Event::Run(Box::new(Run {
                    by,
                    work,
                    pieces: count,
                    test_cuts: count / 2,
                    note: some,
                })),
                1 => Event::TestCut(Box::new(TestCut {
                    by,
                    work,
                    measured,
                    feel: feel.map(|at| Feel::ALL[at]),
                    note: some,
                })),
                2 => Event::CutterMeasured(CutterMeasured {
                    by,
                    cutter: text,
                    size: Length::nm(i64::from(count)),
                    tool: some,
                    state: CutterState::ALL[count as usize % CutterState::ALL.len()],
                }),
                3 => Event::NearMiss(NearMiss {
                    by: some.as_ref().map(|_| by),
                    machine: some.clone(),
                    procedure: some.clone(),
                    text,
                    changed: some,
                }),
                _ => Event::SheetFault(SheetFault {
                    by,
                    procedure: text.clone(),
                    revision: count,
                    set_up: some.clone(),
                    step: some.map(|_| count),
                    text,
                }),
            }
        })
}

/// What follows a lesson: runs that were watched, tests, authorities, questions.
fn teaching_event() -> impl Strategy<Value = Event> {
    let texts = (any::<String>(), any::<Option<String>>(), words());
    let inputs = (any::<u32>(), any::<bool>(), length());
    (0..5, texts, inputs).prop_map(|(kind, (text, some, list), (number, yes, value))| {
        let watched = Watched {
            learner: person("A07"),
            by: person("BK"),
            procedure: text.clone(),
            revision: number,
        };
        match kind {
            0 => Event::SignedTaught { lesson: taught() },
            1 => Event::WatchedRun(WatchedRun {
                watched,
                machines: list,
                helped: yes,
                explained: !yes,
                unsafe_act: yes,
                note: some,
            }),
            2 => Event::Test(Test {
                watched,
                machines: list,
                elements: vec![Element {
                    step: number,
                    held: yes,
                }],
                readings: vec![TestReading {
                    step: number,
                    what: text,
                    value,
                    low: value,
                    high: value,
                }],
                prompts: number,
                unsafe_act: some,
            }),
            3 => Event::Authority(Authority {
                watched,
                machines: list,
                limits: some,
                until: Day::new("2028-02-29").unwrap(),
            }),
            _ => Event::Questions(Questions {
                watched,
                attempt: number,
                answers: vec![Answered {
                    ask: text.clone(),
                    answer: text.clone(),
                    wanted: text,
                }],
            }),
        }
    })
}

fn correction() -> impl Strategy<Value = Event> {
    let instead = prop::option::of(work_event().prop_map(Box::new));
    (instead, any::<String>(), any::<u64>()).prop_map(|(instead, why, number)| {
        Event::Correction(Correction {
            by: person("BK"),
            of: Mark::new("record/2026.jsonl", number),
            why,
            instead,
        })
    })
}

pub(crate) fn events() -> impl Strategy<Value = Vec<Event>> {
    let noted = any::<String>().prop_map(|text| note(&text));
    let one = prop_oneof![
        noted,
        reading(),
        lesson_event(),
        work_event(),
        teaching_event(),
        correction(),
        Just(note(""))
    ];
    prop::collection::vec(one, 1..5)
}
