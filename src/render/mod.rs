//! Model to text: blocks, then one writer a medium.
//!
//! Builders turn the model into lists of blocks ([`block`]); writers turn blocks into HTML or plain
//! text and know nothing of each other. What acts on its surroundings (markup, terminal controls,
//! marks that turn the direction of writing) is made inert in every medium.

#[cfg(feature = "program")]
mod about;
pub mod block;
#[cfg(feature = "program")]
mod built;
#[cfg(feature = "program")]
mod checklist;
#[cfg(feature = "program")]
mod digits;
pub mod figure;
mod form;
mod html;
mod inert;
#[cfg(feature = "program")]
mod json;
mod layout;
#[cfg(feature = "program")]
mod lesson;
#[cfg(feature = "program")]
mod lesson_screen;
#[cfg(feature = "program")]
mod listed;
#[cfg(feature = "program")]
mod lists;
mod live;
#[cfg(feature = "program")]
mod machine;
#[cfg(feature = "program")]
mod markdown;
mod pages;
#[cfg(feature = "program")]
mod paper;
#[cfg(feature = "program")]
mod places;
mod procedure_page;
#[cfg(feature = "program")]
mod screen;
mod set_up;
#[cfg(feature = "program")]
mod sheet;
#[cfg(feature = "program")]
mod site;
#[cfg(feature = "program")]
mod site_search;
mod speech;
#[cfg(feature = "program")]
mod split;
mod templates;
#[cfg(feature = "program")]
mod terminal;
mod whole;
#[cfg(feature = "program")]
mod woods;
#[cfg(feature = "program")]
mod work_sheet;
pub mod worked;
#[cfg(feature = "program")]
mod writing;

#[cfg(feature = "program")]
pub use built::{Built, Sink};
#[cfg(feature = "program")]
pub use checklist::checklist_html;
pub use form::procedure_fields;
#[cfg(feature = "program")]
pub use inert::{json_text, terminal_text};
#[cfg(feature = "program")]
pub use json::sheets_json;
#[cfg(feature = "program")]
pub use lesson::{lesson_html, timetable_blocks, timetable_html};
#[cfg(feature = "program")]
pub use lesson_screen::{LEAST_SCREEN, LessonScreen, LessonView, Look, lesson_screen};
pub use live::LiveWriter;
pub use pages::{
    CautionPage, CautionText, Head, LiveFloor, MachineFacts, NotePage, ProcedurePage, Procedures,
    SitePages, TermEntry,
};
#[cfg(feature = "program")]
pub use site::{fill_procedures, site, site_into};
#[cfg(feature = "program")]
pub use site_search::site_search;
#[cfg(feature = "program")]
pub use terminal::checklist_text;
