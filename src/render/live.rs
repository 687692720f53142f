//! The parts of a page that follow from its form, as HTML: made by the same builders and the same
//! template as the page itself, so that they come out the same letter by letter.

use super::block::Block;
use super::pages::Links;
use super::procedure_page::{self, CONTENTS, FILLED};
use super::templates::Templates;
use super::worked::{self, Told};
use super::{html, speech};
use crate::diag::{Fault, Faults};
use crate::joints::Calculator;
use crate::procedure::Filled;
use crate::search::Speech;
use crate::units::Scale;

/// Writes those parts.
pub struct LiveWriter(Templates);

/// Name of a part in the page, and what it holds now.
type Part = (&'static str, String);

impl LiveWriter {
    /// Reads the templates.
    ///
    /// # Errors
    /// `template` when one cannot be read.
    pub fn new() -> Result<Self, Fault> {
        Templates::new().map(Self)
    }

    /// The answer of a calculator; `is_example` when the values are those of its example.
    ///
    /// # Errors
    /// `template` when it cannot be filled.
    pub fn figure(
        &self,
        calculator: &Calculator,
        told: &Told,
        scale: Scale,
        is_example: bool,
    ) -> Result<Vec<Part>, Fault> {
        let named = if is_example {
            worked::EXAMPLE
        } else {
            worked::TYPED
        };
        let blocks = worked::page(calculator, told, scale, named);
        Ok(vec![(worked::ANSWER, html::blocks(&self.0, &blocks)?)])
    }

    /// A procedure filled, or why it cannot be; `around` holds the links to the parts of the page
    /// before and after those that follow from the values.
    ///
    /// # Errors
    /// A drawing that cannot be made; `template`.
    pub fn procedure(
        &self,
        filled: Result<&Filled, &Faults>,
        around: [Links; 2],
        speech: &Speech,
        is_example: bool,
    ) -> Result<Vec<Part>, Fault> {
        let named = match is_example {
            true => procedure_page::EXAMPLE,
            false => procedure_page::TYPED,
        };
        let (mut blocks, contents) = match filled {
            Ok(filled) => {
                let blocks = procedure_page::filled(filled, named);
                let contents = procedure_page::contents_of(filled, &blocks, around);
                (blocks, contents)
            }
            Err(faults) => {
                let [before, after] = around;
                let rows = [before, after].concat();
                (procedure_page::refused(faults), Block::Contents { rows })
            }
        };
        let mut contents = [contents];
        speech::blocks(&mut contents, speech);
        speech::blocks(&mut blocks, speech);
        Ok(vec![
            (CONTENTS, html::blocks(&self.0, &contents)?),
            (FILLED, html::blocks(&self.0, &blocks)?),
        ])
    }
}
