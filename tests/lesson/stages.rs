//! The stages from preparation to follow up: what is recorded, and what is never made up.

use crate::fixture::{LIMITS, lesson, sitting};
use crate::play::Play;
use faceside::diag::{Code, Source};
use faceside::shoplog::{Event, Line, Verdict, read};
use faceside::training::{Talk, plain};
use faceside::units::Length;

#[test]
fn a_sitting_takes_two_people_and_a_step_that_is_there() {
    for from in [0, 12] {
        let fault = Talk::new(lesson(), sitting(from)).unwrap_err();
        assert_eq!(fault.code, Code::OUT_OF_RANGE);
    }
    let mut alone = sitting(1);
    alone.learner = alone.instructor.clone();
    assert_eq!(Talk::new(lesson(), alone).unwrap_err().code, Code::REFUSED);
}

#[test]
fn a_lesson_that_goes_well_covers_all_and_claims_nothing_more() {
    let mut play = Play::from(1);
    play.finish();
    let mut presented: Vec<u32> = Vec::new();
    let mut said: Vec<&String> = Vec::new();
    let (mut tried, mut prepared, mut unplugged) = (vec![], 0, 0);
    for event in play.events() {
        match event {
            Event::Prepared { done, not_done, .. } => {
                prepared += 1;
                assert!(not_done.is_empty());
                unplugged += usize::from(done.iter().any(|tick| tick.contains("unplugged")));
            }
            Event::Presented { steps, .. } => presented.extend(steps),
            Event::Tried { step, did, .. } => tried.push((*step, *did)),
            Event::Explained {
                said: points,
                missed,
                ..
            } => {
                said.extend(points);
                assert!(missed.is_empty());
            }
            _ => {}
        }
    }
    // The ticks, and before each of the two units at the machine that it is unplugged.
    assert_eq!((prepared, unplugged), (3, 2));
    assert_eq!(presented, (1..=11).collect::<Vec<_>>());
    assert_eq!(tried, (1..=11).map(|step| (step, true)).collect::<Vec<_>>());
    for id in [
        "rt-training",
        "rt-ppe",
        "rt-isolate",
        "rt-no-trap",
        "ht-hands",
    ] {
        let avoid = format!("Avoid {id} so.");
        assert!(said.iter().any(|point| point.contains(&avoid)), "{id}");
    }
    let Event::LessonEnded {
        tried,
        open,
        taught_by,
        ..
    } = play.last_event()
    else {
        panic!()
    };
    assert_eq!((tried.len(), open.len()), (11, 0));
    assert_eq!(taught_by.as_ref().unwrap().id(), "BK");
    let text = play.text();
    assert!(text.contains(LIMITS) && text.contains("not a test"));
    assert!(text.find(LIMITS) < text.find("Act number 1 here."));
}

#[test]
fn no_day_and_no_helper_are_made_up() {
    let mut play = Play::from(10);
    play.finish();
    let events = play.events();
    let Event::FollowUp { on, helper, .. } = events[events.len() - 2] else {
        panic!()
    };
    assert!(on.is_none() && helper.is_none());
}

#[test]
fn a_reading_out_of_its_limits_is_told_recorded_and_asked_again() {
    let mut play = Play::from(1);
    play.until("reading");
    assert!(play.say("9.55 mm").contains("Cut a fresh test piece."));
    let Event::Reading {
        verdict,
        value,
        practice,
        machine,
        cutter,
        ..
    } = play.last_event()
    else {
        panic!()
    };
    assert_eq!(
        (*verdict, *value, *practice),
        (Verdict::High, Length::mm(9.55), true)
    );
    assert_eq!(machine.as_deref(), Some("router-table-1"));
    assert_eq!(cutter.as_deref(), Some("straight-12"));
    assert!(play.say("9,35 mm").contains("Raise the cutter."));
    assert!(matches!(
        play.last_event(),
        Event::Reading {
            verdict: Verdict::Low,
            ..
        }
    ));
    let count = play.events().len();
    for nonsense in [
        "nine",
        "1,250 mm",
        "-9.45 mm",
        "9.45 kg",
        "3/8",
        "\u{1f6f6}",
    ] {
        assert!(!play.say(nonsense).is_empty());
        assert!(play.asked().contains("reading"), "{nonsense}");
    }
    assert_eq!(play.events().len(), count);
    play.say("9.5");
    assert!(play.asked().contains("Step 3"));
    assert!(matches!(
        play.last_event(),
        Event::Reading {
            verdict: Verdict::In,
            ..
        }
    ));
}

