//! Two that write to the record at once are killed (SIGKILL) five hundred times at random moments:
//! what was acknowledged is never lost, no line is joined to another, every file can be read. And
//! where there is no room or no leave to write, nothing is half written and that is said.
//!
//! Most writers are this test program itself, started again as [`writer`]: it appends through the
//! same function as `faceside record` and starts in milliseconds. A few are the real program.
//! Acknowledged is what a writer said on standard output, which it does after the flush to disk.

#![cfg(unix)]
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::disallowed_methods,
    reason = "a test may fail, and looks at files itself"
)]

mod util;

use std::collections::BTreeSet;
use std::fs;
use std::io::{BufRead, BufReader, Write};
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::thread::JoinHandle;
use std::time::Duration;

use faceside::diag::Source;
use faceside::shoplog::{Event, Person, What, read};
use faceside::store::append_event;
use util::{Folder, here, program};

/// Rounds with two writers, each killed once.
const ROUNDS: u32 = 250;

/// Rounds that share one file: it is read at each line.
const ROUNDS_A_FILE: u32 = 25;

/// Where a writer appends; set only for [`writer`].
const FILE: &str = "FACESIDE_TEST_RECORD";

/// What a writer calls itself.
const NAME: &str = "FACESIDE_TEST_WRITER";

/// Fractions from nothing to one: a linear congruential generator with Knuth's multiplier (from
/// memory), its high bits taken.
struct Moments(u64);

impl Moments {
    fn next(&mut self) -> f64 {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 40) as f64 / (1_u64 << 24) as f64
    }
}

/// Not a test of its own: appends notes without end where it is started with a file to append to.
#[test]
fn writer() {
    let (Ok(file), Ok(name)) = (std::env::var(FILE), std::env::var(NAME)) else {
        return;
    };
    let mut out = std::io::stdout();
    for count in 0.. {
        let text = format!("{name}-{count}");
        let event = Event::Note {
            by: Person::new("BK").unwrap(),
            about: None,
            text: text.clone(),
        };
        append_event(Path::new(&file), "2026-11-25T09:10:00Z", &event).unwrap();
        writeln!(out, "Recorded {text}").unwrap();
        out.flush().unwrap();
    }
}

/// A writer, and what it has acknowledged so far.
struct Writer {
    child: Child,
    said: JoinHandle<Vec<String>>,
}

impl Writer {
    fn of(mut child: Child) -> Self {
        let output = BufReader::new(child.stdout.take().unwrap());
        let said = std::thread::spawn(move || {
            let lines = output.lines().map_while(Result::ok);
            // A last line that the kill cut short acknowledges nothing: it may not be whole.
            let said = lines.filter_map(|line| {
                let text = line.rsplit_once("Recorded ")?.1.to_owned();
                Some(text)
            });
            said.collect()
        });
        Self { child, said }
    }

    fn start(file: &Path, name: &str) -> Self {
        let child = Command::new(std::env::current_exe().unwrap())
            .args(["writer", "--exact", "--nocapture"])
            .env(FILE, file)
            .env(NAME, name)
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .unwrap();
        Self::of(child)
    }

    /// Kills it; what it acknowledged.
    fn kill(mut self) -> Vec<String> {
        self.child.kill().unwrap();
        self.child.wait().unwrap();
        self.said.join().unwrap()
    }
}

/// Texts of the notes of a record, and its faults.
fn notes(text: &str) -> (BTreeSet<String>, Vec<String>) {
    let (entries, faults) = read(&Source::new("record", text));
    let texts = entries.into_iter().map(|entry| match entry.what {
        What::Known(Event::Note { text, .. }) => text,
        other => panic!("{other:?}"),
    });
    (
        texts.collect(),
        faults.iter().map(|fault| fault.message.clone()).collect(),
    )
}

