//! A formula as flat postfix code: values first, then the operation that takes them.
//!
//! Checking walks the code straight on and takes no notice of jumps; running follows them, so
//! that only the outcome of `if` that holds is worked out, and `and` and `or` stop early.

use std::cmp::Ordering;

use super::dimension::Dim;
use super::function::Function;
use super::text::{Place, Text};
use crate::diag::Span;
use crate::units::{Amount, Towards};

/// A formula that was read: its text, and what to do.
///
/// ```
/// use faceside::diag::{Source, Span};
/// use faceside::formula::{Formula, Known, Scope};
/// use faceside::units::Kind;
///
/// let text = "down_to(19 mm / 3, 0.5 mm)";
/// let formula = Formula::parse(text, &Span::whole(&Source::new("shop.yaml", text))).unwrap();
/// assert_eq!(formula.check(&Scope::default()), Ok(Known::One(Kind::Length)));
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct Formula {
    pub(super) text: Text,
    pub(super) code: Vec<Piece>,
}

impl Formula {
    /// The text that it was read from.
    pub fn text(&self) -> &str {
        self.text.words()
    }

    /// Where it stands.
    pub fn place(&self) -> &Span {
        self.text.place()
    }

    /// The one name that it consists of, when there is nothing else to it.
    pub fn alias(&self) -> Option<&str> {
        match self.code.as_slice() {
            [
                Piece {
                    op: Op::Name { name, .. },
                    ..
                },
            ] => Some(name),
            _ => None,
        }
    }

    /// The direction that its outcome is rounded in, when rounding to a step is its last act.
    pub fn rounds(&self) -> Option<Towards> {
        match self.code.last()?.op {
            Op::Function(Function::DownTo, _) => Some(Towards::Down),
            Op::Function(Function::UpTo, _) => Some(Towards::Up),
            Op::Function(Function::NearestTo, _) => Some(Towards::Nearest),
            _ => None,
        }
    }

    /// The names that it uses, dotted as written, in the order of the text; may repeat.
    pub fn names(&self) -> impl Iterator<Item = &str> {
        self.code.iter().filter_map(|piece| match &piece.op {
            Op::Name { name, .. } => Some(name.as_str()),
            _ => None,
        })
    }
}

/// One operation with the part of the text that its outcome stands for.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Piece {
    pub(super) op: Op,
    pub(super) place: Place,
}

/// What to do; positions are indices into the code.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Op {
    Measure(Dim, f64),
    Amount(Amount),
    Word(String),
    Truth(bool),
    /// `may_lack`: it is a calculator's whole argument and may be left out with it.
    Name {
        name: String,
        may_lack: bool,
    },
    Negate,
    Not,
    Add,
    Subtract,
    Multiply,
    Divide,
    Compare(Comparison),
    /// After the first half of `and`: on no, go to the position and keep it.
    AndThen(usize),
    And,
    /// After the first half of `or`: on yes, go to the position and keep it.
    OrElse(usize),
    Or,
    /// After the condition of `if`: on no, go to the position.
    Unless(usize),
    /// After the first outcome of `if`: go to the position.
    Skip(usize),
    If,
    /// With the number of its values.
    Function(Function, usize),
    Call(Call),
    Member(String),
}

/// The call of a calculator.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Call {
    pub(super) name: String,
    pub(super) place: Place,
    pub(super) arguments: Vec<Argument>,
}

/// The name of an argument; none if it was written without.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Argument {
    pub(super) name: Option<String>,
    pub(super) place: Place,
}

/// The signs of comparison.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Comparison {
    Less,
    LessEqual,
    Greater,
    GreaterEqual,
    Equal,
    Unequal,
}

impl Comparison {
    /// Whether it asks for an order, not only for sameness.
    pub(super) fn is_order(self) -> bool {
        !matches!(self, Self::Equal | Self::Unequal)
    }

    pub(super) fn holds(self, order: Ordering) -> bool {
        match self {
            Self::Less => order.is_lt(),
            Self::LessEqual => order.is_le(),
            Self::Greater => order.is_gt(),
            Self::GreaterEqual => order.is_ge(),
            Self::Equal => order.is_eq(),
            Self::Unequal => order.is_ne(),
        }
    }
}
