//! `check --watch`: the verdict comes anew when a file changes, whole or half written.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::disallowed_methods,
    reason = "a test may fail, and looks at files itself"
)]

mod util;

use std::fs;
use std::io::{BufRead, BufReader};
use std::process::{Child, Command, Stdio};
use std::sync::mpsc::{Receiver, channel};
use std::thread;
use std::time::{Duration, Instant};

use util::{Folder, program};

/// Longer than any verdict takes, on a busy machine too.
const PATIENCE: Duration = Duration::from_secs(60);

const PROCEDURE: &str = "procedures/first-procedure.yaml";

/// The program watching, and its lines as they come.
struct Watching {
    child: Child,
    lines: Receiver<String>,
}

impl Watching {
    fn begin(folder: &Folder, arguments: &[&str]) -> Self {
        Self::of(program(), folder, arguments)
    }

    fn of(mut program: Command, folder: &Folder, arguments: &[&str]) -> Self {
        let mut child = program
            .args(["check", "--watch"])
            .args(arguments)
            .current_dir(folder.path())
            .stdin(Stdio::null())
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .unwrap();
        let out = BufReader::new(child.stdout.take().unwrap());
        let (sender, lines) = channel();
        thread::spawn(move || {
            for line in out.lines().map_while(Result::ok) {
                if sender.send(line).is_err() {
                    break;
                }
            }
        });
        Self { child, lines }
    }

    #[track_caller]
    fn next(&self) -> String {
        self.lines.recv_timeout(PATIENCE).unwrap()
    }

    /// Waits for a verdict that ends so. A write in two pieces may bring one more before it.
    #[track_caller]
    fn comes(&self, end: &str) {
        while !self.next().ends_with(end) {}
    }

    /// Nothing comes for a while.
    #[track_caller]
    fn is_silent(&self) {
        let line = self.lines.recv_timeout(Duration::from_millis(1500));
        assert!(line.is_err(), "{line:?}");
    }
}

impl Drop for Watching {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

fn started() -> Folder {
    let folder = Folder::empty();
    folder.run(&["start"]).code(0);
    folder
}

fn is_time(line: &str) -> bool {
    let digits = |part: &str| part.len() == 2 && part.bytes().all(|one| one.is_ascii_digit());
    let time = line.split(' ').next().unwrap_or_default();
    time.split(':').count() == 3 && time.split(':').all(digits)
}

#[test]
fn each_change_gets_its_verdict_with_the_time() {
    let folder = started();
    let watching = Watching::begin(&folder, &[]);
    let first = watching.next();
    assert!(is_time(&first) && first.ends_with("in order"), "{first}");
    let whole = folder.read(PROCEDURE);
    let path = folder.path().join(PROCEDURE);

    // Half of the file, as an editor leaves it for a moment; cut within a quoted text.
    let half = whole.find("Measure a third time").unwrap();
    fs::write(&path, &whole[..half]).unwrap();
    watching.comes("errors above");

    // Another file under its name, as most editors save.
    let beside = folder.path().join("procedures/.first-procedure.yaml.new");
    fs::write(&beside, &whole).unwrap();
    fs::rename(&beside, &path).unwrap();
    watching.comes("in order");

    // A folder that was not there when the watch began.
    fs::create_dir(folder.path().join("notes")).unwrap();
    watching.comes("in order");
    fs::write(folder.path().join("notes/varnish.md"), "# Varnish\n").unwrap();
    watching.comes("errors above");
}

#[test]
fn what_is_not_read_wakes_nobody() {
    let folder = started();
    let watching = Watching::begin(&folder, &[]);
    watching.next();
    fs::create_dir(folder.path().join("out")).unwrap();
    fs::write(folder.path().join("out/page.html"), "pages").unwrap();
    fs::write(folder.path().join("plan.txt"), "a plan").unwrap();
    fs::write(folder.path().join("jobs/.first-job.yaml.swp"), "draft").unwrap();
    folder.run(&["search", "groove"]).code(0);
    watching.is_silent();
}

#[test]
fn a_file_that_is_named_is_watched_and_json_comes_a_line_each_time() {
    let folder = started();
    let watching = Watching::begin(&folder, &[PROCEDURE, "--json"]);
    let verdict = |line: String| -> serde_json::Value { serde_json::from_str(&line).unwrap() };
    let first = verdict(watching.next());
    assert_eq!(first["faults"], serde_json::json!([]));
    assert!(is_time(first["time"].as_str().unwrap()));
    let wrong = folder.read(PROCEDURE).replace("title:", "titel:");
    fs::write(folder.path().join(PROCEDURE), wrong).unwrap();
    let second = verdict(watching.next());
    assert_eq!(second["faults"][0]["code"], "unknown-key");
}

#[test]
fn without_a_shop_there_is_nothing_to_watch() {
    let run = Folder::empty().run(&["check", "--watch"]);
    run.code(2).complains("the built-in library never changes");
    let run = Folder::empty().run(&["check", "--watch", "nowhere.yaml"]);
    run.code(1).complains("nowhere.yaml` cannot be watched");
}

/// A script that runs the tests may leave the interrupt ignored, and what it starts inherits that;
/// what a terminal starts does not. So it is set back first.
#[cfg(target_os = "linux")]
#[test]
fn the_interrupt_of_ctrl_c_ends_it() {
    let folder = started();
    let own = program();
    let mut at_a_terminal = Command::new("env");
    at_a_terminal
        .arg("--default-signal=INT")
        .arg(own.get_program())
        .env_remove("FACESIDE_SHOP");
    let mut watching = Watching::of(at_a_terminal, &folder, &[]);
    watching.next();
    let id = watching.child.id().to_string();
    let status = Command::new("kill").args(["-INT", &id]).status();
    assert!(status.unwrap().success());
    let started = Instant::now();
    let ended = loop {
        match watching.child.try_wait().unwrap() {
            Some(ended) => break ended,
            None => assert!(started.elapsed() < PATIENCE, "it goes on"),
        }
        thread::sleep(Duration::from_millis(20));
    };
    assert!(!ended.success(), "ended by the signal: {ended}");
}
