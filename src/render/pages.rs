//! What the pages of the site say: procedures, cautions, words, calculators, as blocks.
//!
//! The caller gathers [`SitePages`] from the shop; [`super::site()`] lays them out as files. A
//! procedure page shows its set-ups filled with the procedure's worked example, with the same
//! blocks as a printed checklist, reasons included.

use std::borrow::Cow;
use std::collections::BTreeMap;

use super::block::{Block, Entry, Field, Row, heading, section, words};
use super::form;
use super::worked::{self, Told};
use crate::caution::{Limits, SignalWord, Stands};
use crate::diag::Faults;
use crate::joints::{Absent, Calculator};
use crate::search::Speech;
use crate::shop::{Cutter, Machine, Shop};

/// Where the pages of procedures come from: each is made in its turn and let go of, so that a great
/// library needs no more memory for them than a small one.
pub trait Procedures: Sync {
    /// Those that have a page, in the order in which they are listed.
    fn heads(&self) -> Vec<Head>;

    /// What one of them says, with its worked example.
    ///
    /// # Errors
    /// What keeps it from being filled.
    fn page(&self, at: usize) -> Result<Cow<'_, ProcedurePage>, Faults>;

    /// Tells what one of them is made from, besides what all share, from anything else that it was
    /// made from before: a page that would come out the same is not made again. None when that
    /// cannot be told.
    fn made_from(&self, at: usize) -> Option<u64>;
}

/// What is known of a procedure before it is filled.
#[derive(Debug, Clone)]
pub struct Head {
    /// Its id.
    pub id: String,
    /// Its title.
    pub title: String,
    /// Ids of procedures that an apprentice learns first.
    pub after: Vec<String>,
}

/// Everything that the site is made of.
pub struct SitePages<'p> {
    /// Name of the shop.
    pub shop: String,
    /// Day of building, `YYYY-MM-DD`.
    pub date: String,
    /// Day on which the figures' sources were last checked.
    pub checked: String,
    /// What a sheet is and is not.
    pub limits: Limits,
    /// Procedures.
    pub procedures: Box<dyn Procedures + 'p>,
    /// Ids of procedures without a page, since the shop lacks a machine for them.
    pub left_out: Vec<String>,
    /// The job that is being worked on, as it would be printed.
    #[cfg(feature = "program")]
    pub job: Option<crate::jobs::Sheets>,
    /// The shop's machines.
    pub machines: Vec<MachineFacts>,
    /// Cautions by machine.
    pub cautions: Vec<CautionPage>,
    /// Notes.
    pub notes: Vec<NotePage>,
    /// Words of the trade.
    pub terms: Vec<TermEntry>,
    /// Words that mean different things on the two sides: word, British, American.
    pub clashes: Vec<(String, String, String)>,
    /// Calculators.
    pub calculators: Vec<&'static Calculator>,
    /// Where the figures come from, as Markdown.
    pub about: String,
    /// A procedure file that shows how one is written.
    pub sample: String,
    /// The schema of a procedure file.
    pub schema: String,
    /// The words of the shop's region.
    pub speech: Speech,
    /// What the calculators' pages are worked out with.
    pub floor: LiveFloor,
    /// Who may do what; empty unless it was asked for.
    pub people: Vec<Block>,
    /// How each procedure was last cut here, in lines, by its id; empty unless it was asked for.
    pub history: BTreeMap<String, Vec<String>>,
}

/// The shop as its live pages need it.
#[derive(Debug, Clone)]
pub struct LiveFloor {
    /// Its habits.
    pub shop: Shop,
    /// Its machines.
    pub machines: Vec<Machine>,
    /// Its cutters.
    pub cutters: Vec<Cutter>,
    /// The same as the module reads it: a JSON text.
    pub files: String,
}

/// A procedure with its worked example.
#[derive(Debug, Clone)]
pub struct ProcedurePage {
    /// Group that it is listed under: `housings`.
    pub family: String,
    /// Other names.
    pub also_called: Vec<String>,
    /// When to use it.
    pub use_when: String,
    /// What it is not for.
    pub not_for: Vec<String>,
    /// Ids of procedures that an apprentice learns first.
    pub after: Vec<String>,
    /// Where its content comes from.
    pub sources: Vec<String>,
    /// The procedure, filled with its example values.
    pub example: crate::procedure::Filled,
    /// What can be typed into its page.
    pub fields: Vec<Field>,
    /// Its file as written.
    pub yaml: String,
}

