//! The page about the figures: what the manual does not do, how old its parts are, whom it cites.

use std::collections::{BTreeMap, BTreeSet};

use super::block::{Block, heading};
use super::listed::Listed;
use super::pages::{SitePages, bullets, table};

/// How far the manual is to be trusted, and when its parts were last gone through.
pub(super) fn standing(pages: &SitePages, listed: &[Listed]) -> Vec<Block> {
    let mut blocks = bullets(
        "What this manual does not do",
        &[
            "It does not know the state of a machine.".to_owned(),
            "Nothing in it is certified.".to_owned(),
            "Its sources were last checked on the day below; a law may have changed since."
                .to_owned(),
        ],
    );
    blocks.push(Block::Facts {
        rows: vec![
            ("sources checked".to_owned(), pages.checked.clone()),
            ("pages built".to_owned(), pages.date.clone()),
        ],
    });
    blocks.push(Block::Rule {
        name: "Limits".to_owned(),
        text: pages.limits.long.clone(),
    });
    blocks.push(heading("Procedures: revision and review"));
    let reviewed = listed.iter().map(|one| {
        [&one.title, &one.revision, &one.reviewed]
            .map(Clone::clone)
            .to_vec()
    });
    blocks.push(table(
        &["procedure", "revision", "reviewed"],
        reviewed.collect(),
    ));
    blocks
}

/// Every source that cautions cite, with the machines whose cautions cite it.
pub(super) fn cited(pages: &SitePages) -> Block {
    let mut rows: BTreeMap<&str, BTreeSet<String>> = BTreeMap::new();
    for page in &pages.cautions {
        for source in page.rules.iter().flat_map(|rule| &rule.sources) {
            let machines = rows.entry(source).or_default();
            machines.insert(page.machine.replace('-', " "));
        }
    }
    let row = |(source, machines): (&str, BTreeSet<String>)| {
        let machines: Vec<String> = machines.into_iter().collect();
        vec![source.to_owned(), machines.join(", ")]
    };
    table(
        &["source, its status", "cautions of"],
        rows.into_iter().map(row).collect(),
    )
}
