//! What lines do: commands, ticks, notes, pauses, the end of the input, any input.

use crate::play::Play;
use faceside::shoplog::Event;
use faceside::training::Turn;
use proptest::prelude::{ProptestConfig, Strategy, any, prop, prop_oneof, proptest};

#[test]
fn nothing_goes_on_before_the_machine_is_unplugged() {
    let mut play = Play::from(1);
    play.until("unplugged");
    for answer in ["n", "", "perhaps", "no"] {
        assert!(play.line(Some(answer)).events.is_empty());
        assert!(play.asked().contains("unplugged"), "{answer}");
    }
    play.say("y");
    play.until("Ready for the first time");
    play.say("");
    // The machine was used in the first unit; it is off again before the second is shown.
    play.until("unplugged");
    play.say("n");
    assert!(play.asked().contains("unplugged"));
}

#[test]
fn enter_is_never_taken_for_yes() {
    let mut play = Play::from(1);
    let first = play.asked().to_owned();
    play.say("");
    assert_eq!(play.asked(), first);
    play.until("unplugged");
    play.say("");
    assert!(play.asked().contains("unplugged"));
    play.until("say all of it");
    play.say("");
    assert!(play.asked().contains("say all of it"));
}

#[test]
fn a_tick_that_is_answered_no_is_recorded_so() {
    let mut play = Play::from(1);
    for nonsense in ["n", "0", "7", "1 7", "2-3", "all", ","] {
        assert!(play.say(nonsense).contains("from 1 to 6"), "{nonsense}");
    }
    let told = play.say("2, 5");
    let Event::Prepared { done, not_done, .. } = play.last_event() else {
        panic!()
    };
    // Six ticks; the second and the fifth of the list are these.
    assert_eq!(done.len(), 4);
    assert_eq!(not_done[0], "The learner is at ease.");
    assert!(not_done[1].contains("why it is worth knowing"));
    assert!(not_done.iter().all(|tick| told.contains(tick)));
    assert!(play.asked().contains("unplugged"));
}

#[test]
fn back_and_repeat_show_the_card_again() {
    let mut play = Play::from(1);
    let first = play.asked().to_owned();
    assert!(play.say("b").contains("first question"));
    assert_eq!(play.asked(), first);
    play.until("Told and shown");
    assert!(play.say("").contains("Act number 2"));
    assert!(play.say("r").contains("Act number 2"));
    assert!(play.say("back").contains("Act number 1"));
    assert!(play.say("").contains("Act number 2"));
    play.until("Ready for the first time");
    let presented = play.events().into_iter().filter_map(|event| match event {
        Event::Presented { steps, .. } => Some(steps.clone()),
        _ => None,
    });
    // One line a step, and step 1 was shown twice.
    let presented: Vec<u32> = presented.flatten().collect();
    assert_eq!(presented, [1, 1, 2, 3, 4, 5]);
}

#[test]
fn an_answer_given_again_is_one_more_event() {
    let mut play = Play::from(10);
    play.until("Step 10: done rightly");
    play.say("n");
    play.say("b");
    play.say("y");
    let tried: Vec<_> = play
        .events()
        .into_iter()
        .filter_map(|event| match event {
            Event::Tried { step, did, .. } => Some((*step, *did)),
            _ => None,
        })
        .collect();
    assert_eq!(tried, [(10, false), (10, true)]);
    play.finish();
    let Event::LessonEnded { open, .. } = play.last_event() else {
        panic!()
    };
    assert!(open.is_empty());
}

#[test]
fn a_pause_says_what_was_done_and_where_to_go_on() {
    let mut play = Play::from(1);
    play.until("Ready for the first time");
    play.say("");
    play.until("Told and shown");
    assert!(play.asked().contains("Told and shown"));
    play.say("");
    let text = play.say("q");
    assert!(text.contains("the same command again"), "{text}");
    let events = play.events();
    let Event::Presented { steps, .. } = events[events.len() - 2] else {
        panic!()
    };
    assert_eq!(*steps, [6]);
    let Event::LessonPaused { from, .. } = play.last_event() else {
        panic!()
    };
    assert_eq!(*from, 6);
    assert_eq!(*play.line(Some("y")), Turn::default());
    assert_eq!(*play.line(None), Turn::default());
}

