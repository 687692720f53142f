//! The one place that prints: answers to standard output, faults to standard error. A lesson's screens
//! are drawn by `screen`.
//!
//! Colours only where they are wanted; a reader that closes the pipe is not an error.

use std::io::{self, IsTerminal, Write};

use serde_json::Value as Json;

use super::args::{ColorWord, Common};
use super::report;
use crate::diag::{Fault, Faults};
use crate::render::{json_text, terminal_text};

/// Where answers and faults go.
pub(super) struct Output {
    color: ColorWord,
    closed: bool,
}

impl Output {
    pub(super) fn new(common: &Common) -> Self {
        Self {
            color: common.color,
            closed: false,
        }
    }

    /// Writes an answer and ends its line; nothing in it acts on the terminal.
    pub(super) fn say(&mut self, text: &str) {
        self.line(&terminal_text(text));
    }

    /// Writes an answer as JSON.
    pub(super) fn json(&mut self, json: &Json) {
        self.line(&json_text(json));
    }

    fn line(&mut self, text: &str) {
        if self.closed {
            return;
        }
        let mut out = io::stdout().lock();
        let end = if text.ends_with('\n') { "" } else { "\n" };
        if write!(out, "{text}{end}")
            .and_then(|()| out.flush())
            .is_err()
        {
            self.closed = true;
        }
    }

    /// Whether nobody reads the answers any more.
    pub(super) fn is_closed(&self) -> bool {
        self.closed
    }

    /// Writes a prompt and stays on its line.
    pub(super) fn ask(&mut self, prompt: &str) {
        let mut out = io::stdout().lock();
        let prompt = terminal_text(prompt);
        if write!(out, "{prompt} ").and_then(|()| out.flush()).is_err() {
            self.closed = true;
        }
    }

    /// Writes faults to standard error.
    pub(super) fn report<'f>(&self, faults: impl IntoIterator<Item = &'f Fault>) {
        let faults: Faults = faults.into_iter().cloned().collect();
        if faults.is_empty() {
            return;
        }
        let text = report::text(&faults, self.wants_color(io::stderr().is_terminal()));
        // A closed standard error leaves nobody to tell.
        let _ = io::stderr().lock().write_all(text.as_bytes());
    }

    /// Whether a terminal that shows answers shows them in colours.
    pub(super) fn has_color(&self) -> bool {
        self.wants_color(true)
    }

    fn wants_color(&self, is_terminal: bool) -> bool {
        match self.color {
            ColorWord::Always => true,
            ColorWord::Never => false,
            ColorWord::Auto => is_terminal && std::env::var_os("NO_COLOR").is_none(),
        }
    }

    /// Width of lines for the terminal: `COLUMNS`, else the terminal's own, when it is sensible; else
    /// 80.
    pub(super) fn width() -> usize {
        let columns = std::env::var("COLUMNS")
            .ok()
            .and_then(|text| text.parse().ok());
        let own = || {
            let is_terminal = io::stdout().is_terminal();
            let size = is_terminal.then(crossterm::terminal::size)?.ok()?;
            Some(usize::from(size.0))
        };
        columns
            .or_else(own)
            .filter(|width| (20..=160).contains(width))
            .unwrap_or(80)
    }
}
