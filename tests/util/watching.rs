//! The program while it watches: its lines as they come, and its end by an interrupt.

use std::io::{BufRead, BufReader, Read};
use std::process::{Child, Command, ExitStatus, Stdio};
use std::sync::mpsc::{Receiver, channel};
use std::thread;
use std::time::{Duration, Instant};

use super::{Folder, program};

/// Longer than any verdict takes, on a busy machine too.
pub(crate) const PATIENCE: Duration = Duration::from_secs(60);

/// The program watching, and its lines as they come.
pub(crate) struct Watching {
    child: Child,
    lines: Receiver<String>,
    faults: Receiver<String>,
}

impl Watching {
    /// Begins with these arguments, in a folder.
    pub(crate) fn begin(folder: &Folder, arguments: &[&str]) -> Self {
        Self::of(program(), folder, arguments)
    }

    /// The same, with the interrupt as a terminal leaves it: a script that runs the tests may leave
    /// it ignored, and what it starts inherits that. So it is set back first.
    pub(crate) fn at_a_terminal(folder: &Folder, arguments: &[&str]) -> Self {
        let own = program();
        let mut at_a_terminal = Command::new("env");
        at_a_terminal
            .arg("--default-signal=INT")
            .arg(own.get_program())
            .env_remove("FACESIDE_SHOP");
        Self::of(at_a_terminal, folder, arguments)
    }

    fn of(mut program: Command, folder: &Folder, arguments: &[&str]) -> Self {
        let mut child = program
            .args(arguments)
            .current_dir(folder.path())
            .stdin(Stdio::null())
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .unwrap();
        let lines = lines_of(child.stdout.take().unwrap());
        let faults = lines_of(child.stderr.take().unwrap());
        Self {
            child,
            lines,
            faults,
        }
    }

    /// The next line.
    #[track_caller]
    pub(crate) fn next(&self) -> String {
        self.lines.recv_timeout(PATIENCE).unwrap()
    }

    /// Waits for a verdict that ends so. A write in two pieces may bring one more before it.
    #[track_caller]
    pub(crate) fn comes(&self, end: &str) {
        while !self.next().ends_with(end) {}
    }

    /// Waits for a line among the faults that holds this.
    #[track_caller]
    pub(crate) fn complains(&self, words: &str) {
        while !self.faults.recv_timeout(PATIENCE).unwrap().contains(words) {}
    }

    /// Nothing comes for a while.
    #[track_caller]
    pub(crate) fn is_silent(&self) {
        let line = self.lines.recv_timeout(Duration::from_millis(1500));
        assert!(line.is_err(), "{line:?}");
    }

    /// Sends the interrupt of Ctrl-C and waits for the end.
    #[track_caller]
    pub(crate) fn interrupt(&mut self) -> ExitStatus {
        let id = self.child.id().to_string();
        let status = Command::new("kill").args(["-INT", &id]).status();
        assert!(status.unwrap().success());
        let started = Instant::now();
        loop {
            match self.child.try_wait().unwrap() {
                Some(ended) => break ended,
                None => assert!(started.elapsed() < PATIENCE, "it goes on"),
            }
            thread::sleep(Duration::from_millis(20));
        }
    }
}

/// The lines of a pipe; it is read to its end, so that the program never waits for a reader.
fn lines_of(pipe: impl Read + Send + 'static) -> Receiver<String> {
    let (sender, lines) = channel();
    thread::spawn(move || {
        for line in BufReader::new(pipe).lines().map_while(Result::ok) {
            let _ = sender.send(line);
        }
    });
    lines
}

impl Drop for Watching {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

/// A new shop as `start` makes it.
#[track_caller]
pub(crate) fn started() -> Folder {
    let folder = Folder::empty();
    folder.run(&["start"]).code(0);
    folder
}

/// Whether a line begins with the time of day.
pub(crate) fn is_time(line: &str) -> bool {
    let digits = |part: &str| part.len() == 2 && part.bytes().all(|one| one.is_ascii_digit());
    let time = line.split(' ').next().unwrap_or_default();
    time.split(':').count() == 3 && time.split(':').all(digits)
}
