//! Ranked answers from everything that the shop knows.
//!
//! In: [`Entry`] values (procedures, cautions, notes, terms, calculators, records) and the trade's
//! words, [`Terms`]. Out: [`Index::find`] gives [`Hit`]s, best first, or [`Index::near`] words.
//!
//! How words are cut is in `analyse` (one analyser for pages, questions and the marks in the
//! context), what a question becomes in `query`. Fields: title, also, summary, body, and the
//! words as written for slips of the hand. The index is built in RAM and never stored.
//! [`PageIndex`] is the same index as data for the site's script.
//! [`Note`] and [`Terms`] are read here too, since nothing below needs them; [`Speech`] puts the words
//! of the shop's region into what is shown.

mod analyse;
mod entry;
mod fold;
mod hit;
mod index;
mod note;
mod number;
mod packed;
mod page_index;
mod query;
mod speech;
mod terms;
mod written;

pub use entry::{Entry, EntryKind};
pub use hit::{Hit, Piece};
pub use index::Index;
pub use note::{Link, LinkTo, Note};
pub use page_index::PageIndex;
pub use speech::Speech;
pub use terms::{Clash, Stem, Term, Terms};
