//! Killed at any moment, `print`, `site` and `train` leave the whole old or the whole new, and no
//! acknowledged line of the record is lost.
//!
//! The real program is killed (SIGKILL) at random moments, most of them while it replaces the
//! folder; what a kill may leave of one is told at the head of `src/store/folder.rs`.

#![cfg(unix)]
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::disallowed_methods,
    reason = "a test may fail, and looks at files itself"
)]

mod util;

use std::collections::BTreeMap;
use std::fs;
use std::io::{Read, Write};
use std::os::unix::fs::MetadataExt;
use std::path::{Path, PathBuf};
use std::process::Stdio;
use std::time::{Duration, Instant};

use faceside::diag::Source;
use faceside::shoplog::{Event, Person, Taught};
use faceside::store::append_event;

use util::killing::{Moments, PATIENCE, built, nothing_left, rename, start, until, wait_for};
use util::{Folder, demo_shop};

const KILLS: u32 = 25;

/// Builds the old state, then kills builds of the new one, and checks after each kill.
fn old_or_new(command: &[&str], out: &str, change: impl Fn(&Folder, bool)) {
    let folder = demo_shop();
    let at = folder.path().join(out);
    let identity = |path: &Path| fs::metadata(path).ok().map(|found| found.ino());
    let beside = |ending: &str| folder.path().join(format!("{out}.{ending}"));
    let build_old = || {
        change(&folder, true);
        folder.run(command).code(0);
        built(&at)
    };
    let old = build_old();
    change(&folder, false);
    let begun = Instant::now();
    let mut child = start(&folder, command, Stdio::null());
    wait_for(&beside("part"), &mut child);
    let replacing = Instant::now();
    assert!(child.wait().unwrap().success());
    let (whole_run, replacing) = (begun.elapsed(), replacing.elapsed());
    let new = built(&at);
    assert_ne!(old, new, "the two states must differ");
    assert_eq!(build_old(), old, "built twice from the same files");
    let mut moments = Moments(u64::from(KILLS));
    let (mut kept, mut cut_short) = (0, 0);
    for kill in 0..KILLS {
        change(&folder, false);
        let mut child = start(&folder, command, Stdio::null());
        match kill % 3 {
            0 => std::thread::sleep(whole_run.mul_f64(moments.next())),
            1 => {
                wait_for(&beside("part"), &mut child);
                // The last fifth holds the renames.
                std::thread::sleep(replacing.mul_f64(0.8 + 0.2 * moments.next()));
            }
            _ => {
                let before = identity(&at);
                until(&mut child, || identity(&at) != before);
                std::thread::sleep(Duration::from_millis(1).mul_f64(moments.next()));
            }
        }
        child.kill().unwrap();
        child.wait().unwrap();
        cut_short += u32::from(beside("part").exists() || beside("old").exists());
        // Where two folders cannot be exchanged in one step, the old one stands whole beside its
        // place for a moment.
        let in_place = at.is_dir();
        let found = built(&if in_place { at.clone() } else { beside("old") });
        assert!(
            found == old || in_place && found == new,
            "kill {kill}: neither old nor new"
        );
        kept += u32::from(found == old);
        if found == new || !in_place {
            assert_eq!(build_old(), old, "kill {kill}: mended by the next run");
        }
    }
    change(&folder, false);
    folder.run(command).code(0);
    assert_eq!(built(&at), new, "the next run mends what a kill left");
    nothing_left(folder.path());
    assert!(0 < kept && kept < KILLS, "{kept} kills left the old one");
    assert!(cut_short > 0, "no kill came while the folder was replaced");
}

#[test]
fn a_killed_print_leaves_old_or_new_sheets() {
    old_or_new(&["print", "--out", "sheets"], "sheets", |folder, is_old| {
        let file = "jobs/boathouse-lockers.yaml";
        rename(
            folder,
            file,
            "title: Lockers",
            "title: More lockers",
            is_old,
        );
    });
}

#[test]
fn a_killed_site_leaves_old_or_new_pages() {
    old_or_new(&["site", "--out", "pages"], "pages", |folder, is_old| {
        rename(
            folder,
            "shop.yaml",
            "Boathouse workshop",
            "Slipway workshop",
            is_old,
        );
    });
}

const TRAIN: [&str; 6] = ["train", "through-housing", "--person", "A07", "--by", "I02"];
const OTHER: [&str; 6] = ["train", "through-housing", "--person", "B11", "--by", "I02"];

/// The one file of the record, if it is there.
fn record_file(folder: &Folder) -> Option<PathBuf> {
    let mut files = fs::read_dir(folder.path().join("record")).ok()?;
    files.next().map(|file| file.unwrap().path())
}

