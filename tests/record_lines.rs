//! The line format of the shop record: round trip, torn files, changed bytes, lines of the future.
//!
//! The check sums are compared with the published check value of CRC-32/ISO-HDLC and with a plain
//! bitwise CRC written here, not with the library that the program uses.

#![expect(clippy::unwrap_used, reason = "a test that cannot be set up must fail")]

use std::collections::BTreeMap;

use faceside::diag::{Code, Faults, Severity, Source};
use faceside::joints::Feel;
use faceside::shoplog::{
    Answered, Authority, Correction, CutterMeasured, CutterState, Day, Element, Entry, Event,
    Limits, Line, Mark, Measured, Moves, NearMiss, Person, Questions, Run, SetTo, SheetFault,
    Taught, Test, TestCut, TestReading, Verdict, Watched, WatchedRun, What, Wood, Work,
    next_number, read, standing,
};
use faceside::units::Length;
use proptest::prelude::{Just, ProptestConfig, Strategy, any, prop, prop_oneof, proptest};
use proptest::sample::Index;

const AT: &str = "2026-11-25T09:10:00Z";

fn person(id: &str) -> Person {
    Person::new(id).unwrap()
}

fn taught() -> Taught {
    Taught {
        learner: person("A07"),
        instructor: person("BK"),
        procedure: "stopped-housing".to_owned(),
        revision: 3,
    }
}

fn written(events: &[Event]) -> String {
    (1..)
        .zip(events)
        .map(|(number, event)| Line::new(number, AT).unwrap().write(event).unwrap())
        .collect()
}

fn read_text(text: &str) -> (Vec<Entry>, Faults) {
    read(&Source::new("record/2026.jsonl", text))
}

fn note(text: &str) -> Event {
    Event::Note {
        by: person("BK"),
        about: None,
        text: text.to_owned(),
    }
}

/// CRC-32 bit by bit: reflected polynomial 0xEDB88320, start and end inverted.
fn plain_crc(bytes: &[u8]) -> u32 {
    !bytes.iter().fold(!0, |crc, byte| {
        (0..8).fold(crc ^ u32::from(*byte), |crc: u32, _| {
            (crc >> 1) ^ (0xEDB8_8320 & (crc & 1).wrapping_neg())
        })
    })
}

fn sealed(body: &str) -> String {
    format!("{body},\"crc\":\"{:08x}\"}}\n", plain_crc(body.as_bytes()))
}

#[test]
fn the_plain_crc_gives_the_published_check_value() {
    // Catalogue of parametrised CRC algorithms, CRC-32/ISO-HDLC, check over "123456789"
    // (from memory).
    assert_eq!(plain_crc(b"123456789"), 0xCBF4_3926);
}

#[test]
fn a_line_is_written_in_the_stated_form() {
    let body = concat!(
        r#"{"v":1,"n":1,"at":"2026-11-25T09:10:00Z","kind":"note","by":"BK","about":null,"#,
        r#""text":"fence creeps""#
    );
    assert_eq!(written(&[note("fence creeps")]), sealed(body));
}

#[test]
fn a_line_feed_in_a_note_does_not_split_its_line() {
    let event = note("one\ntwo\r\n\u{1b}[31m \u{1f6f6}");
    let text = written(std::slice::from_ref(&event));
    assert_eq!(text.matches('\n').count(), 1);
    let (entries, faults) = read_text(&text);
    assert!(faults.is_empty());
    assert_eq!(entries[0].what, What::Known(event));
}

#[test]
fn limits_are_good_values() {
    let [low, high] = [Length::mm(9.4), Length::mm(9.5)];
    assert_eq!(Verdict::of(low, low, high), Verdict::In);
    assert_eq!(Verdict::of(high, low, high), Verdict::In);
    assert_eq!(Verdict::of(low - Length::nm(1), low, high), Verdict::Low);
    assert_eq!(Verdict::of(high + Length::nm(1), low, high), Verdict::High);
}

#[test]
fn people_are_ids_and_nothing_else() {
    for id in ["A", "BK", "A07", "12345678"] {
        assert_eq!(person(id).id(), id);
    }
    for not_id in ["", "123456789", "B K", "B.", "Ł", "a\n", "\u{1f6f6}"] {
        let fault = Person::new(not_id).unwrap_err();
        assert_eq!(fault.code, Code::WRONG_TYPE);
        assert!(!fault.message.contains(&format!("`{not_id}`")));
    }
}

#[test]
fn a_name_in_a_line_is_not_taken_for_a_person() {
    let text = sealed(concat!(
        r#"{"v":1,"n":1,"at":"2026-11-25T09:10:00Z","kind":"note","by":"A. Sailor","#,
        r#""about":null,"text":"x""#
    ));
    let (entries, faults) = read_text(&text);
    assert!(matches!(entries[0].what, What::Unknown { .. }));
    assert_eq!(faults.len(), 1);
}

