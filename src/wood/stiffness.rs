//! The strength table: modulus of elasticity and specific gravity of each wood at 12 % moisture.
//!
//! The modulus is the table's own: from short pieces loaded in the middle, 14 times as long as
//! deep, so it holds some bending by shear; `beam.rs` takes that out again. Means of small clear
//! pieces, no design values. A line may hold figures that were read beside some from memory; the
//! column `fields_from_memory` tells which, and is kept for the modulus.

use std::sync::LazyLock;

use super::Known;
use super::csv::{Row, rows};
use super::names::word;

const TABLE: &str = include_str!("mechanical.csv");

/// A row of the table.
#[derive(Debug, Clone, PartialEq)]
pub struct Stiffness {
    /// Name in the table: `Cherry, black`.
    pub name: String,
    /// Name as a word, for inputs: `cherry-black`.
    pub word: String,
    /// Modulus of elasticity along the grain, in gigapascals.
    pub modulus_gpa: f64,
    /// Specific gravity, ovendry mass and volume at 12 % (imported woods: green volume).
    pub gravity: f64,
    /// Where the row is from.
    pub source: String,
    /// Whether the modulus was read there.
    pub known: Known,
    /// What the table notes of the row; may be empty.
    pub note: String,
}

/// Every row of the table, in its order.
pub fn stiffness_rows() -> &'static [Stiffness] {
    static ROWS: LazyLock<Vec<Stiffness>> =
        LazyLock::new(|| rows(TABLE).flatten().filter_map(|row| read(&row)).collect());
    &ROWS
}

/// The row of that word.
pub fn stiffness(word: &str) -> Option<&'static Stiffness> {
    stiffness_rows().iter().find(|row| row.word == word)
}

fn read(row: &Row) -> Option<Stiffness> {
    let name = row.text("species")?;
    let source = row.text("source").filter(|source| !source.is_empty())?;
    let remembered = row.text("fields_from_memory")?;
    let is_read = Known::of(row.text("how")?)? == Known::Read;
    if is_read != remembered.is_empty() {
        return None;
    }
    let mut fields = remembered.split(' ');
    let is_remembered = fields.any(|field| matches!(field, "all" | "moe"));
    Some(Stiffness {
        name: name.to_owned(),
        word: word(name),
        modulus_gpa: row.number("moe_gpa")?,
        gravity: row.number("sg_12")?,
        source: source.to_owned(),
        known: if is_remembered {
            Known::Memory
        } else {
            Known::Read
        },
        note: row.text("note")?.to_owned(),
    })
}

#[cfg(test)]
mod tests {
    use super::{TABLE, read, rows, stiffness_rows};

    #[test]
    fn every_line_is_a_whole_row() {
        let mut lines = 0;
        for (line, row) in TABLE.lines().skip(1).zip(rows(TABLE)) {
            assert!(row.and_then(|row| read(&row)).is_some(), "{line}");
            lines += 1;
        }
        // Reference wood 10: 69 rows.
        assert_eq!((lines, stiffness_rows().len()), (69, 69));
    }
}
