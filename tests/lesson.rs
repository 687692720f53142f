//! Whole lessons played by script: every stage, back and repeat, readings, pauses, any input.
//!
//! What is expected comes from `procedures.md` 1C and section 4 (ticks, units of at most seven,
//! done and explained apart, taught is not tested) and from the fixture below, whose figures are
//! made up for the tests. Cautions come through the caution book, as they do in the program.

#![expect(clippy::unwrap_used, reason = "a test that cannot be set up must fail")]
#![expect(clippy::panic, reason = "a test that meets the wrong event must fail")]

use faceside::caution::{Book, Selected, Stands};
use faceside::diag::{Code, Source};
use faceside::formula::Values;
use faceside::procedure::{
    Does, Filled, FilledCheck, FilledSetUp, FilledStep, FilledValue, Provenance, Run, RunCutter,
    Setting,
};
use faceside::shoplog::{Day, Event, Line, Person, Verdict, read};
use faceside::training::{
    Lesson, Say, Sitting, Talk, Turn, UNIT_STEPS, Wants, heard_in, lesson_sheet, measured, plain,
};
use faceside::units::{Length, Unit, Value};
use proptest::prelude::{ProptestConfig, Strategy, any, prop, prop_oneof, proptest};

const LIMITS: &str = "Memory aid for trained persons. The stricter rule holds.";
const CAUTIONS: &str = "
machine: router-table
cautions:
";
const MATRIX: &str = "
pairs:
  - {machine: router-table, operation: stopped-groove, required: [no-trap]}
  - {machine: hand-tool, operation: chisel-plane-saw, required: [hand-distance]}
limits: {long: long form, short: short form}
";

fn rule(id: &str, kind: &str, stands: &str, signal: &str) -> String {
    format!(
        "  - {{caution: {id}, kind: {kind}, operations: every, stands: {stands}, signal: {signal}, \
         hazard: The hazard of {id}., harm: It harms by {id}., avoid: Avoid {id} so., \
         sources: [{{cite: workshop practice, fact: X-1, status: practice}}]}}\n"
    )
}

fn book() -> Book {
    let mut machine = CAUTIONS.to_owned();
    for kind in ["training", "ppe", "dust", "guard", "run-down"] {
        machine.push_str(&rule(&format!("rt-{kind}"), kind, "sheet", "warning"));
    }
    machine.push_str(&rule("rt-isolate", "isolate", "adjust", "danger"));
    machine.push_str(&rule("rt-no-trap", "no-trap", "cut", "danger"));
    let hand = CAUTIONS.replace("router-table", "hand-tool")
        + &rule("ht-hands", "hand-distance", "hand", "warning");
    let sources = [machine.as_str(), &hand, MATRIX].map(|text| Source::new("cautions.yaml", text));
    let (book, faults) = Book::read(&sources);
    assert!(!faults.any_error(), "{faults:?}");
    book
}

fn words(text: &str) -> Vec<Run> {
    vec![Run::Words(text.to_owned())]
}

fn step(does: Does, selected: &Selected, number: u32) -> FilledStep {
    let mut step = FilledStep::new(does, selected, words(&format!("Act number {number} here.")));
    step.keys = vec![words(&format!("Key of {number}."))];
    step.why = words(&format!("Because of {number}."));
    step
}

fn depth_check() -> FilledCheck {
    FilledCheck {
        measure: words("depth of the groove"),
        wanted: "9.5 mm".to_owned(),
        low: Length::mm(9.4),
        high: Length::mm(9.5),
        low_shown: "9.4 mm".to_owned(),
        high_shown: "9.5 mm".to_owned(),
        tool: "caliper".to_owned(),
        if_low: words("Raise the cutter."),
        if_high: words("Cut a fresh test piece."),
    }
}

fn set_up(title: &str, selected: &Selected, steps: Vec<FilledStep>) -> FilledSetUp {
    FilledSetUp {
        title: title.to_owned(),
        machine: None,
        operation: "chisel-plane-saw".to_owned(),
        cutter: None,
        piece: None,
        settings: Vec::new(),
        standing: selected.standing(Stands::Sheet).cloned().collect(),
        steps,
        table: None,
    }
}

