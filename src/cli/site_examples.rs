//! The procedures of the open shop as pages of its site, each filled when its turn comes.

use std::borrow::Cow;
use std::hash::{DefaultHasher, Hash, Hasher};

use crate::cores::each;
use crate::diag::{Faults, Severity};
use crate::procedure::{Procedure, check, example, fill};
use crate::render::{Head, ProcedurePage, Procedures, procedure_fields};
use crate::store::Workshop;

/// The procedures that have a page.
pub(super) struct Examples<'w> {
    workshop: &'w Workshop,
    shown: Vec<Shown<'w>>,
}

struct Shown<'w> {
    procedure: &'w Procedure,
    /// Its page, where that had to be made to know whether it has one.
    page: Option<ProcedurePage>,
}

impl<'w> Examples<'w> {
    /// Those that the shop has all machines for. One of the program's own in somebody's shop that
    /// cannot be filled there has no page; any other must be.
    pub(super) fn of(workshop: &'w Workshop) -> Self {
        let usable: Vec<&Procedure> = workshop.usable().collect();
        let shown = each(&usable, |&procedure| {
            if !workshop.is_borrowed(procedure) {
                let page = None;
                return Some(Shown { procedure, page });
            }
            let page = Some(page(procedure, workshop).ok()?);
            Some(Shown { procedure, page })
        });
        let shown = shown.into_iter().flatten().collect();
        Self { workshop, shown }
    }

    /// Their ids.
    pub(super) fn ids(&self) -> impl Iterator<Item = &str> {
        self.shown.iter().map(|one| one.procedure.id.as_str())
    }
}

impl Procedures for Examples<'_> {
    fn heads(&self) -> Vec<Head> {
        let head = |one: &Shown| Head {
            id: one.procedure.id.clone(),
            title: one.procedure.title.clone(),
            after: after(one.procedure),
        };
        self.shown.iter().map(head).collect()
    }

    fn page(&self, at: usize) -> Result<Cow<'_, ProcedurePage>, Faults> {
        let one = &self.shown[at];
        match &one.page {
            Some(page) => Ok(Cow::Borrowed(page)),
            None => page(one.procedure, self.workshop).map(Cow::Owned),
        }
    }

    fn made_from(&self, at: usize) -> Option<u64> {
        let mut hasher = DefaultHasher::new();
        let source = self.shown[at].procedure.id_place.source();
        (&source.name, &source.text).hash(&mut hasher);
        Some(hasher.finish())
    }
}

fn after(procedure: &Procedure) -> Vec<String> {
    procedure.after.iter().map(|(id, _)| id.clone()).collect()
}

fn page(procedure: &Procedure, workshop: &Workshop) -> Result<ProcedurePage, Faults> {
    let place = workshop.place();
    let mut errors = Faults::new();
    let found = check(procedure, place).into_iter();
    errors.extend(found.filter(|fault| fault.severity == Severity::Error));
    if errors.any_error() {
        return Err(errors);
    }
    Ok(ProcedurePage {
        family: procedure.family.clone(),
        also_called: procedure.also_called.clone(),
        use_when: procedure.use_when.clone(),
        not_for: procedure.not_for.clone(),
        after: after(procedure),
        sources: procedure.sources.clone(),
        example: fill(procedure, place, &example(procedure, place))?,
        fields: procedure_fields(procedure, place),
        yaml: procedure.id_place.source().text.clone(),
    })
}
