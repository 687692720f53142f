//! A folder of built pages, whole: built beside its place, then put there in one step.
//!
//! Beside the folder `pages` stands, for a while, `pages.part` (being built or being deleted, never
//! whole); `.pages.lock` stays, and lets one program in at a time. In order: build `pages.part`,
//! flush it, exchange it with `pages`, delete what is then in `pages.part`.
//!
//! | killed | what is there | the next run |
//! |---|---|---|
//! | while building | `pages` old and whole | deletes `pages.part` |
//! | after the exchange | `pages` new and whole | deletes `pages.part`, what is left of the old one |
//!
//! Linux and macOS exchange two folders in one step, on most file systems. Elsewhere `pages` is
//! renamed to `pages.old` and `pages.part` to `pages`; killed between the two (microseconds), there
//! is no `pages`, and the next run first renames `pages.old` back, which is always whole.
//!
//! A file in the folder tells what made it and names its pages. What another command made there, or
//! a file that is none of these pages, is never replaced; hidden files, which file managers leave,
//! are.

use std::collections::BTreeSet;
use std::fs::{self, File};
use std::io::{self, Write};
use std::path::{Component, Path, PathBuf};
use std::sync::{Mutex, PoisonError};
use std::time::SystemTime;

use walkdir::WalkDir;

use super::save::{flush, parent, sync_folder, unwritable};
use crate::diag::{Code, Fault};

/// The file by which a folder is known to be ours; a folder without it is never deleted.
const MARKER: &str = ".faceside-folder";
/// Before the name of the command that made it; then the pages, a line each. What an older version
/// of the program made has no names in it, and all of it is ours.
const MADE_BY: &str = "Made by faceside ";
const REPLACED: &str = ": what is named here is replaced when it is built again.\n";

/// A file of a built folder.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Page {
    /// Path below the folder.
    pub path: PathBuf,
    /// What is in it.
    pub bytes: Vec<u8>,
}

/// Puts a folder with exactly these pages, made by the command `by`, in the place of `folder`, whole
/// or not at all.
///
/// # Errors
/// As those of [`NewFolder`].
pub fn replace_folder(folder: &Path, by: &str, pages: &[Page]) -> Result<(), Fault> {
    pages.iter().try_for_each(|page| inside(&page.path))?;
    let new = NewFolder::begin(folder, by)?;
    for page in pages {
        new.write(&page.path, &page.bytes)?;
    }
    new.put_in_place().map(|_| ())
}

/// A folder that is being built; one that is let go of before it is in its place leaves nothing.
#[derive(Debug)]
pub struct NewFolder {
    folder: PathBuf,
    names: Names,
    /// The command that makes it.
    by: String,
    /// The pages that were written, as the marker names them.
    pages: Mutex<BTreeSet<String>>,
    /// Held as long as this lives.
    _lock: File,
}

impl NewFolder {
    /// Begins to build, by the command `by`, what shall take the place of `folder`. Two programs at
    /// once wait for each other.
    ///
    /// # Errors
    /// `file-unreadable` with the path: the folder is someone else's (not empty, and not made by
    /// this command, or with a file in it that it did not make), or something cannot be written. The
    /// old folder is then as it was.
    pub fn begin(folder: &Path, by: &str) -> Result<Self, Fault> {
        let names = Names::of(folder)?;
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
        refuse_others(folder, by)?;
        names.repair(folder).map_err(failed)?;
        let new = Self {
            folder: folder.to_owned(),
            names,
            by: by.to_owned(),
            pages: Mutex::default(),
            _lock: lock,
        };
        fs::create_dir(&new.names.part).map_err(failed)?;
        let marker = new.names.part.join(MARKER);
        write_new(&marker, new.marker().as_bytes()).map_err(failed)?;
        Ok(new)
    }

    /// Writes a page; several threads may.
    ///
    /// # Errors
    /// `file-unreadable` when its path leads out of the folder, is taken, or cannot be written.
    pub fn write(&self, page: &Path, bytes: &[u8]) -> Result<(), Fault> {
        self.put(page, |path| write_new(path, bytes))
    }

    /// Whether the folder whose place this one takes is still the one that got the stamp.
    pub fn follows(&self, stamp: &Stamp) -> bool {
        let marker = fs::metadata(self.folder.join(MARKER));
        marker.is_ok_and(|marker| Stamp::of(&marker) == *stamp)
    }

    /// Takes a page over from the folder whose place this one takes, which got the stamp; false
    /// when it is not there, or was changed since.
    ///
    /// # Errors
    /// As [`write`](Self::write).
    pub fn keep(&self, page: &Path, stamp: &Stamp) -> Result<bool, Fault> {
        let old = self.folder.join(page);
        let written = fs::metadata(&old).and_then(|old| old.modified()).ok();
        if written.is_none() || written > stamp.written {
            return Ok(false);
        }
        self.put(page, |path| {
            // Not every file system has a second name for a file.
            fs::hard_link(&old, path).or_else(|_| fs::copy(&old, path).map(|_| ()))
        })?;
        Ok(true)
    }

    /// What its marker says, of the pages until now.
    fn marker(&self) -> String {
        let pages = self.pages.lock().unwrap_or_else(PoisonError::into_inner);
        let pages: String = pages.iter().map(|page| format!("{page}\n")).collect();
        format!("{MADE_BY}{}{REPLACED}{pages}", self.by)
    }