/// Nine steps at the machine (1 adjusts, 2 measures, the others cut), two at the bench.
fn filled() -> Filled {
    let book = book();
    let at = |machine: &str, operation: &str| {
        book.select(machine, operation, &Values::default()).unwrap()
    };
    let router = at("router-table", "stopped-groove");
    let bench = at("hand-tool", "chisel-plane-saw");
    let mut steps: Vec<_> = (1..=9)
        .map(|number| step(Does::Cut, &router, number))
        .collect();
    steps[0] = step(Does::Adjust, &router, 1);
    steps[1] = step(Does::Measure, &router, 2);
    steps[1].check = Some(depth_check());
    let mut cut = set_up("Cut the housings", &router, steps);
    cut.machine = Some((
        "router-table-1".to_owned(),
        "table by the slipway".to_owned(),
    ));
    cut.cutter = Some(RunCutter {
        id: "straight-12".to_owned(),
        name: "12 mm straight".to_owned(),
        diameter: "11.95 mm".to_owned(),
        known_from: "measured".to_owned(),
        speed_note: String::new(),
        why: None,
    });
    cut.settings = vec![Setting {
        name: "height".to_owned(),
        label: "Cutter above the table".to_owned(),
        value: Value::Length(Length::mm(9.5)),
        shown: "9.50 mm".to_owned(),
        rounding: String::new(),
    }];
    let steps = (10..=11)
        .map(|number| step(Does::Hand, &bench, number))
        .collect();
    let square = set_up("Square the ends", &bench, steps);
    Filled {
        procedure: "stopped-housing".to_owned(),
        title: "Stopped housing".to_owned(),
        purpose: "Holds a shelf.".to_owned(),
        done_when: "The shelf goes in by hand.".to_owned(),
        revision: 3,
        reviewed: "2026-11-01".to_owned(),
        values: vec![FilledValue {
            name: "shelf".to_owned(),
            label: "Thickness of the shelf".to_owned(),
            value: Value::Length(Length::mm(17.6)),
            shown: "17.6 mm".to_owned(),
            rounding: String::new(),
            provenance: Provenance::Measured,
        }],
        ready: vec![
            ("tools".to_owned(), vec![words("caliper")]),
            ("aids".to_owned(), vec![]),
        ],
        set_ups: vec![cut, square],
        troubles: Vec::new(),
        close: Vec::new(),
        warnings: Vec::new(),
        notes: Vec::new(),
        drawing: None,
    }
}

fn lesson() -> Lesson {
    Lesson::new(&filled(), LIMITS).unwrap()
}

fn sitting(from: u32) -> Sitting {
    Sitting {
        learner: Person::new("A07").unwrap(),
        instructor: Person::new("BK").unwrap(),
        today: Day::new("2026-11-25").unwrap(),
        unit: Unit::Mm,
        from,
    }
}

/// A lesson under way, with all that was shown and recorded.
struct Play {
    talk: Talk,
    turns: Vec<Turn>,
}

impl Play {
    fn from(step: u32) -> Self {
        let talk = Talk::new(lesson(), sitting(step)).unwrap();
        let turns = vec![talk.open()];
        Self { talk, turns }
    }

    fn line(&mut self, line: Option<&str>) -> &Turn {
        let turn = self.talk.next(line);
        self.turns.push(turn);
        self.turns.last().unwrap()
    }

    fn say(&mut self, line: &str) -> String {
        plain(&self.line(Some(line)).show, 3000)
    }

    fn asked(&self) -> &str {
        let ask = self.turns.last().unwrap().ask.as_ref();
        ask.map_or("", |ask| ask.text.as_str())
    }

