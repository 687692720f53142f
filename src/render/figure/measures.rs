//! The lengths of a drawing by name, each with its letter; and the one scale of its views.

use super::letters::LETTERS;
use super::plan_words::rest;
use super::svg::{Dimension, Edge, Picture};
use crate::diag::{Code, Fault};
use crate::procedure::{Drawing, Plan};

/// Longest label, in characters: that of the largest length, and of a fraction with its remainder.
const LONGEST: usize = 26;

/// The lengths of one drawing.
pub(super) struct Measures<'a> {
    drawing: &'a Drawing,
}

impl<'a> Measures<'a> {
    pub(super) fn new(drawing: &'a Drawing) -> Self {
        Self { drawing }
    }

    /// A length in millimetres; a fault when it is missing or not more than nothing.
    pub(super) fn mm(&self, name: &str) -> Result<f64, Fault> {
        let shape = &self.drawing.shape;
        let Some((length, shown)) = self.drawing.lengths.get(name) else {
            let message = format!("the figure `{shape}` needs a length named `{name}`");
            return Err(Fault::error(Code::VALUE_MISSING, message)
                .hint(format!("add `{name}: ...` under `drawing`")));
        };
        if length.to_nm() > 0 {
            return Ok(length.to_mm());
        }
        let message = format!("the figure `{shape}` cannot be drawn with `{name}` of {shown}");
        Err(Fault::error(Code::OUT_OF_RANGE, message).hint("give a length of more than nothing"))
    }

    /// Whether a length of that name is given.
    pub(super) fn has(&self, name: &str) -> bool {
        self.drawing.lengths.contains_key(name)
    }

    /// A length in millimetres where it is given; a fault when it is not more than nothing.
    pub(super) fn optional(&self, name: &str) -> Result<Option<f64>, Fault> {
        self.has(name).then(|| self.mm(name)).transpose()
    }

    /// The angle, in degrees.
    pub(super) fn angle(&self) -> Option<f64> {
        self.drawing.angle
    }

    /// What a plan view needs besides lengths.
    pub(super) fn plan(&self) -> Option<&Plan> {
        self.drawing.plan.as_ref()
    }

    /// How a length is shown.
    pub(super) fn shown(&self, name: &str) -> &str {
        let found = self.drawing.lengths.get(name);
        found.map_or("", |(_, shown)| shown.as_str())
    }

    /// A dimension for a length: its letter and value; a value too long for the drawing stands in
    /// the key only.
    pub(super) fn dimension(&self, name: &str, from: f64, to: f64) -> Dimension {
        let whole = format!("{} {}", letter(name), self.shown(name));
        let label = if whole.chars().count() > LONGEST {
            letter(name).to_owned()
        } else {
            whole
        };
        let says = format!("{} {}, {}", letter(name), words(name), self.shown(name));
        Dimension {
            from,
            to,
            label,
            says,
        }
    }

    /// Puts the dimension of a length at an edge of a picture.
    pub(super) fn mark(
        &self,
        picture: &mut Picture,
        edge: Edge,
        starts: [f64; 2],
        name: &str,
        span: [f64; 2],
    ) {
        let dimension = self.dimension(name, span[0], span[1]);
        picture.measure(edge, starts, dimension);
    }

    /// Refuses lengths that do not make a joint.
    pub(super) fn demand(&self, holds: bool, what: &str) -> Result<(), Fault> {
        if holds {
            return Ok(());
        }
        let message = format!(
            "the figure `{}` cannot be drawn: {what}",
            self.drawing.shape
        );
        Err(Fault::error(Code::OUT_OF_RANGE, message).hint("look at the lengths under `drawing`"))
    }

    /// Letter, words and value of every length that has a letter, and of the angle.
    pub(super) fn key(&self) -> Vec<(String, String, String)> {
        let known = LETTERS
            .iter()
            .filter(|(name, _, _)| self.drawing.lengths.contains_key(*name));
        let mut key: Vec<_> = known
            .map(|(name, letter, words)| {
                let shown = self.shown(name).to_owned();
                ((*letter).to_owned(), (*words).to_owned(), shown)
            })
            .collect();
        if let Some(plan) = &self.drawing.plan {
            let mut put = |letter: &str, words: &str, value: &Option<String>| {
                let value = value.clone().into_iter();
                key.extend(value.map(|value| (letter.to_owned(), words.to_owned(), value)));
            };
            put("down", "on the table", &plan.down);
            put(
                "to guide",
                &format!("against the {}", rest(plan.guide)),
                &plan.to_guide,
            );
        }
        if let Some(angle) = self.drawing.angle {
            let words = match &self.drawing.plan {
                Some(_) => "swing of the saw from a square cut",
                None => "angle of the cutter, each side",
            };
            key.push(("θ".to_owned(), words.to_owned(), format!("{angle}°")));
        }
        key
    }
}

fn words(name: &str) -> &'static str {
    let found = LETTERS.iter().find(|(known, _, _)| *known == name);
    found.map_or("", |(_, _, words)| words)
}

fn letter(name: &str) -> &'static str {
    let found = LETTERS.iter().find(|(known, _, _)| *known == name);
    found.map_or("", |(_, letter, _)| letter)
}
