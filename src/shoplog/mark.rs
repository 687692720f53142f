//! The name of a line of the record: file and number, `2026-7`.

use std::fmt;

use serde::{Deserialize, Serialize};

use crate::diag::{Code, Fault};

/// Names one line: the file `2026.jsonl` and the number 7 in it are `2026-7`.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
pub struct Mark {
    file: String,
    number: u64,
}

impl Mark {
    /// The mark of a line of the file of that path.
    pub fn new(path: &str, number: u64) -> Self {
        let name = path.rsplit(['/', '\\']).next().unwrap_or(path);
        let file = name.strip_suffix(".jsonl").unwrap_or(name).to_owned();
        Self { file, number }
    }

    /// Reads a mark as it is shown.
    ///
    /// # Errors
    /// `record-mark` for anything else.
    ///
    /// ```
    /// use faceside::shoplog::Mark;
    /// assert_eq!(Mark::read("2026-7").unwrap(), Mark::new("record/2026.jsonl", 7));
    /// assert!(Mark::read("7").is_err());
    /// ```
    pub fn read(text: &str) -> Result<Self, Fault> {
        let parts = text.trim().rsplit_once('-');
        let read = parts.and_then(|(file, number)| {
            let number = number.parse().ok()?;
            (!file.is_empty()).then(|| Self {
                file: file.to_owned(),
                number,
            })
        });
        read.ok_or_else(|| {
            let message = format!("`{}` is not the mark of a line", text.trim());
            Fault::error(Code::RECORD_MARK, message)
                .hint("write it as `faceside record list` shows it, such as `2026-7`")
        })
    }
}

impl fmt::Display for Mark {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}-{}", self.file, self.number)
    }
}

impl TryFrom<String> for Mark {
    type Error = String;

    fn try_from(text: String) -> Result<Self, String> {
        Self::read(&text).map_err(|fault| fault.message)
    }
}

impl From<Mark> for String {
    fn from(mark: Mark) -> Self {
        mark.to_string()
    }
}
