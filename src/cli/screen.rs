//! The lesson on the second screen of a terminal: raw keys in, whole frames out.
//!
//! Keys are read by a thread of their own, since a terminal that has gone may never give another one;
//! signals come the same way. However it ends, the terminal is put back: by [`Raw`], when it goes.
//! Nothing of the lesson is decided here; the frames are made in `render`, the keys read in
//! `screen_keys`.

use std::io::{self, IsTerminal, Write};
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::mpsc::{Receiver, RecvTimeoutError, Sender, channel};
use std::thread::JoinHandle;
use std::time::Duration;

use crossterm::cursor::{Hide, MoveTo, Show};
use crossterm::event::{Event as Came, KeyEvent, poll, read};
use crossterm::style::Print;
use crossterm::terminal::{
    Clear, ClearType, EnterAlternateScreen, LeaveAlternateScreen, disable_raw_mode,
    enable_raw_mode, size,
};
use crossterm::{execute, queue};

use super::screen_keys::{Act, Field, HELP, press};
use crate::render::{LEAST_SCREEN, LessonScreen, LessonView, Look, lesson_screen};
use crate::training::{Place, Prompt, Say, Turn, Wants};

/// How long a key is waited for before the terminal is looked at.
const WAIT: Duration = Duration::from_secs(1);

/// How long the reader waits before it looks whether it is to end.
const TURN: Duration = Duration::from_millis(100);

/// What comes from outside.
enum Inbox {
    Key(KeyEvent),
    Resized,
    Signal(i32),
    Gone,
}

/// How a question ended.
#[derive(Debug, PartialEq, Eq)]
pub(super) enum Answer {
    /// With a line.
    Line(String),
    /// With a pause.
    Pause,
    /// The screen is too small, and lines are wanted.
    Small,
}

/// A terminal with raw keys and a second screen, put back when it goes.
struct Raw;

impl Raw {
    fn begin() -> io::Result<Self> {
        enable_raw_mode()?;
        let raw = Self;
        execute!(io::stdout(), EnterAlternateScreen, Hide)?;
        Ok(raw)
    }
}

impl Drop for Raw {
    fn drop(&mut self) {
        // A terminal that has gone needs nothing any more.
        let _ = execute!(io::stdout(), LeaveAlternateScreen, Show);
        let _ = disable_raw_mode();
    }
}

/// A lesson's screen.
pub(super) struct Screen {
    inbox: Receiver<Inbox>,
    over: Arc<AtomicBool>,
    reader: JoinHandle<()>,
    look: Look,
    title: String,
    before: Vec<Say>,
    show: Vec<Say>,
    signal: Option<i32>,
    _raw: Raw,
}

/// Whether a terminal reads and shows this program, and is no typewriter.
pub(super) fn is_terminal() -> bool {
    let is_dumb = std::env::var_os("TERM").is_some_and(|term| term == "dumb");
    io::stdin().is_terminal() && io::stdout().is_terminal() && !is_dumb
}

/// Whether the terminal has the room that a screen needs.
pub(super) fn has_room() -> bool {
    let (columns, rows) = room();
    columns >= LEAST_SCREEN.0 && rows >= LEAST_SCREEN.1
}

fn room() -> (usize, usize) {
    size().map_or((0, 0), |(columns, rows)| (columns.into(), rows.into()))
}

/// Whether the terminal is told to show block characters.
fn has_blocks() -> bool {
    let names = ["LC_ALL", "LC_CTYPE", "LANG"];
    let set = names
        .iter()
        .filter_map(|name| std::env::var(name).ok().filter(|set| !set.is_empty()));
    let first = set.map(|set| set.to_lowercase()).next();
    cfg!(windows) || first.is_some_and(|set| set.contains("utf-8") || set.contains("utf8"))
}

impl Screen {
    /// Takes the terminal over.
    ///
    /// # Errors
    /// What the system says, when it does not give the terminal; it is then as before.
    pub(super) fn begin(title: String, color: bool) -> io::Result<Self> {
        let (sender, inbox) = channel();
        listen(sender.clone())?;
        let raw = Raw::begin()?;
        let over = Arc::new(AtomicBool::new(false));
        let told = Arc::clone(&over);
        let reader = std::thread::Builder::new().spawn(move || keys(&sender, &told))?;
        Ok(Self {
            inbox,
            over,
            reader,
            look: Look {
                color,
                blocks: has_blocks(),
            },
            title,
            before: Vec::new(),
            show: Vec::new(),
            signal: None,
            _raw: raw,
        })
    }

    /// The signal that ended it.
    pub(super) fn signal(&self) -> Option<i32> {
        self.signal
    }

    /// Shows a question until it is answered.
    pub(super) fn answer(&mut self, turn: &Turn, prompt: &Prompt, place: Option<&Place>) -> Answer {
        let mut after: &[Say] = &[];
        if turn.is_new {
            self.before.clone_from(&turn.said);
            self.show.clone_from(&turn.show);
        } else {
            after = &turn.said;
        }
        // What is said to an answer stands by the question, on the last page.
        let mut page = if turn.is_new { 0 } else { usize::MAX };
        let mut field = Field::default();
        loop {
            let typed = field.typed();
            let view = LessonView {
                title: &self.title,
                place,
                before: &self.before,
                show: &self.show,
                after,
                prompt,
                typed: (&typed.0, typed.1),
                page,
            };
            let Some(screen) = self.draw(&view) else {
                match self.small() {
                    None => continue,
                    Some(answer) => return answer,
                }
            };
            page = screen.page;
            let key = match self.came() {
                Inbox::Key(key) => key,
                Inbox::Resized => continue,
                Inbox::Signal(_) | Inbox::Gone => return Answer::Pause,
            };
            match press(key, prompt.wants, &mut field, screen.is_last()) {
                Act::Answer(line) => return Answer::Line(line),
                Act::Pause => return Answer::Pause,
                Act::Page { next: true } => page = (page + 1).min(screen.pages - 1),
                Act::Page { next: false } => page = page.saturating_sub(1),
                Act::Help => self.help(place),
                Act::Draw => {}
            }
        }
    }

