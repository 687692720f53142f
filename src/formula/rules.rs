//! The rules of dimensions, each with the fault that it gives when it is broken.
//!
//! Checking and running ask the same rules, so that what was checked cannot break one later.

use super::dimension::Dim;
use super::function::Function;
use super::held::{Item, Shape};
use super::op::Comparison;
use super::text::{Place, Text};
use crate::diag::{Code, Fault, nearest};

/// What two things were to be joined by.
#[derive(Debug, Clone, Copy)]
pub(super) enum Join {
    Add,
    Subtract,
    Multiply,
    Divide,
    Compare,
    Outcomes,
}

pub(super) fn negate(text: &Text, item: &Item) -> Result<Dim, Fault> {
    match item.shape {
        Shape::Measure(dim) => Ok(dim),
        _ => Err(wrong(
            text,
            item,
            "`-` can only stand before a number or a quantity",
        )),
    }
}

pub(super) fn truth(text: &Text, item: &Item, of: &str) -> Result<(), Fault> {
    match item.shape {
        Shape::Truth => Ok(()),
        _ => {
            Err(wrong(text, item, &format!("{of} must be yes or no"))
                .hint("compare it with something"))
        }
    }
}

/// The dimension of two things joined by `+ - * /`, or compared by size.
pub(super) fn join(text: &Text, join: Join, left: &Item, right: &Item) -> Result<Dim, Fault> {
    let (Shape::Measure(one), Shape::Measure(two)) = (&left.shape, &right.shape) else {
        return Err(clash(text, join, left, right));
    };
    let joined = match join {
        Join::Add | Join::Subtract | Join::Compare | Join::Outcomes => one.plus(*two),
        Join::Multiply => one.times(*two),
        Join::Divide => one.over(*two),
    };
    joined.ok_or_else(|| clash(text, join, left, right))
}

pub(super) fn compare(
    text: &Text,
    comparison: Comparison,
    left: &Item,
    right: &Item,
) -> Result<(), Fault> {
    match (&left.shape, &right.shape) {
        (Shape::Measure(_), Shape::Measure(_)) => {
            join(text, Join::Compare, left, right).map(|_| ())
        }
        (Shape::Truth, Shape::Truth) | (Shape::Choice(_), Shape::Choice(_))
            if comparison.is_order() =>
        {
            let fault = clash(text, Join::Compare, left, right);
            Err(fault.hint("only `==` and `!=` go with these"))
        }
        (Shape::Truth, Shape::Truth) => Ok(()),
        (Shape::Choice(one), Shape::Choice(two)) => {
            if one.len() <= two.len() {
                options(text, one, two, left.place)
            } else {
                options(text, two, one, right.place)
            }
        }
        _ => Err(clash(text, Join::Compare, left, right)),
    }
}

/// Whether all `words` are among `all`; when either is empty, nothing is known of it.
pub(super) fn options(
    text: &Text,
    words: &[String],
    all: &[String],
    place: Place,
) -> Result<(), Fault> {
    let Some(word) = words.iter().find(|word| !all.contains(word)) else {
        return Ok(());
    };
    if all.is_empty() {
        return Ok(());
    }
    let names = all.iter().map(String::as_str);
    let near = nearest(word, names).map(|near| format!("did you mean `{near}`?"));
    let message = format!("`{word}` is not one of the words that are offered");
    Err(text
        .fault(Code::FORMULA_NAME, message, place)
        .maybe_hint(near)
        .hint(format!("the words are {}", listed(all))))
}

/// What `if` gives, when both its outcomes are alike.
pub(super) fn branch(text: &Text, yes: Item, no: Item) -> Result<Shape, Fault> {
    match (&yes.shape, &no.shape) {
        (Shape::Measure(_), Shape::Measure(_)) => {
            join(text, Join::Outcomes, &yes, &no).map(Shape::Measure)
        }
        (Shape::Choice(one), Shape::Choice(two)) if one.is_empty() || two.is_empty() => {
            Ok(Shape::Choice(Vec::new()))
        }
        (Shape::Choice(one), Shape::Choice(two)) => {
            let more = two.iter().filter(|word| !one.contains(word));
            Ok(Shape::Choice(one.iter().chain(more).cloned().collect()))
        }
        (one, two) if one == two => Ok(yes.shape),
        _ => Err(clash(text, Join::Outcomes, &yes, &no)),
    }
}

