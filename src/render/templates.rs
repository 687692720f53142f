//! The page templates of `site/templates`, built into the program.
//!
//! Every template ends in `.html` and escapes what it prints; only what a writer of ours has made
//! is marked safe. Styles are plain files, put into a page or beside it.

use tera::{Context, Kwargs, State, Tera};

use super::inert;
use super::whole::whole;
use crate::diag::{Code, Fault};

/// The one style sheet, for screen and paper: its type, then its look.
#[cfg(feature = "program")]
pub(super) const STYLE: &str = concat!(
    include_str!("../../site/static/type.css"),
    include_str!("../../site/static/manual.css")
);

/// The script that searches the site.
#[cfg(feature = "program")]
pub(super) const SEARCH: &str = include_str!("../../site/static/search.js");

/// The script that works a page out anew.
#[cfg(feature = "program")]
pub(super) const LIVE: &str = include_str!("../../site/static/live.js");

/// The module that it does this with, made by `.ci/live` and packed by gzip.
#[cfg(feature = "program")]
pub(super) const MODULE: &[u8] = include_bytes!("../../site/static/live.wasm.gz");

const FILES: [(&str, &str); 4] = [
    (
        "pictogram.html",
        include_str!("../../site/templates/pictogram.html"),
    ),
    (
        "block.html",
        include_str!("../../site/templates/block.html"),
    ),
    ("page.html", include_str!("../../site/templates/page.html")),
    (
        "sheets.html",
        include_str!("../../site/templates/sheets.html"),
    ),
];

/// The templates, read and checked.
pub(super) struct Templates(Tera);

impl Templates {
    /// Reads the built-in templates.
    pub(super) fn new() -> Result<Self, Fault> {
        let mut tera = Tera::default();
        tera.autoescape_on([".html"]);
        tera.set_escape_fn(inert::escape);
        tera.register_filter("whole", |text: &str, _: Kwargs, _: &State<'_>| {
            whole(text).into_owned()
        });
        tera.add_raw_templates(FILES)
            .map_err(|error| fault(&error))?;
        Ok(Self(tera))
    }

    /// Fills one.
    pub(super) fn fill(&self, name: &str, context: &Context) -> Result<String, Fault> {
        self.0.render(name, context).map_err(|error| fault(&error))
    }
}

fn fault(error: &tera::Error) -> Fault {
    Fault::error(Code::TEMPLATE, error.to_string()).hint("mend the template in `site/templates`")
}
