//! `faceside site --watch`: the pages built anew at each change and served on this machine.
//!
//! A fault is told with its place, and the last good pages stay where they are until it is mended.

use std::path::Path;
use std::sync::{Arc, Mutex, PoisonError};

use super::args::Common;
use super::clock::time;
use super::open::{folder, unit};
use super::output::Output;
use super::site::files;
use super::{End, Stop};
use crate::diag::{Code, Fault, Faults, Severity};
use crate::store::{Server, Watch, Workshop, replace_folder};

/// Exit code of a program that an interrupt ended, as shells know it: 128 and the signal's number.
const INTERRUPTED: i32 = 130;

/// Builds, waits for a change, and so on.
pub(super) fn watch(
    port: Option<u16>,
    pages: &Path,
    common: &Common,
    out: &mut Output,
) -> Result<End, Stop> {
    let Some(shop) = folder(common)? else {
        let fault = Fault::error(Code::FILE_UNREADABLE, "the built-in library never changes");
        return Err(Stop::Usage(
            fault.hint("go into the folder of a shop; `faceside start` makes one"),
        ));
    };
    // The watch begins before the first look, so that no change falls between the two.
    let mut watch = Watch::new(Some(&shop), &[])?;
    if watch.would_tell(pages) {
        let message = format!("`{}` is among the files that are watched", pages.display());
        let fault = Fault::error(Code::FILE_UNREADABLE, message);
        return Err(Stop::Usage(fault.hint(
            "name a folder that holds no files of the shop, such as `out/site`",
        )));
    }
    let server = Server::begin(pages, port.unwrap_or(0))?;
    let building = end_between_builds()?;
    out.say(&format!("{}  until Ctrl-C", server.address()));
    while !out.is_closed() {
        let said = match build(&shop, pages, common, &building) {
            Ok(count) => {
                server.changed();
                format!("{count} files: {}", server.address())
            }
            Err(faults) => {
                let errors = faults.iter().filter(|one| one.severity == Severity::Error);
                out.report(errors);
                "errors above: the pages stay as they were".to_owned()
            }
        };
        out.say(&format!("{}  {said}", time()));
        watch.wait()?;
    }
    Ok(End::Done)
}

/// Builds the whole site; gives how many files it has.
fn build(
    shop: &Path,
    pages: &Path,
    common: &Common,
    building: &Mutex<()>,
) -> Result<usize, Faults> {
    let (workshop, mut faults) = Workshop::open(Some(shop), unit(common))?;
    faults.extend(workshop.broken());
    if faults.any_error() {
        return Err(faults);
    }
    let files = files(&workshop)?;
    let _whole = building.lock().unwrap_or_else(PoisonError::into_inner);
    replace_folder(pages, &files)?;
    Ok(files.len())
}

/// Lets an interrupt end the program while the lock that it gives is free, so that nothing of a
/// folder half built is left beside it.
fn end_between_builds() -> Result<Arc<Mutex<()>>, Fault> {
    let building = Arc::new(Mutex::new(()));
    let held = Arc::clone(&building);
    let end = move || {
        let _whole = held.lock().unwrap_or_else(PoisonError::into_inner);
        std::process::exit(INTERRUPTED);
    };
    ctrlc::set_handler(end).map_err(|error| {
        Fault::error(
            Code::FILE_UNREADABLE,
            format!("the system tells of no interrupt: {error}"),
        )
    })?;
    Ok(building)
}
