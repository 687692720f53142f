//! One page at work: the shop, what the page is about, and an answer for each set of texts.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use super::LiveFiles;
use crate::caution::Book;
use crate::diag::{Fault, Faults, Source, Span};
use crate::joints::{self, Calculator};
use crate::procedure::{Filled, Floor, Given, Procedure, Workplace, example, fill, load};
use crate::render::LiveWriter;
use crate::render::worked::{self, Told};
use crate::search::{Speech, Terms};
use crate::shop::{Cutter, Machine, Shop};
use crate::units::Unit;

/// So many settings or results are said aloud.
const MOST_SAID: usize = 4;

/// What is typed stands in sources of this name and the field's.
const TYPED: &str = "typed: ";

/// Links to parts of the page: words, address, remark.
type Links = Vec<(String, String, String)>;

/// What a page is about, as it says itself.
#[derive(Deserialize)]
#[serde(untagged)]
pub(super) enum About {
    /// A calculator, by its name.
    Calculator { calculator: String },
    /// A procedure as written, and the links before and after what follows from its values.
    Procedure {
        procedure: String,
        around: [Links; 2],
    },
}

/// An open page.
pub struct Bench {
    shop: Shop,
    machines: Vec<Machine>,
    cutters: Vec<Cutter>,
    book: Book,
    speech: Speech,
    writer: LiveWriter,
    page: Page,
}

enum Page {
    Figure(&'static Calculator),
    Procedure(Box<Procedure>, [Links; 2]),
}

/// What the page puts in the place of what it shows.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Reply {
    /// Name of a part, and its HTML.
    parts: Vec<(&'static str, String)>,
    /// The same in a line, to be read aloud.
    said: String,
    /// What is wrong with a field, by its name.
    faults: BTreeMap<String, String>,
}

impl Bench {
    /// Reads the shop and what the page is about; `units` is `mm` or `in`.
    pub(super) fn open(files: &LiveFiles, about: About, units: &str) -> Result<Self, String> {
        let unit = match units {
            "mm" => Unit::Mm,
            "in" => Unit::Inch,
            other => return Err(format!("`{other}` is no unit of a page")),
        };
        let (floor, faults, _) = Floor::read(&files.floor(), Some(unit));
        if faults.any_error() {
            return Err(first(&faults));
        }
        let shop = floor.shop.ok_or("the shop has no habits")?;
        let mut terms = Terms::default();
        for source in files.terms() {
            terms.overlay(Terms::read(&source).0);
        }
        let page = match about {
            About::Calculator { calculator } => {
                let known = joints::find(&calculator);
                Page::Figure(known.ok_or(format!("no calculator is called `{calculator}`"))?)
            }
            About::Procedure { procedure, around } => {
                let source = Source::new("this procedure", procedure);
                let (procedure, faults) = load(&source, &floor.routines);
                let procedure = procedure.ok_or_else(|| first(&faults))?;
                Page::Procedure(Box::new(procedure), around)
            }
        };
        Ok(Self {
            speech: Speech::of(shop.region, &terms),
            book: floor.book.with_jurisdiction(shop.jurisdiction),
            shop,
            machines: floor.machines,
            cutters: floor.cutters,
            writer: LiveWriter::new().map_err(|fault| fault.message)?,
            page,
        })
    }

    /// Works out the texts by field.
    pub(super) fn work(&self, texts: &BTreeMap<String, String>) -> Result<Reply, String> {
        let reply = match &self.page {
            Page::Figure(calculator) => self.figure(calculator, texts),
            Page::Procedure(procedure, around) => self.procedure(procedure, around, texts),
        };
        reply.map_err(|fault| fault.message)
    }

    fn place(&self) -> Workplace<'_> {
        Workplace {
            shop: &self.shop,
            machines: &self.machines,
            cutters: &self.cutters,
            book: &self.book,
        }
    }

