//! A real terminal for tests: the program in a pane of tmux, keys sent, the screen read back.

use std::cell::RefCell;
use std::path::Path;
use std::process::{Command, Output};
use std::sync::atomic::{AtomicU32, Ordering};
use std::time::{Duration, Instant};

/// Longest time that a screen is waited for.
const PATIENCE: Duration = Duration::from_secs(30);

/// A server of tmux with one pane; ended with the test.
pub(crate) struct Terminal {
    name: String,
    /// The screen that was waited for last.
    last: RefCell<String>,
}

impl Terminal {
    /// Runs a line of the shell in a folder, in a pane of that size; the pane stays when it ends.
    #[track_caller]
    pub(crate) fn run(name: &str, folder: &Path, line: &str, (columns, rows): (u32, u32)) -> Self {
        static COUNT: AtomicU32 = AtomicU32::new(0);
        let count = COUNT.fetch_add(1, Ordering::SeqCst);
        let name = format!("faceside-{name}-{}-{count}", std::process::id());
        let last = RefCell::default();
        let terminal = Self { name, last };
        let (columns, rows) = (columns.to_string(), rows.to_string());
        let new = [
            "-u",
            "-f",
            "/dev/null",
            "new-session",
            "-d",
            "-x",
            &columns,
            "-y",
            &rows,
        ];
        // A pane of its own that waits, so that the option is set before the program may end.
        terminal.tmux(&[&new[..], &["cat"]].concat());
        terminal.tmux(&["set-option", "-g", "remain-on-exit", "on"]);
        terminal.tmux(&["set-option", "-g", "window-size", "manual"]);
        terminal.again(folder, line);
        terminal
    }

    /// Runs another line in the same pane.
    #[track_caller]
    pub(crate) fn again(&self, folder: &Path, line: &str) {
        let folder = folder.to_str().unwrap();
        self.tmux(&["clear-history"]);
        self.tmux(&["respawn-pane", "-k", "-c", folder, line]);
    }

    #[track_caller]
    fn tmux(&self, arguments: &[&str]) -> Output {
        let output = Command::new("tmux")
            .args(["-L", &self.name])
            .args(arguments)
            .env_remove("TMUX")
            .env("TERM", "xterm-256color")
            .env("LC_ALL", "C.UTF-8")
            .output()
            .expect("tmux is needed: apt-get install tmux");
        assert!(output.status.success(), "{arguments:?}: {output:?}");
        output
    }

    /// Sends keys by the names of tmux.
    #[track_caller]
    pub(crate) fn keys(&self, keys: &[&str]) {
        self.tmux(&[&["send-keys"], keys].concat());
    }

    /// Sends a text as typed, and waits until it stands there.
    #[track_caller]
    pub(crate) fn text(&self, text: &str) {
        self.tmux(&["send-keys", "-l", text]);
        self.shows(text);
    }

    /// Gives the window another size.
    #[track_caller]
    pub(crate) fn resize(&self, (columns, rows): (u32, u32)) {
        let (columns, rows) = (columns.to_string(), rows.to_string());
        self.tmux(&["resize-window", "-x", &columns, "-y", &rows]);
    }

    /// What stands on the screen, with colours when wanted.
    #[track_caller]
    pub(crate) fn painted(&self) -> String {
        let output = self.tmux(&["capture-pane", "-p", "-e"]);
        String::from_utf8(output.stdout).unwrap()
    }

    /// What stands on the screen.
    #[track_caller]
    pub(crate) fn screen(&self) -> String {
        let output = self.tmux(&["capture-pane", "-p"]);
        String::from_utf8(output.stdout).unwrap()
    }

    /// A value that tmux knows of the pane.
    #[track_caller]
    pub(crate) fn value(&self, name: &str) -> String {
        let output = self.tmux(&["display-message", "-p", &format!("#{{{name}}}")]);
        String::from_utf8(output.stdout).unwrap().trim().to_owned()
    }

    /// Waits until something holds of a screen that stands still; gives the screen.
    #[track_caller]
    pub(crate) fn until(&self, what: &str, holds: impl Fn(&str) -> bool) -> String {
        let begun = Instant::now();
        let mut last = self.screen();
        loop {
            std::thread::sleep(Duration::from_millis(8));
            let screen = self.screen();
            if screen == last && holds(&screen) {
                self.last.replace(screen.clone());
                return screen;
            }
            assert!(begun.elapsed() < PATIENCE, "{what} never comes:\n{screen}");
            last = screen;
        }
    }

    /// Waits until the screen holds these words, on one line.
    #[track_caller]
    pub(crate) fn shows(&self, words: &str) -> String {
        self.until(words, |screen| screen.contains(words))
    }

    /// Sends keys, and waits until the screen is another one than was waited for last.
    #[track_caller]
    pub(crate) fn press(&self, keys: &[&str]) -> String {
        let before = self.last.borrow().clone();
        self.keys(keys);
        self.until("another screen", |screen| screen != before)
    }
}

impl Drop for Terminal {
    fn drop(&mut self) {
        // Its own server, by its own name.
        let _ = Command::new("tmux")
            .args(["-L", &self.name, "kill-server"])
            .output();
    }
}
