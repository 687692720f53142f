//! From tokens to postfix code: a Pratt parser.
//!
//! Only this stage recurses, and it counts how deep; everything after it is a loop. The grammar
//! stands in the head of this folder.

use super::dimension::{Dim, measure};
use super::function::{self, Function};
use super::op::{Argument, Call, Comparison, Formula, Op, Piece};
use super::text::{Place, Text};
use super::token::{Token, tokens};
use crate::diag::{Code, Fault, Span};
use crate::units::Value;

const BYTES_MOST: usize = 4096;
const DEPTH_MOST: usize = 64;
const CODE_MOST: usize = 512;

/// How strongly an operator binds; stronger is larger.
mod power {
    pub(super) const OR: u8 = 1;
    pub(super) const AND: u8 = 2;
    pub(super) const NOT: u8 = 3;
    pub(super) const COMPARE: u8 = 4;
    pub(super) const SUM: u8 = 5;
    pub(super) const PRODUCT: u8 = 6;
    pub(super) const SIGN: u8 = 7;
}

impl Formula {
    /// Reads a formula that stands at `place`.
    ///
    /// Faults mark the exact part when `place` holds exactly `text`, else the whole of it.
    ///
    /// # Errors
    /// `formula-syntax`, `formula-limit`; for quantities `quantity-syntax`, `quantity-unit`,
    /// `ambiguous-quantity`, `out-of-range`.
    pub fn parse(text: &str, place: &Span) -> Result<Self, Fault> {
        if text.len() > BYTES_MOST {
            let message = format!("a formula may be at most {BYTES_MOST} bytes long");
            return Err(Fault::error(Code::FORMULA_LIMIT, message)
                .at(place.clone())
                .label(format!("this is {} bytes long", text.len()))
                .hint("work it out in several steps"));
        }
        let text = Text::new(text, place);
        let mut parser = Parser {
            text: &text,
            tokens: tokens(&text)?,
            at: 0,
            depth: 0,
            code: Vec::new(),
        };
        parser.expression(power::OR)?;
        parser.end()?;
        let code = parser.code;
        Ok(Self { text, code })
    }
}

struct Parser<'t> {
    text: &'t Text,
    tokens: Vec<(Token<'t>, Place)>,
    at: usize,
    depth: usize,
    code: Vec<Piece>,
}

impl<'t> Parser<'t> {
    /// The token in front, and its place; after the last one, the last.
    fn front(&self) -> (Token<'t>, Place) {
        let last = Place {
            from: self.text.words().len(),
            to: self.text.words().len(),
        };
        let front = self.tokens.get(self.at).cloned();
        front.unwrap_or((Token::End, last))
    }

    fn next(&mut self) -> (Token<'t>, Place) {
        let front = self.front();
        self.at += 1;
        front
    }

    /// Takes the token if it is in front, and gives its place.
    fn take(&mut self, token: &Token<'_>) -> Option<Place> {
        let (front, place) = self.front();
        (front == *token).then(|| {
            self.at += 1;
            place
        })
    }

    fn fault(&self, message: impl Into<String>, place: Place) -> Fault {
        self.text.fault(Code::FORMULA_SYNTAX, message, place)
    }

    fn emit(&mut self, op: Op, place: Place) -> Result<usize, Fault> {
        if self.code.len() == CODE_MOST {
            let message = format!("a formula may have at most {CODE_MOST} values and operations");
            let fault = self.text.fault(Code::FORMULA_LIMIT, message, place);
            return Err(fault.hint("work it out in several steps"));
        }
        self.code.push(Piece { op, place });
        Ok(self.code.len() - 1)
    }

    /// Sets a jump, left open before, to what comes next.
    fn land(&mut self, jump: usize, after: usize) {
        let target = self.code.len() + after;
        if let Some(Piece {
            op: Op::AndThen(to) | Op::OrElse(to) | Op::Unless(to) | Op::Skip(to),
            ..
        }) = self.code.get_mut(jump)
        {
            *to = target;
        }
    }

