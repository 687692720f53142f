//! Lessons in a real terminal: played by keys to the signature, paused and gone on with, killed, in a
//! window that changes its size; the terminal is put back each time.
//!
//! The screens are those that tmux reads back; what was recorded is read by the program's own reader.

#![cfg(unix)]
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::disallowed_methods,
    reason = "a test may fail, and looks at files itself"
)]

mod util;

use std::fs;
use std::path::Path;
use std::process::Command;

use faceside::diag::Source;
use faceside::shoplog::{Event, Verdict, What, read};
use util::terminal::Terminal;
use util::{Folder, demo_shop};

const WHAT: &str = "change-router-cutter";

/// The line that a shell runs: the lesson, then its exit code and how the terminal is set, and a wait.
fn lesson(what: &str, more: &str) -> String {
    format!(
        "{} train {what} --person A07 --by I02 {more}; echo ended $?; \
         stty -a | grep -o -- '-*icanon'; exec cat",
        env!("CARGO_BIN_EXE_faceside")
    )
}

fn events(folder: &Path) -> Vec<Event> {
    let Ok(mut files) = fs::read_dir(folder.join("record")) else {
        return Vec::new();
    };
    let text = fs::read_to_string(files.next().unwrap().unwrap().path()).unwrap();
    let (entries, faults) = read(&Source::new("record", text));
    assert!(faults.is_empty(), "{faults:?}");
    let known = entries.into_iter().map(|entry| match entry.what {
        What::Known(event) => event,
        What::Unknown { .. } => panic!("a line that is not known"),
    });
    known.collect()
}

fn one_line(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// The keys at the foot, in one line.
fn foot(screen: &str) -> String {
    let (_, foot) = screen.rsplit_once("---").unwrap();
    one_line(foot)
}

/// The key of a lesson that goes well, by what the foot offers; none for a reading.
fn good(screen: &str) -> Option<&'static str> {
    let foot = foot(screen);
    let offers = |keys: &str| foot.starts_with(keys);
    match () {
        () if offers("Enter not measured") => None,
        () if offers("y ") => Some("y"),
        () if offers("1-9") => Some("1"),
        () if offers("Space") => Some("Space"),
        () => Some("Enter"),
    }
}

/// The lowest good value that the screen tells.
fn lowest(screen: &str) -> String {
    let text = one_line(screen);
    let (_, limits) = text.rsplit_once("good from ").unwrap();
    limits.split_once(" to ").unwrap().0.to_owned()
}

/// Plays well until the screen holds the words; gives it.
#[track_caller]
fn play_until(terminal: &Terminal, words: &str) -> String {
    let mut screen = terminal.shows("? help");
    while !screen.contains(words) {
        let is_open = screen.contains("? help");
        assert!(is_open, "the lesson ended before {words}:\n{screen}");
        if good(&screen).is_none() {
            terminal.text(&lowest(&screen));
        }
        screen = terminal.press(&[good(&screen).unwrap_or("Enter")]);
    }
    screen
}

#[track_caller]
fn is_put_back(terminal: &Terminal, code: i32) {
    let end = terminal.shows("icanon");
    assert!(end.contains(&format!("ended {code}")), "{end}");
    assert!(!end.contains("-icanon"), "keys are still raw:\n{end}");
    assert_eq!(terminal.value("alternate_on"), "0");
    assert_eq!(terminal.value("cursor_flag"), "1");
}

/// The numbers of the steps of events of a kind.
fn steps(events: &[Event], of: impl Fn(&Event) -> Vec<u32>) -> Vec<u32> {
    events.iter().flat_map(of).collect()
}

fn tried(event: &Event) -> Vec<u32> {
    match event {
        Event::Tried { step, did, .. } if *did => vec![*step],
        _ => Vec::new(),
    }
}

fn presented(event: &Event) -> Vec<u32> {
    match event {
        Event::Presented { steps, .. } => steps.clone(),
        _ => Vec::new(),
    }
}

fn kinds(events: &[Event], kind: &str) -> usize {
    events.iter().filter(|event| event.kind() == kind).count()
}

