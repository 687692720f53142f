//! A folder of built pages, whole: built beside its place, then put there by renaming.
//!
//! Beside the folder `pages` stand, for a while, `pages.part` (being built or being deleted,
//! never whole) and `pages.old` (always whole); `.pages.lock` stays. In order: build `pages.part`,
//! flush it, rename `pages` to `pages.old`, rename `pages.part` to `pages`, delete `pages.old`.
//!
//! | killed | what is there | the next run |
//! |---|---|---|
//! | while building | `pages` old and whole | deletes `pages.part` |
//! | between the renames (microseconds) | no `pages`; `pages.old` whole | renames it back first |
//! | after them | `pages` new and whole | deletes what is left of the old one |
//!
//! Renaming one over the other in a single step needs a system call that the standard library
//! does not offer; a link that points to the newest would break when the folder is copied.

use std::fs::{self, File};
use std::io::{self, Write};
use std::path::{Component, Path, PathBuf};

use super::save::{parent, sync_folder, unwritable};
use crate::diag::{Code, Fault};

/// The file by which a folder is known to be ours; a folder without it is never deleted.
const MARKER: &str = ".faceside-folder";
const MARKER_TEXT: &str =
    "Made by faceside. Everything in this folder is replaced when it is built again.\n";

/// A file of a built folder.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Page {
    /// Path below the folder.
    pub path: PathBuf,
    /// What is in it.
    pub bytes: Vec<u8>,
}

/// Puts a folder with exactly these pages in the place of `folder`, whole or not at all.
///
/// Two programs at once wait for each other.
///
/// # Errors
/// `file-unreadable` with the path: the folder is someone else's (not empty, and not made by this
/// function), a page's path leads out of it, or something cannot be written. The old folder is
/// then as it was.
pub fn replace_folder(folder: &Path, pages: &[Page]) -> Result<(), Fault> {
    let names = Names::of(folder)?;
    if let Some(page) = pages.iter().find(|page| !stays_inside(&page.path)) {
        let message = format!("`{}` leads out of the folder", page.path.display());
        return Err(Fault::error(Code::FILE_UNREADABLE, message));
    }
    let failed = |error| unwritable(folder, &error);
    fs::create_dir_all(&names.parent).map_err(failed)?;
    let lock = File::options()
        .create(true)
        .truncate(false)
        .write(true)
        .open(&names.lock)
        .map_err(failed)?;
    lock.lock().map_err(failed)?;
    for path in [folder, &names.part, &names.old] {
        refuse_foreign(path)?;
    }
    names.repair(folder).map_err(failed)?;
    names.build(pages).map_err(failed)?;
    names.put_in_place(folder).map_err(failed)
}

/// The names beside a folder that its replacing needs.
struct Names {
    parent: PathBuf,
    part: PathBuf,
    old: PathBuf,
    lock: PathBuf,
}

impl Names {
    fn of(folder: &Path) -> Result<Self, Fault> {
        let Some(name) = folder.file_name() else {
            let message = format!("`{}` has no name of its own", folder.display());
            return Err(Fault::error(Code::FILE_UNREADABLE, message)
                .hint("name a folder below it, such as `pages`"));
        };
        let name = name.to_string_lossy();
        Ok(Self {
            parent: parent(folder).to_owned(),
            part: folder.with_file_name(format!("{name}.part")),
            old: folder.with_file_name(format!("{name}.old")),
            lock: folder.with_file_name(format!(".{name}.lock")),
        })
    }

    /// Undoes what a kill left, so that the folder is whole in its place if it ever was.
    fn repair(&self, folder: &Path) -> io::Result<()> {
        delete(&self.part)?;
        if self.old.exists() {
            if folder.exists() {
                self.delete_old()?;
            } else {
                fs::rename(&self.old, folder)?;
                sync_folder(&self.parent)?;
            }
        }
        Ok(())
    }

    fn build(&self, pages: &[Page]) -> io::Result<()> {
        fs::create_dir(&self.part)?;
        write_flushed(&self.part.join(MARKER), MARKER_TEXT.as_bytes())?;
        for page in pages {
            let path = self.part.join(&page.path);
            fs::create_dir_all(parent(&path))?;
            write_flushed(&path, &page.bytes)?;
        }
        flush_folders(&self.part)
    }

    fn put_in_place(&self, folder: &Path) -> io::Result<()> {
        let had_one = folder.exists();
        if had_one {
            fs::rename(folder, &self.old)?;
            sync_folder(&self.parent)?;
        }
        if let Err(error) = fs::rename(&self.part, folder) {
            if had_one {
                fs::rename(&self.old, folder)?;
            }
            return Err(error);
        }
        sync_folder(&self.parent)?;
        if had_one {
            self.delete_old()?;
        }
        Ok(())
    }

    /// `old` is always whole: it gets the name of what is not before it is taken apart.
    fn delete_old(&self) -> io::Result<()> {
        fs::rename(&self.old, &self.part)?;
        delete(&self.part)
    }
}

fn stays_inside(path: &Path) -> bool {
    let mut parts = path.components().peekable();
    parts.peek().is_some()
        && path != Path::new(MARKER)
        && parts.all(|part| matches!(part, Component::Normal(_)))
}

/// Refuses what was not made here: a file, a link, a folder with something in it and no marker.
fn refuse_foreign(path: &Path) -> Result<(), Fault> {
    let foreign = |what: &str| {
        let message = format!("`{}` {what}; it is left alone", path.display());
        let hint = "name a new or an empty folder, or move this one away";
        Err(Fault::error(Code::FILE_UNREADABLE, message).hint(hint))
    };
    match fs::symlink_metadata(path) {
        Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(()),
        Err(error) => return Err(unwritable(path, &error)),
        Ok(found) if !found.is_dir() => return foreign("is not a folder"),
        Ok(_) => {}
    }
    let mut entries = fs::read_dir(path).map_err(|error| unwritable(path, &error))?;
    if path.join(MARKER).is_file() || entries.next().is_none() {
        return Ok(());
    }
    foreign("holds files that this program did not make")
}

/// Deletes one of our folders, its marker last: what a kill leaves of it is still known as ours.
fn delete(folder: &Path) -> io::Result<()> {
    if !folder.exists() {
        return Ok(());
    }
    for entry in fs::read_dir(folder)? {
        let entry = entry?;
        if entry.file_type()?.is_dir() {
            fs::remove_dir_all(entry.path())?;
        } else if entry.file_name() != MARKER {
            fs::remove_file(entry.path())?;
        }
    }
    let marker = folder.join(MARKER);
    if marker.exists() {
        fs::remove_file(marker)?;
    }
    fs::remove_dir(folder)
}

fn write_flushed(path: &Path, bytes: &[u8]) -> io::Result<()> {
    let mut file = File::options().write(true).create_new(true).open(path)?;
    file.write_all(bytes)?;
    file.sync_all()
}

fn flush_folders(folder: &Path) -> io::Result<()> {
    for entry in fs::read_dir(folder)? {
        let entry = entry?;
        if entry.file_type()?.is_dir() {
            flush_folders(&entry.path())?;
        }
    }
    sync_folder(folder)
}