    fn figure(
        &self,
        calculator: &'static Calculator,
        texts: &BTreeMap<String, String>,
    ) -> Result<Reply, Fault> {
        let shop = (&self.shop, &self.machines[..], &self.cutters[..]);
        let told = Told::of(calculator, texts, shop);
        let scale = self.shop.scale();
        let is_example = typed(texts) == typed(&worked::example(calculator));
        let said = match &told {
            Told::Worked(worked) => some(&worked::results_said(calculator, &worked.0, scale)),
            Told::Refused(refusal) => format!("Refused: {}", refusal.what),
            Told::Amiss(faults) => {
                let messages = faults.iter().map(|(_, fault)| fault.message.as_str());
                messages.collect::<Vec<_>>().join("; ")
            }
        };
        let faults = match &told {
            Told::Amiss(faults) => faults
                .iter()
                .filter_map(|(name, fault)| Some(((*name)?.to_owned(), in_a_line(fault))))
                .collect(),
            _ => BTreeMap::new(),
        };
        let parts = self.writer.figure(calculator, &told, scale, is_example)?;
        Ok(Reply {
            parts,
            said,
            faults,
        })
    }

    fn procedure(
        &self,
        procedure: &Procedure,
        around: &[Links; 2],
        texts: &BTreeMap<String, String>,
    ) -> Result<Reply, Fault> {
        let place = self.place();
        let given = given(procedure, texts);
        let own = example(procedure, place);
        let is_example = values(&given) == values(&own);
        // The same example as the page was built with, its name in what is refused too.
        let filled = fill(procedure, place, if is_example { &own } else { &given });
        let (said, faults) = match &filled {
            Ok(filled) => (some(&settings(filled)), BTreeMap::new()),
            Err(faults) => (format!("Refused: {}", first(faults)), of_fields(faults)),
        };
        let (around, speech) = (around.clone(), &self.speech);
        let parts = self
            .writer
            .procedure(filled.as_ref(), around, speech, is_example)?;
        Ok(Reply {
            parts,
            said: speech.say(&said).into_owned(),
            faults,
        })
    }
}

/// The texts that say something.
fn typed(texts: &BTreeMap<String, String>) -> BTreeMap<&str, &str> {
    let texts = texts
        .iter()
        .map(|(name, text)| (name.as_str(), text.trim()));
    texts.filter(|(_, text)| !text.is_empty()).collect()
}

/// A part as the fields of the page describe it.
fn given(procedure: &Procedure, texts: &BTreeMap<String, String>) -> Given {
    let texts = typed(texts);
    let of = |name: &String| {
        let text = (*texts.get(name.as_str())?).to_owned();
        let source = Source::new(format!("{TYPED}{name}"), text.clone());
        Some((name.clone(), (text, Span::whole(&source))))
    };
    let measures = procedure.measures.iter().map(|one| &one.name);
    let choices = procedure.choices.iter().map(|one| &one.name);
    Given {
        part: "this part".to_owned(),
        place: Span::whole(&Source::new("this page", "")),
        measured: measures.filter_map(of).collect(),
        chosen: choices.filter_map(of).collect(),
        names: BTreeMap::new(),
    }
}

/// The texts of a part by name.
fn values(given: &Given) -> Vec<(&str, &str)> {
    let all = given.measured.iter().chain(&given.chosen);
    all.map(|(name, (text, _))| (name.as_str(), text.as_str()))
        .collect()
}

/// What each machine is set to.
fn settings(filled: &Filled) -> Vec<String> {
    let settings = filled.set_ups.iter().flat_map(|one| &one.settings);
    settings
        .map(|one| format!("{} {}", one.label, one.shown))
        .collect()
}

/// The first few, and how many more there are.
fn some(all: &[String]) -> String {
    let said = all[..all.len().min(MOST_SAID)].join("; ");
    match all.len().saturating_sub(MOST_SAID) {
        0 => format!("Worked out: {said}"),
        more => format!("Worked out: {said}; and {more} more below"),
    }
}

fn first(faults: &Faults) -> String {
    let mut errors = faults.iter();
    errors
        .next()
        .map(|fault| fault.message.clone())
        .unwrap_or_default()
}

fn in_a_line(fault: &Fault) -> String {
    let hints = fault.hints.iter().map(String::as_str);
    let parts: Vec<_> = std::iter::once(fault.message.as_str())
        .chain(hints)
        .collect();
    parts.join("; ")
}

fn of_fields(faults: &Faults) -> BTreeMap<String, String> {
    let of_field = |fault: &Fault| {
        let name = fault.span.as_ref()?.source().name.strip_prefix(TYPED)?;
        Some((name.to_owned(), in_a_line(fault)))
    };
    faults.iter().filter_map(of_field).collect()
}
