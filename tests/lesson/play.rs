//! A lesson played line by line, with all that was shown and recorded.

use crate::fixture::{lesson, sitting};
use faceside::shoplog::Event;
use faceside::training::{Talk, Turn, Wants, plain};

/// A lesson under way, with all that was shown and recorded.
pub(super) struct Play {
    talk: Talk,
    pub(super) turns: Vec<Turn>,
}

impl Play {
    pub(super) fn from(step: u32) -> Self {
        Self::of(Talk::new(lesson(), sitting(step)).unwrap())
    }

    pub(super) fn of(talk: Talk) -> Self {
        let turns = vec![talk.open()];
        Self { talk, turns }
    }

    pub(super) fn line(&mut self, line: Option<&str>) -> &Turn {
        let turn = self.talk.next(line);
        self.turns.push(turn);
        self.turns.last().unwrap()
    }

    pub(super) fn say(&mut self, line: &str) -> String {
        plain(&self.line(Some(line)).all(), 3000)
    }

    pub(super) fn asked(&self) -> &str {
        let ask = self.turns.last().unwrap().ask.as_ref();
        ask.map_or("", |ask| ask.text.as_str())
    }

    /// The answer of a lesson that goes well.
    pub(super) fn good(&self) -> Option<&'static str> {
        let wants = self.turns.last().unwrap().ask.as_ref()?.wants;
        Some(match wants {
            Wants::YesNo | Wants::All | Wants::Held => "y",
            Wants::Choice => "1",
            Wants::Count => "0",
            Wants::Text => "the guard was off",
            Wants::Reading | Wants::Value => "9.45 mm",
            Wants::Next
            | Wants::Words
            | Wants::Day
            | Wants::Person
            | Wants::Note
            | Wants::Machines
            | Wants::Until => "",
        })
    }

    /// Goes well until a question holds `words`.
    pub(super) fn until(&mut self, words: &str) {
        while !self.asked().contains(words) {
            let good = self
                .good()
                .unwrap_or_else(|| panic!("never asked: {words}"));
            self.line(Some(good));
        }
    }

    pub(super) fn finish(&mut self) {
        while let Some(good) = self.good() {
            self.line(Some(good));
        }
    }

    pub(super) fn events(&self) -> Vec<&Event> {
        self.turns.iter().flat_map(|turn| &turn.events).collect()
    }

    pub(super) fn last_event(&self) -> &Event {
        self.events().last().copied().unwrap()
    }

    pub(super) fn text(&self) -> String {
        self.turns
            .iter()
            .map(|turn| plain(&turn.all(), 3000))
            .collect()
    }
}
