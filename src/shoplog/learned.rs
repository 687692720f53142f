//! What the record says of a machine and a cutter: how far the cut is from what was set, how much
//! that varies, and how sure that is.
//!
//! ```text
//! of one test cut   o = (value - wanted) / k - (set - planned)     in the setting's own figure
//! weight            w = 2 ^ (-age / 180 days): what was long ago counts less
//! offset            m = sum(w o) / sum(w)
//! spread            s^2 = sum(w (o - m)^2) / (sum(w) - sum(w^2) / sum(w)), never under that of a
//!                   rounding to the scale's step and to the tool's: (step^2 + tool^2) / 12
//! effective number  n = sum(w)^2 / sum(w^2)
//! next cut          m -+ t(n - 1, confidence) s sqrt(1 + 1 / n)
//! ```
//!
//! The last line is the prediction of one further value of a normal distribution whose mean and
//! spread are both known from few values only (Student's t; textbook, from memory); a rounding is a
//! rectangular distribution (JCGM 100:2008, 4.3.7). The half-life of 180 days is a house value
//! without a source. Under three readings there is no spread to speak of, and nothing is said.
//! A cutter that was sharpened or is new starts anew. Only cuts that hang on the same kind of scale
//! with the same factor and side are taken together: a width has another offset than a place.

use jiff::civil::Date;
use statrs::distribution::{ContinuousCDF, StudentsT};

use super::{CutterState, Event, Moves, Standing, TestCut};
use crate::units::Length;

/// Days after which a reading counts half.
const HALF_LIFE: f64 = 180.0;

/// Fewest readings that a spread is told from.
const FEWEST: usize = 3;

/// What was learned of a machine, a cutter and a kind of setting.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Learned {
    /// How much more the machine cuts than is set, in the figure of the setting.
    pub offset: Length,
    /// Standard deviation of that.
    pub spread: Length,
    /// Readings that it rests on.
    pub count: usize,
    /// Their number by weight.
    pub effective: f64,
}

/// What a setting is looked up by.
#[derive(Debug, Clone, Copy)]
pub struct Asked<'a> {
    /// Id of the machine.
    pub machine: &'a str,
    /// Id of the cutter.
    pub cutter: Option<&'a str>,
    /// The setting and its factor.
    pub moves: &'a Moves,
    /// Finest step of the scale, and of the measuring tool.
    pub steps: (Length, Length),
    /// The day that ages are counted to, `YYYY-MM-DD`.
    pub today: &'a str,
}

/// What the record says; none when it says too little.
pub fn learned(events: &[Standing], asked: &Asked<'_>) -> Option<Learned> {
    let mut seen: Vec<(f64, f64)> = Vec::new();
    for one in events {
        match &one.event {
            Event::CutterMeasured(measured)
                if measured.state != CutterState::Same
                    && asked.cutter == Some(measured.cutter.as_str()) =>
            {
                seen.clear();
            }
            Event::TestCut(cut) => {
                let offset = offset(cut, asked).zip(age(one.day(), asked.today));
                seen.extend(offset.map(|(offset, days)| (offset, libm::exp2(-days / HALF_LIFE))));
            }
            _ => {}
        }
    }
    let (step, tool) = asked.steps;
    let least = (step.to_mm().powi(2) + tool.to_mm().powi(2)) / 12.0;
    of(&seen, least)
}

/// Offset and spread of weighted readings, in mm.
fn of(seen: &[(f64, f64)], least_square: f64) -> Option<Learned> {
    if seen.len() < FEWEST {
        return None;
    }
    let weight: f64 = seen.iter().map(|(_, weight)| weight).sum();
    let squares: f64 = seen.iter().map(|(_, weight)| weight * weight).sum();
    let mean = seen
        .iter()
        .map(|(offset, weight)| offset * weight)
        .sum::<f64>()
        / weight;
    let around = seen
        .iter()
        .map(|(offset, weight)| weight * (offset - mean).powi(2));
    let variance = around.sum::<f64>() / (weight - squares / weight);
    let effective = weight * weight / squares;
    // One recent reading among very old ones is one reading.
    (effective >= 2.0 && variance.is_finite()).then(|| Learned {
        offset: Length::mm(mean),
        spread: Length::mm(variance.max(least_square).sqrt()),
        count: seen.len(),
        effective,
    })
}

impl Learned {
    /// How far the next cut may be from the offset on one side, with this confidence.
    pub fn bound(&self, confidence: f64) -> Length {
        let t = quantile(self.effective - 1.0, confidence);
        let one_more = (1.0 + 1.0 / self.effective).sqrt();
        self.spread.times(t * one_more)
    }
}

/// The value that Student's t stays under with this probability.
pub fn quantile(degrees: f64, probability: f64) -> f64 {
    let probability = probability.clamp(0.5, 0.999);
    StudentsT::new(0.0, 1.0, degrees.max(1.0)).map_or(0.0, |t| t.inverse_cdf(probability))
}

/// How much more was cut than was set, in mm of the setting; none for another machine or setting.
fn offset(cut: &TestCut, asked: &Asked<'_>) -> Option<f64> {
    let work = &cut.work;
    let measured = cut.measured.as_ref()?;
    let moves = measured.moves.as_ref()?;
    let same = work.machine.as_deref() == Some(asked.machine)
        && work.cutter.as_deref() == asked.cutter
        && scale(&moves.setting) == scale(&asked.moves.setting)
        && moves.by.total_cmp(&asked.moves.by).is_eq()
        && moves.wood == asked.moves.wood;
    let set = work.settings.iter().find(|one| one.name == moves.setting)?;
    let moved = set.set? - set.planned?;
    let off = (measured.value - measured.wanted?).to_mm() / moves.by;
    same.then(|| off - moved.to_mm())
}

/// The scale that a setting is made by: `height_last` is a height.
fn scale(setting: &str) -> &str {
    setting.split('_').next().unwrap_or(setting)
}

/// Days from one day to another, not under nothing.
fn age(day: &str, today: &str) -> Option<f64> {
    let (day, today): (Date, Date) = (day.parse().ok()?, today.parse().ok()?);
    let days = today.since(day).ok()?.get_days();
    Some(f64::from(days.max(0)))
}