    /// An expression one bracket or sign deeper.
    fn nested(&mut self, least: u8, place: Place) -> Result<Place, Fault> {
        if self.depth == DEPTH_MOST {
            let message = format!("nested more than {DEPTH_MOST} deep");
            let fault = self.text.fault(Code::FORMULA_LIMIT, message, place);
            return Err(fault.hint("work it out in several steps"));
        }
        self.depth += 1;
        let place = self.expression(least)?;
        self.depth -= 1;
        Ok(place)
    }

    /// Reads operators that bind at least so strongly, and what stands between them.
    fn expression(&mut self, least: u8) -> Result<Place, Fault> {
        let mut left = self.operand(least)?;
        loop {
            let (sign, place) = self.front();
            let strength = match sign {
                Token::Or => power::OR,
                Token::And => power::AND,
                Token::Compare(_) => power::COMPARE,
                Token::Plus | Token::Minus => power::SUM,
                Token::Times | Token::Over => power::PRODUCT,
                _ => return Ok(left),
            };
            if strength < least {
                return Ok(left);
            }
            self.at += 1;
            left = match sign {
                Token::Or | Token::And => self.early(&sign, left)?,
                Token::Compare(comparison) => self.comparison(comparison, left)?,
                _ => self.arithmetic(&sign, place, left)?,
            };
        }
    }

    /// The second half of `and` or `or`, with the jump that goes past it.
    fn early(&mut self, sign: &Token<'_>, left: Place) -> Result<Place, Fault> {
        let (strength, jump, op) = match sign {
            Token::And => (power::AND, Op::AndThen(0), Op::And),
            _ => (power::OR, Op::OrElse(0), Op::Or),
        };
        let jump = self.emit(jump, left)?;
        let right = self.expression(strength + 1)?;
        let whole = left.through(right);
        self.emit(op, whole)?;
        self.land(jump, 0);
        Ok(whole)
    }

    fn comparison(&mut self, comparison: Comparison, left: Place) -> Result<Place, Fault> {
        let right = self.expression(power::COMPARE + 1)?;
        if let (Token::Compare(_), place) = self.front() {
            let middle = self.text.of(right);
            return Err(self
                .fault("comparisons cannot be chained", place)
                .hint(format!("write `... {middle} and {middle} ...`")));
        }
        let whole = left.through(right);
        self.emit(Op::Compare(comparison), whole)?;
        Ok(whole)
    }

    fn arithmetic(&mut self, sign: &Token<'_>, at: Place, left: Place) -> Result<Place, Fault> {
        if *sign == Token::Over {
            self.refuse_split_fraction(at)?;
        }
        let (strength, op) = match sign {
            Token::Plus => (power::SUM, Op::Add),
            Token::Minus => (power::SUM, Op::Subtract),
            Token::Times => (power::PRODUCT, Op::Multiply),
            _ => (power::PRODUCT, Op::Divide),
        };
        let right = self.expression(strength + 1)?;
        let whole = left.through(right);
        self.emit(op, whole)?;
        Ok(whole)
    }

    /// Refuses `1 / 2 in`, where the unit may be meant for the whole fraction.
    fn refuse_split_fraction(&self, at: Place) -> Result<(), Fault> {
        let before = self
            .at
            .checked_sub(2)
            .and_then(|before| self.tokens.get(before));
        let (Some((Token::Plain(..), from)), (Token::Quantity(_), to)) = (before, self.front())
        else {
            return Ok(());
        };
        let (over, under) = (self.text.of(*from), self.text.of(to));
        let message = format!("`{over} / {under}` can be read in two ways");
        let fault = self.text.fault(Code::AMBIGUOUS_QUANTITY, message, at);
        let is_digit = |c: char| c.is_ascii_digit();
        let unit = under.trim_start_matches(is_digit).trim_start();
        let is_fraction = over.chars().all(is_digit) && unit.starts_with(char::is_alphabetic);
        let fraction =
            format!("write `{over}/{under}`, without blanks, for a fraction of the unit");
        Err(fault
            .maybe_hint(is_fraction.then_some(fraction))
            .hint(format!("write `{over} / ({under})` to divide")))
    }

