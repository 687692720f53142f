//! Keys at a screen of the lesson: an answer by one key, a line that is edited, pages, commands.
//!
//! A question is only answered on its last page. Where any letter may be typed, commands are keys
//! that are no letters.

use crossterm::event::{KeyCode, KeyEvent, KeyEventKind, KeyModifiers};

use crate::training::Wants;

/// Longest line, in characters; the lesson itself refuses longer ones.
const LONGEST: usize = 2000;

/// A line that is typed.
#[derive(Debug, Default)]
pub(super) struct Field {
    letters: Vec<char>,
    at: usize,
}

/// What a key brings about.
#[derive(Debug, PartialEq, Eq)]
pub(super) enum Act {
    /// The line is the answer.
    Answer(String),
    /// The lesson stops here.
    Pause,
    /// Another page.
    Page {
        /// Whether it is the next one.
        next: bool,
    },
    /// What the keys do.
    Help,
    /// Nothing but a change of the line.
    Draw,
}

impl Field {
    /// The line, and the place of the cursor in characters.
    pub(super) fn typed(&self) -> (String, usize) {
        (self.letters.iter().collect(), self.at)
    }

    fn is_empty(&self) -> bool {
        self.letters.is_empty()
    }

    fn insert(&mut self, letter: char) {
        if self.letters.len() < LONGEST && !letter.is_control() {
            self.letters.insert(self.at, letter);
            self.at += 1;
        }
    }

    fn edit(&mut self, code: KeyCode) {
        let end = self.letters.len();
        match code {
            KeyCode::Backspace if self.at > 0 => {
                self.at -= 1;
                self.letters.remove(self.at);
            }
            KeyCode::Delete if self.at < end => {
                self.letters.remove(self.at);
            }
            KeyCode::Left => self.at = self.at.saturating_sub(1),
            KeyCode::Right => self.at = (self.at + 1).min(end),
            KeyCode::Home => self.at = 0,
            KeyCode::End => self.at = end,
            KeyCode::Char(letter) => self.insert(letter),
            _ => {}
        }
    }
}

/// What `key` does at a question; `is_last` tells whether its last page is shown.
pub(super) fn press(key: KeyEvent, wants: Wants, field: &mut Field, is_last: bool) -> Act {
    if key.kind == KeyEventKind::Release {
        return Act::Draw;
    }
    if key.modifiers.contains(KeyModifiers::CONTROL) {
        return match key.code {
            KeyCode::Char('c') => Act::Pause,
            KeyCode::Char('d') if field.is_empty() => Act::Pause,
            KeyCode::Char('u') => {
                *field = Field::default();
                Act::Draw
            }
            _ => Act::Draw,
        };
    }
    match key.code {
        KeyCode::Up | KeyCode::PageUp => return Act::Page { next: false },
        KeyCode::Down | KeyCode::PageDown => return Act::Page { next: true },
        KeyCode::Esc => return back(wants),
        KeyCode::Left if field.is_empty() => return back(wants),
        KeyCode::Char(letter) if field.is_empty() => {
            if let Some(act) = command(letter, wants, is_last) {
                return act;
            }
        }
        _ => {}
    }
    if !is_last {
        let next = matches!(
            key.code,
            KeyCode::Enter | KeyCode::Right | KeyCode::Char(' ')
        );
        return if next { Act::Page { next } } else { Act::Draw };
    }
    match (wants, key.code) {
        (Wants::Next, KeyCode::Enter | KeyCode::Right | KeyCode::Char(' ')) => {
            Act::Answer(String::new())
        }
        (Wants::YesNo, KeyCode::Char(letter @ ('y' | 'n' | 'Y' | 'N'))) => {
            Act::Answer(letter.to_lowercase().to_string())
        }
        (Wants::Choice, KeyCode::Char(digit @ '1'..='9')) => Act::Answer(digit.to_string()),
        (Wants::All, KeyCode::Char(letter @ ('y' | 'n' | 'Y' | 'N'))) if field.is_empty() => {
            Act::Answer(letter.to_lowercase().to_string())
        }
        (wants, KeyCode::Enter) if wants.is_typed() => Act::Answer(field.typed().0),
        (wants, code) => {
            if takes(wants, code, field) {
                field.edit(code);
            }
            Act::Draw
        }
    }
}

/// Whether a key belongs into the line: no line begins with a blank, which only goes on, and a list of
/// numbers holds nothing else.
fn takes(wants: Wants, code: KeyCode, field: &Field) -> bool {
    match (wants, code) {
        (_, KeyCode::Char(' ')) => wants.is_typed() && !field.is_empty(),
        (Wants::All, KeyCode::Char(letter)) => letter.is_ascii_digit() || letter == ',',
        _ => wants.is_typed(),
    }
}

/// A note is given up; anywhere else it is one question back.
fn back(wants: Wants) -> Act {
    Act::Answer(if wants == Wants::Note { "" } else { "back" }.to_owned())
}

/// The command of a letter at an empty line.
fn command(letter: char, wants: Wants, is_last: bool) -> Option<Act> {
    let is_text = wants.is_free() && is_last;
    match letter {
        '+' | '?' if wants == Wants::Note && is_last => None,
        '+' => Some(Act::Answer("note".to_owned())),
        '?' => Some(Act::Help),
        'b' if !is_text => Some(back(wants)),
        'q' if !is_text => Some(Act::Pause),
        _ => None,
    }
}

/// What the keys do, for `?`.
pub(super) const HELP: &[&str] = &[
    "Enter, Space or Right: go on; where more is below, the next page",
    "y, n: yes, no, at once; a digit: that answer, at once",
    "a list: y when all of it is so, else the numbers of what is not, then Enter",
    "b, Esc or Left: one question back (while a line is typed: Esc)",
    "Up, Down: pages",
    "+: write a note",
    "q or Ctrl-C: pause (while a line is typed: Ctrl-C); what was done is kept, and the same command \
     goes on here",
    "in a line: Left, Right, Home, End, Backspace, Delete; Ctrl-U empties it",
];
