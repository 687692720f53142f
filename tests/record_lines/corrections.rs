//! What holds after corrections.

use faceside::diag::{Code, Faults, Severity, Source};
use faceside::shoplog::{Correction, Event, Line, Mark, standing};

use crate::{AT, note, person, written};

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
