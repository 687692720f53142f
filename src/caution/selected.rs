//! Cautions that were selected for one set-up; only the selection can make them.

use super::{CautionKind, SignalWord, Stands, Status};

/// Where a caution's facts come from.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Cited {
    /// The citation as printed, with `(to be checked)` where its status asks for it.
    pub text: String,
    /// How well it is known.
    pub status: Status,
}

/// One caution, its words final.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Caution {
    pub(super) id: String,
    pub(super) kind: CautionKind,
    pub(super) signal: SignalWord,
    pub(super) stands: Stands,
    pub(super) hazard: String,
    pub(super) harm: String,
    pub(super) avoid: String,
    pub(super) brief: Option<String>,
    pub(super) sources: Vec<Cited>,
}

impl Caution {
    /// Its id in the caution files.
    pub fn id(&self) -> &str {
        &self.id
    }

    /// What it is about.
    pub fn kind(&self) -> CautionKind {
        self.kind
    }

    /// How grave it is.
    pub fn signal(&self) -> SignalWord {
        self.signal
    }

    /// Where it stands on a sheet.
    pub fn stands(&self) -> Stands {
        self.stands
    }

    /// The hazard, in a sentence.
    pub fn hazard(&self) -> &str {
        &self.hazard
    }

    /// What happens if it is not avoided, in a sentence.
    pub fn harm(&self) -> &str {
        &self.harm
    }

    /// How to avoid it, in one or more sentences.
    pub fn avoid(&self) -> &str {
        &self.avoid
    }

    /// How to avoid it in a line, for where the caution stands again on one sheet.
    pub fn brief(&self) -> Option<&str> {
        self.brief.as_deref()
    }

    /// Where its facts come from.
    pub fn sources(&self) -> &[Cited] {
        &self.sources
    }

    /// The same caution with each of its texts as `say` says it: the words of a region.
    pub fn spoken(&self, say: &dyn Fn(&str) -> String) -> Self {
        Self {
            hazard: say(&self.hazard),
            harm: say(&self.harm),
            avoid: say(&self.avoid),
            brief: self.brief.as_deref().map(say),
            ..self.clone()
        }
    }
}

/// All cautions of one set-up, gravest first. Only the selection makes one, so that a filled
/// step cannot be built from anything less.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Selected {
    pub(super) cautions: Vec<Caution>,
}

impl Selected {
    /// The cautions that stand at one place, gravest first.
    pub fn standing(&self, stands: Stands) -> impl Iterator<Item = &Caution> {
        self.cautions
            .iter()
            .filter(move |caution| caution.stands == stands)
    }

    /// All of them.
    pub fn all(&self) -> &[Caution] {
        &self.cautions
    }
}
