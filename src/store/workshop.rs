//! Everything that the shop knows, read and joined: the shop's own files over the built-in ones.
//!
//! Without a shop's habits, machines, cutters and cautions nothing can be filled, so a fault in
//! those stops; a fault in a procedure, note or job leaves the others usable.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};
use std::sync::Arc;

use super::known::Known;
use super::links::Names;
use super::record::read_record;
use super::{File, Files, Role};
use crate::caution::{Book, Limits};
use crate::cores::each as each_of;
use crate::diag::{Code, Fault, Faults, Source};
use crate::jobs::Job;
use crate::procedure::{
    Floor, FloorFiles, Procedure, Routines, Workplace, check, check_routine, lacking,
};
use crate::search::{Note, Speech, Terms};
use crate::shop::{Cutter, Machine, Shop};
use crate::shoplog::Person;
use crate::training::read_people;
use crate::units::Unit;

/// The open shop.
#[derive(Debug)]
pub struct Workshop {
    /// The shop's folder; none for the built-in demo.
    pub folder: Option<PathBuf>,
    /// The files that its floor was read from.
    pub floor_files: FloorFiles,
    /// The files of its words.
    pub terms_files: Vec<Arc<Source>>,
    /// Its habits.
    pub shop: Shop,
    /// Its machines.
    pub machines: Vec<Machine>,
    /// Its cutters.
    pub cutters: Vec<Cutter>,
    /// Who may sign others off in every procedure.
    pub instructors: Vec<Person>,
    /// Cautions.
    pub book: Book,
    /// What a sheet is and is not.
    pub limits: Limits,
    /// Runs of steps that procedures share.
    pub routines: Routines,
    /// Procedures by id.
    pub procedures: BTreeMap<String, Arc<Procedure>>,
    /// Ids of those that are inside the program.
    pub built_in: BTreeSet<String>,
    /// Procedures that could be read but hold an error; good for checking only.
    pub drafts: Vec<Arc<Procedure>>,
    /// Notes by id.
    pub notes: BTreeMap<String, Arc<Note>>,
    /// Terms and synonyms.
    pub terms: Terms,
    /// Job files by id: the name of the file without its ending.
    pub jobs: BTreeMap<String, Arc<Source>>,
    /// Files of the shop record.
    pub record: Vec<Arc<Source>>,
}

impl Workshop {
    /// Opens a shop folder, or the built-in demo shop. `units` goes before the shop's own unit.
    ///
    /// Gives the faults that leave the rest usable beside the shop.
    ///
    /// # Errors
    /// The faults of the shop's habits, machines, cutters and cautions, and then those of all other
    /// files that can be told without them.
    pub fn open(folder: Option<&Path>, units: Option<Unit>) -> Result<(Self, Faults), Faults> {
        Self::open_again(folder, units, &mut Known::default())
    }

    /// Opens a shop that was opened before: of procedures and notes only those are read that are
    /// not `known`, or have changed since.
    ///
    /// # Errors
    /// As [`open`](Self::open).
    pub fn open_again(
        folder: Option<&Path>,
        units: Option<Unit>,
        known: &mut Known,
    ) -> Result<(Self, Faults), Faults> {
        let (files, mut loose) = Files::read(folder);
        let of = |role| sources(files.of(role));
        let of_one_shop = |role| sources(files.of_one_shop(role));
        let floor_files = FloorFiles {
            shop: of_one_shop(Role::Shop),
            machines: of_one_shop(Role::Machines),
            cutters: of_one_shop(Role::Cutters),
            cautions: of(Role::Caution),
            routines: of(Role::Routines),
        };
        let (floor, mut firm, faults) = Floor::read(&floor_files, units);
        let Floor {
            shop,
            machines,
            cutters,
            book,
            routines,
        } = floor;
        let (record, told) = read_record(&home(folder));
        loose.extend(told);
        loose.extend(faults);
        known.read(&files, (&floor_files.routines, &routines));
        let (procedures, built_in, drafts) = procedures(&files, known, &mut loose);
        let notes = notes(&files, known, &mut loose);
        let terms = terms(&files, &mut loose);
        let jobs = jobs(&files, folder.is_some());
        let instructors = instructors(&files, &mut loose);
        let (Some(shop), Some(limits), false) = (shop, book.limits().cloned(), firm.any_error())
        else {
            let jobs = jobs.values().filter_map(|source| Job::read(source).err());
            firm.extend(loose);
            firm.extend(jobs.flatten());
            return Err(firm);
        };
        loose.extend(firm);
        let workshop = Self {
            folder: folder.map(Path::to_owned),
            floor_files,
            terms_files: of(Role::Terms),
            machines,
            cutters,
            instructors,
            book: book.with_jurisdiction(shop.jurisdiction),
            shop,
            limits,
            routines,
            procedures,
            built_in,
            drafts,
            notes,
            terms,
            jobs,
            record,
        };
        Ok((workshop, loose))
    }