#[test]
fn of_two_writers_killed_five_hundred_times_no_acknowledged_line_is_lost() {
    let folder = Folder::empty();
    let mut moments = Moments(500);
    let (mut acknowledged, mut torn_by_hand, mut longest) = (0, 0, 0);
    let mut said = BTreeSet::new();
    for round in 0..ROUNDS {
        let file = folder
            .path()
            .join(format!("{}.jsonl", 2000 + round / ROUNDS_A_FILE));
        if round % ROUNDS_A_FILE == 0 {
            said.clear();
            torn_by_hand = 0;
        }
        let writers = ["a", "b"].map(|name| Writer::start(&file, &format!("{name}{round}")));
        for writer in writers {
            std::thread::sleep(
                Duration::from_millis(4) + Duration::from_millis(40).mul_f64(moments.next()),
            );
            let new = writer.kill();
            longest = longest.max(new.len());
            acknowledged += new.len();
            said.extend(new);
        }
        let text = fs::read_to_string(&file).unwrap_or_default();
        let (found, faults) = notes(&text);
        let lost: Vec<_> = said.difference(&found).collect();
        assert!(lost.is_empty(), "round {round}: lost {lost:?}");
        // Only what is torn is told: by the kill at the end, by hand anywhere.
        let ended = text.is_empty() || text.ends_with('\n');
        assert!(
            faults.len() <= torn_by_hand + usize::from(!ended),
            "round {round}: {faults:?}"
        );
        assert!(
            faults.len() >= torn_by_hand,
            "round {round}: a torn line was not told"
        );
        // A power cut: some beginning of a line at the end, in every fifth round.
        if round % 5 == 4 && ended && !text.is_empty() {
            let line = text.lines().last().unwrap();
            let part = 1 + ((line.len() - 2) as f64 * moments.next()) as usize;
            fs::write(&file, format!("{text}{}", &line[..part])).unwrap();
            torn_by_hand += 1;
        }
    }
    println!(
        "{} kills, {acknowledged} lines acknowledged, at most {longest} of one writer",
        2 * ROUNDS
    );
    assert!(
        acknowledged > 500,
        "{acknowledged} lines were acknowledged: the writers are too slow"
    );
}

/// A shop folder with the demo's machines and cutters.
fn shop() -> Folder {
    let names = ["shop.yaml", "machines.yaml", "cutters.yaml"];
    names.into_iter().fold(Folder::empty(), |folder, name| {
        let text = fs::read_to_string(here().join("procedures/shop").join(name)).unwrap();
        folder.file(name, text)
    })
}

fn record_text(folder: &Folder) -> String {
    let Ok(mut files) = fs::read_dir(folder.path().join("record")) else {
        return String::new();
    };
    files.next().map_or_else(String::new, |file| {
        fs::read_to_string(file.unwrap().path()).unwrap()
    })
}

/// Notes for `record --lines`.
fn input(name: &str, count: u32) -> String {
    let lines = (0..count).map(|number| {
        format!("{{\"record\": \"note\", \"by\": \"BK\", \"text\": \"{name}-{number}\"}}\n")
    });
    lines.collect()
}

/// The texts that `record --lines` acknowledged: `2026-7: note; a-0; by BK`.
fn texts(said: impl IntoIterator<Item = String>) -> BTreeSet<String> {
    let texts = said.into_iter().filter_map(|line| {
        let text = line.split("; ").nth(1)?.to_owned();
        line.ends_with("by BK").then_some(text)
    });
    texts.collect()
}

