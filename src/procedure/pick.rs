//! The cutter of a part: the one that the job names, or one of the drawer that fits.
//!
//! A cutter fits when it has the shape and meets the condition of the choice; one whose marked
//! speed is not known is never picked.

use super::calls::Calls;
use super::model::{Choice, Want};
use super::values::{Given, Named, truth};
use super::workplace::{Workplace, put_cutter};
use crate::diag::{Code, Fault, Span, nearest};
use crate::shop::{Cutter, Shape};

/// A cutter that was picked, and why when the program picked it.
#[derive(Debug, Clone)]
pub(super) struct Picked<'a> {
    pub(super) cutter: &'a Cutter,
    pub(super) why: Option<String>,
}

impl<'a> Named<'a> {
    /// A cutter that the job names must meet the condition as one that is picked must.
    pub(super) fn must_fit(
        &self,
        choice: &Choice,
        cutter: &Cutter,
        place: &Span,
        calls: &Calls,
    ) -> Result<(), Fault> {
        let Want::Cutter {
            fits: Some(fits), ..
        } = &choice.want
        else {
            return Ok(());
        };
        let mut values = self.values.clone();
        put_cutter(&mut values, &choice.name, cutter);
        if truth(fits, &values, calls)? {
            return Ok(());
        }
        let message = format!("`{}` does not fit: it needs {}", cutter.id, fits.text());
        Err(Fault::error(Code::REFUSED, message)
            .at(place.clone())
            .also(fits.place().clone(), "the condition")
            .hint(format!("name another, or none: {}", choice.ask)))
    }

    /// The first fitting cutter: measured before marked, then the largest.
    pub(super) fn pick_cutter(
        &self,
        choice: &Choice,
        shape: Shape,
        at: Workplace<'a>,
        given: &Given,
        calls: &Calls,
    ) -> Result<Picked<'a>, Fault> {
        let fits = match &choice.want {
            Want::Cutter { fits, .. } => fits.as_ref(),
            Want::Quantity { .. } | Want::Word(_) => None,
        };
        let mut fitting = Vec::new();
        let of_shape = at.cutters.iter().filter(|cutter| cutter.shape == shape);
        for cutter in of_shape.filter(|cutter| cutter.marked_speed.is_some()) {
            let mut values = self.values.clone();
            put_cutter(&mut values, &choice.name, cutter);
            let fit = fits
                .map(|formula| truth(formula, &values, calls))
                .transpose()?;
            if fit.unwrap_or(true) {
                fitting.push(cutter);
            }
        }
        fitting.sort_by(|a, b| {
            let key = |cutter: &Cutter| (cutter.measured.is_none(), -cutter.diameter());
            key(a).cmp(&key(b)).then_with(|| a.id.cmp(&b.id))
        });
        let Some(cutter) = fitting.first() else {
            let condition = fits.map_or(String::new(), |fits| format!(" with {}", fits.text()));
            let message = format!(
                "{}: no {} cutter in the drawer fits{condition}",
                given.part,
                shape.name()
            );
            return Err(Fault::error(Code::REFUSED, message)
                .at(given.place.clone())
                .hint(format!(
                    "buy or borrow one ({}), or cut the joint otherwise",
                    choice.ask
                )));
        };
        let known = if cutter.measured.is_some() {
            "measured"
        } else {
            "not measured yet"
        };
        let why = match fitting.len() {
            1 => format!("the only one in the drawer that fits; {known}"),
            others => format!("of {others} that fit: {known}, and the largest of those"),
        };
        Ok(Picked {
            cutter,
            why: Some(why),
        })
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
