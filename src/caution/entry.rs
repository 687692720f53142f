//! An entry of a caution file: which one it is, so that faults can point into it.
//!
//! To find a place the file is read again, so an [`Entry`] keeps only the way there; the place
//! itself is looked up when a fault needs it.

use std::sync::Arc;

use super::CautionKind;
use crate::diag::{Code, Fault, Source, Span, nearest};
use crate::yaml::{Step, place};

/// One item of one of the lists of a file.
#[derive(Debug, Clone)]
pub(super) struct Entry {
    /// The file.
    pub(super) source: Arc<Source>,
    /// Key of the list.
    pub(super) list: &'static str,
    /// Number of the item, from 0.
    pub(super) item: usize,
}

impl Entry {
    /// The place of a value further down this entry.
    pub(super) fn place(&self, below: &[Step]) -> Span {
        let mut path = vec![Step::from(self.list), Step::from(self.item)];
        path.extend_from_slice(below);
        place(&self.source, &path)
    }

    /// The member of a closed list that `name` means.
    pub(super) fn listed<T: Copy>(
        &self,
        name: &str,
        below: &[Step],
        known: impl Iterator<Item = (&'static str, T)> + Clone,
    ) -> Result<T, Fault> {
        if let Some((_, found)) = known.clone().find(|(one, _)| *one == name) {
            return Ok(found);
        }
        let names: Vec<_> = known.map(|(one, _)| one).collect();
        let near = nearest(name, names.iter().copied());
        Err(
            Fault::error(Code::UNKNOWN_NAME, format!("`{name}` is not known here"))
                .at(self.place(below))
                .label(format!("one of {}", names.join(", ")))
                .maybe_hint(near.map(|near| format!("did you mean `{near}`?"))),
        )
    }
}

/// Kinds by name, for [`Entry::listed`].
pub(super) fn kinds() -> impl Iterator<Item = (&'static str, CautionKind)> + Clone {
    CautionKind::ALL.iter().map(|one| (one.name(), *one))
}