    /// The keys, until one is pressed.
    fn help(&mut self, place: Option<&Place>) {
        let show: Vec<Say> = HELP
            .iter()
            .map(|line| Say::Item((*line).to_owned()))
            .collect();
        let prompt = Prompt {
            text: "Enter goes back to the lesson.".to_owned(),
            wants: Wants::Next,
        };
        let mut page = 0;
        loop {
            let view = LessonView {
                title: &self.title,
                place,
                before: &[],
                show: &show,
                after: &[],
                prompt: &prompt,
                typed: ("", 0),
                page,
            };
            let Some(screen) = self.draw(&view) else {
                return;
            };
            match self.came() {
                Inbox::Key(_) if !screen.is_last() => page = screen.page + 1,
                Inbox::Resized => {}
                _ => return,
            }
        }
    }

    /// Says that there is no room, until there is; lines go on at Enter.
    fn small(&mut self) -> Option<Answer> {
        let (columns, rows) = LEAST_SCREEN;
        let words = format!(
            "Too small for the lesson: {columns} by {rows} at least. Make it larger, or go on in \
             lines: Enter."
        );
        let lines = textwrap::wrap(&words, room().0.max(10));
        let mut out = io::stdout();
        let drawn = queue!(out, Clear(ClearType::All)).and_then(|()| {
            for (row, line) in (0..).zip(lines) {
                queue!(out, MoveTo(0, row), Print(line))?;
            }
            out.flush()
        });
        if drawn.is_err() {
            return Some(Answer::Pause);
        }
        match self.came() {
            Inbox::Key(key) => match press(key, Wants::Next, &mut Field::default(), true) {
                Act::Pause => Some(Answer::Pause),
                Act::Answer(line) if line.is_empty() => Some(Answer::Small),
                _ => None,
            },
            Inbox::Resized => None,
            Inbox::Signal(_) | Inbox::Gone => Some(Answer::Pause),
        }
    }

    /// The next thing that comes; the end, when the terminal has gone.
    fn came(&mut self) -> Inbox {
        if let Some(signal) = self.signal {
            return Inbox::Signal(signal);
        }
        loop {
            match self.inbox.recv_timeout(WAIT) {
                Ok(Inbox::Signal(signal)) => {
                    self.signal = Some(signal);
                    return Inbox::Signal(signal);
                }
                Ok(came) => return came,
                Err(RecvTimeoutError::Timeout) if io::stdin().is_terminal() => {}
                Err(_) => return Inbox::Gone,
            }
        }
    }

    /// Draws a frame over the last one; none where it does not fit.
    fn draw(&self, view: &LessonView) -> Option<LessonScreen> {
        let screen = lesson_screen(view, room(), self.look)?;
        let mut frame = Vec::new();
        let drawn = queue!(frame, Hide).and_then(|()| {
            for (row, line) in (0..).zip(&screen.lines) {
                let clear = Clear(ClearType::CurrentLine);
                queue!(frame, MoveTo(0, row), clear, Print(line))?;
            }
            if let Some((column, row)) = screen.cursor {
                let place = |at: usize| u16::try_from(at).unwrap_or(u16::MAX);
                queue!(frame, MoveTo(place(column), place(row)), Show)?;
            }
            // In one piece, so that no half of a frame is seen.
            let mut out = io::stdout().lock();
            out.write_all(&frame)?;
            out.flush()
        });
        // A terminal that cannot be written to has gone, which the inbox tells.
        drop(drawn);
        Some(screen)
    }
}

impl Drop for Screen {
    fn drop(&mut self) {
        self.over.store(true, Ordering::SeqCst);
        // The reader of a terminal that has gone may turn for ever; it is not waited for longer than
        // one that listens needs.
        let turns = std::iter::repeat_n(TURN / 10, 30);
        for turn in turns.take_while(|_| !self.reader.is_finished()) {
            std::thread::sleep(turn);
        }
    }
}

/// Sends what the terminal gives, until it is over.
fn keys(sender: &Sender<Inbox>, over: &AtomicBool) {
    while !over.load(Ordering::SeqCst) {
        let came = match poll(TURN) {
            Ok(false) => continue,
            Ok(true) => read(),
            Err(error) => Err(error),
        };
        let sent = match came {
            Ok(Came::Key(key)) => sender.send(Inbox::Key(key)),
            Ok(Came::Resize(..)) => sender.send(Inbox::Resized),
            Ok(_) => continue,
            Err(_) => {
                let _ = sender.send(Inbox::Gone);
                return;
            }
        };
        if sent.is_err() {
            return;
        }
    }
}

/// Sends the signals that end a program; when nobody listens any more, they end it as usual.
#[cfg(unix)]
fn listen(sender: Sender<Inbox>) -> io::Result<()> {
    use signal_hook::consts::{SIGHUP, SIGINT, SIGTERM};
    let mut signals = signal_hook::iterator::Signals::new([SIGHUP, SIGINT, SIGTERM])?;
    let wait = move || {
        for signal in signals.forever() {
            if sender.send(Inbox::Signal(signal)).is_err() {
                let _ = signal_hook::low_level::emulate_default_handler(signal);
            }
        }
    };
    std::thread::Builder::new().spawn(wait).map(drop)
}

#[cfg(not(unix))]
fn listen(_sender: Sender<Inbox>) -> io::Result<()> {
    Ok(())
}