#[test]
fn no_reading_is_made_up() {
    let mut play = Play::from(1);
    play.until("reading");
    let count = play.events().len();
    assert!(play.say("").contains("No reading recorded"));
    assert_eq!(play.events().len(), count);
}

#[test]
fn what_was_missed_stays_open_and_is_not_signed() {
    let mut play = Play::from(10);
    play.until("Before step 10");
    play.say("keep the hands away");
    let shown = &play.turns.last().unwrap().show;
    let shared = "1, in the learner's words too: hands";
    assert!(plain(shown, 3000).contains(shared), "{shown:?}");
    let again = play.say("1");
    assert!(again.contains("Avoid ht-hands so."));
    play.until("Not signed as taught");
    assert!(play.say("y").contains("Enter goes on"));
    play.finish();
    let Event::LessonEnded {
        open, taught_by, ..
    } = play.last_event()
    else {
        panic!()
    };
    assert!(taught_by.is_none());
    assert_eq!(open.len(), 1);
    assert!(open[0].contains("step 10"));
    assert!(play.text().contains("not signed as taught"));
}

#[test]
fn the_instructor_may_leave_it_unsigned() {
    let mut play = Play::from(10);
    play.until("sign these steps");
    play.say("n");
    play.finish();
    let Event::LessonEnded {
        taught_by, open, ..
    } = play.last_event()
    else {
        panic!()
    };
    assert!(taught_by.is_none() && open.is_empty());
}

#[test]
fn who_may_not_sign_leads_a_lesson_that_is_not_signed() {
    let mut sitting = sitting(10);
    sitting.unsigned = Some("BK is no instructor".to_owned());
    let mut play = Play::of(Talk::new(lesson(), sitting).unwrap());
    let said = "will not be signed as taught: BK is no instructor.";
    assert!(play.text().contains(said));
    play.until("Not signed as taught: BK is no instructor");
    assert!(play.say("y").contains("Enter goes on"));
    play.finish();
    let Event::LessonEnded {
        taught_by, open, ..
    } = play.last_event()
    else {
        panic!()
    };
    assert!(taught_by.is_none() && open.is_empty());
}

#[test]
fn the_next_check_may_be_today() {
    let mut play = Play::from(10);
    play.until("Day");
    assert!(play.say("2026-11-25").contains("2026-11-25"));
    assert!(matches!(
        play.last_event(),
        Event::FollowUp { on: Some(_), .. }
    ));
}

#[test]
fn the_follow_up_takes_a_day_to_come_and_an_id() {
    let mut play = Play::from(10);
    play.until("Whom");
    play.say("C. Sailor");
    assert!(play.asked().contains("Whom"));
    play.say("B");
    assert!(play.asked().contains("Day"));
    for not_day in ["tomorrow", "2026-11-24", "2026-02-30"] {
        play.say(not_day);
        assert!(play.asked().contains("Day"), "{not_day}");
    }
    assert!(play.say("2026-11-26").contains("2026-11-26"));
    let Event::FollowUp { on, helper, .. } = play.last_event() else {
        panic!()
    };
    assert_eq!(on.as_ref().unwrap().to_string(), "2026-11-26");
    assert_eq!(helper.as_ref().unwrap().id(), "B");
}

#[test]
fn every_event_of_a_lesson_can_be_read_back() {
    let mut play = Play::from(1);
    play.say("note");
    play.say("\u{1f6f6} note");
    play.finish();
    let lines: String = (1..)
        .zip(play.events())
        .map(|(number, event)| {
            Line::new(number, "2026-11-25T09:10:00Z")
                .unwrap()
                .write(event)
                .unwrap()
        })
        .collect();
    let (entries, faults) = read(&Source::new("record.jsonl", lines));
    assert!(faults.is_empty());
    assert_eq!(entries.len(), play.events().len());
}
