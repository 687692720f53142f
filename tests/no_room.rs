//! A disk without room, and a folder that nobody may write in: what `train` and `fit` cannot write
//! down is told, what was said to be written down is there, and the answer of `fit` is not lost.
//! `record` itself: `tests/killed_record.rs`.

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
use std::io::Write;
use std::process::{Command, Output, Stdio};

use faceside::diag::Source;
use faceside::shoplog::{Event, What, read};
use serde_json::Value as Json;
use util::{Folder, demo_shop};

/// Most bytes of a file: 8 blocks of 512 bytes (POSIX `ulimit -f`).
const ROOM: usize = 8 * 512;

/// Runs the program where no file grows beyond [`ROOM`]; the signal is ignored, so that the write
/// fails as on a full disk, with another word for it.
fn cramped(folder: &Folder, arguments: &[&str], input: &str) -> Output {
    let mut child = Command::new("sh")
        .args(["-c", "trap '' XFSZ; ulimit -f 8; exec \"$0\" \"$@\""])
        .arg(env!("CARGO_BIN_EXE_faceside"))
        .args(arguments)
        .env_remove("FACESIDE_SHOP")
        .current_dir(folder.path())
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    let mut stdin = child.stdin.take().unwrap();
    let input = input.to_owned();
    let feed = std::thread::spawn(move || stdin.write_all(input.as_bytes()));
    let output = child.wait_with_output().unwrap();
    // A program that ends early closes its end.
    let _ = feed.join().unwrap();
    output
}

#[track_caller]
fn refused(output: &Output) -> (String, String) {
    let text = |bytes: &[u8]| String::from_utf8_lossy(bytes).into_owned();
    let (out, err) = (text(&output.stdout), text(&output.stderr));
    assert_eq!(output.status.code(), Some(1), "{out}\n{err}");
    assert!(
        err.contains("cannot be written") && err.contains("the disk has room"),
        "{err}"
    );
    assert!(
        !out.contains("Recorded") && !err.contains("panicked"),
        "{out}\n{err}"
    );
    (out, err)
}

/// Fills the record with notes; gives how many were said to be written down.
fn notes(folder: &Folder, count: usize) -> usize {
    let note = "{\"record\": \"note\", \"by\": \"BK\", \"text\": \"the fence creeps\"}\n";
    let output = cramped(folder, &["record", "--lines"], &note.repeat(count));
    String::from_utf8_lossy(&output.stdout)
        .matches("Recorded")
        .count()
}

/// The record's bytes and events; every line of it is whole.
#[track_caller]
fn record(folder: &Folder) -> (Vec<u8>, Vec<Event>) {
    let files = fs::read_dir(folder.path().join("record")).unwrap();
    let files: Vec<_> = files.map(|file| file.unwrap().path()).collect();
    let [file] = &files[..] else {
        panic!("{files:?}");
    };
    let bytes = fs::read(file).unwrap();
    assert!(
        bytes.len() <= ROOM && bytes.ends_with(b"\n"),
        "{} bytes",
        bytes.len()
    );
    let text = String::from_utf8(bytes.clone()).unwrap();
    let (entries, faults) = read(&Source::new("record", text));
    assert!(faults.is_empty(), "{faults:?}");
    let events = entries.into_iter().map(|entry| match entry.what {
        What::Known(event) => event,
        What::Unknown { text, .. } => panic!("{text}"),
    });
    (bytes, events.collect())
}

const TRAIN: [&str; 6] = ["train", "through-housing", "--person", "A07", "--by", "I02"];

const FIT: [&str; 12] = [
    "fit",
    "through-housing",
    "shelf=11.7",
    "side=18.3",
    "side_width=320",
    "side_length=1100",
    "from_end=80",
    "inside_width=620",
    "cutter=straight-8",
    "check=4",
    "value=11.65",
    "by=BK",
];

#[test]
fn a_lesson_that_finds_no_room_ends_and_what_it_went_through_is_there() {
    let folder = demo_shop();
    let before = notes(&folder, 12);
    assert_eq!(before, 12);
    let (_, err) = refused(&cramped(&folder, &TRAIN, &"y\n\n".repeat(400)));
    assert!(err.contains("the same command goes on there"), "{err}");
    let (_, events) = record(&folder);
    let lesson: Vec<&str> = events[before..].iter().map(Event::kind).collect();
    assert!(
        lesson.len() > 1 && lesson[0] == "lesson-started",
        "{lesson:?}"
    );
    // With room again it goes on there.
    let run = folder.run_with(&TRAIN, "y\n");
    run.code(0).says("Recorded in");
}

#[test]
fn the_answer_of_fit_is_not_lost_where_the_test_cut_cannot_be_written_down() {
    let folder = demo_shop();
    let before = notes(&folder, 100);
    assert!((10..100).contains(&before), "{before}");
    let (bytes, _) = record(&folder);
    let (out, _) = refused(&cramped(&folder, &FIT, ""));
    assert!(out.contains("larger by 0.10 mm"), "{out}");
    let (out, _) = refused(&cramped(&folder, &[&FIT[..], &["--json"]].concat(), ""));
    let json: Json = serde_json::from_str(&out).unwrap();
    assert_eq!(
        (&json["by_mm"], &json["recorded"]),
        (&0.1.into(), &Json::Null)
    );
    assert_eq!(record(&folder).0, bytes);
    // With room again it is written down.
    folder.run(&FIT).code(0).says("Recorded 20");
}

/// Rights are no obstacle for a root user; in `/proc` nobody can make a file.
#[cfg(target_os = "linux")]
#[test]
fn where_nothing_may_be_written_a_lesson_does_not_begin_and_fit_answers() {
    let folder = demo_shop();
    std::os::unix::fs::symlink("/proc", folder.path().join("record")).unwrap();
    let lesson = folder.run_with(&TRAIN, "y\n".repeat(50));
    lesson
        .code(1)
        .complains("cannot be written")
        .complains("you may write in it");
    assert_eq!(lesson.out(), "", "nothing is taught that is not recorded");
    let fit = folder.run(&FIT);
    fit.code(1)
        .says("larger by 0.10 mm")
        .complains("cannot be written");
    assert!(!fit.out().contains("Recorded"));
}