    /// One value with the signs before it.
    fn operand(&mut self, least: u8) -> Result<Place, Fault> {
        let (token, place) = self.next();
        match token {
            Token::Plain(number, is_whole) => {
                let dim = if is_whole { Dim::Count } else { Dim::Number };
                self.value(Op::Measure(dim, number), place)
            }
            Token::Quantity(value) => self.quantity(&value, place),
            Token::Word(word) => self.value(Op::Word(word.to_owned()), place),
            Token::Truth(truth) => self.value(Op::Truth(truth), place),
            Token::Name(name) if self.front().0 == Token::Open => self.call(name, place),
            Token::Name(name) => {
                let (name, may_lack) = (name.to_owned(), false);
                self.value(Op::Name { name, may_lack }, place)
            }
            Token::Minus => {
                let right = self.nested(power::SIGN, place)?;
                self.value(Op::Negate, place.through(right))
            }
            Token::Not if least > power::NOT => Err(self
                .fault("`not` cannot stand here", place)
                .hint("put it and what it denies in brackets")),
            Token::Not => {
                let right = self.nested(power::NOT, place)?;
                self.value(Op::Not, place.through(right))
            }
            Token::Open => {
                self.nested(power::OR, place)?;
                let close = self.close(place)?;
                Ok(place.through(close))
            }
            _ => Err(self.no_value(&token, place)),
        }
    }

    fn value(&mut self, op: Op, place: Place) -> Result<Place, Fault> {
        self.emit(op, place)?;
        Ok(place)
    }

    fn quantity(&mut self, value: &Value, place: Place) -> Result<Place, Fault> {
        match (value, measure(value)) {
            (Value::Amount(amount), _) => self.value(Op::Amount(*amount), place),
            (_, Some((dim, amount))) => self.value(Op::Measure(dim, amount), place),
            (_, None) => Err(self.fault("this is not a quantity", place)),
        }
    }

    fn no_value(&self, token: &Token<'_>, place: Place) -> Fault {
        if *token != Token::End {
            let message = format!("a value is missing before `{}`", self.text.of(place));
            return self.fault(message, place);
        }
        if self.tokens.len() == 1 {
            return self
                .fault("the formula is empty", place)
                .hint("write a value, such as `19 mm`");
        }
        self.fault("the formula ends where a value is wanted", place)
    }

    fn close(&mut self, open: Place) -> Result<Place, Fault> {
        if let Some(place) = self.take(&Token::Close) {
            return Ok(place);
        }
        if self.front().0 == Token::End {
            return Err(self
                .fault("`(` is not closed", open)
                .hint("write `)` where it ends"));
        }
        self.end()?;
        Ok(open)
    }

    /// Nothing may follow; what does is refused with the likeliest reason.
    fn end(&self) -> Result<(), Fault> {
        let (token, place) = self.front();
        let found = self.text.of(place);
        Err(match token {
            Token::End => return Ok(()),
            Token::Close => self.fault("`)` without its `(`", place),
            Token::Comma => self
                .fault("`,` has a place only between arguments", place)
                .hint("a decimal has a point: `19.5 mm`"),
            Token::Colon => self.fault("`:` has a place only after the name of an argument", place),
            Token::Member(_) => self
                .fault(format!("`{found}` can only follow a call"), place)
                .hint("give the results a name first"),
            _ => self
                .fault(format!("an operator is missing before `{found}`"), place)
                .hint("operators are + - * / < <= > >= == != and or"),
        })
    }

