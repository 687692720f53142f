//! Where the files of a site go, and what a site was made from.
//!
//! A page is known by a number of all that it is made from; when that is the same as before, the
//! file that stands there is taken over.

use std::collections::BTreeMap;
use std::hash::{DefaultHasher, Hash, Hasher};

use super::listed::Listed;
use crate::diag::Fault;

/// Where the files of a site go.
pub trait Sink: Sync {
    /// Takes a file: its path within the site's folder, its bytes.
    ///
    /// # Errors
    /// When it cannot be taken.
    fn put(&self, path: &str, bytes: Vec<u8>) -> Result<(), Fault>;

    /// Takes a file over from the site that was there before; false when that is not possible.
    ///
    /// # Errors
    /// When no more is taken at all.
    fn keep(&self, path: &str) -> Result<bool, Fault>;
}

/// What a site was made from; by it the next one keeps the pages that would come out the same.
#[derive(Debug, Default)]
pub struct Built {
    /// By path within the site's folder.
    pub(super) pages: BTreeMap<String, Made>,
    pub(super) files: usize,
}

impl Built {
    /// Adds a file that was made.
    pub(super) fn add(&mut self, path: &str, from: Option<u64>) {
        let listed = None;
        self.pages.insert(path.to_owned(), Made { from, listed });
        self.files += 1;
    }

    /// Counts files that are made each time.
    pub(super) fn count(&mut self, files: usize) {
        self.files += files;
    }

    /// Both together.
    #[must_use]
    pub fn and(mut self, other: Self) -> Self {
        self.pages.extend(other.pages);
        self.files += other.files;
        self
    }

    /// How many files it has.
    pub fn files(&self) -> usize {
        self.files
    }

    /// The file at this path, if it was made from the same.
    pub(super) fn same(&self, path: &str, from: Option<u64>) -> Option<&Made> {
        self.pages
            .get(path)
            .filter(|made| from.is_some() && made.from == from)
    }
}

/// A file that was made.
#[derive(Debug, Clone)]
pub(super) struct Made {
    /// What it was made from; none when that cannot be told.
    pub(super) from: Option<u64>,
    /// What other pages say of it, if it is a procedure's.
    pub(super) listed: Option<Listed>,
}

/// Tells things from others, within one run of the program.
pub(super) fn told(things: impl Hash) -> u64 {
    let mut hasher = DefaultHasher::new();
    things.hash(&mut hasher);
    hasher.finish()
}
