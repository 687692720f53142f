//! The value of an input as a person writes it: a quantity with its unit, a word, or the id of a
//! cutter of the drawer, which gives its size and its angle.
//!
//! The command line, the cells of a table and the fields of a page are read here alike; the caller
//! knows the place and puts it to the fault.

use std::collections::BTreeMap;

use super::{Calculator, Input, Wanted, check_value};
use crate::diag::{Code, Fault, nearest};
use crate::shop::{Cutter, Shape};
use crate::units::{Unit, Value, parse};

/// The input of that name.
///
/// # Errors
/// `unknown-name` without a place, with the nearest name or all of them.
pub fn input_of(calculator: &Calculator, name: &str) -> Result<&'static Input, Fault> {
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
pub fn read_input(
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

/// Size and angle of the cutter of the drawer that `text` names; none where the input is no
/// cutter's or the text is no cutter's id.
///
/// # Errors
/// `wrong-type` without a place: a cutter of another shape.
fn of_drawer(
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
fn hint(calculator: &Calculator, input: &Input, text: &str, drawer: &[Cutter]) -> Option<String> {
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
