//! The shop's files as they are handed to a page: texts by what they hold.

use std::sync::Arc;

use serde::{Deserialize, Serialize};

use crate::diag::Source;
use crate::procedure::FloorFiles;

/// Texts in the order in which they are read.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct LiveFiles {
    shop: Vec<String>,
    machines: Vec<String>,
    cutters: Vec<String>,
    cautions: Vec<String>,
    routines: Vec<String>,
    terms: Vec<String>,
}

impl LiveFiles {
    /// The texts of a shop's files.
    pub fn new(floor: &FloorFiles, terms: &[Arc<Source>]) -> Self {
        let texts = |sources: &[Arc<Source>]| sources.iter().map(|one| one.text.clone()).collect();
        Self {
            shop: texts(&floor.shop),
            machines: texts(&floor.machines),
            cutters: texts(&floor.cutters),
            cautions: texts(&floor.cautions),
            routines: texts(&floor.routines),
            terms: texts(terms),
        }
    }

    /// The files again, without the names that they had.
    pub(super) fn floor(&self) -> FloorFiles {
        FloorFiles {
            shop: sources(&self.shop),
            machines: sources(&self.machines),
            cutters: sources(&self.cutters),
            cautions: sources(&self.cautions),
            routines: sources(&self.routines),
        }
    }

    /// The files of words.
    pub(super) fn terms(&self) -> Vec<Arc<Source>> {
        sources(&self.terms)
    }
}

fn sources(texts: &[String]) -> Vec<Arc<Source>> {
    let texts = texts.iter();
    texts.map(|text| Source::new("the shop", text)).collect()
}
