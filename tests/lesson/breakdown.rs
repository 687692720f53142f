//! What a lesson holds and shows: units, cautions before steps, readings, the sheet.

use crate::fixture::{LIMITS, depth_check, filled, lesson};
use crate::play::Play;
use faceside::diag::Code;
use faceside::shoplog::Verdict;
use faceside::training::{Lesson, Say, UNIT_STEPS, heard_in, lesson_sheet, measured, plain};
use faceside::units::{Length, Unit};

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
fn cautions_stand_before_the_step_wherever_it_is_told() {
    let mut play = Play::from(1);
    play.finish();
    let mut told = 0;
    for text in play.turns.iter().map(|turn| plain(&turn.all(), 3000)) {
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
fn shared_words_are_shown_and_never_judged() {
    assert_eq!(
        heard_in("LOCK it, the height!", "Lock the height, then measure."),
        ["Lock", "height"]
    );
    assert_eq!(heard_in("at 12 say", "Keep 12 mm off, 12 mm."), ["12"]);
    assert!(heard_in("", "Lock the height").is_empty());
}

#[test]
fn a_notice_bears_no_alert_mark() {
    // ANSI Z535.4 (read second-hand): NOTICE never with the safety alert symbol.
    let mut play = Play::from(1);
    play.finish();
    for text in [play.text(), lesson_sheet(&lesson(), 80)] {
        assert!(text.contains("- NOTICE: The hazard of ht-bench."));
        assert!(!text.contains("! NOTICE"));
        assert!(text.contains("! DANGER") && text.contains("! WARNING"));
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
    // One set-up at the machine, one at the bench.
    assert_eq!(whole.count(), 2);
    let shown = play.text().matches("Avoid rt-dust so.").count();
    // Two units, each presented and tried out, and once as the answer.
    assert_eq!(shown, 5);
}
