//! A whole training played with the program, in a terminal: from the first lesson to the authority to work alone,
//! what is refused on the way, and how it shows in the timetable, the person's record and on paper.
//!
//! The program's day is the day of the test; where a training needs another day to pass, the lines
//! of the record are written anew as if they had been written a day earlier.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::disallowed_methods,
    reason = "a test may fail, and looks at files itself"
)]

mod util;

use std::io::{Read, Write};
use std::path::PathBuf;
use std::process::{Command, Stdio};

use faceside::diag::Source;
use faceside::shoplog::{Day, Line, What, read};
use util::{Folder, demo_shop, program};

/// It is learned after nothing, so that the whole way can be gone.
const WHAT: &str = "change-router-cutter";

fn record(folder: &Folder) -> PathBuf {
    let files = std::fs::read_dir(folder.path().join("record")).unwrap();
    let mut files = files.map(|file| file.unwrap().path());
    files
        .find(|path| path.extension().is_some_and(|end| end == "jsonl"))
        .unwrap()
}

/// A night passes: every line is now a day older.
fn a_day_passes(folder: &Folder) {
    let path = record(folder);
    let text = std::fs::read_to_string(&path).unwrap();
    let (entries, faults) = read(&Source::new("record", text.as_str()));
    assert!(faults.is_empty());
    let lines = entries.into_iter().map(|entry| {
        let What::Known(event) = entry.what else {
            panic!("a line that is not known");
        };
        let (day, time) = entry.line.at().split_at(10);
        let before = Day::new(day).unwrap().plus(-1);
        let line = Line::new(entry.line.number(), &format!("{before}{time}")).unwrap();
        line.write(&event).unwrap()
    });
    std::fs::write(path, lines.collect::<String>()).unwrap();
}

/// The answer of a training that goes well, to a question that ends so.
fn good(asked: &str) -> String {
    // Lines are broken to the width of the terminal.
    let asked = asked.split_whitespace().collect::<Vec<_>>().join(" ");
    let (text, choices) = asked.rsplit_once('[').unwrap();
    let text = text.trim_end();
    let is = |words: &str| choices.starts_with(words);
    if is("number and unit") {
        let (_, limits) = text.rsplit_once("good from ").unwrap();
        return limits.split_once(" to ").unwrap().0.to_owned();
    }
    let hurts = text.ends_with("Was any help given?") || text.ends_with("can hurt?");
    let spoken = text.ends_with("and what can hurt?");
    match () {
        () if is("y or n") && hurts && !spoken => "n".to_owned(),
        () if is("y or n") || is("y: all") => "y".to_owned(),
        () if is("number of the answer") || is("number;") => "1".to_owned(),
        () if is("whole number") => "0".to_owned(),
        () => String::new(),
    }
}

/// Runs the program in a terminal of its own (util-linux `script`) that has no screens, and answers
/// each question as it comes.
#[track_caller]
fn play(folder: &Folder, arguments: &[&str], answer: impl Fn(&str) -> String) -> String {
    let own = program();
    let words = [own.get_program().to_str().unwrap()].into_iter();
    let words: Vec<&str> = words.chain(arguments.iter().copied()).collect();
    let mut child = Command::new("script")
        .args([
            "--quiet",
            "--return",
            "--command",
            &words.join(" "),
            "/dev/null",
        ])
        .env("TERM", "dumb")
        .env_remove("FACESIDE_SHOP")
        .current_dir(folder.path())
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    let mut input = child.stdin.take().unwrap();
    let mut output = child.stdout.take().unwrap();
    let (mut all, mut since) = (String::new(), 0);
    let mut bytes = [0; 65_536];
    loop {
        let count = output.read(&mut bytes).unwrap();
        if count == 0 {
            break;
        }
        all.push_str(&String::from_utf8_lossy(&bytes[..count]));
        if all.ends_with("] ") {
            let line = answer(&all[since..]);
            since = all.len();
            // A program that ends early is judged by its code.
            let _ = writeln!(input, "{line}");
        }
    }
    let mut told = String::new();
    child
        .stderr
        .take()
        .unwrap()
        .read_to_string(&mut told)
        .unwrap();
    let status = child.wait().unwrap();
    assert!(status.success(), "{arguments:?}\n{all}\n{told}");
    all
}