/// The record as it is on the disk; empty when there is none.
fn record_text(folder: &Folder) -> String {
    let bytes = record_file(folder).map_or_else(Vec::new, |path| fs::read(path).unwrap());
    String::from_utf8_lossy(&bytes).into_owned()
}

/// Lines of a record that are whole, told by their check sums through the program's own reader,
/// and what it warns of.
fn record(text: &str) -> (usize, Vec<String>) {
    let (entries, faults) = faceside::shoplog::read(&Source::new("record", text));
    let faults = faults.iter().map(|fault| fault.message.clone());
    (entries.len(), faults.collect())
}

/// A lesson that was led to its end, one answer at a time.
struct Led {
    /// All answers, a line each.
    answers: String,
    /// All that was printed.
    printed: Vec<u8>,
    /// At each prompt: bytes printed until there, lines on the disk.
    prompts: Vec<(usize, usize)>,
}

impl Led {
    /// Says yes, takes the first answer, and goes on by Enter where that may be.
    fn lead(folder: &Folder, lesson: &[&str]) -> Self {
        let mut child = start(folder, lesson, Stdio::piped());
        let mut input = child.stdin.take().unwrap();
        let mut output = child.stdout.take().unwrap();
        let mut led = Self {
            answers: String::new(),
            printed: Vec::new(),
            prompts: Vec::new(),
        };
        let mut bytes = [0; 65_536];
        loop {
            let read = output.read(&mut bytes).unwrap();
            if read == 0 {
                break;
            }
            led.printed.extend_from_slice(&bytes[..read]);
            // Only a prompt ends in a blank; all else ends its line.
            if led.printed.ends_with(b"] ") {
                let lines = record(&record_text(folder)).0;
                led.prompts.push((led.printed.len(), lines));
                let last = led.printed.rsplit(|byte| *byte == b'\n').next().unwrap();
                let last = String::from_utf8_lossy(last);
                let answer = match (last.contains("Enter"), last.contains("[number of")) {
                    (true, _) => "\n",
                    (false, true) => "1\n",
                    (false, false) => "y\n",
                };
                led.answers.push_str(answer);
                input.write_all(answer.as_bytes()).unwrap();
            }
        }
        assert!(child.wait().unwrap().success());
        let lines = record(&record_text(folder)).0;
        led.prompts.push((led.printed.len(), lines));
        led
    }

    /// Lines that must be on the disk once so many bytes were printed: a turn is shown after its
    /// events are written, so the first byte after a prompt acknowledges those of the next turn.
    fn acknowledged(&self, printed: usize) -> usize {
        let begun = std::iter::once(0).chain(self.prompts.iter().map(|(bytes, _)| *bytes));
        let turns = begun.zip(&self.prompts);
        let seen = turns.take_while(|(from, _)| printed > *from);
        seen.map(|(_, (_, lines))| *lines).last().unwrap_or(0)
    }
}

#[test]
fn a_killed_lesson_loses_no_line_that_was_acknowledged() {
    let folder = demo_shop();
    let led = Led::lead(&folder, &TRAIN);
    let all = led.prompts.last().unwrap().1;
    assert!(all > 200 && led.prompts.len() > 200, "a whole lesson");
    let clear = || fs::remove_dir_all(folder.path().join("record")).unwrap();
    clear();
    let begun = Instant::now();
    folder.run_with(&TRAIN, &led.answers).code(0);
    let whole_run = begun.elapsed();
    assert_eq!(record(&record_text(&folder)), (all, Vec::new()));
    let mut moments = Moments(1);
    let (mut between, mut torn) = (0, 0);
    for kill in 0..KILLS {
        clear();
        let mut child = start(&folder, &TRAIN, Stdio::piped());
        let mut input = child.stdin.take().unwrap();
        input.write_all(led.answers.as_bytes()).unwrap();
        let mut output = child.stdout.take().unwrap();
        let reader = std::thread::spawn(move || {
            let mut printed = Vec::new();
            output.read_to_end(&mut printed).map(|_| printed)
        });
        std::thread::sleep(whole_run.mul_f64(moments.next()));
        child.kill().unwrap();
        child.wait().unwrap();
        let printed = reader.join().unwrap().unwrap();
        assert!(
            led.printed.starts_with(&printed),
            "kill {kill}: other words"
        );
        let acknowledged = led.acknowledged(printed.len());
        let text = record_text(&folder);
        let (whole, faults) = record(&text);
        assert!(
            whole >= acknowledged,
            "kill {kill}: {whole} lines of {acknowledged} that were acknowledged"
        );
        // Every line can be read but a last one that was cut while it was written.
        let is_torn = !text.is_empty() && !text.ends_with('\n');
        assert!(
            faults.len() <= usize::from(is_torn),
            "kill {kill}: {faults:?}"
        );
        between += u32::from(whole > 0 && whole < all);
        torn += faults.len();
        // Begun anew: `n` answers whether to go on, where there is anything to go on with.
        let next = folder.run_with(&TRAIN, "n\n");
        next.code(0);
        assert_eq!(
            next.err().contains("torn"),
            !faults.is_empty(),
            "kill {kill}"
        );
        // The next lesson adds its start and its pause.
        assert_eq!(record(&record_text(&folder)).0, whole + 2, "kill {kill}");
    }
    println!("{KILLS} kills, {between} within the lesson, {torn} torn lines");
    assert!(between > 0, "no kill came within the lesson");
}

