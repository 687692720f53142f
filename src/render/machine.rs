//! The page of a machine: what the shop has of it, its cautions in the order in which a sheet
//! prints them, and the procedures that use it.

use super::block::{Block, Panel, heading, section, words};
use super::listed::Listed;
use super::pages::{CautionPage, CautionText, SitePages, contents, facts};
use super::set_up::in_words;
use super::site::title;
use crate::caution::Stands;

/// Places where cautions stand, in the order of a sheet: id, heading.
const PLACES: [(Stands, &str, &str); 5] = [
    (Stands::Sheet, "sheet", "At the head of the sheet"),
    (
        Stands::Adjust,
        "adjust",
        "Before each change of the cutter or near it",
    ),
    (Stands::Cut, "cut", "Before each cut"),
    (Stands::Hand, "hand", "Before each step with edge tools"),
    (Stands::Glue, "glue", "Before each step with glue or finish"),
];

/// The page of a machine's cautions.
pub(super) fn page(pages: &SitePages, listed: &[Listed], page: &CautionPage) -> Vec<Block> {
    let mut blocks = vec![Block::Para {
        text: words(
            "That no caution stands here for a cut never means that the cut is safe. A sheet \
             prints each caution before what it guards.",
        ),
    }];
    let own = pages.machines.iter().filter(|one| one.kind == page.machine);
    let own: Vec<_> = own.collect();
    if !own.is_empty() {
        blocks.push(section("In this shop", "in-this-shop"));
    }
    for one in &own {
        if own.len() > 1 {
            blocks.push(heading(&title(&one.name)));
        }
        blocks.push(Block::Facts {
            rows: one.facts.clone(),
        });
    }
    for (stands, id, name) in PLACES {
        let mut rules = page.rules.iter().filter(|rule| rule.stands == stands);
        let Some(first) = rules.next() else { continue };
        blocks.push(section(&format!("Cautions: {}", lower(name)), id));
        caution(&mut blocks, first);
        rules.for_each(|rule| caution(&mut blocks, rule));
    }
    let used = procedures(
        listed,
        &own.iter().map(|one| one.id.as_str()).collect::<Vec<_>>(),
    );
    if !used.is_empty() {
        blocks.push(section("Procedures at this machine", "procedures"));
        blocks.push(Block::Links { rows: used });
    }
    let contents = Block::Contents {
        rows: contents(&blocks, |_| String::new()),
    };
    blocks.insert(1, contents);
    blocks
}

fn lower(name: &str) -> String {
    let mut letters = name.chars();
    let first = letters.next().map(|one| one.to_ascii_lowercase());
    first.into_iter().chain(letters).collect()
}

fn caution(blocks: &mut Vec<Block>, rule: &CautionText) {
    let says = rule.says.each_ref().map(String::as_str);
    blocks.push(Block::Standing {
        cautions: vec![Panel::of(rule.signal, says)],
    });
    blocks.push(facts(&[
        ("id", rule.id.clone()),
        ("for", rule.operations.join(", ")),
        ("when", in_words(&rule.when)),
        ("source", rule.sources.join("; ")),
    ]));
}

/// Procedures with a set-up at one of these machines: title, address, its set-ups there.
fn procedures(listed: &[Listed], machines: &[&str]) -> Vec<(String, String, String)> {
    let mut rows = Vec::new();
    for one in listed {
        let there = one.at_machines.iter();
        let there = there.filter(|(id, _)| machines.contains(&id.as_str()));
        let there: Vec<&str> = there.map(|(_, title)| title.as_str()).collect();
        if !there.is_empty() {
            let (name, address) = one.link("../");
            rows.push((name, address, there.join("; ")));
        }
    }
    rows
}
