//! Screens of a lesson: nothing wider or higher than the terminal, no word of a caution lost, large
//! digits only where they fit, the question on the last page only.
//!
//! Cautions and steps are those of the built-in library. Expected digits are drawn here by hand.

use std::sync::OnceLock;

use faceside::procedure::{example, fill};
use faceside::render::{LEAST_SCREEN, LessonScreen, LessonView, Look, lesson_screen};
use faceside::store::Workshop;
use faceside::training::{Lesson, Place, Point, Prompt, Say, Wants};
use proptest::prelude::{Just, ProptestConfig, Strategy, any, prop, prop_oneof, proptest};
use textwrap::core::display_width;

const PLAIN: Look = Look {
    color: false,
    blocks: true,
};

const COLOR: Look = Look {
    color: true,
    blocks: true,
};

/// Sizes that are promised: a usual terminal, phones, a large one.
const SIZES: [(usize, usize); 5] = [(80, 24), (40, 24), (34, 20), (45, 30), (160, 50)];

/// All pages of a view.
fn pages(view: &LessonView, size: (usize, usize), look: Look) -> Vec<LessonScreen> {
    let mut all = Vec::new();
    loop {
        let page = all.len();
        let view = LessonView {
            page,
            ..view.clone()
        };
        let screen = lesson_screen(&view, size, look).unwrap();
        assert_eq!(screen.page, page);
        let is_last = screen.is_last();
        all.push(screen);
        if is_last {
            return all;
        }
    }
}

/// The words of a page, without head, rule and keys.
fn body(screen: &LessonScreen) -> Vec<&str> {
    let lines = screen.lines.iter().skip(2).map(String::as_str);
    lines.take_while(|line| !line.starts_with("---")).collect()
}

fn words(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

fn place() -> Place {
    Place {
        unit: 2,
        units: 3,
        step: Some(7),
        steps: 11,
        stage: "present",
        gone: 12,
        of: 40,
    }
}

fn prompt(wants: Wants) -> Prompt {
    let text = "Asked at last".to_owned();
    Prompt { text, wants }
}

fn figure(label: &str, shown: &str) -> Say {
    Say::Figure {
        label: label.to_owned(),
        shown: shown.to_owned(),
        told: false,
    }
}

fn view<'v>(show: &'v [Say], prompt: &'v Prompt, place: &'v Place) -> LessonView<'v> {
    LessonView {
        title: "Stopped housing at the router table",
        place: Some(place),
        before: &[],
        show,
        after: &[],
        prompt,
        typed: ("", 0),
        page: 0,
    }
}

/// Every caution of every step and set-up of the library.
fn cautions() -> &'static [Point] {
    static ALL: OnceLock<Vec<Point>> = OnceLock::new();
    ALL.get_or_init(|| {
        let (workshop, _) = Workshop::open(None, None).unwrap();
        let mut all: Vec<Point> = Vec::new();
        for procedure in workshop.usable() {
            let given = example(procedure, workshop.place());
            let filled = fill(procedure, workshop.place(), &given).unwrap();
            let lesson = Lesson::new(&filled, &workshop.limits.short).unwrap();
            for unit in &lesson.units {
                let steps = unit.steps.iter().flat_map(|step| step.points());
                let points = unit.set_up.standing().iter().chain(steps);
                for point in points.filter(|point| matches!(point, Point::Caution(_))) {
                    if !all.contains(point) {
                        all.push(point.clone());
                    }
                }
            }
        }
        assert!(all.len() > 50, "{} cautions", all.len());
        all
    })
}

