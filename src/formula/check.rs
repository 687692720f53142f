//! What a formula gives, found out without any values.
//!
//! Walks the code straight on with the shapes of things on the stack. Every name, call, argument
//! and result is looked up here, so that a slip of the hand is found when the file is loaded.

use super::dimension::Dim;
use super::function;
use super::held::{Item, Shape};
use super::op::{Argument, Call, Formula, Op, Piece};
use super::rules::{self, Join, listed};
use super::scope::{Known, Param, Scope, Signature};
use super::text::{Place, Text};
use crate::diag::{Code, Fault, nearest};
use crate::units::Kind;

impl Formula {
    /// What the formula gives, by the dimensions of what it names.
    ///
    /// The outcome is never [`Known::Maybe`]. A formula that passes can fail later only for its
    /// values; see [`Formula::run`].
    ///
    /// # Errors
    /// `formula-name` for a name, calculator, argument, result or word that is not known;
    /// `formula-dimension` for what does not go together; `value-missing` for an argument that
    /// must be given; `formula-syntax` for an argument without its name.
    pub fn check(&self, scope: &Scope) -> Result<Known, Fault> {
        let mut checker = Checker {
            text: &self.text,
            scope,
            stack: Vec::new(),
        };
        for piece in &self.code {
            checker.step(piece)?;
        }
        let item = checker.pop()?;
        let no_value = || {
            let words = "a formula cannot end as a power of a length";
            rules::wrong(&self.text, &item, words).hint("divide by a length, or take the root")
        };
        item.shape.clone().known().ok_or_else(no_value)
    }
}

struct Checker<'c> {
    text: &'c Text,
    scope: &'c Scope,
    stack: Vec<Item>,
}