    fn put(&self, page: &Path, make: impl Fn(&Path) -> io::Result<()>) -> Result<(), Fault> {
        inside(page)?;
        let mut pages = self.pages.lock().unwrap_or_else(PoisonError::into_inner);
        pages.insert(named(page));
        drop(pages);
        let path = self.names.part.join(page);
        let made = make(&path).or_else(|error| {
            if error.kind() != io::ErrorKind::NotFound {
                return Err(error);
            }
            fs::create_dir_all(parent(&path))?;
            make(&path)
        });
        made.map_err(|error| unwritable(&self.folder, &error))
    }

    /// Puts the new folder in its place, and deletes the old one.
    ///
    /// # Errors
    /// `file-unreadable` with the path; the old folder is then as it was.
    pub fn put_in_place(self) -> Result<Stamp, Fault> {
        let put = || {
            // Written once more, the marker is no older than any page.
            let path = self.names.part.join(MARKER);
            let mut marker = File::options().write(true).open(&path)?;
            marker.write_all(self.marker().as_bytes())?;
            let stamp = Stamp::of(&marker.metadata()?);
            flush(&self.names.part)?;
            self.names.put_in_place(&self.folder)?;
            Ok(stamp)
        };
        put().map_err(|error| unwritable(&self.folder, &error))
    }
}

/// Tells a folder that was put in its place from any that is put there later: each has a marker of
/// its own, written last.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Stamp {
    /// When the marker was written; none where the file system does not tell.
    written: Option<SystemTime>,
    /// Its number in the file system; 0 where it has none.
    number: u64,
}

impl Stamp {
    fn of(file: &fs::Metadata) -> Self {
        #[cfg(unix)]
        let number = std::os::unix::fs::MetadataExt::ino(file);
        #[cfg(not(unix))]
        let number = 0;
        Self {
            written: file.modified().ok(),
            number,
        }
    }
}

impl Drop for NewFolder {
    fn drop(&mut self) {
        // What cannot be deleted now is by the next run.
        let _ = delete(&self.names.part);
    }
}

/// The names beside a folder that its replacing needs.
#[derive(Debug)]
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

    fn put_in_place(&self, folder: &Path) -> io::Result<()> {
        let had_one = folder.exists();
        if had_one && exchange(&self.part, folder)? {
            sync_folder(&self.parent)?;
            return delete(&self.part);
        }
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

fn inside(page: &Path) -> Result<(), Fault> {
    let mut parts = page.components().peekable();
    let stays = parts.peek().is_some()
        && page != Path::new(MARKER)
        && parts.all(|part| matches!(part, Component::Normal(_)));
    if stays {
        return Ok(());
    }
    let message = format!("`{}` leads out of the folder", page.display());
    Err(Fault::error(Code::FILE_UNREADABLE, message))
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

/// Refuses one of our folders when another command made it, or when a file is in it that it did not
/// make: a sheet of a lesson among those of a job.
fn refuse_others(folder: &Path, by: &str) -> Result<(), Fault> {
    #[expect(
        clippy::disallowed_methods,
        reason = "store is the home of file access"
    )]
    let Ok(text) = fs::read_to_string(folder.join(MARKER)) else {
        return Ok(());
    };
    let mut lines = text.lines();
    let made_by = lines.next().and_then(|head| head.strip_prefix(MADE_BY));
    let Some((made_by, _)) = made_by.and_then(|rest| rest.split_once(':')) else {
        return Ok(());
    };
    let others = |what: &str| {
        let message = format!("`{}` {what}; it is left alone", folder.display());
        let hint = "name a new or an empty folder, or move what is in this one away";
        Err(Fault::error(Code::FILE_UNREADABLE, message).hint(hint))
    };
    if made_by != by {
        return others(&format!("was made by `faceside {made_by}`"));
    }
    let own: BTreeSet<&str> = lines.collect();
    let entries = WalkDir::new(folder).min_depth(1).sort_by_file_name();
    let seen = entries
        .into_iter()
        .filter_entry(|entry| !entry.file_name().to_string_lossy().starts_with('.'));
    let files = seen.flatten().filter(|entry| !entry.file_type().is_dir());
    let mut below = files.filter_map(|entry| Some(named(entry.path().strip_prefix(folder).ok()?)));
    match below.find(|file| !own.contains(file.as_str())) {
        Some(file) => others(&format!(
            "holds `{file}`, which `faceside {by}` did not make there"
        )),
        None => Ok(()),
    }
}

/// A page as the marker names it, on every system alike.
fn named(page: &Path) -> String {
    let parts = page
        .components()
        .map(|part| part.as_os_str().to_string_lossy());
    parts.collect::<Vec<_>>().join("/")
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

fn write_new(path: &Path, bytes: &[u8]) -> io::Result<()> {
    let mut file = File::options().write(true).create_new(true).open(path)?;
    file.write_all(bytes)
}

/// Exchanges two folders in one step; false where the system or the file system has no such step.
#[cfg(any(target_os = "linux", target_os = "macos"))]
fn exchange(one: &Path, other: &Path) -> io::Result<bool> {
    use rustix::fs::{CWD, RenameFlags, renameat_with};
    use rustix::io::Errno;
    match renameat_with(CWD, one, CWD, other, RenameFlags::EXCHANGE) {
        Ok(()) => Ok(true),
        Err(Errno::NOSYS | Errno::INVAL | Errno::NOTSUP) => Ok(false),
        Err(error) => Err(error.into()),
    }
}

#[cfg(not(any(target_os = "linux", target_os = "macos")))]
fn exchange(_: &Path, _: &Path) -> io::Result<bool> {
    Ok(false)
}