#[test]
fn a_lesson_that_goes_on_covers_only_the_rest() {
    let mut play = Play::from(6);
    let Event::LessonStarted { from, values, .. } = play.last_event() else {
        panic!()
    };
    assert_eq!((*from, values["shelf"].as_str()), (6, "17.6 mm"));
    play.until("unplugged");
    play.finish();
    // A question may be about any step; shown and done are those of the rest.
    assert!(play.text().contains("Step 6: Act") && !play.text().contains("Step 5: Act"));
    assert!(!play.text().contains("Step 5 of"));
    let Event::LessonEnded { tried, .. } = play.last_event() else {
        panic!()
    };
    assert_eq!(*tried, (6..=11).collect::<Vec<_>>());
}

#[test]
fn points_that_are_asked_again_are_answered_again() {
    let mut play = Play::from(10);
    play.until("Before step 10");
    for line in ["", "1 2 3", "b", "b"] {
        play.say(line);
    }
    assert!(play.asked().contains("Before step 10"));
    for line in ["", "2"] {
        play.say(line);
    }
    let Event::Explained {
        said, missed, step, ..
    } = play.last_event()
    else {
        panic!()
    };
    // A caution, a key point, a reason; the second is not said.
    assert_eq!((said.len(), missed.len(), *step), (2, 1, Some(10)));
    assert_eq!(missed[0], "Key of 10.");
}

#[test]
fn the_end_of_the_input_is_a_pause_wherever_it_comes() {
    let mut whole = Play::from(1);
    whole.finish();
    for lines in 0..whole.turns.len() - 1 {
        let mut play = Play::from(1);
        for _ in 0..lines {
            let good = play.good().unwrap();
            play.line(Some(good));
        }
        let before = play.events().len();
        let kept: Vec<_> = whole.events()[..before].to_vec();
        assert_eq!(play.events(), kept);
        play.line(None);
        assert!(
            matches!(play.last_event(), Event::LessonPaused { .. }),
            "after {lines} lines"
        );
        assert!(play.turns.last().unwrap().ask.is_none());
    }
}

#[test]
fn notes_are_written_anywhere_and_n_is_no_where_yes_is_asked() {
    let mut play = Play::from(1);
    play.say("note");
    play.say("fence creeps");
    let Event::Note { by, about, text } = play.last_event() else {
        panic!()
    };
    assert_eq!(
        (by.id(), about.as_deref(), text.as_str()),
        ("BK", Some("stopped-housing"), "fence creeps")
    );
    play.until("Told and shown");
    play.say("n");
    let count = play.events().len();
    assert!(play.say("").contains("No note"));
    assert_eq!(play.events().len(), count);
    assert!(play.asked().contains("Told and shown"));
}

#[test]
fn help_names_every_command() {
    let mut play = Play::from(1);
    let help = play.say("?");
    for command in ["Enter", "back", "repeat", "note", "pause", "help"] {
        assert!(help.contains(command), "{command}");
    }
}

#[test]
fn long_lines_and_control_keys_are_turned_down() {
    let mut play = Play::from(10);
    play.until("Before step 10");
    for line in [
        "x".repeat(10_000),
        "\u{1b}[A".to_owned(),
        "a\u{7}b".to_owned(),
    ] {
        let text = play.say(&line);
        assert!(!text.contains(&line) && !text.is_empty());
        assert!(play.asked().contains("Before step 10"));
    }
}

fn answer() -> impl Strategy<Value = String> {
    let known = [
        "",
        "y",
        "n",
        "b",
        "r",
        "note",
        "q",
        "?",
        "9.45 mm",
        "9.6",
        "2026-12-01",
        "CD",
    ];
    prop_oneof![
        8 => prop::sample::select(known.to_vec()).prop_map(str::to_owned),
        1 => any::<String>(),
        1 => prop::collection::vec(any::<char>(), 0..40).prop_map(|list| list.into_iter().collect()),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn any_input_is_answered(from in 1..=11_u32, answers in prop::collection::vec(answer(), 0..200)) {
        let mut play = Play::from(from);
        for answer in &answers {
            let open = play.turns.last().unwrap().ask.is_some();
            let turn = play.line(Some(answer));
            assert!(open || *turn == Turn::default());
        }
        play.line(None);
        let ends = play.events().into_iter().filter(|event| {
            matches!(event, Event::LessonPaused { .. } | Event::LessonEnded { .. })
        });
        assert_eq!(ends.count(), 1);
    }
}
