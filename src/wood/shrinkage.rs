//! The shrinkage table: how much each wood shrinks, and its dimensional-change coefficient.
//!
//! A wood has two printed figures for each cut: S, its shrinkage from green to ovendry in per
//! cent, and (most woods) C, the change for 1 % of moisture as a part of the size at 10 %. They
//! follow from each other (reference wood 4, verified on 66 of 74 pairs):
//!
//!   C = S / (100 f - S (f - 10)), f: moisture where shrinkage starts; S / (3000 - 20 S) for 30 %
//!
//! Where they do not agree (a group's figure printed for a species, older data) the one that
//! tells of more movement decides, and the answer says so: too much clearance costs a wider gap,
//! too little splits a panel. A wood without a printed C gets the one that follows from its S.

use std::sync::LazyLock;

use super::Known;
use super::csv::{Row, rows};
use super::names::word;

const TABLE: &str = include_str!("shrinkage.csv");

/// C is printed to 0.00001; nearer than this and half a step to what follows from S is agreement.
const AGREES: f64 = 1.5e-5;

/// How a board is cut from the log, which decides what its width does.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Cut {
    /// Growth rings flat in the width: it moves as the wood does along the rings (tangentially).
    Plain,
    /// Growth rings upright in the width: it moves as the wood does across the rings (radially).
    Quarter,
}

/// A printed figure with where it is from.
#[derive(Debug, Clone, PartialEq)]
pub struct Printed {
    /// Its symbol in the Handbook: `S_R`, `S_T` (per cent), `C_R`, `C_T` (a part for 1 %).
    pub symbol: &'static str,
    /// The figure.
    pub figure: f64,
    /// Where it is printed.
    pub source: String,
    /// Whether it was read there.
    pub known: Known,
}

/// A row of the table.
#[derive(Debug, Clone, PartialEq)]
pub struct Shrinkage {
    /// Name in the table: `Cherry, black`.
    pub name: String,
    /// Name as a word, for inputs: `cherry-black`.
    pub word: String,
    /// Moisture content at which shrinkage is taken to start, in per cent.
    pub start_percent: f64,
    /// What the table notes of the row; may be empty.
    pub flag: String,
    radial: Pair,
    tangential: Pair,
}

#[derive(Debug, Clone, PartialEq)]
struct Pair {
    shrinkage: Printed,
    coefficient: Option<Printed>,
}

/// What decides how much a board's width changes.
#[derive(Debug, Clone, PartialEq)]
pub struct Decided {
    /// Change for 1 % of moisture, as a part of the size at 10 %.
    pub coefficient: f64,
    /// Shrinkage from green to ovendry, in per cent of the green size.
    pub shrinkage_percent: f64,
    /// Moisture content at which shrinkage is taken to start, in per cent.
    pub start_percent: f64,
    /// The printed figure that the coefficient rests on.
    pub coefficient_by: Printed,
    /// The printed figure that the shrinkage rests on.
    pub shrinkage_by: Printed,
    /// Coefficient of the table and the one that follows from its shrinkage, when they disagree.
    pub disagree: Option<(f64, f64)>,
}

/// Every row of the table, in its order.
pub fn shrinkage_rows() -> &'static [Shrinkage] {
    static ROWS: LazyLock<Vec<Shrinkage>> =
        LazyLock::new(|| rows(TABLE).flatten().filter_map(|row| read(&row)).collect());
    &ROWS
}

/// The row of that word.
pub fn shrinkage(word: &str) -> Option<&'static Shrinkage> {
    shrinkage_rows().iter().find(|row| row.word == word)
}

fn read(row: &Row) -> Option<Shrinkage> {
    let name = row.text("species")?;
    let coefficient = |symbol, column| match row.text(column)? {
        "" => Some(None),
        _ => printed(row, symbol, [column, "coef_source", "coef_how"]).map(Some),
    };
    Some(Shrinkage {
        name: name.to_owned(),
        word: word(name),
        start_percent: row.number("start_mc_pct")?,
        flag: row.text("flag")?.to_owned(),
        radial: Pair {
            shrinkage: printed(row, "S_R", ["radial_pct", "source", "how"])?,
            coefficient: coefficient("C_R", "c_r")?,
        },
        tangential: Pair {
            shrinkage: printed(row, "S_T", ["tangential_pct", "source", "how"])?,
            coefficient: coefficient("C_T", "c_t")?,
        },
    })
}

/// The printed figure of three columns: figure, source, and whether it was read.
fn printed(row: &Row, symbol: &'static str, columns: [&str; 3]) -> Option<Printed> {
    let [figure, source, known] = columns;
    let source = row.text(source).filter(|source| !source.is_empty())?;
    Some(Printed {
        symbol,
        figure: row.number(figure)?,
        source: source.to_owned(),
        known: Known::of(row.text(known)?)?,
    })
}

impl Shrinkage {
    /// The printed shrinkage, green to ovendry, of a board's width.
    pub fn printed_shrinkage(&self, cut: Cut) -> &Printed {
        &self.pair(cut).shrinkage
    }

    /// The printed coefficient of a board's width, when the table has one.
    pub fn printed_coefficient(&self, cut: Cut) -> Option<&Printed> {
        self.pair(cut).coefficient.as_ref()
    }

    /// What decides how much a board's width changes.
    pub fn decided(&self, cut: Cut) -> Decided {
        let Pair {
            shrinkage,
            coefficient,
        } = self.pair(cut);
        let start = self.start_percent;
        let follows = coefficient_of(shrinkage.figure, start);
        let mut decided = Decided {
            coefficient: follows,
            shrinkage_percent: shrinkage.figure,
            start_percent: start,
            coefficient_by: shrinkage.clone(),
            shrinkage_by: shrinkage.clone(),
            disagree: None,
        };
        let Some(printed) = coefficient else {
            return decided;
        };
        let agrees = (printed.figure - follows).abs() <= AGREES;
        if agrees || printed.figure > follows {
            decided.coefficient = printed.figure;
            decided.coefficient_by = printed.clone();
        }
        if !agrees {
            decided.disagree = Some((printed.figure, follows));
        }
        if !agrees && printed.figure > follows {
            decided.shrinkage_percent = shrinkage_of(printed.figure, start);
            decided.shrinkage_by = printed.clone();
        }
        decided
    }

    fn pair(&self, cut: Cut) -> &Pair {
        match cut {
            Cut::Plain => &self.tangential,
            Cut::Quarter => &self.radial,
        }
    }
}

/// The coefficient that follows from a shrinkage: the green-dimension form at 10 %.
fn coefficient_of(shrinkage: f64, start: f64) -> f64 {
    shrinkage / (100.0 * start - shrinkage * (start - 10.0))
}

/// The shrinkage that a coefficient follows from.
fn shrinkage_of(coefficient: f64, start: f64) -> f64 {
    100.0 * start * coefficient / (1.0 + coefficient * (start - 10.0))
}

#[cfg(test)]
mod tests {
    use super::{TABLE, read, rows, shrinkage_rows};

    #[test]
    fn every_line_is_a_whole_row() {
        let mut lines = 0;
        for (line, row) in TABLE.lines().skip(1).zip(rows(TABLE)) {
            assert!(row.and_then(|row| read(&row)).is_some(), "{line}");
            lines += 1;
        }
        // Reference wood 4: 119 rows.
        assert_eq!((lines, shrinkage_rows().len()), (119, 119));
    }
}