/// Forward, back, a note, a bad and a good reading, a pause; gone on with in a phone's window, to the
/// signature.
#[test]
fn a_whole_lesson_by_keys_with_a_pause() {
    let folder = Folder::empty();
    folder.run(&["start", "loft"]).code(0);
    let folder = folder.file("loft/people.yaml", "instructors: [I02]\n");
    let loft = folder.path().join("loft");
    let line = lesson("first-procedure", "");
    let terminal = Terminal::run("whole", &loft, &line, (80, 24));
    terminal.shows("Memory aid for trained persons.");
    assert_eq!(terminal.value("alternate_on"), "1");
    play_until(&terminal, "step 2 of");
    assert!(terminal.press(&["b"]).contains("step 1 of"));
    assert!(terminal.press(&["Enter"]).contains("step 2 of"));
    // A note, with a slip that is put right: the last letter but one is taken away.
    terminal.press(&["+"]);
    terminal.text("fence crewps");
    terminal.keys(&["Left", "Left", "BSpace"]);
    terminal.text("e");
    terminal.shows("> fence creeps");
    let noted = terminal.press(&["Enter"]);
    assert!(
        noted.contains("Noted.") && noted.contains("step 2 of"),
        "{noted}"
    );
    let help = terminal.press(&["?"]);
    assert!(help.contains("write a note"), "{help}");
    assert!(terminal.press(&["Enter"]).contains("step 2 of"));
    let asked = play_until(&terminal, "Enter not measured");
    terminal.text("999 mm");
    let bad = terminal.press(&["Enter"]);
    assert!(bad.contains("Recorded as out of its limits."), "{bad}");
    assert!(bad.contains("Enter not measured"), "{bad}");
    terminal.text(&lowest(&asked));
    terminal.press(&["Enter"]);
    let at = play_until(&terminal, "done rightly");
    terminal.keys(&["q"]);
    is_put_back(&terminal, 0);
    assert!(terminal.screen().contains("Paused."));
    let before = events(&loft);
    assert_eq!(before.last().unwrap().kind(), "lesson-paused");
    // On a phone.
    terminal.resize((40, 24));
    terminal.again(&loft, &line);
    terminal.shows("Go on at unit");
    let again = terminal.press(&["y"]);
    assert!(again.contains("unplugged"), "{again}");
    let again = terminal.press(&["y"]);
    assert!(again.contains("Before you go on in unit"), "{again}");
    let on = play_until(&terminal, "done rightly");
    let question = |screen: &str| {
        let text = one_line(screen);
        let (text, _) = text.split_once("done rightly").unwrap();
        text.rsplit_once("Step ").unwrap().1.to_owned()
    };
    assert_eq!(question(&on), question(&at));
    play_until(&terminal, "do you sign");
    terminal.keys(&["y"]);
    is_put_back(&terminal, 0);
    assert!(one_line(&terminal.screen()).contains("signed as taught"));
    let all = events(&loft);
    assert_eq!(all[..before.len()], before);
    whole(&all);
}

/// What the record of that lesson holds.
#[track_caller]
fn whole(all: &[Event]) {
    assert!(matches!(all[0], Event::LessonStarted { from: 1, .. }));
    assert_eq!(kinds(all, "lesson-started"), 1);
    assert_eq!(kinds(all, "lesson-paused"), 1);
    assert_eq!(kinds(all, "lesson-resumed"), 1);
    let Some(Event::LessonEnded {
        tried: all_tried,
        open,
        taught_by,
        ..
    }) = all.last()
    else {
        panic!()
    };
    assert!(open.is_empty());
    assert_eq!(taught_by.as_ref().unwrap().id(), "I02");
    let every: Vec<u32> = (1..=u32::try_from(all_tried.len()).unwrap()).collect();
    assert!(every.len() >= 20, "{every:?}");
    assert_eq!(*all_tried, every);
    assert_eq!(steps(all, tried), every);
    // Step 1 was shown twice, after going back.
    let mut shown = steps(all, presented);
    assert_eq!(shown[..2], [1, 1]);
    shown.remove(0);
    assert_eq!(shown, every);
    let notes = all.iter().filter_map(|event| match event {
        Event::Note { text, by, .. } => Some((text.as_str(), by.id())),
        _ => None,
    });
    assert_eq!(notes.collect::<Vec<_>>(), [("fence creeps", "I02")]);
    let readings = all.iter().filter_map(|event| match event {
        Event::Reading { verdict, .. } => Some(*verdict),
        _ => None,
    });
    let readings: Vec<Verdict> = readings.collect();
    assert_eq!(readings[0], Verdict::High);
    assert!(readings[1..].iter().all(|verdict| *verdict == Verdict::In));
}

