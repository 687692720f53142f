//! A new shop folder: the built-in texts of `procedures/start` and the schema, whole or not at all.
//!
//! All files are written into a temporary folder first. Where the shop's folder is not there yet,
//! the temporary one becomes it by one renaming. Where it is, each file is moved to its place,
//! `shop.yaml` last, since by it a folder becomes a shop; a move that fails takes the others back.
//! A kill leaves at most a folder `.faceside-*.tmp` and files of a shop without a `shop.yaml`.
//! Nothing that is there is written over, not even what came between the look and the move.

use std::fs::{self, File};
use std::io::{self, Write};
use std::path::{Path, PathBuf};

use include_dir::Dir;
use tempfile::{Builder, TempDir, TempPath};

use super::files::BUILT_IN;
use super::find::SHOP_FILE;
use super::save::{parent, sync_folder, unwritable};
use crate::diag::{Code, Fault};
use crate::procedure::schema_text;

/// Where the texts of a new shop are in the built-in library.
const TEXTS: &str = "start";

/// The schema beside the procedures; `shop.yaml`'s neighbours have none.
const SCHEMA_FILE: &str = "procedures/procedure.schema.json";

/// Makes a new shop in a folder, which may be there already; gives the paths of the files below
/// it, `shop.yaml` first.
///
/// # Errors
/// `file-unreadable` when one of the files is there already, or something cannot be written; the
/// folder is then as it was.
pub fn start_shop(folder: &Path) -> Result<Vec<PathBuf>, Fault> {
    let files = files();
    refuse_taken(folder, &files)?;
    let failed = |error| unwritable(folder, &error);
    if folder.is_dir() {
        let temp = written(folder, &files).map_err(failed)?;
        move_in(temp.path(), folder, &files).map_err(failed)?;
    } else {
        let above = parent(folder);
        fs::create_dir_all(above).map_err(failed)?;
        let temp = written(above, &files).map_err(failed)?;
        fs::rename(temp.path(), folder).map_err(failed)?;
        // It has its name now; nothing is left to delete.
        let _ = temp.keep();
        sync_folder(above).map_err(failed)?;
    }
    Ok(files.into_iter().map(|(path, _)| path).collect())
}

/// All files of a new shop: path below its folder, and text.
fn files() -> Vec<(PathBuf, Vec<u8>)> {
    let mut files = vec![(PathBuf::from(SCHEMA_FILE), schema_text().into_bytes())];
    gather(&BUILT_IN, &mut files);
    files.sort_by_key(|(path, _)| (path != Path::new(SHOP_FILE), path.clone()));
    files
}

fn gather(folder: &Dir<'static>, files: &mut Vec<(PathBuf, Vec<u8>)>) {
    for inner in folder.dirs() {
        gather(inner, files);
    }
    for file in folder.files() {
        if let Ok(below) = file.path().strip_prefix(TEXTS) {
            files.push((below.to_owned(), file.contents().to_owned()));
        }
    }
}

fn refuse_taken(folder: &Path, files: &[(PathBuf, Vec<u8>)]) -> Result<(), Fault> {
    let is_there = |path: &Path| fs::symlink_metadata(path).is_ok();
    if is_there(folder) && !folder.is_dir() {
        let message = format!("`{}` is not a folder", folder.display());
        return Err(Fault::error(Code::FILE_UNREADABLE, message).hint("name another folder"));
    }
    let mut taken = files.iter().map(|(path, _)| folder.join(path));
    let Some(taken) = taken.find(|path| is_there(path)) else {
        return Ok(());
    };
    let message = format!(
        "`{}` is there already; nothing was written",
        taken.display()
    );
    let hint = if taken.ends_with(SHOP_FILE) {
        "this folder is a shop: `faceside check` tells its state; or name a new folder"
    } else {
        "name a new folder, or move that file away"
    };
    Err(Fault::error(Code::FILE_UNREADABLE, message).hint(hint))
}

/// The files in a temporary folder below `above`, flushed.
fn written(above: &Path, files: &[(PathBuf, Vec<u8>)]) -> io::Result<TempDir> {
    let temp = Builder::new()
        .prefix(".faceside-")
        .suffix(".tmp")
        .tempdir_in(above)?;
    for (path, bytes) in files {
        let path = temp.path().join(path);
        fs::create_dir_all(parent(&path))?;
        let mut file = File::options().write(true).create_new(true).open(&path)?;
        file.write_all(bytes)?;
        file.sync_all()?;
        sync_folder(parent(&path))?;
    }
    Ok(temp)
}

/// Moves the files to their places, the last of the list first.
fn move_in(from: &Path, to: &Path, files: &[(PathBuf, Vec<u8>)]) -> io::Result<()> {
    let mut done = Vec::new();
    for (path, _) in files.iter().rev() {
        let target = to.join(path);
        let moved = make_folders(parent(&target), &mut done)
            .and_then(|()| move_one(&from.join(path), &target))
            .inspect(|()| done.push(target.clone()))
            .and_then(|()| sync_folder(parent(&target)));
        if let Err(error) = moved {
            take_back(&done);
            return Err(error);
        }
    }
    Ok(())
}

fn make_folders(folder: &Path, done: &mut Vec<PathBuf>) -> io::Result<()> {
    if folder.is_dir() {
        return Ok(());
    }
    make_folders(parent(folder), done)?;
    fs::create_dir(folder)?;
    done.push(folder.to_owned());
    Ok(())
}

/// Moves a file to a place that must be free.
fn move_one(from: &Path, to: &Path) -> io::Result<()> {
    let moved = TempPath::try_from_path(from)?.persist_noclobber(to);
    moved.map_err(|error| error.error)
}

/// Undoes what was done, the last first. What cannot be undone is left: the first error is told.
fn take_back(done: &[PathBuf]) {
    for path in done.iter().rev() {
        let _ = if path.is_dir() {
            fs::remove_dir(path)
        } else {
            fs::remove_file(path)
        };
    }
}