    fn call(&mut self, name: &str, place: Place) -> Result<Place, Fault> {
        if let Some(entry) = function::find(name) {
            return self.function(entry, place);
        }
        let mut arguments = Vec::new();
        let close = self.list(|parser, _| {
            let argument = parser.argument()?;
            parser.refuse_twice(&arguments, &argument)?;
            arguments.push(argument);
            Ok(())
        })?;
        let whole = place.through(close);
        let name = name.to_owned();
        let mut whole = self.value(
            Op::Call(Call {
                name,
                place,
                arguments,
            }),
            whole,
        )?;
        while let (Token::Member(member), end) = self.front() {
            self.at += 1;
            whole = self.value(Op::Member(member.to_owned()), whole.through(end))?;
        }
        Ok(whole)
    }

    /// The list in brackets after a name, each entry read by `entry`; gives the place of `)`.
    fn list(
        &mut self,
        mut entry: impl FnMut(&mut Self, usize) -> Result<(), Fault>,
    ) -> Result<Place, Fault> {
        let (_, open) = self.next();
        if let Some(close) = self.take(&Token::Close) {
            return Ok(close);
        }
        for count in 0.. {
            entry(self, count)?;
            if self.take(&Token::Comma).is_none() {
                break;
            }
        }
        self.close(open)
    }

    /// The name of an argument that is in front, if one is.
    fn argument_name(&mut self) -> Option<(&'t str, Place)> {
        let (Token::Name(name), place) = self.front() else {
            return None;
        };
        let colon = self.tokens.get(self.at + 1);
        matches!(colon, Some((Token::Colon, _))).then(|| {
            self.at += 2;
            (name, place)
        })
    }

    fn argument(&mut self) -> Result<Argument, Fault> {
        let name = self.argument_name();
        let start = self.code.len();
        let (_, front) = self.front();
        let place = self.nested(power::OR, front)?;
        if let [
            Piece {
                op: Op::Name { may_lack, .. },
                ..
            },
        ] = &mut self.code[start..]
        {
            *may_lack = name.is_some();
        }
        Ok(Argument {
            name: name.map(|(name, _)| name.to_owned()),
            place: name.map_or(place, |(_, place)| place),
        })
    }

    fn refuse_twice(&self, before: &[Argument], argument: &Argument) -> Result<(), Fault> {
        let same = |other: &&Argument| other.name.is_some() && other.name == argument.name;
        let Some(first) = before.iter().find(same) else {
            return Ok(());
        };
        let message = format!("`{}` is given twice", self.text.of(argument.place));
        let fault = self.fault(message, argument.place);
        let fault = self.text.label(fault, argument.place, "given again here");
        Err(self.text.also(fault, first.place, "first given here"))
    }

    fn function(
        &mut self,
        (name, function, least, most, usage): &function::Entry,
        place: Place,
    ) -> Result<Place, Fault> {
        let mut count = 0;
        let mut jumps = Vec::new();
        let close = self.list(|parser, index| {
            if let Some((_, place)) = parser.argument_name() {
                let message = format!("`{name}` takes its values in order, without names");
                return Err(parser
                    .fault(message, place)
                    .hint(format!("write `{usage}`")));
            }
            let (_, front) = parser.front();
            let place = parser.nested(power::OR, front)?;
            count = index + 1;
            match (function, index) {
                (Function::If, 0) => jumps.push(parser.emit(Op::Unless(0), place)?),
                (Function::If, 1) => {
                    jumps.push(parser.emit(Op::Skip(0), place)?);
                    jumps.iter().take(1).for_each(|jump| parser.land(*jump, 0));
                }
                _ => {}
            }
            Ok(())
        })?;
        let whole = place.through(close);
        if !(*least..=*most).contains(&count) {
            let wanted = if least == most { "" } else { "at least " };
            let message = format!("`{name}` takes {wanted}{least} values, and here are {count}");
            return Err(self.fault(message, whole).hint(format!("write `{usage}`")));
        }
        if *function == Function::If {
            jumps.iter().skip(1).for_each(|jump| self.land(*jump, 1));
            return self.value(Op::If, whole);
        }
        self.value(Op::Function(*function, count), whole)
    }
}
