//! How a dry joint goes together under the hand, in the words of the bench, and what each word
//! says of the clearance.
//!
//! A word bounds the clearance between what enters and the opening, nothing more:
//!
//! | word | clearance |
//! |---|---|
//! | will not start | none: what enters is as large as the opening or larger |
//! | starts and binds | less than the least of a hand press |
//! | hand press | from the least to the most of a hand press |
//! | slides | more than the most of a hand press |
//! | drops in | more than that |
//!
//! The words are the bench's; which clearance parts them is the hand press of the joint
//! ([`HandPress`], common practice, no source).

use super::HandPress;
use crate::units::Length;

/// How a dry joint goes together.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Feel {
    /// It does not enter at all.
    WillNotStart,
    /// It enters and stops.
    StartsAndBinds,
    /// It goes home under the hand and stays.
    HandPress,
    /// It goes home of itself with a push.
    Slides,
    /// It falls in, or out.
    DropsIn,
}

impl Feel {
    /// Every word, from tight to loose.
    pub const ALL: [Self; 5] = [
        Self::WillNotStart,
        Self::StartsAndBinds,
        Self::HandPress,
        Self::Slides,
        Self::DropsIn,
    ];

    /// The words: `starts and binds`.
    pub fn words(self) -> &'static str {
        match self {
            Self::WillNotStart => "will not start",
            Self::StartsAndBinds => "starts and binds",
            Self::HandPress => "hand press",
            Self::Slides => "slides",
            Self::DropsIn => "drops in",
        }
    }

    /// The feel of these words, with blanks or hyphens between them, capitals or not.
    pub fn named(words: &str) -> Option<Self> {
        let plain = words.trim().to_lowercase().replace(['-', '_'], " ");
        Self::ALL.into_iter().find(|feel| feel.words() == plain)
    }

    /// The most that the clearance can be; none where the word sets no such bound.
    pub fn loosest(self, press: HandPress) -> Option<Length> {
        match self {
            Self::WillNotStart => Some(Length::ZERO),
            Self::StartsAndBinds => Some(press.least),
            Self::HandPress => Some(press.most),
            Self::Slides | Self::DropsIn => None,
        }
    }
}