fn with<'a>(by: &'a str, more: &[&'a str]) -> Vec<&'a str> {
    [&["train", WHAT, "--person", "A07", "--by", by], more].concat()
}

#[track_caller]
fn refused(folder: &Folder, by: &str, more: &[&str], words: &str) {
    folder.run(&with(by, more)).code(1).complains(words);
}

fn state(folder: &Folder) -> String {
    let json = folder.run(&["train", "--person", "A07", "--json"]).json();
    json["procedures"][0]["state"].as_str().unwrap().to_owned()
}

#[test]
fn a_whole_training_from_the_first_lesson_to_the_authority() {
    let folder = demo_shop();
    refused(
        &folder,
        "I02",
        &["--sign", "taught"],
        "not taught: no lesson",
    );
    let lesson = play(&folder, &with("I02", &[]), good);
    assert!(lesson.contains("signed as taught"), "{lesson}");
    assert!(lesson.contains("Which is right?"), "no question was asked");
    assert_eq!(state(&folder), "taught");
    refused(&folder, "I05", &["--sign", "tested"], "0 of 3 clean");
    refused(&folder, "A07", &["--sign", "run"], "cannot sign for");
    for _ in 0..3 {
        play(&folder, &with("I02", &["--sign", "run"]), good);
    }
    assert_eq!(state(&folder), "practising");
    refused(&folder, "I05", &["--sign", "tested"], "on 1 of 2 days");
    a_day_passes(&folder);
    play(&folder, &with("I02", &["--sign", "run"]), good);
    refused(&folder, "I02", &["--sign", "tested"], "cannot test it too");
    refused(
        &folder,
        "I05",
        &["--sign", "allowed"],
        "has not passed the test",
    );
    let test = play(&folder, &with("I05", &["--sign", "tested"]), good);
    assert!(test.contains("test, passed"), "{test}");
    assert_eq!(state(&folder), "tested");
    play(&folder, &with("I05", &["--sign", "allowed"]), good);
    assert_eq!(state(&folder), "authorised");
    signed_by_instructors(&folder);
    shown(&folder);
    let told = ["record", "near-miss", "text=the spindle lock slipped"];
    let on = format!("procedure={WHAT}");
    folder.run(&[&told[..], &[&on]].concat()).code(0);
    assert_eq!(state(&folder), "suspended");
    refused(
        &folder,
        "I05",
        &["--sign", "allowed"],
        "the spindle lock slipped",
    );
    play(&folder, &with("I05", &["--sign", "run"]), good);
    assert_eq!(state(&folder), "authorised");
}

/// Who may work alone signs for others, and so does who is named; nobody else.
#[track_caller]
fn signed_by_instructors(folder: &Folder) {
    let sign = |by| {
        let sign = [
            "train", WHAT, "--person", "B11", "--by", by, "--sign", "taught",
        ];
        folder.run(&sign)
    };
    for by in ["A07", "I02"] {
        sign(by).code(1).complains("not taught: no lesson");
    }
    sign("Z9")
        .code(1)
        .complains("Z9 is no instructor")
        .complains("people.yaml");
    let lesson = ["train", WHAT, "--person", "B11", "--by", "Z9"];
    let words = folder.run_with(&lesson, "").out();
    let words = words.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        words.contains("will not be signed as taught: Z9 is no"),
        "{words}"
    );
}

