//! One file, whole: written beside its place, flushed to the disk, then renamed over it.
//!
//! A kill leaves the old file or the new one; it may also leave a file `.faceside-*.tmp` beside
//! it, which nothing reads and which may be deleted.

use std::fs;
use std::io::{self, Write};
use std::path::Path;

use tempfile::Builder;

use crate::diag::{Code, Fault};

/// Writes a file whole; its folder is made when it is not there.
///
/// # Errors
/// `file-unreadable` with the path; the old file is then as it was.
pub fn write_whole(path: &Path, bytes: &[u8]) -> Result<(), Fault> {
    let folder = parent(path);
    let write = || -> io::Result<()> {
        fs::create_dir_all(folder)?;
        let mut builder = Builder::new();
        builder.prefix(".faceside-").suffix(".tmp");
        // The usual rights of a new file, less what the user's mask takes away.
        #[cfg(unix)]
        builder.permissions(std::os::unix::fs::PermissionsExt::from_mode(0o666));
        let mut file = builder.tempfile_in(folder)?;
        file.write_all(bytes)?;
        file.as_file().sync_all()?;
        file.persist(path).map_err(|error| error.error)?;
        sync_folder(folder)
    };
    write().map_err(|error| unwritable(path, &error))
}

/// The folder that a path is in.
pub(super) fn parent(path: &Path) -> &Path {
    match path.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    }
}

/// Makes names in a folder last; only Unix lets a folder be opened for that, and not every file
/// system knows what it means.
pub(super) fn sync_folder(folder: &Path) -> io::Result<()> {
    if !cfg!(unix) {
        return Ok(());
    }
    match fs::File::open(folder)?.sync_all() {
        Err(error) if matches!(error.kind(), io::ErrorKind::InvalidInput) => Ok(()),
        result => result,
    }
}

/// Makes all that is in a folder last. Linux does it for a whole file system in one call, which a
/// folder of thousands of files is glad of; elsewhere each file is flushed.
#[cfg(target_os = "linux")]
pub(super) fn flush(folder: &Path) -> io::Result<()> {
    rustix::fs::syncfs(fs::File::open(folder)?).map_err(io::Error::from)
}

/// Makes all that is in a folder last.
#[cfg(not(target_os = "linux"))]
pub(super) fn flush(folder: &Path) -> io::Result<()> {
    for entry in fs::read_dir(folder)? {
        let entry = entry?;
        if entry.file_type()?.is_dir() {
            flush(&entry.path())?;
        } else {
            fs::File::options()
                .append(true)
                .open(entry.path())?
                .sync_all()?;
        }
    }
    sync_folder(folder)
}

/// The fault of something that cannot be written.
pub(super) fn unwritable(path: &Path, error: &io::Error) -> Fault {
    let message = format!("`{}` cannot be written: {error}", path.display());
    Fault::error(Code::FILE_UNREADABLE, message).hint(
        "check that the folder is there, that you may write in it, and that the disk has room",
    )
}