#[test]
fn a_setting_stands_in_large_digits_where_they_fit() {
    let show = [figure("Fence", "12.40 mm")];
    let (prompt, place) = (prompt(Wants::Next), place());
    let view = view(&show, &prompt, &place);
    let screen = |size| lesson_screen(&view, size, PLAIN).unwrap();
    // Three columns and five rows a digit, twice as wide: 12 . 40 take 4 x 6 + 2 columns and four
    // gaps of two, then a blank and the unit: 37.
    let upright = [
        "Fence",
        "  ██    ██████      ██  ██  ██████",
        "████        ██      ██  ██  ██  ██",
        "  ██    ██████      ██████  ██  ██",
        "  ██    ██              ██  ██  ██",
        "██████  ██████  ██      ██  ██████ mm",
    ];
    let narrow = [
        "Fence",
        " █  ███   █ █ ███",
        "██    █   █ █ █ █",
        " █  ███   ███ █ █",
        " █  █       █ █ █",
        "███ ███ █   █ ███ mm",
    ];
    assert_eq!(body(&screen((40, 20)))[..6], upright);
    assert_eq!(body(&screen((37, 20)))[..6], upright);
    assert_eq!(body(&screen((36, 20)))[..6], narrow);
    // At twice the size: 2 x (37 - 3) + 3 columns and ten rows.
    let large = screen((80, 24));
    assert_eq!(
        body(&large)[1].trim_end(),
        "    ████        ████████████            ████    ████    ████████████"
    );
    assert_eq!(
        body(&large)[10]
            .trim_end()
            .chars()
            .filter(|one| *one == '█')
            .count(),
        12 + 12 + 4 + 4 + 12
    );
    // Where the locale has no blocks, they are drawn with signs that every terminal has.
    let look = Look {
        blocks: false,
        ..PLAIN
    };
    let signs = lesson_screen(&view, (40, 20), look).unwrap();
    assert!(signs.lines.iter().all(|line| line.is_ascii()));
    assert_eq!(body(&signs)[5], "######  ######  ##      ##  ###### mm");
}

#[test]
fn a_setting_that_does_not_fit_or_is_no_number_is_a_bold_line() {
    let (prompt, place) = (prompt(Wants::Next), place());
    for shown in ["1234567890.12 mm", "left", "", "- mm"] {
        let show = [figure("Hand", shown)];
        let view = view(&show, &prompt, &place);
        let screen = lesson_screen(&view, (34, 20), COLOR).unwrap();
        let line = &screen.lines[2];
        let bold = format!("\u{1b}[1m- Hand: {shown}");
        assert!(line.starts_with(bold.trim_end()), "{line:?}");
    }
}

#[test]
fn the_question_is_on_the_last_page_only_and_the_others_say_so() {
    let show: Vec<Say> = cautions()[..12].iter().cloned().map(Say::Point).collect();
    let (asked, place) = (prompt(Wants::YesNo), place());
    let view = view(&show, &asked, &place);
    for size in [(80, 24), (40, 24), (34, 20), (30, 12)] {
        let pages = pages(&view, size, PLAIN);
        assert!(pages.len() > 1, "{size:?}");
        for page in &pages {
            let text = page.lines.join("\n");
            assert_eq!(text.contains("Asked at last"), page.is_last(), "{text}");
            assert_eq!(text.contains("MORE BELOW"), !page.is_last(), "{text}");
            assert_eq!(text.contains("y yes"), page.is_last(), "{text}");
        }
    }
}

#[test]
fn too_small_a_terminal_has_no_screen() {
    let (asked, place) = (prompt(Wants::Next), place());
    let (columns, rows) = LEAST_SCREEN;
    let view = view(&[], &asked, &place);
    assert!(lesson_screen(&view, (columns, rows), PLAIN).is_some());
    for size in [(columns - 1, rows), (columns, rows - 1), (0, 0), (500, 3)] {
        assert_eq!(lesson_screen(&view, size, PLAIN), None);
    }
}

#[test]
fn the_head_tells_where_the_lesson_is() {
    let (asked, place) = (prompt(Wants::Next), place());
    let view = view(&[], &asked, &place);
    let screen = lesson_screen(&view, (80, 24), PLAIN).unwrap();
    assert_eq!(
        screen.lines[0].trim_end(),
        "Stopped housing at the router table"
    );
    // 80 columns less the words (25) and four leave a bar of 51; 12 of 40 are 15.3 of it.
    let bar = format!("[{}{}]", "#".repeat(15), ".".repeat(36));
    assert_eq!(screen.lines[1], format!("unit 2 of 3, step 7 of 11  {bar}"));
    let narrow = lesson_screen(&view, (30, 12), PLAIN).unwrap();
    assert_eq!(narrow.lines[0], "Stopped housing at the rout...");
    assert_eq!(narrow.lines[1], "unit 2 of 3, step 7 of 11");
}

#[test]
fn the_cursor_stands_in_the_line_that_is_typed() {
    let (asked, place) = (prompt(Wants::Reading), place());
    let mut view = view(&[], &asked, &place);
    // A wide character takes two columns.
    for (typed, at, column) in [("", 0, 2), ("9.45", 4, 6), ("9.45", 1, 3), ("船9", 1, 4)] {
        view.typed = (typed, at);
        let screen = lesson_screen(&view, (80, 24), PLAIN).unwrap();
        let (found, row) = screen.cursor.unwrap();
        assert_eq!(found, column);
        assert_eq!(
            screen.lines[row].trim_end(),
            format!("> {typed}").trim_end()
        );
    }
    let long = "x".repeat(500);
    view.typed = (&long, 500);
    let screen = lesson_screen(&view, (34, 20), PLAIN).unwrap();
    assert!(screen.cursor.unwrap().0 < 34);
    assert!(lesson_screen(&view, (34, 20), PLAIN).unwrap().is_last());
}