/// A machine of the shop, as its page tells of it.
#[derive(Debug, Clone)]
pub struct MachineFacts {
    /// Its id.
    pub id: String,
    /// Kind, as cautions name it: `router-table`.
    pub kind: String,
    /// Its name in texts.
    pub name: String,
    /// What is to be known of it: name and value, lengths in the shop's unit.
    pub facts: Vec<(String, String)>,
}

/// The cautions of one machine.
#[derive(Debug, Clone)]
pub struct CautionPage {
    /// Kind of machine: `router-table`; names the page.
    pub machine: String,
    /// Its rules.
    pub rules: Vec<CautionText>,
}

/// One caution as a rule.
#[derive(Debug, Clone)]
pub struct CautionText {
    /// Its id.
    pub id: String,
    /// Signal word.
    pub signal: SignalWord,
    /// Where it stands.
    pub stands: Stands,
    /// Operations that it holds for: `every`, or their names.
    pub operations: Vec<String>,
    /// Condition as written; empty when it holds always.
    pub when: String,
    /// Hazard, harm, how to avoid it.
    pub says: [String; 3],
    /// Sources as printed, with their status.
    pub sources: Vec<String>,
}

/// A note.
#[derive(Debug, Clone)]
pub struct NotePage {
    /// Its id; names the page.
    pub id: String,
    /// Its title.
    pub title: String,
    /// Procedures and calculators that it bears on.
    pub about: Vec<String>,
    /// Its text.
    pub markdown: String,
}

/// A word of the trade.
#[derive(Debug, Clone)]
pub struct TermEntry {
    /// The word.
    pub term: String,
    /// Others for the same.
    pub also: Vec<String>,
    /// The American word; empty when it is the same.
    pub american: String,
    /// Whether an American shop reads that word in place of the term.
    pub shown: bool,
    /// What it means.
    pub means: String,
    /// Where that comes from.
    pub source: String,
}

impl Procedures for Vec<ProcedurePage> {
    fn heads(&self) -> Vec<Head> {
        let head = |one: &ProcedurePage| Head {
            id: one.example.procedure.clone(),
            title: one.example.title.clone(),
            after: one.after.clone(),
        };
        self.iter().map(head).collect()
    }

    fn page(&self, at: usize) -> Result<Cow<'_, ProcedurePage>, Faults> {
        Ok(Cow::Borrowed(&self[at]))
    }

    fn made_from(&self, _: usize) -> Option<u64> {
        None
    }
}

/// What the lines on how a joint was last cut here are headed.
pub(super) const LAST_CUT: &str = "Last cut here";

/// Links to other pages: words, address, remark.
pub(super) type Links = Vec<(String, String, String)>;

/// The headings that links can lead to, as the list of what a page holds.
pub(super) fn contents(blocks: &[Block], remark: impl Fn(&str) -> String) -> Links {
    let rows = blocks.iter().filter_map(|block| match block {
        Block::Heading { text, id } if !id.is_empty() => {
            Some((text.clone(), format!("#{id}"), remark(id)))
        }
        _ => None,
    });
    rows.collect()
}

pub(super) fn links(blocks: &mut Vec<Block>, (name, id): (&str, &str), rows: Links) {
    if !rows.is_empty() {
        blocks.push(section(name, id));
        blocks.push(Block::Links { rows });
    }
}

pub(super) fn listed(blocks: &mut Vec<Block>, (name, id): (&str, &str), items: &[String]) {
    if !items.is_empty() {
        blocks.push(section(name, id));
        let items = items.iter().map(words).collect();
        blocks.push(Block::Bullets { items });
    }
}

/// The page of words; in an American shop the words that it reads come first.
pub(super) fn terms(pages: &SitePages) -> Vec<Block> {
    let speech = &pages.speech;
    let other = if speech.changes() {
        "elsewhere"
    } else {
        "American"
    };
    let rows = pages.terms.iter().map(|entry| {
        let (mut word, mut far) = (&entry.term, &entry.american);
        if speech.changes() && entry.shown {
            std::mem::swap(&mut word, &mut far);
        }
        let facts = [
            (other, far.clone()),
            ("also", entry.also.join(", ")),
            ("source", entry.source.clone()),
        ];
        let said = facts.into_iter().filter(|(_, value)| !value.is_empty());
        Entry {
            word: word.clone(),
            means: speech.say(&entry.means).into_owned(),
            facts: said.map(|(name, value)| (name.to_owned(), value)).collect(),
        }
    });
    let mut blocks = vec![Block::Entries {
        rows: rows.collect(),
    }];
    if !pages.clashes.is_empty() {
        blocks.push(section("One word, two things", "clashes"));
        let rows = pages.clashes.iter();
        let rows = rows
            .map(|(word, british, american)| vec![word.clone(), british.clone(), american.clone()]);
        blocks.push(table(&["word", "British", "American"], rows.collect()));
    }
    blocks
}