    /// The answer of a lesson that goes well.
    fn good(&self) -> Option<&'static str> {
        let wants = self.turns.last().unwrap().ask.as_ref()?.wants;
        Some(match wants {
            Wants::YesNo => "y",
            Wants::Reading => "9.45 mm",
            Wants::Next | Wants::Words | Wants::Day | Wants::Person | Wants::Note => "",
        })
    }

    /// Goes well until a question holds `words`.
    fn until(&mut self, words: &str) {
        while !self.asked().contains(words) {
            let good = self
                .good()
                .unwrap_or_else(|| panic!("never asked: {words}"));
            self.line(Some(good));
        }
    }

    fn finish(&mut self) {
        while let Some(good) = self.good() {
            self.line(Some(good));
        }
    }

    fn events(&self) -> Vec<&Event> {
        self.turns.iter().flat_map(|turn| &turn.events).collect()
    }

    fn last_event(&self) -> &Event {
        self.events().last().copied().unwrap()
    }

    fn text(&self) -> String {
        self.turns
            .iter()
            .map(|turn| plain(&turn.show, 3000))
            .collect()
    }
}

#[test]
fn units_hold_at_most_seven_steps_of_one_set_up() {
    let lesson = lesson();
    let sizes: Vec<_> = lesson.units.iter().map(|unit| unit.steps.len()).collect();
    // Nine steps need two units of at most seven; as even as can be they are five and four.
    assert_eq!(sizes, [5, 4, 2]);
    assert_eq!(UNIT_STEPS, 7);
    let titles: Vec<_> = lesson
        .units
        .iter()
        .map(|unit| unit.set_up.title.as_str())
        .collect();
    assert_eq!(
        titles,
        ["Cut the housings", "Cut the housings", "Square the ends"]
    );
    let numbers: Vec<_> = lesson
        .units
        .iter()
        .flat_map(|unit| &unit.steps)
        .map(|step| step.number)
        .collect();
    assert_eq!(numbers, (1..=11).collect::<Vec<_>>());
}

