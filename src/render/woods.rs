//! The pages of woods: what the tables of [`crate::wood`] say of each, with its sources.
//!
//! A figure never stands without where it is printed and whether it was read there. Changes of
//! width are reckoned by the calculators' own code and said in both units, since a page does not
//! know what the reader's rule shows; they are rounded to the nearest 0.1 mm or 0.01 in.

use std::collections::BTreeMap;

use super::block::{Block, Row, heading, section, words};
use super::pages::{facts, table};
use crate::joints;
use crate::units::Length;
use crate::wood::{
    Cut, Printed, Shrinkage, Stiffness, shrinkage, shrinkage_rows, stiffness, stiffness_rows,
};

/// Both ways of sawing, as a page names them.
const CUTS: [(&str, Cut); 2] = [("plain-sawn", Cut::Plain), ("quarter-sawn", Cut::Quarter)];

/// Moistures, in per cent, between which a page shows a board's change.
const FROM_TO: (f64, f64) = (8.0, 12.0);

/// A wood that a table knows.
pub(super) struct Wood {
    /// Its word in inputs, which names its page: `cherry-black`.
    pub(super) word: &'static str,
    /// Its name in the tables.
    pub(super) name: &'static str,
    moves: Option<&'static Shrinkage>,
    carries: Option<&'static Stiffness>,
}

/// Every wood of either table, by its word.
pub(super) fn woods() -> Vec<Wood> {
    let moving = shrinkage_rows().iter().map(|row| (&row.word, &row.name));
    let carrying = stiffness_rows().iter().map(|row| (&row.word, &row.name));
    let names: BTreeMap<&'static String, &'static String> = carrying.chain(moving).collect();
    let names = names.into_iter();
    names
        .map(|(word, name)| Wood {
            word,
            name,
            moves: shrinkage(word),
            carries: stiffness(word),
        })
        .collect()
}

/// The list of woods with the figures by which one is chosen.
pub(super) fn list(woods: &[Wood]) -> Vec<Block> {
    let row = |wood: &Wood| {
        let coefficient = |cut| {
            let decided = wood.moves.map(|row| row.decided(cut).coefficient);
            decided.map(percent).unwrap_or_default()
        };
        let carries = wood.carries;
        let cells = vec![
            wood.name.to_owned(),
            coefficient(Cut::Plain),
            coefficient(Cut::Quarter),
            carries.map(modulus).unwrap_or_default(),
            carries.map(gravity).unwrap_or_default(),
        ];
        (format!("woods/{}.html", wood.word), cells)
    };
    let head = [
        "wood",
        "plain-sawn, moves for 1 %",
        "quarter-sawn, moves for 1 %",
        "modulus of elasticity",
        "specific gravity",
    ];
    vec![
        Block::Para {
            text: words(
                "How far the width of a board changes when its moisture changes by 1 %, and how \
                 stiff the wood is. Printed means of small clear pieces: a board of your own will \
                 differ. The page of each wood tells where its figures come from; where a cell is \
                 empty the tables say nothing.",
            ),
        },
        heading("Woods by name"),
        Block::Index {
            head: head.iter().map(|cell| (*cell).to_owned()).collect(),
            rows: woods.iter().map(row).collect(),
        },
    ]
}

