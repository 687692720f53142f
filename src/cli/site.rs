//! `faceside site`: the shop's knowledge as pages that open from a folder.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

use serde_json::json;

use super::args::{Common, Site};
use super::clock::today;
use super::jobs::{job, sheets};
use super::open::open;
use super::output::Output;
use super::site_examples::Examples;
use super::site_record::Added;
use super::site_watch::watch;
use super::{End, Stop};
use crate::caution::{Operations, Rule};
use crate::cores::both;
use crate::diag::{Fault, Faults, Severity};
use crate::jobs::Sheets;
use crate::joints;
use crate::live::LiveFiles;
use crate::procedure::schema_text;
use crate::render::{
    Built, CautionPage, CautionText, LiveFloor, MachineFacts, NotePage, Sink, SitePages, TermEntry,
    site_into, site_search,
};
use crate::shop::{Machine, ScaleOf, Speeds};
use crate::store::{NewFolder, Stamp, Workshop, entries};
use crate::units::{Length, Scale, Towards, Unit};

/// Day on which the sources of the built-in figures were last gone through.
const CHECKED: &str = "2026-11-25";

/// The procedure that a new shop begins with.
const SAMPLE: &str = include_str!("../../procedures/start/procedures/first-procedure.yaml");

/// Builds the site.
pub(super) fn site(typed: &Site, common: &Common, out: &mut Output) -> Result<End, Stop> {
    let default = || PathBuf::from("out/site");
    let folder = typed.out.clone().unwrap_or_else(default);
    if typed.watch {
        return watch(typed, &folder, common, out);
    }
    let workshop = open(common, out)?;
    let added = Added::of(typed, &workshop, out)?;
    let mut before = Before::default();
    let (count, told) = build(&workshop, &added, &folder, &mut before, || Ok(()))?;
    out.report(told.iter());
    let home = folder.join("index.html");
    out.say(&format!("{count} files: {}", home.display()));
    Ok(End::Done)
}

/// The sheets of the only job, as `print` plans them. One that cannot be printed has no pages, and
/// its faults are told as warnings; the manual stands without it.
fn in_hand(workshop: &Workshop) -> (Option<Sheets>, Faults) {
    let mut told = Faults::new();
    if workshop.jobs.len() != 1 {
        return (None, told);
    }
    match job(None, workshop).and_then(|job| sheets(&job, workshop)) {
        Ok(sheets) => return (Some(sheets), told),
        Err(Stop::Faults(faults)) => told.extend(faults.into_iter().map(|fault| Fault {
            severity: Severity::Warning,
            ..fault
        })),
        Err(Stop::Usage(fault)) => told.push(Fault {
            severity: Severity::Warning,
            ..fault
        }),
    }
    (None, told)
}

/// What was built before, by which the next build is spared what stays the same.
#[derive(Debug, Default)]
pub(super) struct Before {
    built: Built,
    /// The folder as it was put in its place.
    stamp: Option<Stamp>,
}

/// Builds the whole site in its folder, with what is added from the record; gives how many files it
/// has, and what is to be told of the job in hand. What is in the folder from `before` and stays the
/// same is taken over. `go_on` is asked before each file.
pub(super) fn build(
    workshop: &Workshop,
    added: &Added,
    folder: &Path,
    before: &mut Before,
    go_on: impl Fn() -> Result<(), Fault> + Sync,
) -> Result<(usize, Faults), Faults> {
    let mut pages = pages(workshop);
    let (job, told) = in_hand(workshop);
    pages.job = job;
    added.put_on(&mut pages);
    let new = NewFolder::begin(folder, "site")?;
    let sink = Shelf {
        new: &new,
        last: before.stamp.as_ref().filter(|stamp| new.follows(stamp)),
        go_on,
    };
    let entries = entries(workshop);
    let search = || site_search(&pages, (&entries, &workshop.terms), &before.built, &sink);
    let (built, search) = both(|| site_into(&pages, &before.built, &sink), search);
    let built = built?.and(search?);
    let count = built.files();
    *before = Before {
        built,
        stamp: Some(new.put_in_place()?),
    };
    Ok((count, told))
}

/// The folder that is being built.
struct Shelf<'n, G> {
    new: &'n NewFolder,
    /// The folder whose place it takes, when that is the one that was built before; another program
    /// may have built there meanwhile.
    last: Option<&'n Stamp>,
    go_on: G,
}

impl<G: Fn() -> Result<(), Fault> + Sync> Sink for Shelf<'_, G> {
    fn put(&self, path: &str, bytes: Vec<u8>) -> Result<(), Fault> {
        (self.go_on)()?;
        self.new.write(Path::new(path), &bytes)
    }

    fn keep(&self, path: &str) -> Result<bool, Fault> {
        (self.go_on)()?;
        let keep = |last| self.new.keep(Path::new(path), last);
        self.last.map_or(Ok(false), keep)
    }
}