    /// The folder that the record is kept in: the shop's, or `out` when there is no shop.
    pub fn home(&self) -> PathBuf {
        home(self.folder.as_deref())
    }

    /// What procedures are filled from.
    pub fn place(&self) -> Workplace<'_> {
        Workplace {
            shop: &self.shop,
            machines: &self.machines,
            cutters: &self.cutters,
            book: &self.book,
        }
    }

    /// The words of the shop's region.
    pub fn speech(&self) -> Speech {
        Speech::of(self.shop.region, &self.terms)
    }

    /// The procedures that this shop has all machines for.
    pub fn usable(&self) -> impl Iterator<Item = &Procedure> {
        let procedures = self.procedures.values().map(Arc::as_ref);
        procedures.filter(|procedure| lacking(procedure, self.place()).is_none())
    }

    /// Whether a procedure is the program's own in somebody's shop, who may never want it.
    pub fn is_borrowed(&self, procedure: &Procedure) -> bool {
        self.folder.is_some() && self.built_in.contains(&procedure.id)
    }

    /// Checks every procedure but those of the program that this shop has no machine for, and
    /// every link between files.
    pub fn check(&self) -> Faults {
        let mut faults = Faults::new();
        faults.extend(self.routines.iter().flat_map(check_routine));
        faults.extend(self.ring());
        let procedures = self.procedures.values().filter(|procedure| {
            !self.is_borrowed(procedure) || lacking(procedure, self.place()).is_none()
        });
        let procedures: Vec<&Procedure> = procedures.chain(&self.drafts).map(Arc::as_ref).collect();
        let checked = each_of(&procedures, |procedure| check(procedure, self.place()));
        for (procedure, told) in procedures.into_iter().zip(checked) {
            faults.extend(told);
            for (id, place) in &procedure.after {
                if !self.procedures.contains_key(id) {
                    let message = format!("no procedure has the id `{id}`");
                    let near = crate::diag::nearest(id, self.procedures.keys().map(String::as_str));
                    let hint = match near {
                        Some(near) => format!("did you mean `{near}`?"),
                        None => "take it out, or write that procedure".to_owned(),
                    };
                    let fault = Fault::error(Code::LINK_BROKEN, message).at(place.clone());
                    faults.push(fault.hint(hint));
                }
            }
        }
        faults.extend(self.broken());
        faults
    }

    /// What all notes lead to and is not there.
    pub fn broken(&self) -> Faults {
        let names = Names::of(self);
        self.notes
            .values()
            .flat_map(|note| names.broken(note))
            .collect()
    }

    /// What a note, of this shop or not yet of it, leads to and is not there.
    pub fn broken_links(&self, note: &Note) -> Faults {
        Names::of(self).broken(note)
    }
}

impl Workshop {
    /// A procedure that is learned after itself, by whatever way round.
    fn ring(&self) -> Option<Fault> {
        let mut done: BTreeSet<&str> = BTreeSet::new();
        for start in self.procedures.keys() {
            // Depth first, with the way that led here; what was left without a ring is done.
            let mut way: Vec<(&str, usize)> = vec![(start, 0)];
            while let Some((id, next)) = way.last().copied() {
                let after = self.procedures.get(id).map(|one| one.after.get(next));
                let Some(Some((before, place))) = after else {
                    done.insert(id);
                    way.pop();
                    continue;
                };
                if let Some(last) = way.last_mut() {
                    last.1 += 1;
                }
                if way.iter().any(|(id, _)| id == before) {
                    let message = format!("`{before}` is learned before itself");
                    let fault = Fault::error(Code::AFTER_RING, message).at(place.clone());
                    return Some(fault.hint("take it out of `after` here, or there"));
                }
                if !done.contains(before.as_str()) {
                    way.push((before, 0));
                }
            }
        }
        None
    }
}