#[test]
fn days_are_in_the_calendar() {
    // Gregorian calendar: 2028 is a leap year, 2100 is not.
    assert!(Day::new("2028-02-29").is_ok());
    for not_day in [
        "2100-02-29",
        "2026-13-01",
        "26-11-25",
        "2026-1-5",
        "20261125",
        "soon",
        "",
    ] {
        assert!(Day::new(not_day).is_err(), "{not_day}");
    }
    assert!(Day::new("2026-11-25").unwrap() < Day::new("2026-12-01").unwrap());
}

#[test]
fn times_are_rfc_3339() {
    // RFC 3339 section 5.6 and its examples in 5.8 (from memory).
    for time in ["1985-04-12T23:20:50.52Z", "1996-12-19T16:39:57-08:00", AT] {
        assert_eq!(Line::new(1, time).unwrap().at(), time);
    }
    let not_times = [
        "",
        "2026-11-25",
        "2026-11-25T09:10:00",
        "2026-11-25 09:10:00Z",
        "2026-11-31T09:10:00Z",
        "2026-11-25T09:10Z",
        "20261125T091000Z",
        "2026-11-25T09:10:00+01",
        "2026-11-25T09:10:00Z\"",
        "2026-11-25T09:10:00+01:00[Europe/Paris]",
    ];
    for time in not_times {
        let fault = Line::new(1, time).unwrap_err();
        assert_eq!(fault.code, Code::WRONG_TYPE, "{time}");
    }
}

#[test]
fn a_torn_last_line_is_set_aside_and_the_rest_read() {
    let whole = written(&[note("one"), note("two"), note("three")]);
    let (entries, faults) = read_text(&whole[..whole.len() - 9]);
    assert_eq!(entries.len(), 2);
    let fault = faults.iter().next().unwrap();
    assert_eq!(fault.code, Code::RECORD_LINE);
    assert_eq!(fault.severity, Severity::Warning);
    assert!(fault.message.contains("torn"));
    assert_eq!(fault.span.as_ref().unwrap().line_column(), (3, 1));
    assert_eq!(next_number(&entries), 3);
}

#[test]
fn what_is_appended_after_a_torn_line_is_read() {
    let whole = written(&[note("one"), note("two")]);
    let torn = &whole[..whole.len() - 30];
    let (entries, _) = read_text(torn);
    let line = Line::new(next_number(&entries), AT).unwrap();
    let added = line.write(&note("again")).unwrap();
    let (entries, faults) = read_text(&format!("{torn}\n{added}"));
    assert_eq!(entries.len(), 2);
    assert_eq!(entries[1].what, What::Known(note("again")));
    assert_eq!(faults.len(), 1);
}

#[test]
fn a_line_that_was_taken_out_is_missed() {
    let text = written(&[note("one"), note("two"), note("three")]);
    let lines: Vec<_> = text.lines().collect();
    let (entries, faults) = read_text(&format!("{}\n{}\n", lines[0], lines[2]));
    assert_eq!(entries.len(), 2);
    assert_eq!(faults.len(), 1);
    let fault = faults.iter().next().unwrap();
    assert!(fault.message.contains("number 2"));
    assert_eq!(fault.span.as_ref().unwrap().line_column(), (2, 1));
}