/// A calculator's page, worked out with its example; `used` holds the procedures that call it.
pub(super) fn calculator(one: &'static Calculator, used: Links, floor: &LiveFloor) -> Vec<Block> {
    let shop = (
        &floor.shop,
        floor.machines.as_slice(),
        floor.cutters.as_slice(),
    );
    let example = Told::of(one, &worked::example(one), shop);
    let answer = worked::page(one, &example, floor.shop.scale(), worked::EXAMPLE);
    let inputs = one.inputs.iter().map(|input| {
        let absent = match input.absent {
            Absent::Required => "must be given".to_owned(),
            Absent::Usual(usual) => format!("usual: {usual}"),
            Absent::Derived(how) => how.to_owned(),
        };
        vec![
            input.name.to_owned(),
            input.letter.to_owned(),
            input.meaning.to_owned(),
            input.range_words(),
            absent,
        ]
    });
    let results = one.results.iter().map(|output| {
        vec![
            output.name.to_owned(),
            output.letter.to_owned(),
            output.meaning.to_owned(),
            output.role.words().to_owned(),
        ]
    });
    let in_head = ["input", "letter", "what it is", "range", "when not given"];
    let out_head = ["result", "letter", "what it is", "as set"];
    let mut blocks = vec![Block::Para {
        text: words(one.summary),
    }];
    let sketch = Block::Sketch {
        text: one.sketch.to_owned(),
    };
    // A figure stands with the values that it follows; the sketch then explains the tables' letters.
    let (first, later) = match worked::has_figure(one) {
        true => (None, Some([heading("Sketch"), sketch])),
        false => (Some(sketch), None),
    };
    blocks.extend(first);
    blocks.extend([
        form::of_calculator(one, floor),
        Block::Live {
            id: worked::ANSWER.to_owned(),
            blocks: answer,
        },
        heading("What it takes"),
        table(&in_head, inputs.collect()),
    ]);
    let sets: Vec<_> = one.one_of.iter().map(|set| set.join(" and ")).collect();
    blocks.extend(bullets("Give one of", &sets));
    for input in one.inputs.iter().filter(|input| input.has_many_options()) {
        blocks.push(heading(&format!("Words for {}", input.name)));
        blocks.push(Block::Para {
            text: words(input.options().join(", ")),
        });
    }
    blocks.push(heading("What it gives"));
    blocks.push(table(&out_head, results.collect()));
    blocks.extend(later.into_iter().flatten());
    let owned = |texts: &[&str]| texts.iter().map(|text| (*text).to_owned()).collect();
    let (refuses, warns): (Vec<_>, Vec<_>) = (owned(one.refuses), owned(one.warns));
    blocks.extend(bullets("What it refuses", &refuses));
    blocks.extend(bullets("What it warns of", &warns));
    blocks.push(heading("Example"));
    blocks.push(Block::Sketch {
        text: worked::typed(one),
    });
    blocks.push(heading("Source"));
    blocks.push(Block::Para {
        text: words(one.source),
    });
    links(&mut blocks, ("Procedures that use it", "procedures"), used);
    blocks
}

/// A table of plain cells.
pub(super) fn table(head: &[&str], rows: Vec<Vec<String>>) -> Block {
    Block::Table {
        head: head.iter().map(|cell| (*cell).to_owned()).collect(),
        rows: rows
            .into_iter()
            .map(|cells| Row {
                cells,
                marked: false,
            })
            .collect(),
        numbers: vec![false; head.len()],
    }
}

/// Names with values, those that say nothing left out.
pub(super) fn facts(rows: &[(&str, String)]) -> Block {
    let said = rows.iter().filter(|(_, value)| !value.is_empty());
    Block::Facts {
        rows: said
            .map(|(name, value)| ((*name).to_owned(), value.clone()))
            .collect(),
    }
}

/// A heading and its list; nothing when the list is empty.
pub(super) fn bullets(title: &str, items: &[String]) -> Vec<Block> {
    if items.is_empty() {
        return Vec::new();
    }
    let items = items.iter().map(words).collect();
    vec![heading(title), Block::Bullets { items }]
}
