//! `faceside figure CALCULATOR name=value...`: one calculation, its limits and what each input
//! does to the fit.
//!
//! No name: the list. A name without values: what it takes and gives. Exit code 1 on a refusal,
//! 2 when a name or a value cannot be read.

use std::collections::BTreeMap;

use super::args::{Common, Figure};
use super::open::open;
use super::output::Output;
use super::{End, Stop};
use crate::diag::{Code, Fault, Source, Span, nearest};
use crate::joints::{self, Calculator, FitBudget, Stopped, Tolerances};
use crate::render::worked;
use crate::shop::Shop;
use crate::units::{Scale, Unit, Value, parse};

/// Answers one calculation.
pub(super) fn figure(typed: &Figure, common: &Common, out: &mut Output) -> Result<End, Stop> {
    let Some(name) = &typed.calculator else {
        out.say(&worked::list());
        return Ok(End::Done);
    };
    let calculator = find(name).map_err(Stop::Usage)?;
    if typed.values.is_empty() {
        out.say(&worked::explain(calculator));
        return Ok(End::Done);
    }
    let workshop = open(common, out)?;
    let values = values(calculator, typed, workshop.shop.units).map_err(Stop::Usage)?;
    let scale = scale(&workshop.shop);
    match joints::work_out(calculator, &values) {
        Ok(answer) => {
            let machine = workshop.place().machine("router-table");
            let budget = machine.and_then(|machine| {
                let tolerances = Tolerances::of_machine(&workshop.shop, machine);
                FitBudget::of(calculator, &answer, &tolerances)
            });
            let budget = budget.as_ref();
            if common.json {
                out.say(&format!(
                    "{:#}",
                    worked::json(calculator, &answer, budget, scale)
                ));
            } else {
                out.say(&worked::table(calculator, &answer, budget, scale));
            }
            Ok(End::Done)
        }
        Err(Stopped::Refused(refusal)) => {
            if common.json {
                out.say(&format!("{:#}", worked::json_refused(calculator, &refusal)));
            } else {
                out.say(&worked::refused(calculator, &refusal));
            }
            Ok(End::Findings)
        }
        Err(Stopped::Fault(fault)) => Err(Stop::Usage(fault)),
    }
}

fn find(name: &str) -> Result<&'static Calculator, Fault> {
    joints::find(name).ok_or_else(|| {
        let hint = match nearest(name, joints::ALL.iter().map(|calculator| calculator.name)) {
            Some(near) => format!("did you mean `{near}`?"),
            None => "`faceside figure` lists them".to_owned(),
        };
        Fault::error(
            Code::UNKNOWN_NAME,
            format!("no calculator is called `{name}`"),
        )
        .hint(hint)
    })
}

/// The scale of the shop's finest measuring tool.
fn scale(shop: &Shop) -> Scale {
    match shop.finest_tool() {
        Some(tool) => Scale::new(shop.units, tool.resolution),
        None => Scale::caliper(shop.units),
    }
}

/// Reads `name=value` by the kind that the calculator wants, with places in the command line.
fn values(
    calculator: &'static Calculator,
    typed: &Figure,
    unit: Unit,
) -> Result<BTreeMap<String, Value>, Fault> {
    let source = Source::new("command line", typed.values.join(" "));
    let mut values = BTreeMap::new();
    let mut start = 0;
    for argument in &typed.values {
        let place = Span::new(&source, start, start + argument.len());
        start += argument.len() + 1;
        let Some((name, text)) = argument.split_once('=') else {
            let message = format!("`{argument}` is not a name and a value");
            return Err(Fault::error(Code::QUANTITY_SYNTAX, message)
                .at(place)
                .hint("write it like `stock=19mm`"));
        };
        let name = name.trim();
        let Some(input) = calculator.input(name) else {
            let names: Vec<_> = calculator.inputs.iter().map(|input| input.name).collect();
            let hint = match nearest(name, names.iter().copied()) {
                Some(near) => format!("did you mean `{near}`?"),
                None => format!("it takes: {}", names.join(", ")),
            };
            let message = format!("`{}` takes no `{name}`", calculator.name);
            return Err(Fault::error(Code::UNKNOWN_NAME, message)
                .at(place)
                .hint(hint));
        };
        let value_place = place.part(argument.len() - text.len(), argument.len());
        let value = parse(text, input.kind, unit).map_err(|fault| {
            Fault {
                message: format!("{name}: {}", fault.message),
                ..fault
            }
            .at(value_place)
        })?;
        if values.insert(name.to_owned(), value).is_some() {
            let message = format!("`{name}` is given twice");
            return Err(Fault::error(Code::DUPLICATE_KEY, message).at(place));
        }
    }
    Ok(values)
}
