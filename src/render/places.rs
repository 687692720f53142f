//! Where things stand in the site: pages by their ids, for links that are followed by the thousand.

use std::collections::{BTreeMap, BTreeSet};

use super::inert::slug;
use super::pages::{CautionPage, Links, NotePage, ProcedurePage, SitePages};

/// The pages of a site by what leads to them.
pub(super) struct Places<'p> {
    pages: &'p SitePages,
    procedures: BTreeMap<&'p str, &'p ProcedurePage>,
    left_out: BTreeSet<&'p str>,
    notes: BTreeSet<&'p str>,
    /// Notes by what they bear on.
    bearing: BTreeMap<&'p str, Vec<&'p NotePage>>,
}

impl<'p> Places<'p> {
    /// The places of these pages.
    pub(super) fn of(pages: &'p SitePages) -> Self {
        let id = |one: &'p ProcedurePage| (one.example.procedure.as_str(), one);
        let mut bearing: BTreeMap<&str, Vec<&NotePage>> = BTreeMap::new();
        for note in &pages.notes {
            let about: BTreeSet<&str> = note.about.iter().map(String::as_str).collect();
            for id in about {
                bearing.entry(id).or_default().push(note);
            }
        }
        Self {
            pages,
            procedures: pages.procedures.iter().map(id).collect(),
            left_out: pages.left_out.iter().map(String::as_str).collect(),
            notes: pages.notes.iter().map(|one| one.id.as_str()).collect(),
            bearing,
        }
    }

    /// The page of a procedure or a calculator by its id.
    pub(super) fn linked(&self, id: &str, root: &str) -> Option<(String, String, String)> {
        if let Some(one) = self.procedures.get(id) {
            let (words, address) = one.link(root);
            return Some((words, address, String::new()));
        }
        let found = self.pages.calculators.iter().find(|one| one.name == id)?;
        let address = format!("{root}calculators/{}.html", slug(found.name));
        Some((found.name.to_owned(), address, "calculator".to_owned()))
    }

    /// Notes that bear on a procedure or a calculator.
    pub(super) fn notes_on(&self, id: &str) -> Links {
        let own = self.bearing.get(id).into_iter().flatten();
        own.map(|note| {
            let address = format!("../notes/{}.html", slug(&note.id));
            (note.title.clone(), address, String::new())
        })
        .collect()
    }

    /// The address of a page in the shop's own scheme; a caution leads to the page of its machine.
    /// None when nothing has that name; a procedure that this shop cannot use has no page.
    pub(super) fn address(&self, root: &str, scheme: &str, name: &str) -> Option<Option<String>> {
        let folder = |folder: &str, name: &str| Some(format!("{root}{folder}/{}.html", slug(name)));
        match scheme {
            "procedure" => {
                let shown = self.procedures.contains_key(name);
                let left_out = || self.left_out.contains(name).then_some(None);
                shown.then(|| folder("procedures", name)).or_else(left_out)
            }
            "figure" => {
                let mut all = self.pages.calculators.iter();
                all.any(|one| one.name == name)
                    .then(|| folder("calculators", name))
            }
            "note" => self.notes.contains(name).then(|| folder("notes", name)),
            "caution" => {
                let holds = |page: &&CautionPage| {
                    page.machine == name || page.rules.iter().any(|rule| rule.id == name)
                };
                let page = self.pages.cautions.iter().find(holds)?;
                Some(folder("cautions", &page.machine))
            }
            _ => None,
        }
    }
}