fn home(folder: Option<&Path>) -> PathBuf {
    folder.map_or_else(|| PathBuf::from("out"), Path::to_owned)
}

fn sources<'f>(files: impl Iterator<Item = &'f File>) -> Vec<Arc<Source>> {
    files.map(|file| Arc::clone(&file.source)).collect()
}

/// Procedures by id.
type ById = BTreeMap<String, Arc<Procedure>>;

/// Procedures by id, and the ids of those inside the program; and those with an error, which are
/// only checked on.
fn procedures(
    files: &Files,
    known: &Known,
    faults: &mut Faults,
) -> (ById, BTreeSet<String>, Vec<Arc<Procedure>>) {
    let mut all: BTreeMap<String, (Arc<Procedure>, bool)> = BTreeMap::new();
    let mut drafts = Vec::new();
    for file in files.of(Role::Procedure) {
        let (procedure, told) = known.procedure(file);
        let is_draft = told.any_error();
        faults.extend(told);
        let Some(procedure) = procedure else { continue };
        if is_draft {
            drafts.push(procedure);
            continue;
        }
        let place = procedure.id_place.clone();
        let (id, built_in) = (procedure.id.clone(), file.built_in);
        let before = all.insert(id.clone(), (procedure, built_in));
        faults.extend(before.map(|(before, was_built_in)| {
            replaced(&id, was_built_in && !built_in, "procedure")
                .at(place)
                .also(before.id_place.clone(), "the other one")
        }));
    }
    let built_in = all.iter().filter(|(_, (_, built_in))| *built_in);
    let built_in = built_in.map(|(id, _)| id.clone()).collect();
    let procedures = all.into_iter().map(|(id, (procedure, _))| (id, procedure));
    (procedures.collect(), built_in, drafts)
}

/// One id twice: an own file over a built-in one is told, anything else is a mistake.
fn replaced(id: &str, is_overlay: bool, what: &str) -> Fault {
    if is_overlay {
        let message = format!("the shop's own {what} `{id}` replaces the built-in one");
        return Fault::warning(Code::OVERLAID, message);
    }
    Fault::error(
        Code::DUPLICATE_ID,
        format!("two {what}s have the id `{id}`"),
    )
    .hint("give one of them another id")
}

fn notes(files: &Files, known: &Known, faults: &mut Faults) -> BTreeMap<String, Arc<Note>> {
    let mut all: BTreeMap<String, (Arc<Note>, bool)> = BTreeMap::new();
    for file in files.of(Role::Note).filter(|file| !is_readme(file)) {
        match known.note(file) {
            Ok(note) => {
                let (id, built_in) = (note.id.clone(), file.built_in);
                let before = all.insert(id.clone(), (note, built_in));
                faults.extend(before.map(|(_, was_built_in)| {
                    replaced(&id, was_built_in && !built_in, "note").at(crate::diag::Span::new(
                        &file.source,
                        0,
                        0,
                    ))
                }));
            }
            Err(told) => faults.extend(told),
        }
    }
    all.into_iter().map(|(id, (note, _))| (id, note)).collect()
}

fn terms(files: &Files, faults: &mut Faults) -> Terms {
    let mut all = Terms::default();
    for file in files.of(Role::Terms) {
        let (terms, told) = Terms::read(&file.source);
        faults.extend(told);
        for word in all.overlay(terms) {
            let message = format!("the shop's own term `{word}` replaces the built-in one");
            faults.push(Fault::warning(Code::OVERLAID, message));
        }
    }
    all
}

fn instructors(files: &Files, faults: &mut Faults) -> Vec<Person> {
    let mut all = Vec::new();
    for file in files.of_one_shop(Role::People) {
        let (people, told) = read_people(&file.source);
        faults.extend(told);
        all.extend(people);
    }
    all
}

fn is_readme(file: &File) -> bool {
    file.path.rsplit('/').next() == Some("README.md")
}

/// Job files by the name of the file; a shop with a folder of its own does not see the demo's.
fn jobs(files: &Files, own: bool) -> BTreeMap<String, Arc<Source>> {
    let files = files.of(Role::Job).filter(|file| !(own && file.built_in));
    files
        .map(|file| {
            let name = file.path.rsplit('/').next().unwrap_or(&file.path);
            (
                name.trim_end_matches(".yaml").to_owned(),
                Arc::clone(&file.source),
            )
        })
        .collect()
}
