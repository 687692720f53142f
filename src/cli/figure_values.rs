//! Inputs of a calculator as they are written on the command line: `name=value`.

use std::collections::BTreeMap;

use crate::diag::{Code, Fault, Source, Span};
use crate::joints::{Calculator, input_of, read_input};
use crate::shop::Cutter;
use crate::units::{Unit, Value};

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
        let input = input_of(calculator, name).map_err(|fault| fault.at(place.clone()))?;
        let value_place = place.part(argument.len() - text.len(), argument.len());
        let read = read_input(calculator, input, text, (drawer, unit));
        for (name, value) in read.map_err(|fault| fault.at(value_place))? {
            if values.insert(name.clone(), value).is_some() {
                let message = format!("`{name}` is given twice");
                return Err(Fault::error(Code::DUPLICATE_KEY, message).at(place));
            }
        }
    }
    Ok(values)
}
