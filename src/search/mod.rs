//! Ranked answers from everything that the shop knows.
//!
//! In: [`Entry`] values (procedures, cautions, notes, terms, calculators, records) and the trade's
//! words, [`Terms`]. Out: [`Index::find`] gives [`Hit`]s, best first, or [`Index::near`] words.
//!
//! How words are cut is in `analyse` (one analyser for pages, questions and the marks in the
//! context), what a question becomes in `query`. Fields: title, also, summary, body, and the
//! words as written for slips of the hand. The index is built in RAM and never stored.
//! [`PageSearch`] and [`PagePart`] are the same index as data for the site's script.
//! [`Note`] and [`Terms`] are read here too, since nothing below needs them; [`Speech`] puts the words
//! of the shop's region into what is shown.

#[cfg(feature = "program")]
mod analyse;
mod entry;
#[cfg(feature = "program")]
mod fold;
#[cfg(feature = "program")]
mod hit;
#[cfg(feature = "program")]
mod index;
#[cfg(feature = "program")]
mod note;
#[cfg(feature = "program")]
mod number;
#[cfg(feature = "program")]
mod packed;
#[cfg(feature = "program")]
mod page_index;
#[cfg(feature = "program")]
mod query;
mod speech;
mod terms;
#[cfg(feature = "program")]
mod written;

pub use entry::{Entry, EntryKind};
#[cfg(feature = "program")]
pub use hit::{Hit, Piece};
#[cfg(feature = "program")]
pub use index::Index;
#[cfg(feature = "program")]
pub use note::{Link, LinkTo, Note};
#[cfg(feature = "program")]
pub use page_index::{PagePart, PageSearch};
pub use speech::Speech;
pub use terms::{Clash, Stem, Term, Terms};
