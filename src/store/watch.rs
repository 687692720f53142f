//! Waits until a file that is read has changed.
//!
//! Folders are watched and not files, since most editors write a new file and rename it over the
//! old one. What is not read (hidden files, built pages, drafts of an editor) wakes nobody. A
//! change is told when the folder has been quiet for a moment, so that a program that writes many
//! files, or one file in pieces, wakes the reader once.

use std::path::{Path, PathBuf};
use std::sync::mpsc::{Receiver, RecvTimeoutError, channel};
use std::time::{Duration, Instant};

use notify::event::{AccessKind, AccessMode};
use notify::{Event, EventKind, RecommendedWatcher, RecursiveMode, Watcher};

use super::own::{FILES, FOLDERS};
use super::record::RECORD_FOLDER;
use crate::diag::{Code, Fault};

/// How long nothing must change before the change counts as done.
const QUIET: Duration = Duration::from_millis(150);

/// How long a change is waited out that does not end.
const LONGEST: Duration = Duration::from_secs(2);

/// Shop folders and files that are watched.
pub struct Watch {
    watcher: RecommendedWatcher,
    events: Receiver<notify::Result<Event>>,
    shops: Vec<PathBuf>,
    files: Vec<PathBuf>,
}

impl Watch {
    /// Watches a shop folder, and files or folders of shops that were named.
    ///
    /// # Errors
    /// `file-unreadable` when one of them is not there or the system cannot watch it.
    pub fn new(shop: Option<&Path>, named: &[PathBuf]) -> Result<Self, Fault> {
        let (sender, events) = channel();
        let watcher = notify::recommended_watcher(sender)
            .map_err(|error| unwatched(shop.unwrap_or(Path::new(".")), &error.to_string()))?;
        let mut watch = Self {
            watcher,
            events,
            shops: Vec::new(),
            files: Vec::new(),
        };
        for path in shop.into_iter().chain(named.iter().map(PathBuf::as_path)) {
            // The system tells whole paths with every link followed.
            let here = path.as_os_str().is_empty();
            let path = if here { Path::new(".") } else { path };
            let whole = path.canonicalize();
            let whole = whole.map_err(|error| unwatched(path, &error.to_string()))?;
            if whole.is_dir() {
                watch.shops.push(whole);
            } else {
                watch.files.push(whole);
            }
        }
        watch.begin()?;
        Ok(watch)
    }

    /// Waits until something has changed and is quiet again.
    ///
    /// # Errors
    /// `file-unreadable` when a watched folder is gone, or the system tells nothing more.
    pub fn wait(&mut self) -> Result<(), Fault> {
        let ended = |_| unwatched(Path::new("."), "the system tells nothing more");
        while !self.matters(&self.events.recv().map_err(ended)?) {}
        let began = Instant::now();
        while began.elapsed() < LONGEST {
            match self.events.recv_timeout(QUIET) {
                Ok(_) => {}
                Err(RecvTimeoutError::Timeout) => break,
                Err(RecvTimeoutError::Disconnected) => {
                    return Err(ended(std::sync::mpsc::RecvError));
                }
            }
        }
        // A folder of the shop may be new, or another one by the same name.
        self.begin()
    }

    /// Watches every folder; one that is watched already stays so.
    fn begin(&mut self) -> Result<(), Fault> {
        for shop in &self.shops {
            watch(&mut self.watcher, shop, RecursiveMode::NonRecursive)?;
            for folder in FOLDERS.iter().chain([&RECORD_FOLDER]) {
                let folder = shop.join(folder);
                if folder.is_dir() {
                    watch(&mut self.watcher, &folder, RecursiveMode::Recursive)?;
                }
            }
        }
        for file in &self.files {
            watch(
                &mut self.watcher,
                super::save::parent(file),
                RecursiveMode::NonRecursive,
            )?;
        }
        Ok(())
    }

    /// Whether an event is the change of a file that is read.
    fn matters(&self, event: &notify::Result<Event>) -> bool {
        let Ok(event) = event else {
            // Events were lost: better one look too many.
            return true;
        };
        let written = EventKind::Access(AccessKind::Close(AccessMode::Write));
        if event.kind.is_access() && event.kind != written {
            return false;
        }
        event.need_rescan() || event.paths.iter().any(|path| self.is_read(path))
    }

    /// Whether a change at this path would be told; what is not there yet counts by the folder
    /// that it would be in.
    pub fn would_tell(&self, path: &Path) -> bool {
        let mut above = path.ancestors().map(|one| {
            let here = one.as_os_str().is_empty();
            if here { Path::new(".") } else { one }
        });
        let found = above.find_map(|one| Some((one, one.canonicalize().ok()?)));
        let whole = found.map(|(one, whole)| whole.join(path.strip_prefix(one).unwrap_or(path)));
        whole.is_some_and(|whole| self.is_read(&whole))
    }

    fn is_read(&self, path: &Path) -> bool {
        let hidden = |part: &str| part.starts_with('.');
        let of_shop = |shop: &PathBuf| {
            let Ok(below) = path.strip_prefix(shop) else {
                return false;
            };
            let parts: Vec<_> = below
                .components()
                .map(|part| part.as_os_str().to_string_lossy())
                .collect();
            let Some(top) = parts.first() else {
                return true;
            };
            let known = FILES.iter().chain(&FOLDERS).chain([&RECORD_FOLDER]);
            known.clone().any(|name| name == top) && !parts.iter().any(|part| hidden(part))
        };
        self.files.iter().any(|file| file == path) || self.shops.iter().any(of_shop)
    }
}

fn watch(
    watcher: &mut RecommendedWatcher,
    folder: &Path,
    mode: RecursiveMode,
) -> Result<(), Fault> {
    let watched = watcher.watch(folder, mode);
    watched.map_err(|error| unwatched(folder, &error.to_string()))
}

fn unwatched(path: &Path, reason: &str) -> Fault {
    let message = format!("`{}` cannot be watched: {reason}", path.display());
    Fault::error(Code::FILE_UNREADABLE, message)
        .hint("check that it is there, then begin again; without `--watch` it is checked once")
}
