//! Inputs of a calculator as they are written: `name=value` on the command line, and the parts of
//! that which a table's head and cells share with it.

use std::collections::BTreeMap;

use super::figure_cutters::{hint, of_drawer};
use crate::diag::{Code, Fault, Source, Span, nearest};
use crate::joints::{Calculator, Input, check_value};
use crate::shop::Cutter;
use crate::units::{Unit, Value, parse};

/// Reads `name=value` by the kind that the calculator wants, with places in the command line.
pub(super) fn typed_values(
    calculator: &'static Calculator,
    typed: &[String],
    drawer: &[Cutter],
    unit: Unit,
) -> Result<BTreeMap<String, Value>, Fault> {
    let source = Source::new("command line", typed.join(" "));
    let mut values = BTreeMap::new();
    let mut start = 0;
    for argument in typed {
        let place = Span::new(&source, start, start + argument.len());
        start += argument.len() + 1;
        let Some((name, text)) = argument.split_once('=') else {
            let message = format!("`{argument}` is not a name and a value");
            return Err(Fault::error(Code::QUANTITY_SYNTAX, message)
                .at(place)
                .hint("write it like `stock=19mm`"));
        };
        let name = name.trim();
        let input = input(calculator, name).map_err(|fault| fault.at(place.clone()))?;
        let value_place = place.part(argument.len() - text.len(), argument.len());
        let read = read(calculator, input, text, (drawer, unit));
        for (name, value) in read.map_err(|fault| fault.at(value_place))? {
            if values.insert(name.clone(), value).is_some() {
                let message = format!("`{name}` is given twice");
                return Err(Fault::error(Code::DUPLICATE_KEY, message).at(place));
            }
        }
    }
    Ok(values)
}

/// The input of that name.
///
/// # Errors
/// `unknown-name` without a place, with the nearest name or all of them.
pub(super) fn input(calculator: &Calculator, name: &str) -> Result<&'static Input, Fault> {
    calculator.input(name).ok_or_else(|| {
        let names: Vec<_> = calculator.inputs.iter().map(|input| input.name).collect();
        let hint = match nearest(name, names.iter().copied()) {
            Some(near) => format!("did you mean `{near}`?"),
            None => format!("it takes: {}", names.join(", ")),
        };
        let message = format!("`{}` takes no `{name}`", calculator.name);
        Fault::error(Code::UNKNOWN_NAME, message).hint(hint)
    })
}

/// The value of an input, of its kind and in its range; of a cutter of the drawer its size and
/// angle.
///
/// # Errors
/// What [`parse`] and [`check_value`] say, with the input's name, without a place.
pub(super) fn read(
    calculator: &Calculator,
    input: &Input,
    text: &str,
    (drawer, unit): (&[Cutter], Unit),
) -> Result<Vec<(String, Value)>, Fault> {
    let values = match of_drawer(calculator, input, text, drawer)? {
        Some(values) => values,
        None => {
            let value = parse(text, input.kind, unit).map_err(|fault| {
                let message = format!("{}: {}", input.name, fault.message);
                Fault { message, ..fault }.maybe_hint(hint(calculator, input, text, drawer))
            })?;
            vec![(input.name.to_owned(), value)]
        }
    };
    for (name, value) in &values {
        if let Some(input) = calculator.input(name) {
            check_value(input, value)?;
        }
    }
    Ok(values)
}
