//! Procedures and notes as they were read before, so that a shop that is opened again and again
//! reads anew only what has changed.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::{File, Files, Role};
use crate::cores::each;
use crate::diag::{Faults, Source};
use crate::procedure::{Procedure, Routines, load};
use crate::search::Note;

/// Files by their names, with what was read from them.
#[derive(Debug, Default)]
pub struct Known {
    /// The files of the routines that the procedures were read with.
    routines: Vec<Arc<Source>>,
    procedures: Shelf<(Option<Arc<Procedure>>, Faults)>,
    notes: Shelf<Result<Arc<Note>, Faults>>,
}

/// What was read from files: their sources, by name, with it.
type Shelf<R> = BTreeMap<String, (Arc<Source>, R)>;

impl Known {
    /// Reads the procedures and notes that are new or have changed, and forgets those that are
    /// gone. Other routines make every procedure another one.
    pub(super) fn read(&mut self, files: &Files, (sources, routines): (&[Arc<Source>], &Routines)) {
        let same = self.routines.iter().map(|one| &one.text);
        if !same.eq(sources.iter().map(|one| &one.text)) {
            self.procedures.clear();
        }
        self.routines = sources.to_vec();
        renew(&mut self.procedures, files.of(Role::Procedure), |source| {
            let (procedure, faults) = load(source, routines);
            (procedure.map(Arc::new), faults)
        });
        renew(&mut self.notes, files.of(Role::Note), |source| {
            Note::read(source).map(Arc::new)
        });
    }

    /// The text of a file as it was read; none when the file holds other bytes now.
    pub(super) fn text(&self, name: &str, bytes: &[u8]) -> Option<Arc<Source>> {
        let procedure = self.procedures.get(name).map(|(source, _)| source);
        let note = || self.notes.get(name).map(|(source, _)| source);
        let source = procedure.or_else(note)?;
        (source.text.as_bytes() == bytes).then(|| Arc::clone(source))
    }

    /// A procedure that was read, if its file can be; and the faults of that.
    pub(super) fn procedure(&self, file: &File) -> (Option<Arc<Procedure>>, Faults) {
        let found = self.procedures.get(&file.source.name);
        found.map(|(_, read)| read.clone()).unwrap_or_default()
    }

    /// A note that was read.
    pub(super) fn note(&self, file: &File) -> Result<Arc<Note>, Faults> {
        let found = self.notes.get(&file.source.name);
        found.map_or_else(|| Err(Faults::new()), |(_, read)| read.clone())
    }
}

fn renew<'f, R: Send>(
    shelf: &mut Shelf<R>,
    files: impl Iterator<Item = &'f File>,
    read: impl Fn(&Arc<Source>) -> R + Sync,
) {
    let mut before = std::mem::take(shelf);
    let mut changed = Vec::new();
    for file in files {
        match before.remove(&file.source.name) {
            Some((source, read)) if source.text == file.source.text => {
                shelf.insert(file.source.name.clone(), (source, read));
            }
            _ => changed.push(&file.source),
        }
    }
    let read = each(&changed, |source| read(source));
    for (source, read) in changed.into_iter().zip(read) {
        shelf.insert(source.name.clone(), (Arc::clone(source), read));
    }
}
