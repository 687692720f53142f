//! The lengths of a drawing by name, each with its letter; and the one scale of its views.

use super::letters::LETTERS;
use super::plan_words::rest;
use super::svg::{Dimension, Edge, Picture};
use crate::diag::{Code, Fault};
use crate::procedure::{Drawing, Plan};
use crate::units::Length;

/// Longest label, in characters: that of the largest length, and of a fraction with its remainder.
const LONGEST: usize = 26;

/// What enters an opening may be thicker than it by so many millimetres (common practice, no
/// source: the tightest clearance that a calculator takes).
const PRESS: f64 = 0.5001;

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

    /// A length in millimetres that may be nothing; a fault when it is missing or less than that.
    pub(super) fn or_nothing(&self, name: &str) -> Result<f64, Fault> {
        match self.drawing.lengths.get(name) {
            Some((Length::ZERO, _)) => Ok(0.0),
            _ => self.mm(name),
        }
    }

    /// A length in millimetres that a calculation may not know; a procedure must give it.
    pub(super) fn known(&self, name: &str) -> Result<Option<f64>, Fault> {
        match self.drawing.letters.is_empty() {
            true => self.mm(name).map(Some),
            false => self.optional(name),
        }
    }

    /// A length in millimetres that may be nothing, where it is given.
    pub(super) fn optional_or_nothing(&self, name: &str) -> Result<Option<f64>, Fault> {
        self.has(name).then(|| self.or_nothing(name)).transpose()
    }

    /// The angle in degrees, where there is one.
    pub(super) fn angle(&self) -> Option<f64> {
        self.drawing.angle.as_ref().map(|(degrees, _)| *degrees)
    }

    /// How the angle is shown.
    pub(super) fn angle_shown(&self) -> &str {
        let angle = self.drawing.angle.as_ref();
        angle.map_or("", |(_, shown)| shown.as_str())
    }

    /// Whether a length of that name is given.
    pub(super) fn has(&self, name: &str) -> bool {
        self.drawing.lengths.contains_key(name)
    }

    /// A length in millimetres where it is given; a fault when it is not more than nothing.
    pub(super) fn optional(&self, name: &str) -> Result<Option<f64>, Fault> {
        self.has(name).then(|| self.mm(name)).transpose()
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
        let (letter, words) = self.lettered(name);
        let whole = format!("{letter} {}", self.shown(name));
        let says = format!("{letter} {words}, {}", self.shown(name));
        let label = if whole.chars().count() > LONGEST {
            letter.to_owned()
        } else {
            whole
        };
        Dimension {
            from,
            to,
            label,
            says,
        }
    }

    /// The letter of a length and what it is.
    fn lettered(&self, name: &str) -> (&str, &str) {
        if let Some((letter, words)) = self.drawing.letters.get(name) {
            return (letter, words);
        }
        let usual = LETTERS.iter().find(|(known, _, _)| *known == name);
        usual.map_or(("", ""), |(_, letter, words)| (letter, words))
    }

    /// Puts the dimension of a length at an edge of a picture; nothing for one that is not given or
    /// is nothing.
    pub(super) fn mark(
        &self,
        picture: &mut Picture,
        edge: Edge,
        starts: [f64; 2],
        name: &str,
        span: [f64; 2],
    ) {
        if self
            .drawing
            .lengths
            .get(name)
            .is_none_or(|(length, _)| *length == Length::ZERO)
        {
            return;
        }
        let dimension = self.dimension(name, span[0], span[1]);
        picture.measure(edge, starts, dimension);
    }

    /// Refuses what is wider than the opening that it enters by more than a press fit.
    pub(super) fn demand_entering(
        &self,
        enters: f64,
        opening: f64,
        what: &str,
    ) -> Result<(), Fault> {
        self.demand(enters <= opening + PRESS, what)
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
        let known = LETTERS.iter().filter(|(name, _, _)| self.has(name));
        let mut key = Vec::new();
        for (name, _, _) in known {
            let (letter, words) = self.lettered(name);
            let entry = (
                letter.to_owned(),
                words.to_owned(),
                self.shown(name).to_owned(),
            );
            // Two lengths of a figure may be one value.
            if !key.contains(&entry) {
                key.push(entry);
            }
        }
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
        if let Some((_, shown)) = &self.drawing.angle {
            let own = match &self.drawing.plan {
                Some(_) => "swing of the saw from a square cut",
                None => "angle of the cutter, each side",
            };
            let lettered = self.drawing.letters.get("angle").cloned();
            let (letter, words) = lettered.unwrap_or_else(|| ("θ".to_owned(), own.to_owned()));
            key.push((letter, words, shown.clone()));
        }
        key
    }
}