/// What the site says; also what `check` tries.
pub fn pages(workshop: &Workshop) -> SitePages<'_> {
    let examples = Examples::of(workshop);
    let terms = &workshop.terms;
    let shown: BTreeSet<&str> = examples.ids().collect();
    SitePages {
        shop: workshop.shop.name.clone(),
        date: today(),
        checked: CHECKED.to_owned(),
        job: None,
        limits: workshop.limits.clone(),
        left_out: workshop
            .procedures
            .keys()
            .filter(|id| !shown.contains(id.as_str()))
            .cloned()
            .collect(),
        procedures: Box::new(examples),
        machines: workshop
            .machines
            .iter()
            .map(|one| machine(one, workshop.shop.units))
            .collect(),
        cautions: cautions(workshop),
        notes: workshop.notes.values().map(|one| note(one)).collect(),
        terms: terms.terms.iter().map(term).collect(),
        clashes: terms
            .clashes
            .iter()
            .map(|clash| {
                (
                    clash.word.clone(),
                    clash.british.clone(),
                    clash.american.clone(),
                )
            })
            .collect(),
        calculators: joints::ALL.to_vec(),
        about: include_str!("../../procedures/figures.md").to_owned(),
        sample: SAMPLE.to_owned(),
        schema: schema_text(),
        speech: workshop.speech(),
        floor: floor(workshop),
        people: Vec::new(),
        history: BTreeMap::new(),
    }
}

/// What the site's live pages are worked out with.
fn floor(workshop: &Workshop) -> LiveFloor {
    let files = LiveFiles::new(&workshop.floor_files, &workshop.terms_files);
    LiveFloor {
        shop: workshop.shop.clone(),
        machines: workshop.machines.clone(),
        cutters: workshop.cutters.clone(),
        files: json!(files).to_string(),
    }
}

/// What the page of a machine tells of it.
fn machine(one: &Machine, unit: Unit) -> MachineFacts {
    let exactly = |length| Scale::caliper(unit).show(length, Towards::Nearest).text;
    let scale = |of: ScaleOf| {
        let (step, again) = (exactly(of.resolution), exactly(of.repeatability));
        format!("set in steps of {step}; the same setting again comes within {again}")
    };
    let coarse = match unit {
        Unit::Mm => Length::mm(1.0),
        Unit::Inch => Length::inches(0.1),
    };
    let size = |length| Scale::new(unit, coarse).show(length, Towards::Nearest).text;
    let (along, across) = (size(one.table_length), size(one.table_width));
    let facts = [
        ("name", one.name.clone()),
        ("speeds", speeds(&one.speeds)),
        ("height", scale(one.height)),
        ("fence", scale(one.fence)),
        (
            "table",
            format!("{along} along the fence, {across} across it"),
        ),
        ("guards", one.guards.join("; ")),
        ("aids", one.aids.join("; ")),
        ("id", one.id.clone()),
    ];
    let said = facts.into_iter().filter(|(_, value)| !value.is_empty());
    MachineFacts {
        id: one.id.clone(),
        kind: one.kind.clone(),
        name: one.name.clone(),
        facts: said.map(|(name, value)| (name.to_owned(), value)).collect(),
    }
}

fn speeds(all: &Speeds) -> String {
    match all {
        Speeds::Steps(steps) => {
            let steps = steps.iter().map(|step| format!("{:.0}", step.to_rpm()));
            match steps.collect::<Vec<_>>().as_slice() {
                [] => String::new(),
                steps => format!("{} rpm", steps.join(", ")),
            }
        }
        Speeds::Range { from, to } => {
            format!("any from {:.0} to {:.0} rpm", from.to_rpm(), to.to_rpm())
        }
    }
}

fn cautions(workshop: &Workshop) -> Vec<CautionPage> {
    let mut pages: Vec<CautionPage> = Vec::new();
    for rule in workshop.book.rules_here() {
        match pages.iter_mut().find(|page| page.machine == rule.machine) {
            Some(page) => page.rules.push(caution(rule)),
            None => pages.push(CautionPage {
                machine: rule.machine.clone(),
                rules: vec![caution(rule)],
            }),
        }
    }
    pages
}

fn caution(rule: &Rule) -> CautionText {
    CautionText {
        id: rule.id.clone(),
        signal: rule.signal,
        stands: rule.stands,
        operations: match &rule.operations {
            Operations::Every => vec!["every".to_owned()],
            Operations::These(list) => list.clone(),
        },
        when: rule.when_text().unwrap_or("").to_owned(),
        says: [rule.hazard.clone(), rule.harm.clone(), rule.avoid.clone()],
        sources: rule.cited().into_iter().map(|cited| cited.text).collect(),
    }
}

fn note(note: &crate::search::Note) -> NotePage {
    NotePage {
        id: note.id.clone(),
        title: note.title.clone(),
        about: note.about.clone(),
        markdown: note.body.clone(),
    }
}

fn term(term: &crate::search::Term) -> TermEntry {
    TermEntry {
        term: term.term.clone(),
        also: term.also.clone(),
        american: term.american.clone().unwrap_or_default(),
        shown: term.shown,
        means: term.means.clone(),
        source: term.source.clone(),
    }
}
