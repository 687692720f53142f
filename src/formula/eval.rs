//! A formula worked out with its values.
//!
//! After a check only values can be at fault: a divisor of nothing, a root of less than nothing,
//! something too large, a value that was not given. Each fault marks the part that it came from.

use std::cmp::Ordering;
use std::collections::BTreeMap;

use super::dimension::{self, Dim};
use super::function::Function;
use super::held::{Held, Item};
use super::op::{Call, Comparison, Formula, Op, Piece};
use super::rules::{self, Join, listed};
use super::text::{Place, Text};
use super::values::{Outcome, Values};
use crate::diag::{Code, Fault};
use crate::units::{Angle, Length, Scale, Towards, Unit, Value};

/// Works out a calculator by name; what it was not given is absent.
type Caller<'c> =
    &'c dyn Fn(&str, BTreeMap<String, Value>) -> Result<BTreeMap<String, Value>, Fault>;

impl Formula {
    /// Works the formula out; `call` works out a calculator (see [`super::as_kind`] for counts).
    ///
    /// # Errors
    /// `formula-value` for a divisor of nothing, a root of less than nothing, a step of nothing,
    /// a length over [`Length::MOST`] or anything else too large; `value-missing` for a name or a
    /// result without a value; what `call` gives, at the place of the call unless it has one.
    /// A formula that was not checked against the kinds of `values` may also give
    /// `formula-dimension`.
    pub fn run(&self, values: &Values, call: Caller<'_>) -> Result<Outcome, Fault> {
        let mut runner = Runner {
            text: &self.text,
            values,
            call,
            stack: Vec::new(),
        };
        let mut at = 0;
        while let Some(piece) = self.code.get(at) {
            at = match runner.jump(piece)? {
                Some(target) => target,
                None => at + 1,
            };
        }
        let (held, place) = runner.pop()?;
        match held {
            Held::Results(results) => Ok(Outcome::Results(results)),
            held => runner.value(held, place).map(Outcome::One),
        }
    }
}

struct Runner<'r> {
    text: &'r Text,
    values: &'r Values,
    call: Caller<'r>,
    stack: Vec<(Held, Place)>,
}