#[test]
fn two_lessons_at_once_keep_all_their_lines() {
    let folder = demo_shop();
    let clear = || fs::remove_dir_all(folder.path().join("record")).unwrap();
    // Alone: each has its own questions, and may have one more or less than the other.
    let alone = [TRAIN, OTHER].map(|lesson| {
        let led = Led::lead(&folder, &lesson);
        let text = record_text(&folder);
        clear();
        (led.answers, text)
    });
    let mut children = [TRAIN, OTHER].map(|lesson| start(&folder, &lesson, Stdio::null()));
    for (child, (answers, _)) in children.iter_mut().zip(&alone) {
        let mut input = child.stdin.take().unwrap();
        input.write_all(answers.as_bytes()).unwrap();
    }
    let begun = Instant::now();
    for child in &mut children {
        while child.try_wait().unwrap().is_none() {
            assert!(begun.elapsed() < PATIENCE, "the two wait for each other");
            std::thread::sleep(Duration::from_millis(5));
        }
        assert!(child.wait().unwrap().success());
    }
    let text = record_text(&folder);
    // No line is torn, and a jump in the numbers would be a fault too.
    let lines = alone.each_ref().map(|(_, text)| record(text).0);
    assert_eq!(record(&text), (lines.iter().sum(), Vec::new()));
    for (learner, (_, alone)) in ["A07", "B11"].iter().zip(&alone) {
        let words = format!("\"learner\":\"{learner}\"");
        let of_one = |text: &str| text.lines().filter(|line| line.contains(&words)).count();
        assert_eq!(of_one(&text), of_one(alone), "{learner}");
    }
}

/// A power cut may leave any beginning of the last line: all lines before it stay, the next one
/// is not joined to it.
#[test]
fn a_last_line_torn_at_any_byte_harms_no_other() {
    let folder = Folder::empty();
    let path = folder.path().join("2026.jsonl");
    let person = |id: &str| Person::new(id).unwrap();
    let event = Event::LessonStarted {
        lesson: Taught {
            learner: person("A07"),
            instructor: person("I02"),
            procedure: "through-housing".to_owned(),
            revision: 1,
        },
        from: 1,
        values: BTreeMap::from([("shelf".to_owned(), "17.6 mm".to_owned())]),
    };
    let append = || append_event(&path, "2026-11-25T09:10:00Z", &event).unwrap();
    append();
    append();
    let text = fs::read_to_string(&path).unwrap();
    let first = text.find('\n').unwrap() + 1;
    for cut in first..text.len() {
        fs::write(&path, &text[..cut]).unwrap();
        append();
        let after = fs::read_to_string(&path).unwrap();
        assert!(
            after.starts_with(&text[..cut]),
            "cut at {cut}: written over"
        );
        // The second line is whole only when nothing but its line feed is missing.
        let lines = if cut == text.len() - 1 { 3 } else { 2 };
        assert_eq!(record(&after).0, lines, "cut at {cut}");
    }
}

#[test]
fn a_torn_last_line_is_set_aside_and_told() {
    let folder = demo_shop();
    folder.run_with(&TRAIN, "y\n").code(0);
    let before = record(&record_text(&folder)).0;
    let text = format!("{}{{\"v\":1,\"n\":9,\"at\":\"2026-", record_text(&folder));
    fs::write(record_file(&folder).unwrap(), text).unwrap();
    let run = folder.run_with(&TRAIN, "n\ny\n");
    run.code(0).complains("record-line").complains("torn");
    // The same lesson again writes as many lines again.
    assert_eq!(record(&record_text(&folder)).0, 2 * before);
}

/// Rights are no obstacle for a root user, so something else stands in the place.
#[test]
fn a_record_that_cannot_be_written_is_a_clear_error() {
    let no_folder = demo_shop().file("record", "a file in the place of the folder");
    let no_file = demo_shop();
    no_file.run_with(&TRAIN, "").code(0);
    let file = record_file(&no_file).unwrap();
    fs::remove_file(&file).unwrap();
    fs::create_dir(&file).unwrap();
    for folder in [no_folder, no_file] {
        let run = folder.run_with(&TRAIN, "y\n");
        run.code(1).complains("record").complains("file-unreadable");
        assert!(!run.err().contains("panicked"), "{}", run.err());
    }
}
