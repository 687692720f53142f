//! A job's sheets as pages of the site: what they say to a pen stands on paper only, and a screen
//! has words of its own for it; each leads to the sheets before and after it.

use super::block::{Block, Medium, Row, Sheet};
use super::sheet::{self, rule};
use crate::jobs::Sheets;
use crate::search::Speech;

const PLACE: &str = "This page keeps no marks. Note the number of the step in hand; interrupted, do \
    that step again.";

const STOP: &str = "Anything not as the page says, or unsure? Let the cutter run down, isolate, ask \
    before you go on.";

/// Head of a column that a second reading is written into.
const AGAIN: &str = "measured again";

/// All sheets of a job, each whole, since a screen has no pages.
pub(super) fn sheets(job: &Sheets, spoken: &Speech) -> Vec<Sheet> {
    let mut all = sheet::sheets(job, spoken, None);
    let names: Vec<(String, String)> = (all.iter())
        .map(|one| (one.title.clone(), format!("{}.html", one.slug)))
        .collect();
    for (at, one) in all.iter_mut().enumerate() {
        let blocks = std::mem::take(&mut one.blocks).into_iter();
        one.blocks = blocks.flat_map(|block| spoken_to(block, job)).collect();
        let row = |relation: &str, (title, address): &(String, String)| {
            (title.clone(), address.clone(), relation.to_owned())
        };
        let before = at.checked_sub(1).and_then(|before| names.get(before));
        let after = names.get(at + 1);
        let faults = sheet::faults(&one.running.procedure);
        let trouble = names.iter().enumerate().find(|(_, (_, address))| {
            address
                .strip_suffix(".html")
                .is_some_and(|slug| slug == faults)
        });
        let trouble = trouble.filter(|(place, _)| *place != at).map(|(_, to)| to);
        let first = names.first().filter(|_| at > 1);
        let rows = [
            ("before", before),
            ("after", after),
            ("trouble", trouble),
            ("the whole job", first),
        ];
        let rows = rows
            .into_iter()
            .filter_map(|(relation, to)| to.map(|to| row(relation, to)));
        one.blocks.push(Block::Neighbours {
            rows: rows.collect(),
        });
    }
    all
}

/// A block as paper has it and, where it speaks to a pen, another for the screen.
fn spoken_to(block: Block, job: &Sheets) -> Vec<Block> {
    let on_screen = match &block {
        Block::Facts { rows } if rows.iter().any(|(name, _)| name == "printed") => {
            let rows = rows.iter().map(|(name, value)| match name.as_str() {
                "printed" => ("planned on".to_owned(), job.date.clone()),
                _ => (name.clone(), value.clone()),
            });
            Some(Block::Facts {
                rows: rows.collect(),
            })
        }
        Block::Rule { name, .. } if name == "Keeping the place" => Some(rule(name, PLACE)),
        Block::Rule { name, .. } if name == "Stop" => Some(rule(name, STOP)),
        Block::Table { head, .. } if head.last().is_some_and(|last| last == AGAIN) => {
            Some(without_last(&block))
        }
        Block::Lines { .. } | Block::Done { .. } => None,
        _ => return vec![block],
    };
    let only = |medium, block| Block::Only {
        medium,
        blocks: vec![block],
    };
    let mut both = vec![only(Medium::Paper, block)];
    both.extend(on_screen.map(|block| only(Medium::Screen, block)));
    both
}

/// A table without its last column.
fn without_last(table: &Block) -> Block {
    let Block::Table {
        head,
        rows,
        numbers,
    } = table
    else {
        return table.clone();
    };
    let kept = head.len().saturating_sub(1);
    let row = |row: &Row| Row {
        cells: row.cells.iter().take(kept).cloned().collect(),
        marked: row.marked,
    };
    Block::Table {
        head: head.iter().take(kept).cloned().collect(),
        rows: rows.iter().map(row).collect(),
        numbers: numbers.iter().take(kept).copied().collect(),
    }
}
