//! Checked expressions: parsed, checked for dimensions without values, then worked out.
//!
//! ```text
//! formula    = either
//! either     = both { "or" both }                      stops at the first yes
//! both       = negation { "and" negation }             stops at the first no
//! negation   = "not" negation | comparison
//! comparison = sum [ ("<" | "<=" | ">" | ">=" | "==" | "!=") sum ]      not chained
//! sum        = product { ("+" | "-") product }
//! product    = signed { ("*" | "/") signed }
//! signed     = "-" signed | value
//! value      = quantity | number | word | "yes" | "no" | name | call | "(" formula ")"
//! call       = name "(" [ argument { "," argument } ] ")" [ "." part ]
//! argument   = formula                                 of a function, in order
//!            | part ":" formula                        of a calculator, by name
//! name       = part { "." part }        part = letter or "_", then letters, digits, "_"
//! number     = digits [ "." digits ]                   without a point it is a count
//! quantity   = number unit | fraction unit | digits blank fraction unit
//! fraction   = digits "/" digits                       no blanks; `1/2 in` is half an inch
//! unit       = mm cm m in inch inches ft foot feet thou | deg degree degrees °
//!            | rpm rev/min r/min | m/s | m/min | % | degC degF °C °F
//!            | N kN kg lb lbf | GPa MPa N/mm2 lb/in2 psi            no blanks inside
//! word       = '"' any characters but '"' '"'
//! ```
//!
//! A unit belongs to the number before it, so names may be called like units. Refused because
//! they can be read in two ways: `1 / 2 in` (a plain number divided by a quantity; write `1/2 in`
//! or `1 / (2 in)`), `1-1/2 in` (write `1 1/2 in`), `min(1,5)` (a comma between digits; put a
//! blank after it), `3/4"` (write `in`; the sign `"` begins a word), `ft/min` (rim or feed?).
//!
//! Functions: `min max abs sqrt tan sin cos atan floor ceil round down_to up_to nearest_to if`.
//!
//! Dimensions: number `n` (a count does wherever a number does), length to the power k (`L^k`,
//! k from -3 to 3 but 0), the scales `s` (angle, spindle speed, rim speed, feed rate), yes or no,
//! choice with its words, list of lengths, results of a calculator; and amounts that are only
//! passed on to a calculator (percentage, temperature, load, modulus), which stand in no row of
//! this table but those of `if` and of calls.
//!
//! | expression | takes | gives |
//! |---|---|---|
//! | `a + b` `a - b` `min` `max` | like and like of n, L^k, s | the same; count with number: number |
//! | `a < b` and its kin | like and like of n, L^k, s | yes or no |
//! | `a == b` `a != b` | the same, yes or no, choices if the words of one are all of the other's | yes or no |
//! | `a * b` | n and n; n and any of L^k, s; L^j and L^k | n (count only of two counts); the other; L^(j+k) |
//! | `a / b` | n, L^k or s by n; like by like; L^j by L^k; n by L^k | the first (n by n: number); number; L^(j-k); L^-k |
//! | `-a` `abs(a)` | n, L^k, s | the same |
//! | `not` `and` `or` | yes or no | yes or no |
//! | `sqrt(a)` | n, L^2, L^-2 | number, L, L^-1 |
//! | `tan` `sin` `cos` | angle | number |
//! | `atan(a)` | n | angle |
//! | `floor` `ceil` `round` | n | count |
//! | `down_to(a, step)` `up_to` `nearest_to` | L, L | L |
//! | `if(a, b, c)` | yes or no; two like outcomes | the same; only the one that holds is worked out |
//! | `name(part: a)` | each argument of the kind of its part | results of a calculator |
//! | `name(part: a).part` `name.part` | | the result of that name |
//!
//! A formula as a whole may give anything but L^k with another k than 1. Lengths are kept as
//! nanometres and rounded to whole ones only when they leave the formula or are compared; other
//! amounts that differ by less than one part in 10^12 compare as equal. `floor`, `ceil` and `round`
//! take what is within 10^-9 of a whole number as that number, and `round` takes halves away from
//! zero; `down_to` and its sisters snap within 10 nm as [`crate::units::Scale`] does.
//!
//! Limits: 4096 bytes, 64 brackets or signs deep, 512 operations. The parser emits flat postfix
//! code; checking and running are loops over it and ask the same rules.

mod check;
mod dimension;
mod eval;
mod function;
mod held;
mod op;
mod parse;
mod rules;
mod scope;
mod signs;
mod text;
mod token;
mod values;

pub use op::Formula;
pub use scope::{Known, Param, Scope, Signature};
pub use values::{Outcome, Values, as_kind};
