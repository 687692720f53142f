//! `faceside site --watch`: the pages built anew at each change and served on this machine.
//!
//! A fault is told with its place, and the last good pages stay where they are until it is mended.

use std::path::Path;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Mutex, PoisonError};

use super::args::{Common, Site};
use super::clock::time;
use super::open::{folder, unit};
use super::output::Output;
use super::site::Before;
use super::site_record::Added;
use super::{End, Stop};
use crate::diag::{Code, Fault, Faults, Severity};
use crate::store::{Known, Server, Watch, Workshop};

/// Exit code of a program that an interrupt ended, as shells know it: 128 and the signal's number.
const INTERRUPTED: i32 = 130;

/// Builds, waits for a change, and so on.
pub(super) fn watch(
    typed: &Site,
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
    let server = Server::begin(pages, typed.port.unwrap_or(0))?;
    let interrupt = Interrupt::listen()?;
    out.say(&format!("{}  until Ctrl-C", server.address()));
    let (mut known, mut before) = (Known::default(), Before::default());
    while !out.is_closed() {
        let files = (shop.as_path(), pages, &mut known, &mut before);
        let said = match build(files, (typed, common), &interrupt, out) {
            Ok((count, told)) => {
                server.changed();
                out.report(told.iter());
                format!("{count} files: {}", server.address())
            }
            Err(_) if interrupt.go_on().is_err() => std::process::exit(INTERRUPTED),
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

/// Builds the site, sparing what is known or the same as before; gives how many files it has, and
/// what is to be told of the job in hand.
fn build(
    (shop, pages, known, before): (&Path, &Path, &mut Known, &mut Before),
    (typed, common): (&Site, &Common),
    interrupt: &Interrupt,
    out: &Output,
) -> Result<(usize, Faults), Faults> {
    let (workshop, mut faults) = Workshop::open_again(Some(shop), unit(common), known)?;
    faults.extend(workshop.broken());
    if faults.any_error() {
        return Err(faults);
    }
    let added = Added::of(typed, &workshop, out)?;
    let building = interrupt.building.lock();
    let _whole = building.unwrap_or_else(PoisonError::into_inner);
    let go_on = || interrupt.go_on();
    super::site::build(&workshop, &added, pages, before, go_on)
}

/// Ends the program between two builds, so that nothing of a folder half built is left beside it.
#[derive(Default)]
struct Interrupt {
    building: Mutex<()>,
    came: AtomicBool,
}

impl Interrupt {
    /// Begins to listen for it; where the system has no such signal, it ends the program at once.
    #[cfg(unix)]
    fn listen() -> Result<Arc<Self>, Fault> {
        let own = Arc::new(Self::default());
        let held = Arc::clone(&own);
        let begin = || {
            let mut signals = signal_hook::iterator::Signals::new([signal_hook::consts::SIGINT])?;
            let wait = move || {
                signals.wait().for_each(drop);
                held.came.store(true, Ordering::SeqCst);
                let _whole = held.building.lock().unwrap_or_else(PoisonError::into_inner);
                std::process::exit(INTERRUPTED);
            };
            std::thread::Builder::new().spawn(wait).map(drop)
        };
        begin().map_err(|error: std::io::Error| {
            let message = format!("the system tells of no interrupt: {error}");
            Fault::error(Code::FILE_UNREADABLE, message)
                .hint("without `--watch` the site is built once")
        })?;
        Ok(own)
    }

    #[cfg(not(unix))]
    fn listen() -> Result<Arc<Self>, Fault> {
        Ok(Arc::default())
    }

    /// An error, told to nobody, when a build is to be given up.
    fn go_on(&self) -> Result<(), Fault> {
        if self.came.load(Ordering::SeqCst) {
            return Err(Fault::error(Code::FILE_UNREADABLE, "interrupted"));
        }
        Ok(())
    }
}
