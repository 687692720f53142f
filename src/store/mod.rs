//! The only file access: finds, reads, writes whole or not at all.
//!
//! [`find_shop`] looks for the shop folder, [`Files::read`] reads the built-in library and the
//! shop's own files by [`Role`]; [`write_whole`], [`NewFolder`] and [`append_line`] write so
//! that a kill at any moment leaves the old or the new, never a mixture.

mod append;
mod entries;
mod files;
mod find;
mod folder;
mod known;
mod last_print;
mod links;
mod own;
mod record;
mod request;
mod save;
mod serve;
mod served;
mod single;
mod start;
mod watch;
mod workshop;

pub use append::{append_event, append_line};
pub use entries::entries;
pub use files::{File, Files, Role};
pub use find::find_shop;
pub use folder::{NewFolder, Page, Stamp, replace_folder};
pub use known::Known;
pub use last_print::{last_print, leave_print, printed};
pub use record::{RECORD_FOLDER, record_file, write_down};
pub use save::write_whole;
pub use serve::Server;
pub use single::read_file;
pub use start::start_shop;
pub use watch::Watch;
pub use workshop::Workshop;