#[test]
fn the_people_of_a_shop_are_read_and_wrong_ones_told() {
    let people = |text: &str| demo_shop().file("people.yaml", text);
    let names = people("instructors: [I02, A. Sailor]\n");
    names
        .run(&["check", "."])
        .code(1)
        .complains("people.yaml:1")
        .complains("initials of at most 8");
    let more = people("instructors: [I02]\nothers: [B11]\n");
    for what in [".", "people.yaml"] {
        more.run(&["check", what]).code(1).complains("unknown-key");
    }
    let nobody = people("instructors: []\n");
    nobody.run(&["check", "people.yaml"]).code(0);
}

/// A page of people where nobody has begun says so, and how to begin; it has no empty table.
#[test]
fn a_record_without_people_says_how_to_begin() {
    let folder = Folder::empty();
    let site = ["site", "--out", "site", "--with-people"];
    folder.run(&site).code(0);
    let page = folder.read("site/people.html");
    assert!(page.contains("nobody is recorded yet"), "{page}");
    assert!(page.contains("faceside train PROCEDURE --person ID --by ID"));
    assert!(!page.contains("<table"));
}

/// The timetable wherever it is shown; on the site only when asked for.
#[track_caller]
fn shown(folder: &Folder) {
    let table = folder.run(&["train", "--timetable"]);
    table.code(0).says("A07").says("until 20").says("183 days");
    let json = folder.run(&["train", "--timetable", "--json"]).json();
    assert_eq!(json["procedures"][0]["may_alone"], 1);
    let paper = ["train", "--timetable", "--sheet", "--out", "wall"];
    folder.run(&paper).code(0);
    assert!(folder.read("wall/timetable.html").contains("A07"));
    folder.run(&["site", "--out", "plain"]).code(0);
    assert!(!folder.path().join("plain/people.html").exists());
    assert!(!folder.read("plain/index.html").contains("people.html"));
    folder
        .run(&["site", "--out", "people", "--with-people"])
        .code(0);
    assert!(folder.read("people/people.html").contains("A07"));
    assert!(folder.read("people/index.html").contains("people.html"));
}

#[test]
fn a_test_with_an_unsafe_act_ends_at_once_and_is_not_passed() {
    let folder = demo_shop();
    play(&folder, &with("I02", &[]), good);
    play(&folder, &with("I02", &["--sign", "run"]), good);
    a_day_passes(&folder);
    for _ in 0..2 {
        play(&folder, &with("I02", &["--sign", "run"]), good);
    }
    let test = play(
        &folder,
        &with("I05", &["--sign", "tested"]),
        |asked| match asked.contains("u: unsafe act") {
            true => "u".to_owned(),
            false if asked.contains("a few words") => "reached over the cutter".to_owned(),
            false => good(asked),
        },
    );
    assert!(
        test.contains("not passed, an unsafe act: reached over"),
        "{test}"
    );
    assert_eq!(test.matches("Done as written").count(), 1);
    refused(
        &folder,
        "I05",
        &["--sign", "allowed"],
        "has not passed the test",
    );
}

