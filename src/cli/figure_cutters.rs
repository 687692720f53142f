//! `faceside figure CALCULATOR` without the cutter: those of the drawer that can make the cut, best
//! first, or what to buy.
//!
//! Nothing is chosen for the reader: a cutter moves fence and height, so that it is named in the
//! next command. `cutter=ID` takes size and angle of a cutter of the drawer.

use std::collections::BTreeMap;

use super::args::Figure;
use crate::diag::{Code, Fault};
use crate::joints::{Calculator, Input, Wanted};
use crate::render::worked::Proposal;
use crate::shop::Speeds;
use crate::store::Workshop;
use crate::units::Value;

/// Whether cutters are to be proposed: asked for, or one is missing that must be given.
pub(super) fn is_wanted(
    calculator: &Calculator,
    values: &BTreeMap<String, Value>,
    typed: &Figure,
) -> bool {
    let must = |wanted: &Wanted| {
        let input = calculator.input(wanted.size);
        input.is_some_and(Input::is_required)
    };
    let wants = calculator.wants.as_ref();
    typed.cutters || wants.is_some_and(|wants| wants.missing(values).into_iter().any(must))
}

/// The cutters of the drawer for this cut.
///
/// # Errors
/// The fault of another value that is missing or wrong; `refused` where the calculator takes no
/// cutter or all are given.
pub(super) fn propose<'w>(
    calculator: &'static Calculator,
    values: &BTreeMap<String, Value>,
    typed: &Figure,
    workshop: &'w Workshop,
) -> Result<Proposal<'w>, Fault> {
    let place = workshop.place();
    let machine = place.machine("router-table");
    let slowest = machine.and_then(|machine| match &machine.speeds {
        Speeds::Range { from, .. } => Some(*from),
        Speeds::Steps(steps) => steps.first().copied(),
    });
    let wants = calculator.wants.as_ref();
    let missing: Vec<_> = wants.map_or_else(Vec::new, |wants| wants.missing(values));
    let nothing = || {
        let message = format!("`{}` has no cutter to choose", calculator.name);
        Fault::error(Code::REFUSED, message)
            .hint("leave out `--cutters`, or the cutter that is to be chosen")
    };
    if missing.is_empty() {
        return Err(nothing());
    }
    let choice = calculator.choose(values, place.cutters, slowest)?;
    let choice = choice.ok_or_else(nothing)?;
    let buy = match choice.fit.is_empty() {
        true => calculator.to_buy(values, place.cutters)?,
        false => None,
    };
    let next = choice.fit.first().map(|best| {
        let named = missing.iter().zip(&best.cutters);
        let named = named.map(|(wanted, cutter)| format!("{}={}", wanted.size, cutter.id));
        let typed = typed.values.iter().map(|value| match value.contains(' ') {
            true => format!("\"{value}\""),
            false => value.clone(),
        });
        let words: Vec<_> = typed.chain(named).collect();
        format!("faceside figure {} {}", calculator.name, words.join(" "))
    });
    Ok(Proposal { choice, buy, next })
}
