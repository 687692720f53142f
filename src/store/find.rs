//! Where the shop folder is: it is the one that holds a `shop.yaml`.

use std::path::{Path, PathBuf};

use crate::diag::{Code, Fault};

/// Name of the file that makes a folder a shop folder.
pub(super) const SHOP_FILE: &str = "shop.yaml";

/// The shop folder: the one told on the command line, else the one of the environment, else the
/// current folder or the nearest above it that holds a `shop.yaml`; nothing when there is none.
///
/// # Errors
/// `file-unreadable` when a folder was told that is no shop folder: another one is never taken
/// in its place.
pub fn find_shop(
    told: Option<&Path>,
    environment: Option<&Path>,
    current: &Path,
) -> Result<Option<PathBuf>, Fault> {
    let environment = environment.filter(|path| !path.as_os_str().is_empty());
    if let Some(path) = told.or(environment) {
        if path.join(SHOP_FILE).is_file() {
            return Ok(Some(path.to_owned()));
        }
        let message = format!("`{}` holds no `{SHOP_FILE}`", path.display());
        let hint = "name the folder that holds the shop's `shop.yaml`";
        return Err(Fault::error(Code::FILE_UNREADABLE, message).hint(hint));
    }
    let mut above = current.ancestors();
    Ok(above
        .find(|folder| folder.join(SHOP_FILE).is_file())
        .map(Path::to_owned))
}
