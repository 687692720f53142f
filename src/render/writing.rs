//! The page that tells how a procedure is written: its keys level by level, and a sample.
//!
//! The keys come from the types that read a procedure file, so that the page cannot differ from
//! what is read. Words of files are shown as they are written, in whatever region.

use super::block::{Block, heading, words};
use super::pages::{bullets, table};
use crate::procedure::{Key, Level, levels};

/// Name of the schema file in the site.
pub(super) const SCHEMA: &str = "procedure.schema.json";

/// How a writer goes about it.
const ORDER: [&str; 6] = [
    "Make a shop with `faceside start`: it has a first procedure whose comments tell what to change.",
    "Write the end first (`done_when`), then the steps that lead to it.",
    "Let `faceside check --watch` run beside the editor; it tells every fault with its place.",
    "Never type a figure that moves the machine: work it out, make it a setting, name it in a slot.",
    "Never type a caution: it comes with the machine and the operation.",
    "Read the printed sheet at the machine, with the power off, before anyone cuts by it.",
];

/// Blocks of the page.
pub(super) fn writing(sample: &str) -> Vec<Block> {
    let order = ORDER.map(bare);
    let mut blocks = vec![said(
        "A procedure is one file of YAML in the folder `procedures` of the shop. Keys have \
         underscores, ids have hyphens. Where a table says formula or figure, a figure has its \
         unit: `19.5 mm`, `3/4 in`, `14 deg`, `18000 rpm`.",
    )];
    blocks.extend(bullets("How to go about it", &order));
    blocks.push(heading("In an editor"));
    blocks.push(said(
        "An editor that knows YAML completes keys and marks wrong ones when the first line of the \
         file names the schema: `# yaml-language-server: $schema=procedure.schema.json`. The \
         schema stands beside this page, and `faceside start` puts it beside the procedures.",
    ));
    blocks.push(Block::Links {
        rows: vec![(SCHEMA.to_owned(), SCHEMA.to_owned(), String::new())],
    });
    for level in levels() {
        blocks.extend(keys(&level));
    }
    blocks.push(heading("A whole procedure"));
    blocks.push(Block::Sketch {
        text: sample.to_owned(),
    });
    blocks
}

fn keys(level: &Level) -> Vec<Block> {
    let cells = |key: &Key| {
        let must = if key.must { "yes" } else { "" };
        let cells = [&*key.name, &bare(&key.means), must, &bare(&key.holds)];
        cells.map(str::to_owned).to_vec()
    };
    let rows = level.keys.iter().map(cells).collect();
    vec![
        heading(&level.name),
        said(&level.what),
        table(&["key", "meaning", "needed", "holds"], rows),
    ]
}

fn said(text: &str) -> Block {
    Block::Para {
        text: words(bare(text)),
    }
}

/// The marks that an editor makes code of are no letters on a page.
fn bare(text: &str) -> String {
    text.replace('`', "")
}