#[test]
fn what_is_learned_first_is_tested_first() {
    let folder = demo_shop();
    let next = ["train", "set-router-table-fence", "--person", "A07", "--by"];
    let with = |by, more: &[&'static str]| [&next[..], &[by], more].concat();
    play(&folder, &with("I02", &[]), good);
    play(&folder, &with("I02", &["--sign", "run"]), good);
    a_day_passes(&folder);
    for _ in 0..2 {
        play(&folder, &with("I02", &["--sign", "run"]), good);
    }
    folder
        .run(&with("I05", &["--sign", "tested"]))
        .code(1)
        .complains("learned first, and not tested: change-router-cutter");
}

#[test]
fn answers_that_end_early_sign_nothing() {
    let folder = demo_shop();
    play(&folder, &with("I02", &[]), good);
    let before = std::fs::read(record(&folder)).unwrap();
    let cut = folder.run_with(&with("I02", &["--sign", "run"]), "n\ny\n");
    cut.code(2).complains("nothing is signed");
    assert_eq!(std::fs::read(record(&folder)).unwrap(), before);
}

#[test]
fn questions_are_put_without_a_lesson_and_others_the_next_time() {
    let folder = demo_shop();
    let ask = with("I02", &["--questions"]);
    let first = play(&folder, &ask, |_| "1".to_owned());
    assert!(first.contains("questions, "), "{first}");
    let second = play(&folder, &ask, |_| "1".to_owned());
    assert_ne!(first, second);
    let lines = std::fs::read_to_string(record(&folder)).unwrap();
    assert!(lines.contains(r#""attempt":1"#) && lines.contains(r#""attempt":2"#));
}

/// Each answer is in the record before the next question; when one cannot be written any more, those
/// before it are kept.
#[test]
fn an_answer_is_kept_when_the_next_cannot_be_written() {
    let folder = demo_shop();
    let ask = with("I02", &["--questions"]);
    folder.run_with(&ask, "1\n1\n").code(0).says("the last 20");
    let kept = std::fs::read_to_string(record(&folder)).unwrap();
    assert_eq!(kept.lines().count(), 2, "{kept}");
    assert!(kept.lines().all(|line| line.contains(r#""attempt":1"#)));
    // A folder stands where the file of the record was.
    let file = record(&folder);
    let aside = file.with_extension("kept");
    std::fs::rename(&file, &aside).unwrap();
    std::fs::create_dir(&file).unwrap();
    folder
        .run_with(&ask, "1\n1\n")
        .code(1)
        .complains("the answers before this one are in the record");
    assert_eq!(std::fs::read_to_string(&aside).unwrap(), kept);
}

#[test]
fn a_person_of_whom_nothing_is_recorded_is_told() {
    let folder = demo_shop();
    folder
        .run(&["train", "--person", "Z99"])
        .code(2)
        .complains("nothing is recorded of a person `Z99`");
    folder
        .run(&["train"])
        .code(2)
        .complains("train PROCEDURE --person ID --by ID")
        .complains("`faceside train --person ID`")
        .complains("`faceside train --timetable`");
    folder
        .run(&["train", "--timetable"])
        .code(0)
        .says("No training");
}

#[test]
fn sheets_of_several_lessons_share_a_folder() {
    let folder = demo_shop();
    let sheet = |what: &str| {
        folder
            .run(&["train", what, "--sheet", "--out", "wall"])
            .code(0);
    };
    sheet("through-housing");
    sheet(WHAT);
    let first = folder.read("wall/lesson-through-housing.html");
    folder
        .run(&["train", "--timetable", "--sheet", "--out", "wall"])
        .code(0);
    sheet(WHAT);
    assert_eq!(folder.read("wall/lesson-through-housing.html"), first);
    let mut names: Vec<String> = std::fs::read_dir(folder.path().join("wall"))
        .unwrap()
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .collect();
    names.sort();
    assert_eq!(
        names,
        [
            format!("lesson-{WHAT}.html"),
            "lesson-through-housing.html".to_owned(),
            "timetable.html".to_owned()
        ]
    );
}

#[test]
fn the_lesson_sheet_has_three_columns_cautions_first_and_blanks_to_sign() {
    let folder = demo_shop();
    let sheet = ["train", "through-housing", "--sheet", "--out", "lesson"];
    folder
        .run(&sheet)
        .code(0)
        .says("lesson-through-housing.html");
    let html = folder.read("lesson/lesson-through-housing.html");
    for words in [
        "Key points",
        "Reasons",
        "Watched runs",
        "Signatures",
        "learner",
    ] {
        assert!(html.contains(words), "{words}");
    }
    // In each body of the breakdown the panels come before the row with the act.
    let bodies = html
        .split("<tbody>")
        .filter_map(|body| body.split("</tbody>").next())
        .filter(|body| body.contains("class=\"act\""));
    let with_panels = bodies.filter(|body| body.contains("class=\"panel"));
    let mut count = 0;
    for body in with_panels {
        count += 1;
        assert!(body.find("class=\"panel").unwrap() < body.find("class=\"act\"").unwrap());
    }
    assert!(count > 5, "{count} steps with cautions");
}