fn text() -> impl Strategy<Value = String> {
    let word = prop_oneof![
        4 => "[a-z]{1,12}",
        1 => "[0-9]{1,3}\\.[0-9]{2} mm",
        1 => "[船舷木槽]{1,6}",
        1 => "[a-z]{30,60}",
        1 => any::<char>().prop_map(|one| one.to_string()),
    ];
    prop::collection::vec(word, 0..40).prop_map(|words| words.join(" "))
}

fn say() -> impl Strategy<Value = Say> {
    let number = prop_oneof![
        "[0-9]{1,4}(\\.[0-9]{1,3})? mm",
        "[0-9]{1,2} [0-9]/[0-9]{1,2} in",
        text(),
    ];
    let caution = (0..cautions().len()).prop_map(|at| cautions()[at].clone());
    prop_oneof![
        1 => text().prop_map(Say::Head),
        2 => text().prop_map(Say::Text),
        2 => text().prop_map(Say::Act),
        2 => text().prop_map(Say::Item),
        2 => (text(), number, any::<bool>()).prop_map(|(label, shown, told)| Say::Figure {
            label,
            shown,
            told
        }),
        2 => (1..30_usize, text()).prop_map(|(at, text)| Say::Numbered(at, Box::new(Say::Text(text)))),
        4 => caution.prop_map(Say::Point),
    ]
}

fn wants() -> impl Strategy<Value = Wants> {
    prop_oneof![
        Just(Wants::Next),
        Just(Wants::YesNo),
        Just(Wants::All),
        Just(Wants::Words),
        Just(Wants::Reading),
        Just(Wants::Choice),
        Just(Wants::Note),
    ]
}

fn size() -> impl Strategy<Value = (usize, usize)> {
    let usual = prop::sample::select(SIZES.to_vec());
    prop_oneof![usual, (30..200_usize, 12..70_usize)]
}

/// The line without what colours it.
fn stripped(line: &str) -> String {
    let mut parts = line.split('\u{1b}');
    let first = parts.next().unwrap().to_owned();
    first
        + &parts
            .map(|part| part.split_once('m').unwrap().1)
            .collect::<String>()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn every_screen_fits_and_no_caution_is_cut(
        lists in [prop::collection::vec(say(), 0..3), prop::collection::vec(say(), 0..10), prop::collection::vec(say(), 0..3)],
        (asked, wants) in ("[a-z船]{0,12}", wants()),
        title in text(),
        typed in text(),
        size in size(),
    ) {
        let prompt = Prompt { text: format!("{asked} Asked at last"), wants };
        let place = place();
        let [before, show, after] = &lists;
        let view = LessonView {
            title: &title,
            before,
            after,
            typed: (&typed, typed.chars().count()),
            ..view(show, &prompt, &place)
        };
        let screens = pages(&view, size, PLAIN);
        let painted = lesson_screen(&view, size, COLOR).unwrap();
        let painted: Vec<String> = painted.lines.iter().map(|line| stripped(line)).collect();
        assert_eq!(screens[0].lines, painted);
        for screen in &screens {
            assert_eq!(screen.lines.len(), size.1);
            for line in &screen.lines {
                assert!(display_width(line) <= size.0, "{} columns: {line}", display_width(line));
                assert!(!line.chars().any(char::is_control), "{line:?}");
            }
            if let Some((column, row)) = screen.cursor {
                assert!(column < size.0 && row < size.1);
                assert!(screen.lines[row].starts_with("> "));
            }
        }
        // All pages in one; no other text can hold the words of a caution.
        let lines: Vec<&str> = screens.iter().flat_map(body).collect();
        let all = words(&lines.join(" "));
        for say in lists.iter().flatten() {
            let Say::Point(point) = say else { continue };
            assert!(all.contains(&words(&point.text())), "{}\n{}", point.text(), lines.join("\n"));
        }
        let last: Vec<&str> = body(screens.last().unwrap());
        assert!(words(&last.join(" ")).contains("Asked at last"), "{last:?}");
    }
}
