//! The cutter of a part: the one that the job names, or one of the drawer that can make the cut.
//!
//! A cutter of the shape is tried: all is worked out with it that can be, and it drops out where
//! the choice's own condition, a calculator or the procedure refuses it, where its edges are too
//! short, or where it bears no speed. Which of the others comes first, and what to buy when there
//! is none: `joints/choose.rs`.

use super::calls::Calls;
use super::fill::{Set, runs};
use super::filled::plain;
use super::model::{Choice, Procedure};
use super::values::{Given, Named, truth};
use super::workplace::{Workplace, put_cutter};
use crate::diag::{Code, Fault, Span, nearest};
use crate::formula::Formula;
use crate::joints::{Effort, merit, on_sale, reasons, too_short, unfit_to_run, what_to_buy};
use crate::shop::{Cutter, Shape};

/// A cutter that was picked, and why when the program picked it.
#[derive(Debug, Clone)]
pub(super) struct Picked<'a> {
    pub(super) cutter: &'a Cutter,
    pub(super) why: Option<String>,
}

/// A cutter that is wanted, and the place where it is tried.
pub(super) struct Wish<'w, 'a> {
    pub(super) procedure: &'w Procedure,
    pub(super) choice: &'w Choice,
    pub(super) shape: Shape,
    pub(super) fits: Option<&'w Formula>,
    pub(super) at: Workplace<'a>,
    /// All that is known of the part so far.
    pub(super) named: &'w Named<'a>,
}

impl<'a> Wish<'_, 'a> {
    /// A cutter that the job names must meet the condition as one that is picked must.
    pub(super) fn must_fit(&self, cutter: &Cutter, place: &Span) -> Result<(), Fault> {
        let Some(fits) = self.fits else {
            return Ok(());
        };
        let mut values = self.named.values.clone();
        put_cutter(&mut values, &self.choice.name, cutter);
        if truth(fits, &values, &Calls::default())? {
            return Ok(());
        }
        let message = format!("`{}` does not fit: it needs {}", cutter.id, fits.text());
        Err(Fault::error(Code::REFUSED, message)
            .at(place.clone())
            .also(fits.place().clone(), "the condition")
            .hint(format!("name another, or none: {}", self.choice.ask)))
    }

    /// The best of the drawer for this cut.
    pub(super) fn pick(&self, given: &Given) -> Result<Picked<'a>, Fault> {
        let (mut fitting, mut unfit) = (Vec::new(), Vec::new());
        let drawer = self.at.cutters.iter();
        for cutter in drawer.filter(|cutter| cutter.shape == self.shape) {
            match self.effort(cutter) {
                Ok(effort) => fitting.push((cutter, effort)),
                Err(why) => add(&mut unfit, &cutter.name, why),
            }
        }
        fitting.sort_by_cached_key(|(cutter, effort)| merit(cutter, *effort));
        let Some((cutter, effort)) = fitting.first() else {
            return Err(self.none_fits(given, unfit));
        };
        let place = match fitting.len() {
            1 => "the only one in the drawer that fits".to_owned(),
            others => format!("the best of {others} that fit"),
        };
        Ok(Picked {
            cutter,
            why: Some(format!("{place}: {}", reasons(cutter, *effort))),
        })
    }

    /// What the cut asks of this cutter, or why it cannot make it.
    fn effort(&self, cutter: &Cutter) -> Result<Effort, String> {
        if let Some(why) = unfit_to_run(cutter, None) {
            return Err(why);
        }
        let calls = Calls::default();
        let mut tried = self.named.clone();
        put_cutter(&mut tried.values, &self.choice.name, cutter);
        let words = |fault: Fault| fault.message;
        if let Some(fits) = self.fits
            && !truth(fits, &tried.values, &calls).map_err(words)?
        {
            return Err(format!("it needs {}", fits.text()));
        }
        tried
            .work_out_known(self.procedure, self.at, &calls)
            .map_err(words)?;
        let refusals = self.procedure.refusals.iter();
        for rule in refusals.filter(|rule| tried.knows(&rule.when)) {
            if truth(&rule.when, &tried.values, &calls).map_err(words)? {
                return Err(plain(&runs(&rule.say, &tried, self.at, &Set::default())));
            }
        }
        let effort = calls.said().effort;
        match too_short(cutter, effort) {
            Some(why) => Err(why),
            None => Ok(effort),
        }
    }

    fn none_fits(&self, given: &Given, unfit: Vec<(String, Vec<String>)>) -> Fault {
        let sold = on_sale(self.shape);
        let tried = sold
            .iter()
            .filter_map(|cutter| Some((cutter, self.effort(cutter).ok()?)));
        let best = tried.min_by_key(|(cutter, effort)| merit(cutter, *effort));
        let ask = &self.choice.ask;
        let buy = match best {
            Some((cutter, effort)) => what_to_buy(&cutter.name, effort),
            None => format!("No usual size makes it either ({ask}): cut the joint otherwise."),
        };
        let shape = self.shape.name();
        let message = format!(
            "{}: no {shape} cutter in the drawer can make this cut",
            given.part
        );
        let fault = Fault::error(Code::REFUSED, message).at(given.place.clone());
        let told = unfit
            .into_iter()
            .map(|(why, names)| format!("{}: {why}", names.join("; ")));
        told.fold(fault, Fault::hint).hint(buy)
    }
}

/// Adds a cutter's name under the reason why it cannot make the cut.
fn add(unfit: &mut Vec<(String, Vec<String>)>, name: &str, why: String) {
    match unfit.iter_mut().find(|(told, _)| *told == why) {
        Some((_, names)) => names.push(name.to_owned()),
        None => unfit.push((why, vec![name.to_owned()])),
    }
}

/// The cutter that the job names, if it has the shape.
pub(super) fn named_cutter<'a>(
    id: &str,
    place: &Span,
    shape: Shape,
    at: Workplace<'a>,
) -> Result<Picked<'a>, Fault> {
    let of_shape = || at.cutters.iter().filter(|cutter| cutter.shape == shape);
    let Some(cutter) = at.cutter(id) else {
        let near = nearest(id, at.cutters.iter().map(|cutter| cutter.id.as_str()));
        let ids: Vec<_> = of_shape().map(|cutter| cutter.id.as_str()).collect();
        let hint = match near {
            Some(near) => format!("did you mean `{near}`?"),
            None => format!("{} cutters in the drawer: {}", shape.name(), listed(&ids)),
        };
        let message = format!("no cutter has the id `{id}`");
        return Err(Fault::error(Code::UNKNOWN_NAME, message)
            .at(place.clone())
            .hint(hint));
    };
    if cutter.shape != shape {
        let message = format!("`{id}` is a {} cutter", cutter.shape.name());
        let ids: Vec<_> = of_shape().map(|cutter| cutter.id.as_str()).collect();
        return Err(Fault::error(Code::WRONG_TYPE, message)
            .at(place.clone())
            .label(format!("a {} cutter is wanted", shape.name()))
            .hint(format!("in the drawer: {}", listed(&ids))));
    }
    Ok(Picked { cutter, why: None })
}

fn listed(ids: &[&str]) -> String {
    if ids.is_empty() {
        return "none".to_owned();
    }
    ids.join(", ")
}
