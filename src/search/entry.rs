//! What can be found: one page, caution, term, calculator or record, as words.
//!
//! The callers turn their own types into entries; search knows nothing of procedures. Kinds weigh
//! differently only among entries that match alike: see `query`.

/// What an entry is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum EntryKind {
    /// How a joint or a set-up is done.
    Procedure,
    /// A safety rule.
    Caution,
    /// A page of the shop's knowledge.
    Note,
    /// A word of the trade.
    Term,
    /// A calculation.
    Calculator,
    /// What was cut or measured.
    Record,
}

impl EntryKind {
    /// Every kind, in the order that breaks ties.
    pub const ALL: [Self; 6] = [
        Self::Procedure,
        Self::Caution,
        Self::Note,
        Self::Term,
        Self::Calculator,
        Self::Record,
    ];

    /// The kind as one word: `procedure`.
    pub fn word(self) -> &'static str {
        match self {
            Self::Procedure => "procedure",
            Self::Caution => "caution",
            Self::Note => "note",
            Self::Term => "term",
            Self::Calculator => "calculator",
            Self::Record => "record",
        }
    }
}

/// One thing that can be found.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct Entry {
    /// What it is.
    pub kind: EntryKind,
    /// Its id; ids of one kind differ.
    pub id: String,
    /// Its title.
    pub title: String,
    /// Other names.
    pub also: Vec<String>,
    /// What it is for, in a sentence.
    pub summary: String,
    /// All other words, a paragraph an item.
    pub body: Vec<String>,
    /// The command to type next.
    pub next: String,
}
