//! The files that a shop floor is described by, read and laid together: habits, machines, cutters,
//! cautions, runs of steps.
//!
//! Who opens the shop says which files count and in which order; a page that fills its procedure
//! anew is handed their texts, so that it reads the same.

use std::sync::Arc;

use super::routine::Routines;
use crate::caution::Book;
use crate::diag::{Code, Fault, Faults, Source};
use crate::shop::{Cutter, Machine, Shop, read_cutters, read_machines, read_shop};
use crate::units::Unit;

/// The files by what they hold, each list in the order in which it is read: built-in ones first.
#[derive(Debug, Clone, Default)]
pub struct FloorFiles {
    /// Habits; the last that can be read counts.
    pub shop: Vec<Arc<Source>>,
    /// Machines.
    pub machines: Vec<Arc<Source>>,
    /// Cutters.
    pub cutters: Vec<Arc<Source>>,
    /// Cautions.
    pub cautions: Vec<Arc<Source>>,
    /// Runs of steps.
    pub routines: Vec<Arc<Source>>,
}

/// What was read of them, the faulty left out.
#[derive(Debug)]
pub struct Floor {
    /// Habits; none when none could be read.
    pub shop: Option<Shop>,
    /// Machines.
    pub machines: Vec<Machine>,
    /// Cutters.
    pub cutters: Vec<Cutter>,
    /// Cautions, not yet of a jurisdiction.
    pub book: Book,
    /// Runs of steps.
    pub routines: Routines,
}

impl Floor {
    /// Reads the files; `units` goes before the shop's own unit. The first faults are those without
    /// whose cure nothing can be filled, the second those of the runs of steps.
    pub fn read(files: &FloorFiles, units: Option<Unit>) -> (Self, Faults, Faults) {
        let mut firm = Faults::new();
        let shop = shop(&files.shop, units, &mut firm);
        let unit = shop.as_ref().map_or(Unit::Mm, |shop| shop.units);
        let machines = each(&files.machines, &mut firm, |source| {
            read_machines(source, unit)
        });
        let cutters = each(&files.cutters, &mut firm, |source| {
            read_cutters(source, unit)
        });
        let (book, faults) = Book::read(&files.cautions);
        firm.extend(faults);
        firm.extend(book.check());
        let mut loose = Faults::new();
        let floor = Self {
            shop,
            machines,
            cutters,
            book,
            routines: routines(&files.routines, &mut loose),
        };
        (floor, firm, loose)
    }
}

fn shop(files: &[Arc<Source>], units: Option<Unit>, faults: &mut Faults) -> Option<Shop> {
    let mut shop = None;
    for source in files {
        let (read, told) = read_shop(source);
        faults.extend(told);
        shop = read.or(shop);
    }
    shop.map(|shop: Shop| Shop {
        units: units.unwrap_or(shop.units),
        ..shop
    })
}

fn each<T>(
    files: &[Arc<Source>],
    faults: &mut Faults,
    read: impl Fn(&Arc<Source>) -> (Vec<T>, Faults),
) -> Vec<T> {
    let mut all = Vec::new();
    for source in files {
        let (some, told) = read(source);
        all.extend(some);
        faults.extend(told);
    }
    all
}

fn routines(files: &[Arc<Source>], faults: &mut Faults) -> Routines {
    let mut all = Routines::default();
    for source in files {
        let (routines, told) = Routines::read(source);
        faults.extend(told);
        for (id, place) in all.overlay(routines) {
            let message = format!("the shop's own routine `{id}` replaces the built-in one");
            faults.push(Fault::warning(Code::OVERLAID, message).at(place));
        }
    }
    all
}
