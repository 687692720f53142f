//! Where things stand in the site: pages by their ids, for links that are followed by the thousand.

use std::collections::{BTreeMap, BTreeSet};
use std::hash::Hash;

use super::inert::slug;
use super::listed;
use super::pages::{CautionPage, Links, NotePage, SitePages};

/// The pages of a site by what leads to them.
pub(super) struct Places<'p> {
    pages: &'p SitePages<'p>,
    /// Titles of procedures by their ids.
    procedures: BTreeMap<String, String>,
    left_out: BTreeSet<&'p str>,
    notes: BTreeSet<&'p str>,
    /// Notes by what they bear on.
    bearing: BTreeMap<&'p str, Vec<&'p NotePage>>,
}

impl<'p> Places<'p> {
    /// The places of these pages.
    pub(super) fn of(pages: &'p SitePages<'p>) -> Self {
        let heads = pages.procedures.heads().into_iter();
        let mut bearing: BTreeMap<&str, Vec<&NotePage>> = BTreeMap::new();
        for note in &pages.notes {
            let about: BTreeSet<&str> = note.about.iter().map(String::as_str).collect();
            for id in about {
                bearing.entry(id).or_default().push(note);
            }
        }
        Self {
            pages,
            procedures: heads.map(|head| (head.id, head.title)).collect(),
            left_out: pages.left_out.iter().map(String::as_str).collect(),
            notes: pages.notes.iter().map(|one| one.id.as_str()).collect(),
            bearing,
        }
    }

    /// Ids of procedures, with and without a page, and of notes: in two sites in which these are
    /// the same, a link in a text leads to the same.
    pub(super) fn ids(&self) -> impl Hash {
        let procedures: Vec<&String> = self.procedures.keys().collect();
        (procedures, &self.left_out, &self.notes)
    }

    /// The pages of procedures and calculators, in this order; what has none is left out.
    pub(super) fn all_of(&self, ids: &[String]) -> Links {
        let ids = ids.iter();
        ids.filter_map(|id| self.linked(id, "../")).collect()
    }

    /// The page of a procedure or a calculator by its id.
    pub(super) fn linked(&self, id: &str, root: &str) -> Option<(String, String, String)> {
        if let Some(title) = self.procedures.get(id) {
            let address = listed::address(root, id);
            return Some((title.clone(), address, String::new()));
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