#[test]
fn lines_of_the_future_are_kept_and_told() {
    let later = sealed(r#"{"v":2,"n":1,"at":"2031-01-01T00:00:00Z","kind":"note","said":[1]"#);
    let other = sealed(r#"{"v":1,"n":2,"at":"2031-01-01T00:00:00Z","kind":"sharpened","by":"X""#);
    let now = Line::new(3, AT).unwrap().write(&note("now")).unwrap();
    let (entries, faults) = read_text(&format!("{later}{other}{now}"));
    assert_eq!(entries.len(), 3);
    assert_eq!(faults.len(), 2);
    let kept = What::Unknown {
        version: 1,
        kind: "sharpened".to_owned(),
        text: other.trim_end().to_owned(),
    };
    assert!(matches!(entries[0].what, What::Unknown { version: 2, .. }));
    assert_eq!(entries[1].what, kept);
    assert_eq!(entries[2].what, What::Known(note("now")));
}

#[test]
fn a_sound_check_sum_over_nonsense_is_set_aside() {
    for body in [
        "{",
        "[1]",
        r#"{"v":1"#,
        r#"{"v":1,"n":-1,"at":"x","kind":"note""#,
        "",
    ] {
        let (entries, faults) = read_text(&sealed(body));
        assert!(entries.is_empty());
        assert_eq!(faults.len(), 1);
        assert!(!faults.any_error());
    }
}

#[test]
fn line_ends_of_other_systems_do_no_harm() {
    let text = written(&[note("one"), note("two")]).replace('\n', "\r\n");
    let (entries, faults) = read_text(&format!("{text}\r\n"));
    assert_eq!(entries.len(), 2);
    assert!(faults.is_empty());
}

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

fn events() -> impl Strategy<Value = Vec<Event>> {
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

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn what_is_written_is_read(events in events()) {
        let (entries, faults) = read_text(&written(&events));
        assert!(faults.is_empty());
        let known: Vec<_> = entries.into_iter().map(|entry| entry.what).collect();
        let wanted: Vec<_> = events.into_iter().map(What::Known).collect();
        assert_eq!(known, wanted);
    }

    #[test]
    fn any_prefix_gives_all_its_whole_lines(events in events(), cut in any::<Index>()) {
        let text = written(&events);
        let bytes = &text.as_bytes()[..cut.index(text.len() + 1)];
        let (entries, faults) = read_text(&String::from_utf8_lossy(bytes));
        let ended = bytes.iter().filter(|byte| **byte == b'\n').count();
        // A line that lacks nothing but its line feed is whole.
        let bare = text.as_bytes().get(bytes.len()) == Some(&b'\n');
        assert_eq!(entries.len(), ended + usize::from(bare));
        let torn = !bare && bytes.last().is_some_and(|byte| *byte != b'\n');
        assert_eq!(faults.len(), usize::from(torn));
    }

    #[test]
    fn any_changed_byte_of_a_line_is_noticed(
        events in events(), at in any::<Index>(), change in 1..=255_u8,
    ) {
        let mut bytes = written(&events).into_bytes();
        let at = at.index(bytes.len());
        proptest::prop_assume!(bytes[at] != b'\n');
        bytes[at] ^= change;
        let (entries, faults) = read_text(&String::from_utf8_lossy(&bytes));
        assert!(!faults.is_empty());
        assert_eq!(entries.len(), events.len() - 1);
    }

    #[test]
    fn nothing_panics(text in any::<String>(), bytes in any::<Vec<u8>>()) {
        let (entries, _) = read_text(&text);
        assert!(entries.is_empty());
        let (entries, _) = read_text(&String::from_utf8_lossy(&bytes));
        assert!(entries.is_empty());
    }
}

fn corrects(number: u64, instead: Option<Event>) -> Event {
    Event::Correction(Correction {
        by: person("BK"),
        of: Mark::new("record/2026.jsonl", number),
        why: "wrong".to_owned(),
        instead: instead.map(Box::new),
    })
}

/// What holds, each with its mark and the line that corrected it, and the faults.
fn holding(events: &[Event]) -> (Vec<(String, Option<String>, Event)>, Faults) {
    let (all, faults) = standing(&[Source::new("record/2026.jsonl", written(events))]);
    let all = all.into_iter().map(|one| {
        let by = one.corrected.map(|mark| mark.to_string());
        (one.mark.to_string(), by, one.event)
    });
    (all.collect(), faults)
}

#[test]
fn a_correction_puts_another_event_in_the_place_of_a_line_and_a_strike_none() {
    let (all, faults) = holding(&[
        note("one"),
        note("two"),
        corrects(1, Some(note("one, rightly"))),
        corrects(2, None),
    ]);
    assert!(faults.is_empty());
    let [(mark, by, event)] = &all[..] else {
        panic!("{all:?}");
    };
    assert_eq!((mark.as_str(), by.as_deref()), ("2026-1", Some("2026-3")));
    assert_eq!(*event, note("one, rightly"));
}

#[test]
fn a_correction_can_be_corrected_and_a_strike_taken_back() {
    let (all, _) = holding(&[
        note("one"),
        corrects(1, Some(note("wrong again"))),
        corrects(2, Some(note("right"))),
        note("two"),
        corrects(4, None),
        corrects(5, Some(note("two after all"))),
    ]);
    let texts: Vec<_> = all.into_iter().map(|(_, _, event)| event).collect();
    assert_eq!(texts, [note("right"), note("two after all")]);
}

#[test]
fn a_correction_of_no_line_changes_nothing_and_is_told() {
    let (all, faults) = holding(&[note("one"), corrects(7, None)]);
    assert_eq!(all.len(), 1);
    let fault = faults.iter().next().unwrap();
    assert_eq!(fault.code, Code::RECORD_MARK);
    assert_eq!(fault.severity, Severity::Warning);
    // The same number in two files that were put together: nobody can say which is meant.
    let twice = format!("{}{}", written(&[note("one")]), written(&[note("two")]));
    let third = Line::new(3, AT).unwrap().write(&corrects(1, None)).unwrap();
    let (all, faults) = standing(&[Source::new("2026.jsonl", twice + &third)]);
    assert_eq!(all.len(), 2);
    assert!(faults.iter().any(|fault| fault.code == Code::RECORD_MARK));
}
