//! Model to text: blocks, then one writer a medium.
//!
//! Builders turn the model into lists of blocks ([`block`]); writers turn blocks into HTML or plain
//! text and know nothing of each other. What acts on its surroundings (markup, terminal controls,
//! marks that turn the direction of writing) is made inert in every medium.

pub mod block;
mod checklist;
pub mod figure;
mod html;
mod inert;
mod json;
mod layout;
mod lists;
mod machine;
mod markdown;
mod pages;
mod places;
mod set_up;
mod sheet;
mod site;
mod site_search;
mod speech;
mod templates;
mod terminal;
mod woods;
pub mod worked;
mod writing;

pub use checklist::checklist_html;
pub use json::sheets_json;
pub use pages::{
    CautionPage, CautionText, MachineFacts, NotePage, ProcedurePage, SitePages, TermEntry,
};
pub use site::{procedure_contexts, site, site_into};
pub use site_search::site_search;
pub use terminal::checklist_text;
