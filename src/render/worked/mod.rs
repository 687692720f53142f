//! Calculators and calculations as text for the terminal, as JSON, as rows of a CSV,
//! as blocks of a page.
//!
//! Results are rounded to the reader's scale in the direction of their role, with what the rounding
//! took away; given values are shown in full. JSON carries the full figure beside what is shown:
//! lengths in mm to 0.000001 mm, which is what a length is made of. No line of text is wider than
//! 80 columns.

mod answer;
mod command;
mod csv;
mod cutters;
mod drawn;
mod explain;
mod explain_json;
mod figured;
mod json;
mod page;
mod show;
mod told;

pub use answer::{refused, table};
use command::command;
pub use csv::{Row, csv};
pub use cutters::{Proposal, cutters, json_cutters};
pub use explain::{explain, list, typed};
pub use explain_json::{json_explain, json_list};
pub use figured::drawing;
pub(super) use figured::has_figure;
pub use json::{json, json_refused};
pub use page::results_said;
pub(super) use page::{ANSWER, EXAMPLE, TYPED, page};
pub(super) use show::full;
pub use told::{Told, example};
