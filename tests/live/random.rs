//! Random texts for the fields of live pages, as a person may write them: in millimetres, inches and
//! fractions, with and without a unit; most near the worked example, some at the ends of the range and
//! beyond them, some that cannot be read.

use std::collections::BTreeMap;

use faceside::joints::{Absent, Calculator, Input};
use faceside::procedure::{Procedure, Want};
use faceside::shop::Cutter;
use faceside::units::{Kind, Unit, Value, parse};

/// Texts by field; `units` among them.
pub(crate) type Row = BTreeMap<String, String>;

/// Texts that are no quantity.
const UNREADABLE: [&str; 7] = [
    "abc",
    "12 furlongs",
    "1/0 in",
    "-3 mm",
    "19,5.2 mm",
    "1 2 3",
    "mm",
];

/// Numbers of a seed (xorshift64*, Vigna 2016, from memory).
pub(crate) struct Random(u64);

impl Random {
    pub(crate) fn new(seed: u64) -> Self {
        Self(seed)
    }

    fn next(&mut self) -> u64 {
        self.0 ^= self.0 >> 12;
        self.0 ^= self.0 << 25;
        self.0 ^= self.0 >> 27;
        self.0.wrapping_mul(0x2545_F491_4F6C_DD1D) >> 16
    }

    fn below(&mut self, count: usize) -> usize {
        (self.next() % count as u64) as usize
    }

    fn between(&mut self, least: f64, most: f64) -> f64 {
        least + (most - least) * (self.below(100_000) as f64 / 1e5)
    }

    fn one_of<'a, T>(&mut self, all: &'a [T]) -> &'a T {
        &all[self.below(all.len())]
    }

    /// A row of a calculator; the later ones go further from its example.
    pub(crate) fn figure(
        &mut self,
        of: &Calculator,
        cutters: &[Cutter],
        (at, units): (usize, &str),
    ) -> Row {
        let mut row = Row::from([("units".to_owned(), units.to_owned())]);
        let example: BTreeMap<&str, &str> = of.example.iter().copied().collect();
        let spread = [0.05, 0.15, 0.4][at % 3];
        for input in of.inputs {
            let own = example.get(input.name).copied();
            let is_left_out = match own {
                Some(_) => self.below(40) == 0,
                None => !input.is_required() && self.below(4) > 0,
            };
            if is_left_out || (own.is_none() && is_of_a_set(of, input)) {
                continue;
            }
            let wanted = of.wants.iter().flat_map(|wants| wants.cutters);
            let wanted = wanted.filter(|wanted| wanted.size == input.name);
            let shape = wanted.map(|wanted| wanted.shape).next();
            let ids = cutters.iter().filter(|cutter| Some(cutter.shape) == shape);
            let ids: Vec<_> = ids.map(|cutter| cutter.id.as_str()).collect();
            let text = match input.kind {
                Kind::Choice => (*self.one_of(&input.options())).to_owned(),
                _ if !ids.is_empty() && self.below(6) == 0 => (*self.one_of(&ids)).to_owned(),
                kind => {
                    let base = own.unwrap_or(match input.absent {
                        Absent::Usual(text) => text,
                        _ => input.range.0,
                    });
                    self.quantity(kind, base, input.range.1, (spread, units))
                }
            };
            row.insert(input.name.to_owned(), text);
        }
        row
    }

    /// A part for a procedure, near its own example or further from it.
    pub(crate) fn part(&mut self, of: &Procedure, own: &Row, cutters: &[Cutter], at: usize) -> Row {
        let units = ["mm", "in"][at % 2];
        let mut row = Row::from([("units".to_owned(), units.to_owned())]);
        let spread = [0.04, 0.3][at % 2];
        for measure in &of.measures {
            if let Some(base) = own.get(&measure.name) {
                let text = self.quantity(measure.kind, base, base, (spread, units));
                row.insert(measure.name.clone(), text);
            }
        }
        for choice in &of.choices {
            let base = own.get(&choice.name);
            let text = match (&choice.want, base) {
                (Want::Cutter { shape, .. }, _) => {
                    let ids = cutters.iter().filter(|cutter| cutter.shape == *shape);
                    let ids: Vec<_> = ids.map(|cutter| cutter.id.clone()).collect();
                    match self.below(3) {
                        0 if !ids.is_empty() => self.one_of(&ids).clone(),
                        _ => continue,
                    }
                }
                (Want::Word(words), Some(base)) => match self.below(2) {
                    0 => self.one_of(words).clone(),
                    _ => base.clone(),
                },
                (Want::Quantity { kind, .. }, Some(base)) => {
                    self.quantity(*kind, base, base, (spread, units))
                }
                (_, None) => continue,
            };
            row.insert(choice.name.clone(), text);
        }
        row
    }

    /// A quantity near `base`, or at `most` and beyond.
    fn quantity(
        &mut self,
        kind: Kind,
        base: &str,
        most: &str,
        (spread, units): (f64, &str),
    ) -> String {
        if self.below(60) == 0 {
            return (*self.one_of(&UNREADABLE)).to_owned();
        }
        let base = if self.below(40) == 0 { most } else { base };
        let factor = match self.below(30) {
            0 => 1.0,
            1 => self.between(1.5, 4.0),
            2 => self.between(0.0, 0.5),
            _ => self.between(1.0 - spread, 1.0 + spread),
        };
        match parse(base, kind, Unit::Mm) {
            Ok(Value::Length(length)) => self.length(length.to_mm() * factor, units),
            Ok(Value::Count(count)) => format!("{:.0}", (count as f64 * factor).round()),
            _ => scaled(base, factor),
        }
    }

    fn length(&mut self, mm: f64, units: &str) -> String {
        let inches = mm / 25.4;
        let sixty_fourths = (inches * 64.0).round() as i64;
        let (whole, rest) = (sixty_fourths / 64, sixty_fourths % 64);
        match self.below(7) {
            0 => format!("{mm:.3} mm"),
            1 if units == "mm" => format!("{mm:.2}"),
            1 => format!("{inches:.3}"),
            2 => format!("{inches:.4} in"),
            3 if rest > 0 && whole > 0 => format!("{whole}-{rest}/64 in"),
            4 if rest > 0 && whole > 0 => format!("{whole} {rest}/64\""),
            5 if rest > 0 && whole == 0 => format!("{rest}/64\""),
            _ => format!("{mm:.1} mm"),
        }
    }
}

/// Whether an input stands in a choice of sets: the example has chosen.
fn is_of_a_set(of: &Calculator, input: &Input) -> bool {
    of.one_of.iter().any(|set| set.contains(&input.name))
}

/// The number that a text begins with, times a factor; a text that is more than a number and a unit
/// stays as it is.
fn scaled(text: &str, factor: f64) -> String {
    let end = text.find(|c: char| !(c.is_ascii_digit() || c == '.' || c == '-'));
    let (number, unit) = text.split_at(end.unwrap_or(text.len()));
    let rest = unit.trim_start();
    match number.parse::<f64>() {
        Ok(number) if !rest.contains(|c: char| c.is_ascii_digit()) => {
            let places = if number.abs() > 100.0 { 0 } else { 2 };
            format!("{:.places$}{unit}", number * factor)
        }
        _ => text.to_owned(),
    }
}
