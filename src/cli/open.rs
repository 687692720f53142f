//! Opens the shop that a command works on.

use std::path::{Path, PathBuf};

use super::Stop;
use super::args::{Common, UnitWord};
use super::output::Output;
use crate::diag::{Code, Fault, Severity};
use crate::shoplog::{Standing, standing};
use crate::store::{Workshop, find_shop};
use crate::units::Unit;

/// The unit that was asked for on the command line.
pub(super) fn unit(common: &Common) -> Option<Unit> {
    common.units.map(|word| match word {
        UnitWord::Mm => Unit::Mm,
        UnitWord::In => Unit::Inch,
    })
}

/// Opens the shop; what is wrong but leaves the rest usable is told as warnings.
pub(super) fn open(common: &Common, out: &Output) -> Result<Workshop, Stop> {
    let folder = folder(common)?;
    let (workshop, loose) = Workshop::open(folder.as_deref(), unit(common))?;
    out.report(
        loose
            .iter()
            .filter(|fault| fault.severity == Severity::Error),
    );
    Ok(workshop)
}

/// What holds in the shop's record; lines that were set aside are told.
pub(super) fn events(workshop: &Workshop, out: &Output) -> Vec<Standing> {
    let (events, told) = standing(&workshop.record);
    out.report(told.iter());
    events
}

/// The shop's folder, when there is one.
pub(super) fn folder(common: &Common) -> Result<Option<PathBuf>, Stop> {
    let current = std::env::current_dir().map_err(|error| {
        Fault::error(
            Code::FILE_UNREADABLE,
            format!("the current folder is gone: {error}"),
        )
    })?;
    let found = find_shop(common.shop.as_deref(), None, &current)?;
    Ok(found.map(|folder| from_here(folder, &current)))
}

/// The paths of faults are then as short as they can be typed.
fn from_here(folder: PathBuf, current: &Path) -> PathBuf {
    match current.ancestors().position(|above| above == folder) {
        Some(steps) => std::iter::repeat_n("..", steps).collect(),
        None => folder,
    }
}
