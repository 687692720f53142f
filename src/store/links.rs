//! Whether what the notes lead to is there: procedures, calculators, notes, cautions.
//!
//! A procedure with an error in its file counts as there: its own faults are told already.

use std::collections::BTreeSet;

use super::Workshop;
use crate::diag::{Code, Fault, Faults, nearest};
use crate::joints;
use crate::search::{Link, LinkTo, Note};

/// Every name that a note can lead to.
pub(super) struct Names<'w> {
    procedures: BTreeSet<&'w str>,
    figures: BTreeSet<&'w str>,
    /// Procedures and calculators: what a note can be about.
    subjects: BTreeSet<&'w str>,
    notes: BTreeSet<&'w str>,
    cautions: BTreeSet<&'w str>,
}

impl<'w> Names<'w> {
    /// The names of a shop.
    pub(super) fn of(workshop: &'w Workshop) -> Self {
        let drafts = workshop.drafts.iter().map(|draft| draft.id.as_str());
        let procedures = workshop.procedures.keys().map(String::as_str);
        let rules = workshop.book.rules();
        let procedures: BTreeSet<&str> = procedures.chain(drafts).collect();
        let figures: BTreeSet<&str> = joints::ALL.iter().map(|one| one.name).collect();
        Self {
            subjects: procedures.union(&figures).copied().collect(),
            procedures,
            figures,
            notes: workshop.notes.keys().map(String::as_str).collect(),
            cautions: rules
                .flat_map(|rule| [rule.machine.as_str(), rule.id.as_str()])
                .collect(),
        }
    }

    /// A fault for each place of a note that leads nowhere.
    pub(super) fn broken(&self, note: &Note) -> Faults {
        let mut faults = Faults::new();
        for link in &note.links {
            let (what, known) = self.known(link.to);
            let itself = link.to == LinkTo::Note && link.name == note.id;
            if itself || known.contains(link.name.as_str()) {
                continue;
            }
            faults.push(leads_nowhere(link, what, known));
        }
        faults
    }

    fn known(&self, to: LinkTo) -> (&'static str, &BTreeSet<&'w str>) {
        match to {
            LinkTo::Procedure => ("procedure", &self.procedures),
            LinkTo::Figure => ("calculator", &self.figures),
            LinkTo::Note => ("note", &self.notes),
            LinkTo::Caution => ("machine with cautions", &self.cautions),
            LinkTo::About => ("procedure or calculator", &self.subjects),
        }
    }
}

fn leads_nowhere(link: &Link, what: &str, known: &BTreeSet<&str>) -> Fault {
    let message = format!("no {what} is called `{}`", link.name);
    let hint = match nearest(&link.name, known.iter().copied()) {
        Some(near) => format!("did you mean `{near}`?"),
        None => format!("name a {what} that exists, or take it out"),
    };
    Fault::error(Code::LINK_BROKEN, message)
        .at(link.place.clone())
        .hint(hint)
}
