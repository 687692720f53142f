//! Killed at any moment, `print`, `site` and `train` leave the whole old or the whole new, and no
//! acknowledged line of the record is lost.
//!
//! The real program is killed (SIGKILL) after times spread over its run; what a kill may leave of
//! a built folder is told at the head of `src/store/folder.rs`.

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
use std::io::Write;
use std::path::Path;
use std::process::{Child, Stdio};
use std::time::{Duration, Instant};

use util::{Folder, here, program};

const KILLS: u32 = 15;

/// A shop folder with the demo's files.
fn shop() -> Folder {
    let mut folder = Folder::empty();
    for name in [
        "shop.yaml",
        "machines.yaml",
        "cutters.yaml",
        "jobs/boathouse-lockers.yaml",
    ] {
        let text = fs::read_to_string(here().join("procedures/shop").join(name)).unwrap();
        folder = folder.file(name, text);
    }
    folder
}

fn start(folder: &Folder, arguments: &[&str]) -> Child {
    program()
        .args(arguments)
        .current_dir(folder.path())
        .stdin(Stdio::piped())
        .stdout(Stdio::null())
        .stderr(Stdio::null())
        .spawn()
        .unwrap()
}

/// Names and texts of a built folder, without the marker of its maker.
fn built(path: &Path) -> BTreeMap<String, Vec<u8>> {
    let mut files = BTreeMap::new();
    let mut folders = vec![path.to_owned()];
    while let Some(folder) = folders.pop() {
        for entry in fs::read_dir(folder).unwrap() {
            let path_in = entry.unwrap().path();
            if path_in.is_dir() {
                folders.push(path_in);
            } else {
                let name = path_in.strip_prefix(path).unwrap().display().to_string();
                files.insert(name, fs::read(&path_in).unwrap());
            }
        }
    }
    files
}

/// Builds with the title A, then kills builds with the title B, and checks after each kill.
fn old_or_new(command: &[&str], out: &str, change: impl Fn(&Folder, bool)) {
    let folder = shop();
    change(&folder, true);
    folder.run(command).code(0);
    let old = built(&folder.path().join(out));
    change(&folder, false);
    let begun = Instant::now();
    folder.run(command).code(0);
    let whole_run = begun.elapsed();
    let new = built(&folder.path().join(out));
    assert_ne!(old, new, "the two states must differ");
    let mut states = [0, 0];
    for kill in 0..KILLS {
        change(&folder, true);
        folder.run(command).code(0);
        assert_eq!(built(&folder.path().join(out)), old);
        change(&folder, false);
        let mut child = start(&folder, command);
        std::thread::sleep(whole_run * (kill + 1) / KILLS);
        child.kill().unwrap();
        child.wait().unwrap();
        let at = folder.path().join(out);
        // In the gap between two renames the old folder stands whole beside its place.
        let aside = folder.path().join(format!("{out}.old"));
        let found = built(if at.is_dir() { &at } else { &aside });
        assert!(
            found == old || found == new,
            "kill {kill}: neither old nor new"
        );
        states[usize::from(found == new)] += 1;
    }
    folder.run(command).code(0);
    assert_eq!(
        built(&folder.path().join(out)),
        new,
        "the next run mends what a kill left"
    );
    assert!(states[0] > 0, "every kill came too late: {states:?}");
}

fn rename(folder: &Folder, file: &str, old: &str, new: &str, is_old: bool) {
    let path = folder.path().join(file);
    let text = fs::read_to_string(&path).unwrap();
    let (from, to) = if is_old { (new, old) } else { (old, new) };
    fs::write(path, text.replace(from, to)).unwrap();
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

/// Lines of the record that are whole, told by their check sums through the program's own reader.
fn record(folder: &Folder) -> (usize, usize) {
    use faceside::diag::Source;
    let mut counts = (0, 0);
    let Ok(files) = fs::read_dir(folder.path().join("record")) else {
        return counts;
    };
    for file in files {
        let text = String::from_utf8_lossy(&fs::read(file.unwrap().path()).unwrap()).into_owned();
        let (entries, faults) = faceside::shoplog::read(&Source::new("record", text));
        counts = (counts.0 + entries.len(), counts.1 + faults.len());
    }
    counts
}

#[test]
fn a_killed_lesson_loses_no_line_that_was_acknowledged() {
    use std::io::{BufRead, BufReader};
    let folder = shop();
    let mut least = 0;
    for kill in 0..KILLS {
        let mut child = program()
            .args(TRAIN)
            .current_dir(folder.path())
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .unwrap();
        let mut input = child.stdin.take().unwrap();
        let mut output = BufReader::new(child.stdout.take().unwrap());
        // A heading of the lesson is printed after its events are on the disk: the start before
        // the first, the preparation before the presentation.
        for _ in 0..kill % 9 {
            writeln!(input, "y").unwrap();
        }
        input.flush().unwrap();
        let wanted = if kill % 9 >= 7 {
            "== Present"
        } else {
            "== Lesson"
        };
        let mut line = String::new();
        while !line.contains(wanted) {
            line.clear();
            assert!(
                output.read_line(&mut line).unwrap() > 0,
                "the lesson ended early"
            );
        }
        least += if wanted == "== Present" { 2 } else { 1 };
        child.kill().unwrap();
        child.wait().unwrap();
        let (whole, faults) = record(&folder);
        assert!(whole >= least, "kill {kill}: {whole} of {least} lines");
        assert_eq!(faults, 0, "kill {kill}");
        least = whole;
    }
}

#[test]
fn two_lessons_at_once_keep_all_their_lines() {
    let folder = shop();
    let mut children: Vec<Child> = (0..2).map(|_| start(&folder, &TRAIN)).collect();
    for child in &mut children {
        let mut input = child.stdin.take().unwrap();
        input.write_all("y\n".repeat(7).as_bytes()).unwrap();
    }
    let begun = Instant::now();
    for child in &mut children {
        assert!(child.wait().unwrap().success());
    }
    assert!(begun.elapsed() < Duration::from_secs(30));
    // Each lesson: started, prepared, paused at the end of its input.
    assert_eq!(record(&folder), (6, 0));
}

#[test]
fn a_torn_last_line_is_set_aside_and_told() {
    let folder = shop();
    folder.run_with(&TRAIN, "y\n").code(0);
    let (before, _) = record(&folder);
    let file = fs::read_dir(folder.path().join("record"))
        .unwrap()
        .next()
        .unwrap()
        .unwrap()
        .path();
    let mut text = fs::read_to_string(&file).unwrap();
    text.push_str("{\"v\":1,\"n\":9,\"at\":\"2026-");
    fs::write(&file, text).unwrap();
    let run = folder.run_with(&TRAIN, "y\n");
    run.code(0).complains("record-line");
    assert!(record(&folder).0 > before);
}

#[test]
fn a_record_that_cannot_be_written_is_a_clear_error() {
    let folder = shop().file("record", "a file in the place of the folder");
    folder.run_with(&TRAIN, "y\n").code(1).complains("record");
}