#[test]
fn a_lesson_needs_steps_and_limits() {
    let mut empty = filled();
    empty.set_ups.clear();
    assert_eq!(
        Lesson::new(&empty, LIMITS).unwrap_err().code,
        Code::PROCEDURE_RULE
    );
    assert_eq!(
        Lesson::new(&filled(), " ").unwrap_err().code,
        Code::PROCEDURE_RULE
    );
}

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
    let (mut tried, mut prepared) = (vec![], 0);
    for event in play.events() {
        match event {
            Event::Prepared { done, not_done, .. } => {
                prepared += 1;
                assert!(not_done.is_empty());
                assert!(done.iter().any(|tick| tick.contains("unplugged")));
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
    assert_eq!(prepared, 1);
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
fn cautions_stand_before_the_step_wherever_it_is_told() {
    let mut play = Play::from(1);
    play.finish();
    let mut told = 0;
    for text in play.turns.iter().map(|turn| plain(&turn.show, 3000)) {
        for number in [1, 3, 9, 10] {
            let id = match number {
                1 => "rt-isolate",
                10 => "ht-hands",
                _ => "rt-no-trap",
            };
            if let Some(act) = text.find(&format!("Act number {number} here.")) {
                let caution = text.find(&format!("Avoid {id} so.")).unwrap();
                assert!(caution < act, "{text}");
                told += 1;
            }
        }
    }
    // Each of the four is told twice: presented, and tried out.
    assert_eq!(told, 8);
}

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
}

#[test]
fn a_tick_that_is_answered_no_is_recorded_so() {
    let mut play = Play::from(1);
    let tick = play.asked().to_owned();
    play.say("n");
    play.until("Shown and explained");
    let Event::Prepared { done, not_done, .. } = play.last_event() else {
        panic!()
    };
    assert_eq!(*not_done, [tick]);
    // Six ticks and isolation, less the one.
    assert_eq!(done.len(), 6);
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
    let Event::Presented { steps, .. } = play.last_event() else {
        panic!()
    };
    assert_eq!(*steps, [1, 2, 3, 4, 5]);
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
fn limits_belong_to_the_good_values() {
    let judged = |text| measured(&depth_check(), text, Unit::Mm).unwrap().verdict;
    assert_eq!(judged("9.4"), Verdict::In);
    assert_eq!(judged("9.5 mm"), Verdict::In);
    assert_eq!(judged("9.51 mm"), Verdict::High);
    assert_eq!(judged("9.39 mm"), Verdict::Low);
    // 0.375 in = 9.525 mm, by 25.4 mm to the inch.
    let inch = measured(&depth_check(), "3/8", Unit::Inch).unwrap();
    assert_eq!(
        (inch.value, inch.verdict),
        (Length::nm(9_525_000), Verdict::High)
    );
}

#[test]
fn what_was_missed_stays_open_and_is_not_signed() {
    let mut play = Play::from(10);
    play.until("Before step 10");
    play.say("keep the hands away");
    assert!(play.asked().contains("Said it?"));
    let again = play.say("n");
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
fn shared_words_are_shown_and_never_judged() {
    assert_eq!(
        heard_in("LOCK it, the height!", "Lock the height, then measure."),
        ["Lock", "height"]
    );
    assert_eq!(heard_in("at 12 say", "Keep 12 mm off, 12 mm."), ["12"]);
    assert!(heard_in("", "Lock the height").is_empty());
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
    assert!(text.contains("--from 6"), "{text}");
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
    assert!(!play.text().contains("Act number 5 here."));
    let Event::LessonEnded { tried, .. } = play.last_event() else {
        panic!()
    };
    assert_eq!(*tried, (6..=11).collect::<Vec<_>>());
}

#[test]
fn a_pause_between_points_keeps_those_that_were_answered() {
    let mut play = Play::from(10);
    play.until("Before step 10");
    play.say("");
    play.say("y");
    play.say("q");
    let events = play.events();
    let Event::Explained {
        said, missed, step, ..
    } = events[events.len() - 2]
    else {
        panic!()
    };
    assert_eq!((said.len(), missed.len(), *step), (1, 0, Some(10)));
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
    let events = play.events();
    let Event::FollowUp { on, helper, .. } = events[events.len() - 2] else {
        panic!()
    };
    assert_eq!(on.as_ref().unwrap().to_string(), "2026-11-26");
    assert_eq!(helper.as_ref().unwrap().id(), "B");
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

#[test]
fn the_sheet_holds_everything_and_keeps_to_its_width() {
    let lesson = lesson();
    let wide = lesson_sheet(&lesson, 3000);
    for number in 1..=11 {
        let act = wide.find(&format!("Act number {number} here.")).unwrap();
        let id = match number {
            1 => "rt-isolate",
            2 => "rt-ppe",
            3..=9 => "rt-no-trap",
            _ => "ht-hands",
        };
        let caution = format!("Avoid {id} so.");
        let line_before = wide[..act].rfind(&caution).unwrap();
        let previous = wide[..act].rfind(&format!("Act number {} here.", number - 1));
        assert!(
            number == 2 || previous.is_none_or(|at| at < line_before),
            "step {number}"
        );
        assert!(wide.contains(&format!("Key of {number}.")));
        assert!(wide.contains(&format!("Because of {number}.")));
    }
    assert!(wide.contains(LIMITS) && wide.contains("not a test"));
    for width in [48, 60, 80, 132] {
        let sheet = lesson_sheet(&lesson, width);
        assert!(
            sheet.lines().all(|line| line.chars().count() <= width),
            "{width}\n{sheet}"
        );
    }
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

#[test]
fn a_number_and_its_unit_stay_on_one_line() {
    // Cut at 20 columns: the 20th falls between `9.4` and `mm`.
    let text = Say::Text("Good is here from 9.4 mm to 19.55 mm by push-block".to_owned());
    let shown = plain(&[text], 20);
    assert!(
        shown.contains("9.4 mm") && shown.contains("19.55 mm"),
        "{shown}"
    );
    assert!(shown.contains("push-block"), "{shown}");
    assert!(shown.lines().all(|line| line.len() <= 20));
}

#[test]
fn the_cautions_of_a_set_up_are_asked_once_and_shown_in_each_unit() {
    let mut play = Play::from(1);
    play.finish();
    let asked = play.turns.iter().filter_map(|turn| turn.ask.as_ref());
    let whole = asked.filter(|ask| ask.text.contains("whole set-up"));
    assert_eq!(whole.count(), 1);
    let shown = play.text().matches("Avoid rt-dust so.").count();
    // Two units, each presented and tried out, and once as the answer.
    assert_eq!(shown, 5);
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