/// The page of one wood; `root` leads to the folder of the site.
pub(super) fn page(wood: &Wood, root: &str) -> Vec<Block> {
    let mut blocks = vec![Block::Para {
        text: words(
            "Printed means of small clear pieces, not figures of your board. Measure its moisture \
             and its width, and leave room for more than the mean.",
        ),
    }];
    if let Some(row) = wood.moves {
        movement(&mut blocks, row);
    }
    if let Some(row) = wood.carries {
        blocks.push(section("How stiff it is", "stiffness"));
        blocks.push(facts(&[
            ("modulus of elasticity", modulus(row)),
            ("specific gravity", gravity(row)),
            ("the table notes", row.note.clone()),
        ]));
    }
    blocks.push(section("Where these figures come from", "figures"));
    blocks.push(table(
        &["figure", "value", "printed in", "how it came here"],
        sources(wood),
    ));
    blocks.push(section("Work it out", "work-it-out"));
    let usable = |name: &str| match name {
        "shelf" => wood.carries.is_some(),
        _ => wood.moves.is_some(),
    };
    let tools = ["movement", "frame-panel", "breadboard", "shelf"].into_iter();
    let tools = tools.filter(|name| usable(name)).filter_map(joints::find);
    let link = |one: &joints::Calculator| {
        let address = format!("{root}calculators/{}.html", one.name);
        (one.name.to_owned(), address, one.summary.to_owned())
    };
    blocks.push(Block::Links {
        rows: tools.map(link).collect(),
    });
    blocks.push(Block::Sketch {
        text: format!("species={}", wood.word),
    });
    blocks
}

fn movement(blocks: &mut Vec<Block>, row: &Shrinkage) {
    blocks.push(section("How much it moves", "movement"));
    let (from, to) = FROM_TO;
    let rows = CUTS.map(|(name, cut)| {
        let decided = row.decided(cut);
        let change = |size| decided.change(size, from, to).change;
        vec![
            name.to_owned(),
            percent(decided.coefficient),
            format!("{:.1} mm", change(Length::mm(300.0)).to_mm()),
            format!("{:.2} in", change(Length::inches(12.0)).to_inches()),
            format!("{:.1} %", decided.shrinkage_percent),
        ]
    });
    let head = [
        "board".to_owned(),
        "for 1 % of moisture".to_owned(),
        format!("300 mm wide, {from} to {to} %"),
        format!("12 in wide, {from} to {to} %"),
        "green to ovendry, as reckoned".to_owned(),
    ];
    blocks.push(Block::Table {
        numbers: vec![false, true, true, true, true],
        head: head.into(),
        rows: rows
            .map(|cells| Row {
                cells,
                marked: false,
            })
            .into(),
    });
    let told = CUTS.iter().filter_map(|(name, cut)| {
        let (printed, follows) = row.decided(*cut).disagree?;
        Some(words(format!(
            "The tables disagree on {name} boards: the coefficient is printed as {printed:.5} and \
             follows from the shrinkage as {follows:.5}. The one that tells of more movement \
             stands above."
        )))
    });
    let told: Vec<_> = told.collect();
    if !told.is_empty() {
        blocks.push(Block::Bullets { items: told });
    }
    let start = format!("{} % of moisture", row.start_percent);
    blocks.push(facts(&[("shrinkage starts at", start)]));
}

fn sources(wood: &Wood) -> Vec<Vec<String>> {
    let printed = |one: &Printed, name: &str, cut: &str, value: String| {
        vec![
            format!("{name}, {cut} ({})", one.symbol),
            value,
            one.source.clone(),
            one.known.words().to_owned(),
        ]
    };
    let mut rows = Vec::new();
    for (name, cut) in CUTS {
        let Some(row) = wood.moves else { continue };
        let shrinks = row.printed_shrinkage(cut);
        let value = format!("{} %", shrinks.figure);
        rows.push(printed(shrinks, "shrinkage", name, value));
        if let Some(one) = row.printed_coefficient(cut) {
            let value = format!("{:.5}", one.figure);
            rows.push(printed(one, "coefficient", name, value));
        }
    }
    rows.extend(wood.carries.map(|row| {
        vec![
            "modulus of elasticity, specific gravity".to_owned(),
            format!("{}, {}", modulus(row), gravity(row)),
            row.source.clone(),
            format!("modulus: {}", row.known.words()),
        ]
    }));
    rows
}

fn percent(part: f64) -> String {
    format!("{:.3} %", part * 100.0)
}

fn modulus(row: &Stiffness) -> String {
    format!("{:?} GPa", row.modulus_gpa)
}

fn gravity(row: &Stiffness) -> String {
    format!("{:.2}", row.gravity)
}
