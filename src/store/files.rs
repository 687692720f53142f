//! All files that the program reads, by what they are for.
//!
//! The built-in library and demo shop are inside the program; a shop folder has the same shape.
//! Files come in a fixed order: the built-in ones first, each part sorted by path.

use std::path::Path;
use std::sync::Arc;

use include_dir::{Dir, include_dir};

use super::own::read_own;
use crate::diag::{Faults, Source};
use crate::yaml::source;

/// Everything below `procedures/`, inside the program.
pub(super) static BUILT_IN: Dir<'_> = include_dir!("$CARGO_MANIFEST_DIR/procedures");

/// What a file is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Role {
    /// `shop.yaml`.
    Shop,
    /// `machines.yaml`.
    Machines,
    /// `cutters.yaml`.
    Cutters,
    /// `people.yaml`.
    People,
    /// `routines.yaml`.
    Routines,
    /// A procedure.
    Procedure,
    /// Cautions of a machine, or the coverage matrix.
    Caution,
    /// A note in Markdown.
    Note,
    /// `terms.yaml`.
    Terms,
    /// A job.
    Job,
}

/// A file that was read.
#[derive(Debug, Clone)]
pub struct File {
    /// What it is for.
    pub role: Role,
    /// Path below the shop folder with `/`, or below `procedures/` for a built-in one.
    pub path: String,
    /// Whether it is inside the program.
    pub built_in: bool,
    /// Its text, under the name that its user knows it by.
    pub source: Arc<Source>,
}

/// All files, those that could not be read left out.
#[derive(Debug, Clone, Default)]
pub struct Files {
    list: Vec<File>,
}

impl Files {
    /// Reads the built-in files, and those of a shop folder when there is one. A file that cannot
    /// be read is a fault; the others are read all the same.
    pub fn read(shop: Option<&Path>) -> (Self, Faults) {
        let mut faults = Faults::new();
        let mut list = built_in(&mut faults);
        if let Some(folder) = shop {
            list.extend(read_own(folder, &mut faults));
        }
        (Self { list }, faults)
    }

    /// The files of a role: the built-in ones, then the shop's own.
    pub fn of(&self, role: Role) -> impl Iterator<Item = &File> {
        self.list.iter().filter(move |file| file.role == role)
    }

    /// The files of a role that describe one shop: its own when there is a shop folder, else the
    /// demo shop's. The demo shop's machines and cutters are in nobody's drawer.
    pub fn of_one_shop(&self, role: Role) -> impl Iterator<Item = &File> {
        let own = self.list.iter().any(|file| !file.built_in);
        self.of(role).filter(move |file| file.built_in != own)
    }
}

fn built_in(faults: &mut Faults) -> Vec<File> {
    let mut list = Vec::new();
    gather(&BUILT_IN, faults, &mut list);
    list.sort_by(|a: &File, b| a.path.cmp(&b.path));
    list
}

fn gather(folder: &Dir<'static>, faults: &mut Faults, list: &mut Vec<File>) {
    for inner in folder.dirs() {
        gather(inner, faults, list);
    }
    for file in folder.files() {
        let path = file.path().to_string_lossy().replace('\\', "/");
        let Some(role) = built_in_role(&path) else {
            continue;
        };
        let read = source(&format!("procedures/{path}"), file.contents());
        list.extend(faults.keep(read).map(|source| File {
            role,
            path,
            built_in: true,
            source,
        }));
    }
}

/// The built-in library keeps its demo shop in a folder of its own, and its procedures in
/// `joints` and `machines`. What `start` writes is in `start`, where nothing is read.
fn built_in_role(path: &str) -> Option<Role> {
    match path.strip_prefix("shop/") {
        Some(of_shop) => role(of_shop),
        None if path.starts_with("joints/") || path.starts_with("machines/") => {
            role(&format!("procedures/{path}"))
        }
        None => role(path),
    }
}

/// The role of a path below a shop folder; nothing for a file that is not read.
pub(super) fn role(path: &str) -> Option<Role> {
    let (top, below) = path.split_once('/').unwrap_or(("", path));
    let ending = below.rsplit_once('.').map_or("", |(_, ending)| ending);
    match (top, below, ending) {
        ("", "shop.yaml", _) => Some(Role::Shop),
        ("", "machines.yaml", _) => Some(Role::Machines),
        ("", "cutters.yaml", _) => Some(Role::Cutters),
        ("", "people.yaml", _) => Some(Role::People),
        ("", "terms.yaml", _) => Some(Role::Terms),
        ("", "routines.yaml", _) => Some(Role::Routines),
        ("procedures", _, "yaml") => Some(Role::Procedure),
        ("cautions", name, "yaml") if !name.contains('/') => Some(Role::Caution),
        ("jobs", name, "yaml") if !name.contains('/') => Some(Role::Job),
        ("notes", _, "md") => Some(Role::Note),
        _ => None,
    }
}
