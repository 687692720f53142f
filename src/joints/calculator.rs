//! What an entry of the calculator table is: name, inputs, results, limits, the function.
//!
//! Everything that a person or a program can know of a calculator stands here once; the command
//! line, the formula language, the documentation pages and the checks read it from here. The
//! values that go in and come out are in `answer.rs`.

use super::{FitRule, Given, Refusal, Worked};
use crate::diag::Fault;
use crate::shop::Shape;
use crate::units::{Kind, Role, Towards, Unit, Value, parse};

/// A choice of more words than this is told by their number.
const OPTIONS_IN_A_LINE: usize = 12;

/// One calculator of the table.
#[derive(Debug)]
pub struct Calculator {
    /// Name on the command line and in JSON: `sliding-dovetail` (in formulas `sliding_dovetail`).
    pub name: &'static str,
    /// What it works out, in one line.
    pub summary: &'static str,
    /// The group that it is listed under.
    pub family: &'static str,
    /// What it takes, in order.
    pub inputs: &'static [Input],
    /// What it gives, in order.
    pub results: &'static [Output],
    /// Sets of inputs of which exactly one set must be given whole; empty when there is no choice.
    pub one_of: &'static [&'static [&'static str]],
    /// What it refuses; each refusal's `what` is one of these.
    pub refuses: &'static [&'static str],
    /// What it warns of; each warning begins with one of these.
    pub warns: &'static [&'static str],
    /// The letters of inputs and results on a drawing made of characters; begins with a line break.
    pub sketch: &'static str,
    /// Where formulas and limits come from.
    pub source: &'static str,
    /// A worked example: input names and texts as typed on the command line.
    pub example: &'static [(&'static str, &'static str)],
    /// The calculation.
    pub run: fn(&Given) -> Result<Worked, Refusal>,
    /// What it wants of the cutter drawer; none when no cutter of a known shape is an input.
    pub wants: Option<Wants>,
    /// The fit of the joint and what can go wrong with it; none for a calculator without fit.
    pub fit: Option<FitRule>,
}

/// What a calculator wants of the cutter drawer.
#[derive(Debug)]
pub struct Wants {
    /// The cutters, in the order in which they are chosen.
    pub cutters: &'static [Wanted],
    /// The input or result that says how deep they cut; empty when none does.
    pub reach: &'static str,
    /// The results that count passes; the cut takes their product.
    pub passes: &'static [&'static str],
}

/// One cutter that a calculator wants, and the inputs that it fills.
#[derive(Debug)]
pub struct Wanted {
    /// Its shape.
    pub shape: Shape,
    /// The input that is its cutting diameter.
    pub size: &'static str,
    /// The input that is its angle, each side from the axis.
    pub angle: Option<&'static str>,
}

/// One input of a calculator.
#[derive(Debug)]
pub struct Input {
    /// Name, as typed: `stock`.
    pub name: &'static str,
    /// Its symbol on the sketch; may be empty.
    pub letter: &'static str,
    /// What kind of value.
    pub kind: Kind,
    /// Least and most, both allowed, as text with units (`0 mm`, `100 mm`); for a choice the words
    /// with ` | ` between them, and nothing.
    pub range: (&'static str, &'static str),
    /// What holds when it is not given.
    pub absent: Absent,
    /// What it is, with its datum.
    pub meaning: &'static str,
}

/// What happens when an input is not given.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Absent {
    /// It must be given.
    Required,
    /// It takes this value, written as text; said in the answer.
    Usual(&'static str),
    /// The calculator derives it, in the way that these words tell, or leaves out what needs it.
    Derived(&'static str),
}

/// One result of a calculator.
#[derive(Debug)]
pub struct Output {
    /// Name, as in JSON and formulas: `fence_first`.
    pub name: &'static str,
    /// Its symbol on the sketch; may be empty.
    pub letter: &'static str,
    /// What kind of value.
    pub kind: Kind,
    /// What it does at the machine; decides the direction of rounding.
    pub role: Role,
    /// What it is, with its datum.
    pub meaning: &'static str,
}

impl Calculator {
    /// The name in formulas: `sliding_dovetail`.
    pub fn formula_name(&self) -> String {
        self.name.replace('-', "_")
    }

    /// The input of that name.
    pub fn input(&self, name: &str) -> Option<&'static Input> {
        self.inputs.iter().find(|input| input.name == name)
    }

    /// The result of that name.
    pub fn output(&self, name: &str) -> Option<&'static Output> {
        self.results.iter().find(|output| output.name == name)
    }
}

impl Input {
    /// A length that must be given.
    pub(super) const fn length(
        name: &'static str,
        letter: &'static str,
        range: (&'static str, &'static str),
        meaning: &'static str,
    ) -> Self {
        Self {
            name,
            letter,
            kind: Kind::Length,
            range,
            absent: Absent::Required,
            meaning,
        }
    }

    /// The same input with another kind.
    pub(super) const fn kind(mut self, kind: Kind) -> Self {
        self.kind = kind;
        self
    }

    /// The same input with a usual value.
    pub(super) const fn usual(mut self, text: &'static str) -> Self {
        self.absent = Absent::Usual(text);
        self
    }

    /// The same input, derived or left out when it is not given.
    pub(super) const fn derived(mut self, how: &'static str) -> Self {
        self.absent = Absent::Derived(how);
        self
    }

    /// Whether a call without it is refused.
    pub fn is_required(&self) -> bool {
        self.absent == Absent::Required
    }

    /// The words of a choice, in order; none for another kind.
    pub fn options(&self) -> Vec<&'static str> {
        match self.kind {
            Kind::Choice => self.range.0.split(" | ").collect(),
            _ => Vec::new(),
        }
    }

    /// Whether its words are too many for a line, as those of a species are.
    pub fn has_many_options(&self) -> bool {
        self.options().len() > OPTIONS_IN_A_LINE
    }

    /// The range in words: `0.5 mm to 100 mm`, `round or square`; of a long list of words how many.
    pub fn range_words(&self) -> String {
        match (self.kind, &self.options()[..]) {
            (Kind::Choice, [first, .., last]) if self.has_many_options() => {
                let count = self.options().len();
                format!("one of {count} words, {first} to {last}")
            }
            (Kind::Choice, options) => options.join(" or "),
            _ => format!("{} to {}", self.range.0, self.range.1),
        }
    }

    /// A text of the table (a range's end, a usual value) as a value of this input's kind; the
    /// fault is that of [`parse`], and the table's tests keep it from happening.
    pub(super) fn read(&self, text: &str) -> Result<Value, Fault> {
        parse(text, self.kind, Unit::Mm)
    }
}

impl Output {
    /// A result of that name, letter, kind, role and meaning.
    pub(super) const fn new(
        name: &'static str,
        letter: &'static str,
        kind: Kind,
        role: Role,
        meaning: &'static str,
    ) -> Self {
        Self {
            name,
            letter,
            kind,
            role,
            meaning,
        }
    }

    /// A result that is a length.
    pub(super) const fn length(
        name: &'static str,
        letter: &'static str,
        role: Role,
        meaning: &'static str,
    ) -> Self {
        Self::new(name, letter, Kind::Length, role, meaning)
    }

    /// Which way the item at `index` of a list of this result's lengths is rounded.
    ///
    /// The fence distances of an opening's passes: the first, which makes the wall nearer the
    /// fence, up, and all later ones down, so that the opening is never too wide.
    pub fn towards_at(&self, index: usize) -> Towards {
        match (self.role, index) {
            (Role::Opening, 0) => Towards::Up,
            _ => self.role.towards(),
        }
    }
}
