//! `faceside figure CALCULATOR` without the cutter: those of the drawer that can make the cut, best
//! first, or what to buy.
//!
//! Nothing is chosen for the reader: a cutter moves fence and height, so that it is named in the
//! next command. `cutter=ID` takes size and angle of a cutter of the drawer.

use std::collections::BTreeMap;

use super::args::Figure;
use crate::diag::{Code, Fault, nearest};
use crate::joints::{Calculator, Input, Wanted};
use crate::render::worked::Proposal;
use crate::shop::{Cutter, Shape, Speeds};
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

/// Size and angle of the cutter of the drawer that `text` names; none where the input is no
/// cutter's or the text is no cutter's id.
///
/// # Errors
/// `wrong-type` without a place: a cutter of another shape.
pub(super) fn of_drawer(
    calculator: &Calculator,
    input: &Input,
    text: &str,
    drawer: &[Cutter],
) -> Result<Option<Vec<(String, Value)>>, Fault> {
    let Some(wanted) = wanted(calculator, input) else {
        return Ok(None);
    };
    let Some(cutter) = drawer.iter().find(|cutter| cutter.id == text) else {
        return Ok(None);
    };
    if cutter.shape != wanted.shape {
        let message = format!(
            "{}: `{text}` is a {} cutter, a {} cutter is wanted",
            input.name,
            cutter.shape.name(),
            wanted.shape.name()
        );
        return Err(Fault::error(Code::WRONG_TYPE, message).hint(listed(drawer, wanted.shape)));
    }
    let mut values = BTreeMap::new();
    wanted.put(&mut values, cutter);
    Ok(Some(values.into_iter().collect()))
}

/// The hint for a text that is neither a size nor the id of a cutter.
pub(super) fn hint(
    calculator: &Calculator,
    input: &Input,
    text: &str,
    drawer: &[Cutter],
) -> Option<String> {
    let wanted = wanted(calculator, input)?;
    let of_shape = drawer.iter().filter(|cutter| cutter.shape == wanted.shape);
    let near = nearest(text, of_shape.map(|cutter| cutter.id.as_str()));
    Some(match near {
        Some(near) => format!("did you mean `{near}`?"),
        None => listed(drawer, wanted.shape),
    })
}

fn wanted<'c>(calculator: &'c Calculator, input: &Input) -> Option<&'c Wanted> {
    let wants = calculator.wants.as_ref()?;
    wants
        .cutters
        .iter()
        .find(|wanted| wanted.size == input.name)
}

fn listed(drawer: &[Cutter], shape: Shape) -> String {
    let of_shape = drawer.iter().filter(|cutter| cutter.shape == shape);
    let ids: Vec<_> = of_shape.map(|cutter| cutter.id.as_str()).collect();
    match ids[..] {
        [] => format!("the drawer holds no {} cutter: give a size", shape.name()),
        _ => format!(
            "a size, or a {} cutter of the drawer: {}",
            shape.name(),
            ids.join(", ")
        ),
    }
}
