//! The page of a procedure: what stays as it is, and what follows from the values that its form
//! holds, which at first are those of the worked example.

use super::block::{Block, drawn, section, words};
use super::form;
use super::pages::{
    LAST_CUT, Links, LiveFloor, ProcedurePage, contents, facts, links, listed, table,
};
use super::set_up;
use crate::diag::Faults;
use crate::procedure::{Filled, FilledSetUp, FilledValue, Provenance, plain};

/// Names of the parts of the page that follow from its form.
pub(super) const CONTENTS: &str = "now-contents";
pub(super) const FILLED: &str = "now-filled";

/// What the values are called in a page as it is built, and in one that somebody has typed into.
pub(super) const EXAMPLE: &str = "Measure and choose: the worked example";
pub(super) const TYPED: &str = "Measure and choose: as typed on this page";

/// A procedure's page; `learn_first` and `notes` hold what comes before it and what bears on it,
/// `history` how it was last cut here.
pub(super) fn procedure(
    page: &ProcedurePage,
    learn_first: Links,
    notes: Links,
    history: &[String],
    floor: &LiveFloor,
) -> Vec<Block> {
    let example = &page.example;
    let mut blocks = vec![Block::Para {
        text: words(&example.purpose),
    }];
    blocks.push(facts(&[
        ("also called", page.also_called.join(", ")),
        ("use it when", page.use_when.clone()),
        ("not for", page.not_for.join(" ")),
        ("done when", example.done_when.clone()),
        ("revision", example.revision.to_string()),
        ("reviewed", example.reviewed.clone()),
    ]));
    let mut before = Vec::new();
    links(&mut before, ("Learn first", "learn-first"), learn_first);
    listed(&mut before, (LAST_CUT, "last-cut"), history);
    let mut after = Vec::new();
    links(&mut after, ("Notes that bear on it", "notes"), notes);
    listed(&mut after, ("Sources", "sources"), &page.sources);
    let around = [headings(&before), headings(&after)];
    let filled = filled(example, EXAMPLE);
    blocks.push(Block::Live {
        id: CONTENTS.to_owned(),
        blocks: vec![contents_of(example, &filled, around.clone())],
    });
    blocks.extend(before);
    blocks.extend(form::of_procedure(page, &around, floor));
    blocks.push(Block::Live {
        id: FILLED.to_owned(),
        blocks: filled,
    });
    blocks.extend(after);
    blocks
}

/// All that follows from the values; `named` is what these are called.
pub(super) fn filled(example: &Filled, named: &str) -> Vec<Block> {
    let mut blocks = Vec::new();
    if let Some(drawing) = &example.drawing {
        blocks.push(section("The joint, to scale", "drawing"));
        blocks.push(drawn(drawing));
    }
    before(&mut blocks, example, named);
    let set_ups = example.set_ups.iter().enumerate();
    set_ups.for_each(|(at, one)| set_up_part(&mut blocks, at + 1, one));
    if let Some(troubles) = set_up::troubles(&example.troubles) {
        blocks.push(section("If it goes wrong", "faults"));
        blocks.push(troubles);
    }
    let close = example.close.iter().flat_map(|(_, items)| items);
    let close: Vec<String> = close.map(|item| plain(item)).collect();
    listed(
        &mut blocks,
        ("Before you leave the machine", "close"),
        &close,
    );
    let reckoned = values(example, false);
    if !reckoned.is_empty() {
        blocks.push(section("How the numbers are worked out", "numbers"));
        blocks.push(set_up::values(&reckoned, false));
    }
    blocks
}

/// What stands in the place of the settings when the values do not do.
pub(super) fn refused(faults: &Faults) -> Vec<Block> {
    let mut blocks = vec![section("Not with these values", "refused")];
    for fault in faults.iter() {
        blocks.push(Block::Rule {
            name: "Refused".to_owned(),
            text: fault.message.clone(),
        });
        let hints = fault.hints.iter().map(words).collect();
        blocks.push(Block::Bullets { items: hints });
    }
    blocks
}

/// The list of what the page holds: the parts before those that follow from the values, these, and
/// the parts after them.
pub(super) fn contents_of(
    example: &Filled,
    filled: &[Block],
    [before, after]: [Links; 2],
) -> Block {
    let where_at = |id: &str| {
        let at = id
            .strip_prefix(SET_UP)
            .and_then(|at| at.parse::<usize>().ok());
        let one = at.and_then(|at| example.set_ups.get(at.checked_sub(1)?));
        one.map(place_and_steps).unwrap_or_default()
    };
    let now = contents(filled, where_at);
    Block::Contents {
        rows: [before, now, after].concat(),
    }
}

fn headings(blocks: &[Block]) -> Links {
    contents(blocks, |_| String::new())
}

/// What is settled before the first set-up: measures, choices, sizes, what to get ready.
fn before(blocks: &mut Vec<Block>, example: &Filled, named: &str) {
    let given = values(example, true);
    if !given.is_empty() {
        blocks.push(section(named, "example"));
        blocks.push(set_up::values(&given, false));
    }
    if !example.sizes.is_empty() {
        blocks.push(section("Finished sizes, joints allowed for", "sizes"));
        let rows = example.sizes.iter();
        let rows = rows.map(|(what, size)| vec![what.clone(), size.clone()]);
        blocks.push(table(&["what", "size"], rows.collect()));
    }
    listed(blocks, ("Mind", "mind"), &example.warnings);
    listed(blocks, ("Order of the cuts", "order"), &example.notes);
    if !example.ready.is_empty() {
        blocks.push(section("Get ready", "ready"));
        let line = |(what, items): &(String, Vec<Vec<_>>)| {
            let items: Vec<String> = items.iter().map(|item| plain(item)).collect();
            (what.clone(), items.join("; "))
        };
        blocks.push(Block::Facts {
            rows: example.ready.iter().map(line).collect(),
        });
    }
}

/// Values that a person gives, or those that follow; one that says the same again is left out.
fn values(example: &Filled, given: bool) -> Vec<FilledValue> {
    let mut kept: Vec<FilledValue> = Vec::new();
    for value in &example.values {
        let follows = matches!(
            value.provenance,
            Provenance::WorkedOut(_) | Provenance::Planned
        );
        let again = kept
            .iter()
            .any(|one| one.label == value.label && one.shown == value.shown);
        if follows != given && !again {
            kept.push(value.clone());
        }
    }
    kept
}

/// The links of a page's set-ups begin so.
const SET_UP: &str = "set-up-";

fn set_up_part(blocks: &mut Vec<Block>, number: usize, one: &FilledSetUp) {
    let id = format!("{SET_UP}{number}");
    blocks.push(section(&format!("{number}. {}", one.title), &id));
    blocks.push(facts(&[
        ("where", place_of(one).to_owned()),
        ("operation", one.operation.replace('-', " ")),
        ("steps", one.steps.len().to_string()),
    ]));
    blocks.extend(set_up::standing(one));
    blocks.extend(set_up::holder(one));
    blocks.extend(set_up::settings(one));
    blocks.extend(one.plan.iter().map(drawn));
    blocks.extend(one.table.iter().map(set_up::other_readings));
    let steps = set_up::steps(one, &[], true);
    blocks.push(Block::Steps { steps });
}

fn place_of(one: &FilledSetUp) -> &str {
    one.machine
        .as_ref()
        .map_or("at the bench", |(_, name)| name)
}

fn place_and_steps(one: &FilledSetUp) -> String {
    let steps = one.steps.len();
    let steps = match steps {
        1 => "1 step".to_owned(),
        many => format!("{many} steps"),
    };
    format!("{}, {steps}", place_of(one))
}
