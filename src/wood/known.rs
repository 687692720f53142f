//! How a value of the tables came to the project: read in a source, or recalled.
//!
//! Kept beside every value and told wherever it decides a number.

/// How a value of the tables came to the project.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Known {
    /// Seen in a stored copy of its source.
    Read,
    /// Recalled; not seen.
    Memory,
    /// Partly seen and partly recalled; its source tells which.
    Mixed,
}

impl Known {
    /// In words: `read`, `from memory`, `partly from memory`.
    pub fn words(self) -> &'static str {
        match self {
            Self::Read => "read",
            Self::Memory => "from memory",
            Self::Mixed => "partly from memory",
        }
    }

    /// The tables' own word for it.
    pub(super) fn of(word: &str) -> Option<Self> {
        Some(match word {
            "read" => Self::Read,
            "memory" => Self::Memory,
            "mixed" => Self::Mixed,
            _ => return None,
        })
    }
}