impl Checker<'_> {
    fn pop(&mut self) -> Result<Item, Fault> {
        let none = || Fault::error(Code::FORMULA_SYNTAX, "the formula has no value");
        self.stack.pop().ok_or_else(none)
    }

    fn pop_many(&mut self, count: usize) -> Vec<Item> {
        self.stack.split_off(self.stack.len().saturating_sub(count))
    }

    fn step(&mut self, piece: &Piece) -> Result<(), Fault> {
        let place = piece.place;
        let shape = match &piece.op {
            Op::AndThen(_) | Op::OrElse(_) | Op::Unless(_) | Op::Skip(_) => return Ok(()),
            Op::Measure(dim, _) => Shape::Measure(*dim),
            Op::Amount(amount) => Shape::Amount(amount.measure()),
            Op::Word(word) => Shape::Choice(vec![word.clone()]),
            Op::Truth(_) => Shape::Truth,
            Op::Name { name, may_lack } => self.name(name, *may_lack, place)?,
            Op::Negate => Shape::Measure(rules::negate(self.text, &self.pop()?)?),
            Op::Not => {
                rules::truth(self.text, &self.pop()?, "what `not` denies")?;
                Shape::Truth
            }
            Op::Add => self.join(Join::Add)?,
            Op::Subtract => self.join(Join::Subtract)?,
            Op::Multiply => self.join(Join::Multiply)?,
            Op::Divide => self.join(Join::Divide)?,
            Op::Compare(comparison) => {
                let (right, left) = (self.pop()?, self.pop()?);
                rules::compare(self.text, *comparison, &left, &right)?;
                Shape::Truth
            }
            Op::And => self.both("each side of `and`")?,
            Op::Or => self.both("each side of `or`")?,
            Op::If => {
                let (no, yes, condition) = (self.pop()?, self.pop()?, self.pop()?);
                rules::truth(self.text, &condition, "the condition of `if`")?;
                rules::branch(self.text, yes, no)?
            }
            Op::Function(function, count) => {
                let items = self.pop_many(*count);
                Shape::Measure(rules::function(self.text, *function, &items)?)
            }
            Op::Call(call) => self.call(call)?,
            Op::Member(member) => self.member(member, place)?,
        };
        self.stack.push(Item { shape, place });
        Ok(())
    }

    fn join(&mut self, join: Join) -> Result<Shape, Fault> {
        let (right, left) = (self.pop()?, self.pop()?);
        rules::join(self.text, join, &left, &right).map(Shape::Measure)
    }

    fn both(&mut self, of: &str) -> Result<Shape, Fault> {
        let (right, left) = (self.pop()?, self.pop()?);
        rules::truth(self.text, &left, of)?;
        rules::truth(self.text, &right, of)?;
        Ok(Shape::Truth)
    }

    fn name(&self, name: &str, may_lack: bool, place: Place) -> Result<Shape, Fault> {
        match self.scope.find(name) {
            Some(Known::One(kind)) => Ok(Shape::of(kind)),
            Some(Known::Choice(words)) => Ok(Shape::Choice(words)),
            Some(Known::Maybe(kind)) if may_lack => Ok(Shape::of(kind)),
            Some(Known::Maybe(_)) => Err(self.may_be_absent(name, place)),
            Some(Known::Results(results)) => {
                let shape = Shape::Results(results);
                let message = format!("`{name}` is not one value");
                Err(rules::wrong(self.text, &Item { shape, place }, &message))
            }
            None => Err(self.unknown_name(name, place)),
        }
    }

    fn may_be_absent(&self, name: &str, place: Place) -> Fault {
        let message = format!("`{name}` may have no value");
        self.text
            .fault(Code::FORMULA_NAME, message, place)
            .hint("it can only be the whole of an argument that its calculator can do without")
    }

    fn unknown_name(&self, name: &str, place: Place) -> Fault {
        if let Some((before, result)) = name.rsplit_once('.')
            && let Some(results) = self.scope.results(before)
        {
            let from = place.to - result.len();
            return self.no_result(before, result, results, Place { from, ..place });
        }
        let fault = self.text.fault(
            Code::FORMULA_NAME,
            format!("nothing is named `{name}` here"),
            place,
        );
        if let Some(entry) = function::find(name) {
            return fault.hint(format!("it is a function: write `{}`", entry.4));
        }
        if self.scope.call(name).is_some() {
            return fault.hint(format!("it is a calculator: write `{name}(...)`"));
        }
        let after = self.text.words().get(place.to..).unwrap_or_default();
        let mut next = after.chars();
        let is_hyphened = next.next() == Some('-') && next.next().is_some_and(char::is_alphabetic);
        let names = self.scope.writable();
        let near = match name {
            "true" => Some("yes"),
            "false" => Some("no"),
            _ => nearest(name, names.iter().map(String::as_str)),
        };
        let fault = fault.maybe_hint(near.map(|near| format!("did you mean `{near}`?")));
        fault.maybe_hint(is_hyphened.then(|| "names in formulas have `_`, not `-`".to_owned()))
    }

    fn no_result(&self, of: &str, result: &str, results: &[(String, Kind)], place: Place) -> Fault {
        let names: Vec<_> = results.iter().map(|(name, _)| name.clone()).collect();
        let near = nearest(result, names.iter().map(String::as_str));
        self.text
            .fault(
                Code::FORMULA_NAME,
                format!("`{of}` has no result `{result}`"),
                place,
            )
            .maybe_hint(near.map(|near| format!("did you mean `{near}`?")))
            .hint(format!("its results are {}", listed(&names)))
    }

    fn member(&mut self, member: &str, place: Place) -> Result<Shape, Fault> {
        let item = self.pop()?;
        let Shape::Results(results) = &item.shape else {
            let message = format!("`.{member}` can only follow results");
            return Err(rules::wrong(self.text, &item, &message));
        };
        match results.iter().find(|(name, _)| name == member) {
            Some((_, kind)) => Ok(Shape::of(*kind)),
            None => {
                let from = place.to - member.len();
                let of = self.text.of(item.place);
                let of = of.split('(').next().unwrap_or(of).trim_end();
                Err(self.no_result(of, member, results, Place { from, ..place }))
            }
        }
    }

    fn call(&mut self, call: &Call) -> Result<Shape, Fault> {
        let items = self.pop_many(call.arguments.len());
        let Some(signature) = self.scope.call(&call.name) else {
            return Err(self.unknown_call(call));
        };
        for (argument, item) in call.arguments.iter().zip(&items) {
            let param = self.param(signature, argument)?;
            self.fits(signature, param, argument, item)?;
        }
        let is_given = |param: &&Param| {
            let mut names = call.arguments.iter().map(|argument| &argument.name);
            names.any(|name| name.as_ref() == Some(&param.name))
        };
        let missing: Vec<_> = (signature.params.iter())
            .filter(|param| param.required && !is_given(param))
            .map(|param| param.name.clone())
            .collect();
        if missing.is_empty() {
            return Ok(Shape::Results(signature.results.clone()));
        }
        let message = format!("`{}` also needs {}", call.name, listed(&missing));
        let fault = self.text.fault(Code::VALUE_MISSING, message, call.place);
        Err(fault.hint(format!(
            "write `{}({}: ...)`",
            call.name,
            missing.join(": ..., ")
        )))
    }

    fn unknown_call(&self, call: &Call) -> Fault {
        let message = format!("there is no function or calculator `{}`", call.name);
        let calculators = self.scope.calls.iter().map(|call| call.name.as_str());
        let names = calculators.chain(function::ALL.iter().map(|entry| entry.0));
        let near = nearest(&call.name, names).map(|near| format!("did you mean `{near}`?"));
        self.text
            .fault(Code::FORMULA_NAME, message, call.place)
            .maybe_hint(near)
    }

    fn param<'s>(&self, signature: &'s Signature, argument: &Argument) -> Result<&'s Param, Fault> {
        let names: Vec<_> = (signature.params.iter())
            .map(|param| param.name.clone())
            .collect();
        let takes = format!("`{}` takes {}", signature.name, listed(&names));
        let Some(name) = &argument.name else {
            let message = format!("`{}` takes its arguments by name", signature.name);
            let fault = self
                .text
                .fault(Code::FORMULA_SYNTAX, message, argument.place);
            let found = self.text.of(argument.place);
            let first = names.first().map_or("name", String::as_str);
            return Err(fault
                .hint(format!(
                    "write the name before it, such as `{first}: {found}`"
                ))
                .hint(takes));
        };
        let found = signature.params.iter().find(|param| param.name == *name);
        found.ok_or_else(|| {
            let message = format!("`{}` has no argument `{name}`", signature.name);
            let near = nearest(name, names.iter().map(String::as_str));
            self.text
                .fault(Code::FORMULA_NAME, message, argument.place)
                .maybe_hint(near.map(|near| format!("did you mean `{near}`?")))
                .hint(takes)
        })
    }

    /// Whether a value does for a parameter.
    fn fits(
        &self,
        signature: &Signature,
        param: &Param,
        argument: &Argument,
        item: &Item,
    ) -> Result<(), Fault> {
        let name = self.text.of(item.place);
        if param.required && matches!(self.scope.find(name), Some(Known::Maybe(_))) {
            let fault = self.may_be_absent(name, item.place);
            let words = format!("`{}` must be given", param.name);
            return Err(self.text.also(fault, argument.place, &words));
        }
        match (&item.shape, param.kind) {
            (Shape::Measure(Dim::Count), Kind::Number) => Ok(()),
            (Shape::Choice(words), Kind::Choice) => {
                rules::options(self.text, words, &param.options, item.place)
            }
            (shape, kind) if *shape == Shape::of(kind) => Ok(()),
            (_, kind) => {
                let message = format!(
                    "`{}` of `{}` takes {}",
                    param.name,
                    signature.name,
                    kind.words()
                );
                let fault = rules::wrong(self.text, item, &message);
                let is_number = item.shape == Shape::Measure(Dim::Number);
                let whole = "make it whole with `round`, `floor` or `ceil`".to_owned();
                Err(fault.maybe_hint((kind == Kind::Count && is_number).then_some(whole)))
            }
        }
    }
}