impl Runner<'_> {
    fn fault(&self, message: impl Into<String>, place: Place) -> Fault {
        self.text.fault(Code::FORMULA_VALUE, message, place)
    }

    fn pop(&mut self) -> Result<(Held, Place), Fault> {
        let none = || Fault::error(Code::FORMULA_SYNTAX, "the formula has no value");
        self.stack.pop().ok_or_else(none)
    }

    fn pop_truth(&mut self) -> Result<bool, Fault> {
        let (held, place) = self.pop()?;
        if let Held::Truth(truth) = held {
            return Ok(truth);
        }
        rules::truth(self.text, &item(&held, place), "a condition").map(|()| false)
    }

    fn pop_measure(&mut self) -> Result<(Dim, f64, Place), Fault> {
        let (held, place) = self.pop()?;
        match held {
            Held::Measure(dim, amount) => Ok((dim, amount, place)),
            held => rules::negate(self.text, &item(&held, place)).map(|dim| (dim, 0.0, place)),
        }
    }

    /// Follows a jump, or takes a step.
    fn jump(&mut self, piece: &Piece) -> Result<Option<usize>, Fault> {
        let (target, keep) = match piece.op {
            Op::AndThen(target) => (target, Some(false)),
            Op::OrElse(target) => (target, Some(true)),
            Op::Unless(target) => (target, None),
            Op::Skip(target) => return Ok(Some(target)),
            _ => return self.step(piece).map(|()| None),
        };
        let truth = self.pop_truth()?;
        if truth != keep.unwrap_or(false) {
            return Ok(None);
        }
        if let Some(kept) = keep {
            self.stack.push((Held::Truth(kept), piece.place));
        }
        Ok(Some(target))
    }

    fn step(&mut self, piece: &Piece) -> Result<(), Fault> {
        let place = piece.place;
        let held = match &piece.op {
            Op::Measure(dim, amount) => self.bounded(*dim, *amount, place)?,
            Op::Amount(amount) => Held::Amount(*amount),
            Op::Word(word) => Held::Choice(word.clone()),
            Op::Truth(truth) => Held::Truth(*truth),
            Op::Name { name, may_lack } => self.name(name, *may_lack, place)?,
            Op::Negate => {
                let (dim, amount, _) = self.pop_measure()?;
                Held::Measure(dim, -amount)
            }
            Op::Not => Held::Truth(!self.pop_truth()?),
            Op::Add => self.join(Join::Add, place)?,
            Op::Subtract => self.join(Join::Subtract, place)?,
            Op::Multiply => self.join(Join::Multiply, place)?,
            Op::Divide => self.join(Join::Divide, place)?,
            Op::Compare(comparison) => Held::Truth(self.compare(*comparison)?),
            Op::Function(function, count) => self.function(*function, *count, place)?,
            Op::Call(call) => self.calculate(call, place)?,
            Op::Member(member) => self.member(member, place)?,
            // The jumps before them have left the one outcome that holds.
            _ => return Ok(()),
        };
        self.stack.push((held, place));
        Ok(())
    }

    /// The amount, unless it is too large to be worked with.
    fn bounded(&self, dim: Dim, amount: f64, place: Place) -> Result<Held, Fault> {
        if amount.abs() <= dim.most() {
            return Ok(Held::Measure(dim, amount));
        }
        let message = match dim {
            Dim::Length(1) => "this comes to more than 100 m",
            _ => "this comes to more than can be worked with",
        };
        Err(self.fault(message, place).hint("check the units"))
    }

    fn name(&self, name: &str, may_lack: bool, place: Place) -> Result<Held, Fault> {
        if let Some(value) = self.values.get(name) {
            return match Held::of(value) {
                Held::Measure(dim, amount) => self.bounded(dim, amount, place),
                held => Ok(held),
            };
        }
        if may_lack && self.values.is_left_out(name) {
            return Ok(Held::Absent);
        }
        let known = name.rsplit_once('.').map(|(before, result)| {
            let parts = self.values.parts(before);
            (before, result, parts)
        });
        Err(match known {
            Some((before, result, parts)) if !parts.is_empty() => {
                let names: Vec<_> = parts.into_iter().map(str::to_owned).collect();
                self.no_result(before, result, &names, place)
            }
            _ => self
                .text
                .fault(Code::VALUE_MISSING, format!("`{name}` has no value"), place)
                .hint(format!("give `{name}` a value")),
        })
    }

    fn no_result(&self, of: &str, result: &str, given: &[String], place: Place) -> Fault {
        let message = format!("`{of}` gave no `{result}`");
        self.text
            .fault(Code::VALUE_MISSING, message, place)
            .hint(format!(
                "`{result}` needs an input that `{of}` was not given"
            ))
            .hint(format!("`{of}` gave {}", listed(given)))
    }

    fn join(&mut self, join: Join, place: Place) -> Result<Held, Fault> {
        let ((right, right_place), (left, left_place)) = (self.pop()?, self.pop()?);
        let (one, two) = (item(&left, left_place), item(&right, right_place));
        let dim = rules::join(self.text, join, &one, &two)?;
        let (Held::Measure(_, one), Held::Measure(_, two)) = (left, right) else {
            return Ok(Held::Absent);
        };
        let amount = match join {
            Join::Add => one + two,
            Join::Subtract => one - two,
            Join::Divide if two == 0.0 => {
                let fault = self.fault("division by zero", right_place);
                let fault = self.text.label(fault, right_place, "this comes to 0");
                return Err(
                    fault.hint("refuse such values under `refuse`, or divide by something else")
                );
            }
            Join::Divide => one / two,
            _ => one * two,
        };
        self.bounded(dim, amount, place)
    }

    fn compare(&mut self, comparison: Comparison) -> Result<bool, Fault> {
        let ((right, right_place), (left, left_place)) = (self.pop()?, self.pop()?);
        let (one, two) = (item(&left, left_place), item(&right, right_place));
        rules::compare(self.text, comparison, &one, &two)?;
        let order = match (left, right) {
            (Held::Measure(dim, one), Held::Measure(_, two)) => order(dim, one, two),
            (left, right) if left == right => Ordering::Equal,
            _ => Ordering::Less,
        };
        Ok(comparison.holds(order))
    }

    fn function(&mut self, function: Function, count: usize, place: Place) -> Result<Held, Fault> {
        let held = self.stack.split_off(self.stack.len().saturating_sub(count));
        let items: Vec<_> = held
            .iter()
            .map(|(held, place)| item(held, *place))
            .collect();
        let dim = rules::function(self.text, function, &items)?;
        let amounts = held.iter().map(|(held, _)| match held {
            Held::Measure(_, amount) => *amount,
            _ => 0.0,
        });
        let amounts: Vec<f64> = amounts.collect();
        let first = amounts.first().copied().unwrap_or_default();
        let last = held.last().map_or(place, |(_, place)| *place);
        let amount = match function {
            Function::Min => amounts.into_iter().fold(f64::INFINITY, f64::min),
            Function::Max => amounts.into_iter().fold(f64::NEG_INFINITY, f64::max),
            // `if` is an operation of its own, with jumps.
            Function::If => first,
            Function::Abs => first.abs(),
            Function::Sqrt if first < 0.0 => {
                let fault = self.fault("root of less than nothing", last);
                return Err(self.text.label(fault, last, "this comes to less than 0"));
            }
            Function::Sqrt => libm::sqrt(first),
            Function::Tan => self.tangent(Angle::degrees(first), place)?,
            Function::Sin => Angle::degrees(first).sin(),
            Function::Cos => Angle::degrees(first).cos(),
            Function::Atan => libm::atan(first).to_degrees(),
            Function::Floor => snapped(first).unwrap_or_else(|| first.floor()),
            Function::Ceil => snapped(first).unwrap_or_else(|| first.ceil()),
            Function::Round => first.round(),
            Function::DownTo => self.stepped(&amounts, Towards::Down, last)?,
            Function::UpTo => self.stepped(&amounts, Towards::Up, last)?,
            Function::NearestTo => self.stepped(&amounts, Towards::Nearest, last)?,
        };
        self.bounded(dim, amount, place)
    }

    /// The tangent; that of a right angle is no number, though rounding makes it one.
    fn tangent(&self, angle: Angle, place: Place) -> Result<f64, Fault> {
        const TANGENT_MOST: f64 = 1e9;
        let tangent = angle.tan();
        if tangent.abs() <= TANGENT_MOST {
            return Ok(tangent);
        }
        Err(self.fault("the tangent of a right angle has no end", place))
    }

    fn stepped(&self, amounts: &[f64], towards: Towards, last: Place) -> Result<f64, Fault> {
        let length = |index: usize| {
            let amount = amounts.get(index).copied().unwrap_or_default();
            Length::nm(amount.round() as i64)
        };
        let step = length(1);
        if step <= Length::ZERO {
            let fault = self.fault("a step must be more than nothing", last);
            return Err(self.text.label(fault, last, "this comes to 0 or less"));
        }
        let scale = Scale::new(Unit::Mm, step);
        Ok(scale.round(length(0), towards).to_nm() as f64)
    }

    fn calculate(&mut self, call: &Call, place: Place) -> Result<Held, Fault> {
        let from = self.stack.len().saturating_sub(call.arguments.len());
        let held = self.stack.split_off(from);
        let mut given = BTreeMap::new();
        for (argument, (held, place)) in call.arguments.iter().zip(held) {
            if let (Some(name), false) = (&argument.name, held == Held::Absent) {
                given.insert(name.clone(), self.value(held, place)?);
            }
        }
        (self.call)(&call.name, given)
            .map(Held::Results)
            .map_err(|fault| fault.at_least(&self.text.span(place)))
    }

    fn member(&mut self, member: &str, place: Place) -> Result<Held, Fault> {
        let (held, from) = self.pop()?;
        let Held::Results(results) = held else {
            let message = format!("`.{member}` can only follow results");
            return Err(rules::wrong(self.text, &item(&held, from), &message));
        };
        match results.get(member).map(Held::of) {
            Some(Held::Measure(dim, amount)) => self.bounded(dim, amount, place),
            Some(held) => Ok(held),
            None => {
                let names: Vec<_> = results.into_keys().collect();
                let of = self.text.of(from);
                let of = of.split('(').next().unwrap_or(of).trim_end();
                Err(self.no_result(of, member, &names, place))
            }
        }
    }

    /// The value as it leaves the formula.
    fn value(&self, held: Held, place: Place) -> Result<Value, Fault> {
        let value = match held {
            Held::Measure(dim, amount) => dimension::value(dim, amount),
            Held::Amount(amount) => Some(Value::Amount(amount)),
            Held::Truth(truth) => Some(Value::Truth(truth)),
            Held::Choice(ref word) => Some(Value::Choice(word.clone())),
            Held::Lengths(ref lengths) => Some(Value::Lengths(lengths.clone())),
            Held::Results(_) | Held::Absent => None,
        };
        let message = "this is not one value";
        value.ok_or_else(|| rules::wrong(self.text, &item(&held, place), message))
    }
}

fn item(held: &Held, place: Place) -> Item {
    Item {
        shape: held.shape(),
        place,
    }
}

/// Lengths compare by whole nanometres, all else to one part in 10^12.
fn order(dim: Dim, one: f64, two: f64) -> Ordering {
    let (one, two) = match dim {
        Dim::Length(1) => (one.round(), two.round()),
        _ if (one - two).abs() <= one.abs().max(two.abs()) * 1e-12 => (one, one),
        _ => (one, two),
    };
    one.partial_cmp(&two).unwrap_or(Ordering::Equal)
}

/// The whole number that this is, but for the last digits of a division.
fn snapped(number: f64) -> Option<f64> {
    let whole = number.round();
    ((number - whole).abs() <= 1e-9).then_some(whole)
}
