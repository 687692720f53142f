//! The files of a shop folder: found in order, read one by one, each failure a fault of its own.
//!
//! A linked file is read; a linked folder is not entered, so that no ring of links is followed.

use std::fs;
use std::io::{self, Read};
use std::path::Path;
use std::sync::Arc;

use walkdir::{DirEntry, WalkDir};

use super::files::{File, role};
use crate::cores::each;
use crate::diag::{Code, Fault, Faults, Source};
use crate::yaml::{MOST_BYTES, source};

/// The files of a shop folder that are looked at; all else in it is its owner's.
pub(super) const FILES: [&str; 6] = [
    "shop.yaml",
    "machines.yaml",
    "cutters.yaml",
    "people.yaml",
    "terms.yaml",
    "routines.yaml",
];
/// And the folders.
pub(super) const FOLDERS: [&str; 4] = ["procedures", "cautions", "notes", "jobs"];

/// Reads the shop's own files, sorted by path.
pub(super) fn read_own(shop: &Path, faults: &mut Faults) -> Vec<File> {
    let mut entries = Vec::new();
    for name in FILES.into_iter().chain(FOLDERS) {
        let top = shop.join(name);
        if fs::symlink_metadata(&top).is_err_and(|error| error.kind() == io::ErrorKind::NotFound) {
            continue;
        }
        for entry in WalkDir::new(&top)
            .sort_by_file_name()
            .into_iter()
            .filter_entry(|entry| !is_hidden(entry))
        {
            match entry {
                Ok(entry) => entries.push(entry),
                Err(error) => faults.push(no_entry(&top, &error)),
            }
        }
    }
    let read = each(&entries, |entry| {
        let mut told = Faults::new();
        (read_entry(shop, entry, &mut told), told)
    });
    let mut list = Vec::new();
    for (file, told) in read {
        list.extend(file);
        faults.extend(told);
    }
    list.sort_by(|a: &File, b| a.path.cmp(&b.path));
    list
}

/// Editors and file managers leave hidden files beside the real ones.
fn is_hidden(entry: &DirEntry) -> bool {
    entry.file_name().to_string_lossy().starts_with('.')
}

fn no_entry(top: &Path, error: &walkdir::Error) -> Fault {
    let path = error.path().unwrap_or(top);
    let reason = error
        .io_error()
        .map_or(error.to_string(), ToString::to_string);
    unreadable(path, &reason)
}

fn read_entry(shop: &Path, entry: &DirEntry, faults: &mut Faults) -> Option<File> {
    let path = below(shop, entry.path());
    let role = role(&path);
    let kind = entry.file_type();
    if kind.is_dir() {
        if role.is_some() {
            faults.push(unreadable(entry.path(), "it is a folder"));
        }
        return None;
    }
    if kind.is_symlink() && entry.path().is_dir() {
        faults.push(linked_folder(entry.path()));
        return None;
    }
    let Some(role) = role else {
        faults.extend(misnamed(entry.path()));
        return None;
    };
    let source = faults.keep(read_text(entry.path()))?;
    Some(File {
        role,
        path,
        built_in: false,
        source,
    })
}

fn below(shop: &Path, path: &Path) -> String {
    let inner = path.strip_prefix(shop).unwrap_or(path);
    let parts: Vec<_> = inner
        .components()
        .map(|part| part.as_os_str().to_string_lossy())
        .collect();
    parts.join("/")
}

/// Only a plain file is opened: a pipe would keep the program waiting.
pub(super) fn read_text(path: &Path) -> Result<Arc<Source>, Fault> {
    let failed = |error: io::Error| unreadable(path, &error.to_string());
    if !fs::metadata(path).map_err(failed)?.is_file() {
        return Err(unreadable(path, "it is not a plain file"));
    }
    let mut bytes = Vec::new();
    // One byte over the limit is enough for `source` to refuse it.
    let file = fs::File::open(path).map_err(failed)?;
    file.take(MOST_BYTES as u64 + 1)
        .read_to_end(&mut bytes)
        .map_err(failed)?;
    source(&path.to_string_lossy(), &bytes)
}

fn misnamed(path: &Path) -> Option<Fault> {
    let ending = path.extension()?.to_str()?;
    let wanted = match ending {
        "yml" | "YAML" | "YML" => "yaml",
        "markdown" | "MD" => "md",
        _ => return None,
    };
    let message = format!("`{}` is not read", path.display());
    let hint = format!("name it with `.{wanted}` at the end");
    Some(Fault::warning(Code::FILE_UNREADABLE, message).hint(hint))
}

fn linked_folder(path: &Path) -> Fault {
    let message = format!("the linked folder `{}` is not entered", path.display());
    Fault::warning(Code::FILE_UNREADABLE, message).hint("put the files themselves there")
}

fn unreadable(path: &Path, reason: &str) -> Fault {
    let message = format!("`{}` cannot be read: {reason}", path.display());
    Fault::error(Code::FILE_UNREADABLE, message)
        .hint("mend its name or its rights, or take it away")
}
