//! What a lesson shows and asks, as blocks; and these as plain lines for a terminal or a pipe.

use textwrap::{WordSplitter, WrapAlgorithm};

use super::Point;
use crate::caution::SignalWord;

/// A block of text.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Say {
    /// A heading.
    Head(String),
    /// A paragraph.
    Text(String),
    /// What a step tells to do.
    Act(String),
    /// A line of a list.
    Item(String),
    /// A caution, key point or reason.
    Point(Point),
    /// A line that is answered by its number.
    Numbered(usize, Box<Say>),
    /// A figure that a hand or an eye needs at the machine.
    Figure {
        /// What it is.
        label: String,
        /// Number and unit.
        shown: String,
        /// Whether the words beside it hold it too, so that lines need not say it twice.
        told: bool,
    },
}

/// What kind of answer is wanted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Wants {
    /// None: Enter goes on.
    Next,
    /// Yes or no.
    YesNo,
    /// Yes for the whole of a numbered list, or the numbers of what was not.
    All,
    /// The learner's own words, or Enter when they were spoken.
    Words,
    /// A length, or Enter when nothing was measured.
    Reading,
    /// A day, or Enter for none.
    Day,
    /// A person, or Enter for none.
    Person,
    /// The text of a note, or Enter for none.
    Note,
    /// The number of an answer.
    Choice,
    /// Whether a step of a test was done as written, or an unsafe act ended it.
    Held,
    /// A length.
    Value,
    /// Words.
    Text,
    /// A whole number.
    Count,
    /// Ids of machines, or Enter for those that are shown.
    Machines,
    /// A day, or Enter for the one that is shown.
    Until,
}

/// A question.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Prompt {
    /// The question in words, without what can be typed.
    pub text: String,
    /// The answer that is wanted.
    pub wants: Wants,
}

impl Wants {
    /// Whether it is answered by a line that is typed; else by one key.
    pub fn is_typed(self) -> bool {
        !matches!(self, Self::Next | Self::YesNo | Self::Choice)
    }

    /// Whether any letter may stand in the answer.
    pub fn is_free(self) -> bool {
        let bound = matches!(self, Self::All | Self::Reading | Self::Day);
        self.is_typed() && !bound
    }

    /// What can be typed, in words.
    pub fn choices(self) -> &'static str {
        match self {
            Self::Next => "Enter: next",
            Self::YesNo => "y or n",
            Self::All => "y: all; else the numbers of what was not",
            Self::Words => "own words; Enter: spoken",
            Self::Reading => "number and unit; Enter: not measured",
            Self::Day => "YYYY-MM-DD; Enter: none",
            Self::Person => "initials; Enter: none",
            Self::Note => "text, no names; Enter: none",
            Self::Choice => "number of the answer",
            Self::Held => "y or n; u: unsafe act, ends the test",
            Self::Value => "number and unit",
            Self::Text => "a few words, no names",
            Self::Count => "whole number",
            Self::Machines => "ids",
            Self::Until => "YYYY-MM-DD",
        }
    }
}

impl Say {
    /// Its words, and what stands before them in a line.
    pub fn marked(&self) -> (String, String) {
        match self {
            Self::Head(text) => ("== ".to_owned(), text.clone()),
            Self::Text(text) | Self::Act(text) => (String::new(), text.clone()),
            Self::Item(text) => ("- ".to_owned(), text.clone()),
            Self::Point(point) => (mark(point).to_owned(), point.text()),
            Self::Numbered(number, say) => (format!("{number}: "), say.marked().1),
            Self::Figure { label, shown, .. } => ("- ".to_owned(), format!("{label}: {shown}")),
        }
    }
}

/// The blocks as lines of at most `width` columns (at least 20), each ended by a line feed.
pub fn plain(blocks: &[Say], width: usize) -> String {
    let width = width.max(20);
    let mut lines = Vec::new();
    for block in blocks {
        match block {
            Say::Figure { told: true, .. } => continue,
            Say::Head(_) => lines.push(String::new()),
            _ => {}
        }
        let (mark, text) = block.marked();
        lines.extend(wrapped(&text, width, &mark));
    }
    lines
        .iter()
        .flat_map(|line| [line.as_str(), "\n"])
        .collect()
}

/// A notice bears no alert mark (ANSI Z535.4, read second-hand).
fn mark(point: &Point) -> &'static str {
    match point {
        Point::Caution(caution) if caution.signal() == SignalWord::Notice => "- ",
        Point::Caution(_) => "! ",
        Point::Key(_) | Point::Reason(_) => "  * ",
    }
}

/// The text in lines behind its mark.
fn wrapped(text: &str, width: usize, mark: &str) -> Vec<String> {
    let blank = " ".repeat(mark.len());
    let lines = wrap(text, width.saturating_sub(mark.len())).into_iter();
    lines
        .enumerate()
        .map(|(at, line)| format!("{}{line}", if at == 0 { mark } else { &blank }))
        .collect()
}

/// The text in lines of at most `width` columns, broken between words, never between a number and
/// its unit.
pub fn wrap(text: &str, width: usize) -> Vec<String> {
    const TIED: char = '\u{a0}';
    let mut tied = String::with_capacity(text.len());
    let mut letters = text.chars().peekable();
    while let Some(letter) = letters.next() {
        let after_digit = tied.ends_with(|last: char| last.is_ascii_digit());
        let before_unit = letters.peek().is_some_and(|next| next.is_alphabetic());
        let tie = letter == ' ' && after_digit && before_unit;
        tied.push(if tie { TIED } else { letter });
    }
    // The other algorithm lets a line be a column too long where that evens out the rest.
    let options = textwrap::Options::new(width)
        .word_splitter(WordSplitter::NoHyphenation)
        .wrap_algorithm(WrapAlgorithm::FirstFit);
    let lines = textwrap::wrap(&tied, options).into_iter();
    lines.map(|line| line.replace(TIED, " ")).collect()
}