/// What a function of numbers and quantities gives.
pub(super) fn function(text: &Text, function: Function, items: &[Item]) -> Result<Dim, Fault> {
    use Function::{Ceil, Floor, Max, Min, Round, Sqrt};
    let mut folded: Option<(Dim, &Item)> = None;
    for item in items {
        let Shape::Measure(own) = item.shape else {
            return Err(unfit(text, function, item));
        };
        let dim = match (function, own, folded) {
            (Min | Max, _, Some((_, before))) => join(text, Join::Compare, before, item)?,
            (Min | Max | Function::Abs, _, _) => own,
            (Sqrt, _, _) => own.root().ok_or_else(|| unfit(text, function, item))?,
            (Function::Tan | Function::Sin | Function::Cos, Dim::Angle, _) => Dim::Number,
            (Function::Atan, _, _) if own.is_plain() => Dim::Angle,
            (Floor | Ceil | Round, _, _) if own.is_plain() => Dim::Count,
            (Function::DownTo | Function::UpTo | Function::NearestTo, Dim::Length(1), _) => own,
            _ => return Err(unfit(text, function, item)),
        };
        let dim = folded
            .and_then(|(before, _)| before.plus(dim))
            .unwrap_or(dim);
        folded = Some((dim, item));
    }
    Ok(folded.map_or(Dim::Number, |(dim, _)| dim))
}

fn unfit(text: &Text, function: Function, item: &Item) -> Fault {
    let takes = match function {
        Function::Abs | Function::Max | Function::Min | Function::If => "numbers or quantities",
        Function::Tan | Function::Sin | Function::Cos => "an angle",
        Function::Atan | Function::Floor | Function::Ceil | Function::Round => "a plain number",
        Function::Sqrt => "a plain number or an area",
        Function::DownTo | Function::UpTo | Function::NearestTo => "a length and a length",
    };
    let message = format!("`{}` takes {takes}", function.name());
    let hint = match (function, &item.shape) {
        (Function::Floor, Shape::Measure(Dim::Length(1))) => Function::DownTo.usage(),
        (Function::Ceil, Shape::Measure(Dim::Length(1))) => Function::UpTo.usage(),
        (Function::Round, Shape::Measure(Dim::Length(1))) => Function::NearestTo.usage(),
        _ => function.usage(),
    };
    wrong(text, item, &message).hint(format!("write `{hint}`"))
}

/// A fault about one thing that is not what it must be.
pub(super) fn wrong(text: &Text, item: &Item, message: &str) -> Fault {
    let fault = text.fault(Code::FORMULA_DIMENSION, message, item.place);
    let words = format!("this is {}", item.shape.words());
    named_results(text.label(fault, item.place, &words), &item.shape)
}

/// A fault about two things that do not go together, with both places.
fn clash(text: &Text, join: Join, left: &Item, right: &Item) -> Fault {
    let (one, two) = (left.shape.words(), right.shape.words());
    let message = match join {
        Join::Add => format!("{two} cannot be added to {one}"),
        Join::Subtract => format!("{two} cannot be taken from {one}"),
        Join::Multiply => format!("{one} cannot be multiplied by {two}"),
        Join::Divide => format!("{one} cannot be divided by {two}"),
        Join::Compare => format!("{one} cannot be compared with {two}"),
        Join::Outcomes => format!("both outcomes must be alike, not {one} and {two}"),
    };
    let fault = text.fault(Code::FORMULA_DIMENSION, message, right.place);
    let fault = text.label(fault, right.place, &format!("this is {two}"));
    let fault = text.also(fault, left.place, &format!("this is {one}"));
    let fault = named_results(named_results(fault, &left.shape), &right.shape);
    fault.maybe_hint(cure(join, &left.shape, &right.shape))
}

fn cure(join: Join, left: &Shape, right: &Shape) -> Option<String> {
    let (Shape::Measure(one), Shape::Measure(two)) = (left, right) else {
        return None;
    };
    let hint = match (join, one, two) {
        (Join::Multiply | Join::Divide, Dim::Length(_), Dim::Length(_)) => {
            "no power of a length beyond the third is worked with"
        }
        (Join::Multiply | Join::Divide, Dim::Angle, _)
        | (Join::Multiply | Join::Divide, _, Dim::Angle) => {
            "take the tangent, sine or cosine of the angle first"
        }
        (Join::Multiply | Join::Divide, _, _) => "a calculator works with speeds",
        _ if one.is_plain() || two.is_plain() => "give the number a unit, such as `mm` or `in`",
        _ => "only like goes with like",
    };
    Some(hint.to_owned())
}

fn named_results(fault: Fault, shape: &Shape) -> Fault {
    match shape {
        Shape::Results(results) => {
            let names: Vec<_> = results.iter().map(|(name, _)| name.clone()).collect();
            fault.hint(format!(
                "choose one with a point and its name: {}",
                listed(&names)
            ))
        }
        _ => fault,
    }
}

/// Names in backquotes with commas between them.
pub(super) fn listed(names: &[String]) -> String {
    let quoted: Vec<_> = names.iter().map(|name| format!("`{name}`")).collect();
    quoted.join(", ")
}
