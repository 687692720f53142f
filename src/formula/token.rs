//! From text to tokens: numbers with their units, words, names, signs.
//!
//! A quantity is cut out here as a whole and read by [`crate::units::parse`]. What people write
//! out of habit but the language does not have (`^`, `×`, a lone `=`) is refused with a hint.

use super::op::Comparison;
use super::signs::{INCH_MARKS, LONE, SIGNS, STRANGE, UNITS};
use super::text::{Place, Text};
use crate::diag::{Code, Fault, nearest};
use crate::units::{Kind, Unit, Value, parse};

/// The least piece of a formula.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Token<'t> {
    /// A number without a unit, and whether it was written without a point.
    Plain(f64, bool),
    Quantity(Value),
    Word(&'t str),
    Name(&'t str),
    /// `.part` after a call.
    Member(&'t str),
    Truth(bool),
    Compare(Comparison),
    Plus,
    Minus,
    Times,
    Over,
    And,
    Or,
    Not,
    Open,
    Close,
    Comma,
    Colon,
    End,
}

/// All tokens of the text, the last one [`Token::End`].
pub(super) fn tokens(text: &Text) -> Result<Vec<(Token<'_>, Place)>, Fault> {
    let mut lexer = Lexer { text, at: 0 };
    let mut all = Vec::new();
    loop {
        lexer.blanks();
        let from = lexer.at;
        let token = lexer.token()?;
        let is_end = token == Token::End;
        all.push((token, lexer.since(from)));
        if is_end {
            return Ok(all);
        }
    }
}

struct Lexer<'t> {
    text: &'t Text,
    at: usize,
}

impl<'t> Lexer<'t> {
    fn rest(&self) -> &'t str {
        self.text.words().get(self.at..).unwrap_or_default()
    }

    fn since(&self, from: usize) -> Place {
        Place { from, to: self.at }
    }

    fn blanks(&mut self) {
        self.at += self.rest().len() - self.rest().trim_start().len();
    }

    /// Takes as long as the characters are of the sort.
    fn take(&mut self, sort: fn(char) -> bool) -> &'t str {
        let rest = self.rest();
        let end = rest.find(|c| !sort(c)).unwrap_or(rest.len());
        self.at += end;
        &rest[..end]
    }

    fn token(&mut self) -> Result<Token<'t>, Fault> {
        match self.rest().chars().next() {
            None => Ok(Token::End),
            Some(first) if first.is_ascii_digit() => self.number(),
            Some(first) if begins_name(first) => Ok(self.name()),
            Some('"') => self.word(),
            Some('.') => self.member(),
            Some(first) => self.sign(first),
        }
    }

    fn name(&mut self) -> Token<'t> {
        let from = self.at;
        self.take(continues_name);
        while self.rest().starts_with('.') && self.rest()[1..].starts_with(begins_name) {
            self.at += 1;
            self.take(continues_name);
        }
        match self.text.of(self.since(from)) {
            "and" => Token::And,
            "or" => Token::Or,
            "not" => Token::Not,
            "yes" => Token::Truth(true),
            "no" => Token::Truth(false),
            name => Token::Name(name),
        }
    }

    fn member(&mut self) -> Result<Token<'t>, Fault> {
        let from = self.at;
        self.at += 1;
        if self.rest().starts_with(begins_name) {
            return Ok(Token::Member(self.take(continues_name)));
        }
        let digits = self.take(|c| c.is_ascii_digit());
        let fault = self
            .text
            .fault(Code::FORMULA_SYNTAX, "a stray point", self.since(from));
        Err(if digits.is_empty() {
            fault
        } else {
            fault.hint(format!("write `0.{digits}`"))
        })
    }

    fn word(&mut self) -> Result<Token<'t>, Fault> {
        let from = self.at;
        self.at += 1;
        let word = self.take(|c| c != '"');
        if self.rest().is_empty() {
            let message = "a word in quotes is not closed";
            let fault = self
                .text
                .fault(Code::FORMULA_SYNTAX, message, self.since(from));
            return Err(fault.hint("write `\"` after it"));
        }
        self.at += 1;
        Ok(Token::Word(word))
    }

    fn sign(&mut self, first: char) -> Result<Token<'t>, Fault> {
        let rest = self.rest();
        self.refuse_decimal_comma()?;
        let strange = |table: &'static [(&str, &'static str)]| {
            table.iter().find(|(sign, _)| rest.starts_with(sign))
        };
        let known = SIGNS.iter().find(|(sign, _)| rest.starts_with(sign));
        if let (None, Some((sign, token))) = (strange(STRANGE), known) {
            self.at += sign.len();
            return Ok(token.clone());
        }
        let found = strange(STRANGE).or_else(|| strange(LONE));
        let from = self.at;
        self.at += found.map_or(first.len_utf8(), |(sign, _)| sign.len());
        let place = self.since(from);
        let message = format!("`{}` has no meaning in a formula", self.text.of(place));
        let fault = self.text.fault(Code::FORMULA_SYNTAX, message, place);
        Err(fault.maybe_hint(found.map(|(_, hint)| (*hint).to_owned())))
    }

    fn refuse_decimal_comma(&self) -> Result<(), Fault> {
        let digit = |c: &u8| c.is_ascii_digit();
        let bytes = self.text.words().as_bytes();
        let before = self.at.checked_sub(1).and_then(|at| bytes.get(at));
        if bytes.get(self.at) != Some(&b',')
            || !before.is_some_and(digit)
            || !bytes.get(self.at + 1).is_some_and(digit)
        {
            return Ok(());
        }
        let place = Place {
            from: self.at,
            to: self.at + 1,
        };
        let message = "a comma between two digits can be read in two ways";
        Err(self
            .text
            .fault(Code::AMBIGUOUS_QUANTITY, message, place)
            .hint("a decimal has a point: `19.5 mm`")
            .hint("between arguments, put a blank after the comma"))
    }

    /// A plain number, or a quantity up to the end of its unit.
    fn number(&mut self) -> Result<Token<'t>, Fault> {
        let from = self.at;
        self.take(|c| c.is_ascii_digit());
        let is_whole = !self.decimals();
        if is_whole {
            self.refuse_joined_fraction(from)?;
            self.fraction();
        }
        let number = self.since(from);
        self.refuse_inch_mark(number)?;
        let after_number = self.at;
        self.blanks();
        self.refuse_feet_a_minute(from)?;
        if let Some(kind) = self.unit() {
            let place = self.since(from);
            return parse(self.text.of(place), kind, Unit::Mm)
                .map(Token::Quantity)
                .map_err(|fault| fault.at(self.text.span(place)));
        }
        self.refuse_strange_unit()?;
        self.at = after_number;
        let plain = self.text.of(number).parse::<f64>();
        match plain.ok().filter(|number| number.is_finite()) {
            Some(number) => Ok(Token::Plain(number, is_whole)),
            None => Err(self
                .text
                .fault(Code::FORMULA_SYNTAX, "the number is too large", number)),
        }
    }

    /// Takes a point and the digits after it.
    fn decimals(&mut self) -> bool {
        let mut ahead = Lexer { ..*self };
        ahead.at += 1;
        let found = self.rest().starts_with('.') && !ahead.take(|c| c.is_ascii_digit()).is_empty();
        if found {
            self.at = ahead.at;
        }
        found
    }

    /// Takes what makes digits into a fraction or a mixed number, but only before a unit.
    fn fraction(&mut self) {
        for is_mixed in [false, true] {
            let mut ahead = Lexer { ..*self };
            if is_mixed {
                ahead.blanks();
                ahead.take(|c| c.is_ascii_digit());
            }
            if ahead.under() {
                self.at = ahead.at;
                return;
            }
        }
    }

    /// Takes `/` and digits, if a unit (or an inch mark, to be refused) comes after them.
    fn under(&mut self) -> bool {
        if !self.rest().starts_with('/') {
            return false;
        }
        self.at += 1;
        let is_number = !self.take(|c| c.is_ascii_digit()).is_empty();
        let end = self.at;
        let has_mark = self.rest().starts_with(INCH_MARKS);
        self.blanks();
        let has_unit = self.unit().is_some();
        self.at = end;
        is_number && (has_unit || has_mark)
    }

    /// Refuses `1-1/2 in`: an inch and a half to a joiner, half an inch to arithmetic.
    fn refuse_joined_fraction(&self, from: usize) -> Result<(), Fault> {
        let mut ahead = Lexer { ..*self };
        if !ahead.rest().starts_with('-') {
            return Ok(());
        }
        let whole = self.text.of(self.since(from));
        ahead.at += 1;
        let fraction_from = ahead.at;
        if ahead.take(|c| c.is_ascii_digit()).is_empty() || !ahead.under() {
            return Ok(());
        }
        ahead.blanks();
        ahead.unit();
        let fraction = self.text.of(ahead.since(fraction_from));
        let message = format!("`{whole}-{fraction}` can be read in two ways");
        Err(self
            .text
            .fault(Code::AMBIGUOUS_QUANTITY, message, ahead.since(from))
            .hint(format!("write `{whole} {fraction}` for a mixed number")))
    }

    fn refuse_inch_mark(&self, number: Place) -> Result<(), Fault> {
        let Some(mark) = self
            .rest()
            .chars()
            .next()
            .filter(|c| INCH_MARKS.contains(c))
        else {
            return Ok(());
        };
        let unit = if matches!(mark, '"' | '″' | '”') {
            "in"
        } else {
            "ft"
        };
        let place = Place {
            to: self.at + mark.len_utf8(),
            ..number
        };
        let message = format!("`{mark}` is not a unit in a formula");
        let hint = format!("write `{} {unit}`", self.text.of(number));
        Err(self
            .text
            .fault(Code::QUANTITY_UNIT, message, place)
            .hint(hint))
    }

    /// Refuses feet a minute, which are a rim speed to one and a feed to another.
    fn refuse_feet_a_minute(&self, from: usize) -> Result<(), Fault> {
        const UNIT: &str = "ft/min";
        if !self.rest().starts_with(UNIT) {
            return Ok(());
        }
        let place = Place {
            from,
            to: self.at + UNIT.len(),
        };
        let message = format!("`{UNIT}` can be read in two ways");
        Err(self
            .text
            .fault(Code::AMBIGUOUS_QUANTITY, message, place)
            .hint("write a rim speed in m/s, a feed in m/min"))
    }

    /// Takes a unit with nothing of a name behind it.
    fn unit(&mut self) -> Option<Kind> {
        let rest = self.rest();
        let (unit, kind) = UNITS.iter().find(|(unit, _)| {
            rest.strip_prefix(unit)
                .is_some_and(|after| !after.starts_with(continues_name))
        })?;
        self.at += unit.len();
        Some(*kind)
    }

    /// Refuses a name straight after a number: a mistaken unit or a left-out sign.
    fn refuse_strange_unit(&mut self) -> Result<(), Fault> {
        let from = self.at;
        if !self.rest().starts_with(begins_name) {
            return Ok(());
        }
        let Token::Name(name) = self.name() else {
            return Ok(());
        };
        let message = format!("`{name}` is not a unit");
        let units = UNITS.iter().map(|(unit, _)| *unit);
        let near = nearest(name, units).map(|unit| format!("did you mean `{unit}`?"));
        Err(self
            .text
            .fault(Code::QUANTITY_UNIT, message, self.since(from))
            .maybe_hint(near)
            .hint("units are mm, cm, m, in, ft, thou, deg, rpm, m/s, m/min")
            .hint("and of what is only passed on: %, degC, degF, kg, N, lb, GPa, lb/in2")
            .hint(format!("to multiply, write `* {name}`")))
    }
}

fn begins_name(c: char) -> bool {
    c.is_ascii_alphabetic() || c == '_'
}

fn continues_name(c: char) -> bool {
    c.is_ascii_alphanumeric() || c == '_'
}