#[test]
fn the_program_itself_loses_no_acknowledged_line_when_two_of_it_are_killed() {
    let folder = shop();
    let mut moments = Moments(7);
    let mut said = BTreeSet::new();
    for round in 0..5 {
        let writers = ["a", "b"].map(|name| {
            let mut child = program()
                .args(["record", "--lines"])
                .current_dir(folder.path())
                .stdin(Stdio::piped())
                .stdout(Stdio::piped())
                .stderr(Stdio::null())
                .spawn()
                .unwrap();
            let mut stdin = child.stdin.take().unwrap();
            let lines = input(&format!("{name}{round}"), 400);
            // The kill closes the pipe; that is no fault.
            std::thread::spawn(move || stdin.write_all(lines.as_bytes()));
            Writer::of(child)
        });
        let before = record_text(&folder).len();
        let mut waits = 0;
        while record_text(&folder).len() == before && waits < 10_000 {
            std::thread::sleep(Duration::from_millis(2));
            waits += 1;
        }
        for writer in writers {
            std::thread::sleep(Duration::from_millis(60).mul_f64(moments.next()));
            said.extend(texts(writer.kill()));
        }
        let (found, faults) = notes(&record_text(&folder));
        assert!(faults.is_empty(), "round {round}: {faults:?}");
        let lost: Vec<_> = said.difference(&found).collect();
        assert!(lost.is_empty(), "round {round}: lost {lost:?}");
    }
    assert!(
        said.len() > 5,
        "only {} lines were acknowledged",
        said.len()
    );
}

#[test]
fn two_that_write_at_once_keep_all_their_lines() {
    let folder = shop();
    let children = ["a", "b"].map(|name| {
        let mut child = program()
            .args(["record", "--lines"])
            .current_dir(folder.path())
            .stdin(Stdio::piped())
            .stdout(Stdio::null())
            .spawn()
            .unwrap();
        let lines = input(name, 60);
        child
            .stdin
            .take()
            .unwrap()
            .write_all(lines.as_bytes())
            .unwrap();
        child
    });
    for mut child in children {
        assert!(child.wait().unwrap().success());
    }
    let (found, faults) = notes(&record_text(&folder));
    // A number given twice, or left out, would be told.
    assert_eq!((found.len(), faults), (120, Vec::new()));
}

/// A full disk, by the largest size of a file that the shell may set: the write is cut short and
/// then refused, as on a full disk, with another word for it.
#[test]
fn where_there_is_no_room_nothing_is_half_written_and_what_was_said_is_there() {
    let folder = shop();
    let program = env!("CARGO_BIN_EXE_faceside");
    // 8 blocks of 512 bytes (POSIX `ulimit -f`); the signal is ignored, so the write fails instead.
    let script = format!("trap '' XFSZ; ulimit -f 8; exec '{program}' record --lines");
    let mut child = Command::new("sh")
        .args(["-c", &script])
        .env_remove("FACESIDE_SHOP")
        .current_dir(folder.path())
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    let mut stdin = child.stdin.take().unwrap();
    let lines = input("a", 200);
    let feed = std::thread::spawn(move || stdin.write_all(lines.as_bytes()));
    let output = child.wait_with_output().unwrap();
    let _ = feed.join().unwrap();
    let (out, err) = (
        String::from_utf8_lossy(&output.stdout).into_owned(),
        String::from_utf8_lossy(&output.stderr).into_owned(),
    );
    assert_eq!(output.status.code(), Some(1), "{out}\n{err}");
    assert!(
        err.contains("cannot be written") && err.contains("the disk has room"),
        "{err}"
    );
    let said = texts(out.lines().map(str::to_owned));
    assert!(said.len() > 10, "{out}");
    let text = record_text(&folder);
    assert!(
        text.len() <= 4096 && text.ends_with('\n'),
        "{} bytes",
        text.len()
    );
    assert_eq!(notes(&text), (said.clone(), Vec::new()));
    // With room again it goes on where it was.
    folder
        .run(&["record", "note", "by=BK", "text=after"])
        .code(0);
    let (found, faults) = notes(&record_text(&folder));
    assert_eq!((found.len(), faults), (said.len() + 1, Vec::new()));
}

/// Rights are no obstacle for a root user; in `/proc` nobody can make a file.
#[cfg(target_os = "linux")]
#[test]
fn where_nothing_may_be_written_that_is_said_and_nothing_is() {
    let folder = shop();
    std::os::unix::fs::symlink("/proc", folder.path().join("record")).unwrap();
    let run = folder.run(&["record", "note", "by=BK", "text=x"]);
    run.code(1)
        .complains("cannot be written")
        .complains("you may write in it");
    assert!(!run.out().contains("Recorded") && !run.err().contains("panicked"));
}