/// Killed, with the terminal as it was: the next start, in lines, goes on at the same question.
#[test]
fn a_lesson_killed_in_a_window_of_a_phone_goes_on_in_lines() {
    let folder = demo_shop();
    // Without job control, so that it stays in the foreground and its number is known.
    let exec = lesson(WHAT, "").split(';').next().unwrap().to_owned();
    let line = format!("echo $$ > pid; exec {exec}");
    let terminal = Terminal::run("killed", folder.path(), &line, (40, 24));
    play_until(&terminal, "step 4 of");
    let recorded = events(folder.path()).len();
    let pid = folder.read("pid");
    let killed = Command::new("kill").args(["-9", pid.trim()]).status();
    assert!(killed.unwrap().success());
    terminal.until("the end", |_| terminal.value("pane_dead") == "1");
    assert_eq!(events(folder.path()).len(), recorded);
    let next = ["train", WHAT, "--person", "A07", "--by", "I05"];
    let left = folder.run_with(&next, "");
    left.code(0)
        .says("Go on at unit 1, step 4 (present)?")
        .says("by I02")
        .says("Nothing was begun");
    assert_eq!(events(folder.path()).len(), recorded);
    let on = folder.run_with(&next, "perhaps\ny\ny\n\n\nq\n");
    on.code(0).says("Answer y or n").says("Before you go on");
    let added = events(folder.path()).split_off(recorded);
    let kinds: Vec<&str> = added.iter().map(Event::kind).collect();
    assert_eq!(
        kinds,
        ["lesson-resumed", "prepared", "presented", "lesson-paused"]
    );
    assert_eq!(steps(&added, presented), [4]);
    let anew = folder.run_with(&next, "n\ny\n");
    anew.code(0)
        .says("Go on at unit 1 (present)?")
        .says("Lesson: ");
}

#[test]
fn a_window_that_gets_too_small_says_so_and_lines_go_on() {
    let folder = demo_shop();
    let terminal = Terminal::run("small", folder.path(), &lesson(WHAT, ""), (80, 24));
    terminal.shows("Memory aid");
    terminal.resize((40, 24));
    terminal.until("narrow lines", |screen| {
        screen.contains("page 1 of") && screen.lines().all(|line| line.len() <= 40)
    });
    terminal.resize((25, 10));
    terminal.shows("Too small");
    terminal.resize((80, 24));
    terminal.shows("Space more below");
    terminal.resize((25, 10));
    terminal.shows("Too small");
    terminal.press(&["Enter"]);
    terminal.resize((80, 24));
    terminal.shows("y: all; else the numbers of what was not]");
    assert_eq!(terminal.value("alternate_on"), "0");
    terminal.text("y");
    terminal.keys(&["Enter"]);
    terminal.shows("[y or n]");
    // The end of the input is a pause.
    terminal.keys(&["C-d"]);
    is_put_back(&terminal, 0);
    assert_eq!(
        events(folder.path()).last().unwrap().kind(),
        "lesson-paused"
    );
    // So small from the first: lines, and why.
    terminal.resize((25, 20));
    terminal.again(folder.path(), &lesson(WHAT, ""));
    terminal.until("the reason", |_| {
        one_line(&terminal.screen()).contains("asked in lines.")
    });
}

#[test]
fn signals_pause_and_put_the_terminal_back() {
    let folder = demo_shop();
    let exec = lesson(WHAT, "").split(';').next().unwrap().to_owned();
    let line = format!(
        "sh -c 'echo $$ > pid; exec {exec}'; echo ended $?; \
         stty -a | grep -o -- '-*icanon'; exec cat"
    );
    let terminal = Terminal::run("signals", folder.path(), &line, (80, 24));
    for (signal, code) in [("-TERM", 143), ("-HUP", 129), ("-INT", 130)] {
        terminal.shows("? help");
        let kill = Command::new("kill")
            .args([signal, folder.read("pid").trim()])
            .status();
        assert!(kill.unwrap().success());
        is_put_back(&terminal, code);
        terminal.again(folder.path(), &line);
    }
}

#[test]
fn colours_are_left_out_where_they_are_not_wanted() {
    let folder = demo_shop();
    for (before, more, is_colored) in [
        ("env -u NO_COLOR ", "", true),
        ("env NO_COLOR=1 ", "", false),
        ("env -u NO_COLOR ", "--color never", false),
        ("env NO_COLOR=1 ", "--color always", true),
    ] {
        let line = format!("{before}{}", lesson(WHAT, more));
        let terminal = Terminal::run("colours", folder.path(), &line, (80, 24));
        terminal.shows("? help");
        assert_eq!(
            terminal.painted().contains("\u{1b}[1m"),
            is_colored,
            "{line}"
        );
    }
}
