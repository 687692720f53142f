//! Procedures as other pages tell of them, kept when their own pages are made and let go of.

use std::collections::BTreeSet;

use super::inert::slug;
use super::pages::ProcedurePage;
use crate::procedure::Provenance;

/// What the lists and the pages of machines and calculators say of a procedure.
#[derive(Debug, Clone)]
pub(super) struct Listed {
    pub(super) id: String,
    pub(super) title: String,
    pub(super) purpose: String,
    /// Group that it is listed under.
    pub(super) family: String,
    pub(super) revision: String,
    pub(super) reviewed: String,
    /// Calculators that it calls, by the names that formulas use.
    calls: BTreeSet<String>,
    /// Its set-ups at machines: the machine's id, the title.
    pub(super) at_machines: Vec<(String, String)>,
}

impl Listed {
    /// What is kept of a page.
    pub(super) fn of(page: &ProcedurePage) -> Self {
        let example = &page.example;
        let called = example
            .values
            .iter()
            .filter_map(|value| match &value.provenance {
                Provenance::WorkedOut(formula) => Some(formula.split_once('(')?.0.to_owned()),
                _ => None,
            });
        let at_machines = example.set_ups.iter().filter_map(|one| {
            let (machine, _) = one.machine.as_ref()?;
            Some((machine.clone(), one.title.clone()))
        });
        Self {
            id: example.procedure.clone(),
            title: example.title.clone(),
            purpose: example.purpose.clone(),
            family: page.family.clone(),
            revision: example.revision.to_string(),
            reviewed: example.reviewed.clone(),
            calls: called.collect(),
            at_machines: at_machines.collect(),
        }
    }

    /// Whether one of its values comes from this calculator.
    pub(super) fn calls(&self, calculator: &str) -> bool {
        self.calls.contains(&calculator.replace('-', "_"))
    }

    /// Its title and address; `root` leads to the folder of the site.
    pub(super) fn link(&self, root: &str) -> (String, String) {
        (self.title.clone(), address(root, &self.id))
    }
}

/// The address of a procedure's page.
pub(super) fn address(root: &str, id: &str) -> String {
    format!("{root}procedures/{}.html", slug(id))
}
